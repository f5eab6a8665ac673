/* test_warn.c - each rule that warns speaks of a book in which it should, once
 * or as often as it should, and is quiet in one in which all is well. */
#include "support.h"

#include "book/book.h"
#include "work/shelf.h"
#include "work/warn.h"
#include "work/watch.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const int64_t now = 1772352000; /* 2026-03-01T08:00:00Z */

struct yard {
	char path[64];
	struct desk desk;
	struct book_material cement, water;
	struct book_mix plain, light;
	struct book_trial trial;
	struct book_generator generator;
};

#define SOME(value)           \
	(struct maybe)        \
	{                     \
		true, (value) \
	}
#define PUT(what, row) \
	assert_ok(book_put_##what(y->desk.book, (row), &f->err), &f->err)

static void
put_mix(struct fixture *f, struct yard *y, struct book_mix *mix)
{
	struct book_mix_part part = {.row = {.typed = ""}};

	mix->name = mix->why = mix->reinforcement = mix->row.typed = "";
	mix->matrix_code = mix->code;
	PUT(mix, mix);
	part.mix_id = mix->row.id;
	part.material_id = y->cement.row.id;
	part.mass_kg_per_m3 = 456;
	PUT(mix_part, &part);
	part = (struct book_mix_part){.row = {.typed = ""},
		.mix_id = mix->row.id,
		.material_id = y->water.row.id,
		.mass_kg_per_m3 = 219};
	PUT(mix_part, &part);
}

static void
put_materials(struct fixture *f, struct yard *y)
{
	y->cement = (struct book_material){.row = {.typed = ""},
		.code = "cement",
		.name = "",
		.role = "cement",
		.note = "",
		.particle_density_kg_m3 = SOME(3150)};
	y->water = (struct book_material){.row = {.typed = ""},
		.code = "water",
		.name = "",
		.role = "water",
		.note = "",
		.particle_density_kg_m3 = SOME(1000)};
	PUT(material, &y->cement);
	PUT(material, &y->water);
}

static void
open_yard(struct fixture *f, struct yard *y)
{
	int fd;

	*y = (struct yard){.desk = {.now_utc_s = now, .who = "tester"}};
	(void)snprintf(y->path, sizeof y->path, "warn-test-XXXXXX");
	fd = mkstemp(y->path);
	assert_true(fd >= 0);
	(void)close(fd);
	(void)unlink(y->path);
	assert_ok(work_new(y->path, "yard", "", &y->desk, &f->err), &f->err);
	assert_ok(work_open(y->path, true, &y->desk, &f->err), &f->err);
	assert_ok(book_begin(y->desk.book, now, "t", "test", NULL, &f->err),
		&f->err);
	put_materials(f, y);
	y->plain = (struct book_mix){.code = "P",
		.wet_target_kg_m3 = SOME(720),
		.foam_target_kg_m3 = SOME(70),
		.foam_m3_per_m3 = SOME(0.636),
		.blending_target_s = SOME(90)};
	y->light = (struct book_mix){.code = "S",
		.wet_target_kg_m3 = SOME(780),
		.foam_target_kg_m3 = SOME(70),
		.foam_m3_per_m3 = SOME(0.6)};
	put_mix(f, y, &y->plain);
	put_mix(f, y, &y->light);
	y->trial = (struct book_trial){.row = {.typed = ""},
		.code = "T",
		.question = "",
		.baseline_mix_id = y->plain.row.id};
	PUT(trial, &y->trial);
	y->generator = (struct book_generator){.row = {.typed = ""},
		.code = "G",
		.metering = "volume",
		.note = "",
		.target_kg_m3 = 70,
		.vessel_m3 = 0.01,
		.vessel_kg = 0.6,
		.scale_step_kg = 0.005};
	PUT(generator, &y->generator);
}

static struct book_batch
plain_batch(const struct yard *y, const char *code, double day)
{
	return (struct book_batch){.row = {.typed = ""},
		.code = code,
		.trial_id = y->trial.row.id,
		.mix_id = y->plain.row.id,
		.made_on = "2026-02-10",
		.remark = "",
		.day = SOME(day),
		.wet_kg_m3 = SOME(721),
		.foam_start_kg_m3 = SOME(70),
		.foam_end_kg_m3 = SOME(71),
		.generator_id = y->generator.row.id};
}

/* Two mixes, each on two days, nothing wrong. */
static void
put_good_batches(struct fixture *f, struct yard *y)
{
	static const char *const code[] = {"1", "2", "3", "4"};

	for (int i = 0; i < 4; i++) {
		struct book_batch b = plain_batch(y, code[i], i < 2 ? 1 : 2);

		if (i % 2 == 1) {
			b.mix_id = y->light.row.id;
			b.wet_kg_m3 = SOME(779);
		}
		PUT(batch, &b);
	}
}

static void
close_yard(struct yard *y)
{
	work_close(&y->desk);
	(void)unlink(y->path);
}

static struct work_warned
look(struct fixture *f, struct yard *y)
{
	struct work_warned got;

	assert_ok(book_commit(y->desk.book, "", NULL, &f->err), &f->err);
	assert_ok(work_warn(&y->desk, f->a, &got, &f->err), &f->err);
	return got;
}

static void
speaks(const struct work_warned *got, enum control_warning_code code, size_t n,
	const char *part)
{
	const struct work_rule_told *t = &got->rule[code];

	if (t->n_fired != n)
		fail_msg("%s spoke %zu times, not %zu", t->w.rule->code,
			t->n_fired, n);
	if (n == 0)
		return;
	assert_has(t->fired[0].sentence, part);
	assert_has(t->fired[0].sentence, t->w.rule->basis);
}

static void
warn__is_quiet_where_all_is_well(void **state)
{
	struct fixture *f = *state;
	struct work_warned got;
	struct yard y;

	open_yard(f, &y);
	put_good_batches(f, &y);
	got = look(f, &y);
	for (size_t i = 0; i < CONTROL_WARNING_COUNT; i++)
		if (got.rule[i].n_fired > 0)
			fail_msg("%s: %s", got.rule[i].fired[0].subject,
				got.rule[i].fired[0].sentence);
	assert_int_equal(got.n_on, CONTROL_WARNING_COUNT);
	close_yard(&y);
}

static void
put_part(struct fixture *f, struct yard *y, int64_t batch, int64_t material,
	double kg, const char *lot)
{
	struct book_batch_part part = {.row = {.typed = ""},
		.batch_id = batch,
		.material_id = material,
		.mass_kg = kg,
		.lot = lot};

	PUT(batch_part, &part);
}

static void
put_loss(struct fixture *f, struct yard *y, int64_t batch, double after_s,
	double loss)
{
	struct book_settling row = {.row = {.typed = ""},
		.batch_id = batch,
		.after_s = after_s,
		.loss_ratio = loss};

	PUT(settling, &row);
}

static void
warn__speaks_of_a_batch_gone_wrong(void **state)
{
	struct fixture *f = *state;
	struct work_warned got;
	struct book_batch b;
	struct yard y, *const at = &y;

	open_yard(f, &y);
	put_good_batches(f, &y);
	b = plain_batch(&y, "5", 2);
	b.wet_kg_m3 = SOME(811); /* 12.6 % heavy */
	b.foam_start_kg_m3 = SOME(81);
	b.foam_end_kg_m3 = SOME(88); /* mean 20.7 % off, moved 8.6 % */
	b.slurry_kg_m3 = SOME(1750); /* 1856 is right at 0.48 */
	b.foam_m3 = SOME(0.0318);
	/* (25 + 12 + 0.0318 x 84.5) / 720 / 1.1 = 50.1 L */
	b.volume_m3 = SOME(0.0458);
	b.slurry_degc = SOME(9);
	b.air_degc = SOME(3);
	b.blending_s = SOME(140);
	b.practice = b.practice_set_after = true;
	assert_ok(book_put_batch(at->desk.book, &b, &f->err), &f->err);
	put_part(f, &y, b.row.id, y.cement.row.id, 25, "A");
	put_part(f, &y, b.row.id, y.water.row.id, 12, "");
	put_loss(f, &y, b.row.id, 900, 0);
	put_loss(f, &y, b.row.id, 86400, 0.17);
	b = plain_batch(&y, "6", 2);
	assert_ok(book_put_batch(at->desk.book, &b, &f->err), &f->err);
	put_part(f, &y, b.row.id, y.cement.row.id, 25, "B");
	got = look(f, &y);
	speaks(&got, CONTROL_W1, 2, "84.5 g/L, +21 %");
	speaks(&got, CONTROL_W3, 1, "too much water");
	speaks(&got, CONTROL_W4, 1, "+13 % off the target");
	speaks(&got, CONTROL_W5, 1, "45.8 L where 50.1");
	speaks(&got, CONTROL_W8, 2, "at 9 degC");
	speaks(&got, CONTROL_W9, 1, "17 %: its test pieces are of another");
	speaks(&got, CONTROL_W10, 1, "between 1 and 6 hours");
	speaks(&got, CONTROL_W15, 1, "140 s, 90 are planned");
	speaks(&got, CONTROL_W22, 1, "after its result was known");
	speaks(&got, CONTROL_W26, 1, "lot B from this batch on (before: A)");
	close_yard(&y);
}

static void
warn__speaks_of_foam_not_weighed(void **state)
{
	struct fixture *f = *state;
	struct work_fired_list list = {.n = 0};
	struct book_foam_check check;
	struct work_mixer m;
	struct yard y, *const at = &y;

	open_yard(f, &y);
	put_good_batches(f, &y);
	check = (struct book_foam_check){.row = {.typed = ""},
		.generator_id = y.generator.row.id,
		.code = "F1",
		.read_on = "",
		.remark = "",
		.moment = "start",
		.gross_kg = 1.3,
		.read_at_s = SOME((double)now),
		.batches_before = SOME(2)};
	assert_ok(book_put_foam_check(at->desk.book, &check, &f->err), &f->err);
	assert_ok(book_commit(y.desk.book, "", NULL, &f->err), &f->err);
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	work_warn_foam_due(
		&m, f->a, y.generator.row.id, 4, "", now + 3599, &list);
	assert_int_equal(list.n, 0); /* two batches, less than an hour */
	work_warn_foam_due(
		&m, f->a, y.generator.row.id, 5, "", now + 3599, &list);
	assert_int_equal(list.n, 1);
	assert_has(list.fired[0].sentence, "3 batches");
	work_warn_foam_due(
		&m, f->a, y.generator.row.id, 4, "", now + 3660, &list);
	assert_int_equal(list.n, 2);
	assert_has(list.fired[1].sentence, "61 min ago");
	close_yard(&y);
}

/* Mixes: too light and full of foam; cement bought long ago; the baseline once,
 * a mix once, a mix alone on its day with a water of its own. */
static void
warn__speaks_of_mixes_and_plans(void **state)
{
	struct fixture *f = *state;
	struct work_warned got;
	struct book_material_lot lot;
	struct yard y, *const at = &y;

	open_yard(f, &y);
	y.light = (struct book_mix){.code = "L",
		.wet_target_kg_m3 = SOME(480),
		.foam_target_kg_m3 = SOME(70),
		.foam_m3_per_m3 = SOME(0.77)};
	put_mix(f, &y, &y.light);
	lot = (struct book_material_lot){.row = {.typed = ""},
		.material_id = y.cement.row.id,
		.code = "A",
		.bought_on = "2025-11-01",
		.note = ""};
	assert_ok(book_put_material_lot(at->desk.book, &lot, &f->err), &f->err);
	for (int i = 0; i < 3; i++) {
		static const char *const code[] = {"1", "2", "3"};
		struct book_batch b = plain_batch(&y, code[i], i < 1 ? 1 : 2);

		b.water_hardness_kg_m3 = SOME(0.034);
		if (i > 0) {
			b.mix_id = y.light.row.id;
			b.wet_kg_m3 = SOME(481);
			b.water_hardness_kg_m3 = SOME(0.29);
		}
		assert_ok(book_put_batch(at->desk.book, &b, &f->err), &f->err);
	}
	got = look(f, &y);
	speaks(&got, CONTROL_W6, 1, "more than 75 %");
	speaks(&got, CONTROL_W7, 2, "Under 500 kg/m3");
	speaks(&got, CONTROL_W12, 1, "1 batch of it");
	speaks(&got, CONTROL_W13, 1, "was not repeated");
	speaks(&got, CONTROL_W14, 3, "on day 2");
	/* 2025-11-01 to 2026-03-01 is 120 days; three mixes have that cement */
	speaks(&got, CONTROL_W25, 3, "120 days ago");
	close_yard(&y);
}

static void
put_bending(struct fixture *f, struct yard *y, int64_t batch, const char *code,
	double held, double broke, double age_d)
{
	struct book_specimen p = {.row = {.typed = ""},
		.code = code,
		.batch_id = batch,
		.form = "beam",
		.width_m = SOME(0.1),
		.depth_m = SOME(0.075),
		.fate = "tested",
		.remark = "",
		.damage = ""};
	struct book_reading r = {.row = {.typed = ""},
		.code = "1",
		.kind = "bending",
		.age_s = SOME(age_d * 86400),
		.remark = "",
		.bending = {.loading = "centre",
			.span_m = SOME(0.6),
			.on_rig_kg = SOME(2.6),
			.held_kg = held,
			.broke_kg = SOME(broke)}};

	PUT(specimen, &p);
	r.specimen_id = p.row.id;
	if (age_d > 31)
		r.bending.span_m = (struct maybe){false, 0};
	PUT(reading, &r);
}

static void
put_waiting_and_drop(struct fixture *f, struct yard *y, int64_t batch)
{
	struct book_specimen p = {.row = {.typed = ""},
		.code = "waits",
		.batch_id = batch,
		.form = "cube",
		.fate = "waiting",
		.remark = "",
		.damage = "",
		.test_age_s = SOME(14 * 86400.0)};
	struct book_reading r = {.row = {.typed = ""},
		.code = "centre",
		.kind = "drop",
		.remark = "",
		.drop = {.place = "centre", .tip = "", .dent_m = SOME(0.031)}};

	PUT(specimen, &p);
	p = (struct book_specimen){.row = {.typed = ""},
		.code = "panel",
		.batch_id = batch,
		.form = "panel",
		.depth_m = SOME(0.05),
		.fate = "tested",
		.remark = "",
		.damage = ""};
	PUT(specimen, &p);
	r.specimen_id = p.row.id;
	PUT(reading, &r);
}

static void
warn__speaks_of_pieces_and_parts(void **state)
{
	struct fixture *f = *state;
	struct work_warned got;
	struct book_part part;
	struct book_batch b;
	struct yard y, *const at = &y;

	open_yard(f, &y);
	put_good_batches(f, &y);
	b = plain_batch(&y, "9", 2);
	assert_ok(book_put_batch(at->desk.book, &b, &f->err), &f->err);
	put_bending(f, &y, b.row.id, "fine", 20, 22, 28);
	put_bending(f, &y, b.row.id, "coarse", 20, 23, 32);
	put_waiting_and_drop(f, &y, b.row.id);
	part = (struct book_part){.row = {.typed = ""},
		.code = "roof",
		.name = "",
		.kind = "roof",
		.note = ""};
	assert_ok(book_put_part(at->desk.book, &part, &f->err), &f->err);
	got = look(f, &y);
	speaks(&got, CONTROL_W11, 1, "due at 14 days");
	speaks(&got, CONTROL_W16, 1, "a step of 13 %");
	speaks(&got, CONTROL_W17, 1, "The span is missing");
	speaks(&got, CONTROL_W18, 1, "62 % of its thickness");
	speaks(&got, CONTROL_W19, 1, "28.0 days old (fine) and 32.0 (coarse)");
	speaks(&got, CONTROL_W24, 1, "overhead");
	close_yard(&y);
}

/* Seven heavy in a row; the foam changed each time against the last. */
static void
warn__speaks_of_drifts_and_of_corrections(void **state)
{
	static const double wet[] = {725, 731, 728, 724, 733, 727, 729};
	static const double foam[] = {30, 31, 32, 33, 34, 35, 36}; /* L */
	static const char *const code[] = {"1", "2", "3", "4", "5", "6", "7"};
	struct fixture *f = *state;
	struct work_warned got;
	struct yard y, *const at = &y;

	open_yard(f, &y);
	for (int i = 0; i < 7; i++) {
		struct book_batch b = plain_batch(&y, code[i], i < 4 ? 1 : 2);

		b.wet_kg_m3 = SOME(wet[i]);
		b.foam_m3 = SOME(foam[i] / 1000);
		assert_ok(book_put_batch(at->desk.book, &b, &f->err), &f->err);
		put_part(f, &y, b.row.id, y.cement.row.id, 25, "");
	}
	got = look(f, &y);
	speaks(&got, CONTROL_W29, 1, "last 7 wet densities lie on one side");
	speaks(&got, CONTROL_W30, 1, "in 6 batches in a row");
	close_yard(&y);
}

static void
decide_wall(struct fixture *f, struct yard *y, double least_pa)
{
	struct book_part part = {.row = {.typed = ""},
		.code = "wall",
		.name = "",
		.kind = "wall",
		.note = ""};
	struct book_requirement ask = {.row = {.typed = ""},
		.measure = "bending_strength",
		.bound = "least",
		.source = "",
		.value = least_pa};
	struct book_decision decision = {.row = {.typed = ""},
		.mix_id = y->plain.row.id,
		.reason = "",
		.figures = ""};

	PUT(part, &part);
	ask.part_id = decision.part_id = part.row.id;
	PUT(requirement, &ask);
	PUT(decision, &decision);
}

/* Four batches of P and a practice one: the practice is on no chart, a stroke
 * stands where a lot began, strength is judged by lots.  With a span of 600 mm
 * and a strap of none a beam of 100 x 75 mm that bears m kg in the middle (2.6
 * with the hanger) bends at 3 m g L / (2 b d^2) = 0.01569 N/mm2 a kg. */
static void
warn__charts_of_the_build(void **state)
{
	static const char *const code[] = {"X", "1", "2", "3", "4"};
	static const double kg[] = {5, 20, 22, 21, 23};
	struct fixture *f = *state;
	const struct work_watched *wet;
	const struct work_watch_lot *lot;
	struct work_watch all;
	struct yard y, *const at = &y;

	open_yard(f, &y);
	for (int i = 0; i < 5; i++) {
		struct book_batch b = plain_batch(&y, code[i], i < 3 ? 1 : 2);

		b.practice = i == 0;
		b.wet_kg_m3 = SOME(i == 0 ? 900 : 720 + i);
		assert_ok(book_put_batch(at->desk.book, &b, &f->err), &f->err);
		put_part(f, &y, b.row.id, y.cement.row.id, 25,
			i < 3 ? "A" : "B");
		put_loss(f, &y, b.row.id, 86400, i == 4 ? 0.002 : 0);
		put_bending(f, &y, b.row.id,
			(const char *const[]){"a", "b", "c", "d", "e"}[i],
			kg[i], kg[i] + 1, 28);
	}
	decide_wall(f, &y, 0.2e6);
	assert_ok(book_commit(y.desk.book, "", NULL, &f->err), &f->err);
	assert_ok(work_watch(&y.desk, f->a, &all, &f->err), &f->err);
	wet = &all.watched[WORK_WATCH_WET];
	assert_int_equal(wet->n_point, 4);
	assert_near(wet->point[0].value, 1 / 720.0, 1e-12, 0);
	assert_false(wet->point[1].new_lot);
	assert_true(wet->point[2].new_lot);
	assert_false(wet->point[3].new_lot);
	assert_int_equal(all.n_lot_change, 1);
	assert_lacks(all.watched[WORK_WATCH_SUNK].sentence, "-");
	assert_int_equal(all.watched[WORK_WATCH_BENDING].n_point, 4);
	assert_int_equal(all.n_lot, 1);
	lot = &all.lot[0];
	assert_int_equal(lot->n, 4);
	assert_int_equal(lot->n_running, 2);
	assert_near(lot->running_Pa[0],
		(lot->strength_Pa[0] + lot->strength_Pa[1] +
			lot->strength_Pa[2]) /
			3,
		1e-12, 0);
	/* 20 to 21 kg and the hanger: 0.362 N/mm2 and what the beam's own
	 * weight adds, nothing here since it was not weighed */
	assert_near(lot->strength_Pa[0] / 1e6, 0.01569 * (20.5 + 2.6), 2e-3, 0);
	assert_true(lot->has_value && lot->has_required);
	assert_near(lot->required_Pa, 0.2e6, 1e-12, 0);
	assert_string_equal(lot->part, "wall");
	assert_true(lot->accepted[CONTROL_CHARACTERISTIC].is_met);
	assert_true(lot->accepted[CONTROL_ACI318].applies);
	assert_false(lot->accepted[CONTROL_ACI318].has_teeth);
	assert_has(lot->sentence, "part wall asks 0.2, met");
	close_yard(&y);
}

static void
warn__a_rule_is_set_kept_and_taken_back(void **state)
{
	static const struct work_warning_limit wider[] = {
		{"watch", "14 %"}, {"stop", "18 %"}};
	struct fixture *f = *state;
	struct work_warning_ask ask = {
		.code = "W4", .typed = "{}", .limit = wider, .n_limit = 2};
	struct work_warning w;
	struct work_warned got;
	struct book_batch b;
	struct yard y, *const at = &y;

	open_yard(f, &y);
	b = plain_batch(&y, "5", 2);
	b.wet_kg_m3 = SOME(811);
	assert_ok(book_put_batch(at->desk.book, &b, &f->err), &f->err);
	got = look(f, &y);
	speaks(&got, CONTROL_W4, 1, "off the target");
	/* no reason, no change */
	assert_int_equal(
		ERR_INPUT, work_warning_put(&y.desk, f->a, &ask, &w, &f->err));
	assert_has(f->err.text, "--why");
	err_clear(&f->err);
	ask.reason = "our bucket is small";
	assert_ok(work_warning_put(&y.desk, f->a, &ask, &w, &f->err), &f->err);
	assert_near(w.limit[0], 0.14, 1e-15, 0);
	assert_ok(work_warn(&y.desk, f->a, &got, &f->err), &f->err);
	speaks(&got, CONTROL_W4, 0, "");
	ask = (struct work_warning_ask){
		.code = "W4", .as_it_comes = true, .typed = "{}"};
	assert_ok(work_warning_put(&y.desk, f->a, &ask, &w, &f->err), &f->err);
	assert_near(w.limit[0], 0.05, 1e-15, 0);
	ask = (struct work_warning_ask){
		.code = "W4", .off = true, .reason = "elsewhere", .typed = ""};
	assert_ok(work_warning_put(&y.desk, f->a, &ask, &w, &f->err), &f->err);
	assert_ok(work_warn(&y.desk, f->a, &got, &f->err), &f->err);
	speaks(&got, CONTROL_W4, 0, "");
	assert_int_equal(got.n_on, CONTROL_WARNING_COUNT - 1);
	close_yard(&y);
}

static void
warn__refuses_limits_that_cannot_be(void **state)
{
	static const struct {
		const char *code;
		struct work_warning_limit limit;
		const char *says;
	} bad[] = {{"W4", {"watch", "11 %"}, "stop must not be less"},
		{"W4", {"", "6 %"}, "watch, stop"},
		{"W3", {"", "5"}, "from 0"}, /* 500 % */
		{"W3", {"", "-1 %"}, ""}, {"W17", {"", "5 %"}, "no limit"},
		{"W8", {"mix", "60 kg"}, ""},
		{"W8", {"mix", "90 degC"}, "from -20"}};
	struct fixture *f = *state;
	struct work_warning_ask ask = {.code = "W99", .on = true, .typed = ""};
	struct work_warning w;
	struct yard y;

	open_yard(f, &y);
	assert_ok(book_commit(y.desk.book, "", NULL, &f->err), &f->err);
	assert_int_equal(ERR_NOT_FOUND,
		work_warning_put(&y.desk, f->a, &ask, &w, &f->err));
	err_clear(&f->err);
	ask = (struct work_warning_ask){.code = "W4", .typed = ""};
	assert_int_equal(
		ERR_INPUT, work_warning_put(&y.desk, f->a, &ask, &w, &f->err));
	err_clear(&f->err);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		ask = (struct work_warning_ask){.code = bad[i].code,
			.limit = &bad[i].limit,
			.n_limit = 1,
			.reason = "why",
			.typed = ""};
		assert_int_equal(ERR_INPUT,
			work_warning_put(&y.desk, f->a, &ask, &w, &f->err));
		assert_has(f->err.text, bad[i].says);
		err_clear(&f->err);
	}
	close_yard(&y);
}

static const struct CMUnitTest tests[] = {
	TEST(warn__is_quiet_where_all_is_well),
	TEST(warn__speaks_of_a_batch_gone_wrong),
	TEST(warn__speaks_of_foam_not_weighed),
	TEST(warn__speaks_of_mixes_and_plans),
	TEST(warn__speaks_of_pieces_and_parts),
	TEST(warn__speaks_of_drifts_and_of_corrections),
	TEST(warn__charts_of_the_build),
	TEST(warn__a_rule_is_set_kept_and_taken_back),
	TEST(warn__refuses_limits_that_cannot_be),
};

TEST_MAIN(tests)

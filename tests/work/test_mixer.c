/* test_mixer.c - the deeds at the mixer on a book of their own: what is asked
 * wrongly is refused and changes nothing, what is entered comes back. */
#include "support.h"

#include "book/book.h"
#include "work/batch.h"
#include "work/design.h"
#include "work/foam.h"
#include "work/material.h"
#include "work/recipe.h"
#include "work/sheet.h"
#include "work/shelf.h"
#include "work/slip.h"
#include "work/standing.h"
#include "work/trial.h"
#include "work/watch.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct yard {
	char path[64];
	struct desk desk;
};

static void
open_yard(struct fixture *f, struct yard *y)
{
	int fd;

	*y = (struct yard){.desk = {.now_utc_s = 1772352000,
				   .who = "tester",
				   .seed = 1,
				   .n_chain = 2,
				   .n_keep = 500}};
	(void)snprintf(y->path, sizeof y->path, "mixer-test-XXXXXX");
	fd = mkstemp(y->path);
	assert_true(fd >= 0);
	(void)close(fd);
	(void)unlink(y->path);
	assert_ok(work_new(y->path, "yard", "", &y->desk, &f->err), &f->err);
	assert_ok(work_open(y->path, true, &y->desk, &f->err), &f->err);
}

static void
close_yard(struct yard *y)
{
	work_close(&y->desk);
	(void)unlink(y->path);
}

static size_t
entries(struct fixture *f, struct yard *y)
{
	size_t n = 0;

	assert_ok(work_verify(&y->desk, f->a, &n, &f->err), &f->err);
	return n;
}

/* The report, then a fresh one. */
static void
refused(struct fixture *f, enum err_code code, enum err_code want,
	const char *part)
{
	assert_int_equal(code, want);
	if (part != NULL)
		assert_has(f->err.text, part);
	f->err = (struct err){.code = ERR_NONE};
}

static void
put_material(
	struct fixture *f, struct yard *y, const char *code, const char *from)
{
	struct work_material_ask ask = {
		.code = code, .from = from, .typed = "{}"};
	struct book_material got;
	bool made;

	ask.package_kg = (struct maybe){true, 25};
	ask.price = (struct maybe){true, 3.5};
	assert_ok(work_material_put(&y->desk, f->a, &ask, &got, &made, &f->err),
		&f->err);
	assert_true(made);
}

static void
put_generator(struct fixture *f, struct yard *y)
{
	struct work_generator_ask ask = {.code = "G",
		.metering = "seconds",
		.target_kg_m3 = {true, 70},
		.vessel_m3 = {true, 0.01},
		.vessel_kg = {true, 0.6},
		.scale_step_kg = {true, 0.005},
		.rate_m3_s = {true, 4e-4},
		.typed = "{}"};
	bool made;

	assert_ok(work_generator_put(&y->desk, f->a, &ask, &made, &f->err),
		&f->err);
}

static void
put_mix(struct fixture *f, struct yard *y, const char *code, double wet)
{
	const struct work_recipe_part part[] = {
		{"cement", WORK_RECIPE_RATIO, 1},
		{"water", WORK_RECIPE_RATIO, 0.48}};
	struct work_recipe_ask ask = {.code = code,
		.part = part,
		.n_part = 2,
		.wet_kg_m3 = {true, wet},
		.foam_kg_m3 = {true, 70},
		.typed = "{}"};
	bool made;

	assert_ok(
		work_recipe_put(&y->desk, f->a, &ask, &made, &f->err), &f->err);
}

static void
furnish(struct fixture *f, struct yard *y)
{
	open_yard(f, y);
	put_material(f, y, "cement", "cement");
	put_material(f, y, "water", "water");
	put_generator(f, y);
	put_mix(f, y, "P", 720);
	put_mix(f, y, "L", 560);
}

static void
plan_trial(struct fixture *f, struct yard *y)
{
	static const char *const mix[] = {"L"};
	struct work_trial_ask ask = {.code = "T",
		.baseline = "P",
		.mix = mix,
		.n_mix = 1,
		.batches = {true, 2},
		.typed = "{}"};

	assert_ok(work_trial_plan(&y->desk, f->a, &ask, &f->err), &f->err);
}

static void
mixer__materials_keep_where_figures_come_from(void **state)
{
	struct fixture *f = *state;
	struct work_material_ask ask = {.code = "sand",
		.from = "fine-sand",
		.moisture_ratio = {true, 0.04},
		.basis = "weighed",
		.typed = "{}"};
	struct book_material got;
	struct work_mixer m;
	struct yard y;
	size_t at;
	bool made;

	open_yard(f, &y);
	assert_ok(work_material_put(&y.desk, f->a, &ask, &got, &made, &f->err),
		&f->err);
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_find_material(&m, "sand", &at, &f->err), &f->err);
	assert_string_equal(
		work_material_basis(&m, at, "particle_density")->basis,
		"typical");
	assert_string_equal(
		work_material_basis(&m, at, "moisture")->basis, "weighed");
	/* a figure of one's own takes the place of the typical one */
	ask = (struct work_material_ask){.code = "sand",
		.basis = "weighed",
		.particle_density_kg_m3 = {true, 2611},
		.typed = "{}"};
	assert_ok(work_material_put(&y.desk, f->a, &ask, &got, &made, &f->err),
		&f->err);
	assert_false(made);
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_string_equal(
		work_material_basis(&m, at, "particle_density")->basis,
		"weighed");
	assert_near(m.site.material[at].moisture_ratio.value, 0.04, 0, 0);
	close_yard(&y);
}

static void
mixer__refuses_and_changes_nothing(void **state)
{
	struct fixture *f = *state;
	const struct work_recipe_part part[] = {
		{"cement", WORK_RECIPE_RATIO, 1},
		{"water", WORK_RECIPE_RATIO, 0.48}};
	const struct work_recipe_part no_cement[] = {
		{"water", WORK_RECIPE_MASS, 12}};
	struct work_recipe_ask recipe = {
		.code = "X", .part = part, .n_part = 2, .typed = "{}"};
	struct work_material_ask material = {.code = "m", .typed = "{}"};
	struct work_generator_ask generator = {
		.code = "H", .metering = "spoon", .typed = "{}"};
	struct work_foam_ask foam = {.generator = "G", .typed = "{}"};
	struct work_foam_told told;
	struct book_material got;
	struct yard y;
	size_t before;
	bool made;

	furnish(f, &y);
	before = entries(f, &y);
	refused(f, work_recipe_put(&y.desk, f->a, &recipe, &made, &f->err),
		ERR_INPUT, "--wet");
	recipe.wet_kg_m3 = (struct maybe){true, 2500};
	recipe.foam_kg_m3 = (struct maybe){true, 70};
	refused(f, work_recipe_put(&y.desk, f->a, &recipe, &made, &f->err),
		ERR_INPUT, "above the slurry");
	recipe.wet_kg_m3.value = 60;
	refused(f, work_recipe_put(&y.desk, f->a, &recipe, &made, &f->err),
		ERR_INPUT, "not above what the foam");
	recipe.wet_kg_m3.value = 700;
	recipe.foam_kg_m3.value = 1900;
	refused(f, work_recipe_put(&y.desk, f->a, &recipe, &made, &f->err),
		ERR_INPUT, "lighter than water");
	recipe.foam_kg_m3.value = 70;
	recipe.part = no_cement;
	recipe.n_part = 1;
	refused(f, work_recipe_put(&y.desk, f->a, &recipe, &made, &f->err),
		ERR_INPUT, "no cement");
	recipe.like = "Q";
	refused(f, work_recipe_put(&y.desk, f->a, &recipe, &made, &f->err),
		ERR_NOT_FOUND, "no mix \"Q\"");
	refused(f,
		work_material_put(
			&y.desk, f->a, &material, &got, &made, &f->err),
		ERR_INPUT, "--role");
	material.from = "gold";
	refused(f,
		work_material_put(
			&y.desk, f->a, &material, &got, &made, &f->err),
		ERR_NOT_FOUND, "shelf");
	material.from = "cement";
	material.price = (struct maybe){true, 1e12};
	refused(f,
		work_material_put(
			&y.desk, f->a, &material, &got, &made, &f->err),
		ERR_INPUT, "price");
	refused(f,
		work_generator_put(&y.desk, f->a, &generator, &made, &f->err),
		ERR_INPUT, "--metering");
	generator.metering = "volume";
	generator.target_kg_m3 = (struct maybe){true, 70};
	generator.scale_step_kg = (struct maybe){true, 0.005};
	refused(f,
		work_generator_put(&y.desk, f->a, &generator, &made, &f->err),
		ERR_INPUT, "printed on a bucket");
	refused(f, work_foam_put(&y.desk, f->a, &foam, &told, &f->err),
		ERR_INPUT, "--gross");
	foam.gross_kg = (struct maybe){true, 0.5};
	refused(f, work_foam_put(&y.desk, f->a, &foam, &told, &f->err),
		ERR_INPUT, "heavier");
	foam.moment = "noon";
	refused(f, work_foam_put(&y.desk, f->a, &foam, &told, &f->err),
		ERR_INPUT, "start, middle or end");
	assert_int_equal(entries(f, &y), before);
	close_yard(&y);
}

static void
mixer__a_planned_batch_keeps_to_its_plan(void **state)
{
	struct fixture *f = *state;
	struct work_batch_ask ask = {.code = "T-01", .mix = "L", .typed = "{}"};
	struct work_batch_told told;
	struct yard y;
	size_t before;

	furnish(f, &y);
	refused(f, work_batch_record(&y.desk, f->a, &ask, &told, &f->err),
		ERR_INPUT, "which trial");
	plan_trial(f, &y);
	before = entries(f, &y);
	/* the first of the plan is the baseline */
	refused(f, work_batch_record(&y.desk, f->a, &ask, &told, &f->err),
		ERR_CONFLICT, "planned with another mix");
	ask.mix = NULL;
	ask.generator = "K";
	refused(f, work_batch_record(&y.desk, f->a, &ask, &told, &f->err),
		ERR_NOT_FOUND, "foam generator");
	assert_int_equal(entries(f, &y), before);
	ask.generator = "G";
	assert_ok(work_batch_record(&y.desk, f->a, &ask, &told, &f->err),
		&f->err);
	assert_true(told.made);
	assert_int_equal(entries(f, &y), before + 1);
	close_yard(&y);
}

/* A plan is drawn once; the same seed draws the same order elsewhere. */
static void
mixer__a_plan_is_drawn_once(void **state)
{
	static const char *const mix[] = {"L"};
	struct fixture *f = *state;
	struct work_trial_ask ask = {.code = "T",
		.baseline = "P",
		.mix = mix,
		.n_mix = 1,
		.typed = "{}"};
	struct work_trial_spread spread;
	struct work_trial_told told;
	struct work_mixer m;
	struct yard y;
	size_t trial;

	furnish(f, &y);
	plan_trial(f, &y);
	refused(f, work_trial_plan(&y.desk, f->a, &ask, &f->err), ERR_CONFLICT,
		"drawn once");
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_find_trial(&m, "T", &trial, &f->err), &f->err);
	assert_ok(work_trial_spread(&y.desk, f->a, &spread, &f->err), &f->err);
	assert_false(spread.is_own); /* nothing was tested yet */
	assert_ok(work_trial_show(&m, f->a, trial, &spread, &told, &f->err),
		&f->err);
	assert_int_equal(told.n_batch, 5); /* 2 x 2 and a baseline between */
	assert_true(m.site.n_rule > 0);
	assert_string_equal(m.site.rule[0].set_on, "2026-03-01");
	close_yard(&y);
}

/* Practice said after the weight was known stays visible as such. */
static void
mixer__practice_afterwards_is_shown(void **state)
{
	struct fixture *f = *state;
	struct work_batch_ask ask = {.code = "T-01",
		.as_sheet = true,
		.wanted_m3 = {true, 0.05},
		.typed = "{}"};
	struct work_batch_told told;
	struct yard y;

	furnish(f, &y);
	plan_trial(f, &y);
	ask.wet_kg_m3 = (struct maybe){true, 741};
	assert_ok(work_batch_record(&y.desk, f->a, &ask, &told, &f->err),
		&f->err);
	assert_true(told.has_rescue && told.has_survival);
	ask = (struct work_batch_ask){
		.code = "T-01", .practice = true, .typed = "{}"};
	assert_ok(work_batch_record(&y.desk, f->a, &ask, &told, &f->err),
		&f->err);
	assert_true(told.m.site.batch[told.batch].practice_set_after);
	assert_has(told.sentence[0], "stays visible");
	close_yard(&y);
}

/* The sheet learns: foam that lost a tenth of its air asks for more of it. */
static void
mixer__the_next_sheet_makes_up_for_lost_air(void **state)
{
	struct fixture *f = *state;
	struct work_sheet_ask sheet_ask = {
		.what = "P", .wanted_m3 = {true, 0.05}};
	struct work_batch_ask ask = {.typed = "{}"};
	const struct work_put_in put_in[] = {
		{"cement", 25, ""}, {"water", 12, ""}};
	struct work_sheet first, later;
	struct work_batch_told told;
	struct work_mixer m;
	struct yard y;

	furnish(f, &y);
	plan_trial(f, &y);
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_sheet_make(f->a, &m, &sheet_ask, &first, &f->err),
		&f->err);
	ask.put_in = put_in;
	ask.n_put_in = 2;
	ask.foam_m3 = (struct maybe){true, 0.0349};
	ask.mix = "P";
	for (int i = 0; i < 4; i++) {
		char code[8];

		(void)snprintf(code, sizeof code, "X%d", i);
		ask.code = code;
		/* 25 + 12 + 2.443 kg in 19.937 + 2.443 + 0.82 x 32.457 L */
		ask.wet_kg_m3 = (struct maybe){true, 39.443 / 0.0489947};
		assert_ok(
			work_batch_record(&y.desk, f->a, &ask, &told, &f->err),
			&f->err);
		assert_near(told.survival_ratio, 0.82, 0, 0.001);
	}
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_sheet_make(f->a, &m, &sheet_ask, &later, &f->err),
		&f->err);
	/* (0.95 + 4 x 0.82) / 5 */
	assert_near(later.survival.mean, 0.846, 0, 0.001);
	assert_true(later.sheet.foam.m3 > first.sheet.foam.m3);
	assert_near(later.sheet.wet.kg_m3, 720, 1e-9, 0);
	close_yard(&y);
}

static size_t
count_parts(struct fixture *f, struct yard *y, const char *code)
{
	struct work_mixer m;
	size_t mix, n = 0;

	assert_ok(work_mixer_read(&y->desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_find_mix(&m, code, &mix, &f->err), &f->err);
	for (size_t i = 0; i < m.site.n_mix_part; i++)
		n += m.site.part_mix[i] == mix;
	return n;
}

/* Sand in, out and in again: the foam is solved anew each time, the history
 * keeps all three, and what is not there cannot be taken out. */
static void
mixer__a_part_can_be_taken_out_and_put_in_again(void **state)
{
	static const char *const sand[] = {"sand"};
	const struct work_recipe_part more = {"sand", WORK_RECIPE_RATIO, 0.5};
	struct fixture *f = *state;
	struct work_recipe_ask with = {
		.code = "P", .part = &more, .n_part = 1, .typed = "{}"};
	struct work_recipe_ask without = {
		.code = "P", .without = sand, .n_without = 1, .typed = "{}"};
	struct work_recipe_shown before, after;
	struct work_mixer m;
	struct yard y;
	size_t n;
	bool made;

	furnish(f, &y);
	put_material(f, &y, "sand", "fine-sand");
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_recipe_show(&m, f->a, 0, &before, &f->err), &f->err);
	refused(f, work_recipe_put(&y.desk, f->a, &without, &made, &f->err),
		ERR_INPUT, "is no part of mix P");
	for (int i = 0; i < 2; i++) {
		assert_ok(work_recipe_put(&y.desk, f->a, &with, &made, &f->err),
			&f->err);
		assert_int_equal(count_parts(f, &y, "P"), 3);
		assert_ok(work_recipe_put(
				  &y.desk, f->a, &without, &made, &f->err),
			&f->err);
		assert_int_equal(count_parts(f, &y, "P"), 2);
	}
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_recipe_show(&m, f->a, 0, &after, &f->err), &f->err);
	assert_near(after.proportion.foam_fraction,
		before.proportion.foam_fraction, 1e-9, 0);
	n = entries(f, &y);
	assert_true(n > 8);
	close_yard(&y);
}

static void
assert_same_recipe(
	const struct work_recipe_shown *a, const struct work_recipe_shown *b)
{
	assert_int_equal(a->n_part, b->n_part);
	for (size_t i = 0; i < a->n_part; i++) {
		assert_string_equal(a->part[i].name, b->part[i].name);
		assert_near(a->part[i].mass.kg, b->part[i].mass.kg, 1e-13, 0);
	}
	assert_near(a->proportion.foam_volume.m3, b->proportion.foam_volume.m3,
		1e-13, 0);
	assert_near(a->proportion.slurry.density.kg_m3,
		b->proportion.slurry.density.kg_m3, 1e-13, 0);
	assert_int_equal(a->has_cost, b->has_cost);
	assert_near(a->cost.cents_per_m3, b->cost.cents_per_m3, 1e-13, 0);
	assert_int_equal(a->n_caution, b->n_caution);
}

/* Tried on a desk that may only read, then entered: the same figures. */
static void
mixer__a_mix_tried_is_the_mix_entered(void **state)
{
	static const struct work_recipe_part part[] = {
		{"cement", WORK_RECIPE_MASS, 25},
		{"sand", WORK_RECIPE_RATIO, 0.7},
		{"water", WORK_RECIPE_VOLUME, 0.0137}};
	const struct work_recipe_ask asks[] = {
		{.code = "N",
			.part = part,
			.n_part = 3,
			.oven_dry_kg_m3 = {true, 587},
			.foam_kg_m3 = {true, 71},
			.typed = "{}"},
		{.code = "P", .part = &part[1], .n_part = 1, .typed = "{}"},
		{.code = "K",
			.like = "L",
			.wet_kg_m3 = {true, 633},
			.typed = "{}"}};
	struct fixture *f = *state;
	struct yard y;

	furnish(f, &y);
	put_material(f, &y, "sand", "fine-sand");
	for (size_t i = 0; i < sizeof asks / sizeof asks[0]; i++) {
		struct work_recipe_shown tried, entered;
		struct work_mixer m;
		size_t before = entries(f, &y), mix = 0;
		bool made;

		assert_ok(work_recipe_try(
				  &y.desk, f->a, &asks[i], &tried, &f->err),
			&f->err);
		assert_int_equal(entries(f, &y), before);
		assert_ok(work_recipe_put(
				  &y.desk, f->a, &asks[i], &made, &f->err),
			&f->err);
		assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
		assert_ok(work_find_mix(&m, asks[i].code, &mix, &f->err),
			&f->err);
		assert_ok(work_recipe_show(&m, f->a, mix, &entered, &f->err),
			&f->err);
		assert_same_recipe(&tried, &entered);
	}
	close_yard(&y);
}

/* A batch that is made is found by its code and shows what went in. */
static void
mixer__the_sheet_of_a_made_batch_is_what_went_in(void **state)
{
	static const struct work_put_in put_in[] = {
		{"cement", 25.02, "A"}, {"water", 12.1, ""}};
	struct fixture *f = *state;
	struct work_batch_ask ask = {.code = "X",
		.mix = "P",
		.put_in = put_in,
		.n_put_in = 2,
		.foam_m3 = {true, 0.035},
		.wet_kg_m3 = {true, 731},
		.typed = "{}"};
	struct work_sheet_ask again = {.what = "X", .wanted_m3 = {true, 0.04}};
	struct work_batch_told told;
	struct work_sheet_made made;
	struct work_sheet sheet;
	struct work_mixer m;
	struct yard y;
	bool found;

	furnish(f, &y);
	plan_trial(f, &y);
	assert_ok(work_batch_record(&y.desk, f->a, &ask, &told, &f->err),
		&f->err);
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_sheet_made(f->a, &m, "X", &found, &made, &f->err),
		&f->err);
	assert_true(found);
	assert_int_equal(made.n_part, 2);
	assert_near(made.part[0].mass.kg, 25.02, 1e-12, 0);
	assert_true(made.has_survival);
	assert_ok(work_sheet_made(f->a, &m, "T-01", &found, &made, &f->err),
		&f->err);
	assert_false(found); /* planned, not made */
	assert_ok(work_sheet_make(f->a, &m, &again, &sheet, &f->err), &f->err);
	assert_near(sheet.sheet.wet.kg_m3, 720, 1e-9, 0);
	close_yard(&y);
}

/* 140 g of foam: 35 g have run out between 5 and 15 minutes, 70 g between 15
 * and 30, by straight lines: 300 + 600 x 14/27 = 611 s, 900 + 900 x 22/32 =
 * 1519 s.  The mix sets in 4 hours, which the sheet tells. */
static void
mixer__standing_foam_is_held_against_the_setting(void **state)
{
	static const struct work_look look[] = {
		{300, 0.021}, {900, 0.048}, {1800, 0.080}};
	static const struct work_look too_much = {300, 0.2};
	struct fixture *f = *state;
	struct work_standing_ask ask = {.generator = "G",
		.look = look,
		.n_look = 3,
		.foam_kg = {true, 0.14},
		.typed = "{}"};
	struct work_batch_ask batch = {
		.code = "X", .mix = "P", .set_s = {true, 14400}, .typed = "{}"};
	struct work_sheet_ask sheet_ask = {
		.what = "P", .wanted_m3 = {true, 0.04}};
	struct work_batch_told told;
	struct work_standing s;
	struct work_sheet sheet;
	struct work_mixer m;
	bool said = false;
	struct yard y;

	furnish(f, &y);
	plan_trial(f, &y);
	assert_ok(work_standing_put(&y.desk, f->a, &ask, &s, &f->err), &f->err);
	assert_near(s.quarter_s, 300 + 600 * 14 / 27.0, 1e-9, 0);
	assert_near(s.half_s, 900 + 900 * 22 / 32.0, 1e-9, 0);
	assert_false(s.has_set);
	assert_ok(work_batch_record(&y.desk, f->a, &batch, &told, &f->err),
		&f->err);
	assert_ok(work_mixer_read(&y.desk, f->a, &m, &f->err), &f->err);
	assert_ok(work_sheet_make(f->a, &m, &sheet_ask, &sheet, &f->err),
		&f->err);
	for (size_t i = 0; i < sheet.n_caution; i++)
		said = said ||
			strstr(sheet.caution[i], "takes 4.0 h to set") != NULL;
	assert_true(said);
	ask.look = &too_much;
	ask.n_look = 1;
	refused(f, work_standing_put(&y.desk, f->a, &ask, &s, &f->err),
		ERR_INPUT, "200 g cannot run out of 140 g");
	ask.n_look = 0;
	refused(f, work_standing_put(&y.desk, f->a, &ask, &s, &f->err),
		ERR_INPUT, "--look");
	close_yard(&y);
}

static void
mixer__design_says_what_the_book_lacks(void **state)
{
	struct fixture *f = *state;
	struct work_design_ask ask = {.part = "roof"};
	struct work_designed d;
	struct yard y;

	furnish(f, &y);
	refused(f, work_design(&y.desk, f->a, &ask, &d, &f->err), ERR_NOT_FOUND,
		"parts.csv");
	close_yard(&y);
}

static void
mixer__a_slip_of_point_or_unit_is_asked_about(void **state)
{
	static const struct {
		double got, expected;
		const char *question; /* NULL: none */
	} row[] = {
		{7220, 720, "decimal point"},
		{72, 720, "decimal point"},
		{45, 720, "lb/ft3"},
		{720, 45, "lb/ft3"},
		{0.0033, 3.3, "Grams"},
		{154, 70, "pounds"},
		{76.2, 3, "inches"},
		{720, 720, NULL},
		{800, 720, NULL},
		{1200, 720, NULL},
		{2200, 720, NULL},
		{0, 720, NULL},
		{-7200, 720, NULL},
		{720, 0, NULL},
		{(double)NAN, 720, NULL},
	};

	(void)state;
	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		const char *question = work_slip(row[i].got, row[i].expected);

		if (row[i].question == NULL) {
			assert_null(question);
			continue;
		}
		assert_non_null(question);
		assert_non_null(strstr(question, row[i].question));
	}
}

static const struct CMUnitTest mixer[] = {
	TEST(mixer__materials_keep_where_figures_come_from),
	TEST(mixer__refuses_and_changes_nothing),
	TEST(mixer__a_planned_batch_keeps_to_its_plan),
	TEST(mixer__a_plan_is_drawn_once),
	TEST(mixer__practice_afterwards_is_shown),
	TEST(mixer__the_next_sheet_makes_up_for_lost_air),
	TEST(mixer__a_part_can_be_taken_out_and_put_in_again),
	TEST(mixer__a_mix_tried_is_the_mix_entered),
	TEST(mixer__the_sheet_of_a_made_batch_is_what_went_in),
	TEST(mixer__standing_foam_is_held_against_the_setting),
	TEST(mixer__design_says_what_the_book_lacks),
	TEST(mixer__a_slip_of_point_or_unit_is_asked_about),
};

TEST_MAIN(mixer)

/* test_bench.c - the deeds at the bench on a book of their own: what is asked
 * wrongly is refused and changes nothing, what is censored is said to be so.
 * All figures are invented. */
#include "support.h"
#include "yard.h"

#include "book/book.h"
#include "lab/handling.h"
#include "work/batch.h"
#include "work/bend.h"
#include "work/bench_notes.h"
#include "work/due.h"
#include "work/home_test.h"
#include "work/material.h"
#include "work/piece.h"
#include "work/recipe.h"
#include "work/result_words.h"
#include "work/shelf.h"
#include "work/trial.h"
#include "work/withdraw.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const double day_s = 86400;

/* ---- what is refused ---- */

enum deed { A_FATE, A_BENDING, A_LIVE, A_DROP, A_WEIGHING, A_CRUSHING };

struct bad {
	const char *name;
	enum deed deed;
	size_t piece;
	const char *code; /* NULL: that piece */
	const char *on;
	const char *fate;
	double span_m, held_kg, broke_kg, dent_m;
	enum err_code want;
	const char *says;
};

static const struct bad bads[] = {
	{.name = "tested before it was cast",
		.deed = A_BENDING,
		.on = "2026-02-28",
		.span_m = 0.6,
		.held_kg = 8,
		.broke_kg = 9,
		.want = ERR_INPUT,
		.says = "was cast on 2026-03-01"},
	{.name = "live, before it was cast",
		.deed = A_LIVE,
		.on = "2026-02-28",
		.span_m = 0.6,
		.want = ERR_INPUT,
		.says = "was cast on 2026-03-01"},
	{.name = "snapped before it was cast",
		.deed = A_FATE,
		.on = "2026-02-28",
		.fate = "snapped at stripping",
		.want = ERR_INPUT,
		.says = "was cast on"},
	{.name = "a day that is none",
		.deed = A_FATE,
		.on = "2026-02-30",
		.fate = "tested",
		.want = ERR_INPUT,
		.says = "has days 1 to 28"},
	{.name = "span longer than the beam",
		.deed = A_BENDING,
		.span_m = 0.71,
		.held_kg = 8,
		.broke_kg = 9,
		.want = ERR_INPUT,
		.says = "longer than the beam, which is 700 mm"},
	{.name = "live, span longer than the beam",
		.deed = A_LIVE,
		.span_m = 0.71,
		.want = ERR_INPUT,
		.says = "longer than the beam"},
	{.name = "live, no span",
		.deed = A_LIVE,
		.want = ERR_INPUT,
		.says = "--span"},
	{.name = "broke below what it held",
		.deed = A_BENDING,
		.span_m = 0.6,
		.held_kg = 9,
		.broke_kg = 8.5,
		.want = ERR_INPUT,
		.says = "not above the 9 kg"},
	{.name = "broke at what it held",
		.deed = A_BENDING,
		.span_m = 0.6,
		.held_kg = 9,
		.broke_kg = 9,
		.want = ERR_INPUT,
		.says = "not above"},
	{.name = "deeper than the panel",
		.deed = A_DROP,
		.piece = BEAMS,
		.dent_m = 0.051,
		.want = ERR_INPUT,
		.says = "deeper than the piece, which is 50 mm"},
	{.name = "no dent and not through",
		.deed = A_DROP,
		.piece = BEAMS,
		.want = ERR_INPUT,
		.says = "--through"},
	{.name = "unknown piece",
		.deed = A_WEIGHING,
		.code = "01-B-9",
		.want = ERR_NOT_FOUND,
		.says = "no test piece \"01-B-9\""},
	{.name = "no fate",
		.deed = A_FATE,
		.fate = "lost",
		.want = ERR_INPUT,
		.says = "is no fate"},
	{.name = "set aside without a reason",
		.deed = A_FATE,
		.fate = "set aside",
		.want = ERR_INPUT,
		.says = "Say why"},
	{.name = "weighs nothing",
		.deed = A_WEIGHING,
		.want = ERR_INPUT,
		.says = "--mass"},
	{.name = "crushed by nothing",
		.deed = A_CRUSHING,
		.want = ERR_INPUT,
		.says = "--gauge"},
};

static enum err_code
try_reading(struct fixture *f, struct yard *y, const struct bad *b,
	const char *code)
{
	static const char *const kinds[] = {[A_FATE] = "",
		[A_BENDING] = "bending",
		[A_LIVE] = "",
		[A_DROP] = "drop",
		[A_WEIGHING] = "weighing",
		[A_CRUSHING] = "crushing"};
	struct work_test_ask ask = {.piece = code,
		.on = b->on,
		.reading = {.kind = kinds[b->deed],
			.code = "1",
			.remark = "",
			.bending = {.loading = "",
				.span_m = {b->span_m > 0, b->span_m},
				.held_kg = b->held_kg,
				.broke_kg = {b->broke_kg > 0, b->broke_kg}},
			.drop = {.place = "centre",
				.tip = "",
				.dent_m = {b->dent_m > 0, b->dent_m}},
			.weighing = {.state = "at test"}},
		.typed = "{}"};
	struct work_test_told told;

	return work_test_put(&y->desk, f->a, &ask, &told, &f->err);
}

static enum err_code
try_bad(struct fixture *f, struct yard *y, const struct bad *b)
{
	const char *code = b->code != NULL ? b->code : y->piece[b->piece];
	struct work_piece_ask piece = {
		.code = code, .fate = b->fate, .on = b->on, .typed = "{}"};
	struct work_bend_ask live = {.piece = code,
		.span_m = {b->span_m > 0, b->span_m},
		.hanger_kg = {true, 1.2},
		.on = b->on,
		.typed = "{}"};
	struct work_bending *bending = arena_take(f->a, 1, sizeof *bending);
	struct work_piece_told told;

	assert_non_null(bending);
	if (b->deed == A_FATE)
		return work_piece_put(&y->desk, f->a, &piece, &told, &f->err);
	if (b->deed == A_LIVE)
		return work_bend_open(&y->desk, f->a, &live, bending, &f->err);
	return try_reading(f, y, b, code);
}

static void
bench__bad_input_is_refused_and_changes_nothing(void **state)
{
	struct fixture *f = *state;
	struct yard y;
	size_t before;

	yard_furnish(f, &y);
	before = yard_entries(f, &y);
	for (size_t i = 0; i < sizeof bads / sizeof bads[0]; i++) {
		enum err_code code = try_bad(f, &y, &bads[i]);

		if (code != bads[i].want)
			print_error("%s: %s\n", bads[i].name, f->err.text);
		assert_int_equal(code, bads[i].want);
		assert_has(f->err.text, bads[i].says);
		f->err = (struct err){.code = ERR_NONE};
		assert_int_equal(yard_entries(f, &y), before);
	}
	yard_close(&y);
}

static void
bench__a_mistyped_marking_is_refused_and_the_nearest_offered(void **state)
{
	struct fixture *f = *state;
	struct work_bench bench;
	char wrong[8];
	struct yard y;
	size_t at;

	yard_furnish(f, &y);
	assert_ok(work_bench_read(&y.desk, f->a, &bench, &f->err), &f->err);
	for (size_t i = 0; i < PIECES; i++) {
		(void)snprintf(wrong, sizeof wrong, "%s", y.piece[i]);
		wrong[3] = wrong[3] == '7' ? '4' : '7';
		assert_int_equal(work_find_piece(&bench, wrong, &at, &f->err),
			ERR_INPUT);
		assert_has(f->err.text, "mistyped");
		assert_has(f->err.text, y.piece[i]);
		f->err = (struct err){.code = ERR_NONE};
		(void)snprintf(wrong, sizeof wrong, "%s", y.piece[i]);
		wrong[0] = y.piece[i][0] >= 'A'
			? (char)(y.piece[i][0] - 'A' + 'a')
			: y.piece[i][0];
		assert_ok(
			work_find_piece(&bench, wrong, &at, &f->err), &f->err);
		assert_string_equal(bench.site.specimen[at].code, y.piece[i]);
	}
	yard_close(&y);
}

/* ---- what is registered ---- */

static void
bench__a_marking_is_never_given_twice(void **state)
{
	struct fixture *f = *state;
	struct work_withdraw gone = {
		.kind = "specimen", .n_word = 1, .because = "entered twice"};
	const char *more[5];
	struct yard y;

	yard_furnish(f, &y);
	gone.word[0] = y.piece[BEAMS];
	assert_ok(work_withdraw(&y.desk, f->a, &gone, &f->err), &f->err);
	yard_put_pieces(f, &y, "T-01", "B1", 5, more);
	for (size_t i = 0; i < 5; i++) {
		for (size_t k = 0; k < PIECES; k++)
			assert_string_not_equal(more[i], y.piece[k]);
		for (size_t k = 0; k < i; k++)
			assert_string_not_equal(more[i], more[k]);
	}
	yard_close(&y);
}

static void
bench__four_heights_give_the_loss_and_the_depth(void **state)
{
	struct fixture *f = *state;
	struct work_piece_ask ask = {.damage = "a corner chipped",
		.height_m = {{true, 0.072}, {true, 0.0705}, {true, 0.0712},
			{true, 0.073}},
		.n_height = 4,
		.typed = "{}"};
	struct work_piece_told told;
	struct yard y;

	yard_furnish(f, &y);
	ask.code = y.piece[0];
	assert_ok(work_piece_put(&y.desk, f->a, &ask, &told, &f->err), &f->err);
	/* mean 71.675 mm of 75 mm; sums of doubles */
	assert_near(told.loss_ratio, 1 - 71.675 / 75, 1e-12, 0);
	assert_near(told.bench.site.specimen[told.piece].depth_m.value,
		0.071675, 1e-12, 0);
	assert_string_equal(told.bench.site.specimen[told.piece].damage,
		"a corner chipped");
	ask.n_height = 3;
	assert_int_equal(
		work_piece_put(&y.desk, f->a, &ask, &told, &f->err), ERR_INPUT);
	assert_has(f->err.text, "four");
	f->err = (struct err){.code = ERR_NONE};
	ask.n_height = 4;
	ask.height_m[2].value = 0.72;
	assert_int_equal(
		work_piece_put(&y.desk, f->a, &ask, &told, &f->err), ERR_INPUT);
	yard_close(&y);
}

/* ---- what is only a bound ---- */

static void
put_fate(struct fixture *f, struct yard *y, size_t piece, const char *fate,
	const char *on)
{
	struct work_piece_ask ask = {
		.code = y->piece[piece], .fate = fate, .on = on, .typed = "{}"};
	struct work_piece_told told;

	assert_ok(
		work_piece_put(&y->desk, f->a, &ask, &told, &f->err), &f->err);
}

static void
put_live(struct fixture *f, struct yard *y, size_t piece,
	const struct lab_hung_step *step, size_t n)
{
	struct work_bend_ask ask = {.piece = y->piece[piece],
		.span_m = {true, 0.6},
		.hanger_kg = {true, 1.2},
		.typed = "{}"};
	struct work_bending *b = arena_take(f->a, 1, sizeof *b);
	struct work_test_told told;

	assert_non_null(b);
	assert_ok(work_bend_open(&y->desk, f->a, &ask, b, &f->err), &f->err);
	for (size_t i = 0; i < n; i++)
		assert_ok(work_bend_step(&y->desk, b, &step[i], &f->err),
			&f->err);
	assert_ok(work_bend_save(&y->desk, f->a, b, &told, &f->err), &f->err);
}

static const struct work_result *
result_of(const struct work_results *all, size_t specimen,
	enum choose_measure measure)
{
	for (size_t i = 0; i < all->n_result; i++)
		if (all->result[i].has_specimen &&
			all->result[i].specimen == specimen &&
			all->result[i].measure == measure)
			return &all->result[i];
	return NULL;
}

static void
bench__a_snapped_piece_bounds_its_own_age_alone(void **state)
{
	struct fixture *f = *state;
	const struct work_bench_note *note;
	struct lab_handled want;
	const struct lab_handling lifted = {.grip = LAB_GRIP_ENDS,
		.length = {0.7},
		.width = {0.1},
		.depth = {0.075},
		.density = {731},
		.jerk = 2};
	struct work_results all;
	struct work_bench bench;
	struct yard y;
	size_t n, piece;

	yard_furnish(f, &y);
	put_fate(f, &y, 1, "snapped at stripping", "2026-03-02");
	assert_ok(work_bench_read(&y.desk, f->a, &bench, &f->err), &f->err);
	assert_ok(
		work_find_piece(&bench, y.piece[1], &piece, &f->err), &f->err);
	assert_ok(work_bench_notes(f->a, &bench, &note, &n, &f->err), &f->err);
	assert_int_equal(n, 1);
	assert_int_equal(note[0].specimen, piece);
	assert_near(note[0].age_s, day_s, 1e-12, 0);
	assert_ok(lab_handling(&lifted, &want, &f->err), &f->err);
	assert_near(note[0].value_si.low, 0, 0, 0);
	assert_near(note[0].value_si.high, want.stress.Pa, 1e-12, 0);
	assert_has(note[0].value, "less than");
	assert_has(note[0].from, "never carried");
	assert_ok(work_results(f->a, &bench.site, &all, &f->err), &f->err);
	assert_null(result_of(&all, piece, CHOOSE_BENDING_STRENGTH));
	for (size_t m = 0; m < bench.site.n_mix; m++)
		assert_int_equal(all.fates[m].n_snapped,
			m == bench.site.batch_mix[0] ? 1 : 0);
	yard_close(&y);
}

static void
bench__a_sag_before_the_crack_gives_a_modulus(void **state)
{
	/* P L^3/(48 I d) with 6.2 kg, 600 mm, 100 x 75 mm and 2 mm; a sag read
	 * after the crack says nothing of it. */
	const struct lab_hung_step step[] = {
		{.what = LAB_HUNG_ADDED, .mass = {5}},
		{.what = LAB_HUNG_SAG, .sag = {0.002}},
		{.what = LAB_HUNG_ADDED, .mass = {5}},
		{.what = LAB_HUNG_CRACKED},
		{.what = LAB_HUNG_SAG, .sag = {0.009}},
		{.what = LAB_HUNG_HOLDING}};
	const double want = 6.2 * 9.80665 * 0.6 * 0.6 * 0.6 /
		(48 * 0.1 * 0.075 * 0.075 * 0.075 / 12 * 0.002);
	struct fixture *f = *state;
	const struct work_bench_note *note, *found = NULL;
	struct work_bench bench;
	struct yard y;
	size_t n;

	yard_furnish(f, &y);
	put_live(f, &y, 0, step, sizeof step / sizeof step[0]);
	assert_ok(work_bench_read(&y.desk, f->a, &bench, &f->err), &f->err);
	assert_ok(work_bench_notes(f->a, &bench, &note, &n, &f->err), &f->err);
	for (size_t i = 0; i < n; i++)
		if (strcmp(note[i].what, "modulus of elasticity") == 0)
			found = &note[i];
	assert_non_null(found);
	assert_near(found->value_si.low, want, 1e-9, 0);
	/* 1 mm in 2 mm leaves 14 % open, which one digit of it shows */
	assert_has(found->value, "+/- 0.0");
	assert_has(found->from, "supports");
	yard_close(&y);
}

static void
bench__censored_readings_are_said_to_be_so(void **state)
{
	const struct lab_hung_step fell[] = {{.what = LAB_HUNG_FELL}};
	const struct lab_hung_step held[] = {
		{.what = LAB_HUNG_ADDED, .mass = {7.5}},
		{.what = LAB_HUNG_HOLDING}};
	struct fixture *f = *state;
	const struct work_result *under, *above, *through;
	const struct bad hole = {.deed = A_DROP, .piece = BEAMS};
	struct work_test_ask drop = {.reading = {.kind = "drop",
					     .code = "centre",
					     .remark = "",
					     .drop = {.place = "centre",
						     .tip = "",
						     .went_through = true}},
		.typed = "{}"};
	struct work_test_told told;
	struct work_results all;
	struct work_bench bench;
	struct yard y;

	yard_furnish(f, &y);
	put_live(f, &y, 0, fell, 1);
	put_live(f, &y, 1, held, 2);
	drop.piece = y.piece[hole.piece];
	assert_ok(work_test_put(&y.desk, f->a, &drop, &told, &f->err), &f->err);
	assert_ok(work_bench_read(&y.desk, f->a, &bench, &f->err), &f->err);
	assert_ok(work_results(f->a, &bench.site, &all, &f->err), &f->err);
	under = result_of(&all, 0, CHOOSE_BENDING_STRENGTH);
	above = result_of(&all, 1, CHOOSE_BENDING_STRENGTH);
	through = result_of(&all, BEAMS, CHOOSE_DENT);
	assert_non_null(under);
	assert_non_null(above);
	assert_non_null(through);
	assert_has(work_result_value(f->a, under), "less than");
	assert_has(work_result_from(f->a, &bench.site, under),
		"broke under the hanger alone");
	assert_has(work_result_value(f->a, above), "more than");
	assert_has(work_result_from(f->a, &bench.site, above),
		"outlasted the weights");
	assert_has(work_result_value(f->a, through), "more than 50.0 mm");
	assert_has(
		work_result_from(f->a, &bench.site, through), "went through");
	/* 8.7 kg in the middle of 600 mm on 100 x 75 mm: P L/4 over b d^2/6. */
	assert_near(above->value.low,
		8.7 * 9.80665 * 0.6 / 4 * 6 / 0.1 / (0.075 * 0.075), 1e-12, 0);
	yard_close(&y);
}

static void
bench__a_test_goes_on_where_it_was(void **state)
{
	const struct lab_hung_step add = {
		.what = LAB_HUNG_ADDED, .mass = {3.3}, .at_s = 1774771260};
	const struct lab_hung_step undo = {
		.what = LAB_HUNG_UNDONE, .at_s = 1774771290};
	const struct lab_hung_step fell = {
		.what = LAB_HUNG_FELL, .at_s = 1774771350};
	struct fixture *f = *state;
	struct work_bending *b = arena_take(f->a, 1, sizeof *b);
	struct work_test_told told;
	struct work_bend_ask ask;
	struct yard y;

	assert_non_null(b);
	yard_furnish(f, &y);
	ask = (struct work_bend_ask){.piece = y.piece[2],
		.span_m = {true, 0.6},
		.hanger_kg = {true, 1.2},
		.weight_kg = {3.3, 1.1},
		.n_weight = 2,
		.typed = "{}"};
	assert_ok(work_bend_open(&y.desk, f->a, &ask, b, &f->err), &f->err);
	for (int i = 0; i < 3; i++)
		assert_ok(work_bend_step(&y.desk, b, &add, &f->err), &f->err);
	assert_ok(work_bend_step(&y.desk, b, &undo, &f->err), &f->err);
	work_close(&y.desk); /* and nothing was saved at the end */
	assert_ok(work_open(y.path, true, &y.desk, &f->err), &f->err);
	ask = (struct work_bend_ask){.piece = y.piece[2], .typed = "{}"};
	assert_ok(work_bend_open(&y.desk, f->a, &ask, b, &f->err), &f->err);
	assert_true(b->resumed);
	assert_near(b->hung.now_kg, 1.2 + 6.6, 1e-12, 0);
	assert_int_equal(b->n_weight, 2);
	assert_near(b->weight_kg[1], 1.1, 1e-9, 0); /* nine digits are kept */
	assert_int_equal(
		work_bend_save(&y.desk, f->a, b, &told, &f->err), ERR_CONFLICT);
	f->err = (struct err){.code = ERR_NONE};
	ask.span_m = (struct maybe){true, 0.5};
	assert_int_equal(
		work_bend_open(&y.desk, f->a, &ask, b, &f->err), ERR_CONFLICT);
	f->err = (struct err){.code = ERR_NONE};
	ask.span_m.has = false;
	assert_ok(work_bend_open(&y.desk, f->a, &ask, b, &f->err), &f->err);
	assert_ok(work_bend_step(&y.desk, b, &fell, &f->err), &f->err);
	assert_ok(work_bend_save(&y.desk, f->a, b, &told, &f->err), &f->err);
	assert_string_equal(
		told.bench.site.specimen[told.piece].fate, "tested");
	assert_int_equal(
		work_bend_open(&y.desk, f->a, &ask, b, &f->err), ERR_CONFLICT);
	assert_has(f->err.text, "bent already");
	f->err = (struct err){.code = ERR_NONE};
	(void)yard_entries(f, &y);
	yard_close(&y);
}

/* ---- the calendar ---- */

static void
bench__the_day_goes_through_the_mixes_in_turn(void **state)
{
	struct fixture *f = *state;
	const char *light[BEAMS];
	struct work_due due, again;
	struct yard y;

	yard_furnish(f, &y);
	put_fate(f, &y, BEAMS, "not filled", NULL);
	yard_put_batch(f, &y, "T-02", 604);
	yard_put_pieces(f, &y, "T-02", "B1", BEAMS, light);
	assert_ok(
		work_due(&y.desk, f->a, "2026-03-29", &due, &f->err), &f->err);
	assert_int_equal(due.n, 2 * BEAMS);
	for (size_t i = 0; i < due.n; i += 2) {
		const struct work_site *s = &due.bench.site;

		assert_int_equal(due.row[i].days, 0);
		assert_int_not_equal(
			s->batch_mix[s->specimen_batch[due.row[i].piece]],
			s->batch_mix[s->specimen_batch[due.row[i + 1].piece]]);
	}
	assert_ok(work_due(&y.desk, f->a, "2026-03-29", &again, &f->err),
		&f->err);
	for (size_t i = 0; i < due.n; i++)
		assert_int_equal(due.row[i].piece, again.row[i].piece);
	assert_ok(
		work_due(&y.desk, f->a, "2026-03-28", &due, &f->err), &f->err);
	assert_int_equal(due.row[0].days, 1);
	assert_ok(
		work_due(&y.desk, f->a, "2026-04-02", &due, &f->err), &f->err);
	assert_int_equal(due.row[0].days, -4);
	yard_close(&y);
}

static void
bench__a_rig_may_be_said_anew_before_the_first_weight(void **state)
{
	const struct lab_hung_step add = {
		.what = LAB_HUNG_ADDED, .mass = {3.3}, .at_s = 1774771260};
	struct fixture *f = *state;
	struct work_bending *b = arena_take(f->a, 1, sizeof *b);
	struct work_bend_ask ask;
	struct yard y;

	assert_non_null(b);
	yard_furnish(f, &y);
	ask = (struct work_bend_ask){.piece = y.piece[0],
		.span_m = {true, 0.5},
		.hanger_kg = {true, 1.2},
		.typed = "{}"};
	assert_ok(work_bend_open(&y.desk, f->a, &ask, b, &f->err), &f->err);
	ask.span_m.value = 0.6;
	assert_ok(work_bend_open(&y.desk, f->a, &ask, b, &f->err), &f->err);
	assert_near(b->session.span_m, 0.6, 1e-12, 0);
	assert_ok(work_bend_step(&y.desk, b, &add, &f->err), &f->err);
	assert_ok(work_bend_open(&y.desk, f->a, &ask, b, &f->err), &f->err);
	assert_true(b->resumed);
	assert_near(b->session.span_m, 0.6, 1e-12, 0);
	(void)yard_entries(f, &y);
	yard_close(&y);
}

static const struct CMUnitTest tests[] = {
	TEST(bench__bad_input_is_refused_and_changes_nothing),
	TEST(bench__a_mistyped_marking_is_refused_and_the_nearest_offered),
	TEST(bench__a_marking_is_never_given_twice),
	TEST(bench__four_heights_give_the_loss_and_the_depth),
	TEST(bench__a_snapped_piece_bounds_its_own_age_alone),
	TEST(bench__a_sag_before_the_crack_gives_a_modulus),
	TEST(bench__censored_readings_are_said_to_be_so),
	TEST(bench__a_test_goes_on_where_it_was),
	TEST(bench__a_rig_may_be_said_anew_before_the_first_weight),
	TEST(bench__the_day_goes_through_the_mixes_in_turn),
};

TEST_MAIN(tests)

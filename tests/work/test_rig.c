/* test_rig.c - rigs and their checks on a book of their own: what is wrong is
 * refused and changes nothing, what a check finds reaches the results.  All
 * figures are invented. */
#include "support.h"
#include "yard.h"

#include "work/budget.h"
#include "work/home_test.h"
#include "work/piece.h"
#include "work/prepare.h"
#include "work/result_words.h"
#include "work/rig.h"

#include <stdio.h>
#include <string.h>

static void
put_rigs(struct fixture *f, struct yard *y)
{
	const struct work_rig_ask rig[] = {
		{.code = "J1",
			.test = "crushing",
			.ram_m = {true, 0.040},
			.gauge_step_pa = {true, 0.5e5},
			.typed = "{}"},
		{.code = "D1",
			.test = "drop",
			.bar_kg = {true, 2.1},
			.height_m = {true, 0.9},
			.tip = "ball",
			.tip_diameter_m = {true, 0.025},
			.typed = "{}"},
		{.code = "B1",
			.test = "bending",
			.span_m = {true, 0.6},
			.strap_m = {true, 0.05},
			.hanger_kg = {true, 1.2},
			.typed = "{}"},
	};

	for (size_t i = 0; i < sizeof rig / sizeof rig[0]; i++) {
		bool made;

		assert_ok(work_rig_put(&y->desk, f->a, &rig[i], &made, &f->err),
			&f->err);
		assert_true(made);
	}
}

static const char *
put_check(struct fixture *f, struct yard *y, struct work_rig_check_ask ask)
{
	const char *sentence = "";

	ask.typed = "{}";
	assert_ok(work_rig_check_put(&y->desk, f->a, &ask, &sentence, &f->err),
		&f->err);
	return sentence;
}

/* The one result of a measure. */
static struct work_result
result_of(struct fixture *f, struct yard *y, enum choose_measure measure,
	const char **from)
{
	struct work_result found = {.measure = measure};
	struct work_results all;
	struct work_site *site = arena_take(f->a, 1, sizeof *site);
	size_t n = 0;

	assert_non_null(site);
	assert_ok(work_site_read(y->desk.book, f->a, site, &f->err), &f->err);
	assert_ok(work_results(f->a, site, &all, &f->err), &f->err);
	for (size_t i = 0; i < all.n_result; i++) {
		if (all.result[i].measure != measure)
			continue;
		found = all.result[i];
		n++;
	}
	assert_int_equal(n, 1);
	*from = work_result_from(f->a, site, &found);
	return found;
}

static void
read_drop(struct fixture *f, struct yard *y)
{
	struct work_test_ask ask = {.piece = y->piece[BEAMS],
		.rig = "D1",
		.reading = {.kind = "drop",
			.code = "centre",
			.remark = "",
			.drop = {.place = "centre",
				.tip = "",
				.dent_m = {true, 0.0185}}},
		.typed = "{}"};
	struct work_test_told told;

	assert_ok(work_test_put(&y->desk, f->a, &ask, &told, &f->err), &f->err);
}

static void
rig__a_guide_measured_later_reaches_the_drop(void **state)
{
	/* The energy is that of lab_drop times 1 - loss; loss 1 - v^2/(2 g h). */
	struct fixture *f = *state;
	const double loss = 1 - 4.0 * 4.0 / (2 * 9.80665 * 0.9);
	struct work_result before, after;
	const char *from;
	struct yard y;

	yard_furnish(f, &y);
	put_rigs(f, &y);
	read_drop(f, &y);
	before = result_of(f, &y, CHOOSE_CRUSHING_ENERGY, &from);
	assert_has(from, "rig D1");
	assert_has(put_check(f, &y,
			   (struct work_rig_check_ask){.rig = "D1",
				   .what = "exit speed",
				   .height_m = {true, 0.9},
				   .speed_m_s = {true, 4.0}}),
		"takes 9.4 %");
	after = result_of(f, &y, CHOOSE_CRUSHING_ENERGY, &from);
	assert_near(after.value.low, before.value.low * (1 - loss), 1e-12, 0);
	assert_has(from, "by the exit speed of 2026-03-29");
	yard_close(&y);
}

static void
rig__a_jack_that_lies_is_corrected(void **state)
{
	/* 40 bar less 1 on 40 mm are 4900.88 N, the known 420 kg 4118.79 N. */
	struct fixture *f = *state;
	struct work_test_ask ask = {.rig = "J1",
		.reading = {.kind = "crushing",
			.code = "a",
			.remark = "",
			.crushing = {.gauge_pa = {true, 82e5},
				.plate_m = {true, 0.1}}},
		.keeps_fate = true,
		.typed = "{}"};
	struct work_result before, after;
	struct work_test_told told;
	const char *from;
	struct yard y;

	yard_furnish(f, &y);
	put_rigs(f, &y);
	ask.piece = y.piece[0];
	assert_ok(work_test_put(&y.desk, f->a, &ask, &told, &f->err), &f->err);
	before = result_of(f, &y, CHOOSE_CRUSHING_STRENGTH, &from);
	assert_has(put_check(f, &y,
			   (struct work_rig_check_ask){.rig = "J1",
				   .what = "dead load",
				   .known_kg = {true, 420},
				   .gauge_pa = {true, 40e5},
				   .zero_pa = {true, 1e5}}),
		"corrected");
	after = result_of(f, &y, CHOOSE_CRUSHING_STRENGTH, &from);
	assert_near(after.value.low / before.value.low, 4118.793 / 4900.885,
		1e-6, 0);
	assert_true(after.u_ratio.value > before.u_ratio.value);
	assert_has(from, "by the dead load of 2026-03-29");
	/* A later one that shows nothing wrong takes its place. */
	assert_has(put_check(f, &y,
			   (struct work_rig_check_ask){.rig = "J1",
				   .what = "dead load",
				   .on = "2026-03-30",
				   .known_kg = {true, 500},
				   .gauge_pa = {true, 40e5},
				   .zero_pa = {true, 1e5}}),
		"agrees");
	after = result_of(f, &y, CHOOSE_CRUSHING_STRENGTH, &from);
	assert_near(after.value.low, before.value.low, 1e-12, 0);
	yard_close(&y);
}

static void
rig__what_is_wrong_is_refused_and_changes_nothing(void **state)
{
	static const struct {
		struct work_rig_check_ask ask;
		enum err_code want;
		const char *says;
	} bad[] = {
		{{.rig = "J9", .what = "weight"}, ERR_NOT_FOUND, "J1"},
		{{.rig = "B1", .what = "dead load", .known_kg = {true, 3}},
			ERR_CONFLICT, "is for bending"},
		{{.rig = "J1", .what = "dead load", .known_kg = {true, 300}},
			ERR_INPUT, "--gauge"},
		{{.rig = "J1",
			 .what = "dead load",
			 .known_kg = {true, 300},
			 .gauge_pa = {true, 1e5},
			 .zero_pa = {true, 1e5}},
			ERR_INPUT, "gauge"},
		{{.rig = "D1",
			 .what = "exit speed",
			 .height_m = {true, 0.9},
			 .speed_m_s = {true, 5}},
			ERR_INPUT, "freely"},
		{{.rig = "D1", .what = "check piece"}, ERR_INPUT, "--dent"},
		{{.rig = "B1", .what = "check piece"}, ERR_INPUT, "--broke"},
		{{.rig = "B1", .what = "weight", .known_kg = {true, 5}},
			ERR_INPUT, "--weight"},
	};
	struct fixture *f = *state;
	const char *sentence;
	struct yard y;
	size_t n;

	yard_furnish(f, &y);
	put_rigs(f, &y);
	n = yard_entries(f, &y);
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct work_rig_check_ask ask = bad[i].ask;

		ask.typed = "{}";
		err_clear(&f->err);
		assert_int_equal(bad[i].want,
			work_rig_check_put(
				&y.desk, f->a, &ask, &sentence, &f->err));
		assert_has(f->err.text, bad[i].says);
	}
	assert_int_equal(n, yard_entries(f, &y));
	yard_close(&y);
}

static void
rig__a_test_on_the_wrong_rig_is_refused(void **state)
{
	struct fixture *f = *state;
	struct work_test_ask ask = {.rig = "J1",
		.reading = {.kind = "drop",
			.code = "centre",
			.remark = "",
			.drop = {.place = "centre",
				.tip = "",
				.dent_m = {true, 0.02}}},
		.typed = "{}"};
	struct work_test_told told;
	struct yard y;

	yard_furnish(f, &y);
	put_rigs(f, &y);
	ask.piece = y.piece[BEAMS];
	assert_int_equal(ERR_CONFLICT,
		work_test_put(&y.desk, f->a, &ask, &told, &f->err));
	assert_has(f->err.text, "is for crushing");
	yard_close(&y);
}

static void
rig__its_report_says_what_nobody_looked_at(void **state)
{
	struct fixture *f = *state;
	struct work_rigs rigs;
	struct yard y;

	yard_furnish(f, &y);
	put_rigs(f, &y);
	assert_ok(work_rigs(&y.desk, f->a, &rigs, &f->err), &f->err);
	assert_int_equal(rigs.n, 3);
	for (size_t i = 0; i < rigs.n; i++) {
		assert_true(rigs.rig[i].is_due);
		assert_false(rigs.rig[i].is_doubted);
		assert_true(rigs.rig[i].n_sentence > 0);
	}
	for (int day = 10; day < 29; day += 6) {
		static const double broke[] = {23.1, 23.3, 22.9, 26.0};
		char on[16];

		(void)snprintf(on, sizeof on, "2026-03-%02d", day);
		(void)put_check(f, &y,
			(struct work_rig_check_ask){.rig = "B1",
				.what = "check piece",
				.piece = "lath",
				.on = arena_text(f->a, on),
				.found_kg = {true, broke[(day - 10) / 6]}});
	}
	assert_ok(work_rigs(&y.desk, f->a, &rigs, &f->err), &f->err);
	for (size_t i = 0; i < rigs.n; i++) {
		bool beam = strcmp(rigs.rig[i].code, "B1") == 0;

		assert_int_equal(beam, rigs.rig[i].is_doubted);
		assert_int_equal(!beam, rigs.rig[i].is_due);
	}
	yard_close(&y);
}

static void
budget__says_what_is_worth_improving(void **state)
{
	struct fixture *f = *state;
	struct work_budgets all;
	struct yard y;

	yard_furnish(f, &y);
	assert_int_equal(
		ERR_INPUT, work_budgets(&y.desk, f->a, NULL, &all, &f->err));
	put_rigs(f, &y);
	read_drop(f, &y);
	err_clear(&f->err);
	assert_ok(work_budgets(&y.desk, f->a, NULL, &all, &f->err), &f->err);
	assert_int_equal(all.n, 1);
	assert_int_equal(all.budget[0].n_test, 1);
	assert_false(all.budget[0].has_spread);
	assert_has(all.budget[0].sentence[1], "dent leaves most open");
	assert_int_equal(ERR_INPUT,
		work_budgets(&y.desk, f->a, y.piece[0], &all, &f->err));
	yard_close(&y);
}

static void
prepare__needs_what_it_needs(void **state)
{
	struct fixture *f = *state;
	struct work_prepare_ask ask = {.mix = "P", .form = "B1", .rig = "B1"};
	struct work_prepared got;
	struct yard y;

	yard_furnish(f, &y);
	put_rigs(f, &y);
	assert_ok(work_prepare(&y.desk, f->a, &ask, &got, &f->err), &f->err);
	assert_int_equal(got.by, WORK_FORESEEN_RELATION);
	assert_true(got.bending.least.kg < got.bending.most.kg);
	assert_near(got.piece_kg.value, 731 * 0.1 * 0.075 * 0.7, 1e-12, 0);
	ask.rig = NULL;
	assert_int_equal(
		ERR_INPUT, work_prepare(&y.desk, f->a, &ask, &got, &f->err));
	assert_has(f->err.text, "--span");
	err_clear(&f->err);
	ask.span_m = (struct maybe){true, 0.71};
	ask.hanger_kg = (struct maybe){true, 1.2};
	assert_int_equal(
		ERR_INPUT, work_prepare(&y.desk, f->a, &ask, &got, &f->err));
	assert_has(f->err.text, "longer than the beams");
	err_clear(&f->err);
	ask.rig = "J1";
	assert_int_equal(
		ERR_INPUT, work_prepare(&y.desk, f->a, &ask, &got, &f->err));
	err_clear(&f->err);
	ask.mix = "Z";
	assert_int_equal(ERR_NOT_FOUND,
		work_prepare(&y.desk, f->a, &ask, &got, &f->err));
	yard_close(&y);
}

static void
prepare__takes_a_piece_as_it_is(void **state)
{
	/* 3 mm of its 75 were lost: the same strength takes (72/75)^2 of the
	 * load, hanger and own weight aside. */
	struct fixture *f = *state;
	struct work_prepare_ask ask = {
		.rig = "B1", .low_pa = {true, 0.2e6}, .high_pa = {true, 0.4e6}};
	struct work_piece_ask lower = {.typed = "{}",
		.n_height = WORK_QUARTERS,
		.height_m = {{true, 0.072}, {true, 0.072}, {true, 0.072},
			{true, 0.072}}};
	struct work_prepared whole, shrunk;
	struct work_piece_told told;
	struct yard y;

	yard_furnish(f, &y);
	put_rigs(f, &y);
	ask.piece = lower.code = y.piece[0];
	assert_ok(work_prepare(&y.desk, f->a, &ask, &whole, &f->err), &f->err);
	assert_near(whole.hanger_kg.value, 1.2, 1e-15, 0);
	assert_ok(
		work_piece_put(&y.desk, f->a, &lower, &told, &f->err), &f->err);
	assert_ok(work_prepare(&y.desk, f->a, &ask, &shrunk, &f->err), &f->err);
	assert_near(shrunk.bending.most.kg - shrunk.bending.least.kg,
		(whole.bending.most.kg - whole.bending.least.kg) * 0.9216,
		1e-12, 0);
	assert_near(
		shrunk.piece_kg.value, whole.piece_kg.value * 0.96, 1e-12, 0);
	for (size_t i = 0; i < whole.n_sentence; i++)
		assert_int_equal(whole.is_caution[i],
			strstr(whole.sentence[i], "kg fall") != NULL ||
				strstr(whole.sentence[i], "Each piece") !=
					NULL);
	ask.span_m = (struct maybe){true, 0.71};
	assert_int_equal(
		ERR_INPUT, work_prepare(&y.desk, f->a, &ask, &whole, &f->err));
	assert_has(f->err.text, "longer than the beam, which is 700 mm");
	err_clear(&f->err);
	ask.high_pa.value = 0.1e6;
	assert_int_equal(
		ERR_INPUT, work_prepare(&y.desk, f->a, &ask, &whole, &f->err));
	assert_has(f->err.text, "from 0.2 to 0.1 N/mm2");
	yard_close(&y);
}

static void
prepare__knows_a_piece_a_mix_and_a_trial(void **state)
{
	struct fixture *f = *state;
	struct work_prepare_about about;
	struct yard y;

	yard_furnish(f, &y);
	assert_ok(
		work_prepare_about(&y.desk, f->a, y.piece[0], &about, &f->err),
		&f->err);
	assert_null(about.rig);
	put_rigs(f, &y);
	assert_ok(work_prepare_about(
			  &y.desk, f->a, y.piece[BEAMS], &about, &f->err),
		&f->err);
	assert_string_equal(about.piece, y.piece[BEAMS]);
	assert_string_equal(about.rig, "D1");
	assert_string_equal(about.mix[0], "P");
	assert_ok(work_prepare_about(&y.desk, f->a, "T", &about, &f->err),
		&f->err);
	assert_null(about.piece);
	assert_int_equal(about.n_mix, 2);
	assert_ok(work_prepare_about(&y.desk, f->a, "L", &about, &f->err),
		&f->err);
	assert_int_equal(about.n_mix, 1);
	assert_string_equal(about.mix[0], "L");
	assert_int_equal(ERR_NOT_FOUND,
		work_prepare_about(&y.desk, f->a, "none", &about, &f->err));
	yard_close(&y);
}

static const struct CMUnitTest tests[] = {
	TEST(rig__a_guide_measured_later_reaches_the_drop),
	TEST(rig__a_jack_that_lies_is_corrected),
	TEST(rig__what_is_wrong_is_refused_and_changes_nothing),
	TEST(rig__a_test_on_the_wrong_rig_is_refused),
	TEST(rig__its_report_says_what_nobody_looked_at),
	TEST(budget__says_what_is_worth_improving),
	TEST(prepare__needs_what_it_needs),
	TEST(prepare__takes_a_piece_as_it_is),
	TEST(prepare__knows_a_piece_a_mix_and_a_trial),
};

TEST_MAIN(tests)

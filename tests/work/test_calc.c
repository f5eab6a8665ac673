/* test_calc.c - every calculation: its example runs, a key it does not know is
 * refused, and a few answers against hand-worked values. */
#include "support.h"

#include "work/calc.h"

#include <string.h>

static void
calc__every_example_runs(void **state)
{
	struct fixture *f = *state;
	size_t n;
	const struct calc_entry *const *entry = work_calc_list(&n);

	assert_true(n >= 10);
	for (size_t i = 0; i < n; i++) {
		const char *answer = support_calc(f->a,
			work_calc_name(entry[i]), work_calc_example(entry[i]));

		assert_has(answer, "\"source\": ");
		assert_has(answer, "\"notes\": [");
		assert_lacks(answer, "nan");
	}
}

static void
calc__unknown_keys_and_broken_questions_are_refused(void **state)
{
	size_t n;
	const struct calc_entry *const *entry = work_calc_list(&n);

	(void)state;
	for (size_t i = 0; i < n; i++) {
		struct err err = support_calc_refused(
			work_calc_name(entry[i]), "{\"colour\": 1}");

		assert_string_equal("colour", err.field);
		(void)support_calc_refused(work_calc_name(entry[i]), "{}");
		(void)support_calc_refused(work_calc_name(entry[i]), "[1]");
		(void)support_calc_refused(
			work_calc_name(entry[i]), "{\"a\": 1, \"a\": 2}");
		(void)support_calc_refused(work_calc_name(entry[i]), "");
	}
}

static void
calc__flexure_agrees_with_statics(void **state)
{
	/* By hand: P = 22.6 kg x 9.80665 = 221.63 N, M = P (0.6/4 - 0.05/8),
	 * f = 6 M / (0.1 x 0.0739^2). */
	struct fixture *f = *state;
	const char *answer = support_calc(f->a, "flexure",
		"{\"loading\": \"centre\", \"span\": \"600 mm\", \"width\": "
		"\"100 mm\", \"depth\": \"73.9 mm\", \"held\": \"20 kg\", "
		"\"broke_at\": \"22 kg\", \"on_rig\": \"2.6 kg\", \"strap\": "
		"\"50 mm\"}");
	double moment = 22.6 * 9.80665 * (0.6 / 4 - 0.05 / 8);

	assert_near(support_get(answer, "moment.low"), moment, 1e-12, 0);
	assert_near(support_get(answer, "modulus_of_rupture.low"),
		6 * moment / (0.1 * 0.0739 * 0.0739), 1e-12, 0);
}

static void
calc__flexure_refuses_what_cannot_be(void **state)
{
	struct err err = support_calc_refused("flexure",
		"{\"loading\": \"centre\", \"span\": \"600 mm\", \"width\": "
		"\"100 mm\", \"depth\": 0.07, \"held\": 20, \"broke_at\": 18}");

	(void)state;
	assert_string_equal("broke_at", err.field);
	err = support_calc_refused("flexure",
		"{\"loading\": \"centre\", \"span\": \"600 kg\", \"width\": "
		"0.1, \"depth\": 0.07, \"held\": 20}");
	assert_string_equal("span", err.field);
	assert_has(err.text, "a mass");
	err = support_calc_refused("drop",
		"{\"mass\": 2.4, \"height\": 0.9, \"depth\": 0.07, "
		"\"thickness\": 0.06, \"tip\": {\"shape\": \"ball\", "
		"\"diameter\": 0.025}}");
	assert_string_equal("depth", err.field);
}

static void
calc__proportion_gives_the_batch_card(void **state)
{
	/* tests/data/trade-a.csv, MIX-A: 300 kg cement, 150 kg water, foam of
	 * 50 kg/m3 to fill 1 m3; algebra, needs no outside source. */
	struct fixture *f = *state;
	const char *answer = support_calc(f->a, "proportion",
		"{\"parts\": [{\"name\": \"c\", \"role\": \"cement\", \"mass\":"
		" 300}, {\"name\": \"w\", \"role\": \"water\", \"mass\": 150}],"
		" \"foam\": {\"density\": 50}, \"batch_volume\": 1}");

	assert_near(support_get(answer, "foam_volume.value"), 0.7547619048,
		1e-9, 0);
	assert_near(
		support_get(answer, "wet_density.value"), 487.7380952, 1e-9, 0);
	assert_near(
		support_get(answer, "oven_dry_density.value"), 360, 1e-12, 0);
	assert_near(support_get(answer, "air_fraction"), 0.7170238095, 1e-9, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(calc__every_example_runs),
	TEST(calc__unknown_keys_and_broken_questions_are_refused),
	TEST(calc__flexure_agrees_with_statics),
	TEST(calc__flexure_refuses_what_cannot_be),
	TEST(calc__proportion_gives_the_batch_card),
};

TEST_MAIN(tests)

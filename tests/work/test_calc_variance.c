/* test_calc_variance.c - the calculations "variance" and "resample". */
#include "support.h"

/* Balanced, three batches of two: means 10, 13, 16, hence mean squares 18 and
 * (2 + 2 + 2) / 3 = 2, by hand; (18 - 2) / 2 = 8 between. */
static void
calc_variance__answers(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(f->a, "variance",
		"{\"rows\": [{\"batch\": \"P\", \"value\": 9},"
		" {\"batch\": 7, \"value\": 12}, {\"batch\": \"P\", \"value\": "
		"11},"
		" {\"batch\": 7, \"value\": 14}, {\"batch\": \"Q\", \"value\": "
		"15},"
		" {\"batch\": \"Q\", \"value\": 17}]}");

	assert_near(support_get(got, "between.variance"), 8, 1e-12, 0);
	assert_near(support_get(got, "within.variance"), 2, 1e-12, 0);
	assert_near(support_get(got, "batches"), 3, 0, 0);
	assert_true(support_get(got, "within.low") < 2);
	assert_lacks(got, "more than one group");
}

/* A batch lies in a group: one name in two groups is two batches. */
static void
calc_variance__batches_lie_in_groups(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(f->a, "variance",
		"{\"rows\": [{\"group\": \"A\", \"batch\": \"1\", \"value\": "
		"9},"
		" {\"group\": \"A\", \"batch\": \"1\", \"value\": 11},"
		" {\"group\": \"A\", \"batch\": \"2\", \"value\": 12},"
		" {\"group\": \"A\", \"batch\": \"2\", \"value\": 14},"
		" {\"group\": \"B\", \"batch\": \"1\", \"value\": 21},"
		" {\"group\": \"B\", \"batch\": \"1\", \"value\": 23},"
		" {\"group\": \"B\", \"batch\": \"2\", \"value\": 24},"
		" {\"group\": \"B\", \"batch\": \"2\", \"value\": 26}]}");

	/* mean squares by hand: 2 * (4.5 + 4.5) / 2 = 9 and 2 */
	assert_near(support_get(got, "between.variance"), 3.5, 1e-12, 0);
	assert_near(support_get(got, "within.variance"), 2, 1e-12, 0);
	assert_near(support_get(got, "batches"), 4, 0, 0);
	assert_has(got, "more than one group");
}

static const char *
field_of(const char *name, const char *question)
{
	static struct err err;

	err = support_calc_refused(name, question);
	assert_int_equal(err.code, ERR_INPUT);
	return err.field;
}

static void
calc_variance__refuses(void **state)
{
	(void)state;
	assert_string_equal("rows", field_of("variance", "{\"rows\": []}"));
	assert_string_equal("rows",
		field_of("variance",
			"{\"rows\": [{\"batch\": \"A\", \"value\": 1},"
			" {\"batch\": \"A\", \"value\": 2}]}"));
	assert_string_equal("rows[1].group",
		field_of("variance",
			"{\"rows\": [{\"batch\": \"A\", \"value\": 1},"
			" {\"batch\": \"A\", \"value\": 2, \"group\": "
			"\"x\"}]}"));
	assert_string_equal("rows[0].value",
		field_of("variance",
			"{\"rows\": [{\"batch\": \"A\", \"value\": \"1\"}]}"));
	assert_string_equal("rows[0].batch",
		field_of("variance", "{\"rows\": [{\"value\": 1}]}"));
	assert_string_equal("rows[0].mix",
		field_of("variance",
			"{\"rows\": [{\"mix\": \"A\", \"batch\": \"1\","
			" \"value\": 1}]}"));
}

static void
calc_resample__answers_and_refuses(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(f->a, "resample",
		"{\"values\": [3.7, 3.7, 3.7], \"statistic\": \"sd\"}");

	assert_near(support_get(got, "estimate"), 0, 0, 0);
	assert_near(support_get(got, "percentile.high"), 0, 0, 0);
	assert_has(got, "\"bca\": null");
	got = support_calc(f->a, "resample",
		"{\"values\": [3.7, 4.1, 2.9, 5.3, 4.4], \"statistic\": "
		"\"median\", \"draws\": 4000, \"seed\": 5, \"confidence\": "
		"0.8}");
	assert_near(support_get(got, "estimate"), 4.1, 0, 0);
	assert_true(support_get(got, "bca.low") <= 4.1);
	got = support_calc(f->a, "resample",
		"{\"values\": [3.7, 4.1], \"statistic\": \"mean\", \"draws\": "
		"1}");
	assert_has(got, "outermost draw");
	assert_string_equal("values",
		field_of("resample",
			"{\"values\": [3.7], \"statistic\": \"mean\"}"));
	assert_string_equal(
		"statistic", field_of("resample", "{\"values\": [3.7, 3]}"));
	assert_string_equal("draws",
		field_of("resample",
			"{\"values\": [3.7, 3], \"statistic\": \"mean\","
			" \"draws\": 1000001}"));
	/* 2^64, the first whole number that is no seed, reads as a double */
	assert_string_equal("seed",
		field_of("resample",
			"{\"values\": [3.7, 3], \"statistic\": \"mean\","
			" \"seed\": 18446744073709551616.0}"));
	assert_string_equal("values",
		field_of("resample",
			"{\"values\": [-3.7, 3], \"statistic\": \"cv\"}"));
}

static const struct CMUnitTest tests[] = {
	TEST(calc_variance__answers),
	TEST(calc_variance__batches_lie_in_groups),
	TEST(calc_variance__refuses),
	TEST(calc_resample__answers_and_refuses),
};

TEST_MAIN(tests)

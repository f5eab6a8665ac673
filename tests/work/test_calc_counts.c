/* test_calc_counts.c - the calculation "counts". */
#include "support.h"

#include <math.h>

/* the same tolerances as in tests/stats/test_counts.c */
static const double few_roundings = 1e-13;
static const double beta_tail = 1e-12;

static void
calc_counts__answers_and_refuses(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(f->a, "counts",
		"{\"a\": {\"failed\": 3, \"of\": 7},"
		" \"b\": {\"failed\": 0, \"of\": 36}}");

	assert_near(support_get(got, "p"), 35. / 12341, few_roundings, 0);
	assert_near(support_get(got, "b.low"), 0, 0, 0);
	assert_near(support_get(got, "b.high"), 1 - pow(0.025, 1. / 36),
		beta_tail, 0);
	assert_string_equal("a.failed",
		support_calc_refused("counts",
			"{\"a\": {\"failed\": 8, \"of\": 7},"
			" \"b\": {\"failed\": 0, \"of\": 36}}")
			.field);
	assert_string_equal("b.of",
		support_calc_refused("counts",
			"{\"a\": {\"failed\": 3, \"of\": 7},"
			" \"b\": {\"failed\": 0, \"of\": 0}}")
			.field);
	assert_string_equal("b.off",
		support_calc_refused("counts",
			"{\"a\": {\"failed\": 3, \"of\": 7},"
			" \"b\": {\"failed\": 0, \"of\": 5, \"off\": 1}}")
			.field);
}

static const struct CMUnitTest tests[] = {
	TEST(calc_counts__answers_and_refuses),
};

TEST_MAIN(tests)

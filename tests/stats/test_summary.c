/* test_summary.c - stats/summary against NIST StRD and hand-worked values. */
#include "support.h"

#include "stats/summary.h"

#include <math.h>

static void
summary__quartiles_are_type_7(void **state)
{
	struct fixture *f = *state;
	const double x[] = {2.385, 1.07, 3.91, 7.713, 5.5, 1.9};
	struct stats_summary got;

	assert_ok(stats_summarise(f->a, x, 6, &got, &f->err), &f->err);
	/* Hyndman and Fan (1996), type 7, by hand: sorted 1.07 1.9 2.385 3.91
	 * 5.5 7.713; h = 5p: 1.25 -> 1.9 + 0.25 (0.485), 3.75 */
	assert_near(got.quartile_1, 2.02125, 1e-15, 0);
	assert_near(got.quartile_3, 5.1025, 1e-15, 0);
	assert_near(got.median, 3.1475, 1e-15, 0);
}

static void
summary__refuses_nothing_and_nan(void **state)
{
	struct fixture *f = *state;
	const double x[] = {1, (double)NAN};
	struct stats_summary got = {.n = 77};

	assert_int_equal(ERR_INPUT, stats_summarise(f->a, x, 0, &got, &f->err));
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT, stats_summarise(f->a, x, 2, &got, &f->err));
	assert_int_equal(77, got.n);
}

static const struct CMUnitTest tests[] = {
	TEST(summary__quartiles_are_type_7),
	TEST(summary__refuses_nothing_and_nan),
};

TEST_MAIN(tests)

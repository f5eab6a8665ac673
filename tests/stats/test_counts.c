/* test_counts.c - stats/counts against counted fractions and sums. */
#include "support.h"

#include "stats/counts.h"

#include <math.h>

static struct stats_counts
compare(struct fixture *f, uint64_t failed_a, uint64_t of_a, uint64_t failed_b,
	uint64_t of_b)
{
	struct stats_counts got;

	assert_ok(stats_counts_compare(
			  failed_a, of_a, failed_b, of_b, &got, &f->err),
		&f->err);
	return got;
}

/* Rounding of a few exponentials of logarithms; bounds are bisected to the
 * last digit of a beta tail that itself has about 13. */
static const double few_roundings = 1e-13;
static const double beta_tail = 1e-12;

static void
counts__equal_counted_fractions(void **state)
{
	struct fixture *f = *state;
	struct stats_counts got = compare(f, 3, 7, 0, 36);

	/* by counting: C(7,3) of the C(43,3) = 12341 ways put all three failures
	 * among the seven; every other split is likelier */
	assert_near(got.p_more_in_a, 35. / 12341, few_roundings, 0);
	assert_near(got.p_two_sided, 35. / 12341, few_roundings, 0);
	assert_near(got.p_more_in_b, 1, few_roundings, 0);
	/* Fisher (1935), The Design of Experiments, chapter II, the lady
	 * tasting tea: 3 of 4 right or better in 17 of 70 ways */
	got = compare(f, 3, 4, 1, 4);
	assert_near(got.p_more_in_a, 17. / 70, few_roundings, 0);
	assert_near(got.p_two_sided, 34. / 70, few_roundings, 0);
	/* Fisher (1935), J. R. Statist. Soc. 98, 39-82, convicted twins: 10 of
	 * 13 against 2 of 17; counted: C(13,10) C(17,2) + C(13,11) C(17,1) +
	 * C(13,12) of C(30,12) ways */
	got = compare(f, 10, 13, 2, 17);
	assert_near(got.p_more_in_a, (38896. + 1326 + 13) / 86493225,
		few_roundings, 0);
}

static double
choose(double n, double k)
{
	double product = 1;

	for (double i = 1; i <= k; i++)
		product = product * (n - k + i) / i;
	return product;
}

static void
counts__two_sided_sums_the_unlikely_splits(void **state)
{
	struct fixture *f = *state;

	for (unsigned a = 0; a <= 9; a++)
		for (unsigned b = 0; b <= 13; b++) {
			struct stats_counts got = compare(f, a, 9, b, 13);
			double all = choose(22, a + b), sum = 0, above = 0;
			double seen = choose(9, a) * choose(13, b);

			for (unsigned k = 0; k <= 9 && k <= a + b; k++) {
				double ways = a + b - k > 13
					? 0
					: choose(9, k) * choose(13, a + b - k);

				sum += ways <= seen * (1 + 1e-9) ? ways : 0;
				above += k >= a ? ways : 0;
			}
			assert_near(
				got.p_two_sided, sum / all, few_roundings, 0);
			assert_near(
				got.p_more_in_a, above / all, few_roundings, 0);
		}
}

static void
counts__swapping_lots_swaps_answers(void **state)
{
	struct fixture *f = *state;
	struct stats_counts ab = compare(f, 5, 17, 11, 23);
	struct stats_counts ba = compare(f, 11, 23, 5, 17);

	assert_near(ab.p_two_sided, ba.p_two_sided, few_roundings, 0);
	assert_near(ab.p_more_in_a, ba.p_more_in_b, few_roundings, 0);
	assert_near(ab.high_a, ba.high_b, 0, 0);
	assert_near(ab.upper_b, ba.upper_a, 0, 0);
}

static void
counts__none_failed_has_the_closed_bound(void **state)
{
	struct fixture *f = *state;
	struct stats_counts got = compare(f, 0, 29, 31, 31);

	/* Clopper and Pearson (1934): (1 - p)^29 = tail */
	assert_near(got.low_a, 0, 0, 0);
	assert_near(got.high_a, 1 - pow(0.025, 1. / 29), beta_tail, 0);
	assert_near(got.upper_a, 1 - pow(0.05, 1. / 29), beta_tail, 0);
	assert_near(got.high_b, 1, 0, 0);
	assert_near(got.low_b, pow(0.025, 1. / 31), beta_tail, 0);
}

static double
binomial_below(unsigned failed, unsigned of, double p)
{
	double sum = 0;

	for (unsigned k = 0; k <= failed; k++)
		sum += choose(of, k) * pow(p, k) * pow(1 - p, of - k);
	return sum;
}

static void
counts__bounds_leave_their_tails(void **state)
{
	(void)state;
	for (unsigned of = 2; of < 40; of += 3)
		for (unsigned x = 1; x < of; x++) {
			double low = stats_rate_low(x, of, 0.037);
			double high = stats_rate_high(x, of, 0.037);

			/* the sum from below loses digits to 1 - sum: 1e-11 */
			assert_near(1 - binomial_below(x - 1, of, low), 0.037,
				1e-11, 0);
			assert_near(
				binomial_below(x, of, high), 0.037, 1e-11, 0);
		}
}

static void
counts__large_lots_are_answered(void **state)
{
	struct fixture *f = *state;
	struct stats_counts got = compare(f, 500000, 1000000, 500000, 1000000);

	/* every split is at most as likely as the even one; two million
	 * probabilities add up to 1 within their roundings */
	assert_near(got.p_two_sided, 1, 1e-9, 0);
	got = compare(f, 1000000, 1000000, 0, 1000000);
	assert_near(got.p_two_sided, 0, 0, 1e-300);
	assert_true(got.low_a > 0.999996 && got.high_b < 0.000004);
}

static void
counts__refuse_what_cannot_be(void **state)
{
	struct fixture *f = *state;
	struct stats_counts got = {.p_two_sided = 0.377};

	assert_int_equal(
		ERR_INPUT, stats_counts_compare(0, 0, 1, 4, &got, &f->err));
	assert_string_equal("of_a", f->err.field);
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_counts_compare(1, 4, 5, 4, &got, &f->err));
	assert_string_equal("failed_b", f->err.field);
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		stats_counts_compare(1, 4, 5, UINT64_MAX, &got, &f->err));
	assert_near(got.p_two_sided, 0.377, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(counts__equal_counted_fractions),
	TEST(counts__two_sided_sums_the_unlikely_splits),
	TEST(counts__swapping_lots_swaps_answers),
	TEST(counts__none_failed_has_the_closed_bound),
	TEST(counts__bounds_leave_their_tails),
	TEST(counts__large_lots_are_answered),
	TEST(counts__refuse_what_cannot_be),
};

TEST_MAIN(tests)

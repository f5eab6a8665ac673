/* test_normal.c - our normal tails, the quadrature rule, and the libRmath
 * functions that the comparisons rest on, against 25-digit values of mpmath. */
#include "r_rows.h"

#include "stats/normal.h"
#include "stats/quadrature.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

/* Both tails to 1e-12, the rounding of x / sqrt(2) included. */
static const double tolerance = 1e-12;

static bool
value_of(struct arena *a, const struct r_row *row, double *got)
{
	const char *call = row->call;

	if (strcmp(call, "pnorm / log") == 0) {
		double x = r_number(a, row, "x");

		*got = strcmp(row->output, "lower") == 0 ? stats_normal_lower(x)
			: strcmp(row->output, "upper") == 0
			? stats_normal_upper(x)
			: stats_normal_log_upper(-x);
	} else if (strcmp(call, "qnorm") == 0) {
		*got = qnorm5(r_number(a, row, "p"), 0, 1, true, false);
	} else if (strcmp(call, "pt upper") == 0) {
		*got = pt(r_number(a, row, "x"), r_number(a, row, "df"), false,
			false);
	} else if (strcmp(call, "qt upper") == 0) {
		*got = qt(r_number(a, row, "p"), r_number(a, row, "df"), false,
			false);
	} else if (strcmp(call, "pchisq upper") == 0) {
		*got = pchisq(r_number(a, row, "x"), r_number(a, row, "df"),
			false, false);
	} else if (strcmp(call, "qchisq lower") == 0) {
		*got = qchisq(r_number(a, row, "p"), r_number(a, row, "df"),
			true, false);
	} else if (strcmp(call, "pf upper") == 0) {
		*got = pf(r_number(a, row, "x"), r_number(a, row, "df1"),
			r_number(a, row, "df2"), false, false);
	} else {
		return false;
	}
	return true;
}

static void
normal__agrees_with_mpmath(void **state)
{
	struct fixture *f = *state;
	size_t n, count = 0, n_nan = 0;
	const struct r_row *row = r_rows(f->a, "r/special_mpmath.csv", &n);
	/* what is below the smallest double counts as 0 */
	const double underflow = 1e-307;

	for (size_t i = 0; i < n; i++) {
		double got;

		if (!value_of(f->a, &row[i], &got))
			continue;
		if (isnan(row[i].value)) {
			/* mpmath found no root for qchisq(1e-10, 1); the first
			 * term of the series, pi / 2 p^2, is good to 1e-20 */
			assert_near(got, M_PI / 2 * 1e-20, tolerance, 0);
			n_nan++;
			continue;
		}
		assert_near(got, row[i].value, tolerance, underflow);
		count++;
	}
	assert_int_equal(1, n_nan);
	assert_int_equal(24 + 8 + 30 + 24 + 24 + 24 + 64 - n_nan, count);
}

static void
normal__between_does_not_cancel(void **state)
{
	(void)state;
	assert_near(stats_normal_between(7.1, 7.3),
		pnorm5(7.1, 0, 1, false, false) -
			pnorm5(7.3, 0, 1, false, false),
		1e-13, 0);
	assert_near(stats_normal_between(-7.3, -7.1),
		stats_normal_between(7.1, 7.3), 1e-13, 0);
	assert_near(stats_normal_between(1.3, 1.2), 0, 0, 0);
	assert_near(
		stats_normal_density(1.7), dnorm4(1.7, 0, 1, false), 1e-14, 0);
}

/* n points hold every polynomial up to order 2 n - 1. */
static void
normal__legendre_holds_polynomials(void **state)
{
	struct quadrature rule;
	double x[3 * 16], w[3 * 16];

	(void)state;
	for (size_t n = 2; n <= QUADRATURE_ORDER_MAX; n = n * 3 / 2 + 1) {
		stats_legendre(n, &rule);
		for (unsigned power = 0; power < 2 * n; power++) {
			double sum = 0;

			for (size_t i = 0; i < n; i++)
				sum += rule.w[i] * pow(rule.x[i], power);
			assert_near(sum, power % 2 ? 0 : 2.0 / (power + 1), 0,
				1e-14);
		}
	}
	stats_legendre(16, &rule);
	stats_panels(&rule, -1.3, 2.4, 3, x, w);
	{
		double sum = 0;

		for (size_t i = 0; i < 3 * 16; i++)
			sum += w[i] * exp(x[i]);
		assert_near(sum, exp(2.4) - exp(-1.3), 1e-14, 0);
	}
}

static const struct CMUnitTest tests[] = {
	TEST(normal__agrees_with_mpmath),
	TEST(normal__between_does_not_cancel),
	TEST(normal__legendre_holds_polynomials),
};

TEST_MAIN(tests)

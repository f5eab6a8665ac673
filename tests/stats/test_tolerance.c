/* test_tolerance.c - tolerance factors against R, print and drawing. */
#include "r_rows.h"

#include "core/rng.h"
#include "stats/tolerance.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include <gsl/gsl_randist.h>
#include <stdio.h>

static double
factor(struct fixture *f, bool two, size_t n, double content, double confidence)
{
	double k;

	assert_ok(two ? stats_tolerance_two_sided(
				n, content, confidence, &k, &f->err)
		      : stats_tolerance_one_sided(
				n, content, confidence, &k, &f->err),
		&f->err);
	return k;
}

static void
tolerance__agrees_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, n_one = 0, n_two = 0;
	const struct r_row *row = r_rows(f->a, "r/tolerance.csv", &n);

	for (size_t i = 0; i < n; i++) {
		bool two = r_is(&row[i], "tol.two");

		n_one += !two;
		n_two += two;
		/* quadrature in R, 11 digits */
		assert_near(factor(f, two, (size_t)r_number(f->a, &row[i], "n"),
				    r_number(f->a, &row[i], "P"),
				    r_number(f->a, &row[i], "conf")),
			row[i].value, 1e-9, 0);
	}
	assert_int_equal(144, n_one);
	assert_int_equal(144, n_two);
}

/* Odeh and Owen 1980, table 3.4.1, and other printed tables, to half a unit of
 * the last printed digit; sources beside each row. */
static void
tolerance__printed_factors(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/published_comparisons.csv"));
	size_t count = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		bool two = strcmp(csv.cell[i][0], "tol-two") == 0;
		const char *printed = csv.cell[i][2];
		const char *point = strchr(printed, '.');
		unsigned n;
		double content, confidence, half;

		if (!two && strcmp(csv.cell[i][0], "tol-one") != 0)
			continue;
		assert_int_equal(3,
			sscanf(csv.cell[i][1], "n=%u P=%lf conf=%lf", &n,
				&content, &confidence));
		half = 0.5 *
			pow(10,
				-(double)(point != NULL ? strlen(point) - 1
							: 0));
		assert_near(factor(f, two, n, content, confidence),
			strtod(printed, NULL), 0, half * 1.001);
		count++;
	}
	assert_int_equal(37, count);
}

/* The one-sided factor is a noncentral t quantile: libRmath's cdf, good to
 * about 1e-12 here, gives the confidence back. */
static void
tolerance__one_sided_is_noncentral_t(void **state)
{
	struct fixture *f = *state;

	for (size_t n = 2; n < 60; n = n * 7 / 4 + 1) {
		double content = 0.873, confidence = 0.917;
		double root_n = sqrt((double)n);
		double k = factor(f, false, n, content, confidence);

		assert_near(pnt(k * root_n, (double)n - 1,
				    root_n * qnorm5(content, 0, 1, true, false),
				    true, false),
			confidence, 1e-10, 0);
	}
	/* less than half the content, hardly sure: k may lie below 0 */
	assert_true(factor(f, false, 5, 0.113, 0.217) < 0);
}

/* A small share, surely held: k lies below 0 and its tail is small. */
static void
tolerance__small_shares(void **state)
{
	struct fixture *f = *state;
	const double z = qnorm5(0.01, 0, 1, true, false);
	double k = factor(f, false, 200, 0.01, 0.99);

	assert_near(pnt(k * sqrt(200), 199, sqrt(200) * z, true, false), 0.99,
		1e-10, 0);
	/* k is near normal with variance 1/n + z^2 / (2 (n - 1)); what the
	 * approximation leaves out is of the order of 1/n */
	k = factor(f, false, 1000000, 0.01, 0.99);
	assert_near(k, z - z * sqrt(1e-6 + z * z / 2 / 999999), 0, 1e-5);
}

/* Many values: the factor nears the normal quantile as sqrt(1 / n). */
static void
tolerance__many_values(void **state)
{
	struct fixture *f = *state;
	double z = qnorm5(0.975, 0, 1, true, false);

	assert_near(factor(f, true, 4000000, 0.95, 0.5), z, 0, 1e-5);
	assert_near(factor(f, false, 4000000, 0.975, 0.5), z, 0, 1e-5);
	assert_true(factor(f, true, 100, 0.95, 0.95) > z);
}

/* Drawn: the share of samples whose interval holds the content is the
 * confidence; seed fixed, four standard errors. */
static void
tolerance__drawing_agrees(void **state)
{
	enum { DRAWS = 200000, N = 6 };
	struct fixture *f = *state;
	const double content = 0.871, confidence = 0.813;
	double k = factor(f, true, N, content, confidence);
	gsl_rng *rng = rng_new(4417, 2);
	size_t held = 0;

	for (size_t i = 0; i < DRAWS; i++) {
		double mean = gsl_ran_gaussian(rng, 1 / sqrt(N));
		double sd = sqrt(gsl_ran_chisq(rng, N - 1) / (N - 1));
		double inside = pnorm5(mean + k * sd, 0, 1, true, false) -
			pnorm5(mean - k * sd, 0, 1, true, false);

		held += inside >= content;
	}
	gsl_rng_free(rng);
	assert_near((double)held / DRAWS, confidence, 0,
		4 * sqrt(confidence * (1 - confidence) / DRAWS));
}

static void
tolerance__refusals(void **state)
{
	struct fixture *f = *state;
	double k = 77;

	assert_int_equal(
		ERR_INPUT, stats_tolerance_one_sided(1, 0.9, 0.9, &k, &f->err));
	assert_string_equal("n", f->err.field);
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_tolerance_two_sided(5, 1.2, 0.9, &k, &f->err));
	assert_string_equal("content", f->err.field);
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_tolerance_two_sided(5, 0.9, NAN, &k, &f->err));
	assert_string_equal("confidence", f->err.field);
	assert_near(k, 77, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(tolerance__agrees_with_r),
	TEST(tolerance__printed_factors),
	TEST(tolerance__one_sided_is_noncentral_t),
	TEST(tolerance__small_shares),
	TEST(tolerance__many_values),
	TEST(tolerance__drawing_agrees),
	TEST(tolerance__refusals),
};

TEST_MAIN(tests)

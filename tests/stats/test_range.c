/* test_range.c - the studentized range against R, mpmath and Student's t. */
#include "r_rows.h"

#include "stats/range.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include <jansson.h>

/* The fixtures are deterministic quadrature in R, good to 12 digits; R's own
 * ptukey is not used for them. */
static const double r_tolerance = 1e-9;

static double
upper(struct fixture *f, double q, size_t k, double df)
{
	double p;

	assert_ok(stats_range_upper(q, k, df, &p, &f->err), &f->err);
	return p;
}

static double
critical(struct fixture *f, double alpha, size_t k, double df)
{
	double q;

	assert_ok(stats_range_critical(alpha, k, df, &q, &f->err), &f->err);
	return q;
}

static void
range__agrees_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, n_q = 0, n_p = 0;
	const struct r_row *row = r_rows(f->a, "r/tukey.csv", &n);

	for (size_t i = 0; i < n; i++) {
		if (r_is(&row[i], "tukey.q")) {
			double p = r_number(f->a, &row[i], "p");

			assert_near(
				critical(f, 1 - p,
					(size_t)r_number(f->a, &row[i], "k"),
					r_number(f->a, &row[i], "df")),
				row[i].value, r_tolerance, 0);
			n_q++;
		} else if (r_is(&row[i], "tukey.upper")) {
			assert_near(
				upper(f, r_number(f->a, &row[i], "q"),
					(size_t)r_number(f->a, &row[i], "k"),
					r_number(f->a, &row[i], "df")),
				row[i].value, r_tolerance, 0);
			n_p++;
		}
	}
	assert_int_equal(128, n_q);
	assert_int_equal(256, n_p);
}

/* 72 values of 20 digits, made with mpmath and published with SciPy's tests;
 * they are of the lower tail, so one minus ours holds 1e-14 absolutely. */
static void
range__agrees_with_mpmath(void **state)
{
	struct fixture *f = *state;
	json_error_t fault;
	json_t *root = json_load_file(
		support_path("r/studentized_range_mpmath_ref.json"), 0, &fault);
	json_t *data = json_object_get(root, "cdf_data"), *item;
	size_t i, n = 0;
	double worst = 0;

	assert_non_null(data);
	json_array_foreach(data, i, item)
	{
		json_t *in = json_object_get(item, "src_case");
		double q = json_number_value(json_object_get(in, "q"));
		double k = json_number_value(json_object_get(in, "k"));
		double df = json_number_value(json_object_get(in, "v"));
		double want = json_number_value(
			json_object_get(item, "mp_result"));
		double got = 1 - upper(f, q, (size_t)k, df);

		worst = fmax(worst, fabs(got - want));
		assert_near(got, want, 0, 1e-14);
		n++;
	}
	print_message("72 values of mpmath: worst difference %.2g\n", worst);
	assert_int_equal(72, n);
	json_decref(root);
}

/* Two groups: Q = sqrt(2) |t|, in the far tail too. */
static void
range__two_groups_are_a_t_test(void **state)
{
	struct fixture *f = *state;
	const double dfs[] = {1, 2, 3.7, 8, 40, 1e5};

	for (size_t i = 0; i < sizeof dfs / sizeof dfs[0]; i++) {
		for (double t = 0.0317; t < 3e3; t *= 3.3) {
			double want = 2 * pt(t, dfs[i], false, false);

			if (want > 1e-290)
				assert_near(upper(f, t * M_SQRT2, 2, dfs[i]),
					want, 1e-11, 0);
		}
		assert_near(critical(f, 0.0317, 2, dfs[i]),
			M_SQRT2 * qt(0.0317 / 2, dfs[i], false, false), 1e-11,
			0);
	}
}

static void
range__more_groups_reach_farther(void **state)
{
	struct fixture *f = *state;
	double last = 0;

	for (size_t k = 2; k < 300; k = k * 7 / 4) {
		double p = upper(f, 4.417, k, 9.3);

		assert_true(p > last && p < 1);
		last = p;
		assert_near(
			upper(f, critical(f, p, k, 9.3), k, 9.3), p, 1e-11, 0);
	}
	assert_near(upper(f, 0, 5, 3.2), 1, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(range__agrees_with_r),
	TEST(range__agrees_with_mpmath),
	TEST(range__two_groups_are_a_t_test),
	TEST(range__more_groups_reach_farther),
};

TEST_MAIN(tests)

/* test_linear.c - stats/linear and "regress": identities, hand-worked values,
 * every refusal.  NIST StRD stands in test_digits.c. */
#include "support.h"

#include "stats/linear.h"

#include <math.h>
#include <string.h>

static void
linear__three_points_by_hand(void **state)
{
	struct fixture *f = *state;
	/* By hand: x mean 2, y mean 7/3; Sxy 3, Sxx 2, so slope 1.5,
	 * intercept -2/3; residuals 1/6 -1/3 1/6, ss 1/6, df 1; regression
	 * ss 4.5, F 27; se of the slope sqrt(1/12); p of F(1,1) =
	 * 1 - 2/pi atan(sqrt(27)). */
	const char *got = support_calc(
		f->a, "regress", "{\"x\": [1, 2, 3], \"y\": [1, 2, 4]}");

	/* a few roundings of a double */
	assert_near(support_get(got, "coefficients[0]"), -2.0 / 3, 1e-15, 0);
	assert_near(support_get(got, "coefficients[1]"), 1.5, 1e-15, 0);
	assert_near(support_get(got, "standard_errors[1]"), sqrt(1.0 / 12),
		1e-14, 0);
	assert_near(support_get(got, "residual_sd"), sqrt(1.0 / 6), 1e-14, 0);
	assert_near(support_get(got, "r_squared"), 27.0 / 28, 1e-15, 0);
	assert_near(support_get(got, "f"), 27, 1e-13, 0);
	assert_near(
		support_get(got, "p"), 1 - 2 / M_PI * atan(sqrt(27)), 1e-13, 0);
	assert_near(support_get(got, "df"), 1, 0, 0);
}

static void
linear__polynomial_is_the_regression_on_powers(void **state)
{
	struct fixture *f = *state;
	const char *a = support_calc(f->a, "regress",
		"{\"x\": [1.3, 2.1, 3.7, 5.2, 7.9], \"degree\": 2,"
		" \"y\": [2.385, 1.07, 3.91, 7.713, 5.5]}");
	/* squares worked by hand, exact in decimal */
	const char *b = support_calc(f->a, "regress",
		"{\"x\": [[1.3, 1.69], [2.1, 4.41], [3.7, 13.69],"
		" [5.2, 27.04], [7.9, 62.41]],"
		" \"y\": [2.385, 1.07, 3.91, 7.713, 5.5]}");
	const char *const path[] = {"coefficients[0]", "coefficients[1]",
		"coefficients[2]", "standard_errors[0]", "standard_errors[1]",
		"standard_errors[2]", "residual_sd", "f", "p"};

	/* the rounding of the squares, times a condition near 100 */
	for (size_t i = 0; i < sizeof path / sizeof path[0]; i++)
		assert_near(support_get(a, path[i]), support_get(b, path[i]),
			1e-13, 0);
}

static void
linear__exact_and_saturated_fits_say_so(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(
		f->a, "regress", "{\"x\": [1, 2, 3, 4], \"y\": [3, 5, 7, 9]}");

	assert_near(support_get(got, "residual_sd"), 0, 0, 0);
	assert_near(support_get(got, "p"), 0, 0, 0);
	assert_has(got, "\"f\": null");
	assert_has(got, "exact to the rounding");
	got = support_calc(f->a, "regress", "{\"x\": [1, 2], \"y\": [3, 4]}");
	assert_near(support_get(got, "coefficients[1]"), 1, 1e-15, 0);
	assert_has(got, "\"standard_errors\": [null, null]");
	got = support_calc(
		f->a, "regress", "{\"x\": [1, 2, 3], \"y\": [3, 3, 3]}");
	assert_near(support_get(got, "coefficients[0]"), 3, 1e-15, 0);
	assert_has(got, "y does not vary");
}

static void
linear__every_refusal_names_its_key(void **state)
{
	static const struct {
		const char *question, *field, *says;
	} bad[] = {
		{"{\"x\": [1, 2, 3], \"y\": [1, 2]}", "y", "2 numbers"},
		{"{\"x\": [1, 1, 1], \"y\": [1, 2, 4]}", "x", "same number"},
		{"{\"x\": [[1, 2], [2, 4], [3, 6], [4, 8]],"
		 " \"y\": [1, 2, 4, 3]}",
			"x", "combination"},
		{"{\"x\": [5], \"y\": [3]}", "y", "at least as many rows"},
		{"{\"x\": [1, 1, 2, 2], \"y\": [3, 5, 7, 9], \"degree\": 2}",
			"x", "too few different"},
		{"{\"x\": [[1, 2], [2]], \"y\": [1, 2]}", "x[1]", "row of 2"},
		{"{\"x\": [[]], \"y\": [1]}", "x", "rows"},
		{"{\"x\": \"a\", \"y\": [1]}", "x", "takes"},
		{"{\"x\": [1, 2, null], \"y\": [1, 2, 3]}", "x", "takes"},
		{"{\"x\": [0, 0], \"y\": [1, 2], \"intercept\": false}", "x",
			"0 in every row"},
		{"{\"x\": [0, 0, 0], \"y\": [1, 2, 3], \"degree\": 2}", "x",
			"same number"},
		{"{\"x\": [[1, 2], [2, 5]], \"y\": [1, 2], \"degree\": 1}",
			"degree", "one x"},
		{"{\"x\": [1, 2], \"y\": [1, 2], \"degree\": 99}", "degree",
			"takes"},
		{"{\"x\": [1, 2], \"y\": [1, 2], \"slope\": 3}", "slope", ""},
	};

	(void)state;
	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		struct err err = support_calc_refused(
			"regress", bad[i].question);

		assert_int_equal(ERR_INPUT, err.code);
		assert_int_equal(0,
			strncmp(err.field, bad[i].field, strlen(bad[i].field)));
		assert_has(err.text, bad[i].says);
	}
}

static void
linear__nan_and_no_memory_leave_the_answer_alone(void **state)
{
	struct fixture *f = *state;
	const double x[] = {1, 2, 4}, y[] = {1, (double)NAN, 3};
	const double good[] = {1, 2, 3.5};
	struct arena *small = arena_new(64);
	struct stats_linear got = {.df = 77};

	assert_int_equal(ERR_INPUT,
		stats_linear_fit(f->a, x, 3, 1, y, true, &got, &f->err));
	err_clear(&f->err);
	assert_int_equal(ERR_MEMORY,
		stats_linear_fit(small, x, 3, 1, good, true, &got, &f->err));
	assert_int_equal(77, got.df);
	arena_free(small);
}

static const struct CMUnitTest tests[] = {
	TEST(linear__three_points_by_hand),
	TEST(linear__polynomial_is_the_regression_on_powers),
	TEST(linear__exact_and_saturated_fits_say_so),
	TEST(linear__every_refusal_names_its_key),
	TEST(linear__nan_and_no_memory_leave_the_answer_alone),
};

TEST_MAIN(tests)

/* test_nonlinear.c - written formulas, their slopes, and curves fitted.
 *
 * NIST's certified problems are in test_digits.c. */
#include "support.h"

#include "stats/formula.h"
#include "stats/nonlinear.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *const variables[] = {"x"};
static const char *const parameters[] = {"a", "b"};

static struct stats_formula_names
names_of(size_t n_parameter)
{
	return (struct stats_formula_names){.variable = variables,
		.n_variable = 1,
		.parameter = parameters,
		.n_parameter = n_parameter};
}

/* Value and slopes of a formula of x, a and b. */
static long double
work_out(struct fixture *f, const char *text, double x, double a, double b,
	long double slope[2])
{
	struct stats_formula_names names = names_of(2);
	struct stats_formula *formula;
	const long double at[] = {(long double)a, (long double)b};
	long double value;

	assert_ok(stats_formula_read(f->a, text, &names, &formula, &f->err),
		&f->err);
	assert_true(stats_formula_at(formula, &x, at, &value, slope));
	return value;
}

/* Each formula beside the C that means the same, at awkward places. */
static void
formula__reads_as_it_is_written(void **state)
{
	const double x = 1.37, a = 0.83, b = -2.19;
	const struct {
		const char *text;
		double value;
	} by_hand[] = {
		{"a+b*x", a + b * x},
		{"a - b - x", a - b - x},
		{"a / b / x", a / b / x},
		{"-x^2 + a*b", -x * x + a * b},
		{"(-x)^2 + 0*a*b", x * x},
		{"2^a^x + 0*b", pow(2, pow(a, x))},
		{"x**-2*a*b", a * b / (x * x)},
		{"a*exp[b/(x+3.1e1)]", a * exp(b / (x + 31))},
		{"--a + +b", a + b},
		{"sin(a)*cos(b)*tan(x)", sin(a) * cos(b) * tan(x)},
		{"arctan(b)/pi + sqrt(a)",
			atan(b) / 3.14159265358979323846 + sqrt(a)},
		{"log(a)*atan(b)*.5", log(a) * atan(b) / 2},
		{" a *\n(1-exp(-x*(b)))", a * (1 - exp(-x * b))},
	};
	long double slope[2];

	for (size_t i = 0; i < sizeof by_hand / sizeof by_hand[0]; i++)
		/* Doubles by hand beside long doubles. */
		assert_near((double)work_out(
				    *state, by_hand[i].text, x, a, b, slope),
			by_hand[i].value, 1e-14, 0);
}

/* Slopes against central differences of the long double value: the step 1e-6
 * leaves 1e-12 of curvature and 1e-13 of rounding. */
static void
formula__slopes_are_those_of_the_value(void **state)
{
	static const char *const text[] = {"a*b*x + a/b", "a^b + x^a + b^2",
		"exp(a*x)/log(a+3) - sqrt(a*a+b*b)",
		"sin(a)^2*cos(b)+tan(a*b*x)", "atan(a/b) - a/(b+x)^3",
		"(a+b*x)^(-1/a)*0+a*(9+b*x)^(-1/a)", "-a-(-b)", "pi*a^2/b^-1"};
	struct fixture *f = *state;
	const double x = 0.71, a = 1.29, b = 0.47, h = 1e-6;
	long double slope[2], spare[2];

	for (size_t i = 0; i < sizeof text / sizeof text[0]; i++) {
		long double by_a = work_out(f, text[i], x, a + h, b, spare) -
			work_out(f, text[i], x, a - h, b, spare);
		long double by_b = work_out(f, text[i], x, a, b + h, spare) -
			work_out(f, text[i], x, a, b - h, spare);

		(void)work_out(f, text[i], x, a, b, slope);
		assert_near(
			(double)slope[0], (double)by_a / (2 * h), 1e-9, 1e-9);
		assert_near(
			(double)slope[1], (double)by_b / (2 * h), 1e-9, 1e-9);
	}
}

static void
formula__says_where_it_is_wrong(void **state)
{
	static const struct {
		const char *text, *part;
	} wrong[] = {
		{"", "ends too early at character 1"},
		{"a +", "ends too early at character 4"},
		{"a b", "not expected at character 3"},
		{"a*(b", "A \")\" is missing at character 5"},
		{"a*exp[b)", "A \"]\" is missing at character 8"},
		{"a*exp b", "A \"(\" is missing"},
		{"a*c", "a name that is not known at character 3"},
		{"a*b*$", "not expected at character 5"},
		{"a*b*1e999", "no number that can be used"},
		{"a*x", "\"b\" does not occur"},
		{"a*bbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbbb", "too long"},
	};
	struct fixture *f = *state;
	struct stats_formula_names names = names_of(2);
	struct stats_formula *formula = NULL;
	char deep[300];

	for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
		err_clear(&f->err);
		assert_int_equal(stats_formula_read(f->a, wrong[i].text, &names,
					 &formula, &f->err),
			ERR_INPUT);
		assert_string_equal(f->err.field, "model");
		assert_has(f->err.text, wrong[i].part);
	}
	for (size_t k = 0; k < 2; k++) {
		memset(deep, k == 0 ? '(' : '-', sizeof deep - 1);
		deep[sizeof deep - 1] = '\0';
		err_clear(&f->err);
		assert_int_equal(stats_formula_read(
					 f->a, deep, &names, &formula, &f->err),
			ERR_INPUT);
		assert_has(f->err.text, k == 0 ? "too deep" : "too many signs");
	}
	assert_null(formula);
}

static void
formula__refuses_names_that_are_taken(void **state)
{
	static const char *const bad[] = {
		"x", "exp", "pi", "2a", "a b", "", "a"};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		const char *both[] = {"a", bad[i]};
		struct stats_formula_names names = names_of(2);
		struct stats_formula *formula;

		names.parameter = both;
		err_clear(&f->err);
		assert_int_equal(stats_formula_read(f->a, "a+x", &names,
					 &formula, &f->err),
			ERR_INPUT);
		assert_has(f->err.text, "cannot name a parameter");
	}
}

struct data {
	const double *x;
	struct stats_formula *formula;
};

static bool
curve_at(const void *data, size_t row, const long double *b, long double *value,
	long double *slope)
{
	const struct data *d = data;

	return stats_formula_at(d->formula, &d->x[row], b, value, slope);
}

static enum err_code
fit(struct fixture *f, const char *text, const double *x, const double *y,
	size_t n, const double *start, size_t n_parameter,
	struct stats_nonlinear *got)
{
	struct stats_formula_names names = names_of(n_parameter);
	struct data data = {.x = x};
	struct stats_nonlinear_ask ask = {.curve = curve_at,
		.data = &data,
		.y = y,
		.n_row = n,
		.n_parameter = n_parameter,
		.start = start};

	err_clear(&f->err);
	assert_ok(
		stats_formula_read(f->a, text, &names, &data.formula, &f->err),
		&f->err);
	return stats_nonlinear_fit(f->a, &ask, got, &f->err);
}

/* A straight line fitted as a curve: x = 1, 2, 3 and y = 1, 2, 4 by hand have
 * intercept -2/3, slope 3/2, squares 1/6, errors sqrt(1/6 (1/3 + 2)) and
 * sqrt(1/12). */
static void
nonlinear__a_line_by_hand(void **state)
{
	static const double x[] = {1, 2, 3}, y[] = {1, 2, 4};
	static const double start[] = {41.7, -317};
	struct stats_nonlinear got;
	struct fixture *f = *state;

	assert_ok(fit(f, "a+b*x", x, y, 3, start, 2, &got), &f->err);
	assert_near(got.parameter[0], -2. / 3, 1e-15, 0);
	assert_near(got.parameter[1], 1.5, 1e-15, 0);
	assert_near(got.residual_ss, 1. / 6, 1e-15, 0);
	assert_near(got.standard_error[0], sqrt(7. / 18), 1e-14, 0);
	assert_near(got.standard_error[1], sqrt(1. / 12), 1e-14, 0);
	assert_int_equal(got.df, 1);
}

/* Data on the curve, to the rounding of y. */
static void
nonlinear__an_exact_curve_is_found(void **state)
{
	static const double start[] = {1, 1};
	struct fixture *f = *state;
	struct stats_nonlinear got;
	double x[9], y[9];

	for (size_t i = 0; i < 9; i++) {
		x[i] = 0.31 * (double)(i + 1);
		y[i] = 2.385 * (1 - exp(-0.613 * x[i]));
	}
	assert_ok(fit(f, "a*(1-exp(-b*x))", x, y, 9, start, 2, &got), &f->err);
	assert_near(got.parameter[0], 2.385, 1e-13, 0);
	assert_near(got.parameter[1], 0.613, 1e-13, 0);
}

/* As many parameters as rows: solved, without errors. */
static void
nonlinear__as_many_parameters_as_rows(void **state)
{
	static const double x[] = {1.3, 2.9}, y[] = {4.1, 7.7};
	static const double start[] = {1, 0.3};
	struct stats_nonlinear got;
	struct fixture *f = *state;

	assert_ok(fit(f, "a*exp(b*x)", x, y, 2, start, 2, &got), &f->err);
	assert_near(got.parameter[1], log(7.7 / 4.1) / 1.6, 1e-13, 0);
	assert_false(got.has_error);
	assert_int_equal(got.df, 0);
}

static void
nonlinear__says_what_cannot_be(void **state)
{
	static const double x[] = {1.3, 2.9, 4.4}, y[] = {4.1, 7.7, 6.3};
	static const double bad_y[] = {4.1, (double)NAN, 6.3};
	static const double start[] = {1, 0.3}, far[] = {1, 9000};
	struct stats_nonlinear got = {.df = 77};
	struct fixture *f = *state;

	assert_int_equal(
		fit(f, "a*exp(b*x)", x, y, 1, start, 2, &got), ERR_INPUT);
	assert_string_equal(f->err.field, "y");
	assert_int_equal(
		fit(f, "a*exp(b*x)", x, bad_y, 3, start, 2, &got), ERR_INPUT);
	assert_string_equal(f->err.field, "y");
	assert_int_equal(
		fit(f, "a*exp(b*x)", x, y, 3, far, 2, &got), ERR_INPUT);
	assert_string_equal(f->err.field, "start");
	/* a and b only as their sum. */
	assert_int_equal(
		fit(f, "(a+b)*x", x, y, 3, start, 2, &got), ERR_NUMERIC);
	assert_has(f->err.text, "cannot tell the parameters");
	assert_int_equal(got.df, 77);
}

static void
nonlinear__calc_speaks_json(void **state)
{
	struct fixture *f = *state;
	const char *answer = support_calc(f->a, "nonlinear",
		"{\"model\": \"c1 + c2*x1*x2\", \"x\": [[1,2],[2,3],[4,1],"
		"[3,5]], \"y\": [5, 13, 9, 31.5], "
		"\"start\": {\"c1\": 0, \"c2\": 0}}");
	struct err err = {.code = ERR_NONE};

	/* A line on x1 x2 = 2, 6, 4, 15: slope 201.625 / 98.75 by hand. */
	assert_near(support_get(answer, "coefficients.c2.estimate"),
		201.625 / 98.75, 1e-14, 0);
	err = support_calc_refused("nonlinear",
		"{\"model\": \"k*x^2+q\", \"x\": [1,2], \"y\": [1,2], "
		"\"start\": {\"k\": 1}}");
	assert_string_equal(err.field, "model");
	err = support_calc_refused("nonlinear",
		"{\"model\": \"k*x\", \"x\": [1,2,3], \"y\": [1,2], "
		"\"start\": {\"k\": 1}}");
	assert_string_equal(err.field, "y");
	err = support_calc_refused("nonlinear",
		"{\"model\": \"k*x\", \"x\": [1,2], \"y\": [1,2], "
		"\"start\": {}}");
	assert_string_equal(err.field, "start");
	err = support_calc_refused("nonlinear",
		"{\"model\": \"k*x\", \"x\": [[1,2],[3]], \"y\": [1,2], "
		"\"start\": {\"k\": 1}}");
	assert_string_equal(err.field, "x");
}

static const struct CMUnitTest tests[] = {
	TEST(formula__reads_as_it_is_written),
	TEST(formula__slopes_are_those_of_the_value),
	TEST(formula__says_where_it_is_wrong),
	TEST(formula__refuses_names_that_are_taken),
	TEST(nonlinear__a_line_by_hand),
	TEST(nonlinear__an_exact_curve_is_found),
	TEST(nonlinear__as_many_parameters_as_rows),
	TEST(nonlinear__says_what_cannot_be),
	TEST(nonlinear__calc_speaks_json),
};

TEST_MAIN(tests)

/* test_run_length.c - run lengths against print, two other programs' integral
 * equations and drawing. */
#include "r_rows.h"

#include "core/rng.h"
#include "stats/run_length.h"
#include "stats/run_rules.h"

#include <gsl/gsl_randist.h>

static double
shewhart(struct fixture *f, double limit, double shift, int sides)
{
	double arl;

	assert_ok(stats_run_shewhart(limit, shift, sides, &arl, &f->err),
		&f->err);
	return arl;
}

static double
ewma(struct fixture *f, double lambda, double width, double shift, int sides)
{
	double arl;

	assert_ok(stats_run_ewma(
			  f->a, lambda, width, shift, sides, &arl, &f->err),
		&f->err);
	return arl;
}

static double
cusum(struct fixture *f, double k, double h, double start, double shift,
	int sides)
{
	double arl;

	assert_ok(
		stats_run_cusum(f->a, k, h, start, shift, sides, &arl, &f->err),
		&f->err);
	return arl;
}

/* The number after "key=" in a row of the trade's values; `missing` if none. */
static double
input(const char *inputs, const char *key, double missing)
{
	size_t length = strlen(key);

	for (const char *p = inputs; p != NULL; p = strchr(p, ';')) {
		p += strspn(p, "; ");
		if (strncmp(p, key, length) == 0 && p[length] == '=')
			return strtod(p + length + 1, NULL);
	}
	return missing;
}

/* Of one row of trade-b.csv; below 0 if it is not one of ours. */
static double
of_row(struct fixture *f, const char *quantity, const char *inputs)
{
	int sides = strstr(quantity, "one-sided") != NULL ? 1 : 2;
	double shift = input(inputs, "shift", 0);

	if (strncmp(quantity, "Shewhart", 8) == 0)
		return shewhart(f, 3, shift, 2);
	if (strncmp(quantity, "EWMA ARL", 8) == 0)
		return ewma(f, input(inputs, "lambda", NAN),
			input(inputs, "L", NAN), shift, 2);
	if (strncmp(quantity, "CUSUM", 5) == 0)
		return cusum(f, input(inputs, "k", NAN),
			input(inputs, "h", NAN),
			input(inputs, "hs", input(inputs, "s0", 0)), shift,
			sides);
	return -1;
}

/* Each row of tests/data/trade-b.csv names its paper (Lucas and Saccucci 1990,
 * Lucas and Crosier 1982, Crowder 1987, Steiner 1999, Vance 1986, Waldmann 1986
 * and others) and carries half a unit of its last printed digit or more: the
 * papers' own quadratures were coarse. */
static void
run_length__printed_tables(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("trade-b.csv"));
	size_t quantity = support_csv_column(&csv, "quantity");
	size_t inputs = support_csv_column(&csv, "inputs");
	size_t expected = support_csv_column(&csv, "expected");
	size_t tolerance = support_csv_column(&csv, "tolerance");
	size_t count = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		double got = of_row(
			f, csv.cell[i][quantity], csv.cell[i][inputs]);

		if (got < 0)
			continue;
		assert_near(got, strtod(csv.cell[i][expected], NULL), 0,
			strtod(csv.cell[i][tolerance], NULL));
		count++;
	}
	assert_int_equal(199, count);
}

static double
of_r(struct fixture *f, const struct r_row *row)
{
	if (r_is(row, "arl.shewhart"))
		return shewhart(f, 3, r_number(f->a, row, "delta"), 2);
	if (r_is(row, "arl.ewma"))
		return ewma(f, r_number(f->a, row, "lambda"),
			r_number(f->a, row, "L"), r_number(f->a, row, "delta"),
			2);
	if (strncmp(row->id, "arl.cusum", 9) == 0 &&
		!r_is(row, "arl.cusum.h")) {
		double h = r_number(f->a, row, "h");

		return cusum(f, r_number(f->a, row, "k"), h,
			r_is(row, "arl.cusum1.fir") ? h / 2 : 0,
			r_number(f->a, row, "mu"),
			r_is(row, "arl.cusum2") ? 2 : 1);
	}
	return -1;
}

/* R 4.2.2 with the package spc, 120 or 150 nodes.  It forms I - A, so that it
 * loses as many digits as the length has; 2e-8 at its largest, 8e7. */
static void
run_length__agrees_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, count = 0;
	const struct r_row *row = r_rows(f->a, "r/run_length.csv", &n);

	for (size_t i = 0; i < n; i++) {
		double got = of_r(f, &row[i]);

		if (got < 0)
			continue;
		assert_near(got, row[i].value, 1e-11 + 1e-15 * row[i].value, 0);
		count++;
	}
	assert_int_equal(323, count);
}

/* The limits that R found for a wanted length, by a secant to 7 digits; a chart
 * of length 500 turns 1e-6 of its limit into 1e-5 of its length. */
static void
run_length__wanted_lengths(void **state)
{
	struct fixture *f = *state;
	size_t n, count = 0;
	const struct r_row *row = r_rows(f->a, "r/run_length.csv", &n);

	for (size_t i = 0; i < n; i++) {
		double got;

		if (r_is(&row[i], "arl.cusum.h"))
			got = cusum(f, r_number(f->a, &row[i], "k"),
				row[i].value, 0, 0, 2);
		else if (r_is(&row[i], "arl.ewma.L"))
			got = ewma(f, r_number(f->a, &row[i], "lambda"),
				row[i].value, 0, 2);
		else
			continue;
		assert_near(got, r_number(f->a, &row[i], "ARL0"), 1e-5, 0);
		count++;
	}
	assert_int_equal(24, count);
}

/* With all weight on the newest point an EWMA is a Shewhart chart; the two are
 * computed in ways that share nothing but the normal tail. */
static void
run_length__ewma_of_one_is_shewhart(void **state)
{
	struct fixture *f = *state;

	for (double width = 0.371; width < 30; width *= 1.87)
		for (double shift = -1.37; shift < 5; shift += 1.613)
			for (int sides = 1; sides <= 2; sides++)
				assert_near(ewma(f, 1, width, shift, sides),
					shewhart(f, width, shift, sides), 1e-11,
					0);
	assert_near(ewma(f, 1 - 1e-9, 2.7, 0.4, 2), shewhart(f, 2.7, 0.4, 2),
		1e-7, 0); /* continuous in lambda */
}

/* A CUSUM whose sum can hold no more than nothing is a Shewhart chart. */
static void
run_length__cusum_of_no_decision_is_shewhart(void **state)
{
	struct fixture *f = *state;

	assert_near(cusum(f, 2.385, 1e-12, 0, 0.417, 1),
		shewhart(f, 2.385, 0.417, 1), 1e-10, 0);
}

/* A tiny lambda: z is near an Ornstein-Uhlenbeck walk, whose mean exit time depends
 * on lambda alone by scale; the error of the scaling is of the order of the
 * step over the limit, 0.6 sqrt(lambda (2 - lambda)) / width each side (the
 * overshoot, Siegmund 1985), so 2e-3 between these two. */
static void
run_length__tiny_lambda_scales(void **state)
{
	struct fixture *f = *state;
	double a = 4e-6 * ewma(f, 4e-6, 2.437, 0, 2);
	double b = 1e-6 * ewma(f, 1e-6, 2.437, 0, 2);

	assert_near(a, b, 4e-3, 0);
	assert_true(a > b); /* the overshoot lengthens the run */
}

/* Mean drift down: lengths grow as exp(2 k h), and Wald's two exponentials give
 * how much from one h to the next. */
static void
run_length__huge_decisions(void **state)
{
	struct fixture *f = *state;
	double k = 0.473;
	double a = cusum(f, k, 190, 0, 0, 1), b = cusum(f, k, 193.7, 0, 0, 1);

	assert_near(log(b / a), 2 * k * 3.7, 1e-9, 0);
	/* and with the mean drifting up one h more is 1 / drift more points */
	assert_near(cusum(f, k, 1203, 0, 1, 1) - cusum(f, k, 1003, 0, 1, 1),
		200 / (1 - k), 1e-7, 0);
}

struct drawn {
	double mean, error;
};

/* The chart itself, point by point. */
static struct drawn
draw(gsl_rng *rng, bool is_ewma, int sides, double a, double b, double shift)
{
	enum { RUNS = 20000 };
	double sum = 0, squares = 0;
	double limit = b * sqrt(a / (2 - a));

	for (size_t i = 0; i < RUNS; i++) {
		double up = 0, down = 0, steps = 0;
		bool signals = false;

		while (!signals) {
			double x = shift + gsl_ran_gaussian_ziggurat(rng, 1);

			steps++;
			if (is_ewma) {
				up = (1 - a) * up + a * x;
				up = sides == 1 ? fmax(0, up) : up;
				signals = fabs(up) > limit;
			} else {
				up = fmax(0, up + x - a);
				down = fmax(0, down - x - a);
				signals = up > b || (sides == 2 && down > b);
			}
		}
		sum += steps;
		squares += steps * steps;
	}
	sum /= RUNS;
	return (struct drawn){sum, sqrt((squares / RUNS - sum * sum) / RUNS)};
}

/* Drawn charts: within four standard errors, which are under 1 %. */
static void
run_length__drawing_agrees(void **state)
{
	static const struct {
		double a, b, shift;
		bool is_ewma;
		int sides;
	} chart[] = {{0.13, 2.31, 0, true, 2}, {0.37, 2.72, 0.83, true, 2},
		{0.22, 2.06, 0.19, true, 1}, {0.41, 3.17, 0, false, 2},
		{0.66, 3.92, 0.71, false, 2}, {0.31, 2.87, 0, false, 1}};
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(8831, 1);

	for (size_t i = 0; i < sizeof chart / sizeof chart[0]; i++) {
		int sides = chart[i].sides;
		double a = chart[i].a, b = chart[i].b, shift = chart[i].shift;
		struct drawn got = draw(
			rng, chart[i].is_ewma, sides, a, b, shift);
		double want = chart[i].is_ewma
			? ewma(f, a, b, shift, sides)
			: cusum(f, a, b, 0, shift, sides);

		assert_near(got.mean, want, 0, 4 * got.error);
		assert_true(got.error < 0.01 * want);
	}
	gsl_rng_free(rng);
}

/* "1", "13", "1234": the rules by the numbers of Champ and Woodall. */
static double
with_rules(struct fixture *f, const char *numbers, double shift)
{
	const struct stats_run_rules rules = {
		.two_of_three_beyond_two = strchr(numbers, '2') != NULL,
		.four_of_five_beyond_one = strchr(numbers, '3') != NULL,
		.eight_on_one_side = strchr(numbers, '4') != NULL};
	double arl;

	assert_ok(stats_run_rules(f->a, &rules, shift, &arl, &f->err), &f->err);
	return arl;
}

/* Champ and Woodall 1987, table 1, and the combinations (rows T40, T41 and T63
 * of trade-b.csv): two decimals. */
static void
run_rules__printed_tables(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("trade-b.csv"));
	size_t count = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		char numbers[8] = "";
		const char *inputs = csv.cell[i][3];

		if (strncmp(csv.cell[i][2], "runs rules", 10) != 0)
			continue;
		assert_int_equal(1, sscanf(inputs, "rules %7[0-9]", numbers));
		assert_near(with_rules(f, numbers,
				    strstr(csv.cell[i][2], "at 1 sigma") != NULL
					    ? 1
					    : input(inputs, "shift", 0)),
			strtod(csv.cell[i][4], NULL), 0, 0.0061);
		count++;
	}
	assert_int_equal(73, count);
}

/* R 4.2.2, spc: 12 digits less what its matrix loses. */
static void
run_rules__agree_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, count = 0;
	const struct r_row *row = r_rows(f->a, "r/run_length.csv", &n);

	for (size_t i = 0; i < n; i++) {
		if (!r_is(&row[i], "arl.runsrules"))
			continue;
		assert_near(with_rules(f, r_text(f->a, &row[i], "type"),
				    r_number(f->a, &row[i], "delta")),
			row[i].value, 1e-10, 0);
		count++;
	}
	assert_int_equal(20, count);
	/* with the first rule alone it is the Shewhart chart */
	for (double shift = -2.3; shift < 5; shift += 0.91)
		assert_near(with_rules(f, "1", shift), shewhart(f, 3, shift, 2),
			1e-11, 0);
	assert_near(with_rules(f, "1234", 0.77), with_rules(f, "1234", -0.77),
		1e-12, 0); /* mirror */
}

static void
run_length__refusals(void **state)
{
	struct fixture *f = *state;
	struct arena *small = arena_new(4096);
	double arl = 77;

	assert_int_equal(
		ERR_NUMERIC, stats_run_shewhart(50, 0, 2, &arl, &f->err));
	assert_has(f->err.text, "never signals");
	err_clear(&f->err);
	assert_int_equal(ERR_NUMERIC,
		stats_run_cusum(f->a, 0.5, 1000, 0, 0, 2, &arl, &f->err));
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_run_ewma(f->a, 1.01, 3, 0, 2, &arl, &f->err));
	assert_string_equal("lambda", f->err.field);
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_run_ewma(f->a, 1e-12, 3, 0, 2, &arl, &f->err));
	assert_has(f->err.text, "steps of the chart apart");
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		stats_run_cusum(f->a, 0.5, 4, 2.51, 0, 2, &arl, &f->err));
	assert_string_equal("head_start", f->err.field);
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_run_shewhart(3, NAN, 2, &arl, &f->err));
	assert_string_equal("shift", f->err.field);
	err_clear(&f->err);
	assert_int_equal(ERR_MEMORY,
		stats_run_cusum(small, 0.5, 4, 0, 0, 2, &arl, &f->err));
	arena_free(small);
	assert_near(arl, 77, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(run_length__printed_tables),
	TEST(run_length__agrees_with_r),
	TEST(run_length__wanted_lengths),
	TEST(run_length__ewma_of_one_is_shewhart),
	TEST(run_length__cusum_of_no_decision_is_shewhart),
	TEST(run_length__tiny_lambda_scales),
	TEST(run_length__huge_decisions),
	TEST(run_length__drawing_agrees),
	TEST(run_rules__printed_tables),
	TEST(run_rules__agree_with_r),
	TEST(run_length__refusals),
};

TEST_MAIN(tests)

/* test_characteristic.c - the 5 % fractile against table D.1 of EN 1990. */
#include "support.h"

#include "stats/characteristic.h"

#include <math.h>

/* Values of mean 0 and sd 1, n of them: k is minus the answer. */
static struct stats_characteristic
of_unit_sample(struct fixture *f, size_t n)
{
	double x[30] = {0};
	struct stats_characteristic got;

	assert_true(n <= 30);
	if (n > 1) {
		x[0] = sqrt((double)(n - 1) / 2);
		x[1] = -x[0];
	}
	assert_ok(stats_characteristic(f->a, x, n, 1, false, &got, &f->err),
		&f->err);
	return got;
}

/* EN 1990, Annex D, table D.1, from memory.  Unknown spread: t(0.95, n - 1)
 * sqrt(1 + 1/n) to the printed digit; known: the table lies up to 0.016 below
 * 1.645 sqrt(1 + 1/n), so 0.02 is allowed. */
static void
characteristic__table_d1(void **state)
{
	struct fixture *f = *state;
	const struct {
		size_t n;
		double known, unknown;
	} row[] = {{1, 2.31, 0}, {2, 2.01, 0}, {3, 1.89, 3.37}, {4, 1.83, 2.63},
		{5, 1.80, 2.33}, {6, 1.77, 2.18}, {8, 1.74, 2.00},
		{10, 1.72, 1.92}, {20, 1.68, 1.76}, {30, 1.67, 1.73}};

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		struct stats_characteristic got = of_unit_sample(f, row[i].n);

		assert_near(-got.known, row[i].known, 0, 0.02);
		assert_int_equal(row[i].n > 1, got.has_unknown);
		if (row[i].unknown > 0)
			assert_near(-got.unknown, row[i].unknown, 0, 0.013);
	}
}

/* t(0.95, 2) = 2.919985580353725 (closed form: (2 p - 1) sqrt(2 / (1 - (2 p -
 * 1)^2)) for two degrees of freedom), z(0.95) = 1.6448536269514722. */
static void
characteristic__formula(void **state)
{
	struct fixture *f = *state;
	const double x[] = {2.385, 1.97, 2.713};
	const double mean = (2.385 + 1.97 + 2.713) / 3;
	const double t = 0.9 * sqrt(2 / (1 - 0.81)), widening = sqrt(4.0 / 3);
	double sd = sqrt(((2.385 - mean) * (2.385 - mean) +
				 (1.97 - mean) * (1.97 - mean) +
				 (2.713 - mean) * (2.713 - mean)) /
		2);
	struct stats_characteristic got;

	assert_ok(stats_characteristic(f->a, x, 3, 0.31, false, &got, &f->err),
		&f->err);
	assert_near(got.unknown, mean - t * widening * sd, 1e-13, 0);
	assert_near(got.known, mean - 1.6448536269514722 * widening * 0.31,
		1e-13, 0);
	assert_ok(stats_characteristic(f->a, x, 3, 0, false, &got, &f->err),
		&f->err);
	assert_false(got.has_known);
}

/* Table D.2 is in tests/choose/test_reference_b.c; here: by hand, and what is
 * too few. */
static void
characteristic__design_factor(void **state)
{
	struct fixture *f = *state;
	double k;

	/* t(0.999, 4) = 7.1731822 (R 4.2, qt); sqrt(6/5) */
	assert_ok(stats_design_factor(5, false, &k, &f->err), &f->err);
	assert_near(k, 7.1731822197823 * 1.0954451150103321, 1e-9, 0);
	assert_ok(stats_design_factor(1, true, &k, &f->err), &f->err);
	assert_near(k, 3.08 * 1.4142135623730951, 1e-14, 0);
	assert_int_equal(ERR_INPUT, stats_design_factor(1, false, &k, &f->err));
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT, stats_design_factor(0, true, &k, &f->err));
}

/* On the log scale a change of unit changes the answer in proportion. */
static void
characteristic__log_scales_with_the_unit(void **state)
{
	struct fixture *f = *state;
	const double mpa[] = {2.385, 1.97, 2.713, 2.2};
	double psi[4];
	struct stats_characteristic a, b;

	for (size_t i = 0; i < 4; i++)
		psi[i] = mpa[i] * 145.0377;
	assert_ok(stats_characteristic(f->a, mpa, 4, 0.13, true, &a, &f->err),
		&f->err);
	assert_ok(stats_characteristic(f->a, psi, 4, 0.13, true, &b, &f->err),
		&f->err);
	assert_near(b.unknown, a.unknown * 145.0377, 1e-13, 0);
	assert_near(b.known, a.known * 145.0377, 1e-13, 0);
	assert_true(a.unknown > 0 && a.unknown < 1.97);
}

static void
characteristic__refusals(void **state)
{
	struct fixture *f = *state;
	const double x[] = {2.385, -0.4}, bad[] = {NAN};
	struct stats_characteristic got = {.known = 77};

	assert_int_equal(ERR_INPUT,
		stats_characteristic(f->a, x, 2, 0, true, &got, &f->err));
	assert_has(f->err.text, "Value 2 is -0.4");
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		stats_characteristic(f->a, x, 0, 0, false, &got, &f->err));
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		stats_characteristic(f->a, bad, 1, 0, false, &got, &f->err));
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		stats_characteristic(f->a, x, 2, -1, false, &got, &f->err));
	assert_string_equal("prior_sd", f->err.field);
	assert_near(got.known, 77, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(characteristic__table_d1),
	TEST(characteristic__formula),
	TEST(characteristic__design_factor),
	TEST(characteristic__log_scales_with_the_unit),
	TEST(characteristic__refusals),
};

TEST_MAIN(tests)

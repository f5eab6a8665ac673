/* test_acceptance.c - lots against published criteria, rows T10 to T20 and T66
 * to T69 of trade-b.csv. */
#include "support.h"

#include "control/acceptance.h"
#include "stats/chart_constants.h"

#include <math.h>

static void
accept(struct fixture *f, const double *mpa, size_t n, double required,
	double spread, struct control_accepted *out)
{
	double *pa = arena_take(f->a, n, sizeof *pa);
	struct control_lot lot = {.strength_Pa = pa,
		.n = n,
		.required = {1e6 * required},
		.has_spread = spread > 0,
		.spread = {1e6 * spread}};

	for (size_t i = 0; i < n; i++)
		pa[i] = 1e6 * mpa[i];
	assert_ok(control_accept(f->a, &lot, out, &f->err), &f->err);
}

/* Row T12: means of three 21.0, 20.0, 21.1667, each at least 20; the lowest
 * single, 18.0, at least 16.5 (ACI 318, 26.12.3). */
static void
acceptance__running_mean_of_three(void **state)
{
	static const double mpa[] = {21.0, 19.5, 22.5, 18.0, 23.0};
	struct control_accepted got[CONTROL_CRITERION_COUNT];
	struct fixture *f = *state;
	const double *mean;
	size_t n;

	assert_ok(control_running_mean(f->a, mpa, 5, 3, &mean, &n, &f->err),
		&f->err);
	assert_int_equal(3, n);
	assert_near(mean[0], 21, 1e-14, 0);
	assert_near(mean[1], 20, 1e-14, 0);
	assert_near(mean[2], 21.1667, 0, 5e-5);
	accept(f, mpa, 5, 20, 0, got);
	assert_true(got[CONTROL_ACI318].applies && got[CONTROL_ACI318].is_met);
	assert_near(got[CONTROL_ACI318].least_limit.Pa, 16.5e6, 1e-14, 0);
	accept(f, mpa, 5, 20.1, 0, got); /* one mean of 20 is under it */
	assert_false(got[CONTROL_ACI318].is_met);
	accept(f, mpa, 2, 20, 0, got);
	assert_false(got[CONTROL_ACI318].applies);
	assert_false(got[CONTROL_ACI318].is_met);
	/* above 35: 0.1 fc under is the most */
	accept(f, (const double[]){40.1, 44.3, 36.2}, 3, 40, 0, got);
	assert_near(got[CONTROL_ACI318].least_limit.Pa, 36e6, 1e-14, 0);
	assert_true(got[CONTROL_ACI318].is_met);
}

/* Rows T15 to T17: fck + 4 for three; fck + 1.48 sigma = 24.44 for fck 20 and
 * sigma 3, with 15 or more. */
static void
acceptance__en206(void **state)
{
	struct control_accepted got[CONTROL_CRITERION_COUNT];
	struct fixture *f = *state;
	double mpa[15];

	accept(f, (const double[]){26.1, 24.2, 21.9}, 3, 20, 0, got);
	assert_true(got[CONTROL_EN206_INITIAL].is_met);
	assert_near(got[CONTROL_EN206_INITIAL].judged_limit.Pa, 24e6, 1e-14, 0);
	accept(f, (const double[]){29.1, 30.2, 15.9}, 3, 20, 0, got);
	assert_false(got[CONTROL_EN206_INITIAL].is_met); /* 15.9 < 16 */
	for (size_t i = 0; i < 15; i++)
		mpa[i] = 24.45 + (i % 3 == 0 ? 2.2 : -1.1);
	accept(f, mpa, 15, 20, 3, got);
	assert_near(got[CONTROL_EN206_CONTINUOUS].judged_limit.Pa, 24.44e6,
		1e-12, 0);
	assert_true(got[CONTROL_EN206_CONTINUOUS].is_met);
	accept(f, mpa, 15, 20.02, 3, got);
	assert_false(got[CONTROL_EN206_CONTINUOUS].is_met);
	accept(f, mpa, 14, 20, 3, got);
	assert_false(got[CONTROL_EN206_CONTINUOUS].applies);
	accept(f, mpa, 15, 20, 0, got);
	assert_false(got[CONTROL_EN206_CONTINUOUS].applies);
}

/* EN 1990, table D.1: n = 3, spread unknown, 3.37; known 1.89 (rows T22-3 and
 * T21-3, to their tolerances). */
static void
acceptance__characteristic(void **state)
{
	static const double mpa[] = {2.3, 2.0, 2.6}; /* mean 2.3, sd 0.3 */
	struct control_accepted got[CONTROL_CRITERION_COUNT];
	struct fixture *f = *state;

	accept(f, mpa, 3, 1.2, 0, got);
	assert_near(got[CONTROL_CHARACTERISTIC].judged.Pa,
		(2.3 - 3.37 * 0.3) * 1e6, 0, 0.013 * 0.3e6);
	assert_true(got[CONTROL_CHARACTERISTIC].is_met);
	/* at these strengths the ordinary margins have no teeth */
	assert_true(got[CONTROL_ACI318].is_met);
	assert_false(got[CONTROL_ACI318].has_teeth);
	accept(f, mpa, 3, 1.2, 0.25, got);
	assert_near(got[CONTROL_CHARACTERISTIC].judged.Pa,
		(2.3 - 1.89 * 0.25) * 1e6, 0, 0.02 * 0.25e6);
	accept(f, mpa, 1, 1.2, 0, got);
	assert_false(got[CONTROL_CHARACTERISTIC].applies);
}

/* Rows T10 and T67: a spread from ranges of pairs is the mean range / 1.128. */
static void
acceptance__spread_from_pairs(void **state)
{
	struct stats_chart_constants c;

	(void)state;
	stats_chart_constants(2, &c);
	assert_near(1.5 / c.d2, 1.3298, 0, 0.0005);
	assert_near(1 / c.d2, 0.886, 0, 0.001);
}

static void
acceptance__refusals(void **state)
{
	static const double bad[] = {2e6, -1e6};
	struct control_accepted got[CONTROL_CRITERION_COUNT];
	struct control_lot lot = {
		.strength_Pa = bad, .n = 2, .required = {1e6}};
	struct fixture *f = *state;

	assert_int_equal(ERR_INPUT, control_accept(f->a, &lot, got, &f->err));
	assert_has(f->err.text, "Strength 2");
	err_clear(&f->err);
	lot.n = 1;
	lot.required.Pa = 0;
	assert_int_equal(ERR_INPUT, control_accept(f->a, &lot, got, &f->err));
	assert_string_equal("required", f->err.field);
	err_clear(&f->err);
	lot.required.Pa = 1e6;
	lot.has_spread = true;
	assert_int_equal(ERR_INPUT, control_accept(f->a, &lot, got, &f->err));
	assert_string_equal("spread", f->err.field);
	err_clear(&f->err);
	lot.n = 0;
	assert_int_equal(ERR_INPUT, control_accept(f->a, &lot, got, &f->err));
	assert_string_equal("values", f->err.field);
}

static const struct CMUnitTest tests[] = {
	TEST(acceptance__running_mean_of_three),
	TEST(acceptance__en206),
	TEST(acceptance__characteristic),
	TEST(acceptance__spread_from_pairs),
	TEST(acceptance__refusals),
};

TEST_MAIN(tests)

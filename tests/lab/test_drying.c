/* test_drying.c - when a witness block is dry enough for plaster. */
#include "support.h"

#include "core/rng.h"
#include "lab/drying.h"

#include <gsl/gsl_randist.h>
#include <math.h>

/* One less the consolidation of a layer drained at both faces, x = pi^2 T/4:
 * Taylor (1948), Fundamentals of Soil Mechanics, to its three figures. */
static void
drying_left__is_what_consolidation_leaves(void **state)
{
	const double quarter = M_PI * M_PI / 4;

	(void)state;
	assert_near(lab_drying_left(quarter * 0.197), 0.5, 0, 1e-3);
	assert_near(lab_drying_left(quarter * 0.848), 0.1, 0, 1e-3);
	assert_near(lab_drying_left(0), 1, 0, 0);
	/* both forms at the place where they meet */
	assert_near(
		lab_drying_left(0.05 - 1e-13), lab_drying_left(0.05), 1e-12, 0);
}

enum { WEIGHINGS = 9 };

static void
weigh_drying(gsl_rng *rng, double spread_kg, struct lab_drying_reading *r)
{
	static const double at_d[WEIGHINGS] = {0, 1, 2, 4, 7, 11, 16, 22, 30};

	for (size_t i = 0; i < WEIGHINGS; i++) {
		r[i].at.s = at_d[i] * 86400;
		r[i].mass.kg = 3.4 + 0.9 * lab_drying_left(0.05 * at_d[i]) +
			(rng == NULL ? 0 : gsl_ran_gaussian(rng, spread_kg));
	}
}

/* 3.4 + 0.9 F(0.05 t): at 3.3 x 1.1 = 3.63 kg a share of 0.23/0.9 is left,
 * beyond the first term by under 1e-5: x = ln(8/pi^2/share). */
static void
drying__gives_back_the_curve_it_was_made_of(void **state)
{
	struct fixture *f = *state;
	struct lab_drying_reading r[WEIGHINGS];
	struct lab_drying d = {r, WEIGHINGS, true, {3.3}, 0.1};
	double days = log(8 / (M_PI * M_PI) / (0.23 / 0.9)) / 0.05;
	struct lab_dried got;

	weigh_drying(NULL, 0, r);
	assert_ok(lab_drying(f->a, &d, &got, &f->err), &f->err);
	assert_near(got.end.kg, 3.4, 1e-7, 0);
	assert_near(got.when.s / 86400, days, 1e-4, 0);
	assert_near(got.moisture_now_ratio, r[WEIGHINGS - 1].mass.kg / 3.3 - 1,
		1e-7, 0);
	d.has_dry_mass = false; /* 3.4 x 1.05 = 3.57 */
	d.moisture_ratio = 0.05;
	days = log(8 / (M_PI * M_PI) / (0.17 / 0.9)) / 0.05;
	assert_ok(lab_drying(f->a, &d, &got, &f->err), &f->err);
	assert_near(got.when.s / 86400, days, 1e-4, 0);
}

static void
drying__interval_holds_the_time_as_often_as_it_says(void **state)
{
	struct fixture *f = *state;
	const double t6 = 1.943; /* Student, 6 degrees, 90 % two-sided */
	gsl_rng *rng = rng_new(314159, 0);
	double days = log(8 / (M_PI * M_PI) / (0.23 / 0.9)) / 0.05;
	int n_held = 0;

	for (int i = 0; i < 400; i++) {
		struct lab_drying_reading r[WEIGHINGS];
		struct lab_drying d = {r, WEIGHINGS, true, {3.3}, 0.1};
		struct arena_mark mark = arena_mark(f->a);
		struct lab_dried got;

		weigh_drying(rng, 0.003, r);
		assert_ok(lab_drying(f->a, &d, &got, &f->err), &f->err);
		n_held += fabs(log(got.when.s / 86400 / days)) <=
			t6 * got.log_when_error;
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
	assert_true(n_held > 336 && n_held < 380);
}

static void
drying__refuses_what_says_nothing(void **state)
{
	struct fixture *f = *state;
	struct lab_drying_reading r[WEIGHINGS];
	struct lab_drying d = {r, WEIGHINGS, true, {3.3}, 0.1};
	struct lab_dried got;

	weigh_drying(NULL, 0, r);
	d.n_reading = 4;
	assert_int_equal(ERR_INPUT, lab_drying(f->a, &d, &got, &f->err));
	assert_string_equal("readings", f->err.field);
	d.n_reading = WEIGHINGS;
	err_clear(&f->err);
	d.dry_mass.kg = 3.9;
	assert_int_equal(ERR_INPUT, lab_drying(f->a, &d, &got, &f->err));
	assert_string_equal("dry_mass", f->err.field);
	err_clear(&f->err);
	d.dry_mass.kg = 3.3;
	d.moisture_ratio = 0.02; /* 3.366 kg: drier than that air makes it */
	assert_int_equal(ERR_ANSWER_NO, lab_drying(f->a, &d, &got, &f->err));
	err_clear(&f->err);
	d.moisture_ratio = 0.5;
	assert_int_equal(ERR_INPUT, lab_drying(f->a, &d, &got, &f->err));
	err_clear(&f->err);
	d.moisture_ratio = 0.1;
	r[WEIGHINGS - 1].mass.kg = r[0].mass.kg;
	assert_int_equal(ERR_INPUT, lab_drying(f->a, &d, &got, &f->err));
}

static const struct CMUnitTest tests[] = {
	TEST(drying_left__is_what_consolidation_leaves),
	TEST(drying__gives_back_the_curve_it_was_made_of),
	TEST(drying__interval_holds_the_time_as_often_as_it_says),
	TEST(drying__refuses_what_says_nothing),
};

TEST_MAIN(tests)

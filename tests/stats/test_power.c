/* test_power.c - power against R, drawing, and what must not matter. */
#include "r_rows.h"

#include "core/rng.h"
#include "stats/power.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include <gsl/gsl_randist.h>

static double
power(struct fixture *f, const struct stats_power_plan *plan, size_t batches)
{
	double got;

	assert_ok(stats_power(plan, batches, &got, &f->err), &f->err);
	return got;
}

/* power.t.test(strict = TRUE) of R 4.2.2: libRmath's own noncentral t, summed
 * to 1e-12. */
static void
power__agrees_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, count = 0;
	const struct r_row *row = r_rows(f->a, "r/power.csv", &n);

	for (size_t i = 0; i < n; i++) {
		struct stats_power_plan plan = {.sd_batch = 0.6 * 1.7,
			.sd_specimen = 0.8 * 1.7 * sqrt(5),
			.specimens = 5,
			.alpha = 0.05,
			.groups = 2};

		if (!r_is(&row[i], "power.t") ||
			strcmp(row[i].output, "power") != 0)
			continue;
		/* 0.6^2 + 0.8^2 = 1: the spread of a batch mean is 1.7 */
		plan.difference = 1.7 * r_number(f->a, &row[i], "delta/sd");
		assert_near(
			power(f, &plan, (size_t)r_number(f->a, &row[i], "n")),
			row[i].value, 1e-10, 0);
		count++;
	}
	assert_int_equal(12, count);
}

/* The experiment itself: specimens drawn, batch means, pooled t. */
static bool
tells_apart(gsl_rng *rng, const struct stats_power_plan *plan, size_t batches)
{
	double mean[2] = {0}, squares = 0;
	double df = (double)(plan->groups * (batches - 1)), t;

	for (size_t g = 0; g < plan->groups; g++) {
		double sum = 0, sum_squares = 0;

		for (size_t b = 0; b < batches; b++) {
			double y = g == 0 ? plan->difference : 0;

			y += gsl_ran_gaussian_ziggurat(rng, plan->sd_batch);
			for (size_t s = 0; s < plan->specimens; s++)
				y += gsl_ran_gaussian_ziggurat(
					     rng, plan->sd_specimen) /
					(double)plan->specimens;
			sum += y;
			sum_squares += y * y;
		}
		if (g < 2)
			mean[g] = sum / (double)batches;
		squares += sum_squares - sum * sum / (double)batches;
	}
	t = (mean[0] - mean[1]) / sqrt(squares / df * 2 / (double)batches);
	return fabs(t) > qt(plan->alpha / 2, df, false, false);
}

static void
power__drawing_agrees(void **state)
{
	enum { DRAWS = 40000, BATCHES = 3 };
	const struct stats_power_plan plan = {.difference = 0.317,
		.sd_batch = 0.094,
		.sd_specimen = 0.171,
		.specimens = 4,
		.alpha = 0.073,
		.groups = 5};
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(90125, 3);
	double want = power(f, &plan, BATCHES);
	size_t seen = 0;

	for (size_t i = 0; i < DRAWS; i++)
		seen += tells_apart(rng, &plan, BATCHES);
	gsl_rng_free(rng);
	/* four standard errors */
	assert_near((double)seen / DRAWS, want, 0,
		4 * sqrt(want * (1 - want) / DRAWS));
}

/* The answer is the least: one batch fewer falls short. */
static void
power__least_number_of_batches(void **state)
{
	struct fixture *f = *state;

	for (double difference = 0.011; difference < 2; difference *= 1.71) {
		const struct stats_power_plan plan = {.difference = difference,
			.sd_batch = 0.083,
			.sd_specimen = 0.127,
			.specimens = 3,
			.alpha = 0.05,
			.groups = 3};
		size_t b;

		assert_ok(
			stats_power_batches(&plan, 0.8, &b, &f->err), &f->err);
		assert_true(power(f, &plan, b) >= 0.8);
		assert_true(b == 2 || power(f, &plan, b - 1) < 0.8);
	}
}

/* Specimens cannot take the place of batches: however many, the power stays
 * under that of the batch spread alone. */
static void
power__specimens_do_not_replace_batches(void **state)
{
	struct fixture *f = *state;
	struct stats_power_plan plan = {.difference = 0.2,
		.sd_batch = 0.117,
		.sd_specimen = 0.091,
		.specimens = 1000,
		.alpha = 0.05,
		.groups = 2};
	double many = power(f, &plan, 3), batches_only;

	plan.sd_specimen = 0;
	batches_only = power(f, &plan, 3);
	assert_true(many < batches_only);
	assert_near(many, batches_only, 1e-3, 0);
	assert_true(power(f, &plan, 6) > 1.5 * many);
}

static void
power__extremes(void **state)
{
	struct fixture *f = *state;
	struct stats_power_plan plan = {.difference = 1e6,
		.sd_batch = 1e-3,
		.specimens = 1,
		.alpha = 0.05,
		.groups = 2};
	size_t b = 77;

	assert_near(power(f, &plan, 2), 1, 0, 0);
	/* as good as no difference: the power is the false alarm */
	plan.difference = 1e-12;
	assert_near(power(f, &plan, 4), 0.05, 1e-6, 0);
	assert_ok(stats_power_batches(&plan, 0.8, &b, &f->err), &f->err);
	assert_int_equal(0, b);
	/* the two ways meet at the noncentrality where they change over; a
	 * critical value beyond it, so that the power is not 1.  Tiny df make
	 * the normal form worst: it is 1e-3 off here */
	plan = (struct stats_power_plan){.difference = 37.59,
		.sd_batch = sqrt(40.),
		.specimens = 1,
		.alpha = 1e-190,
		.groups = 2};
	double below = power(f, &plan, 80);

	plan.difference = 37.61;
	assert_near(power(f, &plan, 80), below, 0, 0.02);
}

static void
power__refusals(void **state)
{
	struct fixture *f = *state;
	struct stats_power_plan plan = {
		.difference = 0.1, .specimens = 2, .alpha = 0.05, .groups = 2};
	double got = 77;

	assert_int_equal(ERR_INPUT, stats_power(&plan, 3, &got, &f->err));
	assert_string_equal("sd_batch", f->err.field);
	err_clear(&f->err);
	plan.sd_batch = NAN;
	assert_int_equal(ERR_INPUT, stats_power(&plan, 3, &got, &f->err));
	err_clear(&f->err);
	plan.sd_batch = 0.1;
	assert_int_equal(ERR_INPUT, stats_power(&plan, 1, &got, &f->err));
	assert_string_equal("batches", f->err.field);
	err_clear(&f->err);
	plan.groups = 1;
	assert_int_equal(ERR_INPUT, stats_power(&plan, 3, &got, &f->err));
	assert_string_equal("groups", f->err.field);
	assert_near(got, 77, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(power__agrees_with_r),
	TEST(power__drawing_agrees),
	TEST(power__least_number_of_batches),
	TEST(power__specimens_do_not_replace_batches),
	TEST(power__extremes),
	TEST(power__refusals),
};

TEST_MAIN(tests)

/* test_diagnose.c - R-hat and effective sample size where they are known. */
#include "support.h"

#include "core/rng.h"
#include "stats/diagnose.h"
#include "stats/radix.h"

#include <gsl/gsl_randist.h>

#include <math.h>

enum { N_CHAIN = 4, N_KEEP = 20001, N = N_CHAIN * N_KEEP };

/* A chain whose neighbours correlate by phi is worth n (1 - phi) / (1 + phi)
 * independent draws (the sum of its correlations phi^k). */
static void
fill(double *draw, double phi, double chain_shift, gsl_rng *rng)
{
	for (size_t c = 0; c < N_CHAIN; c++) {
		double x = gsl_ran_gaussian(rng, 1);

		for (size_t i = 0; i < N_KEEP; i++) {
			draw[c * N_KEEP + i] = x + chain_shift * (double)c;
			x = phi * x +
				gsl_ran_gaussian(rng, sqrt(1 - phi * phi));
		}
	}
}

static struct stats_diagnosis
diagnose(struct fixture *f, const double *draw, size_t n_thread)
{
	const struct stats_column column = {draw, 1};
	struct stats_diagnosis got;

	assert_ok(stats_diagnose(f->a, &column, 1, N_CHAIN, N_KEEP, n_thread,
			  &got, &f->err),
		&f->err);
	return got;
}

static void
diagnose__finds_the_worth_of_a_chain(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(5011, 0);
	double *draw = arena_take(f->a, N, sizeof *draw);

	/* 0.97 needs more lags than are summed one by one; the estimate's own
	 * error is about sqrt(2 (2 M + 1) / n) with M lags, 3 % here, and the
	 * tolerance is over three of them */
	for (double phi = 0; phi < 1; phi += 0.485) {
		struct stats_diagnosis got;

		fill(draw, phi, 0, rng);
		got = diagnose(f, draw, 1);
		assert_near(got.ess, N * (1 - phi) / (1 + phi), 0.12, 0);
		/* 1 + about 1 / ess at the most for chains that agree */
		assert_near(got.rhat, 1, 0, 8 * 8 / got.ess);
	}
	gsl_rng_free(rng);
}

static void
diagnose__sees_chains_that_disagree(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(5012, 0);
	double *draw = arena_take(f->a, N, sizeof *draw);

	fill(draw, 0, 1.7, rng);
	assert_true(diagnose(f, draw, 1).rhat > 1.5);
	/* equal in place, unequal in width: only the folded R-hat sees it */
	fill(draw, 0, 0, rng);
	for (size_t i = 0; i < N_KEEP; i++)
		draw[i] *= 4.3;
	assert_true(diagnose(f, draw, 1).rhat > 1.1);
	gsl_rng_free(rng);
}

static void
diagnose__bears_equal_draws_and_refuses_few(void **state)
{
	struct fixture *f = *state;
	double *draw = arena_take(f->a, N, sizeof *draw);
	const struct stats_column column = {draw, 1};
	struct stats_diagnosis got;

	for (size_t i = 0; i < N; i++)
		draw[i] = 2.385;
	got = diagnose(f, draw, 2);
	assert_near(got.rhat, 1, 0, 0);
	assert_near(got.ess, N - N_CHAIN, 0, 0);
	assert_int_equal(ERR_INPUT,
		stats_diagnose(f->a, &column, 1, 1, 7, 1, &got, &f->err));
}

static void
radix__sorts_every_kind_of_number(void **state)
{
	static const double value[] = {3.1, -INFINITY, 0.0, -2.7e-300, 1e300,
		-5.5, INFINITY, 4.9e-324};
	enum { COUNT = sizeof value / sizeof value[0] };
	struct stats_keyed item[COUNT], scratch[COUNT];

	(void)state;
	for (size_t i = 0; i < COUNT; i++)
		item[i] = (struct stats_keyed){stats_radix_key(value[i]), i};
	stats_radix_sort(item, COUNT, scratch);
	for (size_t i = 0; i < COUNT; i++)
		assert_true(
			stats_radix_value(item[i].key) == value[item[i].from]);
	for (size_t i = 1; i < COUNT; i++)
		assert_true(value[item[i - 1].from] < value[item[i].from]);
	assert_true(stats_radix_key(-0.0) == stats_radix_key(0.0));
}

static const struct CMUnitTest tests[] = {
	TEST(diagnose__finds_the_worth_of_a_chain),
	TEST(diagnose__sees_chains_that_disagree),
	TEST(diagnose__bears_equal_draws_and_refuses_few),
	TEST(radix__sorts_every_kind_of_number),
};

TEST_MAIN(tests)

/* test_meet.c - draws of the next batch, held against requirements. */
#include "support.h"

#include "choose/meet.h"
#include "core/rng.h"

#include <math.h>
#include <string.h>

enum { N_DRAW = 40000 };

/* Draws that all say the same of the mix, with these spreads. */
static struct choose_draws
same_draws(struct arena *a, double log_mean, double batch, double specimen)
{
	enum { STRIDE = 3 };
	double *mean = arena_take(a, (size_t)N_DRAW * STRIDE, sizeof *mean);
	double *sd_batch = arena_take(a, N_DRAW, sizeof *sd_batch);
	double *sd_specimen = arena_take(a, N_DRAW, sizeof *sd_specimen);

	assert_non_null(mean);
	assert_non_null(sd_batch);
	assert_non_null(sd_specimen);
	for (size_t i = 0; i < N_DRAW; i++) {
		for (size_t k = 0; k < STRIDE; k++)
			mean[i * STRIDE + k] = k == 0 ? log_mean : (double)NAN;
		sd_batch[i] = batch;
		sd_specimen[i] = specimen;
	}
	return (struct choose_draws){.n_draw = N_DRAW,
		.log_mean = mean,
		.stride = STRIDE,
		.sd_batch = sd_batch,
		.sd_specimen = sd_specimen};
}

static void
next_batch__is_the_mix_where_batches_are_alike(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(71, 0);
	struct choose_draws draws = same_draws(f->a, log(2.385), 0, 0.31);
	double *next = arena_take(f->a, N_DRAW, sizeof *next);

	assert_non_null(next);
	choose_next_batch(&draws, rng, next);
	for (size_t i = 0; i < N_DRAW; i++)
		assert_near(next[i], 2.385, 1e-15, 0);
	gsl_rng_free(rng);
}

static void
next_batch__spreads_as_batches_do(void **state)
{
	struct fixture *f = *state;
	const double sd = 0.173;
	gsl_rng *rng = rng_new(72, 0);
	struct choose_draws draws = same_draws(f->a, 0.731, sd, 0.5);
	double *next = arena_take(f->a, N_DRAW, sizeof *next);
	double sum = 0, squares = 0;

	assert_non_null(next);
	choose_next_batch(&draws, rng, next);
	for (size_t i = 0; i < N_DRAW; i++) {
		double off = log(next[i]) - 0.731;

		sum += off;
		squares += off * off;
	}
	/* five standard errors: sd / sqrt(n), and sd^2 sqrt(2 / n) */
	assert_near(sum / N_DRAW, 0, 0, 5 * sd / sqrt(N_DRAW));
	assert_near(squares / N_DRAW, sd * sd, 5 * sqrt(2. / N_DRAW), 0);
	gsl_rng_free(rng);
}

/* One batch and one specimen in it: normal on the log scale with the spreads
 * added in squares; its 5 % point is -1.644854 of them (standard normal, any
 * table). */
static void
lower_value__pays_for_both_spreads(void **state)
{
	struct fixture *f = *state;
	const double spread = sqrt(0.12 * 0.12 + 0.23 * 0.23);
	const double z05 = 1.6448536269514722, height = 0.10313564037537139;
	/* five standard errors of a quantile: sqrt(p (1 - p) / n) over the
	 * height of the curve there */
	const double slack = 5 * spread * sqrt(0.05 * 0.95 / N_DRAW) / height;
	gsl_rng *rng = rng_new(73, 0);
	struct choose_draws draws = same_draws(f->a, 0.417, 0.12, 0.23);
	double low, high;
	size_t used = arena_used(f->a);

	assert_ok(choose_lower_value(f->a, &draws, true, rng, &low, &f->err),
		&f->err);
	assert_ok(choose_lower_value(f->a, &draws, false, rng, &high, &f->err),
		&f->err);
	assert_near(log(low), 0.417 - z05 * spread, 0, slack);
	assert_near(log(high), 0.417 + z05 * spread, 0, slack);
	assert_int_equal(used, arena_used(f->a));
	gsl_rng_free(rng);
}

/* Beta(1/2 + broken, 1/2 + whole) has the mean (1/2 + broken) / (1 + cast). */
static void
breakage__follows_jeffreys(void **state)
{
	struct fixture *f = *state;
	const size_t rows[][2] = {{9, 0}, {9, 4}, {9, 9}, {0, 0}};
	gsl_rng *rng = rng_new(74, 0);
	double *rate = arena_take(f->a, N_DRAW, sizeof *rate);

	assert_non_null(rate);
	for (size_t r = 0; r < sizeof rows / sizeof rows[0]; r++) {
		double n = (double)rows[r][0], broken = (double)rows[r][1];
		double mean = (0.5 + broken) / (1 + n), sum = 0;
		double sd = sqrt(mean * (1 - mean) / (2 + n));

		choose_breakage_draws(
			rows[r][0], rows[r][1], rng, N_DRAW, rate);
		for (size_t i = 0; i < N_DRAW; i++) {
			assert_true(rate[i] >= 0 && rate[i] <= 1);
			sum += rate[i];
		}
		assert_near(sum / N_DRAW, mean, 0, 5 * sd / sqrt(N_DRAW));
	}
	gsl_rng_free(rng);
}

static void
meet__counts_least_and_most_with_the_limit_itself(void **state)
{
	struct fixture *f = *state;
	const double strength[] = {1, 2, 3, 4}, dent[] = {1, 2, 3, 4};
	const double *const next[] = {strength, dent};
	const struct choose_requirement ask[] = {
		{CHOOSE_BENDING_STRENGTH, true, 2, "s"},
		{CHOOSE_DENT, false, 3, "s"}};
	struct choose_met got;

	assert_ok(choose_meet(f->a, ask, 2, next, 4, &got, &f->err), &f->err);
	assert_true(got.p[0] == 0.75 && got.p[1] == 0.75);
	assert_true(got.p_all == 0.5); /* draws 2 and 3 */
	assert_true(got.all_known && got.known[0] && got.known[1]);
}

static void
meet__what_is_not_known_is_said(void **state)
{
	struct fixture *f = *state;
	const double strength[] = {1, 2, 3, 4};
	const double *const next[] = {NULL, strength};
	const struct choose_requirement ask[] = {{CHOOSE_DENT, false, 3, "s"},
		{CHOOSE_BENDING_STRENGTH, true, 4, "s"}};
	struct choose_met got;

	assert_ok(choose_meet(f->a, ask, 2, next, 4, &got, &f->err), &f->err);
	assert_false(got.all_known);
	assert_false(got.known[0]);
	assert_true(got.p[0] == 0 && got.p[1] == 0.25);
	assert_true(got.p_all == 0.25); /* of the known one */
	/* nothing asked: every batch will do */
	assert_ok(choose_meet(f->a, NULL, 0, NULL, 4, &got, &f->err), &f->err);
	assert_true(got.all_known && got.p_all == 1);
}

/* The chance of all lies between what the chances of each allow (Frechet), and
 * asking more never makes it larger. */
static void
meet__all_at_once_is_within_its_bounds(void **state)
{
	struct fixture *f = *state;
	enum { N = 4, DRAWS = 300 };
	gsl_rng *rng = rng_new(75, 0);

	for (int round = 0; round < 300; round++) {
		struct choose_requirement ask[N];
		double draw[N][DRAWS], least = 1, sum = 0, before = 1;
		const double *next[N];
		struct choose_met got;

		for (size_t k = 0; k < N; k++) {
			next[k] = draw[k];
			ask[k] = (struct choose_requirement){
				.measure = CHOOSE_DENT,
				.is_least = gsl_rng_uniform(rng) < 0.5,
				.value = gsl_rng_uniform(rng)};
			for (size_t i = 0; i < DRAWS; i++)
				draw[k][i] = gsl_rng_uniform(rng);
		}
		for (size_t n = 1; n <= N; n++) {
			assert_ok(choose_meet(f->a, ask, n, next, DRAWS, &got,
					  &f->err),
				&f->err);
			least = fmin(least, got.p[n - 1]);
			sum += got.p[n - 1];
			assert_true(got.p_all <= least);
			assert_true(got.p_all >= sum - (double)(n - 1) - 1e-12);
			assert_true(got.p_all <= before);
			before = got.p_all;
		}
	}
	gsl_rng_free(rng);
}

static void
meet__says_when_memory_is_out(void **state)
{
	struct fixture *f = *state;
	struct arena *small = arena_new(8);
	gsl_rng *rng = rng_new(76, 0);
	struct choose_draws draws = same_draws(f->a, 0, 0.1, 0.1);
	const double *const next[64] = {NULL};
	struct choose_requirement ask[64];
	struct choose_met got = {.p_all = 77.25};
	double value = 77.25;

	memset(ask, 0, sizeof ask);
	assert_non_null(small);
	assert_int_equal(
		ERR_MEMORY, choose_meet(small, ask, 64, next, 4, &got, NULL));
	assert_true(got.p_all == 77.25);
	assert_int_equal(ERR_MEMORY,
		choose_lower_value(small, &draws, true, rng, &value, NULL));
	assert_true(value == 77.25);
	gsl_rng_free(rng);
	arena_free(small);
}

static const struct CMUnitTest tests[] = {
	TEST(next_batch__is_the_mix_where_batches_are_alike),
	TEST(next_batch__spreads_as_batches_do),
	TEST(lower_value__pays_for_both_spreads),
	TEST(breakage__follows_jeffreys),
	TEST(meet__counts_least_and_most_with_the_limit_itself),
	TEST(meet__what_is_not_known_is_said),
	TEST(meet__all_at_once_is_within_its_bounds),
	TEST(meet__says_when_memory_is_out),
};

TEST_MAIN(tests)

/* test_trial_order.c - what every drawn order keeps to, over many draws. */
#include "support.h"

#include "core/rng.h"
#include "stats/trial_order.h"

#include <math.h>

static void
check_order(const struct stats_trial_ask *ask,
	const struct stats_trial_order *order)
{
	size_t count[STATS_TRIAL_MIXES_MOST] = {0}, middle = 0;
	size_t n = order->n, in_day = 0;

	for (size_t i = 0; i < n; i++) {
		count[order->mix[i]]++;
		in_day = i > 0 && order->day[i] == order->day[i - 1]
			? in_day + 1
			: 1;
		assert_true(in_day <= ask->per_day);
		assert_true(i == 0 || order->day[i] >= order->day[i - 1]);
		/* a baseline in the middle third */
		if (order->mix[i] == ask->baseline && 3 * i >= n - 1 &&
			3 * i <= 2 * n)
			middle++;
	}
	for (size_t m = 0; m < ask->n_mix; m++)
		if (m != ask->baseline)
			assert_int_equal(count[m], ask->n_round);
	assert_true(count[ask->baseline] >= STATS_TRIAL_BASELINES_LEAST);
	assert_int_equal(order->n_baseline, count[ask->baseline]);
	assert_int_equal(order->mix[0], ask->baseline);
	assert_true(order->mix[n - 1] == ask->baseline ||
		order->mix[n - 2] == ask->baseline);
	assert_true(middle >= 1);
}

static void
trial_order__baseline_first_middle_and_late(void **state)
{
	struct fixture *f = *state;

	for (uint64_t seed = 1; seed <= 300; seed++) {
		struct stats_trial_ask ask = {.n_mix = 2 + seed % 9,
			.baseline = seed % (2 + seed % 9),
			.n_round = 1 + seed % 3,
			.per_day = 1 + seed % 5};
		struct stats_trial_order order;
		gsl_rng *rng = rng_new(seed, 0);

		assert_ok(stats_trial_order(f->a, &ask, rng, &order, &f->err),
			&f->err);
		gsl_rng_free(rng);
		check_order(&ask, &order);
	}
}

/* Over many draws a mix that is not the baseline stands at every free place of
 * a round equally often: chi-square with 4 degrees of freedom under 18.47
 * (0.001 of the upper tail; any table). */
static void
trial_order__places_are_fair(void **state)
{
	struct fixture *f = *state;
	struct stats_trial_ask ask = {
		.n_mix = 5, .baseline = 0, .n_round = 3, .per_day = 4};
	double seen[5] = {0}, chi = 0;
	enum { DRAWS = 4000 };

	for (uint64_t seed = 1; seed <= DRAWS; seed++) {
		struct stats_trial_order order;
		gsl_rng *rng = rng_new(seed, 7);

		assert_ok(stats_trial_order(f->a, &ask, rng, &order, &f->err),
			&f->err);
		gsl_rng_free(rng);
		for (size_t i = 0; i < 5; i++) /* the second round is free */
			if (order.mix[5 + i] == 3)
				seen[i]++;
	}
	for (size_t i = 0; i < 5; i++)
		chi += pow(seen[i] - DRAWS / 5.0, 2) / (DRAWS / 5.0);
	assert_true(chi < 18.47);
}

/* The design's own trap: one batch each shows nothing; more batches show
 * smaller differences; more pieces of the same batches do less than batches. */
static void
trial_order__what_a_plan_shows(void **state)
{
	struct fixture *f = *state;
	double one, two, three, four, pieces;

	assert_ok(
		stats_trial_shows(8, 1, 3, 0.08, 0.10, &one, &f->err), &f->err);
	assert_true(isinf(one));
	assert_ok(
		stats_trial_shows(8, 2, 3, 0.08, 0.10, &two, &f->err), &f->err);
	assert_ok(stats_trial_shows(8, 3, 3, 0.08, 0.10, &three, &f->err),
		&f->err);
	assert_ok(stats_trial_shows(8, 6, 3, 0.08, 0.10, &four, &f->err),
		&f->err);
	assert_ok(stats_trial_shows(8, 2, 9, 0.08, 0.10, &pieces, &f->err),
		&f->err);
	assert_true(two > three && three > four && four > 1);
	assert_true(pieces < two && pieces > three);
	assert_int_equal(
		ERR_INPUT, stats_trial_shows(8, 2, 3, 0, 0, &one, &f->err));
}

static void
trial_order__refuses(void **state)
{
	struct fixture *f = *state;
	static const struct stats_trial_ask bad[] = {
		{.n_mix = 1, .n_round = 2, .per_day = 3},
		{.n_mix = 101, .n_round = 2, .per_day = 3},
		{.n_mix = 3, .baseline = 3, .n_round = 2, .per_day = 3},
		{.n_mix = 3, .n_round = 0, .per_day = 3},
		{.n_mix = 3, .n_round = 2, .per_day = 0},
	};
	gsl_rng *rng = rng_new(1, 0);
	struct stats_trial_order order;

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
		assert_int_equal(ERR_INPUT,
			stats_trial_order(f->a, &bad[i], rng, &order, &f->err));
	gsl_rng_free(rng);
}

static const struct CMUnitTest trial_order[] = {
	TEST(trial_order__baseline_first_middle_and_late),
	TEST(trial_order__places_are_fair),
	TEST(trial_order__what_a_plan_shows),
	TEST(trial_order__refuses),
};

TEST_MAIN(trial_order)

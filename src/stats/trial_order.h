/* trial_order.h - the order in which the batches of a trial are made, drawn so
 * that no mix can profit from a day, and what such a trial can show.
 *
 * Pure.  Method: docs/methods/trial-order.md.
 *
 * Every mix is made once in each round, in random order, and days take batches
 * as they come: a round is a block, and a day holds at most a few mixes twice.
 * The baseline opens the trial, stands in its middle and is among the last two,
 * so that a drift of the campaign shows on it; where it has too few batches for
 * that, it gets more.  Source of randomising within blocks: Fisher (1935), The
 * Design of Experiments, chapters 3 and 4. */
#ifndef STATS_TRIAL_ORDER_H
#define STATS_TRIAL_ORDER_H

#include "core/arena.h"
#include "core/err.h"

#include <gsl/gsl_rng.h>
#include <stddef.h>

enum {
	STATS_TRIAL_MIXES_MOST = 100,
	STATS_TRIAL_ROUNDS_MOST = 100,
	STATS_TRIAL_BASELINES_LEAST = 3
};

struct stats_trial_ask {
	size_t n_mix;    /* the baseline among them, 2 or more */
	size_t baseline; /* below n_mix */
	size_t n_round;  /* batches of each mix, 1 or more */
	size_t per_day;  /* batches that can be made in a day, 1 or more */
};

struct stats_trial_order {
	size_t n; /* n_round * n_mix and what the baseline is made more often */
	const size_t *mix; /* n, in the order of making */
	const size_t *day; /* n, from 1 */
	size_t n_day;
	size_t n_baseline;
	const size_t *days_of; /* n_mix: on how many days it is made */
};

/* stats_trial_order(arena, ask, rng, out, err): the same rng, the same order.
 * ERR_INPUT a count out of range; ERR_MEMORY */
enum err_code stats_trial_order(struct arena *arena,
	const struct stats_trial_ask *ask, gsl_rng *rng,
	struct stats_trial_order *out, struct err *err) MUST_CHECK;

/* stats_trial_shows(n_mix, n_batch, n_specimen, sd_batch, sd_specimen, out,
 * err): the least ratio between two mixes, above 1, that a trial of n_batch
 * batches of each of n_mix mixes with n_specimen specimens each shows with 80
 * in 100 at a two-sided level of 0.05 (power.h), spreads on the log scale;
 * INFINITY with one batch of each, which shows nothing.
 * ERR_INPUT as stats_power_check */
enum err_code stats_trial_shows(size_t n_mix, size_t n_batch, size_t n_specimen,
	double sd_batch, double sd_specimen, double *out,
	struct err *err) MUST_CHECK;

#endif /* STATS_TRIAL_ORDER_H */

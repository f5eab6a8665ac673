/* plan_noise.h - how often a plan of batches and specimens would mislead.
 *
 * Pure.  A trial is played many times with the spreads between batches and
 * between specimens that are given: each mix gets its batches, each batch its
 * specimens, and the mix with the largest mean of batch means is picked, as a
 * person does who ranks by averages.  Normal on the log scale, as hierarchy.h.
 * Monte Carlo; method: docs/methods/plan_noise.md. */
#ifndef STATS_PLAN_NOISE_H
#define STATS_PLAN_NOISE_H

#include "core/err.h"

#include <gsl/gsl_rng.h>
#include <stddef.h>

/* Pointers are borrowed for the call. */
struct stats_plan {
	size_t n_mix;             /* at least 2; mix 0 is the baseline */
	const size_t *n_batch;    /* n_mix, each at least 1 */
	const size_t *n_specimen; /* n_mix: a batch, each at least 1 */
	/* Spreads on the log scale, n_spread pairs that take turns, such as
	 * draws of a posterior; n_spread >= 1, finite, not negative. */
	const double *sd_batch, *sd_specimen;
	size_t n_spread;
	double gain; /* log of how much better than all others the best one is;
		      * each mix but the baseline takes its turn at being it;
		      * 0: all are the same.  Not negative. */
	double bar;  /* log of a ratio to the baseline, for p_over */
	size_t n_world; /* trials played, at least 1 */
};

/* What happened; each chance with its Monte Carlo standard error. */
struct stats_plan_noise {
	double p_wrong, p_wrong_error; /* another mix was picked than the best;
					* with gain 0: any but the baseline */
	double p_over, p_over_error;   /* the picked mix seemed better than the
				      * baseline by more than bar */
	double winner, winner_error;   /* mean log ratio of the seemingly best
				      * mix but the baseline, to the baseline */
};

/* stats_plan_noise(plan, rng, out, err):
 * Time is linear in n_world times the number of batches: the mean of a batch
 * is drawn at once.  The state of rng decides every bit.
 * ERR_INPUT  a count or a spread is out of range; field names it */
enum err_code stats_plan_noise(const struct stats_plan *plan, gsl_rng *rng,
	struct stats_plan_noise *out, struct err *err) MUST_CHECK;

#endif /* STATS_PLAN_NOISE_H */

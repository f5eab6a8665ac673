/* meet.h - will the next batch of a mix meet what a part asks?
 *
 * Pure.  Works on draws: each is one world that the readings leave possible.
 * A new batch gets a batch effect of its own, so a mix known from few batches
 * is less sure to meet anything. */
#ifndef CHOOSE_MEET_H
#define CHOOSE_MEET_H

#include "choose/types.h"
#include "core/arena.h"
#include "core/err.h"

#include <gsl/gsl_rng.h>

/* Draws of one mix in one measure, from the hierarchical model. */
struct choose_draws {
	size_t n_draw;
	const double *log_mean; /* of the mix; [i * stride] */
	size_t stride;
	const double *sd_batch, *sd_specimen; /* log scale, n_draw each */
};

/* choose_next_batch(draws, rng, next): what a new batch would give as the
 * median of its specimens, one value a draw, on the measure's own scale. */
void choose_next_batch(
	const struct choose_draws *draws, gsl_rng *rng, double *next);

/* choose_lower_value(arena, draws, larger_is_better, rng, value, err):
 * What 95 of 100 single specimens of new batches should beat: the 5 % point
 * (95 % where less is better) over draws of mix, batch and specimen, so that
 * few batches are paid for.  The predictive form of EN 1990, Annex D. */
enum err_code choose_lower_value(struct arena *arena,
	const struct choose_draws *draws, bool larger_is_better, gsl_rng *rng,
	double *value, struct err *err) MUST_CHECK;

/* choose_breakage_draws(n_cast, n_broken, rng, n_draw, rate): the rate of
 * breaking before the test, Jeffreys' prior Beta(1/2, 1/2). */
void choose_breakage_draws(size_t n_cast, size_t n_broken, gsl_rng *rng,
	size_t n_draw, double *rate);

/* The chance of each requirement and of all at once. */
struct choose_met {
	const double *p;   /* n_requirement; of those that are known */
	const bool *known; /* false: the mix was not tested for it */
	bool all_known;
	double p_all; /* of the known ones together */
};

/* choose_meet(arena, requirement, n, next, n_draw, out, err):
 * n_draw > 0.  next[k] is n_draw values for requirement k, or NULL where not known.  The
 * measures are drawn apart from each other: a batch that is good in one is not
 * taken to be good in another. */
enum err_code choose_meet(struct arena *arena,
	const struct choose_requirement *requirement, size_t n,
	const double *const *next, size_t n_draw, struct choose_met *out,
	struct err *err) MUST_CHECK;

#endif /* CHOOSE_MEET_H */

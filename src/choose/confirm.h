/* confirm.h - what fresh batches of a mix should read, foreseen before they are
 * made, and whether they did.
 *
 * Pure.  Method: docs/methods/confirm.md. */
#ifndef CHOOSE_CONFIRM_H
#define CHOOSE_CONFIRM_H

#include "choose/meet.h"
#include "core/qty.h"

/* The share of the range that is written down; our choice. */
static const double choose_confirm_level = 0.90;

struct choose_foretold {
	double low, median, high; /* SI of the measure */
};

/* choose_confirm_foretell(arena, draws, n_batch, n_piece, rng, out, err):
 * the range of the mean (geometric, over n_batch fresh batches of n_piece
 * pieces each; both > 0): each world gives the mix its mean and the batches
 * and pieces their scatter.  ERR_MEMORY */
enum err_code choose_confirm_foretell(struct arena *arena,
	const struct choose_draws *draws, size_t n_batch, double n_piece,
	gsl_rng *rng, struct choose_foretold *out, struct err *err) MUST_CHECK;

enum choose_confirmed {
	CHOOSE_CONFIRMED_HIT,
	CHOOSE_CONFIRMED_LOW,  /* a miss: under the range */
	CHOOSE_CONFIRMED_HIGH, /* a miss: over the range */
	CHOOSE_CONFIRMED_OPEN  /* the readings are too coarse to say */
};

/* choose_confirm_judge(foretold, mean): the mean as an interval where readings
 * were intervals; two ends that are known are judged by their geometric
 * middle, an open end (INFINITY, or 0 below) only by the other. */
enum choose_confirmed choose_confirm_judge(
	const struct choose_foretold *foretold, struct interval mean);

#endif /* CHOOSE_CONFIRM_H */

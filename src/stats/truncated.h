/* truncated.h - normal draws that must lie between two bounds.
 *
 * Pure.  Rejection from the proposal that suits the place of the bounds, so no
 * tail probability is ever formed and no bound is too far out: Robert (1995),
 * Statistics and Computing 5, 121-125, "Simulation of truncated normal
 * variables". */
#ifndef STATS_TRUNCATED_H
#define STATS_TRUNCATED_H

#include "stats/fastnormal.h"

/* stats_truncated_draw(normal, rand, low, high):
 * One draw of a standard normal variable given low <= it <= high.  The bounds
 * may be -INFINITY and INFINITY; low <= high, neither is NaN (asserted).  The
 * draw is never outside the bounds. */
double stats_truncated_draw(const struct fastnormal *normal,
	struct fastrand *rand, double low, double high);

#endif /* STATS_TRUNCATED_H */

/* run_walk.h - mean steps of a normal walk until it leaves a range.
 *
 * Pure.  What the EWMA and the CUSUM have in common. */
#ifndef STATS_RUN_WALK_H
#define STATS_RUN_WALK_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>

/* From u the next place is keep * u + drift + sd * N(0, 1), sd > 0.  Above high
 * the walk ends; below low it ends too or, where `holds`, stands at low. */
struct run_walk {
	double keep, drift, sd;
	double low, high; /* low < high */
	bool holds;
	double from; /* where it begins, low <= from <= high */
};

/* stats_run_walk(arena, walk, low_steps, from_steps, err):
 * The mean number of steps from low and from walk->from; INFINITY where it is
 * beyond doubles.  ERR_INPUT the range is too many sd wide; ERR_NUMERIC no
 * convergence; ERR_MEMORY.  Nothing stays in the arena. */
enum err_code stats_run_walk(struct arena *a, const struct run_walk *walk,
	double *low_steps, double *from_steps, struct err *err) MUST_CHECK;

#endif /* STATS_RUN_WALK_H */

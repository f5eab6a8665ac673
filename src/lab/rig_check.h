/* rig_check.h - a rig held against something that is known: a jack against a
 * dead load, a check piece against the check pieces before it.
 *
 * The guide of a dropped bar is in drop.h (lab_tube_loss), the true volume of a
 * vessel in mix/weigh_own.h.  Pure.  docs/methods/rigs.md. */
#ifndef LAB_RIG_CHECK_H
#define LAB_RIG_CHECK_H

#include "lab/crush.h"

#include <stdbool.h>
#include <stddef.h>

/* A jack that carries a load weighed otherwise, such as people on a plank. */
struct lab_dead_load {
	struct mass known; /* on the jack, plank and all; > 0 */
	struct mass scale; /* division of what weighed it; >= 0 */
	struct lab_jack jack;
	struct stress gauge; /* division of the gauge; >= 0 */
};

struct lab_dead_loaded {
	double force_ratio; /* true force over that of the gauge */
	double u_ratio;     /* its relative standard uncertainty */
	bool is_plain; /* 1 lies within two standard uncertainties: the check
	                  shows nothing wrong */
};

/* lab_dead_load(load, out, err):
 * known g over lab_jack_force.  Gauge and zero are two readings to the gauge's
 * division, the known mass one to the scale's (JCGM 100:2008, 4.3.7, 5.1.6).
 * Derived.
 * ERR_INPUT  a value is out of range, or the gauge does not move; err->field
 *            names it */
enum err_code lab_dead_load(const struct lab_dead_load *load,
	struct lab_dead_loaded *out, struct err *err) MUST_CHECK;

/* With fewer check pieces before it nothing can be said of the newest. */
enum { LAB_CHECK_PIECES_LEAST = 3 };

/* How sure one must be before a rig is doubted: 1 healthy rig in a hundred. */
static const double lab_check_level = 0.99;

struct lab_check_pieces {
	size_t n_before;
	double mean;      /* of those before */
	double low, high; /* where the newest is expected; with is_judged */
	bool is_judged;   /* enough of them, and they differ */
	bool is_beyond;   /* the newest lies outside */
};

/* lab_check_pieces(value, n, out, err):
 * The last of n > 0 readings against those before it: mean +- t s sqrt(1 + 1/k)
 * with k - 1 degrees of freedom, the prediction interval of one further reading
 * (Hahn and Meeker 1991, Statistical Intervals, section 4.7, from memory).
 * ERR_INPUT  a value is not above 0, or n is 0 */
enum err_code lab_check_pieces(const double *value, size_t n,
	struct lab_check_pieces *out, struct err *err) MUST_CHECK;

#endif /* LAB_RIG_CHECK_H */

/* yield.h - what a finished batch turned out to be, and how to put it right.
 *
 * Pure.  Method and symbols: docs/methods/proportion.md. */
#ifndef MIX_YIELD_H
#define MIX_YIELD_H

#include "mix/proportion.h"

struct mix_yield {
	const struct mix_part *part; /* borrowed; what really went in */
	size_t n_part;
	struct density foam;       /* as generated */
	struct volume foam_volume; /* as generated; >= 0 */
	struct density wet_density_measured;
	bool has_target;
	struct density wet_density_target;
	double added_foam_survival_ratio; /* 0..1 of foam added now; usually 1 */
};

enum mix_advice_kind {
	MIX_ADVICE_NONE,      /* no target was given, or it is met exactly */
	MIX_ADVICE_ADD_FOAM,  /* too heavy */
	MIX_ADVICE_ADD_SLURRY /* too light; slurry of the same parts */
};

struct mix_advice {
	enum mix_advice_kind kind;
	struct volume add;    /* 0 with MIX_ADVICE_NONE */
	double off_ratio;     /* measured / target - 1; 0 without a target */
	const char *sentence; /* plain, in litres; never NULL */
};

struct mix_yielded {
	struct mix_slurry slurry;
	struct mass mass;           /* everything that went in, foam too */
	struct volume volume;       /* mass / measured wet density */
	bool has_foam_survival;     /* false: no foam went in */
	double foam_survival_ratio; /* share of the foam's air that is left;
	                               above 1: mixing beat air in, or a scale
	                               or a bucket is off */
	struct mix_advice advice;
};

/* mix_yield(arena, ask, out, err):
 * Derived (mass balance): volume = mass / wet density; air left = volume less
 * slurry less the foam's liquid; foam to add = V (D - T) / (T e - foam) with e
 * the volume that 1 m3 of added foam keeps; slurry to add = V (T - D) /
 * (slurry - T).
 * ERR_INPUT  a value is out of range; the batch weighs more than it would with
 *            no air at all; the target cannot be reached; the sentence says
 *            what would be possible
 * ERR_MEMORY the arena is full */
enum err_code mix_yield(struct arena *arena, const struct mix_yield *ask,
	struct mix_yielded *out, struct err *err) MUST_CHECK;

#endif /* MIX_YIELD_H */

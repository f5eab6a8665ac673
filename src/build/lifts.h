/* lifts.h - a part cut into stretches and lifts, and what a lift does to its
 * forms.
 *
 * Pure.  Derived; method and limits: docs/methods/plan.md. */
#ifndef BUILD_LIFTS_H
#define BUILD_LIFTS_H

#include "build/types.h"
#include "core/arena.h"
#include "core/err.h"

#include <stdint.h>

struct build_cut {
	double lift_m;     /* at most so high; above 0 */
	double stretch_m;  /* at most so long; 0: in one length */
	double mixed_m3;   /* of the whole part, with settling and waste */
	double batch_m3;   /* at most */
	int64_t day_batch; /* a flat part is cut so that a day can pour it */
	double wet_kg_m3;  /* of the fresh mix */
};

/* One lift; they are numbered stretch by stretch, from the bottom. */
struct build_cut_lift {
	size_t number;  /* from 1 in the part */
	size_t stretch; /* from 0 */
	bool has_from;  /* along the part */
	double from_m, to_m;
	double height_m;    /* 0: flat, not known */
	double volume_m3;   /* to be mixed */
	int64_t n_batch;    /* whole, each of volume_m3 / n_batch */
	double pressure_Pa; /* of the fluid mix at the foot of the lift */
};

/* build_lifts(arena, part, is_wall, cut, lift, n, err):
 * A wall is cut along its length and its height into equal pieces, its openings
 * spread evenly; anything else into what a day can pour.  The volumes add up to
 * mixed_m3.  pressure = density * standard gravity * height: the full head of a
 * fluid, since foamed concrete may stand liquid until it sets (ACI 347R, the
 * upper limit of its formulas).
 * ERR_INPUT a size is out of range, or over 2000 lifts; ERR_MEMORY */
enum err_code build_lifts(struct arena *arena, const struct build_part *part,
	bool is_wall, const struct build_cut *cut,
	const struct build_cut_lift **lift, size_t *n,
	struct err *err) MUST_CHECK;

/* build_lift_usual_m(wet_kg_m3): how high a lift usually is: 0.3 m under 500
 * kg/m3, 0.6 m under 1000, 1 m above (common practice, no source). */
double build_lift_usual_m(double wet_kg_m3);

#endif /* BUILD_LIFTS_H */

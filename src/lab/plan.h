/* plan.h - a rig designed before the test: weights, steps, drop heights.
 *
 * Pure.  Statics and geometry (derived); the shares are common practice, no
 * source.  docs/methods/rigs.md. */
#ifndef LAB_PLAN_H
#define LAB_PLAN_H

#include "lab/drop.h"
#include "lab/flexure.h"

#include <stdbool.h>

/* From this share of the least expected load on small steps are taken. */
static const double lab_plan_small_from = 0.7;
/* A dent deeper than this share of the thickness is bottoming. */
static const double lab_plan_deepest = 0.6;
/* Span over depth below which a beam no longer breaks in bending alone. */
static const double lab_plan_least_slender = 4;

struct lab_plan_bending {
	enum lab_loading loading;
	struct length span, width, depth; /* > 0 */
	struct length strap;              /* 0..span */
	struct mass on_rig;               /* hanger or platform; >= 0 */
	struct mass beam_mass;            /* bends it too; 0: left out */
	struct length beam_length;        /* >= span; with beam_mass */
	struct interval strength_Pa; /* foreseen; 0 < low <= high, finite */
	double width_ratio; /* of the interval wanted, 0 < x < 1: 0.1 */
};

struct lab_planned_bending {
	struct mass least, most; /* to hang until it breaks, hanger apart; least
	                            0 where the hanger may break it */
	bool hanger_may_break;
	struct mass step;       /* largest that keeps the interval */
	struct mass small_from; /* hang on in such steps from here */
	unsigned n_step;        /* of them, to reach `most` */
	struct mass falls;      /* what falls when it breaks, at most */
	bool is_stubby;         /* span/depth below lab_plan_least_slender */
};

/* lab_plan_bending(p, out, err):
 * Load = (strength * b d^2/6 less the moment of its own weight, if known) over
 * the arm of lab_flexure; step = width_ratio times the least load.
 * ERR_INPUT  a value is out of range, or so weak against the step that more
 *            than 10 000 steps come out; err->field names it */
enum err_code lab_plan_bending(const struct lab_plan_bending *p,
	struct lab_planned_bending *out, struct err *err) MUST_CHECK;

/* Weights for it: large ones, then small ones, each of one size. */
struct lab_planned_weights {
	struct mass large, small; /* small is not above the step */
	unsigned n_large, n_small;
};

/* lab_plan_weights(p): the handiest of 20, 10, 5, 2, 1, 0.5, 0.2, 0.1 ... kg (1,
 * 2 and 5 of each decade): small the largest not above the step, large the
 * largest that is hung twice or more before small ones begin, none of it
 * if there is none above small.  n_small brings it to `most`. */
struct lab_planned_weights lab_plan_weights(
	const struct lab_planned_bending *p);

struct lab_plan_drop {
	struct mass mass;       /* of the bar; > 0 */
	double tube_loss_ratio; /* 0 <= x < 1 */
	enum lab_tip tip;
	struct length tip_diameter;
	double tip_angle_rad;      /* cone */
	struct length thickness;   /* of the panel; > 0 */
	struct length readable;    /* least dent that can be read; > 0, less
	                                  than the deepest allowed */
	struct interval energy_Pa; /* energy per volume foreseen; 0 < low <=
	                                  high, finite */
};

struct lab_planned_drop {
	struct interval
		height_m; /* low: the strongest still shows a dent; high:
	                             the weakest stays above the deepest */
	bool suits;       /* low <= high: one height does for all */
};

/* lab_plan_drop(p, out, err):
 * m g (h + d)(1 - loss) = energy per volume * V(d) solved for h, at the least
 * dent for the strongest and at lab_plan_deepest of the thickness for the
 * weakest; a height below 0 is 0.
 * ERR_INPUT  a value is out of range; err->field names it */
enum err_code lab_plan_drop(const struct lab_plan_drop *p,
	struct lab_planned_drop *out, struct err *err) MUST_CHECK;

#endif /* LAB_PLAN_H */

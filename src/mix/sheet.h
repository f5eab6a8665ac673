/* sheet.h - what to put on the scale for one batch, so that it can be carried
 * to the mixer and read with wet gloves.
 *
 * Pure.  Method: docs/methods/sheet.md.
 *
 * A recipe is written for one cubic metre with its damp parts oven-dry.  The
 * sheet scales it to the batch, weighs damp parts damp and takes their water
 * out of the mixing water, rounds to what the scale can show, and then works
 * out again what the rounded masses give: the figures on it are those of the
 * batch that will really be made. */
#ifndef MIX_SHEET_H
#define MIX_SHEET_H

#include "mix/proportion.h"

/* One part of the recipe: mass is oven-dry per 1 m3 of finished mix; moisture
 * and absorption are those of today. */
struct mix_sheet_ask {
	const struct mix_part *part; /* borrowed; by_volume is refused */
	size_t n_part;
	struct volume wanted;   /* to be cast, > 0 */
	double spare_ratio;     /* made on top of it, 0..1: density bucket,
	                                what stays in the tub */
	struct mass scale_step; /* smallest step of the scale, > 0 */
	bool has_mixer;
	struct volume mixer;        /* the most it takes without spilling */
	bool whole_bags;            /* of the first cement of the recipe */
	struct mass bag;            /* > 0 with whole_bags */
	struct density foam;        /* as the generator gives it today */
	double foam_survival_ratio; /* share of its air left after mixing */
	double bound_water_ratio;
	struct density wet_target;
	bool has_foam_rate;
	double foam_rate_m3_s; /* of the generator, > 0 */
};

struct mix_sheet {
	size_t n_batch; /* equal batches that the wanted volume takes */
	const struct mass *weigh; /* n_part: on the scale for one batch */
	const double *bags;       /* n_part: whole bags of it, or 0 */
	struct volume volume;     /* of one batch, from the rounded masses */
	struct mass mass;         /* of one batch, foam and all */
	struct density slurry;    /* to be met before foam is spent */
	struct volume slurry_volume;
	struct volume foam; /* to be made for one batch */
	struct mass foam_mass;
	bool has_foam_time;
	struct duration foam_time; /* of the generator */
	struct density wet;        /* foreseen, from the rounded masses */
	struct density oven_dry;
	double water_cement_ratio, total_water_cement_ratio;
	double foam_fraction; /* of the fresh mix */
};

/* mix_sheet_make(arena, ask, out, err):
 * Derived (mass balance on the rounded masses; the foam is solved for the
 * target after rounding).  With whole_bags the batch is the greatest number of
 * bags that wanted volume and mixer allow, and at least one.
 * ERR_INPUT  a value is out of range; the field is its name, or "parts[2]" and
 *            the like; one bag makes more than the mixer takes; rounding to the
 *            scale would drop a part or move the mix by more than 5 %
 * ERR_MEMORY the arena is full */
enum err_code mix_sheet_make(struct arena *arena,
	const struct mix_sheet_ask *ask, struct mix_sheet *out,
	struct err *err) MUST_CHECK;

#endif /* MIX_SHEET_H */

/* proportion.h - what a mix becomes when foam is folded into its slurry, by
 * absolute volume.
 *
 * Pure.  Method and symbols: docs/methods/proportion.md.
 *
 * Foam is air and liquid.  The liquid (at the density of water) always stays
 * and counts in mass, volume and total water.  Of the air the share
 * foam_survival_ratio is left after mixing. */
#ifndef MIX_PROPORTION_H
#define MIX_PROPORTION_H

#include "mix/types.h"

#include "core/arena.h"
#include "core/err.h"

/* The density of water and of the foam's liquid, common practice, no source. */
static const double mix_water_kg_m3 = 1000.0;
/* Water held by cement per mass of cement: ASTM C869, table 1, footnote A. */
static const double mix_bound_water_ratio = 0.2;

/* The parts without any foam. */
struct mix_slurry {
	struct mass mass;     /* all parts as weighed */
	struct volume volume; /* grains and free water, no air */
	struct density density;
	struct mass cement;
	struct mass dry_solids; /* oven-dry, without the cement */
	struct mass water;      /* free: water put in and what damp parts give
	                           up, less what thirsty parts soak up */
	struct mass held_water; /* soaked up in grains */
};

/* What the foam is solved for. */
enum mix_aim {
	MIX_AIM_WET_DENSITY,     /* foam so that the mix weighs wet_density */
	MIX_AIM_FOAM_VOLUME,     /* foam_volume is given, as generated */
	MIX_AIM_BATCH_VOLUME,    /* foam so that the mix fills batch_volume */
	MIX_AIM_OVEN_DRY_DENSITY /* foam so that it dries to oven_dry_density */
};

struct mix_proportion {
	const struct mix_part *part; /* borrowed; at least one cement */
	size_t n_part;
	struct density foam;        /* as generated; > 0, below water */
	double foam_survival_ratio; /* 0..1; 1: no air is lost in mixing */
	double bound_water_ratio;   /* >= 0; typically mix_bound_water_ratio */
	enum mix_aim aim;
	struct density wet_density;      /* > 0 with its aim; others unused */
	struct volume foam_volume;       /* >= 0 */
	struct volume batch_volume;      /* > 0 */
	struct density oven_dry_density; /* > 0 */
};

struct mix_proportioned {
	struct mix_slurry slurry;
	struct volume foam_volume; /* as generated */
	struct mass foam_mass;
	struct volume volume; /* of the finished mix */
	struct density wet_density;
	struct density oven_dry_density;
	double water_cement_ratio;       /* mixing water only */
	double total_water_cement_ratio; /* with the foam's liquid */
	double air_fraction;  /* air left of the foam, per volume of the mix */
	double foam_fraction; /* that air and the foam's liquid, likewise */
	const struct mass *per_m3; /* n_part, as weighed, in 1 m3 of the mix */
	struct mass foam_per_m3;
};

/* mix_slurry_of(part, n_part, out, err):
 * Masses and volumes of the parts together.  Derived (mass balance); moisture
 * on oven-dry mass, free water = moisture less absorption (ACI 211.1).
 * ERR_INPUT  a part cannot be used or there is no cement; err->field is
 *            "parts" or "parts[2].moisture" */
enum err_code mix_slurry_of(const struct mix_part *part, size_t n_part,
	struct mix_slurry *out, struct err *err) MUST_CHECK;

/* mix_part_mass(part, index, out, err): the mass of a part as weighed; from a
 * bucket's volume by bulk density, for water and admixtures by particle
 * density.  index is its place, for err->field. */
enum err_code mix_part_mass(const struct mix_part *part, size_t index,
	struct mass *out, struct err *err) MUST_CHECK;

/* mix_proportion(arena, ask, out, err):
 * Masses and volumes balance to rounding.  Sources: derived (absolute volumes
 * and mass balance); oven-dry density (cement (1 + bound water) + dry
 * solids) / volume, ASTM C869 table 1 footnote A, with aggregate as in
 * ASTM C567.
 * ERR_INPUT  a value is out of range, or no volume of foam can do what is
 *            asked; the sentence says what would be possible
 * ERR_MEMORY the arena is full */
enum err_code mix_proportion(struct arena *arena,
	const struct mix_proportion *ask, struct mix_proportioned *out,
	struct err *err) MUST_CHECK;

/* A damp part weighed out for a recipe that is written for oven-dry mass. */
struct mix_damp {
	struct mass weigh;      /* damp mass to put on the scale */
	struct mass take_water; /* to leave out of the mixing water; below 0:
	                           to add, because the part is thirsty */
};

/* mix_damp_mass(dry, moisture_ratio, absorption_ratio, out, err):
 * weigh = dry (1 + moisture), take_water = dry (moisture - absorption), both on
 * oven-dry mass.  Source: ACI 211.1.
 * ERR_INPUT  dry is not above 0 or a ratio is below 0 or not finite */
enum err_code mix_damp_mass(struct mass dry, double moisture_ratio,
	double absorption_ratio, struct mix_damp *out,
	struct err *err) MUST_CHECK;

#endif /* MIX_PROPORTION_H */

/* metering.h - what a foam of another weight than planned does to a batch; it
 * depends on how the foam is measured out.
 *
 * Pure.  Method: docs/methods/metering.md. */
#ifndef MIX_METERING_H
#define MIX_METERING_H

#include "mix/proportion.h"

/* word for the book and for machines, and for people */
#define MIX_METERING_LIST(X)                                        \
	X(MIX_BY_VOLUME, "volume", "by the bucket")                 \
	X(MIX_BY_SECONDS, "seconds", "by seconds of the generator") \
	X(MIX_BY_DENSITY, "density", "until the wet density is met")

#define MIX_METERING_AS_ENUM(metering, word, people) metering,
enum mix_metering { MIX_METERING_LIST(MIX_METERING_AS_ENUM) };
#undef MIX_METERING_AS_ENUM
enum { MIX_METERING_COUNT = MIX_BY_DENSITY + 1 };

const char *mix_metering_word(enum mix_metering metering);
const char *mix_metering_people(enum mix_metering metering);
bool mix_metering_find(const char *word, enum mix_metering *metering);

/* The batch that is really made. */
struct mix_metered {
	struct volume foam_volume;
	struct volume volume;
	double yield_ratio; /* of the volume that was planned */
	struct density wet_density, oven_dry_density;
	double total_water_cement_ratio;
};

/* mix_metered_by(arena, plan, planned, foam_true, metering, out, err):
 * plan and planned are a proportion and its answer with the foam as it should
 * be.  With a foam of density foam_true instead:
 *   by volume   the planned volume of foam goes in
 *   by seconds  the planned mass of foam goes in: the liquid is fed at a steady
 *               rate, and only the air that it takes up has changed
 *   by density  foam goes in until the wet density is the planned one
 * Derived (mass balance).
 * ERR_INPUT, ERR_MEMORY as mix_proportion */
enum err_code mix_metered_by(struct arena *arena,
	const struct mix_proportion *plan,
	const struct mix_proportioned *planned, struct density foam_true,
	enum mix_metering metering, struct mix_metered *out,
	struct err *err) MUST_CHECK;

#endif /* MIX_METERING_H */

/* takeoff.h - volumes, batches, whole packages and money for a part.
 *
 * Pure.  Derived (volumes and whole numbers); waste and settling are the
 * person's own figures.  Method: docs/methods/takeoff.md. */
#ifndef BUILD_TAKEOFF_H
#define BUILD_TAKEOFF_H

#include "build/types.h"
#include "core/arena.h"
#include "core/err.h"

/* build_net_volume(part, volume_m3, err): ERR_INPUT where neither a volume nor
 * three sizes are given, one of them is not above 0, or the openings are not
 * less than the face. */
enum err_code build_net_volume(const struct build_part *part, double *volume_m3,
	struct err *err) MUST_CHECK;

/* build_takeoff(arena, part, settling_ratio, material, n, foam_m3_per_m3, out,
 * err):
 * mixed = net / (1 - settling) * (1 + waste): what settles is filled up.
 * Packages never fall short of the mass.  settling_ratio in [0, 1).
 * ERR_INPUT as build_net_volume, or a ratio, batch, package or mass is out of
 * range; ERR_MEMORY */
enum err_code build_takeoff(struct arena *arena, const struct build_part *part,
	double settling_ratio, const struct build_material *material, size_t n,
	double foam_m3_per_m3, struct build_taken *out,
	struct err *err) MUST_CHECK;

#endif /* BUILD_TAKEOFF_H */

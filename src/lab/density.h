/* density.h - density, moisture and absorption of one specimen.
 *
 * Pure.  Method and symbols: docs/methods/density.md. */
#ifndef LAB_DENSITY_H
#define LAB_DENSITY_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

/* Water in which a piece is weighed: ASTM C567/C567M-11, eq. 1. */
static const double lab_weighing_water_kg_m3 = 997.0;

enum lab_volume_by {
	LAB_VOLUME_GIVEN,
	LAB_VOLUME_SIDES,   /* length * width * height */
	LAB_VOLUME_IN_WATER /* what the piece seems to lose when under water */
};

struct lab_density {
	struct mass mass; /* as weighed now; > 0 */
	enum lab_volume_by by;
	struct volume volume;                /* > 0 with LAB_VOLUME_GIVEN */
	struct length length, width, height; /* > 0 with LAB_VOLUME_SIDES */
	struct mass mass_in_water; /* held under; below 0 for a piece that
	                              floats (its sinker taken off) */
	struct density water;      /* > 0 with LAB_VOLUME_IN_WATER */
	bool has_oven_dry;
	struct mass oven_dry_mass; /* > 0, <= mass */
	bool has_saturated;
	struct mass saturated_mass; /* >= oven_dry_mass; with
	                               LAB_VOLUME_IN_WATER it is this mass that
	                               was weighed under water */
};

struct lab_densities {
	struct volume volume;
	struct density density;
	bool has_oven_dry;
	struct density oven_dry_density;
	double moisture_ratio; /* water per oven-dry mass */
	bool has_absorption;   /* oven-dry and saturated known */
	double absorption_by_mass_ratio;
	double absorption_by_volume_ratio; /* volume of water per volume */
};

/* lab_density(d, out, err):
 * mass / volume; in water: V = (mass in air - mass in water) / water, ASTM
 * C567/C567M-11 eq. 1.  Absorption by mass and by volume as ASTM C796 reports
 * it (water at 1000 kg/m3).
 * ERR_INPUT  a value is out of range; err->field names it as calc does */
enum err_code lab_density(const struct lab_density *d,
	struct lab_densities *out, struct err *err) MUST_CHECK;

/* The finest division of each instrument; 0: taken as exact. */
struct lab_density_division {
	struct mass mass;
	struct length side;
	struct volume volume;
};

/* lab_density_uncertainty(d, division, relative, err): as
 * lab_flexure_uncertainty, for the density as weighed. */
enum err_code lab_density_uncertainty(const struct lab_density *d,
	const struct lab_density_division *division, double *relative,
	struct err *err) MUST_CHECK;

/* lab_absorption_uncertainty(d, division, relative, err): the same for the water
 * taken up by volume, the two weighings of the oven-dry and the saturated piece
 * each read apart.
 * ERR_INPUT  as lab_density; one of the two masses is missing
 * ERR_NUMERIC  it took up no water, so that nothing stands below the bar */
enum err_code lab_absorption_uncertainty(const struct lab_density *d,
	const struct lab_density_division *division, double *relative,
	struct err *err) MUST_CHECK;

/* lab_moisture(wet, dry, ratio, err): water per oven-dry mass, wet/dry - 1 (ASTM
 * C566's form).
 * lab_moisture_uncertainty(wet, dry, division, uncertainty, err): of that ratio,
 * absolute, each weighing read to the division; first order.
 * ERR_INPUT  a mass not above 0, wet below dry, a division below 0 */
enum err_code lab_moisture(struct mass wet, struct mass dry, double *ratio,
	struct err *err) MUST_CHECK;
enum err_code lab_moisture_uncertainty(struct mass wet, struct mass dry,
	struct mass division, double *uncertainty, struct err *err) MUST_CHECK;

#endif /* LAB_DENSITY_H */

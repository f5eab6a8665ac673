/* weigh_own.h - what a builder can find out about the own materials with a
 * bucket, a jar, a pan and a kitchen scale.
 *
 * Pure.  Every answer has its standard uncertainty, first order, from the steps
 * of scale and level (GUM, JCGM 100:2008, 5.1.2); a step counts as uniform over
 * its width (4.3.7). */
#ifndef MIX_WEIGH_OWN_H
#define MIX_WEIGH_OWN_H

#include "core/err.h"

/* Standard uncertainty of a bucket struck level, of its volume: a level within
 * 2 mm either way in a bucket some 200 mm high, uniform; common practice, no
 * source. */
static const double mix_level_ratio = 0.006;

struct mix_weighed {
	double value;
	double standard_uncertainty; /* in the unit of value */
};

/* mix_vessel_volume(gross_kg, tare_kg, step_kg, water_degc, out, err):
 * The true volume (m3) of a vessel filled with water to the brim.  Density of
 * water between 0 and 40 degC: Kell (1975), Journal of Chemical and Engineering
 * Data 20, 97-105, good to 0.01 kg/m3 here.  step_kg is the scale's.
 * ERR_INPUT  gross is not above tare, tare below 0, step not above 0,
 *            water_degc outside 0 to 40 */
enum err_code mix_vessel_volume(double gross_kg, double tare_kg, double step_kg,
	double water_degc, struct mix_weighed *out, struct err *err) MUST_CHECK;

/* mix_bulk_density(gross_kg, tare_kg, step_kg, vessel_m3, vessel_u_m3, out,
 * err): kg/m3 of what fills the vessel struck level, loose and damp as it is.
 * vessel_u_m3 is the standard uncertainty of its volume, level included.
 * Definition. */
enum err_code mix_bulk_density(double gross_kg, double tare_kg, double step_kg,
	double vessel_m3, double vessel_u_m3, struct mix_weighed *out,
	struct err *err) MUST_CHECK;

/* mix_particle_density(dry_kg, jar_water_kg, jar_both_kg, step_kg, water_degc,
 * out, err): kg/m3 of grains by a jar: dry_kg of them, the jar full of water
 * weighs jar_water_kg, the jar with the grains and full of water jar_both_kg.
 * The displaced water is dry + jar_water - jar_both; the method of ASTM C128
 * with a home-made pycnometer.
 * ERR_INPUT  the masses cannot belong together */
enum err_code mix_particle_density(double dry_kg, double jar_water_kg,
	double jar_both_kg, double step_kg, double water_degc,
	struct mix_weighed *out, struct err *err) MUST_CHECK;

/* mix_moisture(damp_kg, dry_kg, step_kg, out, err): water per oven-dry mass by
 * drying in a pan; ASTM C566. */
enum err_code mix_moisture(double damp_kg, double dry_kg, double step_kg,
	struct mix_weighed *out, struct err *err) MUST_CHECK;

#endif /* MIX_WEIGH_OWN_H */

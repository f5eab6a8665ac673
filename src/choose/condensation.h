/* condensation.h - does water gather inside a wall over the year?
 *
 * The form of ISO 13788:2012 (Glaser): steady months, no water moving but as
 * vapour.  Pure.  Method: docs/methods/condensation.md.  Screening only. */
#ifndef CHOOSE_CONDENSATION_H
#define CHOOSE_CONDENSATION_H

#include "core/arena.h"
#include "core/err.h"
#include "choose/heat.h"

#include <stdbool.h>
#include <stddef.h>

enum { CHOOSE_MONTHS = 12 };

/* Vapour permeability of still air, kg/(m s Pa), ISO 13788, from memory. */
static const double choose_air_permeability = 2e-10;
/* Surface resistance inside for the check against mould, m2 K/W, ISO 13788,
 * 4.4.1, from memory; and the surface humidity beyond which mould grows. */
static const double choose_mould_surface = 0.25;
static const double choose_mould_humidity = 0.8;

/* choose_saturation(degC): saturation vapour pressure in Pa, ISO 13788, eq. E.7
 * and E.8: 610.5 exp(17.269 t/(237.3 + t)) from 0 degC, 610.5 exp(21.875
 * t/(265.5 + t)) below.  choose_dew_point(Pa): its inverse, degC; Pa > 0. */
double choose_saturation(double degC);
double choose_dew_point(double pressure_Pa);

/* choose_temperature_factor(surface, inside, outside): fRsi, ISO 13788, 3. */
double choose_temperature_factor(
	double surface_degC, double inside_degC, double outside_degC);

/* choose_least_surface(inside, humidity): the surface temperature below which
 * the air at the surface is above choose_mould_humidity, ISO 13788, 5.3. */
double choose_least_surface(double inside_degC, double humidity_ratio);

struct choose_wet_layer {
	struct choose_layer heat;
	double air_layer_m; /* vapour resistance as a thickness of still air,
	                       mu * thickness; > 0, 0.01 for an air space */
};

/* One month's climate, both sides. */
struct choose_month {
	double inside_degC, inside_humidity; /* humidity: 0 < x <= 1 */
	double outside_degC, outside_humidity;
	double days; /* > 0 */
};

struct choose_condensation {
	const struct choose_wet_layer *layer; /* borrowed; from inside out */
	size_t n_layer;                       /* 1 to 32 */
	const struct choose_month *month;     /* borrowed; January first */
	size_t n_month;                       /* 12 */
	double inside_surface_m2K_W, outside_surface_m2K_W;
	double step_m2K_W; /* layers are cut into slices of at most this much
	                      (ISO 13788: 0.25); 0: not cut */
};

/* Water at the interface where most gathers, and in the whole wall. */
struct choose_wet_month {
	double rate_kg_m2_s; /* gathering, all places; below 0: drying */
	double held_kg_m2;   /* in the wall at the month's end */
	double surface_degC; /* inside, with choose_mould_surface */
	bool mould;          /* surface humidity above 0.8 */
	bool surface_wet;    /* the inside face itself is below the dew point*/
};

struct choose_condensed {
	struct choose_wet_month month[CHOOSE_MONTHS]; /* January first */
	bool gathers;                                 /* in any month */
	size_t first_month; /* where the year was begun, 0 January */
	double most_kg_m2;
	size_t most_month;
	struct length most_depth; /* from the inside, of the place that holds
	                             most in that month */
	bool dries; /* nothing is left when the year comes round */
};

/* choose_condensation(arena, c, out, err):
 * In each month temperatures by resistance, saturation at each interface, and
 * the vapour pressure drawn as a straight line from inside to outside or, where
 * that would pass saturation, as the tangents under it (the lower convex hull);
 * water gathers at a rate of choose_air_permeability times the change of slope.
 * A wet place stays at saturation until it is dry, and the rest of that month
 * is reckoned anew.  The year begins with a month
 * that gathers after one that does not.
 * ERR_INPUT  not twelve months, a layer, a temperature or a humidity out of
 *            range ("months[3].inside_humidity")
 * ERR_MEMORY */
enum err_code choose_condensation(struct arena *arena,
	const struct choose_condensation *c, struct choose_condensed *out,
	struct err *err) MUST_CHECK;

#endif /* CHOOSE_CONDENSATION_H */

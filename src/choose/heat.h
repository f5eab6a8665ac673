/* heat.h - resistance of layers to heat, U-value, heat kept.
 *
 * Pure.  Method and symbols: docs/methods/heat.md.  Screening only. */
#ifndef CHOOSE_HEAT_H
#define CHOOSE_HEAT_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>

enum choose_heat_flow {
	CHOOSE_HEAT_UP,
	CHOOSE_HEAT_HORIZONTAL, /* within 30 degrees of level */
	CHOOSE_HEAT_DOWN
};

/* choose_surface_inside(flow): 0.10, 0.13, 0.17 m2 K/W; outside always 0.04:
 * ISO 6946:2017, table 7 (2007: table 1), from memory. */
double choose_surface_inside(enum choose_heat_flow flow);
static const double choose_surface_outside = 0.04;

/* 1 m2 K/W in h ft2 degF/Btu, by the International Table Btu; U the other way
 * round. */
static const double choose_us_per_m2K_W = 5.678263341113486;

struct choose_layer {
	bool has_resistance;     /* given as a whole (air space, membrane) */
	double resistance_m2K_W; /* >= 0 */
	struct length thickness; /* else thickness / conductivity */
	struct conductivity conductivity; /* > 0 */
};

struct choose_heat {
	const struct choose_layer *layer; /* borrowed; from inside out */
	size_t n_layer;                   /* >= 1 */
	enum choose_heat_flow flow;
};

struct choose_heated {
	double resistance_m2K_W; /* with both surfaces */
	double u_W_m2K;
};

/* choose_heat(h, out, err):
 * Rsi + sum of thickness / conductivity + Rse; U = 1/R (ISO 6946, 6.7.1).  Not
 * rounded.
 * ERR_INPUT  no layer, or a value out of range ("layers[1].conductivity") */
enum err_code choose_heat(const struct choose_heat *h,
	struct choose_heated *out, struct err *err) MUST_CHECK;

/* choose_layer_resistance(layer): thickness / conductivity, or as given; the
 * layer has been checked. */
double choose_layer_resistance(const struct choose_layer *layer);

/* choose_check_layers(layer, n, err): as choose_heat checks them. */
enum err_code choose_check_layers(
	const struct choose_layer *layer, size_t n, struct err *err) MUST_CHECK;

/* choose_heat_faces(resistance, n, flow, inside, outside, face): temperatures of
 * the inside face, where layers meet, and the outside face (n + 1) in steady
 * heat flow: each resistance takes its share of the difference (ISO 13788,
 * 4.4.2, from memory). */
void choose_heat_faces(const double *resistance_m2K_W, size_t n,
	enum choose_heat_flow flow, double inside_degC, double outside_degC,
	double *face_degC);

/* choose_thickness_for_u(h, conductivity, wanted_u, out, err):
 * How thick one more layer of that conductivity must be beside those of h (h
 * may have none) for the wanted U-value: (1/U - R) * conductivity (ISO 6946
 * solved for one thickness).
 * ERR_INPUT  as choose_heat, wanted_u or conductivity not above 0
 * ERR_ANSWER_NO  the others alone already do it */
enum err_code choose_thickness_for_u(const struct choose_heat *h,
	struct conductivity conductivity, double wanted_u_W_m2K,
	struct length *out, struct err *err) MUST_CHECK;

/* One part of a wall that is not the same all over: its share of the area and
 * its layers; every part has the same number of layers, the same thickness in
 * each. */
struct choose_strip {
	double share; /* of the area, > 0; they add up to 1 */
	const struct choose_layer *layer;
};

struct choose_bridged {
	double upper_m2K_W; /* parallel paths */
	double lower_m2K_W; /* layers of even temperature */
	struct choose_heated mean;
	double half_spread; /* (upper - lower)/(2 mean) */
};

/* choose_bridged(strip, n_strip, n_layer, flow, out, err):
 * ISO 6946, 6.7.2.  Meant for upper/lower up to 1.5.
 * ERR_INPUT  a layer out of range, shares that do not add up to 1 within 1e-6,
 *            or thicknesses that differ between strips */
enum err_code choose_bridged(const struct choose_strip *strip, size_t n_strip,
	size_t n_layer, enum choose_heat_flow flow, struct choose_bridged *out,
	struct err *err) MUST_CHECK;

/* choose_tapered_u(rest_m2K_W, most_m2K_W, u, err): U of a rectangle with a
 * layer that tapers to nothing, ln(1 + R1/R0)/R1 (ISO 6946:2017, annex E).
 * ERR_INPUT  a value not above 0 */
enum err_code choose_tapered_u(double rest_m2K_W, double most_m2K_W, double *u,
	struct err *err) MUST_CHECK;

/* choose_radiative(mean_degC): 4 sigma T^3, W/(m2 K), of a black surface (ISO
 * 6946, annex C).
 * choose_surface(convective, emissivity, mean_degC): 1/(hc + e hr), m2 K/W; hc
 * 5.0 up, 2.5 level, 0.7 down, outside 4 + 4 v. */
double choose_radiative(double mean_degC);
double choose_surface(
	double convective_W_m2K, double emissivity, double mean_degC);

/* What a layer holds: J/(m2 K), and its diffusivity m2/s (definitions).
 * Specific heat of concrete and autoclaved aerated concrete: 1000 J/(kg K), ISO
 * 10456:2007, table 3.  ERR_INPUT a value not above 0. */
static const double choose_specific_heat_J_kgK = 1000;
enum err_code choose_heat_capacity(struct density density,
	struct length thickness, double specific_J_kgK, double *out_J_m2K,
	struct err *err) MUST_CHECK;
enum err_code choose_diffusivity(struct conductivity conductivity,
	struct density density, double specific_J_kgK, double *out_m2_s,
	struct err *err) MUST_CHECK;

#endif /* CHOOSE_HEAT_H */

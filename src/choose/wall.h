/* wall.h - a wall under its own weight, a roof and the wind.
 *
 * None of the codes used covers foamed concrete below about 17 MPa: a screen
 * with a stated margin.  Pure.  docs/methods/screening.md.  Screening only. */
#ifndef CHOOSE_WALL_H
#define CHOOSE_WALL_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

/* On home-tested brittle material; common practice, no source. */
static const double choose_wall_safety = 3;
/* Bending over crushing strength where no beam was broken, on the low side;
 * common practice, no source. */
static const double choose_tension_share = 0.1;
/* EN 1996-1-1, 5.5.1.4: height to thickness at most. */
static const double choose_most_slender = 27;

struct choose_wall {
	struct length height, thickness; /* > 0; held at foot and head */
	struct stress strength;          /* crushing; > 0 */
	bool has_bending_strength;       /* else choose_tension_share of it */
	struct stress bending_strength;  /* across the bed, from beams; > 0 */
	struct density density;          /* > 0 */
	double load_N_m;                 /* on top, in the middle; >= 0 */
	struct stress wind;              /* either way; >= 0 */
	double safety;                   /* >= 1 */
};

struct choose_walled {
	double slenderness;    /* height / thickness */
	double capacity_ratio; /* what slenderness leaves of crushing */
	struct stress axial;   /* at the foot: load and own weight */
	struct stress axial_middle;
	struct stress bending;       /* at half height: 6 w h^2/8 / t^2 */
	struct stress net_tension;   /* bending - axial_middle, at least 0 */
	double crushing_utilisation; /* safety * stress / what is left */
	double tension_utilisation;
	double utilisation; /* the larger; over 1 does not do */
	bool too_slender;   /* over choose_most_slender */
	bool tension_governs;
};

/* choose_wall(w, out, err):
 * One metre of wall, bending upright between foot and head, w h^2/8 (statics).
 * Crushing: axial / (strength * capacity), at half height with bending /
 * strength added, capacity as TMS 402, 8.2.4.1, without its quarter: 1 - (h/140
 * r)^2, or (70 r/h)^2 above h/r = 99.  Tension: net / bending strength.  Both
 * times the safety factor.  Openings, edges, holes, settlement, earthquake and
 * buckling by creep are not in it.
 * ERR_INPUT  a value is out of range; err->field names it as calc does */
enum err_code choose_wall(const struct choose_wall *w,
	struct choose_walled *out, struct err *err) MUST_CHECK;

/* choose_slender_capacity(height_per_radius): as above, TMS 402-16, eq. 8-16
 * and 8-17 over 0.25 f'm; the radius of gyration of a solid wall is t/sqrt 12.
 */
double choose_slender_capacity(double height_per_radius);

/* choose_buckling_load(modulus, width, thickness, height, eccentricity, out_N,
 * err): pi^2 E I/h^2 (1 - 0.577 e/r)^3, TMS 402-16, eq. 8-18 (eccentricity 0:
 * Euler); the code asks for a quarter of it at most.
 * ERR_INPUT  a value out of range, or an eccentricity beyond r/0.577 */
enum err_code choose_buckling_load(struct stress modulus, struct length width,
	struct length thickness, struct length height,
	struct length eccentricity, double *out_N, struct err *err) MUST_CHECK;

/* choose_reduction_en1996(slenderness, eccentricity_ratio, modulus_ratio, out,
 * err): Phi in the middle of a wall, (1 - 2 e/t) exp(-u^2/2), u = (x - 0.063)/
 * (0.73 - 1.17 e/t), x = slenderness sqrt(f/E) (EN 1996-1-1, annex G);
 * modulus_ratio is E/f.  Top and foot: 1 - 2 e/t (6.1.2.2).
 * ERR_INPUT  slenderness not from 0 to 27, e/t not from 0 to 0.45, E/f not
 *            above 0 */
enum err_code choose_reduction_en1996(double slenderness,
	double eccentricity_ratio, double modulus_ratio, double *out,
	struct err *err) MUST_CHECK;

/* choose_height_factor(held_factor, height, between, both, out, err):
 * Effective height of a wall held on one upright edge, rho2/(1 + (rho2 h/3
 * l)^2), or on both, rho2/(1 + (rho2 h/l)^2) up to h = 1.15 l and 0.5 l/h
 * beyond (EN 1996-1-1, 5.5.1.2).  ERR_INPUT a value not above 0. */
enum err_code choose_height_factor(double held_factor, struct length height,
	struct length between, bool both_edges, double *out,
	struct err *err) MUST_CHECK;

/* choose_wind_asce(speed_m_s, kz, kzt, kd, out, err): 0.613 Kz Kzt Kd V^2, ASCE
 * 7-16, eq. 26.10-1 in SI.  choose_wind_en(speed_m_s, out, err): 1.25 V^2/2, EN
 * 1991-1-4, eq. 4.10.  ERR_INPUT a value not above 0. */
enum err_code choose_wind_asce(double speed_m_s, double kz, double kzt,
	double kd, struct stress *out, struct err *err) MUST_CHECK;
enum err_code choose_wind_en(
	double speed_m_s, struct stress *out, struct err *err) MUST_CHECK;

/* choose_bearing(compressive, loaded, spread, out, err): 0.85 f'c A1 min(sqrt
 * (A2/A1), 2), ACI 318-19, table 22.8.3.2, without its factor 0.65.
 * choose_bearing_factor(edge, height, share, out, err): beta = (1 + 0.3 a1/hc)
 * (1.5 - 1.1 Ab/Aef), from 1 to the lesser of 1.25 + a1/2hc and 1.5, EN
 * 1996-1-1, eq. 6.11.  ERR_INPUT a value out of range. */
enum err_code choose_bearing(struct stress compressive, struct area loaded,
	struct area spread, struct force *out, struct err *err) MUST_CHECK;
enum err_code choose_bearing_factor(struct length edge, struct length height,
	double share, double *out, struct err *err) MUST_CHECK;

/* choose_kern(thickness): t/6, how far off the middle a load may stand with no
 * tension (statics).  choose_initial_eccentricity(effective_height): h/450, EN
 * 1996-1-1, 5.5.1.1.  choose_aac_modulus(strength): 6500 f^0.6 in psi, TMS 402,
 * 4.2.2, for autoclaved aerated concrete. */
struct length choose_kern(struct length thickness);
struct length choose_initial_eccentricity(struct length effective_height);
struct stress choose_aac_modulus(struct stress strength);

#endif /* CHOOSE_WALL_H */

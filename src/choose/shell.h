/* shell.h - domes, barrel vaults and arches under their own weight.
 *
 * Membrane forces: the shell is thin (t/a below about 1/20), its foot is held
 * smoothly; real edges bend.  Tension is what plain foamed concrete must not be
 * trusted with.  Pure.  docs/methods/shells.md.  Screening only. */
#ifndef CHOOSE_SHELL_H
#define CHOOSE_SHELL_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

struct choose_dome {
	struct length radius;    /* of the middle of the shell; > thickness */
	struct length thickness; /* > 0 */
	struct density density;  /* > 0 */
	double angle_rad; /* from the crown down to where it is asked, 0 to
	                     pi/2 */
};

/* Forces in N a metre of section, tension above 0. */
struct choose_domed {
	double weight_Pa;          /* q, on each m2 of shell */
	double along_N_m;          /* meridian: -q a/(1 + cos angle) */
	double hoop_N_m;           /* q a (1/(1 + cos) - cos) */
	struct stress along, hoop; /* over the thickness */
	double turn_rad;   /* hoop is 0 here, tension below: acos((sqrt 5 -
	                       1)/2) = 51.83 degrees */
	struct force ring; /* tension of a ring at that angle that takes the
	                       thrust: along * cos * a sin */
	bool is_thick;     /* t/a over 1/20: membrane theory strained */
};

/* choose_dome(d, out, err):
 * Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, ch. 14.
 * ERR_INPUT  a value is out of range; err->field names it */
enum err_code choose_dome(const struct choose_dome *d, struct choose_domed *out,
	struct err *err) MUST_CHECK;

/* choose_dome_snow(radius, load, angle, along, hoop, err): load a m2 of plan:
 * -p a/2 and -(p a/2) cos 2 angle; 0 hoop at 45 degrees (same source). */
enum err_code choose_dome_snow(struct length radius, struct stress load,
	double angle_rad, double *along_N_m, double *hoop_N_m,
	struct err *err) MUST_CHECK;

/* choose_sphere_buckling(modulus, thickness_ratio, poisson, out, err):
 * 2 E (t/a)^2/sqrt(3 (1 - nu^2)), Zoelly 1915; real shells reach a tenth to a
 * fifth of it (common practice, no source). */
enum err_code choose_sphere_buckling(struct stress modulus,
	double thickness_ratio, double poisson, struct stress *out,
	struct err *err) MUST_CHECK;

/* A barrel vault, half a circle, that spans between stiff end walls. */
struct choose_vault {
	struct length radius, thickness; /* radius of the middle */
	struct length length;            /* between the end walls; > 0 */
	struct density density;
	double angle_rad;          /* from the crown, 0 to pi/2 */
	struct length from_middle; /* along the vault, 0 to length/2 */
};

struct choose_vaulted {
	double weight_Pa;
	double around_N_m; /* -q a cos angle */
	double along_N_m;  /* -(q/a) cos angle (L^2/4 - x^2) */
	double shear_N_m;  /* -2 q x sin angle */
	struct stress around, along;
	bool is_thick;
};

/* choose_vault(v, out, err): same source, ch. 15, the cylindrical shell with
 * simply supported ends under its own weight.  The straight lower edges need
 * beams that take up the shear.  ERR_INPUT as choose_dome. */
enum err_code choose_vault(const struct choose_vault *v,
	struct choose_vaulted *out, struct err *err) MUST_CHECK;

/* A vault whose long edges are held: each metre is an arch. */
struct choose_arch {
	struct length span, rise; /* > 0 */
	double load_N_m;          /* > 0 */
};
struct choose_arched {
	struct force thrust;     /* level, at either end */
	struct force end;        /* resultant there */
	struct length developed; /* along the curve; catenary only */
	struct length parameter; /* a of y = a cosh(x/a); catenary only */
};

/* choose_parabola(a, out, err): load even in plan, H = w L^2/8f.
 * choose_catenary(a, out, err): load even along the curve, H = w a with a (cosh
 * L/2a - 1) = f, end thrust w (a + f) (statics, derived).
 * ERR_INPUT  a value not above 0; ERR_NUMERIC a rise so small or large against
 *            the span that no curve is found */
enum err_code choose_parabola(const struct choose_arch *a,
	struct choose_arched *out, struct err *err) MUST_CHECK;
enum err_code choose_catenary(const struct choose_arch *a,
	struct choose_arched *out, struct err *err) MUST_CHECK;

/* The least thickness over the mean radius at which a half-circle arch stands
 * under its own weight, radial joints (Milankovitch 1907). */
static const double choose_least_arch = 0.1075;

#endif /* CHOOSE_SHELL_H */

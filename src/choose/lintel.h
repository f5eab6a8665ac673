/* lintel.h - a beam over an opening, simply supported.
 *
 * Pure.  Statics (derived).  docs/methods/screening.md.  Screening only. */
#ifndef CHOOSE_LINTEL_H
#define CHOOSE_LINTEL_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

struct choose_lintel {
	struct length span, width, depth; /* > 0; width: the wall's thickness */
	struct density density;           /* of the lintel itself; > 0 */
	struct density wall;              /* above it; >= 0 */
	bool arches; /* only the 45-degree triangle of wall bears on it: needs
	                wall above its top and at both sides */
	struct length wall_height; /* above the lintel, without arches; >= 0 */
	double load_N_m;           /* more, even along it; >= 0 */
	struct stress strength;    /* in bending; > 0 */
	double safety;             /* 1 to 50 */
};

struct choose_lintelled {
	double even_N_m;       /* own weight, wall without arches, load */
	struct force triangle; /* weight of the triangle */
	struct moment moment;  /* w L^2/8 + W L/6 */
	struct force shear;    /* at a support */
	struct stress bending; /* 6 M/(b h^2) */
	double utilisation;    /* safety * bending / strength */
};

/* choose_lintel(l, out, err):  Plain: nothing is left when it cracks.
 * ERR_INPUT  a value is out of range; err->field names it */
enum err_code choose_lintel(const struct choose_lintel *l,
	struct choose_lintelled *out, struct err *err) MUST_CHECK;

/* choose_beam_sag(load_N_m, span, modulus, width, depth, out, err):
 * 5 w L^4/(384 E I) (beam theory).  ERR_INPUT a value not above 0. */
enum err_code choose_beam_sag(double load_N_m, struct length span,
	struct stress modulus, struct length width, struct length depth,
	struct length *out, struct err *err) MUST_CHECK;

#endif /* CHOOSE_LINTEL_H */

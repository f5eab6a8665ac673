/* rise.h - water drawn up by a piece that stands in it.
 *
 * Soaking is in density.h.  Pure.  Method: docs/methods/water.md. */
#ifndef LAB_RISE_H
#define LAB_RISE_H

#include "core/arena.h"
#include "core/err.h"
#include "core/qty.h"

#include <stddef.h>

struct lab_rise_reading {
	struct duration at; /* since it was set in the water; >= 0 */
	struct mass mass;   /* > 0, never less than the first */
};

struct lab_rise {
	const struct lab_rise_reading *reading; /* borrowed; in order of time */
	size_t n_reading;                       /* at least 3 */
	struct area face;                       /* in the water; > 0 */
};

struct lab_risen {
	double sorptivity_m_per_root_s; /* slope of i against sqrt(t) */
	double standard_error;          /* of the slope */
	struct length offset;           /* i at t = 0 on the line */
	double r_squared;
	struct mass total;         /* taken up between first and last reading */
	double water_kg_m2_root_s; /* the same slope as mass a face, the
	                              absorption coefficient of ISO 15148 */
};

/* lab_rise(arena, rise, out, err):
 * i = (mass - first mass) / (face * 1000 kg/m3) against the root of time, one
 * straight line by least squares over all readings given (ASTM C1585; give the
 * readings of the first 6 h for the initial rate).
 * ERR_INPUT  fewer than three readings, times that run backwards or are all the
 *            same, a mass below the first, a face not above 0
 * ERR_MEMORY */
enum err_code lab_rise(struct arena *arena, const struct lab_rise *rise,
	struct lab_risen *out, struct err *err) MUST_CHECK;

/* The finest division of each instrument; 0: taken as exact. */
struct lab_rise_division {
	struct mass mass;
	struct length side; /* of the square of the face */
};

/* lab_rise_uncertainty(rise, division, relative, err): the relative standard
 * uncertainty of the slope from reading the scale and the sides of the face,
 * first order (JCGM 100:2008, 5.1.2).  The first weighing shifts the line and
 * leaves its slope.  How the points lie about the line is standard_error, and
 * is not in it.
 * ERR_INPUT  as lab_rise, or a division below 0
 * ERR_NUMERIC  it drew up no water */
enum err_code lab_rise_uncertainty(struct arena *arena,
	const struct lab_rise *rise, const struct lab_rise_division *division,
	double *relative, struct err *err) MUST_CHECK;

#endif /* LAB_RISE_H */

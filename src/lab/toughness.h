/* toughness.h - what a beam still carries after its first crack.
 *
 * Pure.  Method and symbols: docs/methods/stiffness.md. */
#ifndef LAB_TOUGHNESS_H
#define LAB_TOUGHNESS_H

#include "core/err.h"
#include "core/qty.h"

#include <stddef.h>

/* One reading of the middle against the supports (not of the machine). */
struct lab_sag {
	struct length deflection; /* >= 0, never less than the one before */
	struct force load;        /* >= 0 */
};

/* lab_area_under(sag, n, to, out, err):
 * The energy under straight lines between the readings, up to the deflection
 * `to` (trapezoids; the last one cut there).  A first reading beyond 0 is
 * joined to 0, 0.
 * ERR_INPUT  no reading, one below 0 or running backwards ("sags[2].load"), or
 *            the readings end before `to` */
enum err_code lab_area_under(const struct lab_sag *sag, size_t n,
	struct length to, struct energy *out, struct err *err) MUST_CHECK;

struct lab_toughness {
	const struct lab_sag *sag; /* borrowed; third-point loading */
	size_t n_sag;
	struct length span, width, depth; /* > 0 */
};

/* Names as in ASTM C1609, D the depth, L the span. */
struct lab_toughened {
	struct stress f_peak;       /* first peak: largest load up to L/600 */
	struct stress f_600, f_150; /* at a sag of L/600 and of L/150 */
	struct energy t_150;        /* area to L/150 */
	double r_150_ratio;         /* 150 T150 / (f_peak b d^2) */
	struct stress equivalent; /* T150 L / ((L/150) b d^2), the JCI-SF4 form
	                             */
};

/* lab_toughness(t, out, err):
 * ASTM C1609/C1609M (formulas from memory and a trade page); strength P L/(b
 * d^2).
 * ERR_INPUT  as lab_area_under, a size is out of range, or no load up to L/600
 */
enum err_code lab_toughness(const struct lab_toughness *t,
	struct lab_toughened *out, struct err *err) MUST_CHECK;

/* lab_residual_ratio(first_crack_N, after_N, out, err):
 * Load held after the crack over the load at the first crack, each an interval
 * (low may be 0, high INFINITY): the widest that both allow.  Derived.
 * ERR_INPUT  an interval upside down or below 0, or both ends of the first
 *            crack 0 */
enum err_code lab_residual_ratio(struct interval first_crack_N,
	struct interval after_N, struct interval *out,
	struct err *err) MUST_CHECK;

/* The finest division of each instrument; 0: taken as exact. */
struct lab_sag_division {
	struct force load;
	struct length deflection;
};

/* lab_area_uncertainty(sag, n, division, relative, err): the relative standard
 * uncertainty of lab_area_under up to the last reading, every load and every
 * sag read apart, first order (JCGM 100:2008, 5.1.2).
 * ERR_INPUT    as lab_area_under, or a division below 0
 * ERR_NUMERIC  the area is nothing */
enum err_code lab_area_uncertainty(const struct lab_sag *sag, size_t n,
	const struct lab_sag_division *division, double *relative,
	struct err *err) MUST_CHECK;

#endif /* LAB_TOUGHNESS_H */

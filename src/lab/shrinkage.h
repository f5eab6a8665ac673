/* shrinkage.h - how much a drying bar has grown shorter.
 *
 * Pure.  Method and symbols: docs/methods/water.md. */
#ifndef LAB_SHRINKAGE_H
#define LAB_SHRINKAGE_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

/* Expansion of concrete by warmth, 1/K (common practice, no source). */
static const double lab_expansion_per_K = 10e-6;

struct lab_shrinkage {
	struct length gauge;  /* between the marks at first; > 0 */
	struct length change; /* now less first: below 0 when it shrank; less
	                         than a tenth of the gauge */
	bool has_temperature;
	struct temperature first, now; /* of the bar at the two readings */
	struct length division;        /* of the calliper; >= 0 */
	double temperature_division_K; /* of the thermometer; >= 0 */
};

struct lab_shrunk {
	double length_change_ratio; /* change / gauge, as read (ASTM C157) */
	double drying_ratio;        /* less what the temperature did */
	double uncertainty;         /* standard, of drying_ratio: two readings
	                               of the calliper, and two of the
	                               thermometer where it was read */
};

/* lab_shrinkage(s, out, err):
 * ASTM C157/C157M, length change / gauge length; the part of the temperature
 * is taken off at 10e-6 a kelvin.
 * ERR_INPUT  a value is out of range; err->field names it */
enum err_code lab_shrinkage(const struct lab_shrinkage *s,
	struct lab_shrunk *out, struct err *err) MUST_CHECK;

/* lab_restrained_stress(drying_ratio, modulus, relaxation, out, err):
 * The stress where the shortening is fully held back: E * strain * the share
 * left after creep (elastic; common
 * practice, no source).
 * ERR_INPUT  strain not from 0 to 0.1, modulus not above 0, relaxation not a
 *            share from 0 to 1 */
enum err_code lab_restrained_stress(double drying_ratio, struct stress modulus,
	double relaxation, struct stress *out, struct err *err) MUST_CHECK;

#endif /* LAB_SHRINKAGE_H */

/* modulus.h - stiffness from a sag that was read.
 *
 * Pure.  Method and symbols: docs/methods/stiffness.md. */
#ifndef LAB_MODULUS_H
#define LAB_MODULUS_H

#include "lab/flexure.h"

struct lab_modulus {
	enum lab_loading loading;
	struct length span, width, depth; /* > 0 */
	struct force load;                /* all of it, > 0 */
	struct length deflection; /* of the middle against the supports, before
	                             the crack; > 0 */
	bool with_shear;          /* add the sag by shear of a rectangle */
	double poisson_ratio;     /* 0 to 0.5; used with_shear */
};

/* lab_modulus(m, out, err):
 * Centre P L^3/(48 I d), third points 23 P L^3/(1296 I d) (beam theory); with
 * shear times 1 + 12/5 (1 + nu)(depth/L)^2 (Timoshenko beam, shear factor 6/5)
 * or 1 + 216 (1 + nu)/115 (depth/L)^2 (ASTM C1609).  The load is a line: no
 * strap.
 * ERR_INPUT  a value is out of range; err->field names it as calc does */
enum err_code lab_modulus(const struct lab_modulus *m, struct stress *out,
	struct err *err) MUST_CHECK;

/* The finest division of each instrument; 0: taken as exact. */
struct lab_modulus_division {
	struct length span, width, depth, deflection;
	struct force load;
};

/* lab_modulus_uncertainty(m, division, relative, err): the relative standard
 * uncertainty from the readings, as lab_propagate has it.  ERR_INPUT as
 * lab_modulus, or a division is below 0; ERR_NUMERIC if one is coarser than
 * what was read. */
enum err_code lab_modulus_uncertainty(const struct lab_modulus *m,
	const struct lab_modulus_division *division, double *relative,
	struct err *err) MUST_CHECK;

#endif /* LAB_MODULUS_H */

/* hot_box.h - heat let through, from a heated box and thermometers.
 *
 * Pure.  Method and symbols: docs/methods/heat.md. */
#ifndef LAB_HOT_BOX_H
#define LAB_HOT_BOX_H

#include "core/err.h"
#include "core/qty.h"

/* Steady state: the heater's watts that do not leak elsewhere pass the slab. */
struct lab_hot_box {
	double power_W;                /* of the heater; > 0 */
	double leak_W;                 /* through the box; 0 <= leak < power */
	struct area area;              /* of the slab; > 0 */
	struct length thickness;       /* > 0 */
	struct temperature warm, cold; /* faces of the slab; warm above cold */
};

struct lab_hot_boxed {
	double flux_W_m2;
	double resistance_m2K_W; /* of the slab, face to face */
	struct conductivity conductivity;
};

/* lab_hot_box(b, out, err):
 * flux = (power - leak)/area, R = difference / flux, conductivity = thickness /
 * R (Fourier's law, as ASTM C1363 and ISO 8990 reduce their readings).
 * ERR_INPUT  a value is out of range, or the warm face is not the warmer */
enum err_code lab_hot_box(const struct lab_hot_box *b,
	struct lab_hot_boxed *out, struct err *err) MUST_CHECK;

/* The finest division of each instrument; 0: taken as exact. */
struct lab_hot_box_division {
	double power_W, leak_W;
	struct length thickness, side; /* side: of the square of that area */
	double temperature_K;
};

/* lab_hot_box_uncertainty(b, division, relative, err): the relative standard
 * uncertainty of the conductivity, as lab_propagate has it.  ERR_INPUT as
 * lab_hot_box; ERR_NUMERIC where a division is coarser than what was read. */
enum err_code lab_hot_box_uncertainty(const struct lab_hot_box *b,
	const struct lab_hot_box_division *division, double *relative,
	struct err *err) MUST_CHECK;

/* lab_beside_reference(reference_m2K_W, over_reference_K, over_piece_K, out,
 * err): two slabs with the same heat through both: R = R_ref * difference over
 * the piece / difference over the reference (derived).
 * ERR_INPUT  a value not above 0 */
enum err_code lab_beside_reference(double reference_m2K_W,
	double over_reference_K, double over_piece_K, double *out,
	struct err *err) MUST_CHECK;

#endif /* LAB_HOT_BOX_H */

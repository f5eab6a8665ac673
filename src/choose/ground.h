/* ground.h - a slab on the ground under a leg or a wheel.
 *
 * Westergaard 1926: a large plain slab on springs.  Pure.
 * docs/methods/screening.md.  Screening only. */
#ifndef CHOOSE_GROUND_H
#define CHOOSE_GROUND_H

#include "core/err.h"
#include "core/qty.h"

struct choose_ground {
	struct force load;       /* > 0 */
	struct length radius;    /* of the loaded circle; > 0 */
	struct length thickness; /* of the slab; > 0 */
	struct stress modulus;   /* of the slab; > 0 */
	double poisson_ratio;    /* 0 to 0.49 */
	double subgrade_Pa_m;    /* reaction of the ground, k; > 0 */
};

struct choose_grounded {
	struct length stiffness;  /* l = (E h^3/(12 (1 - nu^2) k))^(1/4) */
	struct length equivalent; /* b = sqrt(1.6 a^2 + h^2) - 0.675 h for a <
	                             1.724 h, else a */
	struct stress inside;     /* tension below a load far from edges */
	struct length inside_sag;
	struct stress corner; /* tension on top near a corner */
	struct length corner_sag;
};

/* choose_ground(g, out, err):
 * inside 3 P (1 + nu)/(2 pi h^2) (ln(l/b) + ln 2 + 1/2 - gamma) (Westergaard
 * 1926; Ioannides et al. 1985), sag P/(8 k l^2) (1 + (ln(a/2l) - 0.673)(a/l)^2/
 * 2 pi); corner 3 P/h^2 (1 - (a sqrt 2/l)^0.6), sag P/(k l^2) (1.1 - 0.88 a sqrt
 * 2/l) (Westergaard 1926; Huang, Pavement Analysis and Design, ch. 4).
 * ERR_INPUT  a value is out of range, or the loaded circle is so large against
 *            the slab's stiffness that the formulas do not hold (a > l/2)*/
enum err_code choose_ground(const struct choose_ground *g,
	struct choose_grounded *out, struct err *err) MUST_CHECK;

/* choose_ground_radius(thickness, load_radius): b as above. */
struct length choose_ground_radius(
	struct length thickness, struct length load_radius);

#endif /* CHOOSE_GROUND_H */

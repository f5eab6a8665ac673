/* handling.h - the stress of a piece that is lifted.
 *
 * Used for what a piece snapped at stripping still says of its strength at that
 * age, and for lifting precast pieces.  Pure.  docs/methods/screening.md. */
#ifndef LAB_HANDLING_H
#define LAB_HANDLING_H

#include "core/err.h"
#include "core/qty.h"

enum lab_grip {
	LAB_GRIP_ENDS,  /* held at both ends, or tilted about one */
	LAB_GRIP_INNER, /* two points, each a share of the length from an end */
	LAB_GRIP_MIDDLE /* hung or gripped in the middle */
};

/* Equal moments over the points and between them: (sqrt 2 - 1)/2 of the length
 * from each end (derived). */
static const double lab_equal_moment_share = 0.20710678118654752;

struct lab_handling {
	enum lab_grip grip;
	struct length length, width, depth; /* depth: in the way of bending */
	struct density density; /* as it is when lifted, with its water; > 0 */
	double inner_share;     /* LAB_GRIP_INNER: 0 < share < 0.5 */
	double jerk;            /* times the weight; 1 (still) to 5 */
};

struct lab_handled {
	double weight_N_per_m;
	struct moment moment; /* largest, with the jerk */
	struct stress stress; /* 6 M / (b d^2) */
};

/* lab_handling(h, out, err):
 * Ends w L^2/8; inner points the larger of w a^2/2 over them and w (L (L - 4
 * a)/8) between them; middle w L^2/8; times the jerk (statics, derived; jerk
 * factors 1.2 to 2 are common practice, no source).
 * A piece that snapped so had at most this strength at that age, a piece that
 * did not had at least it.
 * ERR_INPUT  a value is out of range; err->field names it */
enum err_code lab_handling(const struct lab_handling *h,
	struct lab_handled *out, struct err *err) MUST_CHECK;

/* The finest division of each instrument; 0: taken as exact. */
struct lab_handling_division {
	struct density density; /* of a piece that was not weighed itself */
	struct mass mass;       /* of the scale, where it was */
	struct length side;
};

/* lab_handling_uncertainty(h, weighed, division, relative, err): the relative
 * standard uncertainty of the stress from the instruments, first order (JCGM
 * 100:2008, 5.1.2).  weighed: its mass, where the density came from that and
 * its sizes (so that they count again); 0: from elsewhere.  The jerk is a bound
 * and not in it.  ERR_INPUT  as lab_handling, or a division below 0 */
enum err_code lab_handling_uncertainty(const struct lab_handling *h,
	struct mass weighed, const struct lab_handling_division *division,
	double *relative, struct err *err) MUST_CHECK;

#endif /* LAB_HANDLING_H */

/* lever.h - the force a weighted lever puts on a piece.
 *
 * The jack is in crush.h.  Pure.  docs/methods/crush.md. */
#ifndef LAB_LEVER_H
#define LAB_LEVER_H

#include "core/err.h"
#include "core/qty.h"

/* All arms are level distances from the pivot, on the same side of it. */
struct lab_lever {
	struct mass hung;        /* >= 0 */
	struct length arm_hung;  /* > 0 */
	struct mass beam;        /* of the lever itself; >= 0 */
	struct length arm_beam;  /* of its centre of mass; >= 0 */
	struct length arm_piece; /* where it presses; > 0 */
};

/* lab_lever_force(lever, out, err):
 * (hung * arm + beam * arm) g / arm_piece: moments about the pivot (derived).
 * ERR_INPUT  a value is out of range, or nothing presses at all */
enum err_code lab_lever_force(const struct lab_lever *lever, struct force *out,
	struct err *err) MUST_CHECK;

/* lab_lever_hung(lever, force, out, err): the mass to hang for a force; the
 * lever's own `hung` is not read.  ERR_INPUT as above, or the lever alone
 * presses harder than that. */
enum err_code lab_lever_hung(const struct lab_lever *lever, struct force force,
	struct mass *out, struct err *err) MUST_CHECK;

#endif /* LAB_LEVER_H */

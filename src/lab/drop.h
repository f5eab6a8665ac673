/* drop.h - local crushing from the dent of a dropped bar.
 *
 * Pure.  Method and symbols: docs/methods/drop.md. */
#ifndef LAB_DROP_H
#define LAB_DROP_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

enum lab_tip { LAB_TIP_FLAT, LAB_TIP_BALL, LAB_TIP_CONE };

struct lab_drop {
	struct mass mass;     /* of the bar; > 0 */
	struct length height; /* from the tip to the face; > 0 */
	bool through;         /* it went through: depth is at least thickness */
	bool has_depth;       /* may be false with through */
	struct length depth;  /* of the dent; > 0, at most thickness */
	bool has_thickness;   /* must be there with through, unless depth is */
	struct length thickness; /* > 0 */
	double tube_loss_ratio;  /* energy lost in the guide, 0 <= x < 1 */
	enum lab_tip tip;
	struct length tip_diameter; /* of bar or ball; > 0 */
	double tip_angle_rad;       /* cone: the full angle, between 0 and pi */
};

/* Not through: low equals high everywhere. */
struct lab_dropped {
	struct interval energy_J;  /* given to the piece; through: at most */
	struct interval volume_m3; /* of the dent; through: at least */
	struct interval
		crushing_energy_Pa; /* energy / volume; through: at most*/
};

/* lab_drop(drop, out, err):
 * Energy m g (h + depth) (1 - tube loss) and volume: derived.  Through: the bar
 * kept an unknown part of its energy, so energy and energy per volume, taken at
 * the thickness, are upper bounds with low 0.
 * ERR_INPUT  a value is out of range, or the depth is more than the thickness
 *            without through, or less with it; err->field names it as calc does
 *            ("tip.diameter") */
enum err_code lab_drop(const struct lab_drop *drop, struct lab_dropped *out,
	struct err *err) MUST_CHECK;

/* lab_dent_volume(tip, diameter, angle_rad, depth, out, err):
 * Volume below the face of a tip pressed in to the depth.  Flat: cylinder.
 * Ball: spherical cap, and a cylinder above its widest place.  Cone: cone, and a
 * cylinder beyond its base.  Derived.  ERR_INPUT as above. */
enum err_code lab_dent_volume(enum lab_tip tip, struct length diameter,
	double angle_rad, struct length depth, struct volume *out,
	struct err *err) MUST_CHECK;

#endif /* LAB_DROP_H */

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

/* The finest division of each instrument; 0: taken as exact. */
struct lab_drop_division {
	struct mass mass;
	struct length height, depth, tip_diameter;
	double angle_rad; /* of the cone */
};

/* lab_drop_uncertainty(drop, division, relative, err):
 * The relative standard uncertainty of the energy per volume from reading the
 * instruments, as lab_propagate has it; the depth enters energy and volume.
 * Through: that of the bound at the thickness, read to the depth's division.
 * ERR_INPUT    as lab_drop, or a division below 0
 * ERR_NUMERIC  a division is coarser than what was read */
enum err_code lab_drop_uncertainty(const struct lab_drop *drop,
	const struct lab_drop_division *division, double *relative,
	struct err *err) MUST_CHECK;

/* lab_drop_energy(mass, height, out, err), lab_drop_speed(height, out, err):
 * m g h, and sqrt(2 g h) in m/s, of a free fall (derived).  ERR_INPUT a value
 * not above 0. */
enum err_code lab_drop_energy(struct mass mass, struct length height,
	struct energy *out, struct err *err) MUST_CHECK;
enum err_code lab_drop_speed(
	struct length height, double *out, struct err *err) MUST_CHECK;

/* lab_tube_loss(height, exit_m_s, ratio, err): the share of the energy that the
 * guide took, 1 - v^2/(2 g h), from the speed at its end (derived).  ERR_INPUT
 * speed not above 0 or above that of a free fall. */
enum err_code lab_tube_loss(struct length height, double exit_m_s,
	double *ratio, struct err *err) MUST_CHECK;

/* Blows on one place until it cracks or goes through. */
struct lab_blows {
	struct mass mass;
	struct length height;
	double tube_loss_ratio; /* 0 <= x < 1 */
	unsigned n_held;        /* blows after which it had not yet failed */
	bool did_fail;          /* at the next one */
};

/* lab_blows(blows, out, err):
 * The energy that it took, N m g h (ACI 544.2R's form): between that of the
 * blows held and that of one more; no upper end if it never failed.  The
 * growing depth of the dent is left out.
 * ERR_INPUT  a value is out of range, or not one blow was given */
enum err_code lab_blows(const struct lab_blows *blows, struct interval *out,
	struct err *err) MUST_CHECK;

/* lab_blows_uncertainty(blows, mass, height, relative, err): the relative standard
 * uncertainty of that energy from a scale and a ruler of these divisions, the
 * same at both ends; first order (JCGM 100:2008, 5.1.2).  The blow more or less
 * is the interval.  ERR_INPUT  as lab_blows, or a division below 0 */
enum err_code lab_blows_uncertainty(const struct lab_blows *blows,
	struct mass mass, struct length height, double *relative,
	struct err *err) MUST_CHECK;

#endif /* LAB_DROP_H */

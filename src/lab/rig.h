/* rig.h - what can be said of a test whose rig is only partly known.
 *
 * A test whose tip, span or step was not written down is not thrown away: it is
 * compared in the reading itself (the dent, the load), among pieces tested on
 * the same rig, and says what it lacks and what measuring it would add.
 *
 * Pure.  No source: common practice. */
#ifndef LAB_RIG_H
#define LAB_RIG_H

#include "lab/types.h"

#include <stdbool.h>
#include <stddef.h>

/* What is known of each test; a reading is taken to be there. */
struct lab_bending_known {
	bool span, width, depth;
	bool held;  /* the last weight that it held; false: one load, no step */
	bool broke; /* false: it was still holding */
	bool on_rig; /* mass of hanger or platform (0 is known too) */
	bool strap;
	bool beam_mass, beam_length;
};

struct lab_drop_known {
	bool mass, height, depth, through;
	bool thickness;
	bool tip_shape, tip_diameter, tip_angle; /* angle: for a cone */
	bool tip_is_cone;
	bool tube_loss;
};

struct lab_crushing_known {
	bool width, depth, diameter; /* across the load */
	bool height;
	bool held, broke;
	bool is_cylinder;
};

struct lab_density_known {
	bool mass, volume, oven_dry_mass, saturated_mass;
};

/* One fact that is not there: the key of the reading and a whole sentence of
 * what measuring it would add. */
struct lab_missing {
	const char *key;  /* as in calc: "span", "tip.diameter" */
	const char *adds; /* constant text */
};

enum { LAB_MISSING_MAX = 8 };

struct lab_rig {
	bool is_usable;             /* false: nothing at all can be compared */
	enum lab_quantity quantity; /* what can be computed; with is_usable */
	bool in_itself; /* true: the reading, only comparable on the same rig
	                   with pieces of the same size */
	bool has_step;  /* the load is an interval, or it never broke */
	struct lab_missing missing[LAB_MISSING_MAX]; /* weightiest first */
	size_t n_missing;
};

/* lab_rig_bending: bending strength with span, width and depth; otherwise the
 * breaking load.  lab_rig_drop: energy per volume with mass, height, tip and a
 * depth (or the thickness if it went through); otherwise the depth.
 * lab_rig_crushing: strength with the area; otherwise the load.
 * lab_rig_density: oven-dry density, density, or the mass.  None can fail. */
struct lab_rig lab_rig_bending(const struct lab_bending_known *known);
struct lab_rig lab_rig_drop(const struct lab_drop_known *known);
struct lab_rig lab_rig_crushing(const struct lab_crushing_known *known);
struct lab_rig lab_rig_density(const struct lab_density_known *known);

#endif /* LAB_RIG_H */

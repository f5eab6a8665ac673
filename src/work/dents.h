/* dents.h - where the bar hit a test piece, on the face that lay up.
 *
 * What is written down of a blow is a place by name and the distance to the
 * nearest edge.  Where along the edge it was is not, so it is put at the middle
 * of the longer one; without a distance at an eighth of the width. */
#ifndef WORK_DENTS_H
#define WORK_DENTS_H

#include "core/arena.h"
#include "core/err.h"
#include "core/qty.h"
#include "work/bench.h"

#include <stdbool.h>
#include <stddef.h>

struct work_dent {
	size_t reading;      /* of site.reading */
	double x_m, y_m;     /* from the lower left corner of the face */
	struct maybe wide_m; /* across, where the tip and the depth say it */
};

struct work_dents {
	bool has_face; /* its sizes are known; without them no dent */
	double length_m, width_m; /* the longer first */
	const struct work_dent *dent;
	size_t n_dent;
};

/* work_dents(bench, piece, arena, out, err): every blow on the piece, in the order
 * entered.  A distance of more than half the width is taken as not measured.  A
 * dent is as wide as the flat tip, the cap of the ball, the cone of known angle
 * at its depth (derived).  ERR_MEMORY */
enum err_code work_dents(const struct work_bench *bench, size_t piece,
	struct arena *arena, struct work_dents *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_DENTS_H */

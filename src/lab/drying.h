/* drying.h - a block that dries: when it will be dry enough for the plaster.
 *
 * Weighings over time are held against the drying of a flat piece through its
 * open faces (Fick; Crank 1975, The Mathematics of Diffusion, 2nd ed., eq. 4.18
 * and 4.20).  Pure.  Method: docs/methods/drying.md. */
#ifndef LAB_DRYING_H
#define LAB_DRYING_H

#include "core/arena.h"
#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>

enum { LAB_DRYING_LEAST = 5 }; /* weighings */

struct lab_drying_reading {
	struct duration at; /* since drying began; rising */
	struct mass mass;   /* > 0 */
};

struct lab_drying {
	const struct lab_drying_reading *reading;
	size_t n_reading;
	bool has_dry_mass;
	struct mass dry_mass;  /* of the piece from the oven */
	double moisture_ratio; /* wanted: water over dry mass, > 0; without a
	                          dry mass over the mass where drying ends */
};

struct lab_dried {
	struct mass end;           /* where drying ends in that air */
	struct mass wanted;        /* mass at the wanted moisture */
	struct duration when;      /* it is reached, from the start of drying */
	double log_when_error;     /* standard, of the logarithm of when */
	size_t n_free;             /* weighings less the three figures fitted */
	double moisture_now_ratio; /* by the last weighing */
	struct mass residual;      /* standard deviation of the weighings */
};

/* lab_drying_left(x): the share of the water not yet gone at x = pi^2 D t / L^2
 * (D diffusivity, L thickness with both faces open); x >= 0; 1 at 0. */
double lab_drying_left(double x);

/* lab_drying(arena, d, out, err):
 * ERR_INPUT   field "readings": too few, out of order, no loss; "dry_mass": over
 *             a weighing; "moisture": not above 0, or more than it began with
 * ERR_ANSWER_NO  in that air the piece never gets so dry
 * ERR_NUMERIC the readings do not tell the law's figures apart; ERR_MEMORY */
enum err_code lab_drying(struct arena *arena, const struct lab_drying *d,
	struct lab_dried *out, struct err *err) MUST_CHECK;

#endif /* LAB_DRYING_H */

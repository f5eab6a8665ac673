/* foam.h - foam density from a cup weighed full and empty, against a target.
 *
 * Pure.  The mean of the readings' densities and its standard error, their
 * spread over the root of their number (JCGM 100:2008, 4.2). */
#ifndef CONTROL_FOAM_H
#define CONTROL_FOAM_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>

struct control_foam_reading {
	struct mass gross, tare; /* gross > tare >= 0 */
	struct volume volume;    /* of the cup, by water, > 0 */
};

#define CONTROL_FOAM_LIST(X)       \
	X(CONTROL_FOAM_LOW, "low") \
	X(CONTROL_FOAM_OK, "ok")   \
	X(CONTROL_FOAM_HIGH, "high")

#define CONTROL_FOAM_AS_ENUM(verdict, word) verdict,
enum control_foam_verdict { CONTROL_FOAM_LIST(CONTROL_FOAM_AS_ENUM) };
#undef CONTROL_FOAM_AS_ENUM

const char *control_foam_word(enum control_foam_verdict verdict);

/* The share of the target that the tolerance is where none is given: common
 * practice, no source. */
static const double control_foam_tolerance_share = 0.1;

struct control_foam {
	struct density density;
	bool has_error; /* two readings or more */
	struct density error;
	bool has_verdict; /* a target was given */
	enum control_foam_verdict verdict;
	bool is_close; /* within two standard errors of the tolerance's end */
};

/* control_foam(reading, n, target, tolerance, out, err):
 * n >= 1 readings; target.kg_m3 0 for none, tolerance.kg_m3 0 for the share of
 * the target above.  low is below target - tolerance, high above target +
 * tolerance.
 * ERR_INPUT  "readings[2].tare" and the like: a cup that weighs less full than
 *            empty, a volume of 0; target or tolerance below 0; a foam of 1000
 *            kg/m3 or more, which is no foam */
enum err_code control_foam(const struct control_foam_reading *reading, size_t n,
	struct density target, struct density tolerance,
	struct control_foam *out, struct err *err) MUST_CHECK;

#endif /* CONTROL_FOAM_H */

/* screw.h - screws and anchors pulled out.
 *
 * Pure.  Common practice, no source. */
#ifndef LAB_SCREW_H
#define LAB_SCREW_H

#include "core/err.h"
#include "core/qty.h"

#include <stddef.h>

/* What the least of the pulls is divided by for a shelf's load, where nothing
 * else is asked for: a household rule, common practice, no source. */
static const double lab_screw_safety = 4;

struct lab_screw {
	const struct interval *pull_N; /* borrowed; last held and first that
	                                  pulled it out; high INFINITY: held */
	size_t n_pull;                 /* at least 1; five are advised */
	struct length diameter, depth; /* of the thread in the piece; > 0 */
	double safety;                 /* > 1 */
};

struct lab_screwed {
	struct interval least_N;  /* the weakest of the pulls */
	struct interval shear_Pa; /* over the cylinder pi d * depth */
	struct force working;     /* least held / safety */
};

/* lab_screw(s, out, err):
 * The weakest pull as an interval, the mean shear on the cylinder of the thread
 * (derived), and what a fixing may be given.
 * ERR_INPUT  no pull, a pull upside down or below 0 ("pulls[2]"), a size not
 *            above 0, or a safety not above 1 */
enum err_code lab_screw(const struct lab_screw *s, struct lab_screwed *out,
	struct err *err) MUST_CHECK;

#endif /* LAB_SCREW_H */

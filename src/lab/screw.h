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

/* The finest division of each instrument; 0: taken as exact. */
struct lab_screw_division {
	struct force force;
	struct length diameter, depth;
};

/* lab_screw_uncertainty(s, division, relative, err): the relative standard
 * uncertainty of the shear from reading the force, the screw and its depth,
 * first order (JCGM 100:2008, 5.1.2); the force is taken where the weakest
 * pull came out, or at what it held.  The step between held and out is the
 * interval.  ERR_INPUT  as lab_screw, or a division below 0 */
enum err_code lab_screw_uncertainty(const struct lab_screw *s,
	const struct lab_screw_division *division, double *relative,
	struct err *err) MUST_CHECK;

#endif /* LAB_SCREW_H */

/* flexure.h - bending strength from weights hung on a beam.
 *
 * Pure.  Method and symbols: docs/methods/flexure.md. */
#ifndef LAB_FLEXURE_H
#define LAB_FLEXURE_H

#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>

enum lab_loading {
	LAB_CENTRE, /* one load in the middle */
	LAB_THIRD   /* two equal loads at the third points */
};

struct lab_flexure {
	enum lab_loading loading;
	struct length span; /* between supports, centre to centre; > 0 */
	struct length width, depth; /* of the section; > 0 */
	struct mass held;           /* last weight held; >= 0, hanger apart */
	bool did_break;             /* false: still holding, broke_at unused */
	struct mass broke_at;  /* weight that broke it; >= held.  Equal to held:
	                         read exactly, but 0 with held 0 says that it
	                         broke under the hanger alone */
	struct mass on_rig;    /* hanger or platform, in both loads; >= 0 */
	struct length strap;   /* width of the middle load; 0..span; 0: a line.
	                         It does not matter at the third points */
	bool has_beam;         /* beam_mass and beam_length known */
	struct mass beam_mass; /* > 0 */
	struct length beam_length; /* >= span; equal overhangs */
	bool has_crack;            /* LAB_THIRD: where it broke is known */
	struct length crack;       /* mean distance from the break to the nearer
	                        support, on the tension face */
};

/* Intervals: low is 0 if nothing is known to have been held, high is INFINITY
 * if it never broke. */
struct lab_flexed {
	struct interval load_N;     /* with what lies on the rig */
	struct interval moment_N_m; /* of the load, largest in the beam */
	struct interval rupture_Pa; /* of the load alone */
	bool has_self_weight;       /* beam known: */
	struct moment self_weight;  /* of the beam in its middle */
	struct interval rupture_with_self_weight_Pa; /* low: it carried itself
	                                                on the supports */
};

/* lab_flexure(f, out, err):
 * Moments: centre P (L/4 - s/8) (derived; s = 0: ASTM C293), third points P L/6
 * (ASTM C78), or P a/2 if it broke at a < L/3 (ASTM C78); own weight w (L^2/8 -
 * a^2/2) with overhangs a (derived).  Strength 6 M / (b d^2).
 * ERR_INPUT  a length or a weight is out of range, the break lies below the
 *            weight held, the span is longer than the beam, or the break at a <
 *            L/3 - L/20 makes the test void (ASTM C78); err->field names it as
 *            calc does ("broke_at") */
enum err_code lab_flexure(const struct lab_flexure *f, struct lab_flexed *out,
	struct err *err) MUST_CHECK;

/* The finest division of each instrument; 0: taken as exact. */
struct lab_flexure_division {
	struct length span, width, depth;
	struct mass weight;
};

/* lab_flexure_uncertainty(f, division, relative, err):
 * The relative standard uncertainty of the strength that comes from reading the
 * instruments, first order (JCGM 100:2008, 5.1.2); a division q gives q/sqrt(12)
 * (4.3.7).  The step between held and broke is not in it: that is the interval.
 * ERR_INPUT  as lab_flexure, or a division is below 0 or not finite */
enum err_code lab_flexure_uncertainty(const struct lab_flexure *f,
	const struct lab_flexure_division *division, double *relative,
	struct err *err) MUST_CHECK;

/* What each reading leaves open, as a relative standard uncertainty, and the
 * step between the weights taken as anywhere within it. */
enum lab_flexure_source {
	LAB_FROM_SPAN,
	LAB_FROM_WIDTH,
	LAB_FROM_DEPTH,
	LAB_FROM_WEIGHT,
	LAB_FROM_STEP,
	LAB_FLEXURE_SOURCES
};

struct lab_flexure_budget {
	double part[LAB_FLEXURE_SOURCES];
	bool has_step; /* held something and broke: the step's part is known */
	enum lab_flexure_source worst; /* the largest part */
	const char *sentence; /* which of them is worth improving, and how */
};

/* lab_flexure_budget(f, division, out, err):
 * The parts of lab_flexure_uncertainty apart, and the step, (broke - held)/
 * (sqrt(12) mean) (JCGM 100:2008, 4.3.7).  sentence is constant text.
 * ERR_INPUT  as lab_flexure_uncertainty */
enum err_code lab_flexure_budget(const struct lab_flexure *f,
	const struct lab_flexure_division *division,
	struct lab_flexure_budget *out, struct err *err) MUST_CHECK;

#endif /* LAB_FLEXURE_H */

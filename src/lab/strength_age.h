/* strength_age.h - a strength of one age brought to another.
 *
 * The relations are of ordinary concrete; foamed concrete with much fly ash
 * gains later and for longer.  Pure.  docs/methods/maturity.md. */
#ifndef LAB_STRENGTH_AGE_H
#define LAB_STRENGTH_AGE_H

#include "core/err.h"
#include "core/qty.h"

enum lab_age_kind {
	LAB_AGE_RATIONAL,   /* ACI 209R-92, eq. 2-1: t/(a + b t), t in days */
	LAB_AGE_EXPONENTIAL /* EN 1992-1-1 (MC90), eq. 3.2:
	                       exp(s (1 - sqrt(28/t))) */
};

struct lab_age_relation {
	enum lab_age_kind kind;
	double a_d, b; /* rational: a >= 0 days, b > 0 */
	double s;      /* exponential: > 0, at most 2 */
};

/* lab_age_ratio(relation, age, ratio, err):
 * Strength at the age over the relation's own 28-day strength.  The rational
 * one is not exactly 1 at 28 days (1.007 for a = 4.0, b = 0.85).
 * ERR_INPUT  age not above 0 or over 200 years, or a coefficient out of range;
 *            err->field names it as calc does ("relation.a") */
enum err_code lab_age_ratio(const struct lab_age_relation *relation,
	struct duration age, double *ratio, struct err *err) MUST_CHECK;

struct lab_strength_at {
	struct stress strength;       /* at to_age */
	double ratio;                 /* strength at to_age per that at age */
	double at_age, at_to_age;     /* of the relation, over its 28 days */
	double ratio_low, ratio_high; /* over all published classes below */
};

/* lab_strength_at(strength, age, to_age, relation, out, err):
 * strength * ratio(to_age) / ratio(age).  The range is that of the same
 * quotient over the four classes of ACI 209R-92, table 2.2.1 (a, b: moist I
 * 4.0, 0.85; moist III 2.3, 0.92; steam I 1.0, 0.95; steam III 0.70, 0.98) and
 * the three of EN 1992-1-1 (s 0.20, 0.25, 0.38): how far published relations
 * disagree, and so the least that should be doubted.
 * ERR_INPUT  as lab_age_ratio, strength not above 0, or an age so low that the
 *            relation gives no strength at all */
enum err_code lab_strength_at(struct stress strength, struct duration age,
	struct duration to_age, const struct lab_age_relation *relation,
	struct lab_strength_at *out, struct err *err) MUST_CHECK;

#endif /* LAB_STRENGTH_AGE_H */

/* strength_age.c - gain of strength with age by published relations. */
#include "lab/strength_age.h"

#include "core/check.h"

#include <float.h>
#include <math.h>
#include <stddef.h>

static const double second_per_day = 86400;
static const double reference_d = 28;
static const double most_s = 200 * 365.25 * 86400; /* 200 years */
static const double most_exponent = 2; /* cements lie from 0.2 to 0.38 */

/* ACI 209R-92, table 2.2.1, and EN 1992-1-1, 3.1.2(6). */
static const struct lab_age_relation published[] = {
	{LAB_AGE_RATIONAL, 4.0, 0.85, 0},
	{LAB_AGE_RATIONAL, 2.3, 0.92, 0},
	{LAB_AGE_RATIONAL, 1.0, 0.95, 0},
	{LAB_AGE_RATIONAL, 0.70, 0.98, 0},
	{LAB_AGE_EXPONENTIAL, 0, 0, 0.20},
	{LAB_AGE_EXPONENTIAL, 0, 0, 0.25},
	{LAB_AGE_EXPONENTIAL, 0, 0, 0.38},
};

static double
ratio_at(const struct lab_age_relation *relation, double age_d)
{
	switch (relation->kind) {
	case LAB_AGE_RATIONAL:
		return age_d / (relation->a_d + relation->b * age_d);
	case LAB_AGE_EXPONENTIAL:
		break;
	}
	return exp(relation->s * (1 - sqrt(reference_d / age_d)));
}

static enum err_code
check_relation(const struct lab_age_relation *relation, struct err *err)
{
	switch (relation->kind) {
	case LAB_AGE_RATIONAL:
		TRY(check_not_negative(
			(struct check){"relation.a", N_("coefficient a"),
				relation->a_d, "days"},
			err));
		return check_positive(
			(struct check){"relation.b", N_("coefficient b"),
				relation->b, ""},
			err);
	case LAB_AGE_EXPONENTIAL:
		break;
	}
	TRY(check_positive((struct check){"relation.s", N_("coefficient s"),
				   relation->s, ""},
		err));
	return check_between((struct check){"relation.s", N_("coefficient s"),
				     relation->s, ""},
		0, most_exponent, err);
}

static enum err_code
check_age(const char *key, struct duration age, struct err *err)
{
	const struct check reading = {key, "age", age.s, "s"};

	TRY(check_positive(reading, err));
	return check_between(reading, 0, most_s, err);
}

enum err_code
lab_age_ratio(const struct lab_age_relation *relation, struct duration age,
	double *ratio, struct err *err)
{
	TRY(check_relation(relation, err));
	TRY(check_age("age", age, err));
	*ratio = ratio_at(relation, age.s / second_per_day);
	return ERR_NONE;
}

static void
find_range(double age_d, double to_age_d, struct lab_strength_at *got)
{
	got->ratio_low = (double)INFINITY;
	for (size_t i = 0; i < sizeof published / sizeof published[0]; i++) {
		double ratio = ratio_at(&published[i], to_age_d) /
			ratio_at(&published[i], age_d);

		got->ratio_low = fmin(got->ratio_low, ratio);
		got->ratio_high = fmax(got->ratio_high, ratio);
	}
}

enum err_code
lab_strength_at(struct stress strength, struct duration age,
	struct duration to_age, const struct lab_age_relation *relation,
	struct lab_strength_at *out, struct err *err)
{
	struct lab_strength_at got = {.ratio = 0};

	TRY(check_positive(
		(struct check){"strength", N_("strength"), strength.Pa, "Pa"},
		err));
	TRY(lab_age_ratio(relation, age, &got.at_age, err));
	TRY(check_age("to_age", to_age, err));
	got.at_to_age = ratio_at(relation, to_age.s / second_per_day);
	find_range(age.s / second_per_day, to_age.s / second_per_day, &got);
	if (got.at_age < DBL_MIN || !isfinite(got.at_to_age / got.at_age) ||
		!isfinite(got.ratio_high))
		return err_report(err, ERR_INPUT, "age",
			"At an age of %g s the relations give no strength at "
			"all to start from; test later.",
			age.s);
	got.ratio = got.at_to_age / got.at_age;
	got.strength.Pa = strength.Pa * got.ratio;
	*out = got;
	return ERR_NONE;
}

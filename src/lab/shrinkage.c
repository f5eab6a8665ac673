/* shrinkage.c - length change of a drying bar. */
#include "lab/shrinkage.h"

#include "core/check.h"
#include "lab/uncertainty.h"

#include <math.h>

/* No concrete shrinks this much: a slip in the unit. */
static const double most_change = 0.1;

enum err_code
lab_shrinkage(
	const struct lab_shrinkage *s, struct lab_shrunk *out, struct err *err)
{
	struct lab_shrunk got;

	TRY(check_positive(
		(struct check){"gauge", N_("gauge length"), s->gauge.m, "m"},
		err));
	TRY(check_between((struct check){"change", N_("change of length"),
				  s->change.m, "m"},
		-most_change * s->gauge.m, most_change * s->gauge.m, err));
	TRY(check_not_negative(
		(struct check){"division", N_("division"), s->division.m, "m"},
		err));
	TRY(check_not_negative((struct check){"temperature_division",
				       N_("thermometer's division"),
				       s->temperature_division_K, "K"},
		err));
	got.length_change_ratio = s->change.m / s->gauge.m;
	got.drying_ratio = got.length_change_ratio;
	if (s->has_temperature) {
		TRY(check_temperature(
			(struct check){"first_temperature",
				N_("first temperature"), s->first.degC, "degC"},
			err));
		TRY(check_temperature(
			(struct check){"temperature", N_("temperature"),
				s->now.degC, "degC"},
			err));
		got.drying_ratio -= lab_expansion_per_K *
			(s->now.degC - s->first.degC);
	}
	got.uncertainty = sqrt(2) *
		hypot(lab_of_division(s->division.m) / s->gauge.m,
			s->has_temperature ? lab_expansion_per_K *
					lab_of_division(
						s->temperature_division_K)
					   : 0);
	*out = got;
	return ERR_NONE;
}

enum err_code
lab_restrained_stress(double drying_ratio, struct stress modulus,
	double relaxation, struct stress *out, struct err *err)
{
	TRY(check_between((struct check){"drying", N_("drying shrinkage"),
				  drying_ratio, ""},
		0, most_change, err));
	TRY(check_positive(
		(struct check){"modulus", N_("modulus of elasticity"),
			modulus.Pa, "Pa"},
		err));
	TRY(check_between((struct check){"relaxation",
				  N_("share left after creep"), relaxation, ""},
		0, 1, err));
	out->Pa = modulus.Pa * drying_ratio * relaxation;
	return ERR_NONE;
}

/* shell.c - membrane forces of dome and vault, thrust of an arch. */
#include "choose/shell.h"

#include "core/check.h"

#include <math.h>

static const double right_angle_rad = 1.57079632679489661923;
static const double thin = 1.0 / 20;
static const double most_poisson = 0.49;

static enum err_code
check_shell(struct length radius, struct length thickness,
	struct density density, double angle_rad, struct err *err)
{
	const struct check positive[] = {
		{"radius", N_("radius"), radius.m, "m"},
		{"thickness", N_("thickness"), thickness.m, "m"},
		{"density", N_("density"), density.kg_m3, "kg/m3"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	if (thickness.m >= radius.m)
		return err_report(err, ERR_INPUT, "thickness",
			"A shell %g m thick with a radius of %g m is no shell; "
			"the thickness must be the smaller by far.",
			thickness.m, radius.m);
	return check_between((struct check){"angle", N_("angle from the crown"),
				     angle_rad, "rad"},
		0, right_angle_rad, err);
}

enum err_code
choose_dome(
	const struct choose_dome *d, struct choose_domed *out, struct err *err)
{
	struct choose_domed got;
	double cosine, qa_N_m;

	TRY(check_shell(
		d->radius, d->thickness, d->density, d->angle_rad, err));
	cosine = cos(d->angle_rad);
	got.weight_Pa = d->density.kg_m3 * gravity_m_s2 * d->thickness.m;
	qa_N_m = got.weight_Pa * d->radius.m;
	got.along_N_m = -qa_N_m / (1 + cosine);
	got.hoop_N_m = qa_N_m * (1 / (1 + cosine) - cosine);
	got.along.Pa = got.along_N_m / d->thickness.m;
	got.hoop.Pa = got.hoop_N_m / d->thickness.m;
	got.turn_rad = acos((sqrt(5) - 1) / 2);
	got.ring.N = -got.along_N_m * cosine * d->radius.m * sin(d->angle_rad);
	got.is_thick = d->thickness.m / d->radius.m > thin;
	*out = got;
	return ERR_NONE;
}

enum err_code
choose_dome_snow(struct length radius, struct stress load, double angle_rad,
	double *along_N_m, double *hoop_N_m, struct err *err)
{
	const struct check positive[] = {
		{"radius", N_("radius"), radius.m, "m"},
		{"load", N_("load on the plan"), load.Pa, "Pa"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	TRY(check_between((struct check){"angle", N_("angle from the crown"),
				  angle_rad, "rad"},
		0, right_angle_rad, err));
	*along_N_m = -load.Pa * radius.m / 2;
	*hoop_N_m = *along_N_m * cos(2 * angle_rad);
	return ERR_NONE;
}

enum err_code
choose_sphere_buckling(struct stress modulus, double thickness_ratio,
	double poisson, struct stress *out, struct err *err)
{
	TRY(check_positive(
		(struct check){"modulus", N_("modulus of elasticity"),
			modulus.Pa, "Pa"},
		err));
	TRY(check_positive(
		(struct check){"thickness", N_("thickness over radius"),
			thickness_ratio, ""},
		err));
	TRY(check_between(
		(struct check){"poisson", N_("Poisson's ratio"), poisson, ""},
		0, most_poisson, err));
	out->Pa = 2 * modulus.Pa * thickness_ratio * thickness_ratio /
		sqrt(3 * (1 - poisson * poisson));
	return ERR_NONE;
}

enum err_code
choose_vault(const struct choose_vault *v, struct choose_vaulted *out,
	struct err *err)
{
	struct choose_vaulted got;
	double half_m, x_m = v->from_middle.m;

	TRY(check_shell(
		v->radius, v->thickness, v->density, v->angle_rad, err));
	TRY(check_positive(
		(struct check){"length", N_("length between end walls"),
			v->length.m, "m"},
		err));
	half_m = v->length.m / 2;
	TRY(check_between((struct check){"from_middle",
				  N_("distance from the middle"), x_m, "m"},
		0, half_m, err));
	got.weight_Pa = v->density.kg_m3 * gravity_m_s2 * v->thickness.m;
	got.around_N_m = -got.weight_Pa * v->radius.m * cos(v->angle_rad);
	got.along_N_m = -got.weight_Pa / v->radius.m * cos(v->angle_rad) *
		(half_m * half_m - x_m * x_m);
	got.shear_N_m = -2 * got.weight_Pa * x_m * sin(v->angle_rad);
	got.around.Pa = got.around_N_m / v->thickness.m;
	got.along.Pa = got.along_N_m / v->thickness.m;
	got.is_thick = v->thickness.m / v->radius.m > thin;
	*out = got;
	return ERR_NONE;
}

static enum err_code
check_arch(const struct choose_arch *a, struct err *err)
{
	const struct check positive[] = {
		{"span", N_("span"), a->span.m, "m"},
		{"rise", N_("rise"), a->rise.m, "m"},
		{"load", N_("load"), a->load_N_m, "N/m"},
	};

	return CHECK_ALL_POSITIVE(positive, err);
}

enum err_code
choose_parabola(
	const struct choose_arch *a, struct choose_arched *out, struct err *err)
{
	struct choose_arched got = {.thrust = {0}};

	TRY(check_arch(a, err));
	got.thrust.N = a->load_N_m * a->span.m * a->span.m / (8 * a->rise.m);
	got.end.N = hypot(got.thrust.N, a->load_N_m * a->span.m / 2);
	*out = got;
	return ERR_NONE;
}

/* Solves (cosh u - 1)/u = 2 f/L for u = L/2a by halving. */
static double
half_span_ratio(double rise_ratio)
{
	enum { TURNS = 200 };
	static const double precision = 1e-15;
	double low = 0, high = 1;

	while ((cosh(high) - 1) / high < rise_ratio)
		high *= 2;
	for (int i = 0; i < TURNS && high - low > precision * high; i++) {
		double u = (low + high) / 2;
		double sinh_half = sinh(u / 2);

		/* cosh u - 1 = 2 sinh^2(u/2), without cancellation */
		if (2 * sinh_half * sinh_half / u < rise_ratio)
			low = u;
		else
			high = u;
	}
	return (low + high) / 2;
}

enum err_code
choose_catenary(
	const struct choose_arch *a, struct choose_arched *out, struct err *err)
{
	static const double least_ratio = 1e-6, most_ratio = 1e3;
	struct choose_arched got;
	double u, rise_ratio;

	TRY(check_arch(a, err));
	rise_ratio = 2 * a->rise.m / a->span.m;
	if (rise_ratio < least_ratio || rise_ratio > most_ratio)
		return err_report(err, ERR_NUMERIC, "rise",
			"A rise of %g m over a span of %g m is too far from an "
			"arch to find its curve.",
			a->rise.m, a->span.m);
	u = half_span_ratio(rise_ratio);
	got.parameter.m = a->span.m / (2 * u);
	got.thrust.N = a->load_N_m * got.parameter.m;
	got.end.N = a->load_N_m * (got.parameter.m + a->rise.m);
	got.developed.m = 2 * got.parameter.m * sinh(u);
	*out = got;
	return ERR_NONE;
}

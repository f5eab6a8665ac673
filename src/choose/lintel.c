/* lintel.c - a plain beam over an opening. */
#include "choose/lintel.h"

#include "core/check.h"

static const double most_safety = 50;

static enum err_code
check_lintel(const struct choose_lintel *l, struct err *err)
{
	const struct check positive[] = {
		{"span", N_("span"), l->span.m, "m"},
		{"width", N_("width"), l->width.m, "m"},
		{"depth", N_("depth"), l->depth.m, "m"},
		{"density", N_("density"), l->density.kg_m3, "kg/m3"},
		{"strength", N_("bending strength"), l->strength.Pa, "Pa"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	TRY(check_not_negative((struct check){"wall", N_("density of the wall"),
				       l->wall.kg_m3, "kg/m3"},
		err));
	TRY(check_not_negative(
		(struct check){"wall_height", N_("height of wall above"),
			l->wall_height.m, "m"},
		err));
	TRY(check_not_negative(
		(struct check){"load", N_("load"), l->load_N_m, "N/m"}, err));
	return check_between((struct check){"safety_factor",
				     N_("safety factor"), l->safety, ""},
		1, most_safety, err);
}

enum err_code
choose_lintel(const struct choose_lintel *l, struct choose_lintelled *out,
	struct err *err)
{
	struct choose_lintelled got = {.even_N_m = 0};
	double wall_N_m2;

	TRY(check_lintel(l, err));
	wall_N_m2 = l->wall.kg_m3 * gravity_m_s2 * l->width.m;
	got.even_N_m = l->load_N_m +
		l->density.kg_m3 * gravity_m_s2 * l->width.m * l->depth.m;
	if (l->arches)
		got.triangle.N = wall_N_m2 * l->span.m * l->span.m / 4;
	else
		got.even_N_m += wall_N_m2 * l->wall_height.m;
	got.moment.N_m = got.even_N_m * l->span.m * l->span.m / 8 +
		got.triangle.N * l->span.m / 6;
	got.shear.N = (got.even_N_m * l->span.m + got.triangle.N) / 2;
	got.bending.Pa = 6 * got.moment.N_m /
		(l->width.m * l->depth.m * l->depth.m);
	got.utilisation = l->safety * got.bending.Pa / l->strength.Pa;
	*out = got;
	return ERR_NONE;
}

enum err_code
choose_beam_sag(double load_N_m, struct length span, struct stress modulus,
	struct length width, struct length depth, struct length *out,
	struct err *err)
{
	const struct check positive[] = {
		{"load", N_("load"), load_N_m, "N/m"},
		{"span", N_("span"), span.m, "m"},
		{"modulus", N_("modulus of elasticity"), modulus.Pa, "Pa"},
		{"width", N_("width"), width.m, "m"},
		{"depth", N_("depth"), depth.m, "m"},
	};
	double inertia_m4, square_m2 = span.m * span.m;

	TRY(CHECK_ALL_POSITIVE(positive, err));
	inertia_m4 = width.m * depth.m * depth.m * depth.m / 12;
	out->m = 5 * load_N_m * square_m2 * square_m2 /
		(384 * modulus.Pa * inertia_m4);
	return ERR_NONE;
}

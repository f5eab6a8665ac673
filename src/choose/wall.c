/* wall.c - axial and bending stress of a wall, and what they use up. */
#include "choose/wall.h"

#include "core/check.h"

#include <math.h>
#include <stddef.h>

static const double pi = 3.14159265358979323846;
/* TMS 402-16, 8.2.4.1 */
static const double stocky_limit = 99, stocky_base = 140, slender_base = 70;
static const double eccentric_share = 0.577;
static const double most_safety = 50;

double
choose_slender_capacity(double height_per_radius)
{
	double stocky = height_per_radius / stocky_base;
	double slender = slender_base / height_per_radius;

	return height_per_radius <= stocky_limit ? 1 - stocky * stocky
						 : slender * slender;
}

static enum err_code
check_wall(const struct choose_wall *w, struct err *err)
{
	const struct check positive[] = {
		{"height", N_("height"), w->height.m, "m"},
		{"thickness", N_("thickness"), w->thickness.m, "m"},
		{"strength", N_("crushing strength"), w->strength.Pa, "Pa"},
		{"density", N_("density"), w->density.kg_m3, "kg/m3"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	if (w->has_bending_strength)
		TRY(check_positive((struct check){"bending_strength",
					   N_("bending strength"),
					   w->bending_strength.Pa, "Pa"},
			err));
	TRY(check_not_negative((struct check){"load", N_("load on the wall"),
				       w->load_N_m, "N/m"},
		err));
	TRY(check_not_negative(
		(struct check){"wind", N_("wind pressure"), w->wind.Pa, "Pa"},
		err));
	if (w->thickness.m >= w->height.m)
		return err_report(err, ERR_INPUT, "thickness",
			"The wall is %g m thick and only %g m high; check "
			"which is which.",
			w->thickness.m, w->height.m);
	return check_between((struct check){"safety_factor",
				     N_("safety factor"), w->safety, ""},
		1, most_safety, err);
}

static void
stresses(const struct choose_wall *w, struct choose_walled *got)
{
	double own_Pa = w->density.kg_m3 * gravity_m_s2 * w->height.m;
	double load_Pa = w->load_N_m / w->thickness.m;
	double moment_N = w->wind.Pa * w->height.m * w->height.m / 8;

	got->axial.Pa = load_Pa + own_Pa;
	got->axial_middle.Pa = load_Pa + own_Pa / 2;
	got->bending.Pa = 6 * moment_N / (w->thickness.m * w->thickness.m);
	got->net_tension.Pa = fmax(0, got->bending.Pa - got->axial_middle.Pa);
}

enum err_code
choose_wall(
	const struct choose_wall *w, struct choose_walled *out, struct err *err)
{
	struct choose_walled got = {.slenderness = 0};
	double left_Pa, middle, tension_Pa;

	TRY(check_wall(w, err));
	stresses(w, &got);
	got.slenderness = w->height.m / w->thickness.m;
	got.capacity_ratio = choose_slender_capacity(
		got.slenderness * sqrt(12));
	left_Pa = w->strength.Pa * got.capacity_ratio;
	middle = got.axial_middle.Pa / left_Pa +
		got.bending.Pa / w->strength.Pa;
	got.crushing_utilisation = w->safety *
		fmax(got.axial.Pa / left_Pa, middle);
	tension_Pa = w->has_bending_strength
		? w->bending_strength.Pa
		: choose_tension_share * w->strength.Pa;
	got.tension_utilisation = w->safety * got.net_tension.Pa / tension_Pa;
	got.utilisation = fmax(
		got.crushing_utilisation, got.tension_utilisation);
	got.tension_governs = got.tension_utilisation >
		got.crushing_utilisation;
	got.too_slender = got.slenderness > choose_most_slender;
	*out = got;
	return ERR_NONE;
}

enum err_code
choose_buckling_load(struct stress modulus, struct length width,
	struct length thickness, struct length height,
	struct length eccentricity, double *out_N, struct err *err)
{
	const struct check positive[] = {
		{"modulus", N_("modulus of elasticity"), modulus.Pa, "Pa"},
		{"width", N_("width"), width.m, "m"},
		{"thickness", N_("thickness"), thickness.m, "m"},
		{"height", N_("height"), height.m, "m"},
	};
	double inertia_m4, radius_m, share;

	TRY(CHECK_ALL_POSITIVE(positive, err));
	inertia_m4 = width.m * pow(thickness.m, 3) / 12;
	radius_m = thickness.m / sqrt(12);
	TRY(check_between((struct check){"eccentricity", N_("eccentricity"),
				  eccentricity.m, "m"},
		0, radius_m / eccentric_share, err));
	share = 1 - eccentric_share * eccentricity.m / radius_m;
	*out_N = pi * pi * modulus.Pa * inertia_m4 / (height.m * height.m) *
		share * share * share;
	return ERR_NONE;
}

enum err_code
choose_reduction_en1996(double slenderness, double eccentricity_ratio,
	double modulus_ratio, double *out, struct err *err)
{
	static const double start = 0.063, width = 0.73, per_e = 1.17,
			    most_e = 0.45;
	double u;

	TRY(check_between((struct check){"slenderness", N_("slenderness"),
				  slenderness, ""},
		0, choose_most_slender, err));
	TRY(check_between((struct check){"eccentricity",
				  N_("eccentricity over thickness"),
				  eccentricity_ratio, ""},
		0, most_e, err));
	TRY(check_positive(
		(struct check){"modulus", N_("modulus over strength"),
			modulus_ratio, ""},
		err));
	u = (slenderness / sqrt(modulus_ratio) - start) /
		(width - per_e * eccentricity_ratio);
	*out = (1 - 2 * eccentricity_ratio) * exp(-u * u / 2);
	return ERR_NONE;
}

enum err_code
choose_height_factor(double held_factor, struct length height,
	struct length between, bool both_edges, double *out, struct err *err)
{
	static const double tall = 1.15;
	const struct check positive[] = {
		{"held", N_("factor of foot and head"), held_factor, ""},
		{"height", N_("height"), height.m, "m"},
		{"length", N_("length of the wall"), between.m, "m"},
	};
	double x;

	TRY(CHECK_ALL_POSITIVE(positive, err));
	if (both_edges && height.m > tall * between.m) {
		*out = between.m / (2 * height.m);
		return ERR_NONE;
	}
	x = held_factor * height.m / (both_edges ? between.m : 3 * between.m);
	*out = held_factor / (1 + x * x);
	return ERR_NONE;
}

enum err_code
choose_wind_asce(double speed_m_s, double kz, double kzt, double kd,
	struct stress *out, struct err *err)
{
	static const double half_air_kg_m3 = 0.613;
	const struct check positive[] = {
		{"speed", N_("wind speed"), speed_m_s, "m/s"},
		{"kz", N_("exposure factor"), kz, ""},
		{"kzt", N_("topography factor"), kzt, ""},
		{"kd", N_("direction factor"), kd, ""},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	out->Pa = half_air_kg_m3 * kz * kzt * kd * speed_m_s * speed_m_s;
	return ERR_NONE;
}

enum err_code
choose_wind_en(double speed_m_s, struct stress *out, struct err *err)
{
	static const double air_kg_m3 = 1.25;

	TRY(check_positive(
		(struct check){"speed", N_("wind speed"), speed_m_s, "m/s"},
		err));
	out->Pa = air_kg_m3 * speed_m_s * speed_m_s / 2;
	return ERR_NONE;
}

enum err_code
choose_bearing(struct stress compressive, struct area loaded,
	struct area spread, struct force *out, struct err *err)
{
	static const double share = 0.85, most_spread = 2;
	const struct check positive[] = {
		{"compressive_strength", N_("crushing strength"),
			compressive.Pa, "Pa"},
		{"loaded", N_("loaded area"), loaded.m2, "m2"},
		{"spread", N_("area it can spread to"), spread.m2, "m2"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	if (spread.m2 < loaded.m2)
		return err_report(err, ERR_INPUT, "spread",
			"The load of %g m2 spreads to %g m2; that must not be "
			"less.",
			loaded.m2, spread.m2);
	out->N = share * compressive.Pa * loaded.m2 *
		fmin(sqrt(spread.m2 / loaded.m2), most_spread);
	return ERR_NONE;
}

enum err_code
choose_bearing_factor(struct length edge, struct length height, double share,
	double *out, struct err *err)
{
	static const double most_share = 0.45, most = 1.5;
	double edge_ratio;

	TRY(check_not_negative(
		(struct check){
			"edge", N_("distance from the edge"), edge.m, "m"},
		err));
	TRY(check_positive((struct check){"height", N_("height of the wall"),
				   height.m, "m"},
		err));
	TRY(check_between((struct check){"share",
				  N_("share of the area loaded"), share, ""},
		0, most_share, err));
	edge_ratio = edge.m / height.m;
	*out = (1 + 0.3 * edge_ratio) * (1.5 - 1.1 * share);
	*out = fmax(1, fmin(*out, fmin(1.25 + edge_ratio / 2, most)));
	return ERR_NONE;
}

struct length
choose_kern(struct length thickness)
{
	return (struct length){thickness.m / 6};
}

struct length
choose_initial_eccentricity(struct length effective_height)
{
	static const double share = 450;

	return (struct length){effective_height.m / share};
}

struct stress
choose_aac_modulus(struct stress strength)
{
	static const double pa_per_psi = 4.4482216152605 / (0.0254 * 0.0254);
	static const double coefficient = 6500, power = 0.6;

	return (struct stress){coefficient *
		pow(strength.Pa / pa_per_psi, power) * pa_per_psi};
}

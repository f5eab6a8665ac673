/* heat.c - ISO 6946 resistances. */
#include "choose/heat.h"

#include "core/check.h"

#include <math.h>
#include <stdio.h>

static const double stefan_boltzmann = 5.670374419e-8; /* W/(m2 K4), SI 2019 */
static const double zero_degC_K = 273.15;
static const double share_rounding = 1e-6;

enum { KEY_MAX = 48 };

double
choose_surface_inside(enum choose_heat_flow flow)
{
	static const double inside[] = {
		[CHOOSE_HEAT_UP] = 0.10,
		[CHOOSE_HEAT_HORIZONTAL] = 0.13,
		[CHOOSE_HEAT_DOWN] = 0.17,
	};

	return inside[flow];
}

double
choose_layer_resistance(const struct choose_layer *layer)
{
	return layer->has_resistance
		? layer->resistance_m2K_W
		: layer->thickness.m / layer->conductivity.W_mK;
}

static enum err_code
check_layer(const struct choose_layer *layer, size_t index, struct err *err)
{
	char key[KEY_MAX];

	if (layer->has_resistance) {
		(void)snprintf(
			key, sizeof key, "layers[%zu].resistance", index);
		return check_not_negative(
			(struct check){key, "resistance of this layer",
				layer->resistance_m2K_W, "m2 K/W"},
			err);
	}
	(void)snprintf(key, sizeof key, "layers[%zu].thickness", index);
	TRY(check_positive((struct check){key, "thickness of this layer",
				   layer->thickness.m, "m"},
		err));
	(void)snprintf(key, sizeof key, "layers[%zu].conductivity", index);
	return check_positive((struct check){key, "conductivity of this layer",
				      layer->conductivity.W_mK, "W/(m K)"},
		err);
}

enum err_code
choose_check_layers(const struct choose_layer *layer, size_t n, struct err *err)
{
	if (n == 0)
		return err_report(err, ERR_INPUT, "layers",
			"There is no layer; give at least one.");
	for (size_t i = 0; i < n; i++)
		TRY(check_layer(&layer[i], i, err));
	return ERR_NONE;
}

static double
both_surfaces(enum choose_heat_flow flow)
{
	return choose_surface_inside(flow) + choose_surface_outside;
}

static double
with_surfaces(
	const struct choose_layer *layer, size_t n, enum choose_heat_flow flow)
{
	double sum = both_surfaces(flow);

	for (size_t i = 0; i < n; i++)
		sum += choose_layer_resistance(&layer[i]);
	return sum;
}

static struct choose_heated
heated(double resistance_m2K_W)
{
	return (struct choose_heated){
		.resistance_m2K_W = resistance_m2K_W,
		.u_W_m2K = 1 / resistance_m2K_W,
	};
}

enum err_code
choose_heat(
	const struct choose_heat *h, struct choose_heated *out, struct err *err)
{
	TRY(choose_check_layers(h->layer, h->n_layer, err));
	*out = heated(with_surfaces(h->layer, h->n_layer, h->flow));
	return ERR_NONE;
}

enum err_code
choose_thickness_for_u(const struct choose_heat *h,
	struct conductivity conductivity, double wanted_u_W_m2K,
	struct length *out, struct err *err)
{
	double have, want;

	if (h->n_layer > 0)
		TRY(choose_check_layers(h->layer, h->n_layer, err));
	TRY(check_positive((struct check){"conductivity", N_("conductivity"),
				   conductivity.W_mK, "W/(m K)"},
		err));
	TRY(check_positive((struct check){"wanted_u", N_("wanted U-value"),
				   wanted_u_W_m2K, "W/(m2 K)"},
		err));
	have = with_surfaces(h->layer, h->n_layer, h->flow);
	want = 1 / wanted_u_W_m2K;
	if (want <= have)
		return err_report(err, ERR_ANSWER_NO, "wanted_u",
			"The other layers alone give %.3g W/(m2 K), already "
			"no more than the %.3g wanted; nothing need be added.",
			1 / have, wanted_u_W_m2K);
	out->m = (want - have) * conductivity.W_mK;
	return ERR_NONE;
}

static enum err_code
check_strips(const struct choose_strip *strip, size_t n_strip, size_t n_layer,
	struct err *err)
{
	double sum = 0;

	if (n_strip == 0)
		return err_report(err, ERR_INPUT, "strips",
			"There is no strip of wall; give at least one.");
	for (size_t s = 0; s < n_strip; s++) {
		TRY(check_positive(
			(struct check){"strips", N_("share of a strip"),
				strip[s].share, "of the area"},
			err));
		TRY(choose_check_layers(strip[s].layer, n_layer, err));
		sum += strip[s].share;
		for (size_t i = 0; i < n_layer; i++) {
			double first_m = strip[0].layer[i].thickness.m;
			double own_m = strip[s].layer[i].thickness.m;

			if (strip[s].layer[i].has_resistance ||
				fabs(own_m - first_m) > share_rounding)
				return err_report(err, ERR_INPUT, "strips",
					"Layer %zu is %g m thick in one strip "
					"and %g m in another; every layer "
					"needs one thickness throughout.",
					i, first_m, own_m);
		}
	}
	if (fabs(sum - 1) > share_rounding)
		return err_report(err, ERR_INPUT, "strips",
			"The shares of the strips add up to %g; they must make "
			"1.",
			sum);
	return ERR_NONE;
}

enum err_code
choose_bridged(const struct choose_strip *strip, size_t n_strip, size_t n_layer,
	enum choose_heat_flow flow, struct choose_bridged *out, struct err *err)
{
	double through_W_m2K = 0, lower = both_surfaces(flow), upper;

	TRY(check_strips(strip, n_strip, n_layer, err));
	for (size_t s = 0; s < n_strip; s++)
		through_W_m2K += strip[s].share /
			with_surfaces(strip[s].layer, n_layer, flow);
	for (size_t i = 0; i < n_layer; i++) {
		double mean_W_mK = 0;

		for (size_t s = 0; s < n_strip; s++)
			mean_W_mK += strip[s].share *
				strip[s].layer[i].conductivity.W_mK;
		lower += strip[0].layer[i].thickness.m / mean_W_mK;
	}
	upper = 1 / through_W_m2K;
	out->upper_m2K_W = upper;
	out->lower_m2K_W = lower;
	out->mean = heated((upper + lower) / 2);
	out->half_spread = (upper - lower) / (upper + lower);
	return ERR_NONE;
}

enum err_code
choose_tapered_u(
	double rest_m2K_W, double most_m2K_W, double *u, struct err *err)
{
	const struct check positive[] = {
		{"rest", N_("resistance of the rest"), rest_m2K_W, "m2 K/W"},
		{"most", N_("greatest resistance of the taper"), most_m2K_W,
			"m2 K/W"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	*u = log1p(most_m2K_W / rest_m2K_W) / most_m2K_W;
	return ERR_NONE;
}

double
choose_radiative(double mean_degC)
{
	return 4 * stefan_boltzmann * pow(mean_degC + zero_degC_K, 3);
}

double
choose_surface(double convective_W_m2K, double emissivity, double mean_degC)
{
	return 1 /
		(convective_W_m2K + emissivity * choose_radiative(mean_degC));
}

enum err_code
choose_heat_capacity(struct density density, struct length thickness,
	double specific_J_kgK, double *out_J_m2K, struct err *err)
{
	const struct check positive[] = {
		{"density", N_("density"), density.kg_m3, "kg/m3"},
		{"thickness", N_("thickness"), thickness.m, "m"},
		{"specific_heat", N_("specific heat"), specific_J_kgK,
			"J/(kg K)"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	*out_J_m2K = density.kg_m3 * thickness.m * specific_J_kgK;
	return ERR_NONE;
}

enum err_code
choose_diffusivity(struct conductivity conductivity, struct density density,
	double specific_J_kgK, double *out_m2_s, struct err *err)
{
	const struct check positive[] = {
		{"conductivity", N_("conductivity"), conductivity.W_mK,
			"W/(m K)"},
		{"density", N_("density"), density.kg_m3, "kg/m3"},
		{"specific_heat", N_("specific heat"), specific_J_kgK,
			"J/(kg K)"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	*out_m2_s = conductivity.W_mK / (density.kg_m3 * specific_J_kgK);
	return ERR_NONE;
}

void
choose_heat_faces(const double *resistance_m2K_W, size_t n,
	enum choose_heat_flow flow, double inside_degC, double outside_degC,
	double *face_degC)
{
	double so_far = choose_surface_inside(flow);
	double whole = so_far + choose_surface_outside;

	for (size_t i = 0; i < n; i++)
		whole += resistance_m2K_W[i];
	for (size_t i = 0; i <= n; i++) {
		face_degC[i] = inside_degC +
			(outside_degC - inside_degC) * so_far / whole;
		if (i < n)
			so_far += resistance_m2K_W[i];
	}
}

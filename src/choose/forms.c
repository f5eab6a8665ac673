/* forms.c - fluid head in the forms. */
#include "choose/forms.h"

#include "core/check.h"

#include <math.h>

static const double most_lift_m = 20; /* beyond any pour on a site */

enum err_code
choose_forms(const struct choose_forms *f, struct choose_formed *out,
	struct err *err)
{
	const struct check lift = {
		"lift_height", "height of the lift", f->lift_height.m, "m"};
	struct choose_formed got;

	TRY(check_positive((struct check){"density", N_("wet density"),
				   f->density.kg_m3, "kg/m3"},
		err));
	TRY(check_positive(lift, err));
	TRY(check_between(lift, 0, most_lift_m, err));
	got.pressure.Pa = f->density.kg_m3 * gravity_m_s2 * f->lift_height.m;
	got.thrust_N_m = got.pressure.Pa * f->lift_height.m / 2;
	got.acts_at.m = f->lift_height.m / 3;
	*out = got;
	return ERR_NONE;
}

double
choose_forms_weight(struct density density)
{
	static const double usual_kg_m3 = 2320, least = 0.8, from_kg_m3 = 2240,
			    to_kg_m3 = 2400;
	double w = density.kg_m3;

	if (w < from_kg_m3)
		return fmax(least, 0.5 * (1 + w / usual_kg_m3));
	return w <= to_kg_m3 ? 1 : w / usual_kg_m3;
}

enum err_code
choose_forms_guide(struct density density, double rate_m_h,
	double temperature_degc, bool is_column, struct stress *out,
	struct err *err)
{
	/* ACI 347R-14, eq. 2.2 and 2.3, kPa, m an hour, degC */
	static const double base_kPa = 7.2, slow = 785, wall = 1156, fast = 244,
			    cold_degc = 17.8, slow_m_h = 2.1, least_kPa = 30;
	const struct check rate = {"rate", "rate of the pour", rate_m_h, "m/h"};
	double warm = temperature_degc + cold_degc, kPa;

	TRY(check_positive((struct check){"density", N_("wet density"),
				   density.kg_m3, "kg/m3"},
		err));
	TRY(check_positive(rate, err));
	TRY(check_between(rate, 0, is_column ? 1000 : 4.5, err));
	TRY(check_between(
		(struct check){"temperature", N_("temperature of the mix"),
			temperature_degc, "degC"},
		5, 60, err));
	kPa = is_column || rate_m_h <= slow_m_h
		? base_kPa + slow * rate_m_h / warm
		: base_kPa + (wall + fast * rate_m_h) / warm;
	out->Pa = 1000 * choose_forms_weight(density) * fmax(kPa, least_kPa);
	return ERR_NONE;
}

enum err_code
choose_tie_load(struct stress pressure, struct length across, struct length up,
	struct force *out, struct err *err)
{
	const struct check positive[] = {
		{"pressure", N_("pressure"), pressure.Pa, "Pa"},
		{"across", N_("spacing of ties along the form"), across.m, "m"},
		{"up", N_("spacing of ties up the form"), up.m, "m"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	out->N = pressure.Pa * across.m * up.m;
	return ERR_NONE;
}

/* forms.c - fluid head in the forms. */
#include "choose/forms.h"

#include "core/check.h"

static const double most_lift_m = 20; /* beyond any pour on a site */

enum err_code
choose_forms(const struct choose_forms *f, struct choose_formed *out,
	struct err *err)
{
	const struct check lift = {
		"lift_height", "height of the lift", f->lift_height.m, "m"};
	struct choose_formed got;

	TRY(check_positive((struct check){"density", "wet density",
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

enum err_code
choose_tie_load(struct stress pressure, struct length across, struct length up,
	struct force *out, struct err *err)
{
	const struct check positive[] = {
		{"pressure", "pressure", pressure.Pa, "Pa"},
		{"across", "spacing of ties along the form", across.m, "m"},
		{"up", "spacing of ties up the form", up.m, "m"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	out->N = pressure.Pa * across.m * up.m;
	return ERR_NONE;
}

/* plan.c - the load to expect and the height to drop from. */
#include "lab/plan.h"

#include "core/check.h"

#include <math.h>
#include <stddef.h>

enum { MOST_STEPS = 10000 };

static enum err_code
check_foreseen(
	const char *key, const char *name, struct interval x, struct err *err)
{
	TRY(check_positive((struct check){key, name, x.low, "Pa"}, err));
	if (!(isfinite(x.high) && x.high >= x.low))
		return err_report(err, ERR_INPUT, key,
			"The %s is foreseen from %g to %g Pa; the upper end "
			"must be a number not below the lower one.",
			name, x.low, x.high);
	return ERR_NONE;
}

/* The load that a strength asks for, by lab_flexure of one newton, and the
 * stress of the beam's own weight. */
static enum err_code
load_per_Pa(const struct lab_plan_bending *p, double *N_per_Pa, double *own_Pa,
	struct err *err)
{
	const struct mass one_newton = {1 / gravity_m_s2};
	const struct lab_flexure f = {.loading = p->loading,
		.span = p->span,
		.width = p->width,
		.depth = p->depth,
		.strap = p->strap,
		.held = one_newton,
		.did_break = true,
		.broke_at = one_newton,
		.has_beam = p->beam_mass.kg > 0,
		.beam_mass = p->beam_mass,
		.beam_length = p->beam_length};
	struct lab_flexed got;

	TRY(lab_flexure(&f, &got, err));
	*N_per_Pa = 1 / got.rupture_Pa.high;
	*own_Pa = got.has_self_weight
		? got.rupture_with_self_weight_Pa.high - got.rupture_Pa.high
		: 0;
	return ERR_NONE;
}

static enum err_code
check_plan_bending(const struct lab_plan_bending *p, struct err *err)
{
	TRY(check_not_negative(
		(struct check){"on_rig", N_("mass lying on the rig"),
			p->on_rig.kg, "kg"},
		err));
	TRY(check_foreseen("strength", "strength", p->strength_Pa, err));
	if (!(p->width_ratio > 0 && p->width_ratio < 1))
		return err_report(err, ERR_INPUT, "width_ratio",
			"The interval wanted is %g of the load; it must be "
			"between 0 and 1, such as 0.1.",
			p->width_ratio);
	return ERR_NONE;
}

enum err_code
lab_plan_bending(const struct lab_plan_bending *p,
	struct lab_planned_bending *out, struct err *err)
{
	struct lab_planned_bending got;
	double N_per_Pa = 0, own_Pa = 0, least_kg, steps;

	TRY(check_plan_bending(p, err));
	TRY(load_per_Pa(p, &N_per_Pa, &own_Pa, err));
	if (!(p->strength_Pa.low > own_Pa))
		return err_report(err, ERR_INPUT, "strength",
			"Its own weight alone bends the beam with %.3g N/mm2, "
			"which the weakest foreseen does not carry: use a "
			"shorter span or a deeper beam.",
			own_Pa / 1e6);
	least_kg = (p->strength_Pa.low - own_Pa) * N_per_Pa / gravity_m_s2;
	got.falls.kg = (p->strength_Pa.high - own_Pa) * N_per_Pa / gravity_m_s2;
	got.most.kg = fmax(0, got.falls.kg - p->on_rig.kg);
	got.least.kg = fmax(0, least_kg - p->on_rig.kg);
	got.hanger_may_break = least_kg <= p->on_rig.kg;
	got.step.kg = p->width_ratio * least_kg;
	got.small_from.kg = fmax(
		0, lab_plan_small_from * least_kg - p->on_rig.kg);
	got.is_stubby = p->span.m / p->depth.m < lab_plan_least_slender;
	steps = ceil((got.most.kg - got.small_from.kg) / got.step.kg);
	if (!(got.step.kg > 0 && isfinite(got.falls.kg)))
		return err_report(err, ERR_INPUT, "strength",
			"With these sizes a strength of %g to %g Pa asks for "
			"no load that could be hung; check the units.",
			p->strength_Pa.low, p->strength_Pa.high);
	if (!(steps <= MOST_STEPS))
		return err_report(err, ERR_INPUT, "width_ratio",
			"It would take %g steps of %g kg; allow a wider "
			"interval or foresee the strength more closely.",
			steps, got.step.kg);
	got.n_step = (unsigned)fmax(0, steps);
	*out = got;
	return ERR_NONE;
}

/* The largest of 1, 2, 5 times a power of ten that is not above x > 0. */
static double
handy(double x)
{
	/* A share of the last place, so that 0.2 is not above 0.2. */
	static const double slack = 1 + 1e-9;
	double decade = pow(10, floor(log10(x * slack)));
	double lead = x * slack / decade;

	return (lead >= 5 ? 5 : lead >= 2 ? 2 : 1) * decade;
}

struct lab_planned_weights
lab_plan_weights(const struct lab_planned_bending *p)
{
	struct lab_planned_weights got = {.small = {handy(p->step.kg)}};
	double reached = 0;

	if (p->small_from.kg > 0)
		got.large.kg = handy(p->small_from.kg / 2);
	if (got.large.kg > got.small.kg) {
		got.n_large = (unsigned)floor(p->small_from.kg / got.large.kg);
		reached = got.n_large * got.large.kg;
	} else
		got.large.kg = 0;
	got.n_small = (unsigned)ceil(
		(p->most.kg - reached) / got.small.kg * (1 - 1e-12));
	return got;
}

static enum err_code
check_plan_drop(const struct lab_plan_drop *p, struct err *err)
{
	const struct check positive[] = {
		{"mass", N_("bar's mass"), p->mass.kg, "kg"},
		{"thickness", N_("thickness"), p->thickness.m, "m"},
		{"readable", N_("least dent to be read"), p->readable.m, "m"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	TRY(check_foreseen("energy", "energy per volume", p->energy_Pa, err));
	if (!(p->tube_loss_ratio >= 0 && p->tube_loss_ratio < 1))
		return err_report(err, ERR_INPUT, "tube_loss",
			"The tube takes %g of the energy; it is a share from 0 "
			"to less than 1.",
			p->tube_loss_ratio);
	if (p->readable.m >= lab_plan_deepest * p->thickness.m)
		return err_report(err, ERR_INPUT, "readable",
			"A dent of %g m is to be read in a panel of %g m, "
			"where %g m is already bottoming; use a thicker one.",
			p->readable.m, p->thickness.m,
			lab_plan_deepest * p->thickness.m);
	return ERR_NONE;
}

/* The height from which a bar makes a dent that deep. */
static enum err_code
height_for(const struct lab_plan_drop *p, double energy_Pa, struct length depth,
	double *height_m, struct err *err)
{
	double force_N = p->mass.kg * gravity_m_s2 * (1 - p->tube_loss_ratio);
	struct volume volume;

	TRY(lab_dent_volume(p->tip, p->tip_diameter, p->tip_angle_rad, depth,
		&volume, err));
	*height_m = fmax(0, energy_Pa * volume.m3 / force_N - depth.m);
	return ERR_NONE;
}

enum err_code
lab_plan_drop(const struct lab_plan_drop *p, struct lab_planned_drop *out,
	struct err *err)
{
	struct lab_planned_drop got;
	struct length deepest;

	TRY(check_plan_drop(p, err));
	deepest.m = lab_plan_deepest * p->thickness.m;
	TRY(height_for(
		p, p->energy_Pa.high, p->readable, &got.height_m.low, err));
	TRY(height_for(p, p->energy_Pa.low, deepest, &got.height_m.high, err));
	got.suits = got.height_m.low <= got.height_m.high;
	*out = got;
	return ERR_NONE;
}

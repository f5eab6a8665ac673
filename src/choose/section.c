/* section.c - cracking and ultimate moment of a panel. */
#include "choose/section.h"

#include "core/check.h"

#include <math.h>

static const double pa_per_MPa = 1e6;
static const double kg_m3_per_pcf = 0.45359237 / 0.028316846592;
/* ACI 318-19, table 22.2.2.4.3 */
static const double most_block = 0.85, least_block = 0.65, block_from_MPa = 28,
		    block_step_MPa = 7, block_step = 0.05;
/* ACI 318-19, 21.2.2: beyond yielding. */
static const double ductile_strain = 0.003;

double
choose_block_factor(struct stress compressive)
{
	double above_MPa = compressive.Pa / pa_per_MPa - block_from_MPa;

	return fmin(most_block,
		fmax(least_block,
			most_block - block_step * above_MPa / block_step_MPa));
}

static enum err_code
check_section(const struct choose_section *s, struct err *err)
{
	const struct check plain[] = {
		{"width", N_("width"), s->width.m, "m"},
		{"depth", N_("depth"), s->depth.m, "m"},
		{"strength", N_("bending strength"), s->strength.Pa, "Pa"},
	};
	const struct check with_steel[] = {
		{"compressive_strength", N_("crushing strength"),
			s->compressive.Pa, "Pa"},
		{"reinforcement.area", N_("area of the steel"), s->steel.m2,
			"m2"},
		{"reinforcement.effective_depth", N_("effective depth"),
			s->effective.m, "m"},
		{"reinforcement.yield_stress", N_("yield stress of the steel"),
			s->yield.Pa, "Pa"},
	};

	TRY(CHECK_ALL_POSITIVE(plain, err));
	if (!s->has_reinforcement)
		return ERR_NONE;
	TRY(CHECK_ALL_POSITIVE(with_steel, err));
	if (s->effective.m >= s->depth.m)
		return err_report(err, ERR_INPUT,
			"reinforcement.effective_depth",
			"The steel lies %g m from the pressed face of a panel "
			"only %g m deep; it must lie inside.",
			s->effective.m, s->depth.m);
	if (s->steel.m2 >= s->width.m * s->depth.m)
		return err_report(err, ERR_INPUT, "reinforcement.area",
			"The steel of %g m2 fills the whole section of %g m2; "
			"check its unit.",
			s->steel.m2, s->width.m * s->depth.m);
	return ERR_NONE;
}

/* Where the top crushes before the steel yields: 0.85 f b beta c^2 = As Es
 * 0.003 (d - c), solved for c. */
static double
neutral_if_elastic(const struct choose_section *s)
{
	double block_N_m = choose_block_stress * s->compressive.Pa *
		s->width.m * choose_block_factor(s->compressive);
	double steel_N = s->steel.m2 * choose_steel_modulus_Pa *
		choose_crushing_strain;
	double half = steel_N / (2 * block_N_m);

	return sqrt(half * half + 2 * half * s->effective.m) - half;
}

static void
reinforce(const struct choose_section *s, struct choose_sectioned *got)
{
	double per_m_N = choose_block_stress * s->compressive.Pa * s->width.m;
	double block_factor = choose_block_factor(s->compressive);
	double yield_strain = s->yield.Pa / choose_steel_modulus_Pa;
	double steel_Pa = s->yield.Pa;

	got->block.m = s->steel.m2 * s->yield.Pa / per_m_N;
	got->neutral.m = got->block.m / block_factor;
	got->steel_strain = choose_crushing_strain *
		(s->effective.m - got->neutral.m) / got->neutral.m;
	got->steel_yields = got->steel_strain >= yield_strain;
	if (!got->steel_yields) {
		got->neutral.m = neutral_if_elastic(s);
		got->block.m = got->neutral.m * block_factor;
		got->steel_strain = choose_crushing_strain *
			(s->effective.m - got->neutral.m) / got->neutral.m;
		steel_Pa = got->steel_strain * choose_steel_modulus_Pa;
	}
	got->is_ductile = got->steel_strain >= yield_strain + ductile_strain;
	got->ultimate.N_m = s->steel.m2 * steel_Pa *
		(s->effective.m - got->block.m / 2);
	got->after_crack = got->ultimate;
}

enum err_code
choose_section(const struct choose_section *s, struct choose_sectioned *out,
	struct err *err)
{
	struct choose_sectioned got = {.steel_yields = false};

	TRY(check_section(s, err));
	got.cracking.N_m = s->strength.Pa * s->width.m * s->depth.m *
		s->depth.m / 6;
	got.ultimate = got.cracking;
	if (s->has_reinforcement)
		reinforce(s, &got);
	got.after_crack_ratio = got.after_crack.N_m / got.cracking.N_m;
	got.breaks_at_crack = got.after_crack.N_m < got.cracking.N_m;
	*out = got;
	return ERR_NONE;
}

enum err_code
choose_rupture(struct stress compressive, double lightweight,
	struct stress *out, struct err *err)
{
	static const double coefficient = 0.62;
	const struct check positive[] = {
		{"compressive_strength", N_("crushing strength"),
			compressive.Pa, "Pa"},
		{"lightweight", N_("lightweight factor"), lightweight, ""},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	out->Pa = coefficient * lightweight *
		sqrt(compressive.Pa / pa_per_MPa) * pa_per_MPa;
	return ERR_NONE;
}

double
choose_lightweight(struct density density)
{
	static const double least = 0.75, per_pcf = 0.0075, up_to_pcf = 100,
			    from_pcf = 135;
	double pcf = density.kg_m3 / kg_m3_per_pcf;

	if (pcf <= up_to_pcf)
		return least;
	return pcf <= from_pcf ? per_pcf * pcf : 1;
}

enum err_code
choose_elasticity(struct density density, struct stress compressive,
	struct stress *out, struct err *err)
{
	static const double coefficient = 0.043, power = 1.5;
	const struct check positive[] = {
		{"density", N_("density"), density.kg_m3, "kg/m3"},
		{"compressive_strength", N_("crushing strength"),
			compressive.Pa, "Pa"},
	};

	TRY(CHECK_ALL_POSITIVE(positive, err));
	out->Pa = coefficient * pow(density.kg_m3, power) *
		sqrt(compressive.Pa / pa_per_MPa) * pa_per_MPa;
	return ERR_NONE;
}

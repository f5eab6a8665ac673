/* yield.c - volume, surviving foam and advice for a finished batch. */
#include "mix/yield.h"

#include "core/check.h"
#include "core/text.h"

#include <math.h>

static const double litre_per_m3 = 1000.0;
static const double percent = 100.0;

static enum err_code
check_foam(const struct mix_yield *ask, const struct mix_slurry *slurry,
	struct err *err)
{
	double most = mix_water_kg_m3 < slurry->density.kg_m3
		? mix_water_kg_m3
		: slurry->density.kg_m3;

	if (!is_positive(ask->foam.kg_m3) || ask->foam.kg_m3 >= most)
		return err_report(err, ERR_INPUT, "foam.density",
			"The foam weighs %g kg/m3; it must be more than 0 and "
			"less than water and slurry, here %.6g kg/m3.",
			ask->foam.kg_m3, most);
	if (!isfinite(ask->foam_volume.m3) || ask->foam_volume.m3 < 0)
		return err_report(err, ERR_INPUT, "foam.volume",
			"The volume of foam is %g m3; it must be 0 or more.",
			ask->foam_volume.m3);
	if (!(ask->added_foam_survival_ratio >= 0) ||
		ask->added_foam_survival_ratio > 1)
		return err_report(err, ERR_INPUT, "foam_survival",
			"The survival of added foam is %g; it is a share from "
			"0 to 1.",
			ask->added_foam_survival_ratio);
	return ERR_NONE;
}

/* The measured density against what the same masses would weigh without air. */
static enum err_code
check_measured(const struct mix_yield *ask, double mass_kg, double airless_m3,
	struct err *err)
{
	double measured = ask->wet_density_measured.kg_m3;

	if (!is_positive(measured))
		return err_report(err, ERR_INPUT, "wet_density_measured",
			"The measured wet density is %g kg/m3; it must be "
			"greater than 0.",
			measured);
	if (measured * airless_m3 > mass_kg)
		return err_report(err, ERR_INPUT, "wet_density_measured",
			"A wet density of %.6g kg/m3 is more than this batch "
			"would weigh with no air in it at all, %.6g kg/m3; "
			"check the bucket's true volume, its tare, and the "
			"masses that went in.",
			measured, mass_kg / airless_m3);
	return ERR_NONE;
}

static enum err_code
check_target(const struct mix_yield *ask, const struct mix_slurry *slurry,
	double kept, struct err *err)
{
	double target = ask->wet_density_target.kg_m3;
	double foam_alone = ask->foam.kg_m3 / kept;

	if (!is_positive(target) || target >= slurry->density.kg_m3 ||
		target <= foam_alone)
		return err_report(err, ERR_INPUT, "wet_density_target",
			"The target wet density is %g kg/m3; with this slurry "
			"and foam it can be anything between %.6g and %.6g "
			"kg/m3.",
			target, foam_alone, slurry->density.kg_m3);
	return ERR_NONE;
}

static const char *
sentence(struct arena *arena, const struct mix_advice *advice, double target)
{
	double off = fabs(advice->off_ratio) * percent;
	double litre = advice->add.m3 * litre_per_m3;

	switch (advice->kind) {
	case MIX_ADVICE_ADD_FOAM:
		return text_format(arena,
			"The mix is %.3g %% heavier than %.4g kg/m3: fold in "
			"%.3g L of foam, and weigh again.",
			off, target, litre);
	case MIX_ADVICE_ADD_SLURRY:
		return text_format(arena,
			"The mix is %.3g %% lighter than %.4g kg/m3: fold in "
			"%.3g L of slurry of the same parts, and weigh again. "
			"Stirring longer only breaks bubbles.",
			off, target, litre);
	case MIX_ADVICE_NONE:
		break;
	}
	return "The mix is on its target: nothing to add.";
}

static enum err_code
advise(struct arena *arena, const struct mix_yield *ask,
	const struct mix_slurry *slurry, double volume_m3,
	struct mix_advice *out, struct err *err)
{
	struct mix_advice advice = {.kind = MIX_ADVICE_NONE};
	double measured = ask->wet_density_measured.kg_m3;
	double target = ask->wet_density_target.kg_m3;
	double liquid = ask->foam.kg_m3 / mix_water_kg_m3;
	double kept = liquid + ask->added_foam_survival_ratio * (1 - liquid);

	if (!ask->has_target) {
		advice.sentence =
			"No target wet density was given, so there is nothing "
			"to correct.";
		*out = advice;
		return ERR_NONE;
	}
	TRY(check_target(ask, slurry, kept, err));
	advice.off_ratio = measured / target - 1;
	if (measured > target) {
		advice.kind = MIX_ADVICE_ADD_FOAM;
		advice.add.m3 = volume_m3 * (measured - target) /
			(target * kept - ask->foam.kg_m3);
	} else if (measured < target) {
		advice.kind = MIX_ADVICE_ADD_SLURRY;
		advice.add.m3 = volume_m3 * (target - measured) /
			(slurry->density.kg_m3 - target);
	}
	advice.sentence = sentence(arena, &advice, target);
	if (advice.sentence == NULL)
		return err_memory(err);
	*out = advice;
	return ERR_NONE;
}

enum err_code
mix_yield(struct arena *arena, const struct mix_yield *ask,
	struct mix_yielded *out, struct err *err)
{
	struct mix_yielded got = {.has_foam_survival = false};
	double liquid_m3, airless_m3, air_m3;

	TRY(mix_slurry_of(ask->part, ask->n_part, &got.slurry, err));
	TRY(check_foam(ask, &got.slurry, err));
	got.mass.kg = got.slurry.mass.kg +
		ask->foam.kg_m3 * ask->foam_volume.m3;
	liquid_m3 = ask->foam.kg_m3 * ask->foam_volume.m3 / mix_water_kg_m3;
	airless_m3 = got.slurry.volume.m3 + liquid_m3;
	TRY(check_measured(ask, got.mass.kg, airless_m3, err));
	got.volume.m3 = got.mass.kg / ask->wet_density_measured.kg_m3;
	air_m3 = ask->foam_volume.m3 - liquid_m3;
	got.has_foam_survival = air_m3 > 0;
	if (got.has_foam_survival)
		got.foam_survival_ratio = (got.volume.m3 - airless_m3) / air_m3;
	TRY(advise(arena, ask, &got.slurry, got.volume.m3, &got.advice, err));
	*out = got;
	return ERR_NONE;
}

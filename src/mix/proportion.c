/* proportion.c - absolute volumes of slurry and foam. */
#include "mix/proportion.h"

#include "core/check.h"

#include <math.h>
#include <stdio.h>

static const double litre_per_m3 = 1000.0;

#define DENSITY(role, word, density) density,
static const double typical_kg_m3[] = {MIX_ROLE_LIST(DENSITY)};
#undef DENSITY

/* The name of one key of one part: "parts[2].moisture". */
struct field {
	char text[ERR_FIELD_MAX];
};

static struct field
part_field(size_t index, const char *key)
{
	struct field field;

	(void)snprintf(
		field.text, sizeof field.text, "parts[%zu].%s", index, key);
	return field;
}

static enum err_code
particle_density(const struct mix_part *part, size_t index, struct density *out,
	struct err *err)
{
	double kg_m3 = part->has_particle_density ? part->particle_density.kg_m3
						  : typical_kg_m3[part->role];

	if (part->has_particle_density && !is_positive(kg_m3))
		return err_report(err, ERR_INPUT,
			part_field(index, "particle_density").text,
			"The particle density of %s is %g kg/m3; it must be "
			"greater than 0.",
			part->name, kg_m3);
	if (kg_m3 <= 0)
		return err_report(err, ERR_INPUT,
			part_field(index, "particle_density").text,
			"There is no typical particle density for the %s %s; "
			"give its own in kg/m3.",
			mix_role_word(part->role), part->name);
	out->kg_m3 = kg_m3;
	return ERR_NONE;
}

/* What a bucket of the part weighs per volume. */
static enum err_code
poured_density(const struct mix_part *part, size_t index, struct density *out,
	struct err *err)
{
	if (part->has_bulk_density) {
		if (!is_positive(part->bulk_density.kg_m3))
			return err_report(err, ERR_INPUT,
				part_field(index, "bulk_density").text,
				"The bulk density of %s is %g kg/m3; it must "
				"be greater than 0.",
				part->name, part->bulk_density.kg_m3);
		*out = part->bulk_density;
		return ERR_NONE;
	}
	if (part->role == MIX_WATER || part->role == MIX_ADMIXTURE)
		return particle_density(part, index, out, err);
	return err_report(err, ERR_INPUT,
		part_field(index, "bulk_density").text,
		"%s is given by volume, and a bucket of it holds air between "
		"the grains: weigh a bucket of known volume and give its "
		"bulk density, or give the mass.",
		part->name);
}

enum err_code
mix_part_mass(const struct mix_part *part, size_t index, struct mass *out,
	struct err *err)
{
	struct density poured;

	if (!part->by_volume) {
		if (!is_positive(part->mass.kg))
			return err_report(err, ERR_INPUT,
				part_field(index, "mass").text,
				"The mass of %s is %g kg; it must be greater "
				"than 0.",
				part->name, part->mass.kg);
		*out = part->mass;
		return ERR_NONE;
	}
	if (!is_positive(part->volume.m3))
		return err_report(err, ERR_INPUT,
			part_field(index, "volume").text,
			"The volume of %s is %g m3; it must be greater than 0.",
			part->name, part->volume.m3);
	TRY(poured_density(part, index, &poured, err));
	out->kg = part->volume.m3 * poured.kg_m3;
	return ERR_NONE;
}

static enum err_code
check_moisture(const struct mix_part *part, size_t index, struct err *err)
{
	bool can_be_damp = part->role != MIX_WATER && part->role != MIX_CEMENT;

	if (!is_not_negative(part->moisture_ratio))
		return err_report(err, ERR_INPUT,
			part_field(index, "moisture").text,
			"The moisture of %s is %g per oven-dry mass; it must "
			"be 0 or more.",
			part->name, part->moisture_ratio);
	if (!is_not_negative(part->absorption_ratio))
		return err_report(err, ERR_INPUT,
			part_field(index, "absorption").text,
			"The absorption of %s is %g per oven-dry mass; it must "
			"be 0 or more.",
			part->name, part->absorption_ratio);
	if (!can_be_damp && part->moisture_ratio > 0)
		return err_report(err, ERR_INPUT,
			part_field(index, "moisture").text,
			"%s is %s and cannot have a moisture; leave it out.",
			part->name, mix_role_word(part->role));
	if (!can_be_damp && part->absorption_ratio > 0)
		return err_report(err, ERR_INPUT,
			part_field(index, "absorption").text,
			"%s is %s and cannot have an absorption; leave it out.",
			part->name, mix_role_word(part->role));
	return ERR_NONE;
}

/* Adds one part: its dry grains, its free and its held water. */
static enum err_code
add_part(struct mix_slurry *slurry, const struct mix_part *part, size_t index,
	struct err *err)
{
	struct mass mass;
	struct density grain;
	double dry_kg, held_kg;

	TRY(mix_part_mass(part, index, &mass, err));
	TRY(particle_density(part, index, &grain, err));
	TRY(check_moisture(part, index, err));
	slurry->mass.kg += mass.kg;
	if (part->role == MIX_WATER) {
		slurry->water.kg += mass.kg;
		slurry->volume.m3 += mass.kg / grain.kg_m3;
		return ERR_NONE;
	}
	dry_kg = mass.kg / (1 + part->moisture_ratio);
	held_kg = dry_kg * part->absorption_ratio;
	slurry->water.kg += mass.kg - dry_kg - held_kg;
	slurry->held_water.kg += held_kg;
	slurry->volume.m3 += dry_kg / grain.kg_m3 +
		(mass.kg - dry_kg - held_kg) / mix_water_kg_m3;
	if (part->role == MIX_CEMENT)
		slurry->cement.kg += dry_kg;
	else
		slurry->dry_solids.kg += dry_kg;
	return ERR_NONE;
}

enum err_code
mix_slurry_of(const struct mix_part *part, size_t n_part,
	struct mix_slurry *out, struct err *err)
{
	struct mix_slurry slurry = {0};

	for (size_t i = 0; i < n_part; i++)
		TRY(add_part(&slurry, &part[i], i, err));
	if (slurry.cement.kg <= 0)
		return err_report(err, ERR_INPUT, "parts",
			"There is no cement among the %zu parts; a mix needs "
			"at least one part with the role cement.",
			n_part);
	if (slurry.water.kg < 0)
		return err_report(err, ERR_INPUT, "parts",
			"The parts would soak up %.4g kg more water than there "
			"is; add at least that much water, or mend an "
			"absorption.",
			-slurry.water.kg);
	if (!isfinite(slurry.mass.kg) || !is_positive(slurry.volume.m3))
		return err_report(err, ERR_INPUT, "parts",
			"The parts together weigh %g kg and fill %g m3, which "
			"cannot be reckoned with.",
			slurry.mass.kg, slurry.volume.m3);
	slurry.density.kg_m3 = slurry.mass.kg / slurry.volume.m3;
	*out = slurry;
	return ERR_NONE;
}

/* The volume that 1 m3 of foam, as generated, fills in the mix. */
static double
kept_volume(const struct mix_proportion *ask)
{
	double liquid = ask->foam.kg_m3 / mix_water_kg_m3;

	return liquid + ask->foam_survival_ratio * (1 - liquid);
}

static enum err_code
check_foam(const struct mix_proportion *ask, const struct mix_slurry *slurry,
	struct err *err)
{
	if (!is_positive(ask->foam.kg_m3) || ask->foam.kg_m3 >= mix_water_kg_m3)
		return err_report(err, ERR_INPUT, "foam.density",
			"The foam weighs %g kg/m3; foam is lighter than water: "
			"more than 0 and less than %g kg/m3.",
			ask->foam.kg_m3, mix_water_kg_m3);
	if (ask->foam.kg_m3 >= slurry->density.kg_m3)
		return err_report(err, ERR_INPUT, "foam.density",
			"The foam weighs %.4g kg/m3 and the slurry only %.4g "
			"kg/m3; foam has to be the lighter one.",
			ask->foam.kg_m3, slurry->density.kg_m3);
	if (!is_not_negative(ask->foam_survival_ratio) ||
		ask->foam_survival_ratio > 1)
		return err_report(err, ERR_INPUT, "foam_survival",
			"The foam's survival is %g; it is the share of its air "
			"that is left, from 0 to 1.",
			ask->foam_survival_ratio);
	if (!is_not_negative(ask->bound_water_ratio))
		return err_report(err, ERR_INPUT, "bound_water",
			"The bound water is %g per mass of cement; it must be "
			"0 or more, usually %g.",
			ask->bound_water_ratio, mix_bound_water_ratio);
	return ERR_NONE;
}

/* V = (M - D Vs) / (D e - foam) from (M + foam V) / (Vs + e V) = D. */
static enum err_code
solve_wet_density(const struct mix_proportion *ask,
	const struct mix_slurry *slurry, double *foam_m3, struct err *err)
{
	double wet = ask->wet_density.kg_m3;
	double kept = kept_volume(ask);
	double foam_alone = ask->foam.kg_m3 / kept;

	if (!is_positive(wet))
		return err_report(err, ERR_INPUT, "wet_density",
			"The target wet density is %g kg/m3; it must be "
			"greater than 0.",
			wet);
	if (wet > slurry->density.kg_m3)
		return err_report(err, ERR_INPUT, "wet_density",
			"The target of %.6g kg/m3 is above the slurry, which "
			"weighs %.6g kg/m3 without any foam; anything between "
			"%.6g and %.6g kg/m3 can be reached.",
			wet, slurry->density.kg_m3, foam_alone,
			slurry->density.kg_m3);
	if (wet <= foam_alone)
		return err_report(err, ERR_INPUT, "wet_density",
			"The target of %.6g kg/m3 is not above what the foam "
			"alone weighs after mixing, %.6g kg/m3; anything "
			"between %.6g and %.6g kg/m3 can be reached.",
			wet, foam_alone, foam_alone, slurry->density.kg_m3);
	*foam_m3 = (slurry->mass.kg - wet * slurry->volume.m3) /
		(wet * kept - ask->foam.kg_m3);
	if (*foam_m3 < 0)
		*foam_m3 = 0; /* wet is the slurry's, but for rounding */
	return ERR_NONE;
}

static enum err_code
solve_batch_volume(const struct mix_proportion *ask,
	const struct mix_slurry *slurry, double *foam_m3, struct err *err)
{
	double batch = ask->batch_volume.m3;

	if (!is_positive(batch))
		return err_report(err, ERR_INPUT, "batch_volume",
			"The batch volume is %g m3; it must be greater than 0.",
			batch);
	if (batch < slurry->volume.m3)
		return err_report(err, ERR_INPUT, "batch_volume",
			"The parts alone fill %.6g L, more than the batch of "
			"%.6g L; ask for at least their volume, or take less "
			"of them.",
			slurry->volume.m3 * litre_per_m3, batch * litre_per_m3);
	*foam_m3 = (batch - slurry->volume.m3) / kept_volume(ask);
	return ERR_NONE;
}

/* The volume in which what is left after the oven weighs the target. */
static enum err_code
solve_oven_dry(const struct mix_proportion *ask,
	const struct mix_slurry *slurry, double *foam_m3, struct err *err)
{
	double target = ask->oven_dry_density.kg_m3;
	double dry_kg = slurry->cement.kg * (1 + ask->bound_water_ratio) +
		slurry->dry_solids.kg;
	double most = dry_kg / slurry->volume.m3;

	if (!is_positive(target))
		return err_report(err, ERR_INPUT, "oven_dry_density",
			"The target oven-dry density is %g kg/m3; it must be "
			"greater than 0.",
			target);
	if (target > most)
		return err_report(err, ERR_INPUT, "oven_dry_density",
			"The target of %.6g kg/m3 oven-dry is above what the "
			"slurry dries to without any foam, %.6g kg/m3; ask for "
			"less, or take less water.",
			target, most);
	*foam_m3 = (dry_kg / target - slurry->volume.m3) / kept_volume(ask);
	if (*foam_m3 < 0)
		*foam_m3 = 0; /* target is the slurry's, but for rounding */
	return ERR_NONE;
}

static enum err_code
solve_foam(const struct mix_proportion *ask, const struct mix_slurry *slurry,
	double *foam_m3, struct err *err)
{
	switch (ask->aim) {
	case MIX_AIM_WET_DENSITY:
		return solve_wet_density(ask, slurry, foam_m3, err);
	case MIX_AIM_BATCH_VOLUME:
		return solve_batch_volume(ask, slurry, foam_m3, err);
	case MIX_AIM_OVEN_DRY_DENSITY:
		return solve_oven_dry(ask, slurry, foam_m3, err);
	case MIX_AIM_FOAM_VOLUME:
		break;
	}
	if (!is_not_negative(ask->foam_volume.m3))
		return err_report(err, ERR_INPUT, "foam_volume",
			"The volume of foam is %g m3; it must be 0 or more.",
			ask->foam_volume.m3);
	*foam_m3 = ask->foam_volume.m3;
	return ERR_NONE;
}

/* All that follows once the volume of foam is known. */
static struct mix_proportioned
fold_in(const struct mix_proportion *ask, const struct mix_slurry *slurry,
	double foam_m3)
{
	struct mix_proportioned got = {.slurry = *slurry};
	double liquid_m3, air_m3;

	got.foam_volume.m3 = foam_m3;
	got.foam_mass.kg = ask->foam.kg_m3 * foam_m3;
	liquid_m3 = got.foam_mass.kg / mix_water_kg_m3;
	air_m3 = ask->foam_survival_ratio * (foam_m3 - liquid_m3);
	got.volume.m3 = slurry->volume.m3 + liquid_m3 + air_m3;
	got.wet_density.kg_m3 = (slurry->mass.kg + got.foam_mass.kg) /
		got.volume.m3;
	got.oven_dry_density.kg_m3 =
		(slurry->cement.kg * (1 + ask->bound_water_ratio) +
			slurry->dry_solids.kg) /
		got.volume.m3;
	got.water_cement_ratio = slurry->water.kg / slurry->cement.kg;
	got.total_water_cement_ratio = (slurry->water.kg + got.foam_mass.kg) /
		slurry->cement.kg;
	got.air_fraction = air_m3 / got.volume.m3;
	got.foam_fraction = (liquid_m3 + air_m3) / got.volume.m3;
	got.foam_per_m3.kg = got.foam_mass.kg / got.volume.m3;
	return got;
}

enum err_code
mix_proportion(struct arena *arena, const struct mix_proportion *ask,
	struct mix_proportioned *out, struct err *err)
{
	struct mix_slurry slurry;
	struct mix_proportioned got;
	struct mass *per_m3;
	double foam_m3 = 0;

	TRY(mix_slurry_of(ask->part, ask->n_part, &slurry, err));
	TRY(check_foam(ask, &slurry, err));
	TRY(solve_foam(ask, &slurry, &foam_m3, err));
	got = fold_in(ask, &slurry, foam_m3);
	if (!is_positive(got.volume.m3) || !isfinite(got.wet_density.kg_m3))
		return err_report(err, ERR_NUMERIC, "foam",
			"These parts and %g m3 of foam give no finite volume.",
			foam_m3);
	per_m3 = arena_take(arena, ask->n_part, sizeof *per_m3);
	if (per_m3 == NULL)
		return err_memory(err);
	for (size_t i = 0; i < ask->n_part; i++) {
		TRY(mix_part_mass(&ask->part[i], i, &per_m3[i], err));
		per_m3[i].kg /= got.volume.m3;
	}
	got.per_m3 = per_m3;
	*out = got;
	return ERR_NONE;
}

enum err_code
mix_damp_mass(struct mass dry, double moisture_ratio, double absorption_ratio,
	struct mix_damp *out, struct err *err)
{
	if (!is_positive(dry.kg))
		return err_report(err, ERR_INPUT, "mass",
			"The oven-dry mass is %g kg; it must be greater than "
			"0.",
			dry.kg);
	if (!is_not_negative(moisture_ratio))
		return err_report(err, ERR_INPUT, "moisture",
			"The moisture is %g per oven-dry mass; it must be 0 or "
			"more.",
			moisture_ratio);
	if (!is_not_negative(absorption_ratio))
		return err_report(err, ERR_INPUT, "absorption",
			"The absorption is %g per oven-dry mass; it must be 0 "
			"or more.",
			absorption_ratio);
	out->weigh.kg = dry.kg * (1 + moisture_ratio);
	out->take_water.kg = dry.kg * (moisture_ratio - absorption_ratio);
	return ERR_NONE;
}

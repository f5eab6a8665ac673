/* sheet.c - a recipe scaled, dampened, rounded, and reckoned again. */
#include "mix/sheet.h"

#include "core/check.h"

#include <math.h>
#include <stdio.h>

static const double litre_per_m3 = 1000.0;

/* Rounding may move a part by this much before it is refused: half the 5 % by
 * which a wet density may be off (common practice, no source). */
static const double most_rounding_ratio = 0.025;

static enum err_code
check_ask(const struct mix_sheet_ask *ask, struct err *err)
{
	if (!is_positive(ask->wanted.m3))
		return err_report(err, ERR_INPUT, "volume",
			"The volume to be cast is %g L; it must be greater "
			"than 0.",
			ask->wanted.m3 * litre_per_m3);
	if (!(ask->spare_ratio >= 0 && ask->spare_ratio <= 1))
		return err_report(err, ERR_INPUT, "spare",
			"The spare is %g; it is a share from 0 to 1, usually "
			"0.1.",
			ask->spare_ratio);
	if (!is_positive(ask->scale_step.kg))
		return err_report(err, ERR_INPUT, "scale_step",
			"The smallest step of the scale is %g kg; it must be "
			"greater than 0.",
			ask->scale_step.kg);
	if (ask->has_mixer && !is_positive(ask->mixer.m3))
		return err_report(err, ERR_INPUT, "mixer",
			"The mixer takes %g L; that must be greater than 0.",
			ask->mixer.m3 * litre_per_m3);
	if (ask->whole_bags && !is_positive(ask->bag.kg))
		return err_report(err, ERR_INPUT, "bag",
			"Whole bags are wanted of a cement whose bag has no "
			"size; give what a bag weighs.");
	if (ask->has_foam_rate && !is_positive(ask->foam_rate_m3_s))
		return err_report(err, ERR_INPUT, "foam_rate",
			"The generator gives %g L/min; that must be greater "
			"than 0.",
			ask->foam_rate_m3_s * litre_per_m3 * 60);
	return ERR_NONE;
}

/* Today's damp parts of one cubic metre, the water they bring taken out of the
 * mixing water, spread over the waters of the recipe by their masses. */
static enum err_code
dampen(struct arena *arena, const struct mix_sheet_ask *ask,
	struct mix_part **out, struct err *err)
{
	struct mix_part *part = arena_take(arena, ask->n_part, sizeof *part);
	double take_kg = 0, water_kg = 0;

	if (part == NULL)
		return err_memory(err);
	for (size_t i = 0; i < ask->n_part; i++) {
		struct mix_damp damp;
		char field[ERR_FIELD_MAX];

		part[i] = ask->part[i];
		(void)snprintf(field, sizeof field, "parts[%zu]", i);
		if (part[i].by_volume)
			return err_report(err, ERR_INPUT, field,
				"%s is given by volume; a sheet is weighed, so "
				"give its mass in a cubic metre.",
				part[i].name);
		if (part[i].role == MIX_WATER) {
			water_kg += part[i].mass.kg;
			continue;
		}
		TRY(mix_damp_mass(part[i].mass, part[i].moisture_ratio,
			part[i].absorption_ratio, &damp, err));
		part[i].mass = damp.weigh;
		take_kg += damp.take_water.kg;
	}
	if (take_kg >= water_kg)
		return err_report(err, ERR_INPUT, "moisture",
			"The damp parts bring %.4g kg of water to a cubic "
			"metre, and the recipe has only %.4g kg: they are too "
			"wet for this mix. Dry them, or weigh their moisture "
			"again.",
			take_kg, water_kg);
	for (size_t i = 0; i < ask->n_part; i++)
		if (part[i].role == MIX_WATER)
			part[i].mass.kg *= 1 - take_kg / water_kg;
	*out = part;
	return ERR_NONE;
}

/* How many cubic metres one batch is to be, and how many batches that takes.
 * whole_m3 is what the recipe of one cubic metre makes with the foam of today.
 */
static enum err_code
batch_size(const struct mix_sheet_ask *ask, const struct mix_part *part,
	double whole_m3, double *batch_m3, size_t *n_batch, struct err *err)
{
	double need_m3 = ask->wanted.m3 * (1 + ask->spare_ratio);
	size_t cement = mix_first_cement(part, ask->n_part);
	double bag_m3, n = 1;

	if (ask->has_mixer)
		n = fmax(1, ceil(need_m3 / ask->mixer.m3 - 1e-9));
	*batch_m3 = need_m3 / n;
	if (ask->whole_bags && cement < ask->n_part) {
		bag_m3 = whole_m3 * ask->bag.kg / part[cement].mass.kg;
		if (ask->has_mixer && bag_m3 > ask->mixer.m3 * (1 + 1e-9))
			return err_report(err, ERR_INPUT, "mixer",
				"One bag of %.4g kg makes %.4g L of this mix "
				"and the mixer takes %.4g L: weigh out part of "
				"a bag, or make it in a larger drum.",
				ask->bag.kg, bag_m3 * litre_per_m3,
				ask->mixer.m3 * litre_per_m3);
		*batch_m3 = bag_m3 * fmax(1, floor(*batch_m3 / bag_m3 + 1e-9));
		n = fmax(1, ceil(need_m3 / *batch_m3 - 1e-9));
	}
	if (!(n < 1e6))
		return err_report(err, ERR_INPUT, "volume",
			"That would take %.3g batches; check the volume and "
			"the size of the mixer.",
			n);
	*n_batch = (size_t)n;
	return ERR_NONE;
}

/* Whole bags are emptied, not weighed; all else goes over the scale. */
static enum err_code
round_parts(const struct mix_sheet_ask *ask, struct mix_part *part,
	double scale, struct mass *weigh, double *bags, struct err *err)
{
	size_t bagged = ask->whole_bags ? mix_first_cement(part, ask->n_part)
					: ask->n_part;

	for (size_t i = 0; i < ask->n_part; i++) {
		double exact_kg = part[i].mass.kg * scale;
		double step = ask->scale_step.kg;

		bags[i] = i == bagged ? round(exact_kg / ask->bag.kg) : 0;
		weigh[i].kg = i == bagged ? bags[i] * ask->bag.kg
					  : step * round(exact_kg / step);
		if (fabs(weigh[i].kg - exact_kg) >
			most_rounding_ratio * exact_kg)
			return err_report(err, ERR_INPUT, "scale_step",
				"%.3g kg of %s cannot be weighed on a scale "
				"with steps of %.3g kg to within %g %%; use a "
				"finer scale for it.",
				exact_kg, part[i].name, step,
				most_rounding_ratio * 100);
		part[i].mass = weigh[i];
	}
	return ERR_NONE;
}

static void
fill_in(const struct mix_sheet_ask *ask, const struct mix_proportioned *got,
	struct mix_sheet *sheet)
{
	sheet->volume = got->volume;
	sheet->mass.kg = got->slurry.mass.kg + got->foam_mass.kg;
	sheet->slurry = got->slurry.density;
	sheet->slurry_volume = got->slurry.volume;
	sheet->foam = got->foam_volume;
	sheet->foam_mass = got->foam_mass;
	sheet->has_foam_time = ask->has_foam_rate;
	if (ask->has_foam_rate)
		sheet->foam_time.s = got->foam_volume.m3 / ask->foam_rate_m3_s;
	sheet->wet = got->wet_density;
	sheet->oven_dry = got->oven_dry_density;
	sheet->water_cement_ratio = got->water_cement_ratio;
	sheet->total_water_cement_ratio = got->total_water_cement_ratio;
	sheet->foam_fraction = got->foam_fraction;
}

enum err_code
mix_sheet_make(struct arena *arena, const struct mix_sheet_ask *ask,
	struct mix_sheet *out, struct err *err)
{
	struct mix_sheet sheet = {0};
	struct mix_proportion fold = {.n_part = ask->n_part,
		.foam = ask->foam,
		.foam_survival_ratio = ask->foam_survival_ratio,
		.bound_water_ratio = ask->bound_water_ratio,
		.aim = MIX_AIM_WET_DENSITY,
		.wet_density = ask->wet_target};
	struct mix_proportioned got;
	struct mix_part *part = NULL;
	struct mass *weigh;
	double *bags, batch_m3;

	TRY(check_ask(ask, err));
	TRY(dampen(arena, ask, &part, err));
	fold.part = part;
	TRY(mix_proportion(arena, &fold, &got, err));
	TRY(batch_size(
		ask, part, got.volume.m3, &batch_m3, &sheet.n_batch, err));
	weigh = arena_take(arena, ask->n_part, sizeof *weigh);
	bags = arena_take(arena, ask->n_part, sizeof *bags);
	if (weigh == NULL || bags == NULL)
		return err_memory(err);
	TRY(round_parts(ask, part, batch_m3 / got.volume.m3, weigh, bags, err));
	TRY(mix_proportion(arena, &fold, &got, err));
	sheet.weigh = weigh;
	sheet.bags = bags;
	fill_in(ask, &got, &sheet);
	*out = sheet;
	return ERR_NONE;
}

/* takeoff.c - from the sizes of a part to what has to be bought. */
#include "build/takeoff.h"

#include <math.h>

/* A size that is there must be a size. */
static enum err_code
check_size(const struct build_part *part, const char *name, struct maybe size,
	bool may_be_zero, struct err *err)
{
	if (!size.has || (isfinite(size.value) && size.value > 0) ||
		(may_be_zero && fpclassify(size.value) == FP_ZERO))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, part->code,
		"The %s of part %s is %.6g; it must be %s.", err_say(err, name),
		part->code, size.value,
		may_be_zero ? err_say(err, "0 or more")
			    : err_say(err, "more than 0"));
}

static enum err_code
check_sizes(const struct build_part *part, struct err *err)
{
	TRY(check_size(part, N_("volume"), part->volume_m3, false, err));
	TRY(check_size(part, N_("length"), part->length_m, false, err));
	TRY(check_size(part, N_("height"), part->height_m, false, err));
	TRY(check_size(part, N_("thickness"), part->thickness_m, false, err));
	TRY(check_size(
		part, N_("area of openings"), part->openings_m2, true, err));
	return check_size(part, N_("batch"), part->batch_m3, false, err);
}

enum err_code
build_net_volume(
	const struct build_part *part, double *volume_m3, struct err *err)
{
	double face_m2;

	TRY(check_sizes(part, err));
	if (part->volume_m3.has) {
		*volume_m3 = part->volume_m3.value;
		return ERR_NONE;
	}
	if (!part->length_m.has || !part->height_m.has ||
		!part->thickness_m.has)
		return err_report(err, ERR_INPUT, part->code,
			"Part %s has neither a volume nor length, height and "
			"thickness; give one or the other.",
			part->code);
	face_m2 = part->length_m.value * part->height_m.value;
	if (part->openings_m2.has) {
		if (part->openings_m2.value >= face_m2)
			return err_report(err, ERR_INPUT, part->code,
				"Part %s has %.4g m2 of openings in a face of "
				"%.4g m2; there must be less opening than "
				"face.",
				part->code, part->openings_m2.value, face_m2);
		face_m2 -= part->openings_m2.value;
	}
	*volume_m3 = face_m2 * part->thickness_m.value;
	return ERR_NONE;
}

/* The least whole number not below x; a hair above a whole number from
 * rounding does not cost a package. */
static double
whole_up(double x)
{
	double nearest = round(x);

	if (fabs(x - nearest) <= 1e-9 * fmax(1, fabs(x)))
		return nearest;
	return ceil(x);
}

static enum err_code
check_material(const struct build_part *part,
	const struct build_material *material, struct err *err)
{
	bool is_mass = isfinite(material->kg_per_m3) &&
		material->kg_per_m3 >= 0;
	bool is_package = !material->package_kg.has ||
		(isfinite(material->package_kg.value) &&
			material->package_kg.value > 0);

	if (is_mass && is_package)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, part->code,
		"The %s of %s for part %s is %.6g kg; it must be %s.",
		is_mass ? err_say(err, "package")
			: err_say(err, "amount in 1 m3"),
		material->name, part->code,
		is_mass ? material->package_kg.value : material->kg_per_m3,
		is_mass ? err_say(err, "more than 0")
			: err_say(err, "0 or more"));
}

static struct build_line
take_line(const struct build_material *material, double mixed_m3)
{
	struct build_line line = {.name = material->name,
		.kg_per_m3 = material->kg_per_m3,
		.mass_kg = material->kg_per_m3 * mixed_m3};

	line.has_package = material->package_kg.has;
	if (!line.has_package)
		return line;
	line.n_package = whole_up(line.mass_kg / material->package_kg.value);
	line.left_over_kg = fmax(
		0, line.n_package * material->package_kg.value - line.mass_kg);
	line.has_money = material->has_price;
	line.money_cents = line.n_package * material->price_cents;
	return line;
}

static enum err_code
check_asked(const struct build_part *part, double settling_ratio, double waste,
	const struct build_material *material, size_t n, double foam_m3_per_m3,
	struct err *err)
{
	if (!(settling_ratio >= 0 && settling_ratio < 1) ||
		!(waste >= 0 && waste < 1))
		return err_report(err, ERR_INPUT, part->code,
			"Settling and waste of part %s must each be at least 0 "
			"and below 100 %%.",
			part->code);
	if (!(isfinite(foam_m3_per_m3) && foam_m3_per_m3 >= 0))
		return err_report(err, ERR_INPUT, part->code,
			"The foam for 1 m3 of part %s is %.6g m3; it must be 0 "
			"or more.",
			part->code, foam_m3_per_m3);
	for (size_t i = 0; i < n; i++)
		TRY(check_material(part, &material[i], err));
	return ERR_NONE;
}

enum err_code
build_takeoff(struct arena *arena, const struct build_part *part,
	double settling_ratio, const struct build_material *material, size_t n,
	double foam_m3_per_m3, struct build_taken *out, struct err *err)
{
	struct build_taken got = {.n_line = n, .all_priced = true};
	double waste = part->waste_ratio.has ? part->waste_ratio.value : 0;

	TRY(build_net_volume(part, &got.net_m3, err));
	TRY(check_asked(
		part, settling_ratio, waste, material, n, foam_m3_per_m3, err));
	got.mixed_m3 = got.net_m3 / (1 - settling_ratio) * (1 + waste);
	got.foam_m3 = foam_m3_per_m3 * got.mixed_m3;
	got.has_batches = part->batch_m3.has;
	if (got.has_batches)
		got.n_batch = whole_up(got.mixed_m3 / part->batch_m3.value);
	got.line = arena_take(arena, n, sizeof *got.line);
	if (got.line == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		got.line[i] = take_line(&material[i], got.mixed_m3);
		got.money_cents += got.line[i].has_money
			? got.line[i].money_cents
			: 0;
		got.all_priced = got.all_priced && got.line[i].has_money;
	}
	*out = got;
	return ERR_NONE;
}

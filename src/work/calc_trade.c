/* calc_trade.c - "proportion" and "yield": the parts of a mix and its foam. */
#include "work/calc_priv.h"

#include "mix/proportion.h"
#include "mix/yield.h"

static const char *const part_keys[] = {"name", "role", "mass", "volume",
	"particle_density", "bulk_density", "moisture", "absorption"};
static const char *const foam_keys[] = {"density"};
static const char *const yield_foam_keys[] = {"density", "volume"};

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static enum err_code
read_density(const struct calc_in *in, const char *key, bool *has,
	struct density *to, struct err *err)
{
	*has = calc_has(in, key);
	return calc_read_quantity_or(
		in, key, UNIT_DENSITY, CALC_POSITIVE, &to->kg_m3, err);
}

static enum err_code
read_part(const struct calc_in *in, struct mix_part *part, struct err *err)
{
	size_t role = 0;

	TRY(calc_only(in, part_keys, COUNT(part_keys), err));
	TRY(calc_read_text(in, "name", &part->name, err));
	TRY(calc_read_choice(
		in, "role", mix_role_words(), MIX_ROLE_COUNT, &role, err));
	part->role = (enum mix_role)role;
	part->by_volume = !calc_has(in, "mass") && calc_has(in, "volume");
	if (calc_has(in, "mass") && calc_has(in, "volume"))
		return calc_refuse(
			in, "volume", "nothing where the mass is given", err);
	if (part->by_volume)
		TRY(calc_read_quantity(in, "volume", UNIT_VOLUME, CALC_POSITIVE,
			&part->volume.m3, err));
	else
		TRY(calc_read_quantity(in, "mass", UNIT_MASS, CALC_POSITIVE,
			&part->mass.kg, err));
	TRY(read_density(in, "particle_density", &part->has_particle_density,
		&part->particle_density, err));
	TRY(read_density(in, "bulk_density", &part->has_bulk_density,
		&part->bulk_density, err));
	TRY(calc_read_quantity_or(in, "moisture", UNIT_RATIO, CALC_NOT_NEGATIVE,
		&part->moisture_ratio, err));
	return calc_read_quantity_or(in, "absorption", UNIT_RATIO,
		CALC_NOT_NEGATIVE, &part->absorption_ratio, err);
}

static enum err_code
read_parts(const struct calc_in *in, const struct mix_part **part, size_t *n,
	struct err *err)
{
	const struct calc_in *object;
	struct mix_part *got;

	TRY(calc_read_objects(in, "parts", 1, &object, n, err));
	got = arena_take(in->arena, *n, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < *n; i++)
		TRY(read_part(&object[i], &got[i], err));
	*part = got;
	return ERR_NONE;
}

static enum err_code
read_aim(const struct calc_in *in, struct mix_proportion *ask, struct err *err)
{
	bool wet = calc_has(in, "wet_density");
	bool foam = calc_has(in, "foam_volume");
	bool batch = calc_has(in, "batch_volume");

	if (wet + foam + batch != 1)
		return err_report(err, ERR_INPUT, calc_path(in, "wet_density"),
			"give exactly one of wet_density, foam_volume and "
			"batch_volume; %d were given.",
			wet + foam + batch);
	ask->aim = wet ? MIX_AIM_WET_DENSITY
		: foam ? MIX_AIM_FOAM_VOLUME
		       : MIX_AIM_BATCH_VOLUME;
	TRY(calc_read_quantity_or(in, "wet_density", UNIT_DENSITY,
		CALC_POSITIVE, &ask->wet_density.kg_m3, err));
	TRY(calc_read_quantity_or(in, "foam_volume", UNIT_VOLUME,
		CALC_NOT_NEGATIVE, &ask->foam_volume.m3, err));
	return calc_read_quantity_or(in, "batch_volume", UNIT_VOLUME,
		CALC_POSITIVE, &ask->batch_volume.m3, err);
}

static const struct calc_key proportion_keys[] = {
	{"parts", "array of objects", NULL,
		"{name, role, mass or volume, particle_density?, bulk_density?,"
		" moisture?, absorption?}; role: cement, binder, sand, filler, "
		"water, fibre, admixture, other"},
	{"foam", "object {density}", NULL, "the foam as generated"},
	{"wet_density", "density", "one of three", "target wet density"},
	{"foam_volume", "volume", "one of three", "foam as generated"},
	{"batch_volume", "volume", "one of three", "volume of the batch"},
	{"foam_survival", "share", "1", "share of the foam's air that is left"},
	{"bound_water", "ratio", "0.2", "bound water per mass of cement"},
};

static void
write_per_m3(struct calc_out *out, const struct mix_proportion *ask,
	const struct mix_proportioned *got)
{
	struct jsonout *json = out->json;

	jsonout_key(json, "per_m3");
	jsonout_open_array(json);
	for (size_t i = 0; i < ask->n_part; i++) {
		jsonout_open_object(json);
		jsonout_key_string(json, "name", ask->part[i].name);
		jsonout_key_quantity(json, "mass", got->per_m3[i].kg, "kg");
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static enum err_code
run_proportion(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct mix_proportion ask = {.foam_survival_ratio = 1,
		.bound_water_ratio = mix_bound_water_ratio};
	struct jsonout *json = out->json;
	struct mix_proportioned got;
	struct calc_in foam;

	TRY(read_parts(in, &ask.part, &ask.n_part, err));
	TRY(calc_read_object(in, "foam", &foam, err));
	TRY(calc_only(&foam, foam_keys, COUNT(foam_keys), err));
	TRY(calc_read_quantity(&foam, "density", UNIT_DENSITY, CALC_POSITIVE,
		&ask.foam.kg_m3, err));
	TRY(read_aim(in, &ask, err));
	TRY(calc_read_quantity_or(in, "foam_survival", UNIT_RATIO,
		CALC_NOT_NEGATIVE, &ask.foam_survival_ratio, err));
	TRY(calc_read_quantity_or(in, "bound_water", UNIT_RATIO,
		CALC_NOT_NEGATIVE, &ask.bound_water_ratio, err));
	TRY(mix_proportion(in->arena, &ask, &got, err));
	jsonout_key_quantity(json, "foam_volume", got.foam_volume.m3, "m3");
	jsonout_key_quantity(json, "foam_mass", got.foam_mass.kg, "kg");
	jsonout_key_quantity(json, "volume", got.volume.m3, "m3");
	jsonout_key_quantity(
		json, "wet_density", got.wet_density.kg_m3, "kg/m3");
	jsonout_key_quantity(
		json, "oven_dry_density", got.oven_dry_density.kg_m3, "kg/m3");
	jsonout_key_number(json, "water_cement_ratio", got.water_cement_ratio);
	jsonout_key_number(
		json, "total_water_cement_ratio", got.total_water_cement_ratio);
	jsonout_key_number(json, "air_fraction", got.air_fraction);
	jsonout_key_number(json, "foam_fraction", got.foam_fraction);
	write_per_m3(out, &ask, &got);
	calc_source(out,
		"absolute volumes and mass balance (derived); oven-dry "
		"density: ASTM C869, table 1, footnote A, with "
		"aggregate as in ASTM C567");
	calc_note(out,
		"The foam's liquid counts as water of 1000 kg/m3 in "
		"mass, volume and total water.");
	return ERR_NONE;
}

const struct calc_entry calc_proportion = {
	.name = "proportion",
	.line = "a mix by absolute volume, with foam and its water",
	.key = proportion_keys,
	.n_key = COUNT(proportion_keys),
	.example = "{\"parts\": [{\"name\": \"cement\", \"role\": \"cement\", "
		   "\"mass\": \"13.69 kg\"}, {\"name\": \"water\", \"role\": "
		   "\"water\", \"mass\": \"6.57 kg\"}], \"foam\": "
		   "{\"density\": \"70 g/L\"}, \"wet_density\": \"720 "
		   "kg/m3\"}",
	.run = run_proportion,
};

static const struct calc_key yield_keys[] = {
	{"wet_density_measured", "density", NULL, "of the finished batch"},
	{"parts", "array of objects", NULL, "what went in, as in proportion"},
	{"foam", "object {density, volume}", NULL, "the foam that went in"},
	{"wet_density_target", "density", "none", "for advice"},
};

static void
write_advice(struct jsonout *json, const struct mix_advice *advice)
{
	static const char *const keys[] = {"add_foam", "add_slurry"};
	static const enum mix_advice_kind kinds[] = {
		MIX_ADVICE_ADD_FOAM, MIX_ADVICE_ADD_SLURRY};

	jsonout_key(json, "advice");
	jsonout_open_object(json);
	for (size_t i = 0; i < COUNT(keys); i++) {
		if (advice->kind == kinds[i]) {
			jsonout_key_quantity(
				json, keys[i], advice->add.m3, "m3");
			continue;
		}
		jsonout_key(json, keys[i]);
		jsonout_null(json);
	}
	jsonout_key_string(json, "sentence", advice->sentence);
	jsonout_close_object(json);
}

static enum err_code
run_yield(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct mix_yield ask = {.added_foam_survival_ratio = 1};
	struct mix_yielded got;
	struct calc_in foam;

	TRY(read_parts(in, &ask.part, &ask.n_part, err));
	TRY(calc_read_object(in, "foam", &foam, err));
	TRY(calc_only(&foam, yield_foam_keys, COUNT(yield_foam_keys), err));
	TRY(calc_read_quantity(&foam, "density", UNIT_DENSITY, CALC_POSITIVE,
		&ask.foam.kg_m3, err));
	TRY(calc_read_quantity(&foam, "volume", UNIT_VOLUME, CALC_NOT_NEGATIVE,
		&ask.foam_volume.m3, err));
	TRY(calc_read_quantity(in, "wet_density_measured", UNIT_DENSITY,
		CALC_POSITIVE, &ask.wet_density_measured.kg_m3, err));
	TRY(read_density(in, "wet_density_target", &ask.has_target,
		&ask.wet_density_target, err));
	TRY(mix_yield(in->arena, &ask, &got, err));
	jsonout_key_quantity(out->json, "volume", got.volume.m3, "m3");
	jsonout_key(out->json, "foam_survival");
	if (got.has_foam_survival)
		jsonout_number(out->json, got.foam_survival_ratio);
	else
		jsonout_null(out->json);
	write_advice(out->json, &got.advice);
	calc_source(out, "mass balance (derived)");
	calc_note(out, "Foam that is added now is taken to keep all its air.");
	return ERR_NONE;
}

const struct calc_entry calc_yield = {
	.name = "yield",
	.line = "what a batch turned out to be, and how to put it right",
	.key = yield_keys,
	.n_key = COUNT(yield_keys),
	.example = "{\"wet_density_measured\": \"785 kg/m3\", \"parts\": "
		   "[{\"name\": \"cement\", \"role\": \"cement\", \"mass\": "
		   "13.69}, {\"name\": \"water\", \"role\": \"water\", "
		   "\"mass\": 6.57}], \"foam\": {\"density\": \"70 g/L\", "
		   "\"volume\": \"19.1 L\"}, \"wet_density_target\": 720}",
	.run = run_yield,
};

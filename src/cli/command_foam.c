/* command_foam.c - gear, generator, foam: what stands at the mixer. */
#include "cli/fields.h"
#include "cli/table.h"

#include "work/foam.h"
#include "work/shelf.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* ---- gear ---- */

#define AT(member) offsetof(struct work_gear_ask, member)
static const struct field gear_fields[] = {
	{"--mixer", FIELD_MAYBE, UNIT_VOLUME, AT(mixer_m3)},
	{"--scale-step", FIELD_MAYBE, UNIT_MASS, AT(scale_step_kg)},
	{"--spare", FIELD_MAYBE, UNIT_RATIO, AT(spare_ratio)},
};
#undef AT

static const struct command_option gear_options[] = {
	{"--mixer", "VOLUME", "the most the mixer takes without spilling",
		false},
	{"--scale-step", "MASS", "the smallest step of the scale", false},
	{"--spare", "SHARE", "made on top: density bucket, rest in the tub",
		false},
	{0}};

static enum err_code
run_gear(const struct invocation *in, struct err *err)
{
	struct work_gear_ask ask = {.typed = fields_typed(in)};
	struct desk desk;
	enum err_code code;

	if (ask.typed == NULL)
		return err_memory(err);
	if (in->n_given == 0)
		return err_report(err, ERR_INPUT, "--mixer",
			"Say what there is: --mixer \"90 L\" --scale-step \"20 "
			"g\".");
	TRY(fields_read(in, gear_fields, COUNT(gear_fields), &ask, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_gear_put(&desk, in->arena, &ask, err);
	desk_close(&desk);
	if (code == ERR_NONE)
		(void)puts(in->json ? "{\"entered\": true}" : "Entered.");
	return code;
}

const struct command command_gear = {
	.name = "gear",
	.line = "says what mixer and scale there are",
	.help = "  foamwright gear BOOK OPTIONS\n",
	.example = "foamwright gear site.book --mixer \"90 L\" --scale-step "
		   "\"20 g\" --spare 10%",
	.least_words = 1,
	.most_words = 1,
	.options = gear_options,
	.run = run_gear,
	.writes = true,
};

/* ---- generator ---- */

#define AT(member) offsetof(struct work_generator_ask, member)
static const struct field generator_fields[] = {
	{"--metering", FIELD_TEXT, UNIT_NUMBER, AT(metering)},
	{"--target", FIELD_MAYBE, UNIT_DENSITY, AT(target_kg_m3)},
	{"--vessel", FIELD_MAYBE, UNIT_VOLUME, AT(vessel_m3)},
	{"--vessel-empty", FIELD_MAYBE, UNIT_MASS, AT(vessel_kg)},
	{"--vessel-full", FIELD_MAYBE, UNIT_MASS, AT(vessel_full_kg)},
	{"--water-temperature", FIELD_MAYBE, UNIT_TEMPERATURE, AT(water_degc)},
	{"--scale-step", FIELD_MAYBE, UNIT_MASS, AT(scale_step_kg)},
	{"--dilution", FIELD_MAYBE, UNIT_NUMBER, AT(dilution_ratio)},
	{"--rate", FIELD_MAYBE, UNIT_VOLUME_FLOW, AT(rate_m3_s)},
	{"--note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
};
#undef AT

static const struct command_option generator_options[] = {
	{"--metering", "HOW", "volume, seconds or density", false},
	{"--target", "DENSITY", "what the foam should weigh", false},
	{"--vessel-empty", "MASS", "the bucket that foam is weighed in", false},
	{"--vessel-full", "MASS", "the same full of water: its true volume",
		false},
	{"--water-temperature", "T", "of that water (20 degC)", false},
	{"--vessel", "VOLUME", "or its true volume, found otherwise", false},
	{"--scale-step", "MASS", "smallest step of that scale", false},
	{"--dilution", "N", "parts of water by mass to 1 of agent", false},
	{"--rate", "FLOW", "foam that it gives, such as \"25 L/min\"", false},
	{"--note", "TEXT", "a remark", false}, {0}};

static enum err_code
run_generator(const struct invocation *in, struct err *err)
{
	struct work_generator_ask ask = {
		.code = in->word[1], .typed = fields_typed(in)};
	struct desk desk;
	enum err_code code;
	bool made = false;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(
		in, generator_fields, COUNT(generator_fields), &ask, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_generator_put(&desk, in->arena, &ask, &made, err);
	desk_close(&desk);
	if (code == ERR_NONE && in->json)
		(void)printf("{\"made\": %s}\n", made ? "true" : "false");
	else if (code == ERR_NONE)
		(void)printf("%s generator %s.\n",
			made ? "Entered" : "Corrected", in->word[1]);
	return code;
}

const struct command command_generator = {
	.name = "generator",
	.line = "enters a foam generator and the vessel that weighs its foam",
	.help = "  foamwright generator BOOK CODE OPTIONS\n\nA printed volume "
		"is not a bucket's volume: weigh it empty and full of water.\n",
	.example = "foamwright generator site.book G1 --metering seconds "
		   "--target \"70 g/L\" --vessel-empty \"612 g\" --vessel-full "
		   "\"10.9 kg\" --scale-step \"5 g\" --rate \"25 L/min\"",
	.least_words = 2,
	.most_words = 2,
	.options = generator_options,
	.run = run_generator,
	.writes = true,
};

/* ---- foam ---- */

#define AT(member) offsetof(struct work_foam_ask, member)
static const struct field foam_fields[] = {
	{"--gross", FIELD_MAYBE, UNIT_MASS, AT(gross_kg)},
	{"--fill", FIELD_MAYBE, UNIT_TIME, AT(fill_s)},
	{"--moment", FIELD_TEXT, UNIT_NUMBER, AT(moment)},
	{"--batch", FIELD_TEXT, UNIT_NUMBER, AT(batch)},
	{"--on", FIELD_DATE, UNIT_NUMBER, AT(read_on)},
	{"--remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
};
#undef AT

static const struct command_option foam_options[] = {
	{"--gross", "MASS", "the vessel full of foam, struck level", false},
	{"--moment", "WHEN", "start, middle or end of the run (start)", false},
	{"--batch", "CODE", "of which batch", false},
	{"--fill", "TIME", "how long it took to fill", false},
	{"--on", "DATE", "when it was read", false},
	{"--remark", "TEXT", "a remark", false}, {0}};

static enum err_code
print_told_json(const struct invocation *in, const struct work_foam_told *told,
	struct err *err)
{
	struct text text;
	struct jsonout json;

	json_start(in, &text, &json);
	jsonout_key_quantity(&json, "density", told->density_kg_m3, "kg/m3");
	jsonout_key_quantity(&json, "standard_uncertainty",
		told->standard_uncertainty_kg_m3, "kg/m3");
	jsonout_key_number(&json, "off_target", told->off_ratio);
	if (told->has_drift)
		jsonout_key_number(&json, "drift", told->drift_ratio);
	if (told->has_rate)
		jsonout_key_quantity(&json, "rate", told->rate_m3_s, "m3/s");
	jsonout_key_string(&json, "verdict", told->verdict);
	jsonout_key_string(&json, "sentence", told->sentence);
	return json_finish(&json, err);
}

static enum err_code
run_foam(const struct invocation *in, struct err *err)
{
	struct work_foam_ask ask = {
		.generator = in->word[1], .typed = fields_typed(in)};
	struct work_foam_told told;
	struct desk desk;
	enum err_code code;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(fields_read(in, foam_fields, COUNT(foam_fields), &ask, err));
	TRY(desk_open(in->word[0], true, in, &desk, err));
	code = work_foam_put(&desk, in->arena, &ask, &told, err);
	desk_close(&desk);
	if (code != ERR_NONE)
		return code;
	if (in->json)
		return print_told_json(in, &told, err);
	(void)printf("%s g/L",
		unit_plus_minus(in->arena, told.density_kg_m3,
			told.standard_uncertainty_kg_m3));
	if (told.has_rate)
		(void)printf(", %.0f L/min", told.rate_m3_s * 1000 * 60);
	(void)puts("");
	print_folded(stdout, 0, told.sentence);
	return ERR_NONE;
}

const struct command command_foam = {
	.name = "foam",
	.line = "records a weighing of foam, and says whether it may be used",
	.help = "  foamwright foam BOOK GENERATOR --gross MASS [OPTIONS]\n\n"
		"Purge, fill the vessel from below, do not tap, strike level, "
		"weigh; at start,\nmiddle and end of a batch. Agents burn "
		"eyes: goggles.\n",
	.example = "foamwright foam site.book G1 --gross \"1.337 kg\" --batch "
		   "03 --moment end",
	.least_words = 2,
	.most_words = 2,
	.options = foam_options,
	.run = run_foam,
	.writes = true,
};

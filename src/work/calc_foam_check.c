/* calc_foam_check.c - "foam-check": foam density from a weighed cup. */
#include "work/calc_priv.h"

#include "control/foam.h"

static const struct calc_key keys[] = {
	{"readings", "array of objects {gross, tare, volume}", NULL,
		"the cup full, empty, and its volume as found with water"},
	{"target", "density", "none", "what the foam should weigh"},
	{"tolerance", "density", "a tenth of the target",
		"how far off the target is still ok"},
};

static enum err_code
read_reading(const struct calc_in *in, struct control_foam_reading *reading,
	struct err *err)
{
	static const char *const known[] = {"gross", "tare", "volume"};

	TRY(calc_only(in, known, sizeof known / sizeof known[0], err));
	TRY(calc_read_quantity(in, "gross", UNIT_MASS, CALC_POSITIVE,
		&reading->gross.kg, err));
	TRY(calc_read_quantity(in, "tare", UNIT_MASS, CALC_NOT_NEGATIVE,
		&reading->tare.kg, err));
	return calc_read_quantity(in, "volume", UNIT_VOLUME, CALC_POSITIVE,
		&reading->volume.m3, err);
}

static void
write_answer(struct calc_out *out, const struct control_foam *got)
{
	struct jsonout *json = out->json;

	jsonout_key(json, "density");
	jsonout_open_object(json);
	jsonout_key_number(json, "value", got->density.kg_m3);
	jsonout_key_string(json, "unit", "kg/m3");
	jsonout_key(json, "standard_error");
	if (got->has_error)
		jsonout_number(json, got->error.kg_m3);
	else
		jsonout_null(json);
	jsonout_close_object(json);
	if (got->has_error) {
		jsonout_key_quantity(
			json, "standard_error", got->error.kg_m3, "kg/m3");
	} else {
		jsonout_key(json, "standard_error");
		jsonout_null(json);
	}
	jsonout_key(json, "verdict");
	if (got->has_verdict)
		jsonout_string(json, control_foam_word(got->verdict));
	else
		jsonout_null(json);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct density target = {0}, tolerance = {0};
	struct control_foam_reading *reading;
	const struct calc_in *object;
	struct control_foam got;
	size_t n;

	TRY(calc_read_objects(in, "readings", 1, &object, &n, err));
	reading = arena_take(in->arena, n, sizeof *reading);
	if (reading == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		TRY(read_reading(&object[i], &reading[i], err));
	TRY(calc_read_quantity_or(
		in, "target", UNIT_DENSITY, CALC_POSITIVE, &target.kg_m3, err));
	TRY(calc_read_quantity_or(in, "tolerance", UNIT_DENSITY, CALC_POSITIVE,
		&tolerance.kg_m3, err));
	if (calc_has(in, "tolerance") && !calc_has(in, "target"))
		return calc_refuse(
			in, "tolerance", "nothing without a target", err);
	TRY(control_foam(reading, n, target, tolerance, &got, err));
	write_answer(out, &got);
	calc_source(out,
		"mass over volume; standard error of a mean: JCGM 100:2008, "
		"4.2; a tolerance of a tenth: common practice, no source");
	if (!got.has_error)
		calc_note(out,
			"One reading says nothing of its own error: weigh the "
			"foam again, at the start, in the middle and at the "
			"end of a run.");
	if (!got.has_verdict)
		calc_note(out, "Without a target there is no verdict.");
	if (got.has_verdict && got.is_close)
		calc_note(out,
			"The mean lies within two standard errors of the end "
			"of the tolerance: take more readings before you act.");
	return ERR_NONE;
}

const struct calc_entry calc_foam_check = {
	.name = "foam-check",
	.line = "foam density from a weighed cup, against its target",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"readings\": [{\"gross\": \"121 g\", \"tare\": \"52 g\", "
		   "\"volume\": \"1 L\"}, {\"gross\": \"124 g\", \"tare\": "
		   "\"52 g\", \"volume\": \"1 L\"}], \"target\": \"70 g/L\", "
		   "\"tolerance\": \"5 g/L\"}",
	.run = run,
};

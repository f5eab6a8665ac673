/* calc_acceptance.c - "acceptance": a lot's strength by published criteria. */
#include "work/calc_priv.h"

#include "control/acceptance.h"
#include "core/text.h"

static const struct calc_key keys[] = {
	{"values", "array of stresses", NULL,
		"strengths in the order made, one a batch"},
	{"required", "stress", NULL, "the strength that is asked (fck, fc)"},
	{"spread", "stress", "none",
		"known beforehand, from 35 results or more"},
};

static const char *const stress_unit = "Pa";

static enum err_code
read_strengths(
	const struct calc_in *in, struct control_lot *lot, struct err *err)
{
	const json_t *list = json_object_get(in->object, "values");
	double *got;

	if (!json_is_array(list) || json_array_size(list) == 0)
		return calc_refuse(
			in, "values", "an array of one strength or more", err);
	lot->n = json_array_size(list);
	got = arena_take(in->arena, lot->n, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < lot->n; i++) {
		json_t *one = json_array_get(list, i);
		json_t *object = json_object();
		const struct calc_in each = {
			.object = object, .path = in->path, .arena = in->arena};
		const char *key = text_format(in->arena, "values[%zu]", i);
		enum err_code code = ERR_MEMORY;

		if (object == NULL || key == NULL ||
			json_object_set(object, key, one) != 0)
			(void)err_memory(err);
		else
			code = calc_read_quantity(&each, key, UNIT_STRESS,
				CALC_POSITIVE, &got[i], err);
		json_decref(object);
		TRY(code);
	}
	lot->strength_Pa = got;
	return ERR_NONE;
}

static void
write_criterion(struct jsonout *json, enum control_criterion criterion,
	const struct control_accepted *c)
{
	jsonout_key(json, control_criterion_word(criterion));
	jsonout_open_object(json);
	jsonout_key_string(json, "says", control_criterion_says(criterion));
	jsonout_key_bool(json, "applies", c->applies);
	jsonout_key_bool(json, "met", c->is_met);
	if (c->applies) {
		jsonout_key_quantity(json, "judged", c->judged.Pa, stress_unit);
		jsonout_key_quantity(
			json, "limit", c->judged_limit.Pa, stress_unit);
		jsonout_key_quantity(json, "least", c->least.Pa, stress_unit);
		jsonout_key_quantity(
			json, "least_limit", c->least_limit.Pa, stress_unit);
	}
	jsonout_close_object(json);
}

static enum err_code
write_running(const struct calc_in *in, struct jsonout *json,
	const struct control_lot *lot, struct err *err)
{
	const size_t width = 3;
	const double *mean;
	size_t n;

	TRY(control_running_mean(
		in->arena, lot->strength_Pa, lot->n, width, &mean, &n, err));
	jsonout_key(json, "running_mean");
	jsonout_open_object(json);
	jsonout_key(json, "values");
	jsonout_open_array(json);
	for (size_t i = 0; i < n; i++)
		jsonout_number(json, mean[i]);
	jsonout_close_array(json);
	jsonout_key_string(json, "unit", stress_unit);
	jsonout_close_object(json);
	return ERR_NONE;
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct control_accepted got[CONTROL_CRITERION_COUNT];
	struct control_lot lot = {0};

	TRY(read_strengths(in, &lot, err));
	TRY(calc_read_quantity(in, "required", UNIT_STRESS, CALC_POSITIVE,
		&lot.required.Pa, err));
	lot.has_spread = calc_has(in, "spread");
	TRY(calc_read_quantity_or(
		in, "spread", UNIT_STRESS, CALC_POSITIVE, &lot.spread.Pa, err));
	TRY(control_accept(in->arena, &lot, got, err));
	jsonout_key(out->json, "criteria");
	jsonout_open_object(out->json);
	for (size_t c = 0; c < CONTROL_CRITERION_COUNT; c++)
		write_criterion(out->json, (enum control_criterion)c, &got[c]);
	jsonout_close_object(out->json);
	TRY(write_running(in, out->json, &lot, err));
	calc_source(out,
		"EN 206:2013, table 17; ACI 318-19, 26.12.3; EN 1990:2002, "
		"D.7.2");
	if (!got[CONTROL_ACI318].has_teeth)
		calc_note(out,
			"The margins of EN 206 and ACI 318 were set for "
			"ordinary concrete: at this strength their limit for "
			"single results is 0 and says nothing. The "
			"characteristic value serves at any strength.");
	calc_note(out,
		"This screens a lot; a licensed engineer and the local code "
		"decide.");
	return ERR_NONE;
}

const struct calc_entry calc_acceptance = {
	.name = "acceptance",
	.line = "a lot's strength judged by published criteria",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"values\": [\"21.0 MPa\", \"19.5 MPa\", \"22.5 MPa\", "
		   "\"18.0 MPa\", \"23.0 MPa\"], \"required\": \"20 MPa\"}",
	.run = run,
};

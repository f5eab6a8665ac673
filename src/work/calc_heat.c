/* calc_heat.c - "conductivity" and "u-value": heat through a wall. */
#include "work/calc_priv.h"

#include "choose/conductivity.h"
#include "choose/heat.h"
#include "choose/screening.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* ---- conductivity ---- */

static const struct calc_key conductivity_keys[] = {
	{"oven_dry_density", "density", NULL, "of the hardened concrete"},
	{"moisture_content", "share", "0 (oven-dry)",
		"mass of water per oven-dry mass"},
};

static void
write_relation(struct jsonout *json, enum choose_relation relation,
	const struct choose_conducts *got)
{
	struct interval range = choose_relation_range_kg_m3(relation);

	jsonout_key(json, choose_relation_word(relation));
	jsonout_open_object(json);
	jsonout_key_quantity(json, "conductivity", got->moist.W_mK, "W/(m K)");
	jsonout_key_quantity(json, "oven_dry", got->oven_dry.W_mK, "W/(m K)");
	jsonout_key_string(json, "source", choose_relation_source(relation));
	jsonout_key_interval(json, "range", range.low, range.high, "kg/m3");
	jsonout_key_bool(json, "in_range", got->in_range);
	jsonout_close_object(json);
}

static enum err_code
run_conductivity(
	const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct density dry;
	double moisture_ratio = 0;
	const struct calc_field field[] = {
		{"oven_dry_density", UNIT_DENSITY, CALC_POSITIVE, true,
			&dry.kg_m3},
		{"moisture_content", UNIT_RATIO, CALC_NOT_NEGATIVE, false,
			&moisture_ratio},
	};

	TRY(calc_read_fields(in, field, COUNT(field), err));
	jsonout_key(out->json, "relations");
	jsonout_open_object(out->json);
	for (int i = 0; i < CHOOSE_RELATION_COUNT; i++) {
		struct choose_conducts got;

		TRY(choose_relation_conductivity((enum choose_relation)i, dry,
			moisture_ratio, &got, err));
		if (got.has_value)
			write_relation(
				out->json, (enum choose_relation)i, &got);
	}
	jsonout_close_object(out->json);
	jsonout_key_number(out->json, "moisture_factor",
		choose_moisture_factor(
			choose_moisture_by_mass, 0, moisture_ratio));
	calc_source(out,
		"each relation has its own; moisture: ISO "
		"10456:2007, clause 7, exp(4 u), u water per oven-dry "
		"mass, its coefficient for autoclaved aerated "
		"concrete");
	calc_note(out,
		"The relations disagree widely: take them as a "
		"range, and measure where it matters.");
	if (moisture_ratio > choose_moisture_table_end)
		calc_note(out,
			"The moisture is beyond the 0.25 where the "
			"correction's table ends.");
	if (moisture_ratio <= 0)
		calc_note(out,
			"This is oven-dry; in a wall foamed concrete "
			"holds some per cent of water and lets more "
			"heat through.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_conductivity = {
	.name = "conductivity",
	.line = "heat let through, foreseen from the dry weight",
	.key = conductivity_keys,
	.n_key = COUNT(conductivity_keys),
	.example = "{\"oven_dry_density\": \"548 kg/m3\", "
		   "\"moisture_content\": \"6 %\"}",
	.run = run_conductivity,
};

/* ---- u-value ---- */

static const struct calc_key u_value_keys[] = {
	{"layers", "array of objects", NULL,
		"{name, thickness, conductivity} or {name, resistance}, from "
		"inside out"},
	{"heat_flow", "up, horizontal or down", NULL,
		"up through a roof, horizontal through a wall, down through a "
		"floor"},
};

static enum err_code
read_layer(
	const struct calc_in *in, struct choose_layer *layer, struct err *err)
{
	static const char *const keys[] = {
		"name", "thickness", "conductivity", "resistance"};
	const struct calc_field field[] = {
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, true,
			&layer->thickness.m},
		{"conductivity", UNIT_CONDUCTIVITY, CALC_POSITIVE, true,
			&layer->conductivity.W_mK},
	};
	const char *name;

	TRY(calc_only(in, keys, COUNT(keys), err));
	TRY(calc_read_text_or(in, "name", &name, err));
	layer->has_resistance = calc_has(in, "resistance");
	if (!layer->has_resistance)
		return calc_read_fields(in, field, COUNT(field), err);
	if (calc_has(in, "thickness") || calc_has(in, "conductivity"))
		return calc_refuse(in, "resistance",
			"nothing where thickness and conductivity are given",
			err);
	return calc_read_quantity(in, "resistance", UNIT_RESISTANCE,
		CALC_NOT_NEGATIVE, &layer->resistance_m2K_W, err);
}

static enum err_code
run_u_value(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const flows[] = {"up", "horizontal", "down"};
	const struct calc_in *object;
	struct choose_layer *layer;
	struct choose_heat h = {.n_layer = 0};
	struct choose_heated got;
	size_t flow = 0;

	TRY(calc_read_objects(in, "layers", 1, &object, &h.n_layer, err));
	layer = arena_take(in->arena, h.n_layer, sizeof *layer);
	if (layer == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h.n_layer; i++)
		TRY(read_layer(&object[i], &layer[i], err));
	TRY(calc_read_choice(in, "heat_flow", flows, COUNT(flows), &flow, err));
	h.layer = layer;
	h.flow = (enum choose_heat_flow)flow;
	TRY(choose_heat(&h, &got, err));
	jsonout_key_quantity(
		out->json, "resistance", got.resistance_m2K_W, "m2 K/W");
	jsonout_key_quantity(out->json, "u_value", got.u_W_m2K, "W/(m2 K)");
	jsonout_key_quantity(out->json, "resistance_us",
		got.resistance_m2K_W * choose_us_per_m2K_W, "h ft2 degF/Btu");
	jsonout_key_quantity(out->json, "u_value_us",
		got.u_W_m2K / choose_us_per_m2K_W, "Btu/(h ft2 degF)");
	calc_source(out,
		"ISO 6946:2017, 6.7.1, and its table of surface "
		"resistances (inside 0.10 up, 0.13 horizontal, 0.17 "
		"down; outside 0.04 m2 K/W)");
	calc_note(out,
		"Even layers only: joints, ties, edges and wet concrete "
		"let more heat through.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_u_value = {
	.name = "u-value",
	.line = "resistance of layers to heat, and the U-value",
	.key = u_value_keys,
	.n_key = COUNT(u_value_keys),
	.example = "{\"layers\": [{\"name\": \"plaster\", \"thickness\": \"12 "
		   "mm\", \"conductivity\": \"0.57 W/(m K)\"}, {\"name\": "
		   "\"foamed concrete\", \"thickness\": \"240 mm\", "
		   "\"conductivity\": \"0.18 W/(m K)\"}, {\"name\": "
		   "\"render\", \"resistance\": \"0.02 m2 K/W\"}], "
		   "\"heat_flow\": \"horizontal\"}",
	.run = run_u_value,
};

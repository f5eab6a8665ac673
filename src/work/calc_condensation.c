/* calc_condensation.c - "condensation" and "thickness-for-u". */
#include "work/calc_priv.h"

#include "choose/condensation.h"
#include "choose/screening.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const double month_days[CHOOSE_MONTHS] = {
	31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/* Thickness and conductivity, or resistance alone. */
static enum err_code
read_heat(const struct calc_in *in, struct choose_layer *layer, struct err *err)
{
	const struct calc_field whole[] = {
		{"resistance", UNIT_RESISTANCE, CALC_POSITIVE, true,
			&layer->resistance_m2K_W},
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, false,
			&layer->thickness.m},
	};
	const struct calc_field parts[] = {
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, true,
			&layer->thickness.m},
		{"conductivity", UNIT_CONDUCTIVITY, CALC_POSITIVE, true,
			&layer->conductivity.W_mK},
	};
	const char *name;

	TRY(calc_read_text_or(in, "name", &name, err));
	layer->has_resistance = calc_has(in, "resistance");
	if (!layer->has_resistance)
		return calc_read_fields(in, parts, COUNT(parts), err);
	if (calc_has(in, "conductivity"))
		return calc_refuse(in, "resistance",
			"nothing where the conductivity is given", err);
	return calc_read_fields(in, whole, COUNT(whole), err);
}

/* ---- condensation ---- */

static const struct calc_key condensation_keys[] = {
	{"layers", "array of objects", NULL,
		"from inside out: {name, thickness, conductivity or "
		"resistance, mu or air_layer}; mu: vapour resistance over that "
		"of still air, air_layer: mu times thickness as a length"},
	{"inside", "object {temperature, humidity}", NULL,
		"of the room, humidity as a share or in %"},
	{"months", "array of twelve objects", NULL,
		"{temperature, humidity, inside_temperature?, "
		"inside_humidity?}, January first; outside"},
	{"heat_flow", "up, horizontal or down", "horizontal",
		"through a roof, a wall or a floor"},
	{"sliced", "true or false", "true",
		"layers cut into slices of at most 0.25 m2 K/W, as ISO 13788 "
		"has it"},
};

static enum err_code
read_wet_layer(const struct calc_in *in, struct choose_wet_layer *layer,
	struct err *err)
{
	static const char *const keys[] = {"name", "thickness", "conductivity",
		"resistance", "mu", "air_layer"};
	double mu = 0;

	TRY(calc_only(in, keys, COUNT(keys), err));
	TRY(read_heat(in, &layer->heat, err));
	if (calc_has(in, "mu") == calc_has(in, "air_layer"))
		return calc_refuse(in, "mu",
			"a number, or air_layer as a length: one of the two",
			err);
	if (calc_has(in, "air_layer"))
		return calc_read_quantity(in, "air_layer", UNIT_LENGTH,
			CALC_POSITIVE, &layer->air_layer_m, err);
	TRY(calc_read_number(in, "mu", CALC_POSITIVE, &mu, err));
	if (layer->heat.thickness.m <= 0)
		return calc_refuse(in, "mu",
			"a thickness beside it, or air_layer in its place",
			err);
	layer->air_layer_m = mu * layer->heat.thickness.m;
	return ERR_NONE;
}

static enum err_code
read_wet_layers(const struct calc_in *in, struct choose_condensation *c,
	struct err *err)
{
	const struct calc_in *object;
	struct choose_wet_layer *layer;

	TRY(calc_read_objects(in, "layers", 1, &object, &c->n_layer, err));
	layer = arena_take(in->arena, c->n_layer, sizeof *layer);
	if (layer == NULL)
		return err_memory(err);
	for (size_t i = 0; i < c->n_layer; i++)
		TRY(read_wet_layer(&object[i], &layer[i], err));
	c->layer = layer;
	return ERR_NONE;
}

static enum err_code
read_month(
	const struct calc_in *in, struct choose_month *month, struct err *err)
{
	static const char *const keys[] = {"temperature", "humidity",
		"inside_temperature", "inside_humidity"};
	const struct calc_field field[] = {
		{"temperature", UNIT_TEMPERATURE, CALC_ANY, true,
			&month->outside_degC},
		{"humidity", UNIT_RATIO, CALC_POSITIVE, true,
			&month->outside_humidity},
		{"inside_temperature", UNIT_TEMPERATURE, CALC_ANY, false,
			&month->inside_degC},
		{"inside_humidity", UNIT_RATIO, CALC_POSITIVE, false,
			&month->inside_humidity},
	};

	TRY(calc_only(in, keys, COUNT(keys), err));
	return calc_read_fields(in, field, COUNT(field), err);
}

static enum err_code
read_climate(const struct calc_in *in, struct choose_condensation *c,
	struct err *err)
{
	static const char *const keys[] = {"temperature", "humidity"};
	double inside_degC = 0, inside_humidity = 0;
	const struct calc_field field[] = {
		{"temperature", UNIT_TEMPERATURE, CALC_ANY, true, &inside_degC},
		{"humidity", UNIT_RATIO, CALC_POSITIVE, true, &inside_humidity},
	};
	const struct calc_in *object;
	struct choose_month *month;
	struct calc_in inside;

	TRY(calc_read_object(in, "inside", &inside, err));
	TRY(calc_only(&inside, keys, COUNT(keys), err));
	TRY(calc_read_fields(&inside, field, COUNT(field), err));
	TRY(calc_read_objects(in, "months", 1, &object, &c->n_month, err));
	if (c->n_month != CHOOSE_MONTHS)
		return calc_refuse(
			in, "months", "twelve months, January first", err);
	month = arena_take(in->arena, c->n_month, sizeof *month);
	if (month == NULL)
		return err_memory(err);
	for (size_t i = 0; i < c->n_month; i++) {
		month[i] = (struct choose_month){.inside_degC = inside_degC,
			.inside_humidity = inside_humidity,
			.days = month_days[i]};
		TRY(read_month(&object[i], &month[i], err));
	}
	c->month = month;
	return ERR_NONE;
}

static void
write_months(struct jsonout *json, const struct choose_condensed *got)
{
	jsonout_key(json, "months");
	jsonout_open_array(json);
	for (size_t i = 0; i < CHOOSE_MONTHS; i++) {
		const struct choose_wet_month *m = &got->month[i];

		jsonout_open_object(json);
		jsonout_key_quantity(
			json, "rate", m->rate_kg_m2_s, "kg/(m2 s)");
		jsonout_key_quantity(json, "held", m->held_kg_m2, "kg/m2");
		jsonout_key_quantity(json, "inside_surface_temperature",
			m->surface_degC, "degC");
		jsonout_key_bool(json, "mould", m->mould);
		jsonout_key_bool(json, "surface_wet", m->surface_wet);
		jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

static void
note_condensation(struct calc_out *out, const struct choose_condensed *got)
{
	bool mould = false;

	for (size_t i = 0; i < CHOOSE_MONTHS; i++)
		mould = mould || got->month[i].mould;
	if (!got->gathers)
		calc_note(out, "No water gathers inside in any month.");
	else if (got->dries)
		calc_note(out,
			"Water gathers inside and has dried out when "
			"the year comes round.");
	else
		calc_note(out,
			"Water gathers inside and is not gone when the "
			"year comes round: it will grow wetter year by "
			"year.");
	if (mould)
		calc_note(out,
			"In some month the inner face is cold enough "
			"for mould (above 80 % humidity there, surface "
			"resistance 0.25 m2 K/W).");
	calc_note(out,
		"Vapour alone, steady months, dry building: rain, "
		"ground damp, water of the mix and air that leaks "
		"through are not in it.");
}

static enum err_code
run_condensation(
	const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const flows[] = {"up", "horizontal", "down"};
	static const double slice_m2K_W = 0.25; /* ISO 13788, 6.3 */
	struct choose_condensation c = {
		.outside_surface_m2K_W = choose_surface_outside};
	struct choose_condensed got;
	size_t flow = CHOOSE_HEAT_HORIZONTAL;
	bool sliced = true;

	TRY(read_wet_layers(in, &c, err));
	TRY(read_climate(in, &c, err));
	TRY(calc_read_choice_or(
		in, "heat_flow", flows, COUNT(flows), &flow, err));
	TRY(calc_read_bool_or(in, "sliced", &sliced, err));
	c.inside_surface_m2K_W = choose_surface_inside(
		(enum choose_heat_flow)flow);
	c.step_m2K_W = sliced ? slice_m2K_W : 0;
	TRY(choose_condensation(in->arena, &c, &got, err));
	jsonout_key_bool(out->json, "gathers", got.gathers);
	jsonout_key_bool(out->json, "dries", got.dries);
	jsonout_key_quantity(out->json, "most_held", got.most_kg_m2, "kg/m2");
	if (got.gathers) {
		jsonout_key_count(out->json, "most_month", got.most_month + 1);
		jsonout_key_quantity(out->json, "place", got.most_depth.m, "m");
		jsonout_key_count(
			out->json, "first_month", got.first_month + 1);
	}
	write_months(out->json, &got);
	calc_source(out,
		"the form of ISO 13788:2012 (Glaser), month by month; "
		"saturation its eq. E.7 and E.8");
	note_condensation(out, &got);
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_condensation = {
	.name = "condensation",
	.line = "does water gather inside a wall over the year",
	.key = condensation_keys,
	.n_key = COUNT(condensation_keys),
	.example =
		"{\"layers\": [{\"name\": \"plaster\", \"thickness\": \"15 "
		"mm\", \"conductivity\": 0.5, \"mu\": 10}, {\"name\": \"foamed "
		"concrete\", \"thickness\": \"210 mm\", \"conductivity\": "
		"0.17, \"mu\": 6}, {\"name\": \"render\", \"thickness\": \"20 "
		"mm\", \"conductivity\": 0.8, \"mu\": 25}], \"inside\": "
		"{\"temperature\": 20, \"humidity\": \"52 %\"}, \"months\": "
		"[{\"temperature\": -6, \"humidity\": 0.84}, "
		"{\"temperature\": -4, \"humidity\": 0.82}, "
		"{\"temperature\": 1, \"humidity\": 0.77}, {\"temperature\": "
		"7, \"humidity\": 0.71}, {\"temperature\": 13, \"humidity\": "
		"0.69}, {\"temperature\": 16, \"humidity\": 0.72}, "
		"{\"temperature\": 18, \"humidity\": 0.72}, "
		"{\"temperature\": 17, \"humidity\": 0.74}, "
		"{\"temperature\": 12, \"humidity\": 0.79}, {\"temperature\": "
		"7, \"humidity\": 0.82}, {\"temperature\": 2, \"humidity\": "
		"0.86}, {\"temperature\": -3, \"humidity\": 0.86}]}",
	.run = run_condensation,
};

/* ---- thickness-for-u ---- */

static const struct calc_key thickness_keys[] = {
	{"wanted_u", "number", NULL, "W/(m2 K)"},
	{"conductivity", "conductivity", NULL,
		"of the layer whose thickness is asked"},
	{"layers", "array of objects", "none", "the others, as in u-value"},
	{"heat_flow", "up, horizontal or down", NULL, "as in u-value"},
};

static enum err_code
read_others(const struct calc_in *in, struct choose_heat *h, struct err *err)
{
	static const char *const keys[] = {
		"name", "thickness", "conductivity", "resistance"};
	const struct calc_in *object;
	struct choose_layer *layer;

	if (!calc_has(in, "layers"))
		return ERR_NONE;
	TRY(calc_read_objects(in, "layers", 1, &object, &h->n_layer, err));
	layer = arena_take(in->arena, h->n_layer, sizeof *layer);
	if (layer == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_layer; i++) {
		TRY(calc_only(&object[i], keys, COUNT(keys), err));
		TRY(read_heat(&object[i], &layer[i], err));
	}
	h->layer = layer;
	return ERR_NONE;
}

static enum err_code
run_thickness(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const flows[] = {"up", "horizontal", "down"};
	struct choose_heat h = {.n_layer = 0};
	struct conductivity conductivity;
	struct length got;
	double wanted = 0;
	size_t flow = 0;

	TRY(calc_read_number(in, "wanted_u", CALC_POSITIVE, &wanted, err));
	TRY(calc_read_quantity(in, "conductivity", UNIT_CONDUCTIVITY,
		CALC_POSITIVE, &conductivity.W_mK, err));
	TRY(read_others(in, &h, err));
	TRY(calc_read_choice(in, "heat_flow", flows, COUNT(flows), &flow, err));
	h.flow = (enum choose_heat_flow)flow;
	TRY(choose_thickness_for_u(&h, conductivity, wanted, &got, err));
	jsonout_key_quantity(out->json, "thickness", got.m, "m");
	calc_source(out, "ISO 6946:2017, 6.7.1, solved for one thickness");
	calc_note(out,
		"With the conductivity as it will be in the wall, "
		"moisture and all.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_thickness_for_u = {
	.name = "thickness-for-u",
	.line = "how thick a layer must be for a wanted U-value",
	.key = thickness_keys,
	.n_key = COUNT(thickness_keys),
	.example = "{\"wanted_u\": 0.45, \"conductivity\": \"0.17 W/(m K)\", "
		   "\"layers\": [{\"name\": \"render\", \"thickness\": \"20 "
		   "mm\", \"conductivity\": \"0.8 W/(m K)\"}], "
		   "\"heat_flow\": \"horizontal\"}",
	.run = run_thickness,
};

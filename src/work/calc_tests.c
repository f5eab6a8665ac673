/* calc_tests.c - "flexure", "drop", "crush" and "density": the home tests. */
#include "work/calc_priv.h"

#include "lab/crush.h"
#include "lab/density.h"
#include "lab/drop.h"
#include "lab/flexure.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static void
write_interval(struct jsonout *json, const char *key, struct interval value,
	const char *unit)
{
	jsonout_key_interval(json, key, value.low, value.high, unit);
}

/* ---- flexure ---- */

static const struct calc_key flexure_keys[] = {
	{"loading", "centre or third", NULL, "one load or two"},
	{"span", "length", NULL, "between supports"},
	{"width", "length", NULL, "of the section"},
	{"depth", "length", NULL, "of the section"},
	{"held", "mass", NULL, "the last weight held"},
	{"broke_at", "mass", "still holding", "the weight that broke it"},
	{"on_rig", "mass", "0", "hanger or platform, added to both"},
	{"strap", "length", "0", "width of the loading strap"},
	{"beam_mass", "mass", "unknown", "of the beam"},
	{"beam_length", "length", "the span", "of the beam, equal overhangs"},
	{"division", "object {span, width, depth, weight}", "none",
		"finest division of ruler and scale, for the uncertainty"},
};

/* The divisions of the instruments, where they are given: each 0 or more; keys
 * are those of the list. */
static enum err_code
read_division(const struct calc_in *in, const struct calc_field *field,
	size_t n, struct err *err)
{
	enum { KEY_MAX = 8 };
	const char *keys[KEY_MAX];
	struct calc_in object;

	TRY(calc_read_object(in, "division", &object, err));
	for (size_t i = 0; i < n && i < KEY_MAX; i++)
		keys[i] = field[i].key;
	TRY(calc_only(&object, keys, n, err));
	return calc_read_fields(&object, field, n, err);
}

static void
write_uncertainty(struct calc_out *out, double relative)
{
	jsonout_key_number(out->json, "relative_uncertainty", relative);
	calc_note(out,
		"relative_uncertainty is the standard one from reading "
		"the instruments (JCGM 100:2008); what differs between "
		"pieces and batches is not in it.");
}

static enum err_code
flexure_uncertainty(const struct calc_in *in, struct calc_out *out,
	const struct lab_flexure *f, struct err *err)
{
	struct lab_flexure_division d = {.span = {0}};
	const struct calc_field field[] = {
		{"span", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &d.span.m},
		{"width", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &d.width.m},
		{"depth", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &d.depth.m},
		{"weight", UNIT_MASS, CALC_NOT_NEGATIVE, false, &d.weight.kg},
	};
	static const char *const parts[LAB_FLEXURE_SOURCES] = {
		[LAB_FROM_SPAN] = "span",
		[LAB_FROM_WIDTH] = "width",
		[LAB_FROM_DEPTH] = "depth",
		[LAB_FROM_WEIGHT] = "weight",
		[LAB_FROM_STEP] = "step",
	};
	struct lab_flexure_budget budget;
	double relative;

	if (!calc_has(in, "division"))
		return ERR_NONE;
	TRY(read_division(in, field, COUNT(field), err));
	TRY(lab_flexure_uncertainty(f, &d, &relative, err));
	TRY(lab_flexure_budget(f, &d, &budget, err));
	write_uncertainty(out, relative);
	jsonout_key(out->json, "budget");
	jsonout_open_object(out->json);
	for (int i = 0; i < LAB_FLEXURE_SOURCES; i++)
		if (i != LAB_FROM_STEP || budget.has_step)
			jsonout_key_number(out->json, parts[i], budget.part[i]);
	jsonout_close_object(out->json);
	calc_note(out, budget.sentence);
	return ERR_NONE;
}

static enum err_code
run_flexure(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const loadings[] = {"centre", "third"};
	struct lab_flexure f = {0};
	struct lab_flexed got;
	size_t loading = 0;

	TRY(calc_read_choice(in, "loading", loadings, 2, &loading, err));
	f.loading = loading == 0 ? LAB_CENTRE : LAB_THIRD;
	TRY(calc_read_quantity(
		in, "span", UNIT_LENGTH, CALC_POSITIVE, &f.span.m, err));
	TRY(calc_read_quantity(
		in, "width", UNIT_LENGTH, CALC_POSITIVE, &f.width.m, err));
	TRY(calc_read_quantity(
		in, "depth", UNIT_LENGTH, CALC_POSITIVE, &f.depth.m, err));
	TRY(calc_read_quantity(
		in, "held", UNIT_MASS, CALC_NOT_NEGATIVE, &f.held.kg, err));
	f.did_break = calc_has(in, "broke_at");
	TRY(calc_read_quantity_or(in, "broke_at", UNIT_MASS, CALC_NOT_NEGATIVE,
		&f.broke_at.kg, err));
	TRY(calc_read_quantity_or(
		in, "on_rig", UNIT_MASS, CALC_NOT_NEGATIVE, &f.on_rig.kg, err));
	TRY(calc_read_quantity_or(
		in, "strap", UNIT_LENGTH, CALC_NOT_NEGATIVE, &f.strap.m, err));
	f.has_beam = calc_has(in, "beam_mass");
	f.beam_length = f.span;
	TRY(calc_read_quantity_or(in, "beam_mass", UNIT_MASS, CALC_POSITIVE,
		&f.beam_mass.kg, err));
	TRY(calc_read_quantity_or(in, "beam_length", UNIT_LENGTH, CALC_POSITIVE,
		&f.beam_length.m, err));
	TRY(lab_flexure(&f, &got, err));
	write_interval(out->json, "moment", got.moment_N_m, "N m");
	write_interval(out->json, "modulus_of_rupture", got.rupture_Pa, "Pa");
	jsonout_key(out->json, "modulus_of_rupture_with_self_weight");
	if (got.has_self_weight) {
		jsonout_open_object(out->json);
		jsonout_key_number(
			out->json, "low", got.rupture_with_self_weight_Pa.low);
		jsonout_key_number(out->json, "high",
			got.rupture_with_self_weight_Pa.high);
		jsonout_key_string(out->json, "unit", "Pa");
		jsonout_close_object(out->json);
	} else {
		jsonout_null(out->json);
		calc_note(out,
			"Give beam_mass for the strength with the "
			"beam's own weight.");
	}
	TRY(flexure_uncertainty(in, out, &f, err));
	calc_source(out,
		"ASTM C293 (centre), ASTM C78 (third points); strap "
		"and own weight by statics (derived)");
	calc_note(out,
		"The strength lies between what the last weight held "
		"and what the next one asked.");
	calc_note(out,
		"Keep feet from under the weights: they fall when the "
		"beam breaks.");
	return ERR_NONE;
}

const struct calc_entry calc_flexure = {
	.name = "flexure",
	.line = "bending strength from weights hung on a beam",
	.key = flexure_keys,
	.n_key = COUNT(flexure_keys),
	.example = "{\"loading\": \"centre\", \"span\": \"600 mm\", \"width\": "
		   "\"100 mm\", \"depth\": \"73.9 mm\", \"held\": \"20.0 kg\", "
		   "\"broke_at\": \"22.0 kg\", \"on_rig\": \"2.60 kg\", "
		   "\"strap\": \"50 mm\", \"beam_mass\": \"3.05 kg\", "
		   "\"beam_length\": \"700 mm\"}",
	.run = run_flexure,
};

/* ---- drop ---- */

static const struct calc_key drop_keys[] = {
	{"mass", "mass", NULL, "of the bar"},
	{"height", "length", NULL, "from the tip to the face"},
	{"depth", "length", "needed unless through", "of the dent"},
	{"thickness", "length", "unknown", "of the piece"},
	{"through", "true or false", "false", "it went through"},
	{"tube_loss", "share", "0", "energy lost in the guide"},
	{"tip", "object {shape, diameter, angle?}", NULL,
		"shape: flat, ball, cone; angle: the cone's full angle"},
	{"division", "object {mass, height, depth, diameter, angle}", "none",
		"finest division of each instrument, for the uncertainty"},
};

static enum err_code
drop_uncertainty(const struct calc_in *in, struct calc_out *out,
	const struct lab_drop *drop, struct err *err)
{
	struct lab_drop_division d = {.mass = {0}};
	const struct calc_field field[] = {
		{"mass", UNIT_MASS, CALC_NOT_NEGATIVE, false, &d.mass.kg},
		{"height", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &d.height.m},
		{"depth", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &d.depth.m},
		{"diameter", UNIT_LENGTH, CALC_NOT_NEGATIVE, false,
			&d.tip_diameter.m},
		{"angle", UNIT_ANGLE, CALC_NOT_NEGATIVE, false, &d.angle_rad},
	};
	double relative;

	if (!calc_has(in, "division"))
		return ERR_NONE;
	TRY(read_division(in, field, COUNT(field), err));
	TRY(lab_drop_uncertainty(drop, &d, &relative, err));
	write_uncertainty(out, relative);
	return ERR_NONE;
}

static enum err_code
read_tip(const struct calc_in *in, struct lab_drop *d, struct err *err)
{
	static const char *const shapes[] = {"flat", "ball", "cone"};
	static const char *const keys[] = {"shape", "diameter", "angle"};
	struct calc_in tip;
	size_t shape = 0;

	TRY(calc_read_object(in, "tip", &tip, err));
	TRY(calc_only(&tip, keys, COUNT(keys), err));
	TRY(calc_read_choice(
		&tip, "shape", shapes, COUNT(shapes), &shape, err));
	d->tip = (enum lab_tip)shape;
	TRY(calc_read_quantity(&tip, "diameter", UNIT_LENGTH, CALC_POSITIVE,
		&d->tip_diameter.m, err));
	if (d->tip == LAB_TIP_CONE)
		return calc_read_quantity(&tip, "angle", UNIT_ANGLE,
			CALC_POSITIVE, &d->tip_angle_rad, err);
	return calc_read_quantity_or(&tip, "angle", UNIT_ANGLE, CALC_POSITIVE,
		&d->tip_angle_rad, err);
}

static void
write_value(struct jsonout *json, const char *key, struct interval v,
	bool interval, const char *unit)
{
	if (interval)
		write_interval(json, key, v, unit);
	else
		jsonout_key_quantity(json, key, v.low, unit);
}

static enum err_code
run_drop(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_drop d = {0};
	struct lab_dropped got;

	TRY(calc_read_quantity(
		in, "mass", UNIT_MASS, CALC_POSITIVE, &d.mass.kg, err));
	TRY(calc_read_quantity(
		in, "height", UNIT_LENGTH, CALC_POSITIVE, &d.height.m, err));
	TRY(calc_read_bool_or(in, "through", &d.through, err));
	d.has_depth = calc_has(in, "depth");
	if (!d.through || d.has_depth)
		TRY(calc_read_quantity(in, "depth", UNIT_LENGTH, CALC_POSITIVE,
			&d.depth.m, err));
	d.has_thickness = calc_has(in, "thickness");
	TRY(calc_read_quantity_or(in, "thickness", UNIT_LENGTH, CALC_POSITIVE,
		&d.thickness.m, err));
	TRY(calc_read_quantity_or(in, "tube_loss", UNIT_RATIO,
		CALC_NOT_NEGATIVE, &d.tube_loss_ratio, err));
	TRY(read_tip(in, &d, err));
	TRY(lab_drop(&d, &got, err));
	write_value(out->json, "energy", got.energy_J, d.through, "J");
	write_value(out->json, "volume", got.volume_m3, d.through, "m3");
	write_value(out->json, "crushing_energy", got.crushing_energy_Pa,
		d.through, "Pa");
	TRY(drop_uncertainty(in, out, &d, err));
	calc_source(out, "work and geometry of the dent (derived)");
	if (d.through)
		calc_note(out,
			"It went through: the dent is at least the "
			"thickness, the energy per volume at most this.");
	calc_note(out,
		"Compare dents of one place only: centre, edge and "
		"corner differ.");
	return ERR_NONE;
}

const struct calc_entry calc_drop = {
	.name = "drop",
	.line = "energy to crush from the dent of a dropped bar",
	.key = drop_keys,
	.n_key = COUNT(drop_keys),
	.example = "{\"mass\": \"2.40 kg\", \"height\": \"0.90 m\", \"depth\": "
		   "\"12.5 mm\", \"thickness\": \"60 mm\", \"tube_loss\": "
		   "\"6 %\", \"tip\": {\"shape\": \"ball\", \"diameter\": \"25 "
		   "mm\"}}",
	.run = run_drop,
};

/* ---- crush ---- */

static const struct calc_key crush_keys[] = {
	{"shape", "prism, cylinder or cube", NULL, "of the piece"},
	{"width", "length", "needed for a prism or cube", "across the load"},
	{"depth", "length", "the width", "across the load"},
	{"diameter", "length", "needed for a cylinder", "across the load"},
	{"height", "length", "the width of a cube", "along the load"},
	{"load", "force, or object {held, broke_at}", NULL, "at crushing"},
	{"standard", "none, en_772 or astm_c39", "none", "shape factor"},
	{"division", "object {width, depth, diameter, load}", "none",
		"finest division of each instrument, for the uncertainty"},
};

static enum err_code
crush_uncertainty(const struct calc_in *in, struct calc_out *out,
	const struct lab_crush *c, struct err *err)
{
	struct lab_crush_division d = {.width = {0}};
	const struct calc_field field[] = {
		{"width", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &d.width.m},
		{"depth", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &d.depth.m},
		{"diameter", UNIT_LENGTH, CALC_NOT_NEGATIVE, false,
			&d.diameter.m},
		{"load", UNIT_FORCE, CALC_NOT_NEGATIVE, false, &d.load.N},
	};
	double relative;

	if (!calc_has(in, "division"))
		return ERR_NONE;
	TRY(read_division(in, field, COUNT(field), err));
	TRY(lab_crush_uncertainty(c, &d, &relative, err));
	write_uncertainty(out, relative);
	return ERR_NONE;
}

static enum err_code
read_load(const struct calc_in *in, struct interval *load, struct err *err)
{
	static const char *const keys[] = {"held", "broke_at"};
	struct calc_in object;

	if (!json_is_object(json_object_get(in->object, "load"))) {
		TRY(calc_read_quantity(in, "load", UNIT_FORCE, CALC_POSITIVE,
			&load->low, err));
		load->high = load->low;
		return ERR_NONE;
	}
	TRY(calc_read_object(in, "load", &object, err));
	TRY(calc_only(&object, keys, COUNT(keys), err));
	TRY(calc_read_quantity(&object, "held", UNIT_FORCE, CALC_NOT_NEGATIVE,
		&load->low, err));
	load->high = (double)INFINITY;
	TRY(calc_read_quantity_or(&object, "broke_at", UNIT_FORCE,
		CALC_POSITIVE, &load->high, err));
	if (load->high < load->low)
		return calc_refuse(&object, "broke_at",
			"a force not below the one it held", err);
	return ERR_NONE;
}

static enum err_code
read_sizes(const struct calc_in *in, struct lab_crush *c, struct err *err)
{
	if (c->shape == LAB_CYLINDER) {
		TRY(calc_read_quantity(in, "diameter", UNIT_LENGTH,
			CALC_POSITIVE, &c->diameter.m, err));
		return calc_read_quantity(in, "height", UNIT_LENGTH,
			CALC_POSITIVE, &c->height.m, err);
	}
	TRY(calc_read_quantity(
		in, "width", UNIT_LENGTH, CALC_POSITIVE, &c->width.m, err));
	c->depth = c->width;
	TRY(calc_read_quantity_or(
		in, "depth", UNIT_LENGTH, CALC_POSITIVE, &c->depth.m, err));
	c->height = c->width;
	if (c->shape == LAB_PRISM)
		return calc_read_quantity(in, "height", UNIT_LENGTH,
			CALC_POSITIVE, &c->height.m, err);
	return calc_read_quantity_or(
		in, "height", UNIT_LENGTH, CALC_POSITIVE, &c->height.m, err);
}

static enum err_code
run_crush(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const shapes[] = {"prism", "cylinder", "cube"};
	static const char *const standards[] = {"none", "en_772", "astm_c39"};
	struct lab_crush c = {0};
	struct lab_crushed got;
	size_t shape = 0, standard = 0;
	bool is_interval;

	TRY(calc_read_choice(in, "shape", shapes, COUNT(shapes), &shape, err));
	TRY(calc_read_choice_or(
		in, "standard", standards, COUNT(standards), &standard, err));
	c.shape = (enum lab_shape)shape;
	c.standard = (enum lab_shape_standard)standard;
	TRY(read_sizes(in, &c, err));
	TRY(read_load(in, &c.load_N, err));
	TRY(lab_crush(&c, &got, err));
	is_interval = json_is_object(json_object_get(in->object, "load"));
	write_value(out->json, "stress", got.stress_Pa, is_interval, "Pa");
	jsonout_key(out->json, "shape_factor");
	if (got.has_factor)
		jsonout_number(out->json, got.shape_factor);
	else
		jsonout_null(out->json);
	if (got.has_factor) {
		write_value(out->json, "stress_corrected", got.corrected_Pa,
			is_interval, "Pa");
	} else {
		jsonout_key(out->json, "stress_corrected");
		jsonout_null(out->json);
	}
	TRY(crush_uncertainty(in, out, &c, err));
	calc_source(out,
		standard == 1 ? "load / area; EN 772-1, table A.1"
			: standard == 2
			? "load / area; ASTM C39 and C42, length to diameter"
			: "load / area (derived)");
	if (!got.has_factor)
		calc_note(out,
			"shape_factor and stress_corrected are null: they "
			"take a standard.");
	if (standard == 2)
		calc_note(out,
			"ASTM C39 leaves out concrete below 800 kg/m3; "
			"the factor is not validated for foamed "
			"concrete.");
	return ERR_NONE;
}

const struct calc_entry calc_crush = {
	.name = "crush",
	.line = "crushing strength of a cube, prism or cylinder",
	.key = crush_keys,
	.n_key = COUNT(crush_keys),
	.example = "{\"shape\": \"cube\", \"width\": \"100 mm\", \"load\": "
		   "\"13.8 kN\", \"standard\": \"en_772\"}",
	.run = run_crush,
};

/* ---- density ---- */

static const struct calc_key density_keys[] = {
	{"mass", "mass", NULL, "as it is now"},
	{"volume", "volume", "one of three ways", "of the piece"},
	{"length", "length", "one of three ways", "with width and height"},
	{"width", "length", "with length", "of the piece"},
	{"height", "length", "with length", "of the piece"},
	{"mass_in_water", "mass", "one of three ways", "held under water"},
	{"oven_dry_mass", "mass", "unknown", "after the oven"},
	{"saturated_mass", "mass", "unknown", "after soaking"},
	{"division", "object {mass, side, volume}", "none",
		"finest division of scale and ruler, for the uncertainty"},
};

static enum err_code
density_uncertainty(const struct calc_in *in, struct calc_out *out,
	const struct lab_density *density, struct err *err)
{
	struct lab_density_division d = {.mass = {0}};
	const struct calc_field field[] = {
		{"mass", UNIT_MASS, CALC_NOT_NEGATIVE, false, &d.mass.kg},
		{"side", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &d.side.m},
		{"volume", UNIT_VOLUME, CALC_NOT_NEGATIVE, false, &d.volume.m3},
	};
	double relative;

	if (!calc_has(in, "division"))
		return ERR_NONE;
	TRY(read_division(in, field, COUNT(field), err));
	TRY(lab_density_uncertainty(density, &d, &relative, err));
	write_uncertainty(out, relative);
	return ERR_NONE;
}

static enum err_code
read_volume(const struct calc_in *in, struct lab_density *d, struct err *err)
{
	bool given = calc_has(in, "volume"), sides = calc_has(in, "length");
	bool water = calc_has(in, "mass_in_water");

	if (given + sides + water != 1)
		return err_report(err, ERR_INPUT, calc_path(in, "volume"),
			"give exactly one of volume, length with width and "
			"height, and mass_in_water; %d were given.",
			given + sides + water);
	d->by = given   ? LAB_VOLUME_GIVEN
		: sides ? LAB_VOLUME_SIDES
			: LAB_VOLUME_IN_WATER;
	d->water.kg_m3 = lab_weighing_water_kg_m3;
	if (given)
		return calc_read_quantity(in, "volume", UNIT_VOLUME,
			CALC_POSITIVE, &d->volume.m3, err);
	if (water)
		return calc_read_quantity(in, "mass_in_water", UNIT_MASS,
			CALC_NOT_NEGATIVE, &d->mass_in_water.kg, err);
	TRY(calc_read_quantity(
		in, "length", UNIT_LENGTH, CALC_POSITIVE, &d->length.m, err));
	TRY(calc_read_quantity(
		in, "width", UNIT_LENGTH, CALC_POSITIVE, &d->width.m, err));
	return calc_read_quantity(
		in, "height", UNIT_LENGTH, CALC_POSITIVE, &d->height.m, err);
}

static void
write_known(struct jsonout *json, const char *key, bool known, double value)
{
	jsonout_key(json, key);
	if (known)
		jsonout_number(json, value);
	else
		jsonout_null(json);
}

static enum err_code
run_density(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_density d = {0};
	struct lab_densities got;
	struct jsonout *json = out->json;

	TRY(calc_read_quantity(
		in, "mass", UNIT_MASS, CALC_POSITIVE, &d.mass.kg, err));
	TRY(read_volume(in, &d, err));
	d.has_oven_dry = calc_has(in, "oven_dry_mass");
	d.has_saturated = calc_has(in, "saturated_mass");
	TRY(calc_read_quantity_or(in, "oven_dry_mass", UNIT_MASS, CALC_POSITIVE,
		&d.oven_dry_mass.kg, err));
	TRY(calc_read_quantity_or(in, "saturated_mass", UNIT_MASS,
		CALC_POSITIVE, &d.saturated_mass.kg, err));
	TRY(lab_density(&d, &got, err));
	jsonout_key_quantity(json, "density", got.density.kg_m3, "kg/m3");
	if (got.has_oven_dry) {
		jsonout_key_quantity(json, "oven_dry_density",
			got.oven_dry_density.kg_m3, "kg/m3");
	} else {
		jsonout_key(json, "oven_dry_density");
		jsonout_null(json);
	}
	write_known(
		json, "moisture_content", got.has_oven_dry, got.moisture_ratio);
	write_known(json, "absorption_by_mass", got.has_absorption,
		got.absorption_by_mass_ratio);
	write_known(json, "absorption_by_volume", got.has_absorption,
		got.absorption_by_volume_ratio);
	TRY(density_uncertainty(in, out, &d, err));
	calc_source(out,
		"mass / volume (derived); in water ASTM "
		"C567/C567M-11, eq. 1, water at 997 kg/m3; absorption "
		"as ASTM C796 reports it");
	return ERR_NONE;
}

const struct calc_entry calc_density = {
	.name = "density",
	.line = "density, moisture and water taken up by one piece",
	.key = density_keys,
	.n_key = COUNT(density_keys),
	.example = "{\"mass\": \"3.05 kg\", \"length\": \"700 mm\", \"width\": "
		   "\"100 mm\", \"height\": \"73.9 mm\", \"oven_dry_mass\": "
		   "\"2.86 kg\"}",
	.run = run_density,
};

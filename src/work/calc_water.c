/* calc_water.c - water drawn up, shrinkage, frost, screws, the hot box. */
#include "work/calc_priv.h"

#include "choose/screening.h"
#include "lab/frost.h"
#include "lab/hot_box.h"
#include "lab/rise.h"
#include "lab/screw.h"
#include "lab/shrinkage.h"

#include <math.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* ---- rise ---- */

static const struct calc_key rise_keys[] = {
	{"readings", "array of objects", NULL,
		"{t, mass} in order of time, the first before the water; at "
		"least three"},
	{"face", "area", NULL, "of the face in the water"},
};

static enum err_code
read_weighings(const struct calc_in *in, struct lab_rise *rise, struct err *err)
{
	static const char *const keys[] = {"t", "mass"};
	const struct calc_in *object;
	struct lab_rise_reading *reading;

	TRY(calc_read_objects(
		in, "readings", 3, &object, &rise->n_reading, err));
	reading = arena_take(in->arena, rise->n_reading, sizeof *reading);
	if (reading == NULL)
		return err_memory(err);
	for (size_t i = 0; i < rise->n_reading; i++) {
		const struct calc_field field[] = {
			{"t", UNIT_TIME, CALC_NOT_NEGATIVE, true,
				&reading[i].at.s},
			{"mass", UNIT_MASS, CALC_POSITIVE, true,
				&reading[i].mass.kg},
		};

		TRY(calc_only(&object[i], keys, COUNT(keys), err));
		TRY(calc_read_fields(&object[i], field, COUNT(field), err));
	}
	rise->reading = reading;
	return ERR_NONE;
}

static enum err_code
run_rise(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_rise rise = {.n_reading = 0};
	struct jsonout *json = out->json;
	struct lab_risen got;

	TRY(read_weighings(in, &rise, err));
	TRY(calc_read_quantity(
		in, "face", UNIT_AREA, CALC_POSITIVE, &rise.face.m2, err));
	TRY(lab_rise(in->arena, &rise, &got, err));
	jsonout_key_quantity(
		json, "sorptivity", got.sorptivity_m_per_root_s, "m/s^0.5");
	jsonout_key_quantity(
		json, "standard_error", got.standard_error, "m/s^0.5");
	jsonout_key_quantity(json, "absorption_coefficient",
		got.water_kg_m2_root_s, "kg/(m2 s^0.5)");
	jsonout_key_quantity(json, "offset", got.offset.m, "m");
	jsonout_key_number(json, "r_squared", got.r_squared);
	jsonout_key_quantity(json, "taken_up", got.total.kg, "kg");
	calc_source(out,
		"ASTM C1585, water over face against the root of "
		"time; coefficient in the units of ISO 15148");
	calc_note(out,
		"One straight line over all readings given: give those "
		"of the first six hours for the initial rate.");
	return ERR_NONE;
}

const struct calc_entry calc_rise = {
	.name = "rise",
	.line = "how fast water is drawn up from below",
	.key = rise_keys,
	.n_key = COUNT(rise_keys),
	.example = "{\"readings\": [{\"t\": 0, \"mass\": \"613.2 g\"}, {\"t\": "
		   "\"10 min\", \"mass\": \"618.9 g\"}, {\"t\": \"1 h\", "
		   "\"mass\": \"626.1 g\"}, {\"t\": \"4 h\", \"mass\": "
		   "\"639.4 g\"}], \"face\": \"101 cm2\"}",
	.run = run_rise,
};

/* ---- shrinkage ---- */

static const struct calc_key shrinkage_keys[] = {
	{"gauge", "length", NULL, "between the marks at first"},
	{"change", "length", NULL, "now less first; below 0 when shorter"},
	{"first_temperature", "temperature", "none", "of the bar at first"},
	{"temperature", "temperature", "none", "of the bar now"},
	{"division", "length", "0", "of the calliper"},
};

static enum err_code
run_shrinkage(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_shrinkage s = {.gauge = {0}};
	const struct calc_field field[] = {
		{"gauge", UNIT_LENGTH, CALC_POSITIVE, true, &s.gauge.m},
		{"change", UNIT_LENGTH, CALC_ANY, true, &s.change.m},
		{"first_temperature", UNIT_TEMPERATURE, CALC_ANY, false,
			&s.first.degC},
		{"temperature", UNIT_TEMPERATURE, CALC_ANY, false, &s.now.degC},
		{"division", UNIT_LENGTH, CALC_NOT_NEGATIVE, false,
			&s.division.m},
	};
	struct lab_shrunk got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	s.has_temperature = calc_has(in, "temperature");
	if (s.has_temperature != calc_has(in, "first_temperature"))
		return calc_refuse(in,
			s.has_temperature ? "first_temperature" : "temperature",
			"both temperatures or neither", err);
	TRY(lab_shrinkage(&s, &got, err));
	jsonout_key_number(out->json, "length_change", got.length_change_ratio);
	jsonout_key_number(out->json, "drying_shrinkage", -got.drying_ratio);
	jsonout_key_number(out->json, "uncertainty", got.uncertainty);
	calc_source(out,
		"ASTM C157/C157M, length change over gauge length; "
		"temperature 10e-6 a kelvin, common practice, no "
		"source");
	calc_note(out,
		"length_change is below 0 when the bar is shorter; "
		"drying_shrinkage is above 0 then, with the part of "
		"the temperature taken off.");
	return ERR_NONE;
}

const struct calc_entry calc_shrinkage = {
	.name = "shrinkage",
	.line = "how much a drying bar has grown shorter",
	.key = shrinkage_keys,
	.n_key = COUNT(shrinkage_keys),
	.example = "{\"gauge\": \"498.6 mm\", \"change\": \"-0.82 mm\", "
		   "\"first_temperature\": \"21 degC\", \"temperature\": \"17 "
		   "degC\", \"division\": \"0.02 mm\"}",
	.run = run_shrinkage,
};

/* ---- frost ---- */

static const struct calc_key frost_keys[] = {
	{"before", "mass", NULL, "of the piece before, dry or wet"},
	{"after", "mass", NULL, "after, dried or wetted alike"},
	{"first_frequency", "number", "none", "in Hz, before"},
	{"frequency", "number", "none", "in Hz, after"},
	{"at_cycle", "whole number", "none", "at which the test ended"},
	{"planned_cycles", "whole number", "300", "of the test"},
};

static enum err_code
write_frequencies(
	const struct calc_in *in, struct calc_out *out, struct err *err)
{
	enum { MOST_CYCLES = 100000 };
	uint64_t at_cycle = 0, planned = 300;
	double first_Hz = 0, now_Hz = 0, ratio, factor;

	TRY(calc_read_number(
		in, "first_frequency", CALC_POSITIVE, &first_Hz, err));
	TRY(calc_read_number(in, "frequency", CALC_POSITIVE, &now_Hz, err));
	TRY(lab_dynamic_ratio(first_Hz, now_Hz, &ratio, err));
	jsonout_key_number(out->json, "relative_dynamic_modulus", ratio);
	if (!calc_has(in, "at_cycle"))
		return ERR_NONE;
	TRY(calc_read_count(in, "at_cycle", 1, MOST_CYCLES, &at_cycle, err));
	TRY(calc_read_count_or(
		in, "planned_cycles", 1, MOST_CYCLES, &planned, err));
	TRY(lab_durability(ratio, at_cycle, planned, &factor, err));
	jsonout_key_number(out->json, "durability_factor", factor);
	return ERR_NONE;
}

static enum err_code
run_frost(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct mass before, after;
	const struct calc_field field[] = {
		{"before", UNIT_MASS, CALC_POSITIVE, true, &before.kg},
		{"after", UNIT_MASS, CALC_POSITIVE, true, &after.kg},
	};
	double loss;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(lab_frost_loss(before, after, &loss, err));
	jsonout_key_number(out->json, "mass_loss", loss);
	if (calc_has(in, "first_frequency") || calc_has(in, "frequency") ||
		calc_has(in, "at_cycle"))
		TRY(write_frequencies(in, out, err));
	calc_source(out,
		"mass loss: common practice, no source; dynamic "
		"modulus and durability factor: ASTM C666");
	calc_note(out,
		"A dry piece passes any number of cycles: say how wet "
		"it was.");
	return ERR_NONE;
}

const struct calc_entry calc_frost = {
	.name = "frost",
	.line = "what freezing and thawing took away",
	.key = frost_keys,
	.n_key = COUNT(frost_keys),
	.example = "{\"before\": \"817 g\", \"after\": \"803 g\", "
		   "\"first_frequency\": 1810, \"frequency\": 1635, "
		   "\"at_cycle\": 25, \"planned_cycles\": 25}",
	.run = run_frost,
};

/* ---- screw ---- */

static const struct calc_key screw_keys[] = {
	{"pulls", "array of objects", NULL,
		"{held, broke_at?}: forces; without broke_at it still held"},
	{"diameter", "length", NULL, "of the thread"},
	{"depth", "length", NULL, "of the thread in the piece"},
	{"safety", "number", "4", "for what a fixing may be given"},
};

static enum err_code
read_pulls(const struct calc_in *in, struct lab_screw *s, struct err *err)
{
	static const char *const keys[] = {"held", "broke_at"};
	const struct calc_in *object;
	struct interval *pull;

	TRY(calc_read_objects(in, "pulls", 1, &object, &s->n_pull, err));
	pull = arena_take(in->arena, s->n_pull, sizeof *pull);
	if (pull == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n_pull; i++) {
		const struct calc_field field[] = {
			{"held", UNIT_FORCE, CALC_NOT_NEGATIVE, true,
				&pull[i].low},
			{"broke_at", UNIT_FORCE, CALC_POSITIVE, false,
				&pull[i].high},
		};

		pull[i].high = (double)INFINITY;
		TRY(calc_only(&object[i], keys, COUNT(keys), err));
		TRY(calc_read_fields(&object[i], field, COUNT(field), err));
		if (pull[i].high < pull[i].low)
			return calc_refuse(&object[i], "broke_at",
				"a force not below the one it held", err);
	}
	s->pull_N = pull;
	return ERR_NONE;
}

static enum err_code
run_screw(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_screw s = {.safety = lab_screw_safety};
	const struct calc_field field[] = {
		{"diameter", UNIT_LENGTH, CALC_POSITIVE, true, &s.diameter.m},
		{"depth", UNIT_LENGTH, CALC_POSITIVE, true, &s.depth.m},
	};
	struct lab_screwed got;

	TRY(read_pulls(in, &s, err));
	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(calc_read_number_or(in, "safety", CALC_POSITIVE, &s.safety, err));
	TRY(lab_screw(&s, &got, err));
	jsonout_key_interval(
		out->json, "weakest", got.least_N.low, got.least_N.high, "N");
	jsonout_key_interval(
		out->json, "shear", got.shear_Pa.low, got.shear_Pa.high, "Pa");
	jsonout_key_quantity(out->json, "working_load", got.working.N, "N");
	calc_source(out,
		"mean shear on the cylinder of the thread (derived); "
		"safety common practice, no source");
	if (s.n_pull < 5)
		calc_note(out,
			"Five screws are advised: the weakest of fewer "
			"says little.");
	calc_note(out,
		"Loads that come and go loosen screws; for anything "
		"heavy or overhead ask an engineer.");
	return ERR_NONE;
}

const struct calc_entry calc_screw = {
	.name = "screw",
	.line = "screws pulled out, and what a fixing may be given",
	.key = screw_keys,
	.n_key = COUNT(screw_keys),
	.example = "{\"pulls\": [{\"held\": \"420 N\", \"broke_at\": \"450 "
		   "N\"}, {\"held\": \"310 N\", \"broke_at\": \"340 N\"}, "
		   "{\"held\": \"390 N\"}], \"diameter\": \"5 mm\", \"depth\": "
		   "\"47 mm\"}",
	.run = run_screw,
};

/* ---- hot-box ---- */

static const struct calc_key hot_box_keys[] = {
	{"power", "power", NULL, "of the heater, steady"},
	{"leak", "power", "0", "lost otherwise than through the slab"},
	{"area", "area", NULL, "of the slab"},
	{"thickness", "length", NULL, "of the slab"},
	{"warm", "temperature", NULL, "of the warm face"},
	{"cold", "temperature", NULL, "of the cold face"},
};

static enum err_code
run_hot_box(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_hot_box b = {.leak_W = 0};
	const struct calc_field field[] = {
		{"power", UNIT_POWER, CALC_POSITIVE, true, &b.power_W},
		{"leak", UNIT_POWER, CALC_NOT_NEGATIVE, false, &b.leak_W},
		{"area", UNIT_AREA, CALC_POSITIVE, true, &b.area.m2},
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, true, &b.thickness.m},
		{"warm", UNIT_TEMPERATURE, CALC_ANY, true, &b.warm.degC},
		{"cold", UNIT_TEMPERATURE, CALC_ANY, true, &b.cold.degC},
	};
	struct lab_hot_boxed got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(lab_hot_box(&b, &got, err));
	jsonout_key_quantity(
		out->json, "conductivity", got.conductivity.W_mK, "W/(m K)");
	jsonout_key_quantity(
		out->json, "resistance", got.resistance_m2K_W, "m2 K/W");
	jsonout_key_quantity(out->json, "flux", got.flux_W_m2, "W/m2");
	calc_source(out,
		"Fourier's law, as ASTM C1363 and ISO 8990 reduce "
		"their readings");
	calc_note(out,
		"Faces, not air; and a day of steady heat first. The "
		"leak is the largest error: find it with a slab of "
		"known resistance.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_hot_box = {
	.name = "hot-box",
	.line = "heat let through, from a heated box",
	.key = hot_box_keys,
	.n_key = COUNT(hot_box_keys),
	.example = "{\"power\": \"23.7 W\", \"leak\": \"4.1 W\", \"area\": "
		   "\"0.36 m2\", \"thickness\": \"83 mm\", \"warm\": \"41.6 "
		   "degC\", \"cold\": \"10.2 degC\"}",
	.run = run_hot_box,
};

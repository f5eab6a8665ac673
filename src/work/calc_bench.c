/* calc_bench.c - the smaller home tests: stiffness, rigs and what is left. */
#include "work/calc_priv.h"

#include "choose/screening.h"
#include "lab/crush.h"
#include "lab/drop.h"
#include "lab/handling.h"
#include "lab/lever.h"
#include "lab/modulus.h"
#include "lab/toughness.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const char *const loadings[] = {"centre", "third"};

/* ---- modulus ---- */

static const struct calc_key modulus_keys[] = {
	{"loading", "centre or third", NULL, "one load or two"},
	{"span", "length", NULL, "between supports"},
	{"width", "length", NULL, "of the section"},
	{"depth", "length", NULL, "of the section"},
	{"load", "force", NULL, "all of it, before the crack"},
	{"deflection", "length", NULL,
		"of the middle against the supports, not of the rig"},
	{"poisson", "number", "0.2", "Poisson's ratio, for the part of shear"},
	{"shear", "true or false", "true", "add the sag by shear"},
};

static enum err_code
run_modulus(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_modulus m = {.with_shear = true, .poisson_ratio = 0.2};
	const struct calc_field field[] = {
		{"span", UNIT_LENGTH, CALC_POSITIVE, true, &m.span.m},
		{"width", UNIT_LENGTH, CALC_POSITIVE, true, &m.width.m},
		{"depth", UNIT_LENGTH, CALC_POSITIVE, true, &m.depth.m},
		{"load", UNIT_FORCE, CALC_POSITIVE, true, &m.load.N},
		{"deflection", UNIT_LENGTH, CALC_POSITIVE, true,
			&m.deflection.m},
	};
	struct stress got;
	size_t loading = 0;

	TRY(calc_read_choice(
		in, "loading", loadings, COUNT(loadings), &loading, err));
	m.loading = (enum lab_loading)loading;
	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(calc_read_number_or(
		in, "poisson", CALC_NOT_NEGATIVE, &m.poisson_ratio, err));
	TRY(calc_read_bool_or(in, "shear", &m.with_shear, err));
	TRY(lab_modulus(&m, &got, err));
	jsonout_key_quantity(out->json, "modulus", got.Pa, "Pa");
	calc_source(out,
		m.loading == LAB_CENTRE
			? "P L^3/(48 I d) (beam theory); shear by a Timoshenko "
			  "beam, factor 6/5"
			: "23 P L^3/(1296 I d) (beam theory); shear as ASTM "
			  "C1609");
	calc_note(out,
		"Before the crack a beam sags a fraction of a "
		"millimetre: a ruler sees the supports settle, not "
		"this.");
	return ERR_NONE;
}

const struct calc_entry calc_modulus = {
	.name = "modulus",
	.line = "stiffness from the sag of a beam",
	.key = modulus_keys,
	.n_key = COUNT(modulus_keys),
	.example = "{\"loading\": \"third\", \"span\": \"600 mm\", \"width\": "
		   "\"101 mm\", \"depth\": \"74 mm\", \"load\": \"185 N\", "
		   "\"deflection\": \"0.19 mm\"}",
	.run = run_modulus,
};

/* ---- toughness ---- */

static const struct calc_key toughness_keys[] = {
	{"sags", "array of objects", NULL,
		"{deflection, load} in order of the sag, past a 150th of the "
		"span"},
	{"span", "length", NULL, "between supports"},
	{"width", "length", NULL, "of the section"},
	{"depth", "length", NULL, "of the section"},
};

static enum err_code
read_sags(const struct calc_in *in, struct lab_toughness *t, struct err *err)
{
	static const char *const keys[] = {"deflection", "load"};
	const struct calc_in *object;
	struct lab_sag *sag;

	TRY(calc_read_objects(in, "sags", 1, &object, &t->n_sag, err));
	sag = arena_take(in->arena, t->n_sag, sizeof *sag);
	if (sag == NULL)
		return err_memory(err);
	for (size_t i = 0; i < t->n_sag; i++) {
		const struct calc_field field[] = {
			{"deflection", UNIT_LENGTH, CALC_NOT_NEGATIVE, true,
				&sag[i].deflection.m},
			{"load", UNIT_FORCE, CALC_NOT_NEGATIVE, true,
				&sag[i].load.N},
		};

		TRY(calc_only(&object[i], keys, COUNT(keys), err));
		TRY(calc_read_fields(&object[i], field, COUNT(field), err));
	}
	t->sag = sag;
	return ERR_NONE;
}

static enum err_code
run_toughness(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_toughness t = {.n_sag = 0};
	const struct calc_field field[] = {
		{"span", UNIT_LENGTH, CALC_POSITIVE, true, &t.span.m},
		{"width", UNIT_LENGTH, CALC_POSITIVE, true, &t.width.m},
		{"depth", UNIT_LENGTH, CALC_POSITIVE, true, &t.depth.m},
	};
	struct jsonout *json = out->json;
	struct lab_toughened got;

	TRY(read_sags(in, &t, err));
	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(lab_toughness(&t, &got, err));
	jsonout_key_quantity(json, "first_peak", got.f_peak.Pa, "Pa");
	jsonout_key_quantity(json, "residual_600", got.f_600.Pa, "Pa");
	jsonout_key_quantity(json, "residual_150", got.f_150.Pa, "Pa");
	jsonout_key_quantity(json, "energy", got.t_150.J, "J");
	jsonout_key_number(json, "equivalent_ratio", got.r_150_ratio);
	jsonout_key_quantity(
		json, "equivalent_strength", got.equivalent.Pa, "Pa");
	jsonout_key_number(
		json, "residual_ratio", got.f_150.Pa / got.f_peak.Pa);
	calc_source(out,
		"ASTM C1609/C1609M, third-point loading (formulas "
		"from memory); area by trapezoids; equivalent "
		"strength JCI-SF4");
	calc_note(out,
		"Straight lines between the readings: few readings "
		"just after the crack make the energy uncertain.");
	calc_note(out,
		"residual_600 and residual_150 are at a sag of a 600th "
		"and a 150th of the span.");
	return ERR_NONE;
}

const struct calc_entry calc_toughness = {
	.name = "toughness",
	.line = "what a beam still carries after its first crack",
	.key = toughness_keys,
	.n_key = COUNT(toughness_keys),
	.example = "{\"sags\": [{\"deflection\": \"0.4 mm\", \"load\": \"214 "
		   "N\"}, {\"deflection\": \"1.5 mm\", \"load\": \"121 N\"}, "
		   "{\"deflection\": \"6 mm\", \"load\": \"83 N\"}], \"span\": "
		   "\"600 mm\", \"width\": \"101 mm\", \"depth\": \"74 mm\"}",
	.run = run_toughness,
};

/* ---- lever ---- */

static const struct calc_key lever_keys[] = {
	{"hung", "mass", NULL, "on the end"},
	{"arm_hung", "length", NULL, "level, from the pivot"},
	{"arm_piece", "length", NULL, "level, from the pivot"},
	{"beam", "mass", "0", "of the lever itself"},
	{"arm_beam", "length", "0", "of the lever's centre of mass"},
};

static enum err_code
run_lever(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_lever lever = {.hung = {0}};
	const struct calc_field field[] = {
		{"hung", UNIT_MASS, CALC_NOT_NEGATIVE, true, &lever.hung.kg},
		{"arm_hung", UNIT_LENGTH, CALC_POSITIVE, true,
			&lever.arm_hung.m},
		{"arm_piece", UNIT_LENGTH, CALC_POSITIVE, true,
			&lever.arm_piece.m},
		{"beam", UNIT_MASS, CALC_NOT_NEGATIVE, false, &lever.beam.kg},
		{"arm_beam", UNIT_LENGTH, CALC_NOT_NEGATIVE, false,
			&lever.arm_beam.m},
	};
	struct force got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(lab_lever_force(&lever, &got, err));
	jsonout_key_quantity(out->json, "force", got.N, "N");
	jsonout_key_number(
		out->json, "ratio", lever.arm_hung.m / lever.arm_piece.m);
	calc_source(out, "moments about the pivot (derived)");
	calc_note(out,
		"All on one side of the pivot, arms measured level; a "
		"lever that slopes has other arms.");
	calc_note(out, "Catch the lever: it drops when the piece gives way.");
	return ERR_NONE;
}

const struct calc_entry calc_lever = {
	.name = "lever",
	.line = "force of a weighted lever on a piece",
	.key = lever_keys,
	.n_key = COUNT(lever_keys),
	.example = "{\"hung\": \"18.5 kg\", \"arm_hung\": \"1.42 m\", "
		   "\"arm_piece\": \"160 mm\", \"beam\": \"6.3 kg\", "
		   "\"arm_beam\": \"0.78 m\"}",
	.run = run_lever,
};

/* ---- jack ---- */

static const struct calc_key jack_keys[] = {
	{"pressure", "stress", NULL, "as the gauge reads"},
	{"bore", "length", NULL, "of the ram's cylinder"},
	{"zero", "stress", "0", "what the gauge reads with no load"},
	{"rod", "length", "0", "its diameter, on the pulling side"},
	{"friction", "share", "0", "of the force lost; often 3 to 5 %"},
};

static enum err_code
run_jack(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct lab_jack jack = {.rod = {0}};
	const struct calc_field field[] = {
		{"pressure", UNIT_STRESS, CALC_NOT_NEGATIVE, true,
			&jack.pressure.Pa},
		{"bore", UNIT_LENGTH, CALC_POSITIVE, true, &jack.bore.m},
		{"zero", UNIT_STRESS, CALC_NOT_NEGATIVE, false, &jack.zero.Pa},
		{"rod", UNIT_LENGTH, CALC_NOT_NEGATIVE, false, &jack.rod.m},
		{"friction", UNIT_RATIO, CALC_NOT_NEGATIVE, false,
			&jack.friction_ratio},
	};
	struct force got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(lab_jack_force(&jack, &got, err));
	jsonout_key_quantity(out->json, "force", got.N, "N");
	calc_source(out, "pressure times area of the bore (derived)");
	calc_note(out, "Check it once with a load that was weighed.");
	return ERR_NONE;
}

const struct calc_entry calc_jack = {
	.name = "jack",
	.line = "force of a hydraulic jack from its gauge",
	.key = jack_keys,
	.n_key = COUNT(jack_keys),
	.example = "{\"pressure\": \"82.5 bar\", \"zero\": \"2.5 bar\", "
		   "\"bore\": \"40 mm\", \"friction\": \"4 %\"}",
	.run = run_jack,
};

/* ---- blows ---- */

static const struct calc_key blows_keys[] = {
	{"mass", "mass", NULL, "of the bar"},
	{"height", "length", NULL, "of each drop"},
	{"held", "whole number", NULL, "blows after which it still held"},
	{"failed", "true or false", "true", "at the next blow"},
	{"tube_loss", "share", "0", "energy lost in the guide"},
};

static enum err_code
run_blows(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	enum { MOST_BLOWS = 100000 };
	struct lab_blows blows = {.did_fail = true};
	const struct calc_field field[] = {
		{"mass", UNIT_MASS, CALC_POSITIVE, true, &blows.mass.kg},
		{"height", UNIT_LENGTH, CALC_POSITIVE, true, &blows.height.m},
		{"tube_loss", UNIT_RATIO, CALC_NOT_NEGATIVE, false,
			&blows.tube_loss_ratio},
	};
	struct interval got;
	uint64_t held = 0;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(calc_read_count(in, "held", 0, MOST_BLOWS, &held, err));
	TRY(calc_read_bool_or(in, "failed", &blows.did_fail, err));
	blows.n_held = (unsigned)held;
	TRY(lab_blows(&blows, &got, err));
	jsonout_key_interval(out->json, "energy", got.low, got.high, "J");
	calc_source(out, "N m g h, the form of ACI 544.2R (from memory)");
	calc_note(out,
		"The energy lies between that of the blows held and "
		"that of one more.");
	return ERR_NONE;
}

const struct calc_entry calc_blows = {
	.name = "blows",
	.line = "energy of repeated drops until it cracks or goes through",
	.key = blows_keys,
	.n_key = COUNT(blows_keys),
	.example = "{\"mass\": \"2.4 kg\", \"height\": \"450 mm\", \"held\": "
		   "5, \"tube_loss\": \"6 %\"}",
	.run = run_blows,
};

/* ---- handling ---- */

static const struct calc_key handling_keys[] = {
	{"grip", "ends, inner or middle", NULL,
		"held at both ends (or tilted about one), at two points "
		"inside, or in the middle"},
	{"length", "length", NULL, "of the piece"},
	{"width", "length", NULL, "of the section"},
	{"depth", "length", NULL, "of the section, in the way of bending"},
	{"density", "density", NULL, "as it is lifted, with its water"},
	{"jerk", "number", "1.5", "times the weight; 1.2 to 2 is usual"},
	{"inner_share", "number", "0.2071",
		"of the length from each end, with inner"},
	{"strength", "stress", "unknown", "in bending at that age"},
};

static enum err_code
run_handling(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const grips[] = {"ends", "inner", "middle"};
	struct lab_handling h = {
		.jerk = 1.5, .inner_share = lab_equal_moment_share};
	struct stress strength;
	const struct calc_field field[] = {
		{"length", UNIT_LENGTH, CALC_POSITIVE, true, &h.length.m},
		{"width", UNIT_LENGTH, CALC_POSITIVE, true, &h.width.m},
		{"depth", UNIT_LENGTH, CALC_POSITIVE, true, &h.depth.m},
		{"density", UNIT_DENSITY, CALC_POSITIVE, true,
			&h.density.kg_m3},
		{"strength", UNIT_STRESS, CALC_POSITIVE, false, &strength.Pa},
	};
	struct lab_handled got;
	size_t grip = 0;

	TRY(calc_read_choice(in, "grip", grips, COUNT(grips), &grip, err));
	h.grip = (enum lab_grip)grip;
	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(calc_read_number_or(in, "jerk", CALC_POSITIVE, &h.jerk, err));
	TRY(calc_read_number_or(
		in, "inner_share", CALC_POSITIVE, &h.inner_share, err));
	TRY(lab_handling(&h, &got, err));
	jsonout_key_quantity(out->json, "moment", got.moment.N_m, "N m");
	jsonout_key_quantity(out->json, "stress", got.stress.Pa, "Pa");
	if (calc_has(in, "strength"))
		jsonout_key_number(
			out->json, "utilisation", got.stress.Pa / strength.Pa);
	calc_source(out,
		"own weight by statics (derived); jerk factor common "
		"practice, no source");
	calc_note(out,
		"A piece that snapped so had at most this strength at "
		"that age; one that did not had at least it.");
	calc_note(out, "Nobody under or beside a piece that is lifted.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_handling = {
	.name = "handling",
	.line = "stress of a piece lifted under its own weight",
	.key = handling_keys,
	.n_key = COUNT(handling_keys),
	.example = "{\"grip\": \"ends\", \"length\": \"700 mm\", \"width\": "
		   "\"101 mm\", \"depth\": \"74 mm\", \"density\": \"745 "
		   "kg/m3\", \"jerk\": 2}",
	.run = run_handling,
};

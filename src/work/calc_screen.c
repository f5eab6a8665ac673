/* calc_screen.c - "section", "wall" and "form-pressure": screening. */
#include "work/calc_priv.h"

#include "choose/forms.h"
#include "choose/screening.h"
#include "choose/section.h"
#include "choose/wall.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* ---- section ---- */

static const struct calc_key section_keys[] = {
	{"width", "length", NULL, "of the strip looked at"},
	{"depth", "length", NULL, "in the way of bending"},
	{"strength", "stress", NULL, "in bending, from beams of the mix"},
	{"compressive_strength", "stress", "needed with reinforcement",
		"crushing strength"},
	{"reinforcement", "object {area, effective_depth, yield_stress}",
		"none", "effective_depth: from the pressed face to the steel"},
};

static enum err_code
read_reinforcement(
	const struct calc_in *in, struct choose_section *s, struct err *err)
{
	static const char *const keys[] = {
		"area", "effective_depth", "yield_stress"};
	const struct calc_field field[] = {
		{"area", UNIT_AREA, CALC_POSITIVE, true, &s->steel.m2},
		{"effective_depth", UNIT_LENGTH, CALC_POSITIVE, true,
			&s->effective.m},
		{"yield_stress", UNIT_STRESS, CALC_POSITIVE, true,
			&s->yield.Pa},
	};
	struct calc_in object;

	TRY(calc_read_object(in, "reinforcement", &object, err));
	TRY(calc_only(&object, keys, COUNT(keys), err));
	TRY(calc_read_fields(&object, field, COUNT(field), err));
	if (!calc_has(in, "compressive_strength"))
		return calc_refuse(in, "compressive_strength",
			"the crushing strength, needed beside reinforcement",
			err);
	return ERR_NONE;
}

static void
note_section(struct calc_out *out, const struct choose_section *s,
	const struct choose_sectioned *got)
{
	if (!s->has_reinforcement) {
		calc_note(out,
			"Plain: nothing is left when it cracks, and it "
			"falls without warning.");
		return;
	}
	if (got->breaks_at_crack)
		calc_note(out,
			"The steel carries less than what cracks the "
			"panel: it falls at the first crack.");
	if (!got->steel_yields)
		calc_note(out,
			"The top crushes before the steel yields: it "
			"gives no warning, and more steel adds little.");
	else if (!got->is_ductile)
		calc_note(out,
			"The steel yields only shortly before the top "
			"crushes (ACI 318-19, 21.2.2 asks for more).");
	calc_note(out,
		"Bond is not checked: in weak foamed concrete wires "
		"mostly slip before they carry this. Test a beam with "
		"the mesh.");
	calc_note(out,
		"The stress block is meant for 17 MPa and more; for "
		"foamed concrete it is carried beyond its range.");
}

static enum err_code
run_section(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct choose_section s = {.has_reinforcement = false};
	const struct calc_field field[] = {
		{"width", UNIT_LENGTH, CALC_POSITIVE, true, &s.width.m},
		{"depth", UNIT_LENGTH, CALC_POSITIVE, true, &s.depth.m},
		{"strength", UNIT_STRESS, CALC_POSITIVE, true, &s.strength.Pa},
		{"compressive_strength", UNIT_STRESS, CALC_POSITIVE, false,
			&s.compressive.Pa},
	};
	struct choose_sectioned got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	s.has_reinforcement = calc_has(in, "reinforcement");
	if (s.has_reinforcement)
		TRY(read_reinforcement(in, &s, err));
	TRY(choose_section(&s, &got, err));
	jsonout_key_quantity(
		out->json, "cracking_moment", got.cracking.N_m, "N m");
	jsonout_key_quantity(
		out->json, "ultimate_moment", got.ultimate.N_m, "N m");
	jsonout_key_quantity(
		out->json, "after_crack_moment", got.after_crack.N_m, "N m");
	jsonout_key_number(
		out->json, "after_crack_ratio", got.after_crack_ratio);
	if (s.has_reinforcement) {
		jsonout_key_quantity(
			out->json, "stress_block", got.block.m, "m");
		jsonout_key_number(out->json, "steel_strain", got.steel_strain);
		jsonout_key_bool(out->json, "steel_yields", got.steel_yields);
	}
	calc_source(out,
		s.has_reinforcement
			? "cracking: ACI 318-19, 24.2.3.5, with the strength "
			  "given; ultimate: ACI 318-19, 22.2"
			: "6 M/(b h^2), elastic (derived); ACI 318-19, "
			  "24.2.3.5");
	note_section(out, &s, &got);
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_section = {
	.name = "section",
	.line = "what cracks a panel and what it carries at the end",
	.key = section_keys,
	.n_key = COUNT(section_keys),
	.example = "{\"width\": \"1 m\", \"depth\": \"120 mm\", \"strength\": "
		   "\"0.46 MPa\", \"compressive_strength\": \"2.1 MPa\", "
		   "\"reinforcement\": {\"area\": \"84 mm2\", "
		   "\"effective_depth\": \"95 mm\", \"yield_stress\": \"420 "
		   "MPa\"}}",
	.run = run_section,
};

/* ---- wall ---- */

static const struct calc_key wall_keys[] = {
	{"height", "length", NULL, "between where foot and head are held"},
	{"thickness", "length", NULL, "of what carries, without skins"},
	{"strength", "stress", NULL, "crushing strength"},
	{"density", "density", NULL, "as it stands in the wall"},
	{"load", "force per length", NULL, "of roof or floor on a metre"},
	{"wind", "stress", "0", "pressure or suction on the face"},
	{"safety_factor", "number", "3", "on the strength"},
	{"bending_strength", "stress", "a tenth of strength",
		"from beams of the mix"},
};

static void
write_wall(struct jsonout *json, const struct choose_walled *got)
{
	jsonout_key_number(json, "slenderness", got->slenderness);
	jsonout_key_quantity(json, "axial_stress", got->axial.Pa, "Pa");
	jsonout_key_quantity(json, "axial_stress_at_half_height",
		got->axial_middle.Pa, "Pa");
	jsonout_key_quantity(json, "bending_stress", got->bending.Pa, "Pa");
	jsonout_key_quantity(json, "net_tension", got->net_tension.Pa, "Pa");
	jsonout_key_number(json, "slenderness_factor", got->capacity_ratio);
	jsonout_key_number(
		json, "crushing_utilisation", got->crushing_utilisation);
	jsonout_key_number(
		json, "tension_utilisation", got->tension_utilisation);
	jsonout_key_number(json, "utilisation", got->utilisation);
}

static void
note_wall(struct calc_out *out, const struct choose_wall *w,
	const struct choose_walled *got)
{
	if (got->utilisation > 1)
		calc_note(out,
			"Used up more than once over: this wall does "
			"not pass the screen.");
	if (got->tension_governs)
		calc_note(out, "Tension by wind governs, not crushing.");
	if (got->too_slender)
		calc_note(out,
			"Height over thickness is above 27, the most "
			"that EN 1996-1-1, 5.5.1.4 allows.");
	if (!w->has_bending_strength)
		calc_note(out,
			"The bending strength is taken as a tenth of "
			"the crushing strength (common practice, no "
			"source); give bending_strength from beams.");
	calc_note(out,
		"axial_stress is at the foot, bending_stress at half "
		"height; wall held at foot and head, load in the "
		"middle of its thickness.");
	calc_note(out,
		"Openings, corners, buckling by creep, earthquake and "
		"an uplifted roof are not in it.");
}

static enum err_code
run_wall(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct choose_wall w = {.safety = choose_wall_safety};
	const struct calc_field field[] = {
		{"height", UNIT_LENGTH, CALC_POSITIVE, true, &w.height.m},
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, true, &w.thickness.m},
		{"strength", UNIT_STRESS, CALC_POSITIVE, true, &w.strength.Pa},
		{"density", UNIT_DENSITY, CALC_POSITIVE, true,
			&w.density.kg_m3},
		{"load", UNIT_FORCE_PER_LENGTH, CALC_NOT_NEGATIVE, true,
			&w.load_N_m},
		{"wind", UNIT_STRESS, CALC_NOT_NEGATIVE, false, &w.wind.Pa},
		{"bending_strength", UNIT_STRESS, CALC_POSITIVE, false,
			&w.bending_strength.Pa},
	};
	struct choose_walled got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(calc_read_number_or(
		in, "safety_factor", CALC_POSITIVE, &w.safety, err));
	w.has_bending_strength = calc_has(in, "bending_strength");
	TRY(choose_wall(&w, &got, err));
	write_wall(out->json, &got);
	calc_source(out,
		"statics (derived); slenderness as TMS 402-16, "
		"8.2.4.1; safety factor common practice, no source");
	note_wall(out, &w, &got);
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_wall = {
	.name = "wall",
	.line = "stress in a wall by weight, roof and wind",
	.key = wall_keys,
	.n_key = COUNT(wall_keys),
	.example = "{\"height\": \"2.45 m\", \"thickness\": \"210 mm\", "
		   "\"strength\": \"1.7 MPa\", \"density\": \"640 kg/m3\", "
		   "\"load\": \"6.2 kN/m\", \"wind\": \"0.8 kN/m2\", "
		   "\"bending_strength\": \"0.31 MPa\"}",
	.run = run_wall,
};

/* ---- form-pressure ---- */

static const struct calc_key form_keys[] = {
	{"density", "density", NULL, "of the wet mix"},
	{"lift_height", "length", NULL, "poured before it sets"},
};

static enum err_code
run_form_pressure(
	const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct choose_forms f;
	const struct calc_field field[] = {
		{"density", UNIT_DENSITY, CALC_POSITIVE, true,
			&f.density.kg_m3},
		{"lift_height", UNIT_LENGTH, CALC_POSITIVE, true,
			&f.lift_height.m},
	};
	struct choose_formed got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(choose_forms(&f, &got, err));
	jsonout_key_quantity(out->json, "pressure", got.pressure.Pa, "Pa");
	jsonout_key_quantity(out->json, "thrust", got.thrust_N_m, "N/m");
	jsonout_key_quantity(out->json, "acts_at", got.acts_at.m, "m");
	calc_source(out, "full fluid head, ACI 347R-14, eq. 2.1 (statics)");
	calc_note(out,
		"Full head until it sets: lower published pressures are "
		"for stiff mixes and are not used. pressure is at the "
		"foot; thrust on a metre of form acts at a third.");
	calc_note(out,
		"A form that gives way buries who stands beside it: "
		"keep clear while pouring.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_form_pressure = {
	.name = "form-pressure",
	.line = "how hard a lift of fluid mix presses on its forms",
	.key = form_keys,
	.n_key = COUNT(form_keys),
	.example = "{\"density\": \"720 kg/m3\", \"lift_height\": \"0.55 m\"}",
	.run = run_form_pressure,
};

/* calc_shell.c - "dome", "vault", "slab" and "lintel": more screening. */
#include "work/calc_priv.h"

#include "choose/ground.h"
#include "choose/lintel.h"
#include "choose/screening.h"
#include "choose/shell.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* ---- dome ---- */

static const struct calc_key dome_keys[] = {
	{"radius", "length", NULL, "to the middle of the shell"},
	{"thickness", "length", NULL, "of the shell"},
	{"density", "density", NULL, "as it stands"},
	{"angle", "angle", "90 deg",
		"from the crown down to where it is asked; the foot of a half "
		"sphere is at 90 deg"},
};

static enum err_code
run_dome(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct choose_dome d = {.angle_rad = 1.57079632679489661923};
	const struct calc_field field[] = {
		{"radius", UNIT_LENGTH, CALC_POSITIVE, true, &d.radius.m},
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, true, &d.thickness.m},
		{"density", UNIT_DENSITY, CALC_POSITIVE, true,
			&d.density.kg_m3},
		{"angle", UNIT_ANGLE, CALC_NOT_NEGATIVE, false, &d.angle_rad},
	};
	struct jsonout *json = out->json;
	struct choose_domed got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(choose_dome(&d, &got, err));
	jsonout_key_quantity(json, "weight", got.weight_Pa, "Pa");
	jsonout_key_quantity(json, "meridian_force", got.along_N_m, "N/m");
	jsonout_key_quantity(json, "hoop_force", got.hoop_N_m, "N/m");
	jsonout_key_quantity(json, "meridian_stress", got.along.Pa, "Pa");
	jsonout_key_quantity(json, "hoop_stress", got.hoop.Pa, "Pa");
	jsonout_key_quantity(json, "ring_tension", got.ring.N, "N");
	jsonout_key_quantity(json, "tension_below", got.turn_rad, "rad");
	calc_source(out,
		"membrane theory: Timoshenko and Woinowsky-Krieger, "
		"Theory of Plates and Shells, ch. 14");
	calc_note(out,
		"Tension is above 0. Below 51.8 degrees from the crown "
		"the hoops pull: that tension needs steel, plain foamed "
		"concrete must not be trusted with it.");
	if (got.is_thick)
		calc_note(out,
			"Thicker than a twentieth of the radius: the "
			"theory of thin shells is strained.");
	calc_note(out,
		"Own weight only, no opening, no wind; the foot bends "
		"where it is held.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_dome = {
	.name = "dome",
	.line = "forces of a half sphere under its own weight",
	.key = dome_keys,
	.n_key = COUNT(dome_keys),
	.example = "{\"radius\": \"3.2 m\", \"thickness\": \"140 mm\", "
		   "\"density\": \"780 kg/m3\", \"angle\": \"75 deg\"}",
	.run = run_dome,
};

/* ---- vault ---- */

static const struct calc_key vault_keys[] = {
	{"radius", "length", NULL, "to the middle of the shell"},
	{"thickness", "length", NULL, "of the shell"},
	{"length", "length", NULL, "between stiff end walls"},
	{"density", "density", NULL, "as it stands"},
	{"angle", "angle", "0 deg", "from the crown"},
	{"from_middle", "length", "0", "along the vault"},
};

static enum err_code
run_vault(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct choose_vault v = {.angle_rad = 0};
	const struct calc_field field[] = {
		{"radius", UNIT_LENGTH, CALC_POSITIVE, true, &v.radius.m},
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, true, &v.thickness.m},
		{"length", UNIT_LENGTH, CALC_POSITIVE, true, &v.length.m},
		{"density", UNIT_DENSITY, CALC_POSITIVE, true,
			&v.density.kg_m3},
		{"angle", UNIT_ANGLE, CALC_NOT_NEGATIVE, false, &v.angle_rad},
		{"from_middle", UNIT_LENGTH, CALC_NOT_NEGATIVE, false,
			&v.from_middle.m},
	};
	struct jsonout *json = out->json;
	struct choose_vaulted got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(choose_vault(&v, &got, err));
	jsonout_key_quantity(json, "weight", got.weight_Pa, "Pa");
	jsonout_key_quantity(json, "force_around", got.around_N_m, "N/m");
	jsonout_key_quantity(json, "force_along", got.along_N_m, "N/m");
	jsonout_key_quantity(json, "shear_force", got.shear_N_m, "N/m");
	jsonout_key_quantity(json, "stress_around", got.around.Pa, "Pa");
	jsonout_key_quantity(json, "stress_along", got.along.Pa, "Pa");
	jsonout_key_number(
		json, "arch_least_thickness_ratio", choose_least_arch);
	jsonout_key_number(json, "thickness_ratio", v.thickness.m / v.radius.m);
	calc_source(out,
		"membrane theory: Timoshenko and Woinowsky-Krieger, "
		"Theory of Plates and Shells, ch. 15; least arch: "
		"Milankovitch 1907");
	calc_note(out,
		"Tension is above 0. Half a circle between two stiff "
		"end walls, own weight only; the straight edges need "
		"beams that take up the shear.");
	if (v.thickness.m / v.radius.m < choose_least_arch)
		calc_note(out,
			"Where the long edges carry it instead, each "
			"metre is a half-circle arch, and thinner than "
			"0.1075 of the radius that does not stand "
			"without tension.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_vault = {
	.name = "vault",
	.line = "forces of a barrel vault under its own weight",
	.key = vault_keys,
	.n_key = COUNT(vault_keys),
	.example = "{\"radius\": \"2.3 m\", \"thickness\": \"110 mm\", "
		   "\"length\": \"5.7 m\", \"density\": \"740 kg/m3\"}",
	.run = run_vault,
};

/* ---- slab ---- */

static const struct calc_key slab_keys[] = {
	{"load", "force", NULL, "on one leg or wheel"},
	{"radius", "length", NULL, "of the circle it presses on"},
	{"thickness", "length", NULL, "of the slab"},
	{"modulus", "stress", NULL, "of elasticity of the slab"},
	{"ground", "object {pressure, sinks}", NULL,
		"a plate pressed on the ground: pressure and how far it sinks"},
	{"poisson", "number", "0.2", "Poisson's ratio of the slab"},
	{"strength", "stress", "unknown", "of the slab in bending"},
};

static enum err_code
read_ground(const struct calc_in *in, struct choose_ground *g, struct err *err)
{
	static const char *const keys[] = {"pressure", "sinks"};
	struct stress pressure;
	struct length sinks;
	const struct calc_field field[] = {
		{"pressure", UNIT_STRESS, CALC_POSITIVE, true, &pressure.Pa},
		{"sinks", UNIT_LENGTH, CALC_POSITIVE, true, &sinks.m},
	};
	struct calc_in object;

	TRY(calc_read_object(in, "ground", &object, err));
	TRY(calc_only(&object, keys, COUNT(keys), err));
	TRY(calc_read_fields(&object, field, COUNT(field), err));
	g->subgrade_Pa_m = pressure.Pa / sinks.m;
	return ERR_NONE;
}

static enum err_code
run_slab(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct choose_ground g = {.poisson_ratio = 0.2};
	struct stress strength;
	const struct calc_field field[] = {
		{"load", UNIT_FORCE, CALC_POSITIVE, true, &g.load.N},
		{"radius", UNIT_LENGTH, CALC_POSITIVE, true, &g.radius.m},
		{"thickness", UNIT_LENGTH, CALC_POSITIVE, true, &g.thickness.m},
		{"modulus", UNIT_STRESS, CALC_POSITIVE, true, &g.modulus.Pa},
		{"strength", UNIT_STRESS, CALC_POSITIVE, false, &strength.Pa},
	};
	struct jsonout *json = out->json;
	struct choose_grounded got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(read_ground(in, &g, err));
	TRY(calc_read_number_or(
		in, "poisson", CALC_NOT_NEGATIVE, &g.poisson_ratio, err));
	TRY(choose_ground(&g, &got, err));
	jsonout_key_quantity(json, "inside_stress", got.inside.Pa, "Pa");
	jsonout_key_quantity(json, "inside_sag", got.inside_sag.m, "m");
	jsonout_key_quantity(json, "corner_stress", got.corner.Pa, "Pa");
	jsonout_key_quantity(json, "corner_sag", got.corner_sag.m, "m");
	jsonout_key_quantity(json, "stiffness_radius", got.stiffness.m, "m");
	if (calc_has(in, "strength"))
		jsonout_key_number(json, "utilisation",
			(got.inside.Pa > got.corner.Pa ? got.inside.Pa
						       : got.corner.Pa) /
				strength.Pa);
	calc_source(out,
		"Westergaard 1926; Ioannides et al. 1985; Huang, "
		"Pavement Analysis and Design, ch. 4");
	calc_note(out,
		"A large plain slab that lies full on even ground, no "
		"shrinkage, one load; without a safety factor.");
	calc_note(out,
		"The leg also dents the top: crushing under a small "
		"foot is another check.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_slab = {
	.name = "slab",
	.line = "a slab on the ground under a leg or a wheel",
	.key = slab_keys,
	.n_key = COUNT(slab_keys),
	.example = "{\"load\": \"4.8 kN\", \"radius\": \"52 mm\", "
		   "\"thickness\": \"110 mm\", \"modulus\": \"1.9 GPa\", "
		   "\"ground\": {\"pressure\": \"30 kPa\", \"sinks\": \"1 "
		   "mm\"}, \"strength\": \"0.9 MPa\"}",
	.run = run_slab,
};

/* ---- lintel ---- */

static const struct calc_key lintel_keys[] = {
	{"span", "length", NULL, "of the opening and half of each bearing"},
	{"width", "length", NULL, "the wall's thickness"},
	{"depth", "length", NULL, "of the lintel"},
	{"density", "density", NULL, "of the lintel"},
	{"strength", "stress", NULL, "of the lintel in bending"},
	{"wall_density", "density", "no wall", "above it"},
	{"wall_height", "length", "0", "above it, where it does not arch"},
	{"arches", "true or false", "false",
		"only a 45-degree triangle of wall bears on it"},
	{"load", "force per length", "0", "of floor or roof"},
	{"safety_factor", "number", "3", "on the strength"},
};

static enum err_code
run_lintel(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct choose_lintel l = {.safety = 3};
	const struct calc_field field[] = {
		{"span", UNIT_LENGTH, CALC_POSITIVE, true, &l.span.m},
		{"width", UNIT_LENGTH, CALC_POSITIVE, true, &l.width.m},
		{"depth", UNIT_LENGTH, CALC_POSITIVE, true, &l.depth.m},
		{"density", UNIT_DENSITY, CALC_POSITIVE, true,
			&l.density.kg_m3},
		{"strength", UNIT_STRESS, CALC_POSITIVE, true, &l.strength.Pa},
		{"wall_density", UNIT_DENSITY, CALC_POSITIVE, false,
			&l.wall.kg_m3},
		{"wall_height", UNIT_LENGTH, CALC_NOT_NEGATIVE, false,
			&l.wall_height.m},
		{"load", UNIT_FORCE_PER_LENGTH, CALC_NOT_NEGATIVE, false,
			&l.load_N_m},
	};
	struct choose_lintelled got;

	TRY(calc_read_fields(in, field, COUNT(field), err));
	TRY(calc_read_bool_or(in, "arches", &l.arches, err));
	TRY(calc_read_number_or(
		in, "safety_factor", CALC_POSITIVE, &l.safety, err));
	TRY(choose_lintel(&l, &got, err));
	jsonout_key_quantity(out->json, "moment", got.moment.N_m, "N m");
	jsonout_key_quantity(out->json, "shear", got.shear.N, "N");
	jsonout_key_quantity(out->json, "bending_stress", got.bending.Pa, "Pa");
	jsonout_key_number(out->json, "utilisation", got.utilisation);
	calc_source(out,
		"simply supported beam, w L^2/8 + W L/6 (statics); "
		"safety factor common practice, no source");
	calc_note(out,
		"A plain lintel falls when it cracks: reinforce every "
		"lintel, and check it with section.");
	if (l.arches)
		calc_note(out,
			"The wall arches only with wall above the "
			"triangle's top and at both sides.");
	calc_note(out, choose_screening_only);
	return ERR_NONE;
}

const struct calc_entry calc_lintel = {
	.name = "lintel",
	.line = "bending of a beam over an opening",
	.key = lintel_keys,
	.n_key = COUNT(lintel_keys),
	.example = "{\"span\": \"1.15 m\", \"width\": \"210 mm\", \"depth\": "
		   "\"260 mm\", \"density\": \"1180 kg/m3\", \"strength\": "
		   "\"0.9 MPa\", \"wall_density\": \"640 kg/m3\", \"arches\": "
		   "true, \"load\": \"2.1 kN/m\"}",
	.run = run_lintel,
};

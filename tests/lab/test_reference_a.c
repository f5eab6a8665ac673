/* test_reference_a.c - the rows of trade-a.csv (proportions, tests, age, strength
 * and density) that functions of ours compute.
 *
 * To turn rows on, put a function where the reason stands and move the counts
 * at the end. */
#include "reference.h"
#include "support.h"

#include "choose/conductivity.h"
#include "lab/crush.h"
#include "lab/density.h"
#include "lab/drop.h"
#include "lab/flexure.h"
#include "mix/yield.h"

#include <math.h>
#include <string.h>

static double
in(const struct asked *q, const char *key, enum unit_kind kind)
{
	return reference_input(q->row, key, kind);
}

static double
length(const struct asked *q, const char *key)
{
	return in(q, key, UNIT_LENGTH);
}

/* ---- proportioning ---- */

static struct mix_part
part(const char *name, enum mix_role role, double mass_kg, double particle)
{
	return (struct mix_part){.name = name,
		.role = role,
		.mass = {mass_kg},
		.has_particle_density = true,
		.particle_density = {particle}};
}

static struct mix_proportioned
proportioned(const struct asked *q, struct mix_proportion *ask)
{
	struct mix_proportioned got;

	ask->foam_survival_ratio = 1;
	ask->bound_water_ratio = mix_bound_water_ratio;
	assert_ok(mix_proportion(q->f->a, ask, &got, &q->f->err), &q->f->err);
	return got;
}

/* MIX: masses for 1 m3, foam fills it up. */
static struct mix_proportioned
filled_up(const struct asked *q)
{
	static const struct {
		const char *mass, *particle;
		enum mix_role role;
	} what[] = {{"cement", "rho_cement", MIX_CEMENT},
		{"water", "rho_water", MIX_WATER},
		{"sand", "rho_sand", MIX_SAND},
		{"flyash", "rho_flyash", MIX_FILLER}};
	struct mix_part parts[4];
	struct mix_proportion ask = {.part = parts,
		.foam = {in(q, "rho_foam", UNIT_DENSITY)},
		.aim = MIX_AIM_BATCH_VOLUME,
		.batch_volume = {1}};

	for (size_t i = 0; i < sizeof what / sizeof what[0]; i++) {
		double kg_per_m3 = in(q, what[i].mass, UNIT_DENSITY);

		if (kg_per_m3 > 0)
			parts[ask.n_part++] = part(what[i].mass, what[i].role,
				kg_per_m3,
				in(q, what[i].particle, UNIT_DENSITY));
	}
	return proportioned(q, &ask);
}

static double
mix_foam_volume(const struct asked *q)
{
	return filled_up(q).foam_volume.m3;
}

static double
mix_foam_mass(const struct asked *q)
{
	return filled_up(q).foam_mass.kg;
}

static double
mix_wet_density(const struct asked *q)
{
	return filled_up(q).wet_density.kg_m3;
}

static double
mix_air(const struct asked *q)
{
	return filled_up(q).air_fraction;
}

static double
mix_dry_density(const struct asked *q)
{
	return filled_up(q).oven_dry_density.kg_m3;
}

/* TGT and the misread C796: cement, water and sand by ratio, foam to a wet
 * density. */
static struct mix_proportioned
to_wet_density(const struct asked *q)
{
	double cement = reference_has(q->row, "cement")
		? in(q, "cement", UNIT_MASS)
		: 1;
	double sand = reference_has(q->row, "s_c")
		? cement * in(q, "s_c", UNIT_NUMBER)
		: 0;
	const struct mix_part parts[] = {
		part("cement", MIX_CEMENT, cement,
			in(q, "rho_cement", UNIT_DENSITY)),
		part("water", MIX_WATER, cement * in(q, "w_c", UNIT_NUMBER),
			in(q, "rho_water", UNIT_DENSITY)),
		part("sand", MIX_SAND, sand,
			sand > 0 ? in(q, "rho_sand", UNIT_DENSITY) : 1)};
	struct mix_proportion ask = {.part = parts,
		.n_part = sand > 0 ? 3 : 2,
		.foam = {in(q, "rho_foam", UNIT_DENSITY)},
		.aim = MIX_AIM_WET_DENSITY,
		.wet_density = {reference_has(q->row, "target_wet")
				? in(q, "target_wet", UNIT_DENSITY)
				: in(q, "wet_target", UNIT_DENSITY)}};

	return proportioned(q, &ask);
}

static double
target_foam_volume(const struct asked *q)
{
	return to_wet_density(q).foam_volume.m3;
}

static double
target_volume(const struct asked *q)
{
	return to_wet_density(q).volume.m3;
}

static double
target_cement(const struct asked *q)
{
	return to_wet_density(q).per_m3[0].kg;
}

static double
target_dry_density(const struct asked *q)
{
	return to_wet_density(q).oven_dry_density.kg_m3;
}

/* C796: the ratio counts the foam's liquid, so the mixing water is what makes
 * it so.  The total ratio is linear in the mixing water: two tries find it. */
static struct mix_proportioned
to_total_water(const struct asked *q)
{
	double ratio = in(q, "w_c", UNIT_NUMBER);
	double cement = in(q, "wet", UNIT_DENSITY) / (1 + ratio);
	bool has = reference_has(q->row, "rho_foam");
	double water[3] = {0.25 * cement, 0.5 * cement, 0}, total[2];
	struct mix_proportioned got;

	for (size_t i = 0; i < 3; i++) {
		const struct mix_part parts[] = {
			part("cement", MIX_CEMENT, cement,
				has ? in(q, "rho_cement", UNIT_DENSITY) : 3150),
			part("water", MIX_WATER, water[i],
				has ? in(q, "rho_water", UNIT_DENSITY) : 1000)};
		struct mix_proportion ask = {.part = parts,
			.n_part = 2,
			.foam = {has ? in(q, "rho_foam", UNIT_DENSITY) : 50},
			.aim = MIX_AIM_BATCH_VOLUME,
			.batch_volume = {1}};

		got = proportioned(q, &ask);
		if (i < 2)
			total[i] = got.total_water_cement_ratio;
		if (i == 1)
			water[2] = water[0] +
				(ratio - total[0]) * (water[1] - water[0]) /
					(total[1] - total[0]);
	}
	assert_near(
		got.wet_density.kg_m3, in(q, "wet", UNIT_DENSITY), 1e-12, 0);
	return got;
}

static double
total_dry_density(const struct asked *q)
{
	return to_total_water(q).oven_dry_density.kg_m3;
}

static double
total_foam_volume(const struct asked *q)
{
	return to_total_water(q).foam_volume.m3;
}

static double
total_mixing_water(const struct asked *q)
{
	return to_total_water(q).per_m3[1].kg;
}

static double
total_ratio(const struct asked *q)
{
	const struct mix_part parts[] = {
		part("cement", MIX_CEMENT, in(q, "cement", UNIT_MASS), 3150),
		part("water", MIX_WATER, in(q, "water", UNIT_MASS), 1000)};
	struct mix_proportion ask = {.part = parts,
		.n_part = 2,
		.foam = {in(q, "rho_foam", UNIT_DENSITY)},
		.aim = MIX_AIM_FOAM_VOLUME,
		.foam_volume = {in(q, "foam_volume", UNIT_VOLUME)}};

	return proportioned(q, &ask).total_water_cement_ratio;
}

static double
slurry_density(const struct asked *q)
{
	const struct mix_part parts[] = {
		part("cement", MIX_CEMENT, 1,
			in(q, "rho_cement", UNIT_DENSITY)),
		part("water", MIX_WATER, in(q, "w_c", UNIT_NUMBER),
			in(q, "rho_water", UNIT_DENSITY))};
	struct mix_slurry slurry;

	assert_ok(mix_slurry_of(parts, 2, &slurry, &q->f->err), &q->f->err);
	return slurry.density.kg_m3;
}

/* The typical grain of a role: what a mix without its own figure is given. */
static double
typical_grain(const struct asked *q)
{
	bool is_sand = strcmp(q->row->id, "RHO-SAND") == 0;
	const struct mix_part parts[] = {
		{.name = "c", .role = MIX_CEMENT, .mass = {2.3}},
		{.name = "s", .role = MIX_SAND, .mass = {7.1}}};
	struct mix_slurry cement, both;

	assert_ok(mix_slurry_of(parts, 1, &cement, &q->f->err), &q->f->err);
	assert_ok(mix_slurry_of(parts, 2, &both, &q->f->err), &q->f->err);
	return is_sand ? 7.1 / (both.volume.m3 - cement.volume.m3)
		       : cement.density.kg_m3;
}

static struct mix_damp
damp(const struct asked *q)
{
	struct mix_damp got;
	double absorption = reference_has(q->row, "absorption")
		? in(q, "absorption", UNIT_RATIO)
		: 0;

	assert_ok(mix_damp_mass((struct mass){in(q, "sand_dry", UNIT_MASS)},
			  in(q, "moisture", UNIT_RATIO), absorption, &got,
			  &q->f->err),
		&q->f->err);
	return got;
}

static double
damp_sand(const struct asked *q)
{
	return damp(q).weigh.kg;
}

static double
water_left(const struct asked *q)
{
	return in(q, "water", UNIT_MASS) - damp(q).take_water.kg;
}

/* A batch of neat slurry that came out this heavy. */
static struct mix_yielded
yielded(const struct asked *q, double mass_kg, double density, double foam,
	double target)
{
	const struct mix_part parts[] = {
		part("cement", MIX_CEMENT, 0.6 * mass_kg, 3150),
		part("water", MIX_WATER, 0.4 * mass_kg, 1000)};
	const struct mix_yield ask = {.part = parts,
		.n_part = 2,
		.foam = {foam},
		.wet_density_measured = {density},
		.has_target = target > 0,
		.wet_density_target = {target},
		.added_foam_survival_ratio = 1};
	struct mix_yielded got;

	assert_ok(mix_yield(q->f->a, &ask, &got, &q->f->err), &q->f->err);
	return got;
}

static double
relative_yield(const struct asked *q)
{
	return yielded(q, in(q, "batch_mass", UNIT_MASS),
		       in(q, "measured_density", UNIT_DENSITY), 50, 0)
		       .volume.m3 /
		in(q, "design_volume", UNIT_VOLUME);
}

static double
foam_to_add(const struct asked *q)
{
	double density = in(q, "D_meas", UNIT_DENSITY);

	return yielded(q, density * in(q, "V", UNIT_VOLUME), density,
		in(q, "rho_foam", UNIT_DENSITY),
		in(q, "D_target", UNIT_DENSITY))
		.advice.add.m3;
}

/* ---- bending ---- */

static struct lab_flexed
flexed(const struct asked *q, const struct lab_flexure *flexure)
{
	struct lab_flexed got;

	assert_ok(lab_flexure(flexure, &got, &q->f->err), &q->f->err);
	return got;
}

/* The same load held and broke: read exactly.  The table names the load P, P1,
 * P150 or F and the sizes as the standards do. */
static struct lab_flexure
beam(const struct asked *q, enum lab_loading loading)
{
	static const char *const loads[] = {"P", "P1", "P150", "F"};
	bool is_en = reference_has(q->row, "d1");
	struct lab_flexure f = {.loading = loading,
		.span = {length(q, is_en ? "l" : "L")},
		.width = {length(q, is_en ? "d1" : "b")},
		.depth = {length(q, is_en ? "d2" : "d")},
		.did_break = true};

	for (size_t i = 0; i < sizeof loads / sizeof loads[0]; i++)
		if (reference_has(q->row, loads[i]))
			f.held.kg = in(q, loads[i], UNIT_FORCE) / gravity_m_s2;
	f.broke_at = f.held;
	f.has_crack = loading == LAB_THIRD && reference_has(q->row, "a");
	if (f.has_crack)
		f.crack.m = length(q, "a");
	return f;
}

static double
rupture_centre(const struct asked *q)
{
	const struct lab_flexure f = beam(q, LAB_CENTRE);

	return flexed(q, &f).rupture_Pa.low;
}

static double
rupture_third(const struct asked *q)
{
	const struct lab_flexure f = beam(q, LAB_THIRD);

	return flexed(q, &f).rupture_Pa.low;
}

/* The least distance from the support that is still taken. */
static double
least_crack(const struct asked *q)
{
	struct lab_flexure f = {.loading = LAB_THIRD,
		.span = {length(q, "L")},
		.width = {0.1},
		.depth = {0.1},
		.held = {20},
		.did_break = true,
		.broke_at = {20},
		.has_crack = true};
	double low = 0.01 * f.span.m, high = 0.3 * f.span.m;
	struct lab_flexed got;

	for (int i = 0; i < 50; i++) {
		f.crack.m = (low + high) / 2;
		if (lab_flexure(&f, &got, NULL) == ERR_NONE)
			high = f.crack.m;
		else
			low = f.crack.m;
	}
	return high;
}

static struct lab_flexed
own_weight(const struct asked *q)
{
	struct lab_flexure f = beam(q, LAB_CENTRE);
	double overhang = reference_has(q->row, "a") ? length(q, "a") : 0;

	f.did_break = f.held.kg > 0;
	f.has_beam = true;
	f.beam_length.m = f.span.m + 2 * overhang;
	f.beam_mass.kg = in(q, "rho", UNIT_DENSITY) * f.width.m * f.depth.m *
		f.beam_length.m;
	return flexed(q, &f);
}

static double
own_weight_moment(const struct asked *q)
{
	return own_weight(q).self_weight.N_m;
}

static double
own_weight_stress(const struct asked *q)
{
	return own_weight(q).rupture_with_self_weight_Pa.low;
}

/* ---- crushing ---- */

static double
factor_en772(const struct asked *q)
{
	double factor;

	assert_ok(lab_shape_factor_en772((struct length){length(q, "h")},
			  (struct length){length(q, "w")}, &factor, &q->f->err),
		&q->f->err);
	return factor;
}

static double
factor_c39(const struct asked *q)
{
	double factor;

	assert_ok(lab_shape_factor_c39(
			  in(q, "L_D", UNIT_NUMBER), &factor, &q->f->err),
		&q->f->err);
	return factor;
}

static struct lab_crushed
crushed(const struct asked *q, const struct lab_crush *crush)
{
	struct lab_crushed got;

	assert_ok(lab_crush(crush, &got, &q->f->err), &q->f->err);
	return got;
}

static double
normalised_prism(const struct asked *q)
{
	double side = length(q, "w");
	double load = in(q, "f", UNIT_STRESS) * side * side;
	const struct lab_crush c = {.shape = LAB_PRISM,
		.width = {side},
		.depth = {side},
		.height = {length(q, "h")},
		.load_N = {load, load},
		.standard = LAB_SHAPE_EN_772};

	return crushed(q, &c).corrected_Pa.low;
}

static double
cylinder(const struct asked *q)
{
	bool has_height = reference_has(q->row, "L");
	double load = in(q, "P", UNIT_FORCE);
	const struct lab_crush c = {.shape = LAB_CYLINDER,
		.diameter = {length(q, "D")},
		.height = {has_height ? length(q, "L") : 0.15},
		.load_N = {load, load},
		.standard = has_height ? LAB_SHAPE_ASTM_C39 : LAB_SHAPE_NONE};

	return has_height ? crushed(q, &c).corrected_Pa.low
			  : crushed(q, &c).stress_Pa.low;
}

static double
jack(const struct asked *q)
{
	const struct lab_jack ram = {
		.pressure = {in(q, reference_has(q->row, "p") ? "p" : "dp",
			UNIT_STRESS)},
		.bore = {length(q, "bore")},
		.rod = {reference_has(q->row, "rod") ? length(q, "rod") : 0}};
	struct force got;

	assert_ok(lab_jack_force(&ram, &got, &q->f->err), &q->f->err);
	return got.N;
}

static double
jack_stress(const struct asked *q)
{
	double side = length(q, "side"), load = jack(q);
	const struct lab_crush c = {.shape = LAB_CUBE,
		.width = {side},
		.depth = {side},
		.height = {side},
		.load_N = {load, load}};

	return crushed(q, &c).stress_Pa.low;
}

/* ---- weights ---- */

static struct lab_densities
densities(const struct asked *q, const struct lab_density *density)
{
	struct lab_densities got;

	assert_ok(lab_density(density, &got, &q->f->err), &q->f->err);
	return got;
}

static double
density_by_sides(const struct asked *q)
{
	const struct lab_density d = {.mass = {in(q, "m", UNIT_MASS)},
		.by = LAB_VOLUME_SIDES,
		.length = {length(q, "a")},
		.width = {length(q, "b")},
		.height = {length(q, "c")}};

	return densities(q, &d).density.kg_m3;
}

static double
volume_in_water(const struct asked *q)
{
	const struct lab_density d = {.mass = {in(q, "m_air", UNIT_MASS)},
		.by = LAB_VOLUME_IN_WATER,
		.mass_in_water = {in(q, "m_sub", UNIT_MASS)},
		.water = {in(q, "rho_w", UNIT_DENSITY)}};

	return densities(q, &d).volume.m3;
}

static double
density_in_water(const struct asked *q)
{
	const struct lab_density d = {.mass = {in(q, "A", UNIT_MASS)},
		.by = LAB_VOLUME_IN_WATER,
		.mass_in_water = {in(q, "C", UNIT_MASS)},
		.water = {lab_weighing_water_kg_m3},
		.has_saturated = true,
		.saturated_mass = {in(q, "B", UNIT_MASS)}};

	return densities(q, &d).density.kg_m3;
}

static double
weighing_water(const struct asked *q)
{
	(void)q;
	return lab_weighing_water_kg_m3;
}

static struct lab_densities
soaked(const struct asked *q)
{
	const struct lab_density d = {.mass = {in(q, "m_sat", UNIT_MASS)},
		.volume = {reference_has(q->row, "V") ? in(q, "V", UNIT_VOLUME)
						      : 1e-3},
		.has_oven_dry = true,
		.oven_dry_mass = {in(q, "m_dry", UNIT_MASS)},
		.has_saturated = true,
		.saturated_mass = {in(q, "m_sat", UNIT_MASS)}};

	return densities(q, &d);
}

static double
absorption_by_volume(const struct asked *q)
{
	return soaked(q).absorption_by_volume_ratio;
}

static double
absorption_by_mass(const struct asked *q)
{
	return soaked(q).absorption_by_mass_ratio;
}

/* ---- drops ---- */

/* The fall counts the dent: a dent of 8 mm at the end of the given height. */
static double
drop_energy(const struct asked *q)
{
	static const double dent_m = 0.008;
	double mass_kg = reference_has(q->row, "W")
		? in(q, "W", UNIT_FORCE) / gravity_m_s2
		: in(q, "m", UNIT_MASS);
	const struct lab_drop d = {.mass = {mass_kg},
		.height = {length(q, "h") - dent_m},
		.has_depth = true,
		.depth = {dent_m},
		.tip = LAB_TIP_FLAT,
		.tip_diameter = {0.03}};
	struct lab_dropped got;

	assert_ok(lab_drop(&d, &got, &q->f->err), &q->f->err);
	return got.energy_J.low;
}

/* A cap of radius a and height h is of a ball of this diameter. */
static double
ball_diameter(const struct asked *q)
{
	double a = length(q, "d") / 2, h = length(q, "h");

	return (a * a + h * h) / h;
}

static double
dent(const struct asked *q, enum lab_tip tip, double diameter_m, double angle)
{
	struct volume got;

	assert_ok(lab_dent_volume(tip, (struct length){diameter_m}, angle,
			  (struct length){length(q, "h")}, &got, &q->f->err),
		&q->f->err);
	return got.m3;
}

static double
dent_flat(const struct asked *q)
{
	return dent(q, LAB_TIP_FLAT, length(q, "d"), 0);
}

static double
dent_ball(const struct asked *q)
{
	return dent(q, LAB_TIP_BALL, ball_diameter(q), 0);
}

static double
dent_cone(const struct asked *q)
{
	return dent(q, LAB_TIP_CONE, length(q, "d") * 1.0625,
		2 * atan2(length(q, "d") / 2, length(q, "h")));
}

static double
dent_energy(const struct asked *q)
{
	static const double height_m = 0.317;
	double depth_m = length(q, "h");
	const struct lab_drop d = {
		.mass = {in(q, "E", UNIT_ENERGY) /
			(gravity_m_s2 * (height_m + depth_m))},
		.height = {height_m},
		.has_depth = true,
		.depth = {depth_m},
		.tip = LAB_TIP_BALL,
		.tip_diameter = {ball_diameter(q)}};
	struct lab_dropped got;

	assert_ok(lab_drop(&d, &got, &q->f->err), &q->f->err);
	return got.crushing_energy_Pa.low;
}

/* ---- heat ---- */

static double
conductivity(const struct asked *q)
{
	return choose_conductivity(in(q, "d", UNIT_DENSITY));
}

/* ---- the topics ---- */

static const char no_function[] = "nothing of ours computes it";
static const char table_fact[] = "a figure to be quoted, not computed";
static const char in_curing[] = "done in tests/lab/test_age.c";
static const char in_stiffness[] = "done in tests/lab/test_stiffness.c";
static const char in_small_tests[] = "done in tests/lab/test_small_tests.c";
static const char of_units[] = "read by tests/core/test_unit_oracles.c";

static const struct topic trade_a[] = {
	{"MIX-?-VF", UNIT_RATIO, .ours = mix_foam_volume},
	{"MIX-?-MF", UNIT_DENSITY, .ours = mix_foam_mass},
	{"MIX-?-WET", UNIT_DENSITY, .ours = mix_wet_density},
	{"MIX-?-AIR", UNIT_RATIO, .ours = mix_air},
	{"MIX-?-DRY", UNIT_DENSITY, .ours = mix_dry_density},
	{"TGT-?-VF", UNIT_VOLUME, .ours = target_foam_volume},
	{"TGT-?-YIELD", UNIT_VOLUME, .ours = target_volume},
	{"TGT-?-CEM", UNIT_DENSITY, .ours = target_cement},
	{"TGT-LOST", UNIT_VOLUME, .ours = foam_to_add},
	{"TGT-NOFOAM", UNIT_DENSITY, .ours = slurry_density},
	{"C796-CEM", UNIT_DENSITY, .ours = target_cement},
	{"C796-DRY", UNIT_DENSITY, .ours = target_dry_density},
	{"C796-T*", UNIT_DENSITY, .ours = total_dry_density},
	{"C796-VF", UNIT_RATIO, .ours = total_foam_volume},
	{"C796-WB", UNIT_DENSITY, .ours = total_mixing_water},
	{"WC-TOT", UNIT_NUMBER, .ours = total_ratio},
	{"RHO-CEM", UNIT_DENSITY, .ours = typical_grain},
	{"RHO-SAND", UNIT_DENSITY, .ours = typical_grain},
	{"MOIST-1", UNIT_MASS, .ours = damp_sand},
	{"MOIST-2", UNIT_MASS, .ours = water_left},
	REFERENCE_NO("MOIST-3", "moisture on damp mass is asked of nobody"),
	{"YIELD-REL", UNIT_NUMBER, .ours = relative_yield},
	REFERENCE_NO("FOAM-DEN", "waits for foam-check"),
	REFERENCE_NO("FOAM-EXP", no_function),
	REFERENCE_NO("C567-EQ", no_function),
	REFERENCE_NO("KM-CAST", no_function),
	{"MOR-C293", UNIT_STRESS, .ours = rupture_centre},
	{"MOR-EN5C", UNIT_STRESS, .ours = rupture_centre},
	{"MOR-C78-LIM", UNIT_LENGTH, .ours = least_crack},
	{"MOR-*", UNIT_STRESS, .ours = rupture_third},
	{"C1609-F*", UNIT_STRESS, .ours = rupture_third},
	REFERENCE_NO("C1609-*", in_stiffness),
	REFERENCE_NO("JCI-FE", in_stiffness),
	{"SW-?-M", UNIT_ENERGY, .ours = own_weight_moment},
	{"SW-?-S", UNIT_STRESS, .ours = own_weight_stress},
	{"SW-TOT", UNIT_STRESS, .ours = own_weight_stress},
	{"SF-FB", UNIT_STRESS, .ours = normalised_prism},
	{"SF-*", UNIT_NUMBER, .ours = factor_en772},
	{"LD-APP", UNIT_STRESS, .ours = cylinder},
	{"LD-*", UNIT_NUMBER, .ours = factor_c39},
	{"CYL-FC", UNIT_STRESS, .ours = cylinder},
	REFERENCE_NO("SPLIT", in_small_tests),
	{"JACK-3", UNIT_STRESS, .ours = jack_stress},
	{"JACK-*", UNIT_FORCE, .ours = jack},
	{"DENS", UNIT_DENSITY, .ours = density_by_sides},
	{"DENS-DISP", UNIT_VOLUME, .ours = volume_in_water},
	{"C567-MEAS", UNIT_DENSITY, .ours = density_in_water},
	{"C567-WCONST", UNIT_DENSITY, .ours = weighing_water},
	{"ABS-V", UNIT_RATIO, .ours = absorption_by_volume},
	{"ABS-M", UNIT_RATIO, .ours = absorption_by_mass},
	{"DROP-E*", UNIT_ENERGY, .ours = drop_energy},
	REFERENCE_NO("DROP-N", in_small_tests),
	REFERENCE_NO("DROP-V", in_small_tests),
	{"CR-CYL", UNIT_VOLUME, .ours = dent_flat},
	{"CR-CAP", UNIT_VOLUME, .ours = dent_ball},
	{"CR-CONE", UNIT_VOLUME, .ours = dent_cone},
	{"CR-SPEC", UNIT_ENERGY_PER_VOLUME, .ours = dent_energy},
	REFERENCE_NO("CR-R", "geometry of the test itself"),
	REFERENCE_NO("LEV-*", in_stiffness),
	REFERENCE_NO("E-*", in_stiffness),
	REFERENCE_NO("CORE-*", in_small_tests),
	REFERENCE_NO("A209-*", in_curing),
	REFERENCE_NO("EC2-T", in_curing),
	REFERENCE_NO("EC2-*", in_curing),
	REFERENCE_NO("NS-*", in_curing),
	REFERENCE_NO("EA-*", in_curing),
	{"VALORE-IP", UNIT_CONDUCTIVITY, .ours = conductivity},
	REFERENCE_NO("VALORE-SI*", "done in tests/choose/test_heat.c"),
	REFERENCE_NO("KW-*", no_function),
	REFERENCE_NO("HOFF-*", no_function),
	REFERENCE_NO("JM-*", no_function),
	REFERENCE_NO("TADA*", no_function),
	REFERENCE_NO("RYSH", no_function),
	REFERENCE_NO("BALSHIN", no_function),
	REFERENCE_NO("PAUW", no_function),
	REFERENCE_NO("ACI209-FR", no_function),
	REFERENCE_NO("EXP-0022", no_function),
	REFERENCE_NO("U-*", of_units),
	REFERENCE_NO("C869-*", table_fact),
	REFERENCE_NO("IS2185-*", table_fact),
	REFERENCE_NO("ACI5231-*", table_fact),
	REFERENCE_NO("BCA-*", table_fact),
	REFERENCE_NO("CS-*", table_fact),
	REFERENCE_NO("RHO-FA-*", table_fact),
	REFERENCE_NO("FOAMRHO-*", table_fact),
	REFERENCE_NO("C39-SCOPE", table_fact),
	REFERENCE_NO("EN772-COND-*", table_fact),
	REFERENCE_NO("RATE-*", table_fact),
	REFERENCE_NO("CV-*", table_fact),
	REFERENCE_NO("C495-*", table_fact),
	REFERENCE_NO("LCC-*", table_fact),
	REFERENCE_NO("KADO-*", table_fact),
	REFERENCE_NO("WEIB-*", table_fact),
	REFERENCE_NO("C567-OVEN", table_fact),
	REFERENCE_NO("C567-RH", table_fact),
};

static void
reference__rows_of_mixes_and_tests(void **state)
{
	enum { USED = 115, UNUSED = 227 };
	struct reference_counts got = reference_run(*state, "trade-a.csv",
		trade_a, sizeof trade_a / sizeof trade_a[0]);

	assert_int_equal(USED, got.used);
	assert_int_equal(UNUSED, got.unused);
}

static const struct CMUnitTest tests[] = {
	TEST(reference__rows_of_mixes_and_tests),
};

TEST_MAIN(tests)

/* test_home_tests.c - bending, drop, crushing and density against the check
 * values of the reference table, by their row names. */
#include "support.h"

#include "lab/crush.h"
#include "lab/density.h"
#include "lab/drop.h"
#include "lab/flexure.h"

#include <math.h>

static struct lab_flexure
beam_100(enum lab_loading loading, double load_N)
{
	return (struct lab_flexure){.loading = loading,
		.span = {0.3},
		.width = {0.1},
		.depth = {0.1},
		.held = {load_N / gravity_m_s2},
		.did_break = true,
		.broke_at = {load_N / gravity_m_s2}};
}

static void
flexure__published_loads(void **state)
{
	struct fixture *fx = *state;
	struct lab_flexure f = beam_100(LAB_CENTRE, 2000);
	struct lab_flexed got;

	/* MOR-C293: ASTM C293, 3PL/(2bd2); 1e-12 is rounding */
	assert_ok(lab_flexure(&f, &got, &fx->err), &fx->err);
	assert_near(got.rupture_Pa.high, 0.9e6, 1e-12, 0);
	/* MOR-C78 and MOR-C78-OUT: ASTM C78 */
	f = beam_100(LAB_THIRD, 2000);
	assert_ok(lab_flexure(&f, &got, &fx->err), &fx->err);
	assert_near(got.rupture_Pa.high, 0.6e6, 1e-12, 0);
	f.has_crack = true;
	f.crack.m = 0.095;
	assert_ok(lab_flexure(&f, &got, &fx->err), &fx->err);
	assert_near(got.rupture_Pa.high, 0.57e6, 1e-12, 0);
	/* SW-2-M, SW-TOT: derived, w(L2/8 - a2/2) */
	f = beam_100(LAB_CENTRE, 500);
	f.has_beam = true;
	f.beam_length.m = 0.35;
	f.beam_mass.kg = 800 * 0.1 * 0.1 * 0.35;
	assert_ok(lab_flexure(&f, &got, &fx->err), &fx->err);
	assert_near(got.self_weight.N_m, 0.858081875, 1e-12, 0);
	f.beam_length.m = 0.3;
	f.beam_mass.kg = 800 * 0.1 * 0.1 * 0.3;
	assert_ok(lab_flexure(&f, &got, &fx->err), &fx->err);
	assert_near(got.rupture_with_self_weight_Pa.low, 230295.591, 1e-9, 0);
}

static void
flexure__intervals_and_bad_readings(void **state)
{
	struct fixture *fx = *state;
	struct lab_flexure f = beam_100(LAB_CENTRE, 0);
	struct lab_flexed got;

	f.on_rig.kg = 2.6; /* broke under the hanger alone */
	assert_ok(lab_flexure(&f, &got, &fx->err), &fx->err);
	assert_true(got.load_N.low <= 0);
	assert_near(got.load_N.high, 2.6 * gravity_m_s2, 1e-15, 0);
	f.did_break = false;
	assert_ok(lab_flexure(&f, &got, &fx->err), &fx->err);
	assert_true(isinf(got.rupture_Pa.high));
	f.did_break = true;
	f.held.kg = 7.3;
	f.broke_at.kg = 6.1;
	assert_int_equal(ERR_INPUT, lab_flexure(&f, &got, &fx->err));
	assert_string_equal("broke_at", fx->err.field);
	err_clear(&fx->err);
	f.span.m = 0;
	assert_int_equal(ERR_INPUT, lab_flexure(&f, &got, &fx->err));
	assert_string_equal("span", fx->err.field);
}

static void
drop__energy_and_dents(void **state)
{
	struct fixture *fx = *state;
	struct volume v;
	const struct length deep = {0.008};
	struct lab_drop d = {.mass = {4.54},
		.height = {0.449},
		.has_depth = true,
		.depth = deep,
		.tip = LAB_TIP_FLAT,
		.tip_diameter = {0.03}};
	struct lab_dropped got;

	/* DROP-E: 4.54 kg through 457 mm, here 449 mm and the dent; CR-CYL */
	assert_ok(lab_drop(&d, &got, &fx->err), &fx->err);
	assert_near(got.energy_J.high, 20.34664129, 1e-9, 0);
	assert_near(got.volume_m3.low, 5654.866776e-9, 1e-9, 0);
	/* CR-CAP with CR-R, CR-CONE: derived geometry */
	assert_ok(lab_dent_volume(LAB_TIP_BALL, (struct length){0.036125}, 0,
			  deep, &v, &fx->err),
		&fx->err);
	assert_near(v.m3, 3095.515961e-9, 1e-9, 0);
	assert_ok(lab_dent_volume(LAB_TIP_CONE, (struct length){0.05},
			  2 * atan2(15, 8), deep, &v, &fx->err),
		&fx->err);
	assert_near(v.m3, 1884.955592e-9, 1e-9, 0);
	d.has_thickness = true;
	d.thickness.m = 0.007;
	assert_int_equal(ERR_INPUT, lab_drop(&d, &got, &fx->err));
	assert_string_equal("depth", fx->err.field);
	d.through = true;
	d.has_depth = false;
	err_clear(&fx->err);
	assert_ok(lab_drop(&d, &got, &fx->err), &fx->err);
	assert_true(isinf(got.volume_m3.high));
	assert_true(got.crushing_energy_Pa.low <= 0);
}

static void
crush__shape_factors(void **state)
{
	struct fixture *fx = *state;
	/* EN 772-1 table A.1 (SF-*, SF-INT, SF-BILIN): h, w in mm, factor */
	static const double row[][3] = {{40, 50, 0.8}, {65, 250, 0.65},
		{100, 100, 1}, {250, 250, 1.15}, {190, 100, 1.32},
		{190, 140, 1.24}};
	struct lab_crush c = {.shape = LAB_CYLINDER,
		.diameter = {0.1},
		.height = {0.125},
		.load_N = {20000, 20000},
		.standard = LAB_SHAPE_ASTM_C39};
	struct lab_crushed got;
	struct force force;
	struct lab_jack jack = {.pressure = {10e6}, .bore = {0.05}};
	double factor;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		assert_ok(lab_shape_factor_en772(
				  (struct length){row[i][0] / 1000},
				  (struct length){row[i][1] / 1000}, &factor,
				  &fx->err),
			&fx->err);
		assert_near(factor, row[i][2], 1e-9, 0);
	}
	assert_int_equal(ERR_INPUT,
		lab_shape_factor_en772((struct length){0.04},
			(struct length){0.15}, &factor, &fx->err));
	err_clear(&fx->err);
	/* LD-INT and LD-APP: ASTM C39/C42 */
	assert_ok(lab_shape_factor_c39(1.6, &factor, &fx->err), &fx->err);
	assert_near(factor, 0.968, 1e-9, 0);
	assert_ok(lab_crush(&c, &got, &fx->err), &fx->err);
	assert_near(got.corrected_Pa.low, 2.368225553e6, 1e-9, 0);
	/* JACK-1, JACK-4: derived */
	assert_ok(lab_jack_force(&jack, &force, &fx->err), &fx->err);
	assert_near(force.N, 19634.95408, 1e-9, 0);
	jack.rod.m = 0.025;
	assert_ok(lab_jack_force(&jack, &force, &fx->err), &fx->err);
	assert_near(force.N, 14726.21556, 1e-9, 0);
}

static void
density__sides_water_and_absorption(void **state)
{
	struct fixture *fx = *state;
	struct lab_density d = {.mass = {0.812},
		.by = LAB_VOLUME_SIDES,
		.length = {0.1},
		.width = {0.1005},
		.height = {0.0995}};
	struct lab_densities got;

	/* DENS */
	assert_ok(lab_density(&d, &got, &fx->err), &fx->err);
	assert_near(got.density.kg_m3, 812.0203005, 1e-9, 0);
	/* C567-MEAS: ASTM C567/C567M-11 eq. 1 */
	d = (struct lab_density){.mass = {1.5},
		.by = LAB_VOLUME_IN_WATER,
		.mass_in_water = {0.3},
		.water = {lab_weighing_water_kg_m3},
		.has_saturated = true,
		.saturated_mass = {1.7}};
	assert_ok(lab_density(&d, &got, &fx->err), &fx->err);
	assert_near(got.density.kg_m3, 1068.214286, 1e-9, 0);
	/* ABS-V and ABS-M */
	d = (struct lab_density){.mass = {0.9},
		.volume = {1e-3},
		.has_oven_dry = true,
		.oven_dry_mass = {0.82},
		.has_saturated = true,
		.saturated_mass = {1}};
	assert_ok(lab_density(&d, &got, &fx->err), &fx->err);
	assert_near(got.absorption_by_volume_ratio, 0.18, 1e-9, 0);
	assert_near(got.absorption_by_mass_ratio, 0.2195121951, 1e-9, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(flexure__published_loads),
	TEST(flexure__intervals_and_bad_readings),
	TEST(drop__energy_and_dents),
	TEST(crush__shape_factors),
	TEST(density__sides_water_and_absorption),
};

TEST_MAIN(tests)

/* test_properties.c - what must hold of every home test: scaling, order,
 * continuity where a formula changes, and readings that are refused. */
#include "support.h"

#include "core/rng.h"
#include "lab/crush.h"
#include "lab/density.h"
#include "lab/drop.h"
#include "lab/flexure.h"

#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

static const double rel = 1e-12; /* some twenty roundings */

static double
between(gsl_rng *rng, double low, double high)
{
	return low + (high - low) * gsl_rng_uniform(rng);
}

/* ---- bending ---- */

static struct lab_flexure
draw_beam(gsl_rng *rng)
{
	struct lab_flexure f = {
		.loading = gsl_rng_uniform(rng) < 0.5 ? LAB_CENTRE : LAB_THIRD,
		.span = {between(rng, 0.2, 0.9)},
		.width = {between(rng, 0.03, 0.2)},
		.depth = {between(rng, 0.03, 0.2)},
		.held = {between(rng, 0, 80)},
		.did_break = true,
		.on_rig = {between(rng, 0, 4)},
		.has_beam = true};

	f.broke_at.kg = f.held.kg + between(rng, 0.1, 5);
	f.strap.m = f.span.m * between(rng, 0, 0.2);
	f.beam_length.m = f.span.m * between(rng, 1, 1.3);
	f.beam_mass.kg = between(rng, 0.3, 1.2) * 1e3 * f.width.m * f.depth.m *
		f.beam_length.m;
	return f;
}

static struct lab_flexed
flexed(struct fixture *fx, const struct lab_flexure *f)
{
	struct lab_flexed got;

	assert_ok(lab_flexure(f, &got, &fx->err), &fx->err);
	return got;
}

static void
flexure__bounds_are_in_order_and_scale(void **state)
{
	struct fixture *fx = *state;
	gsl_rng *rng = rng_new(911, 0);

	for (int i = 0; i < 3000; i++) {
		struct lab_flexure f = draw_beam(rng), more = f;
		struct lab_flexed one = flexed(fx, &f), two;

		assert_true(one.rupture_Pa.low < one.rupture_Pa.high);
		assert_true(one.rupture_with_self_weight_Pa.low >=
			one.rupture_Pa.low);
		/* twice the width, half the strength for the same weights */
		more.width.m *= 2;
		two = flexed(fx, &more);
		assert_near(
			two.rupture_Pa.high, one.rupture_Pa.high / 2, rel, 0);
		/* the depth enters squared */
		more = f;
		more.depth.m *= 2;
		two = flexed(fx, &more);
		assert_near(
			two.rupture_Pa.high, one.rupture_Pa.high / 4, rel, 0);
		/* a weight on the rig counts like one in the bucket */
		more = f;
		more.held.kg += f.on_rig.kg;
		more.broke_at.kg += f.on_rig.kg;
		more.on_rig.kg = 0;
		two = flexed(fx, &more);
		assert_near(two.rupture_Pa.low, one.rupture_Pa.low, rel, 0);
		/* in the middle a line load bends it most */
		more = f;
		more.strap.m = 0;
		two = flexed(fx, &more);
		assert_true(two.rupture_Pa.high >= one.rupture_Pa.high);
	}
	gsl_rng_free(rng);
}

/* The break at L/3 is in the middle third from either side. */
static void
flexure__break_at_the_third_has_one_strength(void **state)
{
	struct fixture *fx = *state;
	struct lab_flexure f = {.loading = LAB_THIRD,
		.span = {0.451},
		.width = {0.151},
		.depth = {0.149},
		.held = {93.1},
		.did_break = true,
		.broke_at = {93.1},
		.has_crack = true};
	double inside, outside;

	f.crack.m = f.span.m / 3 * (1 + 1e-9);
	inside = flexed(fx, &f).rupture_Pa.low;
	f.crack.m = f.span.m / 3 * (1 - 1e-9);
	outside = flexed(fx, &f).rupture_Pa.low;
	assert_near(outside, inside, 2e-9, 0);
	/* ASTM C78: void farther out than L/20 */
	f.crack.m = f.span.m * (1. / 3 - 0.05) - 1e-9;
	struct lab_flexed got = {.load_N = {77.25, 77.25}};
	assert_int_equal(ERR_INPUT, lab_flexure(&f, &got, &fx->err));
	assert_true(got.load_N.low == 77.25);
}

static void
flexure__uncertainty_is_that_of_the_worst_ruler(void **state)
{
	struct fixture *fx = *state;
	gsl_rng *rng = rng_new(912, 0);

	for (int i = 0; i < 500; i++) {
		struct lab_flexure f = draw_beam(rng);
		struct lab_flexure_division none = {.span = {0}};
		struct lab_flexure_division depth = {.depth = {0.001}};
		struct lab_flexure_division all = {.span = {0.001},
			.width = {0.001},
			.depth = {0.001},
			.weight = {0.05}};
		double u;

		assert_ok(lab_flexure_uncertainty(&f, &none, &u, &fx->err),
			&fx->err);
		assert_true(u == 0);
		/* 2 q / (sqrt(12) d), JCGM 100:2008, 4.3.7 and 5.1.2 */
		assert_ok(lab_flexure_uncertainty(&f, &depth, &u, &fx->err),
			&fx->err);
		assert_near(u, 2 * 0.001 / sqrt(12) / f.depth.m, 1e-3, 0);
		double least = u;

		assert_ok(lab_flexure_uncertainty(&f, &all, &u, &fx->err),
			&fx->err);
		assert_true(u > least);
	}
	gsl_rng_free(rng);
}

/* ---- drops ---- */

static double
dent(struct fixture *fx, enum lab_tip tip, double diameter, double angle,
	double depth)
{
	struct volume got;

	assert_ok(lab_dent_volume(tip, (struct length){diameter}, angle,
			  (struct length){depth}, &got, &fx->err),
		&fx->err);
	return got.m3;
}

/* Cone < cap < cylinder of the same mouth and depth; each grows with depth,
 * without a jump where the shaft of the bar goes in. */
static void
dent__is_ordered_and_without_jumps(void **state)
{
	struct fixture *fx = *state;
	gsl_rng *rng = rng_new(921, 0);

	for (int i = 0; i < 2000; i++) {
		double diameter = between(rng, 0.01, 0.06), r = diameter / 2;
		double angle = between(rng, 0.3, 2.8), before = 0;
		double base = r / tan(angle / 2);
		double depth = between(rng, 0.05, 0.99) * r;
		double mouth = 2 * sqrt(depth * (2 * r - depth));
		double cap = dent(fx, LAB_TIP_BALL, diameter, 0, depth);

		assert_true(cap < dent(fx, LAB_TIP_FLAT, mouth, 0, depth));
		assert_true(cap > dent(fx, LAB_TIP_CONE, mouth,
					  2 * atan2(mouth / 2, depth), depth));
		assert_near(dent(fx, LAB_TIP_BALL, diameter, 0, r * (1 + 1e-9)),
			dent(fx, LAB_TIP_BALL, diameter, 0, r * (1 - 1e-9)),
			1e-8, 0);
		assert_near(dent(fx, LAB_TIP_CONE, diameter, angle,
				    base * (1 + 1e-9)),
			dent(fx, LAB_TIP_CONE, diameter, angle,
				base * (1 - 1e-9)),
			1e-8, 0);
		for (int k = 1; k <= 40; k++) {
			double now = dent(fx, LAB_TIP_CONE, diameter, angle,
				k * base / 20);

			assert_true(now > before);
			before = now;
		}
	}
	gsl_rng_free(rng);
}

/* Half a ball is 2/3 pi r3: solid geometry. */
static void
dent__half_a_ball(void **state)
{
	struct fixture *fx = *state;
	const double r = 0.0173;

	assert_near(dent(fx, LAB_TIP_BALL, 2 * r, 0, r),
		2 * 3.14159265358979324 * r * r * r / 3, 1e-15, 0);
}

static void
drop__through_bounds_from_one_side(void **state)
{
	struct fixture *fx = *state;
	gsl_rng *rng = rng_new(922, 0);

	for (int i = 0; i < 500; i++) {
		struct lab_drop d = {.mass = {between(rng, 0.5, 8)},
			.height = {between(rng, 0.1, 1.5)},
			.has_depth = true,
			.has_thickness = true,
			.thickness = {between(rng, 0.02, 0.1)},
			.tube_loss_ratio = between(rng, 0, 0.3),
			.tip = LAB_TIP_BALL,
			.tip_diameter = {between(rng, 0.02, 0.05)}};
		struct lab_dropped dented, through;

		d.depth = d.thickness;
		assert_ok(lab_drop(&d, &dented, &fx->err), &fx->err);
		assert_near(
			dented.crushing_energy_Pa.low * dented.volume_m3.low,
			dented.energy_J.low, rel, 0);
		d.through = true;
		d.has_depth = false;
		assert_ok(lab_drop(&d, &through, &fx->err), &fx->err);
		assert_near(through.crushing_energy_Pa.high,
			dented.crushing_energy_Pa.high, rel, 0);
		assert_true(through.energy_J.low == 0);
		assert_true(isinf(through.volume_m3.high));
	}
	gsl_rng_free(rng);
}

/* ---- crushing ---- */

/* The factor of EN 772-1 rises with height and falls with width, everywhere in
 * the table and between its entries. */
static void
shape__rises_with_height_and_falls_with_width(void **state)
{
	struct fixture *fx = *state;
	double f, taller, wider;

	for (double h = 65; h <= 245; h += 3.7) {
		for (double w = 50; w <= 245; w += 4.3) {
			assert_ok(
				lab_shape_factor_en772((struct length){h / 1e3},
					(struct length){w / 1e3}, &f, &fx->err),
				&fx->err);
			assert_ok(lab_shape_factor_en772(
					  (struct length){(h + 1) / 1e3},
					  (struct length){w / 1e3}, &taller,
					  &fx->err),
				&fx->err);
			assert_ok(
				lab_shape_factor_en772((struct length){h / 1e3},
					(struct length){(w + 1) / 1e3}, &wider,
					&fx->err),
				&fx->err);
			assert_true(taller > f);
			assert_true(wider < f);
		}
	}
	for (double ratio = 1; ratio < 2.2; ratio += 0.0173) {
		assert_ok(lab_shape_factor_c39(ratio, &f, &fx->err), &fx->err);
		assert_ok(lab_shape_factor_c39(ratio + 0.01, &taller, &fx->err),
			&fx->err);
		assert_true(taller >= f && f <= 1);
	}
}

static void
crush__cube_is_a_prism(void **state)
{
	struct fixture *fx = *state;
	struct lab_crush c = {.shape = LAB_CUBE,
		.width = {0.1003},
		.depth = {0.0991},
		.height = {0.1},
		.load_N = {7130, 7390},
		.standard = LAB_SHAPE_EN_772};
	struct lab_crushed cube, prism, same = {.has_factor = false};

	assert_ok(lab_crush(&c, &cube, &fx->err), &fx->err);
	c.shape = LAB_PRISM;
	assert_ok(lab_crush(&c, &prism, &fx->err), &fx->err);
	assert_near(cube.corrected_Pa.low, prism.corrected_Pa.low, 1e-15, 0);
	c.shape = LAB_CUBE;
	c.height.m = 0.107; /* 7 % taller: no cube */
	same.area.m2 = 77.25;
	assert_int_equal(ERR_INPUT, lab_crush(&c, &same, &fx->err));
	assert_true(same.area.m2 == 77.25);
}

/* ---- weights ---- */

/* The same piece by its sides and under water: one density. */
static void
density__by_sides_and_under_water_agree(void **state)
{
	struct fixture *fx = *state;
	gsl_rng *rng = rng_new(931, 0);

	for (int i = 0; i < 1000; i++) {
		double side[3], volume = 1, water = between(rng, 995, 1000);
		double dry = between(rng, 300, 1600);
		struct lab_density d = {.by = LAB_VOLUME_SIDES};
		struct lab_densities by_sides, by_water;

		for (size_t k = 0; k < 3; k++) {
			side[k] = between(rng, 0.05, 0.3);
			volume *= side[k];
		}
		d.length.m = side[0];
		d.width.m = side[1];
		d.height.m = side[2];
		d.mass.kg = dry * volume * between(rng, 1, 1.2);
		d.has_oven_dry = true;
		d.oven_dry_mass.kg = dry * volume;
		d.has_saturated = true;
		d.saturated_mass.kg = dry * volume + 0.25 * 1000 * volume;
		assert_ok(lab_density(&d, &by_sides, &fx->err), &fx->err);
		d.by = LAB_VOLUME_IN_WATER;
		d.water.kg_m3 = water;
		d.mass_in_water.kg = d.saturated_mass.kg - water * volume;
		assert_ok(lab_density(&d, &by_water, &fx->err), &fx->err);
		/* the difference of two masses loses a digit or two */
		assert_near(by_water.volume.m3, volume, 1e-11, 0);
		assert_near(by_water.oven_dry_density.kg_m3, dry, 1e-11, 0);
		assert_near(by_sides.oven_dry_density.kg_m3, dry, rel, 0);
		/* a quarter of the volume taken up, whatever the weight */
		assert_near(
			by_sides.absorption_by_volume_ratio, 0.25, 1e-11, 0);
		assert_near(
			by_sides.absorption_by_mass_ratio, 250 / dry, 1e-11, 0);
	}
	gsl_rng_free(rng);
}

static const struct CMUnitTest tests[] = {
	TEST(flexure__bounds_are_in_order_and_scale),
	TEST(flexure__break_at_the_third_has_one_strength),
	TEST(flexure__uncertainty_is_that_of_the_worst_ruler),
	TEST(dent__is_ordered_and_without_jumps),
	TEST(dent__half_a_ball),
	TEST(drop__through_bounds_from_one_side),
	TEST(shape__rises_with_height_and_falls_with_width),
	TEST(crush__cube_is_a_prism),
	TEST(density__by_sides_and_under_water_agree),
};

TEST_MAIN(tests)

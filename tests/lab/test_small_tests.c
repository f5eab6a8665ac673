/* test_small_tests.c - repeated drops, cores, water, frost, shrinkage, screws
 * and the hot box against the check values of the reference table, by their row
 * names, and against values worked by hand. */
#include "trade_row.h"

#include "lab/crush.h"
#include "lab/drop.h"
#include "lab/frost.h"
#include "lab/hot_box.h"
#include "lab/rise.h"
#include "lab/screw.h"
#include "lab/shrinkage.h"

static void
drop__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows a = trade_read(fx->a, "trade-a.csv");
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	const struct length fall = {0.457};
	struct lab_blows blows = {
		.mass = {2.0}, .height = {0.5}, .n_held = 6, .did_fail = true};
	struct interval took;
	struct energy one;
	double speed, loss;

	assert_ok(lab_drop_energy((struct mass){4.54}, fall, &one, &fx->err),
		&fx->err);
	assert_row(&a, "DROP-E", one.J);
	assert_ok(lab_drop_energy((struct mass){10 * 0.45359237},
			  (struct length){18 * 0.0254}, &one, &fx->err),
		&fx->err);
	assert_row(&a, "DROP-EX", one.J);
	assert_ok(lab_drop_energy((struct mass){20}, (struct length){2.0}, &one,
			  &fx->err),
		&fx->err);
	assert_row(&b, "F11", one.J);
	assert_ok(lab_drop_speed(fall, &speed, &fx->err), &fx->err);
	assert_row(&a, "DROP-V", speed);
	assert_ok(lab_drop_speed((struct length){2.0}, &speed, &fx->err),
		&fx->err);
	assert_row(&b, "F12", speed);
	/* DROP-N: seven blows to the first crack, so six were held */
	assert_ok(lab_blows(&blows, &took, &fx->err), &fx->err);
	assert_row(&a, "DROP-N", took.high);
	assert_near(took.low, took.high * 6 / 7, 1e-14, 0);
	blows.did_fail = false;
	assert_ok(lab_blows(&blows, &took, &fx->err), &fx->err);
	assert_true(isinf(took.high));
	/* 0.9 of the speed is 0.81 of the energy (by hand) */
	assert_ok(lab_tube_loss(
			  (struct length){2.0}, 0.9 * speed, &loss, &fx->err),
		&fx->err);
	assert_near(loss, 0.19, 1e-14, 0);
}

/* Area pressed at the face when the tip is z deep. */
static double
pressed_m2(enum lab_tip tip, double radius_m, double angle_rad, double z_m)
{
	double full_m2 = 3.14159265358979323846 * radius_m * radius_m;
	double at_m = z_m * tan(angle_rad / 2);

	switch (tip) {
	case LAB_TIP_BALL:
		return z_m >= radius_m ? full_m2
				       : 3.14159265358979323846 *
				(2 * radius_m * z_m - z_m * z_m);
	case LAB_TIP_CONE:
		return at_m >= radius_m ? full_m2
					: 3.14159265358979323846 * at_m * at_m;
	case LAB_TIP_FLAT:
		break;
	}
	return full_m2;
}

static void
drop__work_by_integration_gives_back_the_pressure(void **state)
{
	/* A second route: a material that crushes at 3.7 MPa stops the bar where
	 * the work of that pressure over the pressed area, summed in 20000 steps
	 * (midpoint), equals the energy of the fall; lab_drop must give 3.7 MPa
	 * back from that depth.  1e-6: the kink at the tip's widest place. */
	enum { STEPS = 20000 };
	struct fixture *fx = *state;
	const enum lab_tip tips[] = {LAB_TIP_FLAT, LAB_TIP_BALL, LAB_TIP_CONE};
	const double depths_m[] = {0.0091, 0.0173};

	for (size_t k = 0; k < 6; k++) {
		struct lab_drop d = {.height = {0.9},
			.has_depth = true,
			.depth = {depths_m[k / 3]},
			.tip = tips[k % 3],
			.tip_diameter = {0.0254},
			.tip_angle_rad = 1.9};
		struct lab_dropped got;
		double step_m = d.depth.m / STEPS, work_J = 0;

		for (int i = 0; i < STEPS; i++)
			work_J += 3.7e6 * step_m *
				pressed_m2(d.tip, d.tip_diameter.m / 2,
					d.tip_angle_rad,
					((double)i + 0.5) * step_m);
		d.mass.kg = work_J / (gravity_m_s2 * (0.9 + d.depth.m));
		assert_ok(lab_drop(&d, &got, &fx->err), &fx->err);
		assert_near(got.crushing_energy_Pa.low, 3.7e6, 1e-6, 0);
	}
}

static void
drop__what_cannot_be_is_refused(void **state)
{
	struct fixture *fx = *state;
	struct lab_blows blows = {.mass = {2.0}, .height = {0.5}};
	struct interval took;
	double loss;

	assert_int_equal(ERR_INPUT, lab_blows(&blows, &took, &fx->err));
	assert_string_equal("blows", fx->err.field);
	blows.n_held = 3;
	blows.tube_loss_ratio = 1;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_blows(&blows, &took, &fx->err));
	assert_string_equal("tube_loss", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_tube_loss((struct length){0.5}, 3.2, &loss, &fx->err));
	assert_string_equal("speed", fx->err.field);
}

static void
crush__cores_and_keeping(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows a = trade_read(fx->a, "trade-a.csv");
	struct stress split;
	double factor;

	assert_ok(lab_core_factor(LAB_CORE_HORIZONTAL, 1.5, &factor, &fx->err),
		&fx->err);
	assert_row(&a, "CORE-CSTR", factor);
	assert_ok(lab_core_factor(LAB_CORE_VERTICAL, 1.5, &factor, &fx->err),
		&fx->err);
	assert_row(&a, "CORE-CSTR-V", factor);
	assert_ok(lab_splitting((struct force){10000}, (struct length){0.2},
			  (struct length){0.1}, &split, &fx->err),
		&fx->err);
	assert_row(&a, "SPLIT", split.Pa / 1e6);
	/* EN772-COND-OD and -WET give a band; the factors are the table's */
	assert_near(lab_conditioning_factor(LAB_OVEN_DRY), 0.8, 0, 0);
	assert_near(lab_conditioning_factor(LAB_IMMERSED), 1.2, 0, 0);
	assert_near(lab_conditioning_factor(LAB_AIR_DRY), 1.0, 0, 0);
	assert_int_equal(ERR_INPUT,
		lab_core_factor(LAB_CORE_VERTICAL, 0.5, &factor, &fx->err));
	assert_string_equal("height", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_splitting((struct force){10}, (struct length){0},
			(struct length){0.1}, &split, &fx->err));
	assert_string_equal("length", fx->err.field);
}

static void
rise__finds_the_slope_it_was_made_from(void **state)
{
	/* Invented: 0.31 mm a root hour on a face 100 mm square; the
	 * slope comes back to the rounding of a least-squares fit, 1e-9.  The
	 * first weighing is the dry piece, so the offset begins there. */
	struct fixture *fx = *state;
	const double slope_m = 0.31e-3 / 60, face_m2 = 0.01;
	struct lab_rise_reading reading[7];
	struct lab_rise rise = {
		.reading = reading, .n_reading = 7, .face = {face_m2}};
	struct lab_risen got;

	for (size_t i = 0; i < 7; i++) {
		reading[i].at.s = 613.0 * (double)(i * i);
		reading[i].mass.kg = 0.6137 +
			1000 * face_m2 * slope_m * sqrt(reading[i].at.s);
	}
	assert_ok(lab_rise(fx->a, &rise, &got, &fx->err), &fx->err);
	assert_near(got.sorptivity_m_per_root_s, slope_m, 1e-9, 0);
	assert_near(got.water_kg_m2_root_s, 1000 * slope_m, 1e-9, 0);
	assert_near(got.offset.m, 0, 0, 1e-12);
	assert_near(got.r_squared, 1, 1e-9, 0);
	reading[3].mass.kg = 0.5;
	assert_int_equal(ERR_INPUT, lab_rise(fx->a, &rise, &got, &fx->err));
	assert_string_equal("readings[3].mass", fx->err.field);
	reading[3].mass.kg = 0.7;
	reading[4].at.s = 1;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_rise(fx->a, &rise, &got, &fx->err));
	assert_string_equal("readings[4].t", fx->err.field);
	rise.n_reading = 2;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_rise(fx->a, &rise, &got, &fx->err));
	assert_string_equal("readings", fx->err.field);
	rise.face.m2 = 0;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_rise(fx->a, &rise, &got, &fx->err));
	assert_string_equal("face", fx->err.field);
}

static void
shrinkage__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct lab_shrinkage s = {.gauge = {0.25},
		.change = {-0.275e-3},
		.has_temperature = true,
		.first = {24},
		.now = {17},
		.division = {0.01e-3}};
	struct stress held;
	struct lab_shrunk got;

	assert_ok(lab_shrinkage(&s, &got, &fx->err), &fx->err);
	assert_row(&b, "D03", 100 * got.length_change_ratio);
	/* seven kelvin colder is 70e-6 shorter, not by drying (by hand) */
	assert_near(got.drying_ratio, -1.1e-3 + 70e-6, 1e-12, 0);
	assert_near(got.uncertainty, sqrt(2.0 / 12) * 0.01e-3 / 0.25, 1e-14, 0);
	assert_ok(lab_restrained_stress(
			  0.002, (struct stress){1.5e9}, 0.5, &held, &fx->err),
		&fx->err);
	assert_row(&b, "S76", held.Pa / 1e6);
	s.gauge.m = 0;
	assert_int_equal(ERR_INPUT, lab_shrinkage(&s, &got, &fx->err));
	assert_string_equal("gauge", fx->err.field);
	s.gauge.m = 0.25;
	s.change.m = -0.2;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_shrinkage(&s, &got, &fx->err));
	assert_string_equal("change", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_restrained_stress(
			0.002, (struct stress){1e9}, 1.5, &held, &fx->err));
	assert_string_equal("relaxation", fx->err.field);
}

static void
frost__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct interval left;
	double ratio;

	assert_ok(lab_dynamic_ratio(1800, 1620, &ratio, &fx->err), &fx->err);
	assert_row(&b, "D01", 100 * ratio);
	assert_ok(lab_durability(0.60, 180, 300, &ratio, &fx->err), &fx->err);
	assert_row(&b, "D02", 100 * ratio);
	/* by hand */
	assert_ok(lab_frost_loss((struct mass){0.817}, (struct mass){0.803},
			  &ratio, &fx->err),
		&fx->err);
	assert_near(ratio, 0.014 / 0.817, 1e-13, 0);
	assert_ok(lab_frost_strength((struct interval){0.31e6, 0.34e6},
			  (struct interval){0.40e6, 0.43e6}, &left, &fx->err),
		&fx->err);
	assert_near(left.low, 31.0 / 43, 1e-14, 0);
	assert_near(left.high, 34.0 / 40, 1e-14, 0);
	assert_int_equal(
		ERR_INPUT, lab_durability(0.6, 301, 300, &ratio, &fx->err));
	assert_string_equal("at_cycle", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(
		ERR_INPUT, lab_dynamic_ratio(0, 1620, &ratio, &fx->err));
	assert_string_equal("first", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_frost_loss((struct mass){0.8}, (struct mass){NAN}, &ratio,
			&fx->err));
	assert_string_equal("after", fx->err.field);
}

static void
screw__the_weakest_counts(void **state)
{
	/* By hand: weakest held 310 N and came out at 340 N; cylinder pi x 5 mm
	 * x 47 mm. */
	struct fixture *fx = *state;
	const struct interval pull[] = {
		{420, 450}, {310, 340}, {390, INFINITY}};
	const struct interval bad[] = {{420, 450}, {310, 300}};
	struct lab_screw s = {.pull_N = pull,
		.n_pull = 3,
		.diameter = {0.005},
		.depth = {0.047},
		.safety = lab_screw_safety};
	struct lab_screwed got;

	assert_ok(lab_screw(&s, &got, &fx->err), &fx->err);
	assert_near(got.least_N.low, 310, 0, 0);
	assert_near(got.least_N.high, 340, 0, 0);
	assert_near(got.working.N, 77.5, 1e-15, 0);
	assert_near(got.shear_Pa.high, 340 / (3.14159265358979 * 0.005 * 0.047),
		1e-14, 0);
	s.pull_N = bad;
	s.n_pull = 2;
	assert_int_equal(ERR_INPUT, lab_screw(&s, &got, &fx->err));
	assert_string_equal("pulls[1]", fx->err.field);
	s.n_pull = 0;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_screw(&s, &got, &fx->err));
	assert_string_equal("pulls", fx->err.field);
	s.n_pull = 1;
	s.safety = 1;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_screw(&s, &got, &fx->err));
	assert_string_equal("safety", fx->err.field);
}

static void
hot_box__fourier_by_hand(void **state)
{
	/* By hand: (23.7 - 4.1) W through 0.36 m2 of 83 mm, 31.4 K. */
	struct fixture *fx = *state;
	struct lab_hot_box b = {.power_W = 23.7,
		.leak_W = 4.1,
		.area = {0.36},
		.thickness = {0.083},
		.warm = {41.6},
		.cold = {10.2}};
	struct lab_hot_boxed got;
	double beside;

	assert_ok(lab_hot_box(&b, &got, &fx->err), &fx->err);
	assert_near(got.flux_W_m2, 19.6 / 0.36, 1e-14, 0);
	assert_near(got.resistance_m2K_W, 31.4 * 0.36 / 19.6, 1e-14, 0);
	assert_near(
		got.conductivity.W_mK, 0.083 * 19.6 / (31.4 * 0.36), 1e-14, 0);
	assert_ok(lab_beside_reference(1.43, 17.0, 9.5, &beside, &fx->err),
		&fx->err);
	assert_near(beside, 1.43 * 9.5 / 17, 1e-15, 0);
	b.leak_W = 24;
	assert_int_equal(ERR_INPUT, lab_hot_box(&b, &got, &fx->err));
	assert_string_equal("leak", fx->err.field);
	b.leak_W = 0;
	b.cold.degC = 55;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_hot_box(&b, &got, &fx->err));
	assert_string_equal("warm", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(
		ERR_INPUT, lab_beside_reference(1.4, 0, 9, &beside, &fx->err));
	assert_string_equal("over_reference", fx->err.field);
}

static const struct CMUnitTest tests[] = {
	TEST(drop__rows_of_the_table),
	TEST(drop__work_by_integration_gives_back_the_pressure),
	TEST(drop__what_cannot_be_is_refused),
	TEST(crush__cores_and_keeping),
	TEST(rise__finds_the_slope_it_was_made_from),
	TEST(shrinkage__rows_of_the_table),
	TEST(frost__rows_of_the_table),
	TEST(screw__the_weakest_counts),
	TEST(hot_box__fourier_by_hand),
};

TEST_MAIN(tests)

/* test_plan.c - a planned rig against the tests it is for. */
#include "support.h"

#include "lab/plan.h"

#include <math.h>

static const struct lab_plan_bending beam = {.loading = LAB_CENTRE,
	.span = {0.613},
	.width = {0.0983},
	.depth = {0.0747},
	.strap = {0.047},
	.on_rig = {2.61},
	.strength_Pa = {0.23e6, 0.61e6},
	.width_ratio = 0.1};

static void
plan__the_beam_breaks_at_the_planned_weights(void **state)
{
	/* A round trip: a beam that breaks at the planned weights has the
	 * strengths they were planned for; 1e-13 is rounding.  Steps of the size
	 * given keep the interval under a tenth. */
	struct fixture *fx = *state;
	struct lab_planned_bending got;
	struct lab_flexed flexed;
	struct lab_flexure f = {.loading = LAB_CENTRE,
		.span = beam.span,
		.width = beam.width,
		.depth = beam.depth,
		.strap = beam.strap,
		.on_rig = beam.on_rig,
		.did_break = true};

	assert_ok(lab_plan_bending(&beam, &got, &fx->err), &fx->err);
	f.held = f.broke_at = got.least;
	assert_ok(lab_flexure(&f, &flexed, &fx->err), &fx->err);
	assert_near(flexed.rupture_Pa.high, 0.23e6, 1e-13, 0);
	f.held = f.broke_at = got.most;
	assert_ok(lab_flexure(&f, &flexed, &fx->err), &fx->err);
	assert_near(flexed.rupture_Pa.high, 0.61e6, 1e-13, 0);
	f.held = got.least;
	f.broke_at.kg = got.least.kg + got.step.kg;
	assert_ok(lab_flexure(&f, &flexed, &fx->err), &fx->err);
	assert_near(flexed.rupture_Pa.high - flexed.rupture_Pa.low, 0.023e6,
		1e-12, 0);
	assert_true(
		got.small_from.kg + got.n_step * got.step.kg >= got.most.kg);
	assert_true(got.small_from.kg + (got.n_step - 1) * got.step.kg <
		got.most.kg);
	assert_near(got.falls.kg, got.most.kg + 2.61, 1e-14, 0);
	assert_false(got.hanger_may_break || got.is_stubby);
}

static void
plan__the_bar_dents_as_planned(void **state)
{
	/* A round trip through lab_drop, for each tip; 1e-13 is rounding. */
	struct fixture *fx = *state;
	const enum lab_tip tips[] = {LAB_TIP_FLAT, LAB_TIP_BALL, LAB_TIP_CONE};

	for (size_t i = 0; i < 3; i++) {
		const struct lab_plan_drop p = {.mass = {2.43},
			.tube_loss_ratio = 0.06,
			.tip = tips[i],
			.tip_diameter = {0.0254},
			.tip_angle_rad = 1.3,
			.thickness = {0.061},
			.readable = {0.0027},
			.energy_Pa = {3.1e6, 9.4e6}};
		struct lab_drop d = {.mass = p.mass,
			.has_depth = true,
			.tube_loss_ratio = 0.06,
			.tip = p.tip,
			.tip_diameter = p.tip_diameter,
			.tip_angle_rad = p.tip_angle_rad};
		struct lab_planned_drop got;
		struct lab_dropped dropped;

		assert_ok(lab_plan_drop(&p, &got, &fx->err), &fx->err);
		assert_true(got.suits);
		d.height.m = got.height_m.high;
		d.depth.m = 0.6 * 0.061;
		assert_ok(lab_drop(&d, &dropped, &fx->err), &fx->err);
		assert_near(dropped.crushing_energy_Pa.low, 3.1e6, 1e-13, 0);
		if (got.height_m.low <= 0)
			continue; /* any height shows a dent */
		d.height.m = got.height_m.low;
		d.depth = p.readable;
		assert_ok(lab_drop(&d, &dropped, &fx->err), &fx->err);
		assert_near(dropped.crushing_energy_Pa.low, 9.4e6, 1e-12, 0);
	}
}

static void
plan__what_cannot_be_is_refused(void **state)
{
	struct fixture *fx = *state;
	struct lab_plan_bending p = beam;
	struct lab_plan_drop d = {.mass = {2.43},
		.tip = LAB_TIP_BALL,
		.tip_diameter = {0.0254},
		.thickness = {0.061},
		.readable = {0.05},
		.energy_Pa = {3.1e6, 9.4e6}};
	struct lab_planned_bending got;
	struct lab_planned_drop dropped;

	p.strength_Pa.high = 0.1e6;
	assert_int_equal(ERR_INPUT, lab_plan_bending(&p, &got, &fx->err));
	assert_string_equal("strength", fx->err.field);
	p = beam;
	p.span.m = 0;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_plan_bending(&p, &got, &fx->err));
	assert_string_equal("span", fx->err.field);
	p = beam;
	p.width_ratio = 1e-6;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_plan_bending(&p, &got, &fx->err));
	assert_string_equal("width_ratio", fx->err.field);
	p = beam;
	p.on_rig.kg = 40;
	err_clear(&fx->err);
	assert_ok(lab_plan_bending(&p, &got, &fx->err), &fx->err);
	assert_true(got.hanger_may_break && got.least.kg <= 0);
	assert_int_equal(ERR_INPUT, lab_plan_drop(&d, &dropped, &fx->err));
	assert_string_equal("readable", fx->err.field);
	d.readable.m = 0.003;
	d.energy_Pa.low = 0;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_plan_drop(&d, &dropped, &fx->err));
	assert_string_equal("energy", fx->err.field);
	d.energy_Pa = (struct interval){3.1e6, 9e9};
	err_clear(&fx->err);
	assert_ok(lab_plan_drop(&d, &dropped, &fx->err), &fx->err);
	assert_false(dropped.suits);
}

static void
plan__its_own_weight_is_counted(void **state)
{
	/* The round trip again, with the beam weighed: 1e-12 is rounding. */
	struct fixture *fx = *state;
	struct lab_plan_bending p = beam;
	struct lab_planned_bending got;
	struct lab_flexed flexed;
	struct lab_flexure f = {.loading = LAB_CENTRE,
		.span = beam.span,
		.width = beam.width,
		.depth = beam.depth,
		.strap = beam.strap,
		.on_rig = beam.on_rig,
		.did_break = true,
		.has_beam = true,
		.beam_mass = {3.78},
		.beam_length = {0.7}};

	p.beam_mass = f.beam_mass;
	p.beam_length = f.beam_length;
	assert_ok(lab_plan_bending(&p, &got, &fx->err), &fx->err);
	f.held = f.broke_at = got.least;
	assert_ok(lab_flexure(&f, &flexed, &fx->err), &fx->err);
	assert_near(flexed.rupture_with_self_weight_Pa.high, 0.23e6, 1e-12, 0);
	f.held = f.broke_at = got.most;
	assert_ok(lab_flexure(&f, &flexed, &fx->err), &fx->err);
	assert_near(flexed.rupture_with_self_weight_Pa.high, 0.61e6, 1e-12, 0);
	p.strength_Pa.low = 1e3;
	assert_int_equal(ERR_INPUT, lab_plan_bending(&p, &got, &fx->err));
	assert_has(fx->err.text, "Its own weight");
}

static void
plan__weights_are_handy_and_reach(void **state)
{
	/* Over plans of many sizes: 1, 2 or 5 of a decade, the small one not above
	 * the step, the large ones never past where small ones begin. */
	(void)state;
	for (double step = 0.011; step < 40; step *= 1.37) {
		for (double most = step; most < 300 * step; most *= 1.9) {
			const struct lab_planned_bending p = {.step = {step},
				.small_from = {fmax(0, 0.7 * most - step)},
				.most = {most}};
			struct lab_planned_weights w = lab_plan_weights(&p);
			double large = w.n_large * w.large.kg;
			double all = large + w.n_small * w.small.kg;

			assert_true(w.small.kg <= step * (1 + 1e-9));
			assert_true(w.small.kg * 2.5 * (1 + 1e-9) >= step);
			assert_true(w.n_large == 0 || w.n_large >= 2);
			assert_true(large <= p.small_from.kg * (1 + 1e-9));
			assert_true(all >= most * (1 - 1e-9));
			assert_true(all - w.small.kg < most * (1 + 1e-9));
		}
	}
}

static const struct CMUnitTest tests[] = {
	TEST(plan__the_beam_breaks_at_the_planned_weights),
	TEST(plan__the_bar_dents_as_planned),
	TEST(plan__its_own_weight_is_counted),
	TEST(plan__weights_are_handy_and_reach),
	TEST(plan__what_cannot_be_is_refused),
};

TEST_MAIN(tests)

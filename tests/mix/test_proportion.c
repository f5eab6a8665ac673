/* test_proportion.c - absolute volumes and yield against the check values of
 * the reference table, by their row names. */
#include "support.h"

#include "mix/yield.h"

#include <math.h>

static const struct mix_part neat[] = {
	{.name = "c", .role = MIX_CEMENT, .mass = {300}},
	{.name = "w", .role = MIX_WATER, .mass = {150}},
};

static struct mix_proportion
ask_neat(enum mix_aim aim)
{
	return (struct mix_proportion){.part = neat,
		.n_part = 2,
		.foam = {50},
		.foam_survival_ratio = 1,
		.bound_water_ratio = mix_bound_water_ratio,
		.aim = aim,
		.batch_volume = {1}};
}

static void
proportion__published_mix(void **state)
{
	struct fixture *f = *state;
	struct mix_proportion ask = ask_neat(MIX_AIM_BATCH_VOLUME);
	struct mix_proportioned got;

	/* MIX-A-* and WC-TOT; dry density by ASTM C869 table 1 footnote A */
	assert_ok(mix_proportion(f->a, &ask, &got, &f->err), &f->err);
	assert_near(got.foam_volume.m3, 0.7547619048, 1e-9, 0);
	assert_near(got.foam_mass.kg, 37.73809524, 1e-9, 0);
	assert_near(got.wet_density.kg_m3, 487.7380952, 1e-9, 0);
	assert_near(got.air_fraction, 0.7170238095, 1e-9, 0);
	assert_near(got.oven_dry_density.kg_m3, 360, 1e-9, 0);
	assert_near(got.total_water_cement_ratio, 0.6257936508, 1e-9, 0);
}

static void
proportion__balances_over_targets(void **state)
{
	struct fixture *f = *state;
	struct mix_proportion ask = ask_neat(MIX_AIM_WET_DENSITY);
	struct mix_proportioned got;

	ask.foam_survival_ratio = 0.873;
	for (double wet = 103.7; wet < 1834; wet *= 1.0731) {
		ask.wet_density.kg_m3 = wet;
		assert_ok(mix_proportion(f->a, &ask, &got, &f->err), &f->err);
		assert_near(got.wet_density.kg_m3, wet, 1e-9, 0);
		assert_near(got.per_m3[0].kg + got.per_m3[1].kg +
				got.foam_per_m3.kg,
			wet, 1e-9, 0);
	}
	ask.wet_density.kg_m3 = 1834.96; /* TGT-NOFOAM: slurry 1834.951 */
	assert_int_equal(ERR_INPUT, mix_proportion(f->a, &ask, &got, &f->err));
	assert_string_equal("wet_density", f->err.field);
}

static void
yield__gives_survival_back_and_corrects(void **state)
{
	struct fixture *f = *state;
	struct mix_proportion ask = ask_neat(MIX_AIM_FOAM_VOLUME);
	struct mix_yield measured = {.part = neat,
		.n_part = 2,
		.foam = {50},
		.foam_volume = {0.613},
		.added_foam_survival_ratio = 1,
		.has_target = true};
	struct mix_proportioned made;
	struct mix_yielded got;

	ask.foam_volume.m3 = 0.613;
	ask.foam_survival_ratio = 0.791;
	assert_ok(mix_proportion(f->a, &ask, &made, &f->err), &f->err);
	measured.wet_density_measured = made.wet_density;
	measured.wet_density_target.kg_m3 = 487;
	assert_ok(mix_yield(f->a, &measured, &got, &f->err), &f->err);
	assert_near(got.volume.m3, made.volume.m3, 1e-12, 0);
	assert_near(got.foam_survival_ratio, 0.791, 1e-9, 0);
	assert_int_equal(MIX_ADVICE_ADD_FOAM, got.advice.kind);
	/* TGT-LOST: dV = V (D - T) / (T - foam) */
	assert_near(got.advice.add.m3,
		made.volume.m3 * (made.wet_density.kg_m3 - 487) / (487 - 50),
		1e-12, 0);
}

static void
damp__sand_and_water(void **state)
{
	struct fixture *f = *state;
	struct mix_damp got;

	/* MOIST-1, MOIST-2: ACI 211.1 convention */
	assert_ok(mix_damp_mass((struct mass){700}, 0.05, 0.01, &got, &f->err),
		&f->err);
	assert_near(got.weigh.kg, 735, 1e-12, 0);
	assert_near(190 - got.take_water.kg, 162, 1e-12, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(proportion__published_mix),
	TEST(proportion__balances_over_targets),
	TEST(yield__gives_survival_back_and_corrects),
	TEST(damp__sand_and_water),
};

TEST_MAIN(tests)

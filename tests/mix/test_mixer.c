/* test_mixer.c - sheet, metering, rescue, generator, own weighings, money: by
 * hand-worked cases, by balance, and by what must be refused. */
#include "support.h"

#include "mix/cost.h"
#include "mix/generator.h"
#include "mix/metering.h"
#include "mix/rescue.h"
#include "mix/sheet.h"
#include "mix/weigh_own.h"

#include <math.h>

/* The report names the field (NULL: any); the next one starts afresh. */
static void
refused(struct fixture *f, enum err_code code, const char *field)
{
	assert_int_equal(ERR_INPUT, code);
	if (field != NULL)
		assert_string_equal(f->err.field, field);
	assert_true(f->err.text[0] != '\0');
	f->err = (struct err){.code = ERR_NONE};
}

/* ---- metering: job table of the trade, baseline 720 kg/m3, water/cement
 * 0.48, foam planned at 70 g/L; computed there to the digits shown. ---- */

static const struct mix_part plain[] = {
	{.name = "cement", .role = MIX_CEMENT, .mass = {1.0}},
	{.name = "water", .role = MIX_WATER, .mass = {0.48}},
};

static void
plan_plain(struct fixture *f, struct mix_proportion *plan,
	struct mix_proportioned *planned)
{
	*plan = (struct mix_proportion){.part = plain,
		.n_part = 2,
		.foam = {70},
		.foam_survival_ratio = 1,
		.bound_water_ratio = mix_bound_water_ratio,
		.aim = MIX_AIM_WET_DENSITY,
		.wet_density = {720}};
	assert_ok(mix_proportion(f->a, plan, planned, &f->err), &f->err);
}

static void
metering__drift_by_each_way(void **state)
{
	static const struct {
		double foam, by_volume, by_seconds, yield, wc, dry;
	} row[] = {
		{60, 714, 651, 1.11, 0.56, 553},
		{90, 733, 839, 0.86, 0.61, 537},
		{110, 745, 937, 0.77, 0.64, 526},
		{120, 752, 980, 0.74, 0.66, 520},
	};
	struct fixture *f = *state;
	struct mix_proportion plan;
	struct mix_proportioned planned;
	struct mix_metered m;

	plan_plain(f, &plan, &planned);
	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		struct density foam = {row[i].foam};

		assert_ok(mix_metered_by(f->a, &plan, &planned, foam,
				  MIX_BY_VOLUME, &m, &f->err),
			&f->err);
		assert_near(m.wet_density.kg_m3, row[i].by_volume, 0, 0.6);
		assert_ok(mix_metered_by(f->a, &plan, &planned, foam,
				  MIX_BY_SECONDS, &m, &f->err),
			&f->err);
		assert_near(m.wet_density.kg_m3, row[i].by_seconds, 0, 0.6);
		assert_near(m.yield_ratio, row[i].yield, 0, 0.006);
		assert_ok(mix_metered_by(f->a, &plan, &planned, foam,
				  MIX_BY_DENSITY, &m, &f->err),
			&f->err);
		assert_near(m.wet_density.kg_m3, 720, 1e-9, 0);
		assert_near(m.total_water_cement_ratio, row[i].wc, 0, 0.006);
		assert_near(m.oven_dry_density.kg_m3, row[i].dry, 0, 0.6);
	}
}

static void
proportion__oven_dry_target_is_met(void **state)
{
	struct fixture *f = *state;
	struct mix_proportion plan;
	struct mix_proportioned got;

	plan_plain(f, &plan, &got);
	plan.aim = MIX_AIM_OVEN_DRY_DENSITY;
	for (double dry = 211.3; dry < 1400; dry *= 1.217) {
		plan.oven_dry_density.kg_m3 = dry;
		assert_ok(mix_proportion(f->a, &plan, &got, &f->err), &f->err);
		assert_near(got.oven_dry_density.kg_m3, dry, 1e-9, 0);
	}
	/* the paste dries to 1.2 / (1/3150 + 0.48/1000) = 1505 kg/m3 */
	plan.oven_dry_density.kg_m3 = 1506;
	assert_int_equal(ERR_INPUT, mix_proportion(f->a, &plan, &got, &f->err));
	assert_has(f->err.text, "1504");
}

/* ---- sheet ---- */

static const struct mix_part sandy[] = {
	{.name = "cement", .role = MIX_CEMENT, .mass = {381}},
	{.name = "sand",
		.role = MIX_SAND,
		.mass = {237},
		.moisture_ratio = 0.043,
		.absorption_ratio = 0.007},
	{.name = "tank water", .role = MIX_WATER, .mass = {193}},
};

static struct mix_sheet_ask
ask_sandy(void)
{
	return (struct mix_sheet_ask){.part = sandy,
		.n_part = 3,
		.wanted = {0.137},
		.spare_ratio = 0.1,
		.scale_step = {0.02},
		.foam = {74},
		.foam_survival_ratio = 0.93,
		.bound_water_ratio = mix_bound_water_ratio,
		.wet_target = {861}};
}

static void
sheet__weighs_damp_sand_and_takes_its_water_out(void **state)
{
	struct fixture *f = *state;
	struct mix_sheet_ask ask = ask_sandy();
	struct mix_sheet sheet;
	/* The recipe of a cubic metre makes a little less or more than that
	 * with the foam of today: grains, free water, foam by balance. */
	double free_kg = 193, grains_m3 = 381 / 3150.0 + 237 / 2650.0;
	double slurry_kg = 381 + 237 * 1.007 + free_kg;
	double slurry_m3 = grains_m3 + free_kg / 1000;
	double kept = 0.074 + 0.93 * (1 - 0.074);
	double foam_m3 = (slurry_kg - 861 * slurry_m3) / (861 * kept - 74);
	double batch = 0.137 * 1.1 / (slurry_m3 + kept * foam_m3);

	assert_ok(mix_sheet_make(f->a, &ask, &sheet, &f->err), &f->err);
	assert_int_equal(sheet.n_batch, 1);
	assert_near(sheet.volume.m3, 0.137 * 1.1, 0.001, 0);
	assert_near(sheet.weigh[0].kg, 381 * batch, 0, 0.0101);
	assert_near(sheet.weigh[1].kg, 237 * 1.043 * batch, 0, 0.0101);
	assert_near(sheet.weigh[2].kg, (193 - 237 * (0.043 - 0.007)) * batch, 0,
		0.0101);
	assert_near(sheet.wet.kg_m3, 861, 1e-9, 0);
	/* closes in mass and in volume */
	assert_near(sheet.mass.kg, sheet.wet.kg_m3 * sheet.volume.m3, 1e-9, 0);
	assert_near(sheet.mass.kg,
		sheet.weigh[0].kg + sheet.weigh[1].kg + sheet.weigh[2].kg +
			sheet.foam.m3 * 74,
		1e-9, 0);
	assert_near(sheet.water_cement_ratio,
		(sheet.weigh[2].kg + 237 * 0.036 * batch) / (381 * batch), 0,
		5e-4);
}

/* A billionth of the drum was once no batch at all, and endlessly large. */
static void
sheet__of_very_little_is_one_batch(void **state)
{
	struct fixture *f = *state;
	struct mix_sheet_ask ask = ask_sandy();
	struct mix_sheet sheet;

	ask.has_mixer = true;
	ask.mixer.m3 = 0.04;
	ask.wanted.m3 = 2.9e-11;
	ask.scale_step.kg = 1e-13;
	assert_ok(mix_sheet_make(f->a, &ask, &sheet, &f->err), &f->err);
	assert_int_equal(sheet.n_batch, 1);
	/* weighed in steps of 1e-13 kg, of a part of 6e-9 kg or more */
	assert_near(sheet.volume.m3, 2.9e-11 * 1.1, 1e-4, 0);
}

static void
sheet__splits_what_the_mixer_cannot_take(void **state)
{
	struct fixture *f = *state;
	struct mix_sheet_ask ask = ask_sandy();
	struct mix_sheet one, many;

	assert_ok(mix_sheet_make(f->a, &ask, &one, &f->err), &f->err);
	ask.has_mixer = true;
	ask.mixer.m3 = 0.04;
	assert_ok(mix_sheet_make(f->a, &ask, &many, &f->err), &f->err);
	assert_int_equal(many.n_batch, 4); /* 150.7 L in 40 L */
	assert_true(many.volume.m3 <= 0.04);
	for (size_t i = 0; i < 3; i++) /* within the rounding of each batch */
		assert_near(4 * many.weigh[i].kg, one.weigh[i].kg, 0, 0.06);
}

static void
sheet__takes_whole_bags(void **state)
{
	struct fixture *f = *state;
	struct mix_sheet_ask ask = ask_sandy();
	struct mix_sheet sheet;

	ask.whole_bags = true;
	ask.bag.kg = 25;
	ask.wanted.m3 = 0.6; /* with spare 660 L; a bag makes 65.5 L: ten */
	assert_ok(mix_sheet_make(f->a, &ask, &sheet, &f->err), &f->err);
	assert_near(sheet.bags[0], 10, 0, 0);
	assert_near(sheet.weigh[0].kg, 250, 0, 0);
	assert_int_equal(sheet.n_batch, 2); /* 655 L, so once more */
	ask.has_mixer = true;
	ask.mixer.m3 = 0.06;
	assert_int_equal(
		ERR_INPUT, mix_sheet_make(f->a, &ask, &sheet, &f->err));
	assert_has(f->err.text, "65.5");
	f->err = (struct err){.code = ERR_NONE};
	ask.bag.kg = 0;
	refused(f, mix_sheet_make(f->a, &ask, &sheet, &f->err), "bag");
}

static void
sheet__refuses_what_cannot_be_made(void **state)
{
	struct fixture *f = *state;
	struct mix_sheet_ask ask = ask_sandy();
	struct mix_part wet[3] = {sandy[0], sandy[1], sandy[2]};
	struct mix_sheet sheet;

	ask.scale_step.kg = 5;
	refused(f, mix_sheet_make(f->a, &ask, &sheet, &f->err), "scale_step");
	ask = ask_sandy();
	ask.part = wet;
	wet[1].moisture_ratio = 0.9;
	refused(f, mix_sheet_make(f->a, &ask, &sheet, &f->err), "moisture");
	wet[1].moisture_ratio = -0.01;
	refused(f, mix_sheet_make(f->a, &ask, &sheet, &f->err), NULL);
	ask = ask_sandy();
	ask.wanted.m3 = (double)NAN;
	refused(f, mix_sheet_make(f->a, &ask, &sheet, &f->err), NULL);
	ask = ask_sandy();
	ask.wet_target.kg_m3 = 2400;
	refused(f, mix_sheet_make(f->a, &ask, &sheet, &f->err), "wet_density");
}

/* Scaling a batch scales everything that is not rounded. */
static void
sheet__scales(void **state)
{
	struct fixture *f = *state;
	struct mix_sheet_ask ask = ask_sandy();
	struct mix_sheet one, three;

	ask.scale_step.kg = 1e-7; /* as good as no rounding */
	assert_ok(mix_sheet_make(f->a, &ask, &one, &f->err), &f->err);
	ask.wanted.m3 *= 3;
	assert_ok(mix_sheet_make(f->a, &ask, &three, &f->err), &f->err);
	assert_near(three.foam.m3, 3 * one.foam.m3, 1e-6, 0);
	assert_near(three.volume.m3, 3 * one.volume.m3, 1e-6, 0);
	assert_near(three.mass.kg, 3 * one.mass.kg, 1e-6, 0);
}

/* ---- rescue ---- */

static const struct mix_part batch_parts[] = {
	{.name = "cement", .role = MIX_CEMENT, .mass = {25}},
	{.name = "water", .role = MIX_WATER, .mass = {12}},
};

static struct mix_rescue_ask
ask_rescue(double wet)
{
	return (struct mix_rescue_ask){.batch = {.part = batch_parts,
					       .n_part = 2,
					       .foam = {70},
					       .foam_volume = {0.035},
					       .wet_density_measured = {wet},
					       .has_target = true,
					       .wet_density_target = {720},
					       .added_foam_survival_ratio = 1},
		.since_foam_s = 240,
		.limits = mix_rescue_usual()};
}

static void
rescue__each_verdict(void **state)
{
	struct fixture *f = *state;
	struct mix_rescue_ask ask = ask_rescue(741);
	struct mix_rescued got;
	double after_kg;

	assert_ok(mix_rescue(f->a, &ask, &got, &f->err), &f->err);
	assert_int_equal(got.verdict, MIX_RESCUE_CAST);
	ask = ask_rescue(783);
	assert_ok(mix_rescue(f->a, &ask, &got, &f->err), &f->err);
	assert_int_equal(got.verdict, MIX_RESCUE_ADD_FOAM);
	after_kg = got.yielded.mass.kg + got.add.m3 * 70;
	assert_near(after_kg / got.after.m3, 720, 1e-9, 0);
	assert_near(got.after.m3, got.yielded.volume.m3 + got.add.m3, 1e-9, 0);
	assert_has(got.sentence, "12 min"); /* 20 - 4 gone - 4 to add */
	ask = ask_rescue(651);
	assert_ok(mix_rescue(f->a, &ask, &got, &f->err), &f->err);
	assert_int_equal(got.verdict, MIX_RESCUE_ADD_SLURRY);
	ask.since_foam_s = 17 * 60;
	assert_ok(mix_rescue(f->a, &ask, &got, &f->err), &f->err);
	assert_int_equal(got.verdict, MIX_RESCUE_OTHER);
	assert_has(got.reason, "3 min left");
	assert_near(got.add.m3, 0, 0, 0);
	ask = ask_rescue(783);
	ask.has_mixer = true;
	ask.mixer.m3 = 0.051;
	assert_ok(mix_rescue(f->a, &ask, &got, &f->err), &f->err);
	assert_int_equal(got.verdict, MIX_RESCUE_OTHER);
	assert_has(got.reason, "mixer takes 51 L");
}

static void
rescue__refuses(void **state)
{
	struct fixture *f = *state;
	struct mix_rescue_ask ask = ask_rescue(783);
	struct mix_rescued got;

	ask.batch.has_target = false;
	refused(f, mix_rescue(f->a, &ask, &got, &f->err), NULL);
	ask = ask_rescue(783);
	ask.since_foam_s = (double)NAN;
	refused(f, mix_rescue(f->a, &ask, &got, &f->err), NULL);
	ask = ask_rescue(3000);
	refused(f, mix_rescue(f->a, &ask, &got, &f->err), NULL);
}

/* ---- generator ---- */

static struct mix_generator_run
steady_run(struct mix_foam_weighing *w)
{
	/* a 10.3 L bucket of 0.612 kg: 70.4, 71.4, 72.3, 75.2 g/L */
	static const double gross[] = {1.337, 1.347, 1.357, 1.387};
	static const enum mix_moment at[] = {
		MIX_AT_START, MIX_AT_START, MIX_AT_MIDDLE, MIX_AT_END};

	for (size_t i = 0; i < 4; i++)
		w[i] = (struct mix_foam_weighing){.moment = at[i],
			.gross_kg = gross[i],
			.has_fill = i == 0,
			.fill_s = 24.7};
	return (struct mix_generator_run){.weighing = w,
		.n_weighing = 4,
		.tare_kg = 0.612,
		.scale_step_kg = 0.005,
		.vessel_m3 = 0.0103,
		.vessel_u_m3 = 1e-4,
		.solution_kg_m3 = 1000,
		.has_dilution = true,
		.dilution = 40,
		.target_kg_m3 = 70};
}

static void
generator__told_of_drift(void **state)
{
	struct fixture *f = *state;
	struct mix_foam_weighing w[4];
	struct mix_generator_run run = steady_run(w);
	struct mix_generator_told told;
	double start = ((1.337 + 1.347) / 2 - 0.612) / 0.0103;
	double end = (1.387 - 0.612) / 0.0103;
	double mean = ((1.337 + 1.347 + 1.357 + 1.387) / 4 - 0.612) / 0.0103;

	assert_ok(mix_generator_weigh(&run, &told, &f->err), &f->err);
	assert_near(told.density_kg_m3, mean, 1e-12, 0);
	assert_near(told.drift_ratio, end / start - 1, 1e-9, 0);
	assert_near(told.expansion, 1000 / mean, 1e-12, 0);
	assert_near(told.rate_m3_s, 0.0103 / 24.7, 1e-12, 0);
	assert_near(told.agent_kg_per_m3, mean / 41, 1e-12, 0);
	assert_false(told.stays); /* 6.2 % */
	assert_true(told.repeats_agree && told.on_target);
	/* scatter 0.0214 kg / 10.3 L / sqrt 4 and the bucket's 1 % */
	assert_near(told.standard_error_kg_m3,
		hypot(0.021602468994692867 / 0.0103 / 2, mean * 1e-4 / 0.0103),
		1e-9, 0);
}

static void
generator__refuses(void **state)
{
	struct fixture *f = *state;
	struct mix_foam_weighing w[4];
	struct mix_generator_run run = steady_run(w);
	struct mix_generator_told told;

	run.vessel_m3 = 0;
	refused(f, mix_generator_weigh(&run, &told, &f->err), "volume");
	run = steady_run(w);
	w[2].gross_kg = 0.612;
	refused(f, mix_generator_weigh(&run, &told, &f->err), NULL);
	w[2].gross_kg = 40;
	refused(f, mix_generator_weigh(&run, &told, &f->err), "readings[2]");
	run.n_weighing = 0;
	refused(f, mix_generator_weigh(&run, &told, &f->err), NULL);
}

static void
generator__half_drain_lies_between_two_looks(void **state)
{
	static const double after[] = {300, 900, 1800};
	static const double drained[] = {0.011, 0.031, 0.052};
	static const double falls[] = {0.011, 0.010, 0.052};
	struct fixture *f = *state;
	double t = 0;

	assert_ok(mix_drain_time(after, drained, 3, 0.08, 0.5, &t, &f->err),
		&f->err);
	assert_near(t, 900 + 900 * (0.040 - 0.031) / 0.021, 1e-12, 0);
	assert_ok(mix_drain_time(after, drained, 3, 0.2, 0.5, &t, &f->err),
		&f->err);
	assert_true(isinf(t));
	refused(f, mix_drain_time(after, falls, 3, 0.08, 0.5, &t, &f->err),
		NULL);
}

/* ---- own weighings ---- */

static void
weigh_own__vessel_jar_and_pan(void **state)
{
	struct fixture *f = *state;
	struct mix_weighed got;

	/* water at 20 degC: 998.204 kg/m3 in Kell's table (from memory);
	 * later tables have 998.207 */
	assert_ok(mix_vessel_volume(11.232, 0.612, 0.005, 20, &got, &f->err),
		&f->err);
	assert_near(got.value, 10.62 / 998.2041, 1e-6, 0);
	assert_near(got.standard_uncertainty,
		0.005 / sqrt(12) * sqrt(2) / 998.2041, 1e-6, 0);
	/* 500 g of sand push 189 g of water out: 2.6455 times its density */
	assert_ok(mix_particle_density(
			  0.5, 1.311, 1.622, 0.001, 20, &got, &f->err),
		&f->err);
	assert_near(got.value, 0.5 / 0.189 * 998.2041, 1e-6, 0);
	assert_ok(mix_moisture(0.523, 0.501, 0.001, &got, &f->err), &f->err);
	assert_near(got.value, 0.022 / 0.501, 1e-9, 0);
	refused(f, mix_moisture(0.4, 0.501, 0.001, &got, &f->err), NULL);
	refused(f, mix_vessel_volume(0.5, 0.612, 0.005, 20, &got, &f->err),
		NULL);
	refused(f, mix_bulk_density(2, 1, 0.001, 0, 0, &got, &f->err), NULL);
	refused(f,
		mix_particle_density(0.5, 1.3, 1.9, 0.001, 20, &got, &f->err),
		NULL);
}

/* The first-order uncertainty of the jar against moving each reading. */
static void
weigh_own__jar_uncertainty_by_differences(void **state)
{
	static const double m[3] = {0.5, 1.311, 1.622};
	struct fixture *f = *state;
	struct mix_weighed got, up;
	double u = 0.001 / sqrt(12), h = 1e-6, square = 0;

	assert_ok(mix_particle_density(
			  m[0], m[1], m[2], 0.001, 20, &got, &f->err),
		&f->err);
	for (size_t i = 0; i < 3; i++) {
		double d[3] = {m[0], m[1], m[2]};

		d[i] += h;
		assert_ok(mix_particle_density(
				  d[0], d[1], d[2], 0.001, 20, &up, &f->err),
			&f->err);
		square += pow((up.value - got.value) / h * u, 2);
	}
	/* one-sided differences: good to about h times the curvature */
	assert_near(got.standard_uncertainty, sqrt(square), 1e-4, 0);
}

/* ---- money, bags, buckets ---- */

static void
cost__money_bag_and_bucket(void **state)
{
	struct fixture *f = *state;
	struct mix_part part[] = {
		{.name = "cement",
			.role = MIX_CEMENT,
			.mass = {381},
			.has_bulk_density = true,
			.bulk_density = {1270}},
		{.name = "sand",
			.role = MIX_SAND,
			.mass = {237},
			.has_bulk_density = true,
			.bulk_density = {1580}},
		{.name = "water", .role = MIX_WATER, .mass = {193}},
		{.name = "fibre", .role = MIX_FIBRE, .mass = {1.2}},
	};
	struct mass per_m3[] = {{381}, {237}, {193}, {1.2}};
	const struct mix_priced priced[] = {
		{"cement", 381, {true, 14}, {true, 0.85}},
		{"water", 193, {true, 0}, {false, 0}},
		{"fibre", 1.2, {false, 0}, {true, 2.1}},
	};
	struct mix_cost cost;
	struct volume bag;
	const double *share;

	assert_ok(mix_cost_of(priced, 3, &cost, &f->err), &f->err);
	assert_near(cost.cents_per_m3, 381 * 14, 1e-12, 0);
	assert_near(cost.kgco2_per_m3, 381 * 0.85 + 1.2 * 2.1, 1e-12, 0);
	assert_int_equal(cost.n_unpriced, 1);
	assert_int_equal(cost.n_unstated, 1);
	assert_ok(
		mix_by_bucket(f->a, part, 4, per_m3, &share, &f->err), &f->err);
	assert_near(share[1], 237 / 1580.0 / (381 / 1270.0), 1e-12, 0);
	assert_near(share[2], 0.193 / (381 / 1270.0), 1e-12, 0);
	assert_true(isnan(share[3]));
	assert_ok(
		mix_per_bag(part, 4, per_m3, (struct mass){25}, &bag, &f->err),
		&f->err);
	assert_near(bag.m3, 25 / 381.0, 1e-12, 0);
	refused(f,
		mix_per_bag(part, 4, per_m3, (struct mass){0}, &bag, &f->err),
		NULL);
	part[0].has_bulk_density = false;
	refused(f, mix_by_bucket(f->a, part, 4, per_m3, &share, &f->err), NULL);
}

static const struct CMUnitTest mixer[] = {
	TEST(metering__drift_by_each_way),
	TEST(proportion__oven_dry_target_is_met),
	TEST(sheet__weighs_damp_sand_and_takes_its_water_out),
	TEST(sheet__splits_what_the_mixer_cannot_take),
	TEST(sheet__of_very_little_is_one_batch),
	TEST(sheet__takes_whole_bags),
	TEST(sheet__refuses_what_cannot_be_made),
	TEST(sheet__scales),
	TEST(rescue__each_verdict),
	TEST(rescue__refuses),
	TEST(generator__told_of_drift),
	TEST(generator__refuses),
	TEST(generator__half_drain_lies_between_two_looks),
	TEST(weigh_own__vessel_jar_and_pan),
	TEST(weigh_own__jar_uncertainty_by_differences),
	TEST(cost__money_bag_and_bucket),
};

TEST_MAIN(mixer)

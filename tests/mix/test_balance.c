/* test_balance.c - what must hold of every mix: balances, sameness under
 * scaling and order, and the way there and back. */
#include "support.h"

#include "core/rng.h"
#include "mix/yield.h"

#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

enum { N_PART = 4 };

/* Rounding of some twenty operations on doubles. */
static const double rel = 1e-13;

struct draw {
	struct mix_part part[N_PART];
	struct mix_proportion ask;
};

static double
between(gsl_rng *rng, double low, double high)
{
	return low + (high - low) * gsl_rng_uniform(rng);
}

/* A mix that can be made: water enough for what the sand soaks up. */
static void
draw_mix(gsl_rng *rng, struct draw *draw)
{
	double cement = between(rng, 5, 60);

	*draw = (struct draw){
		.part = {{.name = "cement",
				 .role = MIX_CEMENT,
				 .mass = {cement}},
			{.name = "water",
				.role = MIX_WATER,
				.mass = {cement * between(rng, 0.35, 0.8)}},
			{.name = "sand",
				.role = MIX_SAND,
				.mass = {cement * between(rng, 0.1, 2)},
				.moisture_ratio = between(rng, 0, 0.09),
				.absorption_ratio = between(rng, 0, 0.03)},
			{.name = "ash",
				.role = MIX_FILLER,
				.mass = {cement * between(rng, 0.05, 0.5)},
				.has_particle_density = true,
				.particle_density = {
					between(rng, 1900, 2800)}}}};
	draw->ask = (struct mix_proportion){.part = draw->part,
		.n_part = N_PART,
		.foam = {between(rng, 25, 90)},
		.foam_survival_ratio = between(rng, 0.6, 1),
		.bound_water_ratio = mix_bound_water_ratio,
		.aim = MIX_AIM_WET_DENSITY,
		.wet_density = {between(rng, 300, 1400)}};
}

static struct mix_proportioned
made(struct fixture *f, const struct mix_proportion *ask)
{
	struct mix_proportioned got;

	assert_ok(mix_proportion(f->a, ask, &got, &f->err), &f->err);
	return got;
}

static void
proportion__masses_and_volumes_balance(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(811, 0);

	for (int i = 0; i < 3000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct draw draw;
		struct mix_proportioned got;
		double kg_per_m3 = 0;

		draw_mix(rng, &draw);
		got = made(f, &draw.ask);
		for (size_t k = 0; k < N_PART; k++)
			kg_per_m3 += got.per_m3[k].kg;
		assert_near(kg_per_m3 + got.foam_per_m3.kg,
			draw.ask.wet_density.kg_m3, rel, 0);
		assert_near(got.wet_density.kg_m3, draw.ask.wet_density.kg_m3,
			rel, 0);
		assert_near(got.slurry.volume.m3 / got.volume.m3 +
				got.foam_fraction,
			1, rel, 0);
		assert_true(got.air_fraction < got.foam_fraction);
		/* all water is free, held, or of the foam */
		assert_near(got.slurry.cement.kg + got.slurry.dry_solids.kg +
				got.slurry.water.kg + got.slurry.held_water.kg,
			got.slurry.mass.kg, rel, 0);
		assert_true(got.oven_dry_density.kg_m3 > 0);
		assert_true(
			got.total_water_cement_ratio >= got.water_cement_ratio);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

/* Twice of everything is twice the batch of the same mix; the order in which
 * parts are named does not matter. */
static void
proportion__does_not_mind_size_or_order(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(812, 0);

	for (int i = 0; i < 1000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct draw draw, other;
		struct mix_proportioned one, two;

		draw_mix(rng, &draw);
		other = draw;
		other.ask.part = other.part;
		for (size_t k = 0; k < N_PART; k++) {
			other.part[k] = draw.part[N_PART - 1 - k];
			other.part[k].mass.kg *= 2;
		}
		one = made(f, &draw.ask);
		two = made(f, &other.ask);
		assert_near(
			two.foam_volume.m3, 2 * one.foam_volume.m3, rel, 1e-15);
		assert_near(two.volume.m3, 2 * one.volume.m3, rel, 0);
		assert_near(two.oven_dry_density.kg_m3,
			one.oven_dry_density.kg_m3, rel, 0);
		assert_near(
			two.per_m3[N_PART - 1].kg, one.per_m3[0].kg, rel, 0);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

/* The three aims agree: foam found for a density, then given, then the volume
 * asked for. */
static void
proportion__three_aims_are_one_mix(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(813, 0);

	for (int i = 0; i < 1000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct draw draw;
		struct mix_proportioned first, second, third;

		draw_mix(rng, &draw);
		first = made(f, &draw.ask);
		draw.ask.aim = MIX_AIM_FOAM_VOLUME;
		draw.ask.foam_volume = first.foam_volume;
		second = made(f, &draw.ask);
		draw.ask.aim = MIX_AIM_BATCH_VOLUME;
		draw.ask.batch_volume = second.volume;
		third = made(f, &draw.ask);
		assert_near(second.wet_density.kg_m3, first.wet_density.kg_m3,
			rel, 0);
		/* the foam is what is left of the volume: a little foam is the
		 * difference of two nearly equal volumes */
		assert_near(third.foam_volume.m3, first.foam_volume.m3, rel,
			1e-13 * first.volume.m3);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

/* Damp sand weighed by mix_damp_mass, with the mixing water cut, is the same
 * mix as dry sand. */
static void
damp__is_the_dry_mix(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(814, 0);

	for (int i = 0; i < 1000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct draw draw;
		struct mix_proportioned dry, wet;
		struct mix_damp damp;
		double moisture = between(rng, 0, 0.1);

		draw_mix(rng, &draw);
		draw.part[2].moisture_ratio = 0;
		draw.part[2].absorption_ratio = 0;
		dry = made(f, &draw.ask);
		assert_ok(mix_damp_mass(draw.part[2].mass, moisture, 0, &damp,
				  &f->err),
			&f->err);
		draw.part[2].mass = damp.weigh;
		draw.part[2].moisture_ratio = moisture;
		draw.part[1].mass.kg -= damp.take_water.kg;
		if (draw.part[1].mass.kg <= 0)
			continue; /* very damp sand and little water */
		wet = made(f, &draw.ask);
		assert_near(wet.foam_volume.m3, dry.foam_volume.m3, rel, 1e-15);
		assert_near(
			wet.water_cement_ratio, dry.water_cement_ratio, rel, 0);
		assert_near(wet.oven_dry_density.kg_m3,
			dry.oven_dry_density.kg_m3, rel, 0);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

/* A batch made with a survival, weighed, gives the survival back; and what the
 * advice adds brings it to the target. */
static void
yield__goes_there_and_back(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(815, 0);
	size_t n_foam = 0, n_slurry = 0;

	for (int i = 0; i < 3000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct draw draw;
		struct mix_proportioned batch;
		struct mix_yielded got;
		double liquid, mass, volume, add;

		draw_mix(rng, &draw);
		batch = made(f, &draw.ask);
		const struct mix_yield ask = {.part = draw.part,
			.n_part = N_PART,
			.foam = draw.ask.foam,
			.foam_volume = batch.foam_volume,
			.wet_density_measured = batch.wet_density,
			.has_target = true,
			.wet_density_target = {between(rng, 300, 1400)},
			.added_foam_survival_ratio = between(rng, 0.7, 1)};

		assert_ok(mix_yield(f->a, &ask, &got, &f->err), &f->err);
		assert_near(got.volume.m3, batch.volume.m3, rel, 0);
		/* where there was foam enough to be told from rounding */
		if (batch.foam_volume.m3 > 1e-3 * batch.volume.m3)
			assert_near(got.foam_survival_ratio,
				draw.ask.foam_survival_ratio, 1e-9, 0);
		liquid = ask.foam.kg_m3 / mix_water_kg_m3;
		add = got.advice.add.m3;
		mass = got.mass.kg;
		volume = got.volume.m3;
		if (got.advice.kind == MIX_ADVICE_ADD_FOAM) {
			mass += add * ask.foam.kg_m3;
			volume += add *
				(liquid +
					ask.added_foam_survival_ratio *
						(1 - liquid));
			n_foam++;
		} else if (got.advice.kind == MIX_ADVICE_ADD_SLURRY) {
			mass += add * got.slurry.density.kg_m3;
			volume += add;
			n_slurry++;
		}
		assert_true(add >= 0);
		assert_near(
			mass / volume, ask.wet_density_target.kg_m3, 1e-12, 0);
		arena_back(f->a, mark);
	}
	assert_true(n_foam > 500 && n_slurry > 500);
	gsl_rng_free(rng);
}

/* ---- what is refused ---- */

struct fault {
	const char *field;
	void (*spoil)(struct draw *draw);
};

#define SPOIL(name, what)                        \
	static void spoil_##name(struct draw *d) \
	{                                        \
		what;                            \
	}
SPOIL(mass, d->part[0].mass.kg = 0)
SPOIL(mass_nan, d->part[1].mass.kg = (double)NAN)
SPOIL(mass_inf, d->part[3].mass.kg = (double)INFINITY)
SPOIL(grain, d->part[3].has_particle_density = false)
SPOIL(grain_0, d->part[3].particle_density.kg_m3 = 0)
SPOIL(bucket, d->part[2].by_volume = true; d->part[2].volume.m3 = 0.02)
SPOIL(bucket_0, d->part[2].by_volume = true)
SPOIL(damp, d->part[2].moisture_ratio = -0.01)
SPOIL(damp_water, d->part[1].moisture_ratio = 0.01)
SPOIL(damp_cement, d->part[0].absorption_ratio = 0.01)
SPOIL(thirst, d->part[2].absorption_ratio = (double)NAN)
SPOIL(desert, d->part[2].absorption_ratio = 90)
SPOIL(no_cement, d->part[0].role = MIX_SAND)
SPOIL(foam_0, d->ask.foam.kg_m3 = 0)
SPOIL(foam_water, d->ask.foam.kg_m3 = 1000)
SPOIL(survival, d->ask.foam_survival_ratio = 1.01)
SPOIL(survival_nan, d->ask.foam_survival_ratio = (double)NAN)
SPOIL(bound, d->ask.bound_water_ratio = -0.2)
SPOIL(wet_low, d->ask.wet_density.kg_m3 = 20)
SPOIL(wet_high, d->ask.wet_density.kg_m3 = 2600)
SPOIL(wet_nan, d->ask.wet_density.kg_m3 = (double)NAN)
SPOIL(batch, d->ask.aim = MIX_AIM_BATCH_VOLUME; d->ask.batch_volume.m3 = 1e-4)
SPOIL(foam_volume, d->ask.aim = MIX_AIM_FOAM_VOLUME;
	d->ask.foam_volume.m3 = -0.1)
#undef SPOIL

static void
proportion__names_what_is_wrong(void **state)
{
	struct fixture *f = *state;
	const struct fault faults[] = {{"parts[0].mass", spoil_mass},
		{"parts[1].mass", spoil_mass_nan},
		{"parts[3].mass", spoil_mass_inf},
		{"parts[3].particle_density", spoil_grain},
		{"parts[3].particle_density", spoil_grain_0},
		{"parts[2].bulk_density", spoil_bucket},
		{"parts[2].volume", spoil_bucket_0},
		{"parts[2].moisture", spoil_damp},
		{"parts[1].moisture", spoil_damp_water},
		{"parts[0].absorption", spoil_damp_cement},
		{"parts[2].absorption", spoil_thirst}, {"parts", spoil_desert},
		{"parts", spoil_no_cement}, {"foam.density", spoil_foam_0},
		{"foam.density", spoil_foam_water},
		{"foam_survival", spoil_survival},
		{"foam_survival", spoil_survival_nan},
		{"bound_water", spoil_bound}, {"wet_density", spoil_wet_low},
		{"wet_density", spoil_wet_high}, {"wet_density", spoil_wet_nan},
		{"batch_volume", spoil_batch},
		{"foam_volume", spoil_foam_volume}};
	gsl_rng *rng = rng_new(816, 0);

	for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
		struct mix_proportioned got = {.air_fraction = 77.25};
		struct draw draw;

		draw_mix(rng, &draw);
		faults[i].spoil(&draw);
		draw.ask.part = draw.part;
		err_clear(&f->err);
		assert_int_equal(ERR_INPUT,
			mix_proportion(f->a, &draw.ask, &got, &f->err));
		assert_string_equal(faults[i].field, f->err.field);
		assert_true(strlen(f->err.text) > 30);
		assert_true(got.air_fraction == 77.25);
	}
	gsl_rng_free(rng);
}

/* A batch split in two anywhere: masses, volumes and foam add up to the whole,
 * and each piece is the same mix. */
static void
proportion__split_in_two_adds_up(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(2711, 0);

	for (int i = 0; i < 1000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		double share = between(rng, 0.01, 0.99);
		struct mix_part part[2][N_PART];
		struct mix_proportioned whole, piece[2];
		struct draw draw;

		draw_mix(rng, &draw);
		whole = made(f, &draw.ask);
		for (int k = 0; k < 2; k++) {
			struct mix_proportion ask = draw.ask;

			memcpy(part[k], draw.part, sizeof part[k]);
			for (size_t p = 0; p < N_PART; p++)
				part[k][p].mass.kg *= k == 0 ? share
							     : 1 - share;
			ask.part = part[k];
			piece[k] = made(f, &ask);
			assert_near(piece[k].foam_fraction, whole.foam_fraction,
				rel, 0);
			assert_near(piece[k].total_water_cement_ratio,
				whole.total_water_cement_ratio, rel, 0);
		}
		assert_near(piece[0].volume.m3 + piece[1].volume.m3,
			whole.volume.m3, rel, 0);
		assert_near(piece[0].foam_volume.m3 + piece[1].foam_volume.m3,
			whole.foam_volume.m3, rel, 0);
		assert_near(
			piece[0].slurry.volume.m3 + piece[1].slurry.volume.m3,
			whole.slurry.volume.m3, rel, 0);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

/* Foam solved for a target, then put in: the batch weighs the target. */
static void
proportion__target_to_foam_to_density(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(2712, 0);

	for (int i = 0; i < 1000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct mix_proportioned solved;
		struct mix_proportion there;
		struct draw draw;
		double kg, m3;

		draw_mix(rng, &draw);
		solved = made(f, &draw.ask);
		/* by hand: what went in over what it fills */
		kg = solved.slurry.mass.kg +
			solved.foam_volume.m3 * draw.ask.foam.kg_m3;
		m3 = solved.volume.m3;
		assert_near(kg / m3, draw.ask.wet_density.kg_m3, rel, 0);
		there = draw.ask;
		there.aim = MIX_AIM_FOAM_VOLUME;
		there.foam_volume = solved.foam_volume;
		assert_near(made(f, &there).wet_density.kg_m3,
			draw.ask.wet_density.kg_m3, rel, 0);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

static const struct CMUnitTest tests[] = {
	TEST(proportion__masses_and_volumes_balance),
	TEST(proportion__does_not_mind_size_or_order),
	TEST(proportion__three_aims_are_one_mix),
	TEST(proportion__split_in_two_adds_up),
	TEST(proportion__target_to_foam_to_density),
	TEST(damp__is_the_dry_mix),
	TEST(yield__goes_there_and_back),
	TEST(proportion__names_what_is_wrong),
};

TEST_MAIN(tests)

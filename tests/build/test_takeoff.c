/* test_takeoff.c - volumes, batches, whole packages and money of a part. */
#include "support.h"

#include "build/takeoff.h"
#include "core/rng.h"

#include <gsl/gsl_rng.h>
#include <math.h>
#include <string.h>

static struct maybe
known(double value)
{
	return (struct maybe){true, value};
}

static struct build_part
wall(void)
{
	return (struct build_part){.code = "W1",
		.length_m = known(7.31),
		.height_m = known(2.43),
		.thickness_m = known(0.217)};
}

static void
net_volume__is_the_sizes_or_the_volume_given(void **state)
{
	struct fixture *f = *state;
	struct build_part part = wall();
	double got = 77.25;

	assert_ok(build_net_volume(&part, &got, &f->err), &f->err);
	assert_near(got, 7.31 * 2.43 * 0.217, 1e-15, 0);
	part.openings_m2 = known(3.19);
	assert_ok(build_net_volume(&part, &got, &f->err), &f->err);
	assert_near(got, (7.31 * 2.43 - 3.19) * 0.217, 1e-15, 0);
	part.openings_m2 = known(0);
	assert_ok(build_net_volume(&part, &got, &f->err), &f->err);
	assert_near(got, 7.31 * 2.43 * 0.217, 1e-15, 0);
	part.volume_m3 = known(2.385);
	assert_ok(build_net_volume(&part, &got, &f->err), &f->err);
	assert_true(got == 2.385);
}

static void
net_volume__refuses_what_is_no_size(void **state)
{
	struct fixture *f = *state;
	const double bad[] = {0, -2.43, NAN, INFINITY, -INFINITY};
	struct build_part part;
	double got = 77.25;

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		for (int which = 0; which < 5; which++) {
			struct maybe *const size[] = {&part.length_m,
				&part.height_m, &part.thickness_m,
				&part.volume_m3, &part.openings_m2};

			part = wall();
			*size[which] = known(bad[i]);
			if (which == 4 && bad[i] == 0)
				continue; /* a wall without openings */
			err_clear(&f->err);
			assert_int_equal(ERR_INPUT,
				build_net_volume(&part, &got, &f->err));
			assert_string_equal("W1", f->err.field);
			assert_true(got == 77.25);
		}
	}
	part = wall();
	part.thickness_m.has = false;
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT, build_net_volume(&part, &got, &f->err));
	assert_has(f->err.text, "thickness");
	part = wall();
	part.openings_m2 = known(7.31 * 2.43);
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT, build_net_volume(&part, &got, &f->err));
	assert_has(f->err.text, "openings");
}

/* By hand: 2 m3, a tenth settles, 5 % is spilled: 2 / 0.9 * 1.05 = 2.3333 m3;
 * 350 kg/m3 is 816.67 kg, 33 bags of 25 kg, 8.33 kg left in the last. */
static void
takeoff__worked_by_hand(void **state)
{
	struct fixture *f = *state;
	const struct build_part part = {.code = "F1",
		.volume_m3 = known(2),
		.waste_ratio = known(0.05),
		.batch_m3 = known(0.12)};
	const struct build_material material[] = {
		{.name = "cement",
			.kg_per_m3 = 350,
			.package_kg = known(25),
			.has_price = true,
			.price_cents = 1149},
		{.name = "water", .kg_per_m3 = 175}};
	struct build_taken got;

	assert_ok(build_takeoff(
			  f->a, &part, 0.1, material, 2, 0.6, &got, &f->err),
		&f->err);
	assert_near(got.mixed_m3, 2 / 0.9 * 1.05, 1e-15, 0);
	assert_true(got.n_batch == 20); /* 19.4 */
	assert_near(got.foam_m3, 1.4, 1e-15, 0);
	assert_true(got.line[0].n_package == 33);
	assert_near(got.line[0].left_over_kg, 825 - 2450. / 3, 1e-12, 0);
	assert_near(got.line[0].money_cents, 33 * 1149, 1e-15, 0);
	assert_false(got.line[1].has_package);
	assert_false(got.all_priced);
	assert_near(got.money_cents, 33 * 1149, 1e-15, 0);
}

/* A whole number of packages that a rounding lifts by a hair stays. */
static void
takeoff__a_rounding_does_not_cost_a_package(void **state)
{
	struct fixture *f = *state;
	struct build_taken got;

	for (int n = 1; n < 400; n++) {
		const struct build_part part = {.code = "P",
			.volume_m3 = known(0.1 * n),
			.batch_m3 = known(0.1)};
		const struct build_material material = {.name = "cement",
			.kg_per_m3 = 300,
			.package_kg = known(30)};

		assert_ok(build_takeoff(f->a, &part, 0, &material, 1, 0, &got,
				  &f->err),
			&f->err);
		assert_true(got.n_batch == n);
		assert_true(got.line[0].n_package == n);
	}
}

/* Over random parts: batches cover the mix with waste, one fewer would not;
 * packages never fall short, one fewer would; the money adds up. */
static void
takeoff__is_never_short_and_never_a_package_too_many(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(4183, 0);
	/* what the code takes for a rounding, of the amount itself */
	const double hair = 2e-9;

	for (int i = 0; i < 20000; i++) {
		struct arena_mark mark = arena_mark(f->a);
		double settling = 0.3 * gsl_rng_uniform(rng);
		double waste = 0.2 * gsl_rng_uniform(rng), cents = 0;
		struct build_part part = wall();
		struct build_material material[3];
		struct build_taken got;
		double foam = gsl_rng_uniform(rng);

		part.length_m.value = exp(4 * gsl_rng_uniform(rng) - 1);
		part.waste_ratio = known(waste);
		part.batch_m3 = known(exp(3 * gsl_rng_uniform(rng) - 4));
		for (size_t k = 0; k < 3; k++)
			material[k] = (struct build_material){.name = "m",
				.kg_per_m3 = 700 * gsl_rng_uniform(rng),
				.package_kg = known(
					1 + 40 * gsl_rng_uniform(rng)),
				.has_price = true,
				.price_cents = floor(
					3000 * gsl_rng_uniform(rng))};
		assert_ok(build_takeoff(f->a, &part, settling, material, 3,
				  foam, &got, &f->err),
			&f->err);
		assert_near(got.mixed_m3 * (1 - settling) / (1 + waste),
			got.net_m3, 1e-14, 0);
		assert_near(got.foam_m3, foam * got.mixed_m3, 1e-15, 0);
		assert_true(got.n_batch * part.batch_m3.value >=
			got.mixed_m3 * (1 - hair));
		assert_true(
			(got.n_batch - 1) * part.batch_m3.value < got.mixed_m3);
		for (size_t k = 0; k < 3; k++) {
			const struct build_line *line = &got.line[k];
			double bought = line->n_package *
				material[k].package_kg.value;

			assert_true(bought >= line->mass_kg * (1 - hair));
			assert_true(bought - material[k].package_kg.value <
				line->mass_kg);
			assert_near(line->left_over_kg, bought - line->mass_kg,
				0, 1e-9 * bought);
			assert_true(line->n_package == floor(line->n_package));
			cents += line->n_package * material[k].price_cents;
		}
		assert_true(got.all_priced);
		assert_near(got.money_cents, cents, 1e-15, 0);
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
}

static void
takeoff__refuses_what_cannot_be(void **state)
{
	struct fixture *f = *state;
	const struct build_material good = {.name = "cement", .kg_per_m3 = 317};
	struct build_material bad = good;
	struct build_part part = wall();
	struct build_taken got = {.net_m3 = 77.25};
	const double no_share[] = {-0.01, 1, 1.7, NAN, INFINITY};

	for (size_t i = 0; i < sizeof no_share / sizeof no_share[0]; i++) {
		err_clear(&f->err);
		assert_int_equal(ERR_INPUT,
			build_takeoff(f->a, &part, no_share[i], &good, 1, 0,
				&got, &f->err));
		assert_has(f->err.text, "W1");
		part.waste_ratio = known(no_share[i]);
		assert_int_equal(ERR_INPUT,
			build_takeoff(f->a, &part, 0, &good, 1, 0, &got, NULL));
		part.waste_ratio.has = false;
	}
	assert_int_equal(ERR_INPUT,
		build_takeoff(f->a, &part, 0, &good, 1, NAN, &got, NULL));
	bad.kg_per_m3 = -1;
	assert_int_equal(ERR_INPUT,
		build_takeoff(f->a, &part, 0, &bad, 1, 0, &got, NULL));
	bad = good;
	bad.package_kg = known(0);
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		build_takeoff(f->a, &part, 0, &bad, 1, 0, &got, &f->err));
	assert_has(f->err.text, "package of cement");
	part.batch_m3 = known(0);
	assert_int_equal(ERR_INPUT,
		build_takeoff(f->a, &part, 0, &good, 1, 0, &got, NULL));
	assert_true(got.net_m3 == 77.25);
}

static void
takeoff__says_when_memory_is_out(void **state)
{
	(void)state;
	struct arena *small = arena_new(64);
	const struct build_part part = wall();
	const struct build_material material[40] = {{.name = "m"}};
	struct build_taken got = {.net_m3 = 77.25};

	assert_non_null(small);
	assert_int_equal(ERR_MEMORY,
		build_takeoff(small, &part, 0, material, 40, 0, &got, NULL));
	assert_true(got.net_m3 == 77.25);
	arena_free(small);
}

static const struct CMUnitTest tests[] = {
	TEST(net_volume__is_the_sizes_or_the_volume_given),
	TEST(net_volume__refuses_what_is_no_size),
	TEST(takeoff__worked_by_hand),
	TEST(takeoff__a_rounding_does_not_cost_a_package),
	TEST(takeoff__is_never_short_and_never_a_package_too_many),
	TEST(takeoff__refuses_what_cannot_be),
	TEST(takeoff__says_when_memory_is_out),
};

TEST_MAIN(tests)

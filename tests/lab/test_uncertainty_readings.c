/* test_uncertainty_readings.c - first-order uncertainties of water, drying,
 * screws, frost, blows and the area under a sag against Monte Carlo with each
 * reading anywhere within its division (JCGM 101). */
#include "support.h"

#include "lab/density.h"
#include "lab/drop.h"
#include "lab/frost.h"
#include "lab/handling.h"
#include "lab/rise.h"
#include "lab/screw.h"
#include "lab/shrinkage.h"
#include "lab/toughness.h"

#include <gsl/gsl_rng.h>
#include <math.h>

/* As in test_uncertainty.c: 40000 draws give the standard deviation to 0.3 %;
 * four standard errors of that, and what the second order leaves. */
enum { DRAWS = 40000 };
static const double allowed = 0.015;

struct moments {
	double n, mean, square;
};

static void
add(struct moments *m, double x)
{
	double off = x - m->mean;

	m->n++;
	m->mean += off / m->n;
	m->square += off * (x - m->mean);
}

static double
sd(const struct moments *m)
{
	return sqrt(m->square / (m->n - 1));
}

static gsl_rng *
generator(void)
{
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

	assert_non_null(rng);
	gsl_rng_set(rng, 20261127);
	return rng;
}

static double
within(gsl_rng *rng, double value, double division)
{
	return value + division * (gsl_rng_uniform(rng) - 0.5);
}

static void
absorption__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct lab_density s = {.mass = {4.31},
		.by = LAB_VOLUME_SIDES,
		.length = {0.2},
		.width = {0.0983},
		.height = {0.0747},
		.has_oven_dry = true,
		.oven_dry_mass = {3.07},
		.has_saturated = true,
		.saturated_mass = {4.31}};
	const struct lab_density_division d = {.mass = {0.02}, .side = {1e-3}};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_densities out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_density g = s;

		g.oven_dry_mass.kg = within(rng, s.oven_dry_mass.kg, d.mass.kg);
		g.saturated_mass.kg = within(
			rng, s.saturated_mass.kg, d.mass.kg);
		g.mass = g.saturated_mass;
		g.length.m = within(rng, s.length.m, d.side.m);
		g.width.m = within(rng, s.width.m, d.side.m);
		g.height.m = within(rng, s.height.m, d.side.m);
		assert_ok(lab_density(&g, &out, &fx->err), &fx->err);
		add(&got, out.absorption_by_volume_ratio);
	}
	gsl_rng_free(rng);
	assert_ok(lab_absorption_uncertainty(&s, &d, &relative, &fx->err),
		&fx->err);
	assert_near(relative, sd(&got) / got.mean, allowed, 0);
}

static void
moisture__value_and_monte_carlo(void **state)
{
	/* 3.62 kg that dries to 3.12 kg: 0.5 kg of water on 3.12 kg, by hand */
	struct fixture *fx = *state;
	const struct mass wet = {3.62}, dry = {3.12}, step = {0.02};
	gsl_rng *rng = generator();
	struct moments got = {0};
	double ratio = 0, u = 0;

	assert_ok(lab_moisture(wet, dry, &ratio, &fx->err), &fx->err);
	assert_near(ratio, 0.16025641025641026, 1e-13, 0);
	for (int i = 0; i < DRAWS; i++) {
		const struct mass w = {within(rng, wet.kg, step.kg)};
		const struct mass d = {within(rng, dry.kg, step.kg)};

		assert_ok(lab_moisture(w, d, &ratio, &fx->err), &fx->err);
		add(&got, ratio);
	}
	gsl_rng_free(rng);
	assert_ok(lab_moisture_uncertainty(wet, dry, step, &u, &fx->err),
		&fx->err);
	assert_near(u, sd(&got), allowed, 0);
	u = -3;
	assert_int_equal(ERR_INPUT,
		lab_moisture_uncertainty(dry, wet, step, &u, &fx->err));
	assert_string_equal(fx->err.field, "dry");
	assert_near(u, -3, 0, 0); /* untouched */
}

enum { WEIGHINGS = 5 };

static void
rise__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const double at_s[WEIGHINGS] = {0, 600, 3600, 14400, 86400};
	const double kg[WEIGHINGS] = {0.6132, 0.6189, 0.6261, 0.6394, 0.6811};
	const struct lab_rise_division d = {.mass = {2e-3}, .side = {1e-3}};
	struct lab_rise_reading reading[WEIGHINGS];
	struct lab_rise rise = {reading, WEIGHINGS, {0.0101}};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_risen out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct arena_mark mark = arena_mark(fx->a);

		for (size_t k = 0; k < WEIGHINGS; k++)
			reading[k] = (struct lab_rise_reading){
				{at_s[k]}, {within(rng, kg[k], d.mass.kg)}};
		rise.face.m2 = within(rng, sqrt(0.0101), d.side.m) *
			within(rng, sqrt(0.0101), d.side.m);
		assert_ok(lab_rise(fx->a, &rise, &out, &fx->err), &fx->err);
		add(&got, out.water_kg_m2_root_s);
		arena_back(fx->a, mark);
	}
	gsl_rng_free(rng);
	for (size_t k = 0; k < WEIGHINGS; k++)
		reading[k].mass.kg = kg[k];
	rise.face.m2 = 0.0101;
	assert_ok(lab_rise_uncertainty(fx->a, &rise, &d, &relative, &fx->err),
		&fx->err);
	assert_near(relative, sd(&got) / got.mean, allowed, 0);
}

static void
shrinkage__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const double first_m = 0.4986, now_m = 0.49778, step_m = 2e-5;
	const struct lab_shrinkage s = {.gauge = {first_m},
		.change = {now_m - first_m},
		.has_temperature = true,
		.first = {21},
		.now = {17},
		.division = {step_m},
		.temperature_division_K = 1};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_shrunk out;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_shrinkage g = s;

		g.gauge.m = within(rng, first_m, step_m);
		g.change.m = within(rng, now_m, step_m) - g.gauge.m;
		g.first.degC = within(rng, 21, 1);
		g.now.degC = within(rng, 17, 1);
		assert_ok(lab_shrinkage(&g, &out, &fx->err), &fx->err);
		add(&got, out.drying_ratio);
	}
	gsl_rng_free(rng);
	assert_ok(lab_shrinkage(&s, &out, &fx->err), &fx->err);
	assert_near(out.uncertainty, sd(&got), allowed, 0);
}

static void
screw__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct interval came_out = {340, 340};
	struct lab_screw s = {.pull_N = &came_out,
		.n_pull = 1,
		.diameter = {5e-3},
		.depth = {0.047},
		.safety = 4};
	const struct lab_screw_division d = {
		.force = {20}, .diameter = {1e-4}, .depth = {1e-3}};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_screwed out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct interval pull;
		struct lab_screw g = s;

		pull.low = pull.high = within(rng, 340, d.force.N);
		g.pull_N = &pull;
		g.diameter.m = within(rng, 5e-3, d.diameter.m);
		g.depth.m = within(rng, 0.047, d.depth.m);
		assert_ok(lab_screw(&g, &out, &fx->err), &fx->err);
		add(&got, out.shear_Pa.high);
	}
	gsl_rng_free(rng);
	assert_ok(lab_screw_uncertainty(&s, &d, &relative, &fx->err), &fx->err);
	assert_near(relative, sd(&got) / got.mean, allowed, 0);
}

static void
frost__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct mass before = {0.817}, after = {0.803}, step = {2e-3};
	gsl_rng *rng = generator();
	struct moments got = {0};
	double ratio, u;

	for (int i = 0; i < DRAWS; i++) {
		const struct mass b = {within(rng, before.kg, step.kg)};
		const struct mass a = {within(rng, after.kg, step.kg)};

		assert_ok(lab_frost_loss(b, a, &ratio, &fx->err), &fx->err);
		add(&got, ratio);
	}
	gsl_rng_free(rng);
	assert_ok(lab_frost_uncertainty(before, after, step, &u, &fx->err),
		&fx->err);
	assert_near(u, sd(&got), allowed, 0);
}

enum { SAGS = 4 };

static void
area_under_sag__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const double sag_m[SAGS] = {1e-3, 4e-3, 7e-3, 12e-3};
	const double load_n[SAGS] = {66, 115, 91, 164};
	const struct lab_sag_division d = {.load = {2}, .deflection = {1e-3}};
	struct lab_sag sag[SAGS];
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct energy out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		for (size_t k = 0; k < SAGS; k++)
			sag[k] = (struct lab_sag){
				{within(rng, sag_m[k], d.deflection.m)},
				{within(rng, load_n[k], d.load.N)}};
		assert_ok(lab_area_under(sag, SAGS, sag[SAGS - 1].deflection,
				  &out, &fx->err),
			&fx->err);
		add(&got, out.J);
	}
	gsl_rng_free(rng);
	for (size_t k = 0; k < SAGS; k++)
		sag[k] = (struct lab_sag){{sag_m[k]}, {load_n[k]}};
	assert_ok(lab_area_uncertainty(sag, SAGS, &d, &relative, &fx->err),
		&fx->err);
	assert_near(relative, sd(&got) / got.mean, allowed, 0);
}

static void
blows__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct lab_blows b = {.mass = {2.1},
		.height = {0.9},
		.tube_loss_ratio = 0.07,
		.n_held = 3,
		.did_fail = true};
	const struct mass step = {0.05};
	const struct length ruler = {0.01};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct interval out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_blows g = b;

		g.mass.kg = within(rng, b.mass.kg, step.kg);
		g.height.m = within(rng, b.height.m, ruler.m);
		assert_ok(lab_blows(&g, &out, &fx->err), &fx->err);
		add(&got, out.high);
	}
	gsl_rng_free(rng);
	assert_ok(lab_blows_uncertainty(&b, step, ruler, &relative, &fx->err),
		&fx->err);
	assert_near(relative, sd(&got) / got.mean, allowed, 0);
}

static void
handling_matches(struct fixture *fx, bool weighed)
{
	const struct lab_handling h = {.grip = LAB_GRIP_ENDS,
		.length = {0.7},
		.width = {0.0983},
		.depth = {0.0747},
		.density = {weighed ? 3.07 / (0.7 * 0.0983 * 0.0747) : 604},
		.jerk = 2};
	const struct lab_handling_division d = {
		.density = {10}, .mass = {0.02}, .side = {1e-3}};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_handled out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_handling g = h;

		g.length.m = within(rng, h.length.m, d.side.m);
		g.width.m = within(rng, h.width.m, d.side.m);
		g.depth.m = within(rng, h.depth.m, d.side.m);
		g.density.kg_m3 = weighed ? within(rng, 3.07, d.mass.kg) /
				(g.length.m * g.width.m * g.depth.m)
					  : within(rng, 604, d.density.kg_m3);
		assert_ok(lab_handling(&g, &out, &fx->err), &fx->err);
		add(&got, out.stress.Pa);
	}
	gsl_rng_free(rng);
	assert_ok(
		lab_handling_uncertainty(&h, (struct mass){weighed ? 3.07 : 0},
			&d, &relative, &fx->err),
		&fx->err);
	assert_near(relative, sd(&got) / got.mean, allowed, 0);
}

static void
handling__matches_monte_carlo_weighed_or_not(void **state)
{
	struct fixture *fx = *state;

	handling_matches(fx, true);
	handling_matches(fx, false);
}

static const struct CMUnitTest tests[] = {
	TEST(absorption__matches_monte_carlo),
	TEST(moisture__value_and_monte_carlo),
	TEST(rise__matches_monte_carlo),
	TEST(shrinkage__matches_monte_carlo),
	TEST(screw__matches_monte_carlo),
	TEST(frost__matches_monte_carlo),
	TEST(area_under_sag__matches_monte_carlo),
	TEST(blows__matches_monte_carlo),
	TEST(handling__matches_monte_carlo_weighed_or_not),
};

TEST_MAIN(tests)

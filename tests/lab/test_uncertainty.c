/* test_uncertainty.c - first-order uncertainties of the home tests against
 * Monte Carlo with each reading anywhere within its division (JCGM 101). */
#include "support.h"

#include "lab/crush.h"
#include "lab/density.h"
#include "lab/drop.h"
#include "lab/flexure.h"
#include "lab/hot_box.h"
#include "lab/modulus.h"
#include "lab/uncertainty.h"

#include <gsl/gsl_rng.h>
#include <math.h>

/* 40000 draws give the standard deviation to 0.3 % (one standard error of a
 * uniform sum); what the first order leaves out is below 0.3 % at divisions of
 * a few per cent; 1.5 % is four standard errors and that. */
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
relative_sd(const struct moments *m)
{
	return sqrt(m->square / (m->n - 1)) / m->mean;
}

static gsl_rng *
generator(void)
{
	gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);

	assert_non_null(rng);
	gsl_rng_set(rng, 20251125);
	return rng;
}

static double
within(gsl_rng *rng, double value, double division)
{
	return value + division * (gsl_rng_uniform(rng) - 0.5);
}

static void
flexure__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct lab_flexure f = {.loading = LAB_CENTRE,
		.span = {0.613},
		.width = {0.0983},
		.depth = {0.0747},
		.held = {21.3},
		.did_break = true,
		.broke_at = {21.3},
		.on_rig = {2.6},
		.strap = {0.05}};
	const struct lab_flexure_division d = {.span = {5e-3},
		.width = {1e-3},
		.depth = {1e-3},
		.weight = {0.5}};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_flexed out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_flexure g = f;

		g.span.m = within(rng, f.span.m, d.span.m);
		g.width.m = within(rng, f.width.m, d.width.m);
		g.depth.m = within(rng, f.depth.m, d.depth.m);
		g.broke_at.kg = within(rng, f.broke_at.kg, d.weight.kg);
		g.held = g.broke_at;
		assert_ok(lab_flexure(&g, &out, &fx->err), &fx->err);
		add(&got, out.rupture_Pa.high);
	}
	gsl_rng_free(rng);
	assert_ok(
		lab_flexure_uncertainty(&f, &d, &relative, &fx->err), &fx->err);
	assert_near(relative, relative_sd(&got), allowed, 0);
}

static void
drop_matches(struct fixture *fx, enum lab_tip tip, double angle_rad)
{
	const struct lab_drop f = {.mass = {2.4},
		.height = {0.913},
		.has_depth = true,
		.depth = {0.0117},
		.tip = tip,
		.tip_diameter = {0.0254},
		.tip_angle_rad = angle_rad};
	const struct lab_drop_division d = {.mass = {0.05},
		.height = {0.01},
		.depth = {0.5e-3},
		.tip_diameter = {0.5e-3},
		.angle_rad = 0.02};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_dropped out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_drop g = f;

		g.mass.kg = within(rng, f.mass.kg, d.mass.kg);
		g.height.m = within(rng, f.height.m, d.height.m);
		g.depth.m = within(rng, f.depth.m, d.depth.m);
		g.tip_diameter.m = within(
			rng, f.tip_diameter.m, d.tip_diameter.m);
		if (tip == LAB_TIP_CONE)
			g.tip_angle_rad = within(rng, angle_rad, d.angle_rad);
		assert_ok(lab_drop(&g, &out, &fx->err), &fx->err);
		add(&got, out.crushing_energy_Pa.low);
	}
	gsl_rng_free(rng);
	assert_ok(lab_drop_uncertainty(&f, &d, &relative, &fx->err), &fx->err);
	assert_near(relative, relative_sd(&got), allowed, 0);
}

static void
drop__matches_monte_carlo_for_each_tip(void **state)
{
	struct fixture *fx = *state;

	drop_matches(fx, LAB_TIP_FLAT, 0);
	drop_matches(fx, LAB_TIP_BALL, 0);
	drop_matches(fx, LAB_TIP_CONE, 1.05); /* the dent inside the cone */
}

static void
crush__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct lab_crush c = {.shape = LAB_CYLINDER,
		.diameter = {0.0763},
		.height = {0.151},
		.load_N = {8730, 8730}};
	const struct lab_crush_division d = {.diameter = {1e-3}, .load = {250}};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_crushed out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_crush g = c;

		g.diameter.m = within(rng, c.diameter.m, d.diameter.m);
		g.load_N.low = within(rng, c.load_N.low, d.load.N);
		g.load_N.high = g.load_N.low;
		assert_ok(lab_crush(&g, &out, &fx->err), &fx->err);
		add(&got, out.stress_Pa.low);
	}
	gsl_rng_free(rng);
	assert_ok(lab_crush_uncertainty(&c, &d, &relative, &fx->err), &fx->err);
	assert_near(relative, relative_sd(&got), allowed, 0);
}

static void
density__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct lab_density s = {.mass = {3.07},
		.by = LAB_VOLUME_SIDES,
		.length = {0.7},
		.width = {0.0983},
		.height = {0.0747}};
	const struct lab_density_division d = {.mass = {0.02}, .side = {1e-3}};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_densities out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_density g = s;

		g.mass.kg = within(rng, s.mass.kg, d.mass.kg);
		g.length.m = within(rng, s.length.m, d.side.m);
		g.width.m = within(rng, s.width.m, d.side.m);
		g.height.m = within(rng, s.height.m, d.side.m);
		assert_ok(lab_density(&g, &out, &fx->err), &fx->err);
		add(&got, out.density.kg_m3);
	}
	gsl_rng_free(rng);
	assert_ok(
		lab_density_uncertainty(&s, &d, &relative, &fx->err), &fx->err);
	assert_near(relative, relative_sd(&got), allowed, 0);
}

static void
modulus__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct lab_modulus m = {.loading = LAB_THIRD,
		.span = {0.613},
		.width = {0.0983},
		.depth = {0.0747},
		.load = {217.4},
		.deflection = {0.31e-3},
		.with_shear = true,
		.poisson_ratio = 0.21};
	const struct lab_modulus_division d = {.span = {5e-3},
		.width = {1e-3},
		.depth = {1e-3},
		.deflection = {0.02e-3},
		.load = {5}};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct stress out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_modulus g = m;

		g.span.m = within(rng, m.span.m, d.span.m);
		g.width.m = within(rng, m.width.m, d.width.m);
		g.depth.m = within(rng, m.depth.m, d.depth.m);
		g.deflection.m = within(rng, m.deflection.m, d.deflection.m);
		g.load.N = within(rng, m.load.N, d.load.N);
		assert_ok(lab_modulus(&g, &out, &fx->err), &fx->err);
		add(&got, out.Pa);
	}
	gsl_rng_free(rng);
	assert_ok(
		lab_modulus_uncertainty(&m, &d, &relative, &fx->err), &fx->err);
	assert_near(relative, relative_sd(&got), allowed, 0);
}

static void
hot_box__matches_monte_carlo(void **state)
{
	struct fixture *fx = *state;
	const struct lab_hot_box b = {.power_W = 23.7,
		.leak_W = 4.1,
		.area = {0.36},
		.thickness = {0.083},
		.warm = {41.6},
		.cold = {10.2}};
	const struct lab_hot_box_division d = {.power_W = 0.5,
		.leak_W = 1,
		.thickness = {1e-3},
		.side = {2e-3},
		.temperature_K = 1};
	gsl_rng *rng = generator();
	struct moments got = {0};
	struct lab_hot_boxed out;
	double relative;

	for (int i = 0; i < DRAWS; i++) {
		struct lab_hot_box g = b;
		double side_m = within(rng, 0.6, d.side.m);

		g.power_W = within(rng, b.power_W, d.power_W);
		g.leak_W = within(rng, b.leak_W, d.leak_W);
		g.area.m2 = side_m * side_m;
		g.thickness.m = within(rng, b.thickness.m, d.thickness.m);
		g.warm.degC = within(rng, b.warm.degC, d.temperature_K);
		g.cold.degC = within(rng, b.cold.degC, d.temperature_K);
		assert_ok(lab_hot_box(&g, &out, &fx->err), &fx->err);
		add(&got, out.conductivity.W_mK);
	}
	gsl_rng_free(rng);
	assert_ok(
		lab_hot_box_uncertainty(&b, &d, &relative, &fx->err), &fx->err);
	assert_near(relative, relative_sd(&got), allowed, 0);
}

static double
product(const double *x, const void *context)
{
	(void)context;
	return x[0] / x[1];
}

static void
propagate__product_by_hand_and_refusals(void **state)
{
	/* x/y with small u: the relative parts add as squares; 1e-5 is what the
	 * second order leaves at u/y = 0.2 %. */
	struct fixture *fx = *state;
	const double x[] = {31.7, 8.3}, u[] = {0.12, 0.0166};
	const double bad[] = {0.12, -1}, far[] = {0, 8.3};
	double got = -3;

	assert_ok(lab_propagate(product, NULL, x, u, 2, &got, &fx->err),
		&fx->err);
	assert_near(
		got / (31.7 / 8.3), hypot(0.12 / 31.7, 0.0166 / 8.3), 1e-5, 0);
	got = -3;
	assert_int_equal(ERR_INPUT,
		lab_propagate(product, NULL, x, bad, 2, &got, &fx->err));
	err_clear(&fx->err);
	assert_int_equal(ERR_NUMERIC,
		lab_propagate(product, NULL, x, far, 2, &got, &fx->err));
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_propagate(product, NULL, x, u, 9, &got, &fx->err));
	assert_near(got, -3, 0, 0); /* untouched */
	assert_near(lab_of_division(1), 0.28867513459481287, 1e-15, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(flexure__matches_monte_carlo),
	TEST(drop__matches_monte_carlo_for_each_tip),
	TEST(crush__matches_monte_carlo),
	TEST(density__matches_monte_carlo),
	TEST(modulus__matches_monte_carlo),
	TEST(hot_box__matches_monte_carlo),
	TEST(propagate__product_by_hand_and_refusals),
};

TEST_MAIN(tests)

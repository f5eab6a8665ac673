/* test_shell.c - domes, vaults and arches against the check values of the
 * reference table, by their row names (tests/data/trade-b.csv), and against
 * equilibrium by integration. */
#include "trade_row.h"

#include "choose/shell.h"

static const double degree = 3.14159265358979323846 / 180;
static const double pi = 3.14159265358979323846;

static struct choose_domed
dome(struct fixture *fx, double angle_rad)
{
	const struct choose_dome d = {.radius = {4},
		.thickness = {0.15},
		.density = {1000},
		.angle_rad = angle_rad};
	struct choose_domed got;

	assert_ok(choose_dome(&d, &got, &fx->err), &fx->err);
	return got;
}

static void
dome__rows_of_the_table(void **state)
{
	/* Rows give the size of compression, ours is below 0. */
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	double turn = dome(fx, 0).turn_rad, along, hoop;
	struct stress buckling;

	assert_row(&b, "S43", -dome(fx, 0).along_N_m / 1000);
	assert_row(&b, "S43", -dome(fx, 0).hoop_N_m / 1000);
	assert_row(&b, "S44", -dome(fx, 60 * degree).along_N_m / 1000);
	assert_row(&b, "S45", -dome(fx, pi / 2).along_N_m / 1000);
	assert_row(&b, "S46", dome(fx, pi / 2).hoop_N_m / 1000);
	assert_row(&b, "S47", dome(fx, pi / 2).hoop.Pa / 1e6);
	assert_row(&b, "S48", turn / degree);
	assert_row(&b, "S50", dome(fx, 60 * degree).ring.N / 1000);
	assert_row(&b, "S84", -dome(fx, turn).along_N_m / 1000);
	assert_near(
		dome(fx, turn).hoop_N_m, 0, 0, 1e-10); /* rounding of 6 kN */
	assert_false(dome(fx, 0).is_thick);
	/* S49: plan load, no hoop at 45 degrees */
	assert_ok(choose_dome_snow((struct length){4}, (struct stress){750},
			  45 * degree, &along, &hoop, &fx->err),
		&fx->err);
	assert_near(hoop, 0, 0, 1e-10);
	assert_near(along, -1500, 1e-14, 0);
	assert_ok(choose_sphere_buckling((struct stress){1e9}, 0.0375, 0.2,
			  &buckling, &fx->err),
		&fx->err);
	assert_row(&b, "S51", buckling.Pa / 1e6);
}

static void
dome__is_in_balance(void **state)
{
	/* A second route: what a cap weighs, summed in rings, is what the
	 * meridian carries up around its edge; and the two forces over the
	 * radius balance the weight's part across the shell.  1e-7 is the
	 * midpoint rule in 4000 rings. */
	enum { RINGS = 4000 };
	struct fixture *fx = *state;

	for (double angle = 0.11; angle < 1.57; angle += 0.243) {
		struct choose_domed got = dome(fx, angle);
		double step = angle / RINGS, weight_N = 0;
		double edge_m = 2 * pi * 4 * sin(angle);

		for (int i = 0; i < RINGS; i++)
			weight_N += got.weight_Pa * 2 * pi * 4 *
				sin(((double)i + 0.5) * step) * 4 * step;
		assert_near(-got.along_N_m * sin(angle) * edge_m, weight_N,
			1e-7, 0);
		assert_near((got.along_N_m + got.hoop_N_m) / 4,
			-got.weight_Pa * cos(angle), 1e-12, 1e-9);
	}
}

static struct choose_vaulted
vault(struct fixture *fx, double angle_rad, double x_m)
{
	const struct choose_vault v = {.radius = {2.3},
		.thickness = {0.11},
		.length = {5.7},
		.density = {743},
		.angle_rad = angle_rad,
		.from_middle = {x_m}};
	struct choose_vaulted got;

	assert_ok(choose_vault(&v, &got, &fx->err), &fx->err);
	return got;
}

static void
vault__is_in_balance(void **state)
{
	/* A second route: the three equations of balance of a cylindrical shell,
	 * with differences for the derivatives.  Across: N/a = -q cos; around:
	 * dN/(a d angle) + dS/dx = -q sin; along: dM/dx + dS/(a d angle) = 0.
	 * 1e-7 of q is what central differences over 1e-4 leave. */
	struct fixture *fx = *state;
	const double d = 1e-4, a = 2.3;

	for (double angle = 0.07; angle < 1.5; angle += 0.31) {
		for (double x = 0.13; x < 2.8; x += 0.87) {
			struct choose_vaulted at = vault(fx, angle, x);
			double q = at.weight_Pa;
			double around =
				(vault(fx, angle + d, x).around_N_m -
					vault(fx, angle - d, x).around_N_m) /
				(2 * d * a);
			double shear_x =
				(vault(fx, angle, x + d).shear_N_m -
					vault(fx, angle, x - d).shear_N_m) /
				(2 * d);
			double along_x =
				(vault(fx, angle, x + d).along_N_m -
					vault(fx, angle, x - d).along_N_m) /
				(2 * d);
			double shear_a =
				(vault(fx, angle + d, x).shear_N_m -
					vault(fx, angle - d, x).shear_N_m) /
				(2 * d * a);

			assert_near(
				at.around_N_m / a, -q * cos(angle), 1e-13, 0);
			assert_near(
				around + shear_x, -q * sin(angle), 0, 1e-7 * q);
			assert_near(along_x + shear_a, 0, 0, 1e-6 * q);
		}
	}
	/* the ends carry nothing along */
	assert_near(vault(fx, 0.4, 2.85).along_N_m, 0, 0, 1e-9);
}

static void
arch__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct choose_arch a = {.span = {4}, .rise = {1}, .load_N_m = 2000};
	struct choose_arched got;

	assert_ok(choose_parabola(&a, &got, &fx->err), &fx->err);
	assert_row(&b, "S52", got.thrust.N / 1000);
	assert_ok(choose_catenary(&a, &got, &fx->err), &fx->err);
	assert_row(&b, "S53", got.parameter.m);
	assert_row(&b, "S54", got.thrust.N / 1000);
	assert_row(&b, "S55", got.developed.m);
	assert_row(&b, "S56", got.end.N / 1000);
	assert_row(&b, "S57", choose_least_arch);
	assert_row(&b, "S80", choose_least_arch);
	/* flat: the catenary nears the parabola, by the square of the rise */
	a.rise.m = 0.004;
	{
		struct choose_arched parabola;

		assert_ok(choose_parabola(&a, &parabola, &fx->err), &fx->err);
		assert_ok(choose_catenary(&a, &got, &fx->err), &fx->err);
		assert_near(got.thrust.N, parabola.thrust.N, 1e-5, 0);
	}
	/* half the weight at either end is the end's upright part */
	a.rise.m = 3.1;
	assert_ok(choose_catenary(&a, &got, &fx->err), &fx->err);
	assert_near(hypot(got.thrust.N, 2000 * got.developed.m / 2), got.end.N,
		1e-12, 0);
}

static void
shell__what_cannot_be_is_refused(void **state)
{
	struct fixture *fx = *state;
	struct choose_dome d = {
		.radius = {4}, .thickness = {5}, .density = {1000}};
	struct choose_vault v = {.radius = {4},
		.thickness = {0.1},
		.length = {3},
		.density = {1000},
		.from_middle = {2}};
	struct choose_arch a = {.span = {4}, .rise = {0}, .load_N_m = 1};
	struct choose_domed domed;
	struct choose_vaulted vaulted;
	struct choose_arched arched;

	assert_int_equal(ERR_INPUT, choose_dome(&d, &domed, &fx->err));
	assert_string_equal("thickness", fx->err.field);
	d.thickness.m = 0.1;
	d.angle_rad = 2;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_dome(&d, &domed, &fx->err));
	assert_string_equal("angle", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_vault(&v, &vaulted, &fx->err));
	assert_string_equal("from_middle", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_catenary(&a, &arched, &fx->err));
	assert_string_equal("rise", fx->err.field);
	a.rise.m = 1e-8;
	err_clear(&fx->err);
	assert_int_equal(ERR_NUMERIC, choose_catenary(&a, &arched, &fx->err));
}

static const struct CMUnitTest tests[] = {
	TEST(dome__rows_of_the_table),
	TEST(dome__is_in_balance),
	TEST(vault__is_in_balance),
	TEST(arch__rows_of_the_table),
	TEST(shell__what_cannot_be_is_refused),
};

TEST_MAIN(tests)

/* test_stiffness.c - modulus, toughness, lever and handling against the check
 * values of the reference table, by their row names. */
#include "trade_row.h"

#include "lab/flexure.h"
#include "lab/handling.h"
#include "lab/lever.h"
#include "lab/modulus.h"
#include "lab/toughness.h"

static double
modulus_MPa(struct fixture *fx, enum lab_loading loading, bool with_shear)
{
	const struct lab_modulus m = {.loading = loading,
		.span = {0.3},
		.width = {0.1},
		.depth = {0.1},
		.load = {1000},
		.deflection = {0.03e-3},
		.with_shear = with_shear,
		.poisson_ratio = 0.2};
	struct stress got;

	assert_ok(lab_modulus(&m, &got, &fx->err), &fx->err);
	return got.Pa / 1e6;
}

static void
modulus__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows rows = trade_read(fx->a, "trade-a.csv");

	assert_row(&rows, "E-CP", modulus_MPa(fx, LAB_CENTRE, false));
	assert_row(&rows, "E-WIKI", modulus_MPa(fx, LAB_CENTRE, false));
	assert_row(&rows, "E-CPS", modulus_MPa(fx, LAB_CENTRE, true));
	assert_row(&rows, "E-TP", modulus_MPa(fx, LAB_THIRD, false));
	assert_row(&rows, "E-TPS", modulus_MPa(fx, LAB_THIRD, true));
}

/* Sag in the middle by the unit-load integral of M m/(E I) + 6/5 V v/(G A),
 * midpoint rule over half the span, doubled. */
static double
sag_by_integration(const struct lab_modulus *m, double modulus_Pa)
{
	enum { STEPS = 20000 };
	double area_m2 = m->width.m * m->depth.m;
	double inertia_m4 = area_m2 * m->depth.m * m->depth.m / 12;
	double shear_Pa = modulus_Pa / (2 * (1 + m->poisson_ratio));
	double step_m = m->span.m / 2 / STEPS, sag_m = 0;

	for (int i = 0; i < STEPS; i++) {
		double x = ((double)i + 0.5) * step_m;
		bool before = m->loading == LAB_CENTRE || x < m->span.m / 3;
		double moment = m->load.N / 2 * (before ? x : m->span.m / 3);
		double shear = before ? m->load.N / 2 : 0;

		sag_m += 2 * step_m *
			(moment * x / 2 / (modulus_Pa * inertia_m4) +
				1.2 * shear / 2 / (shear_Pa * area_m2));
	}
	return sag_m;
}

static void
modulus__agrees_with_the_unit_load_integral(void **state)
{
	/* A second route.  1e-6: the kink at the third point lies within one of
	 * 20000 steps. */
	struct fixture *fx = *state;

	for (int third = 0; third < 2; third++) {
		struct lab_modulus m = {
			.loading = third ? LAB_THIRD : LAB_CENTRE,
			.span = {0.613},
			.width = {0.0983},
			.depth = {0.0747},
			.load = {217.4},
			.with_shear = true,
			.poisson_ratio = 0.23};
		struct stress got;

		m.deflection.m = sag_by_integration(&m, 0.93e9);
		assert_ok(lab_modulus(&m, &got, &fx->err), &fx->err);
		assert_near(got.Pa, 0.93e9, 1e-6, 0);
	}
}

static void
modulus__bad_readings_are_refused(void **state)
{
	struct fixture *fx = *state;
	struct lab_modulus m = {.span = {0},
		.width = {0.1},
		.depth = {0.1},
		.load = {1000},
		.deflection = {1e-5},
		.with_shear = true,
		.poisson_ratio = 0.2};
	const struct lab_modulus_division ruler = {.deflection = {1e-3}};
	struct stress got;
	double relative;

	assert_int_equal(ERR_INPUT, lab_modulus(&m, &got, &fx->err));
	assert_string_equal("span", fx->err.field);
	m.span.m = 0.3;
	m.poisson_ratio = 0.7;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_modulus(&m, &got, &fx->err));
	assert_string_equal("poisson", fx->err.field);
	m.poisson_ratio = 0.2;
	err_clear(&fx->err);
	assert_int_equal(ERR_NUMERIC,
		lab_modulus_uncertainty(&m, &ruler, &relative, &fx->err));
	assert_string_equal("deflection", fx->err.field);
	m.deflection.m = -1e-5;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_modulus(&m, &got, &fx->err));
	assert_string_equal("deflection", fx->err.field);
}

static const struct lab_sag trap[] = {{{0}, {0}}, {{0.05e-3}, {15000}},
	{{0.75e-3}, {6000}}, {{3e-3}, {4500}}};

static void
toughness__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows rows = trade_read(fx->a, "trade-a.csv");
	const struct lab_toughness t = {.sag = trap,
		.n_sag = 4,
		.span = {0.45},
		.width = {0.15},
		.depth = {0.15}};
	/* 20 J to 3 mm: a step of 20/0.003 N, peak read beside it */
	const struct lab_sag even[] = {
		{{0}, {0}}, {{0}, {20 / 3e-3}}, {{3e-3}, {20 / 3e-3}}};
	const struct lab_toughness twenty = {.sag = even,
		.n_sag = 3,
		.span = {0.45},
		.width = {0.15},
		.depth = {0.15}};
	struct lab_toughened got;

	assert_ok(lab_toughness(&t, &got, &fx->err), &fx->err);
	assert_row(&rows, "C1609-TRAP", got.t_150.J);
	assert_row(&rows, "C1609-F1", got.f_peak.Pa / 1e6);
	assert_row(&rows, "C1609-F150", got.f_150.Pa / 1e6);
	assert_ok(lab_toughness(&twenty, &got, &fx->err), &fx->err);
	assert_row(&rows, "JCI-FE", got.equivalent.Pa / 1e6);
	/* the row has f1 = 2.0 MPa; here f_peak is that of the even load */
	assert_row(&rows, "C1609-RT",
		100 * got.r_150_ratio * got.f_peak.Pa / 2.0e6);
}

static void
toughness__the_curve_must_reach_and_run_forward(void **state)
{
	struct fixture *fx = *state;
	struct lab_toughness t = {.sag = trap,
		.n_sag = 3,
		.span = {0.45},
		.width = {0.15},
		.depth = {0.15}};
	const struct lab_sag back[] = {{{2e-3}, {5}}, {{1e-3}, {4}}};
	const struct lab_sag below[] = {{{2e-3}, {-5}}};
	struct lab_toughened got;
	struct energy area;
	struct interval ratio;

	assert_int_equal(ERR_INPUT, lab_toughness(&t, &got, &fx->err));
	assert_string_equal("sags", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_area_under(
			back, 2, (struct length){1e-3}, &area, &fx->err));
	assert_string_equal("sags[1].deflection", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_area_under(
			below, 1, (struct length){1e-3}, &area, &fx->err));
	assert_string_equal("sags[0].load", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_area_under(
			below, 0, (struct length){1e-3}, &area, &fx->err));
	/* cut between two readings: 0..1 mm of a line from 0, 0 to 2 mm, 8 N is
	 * 1 mm * 4 N / 2 (by hand) */
	{
		const struct lab_sag line[] = {{{2e-3}, {8}}};

		assert_ok(lab_area_under(line, 1, (struct length){1e-3}, &area,
				  &fx->err),
			&fx->err);
		assert_near(area.J, 2e-3, 1e-14, 0);
	}
	/* held 61 to 64 N after a crack between 112 and 118 N (by hand) */
	assert_ok(lab_residual_ratio((struct interval){112, 118},
			  (struct interval){61, 64}, &ratio, &fx->err),
		&fx->err);
	assert_near(ratio.low, 61.0 / 118, 1e-15, 0);
	assert_near(ratio.high, 64.0 / 112, 1e-15, 0);
	assert_ok(lab_residual_ratio((struct interval){0, 118},
			  (struct interval){61, 64}, &ratio, &fx->err),
		&fx->err);
	assert_true(isinf(ratio.high));
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		lab_residual_ratio((struct interval){5, 4},
			(struct interval){1, 2}, &ratio, &fx->err));
	assert_string_equal("first_crack", fx->err.field);
}

static void
lever__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows rows = trade_read(fx->a, "trade-a.csv");
	struct lab_lever lever = {.hung = {20},
		.arm_hung = {1.5},
		.beam = {6},
		.arm_beam = {0.8},
		.arm_piece = {0.15}};
	struct force force;
	struct mass hung;

	assert_ok(lab_lever_force(&lever, &force, &fx->err), &fx->err);
	assert_row(&rows, "LEV-1", force.N);
	/* there and back; 1e-14 is rounding */
	assert_ok(lab_lever_hung(&lever, force, &hung, &fx->err), &fx->err);
	assert_near(hung.kg, 20, 1e-14, 0);
	lever = (struct lab_lever){.hung = {10},
		.arm_hung = {1},
		.beam = {3},
		.arm_beam = {0.5},
		.arm_piece = {0.2}};
	assert_ok(lab_lever_force(&lever, &force, &fx->err), &fx->err);
	/* LEV-2 goes on to a centre-point beam: 3 P L/(2 b d^2) */
	assert_row(&rows, "LEV-2", 3 * force.N * 300 / (2 * 100.0 * 100 * 100));
	assert_int_equal(ERR_INPUT,
		lab_lever_hung(&lever, (struct force){1}, &hung, &fx->err));
	assert_string_equal("force", fx->err.field);
	lever.arm_piece.m = 0;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_lever_force(&lever, &force, &fx->err));
	assert_string_equal("arm_piece", fx->err.field);
}

static struct lab_handled
lift(struct fixture *fx, enum lab_grip grip, double jerk)
{
	const struct lab_handling h = {.grip = grip,
		.length = {3},
		.width = {0.3},
		.depth = {0.1},
		.density = {1200},
		.inner_share = lab_equal_moment_share,
		.jerk = jerk};
	struct lab_handled got;

	assert_ok(lab_handling(&h, &got, &fx->err), &fx->err);
	return got;
}

static void
handling__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows rows = trade_read(fx->a, "trade-b.csv");

	assert_row(&rows, "S62", lab_equal_moment_share);
	assert_row(&rows, "S63", lift(fx, LAB_GRIP_INNER, 1).moment.N_m);
	assert_row(&rows, "S64", lift(fx, LAB_GRIP_INNER, 1.5).stress.Pa / 1e6);
	assert_row(&rows, "S65", lift(fx, LAB_GRIP_ENDS, 1).stress.Pa / 1e6);
	assert_row(&rows, "S66", lift(fx, LAB_GRIP_ENDS, 1).moment.N_m);
}

static void
handling__inner_points_agree_with_flexure(void **state)
{
	/* Between two points each a from an end the span is L - 2a and the
	 * overhangs a: lab_flexure's own weight, a second route; 1e-13 is
	 * rounding.  Below the equal-moment share the middle governs. */
	struct fixture *fx = *state;
	const double length_m = 2.35, share = 0.137;
	struct lab_handling h = {.grip = LAB_GRIP_INNER,
		.length = {length_m},
		.width = {0.31},
		.depth = {0.088},
		.density = {913},
		.inner_share = share,
		.jerk = 1};
	const struct lab_flexure f = {.span = {length_m * (1 - 2 * share)},
		.width = {0.31},
		.depth = {0.088},
		.held = {1},
		.has_beam = true,
		.beam_mass = {913 * 0.31 * 0.088 * length_m},
		.beam_length = {length_m}};
	struct lab_handled got;
	struct lab_flexed flexed;

	assert_ok(lab_handling(&h, &got, &fx->err), &fx->err);
	assert_ok(lab_flexure(&f, &flexed, &fx->err), &fx->err);
	assert_near(got.moment.N_m, flexed.self_weight.N_m, 1e-13, 0);
	h.jerk = 0.5;
	assert_int_equal(ERR_INPUT, lab_handling(&h, &got, &fx->err));
	assert_string_equal("jerk", fx->err.field);
	h.jerk = 2;
	h.inner_share = 0.5;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_handling(&h, &got, &fx->err));
	assert_string_equal("inner_share", fx->err.field);
	h.depth.m = -0.1;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, lab_handling(&h, &got, &fx->err));
	assert_string_equal("depth", fx->err.field);
}

static const struct CMUnitTest tests[] = {
	TEST(modulus__rows_of_the_table),
	TEST(modulus__agrees_with_the_unit_load_integral),
	TEST(modulus__bad_readings_are_refused),
	TEST(toughness__rows_of_the_table),
	TEST(toughness__the_curve_must_reach_and_run_forward),
	TEST(lever__rows_of_the_table),
	TEST(handling__rows_of_the_table),
	TEST(handling__inner_points_agree_with_flexure),
};

TEST_MAIN(tests)

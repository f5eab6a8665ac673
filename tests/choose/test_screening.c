/* test_screening.c - sections, walls, slabs, lintels and forms against the check
 * values of the reference table, by their row names (tests/data/trade-b.csv). */
#include "trade_row.h"

#include "choose/forms.h"
#include "choose/ground.h"
#include "choose/lintel.h"
#include "choose/section.h"
#include "choose/wall.h"

static const double psi = 4.4482216152605 / (0.0254 * 0.0254);
static const double inch = 0.0254;
static const double pcf_kg_m3 = 0.45359237 / 0.028316846592;

static struct choose_section
panel(double compressive_MPa)
{
	return (struct choose_section){.width = {1},
		.depth = {0.15},
		.strength = {1.4705e6},
		.has_reinforcement = true,
		.compressive = {compressive_MPa * 1e6},
		.steel = {500e-6},
		.effective = {0.12},
		.yield = {420e6}};
}

static void
section__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct choose_section s = panel(17);
	struct choose_sectioned got;

	assert_ok(choose_section(&s, &got, &fx->err), &fx->err);
	assert_row(&b, "S27", got.cracking.N_m / 1000);
	assert_row(&b, "S28", got.block.m * 1000);
	assert_row(&b, "S29", got.ultimate.N_m / 1000);
	assert_row(&b, "S30", got.steel_strain);
	assert_true(got.steel_yields && got.is_ductile && !got.breaks_at_crack);
	s = panel(5);
	assert_ok(choose_section(&s, &got, &fx->err), &fx->err);
	assert_row(&b, "S31", got.ultimate.N_m / 1000);
	assert_row(&b, "S32", got.steel_strain);
	assert_true(got.steel_yields && !got.is_ductile);
}

static void
section__strength_from_formulas_rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct stress got;

	assert_ok(choose_rupture((struct stress){10e6}, 0.75, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S25", got.Pa / 1e6);
	/* S26 is the US form 7.5 lambda sqrt(f'c): its 7.5 and the metric 0.62
	 * are both rounded, 7.5 sqrt(psi) is 0.6228; 0.5 % covers that */
	assert_ok(choose_rupture(
			  (struct stress){2500 * psi}, 0.75, &got, &fx->err),
		&fx->err);
	assert_near(got.Pa / psi, 281.25, 0.005, 0);
	assert_row(&b, "S34",
		choose_lightweight((struct density){115 * pcf_kg_m3}));
	assert_ok(choose_elasticity((struct density){1440},
			  (struct stress){17e6}, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S33", got.Pa / 1e6);
	assert_near(choose_block_factor((struct stress){35e6}), 0.80, 1e-14, 0);
	assert_near(choose_block_factor((struct stress){90e6}), 0.65, 0, 0);
}

/* The stress of concrete at a strain, by the block of ACI 318: nothing to
 * (1 - beta) of the crushing strain, 0.85 f'c beyond; or parabola and rectangle
 * (EN 1992-1-1, 3.1.7: 0.002, then even to the crushing strain), 0.85 f'c. */
static double
concrete_Pa(const struct choose_section *s, bool parabola, double strain)
{
	double full_Pa = 0.85 * s->compressive.Pa;
	double x = strain / 0.002;

	if (strain <= 0)
		return 0;
	if (!parabola) {
		double off = 1 - choose_block_factor(s->compressive);

		return strain >= off * 0.003 ? full_Pa : 0;
	}
	return x >= 1 ? full_Pa : full_Pa * (1 - (1 - x) * (1 - x));
}

static double
steel_N(const struct choose_section *s, double neutral_m)
{
	double strain = 0.003 * (s->effective.m - neutral_m) / neutral_m;

	return s->steel.m2 *
		fmax(-s->yield.Pa, fmin(s->yield.Pa, 200e9 * strain));
}

/* Force (and moment about the pressed face) of fibres down to the neutral axis,
 * the top at its crushing strain. */
static double
fibres_N(const struct choose_section *s, bool parabola, double neutral_m,
	double *moment_N_m)
{
	enum { FIBRES = 20000 };
	double step_m = neutral_m / FIBRES, force_N = 0;

	*moment_N_m = 0;
	for (int i = 0; i < FIBRES; i++) {
		double y_m = ((double)i + 0.5) * step_m;
		double strain = 0.003 * (1 - y_m / neutral_m);
		double fibre_N = concrete_Pa(s, parabola, strain) * s->width.m *
			step_m;

		force_N += fibre_N;
		*moment_N_m += fibre_N * y_m;
	}
	return force_N;
}

static double
ultimate_by_fibres(const struct choose_section *s, bool parabola)
{
	double low_m = 1e-6, high_m = s->depth.m, moment_N_m = 0;

	for (int i = 0; i < 60; i++) {
		double c_m = (low_m + high_m) / 2;

		if (fibres_N(s, parabola, c_m, &moment_N_m) < steel_N(s, c_m))
			low_m = c_m;
		else
			high_m = c_m;
	}
	(void)fibres_N(s, parabola, high_m, &moment_N_m);
	return steel_N(s, high_m) * s->effective.m - moment_N_m;
}

static void
section__agrees_with_fibre_integration(void **state)
{
	/* A second route: strains even over the depth, fibres added up, the
	 * neutral axis found by halving.  With the same block 1e-4 (one fibre in
	 * 20000 at its edge, and force balance); with parabola and rectangle,
	 * another law, 3 % where the steel yields and 8 % where the top crushes
	 * (at one strain that law presses with 0.78 of the full stress over the
	 * neutral depth, the block with 0.85).  Steel from far below to far above what yields. */
	struct fixture *fx = *state;

	for (double mm2 = 47; mm2 < 4000; mm2 *= 2.3) {
		struct choose_section s = {.width = {0.97},
			.depth = {0.118},
			.strength = {0.43e6},
			.has_reinforcement = true,
			.compressive = {2.3e6},
			.steel = {mm2 * 1e-6},
			.effective = {0.093},
			.yield = {473e6}};
		struct choose_sectioned got;

		assert_ok(choose_section(&s, &got, &fx->err), &fx->err);
		assert_near(got.ultimate.N_m, ultimate_by_fibres(&s, false),
			1e-4, 0);
		assert_near(got.ultimate.N_m, ultimate_by_fibres(&s, true),
			got.steel_yields ? 0.03 : 0.08, 0);
		assert_true(got.steel_yields == (mm2 < 200));
	}
}

static void
section__what_cannot_be_is_refused(void **state)
{
	struct fixture *fx = *state;
	struct choose_section s = panel(17);
	struct choose_sectioned got;

	s.effective.m = 0.15;
	assert_int_equal(ERR_INPUT, choose_section(&s, &got, &fx->err));
	assert_string_equal("reinforcement.effective_depth", fx->err.field);
	s = panel(17);
	s.steel.m2 = 1;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_section(&s, &got, &fx->err));
	assert_string_equal("reinforcement.area", fx->err.field);
	s = panel(0);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_section(&s, &got, &fx->err));
	assert_string_equal("compressive_strength", fx->err.field);
	s.has_reinforcement = false;
	err_clear(&fx->err);
	assert_ok(choose_section(&s, &got, &fx->err), &fx->err);
	assert_near(got.after_crack.N_m, 0, 0, 0);
	s.depth.m = 0;
	assert_int_equal(ERR_INPUT, choose_section(&s, &got, &fx->err));
	assert_string_equal("depth", fx->err.field);
}

static struct choose_wall
wall_of_table(void)
{
	return (struct choose_wall){.height = {2.7},
		.thickness = {0.2},
		.strength = {3e6},
		.density = {800},
		.wind = {1000},
		.safety = 3};
}

static void
wall__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	const struct choose_wall w = wall_of_table();
	const struct length tall = {2.7}, none = {0};
	struct choose_walled got;
	double buckling_N;

	assert_ok(choose_wall(&w, &got, &fx->err), &fx->err);
	assert_row(&b, "S17", got.bending.Pa * 0.2 * 0.2 / 6 / 1000);
	assert_row(&b, "S18", got.bending.Pa / 1e6);
	assert_row(&b, "S19", got.axial_middle.Pa / 1e6);
	assert_row(&b, "S20", got.net_tension.Pa / 1e6);
	assert_near(got.slenderness, 13.5, 1e-14, 0);
	/* TMS 402 takes a quarter of f'm before the slenderness */
	assert_row(&b, "S01", 0.25 * 3.0 * got.capacity_ratio);
	assert_row(&b, "S02",
		0.25 * 3.0 * choose_slender_capacity(2.7 / 0.075 * sqrt(12)));
	assert_row(&b, "S03", choose_slender_capacity(99));
	assert_row(&b, "S03", choose_slender_capacity(99 * (1 + 1e-9)));
	assert_ok(choose_buckling_load((struct stress){1500e6},
			  (struct length){1}, (struct length){0.2}, tall,
			  (struct length){0.02}, &buckling_N, &fx->err),
		&fx->err);
	assert_row(&b, "S04", buckling_N / 1000);
	assert_ok(choose_buckling_load((struct stress){1500e6},
			  (struct length){1}, (struct length){0.15}, tall, none,
			  &buckling_N, &fx->err),
		&fx->err);
	assert_row(&b, "S75", buckling_N / 1000);
}

static void
wall__european_rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	const struct length tall = {2.7}, along = {3};
	struct stress wind;
	struct force bearing;
	double got;

	assert_ok(choose_reduction_en1996(15, 0.05, 1000, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S07", got);
	/* S08 and S10 are the code's rounded forms: within 0.001 of this one */
	assert_near(got, 0.7451, 0, 0.001);
	assert_ok(choose_reduction_en1996(20, 0.10, 700, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S09", got);
	assert_near(got, 0.4218, 0, 0.001);
	/* S11: at a slenderness where u = 0 only 1 - 2 e/t is left */
	assert_ok(choose_reduction_en1996(
			  0.063 * sqrt(1000), 0.10, 1000, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S11", got);
	assert_row(&b, "S12", choose_initial_eccentricity(tall).m * 1000);
	assert_row(&b, "S74", choose_kern((struct length){0.2}).m * 1000);
	assert_row(&b, "S06",
		choose_aac_modulus((struct stress){580 * psi}).Pa / psi);
	assert_ok(choose_height_factor(1, tall, along, false, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S13", got);
	assert_ok(choose_height_factor(1, tall, along, true, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S14", got);
	assert_ok(
		choose_wind_asce(40, 0.85, 1, 0.85, &wind, &fx->err), &fx->err);
	assert_row(&b, "S21", wind.Pa);
	assert_ok(choose_wind_en(25, &wind, &fx->err), &fx->err);
	assert_row(&b, "S22", wind.Pa);
	assert_ok(choose_bearing((struct stress){4e6}, (struct area){0.01},
			  (struct area){0.09}, &bearing, &fx->err),
		&fx->err);
	assert_row(&b, "S23", bearing.N / 1000);
	assert_ok(choose_bearing_factor((struct length){1},
			  (struct length){2.5}, 0.25, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S24", got);
}

static void
wall__stress_at_the_foot_and_utilisation_by_hand(void **state)
{
	/* 2.4 m of 600 kg/m3 and 6 kN/m on 200 mm: 14.12 and 30 kPa (by hand);
	 * with no wind nothing pulls, and crushing is 3 x 44.1 kPa over what
	 * slenderness leaves of 1.5 MPa. */
	struct fixture *fx = *state;
	const struct choose_wall w = {.height = {2.4},
		.thickness = {0.2},
		.strength = {1.5e6},
		.density = {600},
		.load_N_m = 6000,
		.safety = 3};
	double slim = 2.4 / 0.2 * sqrt(12) / 140;
	double foot_Pa = 600 * 9.80665 * 2.4 + 30e3;
	struct choose_walled got;

	assert_ok(choose_wall(&w, &got, &fx->err), &fx->err);
	assert_near(got.axial.Pa, foot_Pa, 1e-14, 0);
	assert_near(got.bending.Pa, 0, 0, 0);
	assert_near(got.utilisation, 3 * foot_Pa / (1.5e6 * (1 - slim * slim)),
		1e-14, 0);
	assert_false(got.tension_governs);
}

static void
wall__more_wind_never_helps(void **state)
{
	/* A balance over a sweep: utilisation grows with wind, and with the
	 * height. */
	struct fixture *fx = *state;
	double before = 0;

	for (double wind = 0; wind < 3000; wind += 217) {
		struct choose_wall w = wall_of_table();
		struct choose_walled got;

		w.wind.Pa = wind;
		assert_ok(choose_wall(&w, &got, &fx->err), &fx->err);
		assert_true(got.utilisation >= before);
		before = got.utilisation;
		w.height.m *= 1.13;
		assert_ok(choose_wall(&w, &got, &fx->err), &fx->err);
		assert_true(got.utilisation > before);
	}
}

static void
wall__what_cannot_be_is_refused(void **state)
{
	struct fixture *fx = *state;
	struct choose_wall w = wall_of_table();
	struct choose_walled got;
	double x;

	w.thickness.m = 0;
	assert_int_equal(ERR_INPUT, choose_wall(&w, &got, &fx->err));
	assert_string_equal("thickness", fx->err.field);
	w = wall_of_table();
	w.load_N_m = -1;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_wall(&w, &got, &fx->err));
	assert_string_equal("load", fx->err.field);
	w = wall_of_table();
	w.safety = 0.9;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_wall(&w, &got, &fx->err));
	assert_string_equal("safety_factor", fx->err.field);
	w = wall_of_table();
	w.thickness.m = 3;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_wall(&w, &got, &fx->err));
	assert_string_equal("thickness", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		choose_reduction_en1996(28, 0.05, 1000, &x, &fx->err));
	assert_string_equal("slenderness", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		choose_bearing_factor((struct length){1}, (struct length){2.5},
			0.5, &x, &fx->err));
	assert_string_equal("share", fx->err.field);
}

static void
ground__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct choose_ground g = {.load = {10000 * 4.4482216152605},
		.radius = {6 * inch},
		.thickness = {10 * inch},
		.modulus = {4e6 * psi},
		.poisson_ratio = 0.15,
		.subgrade_Pa_m = 100 * psi / inch};
	struct choose_grounded got;

	assert_ok(choose_ground(&g, &got, &fx->err), &fx->err);
	assert_row(&b, "S35", got.stiffness.m / inch);
	assert_row(&b, "S36", got.equivalent.m / inch);
	assert_row(&b, "S38", got.inside.Pa / psi);
	assert_row(&b, "S39", got.inside_sag.m / inch);
	assert_row(&b, "S40", got.corner.Pa / psi);
	assert_row(&b, "S41", got.corner_sag.m / inch);
	/* S37, Huang's printed 143.7 psi with rounded constants 0.316 and 1.069:
	 * 0.1 psi of his rounding and 0.1 of the table's */
	assert_near(got.inside.Pa / psi, 143.7, 0, 0.2);
	assert_row(&b, "S81", log(2) + 0.5 - 0.57721566490153286);
	assert_row(&b, "S82",
		choose_ground_radius(
			(struct length){0.2}, (struct length){0.15})
				.m *
			1000);
	g = (struct choose_ground){.load = {5000},
		.radius = {0.05},
		.thickness = {0.1},
		.modulus = {2e9},
		.poisson_ratio = 0.2,
		.subgrade_Pa_m = 30e6};
	assert_ok(choose_ground(&g, &got, &fx->err), &fx->err);
	assert_row(&b, "S42", got.inside.Pa / 1e6);
	g.thickness.m = 0;
	assert_int_equal(ERR_INPUT, choose_ground(&g, &got, &fx->err));
	assert_string_equal("thickness", fx->err.field);
	g.thickness.m = 0.1;
	g.radius.m = 0.4;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_ground(&g, &got, &fx->err));
	assert_string_equal("radius", fx->err.field);
}

static void
lintel__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct choose_lintel l = {.span = {1.2},
		.width = {0.2},
		.depth = {0.2},
		.density = {1e-9}, /* the rows leave its own weight out */
		.wall = {8000 / gravity_m_s2},
		.arches = true,
		.strength = {0.5e6},
		.safety = 3};
	struct choose_lintelled got;
	struct length sag;

	assert_ok(choose_lintel(&l, &got, &fx->err), &fx->err);
	assert_row(&b, "S60", got.triangle.N / 1000);
	assert_row(&b, "S61", got.moment.N_m / 1000);
	l.arches = false;
	l.wall.kg_m3 = 0;
	l.load_N_m = 10e3;
	assert_ok(choose_lintel(&l, &got, &fx->err), &fx->err);
	assert_row(&b, "S58", got.moment.N_m / 1000);
	assert_near(got.shear.N, 6000, 1e-9, 0); /* S58's second figure */
	assert_near(got.utilisation, 3 * (6 * 1800 / 0.008) / 0.5e6, 1e-9, 0);
	assert_ok(choose_beam_sag(10e3, (struct length){1.2},
			  (struct stress){2e9}, (struct length){0.2},
			  (struct length){0.2}, &sag, &fx->err),
		&fx->err);
	assert_row(&b, "S59", sag.m * 1000);
	l.span.m = 0;
	assert_int_equal(ERR_INPUT, choose_lintel(&l, &got, &fx->err));
	assert_string_equal("span", fx->err.field);
	l.span.m = 1.2;
	l.wall_height.m = -2;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_lintel(&l, &got, &fx->err));
	assert_string_equal("wall_height", fx->err.field);
}

/* The guide's own pressures, for mixes that are vibrated in. */
static void
forms__guide_rows_of_the_table(void **state)
{
	static const double foot = 0.3048, psf_Pa = 47.88025898;
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	const struct density usual = {2320}, foamed = {1000};
	struct stress got;

	assert_ok(choose_forms_guide(usual, 1.5, 20, false, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S68", got.Pa / 1000);
	assert_ok(choose_forms_guide(usual, 3.0, 20, false, &got, &fx->err),
		&fx->err);
	assert_row(&b, "S69", got.Pa / 1000);
	/* S70, S71 are the guide's US forms, 150 + 9000 R/T and 150 + 43400/T +
	 * 2800 R/T psf: their figures and the metric ones are each rounded to
	 * two or three digits; 0.3 % covers that */
	assert_ok(choose_forms_guide(usual, 6 * foot, (70 - 32) / 1.8, true,
			  &got, &fx->err),
		&fx->err);
	assert_near(got.Pa / psf_Pa, 921.4, 0.003, 0);
	assert_ok(choose_forms_guide(usual, 10 * foot, (70 - 32) / 1.8, false,
			  &got, &fx->err),
		&fx->err);
	assert_near(got.Pa / psf_Pa, 1170.0, 0.003, 0);
	assert_row(&b, "S72", choose_forms_weight(foamed));
	assert_near(choose_forms_weight((struct density){2300}), 1, 0, 0);
	assert_near(choose_forms_weight((struct density){2552}), 1.1, 1e-12, 0);
	assert_int_equal(ERR_INPUT,
		choose_forms_guide(usual, 0, 20, true, &got, &fx->err));
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		choose_forms_guide(usual, 5, 20, false, &got, &fx->err));
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		choose_forms_guide(usual, 2, -4, false, &got, &fx->err));
}

static void
forms__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct choose_forms f = {.density = {800}, .lift_height = {1.0}};
	struct choose_formed got;
	struct force tie;

	assert_ok(choose_forms(&f, &got, &fx->err), &fx->err);
	assert_row(&b, "S67", got.pressure.Pa / 1000);
	f.lift_height.m = 2.4;
	assert_ok(choose_forms(&f, &got, &fx->err), &fx->err);
	assert_row(&b, "S73", got.thrust_N_m / 1000);
	assert_near(got.acts_at.m, 0.8, 1e-14, 0);
	assert_ok(choose_tie_load((struct stress){4200}, (struct length){0.6},
			  (struct length){0.45}, &tie, &fx->err),
		&fx->err);
	assert_near(tie.N, 1134, 1e-14, 0); /* by hand */
	f.lift_height.m = 250;
	assert_int_equal(ERR_INPUT, choose_forms(&f, &got, &fx->err));
	assert_string_equal("lift_height", fx->err.field);
	f.density.kg_m3 = -3;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_forms(&f, &got, &fx->err));
	assert_string_equal("density", fx->err.field);
}

static const struct CMUnitTest tests[] = {
	TEST(section__rows_of_the_table),
	TEST(section__strength_from_formulas_rows_of_the_table),
	TEST(section__agrees_with_fibre_integration),
	TEST(section__what_cannot_be_is_refused),
	TEST(wall__rows_of_the_table),
	TEST(wall__european_rows_of_the_table),
	TEST(wall__stress_at_the_foot_and_utilisation_by_hand),
	TEST(wall__more_wind_never_helps),
	TEST(wall__what_cannot_be_is_refused),
	TEST(ground__rows_of_the_table),
	TEST(lintel__rows_of_the_table),
	TEST(forms__rows_of_the_table),
	TEST(forms__guide_rows_of_the_table),
};

TEST_MAIN(tests)

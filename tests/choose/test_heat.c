/* test_heat.c - conductivity, U-value and condensation against the check values
 * of the reference table, by their row names (tests/data/trade-b.csv, trade-a.
 * csv). */
#include "trade_row.h"

#include "choose/condensation.h"
#include "choose/conductivity.h"
#include "choose/heat.h"

#include <stdio.h>

static const double pcf_kg_m3 = 0.45359237 / 0.028316846592;
static const double us_W_mK = 0.14422788869857938; /* H12, exact Btu_IT */

static double
conducts(struct fixture *fx, enum choose_relation relation, double kg_m3)
{
	struct choose_conducts got;

	assert_ok(choose_relation_conductivity(
			  relation, (struct density){kg_m3}, 0, &got, &fx->err),
		&fx->err);
	assert_true(got.has_value);
	return got.oven_dry.W_mK;
}

static void
conductivity__rows_of_the_table(void **state)
{
	static const int pcf[] = {25, 30, 40, 60, 75};
	static const int kg_m3[] = {400, 600, 800, 1000, 1200};
	static const double p90[] = {
		0.085, 0.11, 0.13, 0.16, 0.18, 0.21, 0.24, 0.26};
	struct fixture *fx = *state;
	struct trade_rows a = trade_read(fx->a, "trade-a.csv");
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	char id[32];

	for (int i = 0; i < 5; i++) {
		(void)snprintf(id, sizeof id, "H%02d", 1 + i);
		assert_row(&b, id,
			conducts(fx, CHOOSE_ACI_122, pcf[i] * pcf_kg_m3) /
				us_W_mK);
		(void)snprintf(id, sizeof id, "H%02d", 6 + i);
		assert_row(&b, id, conducts(fx, CHOOSE_ACI_122, kg_m3[i]));
	}
	assert_row(&b, "H11", conducts(fx, CHOOSE_ACI_122_ROUNDED, 800));
	assert_row(&b, "H12", us_W_mK);
	assert_row(&a, "VALORE-SI", conducts(fx, CHOOSE_VALORE_1980, 500));
	assert_row(&a, "VALORE-SI2", conducts(fx, CHOOSE_VALORE_1980, 1000));
	assert_row(&a, "VALORE-IP",
		conducts(fx, CHOOSE_ACI_122, 30 * pcf_kg_m3) / us_W_mK);
	for (int i = 0; i < 8; i++) {
		(void)snprintf(id, sizeof id, "H%02d", 20 + i);
		assert_row(&b, id,
			conducts(fx, CHOOSE_EN_1745_P50, 300 + 100 * i));
	}
	/* the second column of H20 to H27; the tables hold their own entries
	 * exactly */
	for (int i = 0; i < 8; i++)
		assert_near(conducts(fx, CHOOSE_EN_1745_P90, 300 + 100 * i),
			p90[i], 1e-15, 0);
}

static void
conductivity__published_bands_at_three_per_cent(void **state)
{
	/* BCA-...-K rows: low end expected, high end in the inputs; at 3 % the
	 * correction is nothing, 1e-15 is rounding. */
	static const int kg_m3[] = {400, 600, 800, 1000, 1200, 1400, 1600};
	static const double high[] = {0.10, 0.11, 0.23, 0.30, 0.42, 0.55, 0.66};
	struct fixture *fx = *state;
	struct trade_rows a = trade_read(fx->a, "trade-a.csv");
	char id[32];

	for (int i = 0; i < 7; i++) {
		struct choose_conducts low_end, high_end;
		const struct density dry = {kg_m3[i]};

		assert_ok(choose_relation_conductivity(CHOOSE_BCA_1994_LOW, dry,
				  0.03, &low_end, &fx->err),
			&fx->err);
		assert_ok(choose_relation_conductivity(CHOOSE_BCA_1994_HIGH,
				  dry, 0.03, &high_end, &fx->err),
			&fx->err);
		(void)snprintf(id, sizeof id, "BCA-%d-K", kg_m3[i]);
		assert_row(&a, id, low_end.moist.W_mK);
		assert_near(high_end.moist.W_mK, high[i], 1e-15, 0);
		assert_true(low_end.oven_dry.W_mK < low_end.moist.W_mK);
	}
}

static void
conductivity__moisture_rows_and_refusals(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct choose_conducts got;
	const struct density dry = {548};

	assert_row(&b, "H15",
		0.12 *
			choose_moisture_factor(
				choose_moisture_by_mass, 0, 0.045));
	assert_row(&b, "H16",
		0.12 *
			choose_moisture_factor(
				choose_moisture_by_mass, 0, 0.026));
	assert_row(&b, "H17",
		0.20 *
			choose_moisture_factor(
				choose_moisture_by_volume, 0, 0.04));
	assert_row(&b, "H83",
		0.13 *
			choose_moisture_factor(
				choose_moisture_by_mass, 0, 0.045));
	/* a table does not reach beyond its ends, a formula says so */
	assert_ok(choose_relation_conductivity(CHOOSE_EN_1745_P50,
			  (struct density){1001}, 0, &got, &fx->err),
		&fx->err);
	assert_false(got.has_value);
	assert_ok(choose_relation_conductivity(CHOOSE_ACI_122,
			  (struct density){250}, 0, &got, &fx->err),
		&fx->err);
	assert_true(got.has_value && !got.in_range);
	assert_int_equal(ERR_INPUT,
		choose_relation_conductivity(CHOOSE_ACI_122,
			(struct density){0}, 0, &got, &fx->err));
	assert_string_equal("oven_dry_density", fx->err.field);
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		choose_relation_conductivity(
			CHOOSE_ACI_122, dry, 6, &got, &fx->err));
	assert_string_equal("moisture_content", fx->err.field);
}

static const struct choose_layer two[] = {
	{.thickness = {0.30}, .conductivity = {0.15}},
	{.thickness = {0.02}, .conductivity = {0.40}}};

static void
heat__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	const struct choose_heat h = {two, 2, CHOOSE_HEAT_HORIZONTAL};
	struct choose_heated got;
	double u, kept;

	assert_ok(choose_heat(&h, &got, &fx->err), &fx->err);
	assert_row(&b, "H41", got.resistance_m2K_W);
	assert_row(&b, "H42", got.u_W_m2K);
	assert_row(&b, "H43", got.resistance_m2K_W * choose_us_per_m2K_W);
	assert_row(&b, "H13", 1 / choose_us_per_m2K_W);
	assert_row(&b, "H14", choose_us_per_m2K_W);
	assert_row(&b, "H40", choose_surface_inside(CHOOSE_HEAT_UP));
	assert_near(choose_surface_inside(CHOOSE_HEAT_HORIZONTAL), 0.13, 0, 0);
	assert_near(choose_surface_inside(CHOOSE_HEAT_DOWN), 0.17, 0, 0);
	assert_row(&b, "H44", choose_radiative(20));
	assert_row(&b, "H45", choose_surface(2.5, 0.9, 20));
	assert_row(&b, "H46", choose_surface(4 + 4 * 4, 0.9, 10));
	assert_ok(choose_tapered_u(1.0, 1.0, &u, &fx->err), &fx->err);
	assert_row(&b, "H50", u);
	assert_row(&b, "H72", choose_specific_heat_J_kgK);
	assert_ok(choose_heat_capacity((struct density){800},
			  (struct length){0.2}, choose_specific_heat_J_kgK,
			  &kept, &fx->err),
		&fx->err);
	assert_row(&b, "H73", kept / 1000);
	assert_ok(choose_diffusivity((struct conductivity){0.20},
			  (struct density){800}, 1000, &kept, &fx->err),
		&fx->err);
	assert_row(&b, "H74", kept);
}

static void
heat__mortar_joints_rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	const struct choose_layer block = {
		.thickness = {0.2}, .conductivity = {0.15}};
	const struct choose_layer joint = {
		.thickness = {0.2}, .conductivity = {0.80}};
	const struct choose_layer thin = {
		.thickness = {0.19}, .conductivity = {0.80}};
	struct choose_strip strip[] = {{0.95, &block}, {0.05, &joint}};
	struct choose_bridged got;

	assert_ok(choose_bridged(
			  strip, 2, 1, CHOOSE_HEAT_HORIZONTAL, &got, &fx->err),
		&fx->err);
	assert_row(&b, "H47", got.upper_m2K_W);
	assert_row(&b, "H48", got.lower_m2K_W);
	assert_row(&b, "H49", got.mean.resistance_m2K_W);
	strip[1].layer = &thin;
	assert_int_equal(ERR_INPUT,
		choose_bridged(
			strip, 2, 1, CHOOSE_HEAT_HORIZONTAL, &got, &fx->err));
	strip[1].layer = &joint;
	strip[1].share = 0.1;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT,
		choose_bridged(
			strip, 2, 1, CHOOSE_HEAT_HORIZONTAL, &got, &fx->err));
	assert_string_equal("strips", fx->err.field);
}

static void
heat__thickness_for_a_wanted_u_comes_back(void **state)
{
	/* An identity over a sweep: the thickness found gives the U asked for;
	 * 1e-13 is rounding. */
	struct fixture *fx = *state;

	for (double u = 0.13; u < 0.44; u *= 1.31) {
		const struct choose_heat rest = {two, 2, CHOOSE_HEAT_UP};
		struct choose_layer all[] = {
			two[0], two[1], {.conductivity = {0.137}}};
		const struct choose_heat whole = {all, 3, CHOOSE_HEAT_UP};
		struct choose_heated got;

		assert_ok(choose_thickness_for_u(&rest, all[2].conductivity, u,
				  &all[2].thickness, &fx->err),
			&fx->err);
		assert_ok(choose_heat(&whole, &got, &fx->err), &fx->err);
		assert_near(got.u_W_m2K, u, 1e-13, 0);
	}
}

static void
heat__what_cannot_be_is_refused(void **state)
{
	struct fixture *fx = *state;
	const struct choose_layer bad[] = {
		two[0], {.thickness = {0.02}, .conductivity = {0}}};
	struct choose_heat h = {bad, 2, CHOOSE_HEAT_UP};
	struct choose_heated got;
	struct length thick;
	double u;

	assert_int_equal(ERR_INPUT, choose_heat(&h, &got, &fx->err));
	assert_string_equal("layers[1].conductivity", fx->err.field);
	h.n_layer = 0;
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_heat(&h, &got, &fx->err));
	assert_string_equal("layers", fx->err.field);
	h = (struct choose_heat){two, 2, CHOOSE_HEAT_UP};
	err_clear(&fx->err);
	assert_int_equal(ERR_ANSWER_NO,
		choose_thickness_for_u(
			&h, (struct conductivity){0.1}, 0.9, &thick, &fx->err));
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, choose_tapered_u(1, 0, &u, &fx->err));
	assert_string_equal("most", fx->err.field);
}

static void
vapour__rows_of_the_table(void **state)
{
	static const int degC[] = {-20, -10, -5, 0, 5, 10, 15, 20, 23, 25, 30};
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	char id[32];

	for (int i = 0; i < 11; i++) {
		(void)snprintf(id, sizeof id, "H%02d", 51 + i);
		assert_row(&b, id, choose_saturation(degC[i]));
		/* there and back; 1e-12 K is rounding */
		assert_near(choose_dew_point(choose_saturation(degC[i])),
			degC[i], 0, 1e-12);
	}
	assert_row(&b, "H63", choose_dew_point(0.5 * choose_saturation(20)));
	assert_row(&b, "H64", choose_least_surface(20, 0.60));
	assert_row(&b, "H65", choose_temperature_factor(17.5, 20, 0));
}

static const struct choose_wet_layer glaser[] = {
	{{.thickness = {0.015}, .conductivity = {0.5}}, 0.15},
	{{.thickness = {0.20}, .conductivity = {0.12}}, 1.2},
	{{.thickness = {0.02}, .conductivity = {0.8}}, 0.5}};

/* Eleven months without a difference and one of the table's. */
static struct choose_condensation
one_cold_month(struct choose_month month[CHOOSE_MONTHS])
{
	for (int i = 0; i < CHOOSE_MONTHS; i++)
		month[i] = (struct choose_month){18, 0.4, 18, 0.4, 30};
	month[0] = (struct choose_month){20, 0.5, -10, 0.8, 30};
	return (struct choose_condensation){.layer = glaser,
		.n_layer = 3,
		.month = month,
		.n_month = CHOOSE_MONTHS,
		.inside_surface_m2K_W = 0.13,
		.outside_surface_m2K_W = 0.04};
}

static void
condensation__rows_of_the_table(void **state)
{
	struct fixture *fx = *state;
	struct trade_rows b = trade_read(fx->a, "trade-b.csv");
	struct choose_month month[CHOOSE_MONTHS];
	const struct choose_condensation c = one_cold_month(month);
	struct choose_condensed got;
	const struct choose_layer heat[] = {
		glaser[0].heat, glaser[1].heat, glaser[2].heat};
	const struct choose_heat h = {heat, 3, CHOOSE_HEAT_HORIZONTAL};
	struct choose_heated u;
	double flux, at_degC;

	assert_ok(choose_heat(&h, &u, &fx->err), &fx->err);
	flux = 30 * u.u_W_m2K;
	at_degC = -10 + flux * (0.04 + 0.02 / 0.8);
	assert_row(&b, "H66", flux);
	assert_row(&b, "H67", at_degC);
	assert_row(&b, "H69", choose_saturation(at_degC));
	assert_row(&b, "H68",
		0.5 * choose_saturation(20) +
			1.35 / 1.85 *
				(0.8 * choose_saturation(-10) -
					0.5 * choose_saturation(20)));
	assert_ok(choose_condensation(fx->a, &c, &got, &fx->err), &fx->err);
	assert_row(&b, "H70", got.month[0].rate_kg_m2_s);
	assert_row(&b, "H71", got.month[0].held_kg_m2);
	assert_true(got.gathers && got.first_month == 0);
	assert_int_equal(0, got.most_month);
	/* at the inner face of the render, 215 mm in */
	assert_near(got.most_depth.m, 0.215, 1e-14, 0);
}

static void
condensation__water_is_neither_made_nor_lost(void **state)
{
	/* Over a year of a wall that dries, what gathers is what leaves: the
	 * rates times the seconds add up to 0; 1e-12 of what was held is
	 * rounding.  Slices as ISO 13788 wants them. */
	struct fixture *fx = *state;
	static const double outside[] = {
		-8, -6, -1, 5, 12, 16, 18, 17, 12, 7, 1, -5};
	struct choose_month month[CHOOSE_MONTHS];
	struct choose_condensation c = one_cold_month(month);
	struct choose_condensed got;
	double sum = 0;

	for (int i = 0; i < CHOOSE_MONTHS; i++)
		month[i] = (struct choose_month){
			20.5, 0.52, outside[i], 0.78, 30.4};
	c.step_m2K_W = 0.25;
	assert_ok(choose_condensation(fx->a, &c, &got, &fx->err), &fx->err);
	assert_true(got.gathers && got.dries);
	for (int i = 0; i < CHOOSE_MONTHS; i++)
		sum += got.month[i].rate_kg_m2_s * 30.4 * 86400;
	assert_near(sum, 0, 0, 1e-12 * got.most_kg_m2);
	assert_true(got.most_kg_m2 > 0.05 && got.most_kg_m2 < 5);
}

/* The same string by another route: pressures moved one after the other to the
 * lesser of saturation and the straight line between their neighbours, until
 * nothing moves. */
static double
gathered_by_relaxation(
	const struct choose_month *m, int n, double all_air_m, double all_m2K_W)
{
	double p[65], most[65], step_m = all_air_m / n, gathers = 0;

	for (int i = 0; i <= n; i++) {
		double degC = m->inside_degC -
			(m->inside_degC - m->outside_degC) *
				(0.13 + all_m2K_W * i / n) / (0.17 + all_m2K_W);

		most[i] = choose_saturation(degC);
		p[i] = most[i];
	}
	p[0] = m->inside_humidity * choose_saturation(m->inside_degC);
	p[n] = m->outside_humidity * choose_saturation(m->outside_degC);
	for (int turn = 0; turn < 60000; turn++)
		for (int i = 1; i < n; i++)
			p[i] = fmin(most[i], (p[i - 1] + p[i + 1]) / 2);
	gathers = (p[0] - p[1]) / step_m - (p[n - 1] - p[n]) / step_m;
	return choose_air_permeability * gathers;
}

static void
condensation__hull_agrees_with_relaxation(void **state)
{
	/* A second route, over colder and colder months; 1e-9 is what is left of
	 * the relaxation, 1e-18 what it makes of no gathering at all. */
	struct fixture *fx = *state;
	const struct choose_wet_layer one[] = {
		{{.thickness = {0.3}, .conductivity = {0.1}}, 3.0}};
	struct choose_month month[CHOOSE_MONTHS];
	struct choose_condensation c = one_cold_month(month);

	c.layer = one;
	c.n_layer = 1;
	c.step_m2K_W = 3.0 / 48;
	for (double degC = 1.7; degC > -24; degC -= 6.13) {
		struct choose_condensed got;

		month[0].outside_degC = degC;
		month[0].inside_humidity = 0.71;
		assert_ok(choose_condensation(fx->a, &c, &got, &fx->err),
			&fx->err);
		assert_near(got.month[0].rate_kg_m2_s,
			gathered_by_relaxation(&month[0], 48, 3.0, 3.0), 1e-9,
			1e-18);
	}
}

static void
condensation__what_cannot_be_is_refused(void **state)
{
	struct fixture *fx = *state;
	struct choose_month month[CHOOSE_MONTHS];
	struct choose_condensation c = one_cold_month(month);
	const struct choose_wet_layer open[] = {{glaser[0].heat, 0}};
	struct choose_condensed got;

	c.n_month = 11;
	assert_int_equal(
		ERR_INPUT, choose_condensation(fx->a, &c, &got, &fx->err));
	assert_string_equal("months", fx->err.field);
	c.n_month = 12;
	month[3].inside_humidity = 1.2;
	err_clear(&fx->err);
	assert_int_equal(
		ERR_INPUT, choose_condensation(fx->a, &c, &got, &fx->err));
	assert_string_equal("months[3].inside_humidity", fx->err.field);
	month[3].inside_humidity = 0.5;
	month[7].days = 0;
	err_clear(&fx->err);
	assert_int_equal(
		ERR_INPUT, choose_condensation(fx->a, &c, &got, &fx->err));
	assert_string_equal("months[7].days", fx->err.field);
	month[7].days = 31;
	c.layer = open;
	c.n_layer = 1;
	err_clear(&fx->err);
	assert_int_equal(
		ERR_INPUT, choose_condensation(fx->a, &c, &got, &fx->err));
	assert_string_equal("layers[0].vapour", fx->err.field);
	c.n_layer = 0;
	err_clear(&fx->err);
	assert_int_equal(
		ERR_INPUT, choose_condensation(fx->a, &c, &got, &fx->err));
	assert_string_equal("layers", fx->err.field);
}

static void
condensation__a_wet_year_and_a_full_arena(void **state)
{
	/* A cold store turned about the year through: it gathers every month and
	 * never dries.  An arena of 64 bytes holds no wall. */
	struct fixture *fx = *state;
	struct arena *small = arena_new(64);
	struct choose_month month[CHOOSE_MONTHS];
	const struct choose_condensation c = one_cold_month(month);
	struct choose_condensed got;

	for (int i = 0; i < CHOOSE_MONTHS; i++)
		month[i] = (struct choose_month){20, 0.6, -12, 0.8, 30};
	assert_ok(choose_condensation(fx->a, &c, &got, &fx->err), &fx->err);
	assert_true(got.gathers && !got.dries);
	assert_int_equal(11, got.most_month);
	assert_non_null(small);
	assert_int_equal(
		ERR_MEMORY, choose_condensation(small, &c, &got, &fx->err));
	arena_free(small);
}

static const struct CMUnitTest tests[] = {
	TEST(conductivity__rows_of_the_table),
	TEST(conductivity__published_bands_at_three_per_cent),
	TEST(conductivity__moisture_rows_and_refusals),
	TEST(heat__rows_of_the_table),
	TEST(heat__mortar_joints_rows_of_the_table),
	TEST(heat__thickness_for_a_wanted_u_comes_back),
	TEST(heat__what_cannot_be_is_refused),
	TEST(vapour__rows_of_the_table),
	TEST(condensation__rows_of_the_table),
	TEST(condensation__water_is_neither_made_nor_lost),
	TEST(condensation__hull_agrees_with_relaxation),
	TEST(condensation__what_cannot_be_is_refused),
	TEST(condensation__a_wet_year_and_a_full_arena),
};

TEST_MAIN(tests)

/* test_reference_b.c - the rows of trade-b.csv (heat, structure, statistics,
 * safety, site, yardsticks) that functions of ours compute.
 *
 * To turn rows on, put a function where the reason stands and move the counts
 * at the end. */
#include "reference.h"
#include "support.h"

#include "choose/conductivity.h"
#include "lab/drop.h"
#include "mix/proportion.h"
#include "stats/characteristic.h"
#include "stats/outlier.h"
#include "stats/tolerance.h"

#include <math.h>
#include <string.h>

static double
in(const struct asked *q, const char *key, enum unit_kind kind)
{
	return reference_input(q->row, key, kind);
}

/* ---- heat, drops, units ---- */

static double
conductivity(const struct asked *q)
{
	bool is_us = reference_has(q->row, "w");

	return choose_conductivity(in(q, is_us ? "w" : "rho", UNIT_DENSITY));
}

/* The fall counts the dent: one of 11 mm at the end of the given height. */
static double
drop_energy(const struct asked *q)
{
	static const double dent_m = 0.011;
	const struct lab_drop d = {.mass = {in(q, "m", UNIT_MASS)},
		.height = {in(q, "h", UNIT_LENGTH) - dent_m},
		.has_depth = true,
		.depth = {dent_m},
		.tip = LAB_TIP_FLAT,
		.tip_diameter = {0.03}};
	struct lab_dropped got;

	assert_ok(lab_drop(&d, &got, &q->f->err), &q->f->err);
	return got.energy_J.low;
}

static double
bound_water(const struct asked *q)
{
	(void)q;
	return mix_bound_water_ratio;
}

static double
unit_conductivity(const struct asked *q)
{
	return in(q, "", UNIT_CONDUCTIVITY);
}

static double
unit_resistance(const struct asked *q)
{
	return in(q, "", UNIT_RESISTANCE);
}

static double
unit_u_value(const struct asked *q)
{
	return in(q, "", UNIT_U_VALUE);
}

static double
unit_stress(const struct asked *q)
{
	return in(q, "", UNIT_STRESS);
}

static double
unit_density(const struct asked *q)
{
	return in(q, "", UNIT_DENSITY);
}

/* A grain in a gallon, of either country. */
static double
grain_per_gallon(const struct asked *q)
{
	bool is_imperial = strstr(q->row->inputs, "imperial") != NULL;
	double si = NAN;

	assert_ok(unit_read(is_imperial ? "1 grain/imp gal" : "1 gpg",
			  UNIT_CONCENTRATION, NULL, &si, &q->f->err),
		&q->f->err);
	return si;
}

/* ---- figures of statistics ---- */

static size_t
count_of(const struct asked *q, const char *key)
{
	return (size_t)in(q, key, UNIT_NUMBER);
}

/* n values of mean 0 and standard deviation 1: k is what the answer lies
 * below. */
static double
below_mean(const struct asked *q, double prior_sd)
{
	enum { N_MAX = 64 };
	size_t n = count_of(q, "n");
	double x[N_MAX] = {0}, spread = sqrt((double)(n - 1) / 2);
	struct stats_characteristic got;

	assert_in_range(n, 1, N_MAX);
	if (n > 1) {
		x[0] = spread;
		x[1] = -spread;
	}
	assert_ok(stats_characteristic(
			  q->f->a, x, n, prior_sd, false, &got, &q->f->err),
		&q->f->err);
	return prior_sd > 0 ? -got.known : -got.unknown;
}

static double
characteristic_known(const struct asked *q)
{
	return below_mean(q, 1);
}

static double
characteristic_unknown(const struct asked *q)
{
	return below_mean(q, 0);
}

static double
design(const struct asked *q, bool is_known)
{
	double k = NAN;

	assert_ok(
		stats_design_factor(count_of(q, "n"), is_known, &k, &q->f->err),
		&q->f->err);
	return k;
}

static double
design_known(const struct asked *q)
{
	return design(q, true);
}

static double
design_unknown(const struct asked *q)
{
	return design(q, false);
}

/* The level and the side are in the row's name of the quantity alone, so the
 * line of the topic says them. */
static double
grubbs(const struct asked *q, double level, double sides)
{
	size_t n = count_of(q, "n");
	double low = 0.5, high = (double)(n - 1) / sqrt((double)n);

	for (int i = 0; i < 60; i++) {
		double g = (low + high) / 2;

		if (sides * stats_grubbs_bound(g, n) > level)
			low = g;
		else
			high = g;
	}
	return high;
}

static double
grubbs_1_sided_05(const struct asked *q)
{
	return grubbs(q, 0.05, 1);
}

static double
grubbs_1_sided_01(const struct asked *q)
{
	return grubbs(q, 0.01, 1);
}

static double
grubbs_2_sided_05(const struct asked *q)
{
	return grubbs(q, 0.05, 2);
}

static double
grubbs_2_sided_01(const struct asked *q)
{
	return grubbs(q, 0.01, 2);
}

/* The first of "n=3,4,5,6,7". */
static double
dixon_05(const struct asked *q)
{
	enum { N = 3 };
	double low = 0.01, high = 1;

	(void)q;
	for (int i = 0; i < 60; i++) {
		double r = (low + high) / 2;

		if (stats_dixon_upper(stats_dixon_choose(N), r, N) > 0.05)
			low = r;
		else
			high = r;
	}
	return high;
}

static double
tolerance_one_sided(const struct asked *q)
{
	bool is_43 = reference_has(q->row, "N");
	double k;

	assert_ok(stats_tolerance_one_sided(count_of(q, is_43 ? "N" : "n"),
			  is_43 ? in(q, "p", UNIT_NUMBER) : 0.95,
			  is_43 ? in(q, "gamma", UNIT_NUMBER) : 0.95, &k,
			  &q->f->err),
		&q->f->err);
	return k;
}

/* ---- the topics ---- */

static const char no_function[] = "nothing of ours computes it";
static const char table_fact[] = "a figure to be quoted, not computed";
static const char in_heat[] = "done in tests/choose/test_heat.c";
static const char in_screening[] =
	"done in tests/choose/test_screening.c and test_shell.c, or a table";
static const char in_run_length[] = "checked in tests/stats/test_run_length.c";
static const char in_constants[] =
	"checked in tests/stats/test_chart_constants.c";
static const char in_curing[] = "done in tests/lab/test_age.c";
static const char is_approximation[] = "an approximation; ours is exact";

static const struct topic trade_b[] = {
	{"H0[1-9]", UNIT_CONDUCTIVITY, .ours = conductivity},
	{"H10", UNIT_CONDUCTIVITY, .ours = conductivity},
	REFERENCE_NO("H11", in_heat),
	{"H12", UNIT_CONDUCTIVITY, .ours = unit_conductivity},
	{"H13", UNIT_RESISTANCE, .ours = unit_resistance},
	{"H14", UNIT_U_VALUE, .ours = unit_u_value},
	REFERENCE_NO("H1[5-7]", in_heat),
	REFERENCE_NO("H2?", in_heat),
	REFERENCE_NO("H3?", table_fact),
	REFERENCE_NO("H40", in_heat),
	REFERENCE_NO("H4[1-3]", in_heat),
	REFERENCE_NO("H4?", in_heat),
	REFERENCE_NO("H5?", in_heat),
	REFERENCE_NO("H6?", in_heat),
	REFERENCE_NO("H7[01]", in_heat),
	REFERENCE_NO("H72", in_heat),
	REFERENCE_NO("H7?", in_heat),
	REFERENCE_NO("H8[0-2]", table_fact),
	REFERENCE_NO("H83", in_heat),
	REFERENCE_NO("S2[5-9]", in_screening),
	REFERENCE_NO("S3[0-4]", in_screening),
	REFERENCE_NO("S0[1-9]", in_screening),
	REFERENCE_NO("S1[0-9]", in_screening),
	REFERENCE_NO("S20", in_screening),
	REFERENCE_NO("S6[789]", in_screening),
	REFERENCE_NO("S7[0-3]", in_screening),
	REFERENCE_NO("S*", in_screening),
	{"T21-*", UNIT_NUMBER, .ours = characteristic_known},
	{"T22-*", UNIT_NUMBER, .ours = characteristic_unknown},
	{"T23-*", UNIT_NUMBER, .ours = design_known},
	{"T24-*", UNIT_NUMBER, .ours = design_unknown},
	{"T25-*", UNIT_NUMBER, .ours = grubbs_1_sided_05},
	{"T26-*", UNIT_NUMBER, .ours = grubbs_1_sided_01},
	{"T27-*", UNIT_NUMBER, .ours = grubbs_2_sided_05},
	{"T64-*", UNIT_NUMBER, .ours = grubbs_2_sided_05},
	{"T65-*", UNIT_NUMBER, .ours = grubbs_1_sided_05},
	{"T72", UNIT_NUMBER, .ours = grubbs_2_sided_01},
	{"T28", UNIT_NUMBER, .ours = dixon_05},
	REFERENCE_NO("T42", is_approximation),
	{"T43", UNIT_NUMBER, .ours = tolerance_one_sided},
	REFERENCE_NO("T44", is_approximation),
	{"T45-*", UNIT_NUMBER, .ours = tolerance_one_sided},
	REFERENCE_NO("T46-*", "a quantile of the library, not of ours"),
	REFERENCE_NO("T30-*", in_constants),
	REFERENCE_NO("T3[1-9]*", in_run_length),
	REFERENCE_NO("T4[01]*", in_run_length),
	REFERENCE_NO("T47", in_run_length),
	REFERENCE_NO("T49", in_constants),
	REFERENCE_NO("T5?*", in_run_length),
	REFERENCE_NO("T6[0123]*", in_run_length),
	REFERENCE_NO("T67", in_constants),
	REFERENCE_NO("T7[01]", in_run_length),
	REFERENCE_NO("T*", no_function),
	{"F11", UNIT_ENERGY, .ours = drop_energy},
	REFERENCE_NO("F*", no_function),
	{"W03", UNIT_CONCENTRATION, .ours = grain_per_gallon},
	{"W04", UNIT_CONCENTRATION, .ours = grain_per_gallon},
	REFERENCE_NO("W19", in_curing),
	REFERENCE_NO("W20", in_curing),
	REFERENCE_NO("W*", no_function),
	{"D30", UNIT_STRESS, .ours = unit_stress},
	{"D31", UNIT_DENSITY, .ours = unit_density},
	{"D43", UNIT_NUMBER, .ours = bound_water},
	REFERENCE_NO("D*", no_function),
};

static void
reference__rows_of_heat_statistics_and_site(void **state)
{
	enum { USED = 113, UNUSED = 583 };
	struct reference_counts got = reference_run(*state, "trade-b.csv",
		trade_b, sizeof trade_b / sizeof trade_b[0]);

	assert_int_equal(USED, got.used);
	assert_int_equal(UNUSED, got.unused);
}

static const struct CMUnitTest tests[] = {
	TEST(reference__rows_of_heat_statistics_and_site),
};

TEST_MAIN(tests)

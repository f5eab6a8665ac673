/* test_many_to_one.c - Dunnett against R, print, a second method and t. */
#include "r_rows.h"

#include "core/rng.h"
#include "stats/many_to_one.h"
#include "stats/quadrature.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include <gsl/gsl_randist.h>
#include <stdio.h>
#include <time.h>

/* The fixtures are deterministic quadrature in R, good to 12 digits. */
static const double r_tolerance = 1e-9;

enum { K_MAX = 20 };

struct design {
	double loading[K_MAX];
	size_t k;
	double df;
};

static struct design
balanced(size_t k, double df)
{
	struct design design = {.k = k, .df = df};

	for (size_t i = 0; i < k; i++)
		design.loading[i] = M_SQRT1_2;
	return design;
}

/* "k=..;df=..;rho=0.5" or "n_control=..;n=4|5|..;df=..". */
static struct design
read_design(struct arena *a, const struct r_row *row)
{
	struct design design;
	char *at;
	double n0;

	if (strstr(row->inputs, "rho=0.5") != NULL)
		return balanced(
			(size_t)r_number(a, row, "k"), r_number(a, row, "df"));
	design = (struct design){.df = r_number(a, row, "df")};
	n0 = r_number(a, row, "n_control");
	at = arena_text(a, r_text(a, row, "n"));
	while (*at != '\0') {
		double n = strtod(at, &at);

		design.loading[design.k++] = sqrt(n / (n + n0));
		at += *at == '|';
	}
	return design;
}

static const struct stats_many_to_one *
make(struct fixture *f, const struct design *design, bool two_sided)
{
	const struct stats_many_to_one *d;

	assert_ok(stats_many_to_one_new(f->a, design->loading, design->k,
			  two_sided, &d, &f->err),
		&f->err);
	return d;
}

static double
upper(struct fixture *f, const struct design *design, bool two_sided, double t)
{
	double p;

	assert_ok(stats_many_to_one_upper(make(f, design, two_sided), t,
			  design->df, &p, &f->err),
		&f->err);
	return p;
}

static double
critical(struct fixture *f, const struct design *design, bool two_sided,
	double alpha)
{
	double t;

	assert_ok(stats_many_to_one_critical(make(f, design, two_sided), alpha,
			  design->df, &t, &f->err),
		&f->err);
	return t;
}

static void
many_to_one__distribution_agrees_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, n_critical = 0, n_p = 0;
	const struct r_row *row = r_rows(f->a, "r/dunnett.csv", &n);

	for (size_t i = 0; i < n; i++) {
		bool two_sided = strstr(row[i].call, "one-sided") == NULL;
		struct design design;

		if (r_is(&row[i], "dunnett.test"))
			continue;
		design = read_design(f->a, &row[i]);
		if (strcmp(row[i].output, "c") == 0) {
			double alpha = r_number(f->a, &row[i], "alpha");

			assert_near(critical(f, &design, two_sided, alpha),
				row[i].value, r_tolerance, 0);
			n_critical++;
		} else {
			double t = r_number(f->a, &row[i], "t");

			assert_near(upper(f, &design, two_sided, t),
				row[i].value, r_tolerance, 0);
			n_p++;
		}
	}
	assert_int_equal(324 + 12, n_critical);
	assert_int_equal(72 + 24, n_p);
}

/* "B-A:diff": the group's letter and what of it. */
static double
test_output(
	struct fixture *f, const struct stats_grouped *data, const char *output)
{
	struct stats_against_baseline both, greater, less;
	const char *what = strchr(output, ':');
	size_t g = (size_t)(output[0] - 'A');
	const struct stats_contrast *c;

	assert_ok(stats_against_baseline(
			  f->a, data, 0, STATS_BOTH, 0.95, &both, &f->err),
		&f->err);
	assert_ok(stats_against_baseline(f->a, data, 0, STATS_GREATER, 0.95,
			  &greater, &f->err),
		&f->err);
	assert_ok(stats_against_baseline(
			  f->a, data, 0, STATS_LESS, 0.95, &less, &f->err),
		&f->err);
	if (what == NULL && strcmp(output, "crit_two") == 0)
		return both.critical;
	if (what == NULL && strcmp(output, "crit_one") == 0)
		return greater.critical;
	if (what == NULL && strcmp(output, "df") == 0)
		return both.df;
	if (what == NULL) { /* pooled_sd, from the second group's t */
		double se = both.group[1].difference / both.group[1].t;

		return se /
			sqrt(1 / (double)data->size[0] +
				1 / (double)data->size[1]);
	}
	c = &both.group[g];
	assert_true(isinf(greater.group[g].high) && isinf(less.group[g].low));
	what++;
	return strcmp(what, "diff") == 0  ? c->difference
		: strcmp(what, "se") == 0 ? c->difference / c->t
		: strcmp(what, "t") == 0  ? c->t
		: strcmp(what, "p_unadjusted") == 0
		? 2 * pt(-fabs(c->t), both.df, true, false)
		: strcmp(what, "p_two") == 0           ? c->p
		: strcmp(what, "p_greater") == 0       ? greater.group[g].p
		: strcmp(what, "p_less") == 0          ? less.group[g].p
		: strcmp(what, "ci_lo") == 0           ? c->low
		: strcmp(what, "ci_hi") == 0           ? c->high
		: strcmp(what, "lower_one_sided") == 0 ? greater.group[g].low
						       : (double)NAN;
}

static void
many_to_one__tests_agree_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, n_test = 0;
	const struct r_row *row = r_rows(f->a, "r/dunnett.csv", &n);

	for (size_t i = 0; i < n; i++) {
		struct stats_grouped data;

		if (!r_is(&row[i], "dunnett.test"))
			continue;
		data = r_row_groups(f->a, &row[i]);
		/* differences near 0 lose digits to cancellation: data of size
		 * 2 hold 1e-15 absolutely */
		assert_near(test_output(f, &data, row[i].output), row[i].value,
			r_tolerance, 1e-14);
		n_test++;
	}
	assert_int_equal(216, n_test);
}

/* Printed critical values of Dunnett 1955, tables 1a and 1b, one-sided; the
 * two-sided tables 2a and 2b are left out: six of nine are too large, for they
 * were an approximation.  Half a unit of the last printed digit, or one unit
 * where the old table was rounded otherwise. */
static void
many_to_one__printed_critical_values(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/published_comparisons.csv"));
	size_t n = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		unsigned k;
		double df, alpha, unit;
		char side[16];
		struct design design;

		if (strcmp(csv.cell[i][0], "dunnett-crit") != 0)
			continue;
		assert_int_equal(4,
			sscanf(csv.cell[i][1],
				"k=%u treatments df=%lf alpha=%lf %15s", &k,
				&df, &alpha, side));
		unit = strcmp(csv.cell[i][6], "same") == 0 ? 0.5 : 1;
		design = balanced(k, df);
		assert_near(critical(f, &design, strcmp(side, "two-sided") == 0,
				    alpha),
			strtod(csv.cell[i][2], NULL), 0, unit * 0.01 + 1e-9);
		n++;
	}
	assert_int_equal(12, n);
}

/* Blood counts of Dunnett 1955; t and p as printed in the handbook of a
 * scientific library that used quasi-Monte-Carlo, whose noise is 1e-7 here. */
static void
many_to_one__blood_counts(void **state)
{
	struct fixture *f = *state;
	const double value[] = {7.40, 8.50, 7.20, 8.24, 9.84, 8.32, 9.76, 8.80,
		7.68, 9.36, 12.80, 9.68, 12.16, 9.20, 10.55};
	const size_t size[] = {6, 4, 5};
	const struct stats_grouped data = {
		.n_group = 3, .size = size, .value = value};
	struct stats_against_baseline both, greater;

	assert_ok(stats_against_baseline(
			  f->a, &data, 0, STATS_BOTH, 0.95, &both, &f->err),
		&f->err);
	assert_ok(stats_against_baseline(f->a, &data, 0, STATS_GREATER, 0.95,
			  &greater, &f->err),
		&f->err);
	assert_near(both.group[1].t, 0.85703, 0, 5e-6);
	assert_near(both.group[2].t, 3.69375, 0, 5e-6);
	assert_near(both.group[1].p, 0.6201020, 0, 1e-7);
	assert_near(both.group[2].p, 0.0058254, 0, 1e-7);
	assert_near(greater.group[1].p, 0.3249776, 0, 1e-7);
	assert_near(greater.group[2].p, 0.0029139, 0, 1e-7);
}

/* The second method: Gauss-Legendre panels over z and over the spread itself,
 * libRmath's normal, no tail forms: good to about 1e-12 absolutely. */
static double
by_panels(const struct design *design, bool two_sided, double t)
{
	enum { ORDER = 16, Z_PANELS = 40, S_PANELS = 60 };
	static double z[ORDER * Z_PANELS], zw[ORDER * Z_PANELS];
	static double s[ORDER * S_PANELS], sw[ORDER * S_PANELS];
	const double half = design->df / 2;
	double top = sqrt(qchisq(1e-17, design->df, false, false) / design->df);
	struct quadrature rule;
	double inside = 0;

	stats_legendre(ORDER, &rule);
	stats_panels(&rule, -9, 9, Z_PANELS, z, zw);
	stats_panels(&rule, 0, top, S_PANELS, s, sw);
	for (size_t j = 0; j < ORDER * S_PANELS; j++) {
		double density = 2 * half * s[j] *
			dgamma(half * s[j] * s[j], half, 1, false);
		double sum = 0;

		if (density * sw[j] < 1e-22)
			continue;
		for (size_t i = 0; i < ORDER * Z_PANELS; i++) {
			double all = 1, rest, a;

			for (size_t g = 0; g < design->k; g++) {
				double l = design->loading[g];

				rest = sqrt(1 - l * l);
				a = pnorm5((t * s[j] - l * z[i]) / rest, 0, 1,
					true, false);
				if (two_sided)
					a -= pnorm5(
						(-t * s[j] - l * z[i]) / rest,
						0, 1, true, false);
				all *= a;
			}
			sum += zw[i] * dnorm4(z[i], 0, 1, false) * all;
		}
		inside += sw[j] * density * sum;
	}
	return 1 - inside;
}

static const struct design uneven = {
	.loading = {0.31, 0.5547, 0.7071, 0.8321}, .k = 4, .df = 7};

static void
many_to_one__second_method_agrees(void **state)
{
	struct fixture *f = *state;
	const struct design even = balanced(3, 11);

	for (double t = 0.37; t < 4; t *= 1.93) {
		assert_near(upper(f, &uneven, true, t),
			by_panels(&uneven, true, t), 0, 1e-11);
		assert_near(upper(f, &uneven, false, t),
			by_panels(&uneven, false, t), 0, 1e-11);
		assert_near(upper(f, &even, true, t), by_panels(&even, true, t),
			0, 1e-11);
	}
}

/* And by drawing: seed fixed, four standard errors. */
static void
many_to_one__drawing_agrees(void **state)
{
	enum { DRAWS = 200000 };
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(20263, 1);
	const double t = 2.217;
	double p = upper(f, &uneven, true, t), share;
	size_t beyond = 0;

	for (size_t i = 0; i < DRAWS; i++) {
		double z = gsl_ran_ugaussian(rng), largest = 0;
		double s = sqrt(gsl_ran_chisq(rng, uneven.df) / uneven.df);

		for (size_t g = 0; g < uneven.k; g++) {
			double l = uneven.loading[g];
			double x = l * z +
				sqrt(1 - l * l) * gsl_ran_ugaussian(rng);

			largest = fmax(largest, fabs(x));
		}
		beyond += largest / s > t;
	}
	gsl_rng_free(rng);
	share = (double)beyond / DRAWS;
	assert_near(share, p, 0, 4 * sqrt(p * (1 - p) / DRAWS));
}

/* With one group it is Student's t, in the far tail too. */
static void
many_to_one__one_group_is_a_t_test(void **state)
{
	struct fixture *f = *state;
	const double dfs[] = {1, 2, 3.7, 8, 40, 1e5};

	for (size_t i = 0; i < sizeof dfs / sizeof dfs[0]; i++) {
		const struct design one = {
			.loading = {0.613}, .k = 1, .df = dfs[i]};

		for (double t = 0.0317; t < 3e3; t *= 3.3) {
			double want = 2 * pt(t, dfs[i], false, false);

			if (want > 1e-290)
				assert_near(upper(f, &one, true, t), want,
					1e-11, 0);
			assert_near(upper(f, &one, false, -t),
				pt(-t, dfs[i], false, false), 1e-11, 0);
		}
		assert_near(critical(f, &one, true, 0.0317),
			qt(0.0317 / 2, dfs[i], false, false), 1e-11, 0);
	}
}

/* Small chances approach Bonferroni's from below. */
static void
many_to_one__small_chances_keep_their_digits(void **state)
{
	struct fixture *f = *state;
	struct design seven = balanced(7, 200);
	double p = upper(f, &seven, true, 19.3);
	double bound = 7 * 2 * pt(19.3, 200, false, false);

	assert_true(p < bound && p > bound * 0.9 && p < 1e-40);
	seven.df = INFINITY;
	p = upper(f, &seven, false, 21);
	bound = 7 * pnorm5(21, 0, 1, false, false);
	/* two at once beyond 21 sd are rarer by 1e-20 */
	assert_near(p, bound, 1e-11, 0);
}

static void
many_to_one__order_does_not_matter(void **state)
{
	struct fixture *f = *state;
	struct design turned = uneven;

	for (size_t i = 0; i < uneven.k; i++)
		turned.loading[i] = uneven.loading[uneven.k - 1 - i];
	assert_near(upper(f, &turned, true, 1.93),
		upper(f, &uneven, true, 1.93), 0, 0);
}

/* Interval and test say the same: at the p of a contrast as the chance of
 * error, its interval ends at 0. */
static void
many_to_one__intervals_match_p(void **state)
{
	struct fixture *f = *state;
	struct stats_grouped data = r_groups(
		f->a, "inv_cubes_unbalanced.csv", "mix", false);
	struct stats_against_baseline got, at_p;
	size_t g = 3;
	double near;

	assert_ok(stats_against_baseline(
			  f->a, &data, 0, STATS_BOTH, 0.95, &got, &f->err),
		&f->err);
	assert_ok(stats_against_baseline(f->a, &data, 0, STATS_BOTH,
			  1 - got.group[g].p, &at_p, &f->err),
		&f->err);
	near = at_p.group[g].difference > 0 ? at_p.group[g].low
					    : at_p.group[g].high;
	assert_near(near, 0, 0, 1e-10);
}

static void
many_to_one__refusals(void **state)
{
	struct fixture *f = *state;
	const double bad[] = {0.5, 1}, flat[] = {2, 2, 3, 3};
	const size_t size[] = {2, 2};
	const struct stats_grouped data = {
		.n_group = 2, .size = size, .value = flat};
	const struct stats_many_to_one *d = NULL;
	struct stats_against_baseline got = {.df = 77};

	assert_int_equal(ERR_INPUT,
		stats_many_to_one_new(f->a, bad, 2, true, &d, &f->err));
	assert_null(d);
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT,
		stats_against_baseline(
			f->a, &data, 0, STATS_BOTH, 0.95, &got, &f->err));
	assert_has(f->err.text, "no spread");
	assert_near(got.df, 77, 0, 0);
}

/* Measured and printed, not asserted: 8 groups, 7 adjusted p and the critical
 * value. */
static void
many_to_one__how_long_it_takes(void **state)
{
	enum { REPEATS = 20 };
	struct fixture *f = *state;
	struct stats_grouped data = r_groups(
		f->a, "inv_cubes_unbalanced.csv", "mix", false);
	struct stats_against_baseline got;
	struct timespec from, to;

	(void)clock_gettime(CLOCK_MONOTONIC, &from);
	for (int i = 0; i < REPEATS; i++)
		assert_ok(stats_against_baseline(f->a, &data, 0, STATS_BOTH,
				  0.95, &got, &f->err),
			&f->err);
	(void)clock_gettime(CLOCK_MONOTONIC, &to);
	print_message("8 groups, 7 p, critical value: %.3f ms\n",
		(double)(to.tv_sec - from.tv_sec) * 1e3 / REPEATS +
			(double)(to.tv_nsec - from.tv_nsec) / 1e6 / REPEATS);
}

static const struct CMUnitTest tests[] = {
	TEST(many_to_one__distribution_agrees_with_r),
	TEST(many_to_one__tests_agree_with_r),
	TEST(many_to_one__printed_critical_values),
	TEST(many_to_one__blood_counts),
	TEST(many_to_one__second_method_agrees),
	TEST(many_to_one__drawing_agrees),
	TEST(many_to_one__one_group_is_a_t_test),
	TEST(many_to_one__small_chances_keep_their_digits),
	TEST(many_to_one__order_does_not_matter),
	TEST(many_to_one__intervals_match_p),
	TEST(many_to_one__refusals),
	TEST(many_to_one__how_long_it_takes),
};

TEST_MAIN(tests)

/* test_chart.c - charts against R on an invented production run, and drawing.
 */
#include "support.h"

#include "control/chart.h"
#include "core/rng.h"

#include <gsl/gsl_randist.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BATCHES = 30 };

/* Means of the three cups of each batch of inv_production.csv. */
static void
production(struct fixture *f, double *mean)
{
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/inv_production.csv"));

	assert_int_equal(BATCHES + 1, csv.n_row);
	for (size_t i = 0; i < BATCHES; i++)
		mean[i] = (strtod(csv.cell[i + 1][1], NULL) +
				  strtod(csv.cell[i + 1][2], NULL) +
				  strtod(csv.cell[i + 1][3], NULL)) /
			3;
}

static double
of_r(struct fixture *f, const char *id, const char *output, size_t i)
{
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/chart.csv"));
	char at[32];

	(void)snprintf(at, sizeof at, ";i=%zu", i);
	for (size_t r = 1; r < csv.n_row; r++) {
		const char *end = strrchr(csv.cell[r][2], ';');

		if (strcmp(csv.cell[r][0], id) == 0 &&
			strcmp(csv.cell[r][3], output) == 0 &&
			(i == 0 || strcmp(end, at) == 0))
			return strtod(csv.cell[r][4], NULL);
	}
	fail();
	return 0;
}

static void
chart(struct fixture *f, const double *value, size_t n,
	const struct control_settings *s, struct control_chart *c)
{
	assert_ok(control_chart(f->a, value, n, s, c, &f->err), &f->err);
}

/* R 4.2.2 on the same file, limits from the first 20 batches; 12 digits. */
static void
chart__agrees_with_r(void **state)
{
	static const size_t ewma_at[] = {1, 5, 20, 25, 30};
	static const size_t cusum_at[] = {5, 20, 25, 30};
	struct fixture *f = *state;
	struct control_settings s = control_usual();
	struct control_chart c;
	double value[BATCHES];

	s.n_base = 20;
	production(f, value);
	chart(f, value, BATCHES, &s, &c);
	assert_near(c.centre, of_r(f, "chart.imr", "mean", 0), 1e-12, 0);
	assert_near(c.range_mean, of_r(f, "chart.imr", "mrbar", 0), 1e-12, 0);
	assert_near(c.spread, of_r(f, "chart.imr", "sigma_hat", 0), 1e-12, 0);
	assert_near(c.high, of_r(f, "chart.imr", "ucl_i", 0), 1e-12, 0);
	assert_near(c.low, of_r(f, "chart.imr", "lcl_i", 0), 1e-12, 0);
	assert_near(c.range_high, of_r(f, "chart.imr", "ucl_mr", 0), 1e-12, 0);
	for (size_t k = 0; k < 5; k++)
		assert_near(c.point[ewma_at[k] - 1].ewma,
			of_r(f, "chart.ewma", "z", ewma_at[k]), 1e-12, 0);
	for (size_t k = 0; k < 4; k++) {
		assert_near(c.point[cusum_at[k] - 1].up,
			of_r(f, "chart.cusum", "c_plus", cusum_at[k]), 1e-11,
			0);
		assert_near(c.point[cusum_at[k] - 1].down,
			of_r(f, "chart.cusum", "c_minus", cusum_at[k]), 0, 0);
	}
}

/* That file was invented with a drift from the 21st batch on.  The 16th and
 * 17th happen to lie high, so that at the first signal the likeliest moment is
 * the 16th; the run of moments holds the 21st, and with all thirty batches it
 * is the likeliest. */
static void
chart__finds_the_drift(void **state)
{
	struct fixture *f = *state;
	struct control_settings s = control_usual();
	struct control_onset all;
	struct control_chart c;
	double value[BATCHES];

	s.n_base = 20;
	production(f, value);
	chart(f, value, BATCHES, &s, &c);
	assert_true(c.has_signal);
	assert_true(c.signal >= 20 && c.signal <= 25);
	assert_true(
		c.onset.low <= c.onset.first && c.onset.first <= c.onset.high);
	assert_true(c.onset.low <= 20 && 20 <= c.onset.high);
	assert_true(c.onset.step > 0);
	assert_ok(control_onset(f->a, value, BATCHES, c.centre, c.spread, &all,
			  &f->err),
		&f->err);
	assert_int_equal(20, all.first);
	/* run lengths that are stated: 500, 465, and 152.73 for the points
	 * (Lucas and Saccucci 1990; Lucas and Crosier 1982; Champ and Woodall
	 * 1987) */
	assert_near(c.ewma_run.calm, 500, 0, 2);
	assert_near(c.cusum_run.calm, 465, 0, 0.7);
	assert_near(c.rules_run.calm, 152.73, 0, 0.005);
	assert_near(c.cusum_run.one_spread, 10.4, 0, 0.05);
}

/* All but the run lengths is the same where those are not asked for. */
static void
chart__without_run_lengths_is_the_same_chart(void **state)
{
	struct fixture *f = *state;
	struct control_settings s = control_usual();
	struct control_chart with, without;
	double value[BATCHES];

	production(f, value);
	chart(f, value, BATCHES, &s, &with);
	s.without_runs = true;
	chart(f, value, BATCHES, &s, &without);
	assert_memory_equal(
		with.point, without.point, with.n_point * sizeof *with.point);
	assert_memory_equal(&with.onset, &without.onset, sizeof with.onset);
	assert_true(without.has_signal && without.signal == with.signal &&
		without.rule == with.rule);
	assert_near(with.low, without.low, 0, 0);
	assert_near(with.high, without.high, 0, 0);
	assert_near(0, without.rules_run.calm, 0, 0);
	assert_near(0, without.cusum_run.one_spread, 0, 0);
}

/* One pattern a rule, about centre 0 and spread 1: the point that completes it
 * signals by it, and none before. */
static void
chart__each_rule_by_its_pattern(void **state)
{
	static const struct {
		enum control_rule rule;
		size_t n;
		double value[8];
	} pattern[] = {
		{CONTROL_BEYOND_THREE, 2, {2.9, -3.1}},
		{CONTROL_TWO_OF_THREE, 3, {2.1, -0.4, 2.2}},
		{CONTROL_FOUR_OF_FIVE, 5, {-1.1, -1.2, 0.3, -1.3, -1.01}},
		{CONTROL_EIGHT_ON_ONE_SIDE, 8,
			{0.1, 0.4, 0.2, 0.9, 0.3, 0.1, 0.6, 0.2}},
		{CONTROL_SIX_STEADY, 6, {-0.9, -0.7, -0.2, 0.1, 0.2, 0.8}},
		{CONTROL_RANGE, 2, {-1.8, 1.95}}, /* 3.75 > 3.686 */
		{CONTROL_EWMA, 4, {1.7, 1.8, 1.9, 1.8}},
		{CONTROL_CUSUM, 5, {1.7, 1.6, 1.9, 1.4, 1.2}},
	};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof pattern / sizeof pattern[0]; i++) {
		struct control_settings s = control_usual();
		struct control_chart c;

		s.is_known = true;
		s.spread = 1;
		for (size_t r = 0; r < CONTROL_RULE_COUNT; r++)
			s.use[r] = r == pattern[i].rule;
		chart(f, pattern[i].value, pattern[i].n, &s, &c);
		assert_true(c.has_signal);
		assert_int_equal(pattern[i].n - 1, c.signal);
		assert_int_equal(pattern[i].rule, c.rule);
		assert_true(strlen(control_rule_says(c.rule)) > 20);
	}
}

/* Nothing moves: the mean run of the three charts is what is stated.  Four
 * standard errors of 2,000 drawn runs. */
static void
chart__stated_run_length_is_kept(void **state)
{
	enum { RUNS = 2000, LONG = 60 };
	struct fixture *f = *state;
	struct control_settings s = control_usual();
	gsl_rng *rng = rng_new(20261125, 4);
	double sum = 0, squares = 0, want = 0;

	s.is_known = true;
	s.spread = 1;
	for (size_t r = 0; r < CONTROL_RULE_COUNT; r++)
		s.use[r] = r == CONTROL_CUSUM;
	for (size_t i = 0; i < RUNS; i++) {
		struct arena_mark mark = arena_mark(f->a);
		struct control_chart c;
		double value[LONG];

		for (size_t k = 0; k < LONG; k++)
			value[k] = 1 + gsl_ran_gaussian_ziggurat(rng, 1);
		chart(f, value, LONG, &s, &c);
		assert_true(c.has_signal); /* but once in 1e6 runs */
		sum += (double)c.signal + 1;
		squares += ((double)c.signal + 1) * ((double)c.signal + 1);
		want = c.cusum_run.one_spread;
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
	sum /= RUNS;
	assert_near(
		sum, want, 0, 4 * sqrt((squares / RUNS - sum * sum) / RUNS));
}

/* Steps of any size at any moment: the run of moments holds the true one in nine
 * of ten or a little more. */
static void
onset__interval_holds_the_moment(void **state)
{
	enum { RUNS = 4000, POINTS = 40 };
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(7, 77);
	size_t held = 0;

	for (size_t i = 0; i < RUNS; i++) {
		struct arena_mark mark = arena_mark(f->a);
		size_t moment = gsl_rng_uniform_int(rng, POINTS);
		double step = gsl_ran_gaussian_ziggurat(rng, 3);
		struct control_onset got;
		double value[POINTS];

		for (size_t k = 0; k < POINTS; k++)
			value[k] = 5 +
				0.7 *
					((k >= moment ? step : 0) +
						gsl_ran_gaussian_ziggurat(
							rng, 1));
		assert_ok(control_onset(
				  f->a, value, POINTS, 5, 0.7, &got, &f->err),
			&f->err);
		held += got.low <= moment && moment <= got.high;
		arena_back(f->a, mark);
	}
	gsl_rng_free(rng);
	/* the run of moments holds at least 90 %, so that with sharp steps it
	 * holds nearer 100 %; the flat prior of the step is wider than the one
	 * drawn from, which costs little */
	assert_true((double)held / RUNS > 0.88);
	assert_true((double)held / RUNS < 0.99);
}

/* Shift and scale of the values change nothing but their units. */
static void
chart__units_do_not_matter(void **state)
{
	struct fixture *f = *state;
	struct control_settings s = control_usual();
	struct control_chart c, d;
	double value[BATCHES], other[BATCHES];

	s.n_base = 20;
	production(f, value);
	for (size_t i = 0; i < BATCHES; i++)
		other[i] = 0.0624279606 * value[i] - 17.3;
	chart(f, value, BATCHES, &s, &c);
	chart(f, other, BATCHES, &s, &d);
	assert_int_equal(c.signal, d.signal);
	assert_int_equal(c.rule, d.rule);
	assert_int_equal(c.onset.low, d.onset.low);
	assert_int_equal(c.onset.cusum, d.onset.cusum);
	assert_near(d.onset.step, 0.0624279606 * c.onset.step, 1e-9, 0);
	for (size_t i = 0; i < BATCHES; i++)
		assert_near(d.point[i].up, c.point[i].up, 1e-9, 1e-9);
}

static void
chart__refusals(void **state)
{
	static const double same[] = {4.2, 4.2, 4.2, 4.2};
	static const double two[] = {1, 2};
	static const double bad[] = {1, NAN, 3};
	struct fixture *f = *state;
	struct control_settings s = control_usual();
	struct control_chart c = {.centre = 77};

	assert_int_equal(
		ERR_INPUT, control_chart(f->a, same, 4, &s, &c, &f->err));
	assert_has(f->err.text, "equal");
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, control_chart(f->a, two, 2, &s, &c, &f->err));
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, control_chart(f->a, bad, 3, &s, &c, &f->err));
	assert_has(f->err.text, "Value 2");
	err_clear(&f->err);
	s.is_known = true;
	s.spread = 0;
	assert_int_equal(
		ERR_INPUT, control_chart(f->a, two, 2, &s, &c, &f->err));
	assert_string_equal("spread", f->err.field);
	err_clear(&f->err);
	s.spread = 1;
	s.lambda = 1.5;
	assert_int_equal(
		ERR_INPUT, control_chart(f->a, two, 2, &s, &c, &f->err));
	assert_string_equal("lambda", f->err.field);
	assert_near(c.centre, 77, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(chart__agrees_with_r),
	TEST(chart__finds_the_drift),
	TEST(chart__without_run_lengths_is_the_same_chart),
	TEST(chart__each_rule_by_its_pattern),
	TEST(chart__stated_run_length_is_kept),
	TEST(onset__interval_holds_the_moment),
	TEST(chart__units_do_not_matter),
	TEST(chart__refusals),
};

TEST_MAIN(tests)

/* test_variance.c - variance components against R and closed forms. */
#include "r_rows.h"

#include "core/rng.h"
#include "stats/summary.h"
#include "stats/variance.h"

#include <gsl/gsl_randist.h>

/* A table that can be written to, and its view for the function. */
struct table {
	double *value;
	size_t *batch, *batch_group;
	struct stats_variance_data data;
};

static struct table
take_table(struct arena *a, size_t n)
{
	struct table t = {.value = arena_take(a, n, sizeof *t.value),
		.batch = arena_take(a, n, sizeof *t.batch),
		.batch_group = arena_take(a, n, sizeof *t.batch_group)};

	assert_non_null(t.value);
	assert_non_null(t.batch);
	assert_non_null(t.batch_group);
	t.data = (struct stats_variance_data){.value = t.value,
		.batch = t.batch,
		.batch_group = t.batch_group};
	return t;
}

/* The number of the batch that a row of the file names; a new one if need be.*/
static size_t
batch_of(struct table *t, const struct support_csv *csv, size_t row,
	size_t *first)
{
	char **cell = csv->cell[row];
	size_t b = 0, g = 0;

	while (b < t->data.n_batch &&
		(strcmp(csv->cell[first[b]][1], cell[1]) != 0 ||
			strcmp(csv->cell[first[b]][2], cell[2]) != 0))
		b++;
	if (b < t->data.n_batch)
		return b;
	first[t->data.n_batch++] = row;
	while (g < b && strcmp(csv->cell[first[g]][1], cell[1]) != 0)
		g++;
	t->batch_group[b] = g < b ? t->batch_group[g] : t->data.n_group++;
	return b;
}

/* The rows of one case of r/variance_rows.csv: case, group, batch, value. */
static struct stats_variance_data
read_case(struct arena *a, const char *name)
{
	struct support_csv csv = support_csv_read(
		a, support_path("r/variance_rows.csv"));
	struct table t = take_table(a, csv.n_row);
	size_t *first = arena_take(a, csv.n_row, sizeof *first);

	assert_non_null(first);
	for (size_t i = 1; i < csv.n_row; i++) {
		if (strcmp(csv.cell[i][0], name) != 0)
			continue;
		t.batch[t.data.n] = batch_of(&t, &csv, i, first);
		t.value[t.data.n++] = strtod(csv.cell[i][3], NULL);
	}
	assert_true(t.data.n > 0);
	return t.data;
}

static struct stats_variance
solve(struct fixture *f, const struct stats_variance_data *data)
{
	struct stats_variance got;

	assert_ok(stats_variance(f->a, data, 0.95, &got, &f->err), &f->err);
	return got;
}

static double
part_of(const struct stats_variance *got, const char *what)
{
	const struct stats_variance_part *part = strstr(what, "between") != NULL
		? &got->between
		: &got->within;

	if (strcmp(what, "log_likelihood") == 0)
		return got->log_likelihood;
	if (strstr(what, ".low") != NULL)
		return part->low;
	return strstr(what, ".high") != NULL ? part->high : part->variance;
}

/* r/04_variance.R: lme4 1.1-31 and a dense restricted likelihood profiled by
 * optimise() and uniroot().  lme4 stops at about 1e-7 of a variance, R's
 * optim() at 1e-6, the roots at 1e-9. */
static void
variance__agrees_with_r(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/variance.csv"));
	size_t n_end = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		const char *what = csv.cell[i][1];
		struct stats_variance_data data = read_case(
			f->a, csv.cell[i][0]);
		struct stats_variance got = solve(f, &data);
		double want = strtod(csv.cell[i][2], NULL);
		bool is_end = strstr(what, ".low") || strstr(what, ".high");

		assert_near(part_of(&got, what), want, is_end ? 1e-8 : 2e-6, 0);
		n_end += is_end;
	}
	assert_int_equal(n_end, 4 * 8);
}

/* Root of the analytic score in R, good to 11 digits (r/01_fixtures.R). */
static void
variance__agrees_with_the_root_of_the_score(void **state)
{
	struct fixture *f = *state;
	size_t n, n_seen = 0;
	const struct r_row *row = r_rows(f->a, "r/variance_fixtures.csv", &n);

	for (size_t i = 0; i < n; i++) {
		struct stats_variance_data data = read_case(
			f->a, r_text(f->a, &row[i], "file"));
		struct stats_variance got = solve(f, &data);
		double want = row[i].value;

		if (strcmp(row[i].output, "sigma2_batch") == 0)
			assert_near(got.between.variance, want, 1e-8, 0);
		else if (strcmp(row[i].output, "sigma2_resid") == 0)
			assert_near(got.within.variance, want, 1e-8, 0);
		else if (strcmp(row[i].output, "loglik") == 0)
			assert_near(got.log_likelihood, want, 1e-12, 0);
		else
			continue;
		n_seen++;
	}
	assert_int_equal(n_seen, 7); /* anova has between alone */
}

/* Davies and Goldsmith (1972), Statistical Methods in Research and Production,
 * Dyestuff: six batches of five, mean squares 11271.5 and 2451.25, hence
 * (11271.5 - 2451.25) / 5 = 1764.05 between.  Box and Tiao (1973), Bayesian
 * Inference in Statistical Analysis, Dyestuff2: mean square between below the
 * one within, so the estimate is 0 and all is within. */
static void
variance__published_dyestuffs(void **state)
{
	struct fixture *f = *state;
	struct stats_variance_data data = read_case(f->a, "dyestuff.csv");
	struct stats_variance got = solve(f, &data);

	assert_near(got.between.variance, 1764.05, 1e-12, 0);
	assert_near(got.within.variance, 2451.25, 1e-12, 0);
	data = read_case(f->a, "dyestuff2.csv");
	got = solve(f, &data);
	assert_near(got.between.variance, 0, 0, 0);
	assert_near(got.between.low, 0, 0, 0);
	assert_near(got.within.variance, stats_squares(data.value, data.n) / 29,
		1e-13, 0);
}

static struct table
draw_table(struct arena *a, gsl_rng *rng, size_t n_group, size_t per_group,
	size_t n, double ratio)
{
	struct table t = take_table(a, n_group * per_group * n);

	t.data.n_group = n_group;
	for (size_t b = 0; b < n_group * per_group; b++) {
		double off = gsl_ran_gaussian(rng, sqrt(ratio));

		t.batch_group[t.data.n_batch++] = b / per_group;
		for (size_t i = 0; i < n; i++) {
			t.batch[t.data.n] = b;
			t.value[t.data.n++] = 7.3 +
				1.9 * (double)(b / per_group) + off +
				gsl_ran_gaussian(rng, 1);
		}
	}
	return t;
}

/* Balanced: where the analysis of variance is positive, it is the restricted
 * likelihood's (Searle, Casella and McCulloch 1992, Variance Components,
 * section 4.8).  The score has about 14 digits, the ratio 12. */
static void
variance__balanced_is_analysis_of_variance(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(977, 0);
	size_t n_zero = 0;

	for (size_t k = 0; k < 40; k++) {
		size_t n = 2 + k % 5, per = 2 + k % 4, groups = 1 + k % 3;
		struct table t = draw_table(
			f->a, rng, groups, per, n, 0.01 * exp((double)k / 4));
		struct stats_variance got = solve(f, &t.data);
		double within = 0, between = 0, mean[16];

		for (size_t b = 0; b < groups * per; b++) {
			within += stats_squares(t.value + b * n, n);
			mean[b] = stats_mean(t.value + b * n, n);
		}
		for (size_t g = 0; g < groups; g++)
			between += (double)n *
				stats_squares(mean + g * per, per);
		within /= (double)(groups * per * (n - 1));
		between /= (double)(groups * (per - 1));
		n_zero += between <= within;
		if (between > within) {
			assert_near(got.within.variance, within, 1e-10, 0);
			assert_near(got.between.variance,
				(between - within) / (double)n, 1e-9,
				1e-11 * within);
		} else {
			assert_near(got.between.variance, 0, 0, 0);
		}
		assert_true(got.between.low <= got.between.variance);
		assert_true(got.between.high > got.between.variance);
		assert_true(got.within.low < got.within.variance);
		assert_true(got.within.high > got.within.variance);
	}
	assert_in_range(n_zero, 1, 39);
	gsl_rng_free(rng);
}

/* Units, an added mean for each group and the order of rows change nothing
 * else. */
static void
variance__follows_the_unit(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(31, 0);
	struct table t = draw_table(f->a, rng, 3, 4, 3, 0.7);
	struct stats_variance one = solve(f, &t.data), other;
	const double unit = 1.3e-90;

	for (size_t i = 0; i < t.data.n; i++)
		t.value[i] = unit * t.value[i];
	for (size_t i = 0; i < t.data.n / 2; i++) {
		size_t j = t.data.n - 1 - i;
		double value = t.value[i];
		size_t batch = t.batch[i];

		t.value[i] = t.value[j];
		t.batch[i] = t.batch[j];
		t.value[j] = value;
		t.batch[j] = batch;
	}
	other = solve(f, &t.data);
	/* the values' own rounding, 1e-16 of 7, against a spread of 1 */
	assert_near(other.between.variance / unit / unit, one.between.variance,
		1e-12, 0);
	assert_near(other.between.low / unit / unit, one.between.low, 1e-9, 0);
	assert_near(
		other.between.high / unit / unit, one.between.high, 1e-10, 0);
	assert_near(other.within.low / unit / unit, one.within.low, 1e-10, 0);
	assert_near(other.within.high / unit / unit, one.within.high, 1e-10, 0);
	gsl_rng_free(rng);
}

/* Over 300 trials drawn from known variances the 95 % intervals hold them in
 * 95 %, give or take 4 standard errors of 1.3 %. */
static void
variance__intervals_cover(void **state)
{
	enum { TRIALS = 300 };
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(5, 0);
	size_t between = 0, within = 0;

	for (size_t k = 0; k < TRIALS; k++) {
		struct arena_mark mark = arena_mark(f->a);
		struct table t = draw_table(f->a, rng, 2, 10, 4, 0.8);
		struct stats_variance got = solve(f, &t.data);

		between += got.between.low <= 0.8 && got.between.high >= 0.8;
		within += got.within.low <= 1 && got.within.high >= 1;
		arena_back(f->a, mark);
	}
	assert_in_range(between, 270, TRIALS);
	assert_in_range(within, 270, TRIALS);
	gsl_rng_free(rng);
}

/* Every confidence strictly between 0 and 1 has an interval, and they grow. */
static void
variance__intervals_grow_with_confidence(void **state)
{
	const double confidence[] = {
		1e-300, 1e-9, 1e-5, 0.1, 0.5, 0.9, 0.999, 1 - 1e-15};
	const double slack = 1 + 1e-12; /* rounding of logs and back */
	struct fixture *f = *state;

	for (uint64_t seed = 0; seed < 20; seed++) {
		gsl_rng *rng = rng_new(seed, 7);
		struct table t = draw_table(
			f->a, rng, 2, 3, 3, exp((double)seed - 5));
		struct stats_variance got, before = {0};

		for (size_t i = 0; i < 8; i++) {
			assert_ok(stats_variance(f->a, &t.data, confidence[i],
					  &got, &f->err),
				&f->err);
			assert_true(got.within.low <= got.within.variance);
			assert_true(got.between.low <= got.between.variance);
			assert_true(got.within.high >= got.within.variance);
			assert_true(got.between.high >= got.between.variance);
			if (i > 0) {
				assert_true(got.within.high * slack >=
					before.within.high);
				assert_true(got.between.high * slack >=
					before.between.high);
				assert_true(got.within.low <=
					before.within.low * slack);
				assert_true(got.between.low <=
					before.between.low * slack);
			}
			before = got;
		}
		gsl_rng_free(rng);
	}
}

static void
variance__a_hundred_thousand_rows(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(12, 0);
	struct table t = draw_table(f->a, rng, 7, 3572, 4, 0.31);
	struct stats_variance got = solve(f, &t.data);

	assert_true(t.data.n > 100000);
	assert_true(got.between.low < 0.31 && got.between.high > 0.31);
	assert_true(got.within.low < 1 && got.within.high > 1);
	/* asymptotic half width 1.96 sqrt(2 / 75012) of the variance within,
	 * to the third order that the asymptotics leave out */
	assert_near(got.within.high - got.within.variance,
		1.96 * sqrt(2. / 75012) * got.within.variance, 0.02, 0);
	gsl_rng_free(rng);
}

static void
refuse(struct fixture *f, const struct stats_variance_data *data,
	const char *part)
{
	struct stats_variance got = {.log_likelihood = 77};

	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_variance(f->a, data, 0.95, &got, &f->err));
	assert_string_equal("rows", f->err.field);
	assert_has(f->err.text, part);
	assert_near(got.log_likelihood, 77, 0, 0);
}

static void
variance__refuses(void **state)
{
	struct fixture *f = *state;
	double value[] = {1.1, 1.3, 0.9, 1.7};
	size_t batch[] = {0, 0, 1, 1}, group[] = {0, 0, 1, 1};
	struct stats_variance_data data = {.value = value,
		.batch = batch,
		.batch_group = group,
		.n = 4,
		.n_batch = 2,
		.n_group = 1};
	struct stats_variance got;
	struct arena *small = arena_new(64);

	assert_int_equal(
		ERR_MEMORY, stats_variance(small, &data, 0.95, &got, &f->err));
	arena_free(small);
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_variance(f->a, &data, 1, &got, &f->err));
	assert_string_equal("confidence", f->err.field);
	value[2] = NAN;
	refuse(f, &data, "Value 3 is not a finite number");
	value[2] = 1e200;
	refuse(f, &data, "another unit");
	value[1] = value[0];
	value[2] = value[3];
	refuse(f, &data, "with more digits");
	value[2] = 1.9;
	batch[3] = 2;
	refuse(f, &data, "batch 3, but there are only 2");
	batch[2] = batch[3] = 0;
	refuse(f, &data, "Batch 2 has no value");
	data.n_batch = 1;
	refuse(f, &data, "There is only one batch");
	data.n_batch = data.n_group = 2;
	refuse(f, &data, "Every group has only one batch");
	for (size_t i = 0; i < 4; i++)
		batch[i] = i;
	data.n_batch = 4;
	refuse(f, &data, "Every batch has only one value");
	data.n = 0;
	refuse(f, &data, "no value");
}

/* One outlying batch, two values: the likelihood's answer, not a failure. */
static void
variance__few_values_are_answered(void **state)
{
	struct fixture *f = *state;
	double value[] = {3.1, 3.10000001, 900};
	size_t batch[] = {0, 0, 1}, group[] = {0, 0};
	struct stats_variance_data data = {.value = value,
		.batch = batch,
		.batch_group = group,
		.n = 3,
		.n_batch = 2,
		.n_group = 1};
	struct stats_variance got = solve(f, &data);

	/* Three values, two contrasts: the variance within is half the square
	 * of the difference in the first batch, that between half the square
	 * of the difference of the batches, to their ratio of 1e-20. */
	assert_near(got.within.variance, 0.5e-16, 1e-6, 0);
	assert_near(got.between.variance, 896.9 * 896.9 / 2, 1e-6, 0);
	assert_true(isfinite(got.between.high));
	assert_true(got.within.low > 0);
}

static const struct CMUnitTest tests[] = {
	TEST(variance__agrees_with_r),
	TEST(variance__agrees_with_the_root_of_the_score),
	TEST(variance__published_dyestuffs),
	TEST(variance__balanced_is_analysis_of_variance),
	TEST(variance__follows_the_unit),
	TEST(variance__intervals_cover),
	TEST(variance__intervals_grow_with_confidence),
	TEST(variance__a_hundred_thousand_rows),
	TEST(variance__refuses),
	TEST(variance__few_values_are_answered),
};

TEST_MAIN(tests)

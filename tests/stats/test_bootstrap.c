/* test_bootstrap.c - resampling against full enumeration and against R. */
#include "r_rows.h"

#include "stats/bootstrap.h"
#include "stats/summary.h"

/* statistic of one resample, which is put into x */
static double
resample(enum stats_statistic which, const double *value, const size_t *index,
	size_t n, double *x)
{
	for (size_t i = 0; i < n; i++)
		x[i] = value[index[i]];
	return stats_bootstrap_statistic(which, x, n);
}

/* All n^n resamples. */
static struct stats_bootstrap_draws
enumerate(struct arena *a, enum stats_statistic which, const double *value,
	size_t n)
{
	enum { N_MAX = 8 };
	size_t index[N_MAX] = {0}, total = 1;
	double x[N_MAX], copy[N_MAX];
	struct stats_bootstrap_draws all = {0};

	for (size_t i = 0; i < n; i++) {
		total *= n;
		copy[i] = value[i];
	}
	all.n = total;
	all.draw = arena_take(a, total, sizeof(double));
	assert_non_null(all.draw);
	for (size_t k = 0; k < total; k++) {
		size_t rest = k;

		for (size_t i = 0; i < n; i++) {
			index[i] = rest % n;
			rest /= n;
		}
		all.draw[k] = resample(which, value, index, n, x);
	}
	all.estimate = stats_bootstrap_statistic(which, copy, n);
	all.margin = 1e-12 * all.estimate;
	return all;
}

static struct stats_bootstrap
intervals(struct fixture *f, enum stats_statistic which, const double *value,
	size_t n, struct stats_bootstrap_draws *draws, double confidence)
{
	struct stats_bootstrap got;

	assert_ok(stats_bootstrap_acceleration(f->a, which, value, n,
			  &draws->acceleration, &draws->has_acceleration,
			  &f->err),
		&f->err);
	assert_ok(stats_bootstrap_intervals(
			  f->a, draws, confidence, &got, &f->err),
		&f->err);
	return got;
}

static enum stats_statistic
statistic_of(const char *word)
{
	if (strcmp(word, "mean") == 0)
		return STATS_MEAN;
	if (strcmp(word, "median") == 0)
		return STATS_MEDIAN;
	return strcmp(word, "cv") == 0 ? STATS_CV : STATS_SD;
}

static double
number_of(const struct stats_bootstrap *got, const char *output)
{
	if (strcmp(output, "theta") == 0)
		return got->estimate;
	if (strcmp(output, "z0") == 0)
		return got->bias;
	if (strcmp(output, "a") == 0 || strcmp(output, "acc_jackknife") == 0)
		return got->acceleration;
	if (strcmp(output, "pct_lo") == 0)
		return got->percentile.low;
	if (strcmp(output, "pct_hi") == 0)
		return got->percentile.high;
	if (strcmp(output, "bca_lo") == 0 || strcmp(output, "lo") == 0)
		return got->bca.low;
	if (strcmp(output, "bca_hi") == 0 || strcmp(output, "hi") == 0)
		return got->bca.high;
	return NAN;
}

static double *
read_column(struct arena *a, const char *file, const char *name, size_t *n)
{
	struct support_csv csv = support_csv_read(a, support_path(file));
	size_t at = support_csv_column(&csv, name);
	double *x = arena_take(a, csv.n_row, sizeof *x);

	assert_non_null(x);
	for (size_t i = 1; i < csv.n_row; i++)
		x[i - 1] = strtod(csv.cell[i][at], NULL);
	*n = csv.n_row - 1;
	return x;
}

/* R enumerated all 3125 resamples of the five values of mix A: bias correction
 * by the draws strictly below, acceleration by the jackknife, ends by the
 * inverse of the distribution (r/01_fixtures.R).  Our ends are interpolated
 * between neighbouring draws, which are equal there. */
static void
bootstrap__agrees_with_full_enumeration(void **state)
{
	struct fixture *f = *state;
	/* the five of mix A in r/inv_two_small.csv */
	double *all = NULL;
	size_t n, n_row, n_seen = 0;
	const struct r_row *row = r_rows(f->a, "r/bootstrap.csv", &n_row);

	all = read_column(f->a, "r/inv_two_small.csv", "mpa", &n);
	for (size_t i = 0; i < n_row; i++) {
		struct stats_bootstrap_draws draws;
		struct stats_bootstrap got;
		enum stats_statistic which;
		double want = row[i].value;

		if (!r_is(&row[i], "boot.exact") ||
			strstr(row[i].inputs, "half ties") != NULL ||
			strstr(row[i].inputs, "ties=TRUE") != NULL)
			continue;
		which = statistic_of(r_text(f->a, &row[i], "stat"));
		draws = enumerate(f->a, which, all, 5);
		got = intervals(f, which, all, 5, &draws, 0.95);
		if (isnan(number_of(&got, row[i].output)))
			continue;
		/* of the jackknife of the mean only 3 digits are left of the
		 * sum of cubes: it is nearly symmetric */
		assert_near(number_of(&got, row[i].output), want, 1e-10,
			strcmp(row[i].output, "acc_jackknife") == 0 ? 1e-13
								    : 0);
		n_seen++;
	}
	assert_int_equal(n_seen, 3 * 7);
}

/* R's own resamples of 24 beams, 1999 of them (r/inv_boot_indices.csv). */
static void
bootstrap__agrees_with_r_on_its_resamples(void **state)
{
	struct fixture *f = *state;
	struct support_csv index = support_csv_read(
		f->a, support_path("r/inv_boot_indices.csv"));
	size_t n, n_row, n_seen = 0;
	const double *kpa = read_column(f->a, "r/inv_weibull.csv", "kpa", &n);
	const struct r_row *row = r_rows(f->a, "r/bootstrap.csv", &n_row);

	assert_int_equal(n, 24);
	assert_int_equal(index.n_row, 1999);
	for (size_t i = 0; i < n_row; i++) {
		enum stats_statistic which;
		struct stats_bootstrap_draws draws = {.n = index.n_row};
		struct stats_bootstrap got;
		double x[24], copy[24];
		bool percentile = strncmp(row[i].call, "percentile, boot",
					  16) == 0;

		if (!r_is(&row[i], "boot.fixed") ||
			strstr(row[i].inputs, "q05") != NULL ||
			(!percentile &&
				strcmp(row[i].call,
					"BCa, acceleration by jackknife, "
					"boot's interpolation") != 0))
			continue;
		which = statistic_of(r_text(f->a, &row[i], "stat"));
		draws.draw = arena_take(f->a, draws.n, sizeof(double));
		assert_non_null(draws.draw);
		for (size_t k = 0; k < draws.n; k++) {
			size_t at[24];

			for (size_t j = 0; j < n; j++)
				at[j] = strtoul(index.cell[k][j], NULL, 10) - 1;
			draws.draw[k] = resample(which, kpa, at, n, x);
		}
		memcpy(copy, kpa, sizeof copy);
		draws.estimate = stats_bootstrap_statistic(which, copy, n);
		got = intervals(f, which, kpa, n, &draws, 0.95);
		if (percentile)
			got.bca = got.percentile;
		if (isnan(number_of(&got, row[i].output)))
			continue;
		assert_near(
			number_of(&got, row[i].output), row[i].value, 1e-9, 0);
		n_seen++;
	}
	assert_int_equal(n_seen, 2 * (2 + 4));
}

static const double six[] = {2.31, 1.87, 2.05, 2.66, 1.94, 2.19};

/* A quarter of a million draws against all 46,656: the ends differ by no more
 * than the neighbouring draws, here 2 % of the width. */
static void
bootstrap__draws_come_near_enumeration(void **state)
{
	struct fixture *f = *state;

	for (int which = STATS_MEAN; which <= STATS_CV; which++) {
		struct stats_bootstrap_draws all = enumerate(
			f->a, (enum stats_statistic)which, six, 6);
		struct stats_bootstrap want = intervals(
			f, (enum stats_statistic)which, six, 6, &all, 0.9);
		struct stats_bootstrap_ask ask = {.value = six,
			.n = 6,
			.which = (enum stats_statistic)which,
			.draws = 250000,
			.confidence = 0.9,
			.seed = 8,
			.n_thread = 1};
		struct stats_bootstrap got;
		double width = want.percentile.high - want.percentile.low;

		assert_ok(stats_bootstrap(f->a, &ask, &got, &f->err), &f->err);
		assert_near(got.estimate, want.estimate, 1e-14, 0);
		assert_near(got.acceleration, want.acceleration, 1e-12, 0);
		/* standard error of a normal quantile: sqrt(pi/2/250000) */
		assert_near(got.bias, want.bias, 0, 4 * 0.0026);
		assert_near(got.percentile.low, want.percentile.low, 0,
			0.02 * width);
		assert_near(got.percentile.high, want.percentile.high, 0,
			0.02 * width);
		assert_near(got.bca.low, want.bca.low, 0, 0.02 * width);
		assert_near(got.bca.high, want.bca.high, 0, 0.02 * width);
	}
}

static void
bootstrap__does_not_depend_on_threads(void **state)
{
	struct fixture *f = *state;

	for (int which = STATS_MEAN; which <= STATS_CV; which++) {
		struct stats_bootstrap_ask ask = {.value = six,
			.n = 6,
			.which = (enum stats_statistic)which,
			.draws = 12345,
			.confidence = 0.95,
			.seed = 3,
			.n_thread = 1};
		struct stats_bootstrap one, five, other;

		assert_ok(stats_bootstrap(f->a, &ask, &one, &f->err), &f->err);
		ask.n_thread = 5;
		assert_ok(stats_bootstrap(f->a, &ask, &five, &f->err), &f->err);
		ask.seed = 4;
		assert_ok(
			stats_bootstrap(f->a, &ask, &other, &f->err), &f->err);
		assert_near(one.bias, five.bias, 0, 0);
		assert_near(one.bca.low, five.bca.low, 0, 0);
		assert_near(one.bca.high, five.bca.high, 0, 0);
		assert_true(one.bias < other.bias || one.bias > other.bias);
	}
}

/* The jackknife by leaving out each value in turn, taken anew every time. */
static void
bootstrap__jackknife_is_the_plain_one(void **state)
{
	enum { N = 9 };
	struct fixture *f = *state;
	/* one value far out, and two that are equal */
	const double value[N] = {3.1, 2.7, 2.7, 3.9, 1e7, 2.2, 4.4, 3.3, 2.9};

	for (size_t n = 4; n <= N; n++) {
		for (int which = STATS_MEAN; which <= STATS_CV; which++) {
			double left[N], x[N], mean = 0, squares = 0, cubes = 0,
					      a;
			bool has;

			for (size_t i = 0; i < n; i++) {
				size_t to = 0;

				for (size_t j = 0; j < n; j++)
					if (j != i)
						x[to++] = value[j];
				left[i] = stats_bootstrap_statistic(
					(enum stats_statistic)which, x, to);
			}
			mean = stats_mean(left, n);
			for (size_t i = 0; i < n; i++) {
				squares += pow(mean - left[i], 2);
				cubes += pow(mean - left[i], 3);
			}
			assert_ok(stats_bootstrap_acceleration(f->a,
					  (enum stats_statistic)which, value, n,
					  &a, &has, &f->err),
				&f->err);
			assert_true(has);
			/* 1e7 in double leaves 9 digits of the others */
			assert_near(a, cubes / (6 * pow(squares, 1.5)), 1e-8,
				1e-12);
		}
	}
}

static void
bootstrap__equal_and_few_values(void **state)
{
	struct fixture *f = *state;
	const double equal[] = {4.7, 4.7, 4.7, 4.7}, two[] = {1.3, 2.9};
	struct stats_bootstrap_ask ask = {.value = equal,
		.n = 4,
		.draws = 2000,
		.confidence = 0.95,
		.seed = 1};
	struct stats_bootstrap got;

	for (int which = STATS_MEAN; which <= STATS_CV; which++) {
		const bool is_centre = which <= STATS_MEDIAN;

		ask.which = (enum stats_statistic)which;
		assert_ok(stats_bootstrap(f->a, &ask, &got, &f->err), &f->err);
		assert_false(got.has_bca);
		assert_near(got.percentile.low, is_centre ? 4.7 : 0, 0, 0);
		assert_near(got.percentile.high, is_centre ? 4.7 : 0, 0, 0);
	}
	ask.value = two;
	ask.n = 2;
	ask.which = STATS_MEAN;
	assert_ok(stats_bootstrap(f->a, &ask, &got, &f->err), &f->err);
	assert_true(got.has_bca);
	/* the three resamples of two values: a quarter, a half, a quarter */
	assert_near(got.percentile.low, 1.3, 1e-15, 0);
	assert_near(got.percentile.high, 2.9, 1e-15, 0);
	ask.which = STATS_SD;
	assert_ok(stats_bootstrap(f->a, &ask, &got, &f->err), &f->err);
	assert_false(got.has_bca);
	assert_near(got.percentile.low, 0, 0, 0);
}

/* n log n: a hundred thousand values, all alike but one among them. */
static void
bootstrap__a_hundred_thousand_values(void **state)
{
	enum { N = STATS_BOOTSTRAP_VALUES_MOST };
	struct fixture *f = *state;
	double *value = arena_take(f->a, N, sizeof *value);
	struct stats_bootstrap_ask ask = {.value = value,
		.n = N,
		.draws = 50,
		.confidence = 0.8,
		.seed = 2};
	struct stats_bootstrap got;

	assert_non_null(value);
	for (size_t i = 0; i < N; i++)
		value[i] = 5.1 + sin((double)i);
	for (int which = STATS_MEAN; which <= STATS_CV; which++) {
		ask.which = (enum stats_statistic)which;
		assert_ok(stats_bootstrap(f->a, &ask, &got, &f->err), &f->err);
		assert_true(got.percentile.low < got.percentile.high);
	}
	for (size_t i = 0; i < N; i++)
		value[i] = 5.1;
	assert_ok(stats_bootstrap(f->a, &ask, &got, &f->err), &f->err);
	assert_near(got.estimate, 0, 0, 0);
}

static void
refuse(struct fixture *f, const struct stats_bootstrap_ask *ask,
	const char *field, const char *part)
{
	struct stats_bootstrap got = {.estimate = 77};

	err_clear(&f->err);
	assert_int_equal(ERR_INPUT, stats_bootstrap(f->a, ask, &got, &f->err));
	assert_string_equal(field, f->err.field);
	assert_has(f->err.text, part);
	assert_near(got.estimate, 77, 0, 0);
}

static void
bootstrap__refuses(void **state)
{
	struct fixture *f = *state;
	double value[] = {1.2, 2.3, NAN};
	struct stats_bootstrap_ask good = {.value = value,
		.n = 2,
		.which = STATS_CV,
		.draws = 100,
		.confidence = 0.9};
	struct stats_bootstrap_ask ask = good;
	struct stats_bootstrap got;
	struct arena *small = arena_new(64);

	assert_int_equal(
		ERR_MEMORY, stats_bootstrap(small, &good, &got, &f->err));
	arena_free(small);
	ask.n = 3;
	refuse(f, &ask, "values", "Value 3 is not a finite number");
	ask.n = 1;
	refuse(f, &ask, "values", "here is 1");
	ask.n = STATS_BOOTSTRAP_VALUES_MOST + 1;
	refuse(f, &ask, "values", "100000 values");
	ask = good;
	ask.draws = 0;
	refuse(f, &ask, "draws", "The draws are 0");
	ask.draws = STATS_BOOTSTRAP_DRAWS_MOST + 1;
	refuse(f, &ask, "draws", "The draws are 1000001");
	ask = good;
	ask.confidence = NAN;
	refuse(f, &ask, "confidence", "between 0 and 1");
	value[0] = 0;
	refuse(f, &good, "values", "ask for sd instead");
	value[0] = 1e300;
	refuse(f, &good, "values", "another unit");
}

static const struct CMUnitTest tests[] = {
	TEST(bootstrap__agrees_with_full_enumeration),
	TEST(bootstrap__agrees_with_r_on_its_resamples),
	TEST(bootstrap__draws_come_near_enumeration),
	TEST(bootstrap__does_not_depend_on_threads),
	TEST(bootstrap__jackknife_is_the_plain_one),
	TEST(bootstrap__equal_and_few_values),
	TEST(bootstrap__a_hundred_thousand_values),
	TEST(bootstrap__refuses),
};

TEST_MAIN(tests)

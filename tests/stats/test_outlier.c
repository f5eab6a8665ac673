/* test_outlier.c - Grubbs and Dixon against R, print and closed forms. */
#include "r_rows.h"

#include "stats/outlier.h"

#include <stdio.h>

/* The set named by a row: "file=inv_outliers.csv;set=n8". */
static const double *
read_set(struct arena *a, const struct r_row *row, size_t *n)
{
	struct support_csv csv = support_csv_read(
		a, support_path("r/inv_outliers.csv"));
	double *value = arena_take(a, csv.n_row, sizeof *value);
	const char *set = r_text(a, row, "set");

	*n = 0;
	for (size_t i = 1; i < csv.n_row; i++)
		if (strcmp(csv.cell[i][0], set) == 0)
			value[(*n)++] = strtod(csv.cell[i][1], NULL);
	return value;
}

struct ends {
	double mean, sd, highest, lowest;
};

static struct ends
find_ends(const double *x, size_t n)
{
	struct ends ends = {.highest = x[0], .lowest = x[0]};
	double squares = 0;

	for (size_t i = 0; i < n; i++) {
		ends.mean += x[i] / (double)n;
		ends.highest = fmax(ends.highest, x[i]);
		ends.lowest = fmin(ends.lowest, x[i]);
	}
	for (size_t i = 0; i < n; i++)
		squares += (x[i] - ends.mean) * (x[i] - ends.mean);
	ends.sd = sqrt(squares / (double)(n - 1));
	return ends;
}

static void
outlier__grubbs_agrees_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n_row, n_test = 0, n_critical = 0;
	const struct r_row *row = r_rows(f->a, "r/outlier.csv", &n_row);

	for (size_t i = 0; i < n_row; i++) {
		const char *output = row[i].output;
		double want = row[i].value;

		if (r_is(&row[i], "grubbs.crit")) {
			double alpha = r_number(f->a, &row[i], "alpha");
			size_t n = (size_t)r_number(f->a, &row[i], "n");
			bool two = strcmp(output, "two_sided") == 0;

			/* near g's greatest value p falls off steeply: 15
			 * digits of g give 8 of p at n = 3 */
			assert_near(stats_grubbs_bound(want, n) * (two ? 2 : 1),
				alpha, n == 3 ? 1e-8 : 1e-10, 0);
			n_critical++;
		} else if (r_is(&row[i], "grubbs")) {
			size_t n;
			const double *x = read_set(f->a, &row[i], &n);
			struct ends ends = find_ends(x, n);
			double g_max = (ends.highest - ends.mean) / ends.sd;
			double g_min = (ends.mean - ends.lowest) / ends.sd;
			struct stats_grubbs got;

			assert_ok(stats_grubbs(x, n, &got, &f->err), &f->err);
			assert_near(strcmp(output, "G_two") == 0       ? got.g
					: strcmp(output, "G_max") == 0 ? g_max
					: strcmp(output, "G_min") == 0 ? g_min
					: strcmp(output, "p_two_bonferroni") ==
						0
					? got.p_two_sided
					: strcmp(output, "p_max_one") == 0
					? fmin(1, stats_grubbs_bound(g_max, n))
					: strcmp(output, "p_min_one") == 0
					? fmin(1, stats_grubbs_bound(g_min, n))
					/* crit05_two: its p is 5 % */
					: want *
						(stats_grubbs_bound(want, n) *
							2 / 0.05),
				want, 1e-10, 0);
			assert_near(got.p_one_sided,
				fmin(1, stats_grubbs_bound(got.g, n)), 1e-11,
				0);
			n_test++;
		}
	}
	assert_int_equal(28, n_test);
	assert_int_equal(186, n_critical);
}

static struct stats_dixon_ratio
named_ratio(const char *name)
{
	return (struct stats_dixon_ratio){
		.top = name[1] - '0', .bottom = name[2] - '0'};
}

/* 2-dimensional quadrature in R, good to 10 digits; a critical value stands for
 * p = alpha, found to 1e-12 of r. */
static void
outlier__dixon_agrees_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n_row, n_test = 0, n_critical = 0;
	const struct r_row *row = r_rows(f->a, "r/outlier.csv", &n_row);

	for (size_t i = 0; i < n_row; i++) {
		double want = row[i].value;

		if (r_is(&row[i], "dixon.crit") ||
			r_is(&row[i], "dixon.crit10")) {
			double alpha = r_number(f->a, &row[i], "alpha");
			size_t n = (size_t)r_number(f->a, &row[i], "n");
			struct stats_dixon_ratio ratio = named_ratio(
				strchr(row[i].call, ' ') + 1);

			assert_near(stats_dixon_upper(ratio, want, n), alpha,
				1e-8, 0);
			n_critical++;
		} else if (r_is(&row[i], "dixon")) {
			size_t n;
			const double *x = read_set(f->a, &row[i], &n);
			const char *output = row[i].output;
			struct ends ends = find_ends(x, n);
			struct stats_dixon got;
			bool has, high;

			assert_ok(stats_dixon(f->a, x, n, &has, &got, &f->err),
				&f->err);
			assert_true(has);
			high = x[got.index] >= ends.highest;
			/* rows of the other end are not what is reported */
			n_test++;
			if ((strstr(output, "high") != NULL) != high)
				continue;
			assert_near(output[0] == 'r' ? got.r : got.p, want,
				1e-8, 0);
		}
	}
	assert_int_equal(16, n_test);
	assert_int_equal(84 + 69, n_critical);
}

/* Printed one-tailed points of Grubbs (truncated there) and of Dixon 1950 as
 * corrected by Rorabacher 1991; rows known to be wrong are left out. */
static void
outlier__printed_points(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/published_comparisons.csv"));
	size_t n_grubbs = 0, n_dixon = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		double point = strtod(csv.cell[i][2], NULL), alpha;
		bool same = strcmp(csv.cell[i][6], "same") == 0;
		unsigned n;
		char name[8];

		if (strcmp(csv.cell[i][0], "grubbs-one") == 0) {
			/* two decimals, rounded or cut: the exact point lies
			 * within one unit */
			assert_int_equal(2,
				sscanf(csv.cell[i][1], "n=%u alpha=%lf", &n,
					&alpha));
			assert_true(
				stats_grubbs_bound(point - 0.0101, n) > alpha);
			if (point + 0.0101 < (n - 1) / sqrt(n))
				assert_true(stats_grubbs_bound(
						    point + 0.0101, n) < alpha);
			n_grubbs++;
		} else if (strcmp(csv.cell[i][0], "dixon") == 0) {
			double unit = same ? 0.000501 : 0.001001;

			assert_int_equal(3,
				sscanf(csv.cell[i][1], "%7s n=%u alpha=%lf",
					name, &n, &alpha));
			assert_true(stats_dixon_upper(named_ratio(name),
					    point - unit, n) > alpha);
			assert_true(stats_dixon_upper(named_ratio(name),
					    point + unit, n) < alpha);
			n_dixon++;
		}
	}
	assert_int_equal(45, n_grubbs);
	assert_int_equal(39, n_dixon);
}

/* Any ratio exceeds 0, none exceeds 1; and of three values the middle one is
 * nearer to the lowest as often as to the highest, so P(r10 > 1/2) = 1/2. */
static void
outlier__dixon_at_known_points(void **state)
{
	const struct stats_dixon_ratio r10 = {.top = 1, .bottom = 0};
	const struct stats_dixon_ratio r22 = {.top = 2, .bottom = 2};

	(void)state;
	assert_near(stats_dixon_upper(r10, 0, 3), 1, 1e-12, 0);
	assert_near(stats_dixon_upper(r10, 0, 30), 1, 1e-11, 0);
	assert_near(stats_dixon_upper(r22, 0, 47), 1, 1e-9, 0);
	assert_near(stats_dixon_upper(r22, 0, STATS_DIXON_MAX), 1, 1e-9, 0);
	assert_near(stats_dixon_upper(r10, 1, 7), 0, 0, 1e-300);
	assert_near(stats_dixon_upper(r10, 0.5, 3), 0.5, 1e-12, 0);
}

static void
outlier__both_ends_are_alike(void **state)
{
	struct fixture *f = *state;
	const double up[] = {2.31, 1.88, 1.91, 1.93, 1.9, 1.86};
	double down[6];
	struct stats_grubbs g[2];
	struct stats_dixon d[2];
	bool has;

	for (size_t i = 0; i < 6; i++)
		down[i] = -up[i];
	assert_ok(stats_grubbs(up, 6, &g[0], &f->err), &f->err);
	assert_ok(stats_grubbs(down, 6, &g[1], &f->err), &f->err);
	assert_ok(stats_dixon(f->a, up, 6, &has, &d[0], &f->err), &f->err);
	assert_ok(stats_dixon(f->a, down, 6, &has, &d[1], &f->err), &f->err);
	assert_int_equal(0, g[1].index);
	assert_int_equal(0, d[0].index);
	assert_int_equal(0, d[1].index);
	assert_near(g[1].p_one_sided, g[0].p_one_sided, 0, 0);
	assert_near(d[1].p, d[0].p, 0, 0);
}

static void
outlier__edges(void **state)
{
	struct fixture *f = *state;
	const double level[] = {2.2, 2.2, 2.2}, alone[] = {2.2, 2.2, 2.2, 9.1};
	const double bad[] = {1, 2, INFINITY};
	double *many = arena_take(f->a, 100000, sizeof *many);
	struct stats_grubbs got = {.g = 77};
	struct stats_dixon dixon = {.r = 77};
	bool has;

	assert_int_equal(ERR_INPUT, stats_grubbs(level, 3, &got, &f->err));
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT, stats_grubbs(level, 2, &got, &f->err));
	err_clear(&f->err);
	assert_int_equal(ERR_INPUT, stats_grubbs(bad, 3, &got, &f->err));
	assert_has(f->err.text, "Value 3");
	err_clear(&f->err);
	assert_near(got.g, 77, 0, 0);
	assert_ok(stats_grubbs(alone, 4, &got, &f->err), &f->err);
	assert_near(got.g, 1.5, 1e-15, 0); /* (n - 1) / sqrt(n) */
	assert_near(got.p_two_sided, 0, 0, 0);
	assert_ok(stats_dixon(f->a, alone, 4, &has, &dixon, &f->err), &f->err);
	assert_near(dixon.r, 1, 0, 0);
	assert_near(dixon.p, 0, 0, 0);
	for (size_t i = 0; i < 100000; i++)
		many[i] = fmod((double)i * 0.6180339887, 1.0);
	assert_ok(stats_grubbs(many, 100000, &got, &f->err), &f->err);
	assert_near(got.p_one_sided, 1, 0, 0);
	assert_ok(stats_dixon(f->a, many, 100000, &has, &dixon, &f->err),
		&f->err);
	assert_false(has);
}

static const struct CMUnitTest tests[] = {
	TEST(outlier__grubbs_agrees_with_r),
	TEST(outlier__dixon_agrees_with_r),
	TEST(outlier__printed_points),
	TEST(outlier__dixon_at_known_points),
	TEST(outlier__both_ends_are_alike),
	TEST(outlier__edges),
};

TEST_MAIN(tests)

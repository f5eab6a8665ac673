/* test_oneway.c - one-way analysis against NIST, R and printed examples. */
#include "r_rows.h"

#include <stdio.h>

/* R 4.2.2: closed forms with checked distribution functions, 13 digits. */
static const double r_tolerance = 1e-10;

static double
anova_output(const struct stats_oneway *got, const char *output)
{
	const double n_minus_1 = got->f.df1 + got->f.df2;
	const struct {
		const char *name;
		double value;
	} known[] = {
		{"df1", got->f.df1},
		{"df2", got->f.df2},
		{"ssb", got->between_ss},
		{"ssw", got->within_ss},
		{"msb", got->between_ms},
		{"msw", got->within_ms},
		{"F", got->f.f},
		{"p", got->f.p},
		{"r2", got->r_squared},
		/* omega squared, by its definition from the table */
		{"omega2",
			(got->between_ss - got->f.df1 * got->within_ms) /
				(got->between_ss + got->within_ss +
					got->within_ms)},
	};

	assert_true(n_minus_1 > 0);
	for (size_t i = 0; i < sizeof known / sizeof known[0]; i++)
		if (strcmp(output, known[i].name) == 0)
			return known[i].value;
	print_error("unknown output %s\n", output);
	fail();
	return 0;
}

static double
f_output(const struct stats_f *got, const char *output)
{
	return strcmp(output, "F") == 0      ? got->f
		: strcmp(output, "df1") == 0 ? got->df1
		: strcmp(output, "df2") == 0 ? got->df2
					     : got->p;
}

static void
oneway__agrees_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, n_anova = 0, n_welch = 0, n_levene = 0;
	const struct r_row *row = r_rows(f->a, "r/oneway.csv", &n);

	for (size_t i = 0; i < n; i++) {
		struct stats_grouped data = r_row_groups(f->a, &row[i]);
		struct stats_oneway oneway;
		struct stats_f ratio;
		bool has;
		double got;

		if (r_is(&row[i], "anova")) {
			assert_ok(stats_oneway(f->a, &data, &oneway, &f->err),
				&f->err);
			got = anova_output(&oneway, row[i].output);
			n_anova++;
		} else if (r_is(&row[i], "welch")) {
			assert_ok(
				stats_welch(f->a, &data, &has, &ratio, &f->err),
				&f->err);
			assert_true(has);
			got = f_output(&ratio, row[i].output);
			n_welch++;
		} else {
			assert_ok(stats_levene(
					  f->a, &data, &has, &ratio, &f->err),
				&f->err);
			assert_true(has);
			got = f_output(&ratio, row[i].output);
			n_levene++;
		}
		assert_near(got, row[i].value, r_tolerance, 0);
	}
	assert_int_equal(40, n_anova);
	assert_int_equal(16, n_welch);
	assert_int_equal(16, n_levene);
}

enum { NIST_LINE_MAX = 256 };

struct nist {
	struct stats_grouped data;
	double between_ss, between_ms, f, within_ss, within_ms, r_squared, sd;
};

/* The certified values stand in fixed places of the file; the data begin after
 * the line that begins with "Data:" and has a treatment and a response. */
static struct nist
read_nist(struct arena *a, const char *name)
{
	char path[128], line[NIST_LINE_MAX];
	struct nist nist = {0};
	enum { ROOM = 20000 };
	size_t *size = arena_take(a, ROOM, sizeof *size), n = 0;
	double *value = arena_take(a, ROOM, sizeof *value), x;
	bool in_data = false;
	int group;
	FILE *file;

	(void)snprintf(path, sizeof path, "nist/anova/%s.dat", name);
	file = fopen(support_path(path), "r");
	assert_non_null(file);
	while (fgets(line, sizeof line, file) != NULL) {
		double df;
		char word[32];

		if (sscanf(line, "Between %31s %lf %lf %lf %lf", word, &df,
			    &nist.between_ss, &nist.between_ms, &nist.f) == 5)
			continue;
		(void)sscanf(line, "Within %31s %lf %lf %lf", word, &df,
			&nist.within_ss, &nist.within_ms);
		(void)sscanf(line, " Certified R-Squared %lf", &nist.r_squared);
		(void)sscanf(line, " Standard Deviation %lf", &nist.sd);
		if (strncmp(line, "Data:", 5) == 0 && nist.sd > 0)
			in_data = true;
		else if (in_data && sscanf(line, "%d %lf", &group, &x) == 2) {
			assert_true(n < ROOM);
			value[n++] = x;
			size[group - 1]++;
			if ((size_t)group > nist.data.n_group)
				nist.data.n_group = (size_t)group;
		}
	}
	(void)fclose(file);
	nist.data.size = size;
	nist.data.value = value;
	return nist;
}

static double
digits(double got, double want)
{
	double off = fabs(got - want) / fabs(want);

	return off > 0 ? fmin(15, -log10(off)) : 15;
}

/* Digits that exact rational arithmetic on the data read as doubles reaches,
 * less 0.3, for F and for the worst of the other certified values (the sum of
 * squares between): SmLs04 and SmLs07 have 7 and 13 constant leading digits,
 * and the doubles nearest to the data hold no more. */
static void
oneway__reaches_the_ceiling_on_nist(void **state)
{
	struct fixture *f = *state;
	const struct {
		const char *name;
		double least_f, least;
	} set[] = {
		{"SiRstv", 12.8, 12.8},
		{"SmLs01", 14.7, 14.7},
		{"SmLs04", 10.1, 9.8},
		{"SmLs07", 4.1, 3.7},
	};

	for (size_t i = 0; i < sizeof set / sizeof set[0]; i++) {
		struct nist nist = read_nist(f->a, set[i].name);
		struct stats_oneway got;

		assert_ok(
			stats_oneway(f->a, &nist.data, &got, &f->err), &f->err);
		print_message("%s  certified F %.15g  ours %.15g  digits: F "
			      "%.1f, R2 %.1f, sd %.1f\n",
			set[i].name, nist.f, got.f.f, digits(got.f.f, nist.f),
			digits(got.r_squared, nist.r_squared),
			digits(got.residual_sd, nist.sd));
		assert_true(digits(got.f.f, nist.f) >= set[i].least_f);
		assert_true(digits(got.between_ss, nist.between_ss) >=
			set[i].least);
		assert_true(digits(got.between_ms, nist.between_ms) >=
			set[i].least);
		assert_true(
			digits(got.within_ss, nist.within_ss) >= set[i].least);
		assert_true(
			digits(got.within_ms, nist.within_ms) >= set[i].least);
		assert_true(
			digits(got.r_squared, nist.r_squared) >= set[i].least);
		assert_true(digits(got.residual_sd, nist.sd) >= set[i].least);
	}
}

/* Two columns of numbers after the last line of dashes, as these NIST files
 * have them; gives the number of rows. */
static size_t
read_columns(const char *name, double first[], double second[], size_t room)
{
	char path[128], line[NIST_LINE_MAX];
	size_t n = 0;
	FILE *file;

	(void)snprintf(path, sizeof path, "nist_dataplot/%s", name);
	file = fopen(support_path(path), "r");
	assert_non_null(file);
	while (fgets(line, sizeof line, file) != NULL) {
		double x, y;

		if (strncmp(line, "----", 4) == 0)
			n = 0;
		else if (sscanf(line, "%lf %lf", &x, &y) == 2 && n < room) {
			first[n] = x;
			second[n++] = y;
		}
	}
	(void)fclose(file);
	return n;
}

/* NIST Handbook 91, page 3-41, cement briquettes: F 1.8506 and p 0.1588,
 * computed by R from the printed data, to the digits given. */
static void
oneway__cement_briquettes(void **state)
{
	struct fixture *f = *state;
	const size_t size[] = {5, 5, 5, 5, 5};
	double value[25], group[25];
	struct stats_grouped data = {
		.n_group = 5, .size = size, .value = value};
	struct stats_oneway got;

	assert_int_equal(25, read_columns("NATR341.DAT", value, group, 25));
	assert_ok(stats_oneway(f->a, &data, &got, &f->err), &f->err);
	assert_near(got.f.f, 1.8506, 0, 5e-5);
	assert_near(got.f.p, 0.1588, 0, 5e-5);
}

/* NIST gear diameters: Brown-Forsythe 1.70592, computed by R (the NIST
 * e-Handbook, 1.3.5.10, prints 1.7059: from memory). */
static void
oneway__gear_diameters(void **state)
{
	struct fixture *f = *state;
	const size_t size[] = {10, 10, 10, 10, 10, 10, 10, 10, 10, 10};
	double value[100], group[100];
	struct stats_grouped data = {
		.n_group = 10, .size = size, .value = value};
	struct stats_f got;
	bool has;

	assert_int_equal(100, read_columns("GEAR.DAT", value, group, 100));
	assert_ok(stats_levene(f->a, &data, &has, &got, &f->err), &f->err);
	assert_true(has);
	assert_near(got.f, 1.70592, 0, 5e-6);
}

/* NIST Handbook 91, page 3-26, concrete by two methods: Welch t
 * 5.716879789807 on 8.962225962 degrees of freedom, p 2.92652696e-4, computed
 * by R from the printed data; -99 marks a missing value. */
static void
oneway__concrete_by_two_methods(void **state)
{
	struct fixture *f = *state;
	const size_t size[] = {4, 9};
	double first[9], second[9], value[13];
	struct stats_grouped data = {
		.n_group = 2, .size = size, .value = value};
	struct stats_f got;
	bool has;

	assert_int_equal(9, read_columns("NATR326.DAT", first, second, 9));
	memcpy(value, first, 4 * sizeof *value);
	memcpy(value + 4, second, sizeof second);
	assert_ok(stats_welch(f->a, &data, &has, &got, &f->err), &f->err);
	assert_true(has);
	assert_near(sqrt(got.f), 5.716879789807, 1e-12, 0);
	assert_near(got.df2, 8.962225962, 1e-9, 0);
	assert_near(got.p, 2.92652696e-4, 2e-9, 0);
}

static void
oneway__two_groups_are_a_t_test(void **state)
{
	struct fixture *f = *state;
	const double value[] = {2.385, 1.07, 3.91, 7.713, 5.5, 1.9, 4.44};
	const size_t size[] = {3, 4};
	struct stats_grouped data = {
		.n_group = 2, .size = size, .value = value};
	struct stats_oneway got;
	struct stats_f welch;
	bool has;
	double mean[2] = {0}, squares[2] = {0}, se2, t2;

	for (size_t i = 0; i < 7; i++)
		mean[i > 2] += value[i] / (double)size[i > 2];
	for (size_t i = 0; i < 7; i++)
		squares[i > 2] += pow(value[i] - mean[i > 2], 2);
	assert_ok(stats_oneway(f->a, &data, &got, &f->err), &f->err);
	se2 = (squares[0] + squares[1]) / 5 * (1.0 / 3 + 1.0 / 4);
	t2 = pow(mean[1] - mean[0], 2) / se2;
	assert_near(got.f.f, t2, 1e-13, 0); /* a few roundings */
	assert_ok(stats_welch(f->a, &data, &has, &welch, &f->err), &f->err);
	assert_true(has);
	se2 = squares[0] / 2 / 3 + squares[1] / 3 / 4;
	t2 = pow(mean[1] - mean[0], 2) / se2;
	assert_near(welch.f, t2, 1e-13, 0);
}

static void
oneway__shift_and_order_do_not_matter(void **state)
{
	struct fixture *f = *state;
	const double value[] = {2.385, 1.07, 3.91, 7.713, 5.5, 1.9, 4.44, 0.3};
	const size_t size[] = {3, 3, 2}, turned_size[] = {2, 3, 3};
	double turned[8];
	struct stats_grouped data = {
		.n_group = 3, .size = size, .value = value};
	struct stats_grouped other = {
		.n_group = 3, .size = turned_size, .value = turned};
	struct stats_oneway a, b;

	for (size_t i = 0; i < 8; i++)
		turned[i] = value[7 - i] * 1024 + 4096; /* exact */
	assert_ok(stats_oneway(f->a, &data, &a, &f->err), &f->err);
	assert_ok(stats_oneway(f->a, &other, &b, &f->err), &f->err);
	/* the shift rounds the values at 2^-42 of their size */
	assert_near(b.f.f, a.f.f, 1e-11, 0);
	assert_near(b.between_ss + b.within_ss,
		1048576 * (a.between_ss + a.within_ss), 1e-11, 0);
}

static void
oneway__says_what_is_missing(void **state)
{
	struct fixture *f = *state;
	const size_t size[] = {2, 2}, one[] = {1, 1, 1, 1};
	const double level[] = {3.2, 3.2, 4.1, 4.1}, bad[] = {1, NAN, 2, 3};
	struct stats_grouped data = {
		.n_group = 2, .size = size, .value = level};
	struct stats_oneway got = {.between_ss = 77};
	struct stats_f ratio = {.f = 77};
	bool has = true;

	assert_int_equal(ERR_INPUT, stats_oneway(f->a, &data, &got, &f->err));
	assert_has(f->err.text, "no spread");
	err_clear(&f->err);
	assert_ok(stats_welch(f->a, &data, &has, &ratio, &f->err), &f->err);
	assert_false(has);
	assert_ok(stats_levene(f->a, &data, &has, &ratio, &f->err), &f->err);
	assert_false(has);
	data.value = bad;
	assert_int_equal(ERR_INPUT, stats_oneway(f->a, &data, &got, &f->err));
	assert_has(f->err.text, "Value 2 of group 1");
	err_clear(&f->err);
	data.value = level;
	data.n_group = 1;
	assert_int_equal(ERR_INPUT, stats_oneway(f->a, &data, &got, &f->err));
	assert_has(f->err.text, "There is 1 group");
	err_clear(&f->err);
	data.n_group = 4;
	data.size = one;
	assert_int_equal(ERR_INPUT, stats_oneway(f->a, &data, &got, &f->err));
	assert_has(f->err.text, "one value only");
	assert_near(got.between_ss, 77, 0, 0);
	assert_near(ratio.f, 77, 0, 0);
}

static void
oneway__a_full_arena_is_said(void **state)
{
	struct fixture *f = *state;
	const double value[] = {2.385, 1.07, 3.91, 7.713};
	const size_t size[] = {2, 2};
	struct stats_grouped data = {
		.n_group = 2, .size = size, .value = value};
	struct arena *small = arena_new(1);
	struct stats_oneway got;
	struct stats_f ratio;
	bool has;

	assert_int_equal(ERR_MEMORY, stats_oneway(small, &data, &got, &f->err));
	err_clear(&f->err);
	assert_int_equal(
		ERR_MEMORY, stats_levene(small, &data, &has, &ratio, &f->err));
	arena_free(small);
}

static const struct CMUnitTest tests[] = {
	TEST(oneway__agrees_with_r),
	TEST(oneway__reaches_the_ceiling_on_nist),
	TEST(oneway__cement_briquettes),
	TEST(oneway__gear_diameters),
	TEST(oneway__concrete_by_two_methods),
	TEST(oneway__two_groups_are_a_t_test),
	TEST(oneway__shift_and_order_do_not_matter),
	TEST(oneway__says_what_is_missing),
	TEST(oneway__a_full_arena_is_said),
};

TEST_MAIN(tests)

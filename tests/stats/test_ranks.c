/* test_ranks.c - Kruskal-Wallis against R, enumeration and the rank sum test. */
#include "r_rows.h"

#include "stats/ranks.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

static struct stats_ranks
ranks(struct fixture *f, const double *value, const size_t *size,
	size_t n_group)
{
	const struct stats_grouped data = {
		.n_group = n_group, .size = size, .value = value};
	struct stats_ranks got;

	assert_ok(stats_ranks(f->a, &data, &got, &f->err), &f->err);
	return got;
}

static void
ranks__agree_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n;
	const struct r_row *row = r_rows(f->a, "r/kruskal.csv", &n);

	for (size_t i = 0; i < n; i++) {
		struct stats_grouped data = r_row_groups(f->a, &row[i]);
		struct stats_ranks got;
		const char *output = row[i].output;
		double want = row[i].value;

		assert_ok(stats_ranks(f->a, &data, &got, &f->err), &f->err);
		/* closed form, 13 digits; the exact share is a ratio of whole
		 * numbers */
		if (strcmp(output, "H") == 0)
			assert_near(got.h, want, 1e-12, 0);
		else if (strcmp(output, "df") == 0)
			assert_near(got.df, want, 0, 0);
		else if (strcmp(output, "p_exact") == 0)
			assert_near(got.p_exact, want, 1e-12, 0);
		else
			assert_near(got.p, want, 1e-10, 0);
	}
	assert_int_equal(15, n);
}

/* Tails counted by enumeration in R, printed with six digits; an arrangement
 * that has the H named stands for each. */
static void
ranks__known_exact_tails(void **state)
{
	struct fixture *f = *state;
	const struct {
		size_t size[3];
		double value[12];
		double h, p;
	} known[] = {
		{{3, 3, 3}, {1, 2, 3, 4, 5, 6, 7, 8, 9}, 7.2, .003571},
		{{3, 3, 3}, {1, 2, 3, 4, 5, 9, 6, 7, 8}, 5.6, .05},
		{{4, 4, 4}, {1, 2, 3, 5, 4, 6, 7, 11, 8, 9, 10, 12}, 7.6538,
			.007619},
		{{4, 4, 4}, {1, 2, 3, 5, 4, 6, 8, 12, 7, 9, 10, 11}, 6.9615,
			.019394},
		{{2, 3, 4}, {1, 2, 3, 4, 5, 6, 7, 8, 9}, 7, .004762},
		{{2, 3, 4}, {1, 4, 2, 3, 5, 6, 7, 8, 9}, 6.1111, .020635},
	};

	for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
		struct stats_ranks got = ranks(
			f, known[i].value, known[i].size, 3);

		assert_true(got.has_exact);
		assert_near(got.h, known[i].h, 0, 5.1e-5);
		assert_near(got.p_exact, known[i].p, 0, 5.1e-7);
	}
}

/* The same shares by dealing out every arrangement, ties and all. */
struct dealing {
	const double *rank;
	size_t left[3], n;
	double sum[3], least;
	size_t size[3];
	double beyond, all;
};

static void
deal_all(struct dealing *d, size_t i)
{
	if (i == d->n) {
		double score = 0;

		for (size_t g = 0; g < 3; g++)
			score += d->sum[g] * d->sum[g] / (double)d->size[g];
		d->all++;
		d->beyond += score >= d->least * (1 - 1e-12);
		return;
	}
	for (size_t g = 0; g < 3; g++) {
		if (d->left[g] == 0)
			continue;
		d->left[g]--;
		d->sum[g] += d->rank[i];
		deal_all(d, i + 1);
		d->sum[g] -= d->rank[i];
		d->left[g]++;
	}
}

static void
ranks__counting_equals_dealing(void **state)
{
	struct fixture *f = *state;
	/* 2.1 three times, 3.3 twice */
	const double value[] = {2.1, 1.7, 3.3, 2.1, 3.9, 4.4, 2.1, 3.3, 5.2};
	const double rank[] = {3, 1, 5.5, 3, 7, 8, 3, 5.5, 9};
	const size_t size[] = {2, 4, 3};
	struct stats_ranks got = ranks(f, value, size, 3);
	struct dealing d = {
		.rank = rank, .n = 9, .left = {2, 4, 3}, .size = {2, 4, 3}};
	double sums[3] = {0};

	for (size_t i = 0; i < 9; i++)
		sums[i < 2 ? 0 : i < 6 ? 1 : 2] += rank[i];
	for (size_t g = 0; g < 3; g++)
		d.least += sums[g] * sums[g] / (double)size[g];
	deal_all(&d, 0);
	assert_near(d.all, 1260, 0, 0); /* 9! / (2! 4! 3!) */
	assert_true(got.has_exact);
	assert_near(got.p_exact, d.beyond / d.all, 1e-14, 0);
}

/* Two groups: the two-sided rank sum test, whose exact tail R can count. */
static void
ranks__two_groups_are_the_rank_sum_test(void **state)
{
	struct fixture *f = *state;
	enum { M = 12, N = 17 };
	const size_t size[] = {M, N};
	double value[M + N], w = 0, far;
	struct stats_ranks got;

	for (size_t i = 0; i < M; i++) /* ranks 1, 3, 5 ... of the first */
		value[i] = 2.385 * (double)(2 * i + 1);
	for (size_t i = 0; i < N; i++)
		value[M + i] = 2.385 *
			(double)(i < M - 1 ? 2 * i + 2 : i + 2 * M);
	for (size_t i = 0; i < M; i++)
		for (size_t j = 0; j < N; j++)
			w += value[i] > value[M + j];
	got = ranks(f, value, size, 2);
	far = fmin(w, M * N - w);
	assert_true(got.has_exact);
	assert_near(got.p_exact, 2 * pwilcox(far, M, N, true, false), 1e-12, 0);
}

static void
ranks__too_many_to_count(void **state)
{
	struct fixture *f = *state;
	enum { GROUPS = 8, EACH = 12500 };
	size_t size[GROUPS];
	double *value = arena_take(f->a, GROUPS * EACH, sizeof *value);
	struct stats_ranks got;

	for (size_t g = 0; g < GROUPS; g++)
		size[g] = EACH;
	for (size_t i = 0; i < GROUPS * EACH; i++)
		value[i] = fmod((double)i * 0.6180339887, 1.0);
	got = ranks(f, value, size, GROUPS);
	assert_false(got.has_exact);
	assert_true(got.p > 0 && got.p <= 1);
	size[0] = 9;
	size[1] = size[2] = size[3] = 10;
	got = ranks(f, value, size, 4);
	assert_false(got.has_exact);
}

static void
ranks__all_equal_is_said(void **state)
{
	struct fixture *f = *state;
	const double value[] = {3.3, 3.3, 3.3};
	const size_t size[] = {1, 2};
	const struct stats_grouped data = {
		.n_group = 2, .size = size, .value = value};
	struct stats_ranks got = {.h = 77};

	assert_int_equal(ERR_INPUT, stats_ranks(f->a, &data, &got, &f->err));
	assert_has(f->err.text, "All 3 values are equal");
	assert_near(got.h, 77, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(ranks__agree_with_r),
	TEST(ranks__known_exact_tails),
	TEST(ranks__counting_equals_dealing),
	TEST(ranks__two_groups_are_the_rank_sum_test),
	TEST(ranks__too_many_to_count),
	TEST(ranks__all_equal_is_said),
};

TEST_MAIN(tests)

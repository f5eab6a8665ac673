/* test_all_pairs.c - Tukey-Kramer and Games-Howell against R and print. */
#include "r_rows.h"

#include "stats/all_pairs.h"

#include <stdio.h>

static const struct stats_pair *
all_pairs(struct fixture *f, const struct stats_grouped *data,
	enum stats_variance variance)
{
	const struct stats_pair *pair;
	size_t n;

	assert_ok(
		stats_all_pairs(f->a, data, variance, 0.95, &pair, &n, &f->err),
		&f->err);
	assert_int_equal(data->n_group * (data->n_group - 1) / 2, n);
	return pair;
}

/* "C-B:diff": the pair (B, C) and what of it; R's se of Games-Howell is that of
 * the difference, sqrt(2) times the one in q. */
static double
pair_output(const struct stats_pair *pair, size_t n_group, const char *output)
{
	size_t b = (size_t)(output[0] - 'A'), a = (size_t)(output[2] - 'A');
	const char *what = strchr(output, ':') + 1;

	while (pair->a != a || pair->b != b) {
		assert_true(pair->a + 2 <= n_group);
		pair++;
	}
	return strcmp(what, "diff") == 0 ? pair->difference
		: strcmp(what, "se") == 0
		? fabs(pair->difference) / pair->q * M_SQRT2
		: strcmp(what, "df") == 0 ? pair->df
		: strcmp(what, "q") == 0  ? pair->q
		: strcmp(what, "p") == 0  ? pair->p
		: strcmp(what, "lo") == 0 ? pair->low
		: strcmp(what, "hi") == 0 ? pair->high
					  : (double)NAN;
}

static void
all_pairs__agree_with_r(void **state)
{
	struct fixture *f = *state;
	size_t n, n_tukey = 0, n_games = 0;
	const struct r_row *row = r_rows(f->a, "r/tukey.csv", &n);
	const char *file[] = {
		"inv_cubes_balanced.csv", "inv_cubes_unbalanced.csv"};

	for (size_t d = 0; d < 2; d++) {
		struct stats_grouped data = r_groups(
			f->a, file[d], "mix", false);
		const struct stats_pair *equal = all_pairs(
			f, &data, STATS_EQUAL_VARIANCE);
		const struct stats_pair *unequal = all_pairs(
			f, &data, STATS_UNEQUAL_VARIANCE);

		for (size_t i = 0; i < n; i++) {
			bool tukey = r_is(&row[i], "tukey.hsd");
			bool games = r_is(&row[i], "gameshowell");

			if ((!tukey && !games) ||
				strstr(row[i].inputs, file[d]) == NULL)
				continue;
			n_tukey += tukey;
			n_games += games;
			/* quadrature of 12 digits; differences of data of size
			 * 2 hold 1e-15 absolutely */
			assert_near(pair_output(tukey ? equal : unequal,
					    data.n_group, row[i].output),
				row[i].value, 1e-9, 1e-14);
		}
	}
	assert_int_equal(170, n_tukey);
	assert_int_equal(238, n_games);
}

/* NIST Handbook 91, page 3-41, cement briquettes: groups 5 and 3, p .14885 as
 * computed by R from the printed data. */
static void
all_pairs__cement_briquettes(void **state)
{
	struct fixture *f = *state;
	const size_t size[] = {5, 5, 5, 5, 5};
	const double value[] = {518, 560, 538, 510, 544, 508, 574, 528, 534,
		538, 554, 598, 579, 538, 544, 555, 567, 550, 535, 540, 536, 492,
		528, 572, 506};
	const struct stats_grouped data = {
		.n_group = 5, .size = size, .value = value};
	const struct stats_pair *pair = all_pairs(
		f, &data, STATS_EQUAL_VARIANCE);

	assert_int_equal(2, pair[8].a);
	assert_int_equal(4, pair[8].b);
	assert_near(pair[8].p, 0.14885, 0, 5e-6);
}

static void
all_pairs__refusals(void **state)
{
	struct fixture *f = *state;
	const double value[] = {2.1, 2.4, 2.2, 3.3, 3.3, 4.1};
	const size_t size[] = {3, 2, 1};
	struct stats_grouped data = {
		.n_group = 3, .size = size, .value = value};
	const struct stats_pair *pair = NULL;
	size_t n = 77;

	assert_int_equal(ERR_INPUT,
		stats_all_pairs(f->a, &data, STATS_UNEQUAL_VARIANCE, 0.9, &pair,
			&n, &f->err));
	assert_has(f->err.text, "Group 2 has only equal values");
	err_clear(&f->err);
	data.n_group = 2;
	assert_int_equal(ERR_INPUT,
		stats_all_pairs(f->a, &data, STATS_UNEQUAL_VARIANCE, 0.9, &pair,
			&n, &f->err));
	assert_null(pair);
	assert_int_equal(77, n);
	data.n_group = 3;
	(void)all_pairs(f, &data, STATS_EQUAL_VARIANCE);
}

static const struct CMUnitTest tests[] = {
	TEST(all_pairs__agree_with_r),
	TEST(all_pairs__cement_briquettes),
	TEST(all_pairs__refusals),
};

TEST_MAIN(tests)

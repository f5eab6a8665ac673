/* test_permute.c - stats/permute against full enumerations in R. */
#include "support.h"

#include "core/rng.h"
#include "stats/permute.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Shares of whole numbers are exact but for one division; F is a closed form. */
static const double one_division = 1e-15;
static const double closed_form = 1e-10;

/* The rows of a file whose mix is named; groups numbered by place in mixes. */
static struct stats_permute_sample
read_sample(struct fixture *f, const char *name, const char *mixes)
{
	struct support_csv csv = support_csv_read(f->a, support_path(name));
	size_t mix = support_csv_column(&csv, "mix");
	size_t mpa = support_csv_column(&csv, "mpa");
	double *value = arena_take(f->a, csv.n_row, sizeof *value);
	size_t *group = arena_take(f->a, csv.n_row, sizeof *group), n = 0;

	for (size_t i = 1; i < csv.n_row; i++) {
		const char *at = strchr(mixes, csv.cell[i][mix][0]);

		if (at == NULL)
			continue;
		value[n] = strtod(csv.cell[i][mpa], NULL);
		group[n++] = (size_t)(at - mixes);
	}
	return (struct stats_permute_sample){.value = value,
		.group = group,
		.n = n,
		.n_group = strlen(mixes)};
}

static void
permute__two_groups_as_counted_in_r(void **state)
{
	struct fixture *f = *state;
	struct stats_permute_sample s = read_sample(
		f, "r/inv_two_small.csv", "AE");
	struct stats_permute got;

	assert_int_equal(11, s.n);
	assert_ok(stats_permute_exact(f->a, &s, &got, &f->err), &f->err);
	/* R fixture perm.two: 462 splits, 15 as far apart either way */
	assert_int_equal(462, got.arrangements);
	assert_int_equal(15, got.as_far);
	assert_near(got.p, 15. / 462, one_division, 0);
	assert_near(got.p_error, 0, 0, 0);
}

static void
permute__three_groups_as_counted_in_r(void **state)
{
	struct fixture *f = *state;
	struct stats_permute_sample s = read_sample(
		f, "r/inv_three_small.csv", "ABC");
	struct stats_permute got;
	double p[3];
	uint64_t all;

	assert_int_equal(12, s.n);
	assert_ok(stats_permute_exact(f->a, &s, &got, &f->err), &f->err);
	/* R fixtures perm.anova and perm.maxT */
	assert_int_equal(34650, got.arrangements);
	assert_int_equal(420, got.as_far);
	assert_near(got.f, 7.4605263157895, closed_form, 0);
	assert_ok(stats_permute_many_to_one(f->a, &s, 0, p, &all, &f->err),
		&f->err);
	assert_int_equal(34650, all);
	assert_near(p[1], 0.093044733044733, 1e-12, 0);
	assert_near(p[2], 0.825165945165945, 1e-12, 0);
	assert_near(p[0], 1, 0, 0);
}

static void
permute__whole_batches_as_counted_in_r(void **state)
{
	struct fixture *f = *state;
	struct support_csv csv = support_csv_read(
		f->a, support_path("r/inv_nested.csv"));
	size_t column = support_csv_column(&csv, "batch"), n = 0, n_batch = 0;
	size_t mpa = support_csv_column(&csv, "mpa");
	struct stats_permute_sample units;
	const char *name[64];
	size_t batch[256], of[64];
	double value[256], p[3];
	uint64_t all;

	for (size_t i = 1; i < csv.n_row; i++) {
		const char *own = csv.cell[i][column];
		const char *at = strchr("ACF", own[0]);
		size_t b = 0;

		if (at == NULL)
			continue;
		while (b < n_batch && strcmp(name[b], own) != 0)
			b++;
		if (b == n_batch) {
			of[b] = own[0] == 'A' ? 0 : own[0] == 'C' ? 1 : 2;
			name[n_batch++] = own;
		}
		batch[n] = b;
		value[n++] = log(strtod(csv.cell[i][mpa], NULL));
	}
	assert_int_equal(9, n_batch);
	assert_ok(stats_permute_units(f->a, value, batch, n, of, n_batch, 3,
			  &units, &f->err),
		&f->err);
	assert_ok(stats_permute_many_to_one(f->a, &units, 0, p, &all, &f->err),
		&f->err);
	/* R fixture perm.batch.maxT */
	assert_int_equal(1680, all);
	assert_near(p[1], 0.0214285714285714, 1e-12, 0);
	assert_near(p[2], 0.094047619047619, 1e-12, 0);
}

static void
permute__draws_agree_with_the_count(void **state)
{
	struct fixture *f = *state;
	struct stats_permute_sample s = read_sample(
		f, "r/inv_three_small.csv", "ABC");
	struct stats_permute got, again;
	gsl_rng *rng = rng_new(20611, 3);

	assert_ok(stats_permute_draws(f->a, &s, 200000, rng, &got, &f->err),
		&f->err);
	gsl_rng_free(rng);
	/* within 4 of its own standard errors: wrong once in 16,000 seeds */
	assert_near(got.p, 420. / 34650, 0, 4 * got.p_error);
	assert_near(got.p, ((double)got.as_far + 1) / 200001, one_division, 0);
	rng = rng_new(20611, 3);
	assert_ok(stats_permute_draws(f->a, &s, 200000, rng, &again, &f->err),
		&f->err);
	gsl_rng_free(rng);
	assert_int_equal(got.as_far, again.as_far);
}

static void
permute__all_equal_is_no_difference(void **state)
{
	struct fixture *f = *state;
	const double value[] = {2.3, 2.3, 2.3, 2.3, 2.3};
	const size_t group[] = {0, 0, 1, 1, 1};
	struct stats_permute_sample s = {value, group, 5, 2};
	struct stats_permute got;

	assert_ok(stats_permute_exact(f->a, &s, &got, &f->err), &f->err);
	assert_int_equal(10, got.as_far);
	assert_near(got.p, 1, 0, 0);
}

static void
permute__counts_arrangements(void **state)
{
	const size_t two[] = {5, 6}, three[] = {4, 4, 4}, many[] = {20, 20};
	const size_t lone[] = {4999999, 1};

	(void)state;
	/* multinomial coefficients, by hand */
	assert_int_equal(462, stats_permute_arrangements(two, 2));
	assert_int_equal(34650, stats_permute_arrangements(three, 3));
	assert_int_equal(5000000, stats_permute_arrangements(lone, 2));
	assert_true(stats_permute_arrangements(many, 2) == UINT64_MAX);
}

static void
permute__refuses_what_cannot_be_dealt(void **state)
{
	struct fixture *f = *state;
	const double value[] = {2.3, (double)NAN, 3.1};
	const size_t group[] = {0, 0, 1};
	struct stats_permute_sample s = {value, group, 3, 2};
	struct stats_permute got = {.as_far = 77};

	assert_int_equal(
		ERR_INPUT, stats_permute_exact(f->a, &s, &got, &f->err));
	err_clear(&f->err);
	s.n = 1; /* the second group is empty now */
	assert_int_equal(
		ERR_INPUT, stats_permute_exact(f->a, &s, &got, &f->err));
	err_clear(&f->err);
	s.n_group = 1;
	assert_int_equal(
		ERR_INPUT, stats_permute_exact(f->a, &s, &got, &f->err));
	assert_int_equal(77, got.as_far);
}

static const struct CMUnitTest tests[] = {
	TEST(permute__two_groups_as_counted_in_r),
	TEST(permute__three_groups_as_counted_in_r),
	TEST(permute__whole_batches_as_counted_in_r),
	TEST(permute__draws_agree_with_the_count),
	TEST(permute__all_equal_is_no_difference),
	TEST(permute__counts_arrangements),
	TEST(permute__refuses_what_cannot_be_dealt),
};

TEST_MAIN(tests)

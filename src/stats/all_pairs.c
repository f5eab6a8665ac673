/* all_pairs.c - Tukey-Kramer and Games-Howell comparisons. */
#include "stats/all_pairs.h"

#include "stats/range.h"

#include <math.h>

static double
variance_of_mean(const struct stats_group *group)
{
	double n = (double)group->n;

	return (double)group->squares / (n - 1) / n;
}

/* Welch-Satterthwaite degrees of freedom of a difference of two means. */
static double
welch_df(const struct stats_group *a, const struct stats_group *b)
{
	double va = variance_of_mean(a), vb = variance_of_mean(b);
	double share = va / (va + vb); /* keeps squares in range */

	return 1 /
		(share * share / (double)(a->n - 1) +
			(1 - share) * (1 - share) / (double)(b->n - 1));
}

/* Next to none counts as none: ratios to it would not stay finite. */
static bool
has_spread(const struct stats_group *group, const struct stats_pooled *pooled)
{
	const double least_share = 1e-140;

	return group->squares > 0 && isnormal(variance_of_mean(group)) &&
		sqrt(variance_of_mean(group)) > least_share * pooled->sd;
}

static enum err_code
check_unequal(const struct stats_group *group, size_t n_group,
	const struct stats_pooled *pooled, struct err *err)
{
	for (size_t g = 0; g < n_group; g++)
		if (group[g].n < 2 || !has_spread(&group[g], pooled))
			return err_report(err, ERR_INPUT, "groups",
				"Group %zu has %s, so its own spread is not "
				"known; give it more values, or compare with "
				"equal variances.",
				g + 1,
				group[g].n < 2 ? "one value"
					       : "only equal values");
	return ERR_NONE;
}

/* The standard error that divides a difference into a range: that of one mean,
 * sqrt(2) smaller than that of the difference. */
static double
range_error(const struct stats_group *a, const struct stats_group *b,
	const struct stats_pooled *pooled)
{
	if (pooled == NULL)
		return sqrt((variance_of_mean(a) + variance_of_mean(b)) / 2);
	return pooled->sd * sqrt((1 / (double)a->n + 1 / (double)b->n) / 2);
}

/* pooled is NULL for unequal variances. */
static enum err_code
compare(const struct stats_group *group, size_t n_group,
	const struct stats_pooled *pooled, double alpha, double pooled_critical,
	struct stats_pair *pair, struct err *err)
{
	const struct stats_group *a = &group[pair->a], *b = &group[pair->b];
	const double error = range_error(a, b, pooled);
	double critical = pooled_critical;

	pair->difference = (double)(b->offset - a->offset);
	pair->q = fabs(pair->difference) / error;
	pair->df = pooled != NULL ? pooled->df : welch_df(a, b);
	TRY(stats_range_upper(pair->q, n_group, pair->df, &pair->p, err));
	if (pooled == NULL)
		TRY(stats_range_critical(
			alpha, n_group, pair->df, &critical, err));
	pair->low = pair->difference - critical * error;
	pair->high = pair->difference + critical * error;
	return ERR_NONE;
}

static enum err_code
compare_all(const struct stats_group *group, size_t n_group,
	const struct stats_pooled *pooled, double alpha,
	struct stats_pair *pair, struct err *err)
{
	double critical = 0;

	if (pooled != NULL)
		TRY(stats_range_critical(
			alpha, n_group, pooled->df, &critical, err));
	for (size_t a = 0; a < n_group; a++) {
		for (size_t b = a + 1; b < n_group; b++, pair++) {
			*pair = (struct stats_pair){.a = a, .b = b};
			TRY(compare(group, n_group, pooled, alpha, critical,
				pair, err));
		}
	}
	return ERR_NONE;
}

enum err_code
stats_all_pairs(struct arena *arena, const struct stats_grouped *data,
	enum stats_variance variance, double confidence,
	const struct stats_pair **pair, size_t *n_pair, struct err *err)
{
	const bool equal = variance == STATS_EQUAL_VARIANCE;
	const size_t n_group = data->n_group;
	const struct stats_group *group;
	struct stats_pooled pooled;
	struct stats_pair *got;

	TRY(stats_grouped_check(data, 2, err));
	if (n_group > STATS_PAIR_GROUP_MAX)
		return err_report(err, ERR_INPUT, "groups",
			"There are %zu groups; all pairs of at most %d can be "
			"compared. Choose the groups that matter, or compare "
			"them with a baseline.",
			n_group, STATS_PAIR_GROUP_MAX);
	TRY(stats_grouped_describe(arena, data, &group, err));
	TRY(stats_pool(group, n_group, &pooled, err));
	if (!equal)
		TRY(check_unequal(group, n_group, &pooled, err));
	got = arena_take(arena, n_group * (n_group - 1) / 2, sizeof *got);
	if (got == NULL)
		return err_memory(err);
	TRY(compare_all(group, n_group, equal ? &pooled : NULL, 1 - confidence,
		got, err));
	*pair = got;
	*n_pair = n_group * (n_group - 1) / 2;
	return ERR_NONE;
}

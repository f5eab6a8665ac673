/* oneway.c - one-way analysis of variance, Welch's and Levene's tests. */
#include "stats/oneway.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include "stats/summary.h"

#include <gsl/gsl_sort.h>
#include <math.h>

enum err_code
stats_grouped_check(
	const struct stats_grouped *data, size_t least_groups, struct err *err)
{
	const double *value = data->value;

	if (data->n_group < least_groups)
		return err_report(err, ERR_INPUT, "groups",
			"There %s %zu group%s, but a comparison needs at least "
			"%zu.",
			data->n_group == 1 ? "is" : "are", data->n_group,
			data->n_group == 1 ? "" : "s", least_groups);
	for (size_t g = 0; g < data->n_group; g++) {
		if (data->size[g] == 0)
			return err_report(err, ERR_INPUT, "groups",
				"Group %zu has no value; leave it out or give "
				"it at least one.",
				g + 1);
		for (size_t i = 0; i < data->size[g]; i++, value++)
			if (!isfinite(*value))
				return err_report(err, ERR_INPUT, "groups",
					"Value %zu of group %zu is not a "
					"finite number.",
					i + 1, g + 1);
	}
	return ERR_NONE;
}

static struct stats_group
describe(const double *x, size_t n, double first)
{
	struct stats_group group = {.n = n};
	long double sum = 0, rest = 0;

	for (size_t i = 0; i < n; i++)
		sum += (long double)x[i] - (long double)first;
	group.offset = sum / (long double)n;
	for (size_t i = 0; i < n; i++) {
		long double d = (long double)x[i] - (long double)first -
			group.offset;

		rest += d;
		group.squares += d * d;
	}
	group.squares -= rest * rest / (long double)n;
	group.offset += rest / (long double)n;
	group.mean = (double)((long double)first + group.offset);
	return group;
}

/* Rounding of equal values must not pass for spread. */
static bool
are_equal(const double *x, size_t n)
{
	for (size_t i = 1; i < n; i++)
		if (x[i] < x[0] || x[i] > x[0])
			return false;
	return true;
}

enum err_code
stats_grouped_describe(struct arena *arena, const struct stats_grouped *data,
	const struct stats_group **group, struct err *err)
{
	struct stats_group *got = arena_take(arena, data->n_group, sizeof *got);
	const double *x = data->value;

	if (got == NULL)
		return err_memory(err);
	for (size_t g = 0; g < data->n_group; g++) {
		got[g] = describe(x, data->size[g], data->value[0]);
		if (are_equal(x, data->size[g]))
			got[g].squares = 0;
		x += data->size[g];
	}
	*group = got;
	return ERR_NONE;
}

static long double
within_squares(const struct stats_group *group, size_t n_group)
{
	long double squares = 0;

	for (size_t g = 0; g < n_group; g++)
		squares += group[g].squares;
	return squares;
}

static size_t
count_all(const struct stats_group *group, size_t n_group)
{
	size_t n = 0;

	for (size_t g = 0; g < n_group; g++)
		n += group[g].n;
	return n;
}

/* Ratios of means to spreads and their squares must stay finite. */
static bool
is_lost_beside(double spread, const struct stats_group *group, size_t n_group)
{
	const double most_spreads = 1e150;
	long double farthest = 0;

	for (size_t g = 0; g < n_group; g++)
		farthest = fmaxl(farthest, fabsl(group[g].offset));
	return !isnormal(spread) ||
		!(farthest / (long double)spread < (long double)most_spreads);
}

enum err_code
stats_pool(const struct stats_group *group, size_t n_group,
	struct stats_pooled *out, struct err *err)
{
	const size_t n = count_all(group, n_group);
	const long double squares = within_squares(group, n_group);
	double sd;

	if (n <= n_group)
		return err_report(err, ERR_INPUT, "groups",
			"Every group has one value only, so nothing shows how "
			"much values of one group differ; give at least one "
			"group a second value.");
	if (!(squares > 0))
		return err_report(err, ERR_INPUT, "groups",
			"Inside every group all values are equal, so there is "
			"no spread to judge differences by; give the values "
			"with more digits.");
	if (!isfinite((double)squares))
		return err_report(err, ERR_INPUT, "groups",
			"The values lie too far apart to be squared; give them "
			"in a larger unit.");
	sd = (double)sqrtl(squares / (long double)(n - n_group));
	if (is_lost_beside(sd, group, n_group))
		return err_report(err, ERR_INPUT, "groups",
			"The spread inside the groups, %.3g, is too small "
			"beside the differences between them for a "
			"comparison; check the values.",
			sd);
	*out = (struct stats_pooled){
		.n = n, .df = (double)(n - n_group), .sd = sd};
	return ERR_NONE;
}

static long double
between_squares(const struct stats_group *group, size_t n_group)
{
	const size_t n = count_all(group, n_group);
	long double sum = 0, squares = 0, mean;

	for (size_t g = 0; g < n_group; g++)
		sum += (long double)group[g].n * group[g].offset;
	mean = sum / (long double)n;
	for (size_t g = 0; g < n_group; g++) {
		long double d = group[g].offset - mean;

		squares += (long double)group[g].n * d * d;
	}
	return squares;
}

enum err_code
stats_oneway(struct arena *arena, const struct stats_grouped *data,
	struct stats_oneway *out, struct err *err)
{
	const struct stats_group *group;
	struct stats_pooled pooled;
	long double between, within, df1, df2, f;

	TRY(stats_grouped_check(data, 2, err));
	TRY(stats_grouped_describe(arena, data, &group, err));
	TRY(stats_pool(group, data->n_group, &pooled, err));
	between = between_squares(group, data->n_group);
	within = within_squares(group, data->n_group);
	df1 = (long double)(data->n_group - 1);
	df2 = (long double)(pooled.n - data->n_group);
	f = between / df1 / (within / df2);
	*out = (struct stats_oneway){
		.between_ss = (double)between,
		.between_ms = (double)(between / df1),
		.within_ss = (double)within,
		.within_ms = (double)(within / df2),
		.f = {.f = (double)f,
			.df1 = (double)df1,
			.df2 = (double)df2,
			.p = pf((double)f, (double)df1, (double)df2, false,
				false)},
		.r_squared = (double)(between / (between + within)),
		.residual_sd = pooled.sd,
	};
	return ERR_NONE;
}

/* Welch (1951): weights n / s^2; lambda is his sum of (1 - w/W)^2 / (n - 1). */
static struct stats_f
welch_ratio(const struct stats_group *group, size_t n_group)
{
	const long double k = (long double)n_group;
	long double total = 0, mean = 0, ratio = 0, lambda = 0, scale;
	struct stats_f f;

	for (size_t g = 0; g < n_group; g++) {
		long double n = (long double)group[g].n;
		long double weight = n * (n - 1) / group[g].squares;

		total += weight;
		mean += weight * group[g].offset;
	}
	mean /= total;
	for (size_t g = 0; g < n_group; g++) {
		long double n = (long double)group[g].n;
		long double weight = n * (n - 1) / group[g].squares;
		long double d = group[g].offset - mean;
		long double share = 1 - weight / total;

		ratio += weight * d * d;
		lambda += share * share / (n - 1);
	}
	scale = 1 + 2 * (k - 2) / (k * k - 1) * lambda;
	f.f = (double)(ratio / (k - 1) / scale);
	f.df1 = (double)(k - 1);
	f.df2 = (double)((k * k - 1) / (3 * lambda));
	f.p = pf(f.f, f.df1, f.df2, false, false);
	return f;
}

enum err_code
stats_welch(struct arena *arena, const struct stats_grouped *data, bool *has,
	struct stats_f *out, struct err *err)
{
	const struct stats_group *group;
	struct stats_f got = {0};
	bool can = true;

	TRY(stats_grouped_check(data, 2, err));
	TRY(stats_grouped_describe(arena, data, &group, err));
	for (size_t g = 0; g < data->n_group; g++)
		can = can && group[g].n > 1 && group[g].squares > 0;
	if (can)
		got = welch_ratio(group, data->n_group);
	*has = can && isfinite(got.f) && isfinite(got.df2);
	if (*has)
		*out = got;
	return ERR_NONE;
}

/* The distances of n values from their median, in place. */
static enum err_code
take_distances(struct arena *arena, double *x, size_t n, struct err *err)
{
	double *sorted = arena_copy(arena, x, n, sizeof *sorted);
	double median;

	if (sorted == NULL)
		return err_memory(err);
	gsl_sort(sorted, 1, n);
	median = stats_quantile(sorted, n, 0.5);
	for (size_t i = 0; i < n; i++)
		x[i] = fabs(x[i] - median);
	return ERR_NONE;
}

/* In a group of two both distances are equal, and rounding of the median must
 * not make them differ. */
static void
even_pair(double *x, size_t n)
{
	if (n == 2)
		x[0] = x[1];
}

enum err_code
stats_levene(struct arena *arena, const struct stats_grouped *data, bool *has,
	struct stats_f *out, struct err *err)
{
	struct stats_grouped distances = *data;
	struct stats_oneway oneway;
	struct err none = {0};
	enum err_code code;
	size_t n = 0;
	double *x;

	TRY(stats_grouped_check(data, 2, err));
	for (size_t g = 0; g < data->n_group; g++)
		n += data->size[g];
	x = arena_copy(arena, data->value, n, sizeof *x);
	if (x == NULL)
		return err_memory(err);
	distances.value = x;
	for (size_t g = 0; g < data->n_group; x += data->size[g], g++) {
		TRY(take_distances(arena, x, data->size[g], err));
		even_pair(x, data->size[g]);
	}
	code = stats_oneway(arena, &distances, &oneway, &none);
	if (code != ERR_NONE && code != ERR_INPUT)
		return err_report(err, code, none.field, "%s", none.text);
	*has = code == ERR_NONE;
	if (*has)
		*out = oneway.f;
	return ERR_NONE;
}

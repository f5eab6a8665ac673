/* ranks.c - Kruskal-Wallis, approximate and exact. */
#include "stats/ranks.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include "stats/rank_count.h"

#include <gsl/gsl_sort.h>
#include <math.h>

/* Twice the mean rank of each value, in the order of the values, and sorted. */
static enum err_code
double_ranks(struct arena *arena, const double *x, size_t n, size_t **rank,
	size_t **sorted, struct err *err)
{
	size_t *order = arena_take(arena, n, sizeof *order);
	size_t *by_value = arena_take(arena, n, sizeof *by_value);
	size_t *ascending = arena_take(arena, n, sizeof *ascending);

	if (order == NULL || by_value == NULL || ascending == NULL)
		return err_memory(err);
	gsl_sort_index(order, x, 1, n);
	for (size_t first = 0, next; first < n; first = next) {
		for (next = first;
			next < n && !(x[order[next]] > x[order[first]]); next++)
			;
		for (size_t i = first; i < next; i++) {
			ascending[i] = first + next + 1;
			by_value[order[i]] = ascending[i];
		}
	}
	*rank = by_value;
	*sorted = ascending;
	return ERR_NONE;
}

/* Sum of (rank sum)^2 / size, ranks doubled: grows with H. */
static long double
group_score(const struct stats_grouped *data, const size_t *rank)
{
	long double score = 0;

	for (size_t g = 0; g < data->n_group; g++) {
		long double sum = 0;

		for (size_t i = 0; i < data->size[g]; i++)
			sum += (long double)*rank++;
		score += sum * sum / (long double)data->size[g];
	}
	return score;
}

/* H = (N - 1) (sum of squares between) / (sum of squares in all), of ranks;
 * this is the form corrected for ties. */
static double
statistic(const size_t *rank, size_t n, long double score)
{
	const long double mean = (long double)(n + 1); /* doubled */
	long double all = 0;

	for (size_t i = 0; i < n; i++) {
		long double d = (long double)rank[i] - mean;

		all += d * d;
	}
	return (double)((long double)(n - 1) *
		(score - (long double)n * mean * mean) / all);
}

enum err_code
stats_ranks(struct arena *arena, const struct stats_grouped *data,
	struct stats_ranks *out, struct err *err)
{
	struct stats_ranks got = {0};
	size_t n = 0, *rank = NULL, *sorted = NULL;
	long double score;

	TRY(stats_grouped_check(data, 2, err));
	for (size_t g = 0; g < data->n_group; g++)
		n += data->size[g];
	TRY(double_ranks(arena, data->value, n, &rank, &sorted, err));
	if (sorted[0] == sorted[n - 1])
		return err_report(err, ERR_INPUT, "groups",
			"All %zu values are equal, so they have no order to "
			"compare; give them with more digits.",
			n);
	score = group_score(data, rank);
	got.h = fmax(0, statistic(rank, n, score));
	got.df = (double)(data->n_group - 1);
	got.p = pchisq(got.h, got.df, false, false);
	TRY(stats_rank_count(arena, sorted, data->size, data->n_group, score,
		&got.has_exact, &got.p_exact, err));
	*out = got;
	return ERR_NONE;
}

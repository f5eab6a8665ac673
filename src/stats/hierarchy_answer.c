/* hierarchy_answer.c - draws summed up: medians, intervals, chances, regret. */
#include "stats/hierarchy.h"

#include "stats/hierarchy_priv.h"

#include <assert.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

double
hierarchy_quantile(double *draw, size_t n, double p)
{
	const double at = p * (double)(n - 1);
	const size_t below = (size_t)at;
	const double share = at - (double)below;
	/* leaves what is larger behind it */
	const double value = gsl_stats_select(draw, 1, n, below);
	double next = INFINITY;

	if (below + 1 >= n)
		return value;
	for (size_t i = below + 1; i < n; i++)
		next = hierarchy_min(next, draw[i]);
	return value + share * (next - value);
}

static enum err_code
check_level(double level, struct err *err)
{
	if (level > 0 && level < 1)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "level",
		"The share that an interval holds must lie between 0 and 1, "
		"such as 0.9; it was %g.",
		level);
}

enum err_code
stats_hierarchy_interval(struct arena *a, const double *draw, size_t n,
	double level, double interval[3], struct err *err)
{
	struct arena_mark mark = arena_mark(a);
	double *work = arena_copy(a, draw, n, sizeof *work);

	assert(n >= 1);
	TRY(check_level(level, err));
	if (work == NULL)
		return err_memory(err);
	interval[0] = hierarchy_quantile(work, n, 1. / 2);
	interval[1] = hierarchy_quantile(work, n, (1 - level) / 2);
	interval[2] = hierarchy_quantile(work, n, (1 + level) / 2);
	arena_back(a, mark);
	return ERR_NONE;
}

/* Median and ends of mu_m, or of mu_m - mu_baseline, as exp. */
static enum err_code
sum_up(struct arena *a, const struct stats_hierarchy *h, size_t mix,
	const size_t *baseline, double level, double *work, double out[3],
	struct err *err)
{
	for (size_t i = 0; i < h->n_draw; i++) {
		work[i] = h->mean[i * h->n_mix + mix];
		if (baseline != NULL)
			work[i] -= h->mean[i * h->n_mix + *baseline];
	}
	TRY(stats_hierarchy_interval(a, work, h->n_draw, level, out, err));
	for (size_t k = 0; k < 3; k++)
		out[k] = exp(out[k]);
	return ERR_NONE;
}

/* Chances and expected shortfalls, one pass over the draws. */
static void
count_wins(const struct stats_hierarchy *h, size_t baseline, double sign,
	struct stats_mix_answer *answer)
{
	const double n = (double)h->n_draw;

	for (size_t i = 0; i < h->n_draw; i++) {
		const double *mu = h->mean + i * h->n_mix;
		size_t best = 0;

		for (size_t m = 1; m < h->n_mix; m++)
			if (sign * mu[m] > sign * mu[best])
				best = m;
		answer[best].p_best++;
		for (size_t m = 0; m < h->n_mix; m++) {
			answer[m].regret += sign * (mu[best] - mu[m]);
			if (m != baseline && sign * mu[m] > sign * mu[baseline])
				answer[m].p_better++;
		}
	}
	for (size_t m = 0; m < h->n_mix; m++) {
		answer[m].p_best /= n;
		answer[m].p_better /= n;
		answer[m].regret = -expm1(-answer[m].regret / n);
	}
}

enum err_code
stats_hierarchy_answer(struct arena *a, const struct stats_hierarchy *h,
	size_t baseline, double level, bool larger_is_better,
	struct stats_mix_answer *answer, struct err *err)
{
	struct arena_mark mark = arena_mark(a);
	struct stats_mix_answer *got = arena_take(a, h->n_mix, sizeof *got);
	double *work = arena_take(a, h->n_draw, sizeof *work);

	TRY(check_level(level, err));
	if (baseline >= h->n_mix)
		return err_report(err, ERR_INPUT, "baseline",
			"The baseline must be one of the %zu mixes.", h->n_mix);
	if (got == NULL || work == NULL)
		return err_memory(err);
	count_wins(h, baseline, larger_is_better ? 1 : -1, got);
	for (size_t m = 0; m < h->n_mix; m++) {
		double median[3], ratio[3];

		TRY(sum_up(a, h, m, NULL, level, work, median, err));
		TRY(sum_up(a, h, m, &baseline, level, work, ratio, err));
		got[m].median = median[0];
		got[m].low = median[1];
		got[m].high = median[2];
		got[m].ratio_median = ratio[0];
		got[m].ratio_low = ratio[1];
		got[m].ratio_high = ratio[2];
	}
	for (size_t m = 0; m < h->n_mix; m++)
		answer[m] = got[m];
	arena_back(a, mark);
	return ERR_NONE;
}

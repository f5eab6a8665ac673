/* hierarchy_answer.c - draws summed up: medians, intervals, chances, regret. */
#include "stats/hierarchy.h"

#include <assert.h>
#include <math.h>

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

static void
swap(double *a, double *b)
{
	const double held = *a;

	*a = *b;
	*b = held;
}

/* Puts the value of rank k at v[k], nothing larger before it and nothing
 * smaller after it: Hoare (1961), Communications of the ACM 4, 321-322, with
 * the median of three as pivot.  Draws are in no order that would make it slow;
 * equal ones are shared out to both sides. */
static void
select_rank(double *v, size_t from, size_t to, size_t k)
{
	while (to - from > 1) {
		double *middle = v + from + (to - from) / 2, *last = v + to - 1;
		size_t i = from, j = to - 1;
		double pivot;

		if (*middle < v[from])
			swap(middle, &v[from]);
		if (*last < v[from])
			swap(last, &v[from]);
		if (*last < *middle)
			swap(last, middle);
		if (to - from <= 3)
			return;
		pivot = *middle;
		for (;;) {
			while (v[i] < pivot)
				i++;
			while (v[j] > pivot)
				j--;
			if (i >= j)
				break;
			swap(&v[i++], &v[j--]);
		}
		if (k <= j)
			to = j + 1;
		else
			from = j + 1;
	}
}

/* As stats_quantile (type 7), but v is only ordered where it is looked at; what
 * lies before `from` is already below the rest.  *from moves on. */
static double
take_quantile(double *v, size_t n, double p, size_t *from)
{
	const double at = p * (double)(n - 1);
	const size_t k = (size_t)at;

	select_rank(v, *from, n, k);
	*from = k;
	if (k + 1 >= n || at <= (double)k)
		return v[k];
	select_rank(v, k + 1, n, k + 1);
	return v[k] + (at - (double)k) * (v[k + 1] - v[k]);
}

enum err_code
stats_hierarchy_interval(struct arena *a, const double *draw, size_t n,
	double level, double interval[3], struct err *err)
{
	struct arena_mark mark = arena_mark(a);
	double *sorted = arena_copy(a, draw, n, sizeof *sorted);
	size_t from = 0;

	assert(n >= 1);
	TRY(check_level(level, err));
	if (sorted == NULL)
		return err_memory(err);
	interval[1] = take_quantile(sorted, n, (1 - level) / 2, &from);
	interval[0] = take_quantile(sorted, n, 0.5, &from);
	interval[2] = take_quantile(sorted, n, (1 + level) / 2, &from);
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
	double share = 1 / (double)h->n_draw;

	for (size_t i = 0; i < h->n_draw; i++) {
		const double *mu = h->mean + i * h->n_mix;
		size_t best = 0;

		for (size_t m = 1; m < h->n_mix; m++)
			if (sign * mu[m] > sign * mu[best])
				best = m;
		answer[best].p_best += share;
		for (size_t m = 0; m < h->n_mix; m++) {
			answer[m].regret += share * sign * (mu[best] - mu[m]);
			if (m != baseline && sign * mu[m] > sign * mu[baseline])
				answer[m].p_better += share;
		}
	}
	for (size_t m = 0; m < h->n_mix; m++)
		answer[m].regret = -expm1(-answer[m].regret);
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

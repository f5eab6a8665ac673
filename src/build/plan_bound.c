/* plan_bound.c - days before which no plan can end. */
#include "build/plan_priv.h"

#include <math.h>

static int64_t
amount_of_lift(const struct build_lift *l, bool crew)
{
	return crew ? l->crew_min : l->n_batch;
}

static int64_t
amount_of_day(const struct build_day *d, bool crew)
{
	return crew ? d->crew_min : d->n_batch;
}

double
plan_share(const struct plan_share_rule *rule, int64_t part, int64_t whole)
{
	int64_t n = rule->times + 1;

	if (rule->least > 0) {
		if (part > whole - rule->least)
			return 1;
		return part < rule->least ? 0 : (double)part / (double)whole;
	}
	if (rule->times == 0 || part * n % whole == 0)
		return (double)part / (double)whole;
	return (double)(part * n / whole) / (double)rule->times;
}

size_t
plan_share_rules(const struct build_job *job, bool crew, int64_t whole,
	struct plan_share_rule rule[PLAN_SHARES_MOST])
{
	enum { TIMES_MOST = 4 };
	size_t n = 0;

	for (int64_t times = 0; times <= TIMES_MOST; times++)
		rule[n++] = (struct plan_share_rule){.times = times};
	for (size_t i = 0; i < job->n_lift && n < PLAN_SHARES_MOST; i++) {
		int64_t least = amount_of_lift(&job->lift[i], crew);
		size_t k = 0;

		while (k < n && rule[k].least != least)
			k++;
		if (k == n && least > 0 && 2 * least <= whole)
			rule[n++] = (struct plan_share_rule){.least = least};
	}
	return n;
}

/* The most that any pouring day offers. */
static struct build_day
best_day(const struct plan_frame *f)
{
	struct build_day best = {0};

	for (size_t k = 0; k < f->n_open; k++) {
		const struct build_day *d = &f->job->day[f->open[k]];

		if (d->n_batch > best.n_batch)
			best.n_batch = d->n_batch;
		if (d->crew_min > best.crew_min)
			best.crew_min = d->crew_min;
	}
	for (size_t d = 0; d < f->job->n_day; d++)
		if (f->job->day[d].n_set > best.n_set)
			best.n_set = f->job->day[d].n_set;
	return best;
}

/* Pouring days that the work of one kind takes, from the first head on. */
static size_t
bound_of_work(const struct plan_frame *f, const struct build_day *best,
	size_t first, bool crew)
{
	const double hair = 1e-9;
	int64_t whole = amount_of_day(best, crew), total = 0;
	struct plan_share_rule rule[PLAN_SHARES_MOST];
	double most = 0;
	size_t k = first, n_rule;

	if (whole == 0)
		return first;
	n_rule = plan_share_rules(f->job, crew, whole, rule);
	for (size_t j = 1; j < n_rule; j++) {
		double sum = 0;

		for (size_t i = 0; i < f->job->n_lift; i++)
			sum += plan_share(&rule[j],
				amount_of_lift(&f->job->lift[i], crew), whole);
		most = fmax(most, sum);
	}
	for (size_t i = 0; i < f->job->n_lift; i++)
		total += amount_of_lift(&f->job->lift[i], crew);
	for (; k < f->n_open; k++) {
		total -= amount_of_day(&f->job->day[f->open[k]], crew);
		most -= 1;
		if (total <= 0 && most <= hair)
			return k;
	}
	return f->n_open;
}

/* One set, filled again the day it is free with what strips soonest, hosts no
 * more lifts than that in any plan. */
static size_t
bound_of_forms(
	const struct plan_frame *f, const struct build_day *best, size_t first)
{
	size_t n_use = 0, soonest = SIZE_MAX, k = first, n_hosted = 0;

	for (size_t i = 0; i < f->job->n_lift; i++) {
		const struct build_lift *l = &f->job->lift[i];

		if (l->n_set == 0)
			continue;
		n_use += l->n_set;
		if (soonest == SIZE_MAX ||
			l->strip_degc_h < f->job->lift[soonest].strip_degc_h)
			soonest = i;
	}
	if (n_use == 0)
		return first;
	while (k < f->n_open) {
		size_t free_day = f->strip[soonest][k];

		n_hosted += best->n_set;
		if (n_hosted >= n_use)
			return k;
		k = f->place[free_day];
	}
	return f->n_open;
}

void
plan_bound(const struct plan_frame *f, size_t *k, const char **from)
{
	struct build_day best = best_day(f);
	size_t first = f->head[0], last = 0, by;

	for (size_t i = 0; i < f->job->n_lift; i++) {
		first = f->head[i] < first ? f->head[i] : first;
		last = f->head[i] > last ? f->head[i] : last;
	}
	*k = last;
	*from = N_("the waits between lifts");
	by = bound_of_work(f, &best, first, false);
	if (by > *k) {
		*k = by;
		*from = N_("the mixer's output");
	}
	by = bound_of_work(f, &best, first, true);
	if (by > *k) {
		*k = by;
		*from = N_("the hours of the crew");
	}
	by = bound_of_forms(f, &best, first);
	if (by > *k) {
		*k = by;
		*from = N_("the forms on hand");
	}
}

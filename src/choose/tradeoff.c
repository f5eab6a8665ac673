/* tradeoff.c - the front of undominated mixes, and expected utility. */
#include "choose/tradeoff.h"

#include <math.h>

struct weighing {
	const struct choose_tradeoff_ask *ask;
	double *middle, *utility, *p_first;
	bool *is_complete, *is_beaten;
	size_t *beaten_by;
	double *worst, *best; /* of each criterion */
};

static enum err_code
check(const struct choose_tradeoff_ask *ask, struct err *err)
{
	double sum = 0;

	for (size_t k = 0; k < ask->n_criterion; k++) {
		if (!(ask->weight[k] >= 0 && isfinite(ask->weight[k])))
			return err_report(err, ERR_INPUT, "--weigh",
				"A weight of %g cannot be; it is 0 or more.",
				ask->weight[k]);
		sum += ask->weight[k];
	}
	if (sum > 0)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "--weigh",
		"All weights are 0, so nothing can be weighed. Give one of "
		"them a weight above 0.");
}

static enum err_code
take(struct arena *arena, struct weighing *w, struct err *err)
{
	const size_t n = w->ask->n_mix, n_k = w->ask->n_criterion;

	w->middle = arena_take(arena, n * n_k, sizeof *w->middle);
	w->utility = arena_take(arena, n, sizeof *w->utility);
	w->p_first = arena_take(arena, n, sizeof *w->p_first);
	w->is_complete = arena_take(arena, n, sizeof *w->is_complete);
	w->is_beaten = arena_take(arena, n, sizeof *w->is_beaten);
	w->beaten_by = arena_take(arena, n, sizeof *w->beaten_by);
	w->worst = arena_take(arena, n_k, sizeof *w->worst);
	w->best = arena_take(arena, n_k, sizeof *w->best);
	if (w->middle == NULL || w->utility == NULL || w->p_first == NULL ||
		w->is_complete == NULL || w->is_beaten == NULL ||
		w->beaten_by == NULL || w->worst == NULL || w->best == NULL)
		return err_memory(err);
	return ERR_NONE;
}

static void
find_middles(struct weighing *w)
{
	const struct choose_tradeoff_ask *ask = w->ask;

	for (size_t i = 0; i < ask->n_mix; i++) {
		w->is_complete[i] = true;
		for (size_t k = 0; k < ask->n_criterion; k++) {
			const size_t at = i * ask->n_criterion + k;
			double sum = 0;

			if (ask->draw[at] == NULL) {
				w->middle[at] = NAN;
				if (ask->weight[k] > 0)
					w->is_complete[i] = false;
				continue;
			}
			for (size_t d = 0; d < ask->n_draw; d++)
				sum += ask->draw[at][d];
			w->middle[at] = sum / (double)ask->n_draw;
		}
	}
}

/* Is a as good as b wherever both are known, and better somewhere? */
static bool
beats(const struct weighing *w, size_t a, size_t b)
{
	const struct choose_tradeoff_ask *ask = w->ask;
	bool better = false;

	for (size_t k = 0; k < ask->n_criterion; k++) {
		double x = w->middle[a * ask->n_criterion + k];
		double y = w->middle[b * ask->n_criterion + k];
		double gain = ask->larger_is_better[k] ? x - y : y - x;

		if (isnan(y))
			continue;
		if (isnan(x) || gain < 0)
			return false;
		better = better || gain > 0;
	}
	return better;
}

static void
find_front(struct weighing *w)
{
	for (size_t i = 0; i < w->ask->n_mix; i++)
		for (size_t j = 0; j < w->ask->n_mix; j++)
			if (!w->is_beaten[i] && beats(w, j, i)) {
				w->is_beaten[i] = true;
				w->beaten_by[i] = j;
			}
}

static void
find_scale(struct weighing *w)
{
	const struct choose_tradeoff_ask *ask = w->ask;

	for (size_t k = 0; k < ask->n_criterion; k++) {
		double low = INFINITY, high = -INFINITY;

		for (size_t i = 0; i < ask->n_mix; i++) {
			if (!w->is_complete[i])
				continue;
			low = fmin(low, w->middle[i * ask->n_criterion + k]);
			high = fmax(high, w->middle[i * ask->n_criterion + k]);
		}
		w->worst[k] = ask->larger_is_better[k] ? low : high;
		w->best[k] = ask->larger_is_better[k] ? high : low;
	}
}

static double
utility_of(const struct weighing *w, size_t mix, size_t d)
{
	const struct choose_tradeoff_ask *ask = w->ask;
	double sum = 0, weights = 0;

	for (size_t k = 0; k < ask->n_criterion; k++) {
		double range = w->best[k] - w->worst[k];

		weights += ask->weight[k];
		if (ask->weight[k] > 0 && fabs(range) > 0)
			sum += ask->weight[k] *
				(ask->draw[mix * ask->n_criterion + k][d] -
					w->worst[k]) /
				range;
	}
	return sum / weights;
}

static void
find_utilities(struct weighing *w)
{
	const struct choose_tradeoff_ask *ask = w->ask;

	for (size_t d = 0; d < ask->n_draw; d++) {
		size_t lead = ask->n_mix;
		double most = -INFINITY;

		for (size_t i = 0; i < ask->n_mix; i++) {
			if (!w->is_complete[i])
				continue;
			double u = utility_of(w, i, d);

			w->utility[i] += u;
			if (u > most) {
				most = u;
				lead = i;
			}
		}
		if (lead < ask->n_mix)
			w->p_first[lead] += 1;
	}
	for (size_t i = 0; i < ask->n_mix; i++) {
		w->utility[i] /= (double)ask->n_draw;
		w->p_first[i] /= (double)ask->n_draw;
	}
}

enum err_code
choose_tradeoff(struct arena *arena, const struct choose_tradeoff_ask *ask,
	struct choose_tradeoff *out, struct err *err)
{
	struct weighing w = {.ask = ask};

	TRY(check(ask, err));
	TRY(take(arena, &w, err));
	find_middles(&w);
	find_front(&w);
	find_scale(&w);
	find_utilities(&w);
	*out = (struct choose_tradeoff){.middle = w.middle,
		.is_complete = w.is_complete,
		.is_beaten = w.is_beaten,
		.beaten_by = w.beaten_by,
		.utility = w.utility,
		.p_first = w.p_first};
	return ERR_NONE;
}

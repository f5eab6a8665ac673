/* meet.c - draws of the next batch, held against requirements. */
#include "choose/meet.h"

#include "stats/summary.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_sort.h>
#include <math.h>

/* "95 of 100". */
static const double lower_share = 0.05;

void
choose_next_batch(const struct choose_draws *draws, gsl_rng *rng, double *next)
{
	for (size_t i = 0; i < draws->n_draw; i++)
		next[i] = exp(draws->log_mean[i * draws->stride] +
			gsl_ran_gaussian_ziggurat(rng, draws->sd_batch[i]));
}

enum err_code
choose_lower_value(struct arena *arena, const struct choose_draws *draws,
	bool larger_is_better, gsl_rng *rng, double *value, struct err *err)
{
	struct arena_mark mark = arena_mark(arena);
	double *single = arena_take(arena, draws->n_draw, sizeof *single);

	if (single == NULL)
		return err_memory(err);
	choose_next_batch(draws, rng, single);
	for (size_t i = 0; i < draws->n_draw; i++)
		single[i] *= exp(
			gsl_ran_gaussian_ziggurat(rng, draws->sd_specimen[i]));
	gsl_sort(single, 1, draws->n_draw);
	*value = stats_quantile(single, draws->n_draw,
		larger_is_better ? lower_share : 1 - lower_share);
	arena_back(arena, mark);
	return ERR_NONE;
}

void
choose_breakage_draws(size_t n_cast, size_t n_broken, gsl_rng *rng,
	size_t n_draw, double *rate)
{
	double broken = 0.5 + (double)n_broken;
	double whole = 0.5 + (double)(n_cast - n_broken);

	for (size_t i = 0; i < n_draw; i++)
		rate[i] = gsl_ran_beta(rng, broken, whole);
}

static bool
meets(const struct choose_requirement *requirement, double value)
{
	return requirement->is_least ? value >= requirement->value
				     : value <= requirement->value;
}

enum err_code
choose_meet(struct arena *arena, const struct choose_requirement *requirement,
	size_t n, const double *const *next, size_t n_draw,
	struct choose_met *out, struct err *err)
{
	double *p = arena_take(arena, n, sizeof *p);
	bool *known = arena_take(arena, n, sizeof *known);
	bool all_known = true;
	size_t n_all = 0;

	if (p == NULL || known == NULL)
		return err_memory(err);
	for (size_t k = 0; k < n; k++) {
		known[k] = next[k] != NULL;
		all_known = all_known && known[k];
	}
	for (size_t i = 0; i < n_draw; i++) {
		bool all = true;

		for (size_t k = 0; k < n; k++) {
			bool met = !known[k] ||
				meets(&requirement[k], next[k][i]);

			p[k] += known[k] && met ? 1 : 0;
			all = all && met;
		}
		n_all += all ? 1 : 0;
	}
	for (size_t k = 0; k < n; k++)
		p[k] /= (double)n_draw;
	*out = (struct choose_met){.p = p,
		.known = known,
		.all_known = all_known,
		.p_all = (double)n_all / (double)n_draw};
	return ERR_NONE;
}

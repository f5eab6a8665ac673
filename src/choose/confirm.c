/* confirm.c - the range of the mean of fresh batches, and the verdict on it. */
#include "choose/confirm.h"

#include "stats/summary.h"

#include <gsl/gsl_randist.h>
#include <gsl/gsl_sort.h>
#include <math.h>

enum err_code
choose_confirm_foretell(struct arena *arena, const struct choose_draws *draws,
	size_t n_batch, double n_piece, gsl_rng *rng,
	struct choose_foretold *out, struct err *err)
{
	const struct arena_mark mark = arena_mark(arena);
	const double tail = (1 - choose_confirm_level) / 2;
	double *mean = arena_take(arena, draws->n_draw, sizeof *mean);

	if (mean == NULL)
		return err_memory(err);
	for (size_t i = 0; i < draws->n_draw; i++) {
		double batch = draws->sd_batch[i];
		double piece = draws->sd_specimen[i];
		double sd = sqrt((batch * batch + piece * piece / n_piece) /
			(double)n_batch);

		mean[i] = exp(draws->log_mean[i * draws->stride] +
			gsl_ran_gaussian_ziggurat(rng, sd));
	}
	gsl_sort(mean, 1, draws->n_draw);
	*out = (struct choose_foretold){
		.low = stats_quantile(mean, draws->n_draw, tail),
		.median = stats_quantile(mean, draws->n_draw, 0.5),
		.high = stats_quantile(mean, draws->n_draw, 1 - tail)};
	arena_back(arena, mark);
	return ERR_NONE;
}

enum choose_confirmed
choose_confirm_judge(
	const struct choose_foretold *foretold, struct interval mean)
{
	bool ends = mean.low > 0 && isfinite(mean.high);

	if (ends)
		mean.low = mean.high = sqrt(mean.low * mean.high);
	if (mean.high < foretold->low)
		return CHOOSE_CONFIRMED_LOW;
	if (mean.low > foretold->high)
		return CHOOSE_CONFIRMED_HIGH;
	return ends ? CHOOSE_CONFIRMED_HIT : CHOOSE_CONFIRMED_OPEN;
}

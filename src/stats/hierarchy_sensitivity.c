/* hierarchy_sensitivity.c - how the answer moves with the priors' spreads, and
 * priors learnt from the draws of another trial. */
#include "stats/hierarchy.h"

#include <math.h>

static void
widen_spread(double *scale, double *log_sd, double factor)
{
	if (*log_sd > 0)
		*log_sd *= factor;
	else
		*scale *= factor;
}

static enum err_code
widen(struct arena *a, size_t n_x, double factor,
	struct stats_hierarchy_prior *prior, struct err *err)
{
	double *slope_sd = arena_take(a, n_x, sizeof *slope_sd);

	if (slope_sd == NULL)
		return err_memory(err);
	for (size_t k = 0; k < n_x; k++)
		slope_sd[k] = factor *
			(prior->slope_sd != NULL ? prior->slope_sd[k] : 1);
	prior->slope_sd = slope_sd;
	prior->mean_sd *= factor;
	widen_spread(&prior->sd_batch_scale, &prior->sd_batch_log_sd, factor);
	widen_spread(
		&prior->sd_specimen_scale, &prior->sd_specimen_log_sd, factor);
	return ERR_NONE;
}

enum err_code
stats_hierarchy_sensitivity(struct arena *a,
	const struct stats_hierarchy_ask *ask, double factor, size_t baseline,
	double level, bool larger_is_better,
	struct stats_hierarchy_moved *moved, struct err *err)
{
	struct stats_hierarchy_moved got = {.factor = factor};
	struct stats_hierarchy_ask again = *ask;
	struct stats_mix_answer *mix = arena_take(a, ask->n_mix, sizeof *mix);
	struct arena_mark scratch = arena_mark(a);
	struct stats_hierarchy h;

	if (!(factor > 0) || isinf(factor))
		return err_report(err, ERR_INPUT, "factor",
			"The priors' spreads are to be multiplied by %g; it "
			"takes a finite number above 0.",
			factor);
	if (mix == NULL)
		return err_memory(err);
	again.keep_batch = false;
	TRY(widen(a, ask->n_x, factor, &again.prior, err));
	TRY(stats_hierarchy_sample(a, &again, &h, err));
	TRY(stats_hierarchy_answer(
		a, &h, baseline, level, larger_is_better, mix, err));
	TRY(stats_hierarchy_interval(
		a, h.sd_batch, h.n_draw, level, got.sd_batch, err));
	TRY(stats_hierarchy_interval(
		a, h.sd_specimen, h.n_draw, level, got.sd_specimen, err));
	got.ess_min = h.ess_min;
	got.mix = mix;
	arena_back(a, scratch);
	*moved = got;
	return ERR_NONE;
}

/* Mean and sd of n draws, or of their logs. */
struct moments {
	double mean, sd;
};

static struct moments
find_moments(const double *draw, size_t n, size_t step, bool of_log)
{
	double sum = 0, square = 0;

	for (size_t i = 0; i < n; i++)
		sum += of_log ? log(draw[i * step]) : draw[i * step];
	sum /= (double)n;
	for (size_t i = 0; i < n; i++) {
		const double d =
			(of_log ? log(draw[i * step]) : draw[i * step]) - sum;

		square += d * d;
	}
	return (struct moments){sum, sqrt(square / (double)(n - 1))};
}

/* Draws whose logs (or values) spread less than this are all the same but for
 * rounding. */
static const double least_spread = 1e-12;

/* Mean log densities of the draws at each family's best fit, less log of
 * 1 / sqrt(2 pi e): half-normal log 2 - log scale, lognormal -mean log - log
 * sd.  The better one is kept. */
static enum err_code
learn_spread(const double *draw, size_t n, double root_weight,
	const char *field, double *scale, double *log_sd, struct err *err)
{
	const struct moments log_moments = find_moments(draw, n, 1, true);
	double square = 0, normal;

	for (size_t i = 0; i < n; i++)
		square += draw[i] * draw[i] / (double)n;
	normal = sqrt(square);
	if (!(normal > 0) || log_moments.sd <= least_spread)
		return err_report(err, ERR_INPUT, field,
			"All draws of this spread are %g, so nothing can be "
			"learnt from them; it was given as known there.",
			draw[0]);
	if (isfinite(log_moments.mean) &&
		-log_moments.mean - log(log_moments.sd) >
			log(2) - log(normal)) {
		*scale = exp(log_moments.mean);
		*log_sd = log_moments.sd / root_weight;
		return ERR_NONE;
	}
	*scale = normal / root_weight;
	*log_sd = 0;
	return ERR_NONE;
}

static enum err_code
learn_slopes(const struct stats_hierarchy *other, double root_weight,
	double *slope_mean, double *slope_sd, struct err *err)
{
	for (size_t k = 0; k < other->n_x; k++) {
		const struct moments m = find_moments(
			other->slope + k, other->n_draw, other->n_x, false);

		if (m.sd <= least_spread * fabs(m.mean))
			return err_report(err, ERR_INPUT, "slope",
				"All draws of slope %zu are %g, so nothing can "
				"be learnt from them.",
				k + 1, m.mean);
		slope_mean[k] = m.mean;
		slope_sd[k] = m.sd / root_weight;
	}
	return ERR_NONE;
}

enum err_code
stats_hierarchy_learn(const struct stats_hierarchy *other, double weight,
	struct stats_hierarchy_prior *prior, double *slope_mean,
	double *slope_sd, struct err *err)
{
	enum { LEAST_DRAWS = 100 };
	struct stats_hierarchy_prior got = *prior;
	const double root = sqrt(weight);

	if (!(weight > 0 && weight <= 1))
		return err_report(err, ERR_INPUT, "weight",
			"What another trial counts for must be above 0 and at "
			"most 1, such as 0.5; it was %g.",
			weight);
	if (other->n_draw < LEAST_DRAWS)
		return err_report(err, ERR_INPUT, "draws",
			"The other trial has %zu draws; at least %d are needed "
			"to learn a prior from it.",
			other->n_draw, LEAST_DRAWS);
	TRY(learn_spread(other->sd_batch, other->n_draw, root, "sd_batch",
		&got.sd_batch_scale, &got.sd_batch_log_sd, err));
	TRY(learn_spread(other->sd_specimen, other->n_draw, root, "sd_specimen",
		&got.sd_specimen_scale, &got.sd_specimen_log_sd, err));
	if (slope_mean != NULL && slope_sd != NULL) {
		TRY(learn_slopes(other, root, slope_mean, slope_sd, err));
		got.slope_mean = slope_mean;
		got.slope_sd = slope_sd;
	}
	*prior = got;
	return ERR_NONE;
}

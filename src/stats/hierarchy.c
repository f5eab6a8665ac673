/* hierarchy.c - the hierarchical model: its chains run, its draws kept. */
#include "stats/hierarchy.h"

#include "stats/diagnose.h"
#include "stats/hierarchy_priv.h"

#include "core/pool.h"
#include "core/rng.h"

#include <math.h>
#include <string.h>

static const double default_mean_sd = 1.5, default_sd_batch = 0.3,
		    default_sd_specimen = 0.5;

/* What stands for a reading when the prior is centred. */
static double
stand_in(double low, double high)
{
	if (low <= 0)
		return high;
	if (isinf(high))
		return low;
	return sqrt(low) * sqrt(high);
}

/* The value with `before` stand-ins below it, by halving the bits of the
 * positive doubles, which order as they do: no memory, 64 passes at the most.*/
static double
find_ordered(const double *low, const double *high, size_t n_row, size_t before)
{
	const double top = INFINITY;
	uint64_t from = 0, to;
	double value;

	memcpy(&to, &top, sizeof to);
	while (from < to) {
		const uint64_t middle = from + (to - from) / 2;
		size_t n = 0;

		memcpy(&value, &middle, sizeof value);
		for (size_t i = 0; i < n_row; i++)
			n += stand_in(low[i], high[i]) <= value;
		if (n > before)
			to = middle;
		else
			from = middle + 1;
	}
	memcpy(&value, &from, sizeof value);
	return value;
}

void
stats_hierarchy_default_prior(const double *low, const double *high,
	size_t n_row, struct stats_hierarchy_prior *prior)
{
	double centre = 0;

	if (n_row > 0)
		centre = 0.5 *
			(log(find_ordered(low, high, n_row, (n_row - 1) / 2)) +
				log(find_ordered(low, high, n_row, n_row / 2)));
	*prior = (struct stats_hierarchy_prior){
		.mean_centre = isfinite(centre) ? centre : 0,
		.mean_sd = default_mean_sd,
		.sd_batch_scale = default_sd_batch,
		.sd_specimen_scale = default_sd_specimen,
	};
}

/* Where the draws are written. */
struct record {
	double *mean, *slope, *sd_batch, *sd_specimen, *batch;
};

struct run {
	const struct stats_hierarchy_ask *ask;
	const struct hierarchy_model *model;
	struct hierarchy_chain *chain;
	struct record record;
};

static void
keep(const struct run *run, const struct hierarchy_chain *c, size_t draw)
{
	const struct hierarchy_model *m = c->m;
	const struct record *r = &run->record;

	for (size_t i = 0; i < m->n_mix; i++)
		r->mean[draw * m->n_mix + i] = c->mu[i] + m->prior.mean_centre;
	for (size_t k = 0; k < m->n_x; k++)
		r->slope[draw * m->n_x + k] = c->slope[k] + m->slope_mean[k];
	r->sd_batch[draw] = c->sd_batch;
	r->sd_specimen[draw] = c->sd_specimen;
	if (r->batch == NULL)
		return;
	for (size_t i = 0; i < m->n_mix; i++)
		for (size_t p = m->mix_from[i]; p < m->mix_from[i + 1]; p++)
			r->batch[draw * m->n_batch + m->batch_of[p]] =
				c->theta[p] - c->mu[i];
}

static enum err_code
run_chain(void *data, size_t index, struct err *err)
{
	const struct run *run = data;
	struct hierarchy_chain *c = &run->chain[index];
	gsl_rng *rng = rng_new(run->ask->seed, index);

	if (rng == NULL)
		return err_memory(err);
	c->rand = fastrand_start(rng);
	gsl_rng_free(rng);
	hierarchy_start(c);
	for (size_t i = 0; i < run->ask->n_warm; i++)
		hierarchy_sweep(c, true);
	for (size_t i = 0; i < run->ask->n_keep; i++) {
		hierarchy_sweep(c, false);
		keep(run, c, index * run->ask->n_keep + i);
	}
	return ERR_NONE;
}

static enum err_code
take_record(struct arena *a, const struct stats_hierarchy_ask *ask,
	struct record *r, struct err *err)
{
	const size_t n = ask->n_chain * ask->n_keep, size = sizeof(double);

	if (ask->n_chain > SIZE_MAX / ask->n_keep || n > SIZE_MAX / ask->n_mix)
		return err_memory(err);
	r->mean = arena_take(a, n * ask->n_mix, size);
	r->slope = ask->n_x > 0 ? arena_take(a, n * ask->n_x, size) : NULL;
	r->sd_batch = arena_take(a, n, size);
	r->sd_specimen = arena_take(a, n, size);
	r->batch = ask->keep_batch ? arena_take(a, n * ask->n_batch, size)
				   : NULL;
	if (!r->mean || (ask->n_x > 0 && !r->slope) || !r->sd_batch ||
		!r->sd_specimen || (ask->keep_batch && !r->batch))
		return err_memory(err);
	return ERR_NONE;
}

/* Every shown parameter as a column of draws for the diagnosis. */
static enum err_code
diagnose(struct arena *a, const struct stats_hierarchy_ask *ask,
	const struct record *r, struct stats_hierarchy *out, double *ess_mean,
	struct err *err)
{
	const size_t n = ask->n_mix + ask->n_x + 2;
	struct stats_column *column = arena_take(a, n, sizeof *column);
	struct stats_diagnosis *got = arena_take(a, n, sizeof *got);
	size_t at = 0;

	if (column == NULL || got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < ask->n_mix; i++)
		column[at++] = (struct stats_column){r->mean + i, ask->n_mix};
	for (size_t k = 0; k < ask->n_x; k++)
		column[at++] = (struct stats_column){r->slope + k, ask->n_x};
	if (!ask->prior.has_sd_batch)
		column[at++] = (struct stats_column){r->sd_batch, 1};
	if (!ask->prior.has_sd_specimen)
		column[at++] = (struct stats_column){r->sd_specimen, 1};
	TRY(stats_diagnose(a, column, at, ask->n_chain, ask->n_keep,
		ask->n_thread, got, err));
	out->rhat_max = 0;
	out->ess_min = INFINITY;
	for (size_t i = 0; i < at; i++) {
		out->rhat_max = fmax(out->rhat_max, got[i].rhat);
		out->ess_min = fmin(out->ess_min, got[i].ess);
	}
	for (size_t i = 0; i < ask->n_mix; i++)
		ess_mean[i] = got[i].ess;
	return ERR_NONE;
}

static enum err_code
sample(struct arena *a, const struct stats_hierarchy_ask *ask,
	const struct record *record, struct err *err)
{
	struct hierarchy_model model;
	struct run run = {.ask = ask, .model = &model, .record = *record};

	TRY(hierarchy_layout(a, ask, &model, err));
	run.chain = arena_take(a, ask->n_chain, sizeof *run.chain);
	if (run.chain == NULL)
		return err_memory(err);
	for (size_t i = 0; i < ask->n_chain; i++)
		TRY(hierarchy_chain_take(a, &model, &run.chain[i], err));
	return pool_run(ask->n_thread, ask->n_chain, run_chain, &run, err);
}

enum err_code
stats_hierarchy_sample(struct arena *a, const struct stats_hierarchy_ask *ask,
	struct stats_hierarchy *out, struct err *err)
{
	struct stats_hierarchy got = {
		.n_mix = ask->n_mix, .n_x = ask->n_x, .n_batch = ask->n_batch};
	struct record record;
	struct arena_mark scratch;
	double *ess_mean;

	TRY(hierarchy_check(ask, err));
	TRY(take_record(a, ask, &record, err));
	ess_mean = arena_take(a, ask->n_mix, sizeof *ess_mean);
	if (ess_mean == NULL)
		return err_memory(err);
	scratch = arena_mark(a);
	TRY(sample(a, ask, &record, err));
	arena_back(a, scratch);
	TRY(diagnose(a, ask, &record, &got, ess_mean, err));
	arena_back(a, scratch);
	got.n_draw = ask->n_chain * ask->n_keep;
	got.mean = record.mean;
	got.slope = record.slope;
	got.sd_batch = record.sd_batch;
	got.sd_specimen = record.sd_specimen;
	got.batch = record.batch;
	got.ess_mean = ess_mean;
	*out = got;
	return ERR_NONE;
}

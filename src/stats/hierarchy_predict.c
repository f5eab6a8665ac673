/* hierarchy_predict.c - what the model would make: replicates of the data to
 * check it by, and the next batch. */
#include "stats/hierarchy_priv.h"
#include "stats/truncated.h"

#include "core/rng.h"

#include <math.h>

/* The share of the specimens that fall below a characteristic value (EN 1990,
 * annex D). */
static const double characteristic_share = 0.05;

/* No chain has this stream of the seed. */
static const uint64_t own_stream = UINT64_MAX;

/* A stream of normals for one call. */
struct source {
	struct fastnormal normal;
	struct fastrand rand;
};

static enum err_code
start_source(uint64_t seed, struct source *source, struct err *err)
{
	gsl_rng *rng = rng_new(seed, own_stream);

	if (rng == NULL)
		return err_memory(err);
	source->rand = fastrand_start(rng);
	gsl_rng_free(rng);
	fastnormal_start(&source->normal);
	return ERR_NONE;
}

/* What has been met of a batch's specimens or of a mix's batches. */
struct extent {
	size_t n;
	double low, high, mean, squares; /* squares about the mean */
};

/* Welford's update of the mean and the squares. */
static void
extend(struct extent *e, double value)
{
	const double off = value - e->mean;

	e->low = e->n == 0 || value < e->low ? value : e->low;
	e->high = e->n == 0 || value > e->high ? value : e->high;
	e->n++;
	e->mean += off / (double)e->n;
	e->squares += off * (value - e->mean);
}

/* The furthest that anything lies from the mean of its own, over the pooled sd
 * of all; below 0 where fewer than two degrees of freedom make that always the
 * same, or there is no sd at all. */
static double
furthest(const struct extent *e, size_t n)
{
	double most = 0, squares = 0, df = 0;

	for (size_t i = 0; i < n; i++) {
		if (e[i].n < 2)
			continue;
		squares += e[i].squares;
		df += (double)e[i].n - 1;
		most = hierarchy_max(most,
			hierarchy_max(
				e[i].high - e[i].mean, e[i].mean - e[i].low));
	}
	return df < 2 || !(squares > 0) ? -1 : most / sqrt(squares / df);
}

/* Scratch of a check: the data's side and the replicate's. */
struct check {
	const struct stats_hierarchy_ask *ask;
	const struct stats_hierarchy *h;
	const double *log_low, *log_high; /* n_row */
	struct extent *batch[2], *mix[2];
	double *within[2], *between[2]; /* n_replicate */
};

static void
clear(struct check *k)
{
	for (size_t side = 0; side < 2; side++) {
		for (size_t b = 0; b < k->ask->n_batch; b++)
			k->batch[side][b] = (struct extent){0};
		for (size_t m = 0; m < k->ask->n_mix; m++)
			k->mix[side][m] = (struct extent){0};
	}
}

/* A row's residual as the draw completes it, and one that the draw makes. */
static void
add_row(struct check *k, struct source *s, size_t draw, size_t i)
{
	const struct stats_hierarchy_ask *ask = k->ask;
	const struct stats_hierarchy *h = k->h;
	const size_t batch = ask->row_batch[i];
	const double sd = h->sd_specimen[draw];
	double at = h->mean[draw * h->n_mix + ask->batch_mix[batch]] +
		h->batch[draw * h->n_batch + batch];
	double observed;

	for (size_t j = 0; j < ask->n_x; j++)
		at += ask->x[i * ask->n_x + j] * h->slope[draw * h->n_x + j];
	observed = k->log_low[i] == k->log_high[i] ? k->log_low[i] - at
						   : sd *
			stats_truncated_draw(&s->normal, &s->rand,
				(k->log_low[i] - at) / sd,
				(k->log_high[i] - at) / sd);
	extend(&k->batch[0][batch], observed);
	extend(&k->batch[1][batch], sd * fastnormal_draw(&s->normal, &s->rand));
}

static void
replicate(struct check *k, struct source *s, size_t draw, size_t to)
{
	const struct stats_hierarchy_ask *ask = k->ask;
	const struct stats_hierarchy *h = k->h;

	clear(k);
	for (size_t i = 0; i < ask->n_row; i++)
		add_row(k, s, draw, i);
	for (size_t b = 0; b < ask->n_batch; b++) {
		const double effect[2] = {h->batch[draw * h->n_batch + b],
			h->sd_batch[draw] *
				fastnormal_draw(&s->normal, &s->rand)};

		for (size_t side = 0; side < 2; side++) {
			const struct extent *e = &k->batch[side][b];

			if (e->n > 0)
				extend(&k->mix[side][ask->batch_mix[b]],
					effect[side] + e->mean);
		}
	}
	for (size_t side = 0; side < 2; side++) {
		k->within[side][to] = furthest(k->batch[side], ask->n_batch);
		k->between[side][to] = furthest(k->mix[side], ask->n_mix);
	}
}

static bool
take_check(struct arena *a, size_t n_replicate, struct check *k)
{
	const struct stats_hierarchy_ask *ask = k->ask;
	const size_t size = sizeof(double);
	double *low = arena_take(a, ask->n_row, size);
	double *high = arena_take(a, ask->n_row, size);
	bool has = low && high;

	for (size_t side = 0; side < 2; side++) {
		k->batch[side] = arena_take(a, ask->n_batch, sizeof **k->batch);
		k->mix[side] = arena_take(a, ask->n_mix, sizeof **k->mix);
		k->within[side] = arena_take(a, n_replicate, size);
		k->between[side] = arena_take(a, n_replicate, size);
		has = has && k->batch[side] && k->mix[side] &&
			k->within[side] && k->between[side];
	}
	for (size_t i = 0; has && i < ask->n_row; i++) {
		low[i] = log(ask->low[i]);
		high[i] = log(ask->high[i]);
	}
	k->log_low = low;
	k->log_high = high;
	return has;
}

static struct stats_discrepancy
compare(double *const side[2], size_t n)
{
	struct stats_discrepancy d = {.has = n > 0 && side[0][0] >= 0};
	size_t n_beyond = 0;

	if (!d.has)
		return d;
	for (size_t i = 0; i < n; i++)
		n_beyond += side[1][i] >= side[0][i];
	d.p = (double)n_beyond / (double)n;
	d.observed = hierarchy_quantile(side[0], n, 1. / 2);
	d.replicated = hierarchy_quantile(side[1], n, 1. / 2);
	return d;
}

enum err_code
stats_hierarchy_predict_check(struct arena *a,
	const struct stats_hierarchy_ask *ask, const struct stats_hierarchy *h,
	size_t n_replicate, uint64_t seed, struct stats_predictive *out,
	struct err *err)
{
	const struct arena_mark scratch = arena_mark(a);
	const size_t n = n_replicate < h->n_draw ? n_replicate : h->n_draw;
	struct check check = {.ask = ask, .h = h};
	struct source source;

	if (h->batch == NULL)
		return err_report(err, ERR_INPUT, "keep_batch",
			"The draws hold no batch effects; sample with "
			"keep_batch to check them.");
	if (n == 0)
		return err_report(err, ERR_INPUT, "n_replicate",
			"0 replicates were asked for; ask for some hundreds.");
	if (!take_check(a, n, &check))
		return err_memory(err);
	TRY(start_source(seed, &source, err));
	for (size_t i = 0; i < n; i++)
		replicate(&check, &source, i * (h->n_draw / n), i);
	out->within = compare(check.within, n);
	out->between = compare(check.between, n);
	arena_back(a, scratch);
	return ERR_NONE;
}

enum err_code
stats_hierarchy_next_batch(struct arena *a, const struct stats_hierarchy *h,
	size_t mix, double level, uint64_t seed, struct stats_next_batch *out,
	struct err *err)
{
	const struct arena_mark scratch = arena_mark(a);
	double *mean = arena_take(a, h->n_draw, sizeof *mean);
	double *specimen = arena_take(a, h->n_draw, sizeof *specimen);
	struct stats_next_batch got;
	struct source s;

	if (mix >= h->n_mix)
		return err_report(err, ERR_INPUT, "mix",
			"The mix must be one of the %zu.", h->n_mix);
	if (mean == NULL || specimen == NULL)
		return err_memory(err);
	TRY(start_source(seed, &s, err));
	for (size_t i = 0; i < h->n_draw; i++) {
		mean[i] = h->mean[i * h->n_mix + mix] +
			h->sd_batch[i] * fastnormal_draw(&s.normal, &s.rand);
		specimen[i] = mean[i] +
			h->sd_specimen[i] * fastnormal_draw(&s.normal, &s.rand);
	}
	TRY(stats_hierarchy_interval(a, mean, h->n_draw, level, got.mean, err));
	TRY(stats_hierarchy_interval(
		a, specimen, h->n_draw, level, got.specimen, err));
	got.specimen_5 = exp(
		hierarchy_quantile(specimen, h->n_draw, characteristic_share));
	for (size_t i = 0; i < 3; i++) {
		got.mean[i] = exp(got.mean[i]);
		got.specimen[i] = exp(got.specimen[i]);
	}
	arena_back(a, scratch);
	*out = got;
	return ERR_NONE;
}

/* compare_surer.c - what another batch would bring, and how noisy the plan is,
 * both from the book's own spreads.
 *
 * Given the spreads the mean of a mix with batches of n_1, n_2 ... pieces has
 * the precision 1/mean_sd^2 + sum 1/(sd_batch^2 + sd_specimen^2/n_b): one batch
 * more adds one term, whatever it will read.  That is averaged over the draws
 * of the spreads.  The steps of the loading count as nothing here. */
#include "work/compare_priv.h"

#include "core/rng.h"
#include "stats/plan_noise.h"

#include <gsl/gsl_randist.h>

#include <math.h>

enum { THINNED = 2000, WORLDS = 10000 };
/* Streams of the seed, apart from those of the chains. */
enum { STREAM_SURER = 1000, STREAM_PLAN };
/* A winner that seems better than the baseline by more than this misleads. */
static const double plan_bar = 1.15;

/* Pieces of each batch. */
static enum err_code
count_pieces(struct arena *arena, const struct compare_rows *rows, size_t **out,
	struct err *err)
{
	size_t *n = arena_take(arena, rows->n_batch, sizeof *n);

	if (n == NULL)
		return err_memory(err);
	for (size_t i = 0; i < rows->n; i++)
		n[rows->batch[i]]++;
	*out = n;
	return ERR_NONE;
}

static size_t
usual_pieces(const struct compare_rows *rows)
{
	double usual = rint((double)rows->n / (double)rows->n_batch);

	return usual >= 1 ? (size_t)usual : 1;
}

struct spreads {
	size_t n;
	const double *batch, *specimen; /* thinned draws */
};

static enum err_code
thin(struct arena *arena, const struct stats_hierarchy *h, struct spreads *out,
	struct err *err)
{
	const size_t n = h->n_draw < THINNED ? h->n_draw : THINNED;
	double *batch = arena_take(arena, n, sizeof *batch);
	double *specimen = arena_take(arena, n, sizeof *specimen);

	if (batch == NULL || specimen == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		batch[i] = h->sd_batch[i * (h->n_draw / n)];
		specimen[i] = h->sd_specimen[i * (h->n_draw / n)];
	}
	*out = (struct spreads){.n = n, .batch = batch, .specimen = specimen};
	return ERR_NONE;
}

/* 1 / (sd_batch^2 + sd_specimen^2 / n) */
static double
batch_weight(const struct spreads *s, size_t draw, size_t n_piece)
{
	return 1 /
		(s->batch[draw] * s->batch[draw] +
			s->specimen[draw] * s->specimen[draw] /
				(double)n_piece);
}

/* weight[draw * n_group + g] of the batches there are. */
static void
add_weights(const struct compare_rows *rows, const size_t *n_piece,
	const struct spreads *s, double prior, double *weight)
{
	for (size_t i = 0; i < s->n; i++)
		for (size_t g = 0; g < rows->n_group; g++)
			weight[i * rows->n_group + g] = prior;
	for (size_t b = 0; b < rows->n_batch; b++)
		for (size_t i = 0; i < s->n && n_piece[b] > 0; i++)
			weight[i * rows->n_group + rows->batch_group[b]] +=
				batch_weight(s, i, n_piece[b]);
}

struct reaching {
	const struct spreads *spread;
	const double *weight, *z; /* z: a standard normal a draw */
	size_t n_group, baseline, usual;
	double *work; /* spread->n */
};

/* Half the width of the log ratio's interval, with `more` batches of a mix and
 * more_base of the baseline. */
static enum err_code
reach(struct arena *arena, const struct reaching *r, size_t group, double more,
	double more_base, double *out, struct err *err)
{
	double interval[3];

	for (size_t i = 0; i < r->spread->n; i++) {
		const double *weight = r->weight + i * r->n_group;
		const double one = batch_weight(r->spread, i, r->usual);

		r->work[i] = r->z[i] *
			sqrt(1 / (weight[group] + more * one) +
				1 / (weight[r->baseline] + more_base * one));
	}
	TRY(stats_hierarchy_interval(
		arena, r->work, r->spread->n, work_level, interval, err));
	*out = (interval[2] - interval[1]) / 2;
	return ERR_NONE;
}

/* Now it is known from the draws themselves; what one more batch brings is
 * the model's ratio of the two widths. */
static enum err_code
next_batches(struct comparing *on, const struct compare_measure *m,
	const size_t *n_piece, const struct spreads *s,
	struct work_comparison *c, struct err *err)
{
	const struct compare_rows *rows = &m->rows;
	const double tau = 1 / (c->prior.mean_sd * c->prior.mean_sd);
	double *weight = arena_take(
		on->arena, s->n * rows->n_group, sizeof *weight);
	double *z = arena_take(on->arena, s->n, sizeof *z);
	struct reaching r = {.spread = s,
		.weight = weight,
		.z = z,
		.n_group = rows->n_group,
		.baseline = m->baseline,
		.usual = usual_pieces(rows),
		.work = arena_take(on->arena, s->n, sizeof *r.work)};
	gsl_rng *rng;

	if (weight == NULL || z == NULL || r.work == NULL)
		return err_memory(err);
	rng = rng_new(on->desk->seed, STREAM_SURER);
	if (rng == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n; i++)
		z[i] = gsl_ran_gaussian_ziggurat(rng, 1);
	gsl_rng_free(rng);
	add_weights(rows, n_piece, s, tau, weight);
	for (size_t g = 0; g < c->n_group; g++) {
		struct work_group *group = &c->group[g];
		double now, next, base;

		if (g == c->baseline)
			continue;
		TRY(reach(on->arena, &r, g, 0, 0, &now, err));
		TRY(reach(on->arena, &r, g, 1, 0, &next, err));
		TRY(reach(on->arena, &r, g, 0, 1, &base, err));
		group->has_next = now > 0;
		if (!group->has_next)
			continue;
		group->reach_now = sqrt(
			group->answer.ratio_high / group->answer.ratio_low);
		group->reach_next = pow(group->reach_now, next / now);
		c->base_narrowing += (1 - base / now) /
			(double)(c->n_group - 1);
	}
	return ERR_NONE;
}

/* The plan as it was carried out, the baseline first. */
static void
lay_out_plan(const struct compare_measure *m, const struct work_comparison *c,
	size_t *n_batch, size_t *n_specimen)
{
	size_t at = 1;

	for (size_t g = 0; g < c->n_group; g++) {
		const struct work_group *group = &c->group[g];
		size_t k = g == c->baseline ? 0 : at++;
		double each = rint(
			(double)group->n_value / (double)group->n_batch);

		n_batch[k] = group->n_batch;
		n_specimen[k] = each >= 1 ? (size_t)each
					  : usual_pieces(&m->rows);
	}
}

static enum err_code
plan_noise(struct comparing *on, const struct compare_measure *m,
	const struct spreads *s, struct work_comparison *c, struct err *err)
{
	size_t *n_batch = arena_take(on->arena, c->n_group, sizeof *n_batch);
	size_t *n_specimen = arena_take(
		on->arena, c->n_group, sizeof *n_specimen);
	struct stats_plan plan = {.n_mix = c->n_group,
		.n_batch = n_batch,
		.n_specimen = n_specimen,
		.sd_batch = s->batch,
		.sd_specimen = s->specimen,
		.n_spread = s->n,
		.gain = log(work_plan_gain),
		.bar = log(plan_bar),
		.n_world = WORLDS};
	enum err_code code;
	gsl_rng *rng;

	if (n_batch == NULL || n_specimen == NULL)
		return err_memory(err);
	lay_out_plan(m, c, n_batch, n_specimen);
	rng = rng_new(on->desk->seed, STREAM_PLAN);
	if (rng == NULL)
		return err_memory(err);
	code = stats_plan_noise(&plan, rng, &c->plan, err);
	plan.gain = 0;
	if (code == ERR_NONE)
		code = stats_plan_noise(&plan, rng, &c->plan_equal, err);
	gsl_rng_free(rng);
	c->has_plan = code == ERR_NONE;
	return code;
}

enum err_code
compare_surer(struct comparing *on, const struct compare_measure *m,
	struct work_comparison *c, struct err *err)
{
	size_t *n_piece = NULL;
	struct spreads s = {.n = 0};

	TRY(count_pieces(on->arena, &m->rows, &n_piece, err));
	TRY(thin(on->arena, &c->draws, &s, err));
	TRY(next_batches(on, m, n_piece, &s, c, err));
	return plan_noise(on, m, &s, c, err);
}

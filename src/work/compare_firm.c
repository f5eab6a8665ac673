/* compare_firm.c - how firm an answer is: other priors, each batch left out. */
#include "work/compare_priv.h"

#include "core/text.h"

#include <math.h>

/* The priors of the spreads are made this much narrower and wider. */
static const double prior_factor = 2;

/* A half-normal's scale, or a lognormal's spread, times a factor. */
static void
widen(double *scale, double *log_sd, double factor)
{
	if (*log_sd > 0)
		*log_sd *= factor;
	else
		*scale *= factor;
}

static enum err_code
plan_prior(struct comparing *on, struct compare_measure *m, double factor,
	struct compare_job **out, struct err *err)
{
	struct stats_hierarchy_prior *prior;

	TRY(compare_side_job(
		on, m, &m->rows, m->baseline, COMPARE_SIDE_KEEP, out, err));
	prior = &(*out)->prior;
	widen(&prior->sd_batch_scale, &prior->sd_batch_log_sd, factor);
	widen(&prior->sd_specimen_scale, &prior->sd_specimen_log_sd, factor);
	prior->mean_sd *= factor;
	return ERR_NONE;
}

static enum err_code
count_batches(struct arena *arena, const struct compare_rows *rows,
	const size_t **out, struct err *err)
{
	size_t *n = arena_take(arena, rows->n_group, sizeof *n);

	if (n == NULL)
		return err_memory(err);
	for (size_t b = 0; b < rows->n_batch; b++)
		n[rows->batch_group[b]]++;
	*out = n;
	return ERR_NONE;
}

/* How many batches may be left out in turn. */
static size_t
left_limit(const struct compare_rows *rows)
{
	size_t limit = COMPARE_LEFT_ROWS / (rows->n + 1);

	if (limit > COMPARE_LEFT_MOST)
		limit = COMPARE_LEFT_MOST;
	return limit > 0 ? limit : 1;
}

static enum err_code
leave_out(struct comparing *on, struct compare_measure *m, size_t batch,
	struct err *err)
{
	struct compare_rows less;

	TRY(compare_rows_without(on->arena, &m->rows, batch, &less, err));
	TRY(compare_side_job(on, m, &less, m->baseline, COMPARE_LEFT_KEEP,
		&m->left[m->n_left], err));
	m->left_batch[m->n_left++] = batch;
	return ERR_NONE;
}

/* Those of mixes with `count` batches, as far as the limit goes. */
static enum err_code
leave_out_of(struct comparing *on, struct compare_measure *m,
	const size_t *n_batch, size_t count, size_t limit, struct err *err)
{
	for (size_t b = 0; b < m->rows.n_batch && m->n_left < limit; b++)
		if (n_batch[m->rows.batch_group[b]] == count)
			TRY(leave_out(on, m, b, err));
	return ERR_NONE;
}

/* A mix's only batch cannot be left out: nothing of the mix would be left.
 * Where not all can be, those of the mixes with the fewest batches go first: each
 * of them carries the most. */
static enum err_code
plan_left_out(struct comparing *on, struct compare_measure *m, struct err *err)
{
	const struct compare_rows *rows = &m->rows;
	const size_t *n_batch = NULL;
	const size_t limit = left_limit(rows);
	size_t n_can = 0;

	m->left_skipped = rows->n_batch > COMPARE_LEFT_BATCHES &&
		!on->ask->leave_out;
	if (m->left_skipped)
		return ERR_NONE;
	TRY(count_batches(on->arena, rows, &n_batch, err));
	m->left = arena_take(
		on->arena, rows->n_batch, sizeof(struct compare_job *));
	m->left_batch = arena_take(
		on->arena, rows->n_batch, sizeof *m->left_batch);
	if (m->left == NULL || m->left_batch == NULL)
		return err_memory(err);
	for (size_t b = 0; b < rows->n_batch; b++)
		n_can += n_batch[rows->batch_group[b]] > 1;
	m->left_of = n_can > limit ? n_can : 0;
	if (m->left_of == 0) {
		for (size_t b = 0; b < rows->n_batch; b++)
			if (n_batch[rows->batch_group[b]] > 1)
				TRY(leave_out(on, m, b, err));
		return ERR_NONE;
	}
	for (size_t count = 2; m->n_left < limit; count++)
		TRY(leave_out_of(on, m, n_batch, count, limit, err));
	return ERR_NONE;
}

enum err_code
compare_firm_plan(
	struct comparing *on, struct compare_measure *m, struct err *err)
{
	TRY(plan_prior(on, m, 1 / prior_factor, &m->halved, err));
	TRY(plan_prior(on, m, prior_factor, &m->doubled, err));
	return plan_left_out(on, m, err);
}

/* The group's verdict without the batch; the batch itself is not counted. */
static enum choose_verdict
verdict_without(const struct comparing *on, struct work_comparison *c,
	size_t group, size_t of, const struct compare_job *job)
{
	enum choose_verdict verdict;

	c->group[of].n_batch--;
	verdict = compare_verdict(
		on->all, c, group, job->got.answer[group].p_better);
	c->group[of].n_batch++;
	return verdict;
}

/* Verdicts compared as if the count of batches stayed: a mix is not made
 * uncertain only because one of its two batches is set aside for a moment. */
static enum err_code
read_one(const struct comparing *on, const struct compare_measure *m, size_t at,
	struct work_comparison *c, struct work_left_out *out, struct err *err)
{
	const struct compare_job *job = m->left[at];
	const size_t batch = m->left_batch[at];
	struct work_left_out got = {.batch = m->rows.batch_site[batch],
		.group = m->rows.batch_group[batch],
		.changed = ""};
	struct text changed;

	text_init(&changed, on->arena);
	for (size_t g = 0; g < c->n_group; g++) {
		const struct work_group *group = &c->group[g];
		enum choose_verdict verdict;
		double moved = fabs(log(job->got.answer[g].ratio_median /
			group->answer.ratio_median));

		if (g == c->baseline)
			continue;
		verdict = compare_verdict(
			on->all, c, g, job->got.answer[g].p_better);
		if (verdict != group->verdict)
			text_addf(&changed, "%s%s becomes \"%s\"",
				got.n_changed++ > 0 ? ", " : "",
				on->all->site.mix[group->mix].code,
				arena_say(changed.arena,
					choose_verdict_words(verdict)));
		if (moved > got.most_moved) {
			got.most_moved = moved;
			got.most_moved_group = g;
		}
	}
	if (text_failed(&changed))
		return err_memory(err);
	if (changed.n > 0)
		got.changed = changed.bytes;
	if (got.group != c->baseline)
		got.ratio = compare_ratio(
			on->all, c, job, got.group, got.group);
	if (got.ratio.has)
		got.ratio.verdict = verdict_without(
			on, c, got.group, got.group, job);
	*out = got;
	return ERR_NONE;
}

enum err_code
compare_firm_read(struct comparing *on, struct compare_measure *m,
	struct work_comparison *c, struct err *err)
{
	struct work_left_out *left = arena_take(
		on->arena, m->n_left, sizeof *left);

	if (left == NULL)
		return err_memory(err);
	for (size_t g = 0; g < c->n_group; g++) {
		c->group[g].halved = compare_ratio(on->all, c, m->halved, g, g);
		c->group[g].doubled = compare_ratio(
			on->all, c, m->doubled, g, g);
	}
	for (size_t i = 0; i < m->n_left; i++)
		TRY(read_one(on, m, i, c, &left[i], err));
	c->left_out = left;
	c->n_left_out = m->n_left;
	c->left_out_skipped = m->left_skipped;
	c->left_out_of = m->left_of;
	return ERR_NONE;
}

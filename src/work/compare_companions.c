/* compare_companions.c - reinforced pieces judged beside the plain ones of
 * their own batch.
 *
 * A batch that came out weak makes its mesh look weak.  Where the batches of a
 * reinforced mix and those of the baseline have plain pieces too, the ratio of
 * reinforced to plain within the mix's own batches is divided by the same ratio
 * within the baseline's; whatever made a batch weak as a whole cancels.  With
 * plain pieces of the same test the baseline is not needed.  Otherwise the
 * plain pieces of another test stand in (crushing first), and it is assumed that
 * a weak batch is as weak in the one as in the other.
 *
 * Each batch has a mean of its own here (known spread between batches of 0 about
 * itself), so that nothing is pulled together before it is divided. */
#include "work/compare_priv.h"

#include <math.h>

static const enum choose_measure stand_ins[] = {
	CHOOSE_CRUSHING_STRENGTH, CHOOSE_CRUSHING_LOAD, CHOOSE_CRUSHING_ENERGY};

enum {
	N_STAND_IN = sizeof stand_ins / sizeof stand_ins[0],
	/* With more batches than this no single one decides any more, and a mean
	 * for each would take more memory than it is worth. */
	MOST_BATCHES = 400
};

/* Is mix reinforced, and so not the mix of its own matrix? */
static bool
is_reinforced(const struct work_site *site, size_t mix)
{
	return site->mix_matrix[mix] != mix;
}

static size_t
find_batch(const struct compare_rows *rows, size_t site_batch, size_t group)
{
	for (size_t b = 0; b < rows->n_batch; b++)
		if (rows->batch_site[b] == site_batch &&
			rows->batch_group[b] == group)
			return b;
	return COMPARE_NONE;
}

/* Have all batches of the group plain companions in `plain`? */
static bool
has_companions(const struct work_site *site, const struct compare_rows *rows,
	const struct compare_rows *plain, size_t group)
{
	const size_t matrix = site->mix_matrix[rows->group_mix[group]];
	const size_t of = plain->mix_group[matrix];
	size_t n = 0;

	if (of == COMPARE_NONE)
		return false;
	for (size_t b = 0; b < rows->n_batch; b++) {
		if (rows->batch_group[b] != group)
			continue;
		if (find_batch(plain, rows->batch_site[b], of) == COMPARE_NONE)
			return false;
		n++;
	}
	return n > 0;
}

/* A reinforced mix of the baseline's matrix, with companions on both sides. */
static bool
can_be_judged(const struct comparing *on, const struct compare_measure *m,
	const struct compare_rows *plain, size_t group)
{
	const struct work_site *site = &on->all->site;
	const size_t mix = m->rows.group_mix[group];

	return is_reinforced(site, mix) &&
		site->mix_matrix[mix] == site->mix_matrix[site->baseline] &&
		has_companions(site, &m->rows, plain, group) &&
		has_companions(site, &m->rows, plain, m->baseline);
}

static enum err_code
add_batchwise(struct comparing *on, struct compare_measure *m,
	const struct compare_rows *rows, struct compare_job **out,
	struct err *err)
{
	struct compare_rows apart;

	TRY(compare_rows_by_batch(on->arena, rows, &apart, err));
	TRY(compare_side_job(on, m, &apart, 0, COMPARE_SIDE_KEEP, out, err));
	(*out)->prior.has_sd_batch = true;
	(*out)->prior.sd_batch = 0;
	(*out)->keep_draws = true;
	return ERR_NONE;
}

static bool
any_can_be_judged(const struct comparing *on, const struct compare_measure *m,
	const struct compare_rows *plain)
{
	for (size_t g = 0; g < m->rows.n_group; g++)
		if (can_be_judged(on, m, plain, g))
			return true;
	return false;
}

enum err_code
compare_companions_plan(
	struct comparing *on, struct compare_measure *m, struct err *err)
{
	if (!compare_bends(m->rows.measure) || m->rows.n_batch > MOST_BATCHES)
		return ERR_NONE;
	if (any_can_be_judged(on, m, &m->rows)) {
		TRY(add_batchwise(on, m, &m->rows, &m->own, err));
		m->plain = m->rows;
		m->companion = m->own;
		return ERR_NONE;
	}
	for (size_t i = 0; i < N_STAND_IN; i++) {
		struct compare_rows plain;

		TRY(compare_rows(on->arena, &on->all->site, &on->all->results,
			stand_ins[i], false, &plain, err));
		if (plain.n_batch > MOST_BATCHES ||
			!any_can_be_judged(on, m, &plain))
			continue;
		m->plain = plain;
		TRY(add_batchwise(on, m, &m->rows, &m->own, err));
		return add_batchwise(on, m, &plain, &m->companion, err);
	}
	return ERR_NONE;
}

/* Mean over the batches of a group of log(piece) - log(plain companion). */
static double
log_over_plain(const struct compare_measure *m, const size_t *partner,
	size_t group, size_t draw)
{
	const struct stats_hierarchy *own = &m->own->got.draws;
	const struct stats_hierarchy *plain = &m->companion->got.draws;
	double sum = 0;
	size_t n = 0;

	for (size_t b = 0; b < m->rows.n_batch; b++) {
		if (m->rows.batch_group[b] != group)
			continue;
		sum += own->mean[draw * own->n_mix + b] -
			plain->mean[draw * plain->n_mix + partner[b]];
		n++;
	}
	return sum / (double)n;
}

static enum err_code
judge(struct comparing *on, const struct compare_measure *m,
	const size_t *partner, struct work_comparison *c, size_t group,
	struct err *err)
{
	struct arena_mark mark = arena_mark(on->arena);
	const size_t n = m->own->got.draws.n_draw;
	double *ratio = arena_take(on->arena, n, sizeof *ratio);
	double interval[3];
	size_t better = 0;

	if (ratio == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		ratio[i] = log_over_plain(m, partner, group, i) -
			log_over_plain(m, partner, c->baseline, i);
		better += ratio[i] > 0;
	}
	TRY(stats_hierarchy_interval(
		on->arena, ratio, n, work_level, interval, err));
	arena_back(on->arena, mark);
	c->group[group].own_by = m->companion->rows.measure;
	c->group[group].own = (struct work_ratio){.has = true,
		.median = exp(interval[0]),
		.low = exp(interval[1]),
		.high = exp(interval[2]),
		.p_better = (double)better / (double)n};
	c->group[group].own.verdict = compare_verdict(
		on->all, c, group, c->group[group].own.p_better);
	return ERR_NONE;
}

/* The batch of plain pieces beside each batch; COMPARE_NONE where none is. */
static enum err_code
find_partners(struct comparing *on, const struct compare_measure *m,
	size_t **out, struct err *err)
{
	const struct work_site *site = &on->all->site;
	size_t *partner = arena_take(
		on->arena, m->rows.n_batch, sizeof *partner);

	if (partner == NULL)
		return err_memory(err);
	for (size_t b = 0; b < m->rows.n_batch; b++) {
		size_t mix = m->rows.group_mix[m->rows.batch_group[b]];
		size_t of = m->plain.mix_group[site->mix_matrix[mix]];

		partner[b] = of == COMPARE_NONE
			? COMPARE_NONE
			: find_batch(&m->plain, m->rows.batch_site[b], of);
	}
	*out = partner;
	return ERR_NONE;
}

enum err_code
compare_companions_read(struct comparing *on, struct compare_measure *m,
	struct work_comparison *c, struct err *err)
{
	size_t *partner = NULL;

	if (m->own == NULL)
		return ERR_NONE;
	TRY(find_partners(on, m, &partner, err));
	for (size_t g = 0; g < c->n_group; g++)
		if (can_be_judged(on, m, &m->plain, g))
			TRY(judge(on, m, partner, c, g, err));
	return ERR_NONE;
}

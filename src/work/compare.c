/* compare.c - one estimate a measure, from the results of all mixes. */
#include "work/compare.h"

#include "choose/verdict.h"
#include "work/compare_priv.h"
#include "work/confirm.h"

#include <math.h>

static const enum choose_measure compared_measures[] = {CHOOSE_BENDING_STRENGTH,
	CHOOSE_BREAKING_LOAD, CHOOSE_CRUSHING_STRENGTH, CHOOSE_CRUSHING_LOAD,
	CHOOSE_CRUSHING_ENERGY, CHOOSE_DENT, CHOOSE_DRY_DENSITY,
	CHOOSE_SCREW_PULL, CHOOSE_WATER_TAKEN_UP, CHOOSE_WATER_DRAWN_UP,
	CHOOSE_DRYING_SHRINKAGE, CHOOSE_FROST_LOSS, CHOOSE_SETTLING_LOSS,
	CHOOSE_CONDUCTIVITY};

enum { N_COMPARED = sizeof compared_measures / sizeof compared_measures[0] };

static bool
is_compared(enum choose_measure measure)
{
	for (size_t i = 0; i < N_COMPARED; i++)
		if (compared_measures[i] == measure)
			return true;
	return false;
}

enum choose_verdict
compare_verdict(const struct work_compared *all,
	const struct work_comparison *c, size_t group, double p_better)
{
	const struct work_group *g = &c->group[group];
	const struct work_breakage *b = &all->breakage[g->mix];
	bool has = c->baseline < c->n_group;
	const struct choose_standing standing = {
		.is_baseline = has && group == c->baseline,
		.p_better = p_better,
		.n_batch = g->n_batch,
		.n_batch_baseline = has ? c->group[c->baseline].n_batch : 0,
		.n_cast = b->n_cast,
		.n_broken = b->n_broken,
		.p_breaks_by_chance = b->p_more_by_chance};

	/* Beside a baseline without a value nothing can be told of a mix. */
	return has ? choose_verdict(&standing) : CHOOSE_CANNOT_TELL;
}

struct work_ratio
compare_ratio(const struct work_compared *all, const struct work_comparison *c,
	const struct compare_job *job, size_t group, size_t job_group)
{
	const struct stats_mix_answer *a = &job->got.answer[job_group];

	if (c->baseline >= c->n_group)
		return (struct work_ratio){.has = false};
	return (struct work_ratio){.has = true,
		.median = a->ratio_median,
		.low = a->ratio_low,
		.high = a->ratio_high,
		.p_better = a->p_better,
		.verdict = compare_verdict(all, c, group, a->p_better)};
}

static bool
is_firm(const struct comparing *on)
{
	switch (on->ask->firmness) {
	case WORK_FIRMNESS_NONE:
		return false;
	case WORK_FIRMNESS_FIRST:
		return on->n_measure == 0;
	case WORK_FIRMNESS_ALL:
		return true;
	}
	return false;
}

enum err_code
compare_side_job(struct comparing *on, struct compare_measure *m,
	const struct compare_rows *rows, size_t baseline, size_t n_keep,
	struct compare_job **out, struct err *err)
{
	const size_t keep = n_keep < on->desk->n_keep ? n_keep
						      : on->desk->n_keep;

	TRY(compare_job_add(on->arena, &on->jobs, rows, baseline, keep,
		on->desk->seed, out, err));
	(*out)->n_warm = COMPARE_SIDE_WARM;
	(*out)->prior.sd_batch_scale = m->main->prior.sd_batch_scale;
	(*out)->prior.sd_batch_log_sd = m->main->prior.sd_batch_log_sd;
	(*out)->prior.sd_specimen_scale = m->main->prior.sd_specimen_scale;
	(*out)->prior.sd_specimen_log_sd = m->main->prior.sd_specimen_log_sd;
	return ERR_NONE;
}

static enum err_code
plan_put_back(struct comparing *on, struct compare_measure *m, struct err *err)
{
	struct compare_rows rows;
	size_t baseline;

	TRY(compare_rows(on->arena, &on->all->site, &on->all->results,
		m->rows.measure, true, &rows, err));
	if (rows.n == m->rows.n || m->baseline >= m->rows.n_group)
		return ERR_NONE;
	baseline = rows.mix_group[m->rows.group_mix[m->baseline]];
	return compare_side_job(
		on, m, &rows, baseline, COMPARE_SIDE_KEEP, &m->put_back, err);
}

/* Where one measure is looked at closely the others stand in a list of ratios,
 * for which half the draws are enough. */
static size_t
main_keep(const struct comparing *on, bool is_firm)
{
	const size_t keep = on->desk->n_keep;

	if (on->ask->firmness == WORK_FIRMNESS_FIRST && !is_firm)
		return keep > COMPARE_SIDE_KEEP ? (keep + 1) / 2 : keep;
	return keep;
}

/* The main job of a measure that two mixes have. */
static enum err_code
plan_measure(struct comparing *on, enum choose_measure measure, struct err *err)
{
	struct compare_measure m = {.is_firm = is_firm(on)};

	TRY(compare_rows(on->arena, &on->all->site, &on->all->results, measure,
		false, &m.rows, err));
	if (m.rows.n_group < 2)
		return ERR_NONE;
	m.baseline = m.rows.mix_group[on->all->site.baseline];
	if (m.baseline == COMPARE_NONE)
		m.baseline = m.rows.n_group;
	TRY(compare_job_add(on->arena, &on->jobs, &m.rows, m.baseline,
		main_keep(on, m.is_firm), on->desk->seed, &m.main, err));
	m.main->keep_draws = true;
	m.main->check = m.is_firm;
	on->measure[on->n_measure++] = m;
	return ERR_NONE;
}

static enum err_code
plan_sides(struct comparing *on, struct compare_measure *m, struct err *err)
{
	if (!m->is_firm || m->baseline >= m->rows.n_group)
		return ERR_NONE;
	TRY(plan_put_back(on, m, err));
	TRY(compare_covariates_plan(on, m, err));
	TRY(compare_companions_plan(on, m, err));
	return compare_firm_plan(on, m, err);
}

static enum err_code
refuse_nothing(const struct comparing *on, struct err *err)
{
	if (on->ask->has_measure)
		return err_report(err, ERR_INPUT, "measure",
			"No two mixes have valid readings of %s, so there is "
			"nothing to compare in it. \"foamwright compare BOOK\" "
			"shows what there is.",
			err_say(err, choose_measure_name(on->ask->measure)));
	return err_report(err, ERR_INPUT, "readings",
		"There is nothing to compare yet: no test has readings of two "
		"mixes. Test pieces of the baseline and of at least one "
		"other mix.");
}

static enum err_code
plan_measures(struct comparing *on, struct err *err)
{
	const struct work_compare_ask *ask = on->ask;

	if (ask->has_measure && is_compared(ask->measure))
		return plan_measure(on, ask->measure, err);
	if (ask->has_measure)
		return ERR_NONE;
	for (size_t i = 0; i < ask->n_first_of && on->n_measure == 0; i++)
		if (is_compared(ask->first_of[i]))
			TRY(plan_measure(on, ask->first_of[i], err));
	if (ask->first_of != NULL)
		return ERR_NONE;
	for (size_t i = 0; i < N_COMPARED; i++)
		TRY(plan_measure(on, compared_measures[i], err));
	return ERR_NONE;
}

static enum err_code
plan(struct comparing *on, struct err *err)
{
	on->measure = arena_take(on->arena, N_COMPARED, sizeof *on->measure);
	if (on->measure == NULL)
		return err_memory(err);
	TRY(plan_measures(on, err));
	if (on->n_measure == 0)
		return refuse_nothing(on, err);
	if (on->ask->learn_from != NULL)
		TRY(compare_learn(on, err));
	if (on->ask->first_of == NULL)
		TRY(compare_density_plan(on, err));
	for (size_t i = 0; i < on->n_measure; i++)
		TRY(plan_sides(on, &on->measure[i], err));
	return ERR_NONE;
}

static void
read_main(const struct comparing *on, const struct compare_measure *m,
	struct work_comparison *c)
{
	const struct compare_job *job = m->main;

	c->draws = job->got.draws;
	c->drawn_from = job->claim.key;
	c->prior = job->prior;
	c->rhat_max = job->got.draws.rhat_max;
	c->ess_min = job->got.draws.ess_min;
	c->predictive = job->got.predictive;
	c->furthest_batch = m->rows.batch_site[job->got.furthest_batch];
	c->furthest_piece = m->rows.batch_site[job->got.furthest_piece];
	c->ess_mix_min = INFINITY;
	for (size_t k = 0; k < 3; k++) {
		c->sd_batch[k] = job->got.sd_batch[k];
		c->sd_specimen[k] = job->got.sd_specimen[k];
	}
	for (size_t g = 0; g < c->n_group; g++) {
		c->ess_mix_min = fmin(
			c->ess_mix_min, job->got.draws.ess_mean[g]);
		c->group[g].answer = job->got.answer[g];
		c->group[g].p_much = job->got.p_much[g];
		c->group[g].verdict = compare_verdict(
			on->all, c, g, job->got.answer[g].p_better);
	}
}

static void
read_put_back(const struct comparing *on, const struct compare_measure *m,
	struct work_comparison *c)
{
	for (size_t g = 0; g < c->n_group && m->put_back != NULL; g++) {
		struct work_group *group = &c->group[g];

		group->put_back = compare_ratio(on->all, c, m->put_back, g,
			m->put_back->rows.mix_group[group->mix]);
		group->has_with_excluded = group->n_excluded > 0;
		group->ratio_with_excluded = group->put_back.median;
	}
}

static enum err_code
read_measure(struct comparing *on, struct compare_measure *m,
	struct work_comparison *out, struct err *err)
{
	struct work_comparison c = {.measure = m->rows.measure,
		.lacks = "",
		.learnt_from = m->learnt_from != NULL ? m->learnt_from : "",
		.n_group = m->rows.n_group,
		.baseline = m->baseline,
		.one_batch_each = m->rows.n_batch == m->rows.n_group};

	c.group = arena_take(on->arena, c.n_group, sizeof *c.group);
	if (c.group == NULL)
		return err_memory(err);
	for (size_t g = 0; g < c.n_group; g++)
		c.group[g].mix = m->rows.group_mix[g];
	TRY(compare_count(on->arena, &on->all->site, &on->all->results,
		&m->rows, &c, err));
	read_main(on, m, &c);
	read_put_back(on, m, &c);
	if (m->is_firm && m->baseline < m->rows.n_group) {
		c.has_firmness = true;
		compare_covariates_read(on, m, &c);
		TRY(compare_companions_read(on, m, &c, err));
		TRY(compare_firm_read(on, m, &c, err));
		TRY(compare_surer(on, m, &c, err));
	}
	if (on->ask->classical)
		TRY(compare_classical(on, m, &c, err));
	*out = c;
	return ERR_NONE;
}

static enum err_code
compare_all(struct comparing *on, struct err *err)
{
	struct work_compared *all = on->all;

	all->comparison = arena_take(
		on->arena, N_COMPARED, sizeof *all->comparison);
	if (all->comparison == NULL)
		return err_memory(err);
	TRY(plan(on, err));
	TRY(compare_jobs_run(on->desk, on->arena, &on->jobs, err));
	for (size_t i = 0; i < on->n_measure; i++)
		TRY(read_measure(
			on, &on->measure[i], &all->comparison[i], err));
	all->n_comparison = on->n_measure;
	TRY(compare_density_read(on, err));
	return compare_words(on, err);
}

enum err_code
work_compare_asked(const struct desk *desk, struct arena *arena,
	const struct work_compare_ask *ask, struct work_compared *out,
	struct err *err)
{
	struct work_compared all = {0};
	struct comparing on = {
		.desk = desk, .arena = arena, .ask = ask, .all = &all};

	TRY(work_site_read(desk->book, arena, &all.site, err));
	if (!all.site.has_baseline)
		return err_report(err, ERR_INPUT, "baseline",
			"No trial names a baseline, so there is nothing to "
			"compare against. \"foamwright trial\" plans one.");
	TRY(work_results(arena, &all.site, &all.results, err));
	TRY(work_confirmed(desk->book, arena, &all.site, &all.results, err));
	TRY(compare_breakage(arena, &all, err));
	TRY(compare_after_crack(arena, &all, err));
	TRY(compare_all(&on, err));
	*out = all;
	return ERR_NONE;
}

enum err_code
work_compare(const struct desk *desk, struct arena *arena,
	struct work_compared *out, struct err *err)
{
	const struct work_compare_ask ask = {.has_measure = false};

	return work_compare_asked(desk, arena, &ask, out, err);
}

const struct work_comparison *
work_comparison_of(
	const struct work_compared *compared, enum choose_measure measure)
{
	for (size_t i = 0; i < compared->n_comparison; i++)
		if (compared->comparison[i].measure == measure)
			return &compared->comparison[i];
	return NULL;
}

const struct work_group *
work_group_of(const struct work_compared *compared,
	const struct work_comparison *comparison, size_t mix)
{
	size_t matrix = compared->site.mix_matrix[mix];
	const struct work_group *shared = NULL;

	for (size_t g = 0; g < comparison->n_group; g++) {
		if (comparison->group[g].mix == mix)
			return &comparison->group[g];
		if (comparison->group[g].mix == matrix)
			shared = &comparison->group[g];
	}
	/* A reinforced mix bends on its own; the matrix does not speak for it.
	 */
	return compare_bends(comparison->measure) ? NULL : shared;
}

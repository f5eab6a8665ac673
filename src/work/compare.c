/* compare.c - one estimate a measure, from the results of all mixes. */
#include "work/compare.h"

#include "choose/verdict.h"
#include "core/text.h"
#include "stats/counts.h"
#include "work/compare_priv.h"

#include <math.h>
#include <string.h>

static const enum choose_measure compared_measures[] = {
	CHOOSE_BENDING_STRENGTH, CHOOSE_BREAKING_LOAD, CHOOSE_CRUSHING_STRENGTH,
	CHOOSE_CRUSHING_LOAD, CHOOSE_CRUSHING_ENERGY, CHOOSE_DENT,
	CHOOSE_DRY_DENSITY, CHOOSE_SCREW_PULL, CHOOSE_WATER_TAKEN_UP,
	CHOOSE_SETTLING_LOSS};

enum {
	N_COMPARED = sizeof compared_measures / sizeof compared_measures[0],
	SHORT_KEEP = 1000
};

/* Bending is of the mix with its steel or mesh; everything else of the matrix
 * around it, so that a reinforced mix repeats the plain one. */
static size_t
group_mix(const struct work_site *site, const struct work_result *r)
{
	bool own = r->measure == CHOOSE_BENDING_STRENGTH ||
		r->measure == CHOOSE_BREAKING_LOAD ||
		(r->has_specimen && site->specimen[r->specimen].reinforced);

	return own ? r->mix : site->mix_matrix[r->mix];
}

static bool
is_of(const struct work_result *r, enum choose_measure measure)
{
	return r->measure == measure &&
		(r->place[0] == '\0' || strcmp(r->place, "centre") == 0);
}

enum err_code
compare_rows(struct arena *arena, const struct work_site *site,
	const struct work_results *results, enum choose_measure measure,
	bool with_excluded, struct compare_rows *out, struct err *err)
{
	struct compare_rows rows = {0};
	size_t n = results->n_result;
	size_t *batch_at = arena_take(arena, site->n_batch * 2,
		sizeof *batch_at);

	rows.low = arena_take(arena, n, sizeof *rows.low);
	rows.high = arena_take(arena, n, sizeof *rows.high);
	rows.batch = arena_take(arena, n, sizeof *rows.batch);
	rows.batch_group = arena_take(arena, site->n_batch * 2,
		sizeof *rows.batch_group);
	rows.batch_site = arena_take(arena, site->n_batch * 2,
		sizeof *rows.batch_site);
	rows.group_mix = arena_take(arena, site->n_mix, sizeof *rows.group_mix);
	rows.mix_group = arena_take(arena, site->n_mix, sizeof *rows.mix_group);
	if (batch_at == NULL || rows.low == NULL || rows.high == NULL ||
		rows.batch == NULL || rows.batch_group == NULL ||
		rows.batch_site == NULL || rows.group_mix == NULL ||
		rows.mix_group == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_mix; i++)
		rows.mix_group[i] = COMPARE_NONE;
	for (size_t i = 0; i < 2 * site->n_batch; i++)
		batch_at[i] = COMPARE_NONE;
	for (size_t i = 0; i < n; i++) {
		const struct work_result *r = &results->result[i];
		size_t mix, own, *at;

		if (!is_of(r, measure) || site->batch[r->batch].practice ||
			(r->excluded && !with_excluded))
			continue;
		mix = group_mix(site, r);
		/* A reinforced piece of a batch is judged apart from the plain
		 * ones beside it. */
		own = mix == r->mix && site->mix_matrix[mix] != mix ? 1 : 0;
		at = &batch_at[2 * r->batch + own];
		if (rows.mix_group[mix] == COMPARE_NONE) {
			rows.mix_group[mix] = rows.n_group;
			rows.group_mix[rows.n_group++] = mix;
		}
		if (*at == COMPARE_NONE) {
			*at = rows.n_batch;
			rows.batch_site[rows.n_batch] = r->batch;
			rows.batch_group[rows.n_batch++] = rows.mix_group[mix];
		}
		rows.low[rows.n] = r->value.low;
		rows.high[rows.n] = r->value.high;
		rows.batch[rows.n++] = *at;
	}
	*out = rows;
	return ERR_NONE;
}

enum err_code
compare_sample(const struct desk *desk, struct arena *arena,
	const struct compare_rows *rows, size_t n_keep,
	struct stats_hierarchy *draws, struct stats_hierarchy_prior *prior,
	struct err *err)
{
	struct stats_hierarchy_ask ask = {.n_row = rows->n,
		.n_mix = rows->n_group, .n_batch = rows->n_batch,
		.low = rows->low, .high = rows->high, .row_batch = rows->batch,
		.batch_mix = rows->batch_group, .n_chain = desk->n_chain,
		.n_warm = WORK_WARM, .n_keep = n_keep,
		.n_thread = desk->n_thread, .seed = desk->seed};

	stats_hierarchy_default_prior(rows->low, rows->high, rows->n,
		&ask.prior);
	*prior = ask.prior;
	return stats_hierarchy_sample(arena, &ask, draws, err);
}

/* "W, G": the reinforced mixes that speak for this matrix too. */
static enum err_code
name_sharers(struct arena *arena, const struct work_site *site,
	const struct work_results *results, struct work_comparison *c,
	struct err *err)
{
	for (size_t g = 0; g < c->n_group; g++) {
		struct text with;
		size_t mix = c->group[g].mix;

		text_init(&with, arena);
		for (size_t i = 0; i < site->n_mix; i++) {
			bool shares = false;

			for (size_t k = 0; k < results->n_result && !shares &&
				i != mix; k++)
				shares = results->result[k].mix == i &&
					is_of(&results->result[k],
						c->measure) &&
					group_mix(site, &results->result[k]) ==
						mix;
			if (shares)
				text_addf(&with, "%s%s", with.n > 0 ? ", " : "",
					site->mix[i].code);
		}
		if (text_failed(&with))
			return err_memory(err);
		c->group[g].with = with.bytes;
	}
	return ERR_NONE;
}

static void
count_group(const struct work_site *site, const struct work_results *results,
	const struct compare_rows *rows, struct work_comparison *c)
{
	for (size_t b = 0; b < rows->n_batch; b++)
		c->group[rows->batch_group[b]].n_batch++;
	for (size_t i = 0; i < rows->n; i++)
		c->group[rows->batch_group[rows->batch[i]]].n_value++;
	for (size_t i = 0; i < results->n_result; i++) {
		const struct work_result *r = &results->result[i];
		size_t group;

		if (!is_of(r, c->measure) || !r->excluded ||
			site->batch[r->batch].practice)
			continue;
		group = rows->mix_group[group_mix(site, r)];
		if (group != COMPARE_NONE)
			c->group[group].n_excluded++;
	}
	c->one_batch_each = rows->n_batch == rows->n_group;
}

static enum err_code
answer_groups(struct arena *arena, struct work_comparison *c, struct err *err)
{
	struct stats_mix_answer *answer =
		arena_take(arena, c->n_group, sizeof *answer);
	size_t against = c->baseline < c->n_group ? c->baseline : 0;

	if (answer == NULL)
		return err_memory(err);
	TRY(stats_hierarchy_answer(arena, &c->draws, against, work_level,
		choose_measure_larger_is_better(c->measure), answer, err));
	for (size_t g = 0; g < c->n_group; g++)
		c->group[g].answer = answer[g];
	TRY(stats_hierarchy_interval(arena, c->draws.sd_batch, c->draws.n_draw,
		work_level, c->sd_batch, err));
	TRY(stats_hierarchy_interval(arena, c->draws.sd_specimen,
		c->draws.n_draw, work_level, c->sd_specimen, err));
	c->rhat_max = c->draws.rhat_max;
	c->ess_min = c->draws.ess_min;
	return ERR_NONE;
}

/* The same estimate with what the rules excluded put back. */
static enum err_code
put_back_excluded(const struct desk *desk, struct arena *arena,
	const struct work_site *site, const struct work_results *results,
	struct work_comparison *c, struct err *err)
{
	struct stats_hierarchy_prior prior;
	struct stats_hierarchy draws;
	struct stats_mix_answer *answer;
	struct compare_rows rows;
	size_t n_excluded = 0, against;

	for (size_t g = 0; g < c->n_group; g++)
		n_excluded += c->group[g].n_excluded;
	if (n_excluded == 0 || c->baseline >= c->n_group)
		return ERR_NONE;
	TRY(compare_rows(arena, site, results, c->measure, true, &rows, err));
	TRY(compare_sample(desk, arena, &rows, SHORT_KEEP, &draws, &prior,
		err));
	answer = arena_take(arena, rows.n_group, sizeof *answer);
	if (answer == NULL)
		return err_memory(err);
	against = rows.mix_group[c->group[c->baseline].mix];
	TRY(stats_hierarchy_answer(arena, &draws, against, work_level,
		choose_measure_larger_is_better(c->measure), answer, err));
	for (size_t g = 0; g < c->n_group; g++) {
		struct work_group *group = &c->group[g];

		group->has_with_excluded = group->n_excluded > 0;
		group->ratio_with_excluded =
			answer[rows.mix_group[group->mix]].ratio_median;
	}
	return ERR_NONE;
}

static enum choose_verdict
group_verdict(const struct work_comparison *c, const struct work_group *g,
	const struct work_breakage *breakage)
{
	const struct work_breakage *b = &breakage[g->mix];
	const struct choose_standing standing = {
		.is_baseline = c->baseline < c->n_group &&
			g == &c->group[c->baseline],
		.p_better = g->answer.p_better, .n_batch = g->n_batch,
		.n_batch_baseline = c->baseline < c->n_group
			? c->group[c->baseline].n_batch
			: 0,
		.n_cast = b->n_cast, .n_broken = b->n_broken,
		.p_breaks_by_chance = b->p_more_by_chance};

	return choose_verdict(&standing);
}

static enum err_code
compare_measure(const struct desk *desk, struct arena *arena,
	struct work_compared *all, enum choose_measure measure,
	struct work_comparison *out, bool *is_there, struct err *err)
{
	struct work_comparison c = {.measure = measure, .lacks = ""};
	struct compare_rows rows;

	*is_there = false;
	TRY(compare_rows(arena, &all->site, &all->results, measure, false,
		&rows, err));
	if (rows.n_group < 2)
		return ERR_NONE;
	c.n_group = rows.n_group;
	c.group = arena_take(arena, c.n_group, sizeof *c.group);
	if (c.group == NULL)
		return err_memory(err);
	for (size_t g = 0; g < c.n_group; g++)
		c.group[g].mix = rows.group_mix[g];
	c.baseline = rows.mix_group[all->site.baseline];
	if (c.baseline == COMPARE_NONE)
		c.baseline = c.n_group;
	count_group(&all->site, &all->results, &rows, &c);
	TRY(compare_sample(desk, arena, &rows, desk->n_keep, &c.draws, &c.prior,
		err));
	TRY(answer_groups(arena, &c, err));
	TRY(name_sharers(arena, &all->site, &all->results, &c, err));
	TRY(put_back_excluded(desk, arena, &all->site, &all->results, &c, err));
	for (size_t g = 0; g < c.n_group; g++)
		c.group[g].verdict =
			group_verdict(&c, &c.group[g], all->breakage);
	for (size_t i = 0; i < all->results.n_result; i++)
		if (is_of(&all->results.result[i], measure) &&
			c.lacks[0] == '\0')
			c.lacks = all->results.result[i].lacks;
	*out = c;
	*is_there = true;
	return ERR_NONE;
}

static bool
is_broken(const char *fate)
{
	return strncmp(fate, "snapped", strlen("snapped")) == 0;
}

/* Beams alone are counted: they are what can snap when stripped. */
static enum err_code
compare_breakage(struct arena *arena, struct work_compared *all,
	struct err *err)
{
	const struct work_site *site = &all->site;
	struct work_breakage *b = arena_take(arena, site->n_mix, sizeof *b);
	uint64_t cast = 0, broken = 0;

	if (b == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_specimen; i++) {
		size_t batch = site->specimen_batch[i];
		const char *fate = site->specimen[i].fate;
		struct work_breakage *of = &b[site->batch_mix[batch]];

		if (site->batch[batch].practice ||
			strcmp(site->specimen[i].form, "beam") != 0)
			continue;
		of->n_cast++;
		cast++;
		if (is_broken(fate)) {
			of->n_broken++;
			broken++;
		}
	}
	for (size_t m = 0; m < site->n_mix; m++) {
		struct stats_counts got;

		b[m].mix = m;
		b[m].high = 1;
		b[m].p_more_by_chance = 1;
		if (b[m].n_cast == 0 || cast == b[m].n_cast)
			continue;
		TRY(stats_counts_compare(b[m].n_broken, b[m].n_cast,
			broken - b[m].n_broken, cast - b[m].n_cast, &got, err));
		b[m].low = got.low_a;
		b[m].high = got.high_a;
		b[m].p_more_by_chance = got.p_more_in_a;
	}
	all->breakage = b;
	return ERR_NONE;
}

static void
add_after(struct work_after_crack *a, const struct book_bending *b)
{
	double hanger = b->on_rig_included || !b->on_rig_kg.has
		? 0
		: b->on_rig_kg.value;
	double held = b->after_held_kg.value + hanger;
	double crack = hanger + (b->broke_kg.has
		? (b->held_kg + b->broke_kg.value) / 2
		: b->held_kg);
	double ratio = held / crack;

	a->least_kg = a->n == 0 ? held : fmin(a->least_kg, held);
	a->most_kg = fmax(a->most_kg, held);
	a->most_open = a->most_open || !b->after_broke_kg.has;
	a->least_ratio = a->n == 0 ? ratio : fmin(a->least_ratio, ratio);
	a->most_ratio = fmax(a->most_ratio, ratio);
	a->n++;
}

static enum err_code
compare_after_crack(struct arena *arena, struct work_compared *all,
	struct err *err)
{
	const struct work_site *site = &all->site;
	struct work_after_crack *by_mix =
		arena_take(arena, site->n_mix, sizeof *by_mix);
	size_t n = 0;

	if (by_mix == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_reading; i++) {
		const struct book_reading *r = &site->reading[i];
		size_t batch = site->specimen_batch[site->reading_specimen[i]];

		if (strcmp(r->kind, "bending") == 0 &&
			r->bending.after_held_kg.has &&
			!site->batch[batch].practice)
			add_after(&by_mix[site->batch_mix[batch]], &r->bending);
	}
	for (size_t m = 0; m < site->n_mix; m++) {
		if (by_mix[m].n == 0)
			continue;
		by_mix[n] = by_mix[m];
		by_mix[n++].mix = m;
	}
	all->after = by_mix;
	all->n_after = n;
	return ERR_NONE;
}

static enum err_code
compare_all(const struct desk *desk, struct arena *arena,
	struct work_compared *all, struct err *err)
{
	all->comparison = arena_take(arena, N_COMPARED,
		sizeof *all->comparison);
	if (all->comparison == NULL)
		return err_memory(err);
	for (size_t i = 0; i < N_COMPARED; i++) {
		bool is_there = false;

		TRY(compare_measure(desk, arena, all, compared_measures[i],
			&all->comparison[all->n_comparison], &is_there, err));
		all->n_comparison += is_there ? 1 : 0;
	}
	if (all->n_comparison == 0)
		return err_report(err, ERR_INPUT, "readings",
			"There is nothing to compare yet: no test has readings "
			"of two mixes. Import readings of the baseline and of "
			"at least one other mix.");
	return ERR_NONE;
}

enum err_code
work_compare(const struct desk *desk, struct arena *arena,
	struct work_compared *out, struct err *err)
{
	struct work_compared all = {0};

	TRY(work_site_read(desk->book, arena, &all.site, err));
	if (!all.site.has_baseline)
		return err_report(err, ERR_INPUT, "baseline",
			"No baseline is named, so there is nothing to compare "
			"against. Name it in trial.csv and import that.");
	TRY(work_results(arena, &all.site, &all.results, err));
	TRY(compare_breakage(arena, &all, err));
	TRY(compare_after_crack(arena, &all, err));
	TRY(compare_all(desk, arena, &all, err));
	TRY(compare_equal_density(desk, arena, &all, err));
	TRY(compare_words(arena, &all, err));
	*out = all;
	return ERR_NONE;
}

const struct work_comparison *
work_comparison_of(const struct work_compared *compared,
	enum choose_measure measure)
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
	return comparison->measure == CHOOSE_BENDING_STRENGTH ||
			comparison->measure == CHOOSE_BREAKING_LOAD
		? NULL
		: shared;
}

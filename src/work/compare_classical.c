/* compare_classical.c - the textbook tests on the same readings, for whoever
 * has to report them.
 *
 * Logs of the readings; an interval counts as the geometric mean of its ends, a
 * reading without an upper or lower end as the end it has.  The unit is the
 * batch: each enters by the mean of its logs.  Shuffling single pieces is shown
 * beside it because it is so often done, with the caution it needs. */
#include "work/compare_priv.h"

#include "core/rng.h"
#include "stats/all_pairs.h"
#include "stats/many_to_one.h"
#include "stats/permute.h"
#include "stats/ranks.h"

#include <math.h>

enum { STREAM_CLASSICAL = 1010 };
static const uint64_t shuffles = 100000;

struct sorted {
	struct stats_permute_sample sample; /* in the order of the groups */
	struct stats_grouped grouped;
};

static double
log_stand_in(double low, double high)
{
	if (low <= 0)
		return log(high);
	if (isinf(high))
		return log(low);
	return (log(low) + log(high)) / 2;
}

/* The values joined group after group, those without any dropped. */
static enum err_code
sort(struct arena *arena, const struct stats_permute_sample *from,
	struct sorted *out, struct err *err)
{
	size_t *size = arena_take(arena, from->n_group, sizeof *size);
	size_t *at = arena_take(arena, from->n_group + 1, sizeof *at);
	size_t *group = arena_take(arena, from->n, sizeof *group);
	double *value = arena_take(arena, from->n, sizeof *value);

	if (size == NULL || at == NULL || group == NULL || value == NULL)
		return err_memory(err);
	for (size_t i = 0; i < from->n; i++)
		size[from->group[i]]++;
	for (size_t g = 0; g < from->n_group; g++)
		at[g + 1] = at[g] + size[g];
	for (size_t i = 0; i < from->n; i++) {
		size_t to = at[from->group[i]]++;

		value[to] = from->value[i];
		group[to] = from->group[i];
	}
	out->sample = (struct stats_permute_sample){.value = value,
		.group = group,
		.n = from->n,
		.n_group = from->n_group};
	out->grouped = (struct stats_grouped){
		.n_group = from->n_group, .size = size, .value = value};
	return ERR_NONE;
}

static enum err_code
read_pieces(struct arena *arena, const struct compare_rows *rows,
	struct stats_permute_sample *out, size_t *n_open, struct err *err)
{
	double *value = arena_take(arena, rows->n, sizeof *value);
	size_t *group = arena_take(arena, rows->n, sizeof *group);

	if (value == NULL || group == NULL)
		return err_memory(err);
	*n_open = 0;
	for (size_t i = 0; i < rows->n; i++) {
		value[i] = log_stand_in(rows->low[i], rows->high[i]);
		group[i] = rows->batch_group[rows->batch[i]];
		*n_open += rows->low[i] <= 0 || isinf(rows->high[i]);
	}
	*out = (struct stats_permute_sample){.value = value,
		.group = group,
		.n = rows->n,
		.n_group = rows->n_group};
	return ERR_NONE;
}

/* A test that does not exist for these data says why; a failing machine is
 * still a failure. */
static enum err_code
without(struct arena *arena, enum err_code code, const struct err *report,
	const char **why, struct err *err)
{
	if (code == ERR_MEMORY)
		return err_memory(err);
	*why = arena_text(arena, report->text);
	return *why == NULL ? err_memory(err) : ERR_NONE;
}

static enum err_code
test_one_way(struct arena *arena, const struct sorted *units,
	struct work_test *out, struct err *err)
{
	struct err report = err_in(arena);
	struct stats_oneway got;
	enum err_code code = stats_oneway(
		arena, &units->grouped, &got, &report);

	if (code != ERR_NONE)
		return without(arena, code, &report, &out->why, err);
	*out = (struct work_test){.has = true,
		.statistic = got.f.f,
		.df1 = got.f.df1,
		.df2 = got.f.df2,
		.p = got.f.p,
		.why = ""};
	return ERR_NONE;
}

static enum err_code
test_ranks(struct arena *arena, const struct sorted *units,
	struct work_test *out, struct err *err)
{
	struct err report = err_in(arena);
	struct stats_ranks got;
	enum err_code code = stats_ranks(arena, &units->grouped, &got, &report);

	if (code != ERR_NONE)
		return without(arena, code, &report, &out->why, err);
	*out = (struct work_test){.has = true,
		.statistic = got.h,
		.df1 = got.df,
		.p = got.has_exact ? got.p_exact : got.p,
		.why = ""};
	return ERR_NONE;
}

static enum err_code
test_permutation(struct comparing *on, const struct sorted *s, uint64_t stream,
	struct work_test *out, struct err *err)
{
	struct err report = err_in(on->arena);
	struct stats_permute got;
	enum err_code code;
	gsl_rng *rng = rng_new(on->desk->seed, stream);

	if (rng == NULL)
		return err_memory(err);
	if (stats_permute_arrangements(s->grouped.size, s->grouped.n_group) <=
		shuffles)
		code = stats_permute_exact(
			on->arena, &s->sample, &got, &report);
	else
		code = stats_permute_draws(
			on->arena, &s->sample, shuffles, rng, &got, &report);
	gsl_rng_free(rng);
	if (code != ERR_NONE)
		return without(on->arena, code, &report, &out->why, err);
	*out = (struct work_test){.has = true,
		.statistic = isfinite(got.f) ? got.f : 0,
		.p = got.p,
		.p_error = got.p_error,
		.why = ""};
	return ERR_NONE;
}

static struct work_pair_test
pair_test(size_t a, size_t b, double difference, double low, double high,
	double p)
{
	return (struct work_pair_test){.a = a,
		.b = b,
		.ratio = exp(difference),
		.low = exp(low),
		.high = exp(high),
		.p = p};
}

static enum err_code
test_against(struct comparing *on, const struct sorted *units,
	const struct work_comparison *c, struct work_classical *out,
	struct err *err)
{
	struct err report = err_in(on->arena);
	struct stats_against_baseline got;
	struct work_pair_test *against = arena_take(
		on->arena, c->n_group, sizeof *against);
	enum err_code code;

	if (against == NULL)
		return err_memory(err);
	if (c->baseline >= c->n_group)
		return ERR_NONE;
	code = stats_against_baseline(on->arena, &units->grouped, c->baseline,
		STATS_BOTH, work_level, &got, &report);
	if (code != ERR_NONE)
		return without(on->arena, code, &report, &out->why_not, err);
	for (size_t g = 0; g < c->n_group; g++)
		if (g != c->baseline)
			against[out->n_against++] = pair_test(c->baseline, g,
				got.group[g].difference, got.group[g].low,
				got.group[g].high, got.group[g].p);
	out->against = against;
	out->has_against = true;
	return ERR_NONE;
}

static enum err_code
test_pairs(struct comparing *on, const struct sorted *units,
	struct work_classical *out, struct err *err)
{
	struct err report = err_in(on->arena);
	const struct stats_pair *got = NULL;
	struct work_pair_test *pair;
	size_t n = 0;
	enum err_code code = stats_all_pairs(on->arena, &units->grouped,
		STATS_EQUAL_VARIANCE, work_level, &got, &n, &report);

	if (code != ERR_NONE)
		return without(on->arena, code, &report, &out->why_not, err);
	pair = arena_take(on->arena, n, sizeof *pair);
	if (pair == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		pair[i] = pair_test(got[i].a, got[i].b, got[i].difference,
			got[i].low, got[i].high, got[i].p);
	out->pair = pair;
	out->n_pair = n;
	out->has_pairs = true;
	return ERR_NONE;
}

enum err_code
compare_classical(struct comparing *on, const struct compare_measure *m,
	struct work_comparison *c, struct err *err)
{
	const struct compare_rows *rows = &m->rows;
	struct work_classical *out = &c->classical;
	struct stats_permute_sample all = {.n = 0}, means = {.n = 0};
	struct sorted pieces, units;

	out->why_not = "";
	TRY(read_pieces(on->arena, rows, &all, &out->n_open, err));
	TRY(stats_permute_units(on->arena, all.value, rows->batch, rows->n,
		rows->batch_group, rows->n_batch, rows->n_group, &means, err));
	TRY(sort(on->arena, &all, &pieces, err));
	TRY(sort(on->arena, &means, &units, err));
	TRY(test_one_way(on->arena, &units, &out->one_way, err));
	TRY(test_ranks(on->arena, &units, &out->ranks, err));
	TRY(test_permutation(
		on, &units, STREAM_CLASSICAL, &out->permutation_batches, err));
	TRY(test_permutation(on, &pieces, STREAM_CLASSICAL + 1,
		&out->permutation_pieces, err));
	TRY(test_against(on, &units, c, out, err));
	TRY(test_pairs(on, &units, out, err));
	out->has = true;
	return ERR_NONE;
}

/* compare_rows.c - the readings of one measure as the sampler wants them. */
#include "work/compare_priv.h"

#include "core/text.h"

#include <string.h>

bool
compare_bends(enum choose_measure measure)
{
	return measure == CHOOSE_BENDING_STRENGTH ||
		measure == CHOOSE_BREAKING_LOAD;
}

/* The mixes of which some pieces are marked as reinforced: there a piece that
 * is not so marked is a plain companion. */
static enum err_code
marked_mixes(struct arena *arena, const struct work_site *site,
	const bool **out, struct err *err)
{
	bool *marked = arena_take(arena, site->n_mix, sizeof *marked);

	if (marked == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_specimen; i++)
		if (site->specimen[i].reinforced)
			marked[site->batch_mix[site->specimen_batch[i]]] = true;
	*out = marked;
	return ERR_NONE;
}

/* Bending is of the mix with its steel or mesh; everything else, and plain
 * pieces set beside the reinforced ones, of the matrix around it, so that a
 * reinforced mix repeats the plain one. */
static size_t
group_mix(const struct work_site *site, const bool *marked,
	const struct work_result *r)
{
	bool reinforced = r->has_specimen &&
		site->specimen[r->specimen].reinforced;

	if (reinforced || (compare_bends(r->measure) && !marked[r->mix]))
		return r->mix;
	return site->mix_matrix[r->mix];
}

static bool
is_of(const struct work_result *r, enum choose_measure measure)
{
	return r->measure == measure &&
		(r->place[0] == '\0' || strcmp(r->place, "centre") == 0);
}

static enum err_code
take_rows(struct arena *arena, const struct work_site *site, size_t n,
	struct compare_rows *rows, struct err *err)
{
	size_t n_batch = 2 * site->n_batch;

	rows->low = arena_take(arena, n, sizeof *rows->low);
	rows->high = arena_take(arena, n, sizeof *rows->high);
	rows->batch = arena_take(arena, n, sizeof *rows->batch);
	rows->batch_group = arena_take(
		arena, n_batch, sizeof *rows->batch_group);
	rows->batch_site = arena_take(arena, n_batch, sizeof *rows->batch_site);
	rows->group_mix = arena_take(
		arena, site->n_mix, sizeof *rows->group_mix);
	rows->mix_group = arena_take(
		arena, site->n_mix, sizeof *rows->mix_group);
	if (rows->low == NULL || rows->high == NULL || rows->batch == NULL ||
		rows->batch_group == NULL || rows->batch_site == NULL ||
		rows->group_mix == NULL || rows->mix_group == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_mix; i++)
		rows->mix_group[i] = COMPARE_NONE;
	return ERR_NONE;
}

/* Adds one reading; at is where the batch's index stands (COMPARE_NONE: the
 * batch is new). */
static void
add_row(struct compare_rows *rows, const struct work_result *r, size_t mix,
	size_t *at)
{
	if (rows->mix_group[mix] == COMPARE_NONE) {
		rows->mix_group[mix] = rows->n_group;
		rows->group_mix[rows->n_group++] = mix;
	}
	if (*at == COMPARE_NONE) {
		*at = rows->n_batch;
		rows->batch_site[rows->n_batch] = r->batch;
		rows->batch_group[rows->n_batch++] = rows->mix_group[mix];
	}
	rows->low[rows->n] = r->value.low;
	rows->high[rows->n] = r->value.high;
	rows->batch[rows->n++] = *at;
}

static size_t
count_of(const struct work_site *site, const struct work_results *results,
	enum choose_measure measure)
{
	size_t n = 0;

	for (size_t i = 0; i < results->n_result; i++)
		n += is_of(&results->result[i], measure) &&
			!site->batch[results->result[i].batch].practice;
	return n;
}

enum err_code
compare_rows(struct arena *arena, const struct work_site *site,
	const struct work_results *results, enum choose_measure measure,
	bool with_excluded, struct compare_rows *out, struct err *err)
{
	struct compare_rows rows = {.measure = measure};
	const bool *marked = NULL;
	size_t *batch_at = arena_take(
		arena, site->n_batch * 2, sizeof *batch_at);

	if (batch_at == NULL)
		return err_memory(err);
	TRY(take_rows(
		arena, site, count_of(site, results, measure), &rows, err));
	TRY(marked_mixes(arena, site, &marked, err));
	for (size_t i = 0; i < 2 * site->n_batch; i++)
		batch_at[i] = COMPARE_NONE;
	for (size_t i = 0; i < results->n_result; i++) {
		const struct work_result *r = &results->result[i];
		size_t mix, own;

		if (!is_of(r, measure) || site->batch[r->batch].practice ||
			(r->excluded && !with_excluded))
			continue;
		mix = group_mix(site, marked, r);
		/* A reinforced piece of a batch is judged apart from the plain
		 * ones beside it. */
		own = mix == r->mix && site->mix_matrix[mix] != mix ? 1 : 0;
		add_row(&rows, r, mix, &batch_at[2 * r->batch + own]);
	}
	*out = rows;
	return ERR_NONE;
}

/* The first reason of each kind, how often: "tested at 7 days ... (4)". */
static enum err_code
add_reason(struct arena *arena, struct work_group *g, const char *why,
	struct err *err)
{
	size_t k = 0;

	while (k < g->n_reason && strcmp(g->reason[k].why, why) != 0)
		k++;
	if (k == WORK_REASONS) {
		g->reason[k - 1].n++;
		return ERR_NONE;
	}
	if (k == g->n_reason) {
		g->reason[k].why = arena_text(arena, why);
		if (g->reason[k].why == NULL)
			return err_memory(err);
		g->n_reason++;
	}
	g->reason[k].n++;
	return ERR_NONE;
}

/* "W, G": the reinforced mixes that speak for a matrix too. */
static enum err_code
name_sharers(struct arena *arena, const struct work_site *site,
	const size_t *shared_by, struct work_comparison *c, struct err *err)
{
	struct text *with = arena_take(arena, c->n_group, sizeof *with);

	if (with == NULL)
		return err_memory(err);
	for (size_t g = 0; g < c->n_group; g++)
		text_init(&with[g], arena);
	for (size_t m = 0; m < site->n_mix; m++)
		if (shared_by[m] != COMPARE_NONE)
			text_addf(&with[shared_by[m]], "%s%s",
				with[shared_by[m]].n > 0 ? ", " : "",
				site->mix[m].code);
	for (size_t g = 0; g < c->n_group; g++) {
		if (text_failed(&with[g]))
			return err_memory(err);
		c->group[g].with = with[g].n > 0 ? with[g].bytes : "";
	}
	return ERR_NONE;
}

enum err_code
compare_count(struct arena *arena, const struct work_site *site,
	const struct work_results *results, const struct compare_rows *rows,
	struct work_comparison *c, struct err *err)
{
	const bool *marked = NULL;
	size_t *shared_by = arena_take(arena, site->n_mix, sizeof *shared_by);

	if (shared_by == NULL)
		return err_memory(err);
	TRY(marked_mixes(arena, site, &marked, err));
	for (size_t m = 0; m < site->n_mix; m++)
		shared_by[m] = COMPARE_NONE;
	for (size_t b = 0; b < rows->n_batch; b++)
		c->group[rows->batch_group[b]].n_batch++;
	for (size_t i = 0; i < rows->n; i++)
		c->group[rows->batch_group[rows->batch[i]]].n_value++;
	for (size_t i = 0; i < results->n_result; i++) {
		const struct work_result *r = &results->result[i];
		size_t mix, group;

		if (!is_of(r, c->measure) || site->batch[r->batch].practice)
			continue;
		mix = group_mix(site, marked, r);
		group = rows->mix_group[mix];
		if (group == COMPARE_NONE)
			continue;
		if (mix != r->mix)
			shared_by[r->mix] = group;
		if (c->lacks[0] == '\0')
			c->lacks = r->lacks;
		if (!r->excluded)
			continue;
		c->group[group].n_excluded++;
		TRY(add_reason(arena, &c->group[group], r->why, err));
	}
	return name_sharers(arena, site, shared_by, c, err);
}

enum err_code
compare_rows_without(struct arena *arena, const struct compare_rows *rows,
	size_t batch, struct compare_rows *out, struct err *err)
{
	struct compare_rows left = *rows;

	left.low = arena_take(arena, rows->n, sizeof *left.low);
	left.high = arena_take(arena, rows->n, sizeof *left.high);
	left.batch = arena_take(arena, rows->n, sizeof *left.batch);
	left.n = 0;
	if (left.low == NULL || left.high == NULL || left.batch == NULL)
		return err_memory(err);
	for (size_t i = 0; i < rows->n; i++) {
		if (rows->batch[i] == batch)
			continue;
		left.low[left.n] = rows->low[i];
		left.high[left.n] = rows->high[i];
		left.batch[left.n++] = rows->batch[i];
	}
	*out = left;
	return ERR_NONE;
}

enum err_code
compare_rows_by_batch(struct arena *arena, const struct compare_rows *rows,
	struct compare_rows *out, struct err *err)
{
	struct compare_rows apart = *rows;

	apart.batch_group = arena_take(
		arena, rows->n_batch, sizeof *apart.batch_group);
	if (apart.batch_group == NULL)
		return err_memory(err);
	for (size_t b = 0; b < rows->n_batch; b++)
		apart.batch_group[b] = b;
	apart.n_group = rows->n_batch;
	*out = apart;
	return ERR_NONE;
}

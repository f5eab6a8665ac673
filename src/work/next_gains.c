/* next_gains.c - the plans of further batches, and what each gains; nothing of
 * money, and nothing but the draws. */
#include "core/rng.h"
#include "work/next_priv.h"
#include "work/remember.h"

#include <math.h>
#include <string.h>

/* Designs mix the likeliest winners only; more would not fit in fifty. */
enum { CONTENDERS_MOST = 7, BATCHES_MOST = 12 };

struct gained {
	struct stats_preposterior now;
	struct work_next_design *design; /* without days, cost, on_curve */
	size_t n_design;
};

static bool
is_there(const struct gained *g, const size_t *extra)
{
	for (size_t i = 0; i < g->n_design; i++)
		if (memcmp(g->design[i].extra, extra,
			    g->now.ask.n_mix * sizeof *extra) == 0)
			return true;
	return false;
}

static enum err_code
add_design(struct arena *arena, struct gained *g, const size_t *extra,
	struct err *err)
{
	struct work_next_design design = {0};

	if (g->n_design == WORK_NEXT_DESIGNS || is_there(g, extra))
		return ERR_NONE;
	design.extra = arena_copy(
		arena, extra, g->now.ask.n_mix, sizeof *extra);
	if (design.extra == NULL)
		return err_memory(err);
	for (size_t m = 0; m < g->now.ask.n_mix; m++)
		design.n_batch += extra[m];
	TRY(stats_preposterior_gain(&g->now, extra, &design.gain, err));
	design.gain_low = design.gain.gain - design.gain.gain_error;
	design.gain_high = design.gain.gain + design.gain.gain_error;
	g->design[g->n_design++] = design;
	return ERR_NONE;
}

/* How high a mix may turn out: by its mean or by how little is known of it. */
static double
reach(const struct gained *g, size_t mix)
{
	size_t n = g->now.ask.n_mix;

	return g->now.centre[mix] + 2 * sqrt(g->now.covariance[mix * n + mix]);
}

/* The candidates that may turn out highest. */
static size_t
find_contenders(const struct gained *g, size_t *contender)
{
	const size_t n = g->now.ask.n_mix;
	size_t n_most = n < CONTENDERS_MOST ? n : CONTENDERS_MOST;
	bool taken[STATS_PREPOSTERIOR_MIXES_MOST] = {false};

	for (size_t k = 0; k < n_most; k++) {
		size_t best = n;

		for (size_t m = 0; m < n; m++)
			if (!taken[m] &&
				(best == n || reach(g, m) > reach(g, best)))
				best = m;
		taken[best] = true;
		contender[k] = best;
	}
	return n_most;
}

/* One batch of each contender, of each two, of all. */
static enum err_code
try_ones_and_pairs(struct arena *arena, struct gained *g,
	const size_t *contender, size_t n, struct err *err)
{
	size_t all[STATS_PREPOSTERIOR_MIXES_MOST] = {0};

	for (size_t i = 0; i < n; i++)
		for (size_t k = i; k < n; k++) {
			size_t extra[STATS_PREPOSTERIOR_MIXES_MOST] = {0};

			extra[contender[i]] = 1;
			extra[contender[k]] = 1;
			all[contender[i]] = 1;
			TRY(add_design(arena, g, extra, err));
		}
	return add_design(arena, g, all, err);
}

/* From the best of n_batch batches on, one batch more of each contender. */
static enum err_code
try_one_more(struct arena *arena, struct gained *g, const size_t *contender,
	size_t n, size_t n_batch, struct err *err)
{
	size_t extra[STATS_PREPOSTERIOR_MIXES_MOST] = {0};
	const struct work_next_design *best = NULL;

	for (size_t i = 0; i < g->n_design; i++)
		if (g->design[i].n_batch == n_batch &&
			(best == NULL ||
				g->design[i].gain.gain > best->gain.gain))
			best = &g->design[i];
	if (best == NULL)
		return ERR_NONE;
	memcpy(extra, best->extra, g->now.ask.n_mix * sizeof *extra);
	for (size_t k = 0; k < n; k++) {
		extra[contender[k]]++;
		TRY(add_design(arena, g, extra, err));
		extra[contender[k]]--;
	}
	return ERR_NONE;
}

static enum err_code
try_designs(struct arena *arena, struct gained *g, struct err *err)
{
	size_t contender[CONTENDERS_MOST];
	size_t n = find_contenders(g, contender);

	g->design = arena_take(arena, WORK_NEXT_DESIGNS, sizeof *g->design);
	if (g->design == NULL)
		return err_memory(err);
	TRY(try_ones_and_pairs(arena, g, contender, n, err));
	for (size_t b = 1; b < BATCHES_MOST; b++)
		TRY(try_one_more(arena, g, contender, n, b, err));
	return ERR_NONE;
}

/* The draws of the candidates, in columns of their own. */
static enum err_code
start(struct arena *scratch, const struct next_gaining *gaining,
	struct stats_preposterior *now, struct err *err)
{
	const uint64_t stream = 0x6e657874; /* "next": apart from the chains */
	const struct stats_hierarchy *h = &gaining->c->draws;
	struct stats_preposterior_ask about = gaining->about;
	const size_t n = about.n_mix;
	double *draw = arena_take(scratch, h->n_draw * n, sizeof *draw);
	enum err_code code;
	gsl_rng *rng;

	if (draw == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h->n_draw; i++)
		for (size_t m = 0; m < n; m++)
			draw[i * n + m] =
				h->mean[i * h->n_mix + gaining->column[m]];
	about.mean = draw;
	about.sd_batch = h->sd_batch;
	about.sd_specimen = h->sd_specimen;
	rng = rng_new(gaining->seed, stream);
	if (rng == NULL)
		return err_memory(err);
	code = stats_preposterior_start(scratch, &about, rng, now, err);
	gsl_rng_free(rng);
	return code;
}

/* Of what is known now its figures are kept, not the draws. */
static struct stats_preposterior
figures_of(const struct stats_preposterior *now)
{
	return (struct stats_preposterior){.chosen = now->chosen,
		.regret = now->regret,
		.regret_error = now->regret_error,
		.p_wrong = now->p_wrong,
		.batch_variance = now->batch_variance};
}

static enum err_code
make_gains(void *data, struct arena *own, const void **answer, struct err *err)
{
	const size_t most = (size_t)8 << 30;
	struct gained *g = arena_take(own, 1, sizeof *g);
	struct arena *scratch = arena_new(most);
	enum err_code code;

	if (g == NULL || scratch == NULL) {
		arena_free(scratch);
		return err_memory(err);
	}
	code = start(scratch, data, &g->now, err);
	if (code == ERR_NONE)
		code = try_designs(own, g, err);
	g->now = figures_of(&g->now);
	arena_free(scratch);
	*answer = g;
	return code;
}

static struct memo_key
key_of(const struct next_gaining *gaining)
{
	const struct stats_preposterior_ask *about = &gaining->about;
	struct memo_keying k;

	memo_key_start(&k, "gains");
	memo_key_bytes(
		&k, &gaining->c->drawn_from, sizeof gaining->c->drawn_from);
	memo_key_counts(&k, gaining->column, about->n_mix);
	memo_key_count(&k, gaining->seed);
	memo_key_count(&k, about->larger_is_better);
	memo_key_count(&k, about->has_enough);
	memo_key_number(&k, about->enough);
	memo_key_count(&k, about->specimens);
	memo_key_number(&k, about->reading_variance);
	return memo_key_end(&k);
}

enum err_code
next_gains(const struct desk *desk, struct arena *arena,
	struct next_gaining *gaining, struct work_next *next, struct err *err)
{
	const struct memo_key key = key_of(gaining);
	const void *answer = NULL;
	const struct gained *g;

	TRY(work_remember(
		desk, &key, arena, make_gains, gaining, &answer, err));
	g = answer;
	next->now = g->now;
	next->n_design = g->n_design;
	next->design = arena_copy(
		arena, g->design, g->n_design, sizeof *g->design);
	return next->design != NULL ? ERR_NONE : err_memory(err);
}

/* plan_list.c - lifts placed one after the other, each as early as it can be,
 * in many drawn orders; the best is kept. */
#include "build/plan_priv.h"

#include "core/rng.h"

#include <math.h>

enum { TRIES = 10000, TRIES_LEAST = 20, LIFTS_OF_ALL_TRIES = 300 };

struct listing {
	const struct plan_frame *f;
	double *key;   /* n_lift: the higher of those that can be goes first */
	double *tried; /* key of the try */
	size_t *at;    /* places of the try */
	size_t *n_before;            /* lifts that each still waits for */
	size_t *earliest;            /* day */
	int64_t *n_batch, *crew_min; /* n_open: left */
	size_t *n_set;               /* n_day: left */
	bool *placed;
	gsl_rng *rng;
};

size_t
plan_last(const struct plan_frame *f, const size_t *at)
{
	size_t last = 0;

	for (size_t i = 0; i < f->job->n_lift; i++)
		last = at[i] > last ? at[i] : last;
	return last;
}

int64_t
plan_day_sum(const struct plan_frame *f, const size_t *at)
{
	int64_t sum = 0;

	for (size_t i = 0; i < f->job->n_lift; i++)
		sum += (int64_t)f->open[at[i]];
	return sum;
}

static enum err_code
take(struct arena *arena, const struct plan_frame *f, struct listing *l,
	struct err *err)
{
	size_t n = f->job->n_lift;

	*l = (struct listing){.f = f,
		.key = arena_take(arena, n, sizeof *l->key),
		.tried = arena_take(arena, n, sizeof *l->tried),
		.at = arena_take(arena, n, sizeof *l->at),
		.n_before = arena_take(arena, n, sizeof *l->n_before),
		.earliest = arena_take(arena, n, sizeof *l->earliest),
		.n_batch = arena_take(arena, f->n_open, sizeof *l->n_batch),
		.crew_min = arena_take(arena, f->n_open, sizeof *l->crew_min),
		.n_set = arena_take(arena, f->job->n_day, sizeof *l->n_set),
		.placed = arena_take(arena, n, sizeof *l->placed)};
	if (l->key == NULL || l->tried == NULL || l->at == NULL ||
		l->n_before == NULL || l->earliest == NULL ||
		l->n_batch == NULL || l->crew_min == NULL || l->n_set == NULL ||
		l->placed == NULL)
		return err_memory(err);
	return ERR_NONE;
}

static void
empty_calendar(struct listing *l)
{
	const struct plan_frame *f = l->f;
	const struct build_job *job = f->job;

	for (size_t k = 0; k < f->n_open; k++) {
		l->n_batch[k] = job->day[f->open[k]].n_batch;
		l->crew_min[k] = job->day[f->open[k]].crew_min;
	}
	for (size_t d = 0; d < job->n_day; d++)
		l->n_set[d] = job->day[d].n_set;
	for (size_t i = 0; i < job->n_lift; i++) {
		l->n_before[i] = 0;
		l->earliest[i] = job->lift[i].earliest;
		l->placed[i] = false;
	}
	for (size_t w = 0; w < job->n_wait; w++)
		l->n_before[job->wait[w].after]++;
}

static bool
fits(const struct listing *l, size_t i, size_t k)
{
	const struct build_lift *lift = &l->f->job->lift[i];
	size_t strip = lift->n_set == 0 ? 0 : l->f->strip[i][k];

	if (lift->n_batch > l->n_batch[k] || lift->crew_min > l->crew_min[k])
		return false;
	for (size_t d = l->f->open[k]; d < strip; d++)
		if (lift->n_set > l->n_set[d])
			return false;
	return true;
}

static void
place(struct listing *l, size_t i, size_t k)
{
	const struct build_job *job = l->f->job;
	const struct build_lift *lift = &job->lift[i];

	l->at[i] = k;
	l->placed[i] = true;
	l->n_batch[k] -= lift->n_batch;
	l->crew_min[k] -= lift->crew_min;
	for (size_t d = l->f->open[k]; lift->n_set > 0 && d < l->f->strip[i][k];
		d++)
		l->n_set[d] -= lift->n_set;
	for (size_t w = 0; w < job->n_wait; w++) {
		const struct build_wait *wait = &job->wait[w];
		size_t then = l->f->open[k] + wait->n_day;

		if (wait->before != i)
			continue;
		l->n_before[wait->after]--;
		if (l->earliest[wait->after] < then)
			l->earliest[wait->after] = then;
	}
}

/* The lift of the highest key of those that wait for nothing more. */
static size_t
next_lift(const struct listing *l)
{
	size_t best = SIZE_MAX;

	for (size_t i = 0; i < l->f->job->n_lift; i++)
		if (!l->placed[i] && l->n_before[i] == 0 &&
			(best == SIZE_MAX || l->tried[i] > l->tried[best]))
			best = i;
	return best;
}

static bool
schedule(struct listing *l)
{
	const struct plan_frame *f = l->f;

	empty_calendar(l);
	for (size_t n = 0; n < f->job->n_lift; n++) {
		size_t i = next_lift(l);
		size_t k = l->earliest[i] < f->job->n_day
			? f->place[l->earliest[i]]
			: f->n_open;

		while (k < f->n_open && !fits(l, i, k))
			k++;
		if (k == f->n_open)
			return false;
		place(l, i, k);
	}
	return true;
}

/* Days that must follow a lift: the longest chain of waits behind it. */
static void
first_keys(struct listing *l)
{
	const struct build_job *job = l->f->job;

	for (size_t n = job->n_lift; n-- > 0;) {
		size_t i = l->f->order[n];

		l->key[i] = 0;
		for (size_t w = 0; w < job->n_wait; w++)
			if (job->wait[w].before == i)
				l->key[i] = fmax(l->key[i],
					l->key[job->wait[w].after] +
						(double)job->wait[w].n_day);
	}
}

/* The best keys so far, some or all of them shaken. */
static void
draw_keys(struct listing *l, size_t try)
{
	double spread = 1 + 6 * gsl_rng_uniform(l->rng);
	double share = try % 3 == 0 ? 1 : 0.2;

	for (size_t i = 0; i < l->f->job->n_lift; i++) {
		l->tried[i] = l->key[i];
		if (try > 0 && gsl_rng_uniform(l->rng) < share)
			l->tried[i] += spread * (gsl_rng_uniform(l->rng) - 0.5);
	}
}

static size_t
count_tries(size_t n_lift)
{
	double few = (double)LIFTS_OF_ALL_TRIES / (double)n_lift;

	if (few >= 1)
		return TRIES;
	return (size_t)fmax(TRIES_LEAST, TRIES * few * few);
}

static bool
is_time_up(const struct build_watch *watch, size_t try,
	const struct build_progress *progress)
{
	enum { EVERY = 64 };

	return watch != NULL && try % EVERY == EVERY - 1 &&
		watch->seconds_left(watch->data, progress) <= 0;
}

static void
try_many(struct listing *l, size_t last_bound, const struct build_watch *watch,
	size_t *best, bool *found)
{
	const struct plan_frame *f = l->f;
	size_t n = f->job->n_lift, n_try = count_tries(n), best_last = 0;
	int64_t best_sum = 0, least_sum = plan_day_sum(f, f->head);
	struct build_progress progress = {.doing = "list",
		.last_day_bound = last_bound < f->n_open ? f->open[last_bound]
							 : f->job->n_day};

	for (size_t try = 0; try < n_try; try++) {
		size_t last;
		int64_t sum;

		draw_keys(l, try);
		if (!schedule(l))
			continue;
		last = plan_last(f, l->at);
		sum = plan_day_sum(f, l->at);
		if (!*found || last < best_last ||
			(last == best_last && sum <= best_sum)) {
			*found = true;
			best_last = last;
			best_sum = sum;
			progress.last_day = f->open[last];
			for (size_t i = 0; i < n; i++) {
				best[i] = l->at[i];
				l->key[i] = l->tried[i];
			}
		}
		if (best_last <= last_bound && best_sum == least_sum)
			return;
		if (is_time_up(watch, try, &progress))
			return;
	}
}

enum err_code
plan_list(struct arena *arena, const struct plan_frame *frame, uint64_t seed,
	size_t last_bound, const struct build_watch *watch, size_t *at,
	bool *found, struct err *err)
{
	struct arena_mark mark = arena_mark(arena);
	struct listing l;

	TRY(take(arena, frame, &l, err));
	l.rng = rng_new(seed, 0);
	if (l.rng == NULL)
		return err_memory(err);
	*found = false;
	first_keys(&l);
	try_many(&l, last_bound, watch, at, found);
	gsl_rng_free(l.rng);
	arena_back(arena, mark);
	return ERR_NONE;
}

/* plan_states.c - what can have been poured by each day, day after day.
 *
 * Dynamic programming over the places: a state says how many lifts of each
 * chain are poured, what the waits still hold back and when each set of forms
 * is free.  Of two states with the same lifts poured, one that is nowhere later
 * and has no greater sum makes the other needless.  A state whose least sum,
 * by waits, forms and work together, cannot come below the best is dropped. */
#include "build/plan_priv.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum {
	CHAINS_MOST = 24,
	SETS_MOST = 24,
	WIDTH_MOST = 2 * CHAINS_MOST + SETS_MOST,
	BLOCK = 1 << 13,
	BLOCKS_MOST = 128,
	BUCKETS = 1 << 16,
	ORDERS_MOST = 2 * PLAN_SHARES_MOST
};

static const uint32_t NO_STATE = UINT32_MAX;

struct node {
	int64_t sum;           /* days of the lifts poured; NEEDLESS */
	uint32_t parent, next; /* next in the bucket */
};

static const int64_t NEEDLESS = INT64_MAX;

/* Lifts from the smallest share of a day to the greatest. */
struct order_by_share {
	double *share; /* by lift */
	size_t *lift;
};

struct walk {
	struct arena *arena;
	const struct plan_frame *f;
	const struct plan_goal *goal;
	const size_t *late;
	size_t n_chain, first[CHAINS_MOST + 1]; /* in member */
	size_t *member;                         /* lifts, chain by chain */
	size_t *chain, *nth;                    /* of a lift */
	size_t *in_first, *in;                  /* waits that end at a lift */
	size_t *out_days; /* longest wait that starts at a lift */
	size_t n_set, width;
	bool sets_shrink;
	size_t *soonest;  /* n_open: strip day of what strips soonest */
	size_t *set_rank; /* sets of the lifts, fewest first, summed up */
	size_t n_order;
	struct order_by_share order[ORDERS_MOST];
	uint16_t *cell[BLOCKS_MOST];
	struct node *node[BLOCKS_MOST];
	uint32_t n_state, n_state_most, best;
	uint32_t *bucket;
	size_t *by_wait, *by_forms; /* n_open: scratch of the bound */
	size_t *nth_place;          /* n_lift: scratch of the bound */
	int64_t sum_below;
	bool full; /* more states than there is room for */
};

/* ---- chains ---- */

/* Lifts that wait one for the other and for nothing else are one chain; so a
 * wait from chain to chain starts at the last lift of a chain. */
static size_t
next_in_chain(const struct build_job *job, size_t i)
{
	size_t n_out = 0, n_in = 0, next = SIZE_MAX;

	for (size_t w = 0; w < job->n_wait; w++)
		if (job->wait[w].before == i) {
			n_out++;
			next = job->wait[w].after;
		}
	for (size_t w = 0; w < job->n_wait && n_out == 1; w++)
		n_in += job->wait[w].after == next;
	return n_out == 1 && n_in == 1 ? next : SIZE_MAX;
}

/* false: too many chains, or two lifts of a chain may share a day. */
static bool
find_chains(struct walk *g)
{
	const struct build_job *job = g->f->job;
	size_t n = 0;

	for (size_t w = 0; w < job->n_wait; w++)
		if (job->wait[w].n_day == 0)
			return false;
	for (size_t i = 0; i < job->n_lift; i++)
		g->chain[i] = SIZE_MAX;
	for (size_t o = 0; o < job->n_lift; o++) {
		size_t i = g->f->order[o];

		if (g->chain[i] != SIZE_MAX)
			continue;
		if (g->n_chain == CHAINS_MOST)
			return false;
		g->first[g->n_chain] = n;
		for (; i != SIZE_MAX; i = next_in_chain(job, i)) {
			g->chain[i] = g->n_chain;
			g->nth[i] = n - g->first[g->n_chain];
			g->member[n++] = i;
		}
		g->n_chain++;
	}
	g->first[g->n_chain] = n;
	return true;
}

static void
sort_waits(struct walk *g)
{
	const struct build_job *job = g->f->job;
	size_t n = 0;

	for (size_t i = 0; i < job->n_lift; i++) {
		g->in_first[i] = n;
		for (size_t w = 0; w < job->n_wait; w++) {
			if (job->wait[w].after == i)
				g->in[n++] = w;
			if (job->wait[w].before == i &&
				job->wait[w].n_day > g->out_days[i])
				g->out_days[i] = job->wait[w].n_day;
		}
	}
	g->in_first[job->n_lift] = n;
}

/* ---- what the bounds need ---- */

static void
add_order(struct walk *g, const struct plan_share_rule *rule, bool crew,
	int64_t whole)
{
	const struct build_job *job = g->f->job;
	struct order_by_share *o = &g->order[g->n_order++];

	for (size_t i = 0; i < job->n_lift; i++) {
		const struct build_lift *l = &job->lift[i];
		size_t at = i;

		o->share[i] = plan_share(
			rule, crew ? l->crew_min : l->n_batch, whole);
		for (; at > 0 && o->share[o->lift[at - 1]] > o->share[i]; at--)
			o->lift[at] = o->lift[at - 1];
		o->lift[at] = i;
	}
}

static void
add_orders(struct walk *g, bool crew)
{
	struct plan_share_rule rule[PLAN_SHARES_MOST];
	const struct build_job *job = g->f->job;
	int64_t whole = 0;
	size_t n;

	for (size_t k = 0; k <= g->goal->last; k++) {
		const struct build_day *d = &job->day[g->f->open[k]];
		int64_t amount = crew ? d->crew_min : d->n_batch;

		whole = amount > whole ? amount : whole;
	}
	if (whole <= 0)
		return;
	n = plan_share_rules(job, crew, whole, rule);
	for (size_t r = 0; r < n; r++)
		add_order(g, &rule[r], crew, whole);
}

/* Is each lift's share in order a at most that in order b? */
static bool
is_covered(const struct walk *g, size_t a, size_t b)
{
	for (size_t i = 0; i < g->f->job->n_lift; i++)
		if (g->order[a].share[i] > g->order[b].share[i])
			return false;
	return true;
}

/* An order that another covers says nothing more. */
static void
drop_covered_orders(struct walk *g)
{
	for (size_t o = g->n_order; o-- > 0;) {
		bool covered = false;

		for (size_t b = 0; b < g->n_order && !covered; b++)
			covered = b != o && is_covered(g, o, b);
		if (covered)
			g->order[o] = g->order[--g->n_order];
	}
}

static void
find_sets(struct walk *g)
{
	const struct plan_frame *f = g->f;
	const struct build_job *job = f->job;

	for (size_t d = 0; d < job->n_day; d++) {
		if (job->day[d].n_set > g->n_set)
			g->n_set = job->day[d].n_set;
		if (d > 0 && job->day[d].n_set < job->day[d - 1].n_set)
			g->sets_shrink = true;
	}
	for (size_t k = 0; k < f->n_open; k++) {
		g->soonest[k] = job->n_day;
		for (size_t i = 0; i < job->n_lift; i++)
			if (job->lift[i].n_set > 0 &&
				f->strip[i][k] < g->soonest[k])
				g->soonest[k] = f->strip[i][k];
	}
	for (size_t i = 0; i < job->n_lift; i++) {
		size_t at = i;

		for (; at > 0 &&
			job->lift[g->set_rank[at - 1]].n_set >
				job->lift[i].n_set;
			at--)
			g->set_rank[at] = g->set_rank[at - 1];
		g->set_rank[at] = i;
	}
}

/* ---- states ---- */

static uint16_t *
cells(const struct walk *g, uint32_t s)
{
	return g->cell[s / BLOCK] + (size_t)(s % BLOCK) * g->width;
}

static struct node *
node(const struct walk *g, uint32_t s)
{
	return &g->node[s / BLOCK][s % BLOCK];
}

/* Cells: poured of each chain; day + 1 of its last where a wait still counts
 * it; the day each set is free, 0 now, in order. */
static uint16_t *
last_of(const struct walk *g, uint16_t *cell)
{
	return cell + g->n_chain;
}

static uint16_t *
sets_of(const struct walk *g, uint16_t *cell)
{
	return cell + 2 * g->n_chain;
}

/* The first day by the waits on which lift i can follow what is poured. */
static size_t
ready_day(const struct walk *g, uint16_t *cell, size_t i)
{
	size_t ready = 0;

	for (size_t n = g->in_first[i]; n < g->in_first[i + 1]; n++) {
		const struct build_wait *w = &g->f->job->wait[g->in[n]];
		size_t c = g->chain[w->before];
		size_t last = last_of(g, cell)[c];

		if (cell[c] <= g->nth[w->before])
			return SIZE_MAX;
		if (last > 0 && last - 1 + w->n_day > ready)
			ready = last - 1 + w->n_day;
	}
	return ready;
}

/* ---- the least sum from here ---- */

/* Each lift that is left as early as its chain can be: counted by place; false
 * where that is too late. */
static bool
count_by_wait(struct walk *g, uint16_t *cell, size_t k)
{
	const struct plan_frame *f = g->f;

	for (size_t p = k; p <= g->goal->last; p++)
		g->by_wait[p] = 0;
	for (size_t c = 0; c < g->n_chain; c++) {
		size_t from = k, last = last_of(g, cell)[c];

		for (size_t m = g->first[c] + cell[c]; m < g->first[c + 1];
			m++) {
			size_t i = g->member[m], day = 0;

			if (m > g->first[c] && last > 0)
				day = last - 1 + g->out_days[g->member[m - 1]];
			if (day >= f->job->n_day)
				return false;
			if (f->place[day] > from)
				from = f->place[day];
			if (f->head[i] > from)
				from = f->head[i];
			if (from > g->late[i])
				return false;
			g->by_wait[from]++;
			last = f->open[from] + 1;
		}
	}
	return true;
}

/* Each set filled again the day it is free, counted by place. */
static void
count_by_forms(struct walk *g, uint16_t *cell, size_t k)
{
	const struct plan_frame *f = g->f;

	for (size_t p = k; p <= g->goal->last; p++)
		g->by_forms[p] = 0;
	for (size_t s = 0; s < g->n_set; s++) {
		size_t free_day = sets_of(g, cell)[s];

		while (free_day < f->job->n_day) {
			size_t p = f->place[free_day];

			p = p < k ? k : p;
			if (p > g->goal->last)
				break;
			g->by_forms[p]++;
			free_day = g->soonest[p];
		}
	}
}

static bool
is_poured(const struct walk *g, const uint16_t *cell, size_t lift)
{
	return g->nth[lift] < cell[g->chain[lift]];
}

/* nth_place: the nth lift from now comes no earlier, by the work of a day. */
static void
set_by_work(struct walk *g, const uint16_t *cell, size_t k, size_t n)
{
	const double hair = 1e-9;

	for (size_t j = 0; j < n; j++)
		g->nth_place[j] = k;
	for (size_t o = 0; o < g->n_order; o++) {
		const struct order_by_share *order = &g->order[o];
		double share = 0;
		size_t j = 0;

		for (size_t m = 0; m < g->f->job->n_lift; m++) {
			size_t i = order->lift[m], place;

			if (is_poured(g, cell, i))
				continue;
			share += order->share[i];
			place = share > 1 + hair
				? k + (size_t)ceil(share - hair) - 1
				: k;
			if (place > g->nth_place[j])
				g->nth_place[j] = place;
			j++;
		}
	}
}

/* The least sum of days of what is left; NEEDLESS: no plan ends in time. */
static int64_t
least_sum(struct walk *g, uint16_t *cell, size_t k)
{
	const struct build_job *job = g->f->job;
	size_t n = 0, j = 0, waits, forms, p_waits = k, p_forms = k, sets = 0;
	int64_t sum = 0;

	for (size_t c = 0; c < g->n_chain; c++)
		n += g->first[c + 1] - g->first[c] - cell[c];
	if (n == 0)
		return 0;
	if (k > g->goal->last || !count_by_wait(g, cell, k))
		return NEEDLESS;
	count_by_forms(g, cell, k);
	set_by_work(g, cell, k, n);
	waits = g->by_wait[k];
	forms = g->by_forms[k];
	for (size_t m = 0; m < job->n_lift; m++) {
		size_t i = g->set_rank[m], p = g->nth_place[j];

		if (is_poured(g, cell, i))
			continue;
		sets += job->lift[i].n_set;
		while (waits <= j && p_waits < g->goal->last)
			waits += g->by_wait[++p_waits];
		while (forms < sets && p_forms < g->goal->last)
			forms += g->by_forms[++p_forms];
		if (forms < sets)
			return NEEDLESS;
		p = p > p_waits ? p : p_waits;
		p = p > p_forms ? p : p_forms;
		if (p > g->goal->last)
			return NEEDLESS;
		sum += (int64_t)g->f->open[p];
		j++;
	}
	return sum;
}

/* ---- one state more ---- */

static uint32_t
hash_of(const struct walk *g, const uint16_t *cell)
{
	const uint32_t prime = 16777619, start = 2166136261;
	uint32_t h = start; /* Fowler, Noll and Vo */

	for (size_t c = 0; c < g->n_chain; c++)
		h = (h ^ cell[c]) * prime;
	return (h ^ h >> 16) % BUCKETS;
}

/* Is a nowhere later than b?  Both have the same lifts poured. */
static bool
is_as_good(const struct walk *g, const uint16_t *a, const uint16_t *b)
{
	for (size_t i = g->n_chain; i < g->width; i++)
		if (a[i] > b[i])
			return false;
	return true;
}

static bool
make_room(struct walk *g)
{
	size_t b = g->n_state / BLOCK;

	if (g->n_state >= g->n_state_most)
		return false;
	if (g->n_state % BLOCK != 0)
		return true;
	g->cell[b] = arena_take(
		g->arena, (size_t)BLOCK * g->width, sizeof *g->cell[b]);
	g->node[b] = arena_take(g->arena, BLOCK, sizeof *g->node[b]);
	return g->cell[b] != NULL && g->node[b] != NULL;
}

/* Does a state that is kept make this one needless?  Those that this one makes
 * needless are marked where it may be kept itself. */
static bool
is_needless(struct walk *g, uint32_t h, const uint16_t *cell, int64_t sum,
	bool mark)
{
	for (uint32_t s = g->bucket[h]; s != NO_STATE; s = node(g, s)->next) {
		const uint16_t *other = cells(g, s);

		if (node(g, s)->sum == NEEDLESS ||
			memcmp(other, cell, g->n_chain * sizeof *cell) != 0)
			continue;
		if (!mark && node(g, s)->sum <= sum &&
			is_as_good(g, other, cell))
			return true;
		if (mark && node(g, s)->sum >= sum &&
			is_as_good(g, cell, other))
			node(g, s)->sum = NEEDLESS;
	}
	return false;
}

static void
keep(struct walk *g, const uint16_t *cell, int64_t sum, uint32_t parent)
{
	uint32_t h = hash_of(g, cell);

	(void)is_needless(g, h, cell, sum, true);
	if (!make_room(g)) {
		g->full = true;
		return;
	}
	memcpy(cells(g, g->n_state), cell, g->width * sizeof *cell);
	*node(g, g->n_state) = (struct node){sum, parent, g->bucket[h]};
	g->bucket[h] = g->n_state++;
}

static int
compare_days(const void *a, const void *b)
{
	return (int)*(const uint16_t *)a - (int)*(const uint16_t *)b;
}

/* Do the forms that stand fit what is on hand on each of the days? */
static bool
sets_suffice(const struct walk *g, uint16_t *cell, size_t from, size_t to)
{
	for (size_t d = from; d < to; d++) {
		size_t n = 0;

		for (size_t s = 0; s < g->n_set; s++)
			n += sets_of(g, cell)[s] > d;
		if (n > g->f->job->day[d].n_set)
			return false;
	}
	return true;
}

/* What no longer matters on `day` is made alike. */
static void
forget(const struct walk *g, uint16_t *cell, size_t day)
{
	uint16_t *last = last_of(g, cell), *set = sets_of(g, cell);

	for (size_t c = 0; c < g->n_chain; c++) {
		size_t i;

		if (cell[c] == 0 || last[c] == 0)
			continue;
		i = g->member[g->first[c] + cell[c] - 1];
		if (g->out_days[i] == 0 || last[c] - 1 + g->out_days[i] <= day)
			last[c] = 0;
	}
	for (size_t s = 0; s < g->n_set; s++)
		if (set[s] <= day)
			set[s] = 0;
	qsort(set, g->n_set, sizeof *set, compare_days);
}

/* A day is over: on to the next place with what was poured. */
static void
end_day(struct walk *g, const uint16_t *cell, size_t k, int64_t sum,
	uint32_t parent)
{
	const struct plan_frame *f = g->f;
	uint16_t after[WIDTH_MOST];
	bool ends = true;
	size_t next = k + 1 < f->n_open ? f->open[k + 1] : f->job->n_day;
	int64_t least;

	memcpy(after, cell, g->width * sizeof *after);
	for (size_t c = 0; c < g->n_chain; c++)
		ends = ends && g->first[c] + cell[c] == g->first[c + 1];
	if (g->sets_shrink &&
		!sets_suffice(
			g, after, f->open[k], ends ? f->job->n_day : next))
		return;
	if (ends && sum < g->sum_below) {
		forget(g, after, f->job->n_day);
		keep(g, after, sum, parent);
		if (g->full)
			return;
		g->sum_below = sum;
		g->best = g->n_state - 1;
	}
	if (ends)
		return;
	forget(g, after, next);
	if (is_needless(g, hash_of(g, after), after, sum, false))
		return;
	least = least_sum(g, after, k + 1);
	if (least != NEEDLESS && sum + least < g->sum_below)
		keep(g, after, sum, parent);
}

/* ---- a day ---- */

struct pouring {
	size_t k;
	int64_t n_batch, crew_min; /* left of the day */
	size_t n_set;
	uint32_t parent;
	bool may[CHAINS_MOST]; /* the next of the chain is ready */
};

/* Every choice among chain c and those after it. */
static void
pour_from(struct walk *g, const struct pouring *p, size_t c,
	const uint16_t *cell, int64_t sum)
{
	const struct plan_frame *f = g->f;
	struct pouring with = *p;
	uint16_t after[WIDTH_MOST];
	const struct build_lift *l;
	size_t i, left;

	while (c < g->n_chain && !p->may[c])
		c++;
	if (c == g->n_chain) {
		end_day(g, cell, p->k, sum, p->parent);
		return;
	}
	i = g->member[g->first[c] + cell[c]];
	l = &f->job->lift[i];
	if (l->n_batch <= p->n_batch && l->crew_min <= p->crew_min &&
		l->n_set <= p->n_set && !g->full) {
		memcpy(after, cell, g->width * sizeof *after);
		after[c]++;
		last_of(g, after)[c] = (uint16_t)(f->open[p->k] + 1);
		left = l->n_set;
		for (size_t s = 0; s < g->n_set && left > 0; s++)
			if (sets_of(g, after)[s] == 0) {
				sets_of(g,
					after)[s] = (uint16_t)f->strip[i][p->k];
				left--;
			}
		with.n_batch -= l->n_batch;
		with.crew_min -= l->crew_min;
		with.n_set -= l->n_set;
		pour_from(g, &with, c + 1, after, sum + (int64_t)f->open[p->k]);
	}
	if (g->late[i] > p->k && !g->full)
		pour_from(g, p, c + 1, cell, sum);
}

static void
expand(struct walk *g, uint32_t s, size_t k)
{
	const struct plan_frame *f = g->f;
	const struct build_day *day = &f->job->day[f->open[k]];
	struct pouring p = {.k = k,
		.n_batch = day->n_batch,
		.crew_min = day->crew_min,
		.parent = s};
	uint16_t cell[WIDTH_MOST];
	size_t stand = 0;

	memcpy(cell, cells(g, s), g->width * sizeof *cell);
	for (size_t m = 0; m < g->n_set; m++)
		stand += sets_of(g, cell)[m] > 0;
	p.n_set = day->n_set > stand ? day->n_set - stand : 0;
	for (size_t c = 0; c < g->n_chain; c++) {
		size_t m = g->first[c] + cell[c];

		p.may[c] = m < g->first[c + 1] && f->head[g->member[m]] <= k &&
			ready_day(g, cell, g->member[m]) <= f->open[k];
	}
	pour_from(g, &p, 0, cell, node(g, s)->sum);
}

static void
clear_buckets(struct walk *g)
{
	for (size_t b = 0; b < BUCKETS; b++)
		g->bucket[b] = NO_STATE;
}

static bool
is_time_up(const struct walk *g, uint32_t s)
{
	enum { EVERY = 256 };
	const struct build_watch *w = g->goal->watch;

	return s % EVERY == 0 && w != NULL &&
		w->seconds_left(w->data, &g->goal->progress) <= 0;
}

/* false: stopped. */
static bool
walk_days(struct walk *g)
{
	uint16_t start[WIDTH_MOST] = {0};
	uint32_t from = 0;

	if (least_sum(g, start, 0) == NEEDLESS)
		return true;
	clear_buckets(g);
	keep(g, start, 0, NO_STATE);
	for (size_t k = 0; k <= g->goal->last; k++) {
		uint32_t to = g->n_state;

		clear_buckets(g);
		for (uint32_t s = from; s < to; s++) {
			if (g->full || is_time_up(g, s))
				return false;
			if (node(g, s)->sum != NEEDLESS && s != g->best)
				expand(g, s, k);
		}
		from = to;
	}
	return !g->full;
}

/* ---- the whole ---- */

static enum err_code
take(struct walk *g, struct err *err)
{
	const struct build_job *job = g->f->job;
	struct arena *a = g->arena;
	size_t n = job->n_lift;
	bool taken = true;

	g->member = arena_take(a, n, sizeof *g->member);
	g->chain = arena_take(a, n, sizeof *g->chain);
	g->nth = arena_take(a, n, sizeof *g->nth);
	g->in_first = arena_take(a, n + 1, sizeof *g->in_first);
	g->in = arena_take(a, job->n_wait, sizeof *g->in);
	g->out_days = arena_take(a, n, sizeof *g->out_days);
	g->set_rank = arena_take(a, n, sizeof *g->set_rank);
	g->nth_place = arena_take(a, n, sizeof *g->nth_place);
	g->soonest = arena_take(a, g->f->n_open, sizeof *g->soonest);
	g->by_wait = arena_take(a, g->f->n_open, sizeof *g->by_wait);
	g->by_forms = arena_take(a, g->f->n_open, sizeof *g->by_forms);
	g->bucket = arena_take(a, BUCKETS, sizeof *g->bucket);
	for (size_t o = 0; o < ORDERS_MOST; o++) {
		g->order[o].share = arena_take(a, n, sizeof(double));
		g->order[o].lift = arena_take(a, n, sizeof(size_t));
		taken = taken && g->order[o].share != NULL &&
			g->order[o].lift != NULL;
	}
	taken = taken && g->member != NULL && g->chain != NULL &&
		g->nth != NULL && g->in_first != NULL && g->in != NULL &&
		g->out_days != NULL && g->set_rank != NULL &&
		g->nth_place != NULL && g->soonest != NULL &&
		g->by_wait != NULL && g->by_forms != NULL && g->bucket != NULL;
	return taken ? ERR_NONE : err_memory(err);
}

/* Back from the last day to the first: what each day poured. */
static void
read_plan(const struct walk *g, size_t *at)
{
	size_t n_back = 0, back[BUILD_DAYS_MOST + 1];

	for (uint32_t s = g->best; s != NO_STATE; s = node(g, s)->parent)
		back[n_back++] = s;
	for (size_t k = 0; k + 1 < n_back; k++) {
		uint32_t before = (uint32_t)back[n_back - 1 - k];
		uint32_t after = (uint32_t)back[n_back - 2 - k];

		for (size_t c = 0; c < g->n_chain; c++)
			if (cells(g, after)[c] > cells(g, before)[c])
				at[g->member[g->first[c] +
					cells(g, before)[c]]] = k;
	}
}

/* A state of many lifts takes longer, and there are hopelessly many of them. */
static uint32_t
count_states_most(size_t n_lift)
{
	const double lifts_of_all = 48, all = (double)BLOCK * BLOCKS_MOST;
	double few = fmin(1, lifts_of_all / (double)n_lift);

	return (uint32_t)(all * few * few);
}

static void
run(struct walk *g, size_t *at, struct plan_found *out)
{
	bool through;

	g->n_state_most = count_states_most(g->f->job->n_lift);
	sort_waits(g);
	find_sets(g);
	g->width = 2 * g->n_chain + g->n_set;
	if (g->n_set > SETS_MOST)
		return;
	add_orders(g, false);
	add_orders(g, true);
	drop_covered_orders(g);
	through = walk_days(g);
	out->n_node = g->n_state;
	if (g->best != NO_STATE) {
		read_plan(g, at);
		out->has_plan = true;
	}
	if (through)
		out->answer = out->has_plan ? PLAN_FOUND : PLAN_NONE;
}

enum err_code
plan_states(struct arena *arena, const struct plan_frame *frame,
	const struct plan_goal *goal, size_t *at, struct plan_found *out,
	struct err *err)
{
	struct arena_mark mark = arena_mark(arena);
	size_t *late = arena_take(arena, frame->job->n_lift, sizeof *late);
	struct walk g = {.arena = arena,
		.f = frame,
		.goal = goal,
		.late = late,
		.best = NO_STATE,
		.sum_below = goal->sum_below};

	*out = (struct plan_found){.answer = PLAN_NONE};
	if (late == NULL)
		return err_memory(err);
	if (plan_latest(frame, goal->last, late)) {
		out->answer = PLAN_UNKNOWN;
		TRY(take(&g, err));
		if (find_chains(&g))
			run(&g, at, out);
	}
	arena_back(arena, mark);
	return ERR_NONE;
}

/* run_rules.c - how long a chart with runs rules goes before it signals.
 *
 * A state is the zones of the last four points and how many points in a row lie
 * on the side of the last.  Zones 0 to 5 run from 3 to 2 spreads below the
 * centre up to 2 to 3 above; NOTHING stands for points before the first.  The
 * mass that has not signalled is moved on point by point; once it shrinks by
 * the same ratio each time the rest of the sum is a geometric series. */
#include "stats/run_rules.h"

#include "stats/normal.h"

#include <math.h>
#include <stddef.h>

enum {
	ZONES = 6,
	NOTHING = ZONES,
	SYMBOLS = ZONES + 1,
	MEMORY = 4,
	HISTORIES = SYMBOLS * SYMBOLS * SYMBOLS * SYMBOLS,
	RUN = 8, /* in a row on one side signal */
	STATES = HISTORIES * RUN,
	STEPS_MOST = 2000000
};

static bool
is_above(size_t zone)
{
	return zone >= ZONES / 2;
}

/* Spreads from the centre that the whole zone lies beyond: 0, 1, 2. */
static size_t
level(size_t zone)
{
	return is_above(zone) ? zone - ZONES / 2 : ZONES / 2 - 1 - zone;
}

/* Of the newest zone and the last `n` of the history, how many lie beyond
 * `least` spreads on the newest's side. */
static size_t
count_beyond(size_t history, size_t zone, size_t n, size_t least)
{
	size_t count = level(zone) >= least;

	for (size_t i = 0; i < n; i++, history /= SYMBOLS) {
		size_t old = history % SYMBOLS;

		count += old != NOTHING && is_above(old) == is_above(zone) &&
			level(old) >= least;
	}
	return count;
}

static bool
signals(const struct stats_run_rules *rules, size_t history, size_t zone,
	size_t run)
{
	return (rules->two_of_three_beyond_two && level(zone) >= 2 &&
		       count_beyond(history, zone, 2, 2) >= 2) ||
		(rules->four_of_five_beyond_one && level(zone) >= 1 &&
			count_beyond(history, zone, 4, 1) >= 4) ||
		(rules->eight_on_one_side && run >= RUN);
}

/* Where `state` goes with a point in `zone`; STATES if that signals. */
static size_t
follow(const struct stats_run_rules *rules, size_t state, size_t zone)
{
	size_t history = state / RUN, run = state % RUN;
	size_t last = history % SYMBOLS;
	bool goes_on = last != NOTHING && is_above(last) == is_above(zone);
	size_t now = rules->eight_on_one_side ? (goes_on ? run + 1 : 1) : 0;

	if (signals(rules, history, zone, now))
		return STATES;
	history = (history * SYMBOLS + zone) % HISTORIES;
	return history * RUN + now;
}

struct walk {
	size_t *next; /* STATES * ZONES */
	size_t *live; /* states that can be met */
	size_t n_live;
	double *mass, *then; /* STATES */
	double zone[ZONES];
};

static enum err_code
take(struct arena *a, struct walk *w, struct err *err)
{
	w->next = arena_take(a, (size_t)STATES * ZONES, sizeof *w->next);
	w->live = arena_take(a, STATES, sizeof *w->live);
	w->mass = arena_take(a, STATES, sizeof *w->mass);
	w->then = arena_take(a, STATES, sizeof *w->then);
	if (w->next == NULL || w->live == NULL || w->mass == NULL ||
		w->then == NULL)
		return err_memory(err);
	return ERR_NONE;
}

/* Every state that can be met from the beginning. */
static enum err_code
find_live(struct arena *a, const struct stats_run_rules *rules, struct walk *w,
	struct err *err)
{
	bool *met = arena_take(a, STATES, sizeof *met);

	if (met == NULL)
		return err_memory(err);
	w->live[w->n_live++] = (size_t)(HISTORIES - 1) * RUN; /* all NOTHING */
	met[w->live[0]] = true;
	for (size_t i = 0; i < w->n_live; i++)
		for (size_t z = 0; z < ZONES; z++) {
			size_t to = follow(rules, w->live[i], z);

			w->next[w->live[i] * ZONES + z] = to;
			if (to == STATES || met[to])
				continue;
			met[to] = true;
			w->live[w->n_live++] = to;
		}
	return ERR_NONE;
}

/* Moves the mass one point on; what is left of it. */
static double
step(struct walk *w)
{
	double left = 0, *swap;

	for (size_t i = 0; i < w->n_live; i++)
		w->then[w->live[i]] = 0;
	for (size_t i = 0; i < w->n_live; i++) {
		size_t state = w->live[i];

		for (size_t z = 0; z < ZONES && w->mass[state] > 0; z++) {
			size_t to = w->next[state * ZONES + z];

			if (to != STATES)
				w->then[to] += w->mass[state] * w->zone[z];
		}
	}
	swap = w->mass;
	w->mass = w->then;
	w->then = swap;
	for (size_t i = 0; i < w->n_live; i++)
		left += w->mass[w->live[i]];
	return left;
}

static enum err_code
sum_survivors(struct walk *w, double *arl, struct err *err)
{
	const double settled = 1e-15, tiny = 1e-18;
	double sum = 1, before = 1, ratio_before = 0;

	w->mass[w->live[0]] = 1;
	for (size_t t = 0; t < STEPS_MOST; t++) {
		double now = step(w), ratio = now / before;

		sum += now;
		if (now < tiny * sum ||
			(t > (size_t)2 * RUN &&
				fabs(ratio - ratio_before) < settled)) {
			*arl = sum + now * ratio / (1 - ratio);
			return ERR_NONE;
		}
		before = now;
		ratio_before = ratio;
	}
	return err_report(err, ERR_NUMERIC, "arl",
		"The run length did not settle in %d points.", STEPS_MOST);
}

enum err_code
stats_run_rules(struct arena *a, const struct stats_run_rules *rules,
	double shift, double *arl, struct err *err)
{
	const double most_shift = 30;
	struct arena_mark mark = arena_mark(a);
	struct walk w = {0};
	enum err_code code;

	if (!(fabs(shift) <= most_shift))
		return err_report(err, ERR_INPUT, "shift",
			"got %.6g; it takes a number from -30 to 30.", shift);
	for (size_t z = 0; z < ZONES; z++) {
		double low = (double)z - (double)ZONES / 2;

		w.zone[z] = stats_normal_between(low - shift, low + 1 - shift);
	}
	code = take(a, &w, err);
	if (code == ERR_NONE)
		code = find_live(a, rules, &w, err);
	if (code == ERR_NONE)
		code = sum_survivors(&w, arl, err);
	arena_back(a, mark);
	return code;
}

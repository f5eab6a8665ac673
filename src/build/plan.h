/* plan.h - on which day each lift is poured.
 *
 * A mixed-integer program over days: the last day as early as can be, then the
 * sum of all days.  Pure: the clock is the caller's.
 * Method, bounds and what is left out: docs/methods/plan.md. */
#ifndef BUILD_PLAN_H
#define BUILD_PLAN_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { BUILD_LIFTS_MOST = 2000, BUILD_DAYS_MOST = 1500 };

/* One lift: poured in one go on one day. */
struct build_lift {
	const char *name; /* borrowed; for sentences: "lift 2 of wall-w" */
	size_t part;      /* lifts of a part stand together, lowest first */
	int64_t n_batch;  /* from the mixer, 1 or more */
	int64_t crew_min; /* setting up, pouring, stripping: of the crew's day */
	size_t n_set;     /* sets of forms it stands in; 0: none */
	double strip_degc_h; /* maturity wanted before stripping */
	size_t earliest;     /* day index; 0 is the first day */
};

/* Lift `after` is poured n_day days or more after lift `before`. */
struct build_wait {
	size_t before, after, n_day;
};

/* One day of the calendar. */
struct build_day {
	bool off;  /* nobody works: neither pouring nor stripping */
	bool cold; /* too cold to pour; stripping is possible */
	int64_t n_batch, crew_min; /* what mixer and crew can do */
	size_t n_set;              /* sets of forms on hand */
	double degc;               /* mean of the day, for the maturity */
};

struct build_job {
	const struct build_lift *lift;
	size_t n_lift;
	const struct build_wait *wait;
	size_t n_wait;
	const struct build_day *day;
	size_t n_day;
};

enum build_proof {
	BUILD_PROVEN,    /* last day and sum of days: none is better */
	BUILD_LAST_DAY,  /* the last day is proven, the sum is not */
	BUILD_NOT_PROVEN /* stopped; bound says how far it may be */
};

struct build_plan {
	size_t *day;       /* n_lift: poured */
	size_t *strip_day; /* n_lift: forms free; n_day: beyond the calendar */
	size_t last_day;
	size_t last_day_bound;  /* no plan ends before this day */
	const char *bound_from; /* what makes that bound, in words */
	int64_t day_sum;
	int64_t day_sum_bound; /* with this last day */
	enum build_proof proof;
	size_t n_node; /* of the search tree */
};

/* What is known so far, for whoever waits. */
struct build_progress {
	const char *doing; /* "list", "bound", "search" */
	size_t last_day, last_day_bound;
};

/* The caller's clock: the seconds that are left; 0 or less stops the search
 * with the best plan so far.  The answer depends on it only where the proof is
 * not BUILD_PROVEN. */
struct build_watch {
	double (*seconds_left)(void *data, const struct build_progress *);
	void *data;
};

/* build_plan(arena, job, seed, watch, out, err):
 * watch NULL: the list heuristic and the plain bounds alone, no program.
 * ERR_INPUT no plan exists; the sentence says which limits clash, err->field is
 * one of "mixer", "crew", "forms", "days", "order", "lifts".
 * ERR_NUMERIC the library for the program failed; ERR_MEMORY */
enum err_code build_plan(struct arena *arena, const struct build_job *job,
	uint64_t seed, const struct build_watch *watch, struct build_plan *out,
	struct err *err) MUST_CHECK;

/* build_strip_day(job, poured, degc_h): the first working day after `poured` by
 * whose morning the maturity, sum of (T + 10 C) over the hours since the noon
 * of the pouring (Saul 1951; datum -10 C), has been reached; n_day if the
 * calendar ends before. */
size_t build_strip_day(const struct build_day *day, size_t n_day, size_t poured,
	double degc_h);

#endif /* BUILD_PLAN_H */

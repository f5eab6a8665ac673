/* plan_priv.h - the pieces of the planner.
 *
 * Days on which people pour are counted by themselves: place k is day
 * open[k] of the calendar.  A later pouring never frees its forms earlier, so
 * the days on which a lift can still stand in forms are one run of places. */
#ifndef BUILD_PLAN_PRIV_H
#define BUILD_PLAN_PRIV_H

#include "build/plan.h"

struct plan_frame {
	const struct build_job *job;
	size_t n_open, *open; /* place to day */
	size_t *place;        /* n_day + 1: first place on that day or later */
	const size_t **strip; /* n_lift: by place, the day the forms are free */
	size_t *order;        /* n_lift: every lift after those it waits for */
	size_t *head;         /* n_lift: earliest place by order and calendar */
};

/* plan_frame_make: ERR_INPUT names the clash (build_plan). */
enum err_code plan_frame_make(struct arena *arena, const struct build_job *job,
	struct plan_frame *frame, struct err *err) MUST_CHECK;

/* plan_fits_alone: the day could take the lift if nothing else were poured. */
bool plan_fits_alone(const struct plan_frame *frame, size_t lift, size_t k);

/* plan_latest(frame, last, late): the latest place of each lift for a plan that
 * ends at place `last`; false: there is no such plan. */
bool plan_latest(const struct plan_frame *frame, size_t last, size_t *late);

/* plan_bound: no plan ends before place *k; from says why. */
void plan_bound(const struct plan_frame *frame, size_t *k, const char **from);

/* plan_share(rule, part, whole): the share of a day's capacity `whole` that a
 * lift of `part` can be counted as so that no day's lifts count for more than 1
 * together: dual feasible functions (Fekete and Schepers, Mathematical
 * Programming 91, 2001).  times 0 and least 0: the share as it is; times j:
 * their u(j); least e: their U(e), what is below e counts nothing, what leaves
 * less than e counts for all. */
struct plan_share_rule {
	int64_t times, least;
};
double plan_share(
	const struct plan_share_rule *rule, int64_t part, int64_t whole);

/* plan_share_rules(job, crew, whole, rule): the rules worth trying for the work
 * of the mixer or of the crew; how many. */
enum { PLAN_SHARES_MOST = 16 };
size_t plan_share_rules(const struct build_job *job, bool crew, int64_t whole,
	struct plan_share_rule rule[PLAN_SHARES_MOST]);

/* plan_list: serial list scheduling from drawn priorities, the best of many;
 * *found false if none ended within the calendar.  at: n_lift places. */
enum err_code plan_list(struct arena *arena, const struct plan_frame *frame,
	uint64_t seed, size_t last_bound, const struct build_watch *watch,
	size_t *at, bool *found, struct err *err) MUST_CHECK;

size_t plan_last(const struct plan_frame *frame, const size_t *at);
int64_t plan_day_sum(const struct plan_frame *frame, const size_t *at);

enum plan_answer {
	PLAN_FOUND,  /* at holds it; best where the goal was the sum */
	PLAN_NONE,   /* proven: there is none */
	PLAN_UNKNOWN /* stopped */
};

struct plan_goal {
	size_t last;          /* ends at this place or before */
	bool relaxed;         /* only: could it be, if lifts were divisible */
	bool any;             /* the first one found will do */
	int64_t sum_below;    /* sum of days below this; INT64_MAX: any */
	size_t n_column_most; /* a larger program is not begun */
	const struct build_watch *watch;
	struct build_progress progress;
};

struct plan_found {
	enum plan_answer answer;
	bool has_plan;     /* also where stopped */
	int64_t sum_bound; /* no plan that ends so has a smaller sum */
	size_t n_node;
};

/* plan_program: the mixed-integer program.  ERR_NUMERIC, ERR_SYSTEM (no thread
 * for it), ERR_MEMORY */
enum err_code plan_program(struct arena *arena, const struct plan_frame *frame,
	const struct plan_goal *goal, size_t *at, struct plan_found *out,
	struct err *err) MUST_CHECK;

/* plan_states: the same question by going through the days, with all that can
 * have been poured by each; exact where it comes to its end: the plan of the
 * least sum below goal->sum_below, or none.  `relaxed` and `any` are not
 * looked at.  PLAN_UNKNOWN where there are too many chains of lifts, sets or
 * states, a wait of 0 days, or no time.  ERR_MEMORY */
enum err_code plan_states(struct arena *arena, const struct plan_frame *frame,
	const struct plan_goal *goal, size_t *at, struct plan_found *out,
	struct err *err) MUST_CHECK;

#endif /* BUILD_PLAN_PRIV_H */

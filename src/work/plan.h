/* plan.h - the pour plan of the building, as much of it as is not poured yet. */
#ifndef WORK_PLAN_H
#define WORK_PLAN_H

#include "build/lifts.h"
#include "build/plan.h"
#include "work/takeoff.h"

struct work_plan_ask {
	struct work_takeoff_ask takeoff;
	const char *from, *until; /* dates; until NULL: 400 days */
	struct maybe forms, per_day, crew, witness, seed; /* whole numbers */
	struct maybe hours_s, cycle_s, setup_s, gap_s, strip_s, rest_s, cover_s,
		seconds;
	struct maybe lift_m, stretch_m;
	const char *const *off; /* dates or days of the week: "sun" */
	size_t n_off;
	const char *const *cold; /* dates */
	size_t n_cold;
	const char *const *air; /* "12 C" or "3=9 C", a month and its mean */
	size_t n_air;
	const double *air_degc;        /* n_air, as read by the face */
	const int *air_month;          /* n_air; 0: every month */
	const struct work_pair *after; /* a part, and the part it waits for */
	size_t n_after;
	void (*tell)(void *data, const struct build_progress *);
	void *tell_data;
};

/* One lift in the order of pouring; days count from 1970-01-01. */
struct work_plan_lift {
	size_t part; /* index into takeoff.part */
	const char *name;
	struct build_cut_lift cut;
	int64_t day, strip_day; /* strip_day 0: after the calendar */
	size_t first_batch;     /* number of its first, over the whole plan */
	const char *witness;    /* numbers of the drawn ones, or "" */
	size_t n_witness;
};

struct work_delivery {
	int64_t day;
	size_t material; /* index into the site */
	double n_package, kg;
	bool has_package;
};

struct work_plan {
	struct work_takeoff takeoff;
	const struct work_plan_lift *lift; /* to be poured, by day */
	size_t n_lift, n_poured, n_batch;
	size_t n_hold; /* batches of these parts that are on hold */
	const struct work_delivery *delivery; /* by day */
	size_t n_delivery;
	int64_t from_day, last_day, bound_day;
	struct build_plan plan;
	/* what it was reckoned with */
	int64_t day_batch, crew, crew_min;
	double hours_h, cycle_min, setup_h, gap_h, strip_h, rest_h;
	size_t n_set, gap_days, rest_days, cover_days, every;
	uint64_t seed;
};

/* work_plan(desk, arena, ask, out, err): nothing is written.
 * ERR_INPUT dates, limits that clash (build_plan), all is poured already */
enum err_code work_plan(const struct desk *desk, struct arena *arena,
	const struct work_plan_ask *ask, struct work_plan *out,
	struct err *err) MUST_CHECK;

/* work_plan_ics(arena, plan, stamp_utc_s): the calendar; NULL if
 * memory ran out. */
const char *work_plan_ics(
	struct arena *arena, const struct work_plan *plan, int64_t stamp_utc_s);

#endif /* WORK_PLAN_H */

/* plan.c - heuristic, bounds and program put together. */
#include "build/plan.h"

#include "build/plan_priv.h"

#include <math.h>

enum { COLUMNS_MOST = 6000 };

struct planning {
	struct arena *arena;
	struct plan_frame f;
	const struct build_watch *watch;
	size_t *at, *tried;
	bool found;   /* at holds a plan */
	bool no_plan; /* proven */
	size_t last;  /* place, of at */
	size_t bound; /* place */
	bool sum_proven;
	int64_t sum_bound;
	const char *bound_from;
	size_t n_node;
};

static bool
is_time_left(const struct planning *p, const struct build_progress *progress)
{
	return p->watch != NULL &&
		p->watch->seconds_left(p->watch->data, progress) > 0;
}

static struct build_progress
progress_of(const struct planning *p, const char *doing)
{
	return (struct build_progress){.doing = doing,
		.last_day = p->found ? p->f.open[p->last] : p->f.job->n_day,
		.last_day_bound = p->bound < p->f.n_open ? p->f.open[p->bound]
							 : p->f.job->n_day};
}

static void
note_plan(struct planning *p, const struct plan_found *got)
{
	p->n_node += got->n_node;
	if (!got->has_plan)
		return;
	for (size_t i = 0; i < p->f.job->n_lift; i++)
		p->at[i] = p->tried[i];
	p->found = true;
	p->last = plan_last(&p->f, p->at);
}

static enum err_code
ask_program(struct planning *p, struct plan_goal *goal, const char *doing,
	struct plan_found *got, struct err *err)
{
	goal->watch = p->watch;
	goal->n_column_most = COLUMNS_MOST;
	goal->progress = progress_of(p, doing);
	TRY(plan_program(p->arena, &p->f, goal, p->tried, got, err));
	note_plan(p, got);
	return ERR_NONE;
}

/* Day by day first; the program where there is too much for that. */
static enum err_code
ask(struct planning *p, struct plan_goal *goal, struct plan_found *got,
	struct err *err)
{
	goal->watch = p->watch;
	goal->progress = progress_of(p, "search");
	TRY(plan_states(p->arena, &p->f, goal, p->tried, got, err));
	note_plan(p, got);
	if (got->answer != PLAN_UNKNOWN)
		return ERR_NONE;
	if (got->has_plan && goal->sum_below != INT64_MAX)
		goal->sum_below = plan_day_sum(&p->f, p->at);
	return ask_program(p, goal, "search", got, err);
}

/* The last place before which not even divisible lifts fit, by halving. */
static enum err_code
raise_bound(struct planning *p, struct err *err)
{
	size_t low = p->bound, high = p->last;

	while (low < high) {
		struct plan_goal goal = {.last = low + (high - low) / 2,
			.relaxed = true,
			.sum_below = INT64_MAX};
		struct build_progress progress = progress_of(p, "bound");
		struct plan_found got;

		if (!is_time_left(p, &progress))
			break;
		TRY(ask_program(p, &goal, "bound", &got, err));
		if (got.answer == PLAN_UNKNOWN)
			break;
		if (got.answer == PLAN_FOUND) {
			high = goal.last;
			continue;
		}
		low = goal.last + 1;
		p->bound = low;
		p->bound_from = N_("waits, forms, mixer and crew together");
	}
	return ERR_NONE;
}

/* A plan that ends a place earlier, again and again, until there is none. */
static enum err_code
shorten(struct planning *p, struct err *err)
{
	while (p->bound < p->last) {
		struct plan_goal goal = {.last = p->last - 1,
			.any = true,
			.sum_below = INT64_MAX};
		struct build_progress progress = progress_of(p, "search");
		struct plan_found got;

		if (!is_time_left(p, &progress))
			return ERR_NONE;
		TRY(ask(p, &goal, &got, err));
		if (got.answer == PLAN_UNKNOWN)
			return ERR_NONE;
		if (got.answer == PLAN_FOUND)
			continue;
		p->bound = p->last;
		p->bound_from = N_("waits, forms, mixer and crew together");
	}
	return ERR_NONE;
}

/* The least sum of days among the plans that end on the last day found. */
static enum err_code
tighten_sum(struct planning *p, struct err *err)
{
	int64_t sum = plan_day_sum(&p->f, p->at);
	struct plan_goal goal = {.last = p->last, .sum_below = sum};
	struct build_progress progress = progress_of(p, "search");
	struct plan_found got;

	p->sum_bound = plan_day_sum(&p->f, p->f.head);
	p->sum_proven = p->sum_bound == sum;
	if (p->sum_proven || !is_time_left(p, &progress))
		return ERR_NONE;
	TRY(ask(p, &goal, &got, err));
	p->sum_proven = got.answer != PLAN_UNKNOWN;
	if (p->sum_proven)
		p->sum_bound = plan_day_sum(&p->f, p->at);
	else if (got.sum_bound > p->sum_bound)
		p->sum_bound = got.sum_bound < sum ? got.sum_bound : sum;
	return ERR_NONE;
}

/* The heuristic found nothing within the calendar: is there anything? */
static enum err_code
find_any(struct planning *p, struct err *err)
{
	struct plan_goal goal = {
		.last = p->f.n_open - 1, .any = true, .sum_below = INT64_MAX};
	struct plan_found got;

	if (p->watch == NULL || p->bound >= p->f.n_open)
		return ERR_NONE;
	TRY(ask(p, &goal, &got, err));
	p->no_plan = got.answer == PLAN_NONE;
	return ERR_NONE;
}

static enum err_code
say_no_plan(const struct planning *p, struct err *err)
{
	const char *way = err_say(
		err, "Let the calendar go on longer, or ease one of them.");

	if (p->bound >= p->f.n_open)
		return err_report(err, ERR_INPUT, "days",
			"The calendar of %zu days has %zu days to pour on, and "
			"%s alone would take more. %s",
			p->f.job->n_day, p->f.n_open,
			err_say(err, p->bound_from), way);
	return err_report(err, ERR_INPUT, "days",
		"%s within the %zu days of the calendar (%zu to pour on): the "
		"waits between lifts, the forms on hand, the mixer's output "
		"and the hours of the crew clash together. %s",
		p->no_plan ? err_say(err, "There is no plan")
			   : err_say(err, "No plan was found"),
		p->f.job->n_day, p->f.n_open, way);
}

static enum err_code
write_plan(const struct planning *p, struct build_plan *out, struct err *err)
{
	size_t n = p->f.job->n_lift;
	struct build_plan got = {
		.day = arena_take(p->arena, n, sizeof *got.day),
		.strip_day = arena_take(p->arena, n, sizeof *got.strip_day),
		.last_day = p->f.open[p->last],
		.last_day_bound = p->f.open[p->bound],
		.bound_from = p->bound_from,
		.day_sum = plan_day_sum(&p->f, p->at),
		.day_sum_bound = p->sum_bound,
		.proof = p->bound < p->last ? BUILD_NOT_PROVEN
			: p->sum_proven     ? BUILD_PROVEN
					    : BUILD_LAST_DAY,
		.n_node = p->n_node};

	if (got.day == NULL || got.strip_day == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		got.day[i] = p->f.open[p->at[i]];
		got.strip_day[i] = p->f.strip[i][p->at[i]];
	}
	*out = got;
	return ERR_NONE;
}

enum err_code
build_plan(struct arena *arena, const struct build_job *job, uint64_t seed,
	const struct build_watch *watch, struct build_plan *out,
	struct err *err)
{
	struct planning p = {.arena = arena, .watch = watch};

	TRY(plan_frame_make(arena, job, &p.f, err));
	p.at = arena_take(arena, job->n_lift, sizeof *p.at);
	p.tried = arena_take(arena, job->n_lift, sizeof *p.tried);
	if (p.at == NULL || p.tried == NULL)
		return err_memory(err);
	plan_bound(&p.f, &p.bound, &p.bound_from);
	TRY(plan_list(arena, &p.f, seed, p.bound, watch, p.at, &p.found, err));
	if (p.found)
		p.last = plan_last(&p.f, p.at);
	else
		TRY(find_any(&p, err));
	if (!p.found)
		return say_no_plan(&p, err);
	TRY(raise_bound(&p, err));
	TRY(shorten(&p, err));
	TRY(tighten_sum(&p, err));
	return write_plan(&p, out, err);
}

/* plan_program.c - the mixed-integer program, written down for GLPK.
 *
 * One binary column for each lift and place of its window but the last: 1 if the
 * lift is poured at that place or before.  Poured at k is then a difference of
 * two columns, a wait is one row of two columns, and the lifts that stand in
 * forms on a day are differences of two columns each (docs/methods/plan.md). */
#include "build/glpk_run.h"
#include "build/plan_priv.h"

#include <glpk.h>
#include <limits.h>
#include <math.h>

struct program {
	const struct plan_frame *f;
	const struct plan_goal *goal;
	const size_t *late;
	int *column; /* n_lift: of place head, 0: no column */
	int n_column;
	size_t *twin; /* n_lift: the same lift of an equal part, or itself */
	int *index;   /* of the row that is being written */
	double *value;
	double *share; /* PLAN_SHARES_MOST rows of n_lift */
	double bound;  /* what the row may be at most */
	int n;
	size_t *at;
	struct plan_found found;
	glp_prob *p;
	bool contradiction;
};

/* ---- rows ---- */

static void
start_row(struct program *g, double bound)
{
	g->n = 0;
	g->bound = bound;
}

/* Adds times * (lift is poured at place k or before). */
static void
add_by(struct program *g, size_t lift, size_t k, double times)
{
	if (k < g->f->head[lift])
		return;
	if (k >= g->late[lift]) {
		g->bound -= times;
		return;
	}
	g->n++;
	g->index[g->n] = g->column[lift] + (int)(k - g->f->head[lift]);
	g->value[g->n] = times;
}

/* Adds times * (lift is poured at one of the places low..high). */
static void
add_between(
	struct program *g, size_t lift, size_t low, size_t high, double times)
{
	if (high < g->f->head[lift] || low > g->late[lift])
		return;
	add_by(g, lift, high, times);
	if (low > 0)
		add_by(g, lift, low - 1, -times);
}

static void
end_row(struct program *g)
{
	const double hair = 1e-9;
	double least = 0;
	int row;

	for (int i = 1; i <= g->n; i++)
		least += fmin(0, g->value[i]);
	if (g->n == 0 || least > g->bound + hair) {
		g->contradiction = g->contradiction || least > g->bound + hair;
		return;
	}
	row = glp_add_rows(g->p, 1);
	glp_set_row_bnds(g->p, row, GLP_UP, 0, g->bound);
	glp_set_mat_row(g->p, row, g->n, g->index, g->value);
}

/* A lift that is poured by a place is poured by the next. */
static void
add_steps(struct program *g)
{
	for (size_t i = 0; i < g->f->job->n_lift; i++)
		for (size_t k = g->f->head[i]; k + 1 < g->late[i]; k++) {
			start_row(g, 0);
			add_by(g, i, k, 1);
			add_by(g, i, k + 1, -1);
			end_row(g);
		}
}

static void
add_waits(struct program *g)
{
	const struct plan_frame *f = g->f;

	for (size_t w = 0; w < f->job->n_wait; w++) {
		const struct build_wait *wait = &f->job->wait[w];

		for (size_t k = f->head[wait->after]; k <= g->late[wait->after];
			k++) {
			size_t n; /* places on or before the day it allows */

			if (f->open[k] < wait->n_day)
				continue; /* before the head */
			n = f->place[f->open[k] - wait->n_day + 1];
			start_row(g, 0);
			add_by(g, wait->after, k, 1);
			if (n > 0)
				add_by(g, wait->before, n - 1, -1);
			end_row(g);
		}
	}
}

/* The shares of all lifts by one rule on one day. */
static void
set_shares(const struct program *g, const struct plan_share_rule *rule,
	const struct build_day *d, bool crew, double *share)
{
	const struct build_job *job = g->f->job;
	int64_t whole = crew ? d->crew_min : d->n_batch;

	for (size_t i = 0; i < job->n_lift; i++) {
		const struct build_lift *l = &job->lift[i];
		int64_t part = crew ? l->crew_min : l->n_batch;

		/* more than there is: the row then forbids that place */
		share[i] = part == 0 ? 0
			: whole <= 0 ? 2
				     : plan_share(rule, part, whole);
	}
}

/* Is each share of row a at most that of row b? */
static bool
is_covered(const double *a, const double *b, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (a[i] > b[i])
			return false;
	return true;
}

static void
add_work_of_day(struct program *g, size_t k, bool crew)
{
	struct plan_share_rule rule[PLAN_SHARES_MOST];
	const struct build_job *job = g->f->job;
	const struct build_day *d = &job->day[g->f->open[k]];
	size_t n_rule = plan_share_rules(
		job, crew, crew ? d->crew_min : d->n_batch, rule);

	for (size_t j = 0; j < n_rule; j++)
		set_shares(g, &rule[j], d, crew, g->share + j * job->n_lift);
	for (size_t j = 0; j < n_rule; j++) {
		const double *share = g->share + j * job->n_lift;
		bool covered = false;

		for (size_t o = 0; o < n_rule && j > 0 && !covered; o++) {
			const double *other = g->share + o * job->n_lift;

			covered = o != j &&
				is_covered(share, other, job->n_lift) &&
				(o < j ||
					!is_covered(other, share, job->n_lift));
		}
		start_row(g, 1);
		for (size_t i = 0; i < job->n_lift && !covered; i++)
			if (share[i] > 0)
				add_between(g, i, k, k, share[i]);
		end_row(g);
	}
}

/* Mixer and crew of each place, as they are and as shares. */
static void
add_work(struct program *g, bool crew)
{
	for (size_t k = 0; k <= g->goal->last; k++)
		add_work_of_day(g, k, crew);
}

/* The first place from which a lift still stands in its forms on day d. */
static size_t
first_standing(const struct plan_frame *f, size_t lift, size_t d)
{
	size_t k = f->place[d + 1];

	while (k > 0 && f->strip[lift][k - 1] > d)
		k--;
	return k;
}

static void
add_forms(struct program *g)
{
	const struct plan_frame *f = g->f;
	const struct build_day *day = f->job->day;

	for (size_t d = 0; d < f->job->n_day; d++) {
		if (f->place[d] == f->place[d + 1] &&
			(d == 0 || day[d].n_set >= day[d - 1].n_set))
			continue; /* no more stand than the day before */
		if (f->place[d] > g->goal->last &&
			day[d].n_set >= day[d - 1].n_set)
			continue;
		start_row(g, (double)day[d].n_set);
		for (size_t i = 0; i < f->job->n_lift; i++) {
			size_t k = f->job->lift[i].n_set == 0
				? f->place[d + 1]
				: first_standing(f, i, d);

			if (k < f->place[d + 1])
				add_between(g, i, k, f->place[d + 1] - 1,
					(double)f->job->lift[i].n_set);
		}
		end_row(g);
	}
}

/* Of equal parts the first goes first. */
static void
add_twins(struct program *g)
{
	const struct plan_frame *f = g->f;

	for (size_t i = 0; i < f->job->n_lift; i++) {
		if (g->twin[i] == i)
			continue;
		for (size_t k = 0; k <= g->goal->last; k++) {
			start_row(g, 0);
			add_by(g, i, k, 1);
			add_by(g, g->twin[i], k, -1);
			end_row(g);
		}
	}
}

/* ---- equal parts ---- */

static bool
is_like(const struct build_lift *a, const struct build_lift *b)
{
	return a->n_batch == b->n_batch && a->crew_min == b->crew_min &&
		a->n_set == b->n_set && a->earliest == b->earliest &&
		!(a->strip_degc_h < b->strip_degc_h) &&
		!(a->strip_degc_h > b->strip_degc_h);
}

static size_t
part_end(const struct build_job *job, size_t first)
{
	size_t end = first;

	while (end < job->n_lift &&
		job->lift[end].part == job->lift[first].part)
		end++;
	return end;
}

/* How often (before, after, n_day) stands in the list. */
static size_t
count_wait(
	const struct build_job *job, size_t before, size_t after, size_t n_day)
{
	size_t n = 0;

	for (size_t w = 0; w < job->n_wait; w++)
		n += job->wait[w].before == before &&
			job->wait[w].after == after &&
			job->wait[w].n_day == n_day;
	return n;
}

/* Would every wait still stand if the n lifts from a and those from b changed
 * places? */
static bool
can_swap(const struct build_job *job, size_t a, size_t b, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (!is_like(&job->lift[a + i], &job->lift[b + i]))
			return false;
	for (size_t w = 0; w < job->n_wait; w++) {
		size_t end[2] = {job->wait[w].before, job->wait[w].after};

		for (size_t e = 0; e < 2; e++) {
			if (end[e] >= a && end[e] < a + n)
				end[e] = end[e] - a + b;
			else if (end[e] >= b && end[e] < b + n)
				end[e] = end[e] - b + a;
		}
		if (count_wait(job, end[0], end[1], job->wait[w].n_day) !=
			count_wait(job, job->wait[w].before, job->wait[w].after,
				job->wait[w].n_day))
			return false;
	}
	return true;
}

/* The first lift of each part is held against that of the nearest equal part
 * before it. */
static void
find_twins(struct program *g)
{
	const struct build_job *job = g->f->job;

	for (size_t i = 0; i < job->n_lift; i++)
		g->twin[i] = i;
	for (size_t b = 0; b < job->n_lift; b = part_end(job, b)) {
		size_t n = part_end(job, b) - b;

		for (size_t a = 0; a < b; a = part_end(job, a))
			if (part_end(job, a) - a == n && can_swap(job, a, b, n))
				g->twin[b] = a;
	}
}

/* ---- the whole ---- */

static void
add_columns(struct program *g)
{
	const struct plan_frame *f = g->f;

	if (g->n_column > 0)
		glp_add_cols(g->p, g->n_column);
	for (size_t i = 0; i < f->job->n_lift; i++)
		for (size_t k = f->head[i]; k < g->late[i]; k++) {
			int c = g->column[i] + (int)(k - f->head[i]);

			glp_set_col_kind(g->p, c, GLP_BV);
			glp_set_obj_coef(g->p, c,
				-(double)(f->open[k + 1] - f->open[k]));
		}
}

/* Sum of days = sum of latest days - what the columns save. */
static void
add_goal(struct program *g)
{
	double constant = 0;

	for (size_t i = 0; i < g->f->job->n_lift; i++)
		constant += (double)g->f->open[g->late[i]];
	glp_set_obj_dir(g->p, GLP_MIN);
	glp_set_obj_coef(g->p, 0, constant);
	if (g->goal->sum_below == INT64_MAX)
		return;
	start_row(g, (double)(g->goal->sum_below - 1) - constant);
	for (int c = 1; c <= g->n_column; c++) {
		g->index[++g->n] = c;
		g->value[g->n] = glp_get_obj_coef(g->p, c);
	}
	end_row(g);
}

static double
seconds_left(const struct program *g)
{
	const struct build_watch *w = g->goal->watch;

	return w->seconds_left(w->data, &g->goal->progress);
}

static int
milliseconds_left(const struct program *g)
{
	double ms = seconds_left(g) * 1000;

	return ms < 1 ? 1 : ms > INT_MAX / 2 ? INT_MAX / 2 : (int)ms;
}

static void
look_on(glp_tree *tree, void *data)
{
	struct program *g = data;
	int best;

	if (glp_ios_reason(tree) != GLP_ISELECT)
		return;
	g->found.n_node++;
	best = glp_ios_best_node(tree);
	if (best != 0) {
		const double hair = 1e-6;
		double bound = ceil(glp_ios_node_bound(tree, best) - hair);

		if (bound > (double)g->found.sum_bound)
			g->found.sum_bound = (int64_t)bound;
	}
	if (seconds_left(g) <= 0)
		glp_ios_terminate(tree);
}

static void
read_plan(struct program *g)
{
	const struct plan_frame *f = g->f;

	g->found.has_plan = true;
	for (size_t i = 0; i < f->job->n_lift; i++) {
		size_t k = f->head[i];

		while (k < g->late[i] &&
			glp_mip_col_val(g->p,
				g->column[i] + (int)(k - f->head[i])) < 0.5)
			k++;
		g->at[i] = k;
	}
}

/* false: it is decided that there is no plan, or nothing could be said. */
static bool
solve_relaxed(struct program *g)
{
	glp_smcp with;
	int failed, status;

	glp_init_smcp(&with);
	with.msg_lev = GLP_MSG_OFF;
	with.meth = GLP_DUALP;
	with.tm_lim = milliseconds_left(g);
	glp_adv_basis(g->p, 0);
	failed = glp_simplex(g->p, &with);
	status = glp_get_status(g->p);
	if (failed == 0 && status == GLP_NOFEAS) {
		g->found.answer = PLAN_NONE;
		return false;
	}
	if (failed != 0 || status != GLP_OPT)
		return false;
	g->found.sum_bound = (int64_t)ceil(glp_get_obj_val(g->p) - 1e-6);
	return true;
}

static void
search(struct program *g)
{
	const double any_gap = 1e9;
	glp_iocp with;
	int failed, status;

	glp_init_iocp(&with);
	with.msg_lev = GLP_MSG_OFF;
	with.br_tech = GLP_BR_DTH;
	with.bt_tech = g->goal->any ? GLP_BT_DFS : GLP_BT_BLB;
	with.cov_cuts = GLP_ON;
	with.tm_lim = milliseconds_left(g);
	with.cb_func = look_on;
	with.cb_info = g;
	/* any plan at all will do, but GLPK takes the greatest double for "met" before
	 * there is one */
	with.mip_gap = g->goal->any ? any_gap : 0;
	failed = glp_intopt(g->p, &with);
	status = glp_mip_status(g->p);
	if (status == GLP_OPT || status == GLP_FEAS)
		read_plan(g);
	if (status == GLP_OPT || g->found.has_plan) {
		bool best = status == GLP_OPT && failed == 0;

		g->found.answer = best || g->goal->any ? PLAN_FOUND
						       : PLAN_UNKNOWN;
		return;
	}
	if (failed == 0 && status == GLP_NOFEAS)
		g->found.answer = PLAN_NONE;
}

static void
run_program(void *data)
{
	struct program *g = data;

	g->p = glp_create_prob();
	add_columns(g);
	add_waits(g);
	add_steps(g);
	add_work(g, false);
	add_work(g, true);
	add_forms(g);
	add_twins(g);
	add_goal(g);
	if (g->contradiction)
		g->found.answer = PLAN_NONE;
	else if (g->n_column == 0 && !g->goal->relaxed) {
		g->found.answer = PLAN_FOUND;
		read_plan(g);
	} else if (solve_relaxed(g)) {
		g->found.answer = PLAN_FOUND;
		if (!g->goal->relaxed) {
			g->found.answer = PLAN_UNKNOWN;
			search(g);
		}
	}
	glp_delete_prob(g->p);
}

static enum err_code
number_columns(
	struct arena *arena, struct program *g, size_t *n, struct err *err)
{
	size_t n_lift = g->f->job->n_lift;

	g->column = arena_take(arena, n_lift, sizeof *g->column);
	g->twin = arena_take(arena, n_lift, sizeof *g->twin);
	if (g->column == NULL || g->twin == NULL)
		return err_memory(err);
	*n = 0;
	for (size_t i = 0; i < n_lift; i++) {
		g->column[i] = (int)*n + 1;
		*n += g->late[i] - g->f->head[i];
	}
	g->n_column = (int)*n;
	g->index = arena_take(arena, *n + 2 * n_lift + 2, sizeof *g->index);
	g->value = arena_take(arena, *n + 2 * n_lift + 2, sizeof *g->value);
	g->share = arena_take(
		arena, n_lift * PLAN_SHARES_MOST, sizeof *g->share);
	if (g->index == NULL || g->value == NULL || g->share == NULL)
		return err_memory(err);
	return ERR_NONE;
}

enum err_code
plan_program(struct arena *arena, const struct plan_frame *frame,
	const struct plan_goal *goal, size_t *at, struct plan_found *out,
	struct err *err)
{
	struct arena_mark mark = arena_mark(arena);
	struct program g = {.f = frame, .goal = goal};
	size_t *late = arena_take(arena, frame->job->n_lift, sizeof *late);
	size_t n = 0;

	*out = (struct plan_found){.answer = PLAN_NONE};
	g.at = arena_take(arena, frame->job->n_lift, sizeof *g.at);
	if (late == NULL || g.at == NULL)
		return err_memory(err);
	if (!plan_latest(frame, goal->last, late)) {
		arena_back(arena, mark);
		return ERR_NONE;
	}
	g.late = late;
	g.found.answer = PLAN_UNKNOWN;
	TRY(number_columns(arena, &g, &n, err));
	if (n <= goal->n_column_most) {
		find_twins(&g);
		TRY(build_glpk_run(run_program, &g, err));
	}
	for (size_t i = 0; i < frame->job->n_lift && g.found.has_plan; i++)
		at[i] = g.at[i];
	*out = g.found;
	arena_back(arena, mark);
	return ERR_NONE;
}

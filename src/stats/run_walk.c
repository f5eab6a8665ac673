/* run_walk.c - mean steps of a normal walk until it leaves a range.
 *
 * The states are the nodes of a quadrature, the place `low` (the atom) and the
 * place of beginning.  Moves between nodes are weight times density, moves out
 * and to the atom are normal tails.  The move from a state to itself is never
 * formed: it is 1 less all the others, which the elimination does not need.
 * That also makes the quadrature exact for a constant, and the answer of a
 * chart that seldom signals is nearly a constant. */
#include "stats/run_walk.h"

#include "stats/normal.h"
#include "stats/quadrature.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

enum { NODES_MOST = 20000, N_PLACE = 2 };
static const double panel_sd = 8;      /* width of a panel */
static const double density_ends = 39; /* sd; the density is 0 in doubles */
static const double enough = 1e-11, tolerable = 1e-8;

/* Moves of the chain.  Node i reaches nodes j with |i - j| <= reach. */
struct chain {
	size_t n, reach;
	double *x, *w;                /* nodes and weights */
	double *between;              /* n rows of 2 reach + 1 */
	double *to_low, *out, *steps; /* n */
	double *place[N_PLACE];       /* rows of low and of the beginning */
	double place_low, place_out[N_PLACE], place_steps[N_PLACE];
};

static size_t
least(size_t a, size_t b)
{
	return a < b ? a : b;
}

static size_t
greater(size_t a, size_t b)
{
	return a > b ? a : b;
}

static double
density(const struct run_walk *walk, double from, double to)
{
	double z = (to - walk->keep * from - walk->drift) / walk->sd;

	return stats_normal_density(z) / walk->sd;
}

static double
leaves(const struct run_walk *walk, double from)
{
	double middle = walk->keep * from + walk->drift;
	double above = stats_normal_upper((walk->high - middle) / walk->sd);
	double below = stats_normal_lower((walk->low - middle) / walk->sd);

	return walk->holds ? above : above + below;
}

static double
falls_to_low(const struct run_walk *walk, double from)
{
	double middle = walk->keep * from + walk->drift;

	return walk->holds ? stats_normal_lower((walk->low - middle) / walk->sd)
			   : 0;
}

/* The farthest node, in places, that any node reaches with a chance above 0;
 * both ends of what a node reaches move up with it. */
static size_t
find_reach(const struct run_walk *walk, const struct chain *c)
{
	size_t reach = 0, first = 0, end = 0;

	for (size_t i = 0; i < c->n; i++) {
		double middle = walk->keep * c->x[i] + walk->drift;
		double far = density_ends * walk->sd;

		while (first < c->n && c->x[first] < middle - far)
			first++;
		while (end < c->n && c->x[end] <= middle + far)
			end++;
		if (first < i)
			reach = greater(reach, i - first);
		if (end > i + 1)
			reach = greater(reach, end - 1 - i);
	}
	return reach < c->n ? reach : c->n - 1;
}

static double *
between(struct chain *c, size_t i, size_t j)
{
	return &c->between[i * (2 * c->reach + 1) + c->reach + j - i];
}

static enum err_code
take_nodes(struct arena *a, const struct run_walk *walk, size_t order,
	size_t n_panel, struct chain *c, struct err *err)
{
	struct quadrature rule;

	c->n = order * n_panel;
	c->x = arena_take(a, c->n, sizeof *c->x);
	c->w = arena_take(a, c->n, sizeof *c->w);
	c->to_low = arena_take(a, c->n, sizeof *c->to_low);
	c->out = arena_take(a, c->n, sizeof *c->out);
	c->steps = arena_take(a, c->n, sizeof *c->steps);
	c->place[0] = arena_take(a, c->n, sizeof *c->place[0]);
	c->place[1] = arena_take(a, c->n, sizeof *c->place[1]);
	if (c->x == NULL || c->w == NULL || c->to_low == NULL ||
		c->out == NULL || c->steps == NULL || c->place[0] == NULL ||
		c->place[1] == NULL)
		return err_memory(err);
	stats_legendre(order, &rule);
	stats_panels(&rule, walk->low, walk->high, n_panel, c->x, c->w);
	c->reach = find_reach(walk, c);
	c->between = arena_take(
		a, c->n * (2 * c->reach + 1), sizeof *c->between);
	return c->between == NULL ? err_memory(err) : ERR_NONE;
}

static void
fill(const struct run_walk *walk, struct chain *c)
{
	const double at[N_PLACE] = {walk->low, walk->from};

	for (size_t i = 0; i < c->n; i++) {
		size_t first = i > c->reach ? i - c->reach : 0;
		size_t last = least(i + c->reach, c->n - 1);

		c->to_low[i] = falls_to_low(walk, c->x[i]);
		c->out[i] = leaves(walk, c->x[i]);
		c->steps[i] = 1;
		for (size_t j = first; j <= last; j++)
			*between(c, i, j) = c->w[j] *
				density(walk, c->x[i], c->x[j]);
	}
	for (size_t p = 0; p < N_PLACE; p++) {
		c->place_out[p] = leaves(walk, at[p]);
		c->place_steps[p] = 1;
		for (size_t j = 0; j < c->n; j++)
			c->place[p][j] = c->w[j] *
				density(walk, at[p], c->x[j]);
	}
	c->place_low = falls_to_low(walk, walk->from);
}

/* Takes node k out: whoever went to it goes on to where it goes. */
static void
take_out(struct chain *c, size_t k)
{
	size_t last = least(k + c->reach, c->n - 1);
	double away = c->out[k] + c->to_low[k];

	for (size_t j = k + 1; j <= last; j++)
		away += *between(c, k, j);
	if (away <= 0)
		return;
	for (size_t i = k + 1; i <= last; i++) {
		double share = *between(c, i, k) / away;

		if (share == 0)
			continue;
		for (size_t j = k + 1; j <= last; j++)
			*between(c, i, j) += share * *between(c, k, j);
		c->to_low[i] += share * c->to_low[k];
		c->out[i] += share * c->out[k];
		c->steps[i] += share * c->steps[k];
	}
	for (size_t p = 0; p < N_PLACE; p++) {
		double share = c->place[p][k] / away;

		for (size_t j = k + 1; j <= last; j++)
			c->place[p][j] += share * *between(c, k, j);
		c->place_out[p] += share * c->out[k];
		c->place_steps[p] += share * c->steps[k];
		if (p == 1)
			c->place_low += share * c->to_low[k];
	}
}

static enum err_code
solve(struct arena *a, const struct run_walk *walk, size_t order,
	size_t n_panel, double steps[N_PLACE], struct err *err)
{
	struct arena_mark mark = arena_mark(a);
	struct chain c = {0};
	enum err_code code = take_nodes(a, walk, order, n_panel, &c, err);

	if (code == ERR_NONE) {
		fill(walk, &c);
		for (size_t k = 0; k < c.n; k++)
			take_out(&c, k);
		steps[0] = c.place_steps[0] / c.place_out[0];
		steps[1] = c.place_low > 0
			? (c.place_steps[1] + c.place_low * steps[0]) /
				(c.place_out[1] + c.place_low)
			: c.place_steps[1] / c.place_out[1];
	}
	arena_back(a, mark);
	return code;
}

static double
change(const double now[N_PLACE], const double before[N_PLACE])
{
	double most = 0;

	for (size_t p = 0; p < N_PLACE; p++)
		if (isfinite(now[p]) || isfinite(before[p]))
			most = fmax(most, fabs(now[p] / before[p] - 1));
	return most;
}

enum err_code
stats_run_walk(struct arena *a, const struct run_walk *walk, double *low_steps,
	double *from_steps, struct err *err)
{
	static const size_t order[] = {20, 28, 40, 56};
	enum { N_ORDER = sizeof order / sizeof order[0] };
	double span = (walk->high - walk->low) / walk->sd;
	double got[N_PLACE], before[N_PLACE], moved = HUGE_VAL;
	size_t n_panel;

	if (!(span / panel_sd * (double)order[1] <= NODES_MOST))
		return err_report(err, ERR_INPUT, "width",
			"The limits lie %.6g steps of the chart apart; up to "
			"%.0f can be computed.",
			span, panel_sd * NODES_MOST / (double)order[1]);
	n_panel = (size_t)ceil(span / panel_sd);
	TRY(solve(a, walk, order[0], n_panel, got, err));
	for (size_t k = 1; k < N_ORDER && moved > enough; k++) {
		if (k > 1 && order[k] * n_panel > NODES_MOST)
			break;
		memcpy(before, got, sizeof got);
		TRY(solve(a, walk, order[k], n_panel, got, err));
		moved = change(got, before);
	}
	if (!(moved <= tolerable))
		return err_report(err, ERR_NUMERIC, "",
			"The run length did not settle: it still moved by %.2g "
			"of itself with %zu panels.",
			moved, n_panel);
	*low_steps = got[0];
	*from_steps = got[1];
	return ERR_NONE;
}

/* censored_search.c - Newton's method on the concave log-likelihood. */
#include "stats/censored_priv.h"

#include "core/pool.h"

#include <math.h>

/* A run of rows of one group, summed by itself, so that threads can share the
 * work and the sums do not depend on how many there are. */
struct censored_block {
	size_t group, first, end;
	double value, slope_gamma, diagonal;
	double slope[CENSORED_BORDER], border[CENSORED_BORDER];
	double x_x, x_tau, tau_tau; /* of the corner */
};

enum { BLOCK_ROWS = 8192 };

static size_t
cut(const struct censored_data *d, struct censored_block *block)
{
	size_t n = 0;

	for (size_t g = 0; g < d->n_group; g++) {
		for (size_t i = d->first[g]; i < d->first[g + 1];
			i += BLOCK_ROWS, n++) {
			size_t end = i + BLOCK_ROWS;

			if (block == NULL)
				continue;
			block[n].group = g;
			block[n].first = i;
			block[n].end = end < d->first[g + 1] ? end
							     : d->first[g + 1];
		}
	}
	return n;
}

/* The derivatives of a term by (gamma, slope, tau), with sign and weight. */
static void
add_term(const struct censored_term *t, enum censored_kind kind,
	const struct censored_row *r, struct censored_block *to)
{
	double w = r->weight, x = r->x, y = r->middle;
	double by_tau, m_tau, tau_tau;

	if (kind == CENSORED_INTERVAL) {
		by_tau = y * t->d_m + r->half * t->d_h;
		m_tau = y * t->d_mm + r->half * t->d_mh;
		tau_tau = y * m_tau +
			r->half * (y * t->d_mh + r->half * t->d_hh);
	} else {
		y = kind == CENSORED_LEFT ? r->high : r->low;
		by_tau = y * t->d_m;
		m_tau = y * t->d_mm;
		tau_tau = y * m_tau;
	}
	to->value += w * t->value;
	to->slope_gamma -= w * t->d_m;
	to->slope[CENSORED_X] -= w * x * t->d_m;
	to->slope[CENSORED_TAU] += w * by_tau;
	to->diagonal -= w * t->d_mm;
	to->border[CENSORED_X] -= w * x * t->d_mm;
	to->border[CENSORED_TAU] += w * m_tau;
	to->x_x -= w * x * x * t->d_mm;
	to->x_tau += w * x * m_tau;
	to->tau_tau -= w * tau_tau;
}

/* What the tasks of one evaluation share. */
struct evaluation {
	const struct censored_search *s;
	const struct censored_point *at;
};

static enum err_code
sum_block(void *data, size_t index, struct err *err)
{
	const struct evaluation *e = data;
	const struct censored_data *d = e->s->data;
	struct censored_block *b = &e->s->block[index];
	double tau = e->at->border[CENSORED_TAU];

	(void)err;
	*b = (struct censored_block){
		.group = b->group, .first = b->first, .end = b->end};
	if (e->s->is_left_out[b->group])
		return ERR_NONE;
	for (size_t i = b->first; i < b->end; i++) {
		const struct censored_row *r = &d->row[i];
		double off = e->at->gamma[b->group] +
			e->at->border[CENSORED_X] * r->x;
		struct censored_ends ends = {tau * r->low - off,
			tau * r->high - off, tau * r->middle - off,
			tau * r->half};
		struct censored_term term;
		enum censored_kind kind = d->family == STATS_CENSORED_WEIBULL
			? censored_term_extreme(r->kind, &ends, &term)
			: censored_term_normal(r->kind, &ends, &term);

		add_term(&term, kind, r, b);
	}
	return ERR_NONE;
}

static void
clear(struct censored_arrow *w, size_t n)
{
	w->value = 0;
	for (size_t g = 0; g < n; g++) {
		w->slope.gamma[g] = w->diagonal[g] = 0;
		w->border[g][CENSORED_X] = w->border[g][CENSORED_TAU] = 0;
	}
	for (int i = 0; i < CENSORED_BORDER; i++) {
		w->slope.border[i] = 0;
		w->corner[i][CENSORED_X] = w->corner[i][CENSORED_TAU] = 0;
	}
}

static void
add_block(const struct censored_block *b, struct censored_arrow *to)
{
	to->value += b->value;
	to->slope.gamma[b->group] += b->slope_gamma;
	to->diagonal[b->group] += b->diagonal;
	for (int i = 0; i < CENSORED_BORDER; i++) {
		to->slope.border[i] += b->slope[i];
		to->border[b->group][i] += b->border[i];
	}
	to->corner[CENSORED_X][CENSORED_X] += b->x_x;
	to->corner[CENSORED_X][CENSORED_TAU] += b->x_tau;
	to->corner[CENSORED_TAU][CENSORED_TAU] += b->tau_tau;
}

static void
evaluate(const struct censored_search *s, const struct censored_point *p,
	struct censored_arrow *to)
{
	const struct censored_data *d = s->data;
	struct evaluation e = {.s = s, .at = p};
	double tau = p->border[CENSORED_TAU];
	/* A thread costs more than a few blocks. */
	size_t n_thread = d->first[d->n_group] > (size_t)2 * BLOCK_ROWS ? 0 : 1;

	clear(to, d->n_group);
	if (pool_run(n_thread, s->n_block, sum_block, &e, NULL) != ERR_NONE)
		to->value = -(double)INFINITY; /* no task reports any */
	for (size_t i = 0; i < s->n_block; i++)
		add_block(&s->block[i], to);
	to->value += d->n_exact * log(tau);
	to->slope.border[CENSORED_TAU] += d->n_exact / tau;
	to->corner[CENSORED_TAU][CENSORED_TAU] += d->n_exact / (tau * tau);
	to->corner[CENSORED_TAU][CENSORED_X] =
		to->corner[CENSORED_X][CENSORED_TAU];
}

static void
take_point(struct arena *a, size_t n, struct censored_point *p, bool *is_full)
{
	p->gamma = arena_take(a, n, sizeof *p->gamma);
	*is_full |= p->gamma == NULL;
}

static void
take_arrow(struct arena *a, size_t n, struct censored_arrow *w, bool *is_full)
{
	take_point(a, n, &w->slope, is_full);
	w->diagonal = arena_take(a, n, sizeof *w->diagonal);
	w->border = arena_take(a, n, sizeof *w->border);
	*is_full |= w->diagonal == NULL || w->border == NULL;
}

enum err_code
censored_search_open(struct arena *arena, const struct censored_data *data,
	struct censored_search *s, struct err *err)
{
	size_t n = data->n_group;
	bool is_full = false;

	*s = (struct censored_search){.data = data};
	take_point(arena, n, &s->at, &is_full);
	take_point(arena, n, &s->trial, &is_full);
	take_point(arena, n, &s->step, &is_full);
	take_arrow(arena, n, &s->here, &is_full);
	take_arrow(arena, n, &s->there, &is_full);
	s->is_left_out = arena_copy(
		arena, data->is_one_sided, n, sizeof *s->is_left_out);
	s->n_block = cut(data, NULL);
	s->block = arena_take(arena, s->n_block, sizeof *s->block);
	if (is_full || s->is_left_out == NULL || s->block == NULL)
		return err_memory(err);
	(void)cut(data, s->block);
	s->at.border[CENSORED_TAU] = 1;
	return ERR_NONE;
}

/* gamma of a pinned group as a sum of slope and tau: the group's value is
 * meant where x is 0, not at the centre of x. */
static void
pinned_gamma(const struct censored_data *d, const struct censored_pin *pin,
	double by[CENSORED_BORDER])
{
	by[CENSORED_X] = d->x_centre / d->x_unit;
	by[CENSORED_TAU] = pin->at;
}

/* The free directions of (slope, tau): n of them, as columns of w. */
static int
free_border(const struct censored_data *d, const struct censored_pin *pin,
	double w[CENSORED_BORDER][CENSORED_BORDER])
{
	int n = 0;

	if (d->has_x && pin->what != PIN_X) {
		w[CENSORED_X][n] = 1;
		w[CENSORED_TAU][n++] = 0;
	}
	if (pin->what != PIN_TAU) {
		w[CENSORED_X][n] = pin->what == PIN_X ? pin->at : 0;
		w[CENSORED_TAU][n++] = 1;
	}
	return n;
}

/* Solves the 1 or 2 equations left for the free directions; gives rhs'x.  A
 * direction without information stays: the first of two is the slope. */
static double
solve_border(int n, double s[CENSORED_BORDER][CENSORED_BORDER],
	const double rhs[CENSORED_BORDER], double x[CENSORED_BORDER],
	bool *is_flat)
{
	/* Of a product of diagonals: 4500 roundings. */
	static const double lost = 1e-12;
	int last = n - 1;
	double det;

	*is_flat = false;
	if (n == 0)
		return 0;
	det = s[0][0] * s[1][1] - s[0][1] * s[1][0];
	if (n == 1 || !(det > lost * s[0][0] * s[1][1])) {
		*is_flat = n > 1 || !(s[last][last] > 0);
		x[last] = s[last][last] > 0 ? rhs[last] / s[last][last] : 0;
		return rhs[last] * x[last];
	}
	x[0] = (s[1][1] * rhs[0] - s[0][1] * rhs[1]) / det;
	x[1] = (s[0][0] * rhs[1] - s[1][0] * rhs[0]) / det;
	return rhs[0] * x[0] + rhs[1] * x[1];
}

struct schur {
	double s[CENSORED_BORDER][CENSORED_BORDER];
	double rhs[CENSORED_BORDER];
	double done; /* rhs'x of the gammas put away */
};

static void
put_away(const struct censored_search *s, const struct censored_pin *pin,
	const struct censored_point *rhs, struct schur *to)
{
	const struct censored_arrow *m = &s->here;
	double u[CENSORED_BORDER];

	for (int i = 0; i < CENSORED_BORDER; i++) {
		to->rhs[i] = rhs->border[i];
		for (int j = 0; j < CENSORED_BORDER; j++)
			to->s[i][j] = m->corner[i][j];
	}
	pinned_gamma(s->data, pin, u);
	for (size_t g = 0; g < s->data->n_group; g++) {
		const double *b = m->border[g];
		double d = m->diagonal[g], r = rhs->gamma[g];
		bool is_pinned = pin->what == PIN_GROUP && pin->group == g;

		if (s->is_left_out[g] || (!is_pinned && !(d > 0)))
			continue;
		for (int i = 0; i < CENSORED_BORDER; i++) {
			to->rhs[i] += is_pinned ? u[i] * r : -b[i] * r / d;
			for (int j = 0; j < CENSORED_BORDER; j++)
				to->s[i][j] += is_pinned ? u[i] * b[j] +
						b[i] * u[j] + d * u[i] * u[j]
							 : -b[i] * b[j] / d;
		}
		if (!is_pinned)
			to->done += r * r / d;
	}
}

double
censored_solve(const struct censored_search *s, const struct censored_pin *pin,
	const struct censored_point *rhs, struct censored_point *x,
	bool *is_flat)
{
	const struct censored_arrow *m = &s->here;
	double w[CENSORED_BORDER][CENSORED_BORDER], u[CENSORED_BORDER];
	double small[CENSORED_BORDER][CENSORED_BORDER] = {{0}};
	double small_rhs[CENSORED_BORDER] = {0}, small_x[CENSORED_BORDER] = {0};
	struct schur full = {.done = 0};
	int n = free_border(s->data, pin, w);
	double total;

	put_away(s, pin, rhs, &full);
	for (int k = 0; k < n; k++)
		for (int i = 0; i < CENSORED_BORDER; i++) {
			small_rhs[k] += w[i][k] * full.rhs[i];
			for (int l = 0; l < n; l++)
				for (int j = 0; j < CENSORED_BORDER; j++)
					small[k][l] += w[i][k] * full.s[i][j] *
						w[j][l];
		}
	total = full.done + solve_border(n, small, small_rhs, small_x, is_flat);
	for (int i = 0; i < CENSORED_BORDER; i++) {
		x->border[i] = 0;
		for (int k = 0; k < n; k++)
			x->border[i] += w[i][k] * small_x[k];
	}
	pinned_gamma(s->data, pin, u);
	for (size_t g = 0; g < s->data->n_group; g++) {
		const double *b = m->border[g];

		x->gamma[g] = 0;
		if (pin->what == PIN_GROUP && pin->group == g)
			x->gamma[g] = u[CENSORED_X] * x->border[CENSORED_X] +
				u[CENSORED_TAU] * x->border[CENSORED_TAU];
		else if (!s->is_left_out[g] && m->diagonal[g] > 0)
			x->gamma[g] = (rhs->gamma[g] -
					      b[CENSORED_X] *
						      x->border[CENSORED_X] -
					      b[CENSORED_TAU] *
						      x->border[CENSORED_TAU]) /
				m->diagonal[g];
	}
	return total;
}

/* Brings a place to what is pinned. */
static void
hold(const struct censored_data *d, const struct censored_pin *pin,
	struct censored_point *p)
{
	double u[CENSORED_BORDER];

	if (pin->what == PIN_TAU)
		p->border[CENSORED_TAU] = pin->at;
	if (pin->what == PIN_X)
		p->border[CENSORED_X] = pin->at * p->border[CENSORED_TAU];
	if (pin->what != PIN_GROUP)
		return;
	pinned_gamma(d, pin, u);
	p->gamma[pin->group] = u[CENSORED_X] * p->border[CENSORED_X] +
		u[CENSORED_TAU] * p->border[CENSORED_TAU];
}

static void
go(const struct censored_search *s, double share, struct censored_point *to)
{
	for (size_t g = 0; g < s->data->n_group; g++)
		to->gamma[g] = s->at.gamma[g] + share * s->step.gamma[g];
	for (int i = 0; i < CENSORED_BORDER; i++)
		to->border[i] = s->at.border[i] + share * s->step.border[i];
}

static void
swap(struct censored_search *s)
{
	struct censored_point p = s->at;
	struct censored_arrow w = s->here;

	s->at = s->trial;
	s->trial = p;
	s->here = s->there;
	s->there = w;
}

/* A share of the step that raises the log-likelihood; false if none does. */
static bool
advance(struct censored_search *s)
{
	/* Armijo's rule; the rounding of a sum of log-likelihoods. */
	static const double least_gain = 1e-4, rounding = 1e-13;
	enum { HALVINGS = 60 };
	double tau = s->at.border[CENSORED_TAU];
	double change = s->step.border[CENSORED_TAU], share = 1;

	if (change < -0.9 * tau) /* tau stays above 0 */
		share = 0.9 * tau / -change;
	for (int i = 0; i < HALVINGS; i++, share /= 2) {
		double gain;

		go(s, share, &s->trial);
		evaluate(s, &s->trial, &s->there);
		gain = s->there.value - s->here.value;
		if (isfinite(s->there.value) &&
			gain >= least_gain * share * s->decrement -
					rounding *
						(fabs(s->here.value) +
							s->data->n_weight)) {
			swap(s);
			return true;
		}
	}
	return false;
}

enum err_code
censored_climb(struct censored_search *s, const struct censored_pin *pin,
	double tolerance, struct err *err)
{
	enum { STEPS_MAX = 300 };
	/* Of tau, which began near 1, and of the decrement where rounding hides
	 * what is left to gain. */
	static const double runaway = 1e9, rounding = 1e-6;

	hold(s->data, pin, &s->at);
	evaluate(s, &s->at, &s->here);
	s->is_lost = !isfinite(s->here.value);
	s->decrement = 0;
	for (int i = 0; i < STEPS_MAX && !s->is_lost; i++) {
		double tau = s->at.border[CENSORED_TAU];

		s->decrement = censored_solve(
			s, pin, &s->here.slope, &s->step, &s->is_flat);
		if (tau > runaway)
			return err_report(err, ERR_INPUT, "value",
				"The readings agree with no spread at all, so "
				"there is none to estimate; give readings that "
				"differ more, or finer steps.");
		if (tau < 1 / runaway)
			return err_report(err, ERR_INPUT, "value",
				"The readings agree with a spread however "
				"large; give some that bound a value on both "
				"sides.");
		if (s->decrement < tolerance)
			return ERR_NONE;
		if (!(s->decrement > 0))
			break;
		if (advance(s))
			continue;
		if (s->decrement < rounding)
			return ERR_NONE;
		break;
	}
	return err_report(err, ERR_NUMERIC, "value",
		"The search for the most likely values did not settle (scale "
		"%g, still to gain %g); the readings may be too large, too "
		"small or too much alike.",
		s->data->unit / s->at.border[CENSORED_TAU], s->decrement / 2);
}

void
censored_settle(struct censored_search *s)
{
	go(s, 1, &s->trial);
	evaluate(s, &s->trial, &s->there);
	swap(s);
}

double
censored_pinned_slope(
	const struct censored_search *s, const struct censored_pin *pin)
{
	const struct censored_arrow *m = &s->here;
	const struct censored_point *d = &s->step;
	double tau = s->at.border[CENSORED_TAU] + d->border[CENSORED_TAU];
	int k = pin->what == PIN_X ? CENSORED_X : CENSORED_TAU;
	double slope;

	if (pin->what == PIN_GROUP) {
		size_t g = pin->group;

		return tau *
			(m->slope.gamma[g] - m->diagonal[g] * d->gamma[g] -
				m->border[g][CENSORED_X] *
					d->border[CENSORED_X] -
				m->border[g][CENSORED_TAU] *
					d->border[CENSORED_TAU]);
	}
	slope = m->slope.border[k] -
		m->corner[k][CENSORED_X] * d->border[CENSORED_X] -
		m->corner[k][CENSORED_TAU] * d->border[CENSORED_TAU];
	for (size_t g = 0; g < s->data->n_group; g++)
		if (!s->is_left_out[g])
			slope -= m->border[g][k] * d->gamma[g];
	return pin->what == PIN_X ? tau * slope : slope;
}

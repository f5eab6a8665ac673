/* censored.c - regression on readings of which some are only bounds: the
 * estimates, their errors and their profile intervals. */
#include "stats/censored.h"

#include "stats/censored_priv.h"

#include <math.h>

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

/* How far the log-likelihood may still rise: the place is then right to the
 * root of it in standard errors, and after the last step to its square. */
static const double fit_tolerance = 1e-13;

struct fit {
	struct censored_search s;
	struct censored_point best, path, rhs;
	struct censored_arrow top; /* at best */
	double z;                  /* how far an interval goes */
	double profile_tolerance;
};

static void
copy_point(
	struct censored_point *to, const struct censored_point *from, size_t n)
{
	for (size_t g = 0; g < n; g++)
		to->gamma[g] = from->gamma[g];
	for (int i = 0; i < CENSORED_BORDER; i++)
		to->border[i] = from->border[i];
}

static void
clear_point(struct censored_point *p, size_t n)
{
	for (size_t g = 0; g < n; g++)
		p->gamma[g] = 0;
	p->border[CENSORED_X] = p->border[CENSORED_TAU] = 0;
}

static void
copy_arrow(
	struct censored_arrow *to, const struct censored_arrow *from, size_t n)
{
	to->value = from->value;
	copy_point(&to->slope, &from->slope, n);
	for (size_t g = 0; g < n; g++) {
		to->diagonal[g] = from->diagonal[g];
		for (int i = 0; i < CENSORED_BORDER; i++)
			to->border[g][i] = from->border[g][i];
	}
	for (int i = 0; i < CENSORED_BORDER; i++)
		for (int j = 0; j < CENSORED_BORDER; j++)
			to->corner[i][j] = from->corner[i][j];
}

static enum err_code
open_fit(struct arena *a, const struct censored_data *data, struct fit *f,
	struct err *err)
{
	struct censored_search spare; /* for its memory */

	TRY(censored_search_open(a, data, &f->s, err));
	TRY(censored_search_open(a, data, &spare, err));
	f->best = spare.at;
	f->path = spare.trial;
	f->rhs = spare.step;
	f->top = spare.here;
	return ERR_NONE;
}

/* A decrement d that is not climbed leaves an error near d^1.5 / (6 sqrt(n)) in
 * the profile log-likelihood, the third term of its series, since third
 * derivatives by standardised places fall with the root of n, the rows of the
 * smallest group.  The tolerance that keeps it near 2e-9, and the ends within
 * as much of a standard error. */
static double
choose_tolerance(const struct censored_data *d)
{
	static const double wanted = 2e-9, most = 1e-4;
	double least = (double)INFINITY;

	for (size_t g = 0; g < d->n_group; g++) {
		double n = 0;

		for (size_t i = d->first[g]; i < d->first[g + 1]; i++)
			n += d->row[i].weight;
		least = fmin(least, n);
	}
	return fmin(most, pow(6 * wanted * sqrt(least), 2. / 3));
}

/* One way from the estimate: where the profile log-likelihood has fallen by
 * z^2 / 2.  Its signed root is nearly a straight line of slope 1 / se. */
struct walk {
	struct censored_pin pin;
	double from, way;    /* the estimate; -1 or 1 */
	double inner, outer; /* the end lies between; outer may be infinite */
};

/* What is profiled: its value where the search began, its standard error and
 * the direction in which the rest follows it. */
struct profiled {
	struct censored_pin pin;
	double value, se;
};

/* The fitted place moved along with the pinned value, as far as seen. */
static void
follow(struct fit *f, double share)
{
	struct censored_search *s = &f->s;

	for (size_t g = 0; g < s->data->n_group; g++)
		s->at.gamma[g] = f->best.gamma[g] +
			share * (s->at.gamma[g] - f->best.gamma[g]);
	for (int i = 0; i < CENSORED_BORDER; i++)
		s->at.border[i] = f->best.border[i] +
			share * (s->at.border[i] - f->best.border[i]);
	if (!(s->at.border[CENSORED_TAU] > 0))
		copy_point(&s->at, &f->best, s->data->n_group);
}

/* The next try: the root of the straight line, kept inside the bracket. */
static double
next_try(const struct walk *w, double at, double off, double slope)
{
	static const double most_growth = 4;
	double next = at - w->way * off / slope;
	double farthest = w->from + most_growth * (at - w->from);

	if (isinf(w->outer)) {
		if (!(w->way * next > w->way * w->inner) ||
			w->way * next > w->way * farthest)
			next = farthest;
	} else if (!(w->way * next > w->way * w->inner &&
			   w->way * next < w->way * w->outer)) {
		next = w->inner / 2 + w->outer / 2;
	}
	if (w->pin.what == PIN_TAU && !(next > 0))
		next = at / most_growth;
	return next;
}

/* Fits the rest at the pinned value: from where the path led or, where that is
 * too steep to come back from, from the means and the slope of the estimate. */
static enum err_code
fit_rest(struct fit *f, const struct walk *w, struct err *err)
{
	struct censored_search *s = &f->s;
	struct err first = {.code = ERR_NONE};
	double share = 1;

	if (censored_climb(s, &w->pin, f->profile_tolerance, &first) ==
		ERR_NONE)
		return ERR_NONE;
	if (w->pin.what == PIN_TAU)
		share = w->pin.at / f->best.border[CENSORED_TAU];
	for (size_t g = 0; g < s->data->n_group; g++)
		s->at.gamma[g] = share * f->best.gamma[g];
	for (int i = 0; i < CENSORED_BORDER; i++)
		s->at.border[i] = share * f->best.border[i];
	return censored_climb(s, &w->pin, f->profile_tolerance, err);
}

static enum err_code
walk(struct fit *f, struct walk *w, double se, double *end, struct err *err)
{
	enum { TRIES_MAX = 200 };
	/* A miss of the first try tells the bend of the line: what is left
	 * after the next is the cube of it. */
	static const double first_miss = 1e-3, later_miss = 1e-6;
	static const double farthest = 1e8, nearest_tau = 1e-8;
	static const double rounding = 1e-14;
	struct censored_search *s = &f->s;

	w->inner = w->from;
	w->outer = w->way * (double)INFINITY;
	w->pin.at = w->from + w->way * f->z * se;
	if (w->pin.what == PIN_TAU && !(w->pin.at > 0))
		w->pin.at = w->from / 4;
	for (int i = 0; i < TRIES_MAX; i++) {
		struct err inner = {.code = ERR_NONE};
		double at = w->pin.at, off, fall, root, slope;
		enum err_code code = fit_rest(f, w, &inner);

		if (code == ERR_NUMERIC && i < TRIES_MAX - 1) {
			/* Too far: the log-likelihood is not finite there, or a
			 * wall that no step comes down from. */
			w->outer = at;
			w->pin.at = w->inner / 2 + at / 2;
			copy_point(&s->at, &f->best, s->data->n_group);
			continue;
		}
		if (code == ERR_INPUT || fabs(at - w->from) > farthest * se ||
			(w->pin.what == PIN_TAU && at < nearest_tau)) {
			*end = w->way * (double)INFINITY;
			return ERR_NONE;
		}
		if (code != ERR_NONE)
			return err_report(
				err, code, inner.field, "%s", inner.text);
		fall = f->top.value - s->here.value - s->decrement / 2;
		root = sqrt(2 * fmax(fall, 0));
		off = root - f->z;
		slope = -w->way * censored_pinned_slope(s, &w->pin) / root;
		if (off > 0)
			w->outer = at;
		else
			w->inner = at;
		w->pin.at = next_try(w, at, off, slope);
		if (fabs(off) < (i == 0 ? first_miss : later_miss) ||
			(isfinite(w->outer) &&
				fabs(w->outer - w->inner) <=
					rounding * fabs(w->outer - w->from))) {
			*end = w->pin.at;
			return ERR_NONE;
		}
		follow(f, (w->pin.at - w->from) / (at - w->from));
	}
	return err_report(err, ERR_NUMERIC, "value",
		"An end of an interval was not found; the readings may be too "
		"few.");
}

/* Both ends, in the units of the search. */
static enum err_code
profile(struct fit *f, const struct profiled *of, double end[2],
	struct err *err)
{
	/* An error beyond this, in scales, is no place to begin. */
	static const double most = 10;
	double tau = f->best.border[CENSORED_TAU], se = of->se;
	size_t n = f->s.data->n_group;

	if (of->pin.what == PIN_GROUP && !(se * tau < most)) {
		se = most / tau;
		clear_point(&f->path, n);
	}
	end[0] = end[1] = of->value;
	for (int i = 0; i < 2 && f->z > 0; i++) {
		struct walk w = {.pin = of->pin,
			.from = of->value,
			.way = i == 0 ? -1 : 1};
		double share = w.way * f->z / se;

		for (size_t g = 0; g < n; g++)
			f->s.at.gamma[g] = f->best.gamma[g] +
				share * f->path.gamma[g];
		for (int k = 0; k < CENSORED_BORDER; k++)
			f->s.at.border[k] = f->best.border[k] +
				share * f->path.border[k];
		if (!(f->s.at.border[CENSORED_TAU] > 0))
			copy_point(&f->s.at, &f->best, n);
		TRY(walk(f, &w, se, &end[i], err));
	}
	return ERR_NONE;
}

/* The standard error of what has derivatives rhs, and the path; infinite where
 * the readings say nothing about it. */
static double
error_of(struct fit *f)
{
	static const struct censored_pin nothing = {.what = PIN_NOTHING};
	bool is_flat;
	double variance;

	copy_arrow(&f->s.here, &f->top, f->s.data->n_group);
	variance = censored_solve(&f->s, &nothing, &f->rhs, &f->path, &is_flat);
	for (size_t g = 0; g < f->s.data->n_group; g++)
		is_flat |= fabs(f->rhs.gamma[g]) > 0 &&
			!(f->top.diagonal[g] > 0);
	return !is_flat && variance > 0 ? sqrt(variance) : (double)INFINITY;
}

/* A group whose readings are all bounds on one side: the estimate runs away,
 * and the end on the other side is where its readings become unlikely. */
static enum err_code
one_sided(struct fit *f, size_t g, struct stats_censored_part *to,
	struct err *err)
{
	/* Far enough inside that the readings cost nothing to see. */
	static const double beyond = 50;
	const struct censored_data *d = f->s.data;
	double tau = f->best.border[CENSORED_TAU], farthest = 0;
	bool is_right = d->row[d->first[g]].kind == CENSORED_RIGHT;
	struct walk w = {.pin = {.what = PIN_GROUP, .group = g},
		.way = is_right ? -1 : 1};
	double end;

	for (size_t i = d->first[g]; i < d->first[g + 1]; i++)
		farthest = fmax(
			farthest, is_right ? d->row[i].low : -d->row[i].high);
	w.from = -w.way * (farthest + beyond / tau);
	copy_point(&f->s.at, &f->best, d->n_group);
	end = -w.way * (double)INFINITY;
	f->s.is_left_out[g] = false;
	if (f->z > 0)
		TRY(walk(f, &w, beyond / 2 / f->z / tau, &end, err));
	f->s.is_left_out[g] = true;
	end = d->centre[g] + d->unit * end;
	*to = (struct stats_censored_part){
		.estimate = is_right ? (double)INFINITY : -(double)INFINITY,
		.se = (double)INFINITY,
		.low = is_right ? end : -(double)INFINITY,
		.high = is_right ? (double)INFINITY : end,
	};
	return ERR_NONE;
}

static enum err_code
one_group(struct fit *f, size_t g, struct stats_censored_part *to,
	struct err *err)
{
	const struct censored_data *d = f->s.data;
	double tau = f->best.border[CENSORED_TAU];
	double back = d->x_centre / d->x_unit, end[2];
	struct profiled of = {.pin = {.what = PIN_GROUP, .group = g}};

	if (d->is_one_sided[g])
		return one_sided(f, g, to, err);
	of.value = (f->best.gamma[g] - back * f->best.border[CENSORED_X]) / tau;
	clear_point(&f->rhs, f->s.data->n_group);
	f->rhs.gamma[g] = 1 / tau;
	f->rhs.border[CENSORED_X] = -back / tau;
	f->rhs.border[CENSORED_TAU] = -of.value / tau;
	of.se = error_of(f);
	TRY(profile(f, &of, end, err));
	to->estimate = d->centre[g] + d->unit * of.value;
	to->se = d->unit * of.se;
	to->low = d->centre[g] + d->unit * end[0];
	to->high = d->centre[g] + d->unit * end[1];
	return ERR_NONE;
}

static enum err_code
fit_x(struct fit *f, struct stats_censored_part *to, struct err *err)
{
	/* In units of the spread of y over that of x. */
	static const double no_slope_error = 1e4, no_spread = 1e5;
	const struct censored_data *d = f->s.data;
	double tau = f->best.border[CENSORED_TAU], unit = d->unit / d->x_unit;
	struct profiled of = {.pin = {.what = PIN_X}};
	double end[2];

	of.value = f->best.border[CENSORED_X] / tau;
	clear_point(&f->rhs, f->s.data->n_group);
	f->rhs.border[CENSORED_X] = 1 / tau;
	f->rhs.border[CENSORED_TAU] = -of.value / tau;
	of.se = error_of(f);
	if (!(of.se * tau < no_slope_error) && tau > no_spread)
		return err_report(err, ERR_INPUT, "value",
			"A line in x passes through every reading, so there "
			"is no spread to estimate; leave x out, or give more "
			"readings.");
	if (!(of.se * tau < no_slope_error))
		return err_report(err, ERR_INPUT, "x",
			"The readings agree with a slope of x however steep; "
			"leave x out, or give readings that bound it.");
	TRY(profile(f, &of, end, err));
	*to = (struct stats_censored_part){.estimate = unit * of.value,
		.se = unit * of.se,
		.low = unit * end[0],
		.high = unit * end[1]};
	return ERR_NONE;
}

static enum err_code
fit_scale(struct fit *f, struct stats_censored_part *to, struct err *err)
{
	double unit = f->s.data->unit, tau = f->best.border[CENSORED_TAU];
	struct profiled of = {.pin = {.what = PIN_TAU}, .value = tau};
	double end[2];

	clear_point(&f->rhs, f->s.data->n_group);
	f->rhs.border[CENSORED_TAU] = 1;
	of.se = error_of(f);
	if (!isfinite(of.se))
		return err_report(err, ERR_INPUT, "value",
			"The readings do not settle a spread; give some that "
			"bound a value on both sides.");
	TRY(profile(f, &of, end, err));
	*to = (struct stats_censored_part){.estimate = unit / tau,
		.se = unit * of.se / (tau * tau),
		.low = unit / end[1],
		.high = isfinite(end[0]) ? unit / end[0] : (double)INFINITY};
	return ERR_NONE;
}

/* To the top, where everything else starts from. */
static enum err_code
climb_to_top(struct fit *f, struct err *err)
{
	static const struct censored_pin nothing = {.what = PIN_NOTHING};
	enum { TRIES_MAX = 100 };
	struct err inner = {.code = ERR_NONE};
	size_t n = f->s.data->n_group;
	enum err_code code = censored_climb(
		&f->s, &nothing, fit_tolerance, &inner);

	/* A wider scale brings far readings within what exp can hold. */
	for (int i = 0; f->s.is_lost && i < TRIES_MAX; i++) {
		err_clear(&inner);
		f->s.at.border[CENSORED_TAU] /= 2;
		code = censored_climb(&f->s, &nothing, fit_tolerance, &inner);
	}
	if (code != ERR_NONE)
		return err_report(err, code, inner.field, "%s", inner.text);
	censored_settle(&f->s);
	copy_point(&f->best, &f->s.at, n);
	copy_arrow(&f->top, &f->s.here, n);
	return ERR_NONE;
}

enum err_code
stats_censored_fit(struct arena *arena, const struct stats_censored_ask *ask,
	struct stats_censored *out, struct err *err)
{
	struct censored_data data;
	struct stats_censored got = {.n_distinct = 0};
	struct stats_censored_part *group;
	struct fit f = {.z = 0};

	TRY(censored_prepare(arena, ask, &data, err));
	TRY(open_fit(arena, &data, &f, err));
	group = arena_take(arena, data.n_group, sizeof *group);
	if (group == NULL)
		return err_memory(err);
	f.profile_tolerance = choose_tolerance(&data);
	if (ask->confidence > 0)
		f.z = qnorm5(ask->confidence / 2 + 0.5, 0, 1, true, false);
	TRY(climb_to_top(&f, err));
	if (data.has_x)
		TRY(fit_x(&f, &got.x, err));
	TRY(fit_scale(&f, &got.scale, err));
	for (size_t g = 0; g < data.n_group; g++)
		TRY(one_group(&f, g, &group[g], err));
	got.group = group;
	got.n_distinct = data.first[data.n_group];
	/* Each exact reading's density is per unit of the search. */
	got.log_likelihood = f.top.value + data.log_jacobian -
		data.n_exact * log(data.unit);
	*out = got;
	return ERR_NONE;
}

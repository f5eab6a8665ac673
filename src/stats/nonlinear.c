/* nonlinear.c - a curve of any form by least squares. */
#include "stats/nonlinear.h"

#include "stats/qr.h"

#include <float.h>
#include <math.h>

/* What one run does differently. */
struct manner {
	bool keeps_scale; /* column lengths only grow (More), or are those of
			   * the place (Marquardt) */
	bool bends;       /* geodesic acceleration */
	long double damping;
};
static const struct manner manners[] = {
	{true, true, 1e-3L},
	{false, true, 1e-3L},
	{true, false, 1e-1L},
	{false, false, 10},
	{true, true, 1e3L},
};
enum { N_MANNER = sizeof manners / sizeof manners[0], STEPS_MAX = 3000 };

/* The residuals lean on the columns by a share of their own length per degree
 * of freedom: parameters are then about that share of their standard errors
 * from the least place (Bates and Watts 1981, Technometrics 23, 179-183).
 * Below the first the squares no longer tell better from worse, and undamped
 * steps take over; where the fit is exact to rounding the second has to do. */
static const long double leaning_most = 1e-7L, leaning_stalled = 1e-4L;

struct run {
	const struct stats_nonlinear_ask *ask;
	const struct manner *manner;
	size_t m, n;
	long double *b, *trial; /* parameters */
	long double *scale, *step, *bend;
	long double *r, *r_trial; /* residuals; then Q'r */
	long double *jacobian;    /* m x n by columns; then R above */
	long double *small, *rhs; /* the damped system: 2n x n, 2n */
	long double *along;       /* second derivatives along the step */
	long double squares;      /* of the residuals */
	long double damping, growth;
	size_t n_step;
};

static enum err_code
open_run(struct arena *a, struct run *w, struct err *err)
{
	size_t m = w->m, n = w->n;

	w->b = arena_take(a, n, sizeof *w->b);
	w->trial = arena_take(a, n, sizeof *w->trial);
	w->scale = arena_take(a, n, sizeof *w->scale);
	w->step = arena_take(a, n, sizeof *w->step);
	w->bend = arena_take(a, n, sizeof *w->bend);
	w->r = arena_take(a, m, sizeof *w->r);
	w->r_trial = arena_take(a, m, sizeof *w->r_trial);
	w->along = arena_take(a, m, sizeof *w->along);
	w->jacobian = arena_take(a, m * n, sizeof *w->jacobian);
	w->small = arena_take(a, 2 * n * n, sizeof *w->small);
	w->rhs = arena_take(a, 2 * n, sizeof *w->rhs);
	if (w->b == NULL || w->trial == NULL || w->scale == NULL ||
		w->step == NULL || w->bend == NULL || w->r == NULL ||
		w->r_trial == NULL || w->along == NULL || w->jacobian == NULL ||
		w->small == NULL || w->rhs == NULL)
		return err_memory(err);
	return ERR_NONE;
}

/* Residuals at b and their sum of squares; infinite where there is none. */
static long double
residuals(const struct run *w, const long double *b, long double *r)
{
	long double sum = 0;

	for (size_t i = 0; i < w->m; i++) {
		long double value;

		if (!w->ask->curve(w->ask->data, i, b, &value, NULL))
			return (long double)INFINITY;
		r[i] = (long double)w->ask->y[i] - value;
		sum += r[i] * r[i];
	}
	return sum;
}

static bool
slopes(const struct run *w, long double *row)
{
	for (size_t i = 0; i < w->m; i++) {
		long double value;

		if (!w->ask->curve(w->ask->data, i, w->b, &value, row))
			return false;
		for (size_t j = 0; j < w->n; j++)
			w->jacobian[j * w->m + i] = row[j];
	}
	return true;
}

static void
rescale(struct run *w)
{
	for (size_t j = 0; j < w->n; j++) {
		long double length = stats_qr_norm(
			&w->jacobian[j * w->m], w->m);

		if (!w->manner->keeps_scale || length > w->scale[j])
			w->scale[j] = length;
		if (!(w->scale[j] > 0))
			w->scale[j] = 1;
	}
}

/* Triangle R of the damped system into small, its right side into rhs. */
static void
damp(struct run *w)
{
	size_t n = w->n;
	long double root = sqrtl(w->damping);

	for (size_t j = 0; j < n; j++) {
		for (size_t i = 0; i < 2 * n; i++)
			w->small[j * 2 * n + i] = i <= j
				? w->jacobian[j * w->m + i]
				: 0;
		w->small[j * 2 * n + n + j] = root * w->scale[j];
		w->rhs[j] = w->r[j];
		w->rhs[n + j] = 0;
	}
	stats_qr_factor(w->small, 2 * n, n, w->rhs);
}

/* Whether the damped triangle can be divided by. */
static bool
is_solvable(const struct run *w)
{
	for (size_t j = 0; j < w->n; j++)
		if (!(fabsl(w->small[j * 2 * w->n + j]) > 0))
			return false;
	return true;
}

static long double
scaled_length(const struct run *w, const long double *v)
{
	long double sum = 0;

	for (size_t j = 0; j < w->n; j++)
		sum += w->scale[j] * v[j] * (w->scale[j] * v[j]);
	return sqrtl(sum);
}

/* f'' along the step from three values of the curve, by row. */
static bool
second_along(struct run *w)
{
	/* Of the step; the share Transtrum and Sethna found good. */
	static const long double h = 0.1L;

	for (size_t i = 0; i < w->m; i++) {
		long double value[3];

		for (int k = 0; k < 3; k++) {
			for (size_t j = 0; j < w->n; j++)
				w->trial[j] = w->b[j] +
					(long double)(k - 1) * h * w->step[j];
			if (!w->ask->curve(
				    w->ask->data, i, w->trial, &value[k], NULL))
				return false;
		}
		w->along[i] = (value[0] - 2 * value[1] + value[2]) / (h * h);
	}
	return true;
}

/* Adds half the geodesic acceleration to the step; false if it is too large
 * beside it for the series to be trusted.  The normal equations will do, since
 * this only corrects. */
static bool
bend(struct run *w, long double *row)
{
	static const long double most = 0.75L;
	size_t n = w->n;
	long double length;

	if (!second_along(w))
		return false;
	for (size_t j = 0; j < n; j++)
		w->bend[j] = 0;
	for (size_t i = 0; i < w->m; i++) {
		long double value;

		if (!w->ask->curve(w->ask->data, i, w->b, &value, row))
			return false;
		for (size_t j = 0; j < n; j++)
			w->bend[j] -= row[j] * w->along[i];
	}
	stats_qr_solve_transposed(w->small, 2 * n, n, w->bend);
	stats_qr_solve(w->small, 2 * n, n, w->bend);
	length = scaled_length(w, w->bend);
	if (!(2 * length <= most * scaled_length(w, w->step)))
		return false;
	for (size_t j = 0; j < n; j++)
		w->step[j] += w->bend[j] / 2;
	return true;
}

/* The fall in squares that the damped linear model promises. */
static long double
promise(const struct run *w)
{
	long double length = scaled_length(w, w->step), sum = 0;

	for (size_t i = 0; i < w->n; i++) {
		long double row = 0;

		for (size_t j = i; j < w->n; j++)
			row += w->jacobian[j * w->m + i] * w->step[j];
		sum += row * row;
	}
	return sum + 2 * w->damping * length * length;
}

/* Tries damped steps until one lowers the squares; false if none does. */
static bool
advance(struct run *w, long double *row)
{
	static const long double most_damping = 1e60L;
	size_t n = w->n;

	for (; w->damping < most_damping;
		w->damping *= w->growth, w->growth *= 2) {
		long double promised, squares, gain;

		damp(w);
		if (!is_solvable(w))
			continue;
		for (size_t j = 0; j < n; j++)
			w->step[j] = w->rhs[j];
		stats_qr_solve(w->small, 2 * n, n, w->step);
		promised = promise(w);
		if (w->manner->bends && !bend(w, row))
			continue;
		for (size_t j = 0; j < n; j++)
			w->trial[j] = w->b[j] + w->step[j];
		squares = residuals(w, w->trial, w->r_trial);
		gain = (w->squares - squares) / promised;
		if (!(squares < w->squares) || !(gain > 0))
			continue;
		for (size_t j = 0; j < n; j++)
			w->b[j] = w->trial[j];
		w->squares = squares;
		/* Nielsen (1999), equation 2.21. */
		gain = 2 * fminl(gain, 1) - 1;
		w->damping *= fmaxl(1 / 3.0L, 1 - gain * gain * gain);
		w->growth = 2;
		return true;
	}
	return false;
}

/* How far the residuals lean on the columns: see leaning_most. */
static long double
leaning(const struct run *w)
{
	size_t df = w->m - w->n;
	long double on = stats_qr_norm(w->r, w->n);
	long double off = stats_qr_norm(w->r + w->n, df);

	if (!(on > 0))
		return 0;
	if (df == 0)
		return on / sqrtl(w->squares + on * on);
	return on / sqrtl((long double)w->n) / (off / sqrtl((long double)df));
}

/* Residuals, slopes and triangle at b; false where they are not finite. */
static bool
look(struct run *w, long double *row, long double *lean)
{
	w->squares = residuals(w, w->b, w->r);
	if (!isfinite(w->squares) || !slopes(w, row))
		return false;
	rescale(w);
	stats_qr_factor(w->jacobian, w->m, w->n, w->r);
	*lean = leaning(w);
	return isfinite(*lean);
}

static bool
is_full(const struct run *w)
{
	for (size_t j = 0; j < w->n; j++)
		if (!(fabsl(w->jacobian[j * w->m + j]) > 0))
			return false;
	return true;
}

/* Undamped steps for as long as each leans less than the one before. */
static bool
polish(struct run *w, long double *row, long double lean)
{
	enum { POLISH_MAX = 100 };
	static const long double worth_while = 0.9L;
	long double before;

	for (int i = 0; i < POLISH_MAX && lean > 0 && is_full(w); i++) {
		before = lean;
		for (size_t j = 0; j < w->n; j++) {
			w->trial[j] = w->b[j];
			w->step[j] = w->r[j];
		}
		stats_qr_solve(w->jacobian, w->m, w->n, w->step);
		for (size_t j = 0; j < w->n; j++)
			w->b[j] += w->step[j];
		if (look(w, row, &lean) && lean < worth_while * before)
			continue;
		for (size_t j = 0; j < w->n; j++)
			w->b[j] = w->trial[j];
		return look(w, row, &lean);
	}
	return true;
}

/* Whether every parameter is told from the others here. */
static bool
is_settled(const struct run *w)
{
	/* Of a column's own length: 450 roundings of a double. */
	static const long double least = 1e-13L;

	for (size_t j = 0; j < w->n; j++) {
		const long double *column = &w->jacobian[j * w->m];

		if (!(fabsl(column[j]) >= least * stats_qr_norm(column, j + 1)))
			return false;
	}
	return true;
}

/* Whether a place from which no step lowers the squares is an end: the rest is
 * rounding, of the squares or of y as doubles, or no step is right since the
 * parameters cannot be told apart. */
static bool
is_end(const struct run *w, long double lean, long double y)
{
	return lean < leaning_stalled || !is_settled(w) ||
		stats_qr_norm(w->r, w->n) <= (long double)DBL_EPSILON * y;
}

/* From the start to where nothing is left to gain. */
static bool
walk(struct run *w, long double *row)
{
	long double y = 0, lean;

	for (size_t j = 0; j < w->n; j++)
		w->b[j] = (long double)w->ask->start[j];
	for (size_t i = 0; i < w->m; i++)
		y = fmaxl(y, fabsl((long double)w->ask->y[i]));
	w->damping = w->manner->damping;
	w->growth = 2;
	for (w->n_step = 0; w->n_step < STEPS_MAX; w->n_step++) {
		if (!look(w, row, &lean))
			return false;
		if (sqrtl(w->squares) <= LDBL_EPSILON * y)
			return true; /* exact: there is nothing to lean */
		if (lean < leaning_most || !advance(w, row))
			return is_end(w, lean, y) && polish(w, row, lean);
	}
	return false;
}

static enum err_code
answer(struct arena *a, const struct run *w, struct stats_nonlinear *out,
	struct err *err)
{
	size_t n = w->n;
	double *parameter = arena_take(a, n, sizeof *parameter);
	double *error = arena_take(a, n, sizeof *error);
	struct stats_nonlinear got = {.parameter = parameter,
		.standard_error = error,
		.residual_ss = (double)w->squares,
		.df = w->m - n,
		.has_error = w->m > n,
		.n_step = w->n_step};
	long double sd = 0;

	if (parameter == NULL || error == NULL)
		return err_memory(err);
	if (got.has_error)
		sd = sqrtl(w->squares / (long double)got.df);
	got.residual_sd = (double)sd;
	for (size_t j = 0; j < n; j++) {
		for (size_t i = 0; i < n; i++)
			w->step[i] = i == j;
		stats_qr_solve_transposed(w->jacobian, w->m, n, w->step);
		error[j] = (double)(sd * stats_qr_norm(w->step, n));
		parameter[j] = (double)w->b[j];
	}
	*out = got;
	return ERR_NONE;
}

static enum err_code
check(const struct run *w, struct err *err)
{
	long double value;

	if (w->m < w->n)
		return err_report(err, ERR_INPUT, "y",
			"%zu rows cannot settle %zu parameters; give at least "
			"as many rows as parameters.",
			w->m, w->n);
	for (size_t i = 0; i < w->m; i++)
		if (!isfinite(w->ask->y[i]))
			return err_report(err, ERR_INPUT, "y",
				"Number %zu of y is not finite; leave its row "
				"out.",
				i + 1);
	for (size_t j = 0; j < w->n; j++)
		w->b[j] = (long double)w->ask->start[j];
	for (size_t i = 0; i < w->m; i++)
		if (!w->ask->curve(w->ask->data, i, w->b, &value, w->step))
			return err_report(err, ERR_INPUT, "start",
				"From this start the model or a slope of it is "
				"not finite at row %zu; begin elsewhere.",
				i + 1);
	return ERR_NONE;
}

enum err_code
stats_nonlinear_fit(struct arena *arena, const struct stats_nonlinear_ask *ask,
	struct stats_nonlinear *out, struct err *err)
{
	struct run run = {.ask = ask, .m = ask->n_row, .n = ask->n_parameter};
	struct run best = {.m = 0};
	long double *row = arena_take(arena, run.n, sizeof *row);
	bool has_walked = false;

	if (row == NULL)
		return err_memory(err);
	TRY(open_run(arena, &run, err));
	TRY(check(&run, err));
	best = run;
	for (size_t i = 0; i < N_MANNER; i++) {
		bool has_end;

		TRY(open_run(arena, &run, err));
		run.manner = &manners[i];
		has_end = walk(&run, row);
		has_walked |= has_end;
		if (has_end && is_settled(&run) &&
			(best.manner == NULL || run.squares < best.squares))
			best = run;
	}
	if (best.manner == NULL)
		return err_report(err, ERR_NUMERIC, "start",
			has_walked
				? "The rows cannot tell the parameters from "
				  "each other where the search ended; use "
				  "fewer, or begin elsewhere."
				: "The search did not settle in %d steps from "
				  "this start; begin elsewhere, nearer to what "
				  "the parameters can be.",
			(int)STEPS_MAX);
	return answer(arena, &best, out, err);
}

/* linear.c - linear and polynomial regression by least squares. */
#include "stats/linear.h"

#include <float.h>
#include <math.h>

#include "stats/qr.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

/* A column whose part not explained by those before it is this small next to
 * its length is a combination of them: 450 times the rounding of a double. */
static const long double collinear_below = 1e-13L;

/* The model in the columns it is solved in, and how to go back:
 * raw coefficient i = sum over j of back[i * n_column + j] * solved[j]. */
struct work {
	size_t n_row, n_column;
	bool intercept;
	long double *column; /* n_column columns of n_row, length 1 each */
	long double *y;
	long double *back;
	long double y_length; /* of y as given */
};

static enum err_code
refuse_not_finite(const char *field, const double *x, size_t n, struct err *err)
{
	for (size_t i = 0; i < n; i++)
		if (!isfinite(x[i]))
			return err_report(err, ERR_INPUT, field,
				"Number %zu of %s is not finite; give a number "
				"in its place or leave its row out.",
				i + 1, field);
	return ERR_NONE;
}

static enum err_code
open_work(struct arena *a, struct work *w, const double *y, struct err *err)
{
	if (w->n_row < w->n_column)
		return err_report(err, ERR_INPUT, "y",
			"%zu rows cannot settle %zu coefficients; give at "
			"least as many rows as coefficients.",
			w->n_row, w->n_column);
	TRY(refuse_not_finite("y", y, w->n_row, err));
	w->column = arena_take(a, w->n_row * w->n_column, sizeof *w->column);
	w->y = arena_take(a, w->n_row, sizeof *w->y);
	w->back = arena_take(a, w->n_column * w->n_column, sizeof *w->back);
	if (w->column == NULL || w->y == NULL || w->back == NULL)
		return err_memory(err);
	for (size_t i = 0; i < w->n_row; i++)
		w->y[i] = (long double)y[i];
	w->y_length = stats_qr_norm(w->y, w->n_row);
	return ERR_NONE;
}

/* Takes the mean off x, measured from its first value; gives the mean. */
static long double
centre(long double *x, size_t n)
{
	long double first = x[0], sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += x[i] - first;
	sum /= (long double)n;
	for (size_t i = 0; i < n; i++)
		x[i] = (x[i] - first) - sum;
	return first + sum;
}

/* Makes column j of length 1; false if it has no length. */
static bool
scale(struct work *w, size_t j)
{
	long double *column = &w->column[j * w->n_row];
	long double length = stats_qr_norm(column, w->n_row);

	if (!(length > 0))
		return false;
	for (size_t i = 0; i < w->n_row; i++)
		column[i] /= length;
	for (size_t i = 0; i < w->n_column; i++)
		w->back[i * w->n_column + j] /= length;
	return true;
}

static enum err_code
refuse_flat(const struct work *w, size_t column, struct err *err)
{
	return err_report(err, ERR_INPUT, "x",
		w->intercept
			? "Column %zu of x has the same number in every row, "
			  "so "
			  "its coefficient cannot be told from the intercept; "
			  "leave the column or the intercept out."
			: "Column %zu of x is 0 in every row; leave it out.",
		column);
}

/* The columns of a linear model: centred, the intercept apart from them. */
static enum err_code
fill_linear(struct work *w, const double *x, struct err *err)
{
	size_t first = w->intercept ? 1 : 0, n_x = w->n_column - first;

	if (w->intercept) {
		w->back[0] = 1;
		for (size_t i = 0; i < w->n_row; i++)
			w->column[i] = 1;
		(void)scale(w, 0);
	}
	for (size_t j = first; j < w->n_column; j++) {
		long double *column = &w->column[j * w->n_row];

		for (size_t i = 0; i < w->n_row; i++)
			column[i] = (long double)x[i * n_x + j - first];
		w->back[j * w->n_column + j] = 1;
		if (w->intercept)
			w->back[j] = -centre(column, w->n_row);
		if (!scale(w, j))
			return refuse_flat(w, j - first + 1, err);
	}
	return ERR_NONE;
}

/* Row i, column j of back: the coefficient of x^i in ((x - c) / s)^j. */
static void
fill_back(struct work *w, size_t lowest, long double c, long double s)
{
	size_t n = w->n_column;

	for (size_t j = 0; j < n; j++) {
		size_t power = j + lowest;
		long double term = powl(s, -(long double)power);

		for (size_t i = power + 1; i-- > lowest;) {
			w->back[(i - lowest) * n + j] = term;
			term *= -c * (long double)i /
				(long double)(power - i + 1);
		}
	}
}

/* The columns of a polynomial: powers of x moved to the middle of its range
 * (not without an intercept: that would bring one in) and divided by a power
 * of 2 near half the range, which is exact. */
static enum err_code
fill_polynomial(struct work *w, const double *x, struct err *err)
{
	size_t lowest = w->intercept ? 0 : 1;
	double least = x[0], most = x[0], c;
	int exponent;
	long double s;

	for (size_t i = 0; i < w->n_row; i++) {
		least = fmin(least, x[i]);
		most = fmax(most, x[i]);
	}
	c = w->intercept ? least / 2 + most / 2 : 0;
	(void)frexp(fmax(most - c, c - least), &exponent);
	s = ldexpl(1, exponent);
	for (size_t i = 0; i < w->n_row; i++) {
		long double z = ((long double)x[i] - (long double)c) / s;
		long double power = w->intercept ? 1 : z;

		for (size_t j = 0; j < w->n_column; j++, power *= z)
			w->column[j * w->n_row + i] = power;
	}
	fill_back(w, lowest, (long double)c, s);
	for (size_t j = 0; j < w->n_column; j++)
		if (!scale(w, j))
			return refuse_flat(w, j + lowest, err);
	return ERR_NONE;
}

static enum err_code
check_rank(const struct work *w, bool polynomial, struct err *err)
{
	size_t first = w->intercept ? 1 : 0;

	for (size_t j = first; j < w->n_column; j++) {
		if (fabsl(w->column[j * w->n_row + j]) >= collinear_below)
			continue;
		if (polynomial)
			return err_report(err, ERR_INPUT, "x",
				"There are too few different x for %zu "
				"coefficients: power %zu follows from the "
				"lower ones; choose a lower degree.",
				w->n_column, j + 1 - first);
		return err_report(err, ERR_INPUT, "x",
			"Column %zu of x is a combination of %s the columns "
			"before it, so its coefficient cannot be settled; "
			"leave it out.",
			j - first + 1, w->intercept ? "the intercept and" : "");
	}
	return ERR_NONE;
}

/* Standard error of raw coefficient i for residual sd 1: |R^-T back_i|. */
static long double
unit_error(const struct work *w, size_t i, long double *scratch)
{
	size_t n = w->n_column;

	for (size_t j = 0; j < n; j++)
		scratch[j] = w->back[i * n + j];
	stats_qr_solve_transposed(w->column, w->n_row, n, scratch);
	return stats_qr_norm(scratch, n);
}

static void
judge(const struct work *w, struct stats_linear *got)
{
	size_t first = w->intercept ? 1 : 0;
	long double regression = stats_qr_norm(
		w->y + first, w->n_column - first);
	long double residual = stats_qr_norm(w->y + w->n_column, got->df);
	/* What is below the rounding of y as doubles counts as 0. */
	long double rounding = (long double)DBL_EPSILON / 2 * w->y_length;

	got->is_exact = residual <= rounding;
	if (got->is_exact)
		residual = 0;
	if (got->has_error)
		got->residual_sd = (double)(residual /
			sqrtl((long double)got->df));
	if (regression <= rounding)
		regression = 0;
	got->has_r_squared = regression > 0 || residual > 0;
	regression *= regression;
	residual *= residual;
	got->regression_ss = (double)regression;
	got->residual_ss = (double)residual;
	if (got->has_r_squared)
		got->r_squared = (double)(regression / (regression + residual));
	got->has_f = got->has_error && got->has_r_squared &&
		got->df_regression > 0;
	if (!got->has_f)
		return;
	got->f = got->is_exact
		? (double)INFINITY
		: (double)(regression / (long double)got->df_regression /
			  (residual / (long double)got->df));
	got->p = got->is_exact
		? 0
		: pf(got->f, (double)got->df_regression, (double)got->df, 0, 0);
}

static enum err_code
solve(struct arena *a, struct work *w, bool polynomial,
	struct stats_linear *out, struct err *err)
{
	size_t n = w->n_column;
	struct stats_linear got = {.n_coefficient = n, .df = w->n_row - n};
	double *coefficient = arena_take(a, n, sizeof *coefficient);
	double *error = arena_take(a, n, sizeof *error);
	long double *solved = arena_take(a, 2 * n, sizeof *solved);

	if (coefficient == NULL || error == NULL || solved == NULL)
		return err_memory(err);
	stats_qr_factor(w->column, w->n_row, n, w->y);
	TRY(check_rank(w, polynomial, err));
	got.df_regression = n - (w->intercept ? 1 : 0);
	got.has_error = got.df > 0;
	judge(w, &got);
	for (size_t j = 0; j < n; j++)
		solved[j] = w->y[j];
	stats_qr_solve(w->column, w->n_row, n, solved);
	for (size_t i = 0; i < n; i++) {
		long double sum = 0;

		for (size_t j = 0; j < n; j++)
			sum += w->back[i * n + j] * solved[j];
		coefficient[i] = (double)sum;
		error[i] = (double)((long double)got.residual_sd *
			unit_error(w, i, solved + n));
	}
	got.coefficient = coefficient;
	got.standard_error = error;
	*out = got;
	return ERR_NONE;
}

enum err_code
stats_linear_fit(struct arena *arena, const double *x, size_t n_row,
	size_t n_column, const double *y, bool intercept,
	struct stats_linear *out, struct err *err)
{
	struct work w = {.n_row = n_row,
		.n_column = n_column + (intercept ? 1 : 0),
		.intercept = intercept};

	TRY(refuse_not_finite("x", x, n_row * n_column, err));
	TRY(open_work(arena, &w, y, err));
	TRY(fill_linear(&w, x, err));
	return solve(arena, &w, false, out, err);
}

enum err_code
stats_polynomial_fit(struct arena *arena, const double *x, size_t n,
	const double *y, size_t degree, bool intercept,
	struct stats_linear *out, struct err *err)
{
	struct work w = {.n_row = n,
		.n_column = degree + (intercept ? 1 : 0),
		.intercept = intercept};

	TRY(refuse_not_finite("x", x, n, err));
	TRY(open_work(arena, &w, y, err));
	TRY(fill_polynomial(&w, x, err));
	return solve(arena, &w, true, out, err);
}

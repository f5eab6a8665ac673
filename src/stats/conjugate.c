/* conjugate.c - the prior as rows beside the data. */
#include "stats/conjugate.h"

#include "stats/qr.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

enum { COLUMNS_MOST = 16 };

static enum err_code
check(const double *x, const double *y, size_t n, size_t k,
	const struct stats_conjugate_prior *prior, struct err *err)
{
	char field[ERR_FIELD_MAX];

	if (!(prior->spread > 0 && isfinite(prior->spread) && prior->df > 0 &&
		    isfinite(prior->df)))
		return err_report(err, ERR_INPUT, "prior",
			"The prior spread is %g and worth %g values; both must "
			"be greater than 0.",
			prior->spread, prior->df);
	for (size_t j = 0; j < k; j++)
		if (!isfinite(prior->mean[j]) ||
			!(prior->sd[j] > 0 && isfinite(prior->sd[j])))
			return err_report(err, ERR_INPUT, "prior",
				"Prior %zu is %g with a spread of %g; that "
				"must be greater than 0.",
				j, prior->mean[j], prior->sd[j]);
	for (size_t i = 0; i < n; i++) {
		bool good = isfinite(y[i]);

		for (size_t j = 0; j < k; j++)
			good = good && isfinite(x[i * k + j]);
		(void)snprintf(field, sizeof field, "rows[%zu]", i);
		if (!good)
			return err_report(err, ERR_INPUT, field,
				"Row %zu holds a value that is not a number.",
				i);
	}
	return ERR_NONE;
}

/* Prior rows, then data rows, column after column. */
static void
fill(const double *x, const double *y, size_t n, size_t k,
	const struct stats_conjugate_prior *prior, long double *a,
	long double *b)
{
	size_t rows = k + n;

	for (size_t j = 0; j < k; j++) {
		long double weight = (long double)prior->spread / prior->sd[j];

		for (size_t i = 0; i < k; i++)
			a[j * rows + i] = i == j ? weight : 0;
		for (size_t i = 0; i < n; i++)
			a[j * rows + k + i] = x[i * k + j];
		b[j] = weight * prior->mean[j];
	}
	for (size_t i = 0; i < n; i++)
		b[k + i] = y[i];
}

enum err_code
stats_conjugate_fit(struct arena *arena, const double *x, const double *y,
	size_t n, size_t k, const struct stats_conjugate_prior *prior,
	struct stats_conjugate *out, struct err *err)
{
	size_t rows = k + n;
	long double *a = arena_take(arena, rows * k, sizeof *a);
	long double *b = arena_take(arena, rows, sizeof *b);
	long double *root = arena_take(arena, k * k, sizeof *root), rss;
	double *theta = arena_take(arena, k, sizeof *theta);

	assert(k >= 1 && k <= COLUMNS_MOST);
	if (a == NULL || b == NULL || root == NULL || theta == NULL)
		return err_memory(err);
	TRY(check(x, y, n, k, prior, err));
	fill(x, y, n, k, prior, a, b);
	stats_qr_factor(a, rows, k, b);
	rss = stats_qr_norm(b + k, n);
	for (size_t j = 0; j < k; j++)
		for (size_t i = 0; i <= j; i++)
			root[j * k + i] = a[j * rows + i];
	stats_qr_solve(a, rows, k, b);
	for (size_t j = 0; j < k; j++)
		theta[j] = (double)b[j];
	*out = (struct stats_conjugate){.k = k,
		.theta = theta,
		.root = root,
		.df = prior->df + (double)n};
	out->spread = sqrt((prior->df * prior->spread * prior->spread +
				   (double)(rss * rss)) /
		out->df);
	return ERR_NONE;
}

void
stats_conjugate_new(const struct stats_conjugate *fit, const double *x,
	double *mean, double *scale)
{
	long double v[COLUMNS_MOST], length;

	assert(fit->k <= COLUMNS_MOST);
	*mean = 0;
	for (size_t j = 0; j < fit->k; j++) {
		*mean += x[j] * fit->theta[j];
		v[j] = x[j];
	}
	stats_qr_solve_transposed(fit->root, fit->k, fit->k, v);
	length = stats_qr_norm(v, fit->k);
	*scale = fit->spread * (double)sqrtl(1 + length * length);
}

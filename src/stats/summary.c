/* summary.c - mean, spread, quartiles, autocorrelation of one sample. */
#include "stats/summary.h"

#include <gsl/gsl_sort.h>
#include <math.h>

double
stats_mean(const double *x, size_t n)
{
	long double sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += (long double)x[i] - (long double)x[0];
	return (double)((long double)x[0] + sum / (long double)n);
}

struct stats_moments
stats_moments(const double *x, size_t n)
{
	struct stats_moments m = {0};
	long double first = (long double)x[0], sum = 0, rest = 0, before = 0;

	for (size_t i = 0; i < n; i++)
		sum += (long double)x[i] - first;
	m.mean = sum / (long double)n; /* measured from the first value */
	for (size_t i = 0; i < n; i++) {
		long double d = ((long double)x[i] - first) - m.mean;

		m.squares += d * d;
		m.cubes += d * d * d;
		rest += d;
		if (i > 0)
			m.lag += d * before;
		before = d;
	}
	m.squares -= rest * rest / (long double)n;
	m.mean += first;
	return m;
}

double
stats_squares(const double *x, size_t n)
{
	return (double)stats_moments(x, n).squares;
}

double
stats_quantile(const double *sorted, size_t n, double p)
{
	double at = p * (double)(n - 1);
	size_t below = (size_t)floor(at);
	double share = at - (double)below;

	if (below + 1 >= n)
		return sorted[n - 1];
	if (isinf(sorted[below + 1] - sorted[below]))
		return (1 - share) * sorted[below] + share * sorted[below + 1];
	return sorted[below] + share * (sorted[below + 1] - sorted[below]);
}

enum err_code
stats_summarise(struct arena *arena, const double *x, size_t n,
	struct stats_summary *out, struct err *err)
{
	struct stats_summary got = {.n = n};
	struct stats_moments m;
	double *sorted;

	if (n == 0)
		return err_report(err, ERR_INPUT, "values",
			"There is no value to describe.");
	for (size_t i = 0; i < n; i++)
		if (!isfinite(x[i]))
			return err_report(err, ERR_INPUT, "values",
				"Value %zu is not a finite number.", i + 1);
	sorted = arena_copy(arena, x, n, sizeof *sorted);
	if (sorted == NULL)
		return err_memory(err);
	gsl_sort(sorted, 1, n);
	m = stats_moments(x, n);
	got.mean = (double)m.mean;
	got.median = stats_quantile(sorted, n, 0.5);
	got.quartile_1 = stats_quantile(sorted, n, 0.25);
	got.quartile_3 = stats_quantile(sorted, n, 0.75);
	got.has_sd = n > 1;
	got.has_spread = n > 1 && sorted[0] < sorted[n - 1];
	if (got.has_sd)
		got.sd = (double)sqrtl(m.squares / (long double)(n - 1));
	if (got.has_spread) {
		long double variance = m.squares / (long double)n;

		got.lag1 = (double)(m.lag / m.squares);
		got.skewness = (double)(m.cubes / (long double)n /
			(variance * sqrtl(variance)));
	}
	got.has_cv = got.has_sd && fabs(got.mean) > 0;
	if (got.has_cv)
		got.cv = (double)(sqrtl(m.squares / (long double)(n - 1)) /
			fabsl(m.mean));
	*out = got;
	return ERR_NONE;
}

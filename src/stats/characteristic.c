/* characteristic.c - the 5 % fractile for a new result. */
#include "stats/characteristic.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include "stats/summary.h"

#include <math.h>

static const double above = 0.95; /* share of results above the fractile */

static enum err_code
check(const double *x, size_t n, double prior_sd, bool as_log, struct err *err)
{
	if (n == 0)
		return err_report(err, ERR_INPUT, "values",
			"There is no value to judge by.");
	for (size_t i = 0; i < n; i++) {
		if (!isfinite(x[i]))
			return err_report(err, ERR_INPUT, "values",
				"Value %zu is not a finite number.", i + 1);
		if (as_log && !(x[i] > 0))
			return err_report(err, ERR_INPUT, "values",
				"Value %zu is %.6g; with logarithms every "
				"value must be above 0.",
				i + 1, x[i]);
	}
	if (!(prior_sd >= 0 && isfinite(prior_sd)))
		return err_report(err, ERR_INPUT, "prior_sd",
			"The known spread is %.6g; it takes a number above 0.",
			prior_sd);
	return ERR_NONE;
}

enum err_code
stats_characteristic(struct arena *arena, const double *x, size_t n,
	double prior_sd, bool as_log, struct stats_characteristic *out,
	struct err *err)
{
	struct stats_characteristic got = {0};
	struct stats_moments all;
	long double mean;
	double *y, widening;

	TRY(check(x, n, prior_sd, as_log, err));
	y = arena_copy(arena, x, n, sizeof *y);
	if (y == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n && as_log; i++)
		y[i] = log(y[i]);
	all = stats_moments(y, n);
	mean = all.mean;
	widening = sqrt(1 + 1 / (double)n);
	got.has_unknown = n > 1;
	if (got.has_unknown) {
		const double df = (double)(n - 1);
		const long double sd = sqrtl(all.squares / (long double)df);

		got.unknown = (double)(mean -
			qt(above, df, true, false) * widening * sd);
	}
	got.has_known = prior_sd > 0;
	if (got.has_known)
		got.known = (double)(mean -
			qnorm(above, 0, 1, true, false) * widening *
				(long double)prior_sd);
	if (as_log) {
		got.unknown = exp(got.unknown);
		got.known = exp(got.known);
	}
	if (!isfinite(got.unknown) || !isfinite(got.known))
		return err_report(err, ERR_INPUT, "values",
			"The answer lies beyond the largest number there is; "
			"give the values in a larger unit.");
	*out = got;
	return ERR_NONE;
}

enum err_code
stats_design_factor(size_t n, bool is_known, double *k, struct err *err)
{
	static const double once_in_a_thousand = 0.999, fitted = 3.08;
	const size_t least = is_known ? 1 : 2;

	if (n < least)
		return err_report(err, ERR_INPUT, "n",
			"%zu values are too few for a design value; it takes "
			"%zu or more.",
			n, least);
	*k = sqrt(1 + 1 / (double)n) *
		(is_known ? fitted
			  : qt(once_in_a_thousand, (double)(n - 1), true,
				    false));
	return ERR_NONE;
}

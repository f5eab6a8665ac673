/* summary.h - one sample described.
 *
 * Pure.  Checked against NIST StRD univariate data sets. */
#ifndef STATS_SUMMARY_H
#define STATS_SUMMARY_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

struct stats_summary {
	size_t n;
	double mean;
	double sd;   /* n - 1 in the divisor; has_spread */
	double lag1; /* lag-1 autocorrelation; has_spread, in input order */
	double median, quartile_1, quartile_3; /* type 7 of Hyndman, Fan 1996 */
	double skewness; /* sum((x-m)^3)/n / (sum((x-m)^2)/n)^1.5; has_spread */
	double cv;       /* sd / mean; has_cv */
	bool has_spread; /* n > 1 and not all equal */
	bool has_sd;     /* n > 1 */
	bool has_cv;     /* n > 1 and mean != 0 */
};

/* stats_summarise(arena, x, n, out, err): n >= 1 finite values.
 * ERR_INPUT no value or one that is not finite; ERR_MEMORY */
enum err_code stats_summarise(struct arena *arena, const double *x, size_t n,
	struct stats_summary *out, struct err *err) MUST_CHECK;

/* stats_mean(x, n): the mean, centred on the first value and summed in long
 * double, for full accuracy on values that share leading digits. n >= 1. */
double stats_mean(const double *x, size_t n);

/* stats_moments(x, n): the same mean, the sum of squared distances from it and
 * of their cubes, and of the products of neighbours; in long double, where the
 * squares of all finite doubles fit. */
struct stats_moments {
	long double mean, squares, cubes, lag;
};
struct stats_moments stats_moments(const double *x, size_t n);

/* stats_squares(x, n, mean): the sum of squared distances from the mean of x,
 * corrected two-pass in long double (Chan, Golub, LeVeque 1983). */
double stats_squares(const double *x, size_t n);

/* stats_quantile(sorted, n, p): type 7 of Hyndman and Fan (1996), p in [0,1].*/
double stats_quantile(const double *sorted, size_t n, double p);

#endif /* STATS_SUMMARY_H */

/* studentize.h - tails of statistics that are divided by an estimated spread.
 *
 * A statistic T = X / S, where S^2 is chi-square on df degrees of freedom over
 * df and independent of X, has the upper tail
 *     P(T > t) = integral of P(X > t s) f(s) ds.
 * On the axis u = log s the integrand is smooth and dies out on both sides, so
 * the trapezoidal rule with halved steps converges geometrically (Trefethen
 * and Weideman 2014, SIAM Review 56, 385-458).  The range is laid around the
 * peak of the integrand, wherever t puts it, so that small tails keep their
 * relative accuracy.
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_STUDENTIZE_H
#define STATS_STUDENTIZE_H

#include "core/err.h"

/* P(X > x), and the logarithm of an upper bound of it that is cheap and, for
 * x = t s, such that bound times density has one peak over s: a bound that is
 * concave in log s or in s does. */
typedef double stats_tail_of(double x, const void *data);

struct stats_tail {
	stats_tail_of *upper;
	stats_tail_of *log_bound;
	const void *data; /* borrowed; handed to both */
};

/* stats_studentized_upper(tail, t, df, p, err): P(T > t); df > 0, INFINITY for
 * a known spread.
 * ERR_NUMERIC  no convergence */
enum err_code stats_studentized_upper(const struct stats_tail *tail, double t,
	double df, double *p, struct err *err) MUST_CHECK;

/* stats_studentized_critical(tail, alpha, df, low, high, t, err):
 * The t with P(T > t) = alpha, 0 < alpha < 1; low < high enclose it, and are
 * moved apart if they do not.
 * ERR_NUMERIC  no convergence */
enum err_code stats_studentized_critical(const struct stats_tail *tail,
	double alpha, double df, double low, double high, double *t,
	struct err *err) MUST_CHECK;

#endif /* STATS_STUDENTIZE_H */

/* range.h - the studentized range, for all pairs of groups.
 *
 * P(range of k normals > w) = k integral of phi(z) (Phi(z)^(k-1) -
 * (Phi(z) - Phi(z - w))^(k-1)) dz, with z the largest, formed so that a small
 * tail keeps its relative accuracy; the estimated spread is integrated over by
 * stats/studentize.h.  R's ptukey, which libRmath holds, errs by up to 4e-6 at
 * few degrees of freedom; this integral agrees with 72 values of 20 digits.
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_RANGE_H
#define STATS_RANGE_H

#include "core/err.h"

#include <stddef.h>

/* stats_range_upper(q, k, df, p, err): P(Q > q) for k >= 2 groups and df > 0 or
 * INFINITY.  ERR_NUMERIC  no convergence */
enum err_code stats_range_upper(
	double q, size_t k, double df, double *p, struct err *err) MUST_CHECK;

/* stats_range_critical(alpha, k, df, q, err): the q exceeded with chance alpha.
 * ERR_NUMERIC  no convergence */
enum err_code stats_range_critical(double alpha, size_t k, double df, double *q,
	struct err *err) MUST_CHECK;

#endif /* STATS_RANGE_H */

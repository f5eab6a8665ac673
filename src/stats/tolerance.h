/* tolerance.h - factors k such that mean + k sd covers a share of all values.
 *
 * Normal samples of n values.  Both factors are exact, by integration.
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_TOLERANCE_H
#define STATS_TOLERANCE_H

#include "core/err.h"

#include <stddef.h>

/* stats_tolerance_one_sided(n, content, confidence, k, err):
 * With this confidence at least the share `content` of all values lies above
 * mean - k sd (and, for the other side, below mean + k sd): the noncentral t
 * quantile over sqrt(n) (Johnson and Welch 1940, Biometrika 31, 362-389).
 * ERR_INPUT  n < 2; a share not between 0 and 1;  ERR_NUMERIC */
enum err_code stats_tolerance_one_sided(size_t n, double content,
	double confidence, double *k, struct err *err) MUST_CHECK;

/* stats_tolerance_two_sided(n, content, confidence, k, err):
 * The same for mean - k sd to mean + k sd (Eberhardt, Mee and Reeve 1989,
 * Communications in Statistics - Simulation 18, 397-413, for the integral).
 * ERR_INPUT, ERR_NUMERIC  as above */
enum err_code stats_tolerance_two_sided(size_t n, double content,
	double confidence, double *k, struct err *err) MUST_CHECK;

#endif /* STATS_TOLERANCE_H */

/* characteristic.h - the value that a new result falls below once in twenty.
 *
 * EN 1990:2002 Annex D, D.7.2 with table D.1: mean - k sd, where
 * k = t(0.95, n - 1) sqrt(1 + 1/n) if the spread is estimated from the values
 * themselves and k = z(0.95) sqrt(1 + 1/n) if it is known beforehand.  The
 * table prints the second kind with up to 0.016 less than its own formula.
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_CHARACTERISTIC_H
#define STATS_CHARACTERISTIC_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

struct stats_characteristic {
	bool has_unknown; /* n > 1 */
	double unknown;   /* spread estimated from the values */
	bool has_known;   /* prior_sd given */
	double known;     /* spread known beforehand */
};

/* stats_characteristic(arena, x, n, prior_sd, as_log, out, err):
 * n >= 1 values; prior_sd > 0, or 0 for none.  as_log: the logarithms are taken
 * for normal, prior_sd is that of the natural logarithm (near the coefficient
 * of variation), and the answers are turned back.
 * ERR_INPUT  no value, one not finite, one not positive where as_log; a
 *            prior_sd out of range;  ERR_MEMORY */
enum err_code stats_characteristic(struct arena *arena, const double *x,
	size_t n, double prior_sd, bool as_log,
	struct stats_characteristic *out, struct err *err) MUST_CHECK;

/* stats_design_factor(n, is_known, k, err):
 * k of mean - k sd for the design value from tests, a new result of n that it
 * falls below once in about a thousand: EN 1990:2002 Annex D, D.7.3 with table
 * D.2.  Spread known beforehand: 3.08 sqrt(1 + 1/n), which fits the table (its
 * limit is printed 3.04 = 0.8 x 3.8); estimated: t(0.999, n - 1) sqrt(1 + 1/n).
 * It holds for structures of the reliability that the code asks (beta 3.8); no
 * screening of ours rests on it.
 * ERR_INPUT  n = 0, or 1 where the spread is estimated */
enum err_code stats_design_factor(
	size_t n, bool is_known, double *k, struct err *err) MUST_CHECK;

#endif /* STATS_CHARACTERISTIC_H */

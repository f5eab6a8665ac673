/* conjugate.h - linear regression that starts from a stated prior and learns.
 *
 *     y = x . theta + e,  e ~ N(0, s^2),  theta | s ~ N(mean, s^2 diag(ratio^2)),
 *     s^2 ~ df prior_spread^2 / chi-square(df)
 *
 * with ratio = sd / prior_spread, so that sd is the spread of theta a priori if
 * s is as stated.  The posterior is of the same form and a new value is a
 * shifted t.  Source: Raiffa and Schlaifer (1961), Applied Statistical Decision
 * Theory, chapter 13; solved by QR on the data with the prior as rows.
 *
 * Pure.  Method: docs/methods/foresee.md. */
#ifndef STATS_CONJUGATE_H
#define STATS_CONJUGATE_H

#include "core/arena.h"
#include "core/err.h"

#include <stddef.h>

struct stats_conjugate_prior {
	const double *mean, *sd; /* k each, sd > 0 */
	double spread;           /* of a single value, > 0 */
	double df;               /* how many values it is worth, > 0 */
};

struct stats_conjugate {
	size_t k;
	const double *theta;     /* k: posterior mean */
	const long double *root; /* k * k: R with R'R the precision */
	double df, spread;       /* of the posterior */
};

/* stats_conjugate_fit(arena, x, y, n, k, prior, out, err):
 * x is n * k, row after row; n may be 0: the prior.
 * ERR_INPUT a value not finite, a prior out of range; ERR_MEMORY */
enum err_code stats_conjugate_fit(struct arena *arena, const double *x,
	const double *y, size_t n, size_t k,
	const struct stats_conjugate_prior *prior, struct stats_conjugate *out,
	struct err *err) MUST_CHECK;

/* stats_conjugate_new(fit, x, mean, scale): a new value at x is mean + scale
 * times a t of fit->df degrees of freedom.  At most 16 columns (asserted). */
void stats_conjugate_new(const struct stats_conjugate *fit, const double *x,
	double *mean, double *scale);

#endif /* STATS_CONJUGATE_H */

/* linear.h - linear and polynomial regression by least squares.
 *
 * Pure.  Householder QR in long double on centred columns scaled to length 1
 * (a polynomial: on powers of x centred at the middle of its range), so that
 * nearly collinear columns and high powers keep their digits; coefficients and
 * standard errors are then carried back to the columns as given.  Checked
 * against NIST StRD linear regression.  Method: docs/methods/regression.md;
 * Golub and Van Loan (2013), Matrix Computations, 4th ed., section 5.3. */
#ifndef STATS_LINEAR_H
#define STATS_LINEAR_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

struct stats_linear {
	size_t n_coefficient; /* intercept first where there is one */
	const double *coefficient;
	const double *standard_error; /* has_error */
	double residual_sd;           /* has_error; 0 when the fit is exact */
	double residual_ss, regression_ss;
	double r_squared; /* has_r_squared; about the mean with an intercept,
			   * about 0 without, as NIST StRD has it */
	double f, p;      /* has_f; f is INFINITY when the fit is exact */
	size_t df;        /* rows less coefficients */
	size_t df_regression;
	bool has_error;     /* df > 0 */
	bool has_r_squared; /* y is not constant (without an intercept: not 0)*/
	bool has_f;         /* both of the above */
	bool is_exact;      /* residuals no larger than the rounding of y */
};

/* stats_linear_fit(arena, x, n_row, n_column, y, intercept, out, err):
 * x is n_row rows of n_column >= 1 finite numbers, row after row; y n_row.
 * ERR_INPUT  field "x" or "y": fewer rows than coefficients, a number that is
 *            not finite, a column that does not vary beside an intercept, or
 *            one that is a combination of those before it; ERR_MEMORY */
enum err_code stats_linear_fit(struct arena *arena, const double *x,
	size_t n_row, size_t n_column, const double *y, bool intercept,
	struct stats_linear *out, struct err *err) MUST_CHECK;

/* stats_polynomial_fit(arena, x, n, y, degree, intercept, out, err):
 * y on 1, x, x^2, ... x^degree (from x on without intercept); degree >= 1.
 * ERR_INPUT  as above, and fewer different x than coefficients; ERR_MEMORY */
enum err_code stats_polynomial_fit(struct arena *arena, const double *x,
	size_t n, const double *y, size_t degree, bool intercept,
	struct stats_linear *out, struct err *err) MUST_CHECK;

#endif /* STATS_LINEAR_H */

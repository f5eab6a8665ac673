/* qr.h - least squares by Householder reflections in long double.
 *
 * Pure.  Golub and Van Loan (2013), Matrix Computations, 4th ed., algorithms
 * 5.2.1 and 5.3.2.  Matrices are stored column after column. */
#ifndef STATS_QR_H
#define STATS_QR_H

#include <stddef.h>

/* stats_qr_factor(a, n_row, n_column, y):
 * Turns a (n_row >= n_column) into R in its upper triangle and y into Q'y:
 * the first n_column entries go with R, the squares of the others add up to
 * the residual sum of squares.  y may be NULL. */
void stats_qr_factor(
	long double *a, size_t n_row, size_t n_column, long double *y);

/* stats_qr_solve(r, n_row, n, b): b becomes the x of R x = b.
 * stats_qr_solve_transposed: the x of R'x = b.  No diagonal of R may be 0. */
void stats_qr_solve(
	const long double *r, size_t n_row, size_t n, long double *b);
void stats_qr_solve_transposed(
	const long double *r, size_t n_row, size_t n, long double *b);

/* stats_qr_norm(x, n): the Euclidean length of x. */
long double stats_qr_norm(const long double *x, size_t n);

#endif /* STATS_QR_H */

/* qr.c - least squares by Householder reflections in long double. */
#include "stats/qr.h"

#include <math.h>

long double
stats_qr_norm(const long double *x, size_t n)
{
	long double largest = 0, sum = 0;

	for (size_t i = 0; i < n; i++)
		largest = fmaxl(largest, fabsl(x[i]));
	if (!(largest > 0) || isinf(largest))
		return largest;
	for (size_t i = 0; i < n; i++)
		sum += x[i] / largest * (x[i] / largest);
	return largest * sqrtl(sum);
}

/* Takes (I - tau v v') x, v being 1 and then the entries below v[0]. */
static void
reflect(const long double *v, long double tau, size_t n, long double *x)
{
	long double sum = x[0];

	for (size_t i = 1; i < n; i++)
		sum += v[i] * x[i];
	sum *= tau;
	x[0] -= sum;
	for (size_t i = 1; i < n; i++)
		x[i] -= sum * v[i];
}

void
stats_qr_factor(long double *a, size_t n_row, size_t n_column, long double *y)
{
	for (size_t j = 0; j < n_column; j++) {
		long double *v = &a[j * n_row + j];
		size_t n = n_row - j;
		long double norm = stats_qr_norm(v, n), diagonal, tau;

		if (!(norm > 0))
			continue;
		diagonal = v[0] > 0 ? -norm : norm;
		tau = (diagonal - v[0]) / diagonal;
		for (size_t i = 1; i < n; i++)
			v[i] /= v[0] - diagonal;
		for (size_t k = j + 1; k < n_column; k++)
			reflect(v, tau, n, &a[k * n_row + j]);
		if (y != NULL)
			reflect(v, tau, n, &y[j]);
		v[0] = diagonal;
	}
}

void
stats_qr_solve(const long double *r, size_t n_row, size_t n, long double *b)
{
	for (size_t i = n; i-- > 0;) {
		for (size_t k = i + 1; k < n; k++)
			b[i] -= r[k * n_row + i] * b[k];
		b[i] /= r[i * n_row + i];
	}
}

void
stats_qr_solve_transposed(
	const long double *r, size_t n_row, size_t n, long double *b)
{
	for (size_t i = 0; i < n; i++) {
		for (size_t k = 0; k < i; k++)
			b[i] -= r[i * n_row + k] * b[k];
		b[i] /= r[i * n_row + i];
	}
}

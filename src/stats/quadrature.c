/* quadrature.c - Gauss-Legendre rules and panels of them. */
#include "stats/quadrature.h"

#include <assert.h>
#include <math.h>

/* The Legendre polynomial of order n at x and its slope. */
static double
legendre_at(size_t n, double x, double *slope)
{
	double before = 1, now = x;

	for (size_t k = 2; k <= n; k++) {
		double order = (double)k;
		double next = ((2 * order - 1) * x * now -
				      (order - 1) * before) /
			order;

		before = now;
		now = next;
	}
	*slope = (double)n * (x * now - before) / (x * x - 1);
	return now;
}

void
stats_legendre(size_t n, struct quadrature *rule)
{
	enum { STEPS = 8 }; /* Newton doubles the digits; four would do */

	assert(n >= 2 && n <= QUADRATURE_ORDER_MAX);
	rule->n = n;
	for (size_t i = 0; i < n; i++) {
		double x = -cos(M_PI * ((double)i + 0.75) / ((double)n + 0.5));
		double slope, value;

		for (int step = 0; step < STEPS; step++) {
			value = legendre_at(n, x, &slope);
			x -= value / slope;
		}
		(void)legendre_at(n, x, &slope);
		rule->x[i] = x;
		rule->w[i] = 2 / ((1 - x * x) * slope * slope);
	}
}

void
stats_panels(const struct quadrature *rule, double low, double high,
	size_t n_panel, double *x, double *w)
{
	double half = (high - low) / (double)n_panel / 2;

	for (size_t p = 0; p < n_panel; p++) {
		double middle = low + half * (double)(2 * p + 1);

		for (size_t i = 0; i < rule->n; i++) {
			*x++ = middle + half * rule->x[i];
			*w++ = half * rule->w[i];
		}
	}
}

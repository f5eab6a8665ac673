/* quadrature.h - Gauss-Legendre rules and panels of them.
 *
 * Pure; cannot fail. */
#ifndef STATS_QUADRATURE_H
#define STATS_QUADRATURE_H

#include <stddef.h>

enum { QUADRATURE_ORDER_MAX = 64 };

struct quadrature {
	size_t n; /* 2 to QUADRATURE_ORDER_MAX */
	double x[QUADRATURE_ORDER_MAX], w[QUADRATURE_ORDER_MAX];
};

/* stats_legendre(n, rule): the n-point rule on [-1, 1], by Newton steps on the
 * Legendre polynomial (Press and others, Numerical Recipes, 3rd edition,
 * 4.6.1).  Asserts 2 <= n <= QUADRATURE_ORDER_MAX. */
void stats_legendre(size_t n, struct quadrature *rule);

/* stats_panels(rule, low, high, n_panel, x, w): the rule on each of n_panel
 * equal panels of [low, high]; x and w have rule->n * n_panel places. */
void stats_panels(const struct quadrature *rule, double low, double high,
	size_t n_panel, double *x, double *w);

#endif /* STATS_QUADRATURE_H */

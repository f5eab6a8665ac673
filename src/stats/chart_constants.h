/* chart_constants.h - factors of control charts for groups of n values.
 *
 * d2 and d3 are mean and spread of the range of n normal values, c4 the mean of
 * their standard deviation, all in units of the true spread (Tippett 1925,
 * Biometrika 17, 364-387, for the integrals); the others follow from them as in
 * the ASTM Manual on Presentation of Data and Control Chart Analysis (MNL 7).
 * By quadrature and the gamma function, about 13 digits.
 *
 * Pure; cannot fail.  Method: docs/methods/charts.md. */
#ifndef STATS_CHART_CONSTANTS_H
#define STATS_CHART_CONSTANTS_H

#include <stddef.h>

enum { STATS_CHART_GROUP_MOST = 100 };

struct stats_chart_constants {
	double d2, d3, c4;
	double a, a2, a3;      /* means: limits at centre -+ A s, A2 R, A3 s */
	double b3, b4, b5, b6; /* standard deviations */
	double D1, D2, D3, D4; /* ranges; capital in the trade */
	double e2, e3;         /* single values: 3 / d2, 3 / c4 */
};

/* stats_chart_constants(n, out): asserts 2 <= n <= STATS_CHART_GROUP_MOST. */
void stats_chart_constants(size_t n, struct stats_chart_constants *out);

#endif /* STATS_CHART_CONSTANTS_H */

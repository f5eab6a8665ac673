/* chart_constants.c - factors of control charts for groups of n values. */
#include "stats/chart_constants.h"

#include "stats/normal.h"
#include "stats/quadrature.h"

#include <assert.h>
#include <math.h>

/* All limits of a control chart lie this many spreads from the centre. */
static const double spreads = 3;

/* Beyond 9 sd fewer than one value in 1e18 lies; panels of one sd. */
enum { ORDER = 16, PANELS = 18, NODES = ORDER * PANELS };
static const double far_out = 9;

/* The range of two values is |N(0, 2)|, whose moments are known in closed form:
 * 2 / sqrt(pi) and 2.  Every chart of single values asks for them, and the
 * integrals take some 40 ms. */
static const double two_mean_range = 1.1283791670955125739;
static const double two_mean_square = 2;

/* P(not all of n values lie on one side of x). */
static double
straddles(double x, double n)
{
	double below = n * log1p(-stats_normal_upper(x));
	double above = n * log1p(-stats_normal_lower(x));

	return -expm1(below) - exp(above);
}

/* P(some value <= x and some > y), x < y, by inclusion and exclusion. */
static double
straddle(double x, double y, double n)
{
	double all_above_x = pow(stats_normal_upper(x), n);
	double all_below_y = pow(stats_normal_lower(y), n);
	double all_between = pow(stats_normal_between(x, y), n);

	return 1 - all_above_x - all_below_y + all_between;
}

static double
mean_range(double n)
{
	struct quadrature rule;
	double x[NODES], w[NODES], sum = 0;

	stats_legendre(ORDER, &rule);
	stats_panels(&rule, -far_out, far_out, PANELS, x, w);
	for (size_t i = 0; i < NODES; i++)
		sum += w[i] * straddles(x[i], n);
	return sum;
}

/* E R^2 = 2 times the integral of `straddle` over x < y. */
static double
mean_square_range(double n)
{
	struct quadrature rule;
	double x[NODES], wx[NODES], y[NODES], wy[NODES], sum = 0;

	stats_legendre(ORDER, &rule);
	stats_panels(&rule, -far_out, far_out, PANELS, x, wx);
	for (size_t i = 0; i < NODES; i++) {
		double row = 0;

		stats_panels(&rule, x[i], far_out, PANELS, y, wy);
		for (size_t j = 0; j < NODES; j++)
			row += wy[j] * straddle(x[i], y[j], n);
		sum += wx[i] * row;
	}
	return 2 * sum;
}

void
stats_chart_constants(size_t n, struct stats_chart_constants *out)
{
	double size = (double)n, spread_of_s;
	struct stats_chart_constants c;

	assert(n >= 2 && n <= STATS_CHART_GROUP_MOST);
	c.d2 = n == 2 ? two_mean_range : mean_range(size);
	c.d3 = sqrt((n == 2 ? two_mean_square : mean_square_range(size)) -
		c.d2 * c.d2);
	c.c4 = sqrt(2 / (size - 1)) *
		exp(lgamma(size / 2) - lgamma((size - 1) / 2));
	spread_of_s = sqrt(1 - c.c4 * c.c4);
	c.a = spreads / sqrt(size);
	c.a2 = c.a / c.d2;
	c.a3 = c.a / c.c4;
	c.b3 = fmax(0, 1 - spreads * spread_of_s / c.c4);
	c.b4 = 1 + spreads * spread_of_s / c.c4;
	c.b5 = fmax(0, c.c4 - spreads * spread_of_s);
	c.b6 = c.c4 + spreads * spread_of_s;
	c.D1 = fmax(0, c.d2 - spreads * c.d3);
	c.D2 = c.d2 + spreads * c.d3;
	c.D3 = c.D1 / c.d2;
	c.D4 = c.D2 / c.d2;
	c.e2 = spreads / c.d2;
	c.e3 = spreads / c.c4;
	*out = c;
}

/* truncated.c - normal draws that must lie between two bounds. */
#include "stats/truncated.h"

#include <gsl/gsl_randist.h>

#include <assert.h>
#include <math.h>
#include <stdbool.h>

/* Below this lower bound plain normal draws that miss it are few enough. */
static const double tail_from = 0.45;
/* sqrt(2 pi): over an interval around zero that is narrower than this a uniform
 * proposal is accepted more often than a normal one. */
static const double uniform_width = 2.5066282746310002;
/* ln 2: the density may fall to a half over an interval before an exponential
 * proposal beats a uniform one by more than it costs. */
static const double uniform_fall = 0.6931471805599453;

/* True with probability exp(-x), x >= 0; most often without the exponential. */
static bool
accept(gsl_rng *rng, double x)
{
	double u = gsl_rng_uniform(rng);

	return u <= 1 - x || u < exp(-x);
}

/* low <= 0 <= high or not: peak is the point of the interval nearest zero. */
static double
draw_uniform(gsl_rng *rng, double low, double high, double peak)
{
	for (;;) {
		double z = low + (high - low) * gsl_rng_uniform(rng);

		if (accept(rng, 0.5 * (z - peak) * (z + peak)))
			return z;
	}
}

static double
draw_normal(gsl_rng *rng, double low, double high)
{
	for (;;) {
		double z = gsl_ran_gaussian_ziggurat(rng, 1);

		if (z >= low && z <= high)
			return z;
	}
}

/* Robert (1995), section 2.2: a shifted exponential of the best rate, cut at
 * high by inversion; low > 0. */
static double
draw_tail(gsl_rng *rng, double low, double high)
{
	double rate = 0.5 * (low + sqrt(low * low + 4));
	double span = -expm1(-rate * (high - low));

	for (;;) {
		double z = low - log1p(-span * gsl_rng_uniform(rng)) / rate;

		if (z <= high && accept(rng, 0.5 * (z - rate) * (z - rate)))
			return z;
	}
}

/* Both bounds on the right of zero. */
static double
draw_right(gsl_rng *rng, double low, double high)
{
	if (0.5 * (high - low) * (high + low) < uniform_fall)
		return draw_uniform(rng, low, high, low);
	if (low < tail_from)
		return draw_normal(rng, low, high);
	return draw_tail(rng, low, high);
}

double
stats_truncated_draw(gsl_rng *rng, double low, double high)
{
	assert(low <= high);
	if (low == high)
		return low;
	if (low > 0)
		return draw_right(rng, low, high);
	if (high < 0)
		return -draw_right(rng, -high, -low);
	if (high - low < uniform_width)
		return draw_uniform(rng, low, high, 0);
	return draw_normal(rng, low, high);
}

/* truncated.c - normal draws that must lie between two bounds. */
#include "stats/truncated.h"

#include <assert.h>
#include <math.h>
#include <stdbool.h>

/* Below this lower bound plain normal draws that miss it are few enough. */
static const double tail_from = 0.45;
/* sqrt(2 pi): over an interval around zero that is narrower than this a uniform
 * proposal is accepted more often than a normal one. */
static const double uniform_width = 2.5066282746310002;
/* The density may fall by this much (as a log) over an interval before an
 * exponential proposal with its logarithm beats a uniform one; measured. */
static const double uniform_fall = 1.2;

/* True with probability exp(-x), x >= 0.  The sums of four and of five terms of
 * its series lie below and above it and settle most cases without it. */
static inline bool
accept(struct fastrand *rand, double x)
{
	const double u = fastrand_unit(rand);
	const double below = 1 - x * (1 - x * (1. / 2 - x * (1. / 6)));

	if (u <= below)
		return true;
	if (u >= below + x * x * x * x * (1. / 24))
		return false;
	return u < exp(-x);
}

/* peak is the point of the interval nearest zero. */
static inline double
draw_uniform(struct fastrand *rand, double low, double high, double peak)
{
	for (;;) {
		const double z = low + (high - low) * fastrand_unit(rand);

		if (accept(rand, 0.5 * (z - peak) * (z + peak)))
			return z;
	}
}

static inline double
draw_normal(const struct fastnormal *normal, struct fastrand *rand, double low,
	double high)
{
	for (;;) {
		const double z = fastnormal_draw(normal, rand);

		if (z >= low && z <= high)
			return z;
	}
}

/* Robert (1995), section 2.2: a shifted exponential of the best rate, low > 0;
 * seven draws in ten are below high where the density falls by uniform_fall
 * before it. */
static double
draw_tail(struct fastrand *rand, double low, double high)
{
	const double rate = 0.5 * (low + sqrt(low * low + 4));

	for (;;) {
		const double z = low - log(fastrand_unit_open(rand)) / rate;

		if (z <= high && accept(rand, 0.5 * (z - rate) * (z - rate)))
			return z;
	}
}

/* Both bounds on the right of zero. */
static inline double
draw_right(const struct fastnormal *normal, struct fastrand *rand, double low,
	double high)
{
	if (0.5 * (high - low) * (high + low) < uniform_fall)
		return draw_uniform(rand, low, high, low);
	if (low < tail_from)
		return draw_normal(normal, rand, low, high);
	return draw_tail(rand, low, high);
}

double
stats_truncated_draw(const struct fastnormal *normal, struct fastrand *rand,
	double low, double high)
{
	assert(low <= high);
	if (low == high)
		return low;
	if (low > 0)
		return draw_right(normal, rand, low, high);
	if (high < 0)
		return -draw_right(normal, rand, -high, -low);
	if (high - low < uniform_width)
		return draw_uniform(rand, low, high, 0);
	return draw_normal(normal, rand, low, high);
}

/* bootstrap.h - how far a sample's mean, median or spread could be off, by
 * drawing from the sample itself.
 *
 * Percentile and bias-corrected accelerated (BCa) intervals: Efron (1987),
 * Journal of the American Statistical Association 82, 171-185; Davison and
 * Hinkley (1997), Bootstrap Methods and their Application, section 5.3.
 *
 * Pure.  Method: docs/methods/resample.md. */
#ifndef STATS_BOOTSTRAP_H
#define STATS_BOOTSTRAP_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum stats_statistic { STATS_MEAN, STATS_MEDIAN, STATS_SD, STATS_CV };

/* Values that one answer may take, and draws times values. */
enum { STATS_BOOTSTRAP_VALUES_MOST = 100000 };
enum { STATS_BOOTSTRAP_DRAWS_MOST = 1000000 };
static const uint64_t stats_bootstrap_work_most = 20000000000;

struct stats_interval {
	double low, high;
};

struct stats_bootstrap {
	double estimate;
	struct stats_interval percentile, bca;
	double bias;         /* z0, the bias correction; has_bca */
	double acceleration; /* has_bca */
	bool has_bca;        /* false: bca, bias and acceleration are 0 */
	bool has_ends;       /* false: an end is the outermost draw, since
				more draws would be needed for it */
};

/* stats_bootstrap_statistic(which, x, n): the statistic of n values; sd with
 * n - 1 in the divisor, cv = sd / |mean|.  n >= 1, for sd and cv n >= 2. x is
 * put in order where the median is wanted. */
double stats_bootstrap_statistic(
	enum stats_statistic which, double *x, size_t n);

/* stats_bootstrap_acceleration(arena, which, x, n, a, has, err):
 * sum(u^3) / (6 sum(u^2)^1.5), where u is the mean of the statistics with one
 * value left out less each of them (the jackknife).  Time n log n.  *has is
 * false if there is none: too few values are left, or u is 0 throughout.
 * ERR_MEMORY */
enum err_code stats_bootstrap_acceleration(struct arena *arena,
	enum stats_statistic which, const double *x, size_t n, double *a,
	bool *has, struct err *err) MUST_CHECK;

/* What the intervals are made of. */
struct stats_bootstrap_draws {
	double *draw; /* n; put in order */
	size_t n;
	double estimate;
	double margin; /* draws nearer than this to the estimate equal it */
	double acceleration;
	bool has_acceleration;
};

/* stats_bootstrap_intervals(arena, draws, confidence, out, err):
 * Both intervals from given draws.  The bias correction counts the draws below
 * the estimate, not those that equal it; there is no BCa interval if none or
 * all of them are below.  Ends are interpolated between two draws on the scale
 * of the normal quantile at (n + 1) times the level (Davison and Hinkley 1997,
 * equation 5.8).  ERR_MEMORY */
enum err_code stats_bootstrap_intervals(struct arena *arena,
	struct stats_bootstrap_draws *draws, double confidence,
	struct stats_bootstrap *out, struct err *err) MUST_CHECK;

struct stats_bootstrap_ask {
	const double *value; /* n finite values, borrowed */
	size_t n;            /* 2 to STATS_BOOTSTRAP_VALUES_MOST */
	enum stats_statistic which;
	uint64_t draws;    /* 1 to STATS_BOOTSTRAP_DRAWS_MOST */
	double confidence; /* between 0 and 1 */
	uint64_t seed;
	size_t n_thread; /* 0: one a processor; the answer does not depend
			    on it */
};

/* stats_bootstrap(arena, ask, out, err):
 * ERR_INPUT, field "values": fewer than 2, too many or not finite, for cv not
 *            all above 0 or all below, or squares beyond a double's range
 * ERR_INPUT, field "draws" or "confidence": out of range, or draws times values
 *            above stats_bootstrap_work_most
 * ERR_MEMORY */
enum err_code stats_bootstrap(struct arena *arena,
	const struct stats_bootstrap_ask *ask, struct stats_bootstrap *out,
	struct err *err) MUST_CHECK;

#endif /* STATS_BOOTSTRAP_H */

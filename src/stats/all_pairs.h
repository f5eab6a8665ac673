/* all_pairs.h - every group against every other.
 *
 * Equal variances: the studentized range with the pooled spread (Tukey), for
 * unequal sizes in Kramer's form (Kramer 1956, Biometrics 12, 307-310), which
 * is exact for equal sizes and a little cautious otherwise.  Unequal variances:
 * each pair with its own spread and Welch's degrees of freedom (Games and
 * Howell 1976, Journal of Educational Statistics 1, 113-125).
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_ALL_PAIRS_H
#define STATS_ALL_PAIRS_H

#include "stats/oneway.h"

enum stats_variance { STATS_EQUAL_VARIANCE, STATS_UNEQUAL_VARIANCE };

/* With more groups the pairs are too many to be read, and to be waited for. */
enum { STATS_PAIR_GROUP_MAX = 60 };

struct stats_pair {
	size_t a, b;       /* indices of the groups, a < b */
	double difference; /* mean of b less mean of a */
	double q, df;      /* studentized: |difference| over its error */
	double p;          /* adjusted for all the pairs */
	double low, high;  /* simultaneous */
};

/* stats_all_pairs(arena, data, variance, confidence, pair, n_pair, err):
 * Pairs in the order (0, 1), (0, 2) ... (1, 2) ...
 * ERR_INPUT  as stats_grouped_check and stats_pool; more than
 *            STATS_PAIR_GROUP_MAX groups; with unequal variances a group of
 *            one value or without spread;  ERR_MEMORY, ERR_NUMERIC */
enum err_code stats_all_pairs(struct arena *arena,
	const struct stats_grouped *data, enum stats_variance variance,
	double confidence, const struct stats_pair **pair, size_t *n_pair,
	struct err *err) MUST_CHECK;

#endif /* STATS_ALL_PAIRS_H */

/* many_to_one.h - several groups against one baseline (Dunnett).
 *
 * The contrasts of k groups with a baseline of n0 observations have the product
 * correlation l_i l_j, l_i = sqrt(n_i / (n_i + n0)), whatever the sizes
 * (Dunnett 1955, JASA 50, 1096-1121).  Given the baseline's own deviation z the
 * contrasts are independent, so that
 *     P(some |Z_i| > x) = integral of (1 - prod (1 - q_i(z))) phi(z) dz,
 * which is formed as -expm1(sum log1p(-q_i)) from upper tails and therefore
 * keeps its relative accuracy however small it is.  The estimated spread is
 * integrated over by stats/studentize.h.  Nothing is drawn at random.
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_MANY_TO_ONE_H
#define STATS_MANY_TO_ONE_H

#include "stats/oneway.h"

enum stats_side { STATS_BOTH, STATS_GREATER, STATS_LESS };

struct stats_many_to_one; /* the joint distribution */

/* stats_many_to_one_new(arena, loading, k, two_sided, out, err):
 * The distribution of the largest of k contrasts, or of the largest absolute
 * one, with correlations loading[i] * loading[j]; 0 < loading < 1, k >= 1.
 * ERR_INPUT  a loading out of range, or so near 1 that the integral would take
 *            too long;  ERR_MEMORY */
enum err_code stats_many_to_one_new(struct arena *arena, const double *loading,
	size_t k, bool two_sided, const struct stats_many_to_one **out,
	struct err *err) MUST_CHECK;

/* stats_many_to_one_upper(d, t, df, p, err): P(the largest > t), df > 0 or
 * INFINITY.  ERR_NUMERIC  no convergence */
enum err_code stats_many_to_one_upper(const struct stats_many_to_one *d,
	double t, double df, double *p, struct err *err) MUST_CHECK;

/* stats_many_to_one_critical(d, alpha, df, t, err): the t that is exceeded with
 * chance alpha.  ERR_NUMERIC  no convergence */
enum err_code stats_many_to_one_critical(const struct stats_many_to_one *d,
	double alpha, double df, double *t, struct err *err) MUST_CHECK;

struct stats_contrast {
	double difference; /* the group's mean less the baseline's */
	double t;          /* the difference over its standard error */
	double p;          /* adjusted for all the groups */
	double low, high;  /* simultaneous; an open end is infinite */
};

struct stats_against_baseline {
	double df, critical;
	const struct stats_contrast *group; /* n_group, baseline's is zero */
};

/* stats_against_baseline(arena, data, baseline, side, confidence, out, err):
 * Pools the spread of all groups; STATS_GREATER asks whether a group lies above
 * the baseline, and its intervals are open above.
 * ERR_INPUT  as stats_grouped_check, stats_pool and stats_many_to_one_new;
 * ERR_MEMORY, ERR_NUMERIC */
enum err_code stats_against_baseline(struct arena *arena,
	const struct stats_grouped *data, size_t baseline, enum stats_side side,
	double confidence, struct stats_against_baseline *out,
	struct err *err) MUST_CHECK;

#endif /* STATS_MANY_TO_ONE_H */

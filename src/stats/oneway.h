/* oneway.h - one-way analysis of variance: do groups differ at all?
 *
 * Sums are centred on the first observation, taken in two passes and in long
 * double, and corrected for what the first pass left (Chan, Golub and LeVeque
 * 1983, The American Statistician 37, 242-247); on NIST's certified problems
 * this reaches what the data, once read as doubles, still hold.
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_ONEWAY_H
#define STATS_ONEWAY_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

/* Groups of observations, joined group after group. */
struct stats_grouped {
	size_t n_group;
	const size_t *size;  /* n_group, each >= 1; borrowed */
	const double *value; /* the sum of the sizes, finite; borrowed */
};

struct stats_group {
	size_t n;
	double mean;
	long double offset;  /* mean less the first value of all, in full */
	long double squares; /* of the distances from the group's mean */
};

/* stats_grouped_check(data, least_groups, err):
 * ERR_INPUT  too few groups, an empty group, a value that is not finite */
enum err_code stats_grouped_check(const struct stats_grouped *data,
	size_t least_groups, struct err *err) MUST_CHECK;

/* stats_grouped_describe(arena, data, group, err): data->n_group descriptions
 * in the arena; data as stats_grouped_check wants it.
 * ERR_MEMORY */
enum err_code stats_grouped_describe(struct arena *arena,
	const struct stats_grouped *data, const struct stats_group **group,
	struct err *err) MUST_CHECK;

/* The spread inside the groups, pooled. */
struct stats_pooled {
	size_t n;  /* observations */
	double df; /* n - n_group, at least 1 */
	double sd; /* > 0 */
};

/* stats_pool(group, n_group, out, err):
 * ERR_INPUT  no group has two observations, or no group has any spread: there
 *            is nothing to judge the differences by; or the spread is below
 *            1e-150 of the differences, or overflows */
enum err_code stats_pool(const struct stats_group *group, size_t n_group,
	struct stats_pooled *out, struct err *err) MUST_CHECK;

/* An F ratio with its degrees of freedom and P(F or more). */
struct stats_f {
	double f, df1, df2, p;
};

struct stats_oneway {
	double between_ss, between_ms;
	double within_ss, within_ms;
	struct stats_f f;
	double r_squared;   /* between_ss / (between_ss + within_ss) */
	double residual_sd; /* sqrt(within_ms) */
};

/* stats_oneway(arena, data, out, err): at least two groups.
 * ERR_INPUT  as stats_grouped_check and stats_pool;  ERR_MEMORY */
enum err_code stats_oneway(struct arena *arena,
	const struct stats_grouped *data, struct stats_oneway *out,
	struct err *err) MUST_CHECK;

/* stats_welch(arena, data, has, out, err):
 * Welch's test of equal means without equal spreads (Welch 1951, Biometrika
 * 38, 330-336).  *has is false, and *out untouched, where a group has one
 * observation or no spread (or next to none): then the test does not exist.
 * ERR_INPUT  as stats_grouped_check;  ERR_MEMORY */
enum err_code stats_welch(struct arena *arena, const struct stats_grouped *data,
	bool *has, struct stats_f *out, struct err *err) MUST_CHECK;

/* stats_levene(arena, data, has, out, err):
 * Equal spreads? One-way analysis of the distances from the group medians
 * (Brown and Forsythe 1974, JASA 69, 364-367).  *has is false, and *out
 * untouched, where the distances have no spread inside any group, as when no
 * group has more than two observations.
 * ERR_INPUT  as stats_grouped_check;  ERR_MEMORY */
enum err_code stats_levene(struct arena *arena,
	const struct stats_grouped *data, bool *has, struct stats_f *out,
	struct err *err) MUST_CHECK;

#endif /* STATS_ONEWAY_H */

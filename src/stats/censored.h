/* censored.h - regression on readings of which some are only bounds.
 *
 * A reading is a number, or lies between two bounds, either of which may be
 * open.  The readings of group g, or their logarithms, are
 *     m_g + slope x + scale e,
 * e standard normal (normal, lognormal) or smallest extreme value (Weibull; the
 * shape is 1/scale).  Maximum likelihood by Newton's method in gamma = m/scale,
 * tau = 1/scale, where the log-likelihood is concave (Burridge 1981, Journal of
 * the Royal Statistical Society B 43, 41-45); intervals by the profile
 * likelihood (Venzon and Moolgavkar 1988, Applied Statistics 37, 87-94).
 *
 * Pure.  Method: docs/methods/censored.md. */
#ifndef STATS_CENSORED_H
#define STATS_CENSORED_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

enum stats_censored_family {
	STATS_CENSORED_NORMAL,
	STATS_CENSORED_LOGNORMAL,
	STATS_CENSORED_WEIBULL,
};

struct stats_censored_row {
	size_t group; /* < n_group */
	double x;     /* the covariate, finite; 0 without one */
	/* low == high: the reading itself.  low < high: it lies between them;
	 * -INFINITY and INFINITY are open ends, not both. */
	double low, high;
};

struct stats_censored_ask {
	enum stats_censored_family family;
	size_t n_group; /* >= 1, each with a row */
	const struct stats_censored_row *row;
	size_t n_row;
	bool has_x;
	/* In (0, 1), of the profile intervals; 0: none are sought, and both ends
	 * are the estimate. */
	double confidence;
};

/* An estimate; +-INFINITY with se INFINITY where every reading of the group is
 * a bound on the same side.  An end is infinite where the likelihood does not
 * fall that way. */
struct stats_censored_part {
	double estimate, se, low, high;
};

struct stats_censored {
	const struct stats_censored_part *group; /* n_group, in log units but
						  * for the normal family */
	struct stats_censored_part x;            /* has_x: the slope */
	struct stats_censored_part scale;
	double log_likelihood; /* of the readings on their own scale */
	size_t n_distinct;     /* rows after equal ones are joined */
};

/* stats_censored_fit(arena, ask, out, err):
 * ERR_INPUT    field "value", "x" or "group": a bound that is not a number or
 *              upside down, a reading that is not above 0 in a family of
 *              logarithms, a group without a row, x that does not vary within
 *              any group, readings that agree with no spread at all or with
 *              any spread however large
 * ERR_NUMERIC  the search did not settle;  ERR_MEMORY */
enum err_code stats_censored_fit(struct arena *arena,
	const struct stats_censored_ask *ask, struct stats_censored *out,
	struct err *err) MUST_CHECK;

#endif /* STATS_CENSORED_H */

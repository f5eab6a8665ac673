/* ranks.h - do groups differ, judged by ranks only (Kruskal-Wallis).
 *
 * Equal values share their mean rank and H is divided by the usual correction
 * for ties (Kruskal and Wallis 1952, JASA 47, 583-621).
 *
 * Pure.  Method: docs/methods/comparisons.md. */
#ifndef STATS_RANKS_H
#define STATS_RANKS_H

#include "stats/oneway.h"

struct stats_ranks {
	double h;       /* corrected for ties */
	double df;      /* groups - 1 */
	double p;       /* chi-square approximation */
	bool has_exact; /* the arrangements could be counted */
	double p_exact; /* share of all arrangements of the ranks with H or more */
};

/* stats_ranks(arena, data, out, err): at least two groups.  The exact chance is
 * counted over all arrangements, ties included, without listing them: they are
 * dealt out value by value and those with equal sizes and rank sums so far are
 * counted together.
 * ERR_INPUT  as stats_grouped_check; all values equal;  ERR_MEMORY */
enum err_code stats_ranks(struct arena *arena, const struct stats_grouped *data,
	struct stats_ranks *out, struct err *err) MUST_CHECK;

#endif /* STATS_RANKS_H */

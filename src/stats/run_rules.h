/* run_rules.h - how long a chart with runs rules goes before it signals.
 *
 * A chart of single points about a known centre and spread, judged by the rules
 * of the 1956 Statistical Quality Control Handbook, each on one side of the
 * centre.  The exact mean from the Markov chain of what the rules remember
 * (Champ and Woodall 1987, Technometrics 29, 393-399).
 *
 * Pure.  Method: docs/methods/charts.md. */
#ifndef STATS_RUN_RULES_H
#define STATS_RUN_RULES_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>

/* A point beyond 3 spreads signals always; the others where they are set. */
struct stats_run_rules {
	bool two_of_three_beyond_two;
	bool four_of_five_beyond_one;
	bool eight_on_one_side;
};

/* stats_run_rules(arena, rules, shift, arl, err):
 * shift of the mean from the centre in spreads, at most 30 either way.
 * ERR_INPUT shift out of range; ERR_NUMERIC no convergence; ERR_MEMORY.
 * Nothing stays in the arena. */
enum err_code stats_run_rules(struct arena *a,
	const struct stats_run_rules *rules, double shift, double *arl,
	struct err *err) MUST_CHECK;

#endif /* STATS_RUN_RULES_H */

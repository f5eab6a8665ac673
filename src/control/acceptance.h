/* acceptance.h - strength accepted by lots, by published criteria.
 *
 * The margins in N/mm2 of EN 206 and ACI 318 were set for ordinary structural
 * concrete: at 1 to 5 N/mm2 of foamed concrete "4 less" is no limit at all, so
 * that `has_teeth` is false there.  The characteristic value has no such margin
 * and serves at any strength.
 *
 * Pure.  Method: docs/methods/charts.md. */
#ifndef CONTROL_ACCEPTANCE_H
#define CONTROL_ACCEPTANCE_H

#include "core/arena.h"
#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>

/* criterion, word, what it says */
#define CONTROL_CRITERION_LIST(X)                                              \
	X(CONTROL_EN206_INITIAL, "en206_initial",                              \
		"EN 206, first production: mean of three at least fck + 4, "   \
		"each at least fck - 4 N/mm2")                                 \
	X(CONTROL_EN206_CONTINUOUS, "en206_continuous",                        \
		"EN 206, going production: mean of 15 or more at least fck + " \
		"1.48 spreads, each at least fck - 4 N/mm2")                   \
	X(CONTROL_ACI318, "aci318",                                            \
		"ACI 318, 26.12.3: each mean of three in a row at least fc, "  \
		"none more than 3.5 N/mm2 under it (0.1 fc above 35)")         \
	X(CONTROL_CHARACTERISTIC, "characteristic",                            \
		"EN 1990, D.7.2: the value that 95 of 100 should beat is at "  \
		"least the required one")

#define CONTROL_CRITERION_AS_ENUM(criterion, ...) criterion,
enum control_criterion { CONTROL_CRITERION_LIST(CONTROL_CRITERION_AS_ENUM) };
#undef CONTROL_CRITERION_AS_ENUM
enum { CONTROL_CRITERION_COUNT = CONTROL_CHARACTERISTIC + 1 };

const char *control_criterion_word(enum control_criterion criterion);
const char *control_criterion_says(enum control_criterion criterion);

struct control_lot {
	const double *strength_Pa; /* n, in the order made, each > 0: one a
				    * batch or test, itself a mean of pieces */
	size_t n;
	struct stress required; /* > 0 */
	bool has_spread;        /* known beforehand, from 35 results or more */
	struct stress spread;   /* > 0 */
};

struct control_accepted {
	bool applies; /* enough results, and a spread where one is needed */
	bool has_teeth;
	bool is_met;
	/* What was judged, and the limit it had to reach; least single value
	 * and its limit (0 for a criterion without one). */
	struct stress judged, judged_limit, least, least_limit;
};

/* control_running_mean(arena, value, n, width, mean, n_mean, err):
 * means of `width` >= 1 values in a row, n - width + 1 of them, none if there
 * are fewer values.  ERR_MEMORY */
enum err_code control_running_mean(struct arena *a, const double *value,
	size_t n, size_t width, const double **mean, size_t *n_mean,
	struct err *err) MUST_CHECK;

/* control_accept(arena, lot, out, err): out has CONTROL_CRITERION_COUNT places,
 * in the order of the enum.
 * ERR_INPUT  no strength, one not above 0, a required strength or spread not
 *            above 0;  ERR_MEMORY */
enum err_code control_accept(struct arena *a, const struct control_lot *lot,
	struct control_accepted *out, struct err *err) MUST_CHECK;

#endif /* CONTROL_ACCEPTANCE_H */

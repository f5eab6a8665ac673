/* tradeoff.h - mixes that meet the must-haves, weighed against each other.
 *
 * Pure.  Method: docs/methods/choose.md. */
#ifndef CHOOSE_TRADEOFF_H
#define CHOOSE_TRADEOFF_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

/* n_mix times n_criterion, row by row; draws of one mix in one criterion. */
struct choose_tradeoff_ask {
	size_t n_mix, n_criterion, n_draw; /* n_draw > 0 */
	const double *const
		*draw; /* [mix * n_criterion + k]; NULL: not known */
	const bool *larger_is_better; /* n_criterion */
	const double *weight;         /* n_criterion, >= 0 */
};

struct choose_tradeoff {
	const double *middle;    /* mean of the draws; NAN where not known */
	const bool *is_complete; /* n_mix: known in every weighed criterion */
	const bool *is_beaten;   /* n_mix: another is as good in every criterion
	                            that both are known in, and better in one */
	const size_t *beaten_by; /* n_mix: by whom */
	const double *utility;   /* n_mix, 0 to 1 by the middles; if complete */
	const double *p_first;   /* n_mix: share of worlds in which it leads */
};

/* choose_tradeoff(arena, ask, out, err):
 * A criterion counts from 0 (worst middle of the complete mixes) to 1 (best),
 * in a straight line, beyond it too; utility is the weighed mean of these,
 * expected over the worlds.  A criterion in which all are alike counts nothing.
 * ERR_INPUT a weight below 0, not finite, or all 0; ERR_MEMORY */
enum err_code choose_tradeoff(struct arena *arena,
	const struct choose_tradeoff_ask *ask, struct choose_tradeoff *out,
	struct err *err) MUST_CHECK;

#endif /* CHOOSE_TRADEOFF_H */

/* survival.h - how much of the foam's air outlives the mixing, learnt batch by
 * batch.
 *
 * The shares of batches are normal about a mean with a spread, both unknown;
 * the prior is worth one batch at 0.95 and two at a spread of 0.05 (a stated
 * choice: common practice, no source).  Normal with an inverse-gamma variance,
 * conjugate: DeGroot (1970), Optimal Statistical Decisions, section 9.6.
 *
 * Pure.  Method: docs/methods/survival.md. */
#ifndef CONTROL_SURVIVAL_H
#define CONTROL_SURVIVAL_H

#include "core/err.h"

#include <stddef.h>

struct control_survival {
	double mean;      /* to reckon the next sheet with, 0 to 1 */
	double low, high; /* where the next batch lies with 90 in 100 */
	size_t n;         /* batches it was learnt from */
};

/* control_survival(ratio, n, out, err): ratio of each batch, as mix_yield finds
 * it; above 1 where a scale or a bucket was off; n may be 0: the prior.
 * ERR_INPUT a ratio is not finite, below 0 or above 1.5; "batches[2]" */
enum err_code control_survival(const double *ratio, size_t n,
	struct control_survival *out, struct err *err) MUST_CHECK;

#endif /* CONTROL_SURVIVAL_H */

/* verdict.c - from chances and counts to a plain word. */
#include "choose/verdict.h"

enum { BATCHES_FOR_CLEAR = 2 };

enum choose_verdict
choose_verdict(const struct choose_standing *s)
{
	bool repeated = s->n_batch >= BATCHES_FOR_CLEAR &&
		s->n_batch_baseline >= BATCHES_FOR_CLEAR;

	if (s->n_broken > 0 &&
		(double)s->n_broken >=
			choose_broken_share * (double)s->n_cast &&
		s->p_breaks_by_chance < choose_broken_chance)
		return CHOOSE_COULD_NOT_BE_MADE;
	if (s->is_baseline)
		return CHOOSE_IS_BASELINE;
	if (s->p_better >= choose_clear_chance && repeated)
		return CHOOSE_CLEARLY_BETTER;
	if (s->p_better >= choose_looks_chance)
		return CHOOSE_LOOKS_BETTER;
	if (s->p_better <= 1 - choose_clear_chance && repeated)
		return CHOOSE_WORSE;
	return CHOOSE_CANNOT_TELL;
}

/* foresee.h - the strength that a mix of this book will have, as its own tested
 * batches teach it beside the published relations (choose/foresee.h). */
#ifndef WORK_FORESEE_H
#define WORK_FORESEE_H

#include "choose/foresee.h"
#include "work/mixer.h"
#include "work/results.h"

/* work_foresee_learn(m, arena, results, measure, sight, n, err): from every batch
 * that was tested for the measure (crushing or bending strength) at about 28
 * days; *n: how many. */
enum err_code work_foresee_learn(const struct work_mixer *m,
	struct arena *arena, const struct work_results *results,
	enum choose_measure measure, struct choose_foresight *sight, size_t *n,
	struct err *err) MUST_CHECK;

/* work_foresee_mix(m, arena, mix, makeup, err): a mix of the book as it is meant
 * to be, at its target wet density.
 * ERR_INPUT  it has no parts, no target, or its foam is not known */
enum err_code work_foresee_mix(const struct work_mixer *m, struct arena *arena,
	size_t mix, struct choose_makeup *makeup, struct err *err) MUST_CHECK;

#endif /* WORK_FORESEE_H */

/* measured_beside.h - heat let through and moisture as measured on pieces of a
 * mix, to stand beside what a relation foresees from the dry weight. */
#ifndef WORK_MEASURED_BESIDE_H
#define WORK_MEASURED_BESIDE_H

#include "work/results.h"

/* work_measured_beside(arena, site, results, mix, moisture_ratio, sentence, n,
 * err): a sentence for each piece of the mix (an index) that was in the hot box,
 * with what the relation says of the same piece, and one for each whose moisture
 * was read; moisture_ratio: what the part is reckoned with; 0: moisture left out.
 * Practice batches are left out.  ERR_MEMORY */
enum err_code work_measured_beside(struct arena *arena,
	const struct work_site *site, const struct work_results *results,
	size_t mix, double moisture_ratio, const char *const **sentence,
	size_t *n, struct err *err) MUST_CHECK;

#endif /* WORK_MEASURED_BESIDE_H */

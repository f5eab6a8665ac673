/* measured_words.h - what is said at once when water, drying, shortening, a
 * screw, frost or heat was read, beside its result. */
#ifndef WORK_MEASURED_WORDS_H
#define WORK_MEASURED_WORDS_H

#include "work/bench.h"
#include "work/results.h"

enum { WORK_MEASURED_WORDS = 3 };

/* work_measured_words(arena, bench, all, piece, reading, sentence, n, err): up
 * to WORK_MEASURED_WORDS of them: how many more readings it takes, what a
 * relation says of the same piece, the forecast of drying, cautions.
 * ERR_MEMORY */
enum err_code work_measured_words(struct arena *arena,
	const struct work_bench *bench, const struct work_results *all,
	size_t piece, const struct book_reading *reading,
	const char *sentence[WORK_MEASURED_WORDS], size_t *n,
	struct err *err) MUST_CHECK;

#endif /* WORK_MEASURED_WORDS_H */

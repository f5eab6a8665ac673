/* weight.h - how much each thing counts when the mixes that do the must-haves
 * are weighed: kept in the book for the house, or for one part. */
#ifndef WORK_WEIGHT_H
#define WORK_WEIGHT_H

#include "work/choose.h"
#include "work/part.h"

struct work_weight_ask {
	const char *part; /* NULL: the house */
	bool is_set[WORK_CRITERIA];
	double weight[WORK_CRITERIA];
	bool drop; /* none of its own any more, first */
	const char *typed;
};

/* What the house, or a part, has of its own. */
struct work_own_weights {
	size_t part; /* index into the site; the number of parts: the house */
	bool is_set[WORK_CRITERIA];
	double weight[WORK_CRITERIA];
};

struct work_weights {
	struct work_parts parts;
	const struct work_own_weights
		*own; /* the house first; those with one */
	size_t n_own;
};

/* work_weights_read(desk, arena, out, err) */
enum err_code work_weights_read(const struct desk *desk, struct arena *arena,
	struct work_weights *out, struct err *err) MUST_CHECK;

/* work_weight_put(desk, arena, ask, err): one write.
 * ERR_NOT_FOUND no such part; ERR_INPUT a weight below 0, nothing asked, nothing
 * to drop */
enum err_code work_weight_put(const struct desk *desk, struct arena *arena,
	const struct work_weight_ask *ask, struct err *err) MUST_CHECK;

/* work_weights_for(row, n, part_id, weight): those of the part, else those of
 * the house; false: the book has none above 0.  *is_of_part: its own. */
bool work_weights_for(const struct book_weight *row, size_t n, int64_t part_id,
	double weight[WORK_CRITERIA], bool *is_of_part);

#endif /* WORK_WEIGHT_H */

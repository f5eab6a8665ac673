/* rank_count.h - how many arrangements of ranks spread the groups so far apart.
 *
 * Pure. */
#ifndef STATS_RANK_COUNT_H
#define STATS_RANK_COUNT_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

/* stats_rank_count(arena, rank, size, n_group, score, has, p, err):
 * rank: all ranks doubled, n = the sum of the sizes of them; *p is the share of
 * the arrangements into groups of these sizes whose sum of (rank sum)^2 / size
 * is `score` or more.  *has is false, and *p untouched, where there are too
 * many different rank sums to count.
 * ERR_MEMORY */
enum err_code stats_rank_count(struct arena *arena, const size_t *rank,
	const size_t *size, size_t n_group, long double score, bool *has,
	double *p, struct err *err) MUST_CHECK;

#endif /* STATS_RANK_COUNT_H */

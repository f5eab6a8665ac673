/* relation.h - strength against dry weight: every piece, and the relation that
 * the comparison found between the two.
 *
 * Method: docs/methods/compare.md. */
#ifndef WORK_RELATION_H
#define WORK_RELATION_H

#include "core/arena.h"
#include "core/err.h"
#include "work/compare.h"

#include <stdbool.h>
#include <stddef.h>

struct work_relation_point {
	size_t result, group; /* of results.result and comparison.group */
	double density_kg_m3; /* dry */
	bool of_batch; /* the mean of its batch, it was not dried itself */
};

/* The strength of the baseline's slurry, foamed to another weight. */
struct work_relation_knot {
	double density_kg_m3;
	double middle_pa, low_pa, high_pa; /* 90 % */
};

struct work_relation {
	const struct work_relation_point *point;
	size_t n_point;
	const struct work_relation_knot *knot; /* rising; n_knot 0: none */
	size_t n_knot;
	const char *sentence; /* what the curve says, or why there is none */
};

/* work_relates(comparison): of bending or crushing strength. */
bool work_relates(const struct work_comparison *comparison);

/* work_relation(arena, all, c, out, err):
 * Pieces of c's measure that have a dry weight, their own or their batch's mean.
 * The curve is A x density^n through the baseline's estimate at its own weight,
 * n of all->exponent; its band takes the two as independent (their half widths
 * on the log scale in quadrature).  Without a baseline of known weight no curve.
 * ERR_MEMORY */
enum err_code work_relation(struct arena *arena,
	const struct work_compared *all, const struct work_comparison *c,
	struct work_relation *out, struct err *err) MUST_CHECK;

#endif /* WORK_RELATION_H */

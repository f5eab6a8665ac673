/* budget.h - the error budget as sentences: what rule, weights, steps, pieces
 * and batches each leave open, and which of them is worth improving. */
#ifndef WORK_BUDGET_H
#define WORK_BUDGET_H

#include "choose/types.h"
#include "core/arena.h"
#include "lab/budget.h"
#include "work/desk.h"

/* What would narrow the figure of a mix. */
enum work_budget_pays {
	WORK_PAYS_UNKNOWN, /* not before two mixes were tested */
	WORK_PAYS_BATCH,   /* finer reading does nothing, another batch does */
	WORK_PAYS_FINER,   /* finer reading most */
	WORK_PAYS_BOTH     /* finer reading, and another batch more */
};

/* Of one kind of result, all its tests together (or those of one piece). */
struct work_budget {
	enum choose_measure measure;
	size_t n_test;
	/* Root mean squares over the tests; relative standard uncertainties. */
	struct lab_budget_part part[LAB_BUDGET_PARTS]; /* largest first */
	size_t n_part;
	double reading;
	size_t n_step; /* tests that are an interval between two loads */
	double step;
	/* Between pieces and batches, from the comparison; log scale. */
	bool has_spread;
	double sd_piece, sd_batch;
	bool batch_is_taken; /* one batch a mix: the spread rests on the prior */
	double n_batch, n_piece;       /* of a mix on average, at least 1 */
	struct lab_budget_worth worth; /* with has_spread */
	enum work_budget_pays pays;
	const char *const *sentence;
	size_t n_sentence;
};

struct work_budgets {
	const struct work_budget *budget;
	size_t n;
};

/* work_budgets(desk, arena, piece, out, err): piece NULL: all of them.
 * ERR_NOT_FOUND no such piece; ERR_INPUT nothing was bent, dropped on or
 * crushed yet; whatever the comparison reports but that it has not two mixes */
enum err_code work_budgets(const struct desk *desk, struct arena *arena,
	const char *piece, struct work_budgets *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_BUDGET_H */

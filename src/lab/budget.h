/* budget.h - the error budget of a test: what each instrument leaves open, what
 * the step does, and whether finer reading or another batch would help more.
 *
 * Relative standard uncertainties throughout, first order (JCGM 100:2008,
 * 5.1.2).  Pure.  docs/methods/uncertainty.md. */
#ifndef LAB_BUDGET_H
#define LAB_BUDGET_H

#include "lab/crush.h"
#include "lab/drop.h"
#include "lab/flexure.h"

#include <stdbool.h>
#include <stddef.h>

enum { LAB_BUDGET_PARTS = 6 };

struct lab_budget_part {
	const char *name;  /* "depth", constant text */
	const char *mends; /* how it would be made smaller, a clause */
	double ratio;      /* relative standard uncertainty; >= 0 */
};

struct lab_budget {
	struct lab_budget_part part[LAB_BUDGET_PARTS]; /* largest first */
	size_t n_part;
	double reading; /* root of the sum of squares of the parts */
	bool has_step;  /* held something, and broke */
	double step;    /* the load anywhere between them, uniform */
};

/* lab_budget_flexure, lab_budget_drop, lab_budget_crush(reading, division, out,
 * err): each division alone, as lab_X_uncertainty has it.  A drop has no step.
 * Of a crushing the load of a gauge or of weights is the step.
 * Errors as lab_X_uncertainty. */
enum err_code lab_budget_flexure(const struct lab_flexure *f,
	const struct lab_flexure_division *division, struct lab_budget *out,
	struct err *err) MUST_CHECK;
enum err_code lab_budget_drop(const struct lab_drop *drop,
	const struct lab_drop_division *division, struct lab_budget *out,
	struct err *err) MUST_CHECK;
enum err_code lab_budget_crush(const struct lab_crush *c,
	const struct lab_crush_division *division, struct lab_budget *out,
	struct err *err) MUST_CHECK;

/* How far the figure of a mix is open, and by what. */
struct lab_budget_mix {
	double reading, step;    /* of one test; >= 0 */
	double piece, batch;     /* standard deviations; piece holds reading */
	double n_piece, n_batch; /* pieces a batch, batches; >= 1 */
};

struct lab_budget_worth {
	double now;   /* relative standard uncertainty of the mix's mean */
	double finer; /* with reading and step half as large */
	double more_pieces;  /* one more piece of every batch */
	double more_batches; /* one more batch of as many pieces */
};

/* lab_budget_worth(mix, out, err):
 * now^2 = batch^2/B + (piece^2 + step^2)/(n B); finer takes 3/4 of reading^2,
 * no more than piece^2, and of step^2 away.  Derived.
 * ERR_INPUT  a value is out of range */
enum err_code lab_budget_worth(const struct lab_budget_mix *mix,
	struct lab_budget_worth *out, struct err *err) MUST_CHECK;

#endif /* LAB_BUDGET_H */

/* next.h - which further batches would help the choice most, and which weights
 * read a beam finely enough.
 *
 * The choice is the mix that is best in one measure.  Method and what it leaves
 * out: docs/methods/next.md. */
#ifndef WORK_NEXT_H
#define WORK_NEXT_H

#include "core/arena.h"
#include "core/err.h"
#include "stats/preposterior.h"
#include "work/compare.h"
#include "work/desk.h"

#include <stdbool.h>
#include <stddef.h>

enum { WORK_NEXT_DESIGNS = 50 };

struct work_next_ask {
	bool has_measure;
	enum choose_measure measure; /* else bending strength, or the first */
	const char *among; /* "B, P, F": the mixes to choose from; NULL: all */
	const char
		*part; /* code: what it asks of the measure is enough; NULL */
	bool has_enough;
	double enough; /* SI: what a mix has beyond it counts for nothing */
	/* Money, in the book's currency; all 0: a batch costs 1. */
	double batch_cost, specimen_cost, day_cost;
	size_t specimens;     /* a batch; 0: as many as so far, in the middle */
	size_t batches_a_day; /* >= 1 */
	double budget;        /* 0: none */
};

struct work_next_design {
	const size_t *extra; /* batches of each candidate */
	size_t n_batch, n_day;
	double cost;
	struct stats_preposterior_gain gain;
	double gain_low, gain_high; /* less and plus its Monte Carlo error */
	bool on_curve; /* nothing that costs no more gains as much */
};

/* How finely a beam of one mix is read. */
struct work_next_steps {
	size_t mix;
	double load_kg;   /* likely breaking load, hanger included */
	double worth_now; /* of a reading in the steps used, against exact */
	double step_now_kg;
	double start_kg; /* what may be hung on at once */
	double step_kg;  /* then weights of this size, */
	size_t n_step;   /* so many of them */
	double worth;    /* of a reading in such steps */
};

struct work_next {
	struct work_compared compared;
	enum choose_measure measure;
	const size_t *candidate; /* n_candidate: index into site->mix */
	size_t n_candidate;
	bool has_enough;
	double enough;        /* SI */
	size_t n_not_weighed; /* what the part asks beside that measure */
	size_t specimens;
	bool has_money;
	struct stats_preposterior now;   /* its figures, without the draws */
	struct work_next_design *design; /* the largest gain first */
	size_t n_design;
	size_t advised; /* index into design; n_design: none is worth it */
	const struct work_next_steps *steps;
	size_t n_steps;
	const char **sentence;
	size_t n_sentence;
};

/* work_next(desk, arena, ask, out, err):
 * ERR_INPUT  a cost below 0; no such measure, mix or part; a part that asks
 *            nothing that was compared; fewer than two mixes to
 *            choose from; and what work_compare reports */
enum err_code work_next(const struct desk *desk, struct arena *arena,
	const struct work_next_ask *ask, struct work_next *out,
	struct err *err) MUST_CHECK;

/* work_next_in_100(arena, p): a chance from 0 to 1 in words, never none and never
 * all: "27 in 100", "fewer than 1 in 100", "more than 99 in 100"; NULL: no
 * memory. */
const char *work_next_in_100(struct arena *arena, double p);

#endif /* WORK_NEXT_H */

/* next_priv.h - the pieces of next. */
#ifndef WORK_NEXT_PRIV_H
#define WORK_NEXT_PRIV_H

#include "work/next.h"

/* The share of an exact reading that a stepped one should be worth; the chance
 * of a wrong choice, and the loss, under which nothing more is asked for.  Our
 * choices, stated in docs/methods/next.md. */
static const double next_worth = 0.95;
static const double next_sure = 0.05, next_small_loss = 0.005;

/* What the gains rest on: the comparison's draws, their columns of the
 * candidates, and all of about but its draws. */
struct next_gaining {
	const struct work_comparison *c;
	const size_t *column; /* about.n_mix */
	uint64_t seed;
	struct stats_preposterior_ask about;
};

/* next_gains(desk, arena, gaining, next, err): next->now and the plans, each with
 * what it gains and not yet what it costs. */
enum err_code next_gains(const struct desk *desk, struct arena *arena,
	struct next_gaining *gaining, struct work_next *next,
	struct err *err) MUST_CHECK;

/* next_steps(arena, next, err): the weights for the beams of each candidate;
 * none where the measure is not of beams. */
enum err_code next_steps(struct arena *arena, struct work_next *next,
	const struct work_comparison *c, struct err *err) MUST_CHECK;

/* next_words(arena, next, err): the sentences. */
enum err_code next_words(struct arena *arena, struct work_next *next,
	struct err *err) MUST_CHECK;

#endif /* WORK_NEXT_PRIV_H */

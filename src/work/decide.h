/* decide.h - a decision written down: which mix a part of the building gets, why,
 * and what the figures said on that day. */
#ifndef WORK_DECIDE_H
#define WORK_DECIDE_H

#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

#include <stddef.h>

struct work_decide {
	const char *part, *mix; /* codes */
	const char *because;    /* the person's own reason */
};

struct work_decision {
	const char *part, *mix;        /* codes */
	const char *because, *figures; /* as they stood */
};

struct work_quantity {
	const char *part, *what, *unit;
	double value;
};

/* work_decide(desk, arena, ask, out, err):
 * Computes the choice as it stands now and writes the decision with it, and
 * what the part takes of the mix.  A later decision for the same part
 * supersedes; both stay in the book.
 * ERR_NOT_FOUND no such part or mix; ERR_INPUT no reason, or a part whose
 * volume is not known */
enum err_code work_decide(const struct desk *desk, struct arena *arena,
	const struct work_decide *ask, struct work_decision *out,
	struct err *err) MUST_CHECK;

/* work_decisions / work_quantities(desk, arena, row, n, err): what holds now, in
 * the order in which the parts were first decided. */
enum err_code work_decisions(const struct desk *desk, struct arena *arena,
	const struct work_decision **row, size_t *n,
	struct err *err) MUST_CHECK;
enum err_code work_quantities(const struct desk *desk, struct arena *arena,
	const struct work_quantity **row, size_t *n,
	struct err *err) MUST_CHECK;

#endif /* WORK_DECIDE_H */

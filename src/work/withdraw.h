/* withdraw.h - something in the book taken back, or brought back. */
#ifndef WORK_WITHDRAW_H
#define WORK_WITHDRAW_H

#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

#include <stdbool.h>
#include <stddef.h>

enum { WITHDRAW_WORDS = 3 };

struct work_withdraw {
	const char *kind; /* material, mix, batch, specimen, reading, part,
			   * photo */
	const char *word[WITHDRAW_WORDS]; /* its code; a reading: piece, test,
					     code */
	size_t n_word;
	const char *because;
	bool restore; /* bring back what was withdrawn */
};

/* work_withdraw(desk, arena, ask, err):
 * One entry in the history with the reason; what belongs to the thing goes with
 * it; every revision stays.
 * ERR_INPUT no such kind, no reason, too few words; ERR_NOT_FOUND; ERR_CONFLICT
 * it is withdrawn already (or is not), or is used by something that holds */
enum err_code work_withdraw(const struct desk *desk, struct arena *arena,
	const struct work_withdraw *ask, struct err *err) MUST_CHECK;

#endif /* WORK_WITHDRAW_H */

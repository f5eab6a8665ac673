/* desk.h - what every deed is handed beside its request: the book, the present
 * moment, who is at work, and how to compute. */
#ifndef WORK_DESK_H
#define WORK_DESK_H

#include "core/err.h"
#include "core/unit.h"

#include <stddef.h>
#include <stdint.h>

struct book;
struct memo;

struct desk {
	struct book *book;       /* borrowed */
	enum unit_gallon gallon; /* which the book means, from when it was
				  * opened */
	int64_t now_utc_s;       /* the moment of the deed */
	const char *who;         /* for the history */
	const char *submission;  /* of the entry, so that one sent twice is
				 * recorded once; NULL: none */
	int64_t *state_to; /* where work_close leaves the number of the last
			    * entry of the history; NULL: nowhere */
	size_t n_thread;   /* 0: one a processor */
	uint64_t seed;     /* of every random draw; shown with the answers */
	size_t n_chain, n_keep; /* draws kept are n_chain * n_keep */
	struct memo *memo; /* borrowed: what was computed before from the same
			    * inputs; NULL: everything is computed anew */
};

enum { WORK_CHAINS = 4, WORK_KEEP = 5000, WORK_WARM = 500, WORK_SEED = 1 };

/* work_commit_or_undo(desk, detail, code, err): the end of a write.  Commits what
 * was put since book_begin if code is ERR_NONE, else undoes it; the code of
 * either. */
enum err_code work_commit_or_undo(const struct desk *desk, const char *detail,
	enum err_code code, struct err *err) MUST_CHECK;

#endif /* WORK_DESK_H */

/* submission.h - has this entry been recorded already, and has the book changed
 * since. */
#ifndef WORK_SUBMISSION_H
#define WORK_SUBMISSION_H

#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

enum work_seen {
	WORK_SEEN_NEW,  /* no entry of that key */
	WORK_SEEN_SAME, /* recorded: the same key, the same content */
	WORK_SEEN_OTHER /* the key was used for another content */
};

/* work_submission_seen(desk, arena, key, digest, seen, err): of an entry whose
 * submission is "key digest". */
enum err_code work_submission_seen(const struct desk *desk, struct arena *arena,
	const char *key, const char *digest, enum work_seen *seen,
	struct err *err) MUST_CHECK;

/* work_book_state(desk, state, err): a number that grows with every write to
 * the book, by whichever program. */
enum err_code work_book_state(
	const struct desk *desk, int64_t *state, struct err *err) MUST_CHECK;

#endif /* WORK_SUBMISSION_H */

/* submission.c - entries that were sent before. */
#include "work/submission.h"

#include "book/book.h"

#include <string.h>

enum err_code
work_submission_seen(const struct desk *desk, struct arena *arena,
	const char *key, const char *digest, enum work_seen *seen,
	struct err *err)
{
	const char *found;

	TRY(book_submitted(desk->book, arena, key, &found, err));
	if (found == NULL)
		*seen = WORK_SEEN_NEW;
	else if (strlen(found) > strlen(key) &&
		strcmp(found + strlen(key) + 1, digest) == 0)
		*seen = WORK_SEEN_SAME;
	else
		*seen = WORK_SEEN_OTHER;
	return ERR_NONE;
}

enum err_code
work_book_state(const struct desk *desk, int64_t *state, struct err *err)
{
	return book_state(desk->book, state, err);
}

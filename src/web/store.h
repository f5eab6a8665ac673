/* store.h - answers kept until the book or the day changes.
 *
 * An answer is handed out by count: whoever takes one gives it back.  Safe
 * between threads.  Old ones go when the room is used up, those first that
 * nobody asked for longest.
 *
 * Beside them the memo of what is long in the computing, which outlives a change
 * of the book: its answers rest on their own inputs alone (core/memo.h). */
#ifndef WEB_STORE_H
#define WEB_STORE_H

#include "web/request.h"

#include <stdint.h>

/* One answer, complete and unchanging. */
struct answer {
	int status;
	const char *type, *see_other, *cookie, *attachment; /* NULL: none */
	const unsigned char *body, *packed; /* packed: gzip (RFC 1952), NULL
						* where there are marks */
	size_t n_body, n_packed;
	bool has_marks;
};

/* answer_make(reply, err): a copy of a reply, counted once; NULL if there is no
 * memory.  answer_give_back(NULL) does nothing. */
struct answer *answer_make(const struct web_reply *reply);
struct answer *answer_again(struct answer *answer); /* counts once more */
void answer_give_back(struct answer *answer);

/* answer_fill(answer, token, key, n): the body with its marks filled in, to be
 * freed by the caller; NULL if there is no memory. */
unsigned char *answer_fill(const struct answer *answer, const char *token,
	const char *key, size_t *n);

/* answer_fill_packed(...): the same as gzip, put together from parts that were
 * packed when the answer was kept; NULL if it was not, or no memory. */
unsigned char *answer_fill_packed(const struct answer *answer,
	const char *token, const char *key, size_t *n);

/* answer_pack(bytes, n, n_packed): gzip, to be freed; NULL if it failed. */
unsigned char *answer_pack(
	const unsigned char *bytes, size_t n, size_t *n_packed);

struct store;
struct memo;

/* store_new(room): at most so many bytes; NULL if there is no memory. */
struct store *store_new(size_t room);
void store_free(struct store *store);

/* store_memo(store): for desk->memo; lives as long as the store. */
struct memo *store_memo(const struct store *store);

/* store_find(store, name, state): the answer of that name made in that state of
 * the book; NULL if there is none.  store_put keeps one. */
struct answer *store_find(
	struct store *store, const char *name, const char *state);
void store_put(struct store *store, const char *name, const char *state,
	struct answer *answer);

#endif /* WEB_STORE_H */

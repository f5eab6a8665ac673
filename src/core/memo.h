/* memo.h - answers of long computings, remembered under a digest of all that
 * they rest on.
 *
 * An answer is the same as what the computing would give anew, so long as its
 * key holds every input and setting.  Nothing is ever out of date: what changed
 * has another key, and the old answer goes in its turn.  Safe between threads.
 * Bounded: the least recently asked for go first. */
#ifndef CORE_MEMO_H
#define CORE_MEMO_H

#include "core/arena.h"

#include <sodium/crypto_generichash.h>
#include <stdbool.h>
#include <stddef.h>

struct memo;

enum { MEMO_KEY_BYTES = 32 };

/* A BLAKE2b digest (RFC 7693) of 256 bits. */
struct memo_key {
	unsigned char digest[MEMO_KEY_BYTES];
};

/* A key in the making.  Each thing goes in with its length, so that no two
 * lists of things run together. */
struct memo_keying {
	crypto_generichash_state state;
};

/* memo_key_start(keying, what): what is computed, a name of its own; what is
 * computed differently by another version of the code needs no other name, since
 * a memo does not outlive its process. */
void memo_key_start(struct memo_keying *keying, const char *what);
void memo_key_count(struct memo_keying *keying, size_t count);
void memo_key_number(struct memo_keying *keying, double number);
void memo_key_text(struct memo_keying *keying, const char *text);
void memo_key_numbers(
	struct memo_keying *keying, const double *number, size_t n);
void memo_key_counts(struct memo_keying *keying, const size_t *count, size_t n);
/* Bytes without holes between members. */
void memo_key_bytes(struct memo_keying *keying, const void *bytes, size_t n);
struct memo_key memo_key_end(struct memo_keying *keying);

/* memo_new(room): at most so many bytes of answers; NULL if there is no memory.
 * memo_free: when no arena borrows from it any more; NULL does nothing. */
struct memo *memo_new(size_t room);
void memo_free(struct memo *memo);

/* memo_find(memo, key, arena): the answer under that key, borrowed by the arena
 * until that is freed (or given back past this call); NULL: there is none, or no
 * memo. */
const void *memo_find(
	struct memo *memo, const struct memo_key *key, struct arena *arena);

/* memo_keep(memo, key, own, answer, arena): the memo takes over the arena `own`,
 * in which the answer lies whole, with all that it points at.  What is returned
 * is borrowed as above; it may be an equal answer that another thread was first
 * to keep.  NULL: there is no memory, and `own` is freed. */
const void *memo_keep(struct memo *memo, const struct memo_key *key,
	struct arena *own, const void *answer, struct arena *arena);

/* That somebody is making an answer; in the memory of whoever does, and left
 * alone between memo_claim and memo_unclaim. */
struct memo_claim {
	struct memo_claim *next;
	struct memo_key key;
	bool held;
};

/* memo_claim(memo, key, wait_ms, arena, claim): as memo_find; but where there is
 * no answer, claim->held says whether the caller is the one to make it.
 *   held      nobody else is at it, or there is no memo: make it, keep it with
 *             memo_keep, and call memo_unclaim, also where making it failed
 *   not held  another thread was at it still after wait_ms (0: not waited for);
 *             whoever cannot wait longer makes it all the same, without a claim
 * A thread that waits while it holds a claim may wait for one that waits for it,
 * until wait_ms are over: let go first, or take claims in one order.
 * memo_unclaim: whoever waits goes on.  Does nothing where it is not held. */
const void *memo_claim(struct memo *memo, const struct memo_key *key,
	unsigned wait_ms, struct arena *arena, struct memo_claim *claim);
void memo_unclaim(struct memo *memo, struct memo_claim *claim);

/* memo_used(memo): bytes of the answers kept, at most the room. */
size_t memo_used(struct memo *memo);

#endif /* CORE_MEMO_H */

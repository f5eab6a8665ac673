/* memo.c - a table of answers, each in an arena of its own, counted. */
#include "core/memo.h"

#include <pthread.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { BUCKETS = 512 };

struct memo_answer {
	struct memo_answer *next;          /* in its bucket */
	struct memo_answer *newer, *older; /* by when it was asked for */
	struct memo *memo;
	struct memo_key key;
	struct arena *own;
	const void *answer;
	size_t size;
	size_t n_borrowed; /* and one for the table, while it is in it */
};

struct memo {
	pthread_mutex_t lock;
	pthread_cond_t unclaimed;
	struct memo_claim *claim; /* a list: a few at a time */
	struct memo_answer *bucket[BUCKETS];
	struct memo_answer *newest, *oldest;
	size_t used, room;
};

/* --- Keys. --- */

void
memo_key_bytes(struct memo_keying *keying, const void *bytes, size_t n)
{
	const uint64_t length = n;

	(void)crypto_generichash_update(
		&keying->state, (const unsigned char *)&length, sizeof length);
	if (n > 0)
		(void)crypto_generichash_update(&keying->state, bytes, n);
}

void
memo_key_start(struct memo_keying *keying, const char *what)
{
	(void)crypto_generichash_init(&keying->state, NULL, 0, MEMO_KEY_BYTES);
	memo_key_text(keying, what);
}

void
memo_key_count(struct memo_keying *keying, size_t count)
{
	memo_key_bytes(keying, &count, sizeof count);
}

void
memo_key_number(struct memo_keying *keying, double number)
{
	memo_key_bytes(keying, &number, sizeof number);
}

void
memo_key_text(struct memo_keying *keying, const char *text)
{
	memo_key_bytes(keying, text, strlen(text));
}

void
memo_key_numbers(struct memo_keying *keying, const double *number, size_t n)
{
	memo_key_bytes(keying, number, n * sizeof *number);
}

void
memo_key_counts(struct memo_keying *keying, const size_t *count, size_t n)
{
	memo_key_bytes(keying, count, n * sizeof *count);
}

struct memo_key
memo_key_end(struct memo_keying *keying)
{
	struct memo_key key;

	(void)crypto_generichash_final(
		&keying->state, key.digest, sizeof key.digest);
	return key;
}

/* --- The table. --- */

/* Told to wait by a clock that is never set. */
static bool
init_unclaimed(pthread_cond_t *unclaimed)
{
	pthread_condattr_t steady;
	bool done;

	if (pthread_condattr_init(&steady) != 0)
		return false;
	done = pthread_condattr_setclock(&steady, CLOCK_MONOTONIC) == 0 &&
		pthread_cond_init(unclaimed, &steady) == 0;
	(void)pthread_condattr_destroy(&steady);
	return done;
}

struct memo *
memo_new(size_t room)
{
	struct memo *memo = calloc(1, sizeof *memo);

	if (memo == NULL)
		return NULL;
	if (!init_unclaimed(&memo->unclaimed)) {
		free(memo);
		return NULL;
	}
	if (pthread_mutex_init(&memo->lock, NULL) != 0) {
		(void)pthread_cond_destroy(&memo->unclaimed);
		free(memo);
		return NULL;
	}
	memo->room = room;
	return memo;
}

static struct memo_answer **
bucket_of(struct memo *memo, const struct memo_key *key)
{
	uint64_t head;

	memcpy(&head, key->digest, sizeof head);
	return &memo->bucket[head % BUCKETS];
}

static void
unlink_age(struct memo *memo, struct memo_answer *one)
{
	if (one->newer != NULL)
		one->newer->older = one->older;
	else
		memo->newest = one->older;
	if (one->older != NULL)
		one->older->newer = one->newer;
	else
		memo->oldest = one->newer;
}

static void
link_newest(struct memo *memo, struct memo_answer *one)
{
	one->newer = NULL;
	one->older = memo->newest;
	if (memo->newest != NULL)
		memo->newest->newer = one;
	else
		memo->oldest = one;
	memo->newest = one;
}

/* With the lock held.  True: nobody has it any more, and it is to be freed. */
static bool
let_go(struct memo_answer *one)
{
	return --one->n_borrowed == 0;
}

static void
free_answer(struct memo_answer *one)
{
	arena_free(one->own);
	free(one);
}

/* With the lock held: out of the table; whoever borrowed it goes on. */
static bool
take_out(struct memo *memo, struct memo_answer *one)
{
	struct memo_answer **at = bucket_of(memo, &one->key);

	while (*at != one)
		at = &(*at)->next;
	*at = one->next;
	unlink_age(memo, one);
	memo->used -= one->size;
	return let_go(one);
}

/* With the lock held: a list, by next, of what is to be freed. */
static struct memo_answer *
make_room(struct memo *memo)
{
	struct memo_answer *gone = NULL;

	while (memo->used > memo->room && memo->oldest != NULL) {
		struct memo_answer *one = memo->oldest;

		if (take_out(memo, one)) {
			one->next = gone;
			gone = one;
		}
	}
	return gone;
}

static void
give_back(void *data)
{
	struct memo_answer *one = data;
	struct memo *memo = one->memo;
	bool free_it;

	(void)pthread_mutex_lock(&memo->lock);
	free_it = let_go(one);
	(void)pthread_mutex_unlock(&memo->lock);
	if (free_it)
		free_answer(one);
}

/* With the lock held. */
static struct memo_answer *
look_up(struct memo *memo, const struct memo_key *key)
{
	struct memo_answer *one = *bucket_of(memo, key);

	while (one != NULL && memcmp(&one->key, key, sizeof *key) != 0)
		one = one->next;
	if (one == NULL)
		return NULL;
	unlink_age(memo, one);
	link_newest(memo, one);
	one->n_borrowed++;
	return one;
}

static const void *
lend(struct memo_answer *one, struct arena *arena)
{
	if (one == NULL)
		return NULL;
	if (arena_at_end(arena, give_back, one))
		return one->answer;
	give_back(one);
	return NULL;
}

const void *
memo_find(struct memo *memo, const struct memo_key *key, struct arena *arena)
{
	struct memo_answer *one;

	if (memo == NULL)
		return NULL;
	(void)pthread_mutex_lock(&memo->lock);
	one = look_up(memo, key);
	(void)pthread_mutex_unlock(&memo->lock);
	return lend(one, arena);
}

static void
put(struct memo *memo, struct memo_answer *one)
{
	struct memo_answer **at = bucket_of(memo, &one->key);

	one->next = *at;
	*at = one;
	link_newest(memo, one);
	memo->used += one->size;
	one->n_borrowed = 2; /* the table, and whoever made it */
}

const void *
memo_keep(struct memo *memo, const struct memo_key *key, struct arena *own,
	const void *answer, struct arena *arena)
{
	struct memo_answer *one = calloc(1, sizeof *one), *found, *gone;

	if (one == NULL) {
		arena_free(own);
		return NULL;
	}
	*one = (struct memo_answer){.memo = memo,
		.key = *key,
		.own = own,
		.answer = answer,
		.size = sizeof *one + arena_used(own)};
	(void)pthread_mutex_lock(&memo->lock);
	found = look_up(memo, key);
	if (found == NULL)
		put(memo, one);
	gone = make_room(memo);
	(void)pthread_mutex_unlock(&memo->lock);
	if (found != NULL) {
		free_answer(one);
		one = found;
	}
	while (gone != NULL) {
		struct memo_answer *next = gone->next;

		free_answer(gone);
		gone = next;
	}
	return lend(one, arena);
}

/* --- Claims. --- */

/* With the lock held. */
static bool
is_claimed(const struct memo *memo, const struct memo_key *key)
{
	const struct memo_claim *one = memo->claim;

	while (one != NULL && memcmp(&one->key, key, sizeof *key) != 0)
		one = one->next;
	return one != NULL;
}

static struct timespec
time_after(unsigned wait_ms)
{
	enum {
		MS_A_SECOND = 1000,
		NS_A_MS = 1000000,
		NS_A_SECOND = 1000000000
	};
	struct timespec t;

	(void)clock_gettime(CLOCK_MONOTONIC, &t);
	t.tv_sec += (time_t)(wait_ms / MS_A_SECOND);
	t.tv_nsec += (long)(wait_ms % MS_A_SECOND) * NS_A_MS;
	if (t.tv_nsec >= NS_A_SECOND) {
		t.tv_sec++;
		t.tv_nsec -= NS_A_SECOND;
	}
	return t;
}

const void *
memo_claim(struct memo *memo, const struct memo_key *key, unsigned wait_ms,
	struct arena *arena, struct memo_claim *claim)
{
	const struct timespec until = time_after(wait_ms);
	struct memo_answer *one;
	bool waits = wait_ms > 0;

	*claim = (struct memo_claim){.key = *key, .held = memo == NULL};
	if (memo == NULL)
		return NULL;
	(void)pthread_mutex_lock(&memo->lock);
	while ((one = look_up(memo, key)) == NULL && waits &&
		is_claimed(memo, key))
		waits = pthread_cond_timedwait(
				&memo->unclaimed, &memo->lock, &until) == 0;
	if (one == NULL && !is_claimed(memo, key)) {
		claim->held = true;
		claim->next = memo->claim;
		memo->claim = claim;
	}
	(void)pthread_mutex_unlock(&memo->lock);
	return lend(one, arena);
}

void
memo_unclaim(struct memo *memo, struct memo_claim *claim)
{
	struct memo_claim **at;

	if (memo == NULL || !claim->held)
		return;
	(void)pthread_mutex_lock(&memo->lock);
	at = &memo->claim;
	while (*at != claim)
		at = &(*at)->next;
	*at = claim->next;
	claim->held = false;
	(void)pthread_cond_broadcast(&memo->unclaimed);
	(void)pthread_mutex_unlock(&memo->lock);
}

size_t
memo_used(struct memo *memo)
{
	size_t used;

	(void)pthread_mutex_lock(&memo->lock);
	used = memo->used;
	(void)pthread_mutex_unlock(&memo->lock);
	return used;
}

void
memo_free(struct memo *memo)
{
	if (memo == NULL)
		return;
	while (memo->oldest != NULL) {
		struct memo_answer *one = memo->oldest;

		if (take_out(memo, one))
			free_answer(one);
	}
	(void)pthread_cond_destroy(&memo->unclaimed);
	(void)pthread_mutex_destroy(&memo->lock);
	free(memo);
}

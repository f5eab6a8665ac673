/* test_memo.c - core/memo: what is found is what was kept under that key, in a
 * room that holds, between threads. */
#include "support.h"

#include "core/memo.h"
#include "core/pool.h"
#include "core/rng.h"

#include <pthread.h>
#include <string.h>

enum { ROOM = 20000, BIG = 3000 };

static struct memo_key
key_of(size_t number)
{
	struct memo_keying keying;

	memo_key_start(&keying, "test");
	memo_key_count(&keying, number);
	return memo_key_end(&keying);
}

/* An answer of BIG bytes that all say its number. */
static const unsigned char *
keep(struct memo *memo, size_t number, struct arena *arena)
{
	struct memo_key key = key_of(number);
	struct arena *own = arena_new((size_t)1 << 20);
	unsigned char *bytes = arena_take(own, BIG, 1);

	memset(bytes, (int)(number % 251), BIG);
	return memo_keep(memo, &key, own, bytes, arena);
}

static const unsigned char *
find(struct memo *memo, size_t number, struct arena *arena)
{
	struct memo_key key = key_of(number);

	return memo_find(memo, &key, arena);
}

static void
assert_says(const unsigned char *bytes, size_t number)
{
	assert_non_null(bytes);
	for (size_t i = 0; i < BIG; i++)
		assert_int_equal(number % 251, bytes[i]);
}

static void
memo__finds_what_was_kept_and_nothing_else(void **state)
{
	struct fixture *f = *state;
	struct memo *memo = memo_new(ROOM);
	const unsigned char *kept = keep(memo, 5, f->a);

	assert_says(kept, 5);
	assert_ptr_equal(kept, find(memo, 5, f->a));
	assert_null(find(memo, 6, f->a));
	assert_null(find(NULL, 5, f->a));
	/* a second that comes to the same gets the first */
	assert_ptr_equal(kept, keep(memo, 5, f->a));
	arena_free(f->a);
	f->a = NULL;
	memo_free(memo);
	memo_free(NULL);
}

/* From RFC 7693 by Python's hashlib.blake2b(digest_size=32), of the lengths (8
 * bytes, least first) each before its bytes; a little-endian machine. */
static void
memo_key__is_blake2b_of_lengths_and_bytes(void **state)
{
	static const unsigned char want[MEMO_KEY_BYTES] = {0x44, 0xd8, 0xed,
		0x84, 0x29, 0xe8, 0xab, 0xba, 0xc9, 0x0f, 0xc3, 0x3d, 0xbd,
		0xab, 0x18, 0x0e, 0x81, 0x5d, 0x09, 0x02, 0xdd, 0xdd, 0x67,
		0xaf, 0x8a, 0xe7, 0x9b, 0x42, 0x1e, 0x69, 0x66, 0x90};
	const double number[] = {2.385, -0.5};
	struct memo_keying keying;
	struct memo_key got;

	(void)state;
	memo_key_start(&keying, "trial");
	memo_key_count(&keying, 3);
	memo_key_numbers(&keying, number, 2);
	got = memo_key_end(&keying);
	assert_memory_equal(want, got.digest, sizeof want);
}

static struct memo_key
key_of_texts(const char *first, const char *second)
{
	struct memo_keying keying;

	memo_key_start(&keying, "texts");
	memo_key_text(&keying, first);
	memo_key_text(&keying, second);
	return memo_key_end(&keying);
}

static void
memo_key__lets_nothing_run_together(void **state)
{
	struct memo_key key[4] = {key_of_texts("ab", "c"),
		key_of_texts("a", "bc"), key_of_texts("abc", ""),
		key_of_texts("", "abc")};

	(void)state;
	for (size_t i = 0; i < 4; i++)
		for (size_t k = 0; k < i; k++)
			assert_memory_not_equal(
				&key[i], &key[k], sizeof key[i]);
}

static void
memo__keeps_its_room_and_drops_the_least_asked_for(void **state)
{
	struct fixture *f = *state;
	struct memo *memo = memo_new(ROOM);
	struct arena *borrower = arena_new((size_t)1 << 20);
	const unsigned char *first = keep(memo, 0, borrower);

	for (size_t i = 1; i < 300; i++) {
		struct arena *arena = arena_new((size_t)1 << 20);

		assert_says(keep(memo, i, arena), i);
		assert_says(find(memo, 1, arena), 1); /* asked for each time */
		arena_free(arena);
		assert_true(memo_used(memo) <= ROOM);
	}
	assert_null(find(memo, 0, f->a));
	assert_null(find(memo, 290, f->a));
	assert_says(find(memo, 299, f->a), 299);
	assert_says(first, 0); /* out of the table, and still borrowed */
	arena_free(borrower);
	arena_free(f->a);
	f->a = NULL;
	memo_free(memo);
}

static void
memo__lends_what_is_larger_than_its_room(void **state)
{
	struct fixture *f = *state;
	struct memo *memo = memo_new(100);

	assert_says(keep(memo, 3, f->a), 3);
	assert_null(find(memo, 3, f->a));
	assert_int_equal(0, memo_used(memo));
	arena_free(f->a);
	f->a = NULL;
	memo_free(memo);
}

/* Given back with the loop's scratch, and not before. */
static void
memo__is_given_back_with_the_arena(void **state)
{
	struct fixture *f = *state;
	struct memo *memo = memo_new(100);
	struct arena_mark mark = arena_mark(f->a);

	for (size_t i = 0; i < 50; i++) {
		const unsigned char *kept = keep(memo, i, f->a);

		assert_non_null(arena_take(f->a, 50000, 1));
		assert_says(kept, i);
		arena_back(f->a, mark);
	}
	memo_free(memo);
}

static enum err_code
ask_often(void *data, size_t index, struct err *err)
{
	struct memo *memo = data;

	(void)err;
	for (size_t i = 0; i < 400; i++) {
		struct arena *arena = arena_new((size_t)1 << 20);
		size_t number = (size_t)(rng_mix(index, i) % 12);
		const unsigned char *got = find(memo, number, arena);

		if (got == NULL)
			got = keep(memo, number, arena);
		for (size_t k = 0; k < BIG; k++)
			if (got[k] != number)
				return ERR_NUMERIC;
		arena_free(arena);
	}
	return ERR_NONE;
}

static void
memo__is_safe_between_threads(void **state)
{
	struct fixture *f = *state;
	struct memo *memo = memo_new(ROOM);

	assert_ok(pool_run(4, 4, ask_often, memo, &f->err), &f->err);
	assert_true(memo_used(memo) <= ROOM);
	memo_free(memo);
}

enum { SHORT_MS = 20, LONG_MS = 30000, N_ASKER = 6 };

static void
memo_claim__is_for_the_first_until_it_lets_go(void **state)
{
	struct fixture *f = *state;
	struct memo *memo = memo_new(ROOM);
	struct memo_key key = key_of(7), other = key_of(8);
	struct memo_claim first, second, third;

	assert_null(memo_claim(memo, &key, 0, f->a, &first));
	assert_true(first.held);
	assert_null(memo_claim(memo, &key, 0, f->a, &second));
	assert_false(second.held);
	assert_null(memo_claim(memo, &key, SHORT_MS, f->a, &second));
	assert_false(second.held); /* waited, in vain */
	assert_null(memo_claim(memo, &other, LONG_MS, f->a, &third));
	assert_true(third.held); /* of another answer: no wait */
	memo_unclaim(memo, &second);
	memo_unclaim(memo, &first); /* it failed: the next may try */
	assert_null(memo_claim(memo, &key, LONG_MS, f->a, &second));
	assert_true(second.held);
	(void)keep(memo, 7, f->a);
	memo_unclaim(memo, &second);
	assert_says(memo_claim(memo, &key, 0, f->a, &first), 7);
	assert_false(first.held);
	memo_unclaim(memo, &third);
	memo_unclaim(memo, &third);
	arena_free(f->a);
	f->a = NULL;
	memo_free(memo);
}

static void
memo_claim__without_a_memo_is_held(void **state)
{
	struct fixture *f = *state;
	struct memo_key key = key_of(7);
	struct memo_claim claim;

	assert_null(memo_claim(NULL, &key, LONG_MS, f->a, &claim));
	assert_true(claim.held);
	memo_unclaim(NULL, &claim);
}

/* Threads that all ask for one answer at once; the first n_fail to be let make
 * it fail. */
struct asking {
	struct memo *memo;
	pthread_barrier_t start;
	pthread_mutex_t lock;
	size_t n_fail, n_failed, n_made;
};

static bool
try_making(struct asking *asking)
{
	bool made;

	(void)pthread_mutex_lock(&asking->lock);
	made = asking->n_failed >= asking->n_fail;
	if (made)
		asking->n_made++;
	else
		asking->n_failed++;
	(void)pthread_mutex_unlock(&asking->lock);
	return made;
}

static void *
ask_at_once(void *data)
{
	struct asking *asking = data;
	struct arena *arena = arena_new((size_t)1 << 20);
	struct memo_key key = key_of(9);
	struct memo_claim claim;
	const unsigned char *got;
	bool good;

	(void)pthread_barrier_wait(&asking->start);
	got = memo_claim(asking->memo, &key, LONG_MS, arena, &claim);
	good = got != NULL || claim.held;
	if (claim.held && try_making(asking))
		got = keep(asking->memo, 9, arena);
	memo_unclaim(asking->memo, &claim);
	good = good && (got == NULL || (got[0] == 9 && got[BIG - 1] == 9));
	arena_free(arena);
	return good ? asking : NULL;
}

static void
assert_made_once(size_t n_fail)
{
	struct asking asking = {.memo = memo_new(ROOM), .n_fail = n_fail};
	pthread_t thread[N_ASKER];

	assert_int_equal(0, pthread_barrier_init(&asking.start, NULL, N_ASKER));
	assert_int_equal(0, pthread_mutex_init(&asking.lock, NULL));
	for (size_t i = 0; i < N_ASKER; i++)
		assert_int_equal(0,
			pthread_create(&thread[i], NULL, ask_at_once, &asking));
	for (size_t i = 0; i < N_ASKER; i++) {
		void *good;

		assert_int_equal(0, pthread_join(thread[i], &good));
		assert_non_null(good);
	}
	assert_int_equal(n_fail, asking.n_failed);
	assert_int_equal(1, asking.n_made);
	(void)pthread_mutex_destroy(&asking.lock);
	(void)pthread_barrier_destroy(&asking.start);
	memo_free(asking.memo);
}

static void
memo_claim__lets_one_make_what_many_ask_for(void **state)
{
	(void)state;
	assert_made_once(0);
}

static void
memo_claim__lets_the_next_try_where_one_failed(void **state)
{
	(void)state;
	assert_made_once(3);
}

static const struct CMUnitTest tests[] = {
	TEST(memo__finds_what_was_kept_and_nothing_else),
	TEST(memo_key__is_blake2b_of_lengths_and_bytes),
	TEST(memo_key__lets_nothing_run_together),
	TEST(memo__keeps_its_room_and_drops_the_least_asked_for),
	TEST(memo__lends_what_is_larger_than_its_room),
	TEST(memo__is_given_back_with_the_arena),
	TEST(memo__is_safe_between_threads),
	TEST(memo_claim__is_for_the_first_until_it_lets_go),
	TEST(memo_claim__without_a_memo_is_held),
	TEST(memo_claim__lets_one_make_what_many_ask_for),
	TEST(memo_claim__lets_the_next_try_where_one_failed),
};

TEST_MAIN(tests)

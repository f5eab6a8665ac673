/* test_memo.c - core/memo: what is found is what was kept under that key, in a
 * room that holds, between threads. */
#include "support.h"

#include "core/memo.h"
#include "core/pool.h"
#include "core/rng.h"

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

static const struct CMUnitTest tests[] = {
	TEST(memo__finds_what_was_kept_and_nothing_else),
	TEST(memo_key__is_blake2b_of_lengths_and_bytes),
	TEST(memo_key__lets_nothing_run_together),
	TEST(memo__keeps_its_room_and_drops_the_least_asked_for),
	TEST(memo__lends_what_is_larger_than_its_room),
	TEST(memo__is_given_back_with_the_arena),
	TEST(memo__is_safe_between_threads),
};

TEST_MAIN(tests)

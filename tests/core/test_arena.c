/* test_arena.c - core/arena: alignment, zeros, limits, marks. */
#include "support.h"

#include <stdalign.h>
#include <string.h>

static void
arena_take__gives_zeroed_aligned_memory(void **state)
{
	struct fixture *f = *state;

	for (size_t n = 1; n < 90000; n = n * 3 + 7) {
		unsigned char *p = arena_take(f->a, n, 3);

		assert_non_null(p);
		assert_true((uintptr_t)p % alignof(max_align_t) == 0);
		for (size_t i = 0; i < 3 * n; i++)
			assert_int_equal(0, p[i]);
		memset(p, 0xA5, 3 * n);
	}
	assert_non_null(arena_take(f->a, 0, 8));
}

static void
arena_new_mapped__is_an_arena_as_any_other(void **state)
{
	struct arena *a = arena_new_mapped(1000000, 5000);
	struct arena_mark mark;
	unsigned char *p;

	(void)state;
	for (size_t n = 1; n < 3000; n = n * 2 + 1) {
		p = arena_take(a, n, 3);
		assert_non_null(p);
		for (size_t i = 0; i < 3 * n; i++)
			assert_int_equal(0, p[i]);
		memset(p, 0xA5, 3 * n);
	}
	mark = arena_mark(a);
	assert_non_null(arena_take(a, 500000, 1));
	arena_back(a, mark);
	p = arena_take(a, 500000, 1);
	assert_int_equal(0, p[0]);
	assert_null(arena_take(a, 1000000, 1));
	arena_free(a);
}

static void
arena_take__keeps_its_limit(void **state)
{
	(void)state;
	struct arena *a = arena_new(1000);

	assert_non_null(arena_take(a, 100, 8));
	assert_null(arena_take(a, 30, 8));
	assert_non_null(arena_take(a, 10, 8));
	assert_true(arena_used(a) <= 1000);
	arena_free(a);
	arena_free(NULL);
}

static void
arena_take__refuses_overflow(void **state)
{
	struct fixture *f = *state;

	/* volatile, so that the compiler does not see it coming */
	volatile size_t huge = SIZE_MAX / 2 + 2;

	assert_null(arena_take(f->a, huge, 2));
	assert_null(arena_take(f->a, huge * 2 - 5, 1));
}

static void
arena_back__gives_back_since_the_mark(void **state)
{
	struct fixture *f = *state;
	char *kept = arena_text(f->a, "kept");
	struct arena_mark mark = arena_mark(f->a);
	size_t used = arena_used(f->a);
	unsigned char *again;

	for (int i = 0; i < 9; i++)
		memset(arena_take(f->a, 50000, 1), 1, 50000);
	arena_back(f->a, mark);
	assert_int_equal(used, arena_used(f->a));
	assert_string_equal("kept", kept);
	again = arena_take(f->a, 64, 1);
	for (int i = 0; i < 64; i++)
		assert_int_equal(0, again[i]);
}

struct calls {
	char order[8];
	size_t n;
};

static void
call_a(void *data)
{
	struct calls *calls = data;

	calls->order[calls->n++] = 'a';
}

static void
call_b(void *data)
{
	struct calls *calls = data;

	calls->order[calls->n++] = 'b';
}

static void
arena_at_end__calls_once_the_last_first(void **state)
{
	struct arena *a = arena_new(1000), *full = arena_new(8);
	struct calls calls = {.n = 0};
	struct arena_mark mark;

	(void)state;
	assert_true(arena_at_end(a, call_a, &calls));
	mark = arena_mark(a);
	assert_true(arena_at_end(a, call_b, &calls));
	arena_back(a, mark);
	assert_string_equal("b", calls.order);
	arena_back(a, mark);
	assert_true(arena_at_end(a, call_b, &calls));
	arena_free(a);
	assert_string_equal("bba", calls.order);
	assert_false(arena_at_end(full, call_a, &calls));
	arena_free(full);
	assert_string_equal("bba", calls.order);
}

static const struct CMUnitTest tests[] = {
	TEST(arena_take__gives_zeroed_aligned_memory),
	TEST(arena_new_mapped__is_an_arena_as_any_other),
	TEST(arena_take__keeps_its_limit),
	TEST(arena_take__refuses_overflow),
	TEST(arena_back__gives_back_since_the_mark),
	TEST(arena_at_end__calls_once_the_last_first),
};

TEST_MAIN(tests)

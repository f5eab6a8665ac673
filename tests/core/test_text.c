/* test_text.c - core/text: growing, UTF-8, columns, distances. */
#include "support.h"

#include "core/text.h"

#include <string.h>

static void
text__grows_and_remembers_failure(void **state)
{
	struct fixture *f = *state;
	struct arena *small = arena_new(300);
	struct text text;

	text_init(&text, f->a);
	for (int i = 0; i < 3000; i++)
		text_addf(&text, "%d,", i % 10);
	assert_false(text_failed(&text));
	assert_int_equal(6000, text.n);
	assert_int_equal(6000, strlen(text.bytes));
	text_init(&text, small);
	for (int i = 0; i < 300; i++)
		text_add(&text, "abc");
	assert_true(text_failed(&text));
	assert_null(text_format(small, "%400d", 1));
	arena_free(small);
}

static void
text_is_utf8__follows_table_3_7(void **state)
{
	(void)state;
	/* Unicode Standard 15, table 3-7: each row's edges */
	assert_true(text_is_utf8("\x7F\xC2\x80\xDF\xBF", 5));
	assert_true(text_is_utf8("\xE0\xA0\x80\xED\x9F\xBF", 6));
	assert_true(text_is_utf8("\xF0\x90\x80\x80\xF4\x8F\xBF\xBF", 8));
	assert_false(text_is_utf8("\xC1\xBF", 2));
	assert_false(text_is_utf8("\xE0\x9F\xBF", 3));
	assert_false(text_is_utf8("\xED\xA0\x80", 3));
	assert_false(text_is_utf8("\xF4\x90\x80\x80", 4));
	assert_false(text_is_utf8("\xE2\x82", 2));
	assert_false(text_is_utf8("a\0b", 3));
}

static void
text__shows_controls_and_counts_columns(void **state)
{
	struct fixture *f = *state;
	struct text text;

	text_init(&text, f->a);
	text_add_shown(&text, "m\u00B3\x1B[\xFF");
	assert_string_equal("m\u00B3\\x1B[\\xFF", text.bytes);
	assert_int_equal(
		text_columns(text.bytes), text_columns("m\u00B3\x1B[\xFF"));
	assert_int_equal(1, text_columns("e\u0301"));
	assert_int_equal(2, text_columns("\u4E2D"));
}

static void
text_distance__counts_edits(void **state)
{
	(void)state;
	/* the usual textbook pair: two changes and one insertion */
	assert_int_equal(3, text_distance("kitten", "sitting"));
	assert_int_equal(1, text_distance("batch", "bacth"));
	assert_int_equal(5, text_distance("", "batch"));
	assert_int_equal(0, text_distance("mix", "mix"));
}

static const struct CMUnitTest tests[] = {
	TEST(text__grows_and_remembers_failure),
	TEST(text_is_utf8__follows_table_3_7),
	TEST(text__shows_controls_and_counts_columns),
	TEST(text_distance__counts_edits),
};

TEST_MAIN(tests)

/* test_number.c - figures, escapes, widths and wrapping of draw. */
#include "support.h"

#include "draw/number.h"

#include <string.h>

static const char *
fixed(struct fixture *f, double x, int n_decimal, char mark)
{
	struct text text;

	text_init(&text, f->a);
	draw_add_fixed(&text, x, n_decimal, mark);
	return text.bytes;
}

static void
fixed__rounds_and_marks_as_asked(void **state)
{
	struct fixture *f = *state;

	assert_string_equal(fixed(f, 2.385, 1, '.'), "2.4");
	assert_string_equal(fixed(f, 2.385, 2, ','), "2,38"); /* 2.38499.. */
	assert_string_equal(fixed(f, 0.996, 2, '.'), "1.00");
	assert_string_equal(fixed(f, 9.96, 1, '.'), "10.0");
	assert_string_equal(fixed(f, 0, 0, '.'), "0");
	assert_string_equal(fixed(f, 0.05, 2, '.'), "0.05");
}

static void
fixed__has_a_true_minus_and_never_minus_zero(void **state)
{
	struct fixture *f = *state;

	assert_string_equal(fixed(f, -3.25, 2, '.'),
		"\xE2\x88\x92"
		"3.25");
	assert_string_equal(fixed(f, -0.04, 1, '.'), "0.0");
}

static void
fixed__parts_thousands_from_ten_thousand_on(void **state)
{
	struct fixture *f = *state;

	assert_string_equal(fixed(f, 1234.5, 1, '.'), "1234.5");
	assert_string_equal(fixed(f, 1234567, 0, '.'),
		"1\xE2\x80\x89"
		"234\xE2\x80\x89"
		"567");
	assert_string_equal(fixed(f, 1e15, 0, '.'),
		"1\xE2\x80\x89"
		"000\xE2\x80\x89"
		"000\xE2\x80\x89"
		"000\xE2\x80\x89"
		"000\xE2\x80\x89"
		"000");
}

static void
px__is_a_tenth_at_most(void **state)
{
	struct fixture *f = *state;
	struct text text;

	text_init(&text, f->a);
	draw_add_px(&text, 12.34);
	draw_add_px(&text, -0.26);
	draw_add_px(&text, 7.02);
	draw_add_px(&text, -0.04);
	assert_string_equal(text.bytes, "12.3-0.370");
}

static void
decimals__show_a_step_or_so_many_digits(void **state)
{
	(void)state;
	assert_int_equal(draw_decimals(50), 0);
	assert_int_equal(draw_decimals(0.2), 1);
	assert_int_equal(draw_decimals(0.1), 1);
	assert_int_equal(draw_decimals(0.05), 2);
	assert_int_equal(draw_decimals_of(412, 3), 0);
	assert_int_equal(draw_decimals_of(41.2, 3), 1);
	assert_int_equal(draw_decimals_of(0.0412, 3), 4);
	assert_int_equal(draw_decimals_of(0, 3), 0);
	assert_int_equal(draw_decimals_of(-98765, 2), 0);
}

static const char *
escaped(struct fixture *f, const char *words)
{
	struct text text;

	text_init(&text, f->a);
	draw_add_escaped(&text, words, strlen(words));
	return text.bytes;
}

static void
escaped__holds_no_mark_and_no_bad_byte(void **state)
{
	struct fixture *f = *state;

	assert_string_equal(escaped(f, "<a href='x'>\"&\""),
		"&lt;a href=&#39;x&#39;&gt;&quot;&amp;&quot;");
	assert_string_equal(
		escaped(f, "m\xC2\xB3 \xE6\xB3\xA1"), "m\xC2\xB3 \xE6\xB3\xA1");
	assert_string_equal(escaped(f, "\x01\xFF"), "\xEF\xBF\xBD\xEF\xBF\xBD");
	/* an overlong '<', a surrogate, U+FFFF, and a cut sequence */
	assert_lacks(escaped(f, "\xC0\xBC \xED\xA0\x80"), "\xC0");
	assert_lacks(escaped(f, "\xC0\xBC \xED\xA0\x80"), "\xED");
	assert_string_equal(escaped(f, "\xEF\xBF\xBF"), "\xEF\xBF\xBD");
	assert_string_equal(
		escaped(f, "a\xE2\x82"), "a\xEF\xBF\xBD\xEF\xBF\xBD");
}

static void
escaped__every_pair_of_bytes_is_clean(void **state)
{
	struct fixture *f = *state;

	for (unsigned a = 1; a < 256; a++)
		for (unsigned b = 1; b < 256; b++) {
			char pair[3] = {(char)a, (char)b, 0};
			struct arena_mark mark = arena_mark(f->a);
			const char *got = escaped(f, pair);

			assert_true(text_is_utf8(got, strlen(got)));
			assert_null(strpbrk(got, "<>\"'\x01\x1F\x7F"));
			arena_back(f->a, mark);
		}
}

static void
width__is_the_fonts(void **state)
{
	(void)state;
	/* DejaVu Sans 2.37, hmtx: i 0.278, W 0.989, 0 0.636 of the size */
	assert_near(
		draw_text_width("iW0", 3, 100), 27.8 + 98.9 + 63.6, 1e-12, 0);
	assert_near(draw_text_width("ab", 1, 10), 6.13, 1e-12, 0);
}

static void
wrap__keeps_every_line_within_the_width(void **state)
{
	static const char words[] =
		"with 12 mm polypropylene fibre, mixed two minutes longer";
	struct draw_line line[8];
	size_t n, at = 0;

	(void)state;
	n = draw_wrap(words, 14, 120, line, 8);
	assert_in_range(n, 3, 6);
	for (size_t i = 0; i < n; i++) {
		assert_true(
			draw_text_width(line[i].start, line[i].n, 14) <= 120);
		assert_false(line[i].is_cut);
		assert_true((size_t)(line[i].start - words) >= at);
		at = (size_t)(line[i].start - words) + line[i].n;
	}
	assert_int_equal(at, strlen(words));
}

static void
wrap__breaks_and_cuts_a_word_without_end(void **state)
{
	struct draw_line line[2];
	char long_word[401];

	(void)state;
	memset(long_word, 'm', 400);
	long_word[400] = '\0';
	assert_int_equal(draw_wrap(long_word, 14, 100, line, 2), 2);
	assert_true(line[1].is_cut);
	assert_true(draw_text_width(line[1].start, line[1].n, 14) + 14 <= 100);
	assert_int_equal(draw_wrap("", 14, 100, line, 2), 0);
	assert_int_equal(draw_wrap("   ", 14, 100, line, 2), 0);
	assert_int_equal(draw_wrap(NULL, 14, 100, line, 2), 0);
}

static const struct CMUnitTest tests[] = {
	TEST(fixed__rounds_and_marks_as_asked),
	TEST(fixed__has_a_true_minus_and_never_minus_zero),
	TEST(fixed__parts_thousands_from_ten_thousand_on),
	TEST(px__is_a_tenth_at_most),
	TEST(decimals__show_a_step_or_so_many_digits),
	TEST(escaped__holds_no_mark_and_no_bad_byte),
	TEST(escaped__every_pair_of_bytes_is_clean),
	TEST(width__is_the_fonts),
	TEST(wrap__keeps_every_line_within_the_width),
	TEST(wrap__breaks_and_cuts_a_word_without_end),
};

TEST_MAIN(tests)

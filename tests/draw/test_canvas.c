/* test_canvas.c - the frame of XML, themes, sizes and failures of a picture. */
#include "support.h"

#include "samples.h"
#include "xml.h"

#include "draw/ink.h"
#include "draw/picture.h"
#include "draw/ratio.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const struct draw_ratio_row one_row[] = {
	{"D", {1.37, 1.12, 1.68}, "99 in 100", true}};
static const struct draw_ratio one = {.about = {"r1", "Ratio", "A ratio."},
	.baseline = "B",
	.row = one_row,
	.n_row = 1};

static const char *
drawn(struct fixture *f, struct draw_size size)
{
	struct text svg;

	text_init(&svg, f->a);
	assert_ok(draw_ratio(&one, &size, &svg, &f->err), &f->err);
	return svg.bytes;
}

static void
picture__is_named_for_a_screen_reader(void **state)
{
	struct fixture *f = *state;
	const char *svg = drawn(f, (struct draw_size){0});
	struct xml xml = xml_read(f->a, svg, strlen(svg));

	assert_string_equal(xml.element[0].name, "svg");
	assert_string_equal(xml_get(&xml.element[0], "role"), "img");
	assert_string_equal(xml_get(&xml.element[0], "aria-labelledby"),
		"r1-title r1-desc");
	assert_string_equal(xml.element[1].name, "title");
	assert_string_equal(xml_get(&xml.element[1], "id"), "r1-title");
	assert_string_equal(xml.element[1].words, "Ratio");
	assert_string_equal(xml.element[2].name, "desc");
	assert_string_equal(xml.element[2].words, "A ratio.");
	assert_string_equal(xml_get(&xml.element[0], "viewBox"),
		text_format(f->a, "0 0 720 %g",
			xml_number(&xml.element[0], "height")));
}

static void
picture__themes(void **state)
{
	struct fixture *f = *state;
	const char *autom = drawn(f, (struct draw_size){0});
	const char *light = drawn(
		f, (struct draw_size){.theme = DRAW_THEME_LIGHT});
	const char *dark = drawn(
		f, (struct draw_size){.theme = DRAW_THEME_DARK});

	assert_has(autom, "@media screen and (prefers-color-scheme:dark)");
	assert_has(autom, "fill=\"#ffffff\"");
	assert_lacks(light, "<style>");
	assert_lacks(light, "class=");
	assert_has(light, "fill=\"#ffffff\"");
	assert_lacks(dark, "<style>");
	assert_lacks(dark, "#ffffff");
	/* nothing that a strict policy would stop, nothing from elsewhere */
	assert_lacks(autom, "style=");
	assert_lacks(autom, "<script");
	assert_lacks(autom, "href");
	assert_lacks(autom, "@import");
}

/* Relative luminance of an ink, WCAG 2.2, "relative luminance". */
static double
luminance(struct fixture *f, int ink, enum draw_theme theme)
{
	static const double weight[] = {0.2126, 0.7152, 0.0722};
	double sum = 0;
	struct text text;
	unsigned long rgb;

	text_init(&text, f->a);
	draw_ink_both(&text, (enum draw_ink)ink, DRAW_INK_NONE, theme);
	rgb = strtoul(strchr(text.bytes, '#') + 1, NULL, 16);
	for (int i = 0; i < 3; i++) {
		double share = (double)(rgb >> (16 - 8 * i) & 0xFF) / 255;

		sum += weight[i] *
			(share <= 0.04045 ? share / 12.92
					  : pow((share + 0.055) / 1.055, 2.4));
	}
	return sum;
}

static double
contrast(struct fixture *f, int ink, int behind, enum draw_theme theme)
{
	double a = luminance(f, ink, theme), b = luminance(f, behind, theme);

	return (fmax(a, b) + 0.05) / (fmin(a, b) + 0.05);
}

/* WCAG 2.2: 1.4.6 asks 7:1 of words, 1.4.11 3:1 of marks. */
static void
inks__stand_out_from_the_paper_in_both_themes(void **state)
{
	struct fixture *f = *state;

	for (int theme = DRAW_THEME_LIGHT; theme <= DRAW_THEME_DARK; theme++) {
		enum draw_theme t = (enum draw_theme)theme;

		assert_true(contrast(f, DRAW_INK_TEXT, DRAW_INK_PAPER, t) >= 7);
		assert_true(contrast(f, DRAW_INK_SOFT, DRAW_INK_PAPER, t) >= 7);
		assert_true(contrast(f, DRAW_INK_WARN, DRAW_INK_PAPER, t) >= 7);
		for (int i = 0; i < 6; i++) {
			int ink = (int)DRAW_INK_SERIES + i;

			assert_true(contrast(f, ink, DRAW_INK_PAPER, t) >= 3);
			assert_true(contrast(f, ink, DRAW_INK_SHADE, t) >= 3);
		}
		assert_true(contrast(f, DRAW_INK_WARN, DRAW_INK_WARN_SHADE,
				    t) >= 4.5);
	}
}

static void
picture__refuses_sizes_it_cannot_have(void **state)
{
	struct fixture *f = *state;
	static const struct draw_size bad[] = {{.width_px = 239},
		{.width_px = 2001}, {.width_px = -1}, {.height_px = 119},
		{.height_px = 4001}, {.decimal_mark = ';'}};

	for (size_t i = 0; i < sizeof(bad) / sizeof(bad[0]); i++) {
		struct text svg;

		text_init(&svg, f->a);
		text_add(&svg, "before");
		err_clear(&f->err);
		assert_int_equal(
			ERR_INPUT, draw_ratio(&one, &bad[i], &svg, &f->err));
		assert_string_equal(svg.bytes, "before");
		assert_true(f->err.field[0] != '\0');
	}
}

static void
picture__takes_a_decimal_comma(void **state)
{
	struct fixture *f = *state;
	const char *svg = drawn(f, (struct draw_size){.decimal_mark = ','});

	assert_has(svg, "1,37");
	assert_lacks(svg, ">1.37");
	assert_has(svg, ">1,5<");
}

static void
picture__same_input_same_bytes(void **state)
{
	struct fixture *f = *state;
	size_t n;
	const struct sample *sample = samples(&n);

	for (size_t i = 0; i < n; i++) {
		struct text a, b;

		text_init(&a, f->a);
		text_init(&b, f->a);
		assert_ok(sample[i].draw(NULL, &a, &f->err), &f->err);
		assert_ok(sample[i].draw(NULL, &b, &f->err), &f->err);
		assert_string_equal(a.bytes, b.bytes);
	}
}

/* Wherever memory ends, the answer is that it did, and nothing was added. */
static void
picture__runs_out_of_memory_cleanly(void **state)
{
	struct fixture *f = *state;
	size_t n, n_failed = 0;
	const struct sample *sample = samples(&n);

	for (size_t i = 0; i < n; i++)
		for (size_t limit = 600; limit < 120000; limit *= 2) {
			struct arena *small = arena_new(limit);
			struct text svg;
			enum err_code code;

			assert_non_null(small);
			text_init(&svg, small);
			text_add(&svg, "x");
			err_clear(&f->err);
			code = sample[i].draw(NULL, &svg, &f->err);
			if (code != ERR_NONE) {
				assert_int_equal(code, ERR_MEMORY);
				assert_true(svg.bytes == NULL || svg.n <= 1);
				n_failed++;
			}
			arena_free(small);
		}
	assert_true(n_failed > 20);
}

static void
picture__glossary_words_are_found(void **state)
{
	enum draw_picture_kind kind;

	(void)state;
	for (int i = 0; i < DRAW_PICTURE_COUNT; i++) {
		assert_true(draw_picture_find(
			draw_picture_word((enum draw_picture_kind)i), &kind));
		assert_int_equal(kind, i);
	}
	assert_false(draw_picture_find("house", &kind));
}

static const struct CMUnitTest tests[] = {
	TEST(picture__is_named_for_a_screen_reader),
	TEST(picture__themes),
	TEST(inks__stand_out_from_the_paper_in_both_themes),
	TEST(picture__refuses_sizes_it_cannot_have),
	TEST(picture__takes_a_decimal_comma),
	TEST(picture__same_input_same_bytes),
	TEST(picture__runs_out_of_memory_cleanly),
	TEST(picture__glossary_words_are_found),
};

TEST_MAIN(tests)

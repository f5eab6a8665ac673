/* number.c - figures and names written into a picture; how wide they will be.
 */
#include "draw/number.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum { DECIMALS_MAX = 12, FIGURES_MAX = 40, REPLACEMENT = 0xFFFD };

/* Widths of DejaVu Sans 2.37 from U+0020 to U+007E, thousandths of its size,
 * read from the font's hmtx table. */
static const short glyph_width[95] = {318, 401, 460, 838, 636, 950, 780, 275,
	390, 390, 500, 838, 318, 361, 318, 337, 636, 636, 636, 636, 636, 636,
	636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698,
	770, 632, 575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787,
	695, 635, 611, 732, 684, 989, 685, 611, 685, 390, 337, 390, 838, 500,
	500, 613, 635, 550, 635, 615, 352, 635, 634, 278, 278, 579, 278, 974,
	634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592, 525, 636,
	337, 636, 838};

void
draw_add_px(struct text *text, double x)
{
	long long tenths = llround(x * 10);

	text_addf(text, "%s%lld", tenths < 0 ? "-" : "", llabs(tenths) / 10);
	if (tenths % 10 != 0)
		text_addf(text, ".%lld", llabs(tenths) % 10);
}

/* The figures of a whole number below 1e28 kept as two halves, since a value
 * with its decimals may be more than a 64-bit number holds. */
static size_t
whole_figures(uint64_t whole, uint64_t decimals, int n_decimal,
	char figure[FIGURES_MAX])
{
	char back[FIGURES_MAX];
	size_t n = 0;

	for (int i = 0; i < n_decimal; i++, decimals /= 10)
		back[n++] = (char)('0' + decimals % 10);
	do {
		back[n++] = (char)('0' + whole % 10);
		whole /= 10;
	} while (whole > 0);
	for (size_t i = 0; i < n; i++)
		figure[i] = back[n - 1 - i];
	return n;
}

static double
power_of_ten(int n)
{
	double power = 1;

	for (int i = 0; i < n; i++)
		power *= 10;
	return power;
}

void
draw_add_fixed(struct text *text, double x, int n_decimal, char mark)
{
	char figure[FIGURES_MAX];
	double unit = power_of_ten(n_decimal);
	double size = fabs(x), whole = floor(size);
	double decimals = round((size - whole) * unit);
	size_t n, n_whole;
	bool is_grouped;

	if (decimals >= unit) {
		decimals -= unit;
		whole += 1;
	}
	n = whole_figures(
		(uint64_t)whole, (uint64_t)decimals, n_decimal, figure);
	n_whole = n - (size_t)n_decimal;
	is_grouped = n_whole > 4;
	if (x < 0 && (whole > 0 || decimals > 0))
		text_add(text, "\xE2\x88\x92");
	for (size_t i = 0; i < n; i++) {
		if (i == n_whole)
			text_add_char(text, mark == ',' ? ',' : '.');
		else if (is_grouped && i > 0 && i < n_whole &&
			(n_whole - i) % 3 == 0)
			text_add(text, "\xE2\x80\x89");
		text_add_char(text, figure[i]);
	}
}

int
draw_decimals(double step)
{
	int n = 0;

	/* a hair above, so that 0.1 kept as 0.09999... asks for one */
	while (n < DECIMALS_MAX && step * 1.000001 < 1) {
		step *= 10;
		n++;
	}
	return n;
}

int
draw_decimals_of(double x, int n_digit)
{
	double size = fabs(x);
	int n = n_digit - 1;

	if (size == 0)
		return 0;
	while (n > 0 && size >= 10) {
		size /= 10;
		n--;
	}
	while (n < DECIMALS_MAX && size < 1) {
		size *= 10;
		n++;
	}
	return n;
}

/* The bytes that a well-formed sequence has after its first, or -1. */
static int
following(unsigned char first)
{
	if (first < 0x80)
		return 0;
	if (first >= 0xC2 && first <= 0xDF)
		return 1;
	if (first >= 0xE0 && first <= 0xEF)
		return 2;
	if (first >= 0xF0 && first <= 0xF4)
		return 3;
	return -1;
}

/* What XML 1.0 allows (section 2.2, production 2), less the controls that
 * Unicode keeps and that no name needs. */
static bool
is_allowed(unsigned code)
{
	if (code < 0x20 || (code >= 0x7F && code < 0xA0))
		return false;
	return (code & 0xFFFE) != 0xFFFE;
}

unsigned
draw_next(const char **at)
{
	const char *start = *at;
	unsigned char first = (unsigned char)*start;
	int n = following(first);
	unsigned code = first;

	if (first == 0)
		return 0;
	*at = start + 1;
	if (n == 0)
		return is_allowed(code) ? code : REPLACEMENT;
	if (n < 0)
		return REPLACEMENT;
	for (int i = 1; i <= n; i++)
		if (((unsigned char)start[i] & 0xC0) != 0x80)
			return REPLACEMENT;
	if (!text_is_utf8(start, (size_t)n + 1))
		return REPLACEMENT;
	code &= 0x3Fu >> n;
	for (int i = 1; i <= n; i++)
		code = code << 6 | ((unsigned char)start[i] & 0x3Fu);
	*at = start + n + 1;
	return is_allowed(code) ? code : REPLACEMENT;
}

static void
add_code(struct text *text, unsigned code, const char *from, size_t n)
{
	switch (code) {
	case '&':
		text_add(text, "&amp;");
		break;
	case '<':
		text_add(text, "&lt;");
		break;
	case '>':
		text_add(text, "&gt;");
		break;
	case '"':
		text_add(text, "&quot;");
		break;
	case '\'':
		text_add(text, "&#39;");
		break;
	case REPLACEMENT:
		text_add(text, "\xEF\xBF\xBD");
		break;
	default:
		text_add_n(text, from, n);
		break;
	}
}

void
draw_add_escaped(struct text *text, const char *words, size_t n)
{
	const char *at = words, *end = words + n;

	while (at < end) {
		const char *from = at;
		unsigned code = draw_next(&at);

		if (code == 0)
			return;
		add_code(text, code, from, (size_t)(at - from));
	}
}

static double
code_width(unsigned code)
{
	if (code >= 0x20 && code < 0x7F)
		return glyph_width[code - 0x20] / 1000.0;
	if (code == 0x2009)
		return 0.2;
	if (code >= 0x300 && code < 0x370)
		return 0;
	return code >= 0x1100 ? 1.0 : 0.65;
}

double
draw_text_width(const char *words, size_t n, double size_px)
{
	const char *at = words, *end = words + n;
	double width = 0;

	while (at < end) {
		unsigned code = draw_next(&at);

		if (code == 0)
			break;
		width += code_width(code);
	}
	return width * size_px;
}

/* The line that begins at start: as many whole words as fit; at least one
 * character of a word that is too long by itself. */
static struct draw_line
next_line(const char *start, double size_px, double width_px)
{
	const char *at = start, *space = NULL;
	double width = 0;

	while (*at != '\0') {
		const char *from = at;
		unsigned code = draw_next(&at);

		width += code_width(code) * size_px;
		if (code == ' ')
			space = from;
		if (width > width_px && code != ' ' && from > start) {
			const char *end = space != NULL && space > start ? space
									 : from;
			return (struct draw_line){
				start, (size_t)(end - start), false};
		}
	}
	return (struct draw_line){start, (size_t)(at - start), false};
}

/* Shortens a line until an ellipsis fits behind it. */
static void
cut_line(struct draw_line *line, double size_px, double width_px)
{
	line->is_cut = true;
	while (line->n > 1 &&
		draw_text_width(line->start, line->n, size_px) + size_px >
			width_px) {
		do
			line->n--;
		while (line->n > 1 &&
			((unsigned char)line->start[line->n] & 0xC0) == 0x80);
	}
}

size_t
draw_wrap(const char *words, double size_px, double width_px,
	struct draw_line *line, size_t most)
{
	size_t n = 0;

	if (words == NULL)
		return 0;
	while (n < most) {
		words += strspn(words, " ");
		if (*words == '\0')
			return n;
		line[n] = next_line(words, size_px, width_px);
		words += line[n].n;
		n++;
	}
	words += strspn(words, " ");
	if (*words != '\0' && n > 0)
		cut_line(&line[n - 1], size_px, width_px);
	return n;
}

/* text.c - growing text, UTF-8, widths, distances between words. */
#include "core/text.h"

#include "core/arena.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>

void
text_init(struct text *text, struct arena *arena)
{
	*text = (struct text){
		.arena = arena, .bytes = arena_take(arena, 64, 1), .room = 64};
	text->failed = text->bytes == NULL;
}

/* Makes room for n more bytes and the closing NUL. */
static bool
grow(struct text *text, size_t n)
{
	size_t room = text->room;
	char *bytes;

	if (text->failed)
		return false;
	if (n < room - text->n)
		return true;
	while (room - text->n <= n) {
		if (room > SIZE_MAX / 2) {
			text->failed = true;
			return false;
		}
		room *= 2;
	}
	bytes = arena_take(text->arena, room, 1);
	if (bytes == NULL) {
		text->failed = true;
		return false;
	}
	memcpy(bytes, text->bytes, text->n + 1);
	text->bytes = bytes;
	text->room = room;
	return true;
}

void
text_add_n(struct text *text, const char *more, size_t n)
{
	if (!grow(text, n))
		return;
	memcpy(text->bytes + text->n, more, n);
	text->n += n;
	text->bytes[text->n] = '\0';
}

void
text_add(struct text *text, const char *more)
{
	text_add_n(text, more, strlen(more));
}

void
text_add_char(struct text *text, char c)
{
	text_add_n(text, &c, 1);
}

void
text_addv(struct text *text, const char *format, va_list arguments)
{
	va_list again;
	int length;

	format = arena_say(text->arena, format);
	va_copy(again, arguments);
	length = vsnprintf(NULL, 0, format, arguments);
	if (length < 0)
		text->failed = true;
	else if (grow(text, (size_t)length)) {
		(void)vsnprintf(text->bytes + text->n, (size_t)length + 1,
			format, again);
		text->n += (size_t)length;
	}
	va_end(again);
}

void
text_addf(struct text *text, const char *format, ...)
{
	va_list arguments;

	va_start(arguments, format);
	text_addv(text, format, arguments);
	va_end(arguments);
}

bool
text_failed(const struct text *text)
{
	return text->failed;
}

char *
text_format(struct arena *arena, const char *format, ...)
{
	struct text text;
	va_list arguments;

	text_init(&text, arena);
	va_start(arguments, format);
	text_addv(&text, format, arguments);
	va_end(arguments);
	return text.failed ? NULL : text.bytes;
}

/* Length of the character at bytes, 0 if it is not well-formed; its code point
 * in *point.  Table 3-7 of the Unicode Standard, version 15. */
static size_t
character_length(const unsigned char *bytes, size_t n, uint32_t *point)
{
	size_t length;
	uint32_t value, least;

	if (bytes[0] < 0x80) {
		*point = bytes[0];
		return 1;
	}
	if (bytes[0] >= 0xC2 && bytes[0] <= 0xDF) {
		length = 2;
		value = bytes[0] & 0x1Fu;
		least = 0x80;
	} else if ((bytes[0] & 0xF0u) == 0xE0) {
		length = 3;
		value = bytes[0] & 0x0Fu;
		least = 0x800;
	} else if (bytes[0] >= 0xF0 && bytes[0] <= 0xF4) {
		length = 4;
		value = bytes[0] & 0x07u;
		least = 0x10000;
	} else {
		return 0;
	}
	if (length > n)
		return 0;
	for (size_t i = 1; i < length; i++) {
		if ((bytes[i] & 0xC0u) != 0x80)
			return 0;
		value = value << 6 | (bytes[i] & 0x3Fu);
	}
	if (value < least || value > 0x10FFFF ||
		(value >= 0xD800 && value <= 0xDFFF))
		return 0;
	*point = value;
	return length;
}

bool
text_is_utf8(const char *bytes, size_t n)
{
	const unsigned char *at = (const unsigned char *)bytes;
	uint32_t point;

	for (size_t i = 0; i < n;) {
		size_t length = character_length(at + i, n - i, &point);

		if (length == 0 || point == 0)
			return false;
		i += length;
	}
	return true;
}

static bool
is_control(uint32_t point)
{
	return point < 0x20 || (point >= 0x7F && point < 0xA0) ||
		point == 0xAD || point == 0x061C || point == 0x180E ||
		(point >= 0x2060 && point <= 0x2064) ||
		(point >= 0xE0000 && point <= 0xE007F) ||
		(point >= 0x200B && point <= 0x200F) ||
		(point >= 0x2028 && point <= 0x202E) ||
		(point >= 0x2066 && point <= 0x2069) || point == 0xFEFF;
}

/* Marks that join the letter before them take no column; East Asian wide
 * blocks take two.  Own ranges, so that no locale is needed. */
static size_t
point_columns(uint32_t point)
{
	if ((point >= 0x0300 && point <= 0x036F) ||
		(point >= 0x1AB0 && point <= 0x1AFF) ||
		(point >= 0x20D0 && point <= 0x20FF) ||
		(point >= 0xFE00 && point <= 0xFE0F))
		return 0;
	if ((point >= 0x1100 && point <= 0x115F) ||
		(point >= 0x2E80 && point <= 0xA4CF) ||
		(point >= 0xAC00 && point <= 0xD7A3) ||
		(point >= 0xF900 && point <= 0xFAFF) ||
		(point >= 0xFF00 && point <= 0xFF60) ||
		(point >= 0x1F300 && point <= 0x1FAFF) ||
		(point >= 0x20000 && point <= 0x3FFFD))
		return 2;
	return 1;
}

size_t
text_columns(const char *text)
{
	const unsigned char *at = (const unsigned char *)text;
	size_t n = strlen(text), columns = 0;

	for (size_t i = 0; i < n;) {
		uint32_t point = 0;
		size_t length = character_length(at + i, n - i, &point);

		if (length == 0 || is_control(point)) {
			size_t bytes = length == 0 ? 1 : length;

			columns += 4 * bytes;
			i += bytes;
			continue;
		}
		columns += point_columns(point);
		i += length;
	}
	return columns;
}

void
text_add_shown(struct text *text, const char *more)
{
	const unsigned char *at = (const unsigned char *)more;
	size_t n = strlen(more);

	for (size_t i = 0; i < n;) {
		uint32_t point = 0;
		size_t length = character_length(at + i, n - i, &point);
		bool hidden = length == 0 || is_control(point);

		if (length == 0)
			length = 1;
		for (size_t k = 0; k < length; k++) {
			if (hidden)
				text_addf(text, "\\x%02X", (unsigned)at[i + k]);
			else
				text_add_char(text, more[i + k]);
		}
		i += length;
	}
}

/* Optimal string alignment distance (a Damerau-Levenshtein restricted to one
 * swap of the same neighbours). */
size_t
text_distance(const char *a, const char *b)
{
	enum { LONGEST = 63 };
	size_t table[LONGEST + 1][LONGEST + 1];
	size_t n_a = strlen(a), n_b = strlen(b);

	if (n_a > LONGEST || n_b > LONGEST)
		return LONGEST + 1;
	for (size_t i = 0; i <= n_a; i++)
		table[i][0] = i;
	for (size_t j = 0; j <= n_b; j++)
		table[0][j] = j;
	for (size_t i = 1; i <= n_a; i++) {
		for (size_t j = 1; j <= n_b; j++) {
			size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
			size_t best = table[i - 1][j - 1] + change;

			if (table[i - 1][j] + 1 < best)
				best = table[i - 1][j] + 1;
			if (table[i][j - 1] + 1 < best)
				best = table[i][j - 1] + 1;
			if (i > 1 && j > 1 && a[i - 1] == b[j - 2] &&
				a[i - 2] == b[j - 1] &&
				table[i - 2][j - 2] + 1 < best)
				best = table[i - 2][j - 2] + 1;
			table[i][j] = best;
		}
	}
	return table[n_a][n_b];
}

/* unit_write.c - numbers for people: significant digits, never an exponent. */
#include "core/text.h"
#include "core/unit_priv.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum {
	DIGITS_MAX = 17,    /* tell any two doubles apart */
	EXPONENT_ROOM = 40, /* sign, 17 digits, point, "e-324" */
};

static const char *
odd_value(double value)
{
	return isnan(value) ? "?" : "without limit";
}

/* The decimal digits of |value| and the power of ten of the first. */
static int
split_digits(double value, int digits, char out[DIGITS_MAX + 1])
{
	char form[EXPONENT_ROOM];
	const char *p = form;
	int n = 0;

	(void)snprintf(form, sizeof form, "%.*e", digits - 1, fabs(value));
	for (; *p != 'e'; p++)
		if (*p != '.')
			out[n++] = *p;
	out[n] = '\0';
	return (int)strtol(p + 1, NULL, 10);
}

static void
add_zeros(struct text *text, int n)
{
	for (int i = 0; i < n; i++)
		text_add_char(text, '0');
}

static void
add_digits(struct text *text, double value, int digits)
{
	char figure[DIGITS_MAX + 1];
	int exponent, n_whole;

	if (digits < 1)
		digits = 1;
	if (digits > DIGITS_MAX)
		digits = DIGITS_MAX;
	if (value == 0) {
		text_add(text, "0");
		return;
	}
	exponent = split_digits(value, digits, figure);
	n_whole = exponent + 1;
	if (value < 0)
		text_add_char(text, '-');
	if (n_whole <= 0) {
		text_add(text, "0.");
		add_zeros(text, -n_whole);
		text_add(text, figure);
	} else if (n_whole >= digits) {
		text_add(text, figure);
		add_zeros(text, n_whole - digits);
	} else {
		text_add_n(text, figure, (size_t)n_whole);
		text_add_char(text, '.');
		text_add(text, figure + n_whole);
	}
}

static char *
finish(struct text *text)
{
	return text_failed(text) ? NULL : text->bytes;
}

char *
unit_digits(struct arena *arena, double value, int digits)
{
	struct text text;

	text_init(&text, arena);
	if (isfinite(value))
		add_digits(&text, value, digits);
	else
		text_add(&text, odd_value(value));
	return finish(&text);
}

char *
unit_write(struct arena *arena, double si, enum unit_kind kind,
	const char *word, int digits)
{
	double scale, offset;
	bool is_plain = word[0] == '\0' || strcmp(word, "1") == 0;
	char *number;

	if (unit_factor(word, kind, UNIT_GALLON_US, &scale, &offset, NULL) !=
		ERR_NONE)
		return NULL;
	number = unit_digits(arena, (si - offset) / scale, digits);
	if (number == NULL || is_plain)
		return number;
	return text_format(arena, "%s %s", number, word);
}

/* value rounded to the place 10^place: decimals, or zeros before the point. */
static void
add_to_place(struct text *text, double value, int place)
{
	enum { ROOM = 400 }; /* 309 digits before the point, 40 behind */
	char form[ROOM];
	const char *shown = form;

	if (place > 0)
		value = round(value / pow(10, place)) * pow(10, place);
	(void)snprintf(
		form, sizeof form, "%.*f", place < 0 ? -place : 0, value);
	if (form[0] == '-' && strspn(form + 1, "0.") == strlen(form + 1))
		shown = form + 1;
	text_add(text, shown);
}

char *
unit_plus_minus(struct arena *arena, double value, double uncertainty)
{
	char figure[DIGITS_MAX + 1];
	int place;
	struct text text;

	uncertainty = fabs(uncertainty);
	text_init(&text, arena);
	if (!isfinite(value) || !isfinite(uncertainty) || uncertainty == 0) {
		text_add(&text, unit_digits(arena, value, 6));
		text_add(&text, " +/- ");
		text_add(&text, unit_digits(arena, uncertainty, 2));
		return finish(&text);
	}
	place = split_digits(uncertainty, DIGITS_MAX, figure);
	if (figure[0] == '1')
		place--;
	add_to_place(&text, value, place);
	text_add(&text, " +/- ");
	add_to_place(&text, uncertainty, place);
	return finish(&text);
}

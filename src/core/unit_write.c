/* unit_write.c - numbers for people: no exponent, no more digits than asked. */
#include "core/unit.h"

#include "core/text.h"

#include <math.h>
#include <string.h>

/* "-0", "-0.00" lose their sign. */
static void
drop_sign_of_zero(char *text)
{
	if (text[0] == '-' && strspn(text + 1, "0.") == strlen(text + 1))
		memmove(text, text + 1, strlen(text));
}

/* The power of ten of the first digit once rounded to `digits` digits. */
static int
leading_place(double value, int digits)
{
	int place;

	if (!(fabs(value) > 0))
		return 0;
	place = (int)floor(log10(fabs(value)));
	if (fabs(value) >= (pow(10, digits) - 0.5) * pow(10, place - digits + 1))
		place++;
	return place;
}

/* value rounded to the place 10^last. */
static char *
to_place(struct arena *arena, double value, int last)
{
	char *text;

	if (last > 0) {
		double step = pow(10, last);

		value = round(value / step) * step;
	}
	text = text_format(arena, "%.*f", last < 0 ? -last : 0, value);
	if (text != NULL)
		drop_sign_of_zero(text);
	return text;
}

char *
unit_digits(struct arena *arena, double value, int digits)
{
	if (isnan(value))
		return text_format(arena, "?");
	if (isinf(value))
		return text_format(arena, "without limit");
	return to_place(arena, value, leading_place(value, digits) - digits + 1);
}

char *
unit_plus_minus(struct arena *arena, double value, double uncertainty)
{
	int place = leading_place(uncertainty, 2);
	double first = uncertainty / pow(10, place);
	int last = first < 2 ? place - 1 : place;
	char *a, *b;

	if (!(uncertainty > 0) || isinf(uncertainty))
		return unit_digits(arena, value, 3);
	a = to_place(arena, value, last);
	b = to_place(arena, uncertainty, last);
	if (a == NULL || b == NULL)
		return NULL;
	return text_format(arena, "%s +/- %s", a, b);
}

char *
unit_write(struct arena *arena, double si, enum unit_kind kind,
	const char *word, int digits)
{
	struct err err = {.code = ERR_NONE};
	double scale = 1, offset = 0;
	char *number;

	if (word[0] != '\0' &&
		unit_factor(word, kind, UNIT_GALLON_US, &scale, &offset,
			&err) != ERR_NONE)
		return NULL;
	number = unit_digits(arena, (si - offset) / scale, digits);
	if (number == NULL)
		return NULL;
	return word[0] == '\0' ? number
			       : text_format(arena, "%s %s", number, word);
}

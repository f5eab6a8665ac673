/* csvout.c - fields, and what a spreadsheet must not take for a formula. */
#include "core/csvout.h"

#include <stdbool.h>
#include <string.h>

/* "-3.25", "4e-3": digits with a point, a minus, an exponent. */
static bool
is_figure(const char *value)
{
	size_t n = value[0] == '-', first = n;

	n += strspn(value + n, "0123456789.");
	if (n == first)
		return false;
	if (value[n] == 'e' || value[n] == 'E') {
		n++;
		n += value[n] == '-' || value[n] == '+';
		n += strspn(value + n, "0123456789");
	}
	return value[n] == '\0';
}

void
csvout_text(struct text *csv, const char *value)
{
	bool formula = value[0] != '\0' &&
		strchr("=+-@\t\r", value[0]) != NULL && strcmp(value, "-") != 0;
	bool quoted = formula || strpbrk(value, ",\"\r\n") != NULL;

	if (quoted)
		text_add_char(csv, '"');
	if (formula)
		text_add_char(csv, '\'');
	for (; *value != '\0'; value++) {
		if (*value == '"')
			text_add_char(csv, '"');
		text_add_char(csv, *value);
	}
	if (quoted)
		text_add_char(csv, '"');
}

void
csvout_field(struct text *csv, const char *value)
{
	if (is_figure(value))
		text_add(csv, value);
	else
		csvout_text(csv, value);
}

void
csvout_row(struct text *csv, const char *const *field, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		if (i > 0)
			text_add_char(csv, ',');
		csvout_field(csv, field[i] != NULL ? field[i] : "");
	}
	text_add_char(csv, '\n');
}

/* figure.c - values of measures for tables and sentences. */
#include "cli/figure.h"

#include "core/unit.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { DIGITS = 3 };

const char *
figure_bare(struct arena *arena, enum choose_measure measure, double si)
{
	const char *text = unit_digits(arena,
		unit_value(si, choose_measure_kind(measure),
			choose_measure_unit(measure)),
		DIGITS);

	return text != NULL ? text : "-";
}

const char *
figure_exact(struct arena *arena, enum choose_measure measure, double si)
{
	if (!isfinite(si))
		return "";
	return exact_figure(arena,
		unit_value(si, choose_measure_kind(measure),
			choose_measure_unit(measure)));
}

const char *
exact_figure(struct arena *arena, double value)
{
	const int digits_least = 15, digits_most = 17;
	char text[40];

	for (int digits = digits_least; digits <= digits_most; digits++) {
		(void)snprintf(text, sizeof text, "%.*g", digits, value);
		if (!(strtod(text, NULL) < value || strtod(text, NULL) > value))
			break;
	}
	return arena_text(arena, text);
}

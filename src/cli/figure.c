/* figure.c - values of measures for tables and sentences. */
#include "cli/figure.h"

#include "core/text.h"

enum { DIGITS = 3 };

const char *
figure_bare(struct arena *arena, enum choose_measure measure, double si)
{
	double scale = 1, offset = 0;
	struct err err = {.code = ERR_NONE};
	const char *text;

	if (unit_factor(choose_measure_unit(measure),
		    choose_measure_kind(measure), UNIT_GALLON_US, &scale,
		    &offset, &err) != ERR_NONE)
		return "-";
	text = unit_digits(arena, (si - offset) / scale, DIGITS);
	return text != NULL ? text : "-";
}

const char *
figure_hundredths(struct arena *arena, double chance)
{
	if (chance > 0.99)
		return "over 99";
	if (chance < 0.01)
		return "under 1";
	return text_format(arena, "%.0f", chance * 100);
}

/* calendar.h - which day what is poured where: days down, parts, lifts or forms
 * across, a few words in each cell.  Narrow, each day is a list.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_CALENDAR_H
#define DRAW_CALENDAR_H

#include "draw/types.h"

enum draw_deed {         /* the cell's look; its words say it too */
	DRAW_DEED_POUR,  /* filled */
	DRAW_DEED_STRIP, /* slanting lines */
	DRAW_DEED_CURE,  /* dots */
	DRAW_DEED_OTHER  /* outlined */
};

struct draw_cell {
	size_t day, column;
	enum draw_deed deed;
	const char *text; /* "lift 2: 0.8 m3, 4 batches" */
};

struct draw_calendar {
	struct draw_about about;
	const char *const *day; /* "Tue 3 June", from the top */
	size_t n_day;
	const char *const *column;
	size_t n_column;
	const struct draw_cell *cell; /* any order; several may share a place */
	size_t n_cell;
	const char *empty_word;
};

/* draw_calendar(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a cell of a day or column that is not there */
enum err_code draw_calendar(const struct draw_calendar *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_CALENDAR_H */

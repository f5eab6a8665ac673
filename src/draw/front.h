/* front.h - two quantities of each mix; those that no other beats in both are
 * joined by a line of steps.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_FRONT_H
#define DRAW_FRONT_H

#include "draw/types.h"

struct draw_front_point {
	const char *label;
	double x, y;
	bool has_range; /* crossed lines where x and y likely lie */
	double x_low, x_high, y_low, y_high;
	bool is_chosen; /* a ring and the word */
};

struct draw_front {
	struct draw_about about;
	struct draw_axis x, y;
	bool x_more_is_better, y_more_is_better;
	const struct draw_front_point *point;
	size_t n_point;
	const char *front_word, *beaten_word, *chosen_word, *better_word,
		*empty_word; /* NULL: English */
};

/* draw_front_is_beaten(chart, i): another point is at least as good in both and
 * better in one.  The same rule that the picture uses. */
bool draw_front_is_beaten(const struct draw_front *chart, size_t i);

/* draw_front(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a number out of range, a range that does not hold its value */
enum err_code draw_front(const struct draw_front *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_FRONT_H */

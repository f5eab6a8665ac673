/* control.h - a value from batch to batch with its usual range, marks on what
 * fell outside and why, new lots, and since when it has drifted.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_CONTROL_H
#define DRAW_CONTROL_H

#include "draw/types.h"

struct draw_control_point {
	const char *label; /* "B 014" */
	double at;         /* by_time: days, not falling */
	double value;
	const char *rule; /* what it broke, in words; NULL: nothing */
	bool is_left_out; /* hollow */
};

struct draw_control_lot {
	size_t before;     /* the point before which it began, 0 to n_point */
	const char *label; /* "new agent drum" */
};

struct draw_control {
	struct draw_about about;
	struct draw_axis y;
	const char *x_name; /* "batch", "day" */
	bool by_time;       /* spaced by point[].at, else evenly */
	const struct draw_control_point *point;
	size_t n_point;
	bool has_range; /* the usual range */
	double centre, low, high;
	size_t n_base; /* the first so many set the range; 0: not said */
	bool has_wanted_range; /* what is asked for, beside what is usual */
	double wanted_low, wanted_high; /* may be -INFINITY or INFINITY: none */
	const struct draw_control_lot *lot;
	size_t n_lot;
	bool has_drift;     /* shaded from this point on */
	size_t drift_since; /* below n_point */
	const char *centre_word, *usual_word, *base_word, *wanted_word,
		*drift_word, *outside_word, *left_out_word,
		*empty_word; /* NULL: English */
};

/* draw_control(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a number out of range, times that fall, low <= centre <= high does
 *            not hold, a lot or a drift at a point that is not there */
enum err_code draw_control(const struct draw_control *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_CONTROL_H */

/* trace.h - the trace of a logger: a curve, the band between the lowest and the
 * highest reading where a point stands for several, and levels such as the
 * highest load and the first crack.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_TRACE_H
#define DRAW_TRACE_H

#include "draw/types.h"

struct draw_trace_point {
	double x, mean, low, high; /* low <= mean <= high */
	bool begins;               /* not joined to the one before */
};

struct draw_trace_level {
	double y;
	const char *label; /* "highest load 130 N" */
	bool is_warning;   /* in the ink of alarms, dashed otherwise */
};

enum { DRAW_TRACE_LEVELS = 4 };

struct draw_trace {
	struct draw_about about;
	struct draw_axis x, y;
	const struct draw_trace_point
		*point; /* in the order of the logger; x may
	                                         run back, as a sag does */
	size_t n_point;
	const struct draw_trace_level *level;
	size_t n_level; /* DRAW_TRACE_LEVELS at most */
	bool has_band;
	const char *curve_word, *band_word, *empty_word; /* NULL: English */
};

/* draw_trace(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a number out of range, low <= mean <= high does not hold, too many
 *            levels */
enum err_code draw_trace(const struct draw_trace *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_TRACE_H */

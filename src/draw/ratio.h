/* ratio.h - each mix over the baseline, with the interval and, in words, how
 * sure it is; a line at 1.  The scale is logarithmic: twice and half as much
 * lie equally far from 1.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_RATIO_H
#define DRAW_RATIO_H

#include "draw/types.h"

struct draw_ratio_row {
	const char *label;
	struct draw_estimate ratio; /* all > 0 */
	const char *chance;         /* "97 in 100 that it is stronger" */
	bool is_sure; /* the caller's verdict: a filled mark, else hollow */
};

struct draw_ratio {
	struct draw_about about;
	const char *axis_name; /* "crushing strength, times the baseline" */
	const char *baseline;  /* name of the baseline, at the line */
	const struct draw_ratio_row *row; /* from the top */
	size_t n_row;
	const char *sure_word, *unsure_word, *empty_word; /* NULL: English */
};

/* draw_ratio(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a ratio not above 0, or low <= middle <= high does not hold */
enum err_code draw_ratio(const struct draw_ratio *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_RATIO_H */

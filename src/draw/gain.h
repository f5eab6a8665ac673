/* gain.h - what further testing would save against what it costs, each plan
 * with how surely that was worked out, and the one that pays most.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_GAIN_H
#define DRAW_GAIN_H

#include "draw/types.h"

struct draw_gain_point {
	const char *label;         /* "4 more batches of B" */
	double cost;               /* >= 0 */
	struct draw_estimate gain; /* low and high: error of the working-out */
	bool is_chosen;
};

struct draw_gain {
	struct draw_about about;
	struct draw_axis cost, gain;
	const struct draw_gain_point *point; /* joined in order of cost */
	size_t n_point;
	bool has_even; /* cost and gain in one unit: a line where they are equal */
	const char *chosen_word, *even_word, *empty_word; /* NULL: English */
};

/* draw_gain(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a number out of range, low <= middle <= high does not hold */
enum err_code draw_gain(const struct draw_gain *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_GAIN_H */

/* specimens.h - every test piece as a dot or interval, by mix, and over them
 * the mix's estimate with the interval where it likely lies.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_SPECIMENS_H
#define DRAW_SPECIMENS_H

#include "draw/types.h"

/* One test piece: low == high is a dot, low < high a line between its ends.
 * Open ends are arrows: high INFINITY "at least low"; low -INFINITY, or 0 with
 * high above it, "less than high". */
struct draw_reading {
	size_t row; /* below n_row */
	double low, high;
	bool is_left_out;  /* hollow: excluded by a rule */
	const char *label; /* "B 02 piece 3"; in the tooltip */
};

struct draw_mix_row {
	const char *label;
	const char *note; /* small, under the label, as "2 of 6 broke early" */
	bool is_baseline; /* marked by weight and the word */
	bool has_estimate;
	struct draw_estimate estimate;
};

struct draw_specimens {
	struct draw_about about;
	struct draw_axis axis;
	const struct draw_mix_row *row; /* from the top */
	size_t n_row;                   /* 0: says that there is nothing yet */
	const struct draw_reading *reading;
	size_t n_reading;
	bool has_wanted; /* a line at what is asked for */
	double wanted;
	const char *wanted_label;
	const char *reading_word, *open_word, *left_out_word, *estimate_word,
		*baseline_word, *empty_word; /* the key; NULL: English */
};

/* draw_specimens(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a number out of range, a row that is not there, ends in the wrong
 *            order, or an end at or below 0 on a logarithmic scale */
enum err_code draw_specimens(const struct draw_specimens *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_SPECIMENS_H */

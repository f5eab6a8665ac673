/* dents.h - the face of a test piece from above: where the weight fell, how
 * deep, how far from the nearest edges.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_DENTS_H
#define DRAW_DENTS_H

#include "draw/types.h"

struct draw_dent {
	double x, y; /* of its middle, from the lower left corner, same unit as
	                    the face; 0 <= x <= width, 0 <= y <= height */
	double diameter; /* >= 0; 0: not measured, a small cross */
	bool went_through;
	bool has_distance; /* lines to the two nearest edges with the distance */
	const char
		*label; /* "1: 12 mm deep"; under the picture and the tooltip */
};

struct draw_dents {
	struct draw_about about;
	double width, height; /* > 0, and neither more than 20 of the other */
	const char *unit;     /* "mm" */
	const struct draw_dent *dent;
	size_t n_dent;            /* 0: only the face with its sizes */
	const char *through_word; /* NULL: "went through" */
};

/* draw_dents(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a number out of range, a dent off the face */
enum err_code draw_dents(const struct draw_dents *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_DENTS_H */

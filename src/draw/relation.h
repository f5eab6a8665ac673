/* relation.h - one quantity against another (strength against dry weight), the
 * fitted relation and the band where it likely lies.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_RELATION_H
#define DRAW_RELATION_H

#include "draw/types.h"

enum { DRAW_GROUPS_MAX = 6 }; /* kinds of mark that can be told apart */

struct draw_relation_point {
	double x;
	double low, high;  /* of y, open ends as in specimens.h */
	size_t group;      /* its mark: below n_group; 0 with no groups */
	const char *label; /* in the tooltip */
};

struct draw_relation_knot {
	double x; /* rising */
	struct draw_estimate y;
};

struct draw_relation {
	struct draw_about about;
	struct draw_axis x, y;
	const struct draw_relation_point *point;
	size_t n_point;
	const struct draw_relation_knot *knot; /* the curve; n_knot 0: none */
	size_t n_knot;
	const char *const *group; /* names, in the key; n_group <= 6 */
	size_t n_group;
	const char *curve_word, *band_word, *empty_word; /* NULL: English */
};

/* draw_relation(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a number out of range, knots that do not rise, too many groups */
enum err_code draw_relation(const struct draw_relation *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_RELATION_H */

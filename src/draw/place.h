/* place.h - names beside points, where they cover neither a point nor another
 * name.
 *
 * Private to draw. */
#ifndef DRAW_PLACE_H
#define DRAW_PLACE_H

#include "draw/canvas.h"

struct draw_area {
	double left, top, right, bottom;
};

struct draw_placer {
	struct draw_area within, *taken;
	size_t n_taken, room;
};

/* draw_placer_open(canvas, placer, within, n, err): room for n areas. */
enum err_code draw_placer_open(struct draw_canvas *canvas,
	struct draw_placer *placer, struct draw_area within, size_t n,
	struct err *err) MUST_CHECK;

/* draw_placer_point(placer, x, y, radius): a point that no name may cover. */
void draw_placer_point(
	struct draw_placer *placer, double x, double y, double radius);

/* draw_placer_line(placer, from, to): a line that no name should cover; takes
 * DRAW_LINE_AREAS areas at most. */
enum { DRAW_LINE_AREAS = 40 };
struct draw_spot {
	double x, y;
};
void draw_placer_line(
	struct draw_placer *placer, struct draw_spot from, struct draw_spot to);

/* draw_place(canvas, placer, x, y, gap, type, words, must): writes words right,
 * left, above or below of the point at (x, y), `gap` px off; false if there is
 * no free place, unless it must: then at the place that covers least. */
bool draw_place(struct draw_canvas *canvas, struct draw_placer *placer,
	double x, double y, double gap, struct draw_type type,
	const char *words, bool must);

#endif /* DRAW_PLACE_H */

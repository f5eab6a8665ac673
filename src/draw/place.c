/* place.c - names beside points, where they cover nothing. */
#include "draw/place.h"

#include "core/arena.h"

#include <math.h>

enum { CANDIDATES = 8 };

enum err_code
draw_placer_open(struct draw_canvas *canvas, struct draw_placer *placer,
	struct draw_area within, size_t n, struct err *err)
{
	*placer = (struct draw_placer){.within = within, .room = n};
	placer->taken = arena_take(
		canvas->body.arena, n, sizeof(*placer->taken));
	return placer->taken != NULL ? ERR_NONE : err_memory(err);
}

static void
take(struct draw_placer *placer, struct draw_area area)
{
	if (placer->n_taken < placer->room)
		placer->taken[placer->n_taken++] = area;
}

void
draw_placer_point(struct draw_placer *placer, double x, double y, double radius)
{
	take(placer,
		(struct draw_area){
			x - radius, y - radius, x + radius, y + radius});
}

void
draw_placer_line(
	struct draw_placer *placer, struct draw_spot from, struct draw_spot to)
{
	bool is_straight = from.x == to.x || from.y == to.y;
	size_t n = is_straight ? 1 : DRAW_LINE_AREAS;
	double dx = (to.x - from.x) / (double)n;
	double dy = (to.y - from.y) / (double)n;

	for (size_t i = 0; i < n; i++) {
		double x = from.x + dx * (double)i;
		double y = from.y + dy * (double)i;

		take(placer,
			(struct draw_area){fmin(x, x + dx) - 1,
				fmin(y, y + dy) - 1, fmax(x, x + dx) + 1,
				fmax(y, y + dy) + 1});
	}
}

static double
overlap(struct draw_area a, struct draw_area b)
{
	double width = fmin(a.right, b.right) - fmax(a.left, b.left);
	double height = fmin(a.bottom, b.bottom) - fmax(a.top, b.top);

	return width > 0 && height > 0 ? width * height : 0;
}

/* How much of what is there an area covers, and how much of it is outside. */
static double
covers(const struct draw_placer *placer, struct draw_area area)
{
	double size = (area.right - area.left) * (area.bottom - area.top);
	double covered = 4 * (size - overlap(area, placer->within));

	for (size_t i = 0; i < placer->n_taken; i++)
		covered += overlap(area, placer->taken[i]);
	return covered;
}

/* Right, left, above, below, then the four corners. */
static struct draw_area
candidate(size_t i, double x, double y, double gap, double width, double height)
{
	static const struct {
		double along, across;
	} side[CANDIDATES] = {{1, 0}, {-1, 0}, {0, -1}, {0, 1}, {1, -1}, {1, 1},
		{-1, -1}, {-1, 1}};
	double middle_x = x + side[i].along * (gap + width / 2);
	double middle_y = y + side[i].across * (gap + height / 2);

	return (struct draw_area){middle_x - width / 2, middle_y - height / 2,
		middle_x + width / 2, middle_y + height / 2};
}

/* Moved along until it is within the ends. */
static struct draw_area
moved_in(const struct draw_placer *placer, struct draw_area area)
{
	double over = fmax(0, area.right - placer->within.right);
	double under = fmax(0, placer->within.left - area.left);

	area.left += under - over;
	area.right += under - over;
	return area;
}

bool
draw_place(struct draw_canvas *canvas, struct draw_placer *placer, double x,
	double y, double gap, struct draw_type type, const char *words,
	bool must)
{
	double width = draw_words_width(words, type);
	double height = type.size_px;
	struct draw_area best = {0};
	double least = INFINITY;

	if (width == 0)
		return true;
	width = fmin(width, placer->within.right - placer->within.left);
	for (size_t i = 0; i < CANDIDATES && least > 0; i++) {
		struct draw_area area = candidate(i, x, y, gap, width, height);
		double covered;

		if (i == 2 || i == 3) /* above and below may shift along */
			area = moved_in(placer, area);
		covered = covers(placer, area);

		if (covered < least) {
			least = covered;
			best = area;
		}
	}
	if (least > 1 && !must)
		return false;
	best = moved_in(placer, best);
	take(placer, best);
	canvas->has_halo = true;
	type.anchor = DRAW_START;
	draw_say_wrapped(canvas, best.left, best.bottom - .2 * height, type,
		width + 4, 1, words);
	canvas->has_halo = false;
	return true;
}

/* marks.c - lines, areas, marks and intervals of a picture. */
#include "draw/canvas.h"

#include "draw/number.h"

static const double arrow_px = 5;

static void
add_place(struct text *body, const char *name, double x)
{
	text_add_char(body, ' ');
	text_add(body, name);
	text_add(body, "=\"");
	draw_add_px(body, x);
	text_add_char(body, '"');
}

static void
add_pen(struct draw_canvas *canvas, struct draw_pen pen)
{
	struct text *body = &canvas->body;

	draw_ink_both(body, pen.fill, pen.stroke, canvas->size.theme);
	if (pen.stroke == DRAW_INK_NONE)
		return;
	add_place(body, "stroke-width", pen.width);
	if (pen.dash != NULL) {
		text_add(body, " stroke-dasharray=\"");
		text_add(body, pen.dash);
		text_add(body, "\"");
	}
}

void
draw_line_at(struct draw_canvas *canvas, double x1, double y1, double x2,
	double y2, struct draw_pen pen)
{
	struct text *body = &canvas->body;

	text_add(body, "<line");
	add_place(body, "x1", x1);
	add_place(body, "y1", y1);
	add_place(body, "x2", x2);
	add_place(body, "y2", y2);
	pen.fill = DRAW_INK_NONE;
	add_pen(canvas, pen);
	text_add(body, "/>\n");
}

static void
add_box(struct text *body, double x, double y, double width, double height)
{
	text_add(body, "<rect");
	add_place(body, "x", x);
	add_place(body, "y", y);
	add_place(body, "width", width > 0 ? width : 0);
	add_place(body, "height", height > 0 ? height : 0);
}

void
draw_box(struct draw_canvas *canvas, double x, double y, double width,
	double height, struct draw_pen pen)
{
	add_box(&canvas->body, x, y, width, height);
	add_pen(canvas, pen);
	text_add(&canvas->body, "/>\n");
}

void
draw_hatched(struct draw_canvas *canvas, double x, double y, double width,
	double height, enum draw_hatch hatch)
{
	if (hatch == DRAW_HATCH_NONE)
		return;
	canvas->uses[hatch] = true;
	add_box(&canvas->body, x, y, width, height);
	text_addf(&canvas->body, " fill=\"url(#%s-h%d)\"/>\n", canvas->id,
		(int)hatch);
}

void
draw_circle(struct draw_canvas *canvas, double x, double y, double radius,
	struct draw_pen pen)
{
	struct text *body = &canvas->body;

	text_add(body, "<circle");
	add_place(body, "cx", x);
	add_place(body, "cy", y);
	add_place(body, "r", radius);
	add_pen(canvas, pen);
	text_add(body, "/>\n");
}

void
draw_path_begin(struct draw_canvas *canvas, struct draw_pen pen)
{
	text_add(&canvas->body, "<path stroke-linejoin=\"round\"");
	add_pen(canvas, pen);
	text_add(&canvas->body, " d=\"");
}

void
draw_path_to(struct draw_canvas *canvas, double x, double y)
{
	struct text *body = &canvas->body;
	bool is_first = body->n > 0 && !body->failed &&
		body->bytes[body->n - 1] == '"';

	text_add_char(body, is_first ? 'M' : 'L');
	draw_add_px(body, x);
	text_add_char(body, ' ');
	draw_add_px(body, y);
}

void
draw_path_end(struct draw_canvas *canvas, bool is_closed)
{
	text_add(&canvas->body, is_closed ? "Z\"/>\n" : "\"/>\n");
}

/* Corners of the marks about their middle, in radii. */
struct corner {
	double x, y;
};

static void
draw_polygon(struct draw_canvas *canvas, const struct corner *corner, size_t n,
	struct corner middle, double radius, struct draw_pen pen)
{
	draw_path_begin(canvas, pen);
	for (size_t i = 0; i < n; i++)
		draw_path_to(canvas, middle.x + radius * corner[i].x,
			middle.y + radius * corner[i].y);
	draw_path_end(canvas, true);
}

static void
draw_cross(struct draw_canvas *canvas, double x, double y, double radius,
	enum draw_ink ink)
{
	struct draw_pen pen = {DRAW_INK_NONE, ink, 2.2, NULL};

	draw_line_at(
		canvas, x - radius, y - radius, x + radius, y + radius, pen);
	draw_line_at(
		canvas, x - radius, y + radius, x + radius, y - radius, pen);
}

void
draw_mark(struct draw_canvas *canvas, enum draw_shape shape, double x, double y,
	double radius, enum draw_ink ink, bool is_hollow)
{
	static const struct corner square[] = {
		{-.9, -.9}, {.9, -.9}, {.9, .9}, {-.9, .9}};
	static const struct corner diamond[] = {
		{0, -1.3}, {1.3, 0}, {0, 1.3}, {-1.3, 0}};
	static const struct corner up[] = {{0, -1.25}, {1.2, .9}, {-1.2, .9}};
	static const struct corner down[] = {
		{0, 1.25}, {1.2, -.9}, {-1.2, -.9}};
	struct draw_pen pen = {
		is_hollow ? DRAW_INK_PAPER : ink, ink, 1.6, NULL};
	struct corner at = {x, y};

	switch (shape) {
	case DRAW_SHAPE_CIRCLE:
		draw_circle(canvas, x, y, radius, pen);
		break;
	case DRAW_SHAPE_SQUARE:
		draw_polygon(canvas, square, 4, at, radius, pen);
		break;
	case DRAW_SHAPE_DIAMOND:
		draw_polygon(canvas, diamond, 4, at, radius, pen);
		break;
	case DRAW_SHAPE_UP:
		draw_polygon(canvas, up, 3, at, radius, pen);
		break;
	case DRAW_SHAPE_DOWN:
		draw_polygon(canvas, down, 3, at, radius, pen);
		break;
	case DRAW_SHAPE_CROSS:
	case DRAW_SHAPE_COUNT:
		draw_cross(canvas, x, y, radius * .8, ink);
		break;
	}
}

/* A place on the line, turned upright where the line is. */
static struct corner
turned(bool is_upright, double along, double across)
{
	return is_upright ? (struct corner){across, along}
			  : (struct corner){along, across};
}

static void
draw_end(struct draw_canvas *canvas, bool is_upright, struct corner end,
	double inwards, bool is_open, double half_px, struct draw_pen pen)
{
	struct corner a, b, tip = turned(is_upright, end.x, end.y);
	double back = is_open ? inwards * arrow_px : 0;
	double half = is_open ? arrow_px : half_px;

	pen.dash = NULL;
	a = turned(is_upright, end.x + back, end.y - half);
	b = turned(is_upright, end.x + back, end.y + half);
	if (!is_open) {
		draw_line_at(canvas, a.x, a.y, b.x, b.y, pen);
		return;
	}
	draw_path_begin(canvas, pen);
	draw_path_to(canvas, a.x, a.y);
	draw_path_to(canvas, tip.x, tip.y);
	draw_path_to(canvas, b.x, b.y);
	draw_path_end(canvas, false);
}

static void
draw_interval(struct draw_canvas *canvas, bool is_upright,
	struct draw_ends ends, double across, double half_px,
	struct draw_pen pen)
{
	struct corner a = turned(is_upright, ends.from, across);
	struct corner b = turned(is_upright, ends.to, across);
	double inwards = ends.from <= ends.to ? 1 : -1;

	pen.fill = DRAW_INK_NONE;
	draw_line_at(canvas, a.x, a.y, b.x, b.y, pen);
	draw_end(canvas, is_upright, (struct corner){ends.from, across},
		inwards, ends.open_from, half_px, pen);
	draw_end(canvas, is_upright, (struct corner){ends.to, across}, -inwards,
		ends.open_to, half_px, pen);
}

void
draw_span_h(struct draw_canvas *canvas, struct draw_ends ends, double y,
	double half_px, struct draw_pen pen)
{
	draw_interval(canvas, false, ends, y, half_px, pen);
}

void
draw_span_v(struct draw_canvas *canvas, struct draw_ends ends, double x,
	double half_px, struct draw_pen pen)
{
	draw_interval(canvas, true, ends, x, half_px, pen);
}

/* frame.c - a frame of two scales, or rows beside one. */
#include "draw/frame.h"

#include "core/arena.h"

#include <math.h>

static const double tick_line = 18, name_line = 20;
static const double rows_long_px = 900; /* then the figures stand above too */
static const struct draw_pen grid_pen = {DRAW_INK_NONE, DRAW_INK_GRID, 1, NULL};
static const struct draw_pen edge_pen = {DRAW_INK_NONE, DRAW_INK_SOFT, 1, NULL};
static const struct draw_type tick_type = {
	draw_small, DRAW_END, DRAW_INK_SOFT, false};
static const struct draw_type name_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, false};

static bool
has_words(const char *words)
{
	return words != NULL && words[0] != '\0';
}

/* "bending strength, N/mm2" */
static const char *
axis_words(struct draw_canvas *canvas, const struct draw_axis *axis)
{
	const char *words;

	if (!has_words(axis->unit))
		return draw_or(axis->name, "");
	if (!has_words(axis->name))
		return axis->unit;
	words = text_format(
		canvas->body.arena, "%s, %s", axis->name, axis->unit);
	if (words == NULL)
		canvas->body.failed = true;
	return draw_or(words, "");
}

static const char *
tick_words(struct draw_canvas *canvas, const struct draw_scale *scale, size_t i)
{
	return draw_figure(canvas, scale->tick[i], scale->n_decimal[i]);
}

static double
widest_tick(struct draw_canvas *canvas, const struct draw_scale *scale)
{
	double widest = 0;

	for (size_t i = 0; i < scale->n_tick; i++)
		widest = fmax(widest,
			draw_words_width(
				tick_words(canvas, scale, i), tick_type));
	return widest;
}

/* How many ticks there is room for. */
static size_t
tick_room(double length_px, double each_px)
{
	double n = floor(length_px / each_px);

	return n < 2 ? 2 : n > 10 ? 10 : (size_t)n;
}

struct draw_frame
draw_frame_lay(struct draw_canvas *canvas, const struct draw_axis *x,
	struct draw_span x_span, const struct draw_axis *y,
	struct draw_span y_span)
{
	struct draw_frame frame;
	double height = draw_is_narrow(canvas) ? 260 : 340;

	if (canvas->size.height_px > 0)
		height = fmax(100, canvas->size.height_px - canvas->y - 70);
	frame.y = draw_scale_fit(y, y_span, tick_room(height, 45));
	frame.left = draw_margin + widest_tick(canvas, &frame.y) + 6;
	frame.right = canvas->width - 2 * draw_margin;
	frame.x = draw_scale_fit(
		x, x_span, tick_room(frame.right - frame.left, 60));
	frame.top = canvas->y + name_line +
		(has_words(axis_words(canvas, y)) ? 0 : -10);
	frame.bottom = frame.top + height;
	frame.x.low_px = frame.left;
	frame.x.high_px = frame.right;
	frame.y.low_px = frame.bottom;
	frame.y.high_px = frame.top;
	canvas->y = frame.bottom + tick_line + name_line;
	return frame;
}

void
draw_frame_y(struct draw_canvas *canvas, const struct draw_frame *frame,
	const struct draw_axis *axis)
{
	for (size_t i = 0; i < frame->y.n_tick; i++) {
		double y = draw_px(&frame->y, frame->y.tick[i]);

		draw_line_at(canvas, frame->left, y, frame->right, y, grid_pen);
		draw_say(canvas, frame->left - 6, y + 4, tick_type,
			tick_words(canvas, &frame->y, i));
	}
	draw_line_at(canvas, frame->left, frame->top, frame->left,
		frame->bottom, edge_pen);
	draw_say_wrapped(canvas, draw_margin, frame->top - 9, name_type,
		canvas->width - 2 * draw_margin, 1, axis_words(canvas, axis));
}

/* Figures along a scale that lies level, leaving out those that would touch
 * the one before. */
static void
say_ticks(struct draw_canvas *canvas, const struct draw_scale *scale, double y)
{
	struct draw_type type = tick_type;
	double free_from = -INFINITY;

	type.anchor = DRAW_MIDDLE;
	for (size_t i = 0; i < scale->n_tick; i++) {
		const char *words = tick_words(canvas, scale, i);
		double half = draw_words_width(words, type) / 2;
		double x = draw_px(scale, scale->tick[i]);

		if (x - half < free_from)
			continue;
		if (x + half > canvas->width - 2)
			x = canvas->width - 2 - half;
		draw_say(canvas, x, y, type, words);
		free_from = x + half + 6;
	}
}

void
draw_frame_x_name(struct draw_canvas *canvas, const struct draw_frame *frame,
	const struct draw_axis *axis)
{
	struct draw_type type = name_type;
	const char *words = axis_words(canvas, axis);
	double width = draw_words_width(words, type);
	double x = frame->right;

	type.anchor = DRAW_END;
	if (width > frame->right - draw_margin) {
		type.anchor = DRAW_START;
		x = draw_margin;
	}
	draw_say_wrapped(canvas, x, frame->bottom + tick_line + 15, type,
		canvas->width - 2 * draw_margin, 1, words);
}

void
draw_frame_x(struct draw_canvas *canvas, const struct draw_frame *frame,
	const struct draw_axis *axis)
{
	for (size_t i = 0; i < frame->x.n_tick; i++) {
		double x = draw_px(&frame->x, frame->x.tick[i]);

		draw_line_at(canvas, x, frame->top, x, frame->bottom, grid_pen);
	}
	draw_line_at(canvas, frame->left, frame->bottom, frame->right,
		frame->bottom, edge_pen);
	say_ticks(canvas, &frame->x, frame->bottom + 15);
	draw_frame_x_name(canvas, frame, axis);
}

struct draw_rows
draw_rows_lay(const struct draw_canvas *canvas, const struct draw_axis *axis,
	struct draw_span span, double right_px)
{
	struct draw_rows rows = {.is_stacked = draw_is_narrow(canvas)};
	double inner = canvas->width - 2 * draw_margin;

	rows.label_width = rows.is_stacked ? inner : fmin(260, inner * .3);
	rows.left = rows.is_stacked ? draw_margin + 8
				    : draw_margin + rows.label_width + 14;
	rows.right = canvas->width - draw_margin - 10 -
		(rows.is_stacked ? 0 : right_px);
	rows.x = draw_scale_fit(
		axis, span, tick_room(rows.right - rows.left, 60));
	rows.x.low_px = rows.left;
	rows.x.high_px = rows.right;
	return rows;
}

double
draw_rows_room_px(double height)
{
	return height > rows_long_px ? draw_small * 1.25 : 0;
}

void
draw_rows_grid(struct draw_canvas *canvas, const struct draw_rows *rows,
	const struct draw_axis *axis, double top, double bottom)
{
	double y = bottom + 15;

	for (size_t i = 0; i < rows->x.n_tick; i++) {
		double x = draw_px(&rows->x, rows->x.tick[i]);

		draw_line_at(canvas, x, top, x, bottom, grid_pen);
	}
	draw_line_at(canvas, rows->left, bottom, rows->right, bottom, edge_pen);
	say_ticks(canvas, &rows->x, y);
	if (draw_rows_room_px(bottom - top) > 0)
		say_ticks(canvas, &rows->x, top - 5);
	y += name_line;
	y += draw_small * 1.25 *
		((double)draw_say_wrapped(canvas,
			 rows->is_stacked ? draw_margin : rows->left, y,
			 name_type,
			 canvas->width - draw_margin -
				 (rows->is_stacked ? draw_margin : rows->left),
			 3, axis_words(canvas, axis)) -
			1);
	canvas->y = y + 12;
}

static struct draw_type
label_type(const struct draw_label *label)
{
	return (struct draw_type){
		draw_font, DRAW_START, DRAW_INK_TEXT, label->is_bold};
}

static const struct draw_type note_type = {
	draw_small, DRAW_START, DRAW_INK_SOFT, false};

double
draw_label_height(const struct draw_rows *rows, const struct draw_label *label)
{
	double n = (double)draw_count_lines(label->words, label_type(label),
		rows->label_width, DRAW_LINES_MAX);
	double n_note = (double)draw_count_lines(
		label->note, note_type, rows->label_width, DRAW_LINES_MAX);

	return n * draw_font * 1.25 + n_note * draw_small * 1.25;
}

void
draw_label_at(struct draw_canvas *canvas, const struct draw_rows *rows,
	const struct draw_label *label, double top, double middle)
{
	double height = draw_label_height(rows, label);
	double y = rows->is_stacked ? top : middle - height / 2;
	struct draw_pen paper = {DRAW_INK_PAPER, DRAW_INK_NONE, 0, NULL};

	if (rows->is_stacked) /* the scale's lines stop at the words */
		draw_box(canvas, 0, top - 1, canvas->width, height + 3, paper);

	y += draw_font;
	y += draw_font * 1.25 *
		(double)draw_say_wrapped(canvas, draw_margin, y,
			label_type(label), rows->label_width, DRAW_LINES_MAX,
			label->words);
	draw_say_wrapped(canvas, draw_margin, y - 3, note_type,
		rows->label_width, DRAW_LINES_MAX, label->note);
}

void
draw_empty(struct draw_canvas *canvas, const char *words)
{
	struct draw_type type = {draw_font, DRAW_START, DRAW_INK_SOFT, false};

	canvas->y += draw_font;
	canvas->y += (double)draw_say_wrapped(canvas, draw_margin, canvas->y,
			     type, canvas->width - 2 * draw_margin, 3, words) *
		draw_font * 1.25;
}

/* frame.h - what charts stand in: a frame of two scales, rows beside one scale,
 * and the key below.
 *
 * Private to draw. */
#ifndef DRAW_FRAME_H
#define DRAW_FRAME_H

#include "draw/canvas.h"

/* Two scales.  The name of y stands above its ticks, unturned. */
struct draw_frame {
	double left, top, right, bottom; /* px */
	struct draw_scale x, y;
};

/* draw_frame_lay(canvas, x, x_span, y, y_span): places the frame below what is
 * drawn so far, with room for ticks and names; canvas->y moves below it. */
struct draw_frame draw_frame_lay(struct draw_canvas *canvas,
	const struct draw_axis *x, struct draw_span x_span,
	const struct draw_axis *y, struct draw_span y_span);

/* draw_frame_y, draw_frame_x: the lines, figures and name of one scale. */
void draw_frame_y(struct draw_canvas *canvas, const struct draw_frame *frame,
	const struct draw_axis *axis);
void draw_frame_x(struct draw_canvas *canvas, const struct draw_frame *frame,
	const struct draw_axis *axis);
/* draw_frame_x_name: its name alone, where ticks are drawn by the chart. */
void draw_frame_x_name(struct draw_canvas *canvas,
	const struct draw_frame *frame, const struct draw_axis *axis);

/* Rows beside or, narrow, above one scale. */
struct draw_rows {
	double label_width;
	double left, right; /* of the scale, px */
	bool is_stacked;    /* the label stands above its row */
	struct draw_scale x;
};
struct draw_rows draw_rows_lay(const struct draw_canvas *canvas,
	const struct draw_axis *axis, struct draw_span span, double right_px);

/* draw_rows_room_px(height): what is to be left free under the title for the
 * figures that rows of so much height have above them too; 0: they have none. */
double draw_rows_room_px(double height);

/* draw_rows_grid(canvas, rows, axis, top, bottom): the scale's lines from top
 * to bottom, its figures and name below; canvas->y moves below them. */
void draw_rows_grid(struct draw_canvas *canvas, const struct draw_rows *rows,
	const struct draw_axis *axis, double top, double bottom);

/* A row's label with a note: how high they are, and drawing them.  middle: of
 * the row, where is_stacked does not hold. */
struct draw_label {
	const char *words, *note;
	bool is_bold;
};
double draw_label_height(
	const struct draw_rows *rows, const struct draw_label *label);
void draw_label_at(struct draw_canvas *canvas, const struct draw_rows *rows,
	const struct draw_label *label, double top, double middle);

enum draw_key_kind {
	DRAW_KEY_MARK,
	DRAW_KEY_LINE,
	DRAW_KEY_BAND,
	DRAW_KEY_OPEN, /* an arrow */
	DRAW_KEY_SPAN, /* a mark on a line with ends */
	DRAW_KEY_HATCH,
	DRAW_KEY_RING
};
struct draw_key_item {
	enum draw_key_kind kind;
	const char *words;
	enum draw_ink ink;
	enum draw_shape shape;
	bool is_hollow;
	const char *dash;
	enum draw_hatch hatch;
};

/* draw_key(canvas, item, n): the key at canvas->y, in as many lines as it
 * takes; canvas->y moves below it. */
void draw_key(
	struct draw_canvas *canvas, const struct draw_key_item *item, size_t n);

/* draw_empty(canvas, words): says that there is nothing to show yet. */
void draw_empty(struct draw_canvas *canvas, const char *words);

#endif /* DRAW_FRAME_H */

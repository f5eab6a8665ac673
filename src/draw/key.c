/* key.c - what each mark of a chart means. */
#include "draw/frame.h"

static const double key_mark = 30, key_line = 20, key_gap = 14;
static const struct draw_type key_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, false};

/* The sample of a mark, between x and x + 24, about y. */
static void
draw_sample(struct draw_canvas *canvas, const struct draw_key_item *item,
	double x, double y)
{
	struct draw_pen pen = {DRAW_INK_NONE, item->ink, 2, item->dash};
	struct draw_pen outline = {DRAW_INK_NONE, DRAW_INK_SOFT, 1, NULL};
	struct draw_pen shade = {item->ink, DRAW_INK_NONE, 0, NULL};
	struct draw_ends ends = {x, x + 24, false, false};

	switch (item->kind) {
	case DRAW_KEY_MARK:
		draw_mark(canvas, item->shape, x + 12, y, 4.5, item->ink,
			item->is_hollow);
		break;
	case DRAW_KEY_LINE:
		draw_line_at(canvas, x, y, x + 24, y, pen);
		break;
	case DRAW_KEY_BAND:
		draw_box(canvas, x, y - 6, 24, 12, shade);
		break;
	case DRAW_KEY_OPEN:
		ends.open_to = true;
		draw_span_h(canvas, ends, y, 3, pen);
		break;
	case DRAW_KEY_SPAN:
		pen.width = 3;
		draw_span_h(canvas, ends, y, 5, pen);
		draw_mark(canvas, item->shape, x + 12, y, 4.5, item->ink,
			item->is_hollow);
		break;
	case DRAW_KEY_HATCH:
		draw_hatched(canvas, x, y - 6, 24, 12, item->hatch);
		draw_box(canvas, x, y - 6, 24, 12, outline);
		break;
	case DRAW_KEY_RING:
		draw_circle(canvas, x + 12, y, 8, pen);
		break;
	}
}

void
draw_key(struct draw_canvas *canvas, const struct draw_key_item *item, size_t n)
{
	double x = draw_margin, y = canvas->y + 8;

	for (size_t i = 0; i < n; i++) {
		double room = canvas->width - 2 * draw_margin - key_mark;
		double wide = draw_words_width(item[i].words, key_type);
		size_t n_line;

		if (wide > room)
			wide = room;
		if (x > draw_margin &&
			x + key_mark + wide > canvas->width - draw_margin) {
			x = draw_margin;
			y += key_line;
		}
		draw_sample(canvas, &item[i], x, y);
		n_line = draw_say_wrapped(canvas, x + key_mark, y + 4, key_type,
			room, 3, item[i].words);
		if (n_line > 1)
			y += (double)(n_line - 1) * draw_small * 1.25;
		x += key_mark + wide + key_gap;
	}
	if (n > 0)
		canvas->y = y + key_line / 2;
}

/* trace.c - the trace of a logger as a curve. */
#include "draw/trace.h"

#include "draw/frame.h"

#include <stdio.h>

static const struct draw_pen curve_pen = {
	DRAW_INK_NONE, DRAW_INK_SERIES, 2, NULL};
static const struct draw_pen band_pen = {
	DRAW_INK_SHADE, DRAW_INK_NONE, 0, NULL};

static enum err_code
check(const struct draw_trace *chart, struct err *err)
{
	TRY(draw_check_axis(&chart->x, "x", err));
	TRY(draw_check_axis(&chart->y, "y", err));
	if (chart->n_level > DRAW_TRACE_LEVELS)
		return err_report(err, ERR_INPUT, "level",
			"%zu levels were given; %d is the most.",
			chart->n_level, DRAW_TRACE_LEVELS);
	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_trace_point *p = &chart->point[i];
		struct draw_estimate y = {p->mean, p->low, p->high};

		TRY(draw_check_value(&chart->x, p->x, "point", i, "x", err));
		TRY(draw_check_estimate(&chart->y, &y, "point", i, err));
	}
	for (size_t i = 0; i < chart->n_level; i++)
		TRY(draw_check_value(
			&chart->y, chart->level[i].y, "level", i, "y", err));
	return ERR_NONE;
}

static struct draw_frame
lay(struct draw_canvas *canvas, const struct draw_trace *chart)
{
	struct draw_span x = {0}, y = {0};

	for (size_t i = 0; i < chart->n_point; i++) {
		draw_span_add(&x, chart->point[i].x);
		draw_span_add(&y, chart->point[i].low);
		draw_span_add(&y, chart->point[i].high);
	}
	for (size_t i = 0; i < chart->n_level; i++)
		draw_span_add(&y, chart->level[i].y);
	return draw_frame_lay(canvas, &chart->x, x, &chart->y, y);
}

/* The points from `from` on that are joined: up to the next that begins. */
static size_t
joined_from(const struct draw_trace *chart, size_t from)
{
	size_t to = from + 1;

	while (to < chart->n_point && !chart->point[to].begins)
		to++;
	return to;
}

static void
draw_band(struct draw_canvas *canvas, const struct draw_trace *chart,
	const struct draw_frame *frame, size_t from, size_t to)
{
	draw_path_begin(canvas, band_pen);
	for (size_t i = from; i < to; i++)
		draw_path_to(canvas, draw_px(&frame->x, chart->point[i].x),
			draw_px(&frame->y, chart->point[i].high));
	for (size_t i = to; i-- > from;)
		draw_path_to(canvas, draw_px(&frame->x, chart->point[i].x),
			draw_px(&frame->y, chart->point[i].low));
	draw_path_end(canvas, true);
}

static void
draw_curve(struct draw_canvas *canvas, const struct draw_trace *chart,
	const struct draw_frame *frame, size_t from, size_t to)
{
	if (to - from == 1) {
		draw_mark(canvas, DRAW_SHAPE_CIRCLE,
			draw_px(&frame->x, chart->point[from].x),
			draw_px(&frame->y, chart->point[from].mean), 3,
			DRAW_INK_SERIES, false);
		return;
	}
	draw_path_begin(canvas, curve_pen);
	for (size_t i = from; i < to; i++)
		draw_path_to(canvas, draw_px(&frame->x, chart->point[i].x),
			draw_px(&frame->y, chart->point[i].mean));
	draw_path_end(canvas, false);
}

/* Each run of points, told by where it begins and ends. */
static void
draw_runs(struct draw_canvas *canvas, const struct draw_trace *chart,
	const struct draw_frame *frame)
{
	for (size_t from = 0, to; from < chart->n_point; from = to) {
		const struct draw_trace_point *first = &chart->point[from];
		const struct draw_trace_point *last;

		to = joined_from(chart, from);
		last = &chart->point[to - 1];
		draw_group(canvas);
		draw_tip_reading(canvas, first->x, first->x, chart->x.unit);
		draw_tip(canvas, ": ");
		draw_tip_reading(
			canvas, first->mean, first->mean, chart->y.unit);
		draw_tip(canvas, "; ");
		draw_tip_reading(canvas, last->x, last->x, chart->x.unit);
		draw_tip(canvas, ": ");
		draw_tip_reading(canvas, last->mean, last->mean, chart->y.unit);
		draw_tip_end(canvas);
		if (chart->has_band && to - from > 1)
			draw_band(canvas, chart, frame, from, to);
		draw_curve(canvas, chart, frame, from, to);
		draw_group_end(canvas);
	}
}

static struct draw_pen
level_pen(const struct draw_trace_level *level)
{
	return level->is_warning
		? (struct draw_pen){DRAW_INK_NONE, DRAW_INK_WARN, 2, "3 3"}
		: (struct draw_pen){DRAW_INK_NONE, DRAW_INK_TEXT, 1.5, "7 3"};
}

static void
draw_levels(struct draw_canvas *canvas, const struct draw_trace *chart,
	const struct draw_frame *frame)
{
	for (size_t i = 0; i < chart->n_level; i++) {
		const struct draw_trace_level *level = &chart->level[i];
		double y = draw_px(&frame->y, level->y);

		draw_group(canvas);
		draw_tip(canvas, draw_or(level->label, ""));
		draw_tip_end(canvas);
		draw_line_at(canvas, frame->left, y, frame->right, y,
			level_pen(level));
		draw_group_end(canvas);
	}
}

static void
draw_trace_key(struct draw_canvas *canvas, const struct draw_trace *chart)
{
	struct draw_key_item item[DRAW_TRACE_LEVELS + 2];
	size_t n = 0;

	item[n++] = (struct draw_key_item){.kind = DRAW_KEY_LINE,
		.words = draw_or(chart->curve_word, "as logged"),
		.ink = DRAW_INK_SERIES};
	if (chart->has_band)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_BAND,
			.words = draw_or(
				chart->band_word, "lowest to highest reading"),
			.ink = DRAW_INK_SHADE};
	for (size_t i = 0; i < chart->n_level; i++) {
		struct draw_pen pen = level_pen(&chart->level[i]);

		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_LINE,
			.words = draw_or(chart->level[i].label, ""),
			.ink = pen.stroke,
			.dash = pen.dash};
	}
	draw_key(canvas, item, n);
}

enum err_code
draw_trace(const struct draw_trace *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	struct draw_frame frame;
	char says[120];

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	snprintf(says, sizeof(says), "A logger's trace of %zu points.",
		chart->n_point);
	if (chart->n_point == 0) {
		draw_empty(&canvas,
			draw_or(chart->empty_word, "No point is there."));
		return draw_close(&canvas, says, err);
	}
	frame = lay(&canvas, chart);
	draw_frame_y(&canvas, &frame, &chart->y);
	draw_frame_x(&canvas, &frame, &chart->x);
	draw_runs(&canvas, chart, &frame);
	draw_levels(&canvas, chart, &frame);
	draw_trace_key(&canvas, chart);
	return draw_close(&canvas, says, err);
}

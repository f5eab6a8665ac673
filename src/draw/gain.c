/* gain.c - what further testing would save against what it costs. */
#include "draw/gain.h"

#include "draw/frame.h"
#include "draw/place.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { NAMES_MAX = 12 };

struct order {
	double cost;
	size_t index;
};

static int
by_cost(const void *a, const void *b)
{
	const struct order *p = a, *q = b;

	if (p->cost != q->cost)
		return p->cost < q->cost ? -1 : 1;
	return p->index < q->index ? -1 : p->index > q->index;
}

static enum err_code
check(const struct draw_gain *chart, struct err *err)
{
	TRY(draw_check_axis(&chart->cost, "cost", err));
	TRY(draw_check_axis(&chart->gain, "gain", err));
	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_gain_point *p = &chart->point[i];

		TRY(draw_check_value(
			&chart->cost, p->cost, "point", i, "cost", err));
		if (p->cost < 0)
			return err_report(err, ERR_INPUT, "point",
				"The cost of point %zu is %g; a cost is at "
				"least 0.",
				i, p->cost);
		TRY(draw_check_estimate(
			&chart->gain, &p->gain, "point", i, err));
	}
	return ERR_NONE;
}

static struct draw_frame
lay(struct draw_canvas *canvas, const struct draw_gain *chart)
{
	struct draw_axis cost = chart->cost;
	struct draw_span x = {0}, y = {0};

	for (size_t i = 0; i < chart->n_point; i++) {
		draw_span_add(&x, chart->point[i].cost);
		draw_span_add(&y, chart->point[i].gain.low);
		draw_span_add(&y, chart->point[i].gain.high);
	}
	if (!chart->gain.is_log)
		draw_span_add(&y, 0);
	cost.from_zero = !cost.is_log;
	return draw_frame_lay(canvas, &cost, x, &chart->gain, y);
}

/* Where gain equals cost, as far as both scales go. */
static void
draw_even(struct draw_canvas *canvas, const struct draw_gain *chart,
	const struct draw_frame *frame, struct draw_placer *placer)
{
	struct draw_pen pen = {DRAW_INK_NONE, DRAW_INK_SOFT, 1.5, "3 3"};
	double low = fmax(frame->x.low, frame->y.low);
	double high = fmin(frame->x.high, frame->y.high);
	struct draw_spot from, to;

	if (!chart->has_even || frame->x.is_log != frame->y.is_log ||
		low >= high)
		return;
	from = (struct draw_spot){
		draw_px(&frame->x, low), draw_px(&frame->y, low)};
	to = (struct draw_spot){
		draw_px(&frame->x, high), draw_px(&frame->y, high)};
	draw_line_at(canvas, from.x, from.y, to.x, to.y, pen);
	draw_placer_line(placer, from, to);
}

static void
draw_points(struct draw_canvas *canvas, const struct draw_gain *chart,
	const struct draw_frame *frame, const struct order *order)
{
	struct draw_pen bar = {DRAW_INK_NONE, DRAW_INK_SERIES, 1.5, NULL};
	struct draw_pen line = {DRAW_INK_NONE, DRAW_INK_SERIES, 2, NULL};
	struct draw_pen ring = {DRAW_INK_NONE, DRAW_INK_TEXT, 2, NULL};

	draw_path_begin(canvas, line);
	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_gain_point *p = &chart->point[order[i].index];

		draw_path_to(canvas, draw_px(&frame->x, p->cost),
			draw_px(&frame->y, p->gain.middle));
	}
	draw_path_end(canvas, false);
	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_gain_point *p = &chart->point[order[i].index];
		double x = draw_px(&frame->x, p->cost);
		double y = draw_px(&frame->y, p->gain.middle);

		draw_group(canvas);
		draw_tip(canvas, p->label);
		draw_tip(canvas, ": ");
		draw_tip_reading(canvas, p->cost, p->cost, chart->cost.unit);
		draw_tip(canvas, "; ");
		draw_tip_estimate(canvas, &p->gain, chart->gain.unit);
		draw_tip_end(canvas);
		draw_span_v(canvas,
			(struct draw_ends){draw_px(&frame->y, p->gain.low),
				draw_px(&frame->y, p->gain.high), false, false},
			x, 4, bar);
		draw_mark(canvas, DRAW_SHAPE_CIRCLE, x, y, 4, DRAW_INK_SERIES,
			false);
		if (p->is_chosen)
			draw_circle(canvas, x, y, 10, ring);
		draw_group_end(canvas);
	}
}

static void
draw_names(struct draw_canvas *canvas, const struct draw_gain *chart,
	const struct draw_frame *frame, const struct order *order,
	struct draw_placer *placer)
{
	struct draw_spot last = {0, 0};

	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_gain_point *p = &chart->point[order[i].index];
		struct draw_spot at = {draw_px(&frame->x, p->cost),
			draw_px(&frame->y, p->gain.middle)};

		draw_placer_point(placer, at.x, at.y, p->is_chosen ? 10 : 5);
		draw_placer_line(placer,
			(struct draw_spot){
				at.x, draw_px(&frame->y, p->gain.low)},
			(struct draw_spot){
				at.x, draw_px(&frame->y, p->gain.high)});
		if (i > 0)
			draw_placer_line(placer, last, at);
		last = at;
	}
	for (int round = 0; round < 2; round++) /* the chosen first */
		for (size_t i = 0; i < chart->n_point; i++) {
			const struct draw_gain_point *p = &chart->point[i];
			struct draw_type type = {draw_small, DRAW_START,
				DRAW_INK_TEXT, p->is_chosen};

			if (p->is_chosen != (round == 0) ||
				(round == 1 && chart->n_point > NAMES_MAX))
				continue;
			draw_place(canvas, placer, draw_px(&frame->x, p->cost),
				draw_px(&frame->y, p->gain.middle),
				p->is_chosen ? 12 : 7, type, p->label,
				p->is_chosen);
		}
}

static void
draw_gain_key(struct draw_canvas *canvas, const struct draw_gain *chart)
{
	struct draw_key_item item[2];
	size_t n = 0;

	for (size_t i = 0; i < chart->n_point && n == 0; i++)
		if (chart->point[i].is_chosen)
			item[n++] = (struct draw_key_item){
				.kind = DRAW_KEY_RING,
				.words = draw_word(canvas, chart->chosen_word,
					N_("pays most")),
				.ink = DRAW_INK_TEXT};
	if (chart->has_even)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_LINE,
			.words = draw_word(canvas, chart->even_word,
				N_("saves just what it costs")),
			.ink = DRAW_INK_SOFT,
			.dash = "3 3"};
	draw_key(canvas, item, n);
}

static enum err_code
draw_all(struct draw_canvas *canvas, const struct draw_gain *chart,
	struct err *err)
{
	struct draw_frame frame = lay(canvas, chart);
	struct draw_placer placer;
	struct order *order = arena_take(
		canvas->body.arena, chart->n_point, sizeof(*order));

	if (order == NULL)
		return err_memory(err);
	for (size_t i = 0; i < chart->n_point; i++)
		order[i] = (struct order){chart->point[i].cost, i};
	qsort(order, chart->n_point, sizeof(*order), by_cost);
	TRY(draw_placer_open(canvas, &placer,
		(struct draw_area){
			frame.left, frame.top, frame.right, frame.bottom},
		(DRAW_LINE_AREAS + 4) * (chart->n_point + 1), err));
	draw_frame_y(canvas, &frame, &chart->gain);
	draw_frame_x(canvas, &frame, &chart->cost);
	draw_even(canvas, chart, &frame, &placer);
	draw_points(canvas, chart, &frame, order);
	draw_names(canvas, chart, &frame, order, &placer);
	return ERR_NONE;
}

enum err_code
draw_gain(const struct draw_gain *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	const char *says;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	says = text_format(canvas.body.arena,
		"Plans of further testing: %zu, joined in order of cost.",
		chart->n_point);
	if (chart->n_point == 0) {
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("No plan worked out yet.")));
		return draw_close(&canvas, says, err);
	}
	TRY(draw_all(&canvas, chart, err));
	draw_gain_key(&canvas, chart);
	return draw_close(&canvas, says, err);
}

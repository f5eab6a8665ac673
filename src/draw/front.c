/* front.c - two quantities of each mix; those that none beats are joined. */
#include "draw/front.h"

#include "draw/frame.h"
#include "draw/place.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { FEW = 12 }; /* points of which every one is named */

static const struct draw_type label_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, false};

bool
draw_front_is_beaten(const struct draw_front *chart, size_t i)
{
	double x_sign = chart->x_more_is_better ? 1 : -1;
	double y_sign = chart->y_more_is_better ? 1 : -1;
	const struct draw_front_point *p = &chart->point[i];

	for (size_t k = 0; k < chart->n_point; k++) {
		double dx = x_sign * (chart->point[k].x - p->x);
		double dy = y_sign * (chart->point[k].y - p->y);

		if (dx >= 0 && dy >= 0 && (dx > 0 || dy > 0))
			return true;
	}
	return false;
}

static enum err_code
check(const struct draw_front *chart, struct err *err)
{
	TRY(draw_check_axis(&chart->x, "x", err));
	TRY(draw_check_axis(&chart->y, "y", err));
	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_front_point *p = &chart->point[i];
		struct draw_estimate x = {p->x, p->x, p->x};
		struct draw_estimate y = {p->y, p->y, p->y};

		if (p->has_range) {
			x = (struct draw_estimate){p->x, p->x_low, p->x_high};
			y = (struct draw_estimate){p->y, p->y_low, p->y_high};
		}
		TRY(draw_check_estimate(&chart->x, &x, "point", i, err));
		TRY(draw_check_estimate(&chart->y, &y, "point", i, err));
	}
	return ERR_NONE;
}

static struct draw_frame
lay(struct draw_canvas *canvas, const struct draw_front *chart)
{
	struct draw_span x = {0}, y = {0};

	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_front_point *p = &chart->point[i];

		draw_span_add(&x, p->x);
		draw_span_add(&y, p->y);
		if (!p->has_range)
			continue;
		draw_span_add(&x, p->x_low);
		draw_span_add(&x, p->x_high);
		draw_span_add(&y, p->y_low);
		draw_span_add(&y, p->y_high);
	}
	return draw_frame_lay(canvas, &chart->x, x, &chart->y, y);
}

/* One that is not beaten, for sorting along the front. */
struct step {
	double x, y;
	size_t index;
};

static int
by_x(const void *a, const void *b)
{
	const struct step *p = a, *q = b;

	if (p->x != q->x)
		return p->x < q->x ? -1 : 1;
	return p->index < q->index ? -1 : p->index > q->index;
}

/* From one to the next the better value is given up where the steps turn:
 * along x first where x is better small (as good y is not had before it). */
static void
draw_steps(struct draw_canvas *canvas, const struct draw_front *chart,
	const struct draw_frame *frame, struct draw_placer *placer,
	const struct step *step, size_t n)
{
	struct draw_spot last = {0, 0};

	struct draw_pen pen = {DRAW_INK_NONE, DRAW_INK_SERIES, 2, "6 3"};

	if (n < 2)
		return;
	draw_path_begin(canvas, pen);
	for (size_t i = 0; i < n; i++) {
		struct draw_spot at = {draw_px(&frame->x, step[i].x),
			draw_px(&frame->y, step[i].y)};
		struct draw_spot turn = chart->x_more_is_better
			? (struct draw_spot){last.x, at.y}
			: (struct draw_spot){at.x, last.y};

		if (i > 0) {
			draw_path_to(canvas, turn.x, turn.y);
			draw_placer_line(placer, last, turn);
			draw_placer_line(placer, turn, at);
		}
		draw_path_to(canvas, at.x, at.y);
		last = at;
	}
	draw_path_end(canvas, false);
}

static void
draw_ranges(struct draw_canvas *canvas, const struct draw_frame *frame,
	const struct draw_front_point *p, enum draw_ink ink)
{
	struct draw_pen pen = {DRAW_INK_NONE, ink, 1, NULL};

	if (!p->has_range)
		return;
	draw_span_h(canvas,
		(struct draw_ends){draw_px(&frame->x, p->x_low),
			draw_px(&frame->x, p->x_high), false, false},
		draw_px(&frame->y, p->y), 3, pen);
	draw_span_v(canvas,
		(struct draw_ends){draw_px(&frame->y, p->y_low),
			draw_px(&frame->y, p->y_high), false, false},
		draw_px(&frame->x, p->x), 3, pen);
}

static void
draw_point(struct draw_canvas *canvas, const struct draw_front *chart,
	const struct draw_frame *frame, size_t i, bool is_beaten)
{
	const struct draw_front_point *p = &chart->point[i];
	enum draw_ink ink = is_beaten ? DRAW_INK_SOFT : DRAW_INK_SERIES;
	double x = draw_px(&frame->x, p->x), y = draw_px(&frame->y, p->y);
	struct draw_pen ring = {DRAW_INK_NONE, DRAW_INK_TEXT, 2, NULL};

	draw_group(canvas);
	draw_tip(canvas, p->label);
	draw_tip(canvas, ": ");
	if (p->has_range) {
		struct draw_estimate of_x = {p->x, p->x_low, p->x_high};
		struct draw_estimate of_y = {p->y, p->y_low, p->y_high};

		draw_tip_estimate(canvas, &of_x, chart->x.unit);
		draw_tip(canvas, "; ");
		draw_tip_estimate(canvas, &of_y, chart->y.unit);
	} else {
		draw_tip_reading(canvas, p->x, p->x, chart->x.unit);
		draw_tip(canvas, "; ");
		draw_tip_reading(canvas, p->y, p->y, chart->y.unit);
	}
	draw_tip_end(canvas);
	draw_ranges(canvas, frame, p, ink);
	draw_mark(canvas, is_beaten ? DRAW_SHAPE_CIRCLE : DRAW_SHAPE_DIAMOND, x,
		y, 4.5, ink, is_beaten);
	if (p->is_chosen)
		draw_circle(canvas, x, y, 10, ring);
	draw_group_end(canvas);
}

/* "better" with arrows, in the name of each scale. */
static struct draw_axis
with_better(struct draw_canvas *canvas, const struct draw_front *chart,
	const struct draw_axis *axis, bool more_is_better, bool is_upright)
{
	struct draw_axis named = *axis;
	const char *arrow = is_upright
		? (more_is_better ? "\xE2\x86\x91" : "\xE2\x86\x93")
		: (more_is_better ? "\xE2\x86\x92" : "\xE2\x86\x90");
	bool has_unit = axis->unit != NULL && axis->unit[0] != '\0';

	named.unit = text_format(canvas->body.arena, "%s%s(%s %s)",
		draw_or(axis->unit, ""), has_unit ? " " : "",
		draw_word(canvas, chart->better_word, N_("better")), arrow);
	if (named.unit == NULL)
		canvas->body.failed = true;
	return named;
}

static void
draw_names(struct draw_canvas *canvas, const struct draw_front *chart,
	const struct draw_frame *frame, struct draw_placer *placer,
	const bool *is_beaten)
{
	for (size_t i = 0; i < chart->n_point; i++)
		draw_placer_point(placer, draw_px(&frame->x, chart->point[i].x),
			draw_px(&frame->y, chart->point[i].y),
			chart->point[i].is_chosen ? 10 : 5);
	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_front_point *p = &chart->point[i];
		double x = draw_px(&frame->x, p->x);
		double y = draw_px(&frame->y, p->y);

		if (!p->has_range)
			continue;
		draw_placer_line(placer,
			(struct draw_spot){draw_px(&frame->x, p->x_low), y},
			(struct draw_spot){draw_px(&frame->x, p->x_high), y});
		draw_placer_line(placer,
			(struct draw_spot){x, draw_px(&frame->y, p->y_low)},
			(struct draw_spot){x, draw_px(&frame->y, p->y_high)});
	}
	for (int round = 0; round < 2; round++) /* the unbeaten first */
		for (size_t i = 0; i < chart->n_point; i++) {
			const struct draw_front_point *p = &chart->point[i];
			struct draw_type type = label_type;
			bool is_first = !is_beaten[i] || p->is_chosen;

			type.is_bold = p->is_chosen;
			if (is_first == (round == 0))
				draw_place(canvas, placer,
					draw_px(&frame->x, p->x),
					draw_px(&frame->y, p->y),
					p->is_chosen ? 12 : 7, type, p->label,
					p->is_chosen || chart->n_point <= FEW);
		}
}

static void
draw_front_key(struct draw_canvas *canvas, const struct draw_front *chart)
{
	struct draw_key_item item[] = {
		{.kind = DRAW_KEY_MARK,
			.words = draw_word(canvas, chart->front_word,
				N_("no other is better in both")),
			.ink = DRAW_INK_SERIES,
			.shape = DRAW_SHAPE_DIAMOND},
		{.kind = DRAW_KEY_MARK,
			.words = draw_word(canvas, chart->beaten_word,
				N_("another is at least as good in both")),
			.ink = DRAW_INK_SOFT,
			.is_hollow = true},
		{.kind = DRAW_KEY_RING,
			.words = draw_word(
				canvas, chart->chosen_word, N_("chosen")),
			.ink = DRAW_INK_TEXT},
	};
	size_t n = 2;

	for (size_t i = 0; i < chart->n_point && n == 2; i++)
		if (chart->point[i].is_chosen)
			n = 3;
	draw_key(canvas, item, n);
}

static enum err_code
draw_all(struct draw_canvas *canvas, const struct draw_front *chart,
	struct err *err)
{
	struct arena *arena = canvas->body.arena;
	struct draw_frame frame = lay(canvas, chart);
	struct draw_axis x = with_better(
		canvas, chart, &chart->x, chart->x_more_is_better, false);
	struct draw_axis y = with_better(
		canvas, chart, &chart->y, chart->y_more_is_better, true);
	bool *is_beaten = arena_take(arena, chart->n_point, sizeof(bool));
	struct step *step = arena_take(arena, chart->n_point, sizeof(*step));
	struct draw_placer placer;
	size_t n = 0;

	if (is_beaten == NULL || step == NULL)
		return err_memory(err);
	TRY(draw_placer_open(canvas, &placer,
		(struct draw_area){
			frame.left, frame.top, frame.right, frame.bottom},
		6 * chart->n_point, err));
	for (size_t i = 0; i < chart->n_point; i++) {
		is_beaten[i] = draw_front_is_beaten(chart, i);
		if (!is_beaten[i])
			step[n++] = (struct step){
				chart->point[i].x, chart->point[i].y, i};
	}
	qsort(step, n, sizeof(*step), by_x);
	draw_frame_y(canvas, &frame, &y);
	draw_frame_x(canvas, &frame, &x);
	draw_steps(canvas, chart, &frame, &placer, step, n);
	for (size_t i = 0; i < chart->n_point; i++)
		draw_point(canvas, chart, &frame, i, is_beaten[i]);
	draw_names(canvas, chart, &frame, &placer, is_beaten);
	return ERR_NONE;
}

enum err_code
draw_front(const struct draw_front *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	const char *says;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	says = text_format(canvas.body.arena,
		"Mixes: %zu. Those that no other beats in both are joined.",
		chart->n_point);
	if (chart->n_point == 0) {
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("Nothing to weigh up yet.")));
		return draw_close(&canvas, says, err);
	}
	TRY(draw_all(&canvas, chart, err));
	draw_front_key(&canvas, chart);
	return draw_close(&canvas, says, err);
}

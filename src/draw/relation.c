/* relation.c - one quantity against another with the fitted relation. */
#include "draw/relation.h"

#include "draw/frame.h"

#include <stdio.h>

static enum err_code
check_points(const struct draw_relation *chart, struct err *err)
{
	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_relation_point *p = &chart->point[i];

		TRY(draw_check_value(&chart->x, p->x, "point", i, "x", err));
		TRY(draw_check_reading(
			&chart->y, p->low, p->high, "point", i, err));
		if (p->group >= chart->n_group && p->group > 0)
			return err_report(err, ERR_INPUT, "point",
				"Point %zu is of group %zu, but there are %zu "
				"groups, counted from 0.",
				i, p->group, chart->n_group);
	}
	return ERR_NONE;
}

static enum err_code
check(const struct draw_relation *chart, struct err *err)
{
	TRY(draw_check_axis(&chart->x, "x", err));
	TRY(draw_check_axis(&chart->y, "y", err));
	if (chart->n_group > DRAW_GROUPS_MAX)
		return err_report(err, ERR_INPUT, "n_group",
			"%zu groups are more marks than can be told apart; up "
			"to %d can be shown.",
			chart->n_group, (int)DRAW_GROUPS_MAX);
	TRY(check_points(chart, err));
	for (size_t i = 0; i < chart->n_knot; i++) {
		const struct draw_relation_knot *k = &chart->knot[i];

		TRY(draw_check_value(&chart->x, k->x, "knot", i, "x", err));
		TRY(draw_check_estimate(&chart->y, &k->y, "knot", i, err));
		if (i > 0 && !(k->x > k[-1].x))
			return err_report(err, ERR_INPUT, "knot",
				"Knot %zu of the relation lies at %g, not "
				"beyond the one before at %g.",
				i, k->x, k[-1].x);
	}
	return ERR_NONE;
}

static void
draw_band(struct draw_canvas *canvas, const struct draw_relation *chart,
	const struct draw_frame *frame)
{
	struct draw_pen shade = {DRAW_INK_SHADE, DRAW_INK_NONE, 0, NULL};

	if (chart->n_knot < 2)
		return;
	draw_path_begin(canvas, shade);
	for (size_t i = 0; i < chart->n_knot; i++)
		draw_path_to(canvas, draw_px(&frame->x, chart->knot[i].x),
			draw_px(&frame->y, chart->knot[i].y.high));
	for (size_t i = chart->n_knot; i-- > 0;)
		draw_path_to(canvas, draw_px(&frame->x, chart->knot[i].x),
			draw_px(&frame->y, chart->knot[i].y.low));
	draw_path_end(canvas, true);
}

static void
draw_curve(struct draw_canvas *canvas, const struct draw_relation *chart,
	const struct draw_frame *frame)
{
	struct draw_pen line = {DRAW_INK_NONE, DRAW_INK_TEXT, 2, NULL};

	if (chart->n_knot < 2)
		return;
	draw_path_begin(canvas, line);
	for (size_t i = 0; i < chart->n_knot; i++)
		draw_path_to(canvas, draw_px(&frame->x, chart->knot[i].x),
			draw_px(&frame->y, chart->knot[i].y.middle));
	draw_path_end(canvas, false);
}

static void
draw_point(struct draw_canvas *canvas, const struct draw_relation *chart,
	const struct draw_frame *frame, const struct draw_relation_point *p)
{
	enum draw_ink ink = draw_ink_series(p->group);
	struct draw_pen pen = {DRAW_INK_NONE, ink, 2, NULL};
	double x = draw_px(&frame->x, p->x);
	struct draw_ends ends = {draw_px(&frame->y, p->low),
		draw_px(&frame->y, p->high),
		draw_is_open_below(p->low, p->high),
		draw_is_open_above(p->high)};

	draw_group(canvas);
	draw_tip(canvas, p->label);
	draw_tip(canvas, ": ");
	draw_tip_digits(canvas, p->x, 3);
	draw_tip(canvas, " ");
	draw_tip(canvas, chart->x.unit);
	draw_tip(canvas, ", ");
	draw_tip_reading(canvas, p->low, p->high, chart->y.unit);
	draw_tip_end(canvas);
	if (p->low < p->high) {
		if (ends.open_to && ends.from - ends.to < 20)
			ends.to = ends.from - 20;
		if (ends.open_from && ends.from - ends.to < 20)
			ends.from = ends.to + 20;
		draw_span_v(canvas, ends, x, 3, pen);
		draw_mark(canvas,
			(enum draw_shape)(p->group % DRAW_SHAPE_COUNT), x,
			ends.open_to             ? ends.from
				: ends.open_from ? ends.to
						 : (ends.from + ends.to) / 2,
			3.5, ink, false);
	} else {
		draw_mark(canvas,
			(enum draw_shape)(p->group % DRAW_SHAPE_COUNT), x,
			ends.from, 4, ink, false);
	}
	draw_group_end(canvas);
}

static void
draw_relation_key(struct draw_canvas *canvas, const struct draw_relation *chart)
{
	struct draw_key_item item[DRAW_GROUPS_MAX + 2];
	size_t n = 0;

	for (size_t i = 0; i < chart->n_group; i++)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_MARK,
			.words = draw_or(chart->group[i], ""),
			.ink = draw_ink_series(i),
			.shape = (enum draw_shape)(i % DRAW_SHAPE_COUNT)};
	if (chart->n_knot >= 2) {
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_LINE,
			.words = draw_word(canvas, chart->curve_word,
				N_("fitted relation")),
			.ink = DRAW_INK_TEXT};
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_BAND,
			.words = draw_word(canvas, chart->band_word,
				N_("where it likely lies")),
			.ink = DRAW_INK_SHADE};
	}
	draw_key(canvas, item, n);
}

static struct draw_frame
lay(struct draw_canvas *canvas, const struct draw_relation *chart)
{
	struct draw_span x = {0}, y = {0};

	for (size_t i = 0; i < chart->n_point; i++) {
		draw_span_add(&x, chart->point[i].x);
		draw_span_reading(
			&y, chart->point[i].low, chart->point[i].high);
	}
	for (size_t i = 0; i < chart->n_knot; i++) {
		draw_span_add(&x, chart->knot[i].x);
		draw_span_add(&y, chart->knot[i].y.low);
		draw_span_add(&y, chart->knot[i].y.high);
	}
	return draw_frame_lay(canvas, &chart->x, x, &chart->y, y);
}

enum err_code
draw_relation(const struct draw_relation *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	struct draw_frame frame;
	const char *says;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	says = chart->n_knot >= 2
		? text_format(canvas.body.arena,
			  "Points: %zu, with a fitted line and a band where it "
			  "likely lies.",
			  chart->n_point)
		: text_format(
			  canvas.body.arena, "Points: %zu.", chart->n_point);
	if (chart->n_point == 0 && chart->n_knot == 0) {
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("Nothing measured yet.")));
		return draw_close(&canvas, says, err);
	}
	frame = lay(&canvas, chart);
	draw_band(&canvas, chart, &frame);
	draw_frame_y(&canvas, &frame, &chart->y);
	draw_frame_x(&canvas, &frame, &chart->x);
	draw_curve(&canvas, chart, &frame);
	for (size_t i = 0; i < chart->n_point; i++)
		draw_point(&canvas, chart, &frame, &chart->point[i]);
	draw_relation_key(&canvas, chart);
	return draw_close(&canvas, says, err);
}

/* specimens.c - every test piece and each mix's estimate over them. */
#include "draw/specimens.h"

#include "draw/frame.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>

enum { LANES_MAX = 6, LANES_OF_MANY = 2, MANY_ROWS = 60 };

static const double lane_px = 8, estimate_px = 20, row_air_px = 16,
		    air_of_many_px = 6;
static const double open_px = 26; /* an arrow's least length */

/* Where everything goes. */
struct plan {
	struct draw_rows rows;
	double *top;    /* of each row; n_row + 1 */
	size_t *n_done; /* readings drawn in each row */
	double lanes;   /* height for readings */
	size_t n_lane;
};

static enum err_code
check(const struct draw_specimens *chart, struct err *err)
{
	TRY(draw_check_axis(&chart->axis, "axis", err));
	if (chart->has_wanted)
		TRY(draw_check_value(
			&chart->axis, chart->wanted, "wanted", 0, "", err));
	for (size_t i = 0; i < chart->n_row; i++)
		if (chart->row[i].has_estimate)
			TRY(draw_check_estimate(&chart->axis,
				&chart->row[i].estimate, "row", i, err));
	for (size_t i = 0; i < chart->n_reading; i++) {
		const struct draw_reading *r = &chart->reading[i];

		if (r->row >= chart->n_row)
			return err_report(err, ERR_INPUT, "reading",
				"Reading %zu is of row %zu, but there are %zu "
				"rows, counted from 0.",
				i, r->row, chart->n_row);
		TRY(draw_check_reading(
			&chart->axis, r->low, r->high, "reading", i, err));
	}
	return ERR_NONE;
}

static struct draw_span
find_span(const struct draw_specimens *chart)
{
	struct draw_span span = {0};

	for (size_t i = 0; i < chart->n_row; i++)
		if (chart->row[i].has_estimate) {
			draw_span_add(&span, chart->row[i].estimate.low);
			draw_span_add(&span, chart->row[i].estimate.high);
		}
	for (size_t i = 0; i < chart->n_reading; i++)
		draw_span_reading(
			&span, chart->reading[i].low, chart->reading[i].high);
	if (chart->has_wanted)
		draw_span_add(&span, chart->wanted);
	return span;
}

static struct draw_label
row_label(const struct draw_canvas *canvas, const struct draw_specimens *chart,
	size_t i)
{
	const struct draw_mix_row *row = &chart->row[i];

	return (struct draw_label){row->label,
		row->note != NULL ? row->note
			: row->is_baseline
			? draw_word(
				  canvas, chart->baseline_word, N_("baseline"))
			: NULL,
		row->is_baseline};
}

/* The most readings of one row, up to a limit, decide the lanes of all. */
static enum err_code
lay_rows(struct draw_canvas *canvas, const struct draw_specimens *chart,
	struct plan *plan, struct err *err)
{
	struct arena *arena = canvas->body.arena;
	double y = canvas->y + 4;
	bool is_many = chart->n_row > MANY_ROWS;
	size_t most = is_many ? LANES_OF_MANY : LANES_MAX;
	double air_px = is_many ? air_of_many_px : row_air_px;

	plan->top = arena_take(arena, chart->n_row + 1, sizeof(*plan->top));
	plan->n_done = arena_take(arena, chart->n_row, sizeof(*plan->n_done));
	if (plan->top == NULL || plan->n_done == NULL)
		return err_memory(err);
	plan->n_lane = 1;
	for (size_t i = 0; i < chart->n_reading; i++) {
		size_t n = ++plan->n_done[chart->reading[i].row];

		if (n > plan->n_lane && n <= most)
			plan->n_lane = n;
	}
	plan->lanes = (double)plan->n_lane * lane_px;
	for (size_t i = 0; i < chart->n_row; i++) {
		struct draw_label label = row_label(canvas, chart, i);
		double own = plan->lanes + estimate_px;
		double words = draw_label_height(&plan->rows, &label);

		plan->top[i] = y;
		plan->n_done[i] = 0;
		y += air_px +
			(plan->rows.is_stacked ? own + words
					       : fmax(own, words));
	}
	plan->top[chart->n_row] = y;
	return ERR_NONE;
}

/* Where the marks of row i begin. */
static double
marks_top(const struct draw_canvas *canvas, const struct draw_specimens *chart,
	const struct plan *plan, size_t i)
{
	struct draw_label label = row_label(canvas, chart, i);
	double own = plan->lanes + estimate_px;
	double height = plan->top[i + 1] - plan->top[i];

	if (plan->rows.is_stacked)
		return plan->top[i] + draw_label_height(&plan->rows, &label) +
			10;
	return plan->top[i] + (height - own) / 2;
}

static void
draw_row(struct draw_canvas *canvas, const struct draw_specimens *chart,
	const struct plan *plan, size_t i)
{
	const struct draw_mix_row *row = &chart->row[i];
	const struct draw_scale *x = &plan->rows.x;
	struct draw_label label = row_label(canvas, chart, i);
	double y = marks_top(canvas, chart, plan, i) + plan->lanes + 9;
	struct draw_pen rule = {DRAW_INK_NONE, DRAW_INK_GRID, 1, NULL};
	struct draw_pen thick = {DRAW_INK_NONE, DRAW_INK_TEXT, 3, NULL};

	if (i > 0)
		draw_line_at(canvas, draw_margin, plan->top[i],
			canvas->width - draw_margin, plan->top[i], rule);
	draw_label_at(canvas, &plan->rows, &label, plan->top[i] + 6,
		(plan->top[i] + plan->top[i + 1]) / 2);
	if (!row->has_estimate)
		return;
	draw_group(canvas);
	draw_tip(canvas, row->label);
	draw_tip(canvas, ": ");
	draw_tip_estimate(canvas, &row->estimate, chart->axis.unit);
	draw_tip_end(canvas);
	draw_span_h(canvas,
		(struct draw_ends){draw_px(x, row->estimate.low),
			draw_px(x, row->estimate.high), false, false},
		y, 6, thick);
	draw_mark(canvas, DRAW_SHAPE_DIAMOND, draw_px(x, row->estimate.middle),
		y, 6, DRAW_INK_TEXT, false);
	draw_group_end(canvas);
}

static void
draw_reading(struct draw_canvas *canvas, const struct draw_specimens *chart,
	struct plan *plan, const struct draw_reading *r)
{
	const struct draw_scale *x = &plan->rows.x;
	size_t lane = plan->n_done[r->row]++ % plan->n_lane;
	double y = marks_top(canvas, chart, plan, r->row) +
		((double)lane + .5) * lane_px;
	enum draw_ink ink = r->is_left_out ? DRAW_INK_SOFT : DRAW_INK_SERIES;
	struct draw_pen pen = {
		DRAW_INK_NONE, ink, 2, r->is_left_out ? "3 2" : NULL};
	struct draw_ends ends = {draw_px(x, r->low), draw_px(x, r->high),
		draw_is_open_below(r->low, r->high),
		draw_is_open_above(r->high)};

	draw_group(canvas);
	draw_tip(canvas, r->label);
	draw_tip(canvas, ": ");
	draw_tip_reading(canvas, r->low, r->high, chart->axis.unit);
	draw_tip_end(canvas);
	if (r->low < r->high) {
		if (ends.open_to && ends.to - ends.from < open_px)
			ends.to = ends.from + open_px;
		if (ends.open_from && ends.to - ends.from < open_px)
			ends.from = ends.to - open_px;
		draw_span_h(canvas, ends, y, 3, pen);
	} else {
		draw_mark(canvas, DRAW_SHAPE_CIRCLE, ends.from, y, 3.5, ink,
			r->is_left_out);
	}
	draw_group_end(canvas);
}

static void
draw_wanted(struct draw_canvas *canvas, const struct draw_specimens *chart,
	const struct plan *plan)
{
	double x = draw_px(&plan->rows.x, chart->wanted);
	struct draw_pen pen = {DRAW_INK_NONE, DRAW_INK_WARN, 2, "7 4"};

	draw_line_at(canvas, x, plan->top[0], x, plan->top[chart->n_row], pen);
}

static void
draw_specimens_key(
	struct draw_canvas *canvas, const struct draw_specimens *chart)
{
	struct draw_key_item item[5];
	size_t n = 0;
	bool any_open = false, any_out = false;

	for (size_t i = 0; i < chart->n_reading; i++) {
		const struct draw_reading *r = &chart->reading[i];

		any_out = any_out || r->is_left_out;
		any_open = any_open || draw_is_open_above(r->high) ||
			draw_is_open_below(r->low, r->high);
	}
	item[n++] = (struct draw_key_item){.kind = DRAW_KEY_MARK,
		.words = draw_word(canvas, chart->reading_word,
			N_("one test piece (a line: held the low end, not the "
			   "high)")),
		.ink = DRAW_INK_SERIES};
	if (any_open)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_OPEN,
			.words = draw_word(canvas, chart->open_word,
				N_("at least, or less than, this")),
			.ink = DRAW_INK_SERIES};
	if (any_out)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_MARK,
			.words = draw_word(canvas, chart->left_out_word,
				N_("left out by a rule")),
			.ink = DRAW_INK_SOFT,
			.is_hollow = true};
	item[n++] = (struct draw_key_item){.kind = DRAW_KEY_SPAN,
		.words = draw_word(canvas, chart->estimate_word,
			N_("the mix: best estimate, likely between the ends")),
		.ink = DRAW_INK_TEXT,
		.shape = DRAW_SHAPE_DIAMOND};
	if (chart->has_wanted)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_LINE,
			.words = draw_word(
				canvas, chart->wanted_label, N_("asked for")),
			.ink = DRAW_INK_WARN,
			.dash = "7 4"};
	draw_key(canvas, item, n);
}

enum err_code
draw_specimens(const struct draw_specimens *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	struct plan plan;
	const char *says;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	says = text_format(canvas.body.arena,
		"Mixes: %zu, test pieces: %zu. Each test piece is a dot or a "
		"line, each mix a thick line with a diamond.",
		chart->n_row, chart->n_reading);
	if (chart->n_row == 0) {
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("Nothing tested yet.")));
		return draw_close(&canvas, says, err);
	}
	plan.rows = draw_rows_lay(&canvas, &chart->axis, find_span(chart), 0);
	TRY(lay_rows(&canvas, chart, &plan, err));
	draw_rows_grid(&canvas, &plan.rows, &chart->axis, plan.top[0],
		plan.top[chart->n_row]);
	if (chart->has_wanted)
		draw_wanted(&canvas, chart, &plan);
	for (size_t i = 0; i < chart->n_row; i++)
		draw_row(&canvas, chart, &plan, i);
	for (size_t i = 0; i < chart->n_reading; i++)
		draw_reading(&canvas, chart, &plan, &chart->reading[i]);
	draw_specimens_key(&canvas, chart);
	return draw_close(&canvas, says, err);
}

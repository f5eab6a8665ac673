/* ratio.c - each mix over the baseline, with the interval and the chance. */
#include "draw/ratio.h"

#include "draw/frame.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>

static const double strip_px = 22, row_air_px = 14;
static const struct draw_type chance_type = {
	draw_small, DRAW_START, DRAW_INK_SOFT, false};

static struct draw_span
find_span(const struct draw_ratio *chart)
{
	struct draw_span span = {true, 0.9, 1.1};

	for (size_t i = 0; i < chart->n_row; i++) {
		draw_span_add(&span, chart->row[i].ratio.low);
		draw_span_add(&span, chart->row[i].ratio.high);
	}
	return span;
}

/* "x 1.34" and the chance are the note under the row's label. */
static struct draw_label
row_label(const struct draw_ratio_row *row)
{
	return (struct draw_label){row->label, row->chance, row->is_sure};
}

static double
row_height(const struct draw_rows *rows, const struct draw_ratio_row *row)
{
	struct draw_label label = row_label(row);
	double words = draw_label_height(rows, &label);

	return row_air_px +
		(rows->is_stacked ? words + strip_px : fmax(words, strip_px));
}

static void
draw_row(struct draw_canvas *canvas, const struct draw_rows *rows,
	const struct draw_ratio_row *row, double top)
{
	struct draw_label label = row_label(row);
	double height = row_height(rows, row);
	double y = rows->is_stacked ? top + height - strip_px / 2 - 4
				    : top + height / 2;
	struct draw_pen thick = {DRAW_INK_NONE, DRAW_INK_SERIES, 3, NULL};

	draw_label_at(canvas, rows, &label, top + 6, top + height / 2);
	draw_group(canvas);
	draw_tip(canvas, row->label);
	draw_tip(canvas, ": \xC3\x97 ");
	draw_tip_estimate(canvas, &row->ratio, "");
	if (row->chance != NULL) {
		draw_tip(canvas, "; ");
		draw_tip(canvas, row->chance);
	}
	draw_tip_end(canvas);
	draw_span_h(canvas,
		(struct draw_ends){draw_px(&rows->x, row->ratio.low),
			draw_px(&rows->x, row->ratio.high), false, false},
		y, 6, thick);
	draw_mark(canvas, DRAW_SHAPE_DIAMOND,
		draw_px(&rows->x, row->ratio.middle), y, 6, DRAW_INK_SERIES,
		!row->is_sure);
	draw_group_end(canvas);
}

/* The line at 1 with the name of the baseline above it. */
static void
draw_baseline(struct draw_canvas *canvas, const struct draw_ratio *chart,
	const struct draw_rows *rows, double top, double bottom)
{
	double x = draw_px(&rows->x, 1);
	double half = draw_words_width(chart->baseline, chance_type) / 2;
	struct draw_type type = chance_type;
	struct draw_pen pen = {DRAW_INK_NONE, DRAW_INK_TEXT, 2, "6 4"};

	type.anchor = DRAW_MIDDLE;
	type.ink = DRAW_INK_TEXT;
	if (x + half > canvas->width - draw_margin) {
		type.anchor = DRAW_END;
		x = canvas->width - draw_margin;
	} else if (x - half < draw_margin) {
		type.anchor = DRAW_START;
		x = draw_margin;
	}
	draw_say_wrapped(canvas, x, top - 5, type,
		canvas->width - 2 * draw_margin, 1, chart->baseline);
	x = draw_px(&rows->x, 1);
	draw_line_at(canvas, x, top, x, bottom, pen);
}

static void
draw_ratio_key(struct draw_canvas *canvas, const struct draw_ratio *chart)
{
	struct draw_key_item item[2];
	size_t n = 0;
	bool any[2] = {false, false};

	for (size_t i = 0; i < chart->n_row; i++)
		any[chart->row[i].is_sure ? 1 : 0] = true;
	for (size_t sure = 2; sure-- > 0;)
		if (any[sure])
			item[n++] = (struct draw_key_item){
				.kind = DRAW_KEY_SPAN,
				.words = sure == 1
					? draw_word(canvas, chart->sure_word,
						  N_("hard to explain by "
						     "chance"))
					: draw_word(canvas, chart->unsure_word,
						  N_("could easily be "
						     "chance")),
				.ink = DRAW_INK_SERIES,
				.shape = DRAW_SHAPE_DIAMOND,
				.is_hollow = sure == 0};
	draw_key(canvas, item, n);
}

static void
draw_all_rows(struct draw_canvas *canvas, const struct draw_ratio *chart,
	const struct draw_axis *axis, const struct draw_rows *rows)
{
	struct draw_pen rule = {DRAW_INK_NONE, DRAW_INK_GRID, 1, NULL};
	double top = canvas->y + 18, bottom = top, y = top;

	for (size_t i = 0; i < chart->n_row; i++)
		bottom += row_height(rows, &chart->row[i]);
	draw_rows_grid(canvas, rows, axis, top, bottom);
	draw_baseline(canvas, chart, rows, top, bottom);
	for (size_t i = 0; i < chart->n_row; i++) {
		if (i > 0)
			draw_line_at(canvas, draw_margin, y,
				canvas->width - draw_margin, y, rule);
		draw_row(canvas, rows, &chart->row[i], y);
		y += row_height(rows, &chart->row[i]);
	}
}

enum err_code
draw_ratio(const struct draw_ratio *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_axis axis = {.name = "", .unit = "", .is_log = true};
	struct draw_canvas canvas;
	struct draw_rows rows;
	const char *says;

	for (size_t i = 0; i < chart->n_row; i++)
		TRY(draw_check_estimate(
			&axis, &chart->row[i].ratio, "row", i, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	axis.name = draw_word(
		&canvas, chart->axis_name, N_("times the baseline"));
	says = text_format(canvas.body.arena,
		"Mixes compared with the baseline: %zu. A line at 1 is the "
		"baseline.",
		chart->n_row);
	if (chart->n_row == 0) {
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("Nothing to compare yet.")));
		return draw_close(&canvas, says, err);
	}
	rows = draw_rows_lay(&canvas, &axis, find_span(chart), 0);
	draw_all_rows(&canvas, chart, &axis, &rows);
	draw_ratio_key(&canvas, chart);
	return draw_close(&canvas, says, err);
}

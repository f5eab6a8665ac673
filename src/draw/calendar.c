/* calendar.c - which day what is poured where. */
#include "draw/calendar.h"

#include "draw/frame.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static const double day_px = 96, strip_px = 12, least_column_px = 110;
static const double line_px = 15;
static const struct draw_type cell_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, false};
static const struct draw_type head_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, true};

struct order {
	size_t day, column, index;
};

static int
by_place(const void *a, const void *b)
{
	const struct order *p = a, *q = b;

	if (p->day != q->day)
		return p->day < q->day ? -1 : 1;
	if (p->column != q->column)
		return p->column < q->column ? -1 : 1;
	return p->index < q->index ? -1 : p->index > q->index;
}

static enum err_code
check(const struct draw_calendar *chart, struct err *err)
{
	for (size_t i = 0; i < chart->n_cell; i++) {
		const struct draw_cell *cell = &chart->cell[i];

		if (cell->day >= chart->n_day ||
			cell->column >= chart->n_column)
			return err_report(err, ERR_INPUT, "cell",
				"Cell %zu is of day %zu and column %zu, but "
				"there are %zu days and %zu columns, counted "
				"from 0.",
				i, cell->day, cell->column, chart->n_day,
				chart->n_column);
	}
	return ERR_NONE;
}

/* The look of a deed: a strip at the left of its cell. */
static void
draw_strip(struct draw_canvas *canvas, enum draw_deed deed, double x, double y,
	double height)
{
	struct draw_pen solid = {DRAW_INK_SERIES, DRAW_INK_SERIES, 1, NULL};
	struct draw_pen outline = {DRAW_INK_PAPER, DRAW_INK_SOFT, 1, NULL};

	switch (deed) {
	case DRAW_DEED_POUR:
		draw_box(canvas, x, y, strip_px, height, solid);
		return;
	case DRAW_DEED_STRIP:
		draw_box(canvas, x, y, strip_px, height, outline);
		draw_hatched(canvas, x, y, strip_px, height, DRAW_HATCH_SLANT);
		return;
	case DRAW_DEED_CURE:
		draw_box(canvas, x, y, strip_px, height, outline);
		draw_hatched(canvas, x, y, strip_px, height, DRAW_HATCH_DOTS);
		return;
	case DRAW_DEED_OTHER:
		break;
	}
	draw_box(canvas, x, y, strip_px, height, outline);
}

static double
cell_height(const char *words, double width)
{
	size_t n = draw_count_lines(
		words, cell_type, width - strip_px - 10, DRAW_LINES_MAX);

	return 6 + line_px * (double)(n > 0 ? n : 1);
}

static void
draw_cell(struct draw_canvas *canvas, const struct draw_calendar *chart,
	const struct draw_cell *cell, const char *words, double x, double y,
	double width)
{
	draw_group(canvas);
	draw_tip(canvas, chart->day[cell->day]);
	draw_tip(canvas, ", ");
	draw_tip(canvas, chart->column[cell->column]);
	draw_tip(canvas, ": ");
	draw_tip(canvas, cell->text);
	draw_tip_end(canvas);
	draw_strip(canvas, cell->deed, x, y + 2, cell_height(words, width) - 4);
	draw_say_wrapped(canvas, x + strip_px + 6, y + 3 + draw_small - 1,
		cell_type, width - strip_px - 10, DRAW_LINES_MAX, words);
	draw_group_end(canvas);
}

/* Days down, columns across.  Draws the cells of one day from order[at] on and
 * returns the first that is not of that day. */
static size_t
draw_day(struct draw_canvas *canvas, const struct draw_calendar *chart,
	const struct order *order, size_t at, size_t day, double column_px)
{
	struct draw_pen rule = {DRAW_INK_NONE, DRAW_INK_GRID, 1, NULL};
	double top = canvas->y, bottom = top + 24, y = top + 2;

	draw_line_at(canvas, draw_margin, top, canvas->width - draw_margin, top,
		rule);
	bottom = fmax(bottom,
		top + 8 +
			line_px *
				(double)draw_say_wrapped(canvas, draw_margin,
					top + 16, head_type, day_px - 8, 3,
					chart->day[day]));
	for (; at < chart->n_cell && order[at].day == day; at++) {
		const struct draw_cell *cell = &chart->cell[order[at].index];
		double x = draw_margin + day_px +
			column_px * (double)cell->column;

		if (at == 0 || order[at - 1].day != day ||
			order[at - 1].column != cell->column)
			y = top + 2;
		draw_cell(canvas, chart, cell, draw_or(cell->text, ""), x, y,
			column_px);
		y += cell_height(cell->text, column_px);
		bottom = fmax(bottom, y + 2);
	}
	canvas->y = bottom;
	return at;
}

static void
draw_heads(struct draw_canvas *canvas, const struct draw_calendar *chart,
	double column_px)
{
	size_t most = 1;

	for (size_t i = 0; i < chart->n_column; i++) {
		size_t n = draw_say_wrapped(canvas,
			draw_margin + day_px + column_px * (double)i,
			canvas->y + draw_small, head_type, column_px - 8, 3,
			chart->column[i]);

		most = n > most ? n : most;
	}
	canvas->y += 6 + line_px * (double)most;
}

/* Narrow: a day is a heading with its deeds below it; days with none go. */
static size_t
list_day(struct draw_canvas *canvas, const struct draw_calendar *chart,
	const struct order *order, size_t at, size_t day)
{
	struct draw_pen rule = {DRAW_INK_NONE, DRAW_INK_GRID, 1, NULL};
	double width = canvas->width - 2 * draw_margin;

	if (at >= chart->n_cell || order[at].day != day)
		return at;
	draw_line_at(canvas, draw_margin, canvas->y,
		canvas->width - draw_margin, canvas->y, rule);
	canvas->y += 4 +
		line_px *
			(double)draw_say_wrapped(canvas, draw_margin,
				canvas->y + 16, head_type, width, 2,
				chart->day[day]);
	canvas->y += 4;
	for (; at < chart->n_cell && order[at].day == day; at++) {
		const struct draw_cell *cell = &chart->cell[order[at].index];
		const char *words = text_format(canvas->body.arena, "%s: %s",
			draw_or(chart->column[cell->column], ""),
			draw_or(cell->text, ""));

		if (words == NULL) {
			canvas->body.failed = true;
			return chart->n_cell;
		}
		draw_cell(canvas, chart, cell, words, draw_margin, canvas->y,
			width);
		canvas->y += cell_height(words, width);
	}
	canvas->y += 4;
	return at;
}

static enum err_code
draw_all(struct draw_canvas *canvas, const struct draw_calendar *chart,
	struct err *err)
{
	struct order *order = arena_take(
		canvas->body.arena, chart->n_cell, sizeof(*order));
	double column_px = (canvas->width - 2 * draw_margin - day_px) /
		(double)chart->n_column;
	size_t at = 0;

	if (order == NULL)
		return err_memory(err);
	for (size_t i = 0; i < chart->n_cell; i++)
		order[i] = (struct order){
			chart->cell[i].day, chart->cell[i].column, i};
	qsort(order, chart->n_cell, sizeof(*order), by_place);
	if (column_px < least_column_px) {
		for (size_t day = 0; day < chart->n_day; day++)
			at = list_day(canvas, chart, order, at, day);
		return ERR_NONE;
	}
	draw_heads(canvas, chart, column_px);
	for (size_t day = 0; day < chart->n_day; day++)
		at = draw_day(canvas, chart, order, at, day, column_px);
	return ERR_NONE;
}

enum err_code
draw_calendar(const struct draw_calendar *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	const char *says;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	says = text_format(canvas.body.arena,
		"Days: %zu, columns: %zu, things to do: %zu.", chart->n_day,
		chart->n_column, chart->n_cell);
	if (chart->n_day == 0 || chart->n_cell == 0)
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("Nothing planned yet.")));
	else
		TRY(draw_all(&canvas, chart, err));
	return draw_close(&canvas, says, err);
}

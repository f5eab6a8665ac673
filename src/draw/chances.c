/* chances.c - the chance that each mix meets everything asked of a part. */
#include "draw/chances.h"

#include "draw/frame.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>

static const double bar_px = 18, row_air_px = 14, text_px = 110;
static const struct draw_type part_type = {
	draw_font, DRAW_START, DRAW_INK_TEXT, true};
static const struct draw_type bar_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, false};

static enum err_code
check_chance(double chance, const char *name, struct err *err)
{
	if (chance >= 0 && chance <= 1)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, name,
		"A chance is between 0 and 1, not %g.", chance);
}

static enum err_code
check(const struct draw_chances *chart, struct err *err)
{
	if (chart->has_wanted)
		TRY(check_chance(chart->wanted, "wanted", err));
	for (size_t i = 0; i < chart->n_part; i++)
		for (size_t k = 0; k < chart->part[i].n_bar; k++) {
			const struct draw_chance *bar = &chart->part[i].bar[k];

			TRY(check_chance(bar->chance, "chance", err));
			if (!bar->has_range)
				continue;
			TRY(check_chance(bar->low, "low", err));
			TRY(check_chance(bar->high, "high", err));
			if (bar->low > bar->chance || bar->high < bar->chance)
				return err_report(err, ERR_INPUT, "chance",
					"The chance %g does not lie between "
					"its ends %g and %g.",
					bar->chance, bar->low, bar->high);
		}
	return ERR_NONE;
}

static const char *
bar_words(struct draw_canvas *canvas, const struct draw_chance *bar)
{
	const char *words;

	if (bar->text != NULL)
		return bar->text;
	if (bar->chance < .01)
		return arena_say(canvas->body.arena, N_("under 1 %"));
	if (bar->chance > .99)
		return arena_say(canvas->body.arena, N_("over 99 %"));
	words = text_format(canvas->body.arena, "%s %%",
		draw_figure(canvas, 100 * bar->chance, 0));
	if (words == NULL)
		canvas->body.failed = true;
	return draw_or(words, "");
}

static struct draw_label
bar_label(struct draw_canvas *canvas, const struct draw_chances *chart,
	const struct draw_rows *rows, const struct draw_chance *bar)
{
	const char *chosen = bar->is_chosen
		? draw_word(canvas, chart->chosen_word, N_("chosen"))
		: NULL;
	const char *words = bar_words(canvas, bar);

	if (rows->is_stacked && chosen == NULL)
		chosen = words;
	else if (rows->is_stacked)
		chosen = text_format(
			canvas->body.arena, "%s; %s", words, chosen);
	return (struct draw_label){bar->label, chosen, bar->is_chosen};
}

static double
row_height(struct draw_canvas *canvas, const struct draw_chances *chart,
	const struct draw_rows *rows, const struct draw_chance *bar)
{
	struct draw_label label = bar_label(canvas, chart, rows, bar);
	double words = draw_label_height(rows, &label);
	double said = draw_small * 1.25 *
		(double)draw_count_lines(bar_words(canvas, bar), bar_type,
			text_px, DRAW_LINES_MAX);

	if (rows->is_stacked)
		return row_air_px + words + bar_px + 2;
	return row_air_px + fmax(fmax(words, said), bar_px);
}

static double
part_height(
	const struct draw_canvas *canvas, const struct draw_chance_part *part)
{
	return 10 +
		draw_font * 1.25 *
		(double)draw_count_lines(part->label, part_type,
			canvas->width - 2 * draw_margin, 2);
}

static void
draw_bar(struct draw_canvas *canvas, const struct draw_chances *chart,
	const struct draw_rows *rows, const struct draw_chance *bar, double top)
{
	struct draw_label label = bar_label(canvas, chart, rows, bar);
	double height = row_height(canvas, chart, rows, bar);
	double middle = rows->is_stacked ? top + height - bar_px / 2 - 8
					 : top + height / 2;
	double to = draw_px(&rows->x, 100 * bar->chance);
	struct draw_pen pen = {
		bar->is_chosen ? DRAW_INK_SERIES : DRAW_INK_SHADE,
		DRAW_INK_SERIES, 1.5, NULL};
	struct draw_pen range = {DRAW_INK_NONE, DRAW_INK_TEXT, 2, NULL};
	struct draw_pen wanted = {DRAW_INK_NONE, DRAW_INK_WARN, 2.5, "7 3"};
	double wanted_x = draw_px(&rows->x, 100 * chart->wanted);
	const char *words = bar_words(canvas, bar);

	draw_label_at(canvas, rows, &label, top + 2, middle);
	draw_group(canvas);
	draw_tip(canvas, bar->label);
	draw_tip(canvas, ": ");
	draw_tip(canvas, words);
	draw_tip_end(canvas);
	draw_box(canvas, rows->left, middle - bar_px / 2, to - rows->left,
		bar_px, pen);
	if (!bar->is_chosen)
		draw_hatched(canvas, rows->left, middle - bar_px / 2,
			to - rows->left, bar_px, DRAW_HATCH_SLANT);
	if (bar->has_range)
		draw_span_h(canvas,
			(struct draw_ends){draw_px(&rows->x, 100 * bar->low),
				draw_px(&rows->x, 100 * bar->high), false,
				false},
			middle + bar_px / 2 + 4, 3, range);
	draw_group_end(canvas);
	if (chart->has_wanted)
		draw_line_at(canvas, wanted_x, middle - bar_px / 2 - 4,
			wanted_x, middle + bar_px / 2 + 4, wanted);
	if (!rows->is_stacked) {
		double n = (double)draw_count_lines(
			words, bar_type, text_px, DRAW_LINES_MAX);

		draw_say_wrapped(canvas, rows->right + 8,
			middle + 4 - (n - 1) * draw_small * .625, bar_type,
			text_px, DRAW_LINES_MAX, words);
	}
}

static double
whole_height(struct draw_canvas *canvas, const struct draw_chances *chart,
	const struct draw_rows *rows)
{
	double height = 0;

	for (size_t i = 0; i < chart->n_part; i++) {
		const struct draw_chance_part *part = &chart->part[i];

		height += part_height(canvas, part);
		for (size_t k = 0; k < part->n_bar; k++)
			height += row_height(
				canvas, chart, rows, &part->bar[k]);
	}
	return height;
}

static void
draw_part(struct draw_canvas *canvas, const struct draw_chances *chart,
	const struct draw_rows *rows, const struct draw_chance_part *part,
	double *y)
{
	struct draw_pen blank = {DRAW_INK_PAPER, DRAW_INK_NONE, 0, NULL};
	double height = part_height(canvas, part);

	draw_box(canvas, 0, *y, canvas->width, height, blank);
	draw_say_wrapped(canvas, draw_margin, *y + 6 + draw_font, part_type,
		canvas->width - 2 * draw_margin, 2, part->label);
	*y += height;
	for (size_t k = 0; k < part->n_bar; k++) {
		draw_bar(canvas, chart, rows, &part->bar[k], *y);
		*y += row_height(canvas, chart, rows, &part->bar[k]);
	}
}

static void
draw_all(struct draw_canvas *canvas, const struct draw_chances *chart)
{
	struct draw_axis axis = {
		.name = draw_word(canvas, chart->axis_name,
			N_("chance that the mix meets everything asked")),
		.unit = "%",
		.has_range = true,
		.high = 100};
	struct draw_rows rows = draw_rows_lay(
		canvas, &axis, (struct draw_span){0}, text_px);
	double height = whole_height(canvas, chart, &rows) + 4;
	double top = canvas->y + draw_rows_room_px(height), y = top;
	double bottom = top + height;

	draw_rows_grid(canvas, &rows, &axis, top, bottom);
	for (size_t i = 0; i < chart->n_part; i++)
		draw_part(canvas, chart, &rows, &chart->part[i], &y);
	if (chart->has_wanted) {
		struct draw_key_item item = {.kind = DRAW_KEY_LINE,
			.words = draw_word(
				canvas, chart->wanted_label, N_("asked for")),
			.ink = DRAW_INK_WARN,
			.dash = "7 3"};

		draw_key(canvas, &item, 1);
	}
}

enum err_code
draw_chances(const struct draw_chances *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	const char *says;
	size_t n = 0;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	for (size_t i = 0; i < chart->n_part; i++)
		n += chart->part[i].n_bar;
	says = text_format(canvas.body.arena,
		"Parts of the building: %zu, bars: %zu, each from 0 to 100 %%.",
		chart->n_part, n);
	if (n == 0)
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("Nothing to choose yet.")));
	else
		draw_all(&canvas, chart);
	return draw_close(&canvas, says, err);
}

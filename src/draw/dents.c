/* dents.c - the face of a test piece from above with its dents. */
#include "draw/dents.h"

#include "draw/frame.h"

#include <math.h>
#include <stdio.h>

static const double slimmest = 20, highest_px = 420, cross_px = 5;
static const struct draw_axis any_axis = {0};
static const struct draw_type small_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, false};

/* The face in the picture. */
struct face {
	double left, top, width, height, px_per_unit;
};

static enum err_code
check(const struct draw_dents *chart, struct err *err)
{
	TRY(draw_check_value(&any_axis, chart->width, "width", 0, "", err));
	TRY(draw_check_value(&any_axis, chart->height, "height", 0, "", err));
	if (!(chart->width > 0 && chart->height > 0 &&
		    chart->width <= slimmest * chart->height &&
		    chart->height <= slimmest * chart->width))
		return err_report(err, ERR_INPUT, "width",
			"A face of %g by %g cannot be drawn: both are above 0, "
			"and neither more than %g times the other.",
			chart->width, chart->height, slimmest);
	for (size_t i = 0; i < chart->n_dent; i++) {
		const struct draw_dent *d = &chart->dent[i];

		TRY(draw_check_value(&any_axis, d->x, "dent", i, "x", err));
		TRY(draw_check_value(&any_axis, d->y, "dent", i, "y", err));
		TRY(draw_check_value(
			&any_axis, d->diameter, "dent", i, "diameter", err));
		if (d->x < 0 || d->x > chart->width || d->y < 0 ||
			d->y > chart->height || d->diameter < 0)
			return err_report(err, ERR_INPUT, "dent",
				"Dent %zu, %g wide, lies at %g and %g, which "
				"is not on a face of %g by %g.",
				i, d->diameter, d->x, d->y, chart->width,
				chart->height);
	}
	return ERR_NONE;
}

static const char *
length_words(
	struct draw_canvas *canvas, const struct draw_dents *chart, double x)
{
	const char *words = text_format(canvas->body.arena, "%s %s",
		draw_short(canvas, x, 3), draw_or(chart->unit, ""));

	if (words == NULL)
		canvas->body.failed = true;
	return draw_or(words, "");
}

static struct face
lay(struct draw_canvas *canvas, const struct draw_dents *chart)
{
	double side = draw_words_width(
		length_words(canvas, chart, chart->height), small_type);
	double room = canvas->width - 2 * draw_margin - side - 10;
	struct face face = {
		.left = draw_margin + side + 8, .top = canvas->y + 8};

	face.px_per_unit = fmin(
		room / chart->width, highest_px / chart->height);
	face.width = chart->width * face.px_per_unit;
	face.height = chart->height * face.px_per_unit;
	canvas->y = face.top + face.height + 28;
	return face;
}

static void
draw_face(struct draw_canvas *canvas, const struct draw_dents *chart,
	const struct face *face)
{
	struct draw_pen pen = {DRAW_INK_SHADE, DRAW_INK_TEXT, 1.5, NULL};
	struct draw_type type = small_type;

	draw_box(canvas, face->left, face->top, face->width, face->height, pen);
	type.anchor = DRAW_MIDDLE;
	draw_say(canvas, face->left + face->width / 2,
		face->top + face->height + 17, type,
		length_words(canvas, chart, chart->width));
	type.anchor = DRAW_END;
	draw_say(canvas, face->left - 6, face->top + face->height / 2 + 4, type,
		length_words(canvas, chart, chart->height));
}

/* Lines to the nearest upright and the nearest level edge. */
static void
draw_distances(struct draw_canvas *canvas, const struct draw_dents *chart,
	const struct face *face, const struct draw_dent *d)
{
	struct draw_pen pen = {DRAW_INK_NONE, DRAW_INK_SOFT, 1, NULL};
	struct draw_type type = small_type;
	double x = face->left + d->x * face->px_per_unit;
	double y = face->top + face->height - d->y * face->px_per_unit;
	bool is_left = d->x <= chart->width - d->x;
	bool is_low = d->y <= chart->height - d->y;
	double edge_x = is_left ? face->left : face->left + face->width;
	double edge_y = is_low ? face->top + face->height : face->top;
	double to_x = fmin(d->x, chart->width - d->x);
	double to_y = fmin(d->y, chart->height - d->y);
	double radius = fmax(d->diameter / 2 * face->px_per_unit, cross_px);
	double lift = 0;

	draw_span_h(
		canvas, (struct draw_ends){x, edge_x, false, true}, y, 0, pen);
	draw_span_v(
		canvas, (struct draw_ends){y, edge_y, false, true}, x, 0, pen);
	type.anchor = is_left ? DRAW_START : DRAW_END;
	if (to_x * face->px_per_unit - radius <
		draw_words_width(length_words(canvas, chart, to_x), type) + 12)
		lift = radius; /* no room beside the dent: above it */
	draw_say(canvas, edge_x + (is_left ? 7 : -7), y - lift - 5, type,
		length_words(canvas, chart, to_x));
	draw_say(canvas, x + (is_left ? 7 : -7), edge_y + (is_low ? -8 : 17),
		type, length_words(canvas, chart, to_y));
}

static void
draw_dent(struct draw_canvas *canvas, const struct draw_dents *chart,
	const struct face *face, size_t i)
{
	const struct draw_dent *d = &chart->dent[i];
	double x = face->left + d->x * face->px_per_unit;
	double y = face->top + face->height - d->y * face->px_per_unit;
	double radius = fmax(d->diameter / 2 * face->px_per_unit, cross_px);
	struct draw_pen pen = {DRAW_INK_PAPER, DRAW_INK_SERIES + 1, 2, NULL};
	struct draw_type type = {draw_small, DRAW_START, DRAW_INK_TEXT, true};

	draw_group(canvas);
	draw_tip(canvas, d->label);
	if (d->went_through) {
		draw_tip(canvas, "; ");
		draw_tip(canvas,
			draw_word(canvas, chart->through_word,
				N_("went through")));
	}
	draw_tip_end(canvas);
	if (d->diameter > 0)
		draw_circle(canvas, x, y, radius, pen);
	if (d->went_through || d->diameter <= 0)
		draw_mark(canvas, DRAW_SHAPE_CROSS, x, y, radius * .85,
			DRAW_INK_SERIES + 1, false);
	draw_say(canvas, x + radius + 3, y + radius + 9, type,
		draw_figure(canvas, (double)(i + 1), 0));
	draw_group_end(canvas);
}

static void
draw_notes(struct draw_canvas *canvas, const struct draw_dents *chart)
{
	for (size_t i = 0; i < chart->n_dent; i++) {
		const struct draw_dent *d = &chart->dent[i];
		const char *words = text_format(canvas->body.arena,
			"%zu  %s%s%s", i + 1, draw_or(d->label, ""),
			d->went_through ? "; " : "",
			d->went_through ? draw_word(canvas, chart->through_word,
						  N_("went through"))
					: "");

		if (words == NULL) {
			canvas->body.failed = true;
			return;
		}
		canvas->y += 17 *
			(double)draw_say_wrapped(canvas, draw_margin,
				canvas->y + draw_small, small_type,
				canvas->width - 2 * draw_margin, 3, words);
	}
}

enum err_code
draw_dents(const struct draw_dents *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	struct face face;
	const char *says;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	says = text_format(canvas.body.arena,
		"The face of a test piece from above. Dents: %zu.",
		chart->n_dent);
	face = lay(&canvas, chart);
	draw_face(&canvas, chart, &face);
	for (size_t i = 0; i < chart->n_dent; i++)
		draw_dent(&canvas, chart, &face, i);
	for (size_t i = 0; i < chart->n_dent; i++)
		if (chart->dent[i].has_distance)
			draw_distances(&canvas, chart, &face, &chart->dent[i]);
	draw_notes(&canvas, chart);
	return draw_close(&canvas, says, err);
}

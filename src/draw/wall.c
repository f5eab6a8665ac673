/* wall.c - the layers of a wall with the temperature through them. */
#include "draw/wall.h"

#include "draw/frame.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>

enum { LAYERS_MAX = 32 };

static const double thin_most_px = 4;
static const struct draw_axis any_axis = {0};
static const struct draw_type small_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, false};

static enum draw_hatch
hatch_of(enum draw_material material)
{
	switch (material) {
	case DRAW_FOAMED:
		return DRAW_HATCH_BUBBLES;
	case DRAW_PLASTER:
		return DRAW_HATCH_DOTS;
	case DRAW_MASONRY:
		return DRAW_HATCH_SLANT;
	case DRAW_WOOD:
		return DRAW_HATCH_GRAIN;
	case DRAW_AIR:
		return DRAW_HATCH_NONE;
	case DRAW_OTHER:
		break;
	}
	return DRAW_HATCH_CROSS;
}

static enum err_code
check(const struct draw_wall *chart, struct err *err)
{
	if (chart->n_layer > LAYERS_MAX)
		return err_report(err, ERR_INPUT, "n_layer",
			"A wall of %zu layers cannot be drawn; up to %d can.",
			chart->n_layer, (int)LAYERS_MAX);
	for (size_t i = 0; i < chart->n_layer; i++) {
		TRY(draw_check_value(&any_axis, chart->layer[i].thickness,
			"layer", i, "thickness", err));
		if (chart->layer[i].thickness <= 0)
			return err_report(err, ERR_INPUT, "thickness",
				"Layer %zu is %g thick; a thickness is above "
				"0.",
				i, chart->layer[i].thickness);
	}
	if (!chart->has_temperature)
		return ERR_NONE;
	TRY(draw_check_value(
		&any_axis, chart->inside_air, "inside_air", 0, "", err));
	TRY(draw_check_value(
		&any_axis, chart->outside_air, "outside_air", 0, "", err));
	for (size_t i = 0; i <= chart->n_layer && chart->n_layer > 0; i++)
		TRY(draw_check_value(
			&any_axis, chart->face[i], "face", i, "", err));
	return chart->has_dew_point
		? draw_check_value(
			  &any_axis, chart->dew_point, "dew_point", 0, "", err)
		: ERR_NONE;
}

/* Where each face lies.  Thin layers get thin_px, the others share the rest by
 * thickness. */
static void
lay_faces(const struct draw_wall *chart, double left, double right,
	double x[LAYERS_MAX + 1])
{
	bool is_thin[LAYERS_MAX] = {false};
	double rest_px = 0, rest = 0;
	double thin_px = fmin(
		thin_most_px, (right - left) / (2 * (double)chart->n_layer));

	for (size_t round = 0; round <= chart->n_layer; round++) {
		bool any = false;

		rest_px = right - left;
		rest = 0;
		for (size_t i = 0; i < chart->n_layer; i++) {
			rest_px -= is_thin[i] ? thin_px : 0;
			rest += is_thin[i] ? 0 : chart->layer[i].thickness;
		}
		for (size_t i = 0; i < chart->n_layer; i++)
			if (!is_thin[i] &&
				chart->layer[i].thickness * rest_px <
					thin_px * rest) {
				is_thin[i] = true;
				any = true;
			}
		if (!any)
			break;
	}
	x[0] = left;
	for (size_t i = 0; i < chart->n_layer; i++)
		x[i + 1] = x[i] +
			(is_thin[i] ? thin_px
				    : chart->layer[i].thickness * rest_px /
						rest);
}

static struct draw_span
find_span(const struct draw_wall *chart)
{
	struct draw_span span = {0};

	if (!chart->has_temperature)
		return span;
	draw_span_add(&span, chart->inside_air);
	draw_span_add(&span, chart->outside_air);
	for (size_t i = 0; i <= chart->n_layer; i++)
		draw_span_add(&span, chart->face[i]);
	if (chart->has_dew_point)
		draw_span_add(&span, chart->dew_point);
	return span;
}

static const char *
layer_words(struct draw_canvas *canvas, const struct draw_wall *chart, size_t i)
{
	const struct draw_layer *layer = &chart->layer[i];
	double thickness = layer->thickness;
	const char *words;

	if (layer->thickness_text != NULL)
		words = text_format(canvas->body.arena, "%zu  %s, %s", i + 1,
			draw_or(layer->label, ""), layer->thickness_text);
	else
		words = text_format(canvas->body.arena, "%zu  %s, %s %s", i + 1,
			draw_or(layer->label, ""),
			draw_short(canvas, thickness, 3),
			draw_or(chart->thickness_unit, ""));
	if (words == NULL)
		canvas->body.failed = true;
	return draw_or(words, "");
}

static void
draw_layers(struct draw_canvas *canvas, const struct draw_wall *chart,
	const struct draw_frame *frame, const double *x)
{
	struct draw_pen edge = {DRAW_INK_NONE, DRAW_INK_TEXT, 1, NULL};
	struct draw_pen shade = {DRAW_INK_PAPER, DRAW_INK_NONE, 0, NULL};
	struct draw_type number = {
		draw_small, DRAW_MIDDLE, DRAW_INK_TEXT, true};
	double height = frame->bottom - frame->top, free_from[2] = {0, 0};

	for (size_t i = 0; i < chart->n_layer; i++) {
		const char *words = draw_figure(canvas, (double)(i + 1), 0);
		double middle = (x[i] + x[i + 1]) / 2;
		double half = draw_words_width(words, number) / 2 + 2;
		size_t level = middle - half < free_from[0] ? 1 : 0;

		draw_group(canvas);
		draw_tip(canvas, layer_words(canvas, chart, i));
		draw_tip_end(canvas);
		draw_box(canvas, x[i], frame->top, x[i + 1] - x[i], height,
			shade);
		draw_hatched(canvas, x[i], frame->top, x[i + 1] - x[i], height,
			hatch_of(chart->layer[i].material));
		draw_box(canvas, x[i], frame->top, x[i + 1] - x[i], height,
			edge);
		if (middle - half >= free_from[level]) {
			draw_say(canvas, middle,
				frame->top - 6 - 14 * (double)level, number,
				words);
			free_from[level] = middle + half;
		}
		draw_group_end(canvas);
	}
}

static const char *
temperature_words(
	struct draw_canvas *canvas, const struct draw_wall *chart, double value)
{
	const char *words = text_format(canvas->body.arena, "%s %s",
		draw_figure(canvas, value, 1),
		draw_or(chart->temperature_unit,
			"\xC2\xB0"
			"C"));

	if (words == NULL)
		canvas->body.failed = true;
	return draw_or(words, "");
}

static void
draw_face(struct draw_canvas *canvas, const struct draw_wall *chart,
	const struct draw_frame *frame, double x, double value)
{
	draw_group(canvas);
	draw_tip(canvas, temperature_words(canvas, chart, value));
	draw_tip_end(canvas);
	draw_mark(canvas, DRAW_SHAPE_CIRCLE, x, draw_px(&frame->y, value), 3.5,
		DRAW_INK_SERIES + 1, false);
	draw_group_end(canvas);
}

/* A line of one colour over hatching, with the paper about it. */
static void
draw_temperature(struct draw_canvas *canvas, const struct draw_wall *chart,
	const struct draw_frame *frame, const double *x)
{
	struct draw_pen line[2] = {{DRAW_INK_NONE, DRAW_INK_PAPER, 6, NULL},
		{DRAW_INK_NONE, DRAW_INK_SERIES + 1, 3, NULL}};
	double inside = draw_px(&frame->y, chart->inside_air);
	double outside = draw_px(&frame->y, chart->outside_air);

	for (size_t k = 0; k < 2; k++) {
		draw_path_begin(canvas, line[k]);
		draw_path_to(canvas, frame->left, inside);
		draw_path_to(canvas, x[0] - 16, inside);
		for (size_t i = 0; i <= chart->n_layer; i++)
			draw_path_to(canvas, x[i],
				draw_px(&frame->y, chart->face[i]));
		draw_path_to(canvas, x[chart->n_layer] + 16, outside);
		draw_path_to(canvas, frame->right, outside);
		draw_path_end(canvas, false);
	}
	for (size_t i = 0; i <= chart->n_layer; i++)
		draw_face(canvas, chart, frame, x[i], chart->face[i]);
}

/* The dew point, and where the temperature falls through it. */
static void
draw_dew(struct draw_canvas *canvas, const struct draw_wall *chart,
	const struct draw_frame *frame, const double *x)
{
	struct draw_pen pen = {DRAW_INK_NONE, DRAW_INK_SERIES, 2, "6 4"};
	double y = draw_px(&frame->y, chart->dew_point);

	draw_line_at(canvas, frame->left, y, frame->right, y, pen);
	for (size_t i = 0; i < chart->n_layer; i++) {
		double a = chart->face[i] - chart->dew_point;
		double b = chart->face[i + 1] - chart->dew_point;

		if (a < 0 || b >= 0)
			continue;
		draw_group(canvas);
		draw_tip(canvas, layer_words(canvas, chart, i));
		draw_tip(canvas, "; ");
		draw_tip(canvas,
			temperature_words(canvas, chart, chart->dew_point));
		draw_tip_end(canvas);
		draw_mark(canvas, DRAW_SHAPE_DOWN,
			x[i] + (x[i + 1] - x[i]) * a / (a - b), y - 11, 7,
			DRAW_INK_SERIES, false);
		draw_group_end(canvas);
		return;
	}
}

/* Inside and outside with their temperatures, above the ends. */
static void
draw_sides(struct draw_canvas *canvas, const struct draw_wall *chart,
	const struct draw_frame *frame)
{
	struct draw_type type = {draw_small, DRAW_START, DRAW_INK_TEXT, true};
	double y = frame->bottom + 16;

	draw_say(canvas, frame->left, y, type,
		draw_word(canvas, chart->inside_word, N_("inside")));
	if (chart->has_temperature)
		draw_say(canvas, frame->left, y + 15, small_type,
			temperature_words(canvas, chart, chart->inside_air));
	type.anchor = DRAW_END;
	draw_say(canvas, frame->right, y, type,
		draw_word(canvas, chart->outside_word, N_("outside")));
	type.is_bold = false;
	if (chart->has_temperature)
		draw_say(canvas, frame->right, y + 15, type,
			temperature_words(canvas, chart, chart->outside_air));
}

static void
draw_notes(struct draw_canvas *canvas, const struct draw_wall *chart)
{
	if (chart->has_temperature && chart->has_dew_point) {
		struct draw_key_item item = {.kind = DRAW_KEY_LINE,
			.words = text_format(canvas->body.arena, "%s %s",
				draw_word(canvas, chart->dew_word,
					N_("dew point of the air inside:")),
				temperature_words(
					canvas, chart, chart->dew_point)),
			.ink = DRAW_INK_SERIES,
			.dash = "6 4"};

		draw_key(canvas, &item, 1);
		canvas->y += 4;
	}
	for (size_t i = 0; i < chart->n_layer; i++)
		canvas->y += 17 *
			(double)draw_say_wrapped(canvas, draw_margin,
				canvas->y + draw_small, small_type,
				canvas->width - 2 * draw_margin, 3,
				layer_words(canvas, chart, i));
}

static void
draw_all(struct draw_canvas *canvas, const struct draw_wall *chart)
{
	struct draw_axis none = {0}, temperature = {0};
	double x[LAYERS_MAX + 1], air_px;
	struct draw_frame frame;

	temperature.unit = chart->has_temperature
		? draw_or(chart->temperature_unit,
			  "\xC2\xB0"
			  "C")
		: "";
	canvas->y += 16; /* room for numbers in two levels */
	frame = draw_frame_lay(canvas, &none, (struct draw_span){0},
		&temperature, find_span(chart));
	air_px = draw_is_narrow(canvas) ? 32 : 56;
	lay_faces(chart, frame.left + air_px, frame.right - air_px, x);
	if (chart->has_temperature)
		draw_frame_y(canvas, &frame, &temperature);
	draw_layers(canvas, chart, &frame, x);
	if (chart->has_temperature) {
		draw_temperature(canvas, chart, &frame, x);
		if (chart->has_dew_point)
			draw_dew(canvas, chart, &frame, x);
	}
	draw_sides(canvas, chart, &frame);
	draw_notes(canvas, chart);
}

enum err_code
draw_wall(const struct draw_wall *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	const char *says;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	says = text_format(canvas.body.arena,
		"A wall cut across, inside on the left. Layers: %zu.",
		chart->n_layer);
	if (chart->n_layer == 0)
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("This wall has no layers.")));
	else
		draw_all(&canvas, chart);
	return draw_close(&canvas, says, err);
}

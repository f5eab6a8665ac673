/* control.c - values from batch to batch with their usual range and alarms. */
#include "draw/control.h"

#include "draw/frame.h"

#include "core/arena.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char to[] = " \xE2\x80\x93 ";

enum { ALARMS_LISTED = 12 };

/* An alarm: points in a row that broke the same rule.  begins_alarm: point i is
 * the first of one. */
static bool
begins_alarm(const struct draw_control *chart, size_t i)
{
	const struct draw_control_point *p = &chart->point[i];

	return p->rule != NULL &&
		(i == 0 || p[-1].rule == NULL ||
			strcmp(p[-1].rule, p->rule) != 0);
}

/* The last point of the alarm that point i begins. */
static size_t
alarm_end(const struct draw_control *chart, size_t i)
{
	while (i + 1 < chart->n_point && chart->point[i + 1].rule != NULL &&
		!begins_alarm(chart, i + 1))
		i++;
	return i;
}

static const struct draw_type note_type = {
	draw_small, DRAW_START, DRAW_INK_TEXT, false};

static enum err_code
check_places(const struct draw_control *chart, struct err *err)
{
	for (size_t i = 0; i < chart->n_lot; i++)
		if (chart->lot[i].before > chart->n_point)
			return err_report(err, ERR_INPUT, "lot",
				"Lot %zu begins before point %zu, but there "
				"are %zu points.",
				i, chart->lot[i].before, chart->n_point);
	if (chart->has_drift && chart->drift_since >= chart->n_point)
		return err_report(err, ERR_INPUT, "drift_since",
			"The drift begins at point %zu, but there are %zu "
			"points, counted from 0.",
			chart->drift_since, chart->n_point);
	return ERR_NONE;
}

static enum err_code
check(const struct draw_control *chart, struct err *err)
{
	static const struct draw_axis days = {0};
	struct draw_estimate usual = {chart->centre, chart->low, chart->high};

	TRY(draw_check_axis(&chart->y, "y", err));
	for (size_t i = 0; i < chart->n_point; i++) {
		const struct draw_control_point *p = &chart->point[i];

		TRY(draw_check_value(
			&chart->y, p->value, "point", i, "value", err));
		if (!chart->by_time)
			continue;
		TRY(draw_check_value(&days, p->at, "point", i, "at", err));
		if (i > 0 && p->at < p[-1].at)
			return err_report(err, ERR_INPUT, "point",
				"Point %zu is at %g, before the one before it "
				"at %g.",
				i, p->at, p[-1].at);
	}
	if (chart->has_range)
		TRY(draw_check_estimate(&chart->y, &usual, "range", 0, err));
	if (chart->has_wanted_range &&
		!(chart->wanted_low <= chart->wanted_high))
		return err_report(err, ERR_INPUT, "wanted_low",
			"What is asked for is from %g to %g, which is no "
			"range.",
			chart->wanted_low, chart->wanted_high);
	return check_places(chart, err);
}

/* Where point i lies along the scale of x. */
static double
place_of(const struct draw_control *chart, size_t i)
{
	return chart->by_time ? chart->point[i].at : (double)i;
}

/* Between point i - 1 and point i. */
static double
before_px(const struct draw_control *chart, const struct draw_frame *frame,
	size_t i)
{
	double at, half = 0.5;

	if (i > 0 && i < chart->n_point)
		at = (place_of(chart, i - 1) + place_of(chart, i)) / 2;
	else if (i == 0)
		at = place_of(chart, 0) - half;
	else
		at = place_of(chart, i - 1) + half;
	return draw_px(&frame->x, at);
}

static struct draw_axis
x_axis(const struct draw_canvas *canvas, const struct draw_control *chart)
{
	struct draw_axis axis = {
		.name = draw_word(canvas, chart->x_name,
			chart->by_time ? N_("day") : N_("batch")),
		.unit = ""};
	double last = place_of(chart, chart->n_point - 1);

	axis.has_range = true;
	axis.low = place_of(chart, 0) - 0.6;
	axis.high = last + 0.6;
	return axis;
}

static struct draw_frame
lay(struct draw_canvas *canvas, const struct draw_control *chart)
{
	struct draw_axis x = x_axis(canvas, chart);
	struct draw_span none = {0}, y = {0};

	for (size_t i = 0; i < chart->n_point; i++)
		draw_span_add(&y, chart->point[i].value);
	if (chart->has_range) {
		draw_span_add(&y, chart->low);
		draw_span_add(&y, chart->high);
	}
	if (chart->has_wanted_range && fabs(chart->wanted_low) < 1e15)
		draw_span_add(&y, chart->wanted_low);
	if (chart->has_wanted_range && fabs(chart->wanted_high) < 1e15)
		draw_span_add(&y, chart->wanted_high);
	if (!chart->y.is_log && y.high > y.low) { /* no line at the very edge */
		double air = (y.high - y.low) / 50;

		y.low -= air;
		y.high += air;
	}
	return draw_frame_lay(canvas, &x, none, &chart->y, y);
}

static void
draw_areas(struct draw_canvas *canvas, const struct draw_control *chart,
	const struct draw_frame *frame)
{
	struct draw_pen shade = {DRAW_INK_SHADE, DRAW_INK_NONE, 0, NULL};
	struct draw_pen drift = {DRAW_INK_WARN_SHADE, DRAW_INK_NONE, 0, NULL};
	double width = frame->right - frame->left;

	if (chart->has_drift) {
		double x = before_px(chart, frame, chart->drift_since);

		draw_box(canvas, x, frame->top, frame->right - x,
			frame->bottom - frame->top, drift);
	}
	if (chart->has_range) {
		double top = draw_px(&frame->y, chart->high);

		draw_box(canvas, frame->left, top, width,
			draw_px(&frame->y, chart->low) - top, shade);
	}
}

static void
draw_level(struct draw_canvas *canvas, const struct draw_frame *frame,
	double value, struct draw_pen pen)
{
	double y = draw_px(&frame->y, value);

	if (draw_is_inside(&frame->y, value))
		draw_line_at(canvas, frame->left, y, frame->right, y, pen);
}

static void
draw_levels(struct draw_canvas *canvas, const struct draw_control *chart,
	const struct draw_frame *frame)
{
	struct draw_pen centre = {DRAW_INK_NONE, DRAW_INK_SERIES, 1.5, NULL};
	struct draw_pen limit = {DRAW_INK_NONE, DRAW_INK_SERIES, 1.5, "6 4"};
	struct draw_pen wanted = {DRAW_INK_NONE, DRAW_INK_SERIES + 2, 2, "2 3"};
	struct draw_pen drift = {DRAW_INK_NONE, DRAW_INK_WARN, 2, NULL};

	if (chart->has_range) {
		draw_level(canvas, frame, chart->centre, centre);
		draw_level(canvas, frame, chart->low, limit);
		draw_level(canvas, frame, chart->high, limit);
	}
	if (chart->has_wanted_range) {
		draw_level(canvas, frame, chart->wanted_low, wanted);
		draw_level(canvas, frame, chart->wanted_high, wanted);
	}
	if (chart->has_drift) {
		double x = before_px(chart, frame, chart->drift_since);

		draw_line_at(canvas, x, frame->top, x, frame->bottom, drift);
	}
}

static void
draw_lots(struct draw_canvas *canvas, const struct draw_control *chart,
	const struct draw_frame *frame)
{
	struct draw_pen pen = {DRAW_INK_NONE, DRAW_INK_SOFT, 1.5, "1 3"};
	struct draw_type type = {draw_small, DRAW_START, DRAW_INK_TEXT, true};

	for (size_t i = 0; i < chart->n_lot; i++) {
		double x = before_px(chart, frame, chart->lot[i].before);
		char name[2] = {(char)('a' + i % 26), '\0'};

		draw_group(canvas);
		draw_tip(canvas, chart->lot[i].label);
		draw_tip_end(canvas);
		draw_line_at(canvas, x, frame->top, x, frame->bottom, pen);
		draw_say(canvas, x + 3, frame->top + 11, type, name);
		draw_group_end(canvas);
	}
}

/* The number of an alarm stands on the side of the point away from the
 * centre. */
static void
draw_alarm(struct draw_canvas *canvas, const struct draw_frame *frame, double x,
	double y, bool is_above, size_t number)
{
	struct draw_type type = {draw_small, DRAW_MIDDLE, DRAW_INK_WARN, true};
	struct draw_pen ring = {DRAW_INK_NONE, DRAW_INK_WARN, 2, NULL};

	draw_circle(canvas, x, y, 8, ring);
	if (number == 0 || number > ALARMS_LISTED)
		return;
	if (is_above && y - 12 < frame->top + 8)
		is_above = false;
	if (!is_above && y + 21 > frame->bottom)
		is_above = true;
	draw_say(canvas, x, is_above ? y - 12 : y + 21, type,
		draw_figure(canvas, (double)number, 0));
}

static void
draw_point(struct draw_canvas *canvas, const struct draw_control *chart,
	const struct draw_frame *frame, size_t i, size_t number)
{
	const struct draw_control_point *p = &chart->point[i];
	double x = draw_px(&frame->x, place_of(chart, i));
	double y = draw_px(&frame->y, p->value);
	bool is_alarm = p->rule != NULL;

	draw_group(canvas);
	draw_tip(canvas, p->label);
	draw_tip(canvas, ": ");
	draw_tip_reading(canvas, p->value, p->value, chart->y.unit);
	if (is_alarm) {
		draw_tip(canvas, "; ");
		draw_tip(canvas, p->rule);
	}
	draw_tip_end(canvas);
	draw_mark(canvas, is_alarm ? DRAW_SHAPE_SQUARE : DRAW_SHAPE_CIRCLE, x,
		y, chart->n_point > 100 ? 2.5 : 3.5,
		p->is_left_out     ? DRAW_INK_SOFT
			: is_alarm ? DRAW_INK_WARN
				   : DRAW_INK_TEXT,
		p->is_left_out);
	if (is_alarm)
		draw_alarm(canvas, frame, x, y,
			!chart->has_range || p->value >= chart->centre, number);
	draw_group_end(canvas);
}

static void
draw_points(struct draw_canvas *canvas, const struct draw_control *chart,
	const struct draw_frame *frame)
{
	struct draw_pen line = {DRAW_INK_NONE, DRAW_INK_SOFT, 1, NULL};
	size_t number = 0;

	draw_path_begin(canvas, line);
	for (size_t i = 0; i < chart->n_point; i++)
		draw_path_to(canvas, draw_px(&frame->x, place_of(chart, i)),
			draw_px(&frame->y, chart->point[i].value));
	draw_path_end(canvas, false);
	for (size_t i = 0; i < chart->n_point; i++) {
		bool is_first = begins_alarm(chart, i);

		number += is_first;
		draw_point(canvas, chart, frame, i, is_first ? number : 0);
	}
}

/* Labels of every so many points, so that none touch. */
static void
draw_x(struct draw_canvas *canvas, const struct draw_control *chart,
	const struct draw_frame *frame)
{
	struct draw_axis axis = x_axis(canvas, chart);
	struct draw_type type = {draw_small, DRAW_MIDDLE, DRAW_INK_SOFT, false};
	struct draw_pen edge = {DRAW_INK_NONE, DRAW_INK_SOFT, 1, NULL};
	double free_from = 0;

	if (chart->by_time) {
		draw_frame_x(canvas, frame, &axis);
		return;
	}
	draw_line_at(canvas, frame->left, frame->bottom, frame->right,
		frame->bottom, edge);
	for (size_t i = 0; i < chart->n_point; i++) {
		const char *label = chart->point[i].label;
		double x = draw_px(&frame->x, (double)i);
		double half = draw_words_width(label, type) / 2;

		if (x - half < free_from || x + half > canvas->width - 2)
			continue;
		draw_say(canvas, x, frame->bottom + 15, type, label);
		free_from = x + half + 8;
	}
	draw_frame_x_name(canvas, frame, &axis);
}

/* "usual range: 581 - 619"; one figure where the ends are equal, a sign where
 * one is open.  Figures are kept to a hundredth of the range. */
static const char *
range_words(struct draw_canvas *canvas, const char *words, double low,
	double high, double range, const char *unit)
{
	struct text text;
	bool has_low = isfinite(low), has_high = isfinite(high) && high > low;
	int n_decimal = range > 0 ? draw_decimals_of(range, 2)
				  : draw_decimals_of(has_low ? low : high, 3);

	text_init(&text, canvas->body.arena);
	text_add(&text, words);
	text_add(&text, ": ");
	if (isinf(low) || isinf(high))
		text_add(&text, has_low ? "\xE2\x89\xA5 " : "\xE2\x89\xA4 ");
	if (has_low)
		draw_add_fixed(
			&text, low, n_decimal, canvas->size.decimal_mark);
	if (has_low && has_high)
		text_add(&text, " \xE2\x80\x93 ");
	if (has_high)
		draw_add_fixed(
			&text, high, n_decimal, canvas->size.decimal_mark);
	text_add(&text, " ");
	text_add(&text, draw_or(unit, ""));
	if (text_failed(&text)) {
		canvas->body.failed = true;
		return "";
	}
	return text.bytes;
}

static const char *
drift_words(struct draw_canvas *canvas, const struct draw_control *chart)
{
	const char *words = text_format(canvas->body.arena, "%s %s",
		draw_word(canvas, chart->drift_word, N_("drift since")),
		draw_or(chart->point[chart->drift_since].label, ""));

	if (words == NULL)
		canvas->body.failed = true;
	return draw_or(words, "");
}

static size_t
range_items(struct draw_canvas *canvas, const struct draw_control *chart,
	struct draw_key_item *item)
{
	double range = (chart->high - chart->low) / 2;
	size_t n = 0;

	if (chart->has_range) {
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_LINE,
			.words = range_words(canvas,
				draw_word(canvas, chart->centre_word,
					N_("usual middle")),
				chart->centre, chart->centre, range,
				chart->y.unit),
			.ink = DRAW_INK_SERIES};
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_LINE,
			.words = range_words(canvas,
				draw_word(canvas, chart->usual_word,
					N_("usual range")),
				chart->low, chart->high, range, chart->y.unit),
			.ink = DRAW_INK_SERIES,
			.dash = "6 4"};
	}
	if (chart->has_wanted_range &&
		(isfinite(chart->wanted_low) || isfinite(chart->wanted_high)))
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_LINE,
			.words = range_words(canvas,
				draw_word(canvas, chart->wanted_word,
					N_("asked for")),
				chart->wanted_low, chart->wanted_high,
				(chart->wanted_high - chart->wanted_low) / 2,
				chart->y.unit),
			.ink = DRAW_INK_SERIES + 2,
			.dash = "2 3"};
	return n;
}

static void
draw_control_key(struct draw_canvas *canvas, const struct draw_control *chart,
	size_t n_alarm, bool any_out)
{
	struct draw_key_item item[6];
	size_t n = range_items(canvas, chart, item);

	if (n_alarm > 0)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_RING,
			.words = draw_word(canvas, chart->outside_word,
				N_("outside the usual range")),
			.ink = DRAW_INK_WARN};
	if (any_out)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_MARK,
			.words = draw_word(canvas, chart->left_out_word,
				N_("left out by a rule")),
			.ink = DRAW_INK_SOFT,
			.is_hollow = true};
	if (chart->has_drift)
		item[n++] = (struct draw_key_item){.kind = DRAW_KEY_BAND,
			.words = drift_words(canvas, chart),
			.ink = DRAW_INK_WARN_SHADE};
	draw_key(canvas, item, n);
}

static void
say_note(struct draw_canvas *canvas, const char *mark, const char *label,
	const char *words)
{
	const char *line;

	line = label != NULL ? text_format(canvas->body.arena, "%s  %s: %s",
				       mark, label, draw_or(words, ""))
			     : text_format(canvas->body.arena, "%s  %s", mark,
				       draw_or(words, ""));
	if (line == NULL) {
		canvas->body.failed = true;
		return;
	}
	canvas->y += 17 *
		(double)draw_say_wrapped(canvas, draw_margin,
			canvas->y + draw_small, note_type,
			canvas->width - 2 * draw_margin, 3, line);
}

/* "B037" or "B037 - B040" */
static const char *
alarm_label(
	struct draw_canvas *canvas, const struct draw_control *chart, size_t i)
{
	size_t end = alarm_end(chart, i);
	const char *first = draw_or(chart->point[i].label, "");
	const char *words = first;

	if (end > i)
		words = text_format(canvas->body.arena, "%s%s%s", first, to,
			draw_or(chart->point[end].label, ""));
	if (words == NULL)
		canvas->body.failed = true;
	return draw_or(words, "");
}

/* Below the key: what each number and letter stands for. */
static void
draw_notes(struct draw_canvas *canvas, const struct draw_control *chart)
{
	size_t number = 0;

	canvas->y += 8;
	if (chart->n_base > 0 && chart->n_base <= chart->n_point &&
		chart->has_range)
		say_note(canvas,
			draw_word(canvas, chart->base_word,
				N_("usual range taken from")),
			NULL,
			text_format(canvas->body.arena, "%s%s%s",
				draw_or(chart->point[0].label, "1"), to,
				draw_or(chart->point[chart->n_base - 1].label,
					"")));
	for (size_t i = 0; i < chart->n_point && number < ALARMS_LISTED; i++)
		if (begins_alarm(chart, i))
			say_note(canvas,
				draw_figure(canvas, (double)++number, 0),
				alarm_label(canvas, chart, i),
				chart->point[i].rule);
	for (size_t i = 0; i < chart->n_lot; i++) {
		char name[2] = {(char)('a' + i % 26), '\0'};

		say_note(canvas, name, NULL, chart->lot[i].label);
	}
}

enum err_code
draw_control(const struct draw_control *chart, const struct draw_size *size,
	struct text *svg, struct err *err)
{
	struct draw_canvas canvas;
	struct draw_frame frame;
	const char *says;
	size_t n_alarm = 0;
	bool any_out = false;

	TRY(check(chart, err));
	TRY(draw_open(&canvas, &chart->about, size, svg, err));
	for (size_t i = 0; i < chart->n_point; i++) {
		n_alarm += chart->point[i].rule != NULL;
		any_out = any_out || chart->point[i].is_left_out;
	}
	says = text_format(canvas.body.arena,
		"Values in the order they were made: %zu; marked: %zu; new "
		"lots: %zu.",
		chart->n_point, n_alarm, chart->n_lot);
	if (chart->n_point == 0) {
		draw_empty(&canvas,
			draw_word(&canvas, chart->empty_word,
				N_("No batch yet.")));
		return draw_close(&canvas, says, err);
	}
	frame = lay(&canvas, chart);
	draw_areas(&canvas, chart, &frame);
	draw_frame_y(&canvas, &frame, &chart->y);
	draw_x(&canvas, chart, &frame);
	draw_levels(&canvas, chart, &frame);
	draw_lots(&canvas, chart, &frame);
	draw_points(&canvas, chart, &frame);
	draw_control_key(&canvas, chart, n_alarm, any_out);
	draw_notes(&canvas, chart);
	return draw_close(&canvas, says, err);
}

/* scale.h - from a value to a place in the picture, and where the ticks stand.
 *
 * Private to draw.  Linear ticks step by 1, 2 or 5 times a power of ten;
 * logarithmic ones stand at 1, 2, 5 (or only 1) of each decade, and where less
 * than a decade is shown, at 1, 1.5, 2, 3, 5 and 7; within a factor of 1.8 they
 * step as linear ones. */
#ifndef DRAW_SCALE_H
#define DRAW_SCALE_H

#include "draw/types.h"

enum { DRAW_TICKS_MAX = 32 };

struct draw_scale {
	bool is_log;
	double low, high;       /* low < high; of a log scale both > 0 */
	double low_px, high_px; /* where they lie; low_px > high_px upwards */
	double tick[DRAW_TICKS_MAX];
	int n_decimal[DRAW_TICKS_MAX]; /* of each tick's label */
	size_t n_tick;
};

/* The span of what is to be shown; draw_span_add takes in one finite value. */
struct draw_span {
	bool any;
	double low, high;
};
void draw_span_add(struct draw_span *span, double value);

/* draw_check_value(axis, value, field, i, part, err): the value can be shown:
 * |value| <= 1e15, and on a logarithmic scale >= 1e-15.
 * ERR_INPUT with the field "field[i].part". */
enum err_code draw_check_value(const struct draw_axis *axis, double value,
	const char *field, size_t i, const char *part,
	struct err *err) MUST_CHECK;

/* draw_check_estimate: the same for all three, and low <= middle <= high. */
enum err_code draw_check_estimate(const struct draw_axis *axis,
	const struct draw_estimate *estimate, const char *field, size_t i,
	struct err *err) MUST_CHECK;

/* draw_check_axis(axis, field, err): a range that was given can be shown. */
enum err_code draw_check_axis(const struct draw_axis *axis, const char *field,
	struct err *err) MUST_CHECK;

/* draw_scale_fit(axis, span, n_tick): a scale that shows the span and begins
 * and ends at whole steps, with about n_tick ticks; an empty span: 0 to 1 (1 to
 * 10 of a log scale).  low_px and high_px are the caller's to set. */
struct draw_scale draw_scale_fit(
	const struct draw_axis *axis, struct draw_span span, size_t n_tick);

/* draw_px(scale, value): where the value lies; beyond the ends it stays at
 * them. */
double draw_px(const struct draw_scale *scale, double value);

/* draw_is_inside(scale, value): it lies on the scale, ends included. */
bool draw_is_inside(const struct draw_scale *scale, double value);

/* draw_is_open_below(low, high), draw_is_open_above(high): open ends, as
 * specimens.h says. */
bool draw_is_open_below(double low, double high);
bool draw_is_open_above(double high);

/* draw_check_reading(axis, low, high, field, i, err): ends in order, not both
 * open; finite ones can be shown. */
enum err_code draw_check_reading(const struct draw_axis *axis, double low,
	double high, const char *field, size_t i, struct err *err) MUST_CHECK;

/* draw_span_reading(span, low, high): takes in the ends that are not open. */
void draw_span_reading(struct draw_span *span, double low, double high);

#endif /* DRAW_SCALE_H */

/* scale.c - from a value to a place in the picture, and where ticks stand. */
#include "draw/scale.h"

#include "draw/number.h"

#include <math.h>
#include <stdio.h>

enum { DECADES_WITH_TWO_AND_FIVE = 3 };

/* Spans narrower than this share of their values are shown as one value. */
static const double least_relative_span = 1e-9;

void
draw_span_add(struct draw_span *span, double value)
{
	if (!span->any || value < span->low)
		span->low = value;
	if (!span->any || value > span->high)
		span->high = value;
	span->any = true;
}

static enum err_code
refuse(const char *field, size_t i, const char *part, double value,
	const char *wanted, struct err *err)
{
	char name[ERR_FIELD_MAX];

	snprintf(name, sizeof(name), "%s[%zu]%s%s", field, i,
		part[0] != '\0' ? "." : "", part);
	return err_report(err, ERR_INPUT, name,
		"%s is %g: a chart can only show %s.", name, value, wanted);
}

enum err_code
draw_check_value(const struct draw_axis *axis, double value, const char *field,
	size_t i, const char *part, struct err *err)
{
	if (!(fabs(value) <= draw_most))
		return refuse(field, i, part, value,
			"a number between -1e15 and 1e15", err);
	if (axis->is_log && !(value >= 1 / draw_most))
		return refuse(field, i, part, value,
			"a number above 0 (from 1e-15) on a logarithmic scale",
			err);
	return ERR_NONE;
}

enum err_code
draw_check_estimate(const struct draw_axis *axis,
	const struct draw_estimate *estimate, const char *field, size_t i,
	struct err *err)
{
	TRY(draw_check_value(axis, estimate->low, field, i, "low", err));
	TRY(draw_check_value(axis, estimate->middle, field, i, "middle", err));
	TRY(draw_check_value(axis, estimate->high, field, i, "high", err));
	if (estimate->low > estimate->middle)
		return refuse(field, i, "low", estimate->low,
			"a low end that is not above the middle", err);
	if (estimate->high < estimate->middle)
		return refuse(field, i, "high", estimate->high,
			"a high end that is not below the middle", err);
	return ERR_NONE;
}

enum err_code
draw_check_axis(
	const struct draw_axis *axis, const char *field, struct err *err)
{
	if (!axis->has_range)
		return ERR_NONE;
	TRY(draw_check_value(axis, axis->low, field, 0, "low", err));
	TRY(draw_check_value(axis, axis->high, field, 0, "high", err));
	if (!(axis->high - axis->low > least_relative_span * fabs(axis->high)))
		return refuse(field, 0, "high", axis->high,
			"a scale whose high end is above its low end", err);
	return ERR_NONE;
}

bool
draw_is_open_below(double low, double high)
{
	return low < high && (low == 0 || isinf(low));
}

bool
draw_is_open_above(double high)
{
	return isinf(high) && high > 0;
}

enum err_code
draw_check_reading(const struct draw_axis *axis, double low, double high,
	const char *field, size_t i, struct err *err)
{
	if (isnan(low) || low > draw_most)
		return refuse(field, i, "low", low, "a number", err);
	if (isnan(high) || high < -draw_most)
		return refuse(field, i, "high", high, "a number", err);
	if (low > high)
		return refuse(field, i, "low", low,
			"a low end that is not above the high end", err);
	if (draw_is_open_below(low, high) && draw_is_open_above(high))
		return refuse(field, i, "low", low,
			"a reading that says something at one end at least",
			err);
	if (!draw_is_open_below(low, high))
		TRY(draw_check_value(axis, low, field, i, "low", err));
	if (!draw_is_open_above(high))
		TRY(draw_check_value(axis, high, field, i, "high", err));
	return ERR_NONE;
}

void
draw_span_reading(struct draw_span *span, double low, double high)
{
	if (!draw_is_open_below(low, high))
		draw_span_add(span, low);
	if (!draw_is_open_above(high))
		draw_span_add(span, high);
}

/* 10 to a whole power, without the library's rounding. */
static double
ten_to(int power)
{
	double value = 1;

	for (int i = 0; i < (power < 0 ? -power : power); i++)
		value *= 10;
	return power < 0 ? 1 / value : value;
}

/* The step of 1, 2 or 5 times a power of ten that gives at most n steps. */
static double
nice_step(double span, size_t n)
{
	double raw = span / (double)n;
	double unit = ten_to((int)floor(log10(raw)));
	static const double step[] = {1, 2, 5, 10};

	for (size_t i = 0; i < 4; i++)
		if (step[i] * unit >= raw * 0.999999)
			return step[i] * unit;
	return 10 * unit;
}

static void
add_tick(struct draw_scale *scale, double value, int n_decimal)
{
	if (scale->n_tick == DRAW_TICKS_MAX)
		return;
	scale->tick[scale->n_tick] = value;
	scale->n_decimal[scale->n_tick] = n_decimal;
	scale->n_tick++;
}

static void
linear_ticks(struct draw_scale *scale, double step)
{
	double slack = step * 1e-6;
	double first = ceil((scale->low - slack) / step);

	for (double k = first; k * step <= scale->high + slack &&
		scale->n_tick < DRAW_TICKS_MAX;
		k++)
		add_tick(scale, k == 0 ? 0 : k * step, draw_decimals(step));
}

static void
log_ticks(struct draw_scale *scale, size_t n_wanted)
{
	double decades = log10(scale->high / scale->low);
	int every = 1 + (int)(decades / (double)(n_wanted + 2));
	int first = (int)floor(log10(scale->low) + 1e-9);
	int last = (int)ceil(log10(scale->high) - 1e-9);
	static const double within[] = {1, 2, 5};
	size_t n = decades <= DECADES_WITH_TWO_AND_FIVE ? 3 : 1;

	for (int power = first; power <= last; power += every)
		for (size_t i = 0; i < n; i++) {
			double value = within[i] * ten_to(power);

			if (draw_is_inside(scale, value))
				add_tick(scale, value, power < 0 ? -power : 0);
		}
}

/* Less than a decade: round figures about evenly far apart on it. */
static void
near_ticks(struct draw_scale *scale)
{
	static const double within[] = {1, 1.5, 2, 3, 5, 7};
	int first = (int)floor(log10(scale->low) + 1e-9);
	int last = (int)ceil(log10(scale->high) - 1e-9);

	for (int power = first; power <= last; power++)
		for (size_t i = 0; i < 6; i++) {
			double value = within[i] * ten_to(power);
			int n_decimal = (i == 1) - power;

			if (draw_is_inside(scale, value))
				add_tick(scale, value,
					n_decimal > 0 ? n_decimal : 0);
		}
}

/* A span with room: one value gets a tenth of itself (or 1) on both sides. */
static void
open_up(const struct draw_axis *axis, struct draw_span *span)
{
	double size;

	if (!span->any)
		*span = (struct draw_span){
			true, axis->is_log ? 1 : 0, axis->is_log ? 10 : 1};
	if (axis->from_zero && !axis->is_log) {
		draw_span_add(span, 0);
	}
	size = fmax(fabs(span->low), fabs(span->high));
	if (span->high - span->low > size * least_relative_span)
		return;
	if (size < 1 / draw_most)
		size = 10;
	span->high += size / 10;
	if (!(axis->from_zero && span->low == 0))
		span->low -= size / 10;
}

/* The ends moved out to whole steps. */
static void
round_out(struct draw_scale *scale, double step)
{
	scale->low = floor(scale->low / step + 1e-6) * step;
	scale->high = ceil(scale->high / step - 1e-6) * step;
}

static void
fit_log(struct draw_scale *scale, const struct draw_axis *axis, size_t n_tick)
{
	double ratio = scale->high / scale->low;
	double step;

	if (!axis->has_range) { /* a little air, since steps are coarse */
		double air = pow(ratio, 0.04);

		scale->low /= air;
		scale->high *= air;
	}
	if (ratio >= 10) {
		log_ticks(scale, n_tick);
		return;
	}
	if (ratio > 1.8) {
		near_ticks(scale);
		return;
	}
	step = nice_step(scale->high - scale->low, n_tick);
	linear_ticks(scale, step);
}

struct draw_scale
draw_scale_fit(
	const struct draw_axis *axis, struct draw_span span, size_t n_tick)
{
	struct draw_scale scale = {.is_log = axis->is_log};
	double step;

	if (axis->has_range)
		span = (struct draw_span){true, axis->low, axis->high};
	else
		open_up(axis, &span);
	scale.low = span.low;
	scale.high = span.high;
	if (axis->is_log) {
		fit_log(&scale, axis, n_tick);
		return scale;
	}
	step = nice_step(scale.high - scale.low, n_tick);
	if (!axis->has_range)
		round_out(&scale, step);
	linear_ticks(&scale, step);
	return scale;
}

double
draw_px(const struct draw_scale *scale, double value)
{
	double share;

	if (!(value > scale->low))
		return scale->low_px;
	if (value >= scale->high)
		return scale->high_px;
	share = scale->is_log
		? log(value / scale->low) / log(scale->high / scale->low)
		: (value - scale->low) / (scale->high - scale->low);
	return scale->low_px + share * (scale->high_px - scale->low_px);
}

bool
draw_is_inside(const struct draw_scale *scale, double value)
{
	double slack = 1e-9 * (scale->high - scale->low);

	if (scale->is_log)
		return value >= scale->low * (1 - 1e-9) &&
			value <= scale->high * (1 + 1e-9);
	return value >= scale->low - slack && value <= scale->high + slack;
}

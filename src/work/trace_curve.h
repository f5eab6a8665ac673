/* trace_curve.h - a trace of the book as a curve, in units that people read. */
#ifndef WORK_TRACE_CURVE_H
#define WORK_TRACE_CURVE_H

#include "work/trace.h"

struct work_curve_point {
	double x, mean, low, high; /* in x_unit and y_unit */
	bool begins; /* nothing is known between the last and it */
};

struct work_curve {
	const char *x_word, *y_word; /* in N_() */
	const char *x_unit, *y_unit;
	const char
		*since; /* the moment x counts from, UTC; "": without dates */
	const struct work_curve_point *point;
	size_t n_point;
	bool is_thinned;          /* points are means of several rows */
	struct maybe peak, crack; /* in y_unit; a crack only of a load */
};

/* work_trace_curve(desk, arena, trace, over_sag, out, err): value over time, or
 * load over sag.  A zero that was taken off is taken off here too.
 * ERR_INPUT  over_sag of a trace without one */
enum err_code work_trace_curve(const struct desk *desk, struct arena *arena,
	const struct book_trace *trace, bool over_sag, struct work_curve *out,
	struct err *err) MUST_CHECK;

/* work_curve_fewer(arena, curve, most, together, err): neighbours put together to
 * the mean, the lowest and the highest of so many (*together), until there are no
 * more than `most`, for a table that people read. */
enum err_code work_curve_fewer(struct arena *arena, struct work_curve *curve,
	size_t most, size_t *together, struct err *err) MUST_CHECK;

#endif /* WORK_TRACE_CURVE_H */

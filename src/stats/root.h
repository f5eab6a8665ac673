/* root.h - the root of a decreasing function.
 *
 * Pure. */
#ifndef STATS_ROOT_H
#define STATS_ROOT_H

#include "core/err.h"

/* The height of the function at x; it may fail. */
typedef enum err_code stats_height_at(
	const void *data, double x, double *height, struct err *err);

/* stats_root(height, data, low, high, x, err):
 * The x at which the decreasing function passes 0, by the secant kept inside an
 * enclosing interval; low < high is where to begin, moved apart if they do not
 * enclose it.  The last step is below 1e-9 of x, which leaves the root right to
 * the accuracy of the heights.
 * ERR_NUMERIC  no root found; the report says where it was looked for */
enum err_code stats_root(stats_height_at *height, const void *data, double low,
	double high, double *x, struct err *err) MUST_CHECK;

#endif /* STATS_ROOT_H */

/* trace_thin.h - a trace of any length as at most so many points, in constant
 * memory: for a picture, and for a temperature's history.
 *
 * Points are means over spans of equal time; when there is no room for another,
 * every two become one of twice the time.  The highest and lowest value of
 * each are kept.  Pure. */
#ifndef LAB_TRACE_THIN_H
#define LAB_TRACE_THIN_H

#include "core/err.h"
#include "lab/trace.h"

#include <stddef.h>

enum { LAB_THIN_MOST = 1024 };

struct lab_thin_point {
	double from_s, to_s; /* first and last row in it */
	double mean;         /* of its rows */
	double sag_m;        /* of its rows, mean */
	double low, high;
	size_t n;
};

struct lab_thin {
	struct lab_thin_point point[LAB_THIN_MOST];
	size_t n;
	double first_s, span_s; /* span 0: each row a point so far */
};

/* lab_thin_row: a sink; context a struct lab_thin, all zero. */
enum err_code lab_thin_row(void *context, const struct lab_trace_row *row,
	struct err *err) MUST_CHECK;

#endif /* LAB_TRACE_THIN_H */

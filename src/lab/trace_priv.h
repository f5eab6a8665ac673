/* trace_priv.h - between the files of the trace reader. */
#ifndef LAB_TRACE_PRIV_H
#define LAB_TRACE_PRIV_H

#include "lab/trace.h"

enum {
	LAB_TRACE_HEAD = 1 << 16, /* looked at to find the format */
	LAB_TRACE_LINE = 4096     /* longest line */
};

/* A piece of a line. */
struct trace_field {
	const char *at;
	size_t n;
};

/* trace_fields(line, n, separator, field): the fields of a line, quotes and
 * spaces around them taken off; their number, at most LAB_TRACE_COLUMNS.  One
 * more than that if there are more. */
size_t trace_fields(
	const char *line, size_t n, char separator, struct trace_field *field);

enum trace_number { TRACE_NUMBER, TRACE_MISSING, TRACE_NO_NUMBER };

/* trace_number(field, decimal_comma, value): exact as strtod.  Missing: empty,
 * "-", "--", "---", "NaN", "OL". */
enum trace_number trace_number(
	struct trace_field field, bool decimal_comma, double *value);

/* trace_clock(field, s): "08:15", "08:15:30", "08:15:30.25" as seconds of the
 * day.  trace_stamp(field, order, s): a date, or a date and a clock, as seconds
 * since 1970, UTC.  False: it is none (or its order is not known). */
bool trace_clock(struct trace_field field, double *s);
bool trace_stamp(
	struct trace_field field, enum lab_date_order order, double *s);

/* trace_is_slashed(field): a date whose order cannot be known. */
bool trace_is_slashed(struct trace_field field);

/* trace_find_format(ask, head, n, whole, found, err): from the first bytes; whole:
 * there are no more. */
enum err_code trace_find_format(const struct lab_trace_ask *ask,
	const char *head, size_t n, bool whole, struct lab_trace_found *found,
	struct err *err) MUST_CHECK;

#endif /* LAB_TRACE_PRIV_H */

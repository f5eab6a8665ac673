/* trace.h - the file of a logger: a load cell, an accelerometer or a thermometer
 * written as CSV, read as it comes, in constant memory.
 *
 * The separator (tab, semicolon or comma), the decimal sign, the heading and the
 * units in it are found in the first 64 KiB, or said.  Rows go to a sink one by
 * one.  Pure.  docs/methods/traces.md. */
#ifndef LAB_TRACE_H
#define LAB_TRACE_H

#include "core/arena.h"
#include "core/err.h"
#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum lab_trace_kind {
	LAB_TRACE_LOAD,       /* N, and a sag in m if there is one */
	LAB_TRACE_BLOW,       /* m/s2 */
	LAB_TRACE_TEMPERATURE /* degC */
};

enum lab_date_order {
	LAB_DATE_UNKNOWN, /* year first, or with full stops day first */
	LAB_DATE_DAY_FIRST,
	LAB_DATE_MONTH_FIRST
};

/* What is known of the file; NULL: to be found. */
struct lab_trace_ask {
	enum lab_trace_kind kind;
	/* By the name in the heading, or by number from 1 on ("2"). */
	const char *time_column, *value_column, *sag_column;
	const char *time_unit, *value_unit, *sag_unit;
	double step_s; /* between rows where no column is a time; 0: none */
	enum lab_date_order order;
};

struct lab_trace_row {
	double at_s;  /* since 1970 where the file has dates (is_dated), else as
	                 the file counts; never less than the row before */
	double value; /* SI of the kind */
	double sag_m; /* with has_sag of lab_trace_found */
};

/* Takes a row; what it reports ends the reading. */
typedef enum err_code (*lab_trace_sink)(
	void *context, const struct lab_trace_row *row, struct err *err);

enum { LAB_TRACE_NAME = 48, LAB_TRACE_UNIT = 16, LAB_TRACE_COLUMNS = 64 };

struct lab_trace_column {
	bool has;
	size_t at; /* from 0 */
	char name[LAB_TRACE_NAME], unit[LAB_TRACE_UNIT];
	double scale, offset; /* SI = value * scale + offset */
};

/* How it was understood, and what went by. */
struct lab_trace_found {
	char separator; /* '\0': one column */
	bool decimal_comma;
	size_t heading_line; /* from 1; 0: none */
	size_t first_line;   /* of the figures */
	size_t n_column;
	/* Of every column, without its unit; "": there is no heading. */
	char column_name[LAB_TRACE_COLUMNS][LAB_TRACE_NAME];
	struct lab_trace_column time, date, value, sag;
	bool is_dated, is_clock; /* of the time */
	bool has_sag;
	uint64_t n_row, n_skipped; /* skipped: a figure was missing */
	uint64_t n_line, n_byte;
	double first_s, last_s;
	double gap_s,
		gap_at_s; /* longest time between two rows, where it began */
	double division;  /* least step between two values, SI; 0: they
	                           were all the same */
};

struct lab_trace;

/* lab_trace_open(arena, ask, sink, context, out, err): some 80 KiB of the arena,
 * however long the file.  ask is copied, its texts are borrowed. */
enum err_code lab_trace_open(struct arena *arena,
	const struct lab_trace_ask *ask, lab_trace_sink sink, void *context,
	struct lab_trace **out, struct err *err) MUST_CHECK;

/* lab_trace_feed(trace, bytes, n, err): the next bytes, in pieces of any size.
 * lab_trace_end(trace, err): there are no more.
 * ERR_INPUT  names the line and what would do: NUL bytes or UTF-16, no line of
 *            figures, columns or units that cannot be told apart, a line over
 *            4096 bytes, of another number of columns, with something that is
 *            no number, or earlier than the line before it; fewer than two rows
 * and what the sink reports */
enum err_code lab_trace_feed(struct lab_trace *trace, const char *bytes,
	size_t n, struct err *err) MUST_CHECK;
enum err_code lab_trace_end(
	struct lab_trace *trace, struct err *err) MUST_CHECK;

/* lab_trace_found(trace): borrowed, whole after lab_trace_end; after a refusal
 * as far as it was understood. */
const struct lab_trace_found *lab_trace_found(const struct lab_trace *trace);

#endif /* LAB_TRACE_H */

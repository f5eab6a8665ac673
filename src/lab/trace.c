/* trace.c - a logger's file in pieces, row by row to a sink. */
#include "lab/trace_priv.h"

#include <float.h>
#include <math.h>
#include <string.h>

static const double day_s = 86400;

struct lab_trace {
	struct lab_trace_ask ask;
	struct lab_trace_found found;
	lab_trace_sink sink;
	void *context;
	bool is_open; /* the format is known */
	bool has_row;
	double last_s, last_value;
	double rolled_s;       /* midnights that a clock without dates passed */
	size_t n_head, n_line; /* bytes kept: of the head, of a cut line */
	char head[LAB_TRACE_HEAD];
	char line[LAB_TRACE_LINE];
};

enum err_code
lab_trace_open(struct arena *arena, const struct lab_trace_ask *ask,
	lab_trace_sink sink, void *context, struct lab_trace **out,
	struct err *err)
{
	struct lab_trace *t = arena_take(arena, 1, sizeof *t);

	if (t == NULL)
		return err_memory(err);
	t->ask = *ask;
	t->sink = sink;
	t->context = context;
	t->found.time.scale = 1;
	*out = t;
	return ERR_NONE;
}

const struct lab_trace_found *
lab_trace_found(const struct lab_trace *t)
{
	return &t->found;
}

/* ---- one row ---- */

static enum err_code
bad_field(const struct lab_trace *t, struct trace_field field,
	const char *column, struct err *err)
{
	return err_report(err, ERR_INPUT, "file",
		"Line %llu: \"%.*s\" in column \"%s\" is no number%s.",
		(unsigned long long)t->found.n_line,
		(int)(field.n < 40 ? field.n : 40), field.at, column,
		t->found.decimal_comma ? err_say(err, " with a decimal comma")
				       : "");
}

/* The moment of a row; false: it is missing. */
static enum err_code
read_time(struct lab_trace *t, const struct trace_field *field, double *at_s,
	bool *missing, struct err *err)
{
	const struct lab_trace_found *f = &t->found;
	double days_s = 0, value;
	enum trace_number is;

	if (!f->time.has) {
		*at_s = (double)(f->n_row + f->n_skipped) * t->ask.step_s;
		return ERR_NONE;
	}
	if (f->is_clock) {
		if (f->date.has &&
			!trace_stamp(field[f->date.at], t->ask.order, &days_s))
			return bad_field(
				t, field[f->date.at], f->date.name, err);
		if (!trace_clock(field[f->time.at], &value))
			return bad_field(
				t, field[f->time.at], f->time.name, err);
		*at_s = days_s + value + t->rolled_s;
		/* Past midnight a clock without dates begins anew. */
		if (!f->date.has && t->has_row &&
			*at_s < t->last_s - day_s / 2) {
			t->rolled_s += day_s;
			*at_s += day_s;
		}
		return ERR_NONE;
	}
	if (f->is_dated) {
		if (!trace_stamp(field[f->time.at], t->ask.order, at_s))
			return bad_field(
				t, field[f->time.at], f->time.name, err);
		return ERR_NONE;
	}
	is = trace_number(field[f->time.at], f->decimal_comma, &value);
	if (is == TRACE_NO_NUMBER)
		return bad_field(t, field[f->time.at], f->time.name, err);
	*missing = *missing || is == TRACE_MISSING;
	*at_s = value * f->time.scale;
	return ERR_NONE;
}

static enum err_code
read_value(const struct lab_trace *t, const struct lab_trace_column *column,
	const struct trace_field *field, double *to, bool *missing,
	struct err *err)
{
	double value = 0;
	enum trace_number is = trace_number(
		field[column->at], t->found.decimal_comma, &value);

	if (is == TRACE_NO_NUMBER)
		return bad_field(t, field[column->at], column->name, err);
	*missing = *missing || is == TRACE_MISSING;
	*to = value * column->scale + column->offset;
	return ERR_NONE;
}

/* Order of time, gaps, and the instrument's own step. */
static enum err_code
note_row(struct lab_trace *t, const struct lab_trace_row *row, struct err *err)
{
	struct lab_trace_found *f = &t->found;
	double step = fabs(row->value - t->last_value);

	if (!t->has_row)
		f->first_s = row->at_s;
	else if (row->at_s < t->last_s)
		return err_report(err, ERR_INPUT, "file",
			"Line %llu is %.6g s earlier than the line before it; "
			"a trace runs forwards. Was the logger started twice "
			"into one file?",
			(unsigned long long)f->n_line, t->last_s - row->at_s);
	else if (row->at_s - t->last_s > f->gap_s) {
		f->gap_s = row->at_s - t->last_s;
		f->gap_at_s = t->last_s;
	}
	/* Steps as small as a rounding of the value are none. */
	if (t->has_row && step > 8 * DBL_EPSILON * fabs(row->value) &&
		(f->division <= 0 || step < f->division))
		f->division = step;
	t->has_row = true;
	t->last_s = f->last_s = row->at_s;
	t->last_value = row->value;
	f->n_row++;
	return ERR_NONE;
}

static enum err_code
read_row(struct lab_trace *t, const char *line, size_t n, bool last,
	struct err *err)
{
	struct lab_trace_found *f = &t->found;
	struct trace_field field[LAB_TRACE_COLUMNS + 1];
	struct lab_trace_row row = {0};
	bool missing = false;
	size_t n_field = trace_fields(line, n, f->separator, field);

	if (n_field == 1 && field[0].n == 0)
		return ERR_NONE;
	if (n_field != f->n_column && last) {
		f->n_skipped++; /* the power went while it was written */
		return ERR_NONE;
	}
	if (n_field != f->n_column)
		return err_report(err, ERR_INPUT, "file",
			"Line %llu has %zu columns, the lines before it have "
			"%zu.",
			(unsigned long long)f->n_line, n_field, f->n_column);
	TRY(read_time(t, field, &row.at_s, &missing, err));
	TRY(read_value(t, &f->value, field, &row.value, &missing, err));
	if (f->has_sag)
		TRY(read_value(t, &f->sag, field, &row.sag_m, &missing, err));
	if (missing) {
		f->n_skipped++;
		return ERR_NONE;
	}
	TRY(note_row(t, &row, err));
	return t->sink(t->context, &row, err);
}

static enum err_code
read_line(struct lab_trace *t, const char *line, size_t n, bool last,
	struct err *err)
{
	t->found.n_line++;
	if (t->found.n_line < t->found.first_line)
		return ERR_NONE;
	if (memchr(line, '\0', n) != NULL)
		return err_report(err, ERR_INPUT, "file",
			"Line %llu holds a NUL byte; a trace is plain text "
			"(UTF-8).",
			(unsigned long long)t->found.n_line);
	return read_row(t, line, n, last, err);
}

/* ---- bytes ---- */

static enum err_code
too_long(const struct lab_trace *t, struct err *err)
{
	return err_report(err, ERR_INPUT, "file",
		"Line %llu is longer than %d bytes; a line of a logger is not.",
		(unsigned long long)t->found.n_line + 1, LAB_TRACE_LINE);
}

/* Lines out of bytes; what is left of a cut one is kept. */
static enum err_code
read_lines(struct lab_trace *t, const char *bytes, size_t n, struct err *err)
{
	const char *at = bytes, *end = bytes + n;

	while (at < end) {
		const char *stop = memchr(at, '\n', (size_t)(end - at));
		size_t length = (size_t)((stop != NULL ? stop : end) - at);

		if (t->n_line + length > LAB_TRACE_LINE)
			return too_long(t, err);
		if (stop == NULL || t->n_line > 0) {
			memcpy(t->line + t->n_line, at, length);
			t->n_line += length;
		}
		if (stop == NULL)
			return ERR_NONE;
		TRY(t->n_line > 0 ? read_line(t, t->line, t->n_line, false, err)
				  : read_line(t, at, length, false, err));
		t->n_line = 0;
		at = stop + 1;
	}
	return ERR_NONE;
}

static bool
is_wide(const char *head, size_t n)
{
	return n >= 2 &&
		((head[0] == '\xFF' && head[1] == '\xFE') ||
			(head[0] == '\xFE' && head[1] == '\xFF') ||
			(head[0] != '\0' && head[1] == '\0'));
}

static enum err_code
begin(struct lab_trace *t, bool whole, struct err *err)
{
	size_t mark = t->n_head >= 3 && memcmp(t->head, "\xEF\xBB\xBF", 3) == 0
		? 3
		: 0;

	if (is_wide(t->head, t->n_head))
		return err_report(err, ERR_INPUT, "file",
			"The file is UTF-16; save it as CSV in UTF-8.");
	TRY(trace_find_format(&t->ask, t->head + mark, t->n_head - mark, whole,
		&t->found, err));
	t->is_open = true;
	return read_lines(t, t->head + mark, t->n_head - mark, err);
}

enum err_code
lab_trace_feed(
	struct lab_trace *t, const char *bytes, size_t n, struct err *err)
{
	t->found.n_byte += n;
	if (!t->is_open) {
		size_t take = LAB_TRACE_HEAD - t->n_head;

		if (take > n)
			take = n;
		memcpy(t->head + t->n_head, bytes, take);
		t->n_head += take;
		if (t->n_head < LAB_TRACE_HEAD)
			return ERR_NONE;
		TRY(begin(t, false, err));
		bytes += take;
		n -= take;
	}
	return read_lines(t, bytes, n, err);
}

enum err_code
lab_trace_end(struct lab_trace *t, struct err *err)
{
	if (!t->is_open)
		TRY(begin(t, true, err));
	if (t->n_line > 0)
		TRY(read_line(t, t->line, t->n_line, true, err));
	t->n_line = 0;
	if (t->found.n_row < 2)
		return err_report(err, ERR_INPUT, "file",
			"A trace needs two rows at least; %llu were read.",
			(unsigned long long)t->found.n_row);
	return ERR_NONE;
}

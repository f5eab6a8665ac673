/* trace.h - a logger's file read, kept byte for byte, and told. */
#ifndef WORK_TRACE_H
#define WORK_TRACE_H

#include "book/book.h"
#include "lab/trace.h"
#include "work/bench.h"

struct work_trace_ask {
	const char *piece; /* NULL: of none, a temperature of the store */
	const char *name;  /* of the file, for the record */
	const char *code;  /* NULL: made of piece and kind */
	struct lab_trace_ask how;
	struct maybe zero_s; /* the mean of so long at the start is no load */
	/* Of a blow: */
	struct maybe mass_kg, speed_m_s; /* of the bar as it hits */
	/* Of a load, if it is a test: bending (with its rig or span), or
	 * crushing.  "": the trace alone. */
	const char *test, *rig, *on;
	struct maybe span_m, hanger_kg, strap_m;
	const char *typed;
};

struct work_trace_told {
	struct book_trace row;
	const char *file_code; /* the checksum */
	int64_t file_bytes;
	const char *const *sentence;
	size_t n_sentence;
};

/* work_trace_put(desk, arena, source, ask, out, err): reads the source twice and
 * keeps it; with a test its highest load becomes a reading of the piece, an
 * interval of the logger's own step about it.
 * ERR_INPUT  as lab_trace_feed; a code that is taken; a load without a piece, a
 *            blow or load of a piece that was never cast
 * and what the source, work_test_check and the book report; nothing is changed
 * then. */
enum err_code work_trace_put(const struct desk *desk, struct arena *arena,
	const struct book_source *source, const struct work_trace_ask *ask,
	struct work_trace_told *out, struct err *err) MUST_CHECK;

/* work_trace_say(arena, trace, sentence, n, err): what a trace in the book
 * says. */
enum err_code work_trace_say(struct arena *arena,
	const struct book_trace *trace, const char *const **sentence, size_t *n,
	struct err *err) MUST_CHECK;

/* What a file would be kept as, before it is. */
enum { WORK_TRACE_FIRST = 3 };
struct work_trace_look {
	struct lab_trace_found found; /* also after a refusal, as far as it was
	                                 understood */
	bool is_read; /* to its end; what follows is told only then */
	struct book_trace row;
	struct lab_trace_row first[WORK_TRACE_FIRST], last; /* SI */
	size_t n_first;
	const char *const *sentence;
	size_t n_sentence;
};

/* work_trace_look(desk, arena, source, ask, out, err): all that work_trace_put
 * does but for writing, with the same errors; out is filled as far as it goes
 * also where it refuses. */
enum err_code work_trace_look(const struct desk *desk, struct arena *arena,
	const struct book_source *source, const struct work_trace_ask *ask,
	struct work_trace_look *out, struct err *err) MUST_CHECK;

struct work_traces {
	const struct book_trace *trace;
	const struct book_file *file;
	size_t n_trace, n_file;
	struct work_site site;
};

/* work_traces(desk, arena, out, err): all of them.
 * work_find_trace(traces, code, index, err): ERR_NOT_FOUND lists the codes.
 * work_trace_file(traces, trace): its file; NULL: the book lost it. */
enum err_code work_traces(const struct desk *desk, struct arena *arena,
	struct work_traces *out, struct err *err) MUST_CHECK;
enum err_code work_find_trace(const struct work_traces *traces,
	const char *code, size_t *index, struct err *err) MUST_CHECK;
const struct book_file *work_trace_file(
	const struct work_traces *traces, const struct book_trace *trace);

#endif /* WORK_TRACE_H */

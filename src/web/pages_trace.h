/* pages_trace.h - loggers' files on the pages of what they belong to. */
#ifndef WEB_PAGES_TRACE_H
#define WEB_PAGES_TRACE_H

#include "web/page.h"
#include "work/trace.h"

/* Which of them: those of one piece, of the pieces of one batch, or all. */
struct trace_choice {
	const char *piece, *batch; /* NULL: not by that */
};

/* trace_blocks(page, traces, choice): a table of them, newest first, each with
 * its address; nothing where there is none. */
void trace_blocks(struct page *page, const struct work_traces *traces,
	const struct trace_choice *choice);

#endif /* WEB_PAGES_TRACE_H */

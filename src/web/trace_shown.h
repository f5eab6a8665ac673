/* trace_shown.h - how a logger's file was understood, for a page. */
#ifndef WEB_TRACE_SHOWN_H
#define WEB_TRACE_SHOWN_H

#include "web/carry.h"
#include "web/page.h"
#include "work/trace.h"

/* trace_understood(page, look): separator, decimal sign, heading, columns, units
 * and dates, as far as it was understood.
 * trace_rows(page, kind, look): the first rows and the last as they were read.
 * trace_lines(page, carried): the first lines of the file as they stand. */
void trace_understood(struct page *page, const struct work_trace_look *look);
void trace_rows(struct page *page, enum lab_trace_kind kind,
	const struct work_trace_look *look);
void trace_lines(struct page *page, const struct carried *carried);

#endif /* WEB_TRACE_SHOWN_H */

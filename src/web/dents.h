/* dents.h - where a bar hit a test piece, on the page of that piece. */
#ifndef WEB_DENTS_H
#define WEB_DENTS_H

#include "web/page.h"
#include "work/bench.h"

/* dents_add(page, bench, piece, err): the picture and its table; nothing where
 * the piece was not dropped on, or its sizes are not known.  ERR_MEMORY */
enum err_code dents_add(struct page *page, const struct work_bench *bench,
	size_t piece, struct err *err) MUST_CHECK;

#endif /* WEB_DENTS_H */

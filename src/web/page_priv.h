/* page_priv.h - the blocks of a page, between page.c, which gathers them, and the
 * files that write them out. */
#ifndef WEB_PAGE_PRIV_H
#define WEB_PAGE_PRIV_H

#include "web/page.h"

enum block_kind {
	BLOCK_HEADING,
	BLOCK_SAY,
	BLOCK_BIG,
	BLOCK_CAUTION,
	BLOCK_ALARM,
	BLOCK_LINK,
	BLOCK_DONE,
	BLOCK_GRID,
	BLOCK_TICKS,
	BLOCK_LABELS,
	BLOCK_CHART,
	BLOCK_PHOTO,
	BLOCK_FORM
};

struct page_block {
	enum block_kind kind;
	const char *text;   /* NULL: a grid or a form says it */
	const char *second; /* a figure, an address; NULL: none */
	const char *third;  /* of a photo: where its picture stands */
	const struct grid *grid;
	bool folded; /* of a grid: opens when asked */
	const struct form *form;
};

/* Each writes the page into the body of `reply`, as one of the three twins, and
 * its type where that is not HTML.
 * ERR_MEMORY     the page failed while it was gathered, or memory ran out
 * ERR_NUMERIC    page_answer_json alone: a figure is not finite, or no memory
 * ERR_NOT_FOUND  page_answer_csv alone: no table, or not the one of ?table= */
enum err_code page_answer_html(const struct page *page, struct web_reply *reply,
	struct err *err) MUST_CHECK;
enum err_code page_answer_json(const struct page *page, struct web_reply *reply,
	struct err *err) MUST_CHECK;
enum err_code page_answer_csv(const struct page *page, struct web_reply *reply,
	struct err *err) MUST_CHECK;

#endif /* WEB_PAGE_PRIV_H */

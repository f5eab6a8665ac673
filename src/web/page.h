/* page.h - one page put together block by block, answered as HTML, JSON or CSV.
 *
 * A page holds ready texts and figures: whoever builds it has called one
 * function of work/ and turns what that found into words. */
#ifndef WEB_PAGE_H
#define WEB_PAGE_H

#include "web/form.h"
#include "web/grid.h"
#include "web/request.h"
#include "web/words.h"

enum page_section {
	PAGE_TODAY,
	PAGE_MATERIALS,
	PAGE_MIXES,
	PAGE_TRIAL,
	PAGE_MIXER,
	PAGE_BENCH,
	PAGE_RESULTS,
	PAGE_COMPARE,
	PAGE_CHOOSE,
	PAGE_BUILDING,
	PAGE_POUR,
	PAGE_WATCH,
	PAGE_RECORD,
	PAGE_WORDS,
	PAGE_ELSEWHERE, /* something went wrong: none of the sections */
	PAGE_NOWHERE    /* sign-in: nothing to choose from */
};

struct page_block; /* of page_priv.h */

struct page {
	const struct web_request *request; /* borrowed */
	const char *title;
	enum page_section section;
	bool field; /* for the phone in the sun: big and light */
	struct page_block *block;
	size_t n_block, room;
	int status;         /* 0: 200, or 422 where a form has a fault */
	bool failed;        /* memory ran out */
	unsigned refresh_s; /* 0: not; else the page comes again by itself */
};

/* page_start(page, request, title, section): empty.  The sections Mixer and
 * Bench are for the phone in the field. */
void page_start(struct page *page, const struct web_request *request,
	const char *title, enum page_section section);

/* Each adds a block; texts are borrowed until the answer.  Sentences are said in
 * plain_words. */
void page_heading(struct page *page, const char *text);
void page_say(struct page *page, const char *sentence);
void page_big(struct page *page, const char *label, const char *figure);
void page_caution(struct page *page, const char *sentence);
void page_alarm(struct page *page, const char *sentence);
void page_link(struct page *page, const char *words, const char *address);

/* page_done: what was just recorded; undo is the address of a form that takes
 * it back, NULL: none. */
void page_done(struct page *page, const char *sentence, const char *undo);

/* page_saved: where ?saved= came back from a deed, that it was recorded, with its
 * undo. */
void page_saved(struct page *page);

/* page_grid: a table.  page_grid_folded: one that opens when asked, under a
 * chart that shows the same. */
void page_grid(struct page *page, const struct grid *grid);
void page_grid_folded(struct page *page, const struct grid *grid);

/* page_ticks: a table of three columns (what, how much, a note) as a list to tick
 * off, in big figures.  The ticks stay in the reader's browser. */
void page_ticks(struct page *page, const struct grid *grid);

/* page_labels: a table of three columns (a marking with its picture, two lines) as
 * labels to cut out: 21 of 60 by 35 mm on a sheet of A4. */
void page_labels(struct page *page, const struct grid *grid);

/* page_chart: a picture that the server draws at `address`, in words what it
 * shows.  Its table is to stand on the page too. */
void page_chart(struct page *page, const char *address, const char *words);

/* page_photo: a photo, shown small; a tap leads to `address`. */
void page_photo(struct page *page, const char *address, const char *picture,
	const char *words);

/* page_form: who signed in to read is given no form that records, but for those of
 * the sign-in, which stand PAGE_NOWHERE. */
void page_form(struct page *page, const struct form *form);

/* page_table(page, grid, key, caption, column, n): a grid begun, its headings
 * in the reader's language; column may be static, with headings in N_(). */
void page_table(struct page *page, struct grid *grid, const char *key,
	const char *caption, const struct grid_column *column, size_t n);

/* page_money(page, grid, currency): the book's money in the units of the grid's
 * headings; GRID_MONEY stands for it in a column, alone or before "/m3". */
#define GRID_MONEY "money"
void page_money(struct page *page, struct grid *grid, const char *currency);

/* page_format(page, format, ...): a text that lives as long as the answer; ""
 * where memory ran out, which the page remembers. */
const char *page_format(struct page *page, const char *format, ...)
	__attribute__((format(printf, 2, 3)));

/* page_moment(page, at): "2026-11-27T21:58:01Z" as "2026-11-27 21:58" for people;
 * machines, and what is no moment of UTC, get `at` itself. */
const char *page_moment(struct page *page, const char *at);

/* page_answer(page, reply, err): the page as the twin that was asked for.  CSV
 * is the table that ?table= names, else the first.
 * ERR_NOT_FOUND no such table;  ERR_MEMORY;  ERR_NUMERIC */
enum err_code page_answer(
	struct page *page, struct web_reply *reply, struct err *err) MUST_CHECK;

/* _("Hello"): in the language of `request`; xgettext finds it by this name. */
#define _(english) words(request->language, english)

#endif /* WEB_PAGE_H */

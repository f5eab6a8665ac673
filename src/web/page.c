/* page.c - the blocks of a page gathered, and written as whoever asks wants it. */
#include "web/page.h"
#include "web/page_priv.h"

#include "web/plain.h"

#include <string.h>

enum { FIRST_BLOCKS = 16, STATUS_FAULT = 422 };

void
page_start(struct page *page, const struct web_request *request,
	const char *title, enum page_section section)
{
	*page = (struct page){.request = request,
		.title = title,
		.section = section,
		.field = section == PAGE_MIXER || section == PAGE_BENCH};
}

static void
add(struct page *page, struct page_block block)
{
	if (page->n_block == page->room) {
		size_t room = page->room > 0 ? 2 * page->room : FIRST_BLOCKS;
		struct page_block *more = arena_take(
			page->request->arena, room, sizeof *more);

		if (more == NULL) {
			page->failed = true;
			return;
		}
		if (page->n_block > 0)
			memcpy(more, page->block, page->n_block * sizeof *more);
		page->block = more;
		page->room = room;
	}
	page->block[page->n_block++] = block;
}

static void
add_text(struct page *page, enum block_kind kind, const char *text,
	const char *second)
{
	bool says = kind == BLOCK_SAY || kind == BLOCK_CAUTION ||
		kind == BLOCK_ALARM;

	/* A fixed sentence of a layer below is in English still. */
	if (text != NULL && says)
		text = words(page->request->language, text);
	if (text == NULL)
		page->failed = true;
	else
		add(page,
			(struct page_block){.kind = kind,
				.text = says
					? plain_words(page->request, NULL, text)
					: plain_signs(
						  page->request->arena, text),
				.second = second});
}

void
page_heading(struct page *page, const char *text)
{
	add_text(page, BLOCK_HEADING, text, NULL);
}

void
page_say(struct page *page, const char *sentence)
{
	add_text(page, BLOCK_SAY, sentence, NULL);
}

void
page_big(struct page *page, const char *label, const char *figure)
{
	add_text(page, BLOCK_BIG, label,
		plain_signs(page->request->arena, figure));
	page->failed |= figure == NULL;
}

void
page_caution(struct page *page, const char *sentence)
{
	add_text(page, BLOCK_CAUTION, sentence, NULL);
}

void
page_alarm(struct page *page, const char *sentence)
{
	add_text(page, BLOCK_ALARM, sentence, NULL);
}

void
page_link(struct page *page, const char *text, const char *address)
{
	add_text(page, BLOCK_LINK, text, address);
	page->failed |= address == NULL;
}

void
page_done(struct page *page, const char *sentence, const char *undo)
{
	add_text(page, BLOCK_DONE, sentence, undo);
}

void
page_saved(struct page *page)
{
	const struct web_request *request = page->request;

	if (web_query(request, "saved") != NULL)
		page_done(page, _("Recorded."), "/undo/last");
}

/* The struct may be on the caller's stack: a copy is kept. */
static void
add_grid(struct page *page, const struct grid *grid, enum block_kind kind,
	bool folded)
{
	const struct grid *kept = arena_copy(
		page->request->arena, grid, 1, sizeof *grid);

	if (kept == NULL || grid->failed)
		page->failed = true;
	else
		add(page,
			(struct page_block){
				.kind = kind, .grid = kept, .folded = folded});
}

void
page_grid(struct page *page, const struct grid *grid)
{
	add_grid(page, grid, BLOCK_GRID, false);
}

void
page_labels(struct page *page, const struct grid *grid)
{
	add_grid(page, grid, BLOCK_LABELS, false);
}

void
page_ticks(struct page *page, const struct grid *grid)
{
	add_grid(page, grid, BLOCK_TICKS, false);
}

void
page_grid_folded(struct page *page, const struct grid *grid)
{
	add_grid(page, grid, BLOCK_GRID, true);
}

void
page_chart(struct page *page, const char *address, const char *text)
{
	add_text(page, BLOCK_CHART, text, address);
	page->failed |= address == NULL;
}

void
page_photo(struct page *page, const char *address, const char *picture,
	const char *text)
{
	page->failed |= text == NULL || address == NULL || picture == NULL;
	add(page,
		(struct page_block){.kind = BLOCK_PHOTO,
			.text = text,
			.second = address,
			.third = picture});
}

void
page_form(struct page *page, const struct form *form)
{
	const struct form *kept;

	if (!page->request->may_record && !form->gets &&
		page->section != PAGE_NOWHERE)
		return;
	kept = arena_copy(page->request->arena, form, 1, sizeof *form);
	if (kept == NULL || form->failed)
		page->failed = true;
	else
		add(page,
			(struct page_block){.kind = BLOCK_FORM, .form = kept});
	if (form_has_fault(form))
		page->status = STATUS_FAULT;
}

void
page_table(struct page *page, struct grid *grid, const char *key,
	const char *caption, const struct grid_column *column, size_t n)
{
	const struct web_request *request = page->request;
	struct grid_column *own = arena_copy(
		request->arena, column, n, sizeof *column);

	for (size_t i = 0; own != NULL && i < n; i++)
		own[i].heading = words(request->language, own[i].heading);
	page->failed |= own == NULL;
	grid_start(grid, request->arena, key, caption,
		own != NULL ? own : column, n);
}

void
page_money(struct page *page, struct grid *grid, const char *currency)
{
	const size_t n = strlen(GRID_MONEY);
	struct grid_column *own = arena_copy(page->request->arena, grid->column,
		grid->n_column, sizeof *own);

	page->failed |= own == NULL;
	if (own == NULL)
		return;
	for (size_t i = 0; i < grid->n_column; i++)
		if (strncmp(own[i].unit, GRID_MONEY, n) == 0)
			own[i].unit = page_format(
				page, "%s%s", currency, own[i].unit + n);
	grid->column = own;
}

const char *
page_format(struct page *page, const char *format, ...)
{
	struct text text;
	va_list list;

	text_init(&text, page->request->arena);
	va_start(list, format);
	text_addv(&text, format, list);
	va_end(list);
	if (!text_failed(&text) && text.bytes != NULL)
		return text.bytes;
	page->failed = true;
	return "";
}

const char *
page_moment(struct page *page, const char *at)
{
	enum { DAY_BYTES = 10, MINUTE_BYTES = 16 };

	if (page->request->twin != WEB_PAGE || strlen(at) < MINUTE_BYTES ||
		at[DAY_BYTES] != 'T')
		return at;
	return page_format(page, "%.*s %.*s", DAY_BYTES, at,
		MINUTE_BYTES - DAY_BYTES - 1, at + DAY_BYTES + 1);
}

enum err_code
page_answer(struct page *page, struct web_reply *reply, struct err *err)
{
	if (reply->status == 0)
		reply->status = page->status;
	switch (page->request->twin) {
	case WEB_PAGE:
		return page_answer_html(page, reply, err);
	case WEB_JSON:
		return page_answer_json(page, reply, err);
	case WEB_CSV:
		return page_answer_csv(page, reply, err);
	}
	return ERR_NONE;
}

/* pages_today.c - what is to be done today. */
#include "web/page.h"

#include "core/date.h"
#include "work/due.h"

static void
add_due_rows(const struct web_request *request, const struct work_due *due,
	int first, int last, struct grid *grid)
{
	const struct work_site *s = &due->bench.site;

	for (size_t i = 0; i < due->n; i++) {
		const struct work_due_piece *row = &due->row[i];
		const struct book_specimen *piece = &s->specimen[row->piece];
		char day[DATE_TEXT_MAX];

		if (row->days < first || row->days > last)
			continue;
		date_write_day(row->due_s, 0, day);
		grid_link(grid, piece->code,
			text_format(request->arena, "/piece/%s", piece->code));
		grid_text(grid,
			s->mix[s->batch_mix[s->specimen_batch[row->piece]]]
				.code);
		grid_text(grid, s->batch[s->specimen_batch[row->piece]].code);
		grid_text(grid, arena_text(request->arena, day));
		grid_text(grid, work_piece_sized(request->arena, piece));
	}
}

static void
add_due(struct page *page, const struct work_due *due, int first, int last,
	const char *key, const char *caption)
{
	const struct web_request *request = page->request;
	const struct grid_column column[] = {
		{"piece", _("test piece"), "", false},
		{"mix", _("mix"), "", false}, {"batch", _("batch"), "", false},
		{"due", _("due on"), "", false},
		{"what", _("what it is"), "", false}};
	struct grid_column *own = arena_copy(
		request->arena, column, 5, sizeof *column);
	struct grid grid;

	if (own == NULL) {
		page->failed = true;
		return;
	}
	grid_start(&grid, request->arena, key, caption, own, 5);
	add_due_rows(request, due, first, last, &grid);
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

enum { WEEK_DAYS = 7, LONG_AGO = -100000, FAR = 100000 };

enum err_code
web_due(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_due due;
	struct page page;

	TRY(work_due(&request->desk, request->arena, NULL, &due, err));
	page_start(&page, request, _("Test pieces and when they are due"),
		PAGE_TODAY);
	add_due(&page, &due, LONG_AGO, -1, "overdue", _("Overdue"));
	add_due(&page, &due, 0, 0, "today", _("Today, in this order"));
	add_due(&page, &due, 1, WEEK_DAYS, "week", _("Within a week"));
	add_due(&page, &due, WEEK_DAYS + 1, FAR, "later", _("Later"));
	if (due.n == 0)
		page_say(&page, _("Nothing waits for a test."));
	return page_answer(&page, reply, err);
}

enum err_code
web_today(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_due due;
	struct page page;

	TRY(work_due(&request->desk, request->arena, NULL, &due, err));
	page_start(&page, request, _("Today"), PAGE_TODAY);
	page_heading(&page, _("At the bench"));
	add_due(&page, &due, LONG_AGO, 0, "due", _("To test today"));
	if (due.n == 0)
		page_say(&page, _("Nothing waits for a test."));
	page_link(&page, _("All that is due"), "/due");
	return page_answer(&page, reply, err);
}

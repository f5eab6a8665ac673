/* pages_today.c - what is to be done today. */
#include "web/page.h"

#include "core/date.h"
#include "work/compare.h"
#include "work/due.h"
#include "work/mixer.h"
#include "work/watch.h"

/* For whoever reads the tests and should not know which mix it is. */
static bool
is_blind(const struct web_request *request)
{
	return web_query(request, "blind") != NULL;
}

static void
add_due_rows(const struct web_request *request, const struct work_due *due,
	int first, int last, struct grid *grid)
{
	const struct work_site *s = &due->bench.site;
	const bool blind = is_blind(request);

	for (size_t i = 0; i < due->n; i++) {
		const struct work_due_piece *row = &due->row[i];
		const struct book_specimen *piece = &s->specimen[row->piece];
		char day[DATE_TEXT_MAX];

		if (row->days < first || row->days > last)
			continue;
		date_write_day(row->due_s, 0, day);
		grid_link(grid, piece->code,
			web_at(request, "/piece/", piece->code));
		grid_text(grid,
			blind ? NULL
			      : s->mix[s->batch_mix[s->specimen_batch
							    [row->piece]]]
					.code);
		grid_text(grid,
			blind ? NULL
			      : s->batch[s->specimen_batch[row->piece]].code);
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

enum { WEEK_DAYS = 7, LONG_AGO = -100000, FAR = 100000, NEXT_BATCHES = 3 };

static void
fill_due(struct form *form, const struct web_request *request)
{
	form_start(form, request, "day", "/due", _("Show that day"));
	form->gets = true;
	form_date(form, "on", _("As of which day"), _("Empty: today."));
	form_yes(form, "blind", _("Without mix and batch"),
		_("For whoever reads the tests: a reading is fairest where "
		  "nobody knows which mix it is."));
}

enum err_code
web_due(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_due due;
	struct err inner = err_in(request->arena);
	struct page page;
	struct form form;

	fill_due(&form, request);
	if (work_due(&request->desk, request->arena, web_query(request, "on"),
		    &due, &inner) != ERR_NONE) {
		form_fault_at(&form, "on", inner.text);
		TRY(work_due(&request->desk, request->arena, NULL, &due, err));
	}
	page_start(&page, request, _("Test pieces and when they are due"),
		PAGE_TODAY);
	add_due(&page, &due, LONG_AGO, -1, "overdue", _("Overdue"));
	add_due(&page, &due, 0, 0, "today", _("Today, in this order"));
	add_due(&page, &due, 1, WEEK_DAYS, "week", _("Within a week"));
	add_due(&page, &due, WEEK_DAYS + 1, FAR, "later", _("Later"));
	if (due.n == 0)
		page_say(&page, _("Nothing waits for a test."));
	page_form(&page, &form);
	return page_answer(&page, reply, err);
}

/* The foam as it was last weighed, and what to make next. */
static void
add_mixer(struct page *page, const struct work_mixer *m)
{
	const struct web_request *request = page->request;
	size_t n = 0;

	for (size_t i = 0; i < m->n_slot && n < NEXT_BATCHES; i++) {
		const char *code = m->slot[i].batch_code;
		struct err unknown = err_in(request->arena);
		size_t at;

		if (work_find_batch(m, code, &at, &unknown) == ERR_NONE)
			continue;
		page_link(page,
			page_format(page, "%s %s", _("Make batch"), code),
			web_at(request, "/batch/", code));
		n++;
	}
	for (size_t i = 0; i < m->n_generator; i++)
		page_link(page,
			page_format(page, "%s %s",
				_("Weigh the foam of generator"),
				m->generator[i].code),
			web_at(request, "/foam/", m->generator[i].code));
	if (n == 0)
		page_say(page, _("No batch of a plan waits."));
	page_link(page, _("To the mixer"), "/mixer");
}

/* What is outside its usual range now. */
static void
add_alarms(struct page *page)
{
	const struct web_request *request = page->request;
	struct err inner = err_in(request->arena);
	struct work_watch watch;
	bool any = false;

	if (work_watch(&request->desk, request->arena, &watch, &inner) !=
		ERR_NONE)
		return;
	for (size_t i = 0; i < WORK_WATCH_COUNT; i++) {
		const struct work_watched *w = &watch.watched[i];

		if (w->n_alarm == 0 || !w->alarm[w->n_alarm - 1].lasts)
			continue;
		page_alarm(page,
			page_format(page, "%s %s",
				w->alarm[w->n_alarm - 1].sentence,
				w->alarm[w->n_alarm - 1].check));
		any = true;
	}
	if (!any)
		page_say(page,
			_("Foam, wet weight and settling run as they always "
			  "did."));
	page_link(page, _("All that is watched"), "/watch");
	page_link(page, _("The rules that warn"), "/warnings");
}

/* What the trial shows of the first thing that was measured. */
static void
add_trial(struct page *page)
{
	static const enum choose_measure first[] = {CHOOSE_BENDING_STRENGTH,
		CHOOSE_CRUSHING_STRENGTH, CHOOSE_CRUSHING_ENERGY,
		CHOOSE_DRY_DENSITY};
	const struct work_compare_ask ask = {.first_of = first,
		.n_first_of = sizeof first / sizeof first[0]};
	const struct web_request *request = page->request;
	struct err inner = err_in(request->arena);
	struct work_compared all;

	if (work_compare_asked(&request->desk, request->arena, &ask, &all,
		    &inner) != ERR_NONE ||
		all.n_comparison == 0) {
		page_say(page,
			_("Nothing can be compared yet: two mixes have to be "
			  "cast and tested."));
		return;
	}
	page_say(page, _(choose_measure_name(all.comparison[0].measure)));
	for (size_t i = 0; i < all.comparison[0].n_sentence; i++)
		page_say(page, all.comparison[0].sentence[i]);
	page_link(page, _("What would settle it"), "/next");
}

enum err_code
web_today(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_due due;
	struct work_mixer m;
	struct page page;

	TRY(work_due(&request->desk, request->arena, NULL, &due, err));
	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(&page, request, _("Today"), PAGE_TODAY);
	if (m.site.info.note[0] != '\0')
		page_say(&page, m.site.info.note);
	page_heading(&page, _("At the bench"));
	add_due(&page, &due, LONG_AGO, 0, "due", _("To test today"));
	if (due.n == 0)
		page_say(&page, _("Nothing waits for a test."));
	page_link(&page, _("All that is due"), "/due");
	page_heading(&page, _("At the mixer"));
	add_mixer(&page, &m);
	page_heading(&page, _("Out of its usual range"));
	add_alarms(&page);
	page_heading(&page, _("What the trial says so far"));
	add_trial(&page);
	return page_answer(&page, reply, err);
}

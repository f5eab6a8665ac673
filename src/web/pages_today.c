/* pages_today.c - what is to be done today. */
#include "web/page.h"

#include "core/date.h"
#include "work/compare.h"
#include "work/mixer.h"
#include "work/status.h"
#include "work/watch.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

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

/* The first batch of a plan that is not made yet; NULL: none. */
static const char *
next_to_make(struct page *page, const struct work_mixer *m)
{
	for (size_t i = 0; i < m->n_slot; i++) {
		struct err unknown = err_in(page->request->arena);
		size_t at;

		if (work_find_batch(m, m->slot[i].batch_code, &at, &unknown) !=
			ERR_NONE)
			return m->slot[i].batch_code;
	}
	return NULL;
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
	bool any = false, known = false;

	if (work_watch(&request->desk, request->arena, &watch, &inner) !=
		ERR_NONE)
		return;
	for (size_t i = 0; i < WORK_WATCH_COUNT; i++) {
		const struct work_watched *w = &watch.watched[i];

		known |= w->has_limits;
		if (w->n_alarm == 0 || !w->alarm[w->n_alarm - 1].lasts)
			continue;
		page_alarm(page,
			page_format(page, "%s %s",
				w->alarm[w->n_alarm - 1].sentence,
				w->alarm[w->n_alarm - 1].check));
		any = true;
	}
	if (!known)
		page_say(page,
			_("Too few batches yet to say what is usual: three "
			  "are needed."));
	else if (!any)
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
	page_say(page,
		page_format(page, "%s %s:", _("Compared by"),
			_(choose_measure_name(all.comparison[0].measure))));
	for (size_t i = 0; i < all.comparison[0].n_sentence; i++)
		page_say(page, all.comparison[0].sentence[i]);
	page_link(page, _("What would settle it"), "/next");
}

/* The first piece that is due, and when; NULL: none, or some are due by now. */
static const char *
first_due(struct page *page, const struct work_status *s)
{
	const struct web_request *request = page->request;
	char day[DATE_TEXT_MAX];
	int64_t first_s;

	if (s->due.n == 0 || s->n_overdue + s->n_today > 0)
		return NULL;
	first_s = s->due.row[0].due_s;
	for (size_t i = 1; i < s->due.n; i++)
		if (s->due.row[i].due_s < first_s)
			first_s = s->due.row[i].due_s;
	date_write_day(first_s, 0, day);
	return page_format(page, "%s %s", _("The first test is due on"), day);
}

/* What a page knows better than status: that there is nothing yet to make foam
 * with, that batches of the plan are open, that no piece is old enough. */
static bool
add_own_next(struct page *page, const struct work_status *s,
	const struct work_mixer *m)
{
	const struct web_request *request = page->request;
	const bool without_gear = m->n_generator == 0 && m->site.n_batch == 0 &&
		(strcmp(s->next, "mix") == 0 || strcmp(s->next, "trial") == 0 ||
			strcmp(s->next, "batch") == 0);
	const char *due = strcmp(s->next, "due") == 0 ? first_due(page, s)
						      : NULL;

	if (without_gear) {
		page_say(page,
			_("Say what mixer, scale and foam generator you "
			  "have."));
		page_link(page, _("Mixer, scale and generators"), "/gear");
		return true;
	}
	if (next_to_make(page, m) != NULL &&
		(due != NULL || strcmp(s->next, "choose") == 0)) {
		page_say(page, _("Make the next batch of the plan."));
		page_link(page, _("To the mixer"), "/mixer");
		return due != NULL;
	}
	if (due != NULL && s->n_part == 0) {
		page_say(page,
			_("While the pieces age: enter the parts of the "
			  "building and what each must do, before any test "
			  "says what can be had."));
		page_link(page, _("Enter the parts of the building"),
			"/building");
		return true;
	}
	if (due != NULL) {
		page_say(page, page_format(page, "%s.", due));
		page_link(page, _("Test pieces and when they are due"), "/due");
	}
	return due != NULL;
}

/* The step that is open, by the command that status names. */
static void
add_next(struct page *page, const struct work_status *s,
	const struct work_mixer *m)
{
	static const struct {
		const char *next, *say, *words, *address;
	} steps[] = {
		{"due", N_("Test the pieces that are due today."),
			N_("Test pieces and when they are due"), "/due"},
		{"material",
			N_("Enter your materials: cement, water, sand, "
			   "foaming agent."),
			N_("To the materials"), "/materials"},
		{"mix",
			N_("Enter two mixes or more: the ordinary one, and "
			   "those to be held against it."),
			N_("To the mixes"), "/mixes"},
		{"trial",
			N_("Plan a trial: which mixes, how many batches of "
			   "each, in which order."),
			N_("Plan a trial"), "/trial"},
		{"batch", N_("Make the first batch of the plan."),
			N_("To the mixer"), "/mixer"},
		{"pieces", N_("Register the test pieces that were cast."),
			N_("To the test pieces"), "/bench"},
		{"import", N_("Test the pieces and write the readings down."),
			N_("To the test pieces"), "/bench"},
		{"part",
			N_("Enter the parts of the building and what each "
			   "must do."),
			N_("Enter the parts of the building"), "/building"},
		{"choose", N_("Decide which mix each part gets."),
			N_("Which mix for which part"), "/choose"},
		{"plan", N_("Buy, plan the days and pour."),
			N_("Buying and pouring"), "/pour"},
	};
	const struct web_request *request = page->request;

	page_heading(page, _("What comes next"));
	if (add_own_next(page, s, m))
		return;
	for (size_t i = 0; i < COUNT(steps); i++) {
		if (strcmp(steps[i].next, s->next) != 0)
			continue;
		page_say(page, steps[i].say);
		page_link(page, _(steps[i].words), steps[i].address);
	}
}

/* The whole job in its order, and how far each step is. */
static void
add_job(struct page *page, const struct work_status *s,
	const struct work_mixer *m)
{
	static const struct grid_column column[] = {
		{"step", N_("step"), "", false},
		{"so_far", N_("in the book so far"), "", true}};
	const struct work_site *site = &s->due.bench.site;
	const struct {
		const char *step, *address;
		size_t so_far;
	} steps[] = {
		{N_("1. Materials"), "/materials", site->n_material},
		{N_("2. Foam generators"), "/gear", m->n_generator},
		{N_("3. Mixes"), "/mixes", site->n_mix},
		{N_("4. Trials planned"), "/trial", site->n_trial},
		{N_("5. Batches made"), "/mixer", site->n_batch},
		{N_("6. Test pieces cast"), "/bench", site->n_specimen},
		{N_("7. Readings of tests"), "/results", site->n_reading},
		{N_("8. Parts of the building"), "/building", s->n_part},
		{N_("9. Parts that have their mix"), "/choose", s->n_decided},
		{N_("10. Batches poured into the building"), "/pour",
			m->n_placing},
	};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "job", _("How far the job is"), column,
		COUNT(column));
	for (size_t i = 0; i < COUNT(steps); i++) {
		grid_link(&grid, _(steps[i].step), steps[i].address);
		grid_number(&grid, (double)steps[i].so_far,
			page_format(page, "%zu", steps[i].so_far));
	}
	page_grid(page, &grid);
}

enum err_code
web_today(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_status status;
	struct work_mixer m;
	const char *waits;
	struct page page;

	TRY(work_status(&request->desk, request->arena, &status, err));
	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(&page, request, _("Today"), PAGE_TODAY);
	if (m.site.info.note[0] != '\0')
		page_say(&page, m.site.info.note);
	add_next(&page, &status, &m);
	page_heading(&page, _("At the bench"));
	add_due(&page, &status.due, LONG_AGO, 0, "due", _("To test today"));
	waits = first_due(&page, &status);
	if (waits != NULL)
		page_say(&page,
			page_format(&page, "%s %s.",
				_("Nothing to test today."), waits));
	if (status.due.n == 0)
		page_say(&page, _("Nothing waits for a test."));
	page_link(&page, _("All that is due"), "/due");
	page_heading(&page, _("At the mixer"));
	add_mixer(&page, &m);
	page_heading(&page, _("Out of its usual range"));
	add_alarms(&page);
	page_heading(&page, _("What the trial says so far"));
	add_trial(&page);
	add_job(&page, &status, &m);
	return page_answer(&page, reply, err);
}

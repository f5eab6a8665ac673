/* pages_record.c - the record itself: what is wrong put right, and the language
 * of the pages. */
#include "web/page.h"

#include "work/history.h"
#include "work/import.h"
#include "work/search.h"
#include "work/shelf.h"
#include "work/withdraw.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* --- Taken back. --- */

static void
fill_withdraw(struct form *form, const struct web_request *request)
{
	static const char *const kinds[] = {"material", "mix", "batch",
		"specimen", "reading", "part", "photo"};
	static const char *const shown[] = {N_("a material"), N_("a mix"),
		N_("a batch"), N_("a test piece"), N_("a reading"),
		N_("a part of the building"), N_("a photo")};

	form_start(form, request, "withdraw", "/record",
		_("Take it back, or bring it back"));
	form->heading = _("Something entered by mistake");
	form_choice(form, "kind", _("What it is"), NULL);
	for (size_t i = 0; i < COUNT(kinds); i++)
		form_choose(form, kinds[i], words(request->language, shown[i]));
	form_text(form, "code", _("Its code"),
		_("Of a reading: the piece, the test and its code, such as "
		  "K7MD drop centre."));
	form_needed(form);
	form_text(form, "because", _("Because"),
		_("It stays in the history with this reason."));
	form_needed(form);
	form_yes(form, "restore", _("Bring back what was taken back"), NULL);
}

/* --- What was written, newest first. --- */

static void
add_history(struct page *page, const struct work_history *h)
{
	static const struct grid_column column[] = {
		{"entry", N_("entry"), "", true},
		{"at", N_("when"), "UTC", false}, {"who", N_("who"), "", false},
		{"what", N_("what"), "", false},
		{"detail", N_("of what"), "", false},
		{"touched", N_("wrote"), "", false},
		{"undo", N_("undo"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "history", _("What was written, newest first"),
		column, COUNT(column));
	for (size_t i = 0; i < h->n; i++) {
		const struct work_entry *e = &h->entry[i];

		grid_number(&grid, (double)e->id,
			page_format(page, "%lld", (long long)e->id));
		grid_text(&grid, page_moment(page, e->at));
		grid_text(&grid, e->who);
		grid_text(&grid, e->what);
		grid_text(&grid, e->detail);
		grid_text(&grid, e->touched);
		if (e->can_undo)
			grid_link(&grid, _("Undo"),
				page_format(
					page, "/undo/%lld", (long long)e->id));
		else
			grid_text(&grid,
				e->undone_by > 0
					? page_format(page, "%s %lld",
						  _("undone by"),
						  (long long)e->undone_by)
					: "");
	}
	page_grid(page, &grid);
	if (h->more && h->n > 0)
		page_link(page, _("Older entries"),
			page_format(page, "/record?before=%lld",
				(long long)h->entry[h->n - 1].id));
}

static void
fill_search(struct form *form, const struct web_request *request)
{
	form_start(form, request, "search", "/search", _("Search"));
	form->gets = true;
	form_text(form, "words", _("Find by code or words"),
		_("Mixes, batches, test pieces, materials, remarks."));
}

static void
add_proof(struct page *page)
{
	const struct web_request *request = page->request;
	struct err inner = err_in(request->arena);
	size_t n = 0;

	if (work_verify(&request->desk, request->arena, &n, &inner) == ERR_NONE)
		page_say(page,
			page_format(page, "%s: %zu. %s", _("Entries"), n,
				_("Each is chained to the one before; nothing "
				  "was altered behind the record's back.")));
	else
		page_alarm(page, arena_text(request->arena, inner.text));
}

static enum err_code
show_record(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	const char *before = web_query(request, "before");
	struct work_history history;
	struct page page;
	struct form search;
	double from = 0;
	struct err odd = err_in(request->arena);

	if (before != NULL &&
		(unit_read(before, UNIT_NUMBER, NULL, &from, &odd) !=
				ERR_NONE ||
			!(from >= 0 && from < 1e15)))
		from = 0;
	TRY(work_history(&request->desk, request->arena, (int64_t)from,
		request->twin == WEB_PAGE ? WORK_HISTORY_PAGE : 0, &history,
		err));
	page_start(&page, request, _("The record"), PAGE_RECORD);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	fill_search(&search, request);
	page_form(&page, &search);
	add_proof(&page);
	add_history(&page, &history);
	page_link(&page, _("Bring in a folder of CSV files"), "/import");
	page_form(&page, form);
	return page_answer(&page, reply, err);
}

enum err_code
web_record(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;

	fill_withdraw(&form, request);
	return show_record(request, reply, &form, err);
}

/* A test, a place or a state as the book has it, where it was typed as the page
 * shows it. */
static const char *
unsaid(const struct web_request *request, const char *typed)
{
	static const char *const kept[] = {N_("bending"), N_("drop"),
		N_("crushing"), N_("weighing"), N_("soaking"), N_("rise"),
		N_("shrinkage"), N_("screw"), N_("frost"), N_("hot box"),
		N_("other"), N_("centre"), N_("edge"), N_("corner"),
		N_("as cast"), N_("at test"), N_("air dry"), N_("oven dry"),
		N_("saturated"), N_("in water")};

	for (size_t i = 0; i < COUNT(kept); i++)
		if (strcmp(words(request->language, kept[i]), typed) == 0)
			return kept[i];
	return typed;
}

/* How many bytes of typed the test at its start takes, in the book's words or the
 * page's: "hot box" has a space in it.  Any other: up to the next space. */
static size_t
test_bytes(const struct web_request *request, const char *typed)
{
	static const char *const spaced = N_("hot box");
	const char *const name[] = {spaced, words(request->language, spaced)};

	for (size_t i = 0; i < COUNT(name); i++) {
		size_t n = strlen(name[i]);

		if (strncmp(typed, name[i], n) == 0 &&
			(typed[n] == ' ' || typed[n] == '\0'))
			return n;
	}
	return strcspn(typed, " ");
}

/* The words of a code: a reading has three, the last may hold spaces. */
static bool
split_words(const struct web_request *request, struct work_withdraw *ask)
{
	const char *code = web_given(request, "code");
	char *copy = code != NULL ? arena_text(request->arena, code) : NULL;

	while (copy != NULL && *copy != '\0') {
		size_t n = ask->n_word == 1 && strcmp(ask->kind, "reading") == 0
			? test_bytes(request, copy)
			: strcspn(copy, " ");
		bool last = copy[n] == '\0' ||
			ask->n_word + 1 == WITHDRAW_WORDS;

		if (ask->n_word == WITHDRAW_WORDS)
			return false;
		if (n > 0)
			ask->word[ask->n_word++] = copy;
		if (last)
			break;
		copy[n] = '\0';
		copy += n + 1;
	}
	for (size_t i = 1; i < ask->n_word; i++)
		ask->word[i] = unsaid(request, ask->word[i]);
	return ask->n_word > 0;
}

enum err_code
web_record_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *kind = web_given(request, "kind");
	const char *because = web_given(request, "because");
	struct work_withdraw ask = {.kind = kind != NULL ? kind : "",
		.because = because,
		.restore = web_given(request, "restore") != NULL};
	struct err inner = err_in(request->arena);
	struct form form;

	fill_withdraw(&form, request);
	if (kind == NULL)
		form_fault_at(&form, "kind", _("This is needed."));
	else if (!split_words(request, &ask))
		form_fault_at(&form, "code", _("This is needed."));
	else if (because == NULL)
		form_fault_at(&form, "because", _("This is needed."));
	else if (work_withdraw(&request->desk, request->arena, &ask, &inner) ==
		ERR_NONE) {
		reply->see_other = "/record?saved=1";
		return ERR_NONE;
	} else {
		form_fault(&form, &inner);
	}
	return show_record(request, reply, &form, err);
}

/* --- Undo. --- */

static enum err_code
find_entry(const struct web_request *request, int64_t *id, struct err *err)
{
	struct work_history last;
	double typed = 0;

	if (strcmp(request->tail, "last") != 0) {
		TRY(unit_read(request->tail, UNIT_NUMBER, NULL, &typed, err));
		if (!(typed >= 1 && typed < 1e15))
			return err_report(err, ERR_NOT_FOUND, "entry",
				"There is no such entry.");
		*id = (int64_t)typed;
		return ERR_NONE;
	}
	TRY(work_history(&request->desk, request->arena, 0, 1, &last, err));
	if (last.n == 0)
		return err_report(err, ERR_NOT_FOUND, "entry",
			"Nothing was written yet.");
	*id = last.entry[0].id;
	return ERR_NONE;
}

/* What stands in the way of an undoing, as far as it is seen before one tries:
 * a page only reads.  NULL: nothing. */
static const char *
why_it_stays(struct page *page, const struct work_entry *e)
{
	const struct web_request *request = page->request;

	if (e->can_undo)
		return NULL;
	return e->undone_by > 0
		? page_format(page, "%s %lld.", _("It was undone by entry"),
			  (long long)e->undone_by)
		: _("The beginning of the book stays.");
}

enum err_code
web_undo(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_history history;
	const char *why;
	struct page page;
	struct form form;
	int64_t id = 0;

	TRY(find_entry(request, &id, err));
	TRY(work_history(
		&request->desk, request->arena, id + 1, 1, &history, err));
	if (history.n == 0 || history.entry[0].id != id)
		return err_report(
			err, ERR_NOT_FOUND, "entry", "There is no such entry.");
	page_start(&page, request,
		text_format(request->arena, "%s %lld", _("Undo entry"),
			(long long)id),
		PAGE_RECORD);
	why = why_it_stays(&page, &history.entry[0]);
	if (why == NULL) {
		page_say(&page,
			page_format(&page, "%s %s", _("It wrote:"),
				history.entry[0].touched));
		page_say(&page,
			_("Undoing puts back what stood there before. Nothing "
			  "is deleted: the entry stays in the record, and "
			  "undoing can itself be undone."));
		form_start(&form, request, "undo",
			text_format(
				request->arena, "/undo/%lld", (long long)id),
			_("Undo"));
		page_form(&page, &form);
	} else {
		page_alarm(&page, why);
	}
	page_link(&page, _("To the record"), "/record");
	return page_answer(&page, reply, err);
}

enum err_code
web_undo_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_undo ask = {.dry_run = false};
	struct work_undone told;

	TRY(find_entry(request, &ask.entry, err));
	TRY(work_undo(&request->desk, request->arena, &ask, &told, err));
	reply->see_other = "/record?saved=1";
	return ERR_NONE;
}

/* --- Search. --- */

static const char *
address_of_hit(const struct web_request *request, const struct work_hit *hit)
{
	static const struct {
		const char *kind, *route;
	} routes[] = {{"mix", "/mix/"}, {"batch", "/batch/"},
		{"specimen", "/piece/"}, {"part", "/part/"},
		{"generator", "/foam/"}, {"material", "/materials?code="}};

	for (size_t i = 0; i < COUNT(routes); i++)
		if (strcmp(routes[i].kind, hit->kind) == 0)
			return web_at(request, routes[i].route, hit->name);
	return NULL;
}

enum err_code
web_search(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	static const struct grid_column column[] = {
		{"name", N_("found"), "", false},
		{"what", N_("what"), "", false},
		{"text", N_("words"), "", false}};
	const char *asked = web_query(request, "words");
	const struct work_search ask = {.words = asked != NULL ? asked : "",
		.n_most = WORK_SEARCH_PAGE};
	struct work_found found = {.n = 0};
	struct err inner = err_in(request->arena);
	struct page page;
	struct form form;
	struct grid grid;

	page_start(&page, request, _("Search"), PAGE_RECORD);
	fill_search(&form, request);
	if (asked != NULL &&
		work_search(&request->desk, request->arena, &ask, &found,
			&inner) != ERR_NONE)
		form_fault_at(&form, "words", inner.text);
	page_form(&page, &form);
	page_table(&page, &grid, "found", _("Found"), column, COUNT(column));
	for (size_t i = 0; i < found.n; i++) {
		grid_link(&grid, found.hit[i].name,
			address_of_hit(request, &found.hit[i]));
		grid_text(&grid, _(found.hit[i].what));
		grid_text(&grid, found.hit[i].text);
	}
	if (found.n > 0)
		page_grid(&page, &grid);
	else if (asked != NULL)
		page_say(&page, _("Nothing of that name or with those words."));
	if (found.more)
		page_say(&page, _("There is more; give another word."));
	return page_answer(&page, reply, err);
}

/* --- A folder of CSV files. --- */

static void
fill_import(struct form *form, const struct web_request *request)
{
	form_start(form, request, "import", "/import",
		_("Look what it would bring in"));
	form_file(form, "files", _("CSV files"),
		_("Of materials.csv, lots.csv, mixes.csv, trial.csv, "
		  "rules.csv, batches.csv, specimens.csv, readings.csv and "
		  "parts.csv those you have; the first line of each names its "
		  "columns, a unit stands there or in the cell. Look first: "
		  "each cell that lacks or is not understood is named."),
		true);
	form_yes(form, "do", _("Bring it in now"),
		_("Without this it is only looked at; nothing is stored."));
}

static void
add_faults(struct page *page, const struct work_imported *got)
{
	static const struct grid_column column[] = {
		{"file", N_("file"), "", false}, {"line", N_("line"), "", true},
		{"column", N_("column"), "", true},
		{"field", N_("field"), "", false},
		{"fault", N_("what is wrong"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "faults", _("Cells to be mended"), column,
		COUNT(column));
	for (size_t i = 0; i < got->n_fault; i++) {
		const struct work_import_fault *f = &got->fault[i];

		grid_text(&grid, f->file);
		grid_number(&grid, (double)f->line,
			page_format(page, "%zu", f->line));
		grid_number(&grid, (double)f->column,
			page_format(page, "%zu", f->column));
		grid_text(&grid, f->field);
		grid_text(&grid, f->text);
	}
	if (got->n_fault > 0)
		page_grid(page, &grid);
}

static void
add_counts(struct page *page, const struct work_imported *got)
{
	static const struct grid_column column[] = {
		{"what", N_("what"), "", false}, {"new", N_("new"), "", true},
		{"changed", N_("changed"), "", true},
		{"same", N_("as before"), "", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "counts", _("What it brings in"), column,
		COUNT(column));
	for (size_t i = 0; i < got->n_count; i++) {
		const struct work_import_count *c = &got->count[i];
		const size_t n[] = {c->n_new, c->n_changed, c->n_same};

		grid_text(&grid, c->what);
		for (size_t k = 0; k < COUNT(n); k++)
			grid_number(&grid, (double)n[k],
				page_format(page, "%zu", n[k]));
	}
	if (got->n_count > 0)
		page_grid(page, &grid);
}

static void
add_readings(struct page *page, const struct work_imported *got)
{
	static const struct grid_column column[] = {
		{"file", N_("file"), "", false},
		{"heading", N_("column"), "", false},
		{"typed", N_("the first figure"), "", false},
		{"read", N_("is understood as"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "readings", _("How figures were read"), column,
		COUNT(column));
	for (size_t i = 0; i < got->n_reading; i++) {
		grid_text(&grid, got->reading[i].file);
		grid_text(&grid, got->reading[i].heading);
		grid_text(&grid, got->reading[i].typed);
		grid_text(&grid, got->reading[i].read);
	}
	if (got->n_reading > 0)
		page_grid(page, &grid);
}

enum err_code
web_import(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct page page;
	struct form form;

	page_start(&page, request, _("Bring in CSV files"), PAGE_RECORD);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Brought in."), "/undo/last");
	fill_import(&form, request);
	page_form(&page, &form);
	return page_answer(&page, reply, err);
}

enum err_code
web_import_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_import_file *file = arena_take(
		request->arena, request->n_field, sizeof *file);
	struct work_import ask = {
		.file = file, .dry_run = web_given(request, "do") == NULL};
	struct work_imported got = {.n_fault = 0};
	struct err inner = err_in(request->arena);
	struct page page;
	struct form form;

	if (file == NULL)
		return err_memory(err);
	for (size_t i = 0; i < request->n_field; i++)
		if (request->field[i].file != NULL && request->field[i].n > 0)
			file[ask.n_file++] = (struct work_import_file){
				request->field[i].file, request->field[i].value,
				request->field[i].n};
	fill_import(&form, request);
	if (ask.n_file == 0)
		form_fault_at(&form, "files", _("Choose the files."));
	else if (work_import(&request->desk, request->arena, &ask, &got,
			 &inner) != ERR_NONE)
		form_fault_at(&form, "files", inner.text);
	else if (!ask.dry_run) {
		reply->see_other = "/import?saved=1";
		return ERR_NONE;
	}
	page_start(&page, request, _("Bring in CSV files"), PAGE_RECORD);
	add_faults(&page, &got);
	add_counts(&page, &got);
	add_readings(&page, &got);
	for (size_t i = 0; i < got.n_warning; i++)
		page_say(&page, got.warning[i]);
	if (ask.dry_run && !form_has_fault(&form))
		page_say(&page,
			_("Nothing is stored yet. Choose the files again with "
			  "the box ticked to bring them in."));
	page_form(&page, &form);
	return page_answer(&page, reply, err);
}

/* Where a browser is led whose entry was recorded in an earlier run. */
enum err_code
web_recorded(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct page page;

	page_start(&page, request, _("Recorded already"), PAGE_TODAY);
	page_say(&page,
		_("This entry was recorded before; it is in the book once."));
	page_link(&page, _("To Today"), "/today");
	return page_answer(&page, reply, err);
}

/* --- The language of the pages. --- */

/* Where the reader came from, if that is one of our pages. */
static const char *
came_from(const struct web_request *request)
{
	const char *back = web_query(request, "back");

	if (back == NULL || back[0] != '/' || back[1] == '/')
		return "/today";
	for (const char *p = back; *p != '\0'; p++)
		if (*p <= ' ' || *p == '\\' || *p >= 0x7F)
			return "/today";
	return back;
}

enum err_code
web_language(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *language = words_language(request->tail);

	reply->cookie = text_format(request->arena,
		"language=%s; Path=/; Max-Age=31536000; SameSite=Strict; "
		"HttpOnly",
		language);
	reply->see_other = came_from(request);
	return reply->cookie != NULL ? ERR_NONE : err_memory(err);
}

enum err_code
web_units(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	bool both = strcmp(request->tail, "both") == 0;

	if (!both && strcmp(request->tail, "metric") != 0)
		return err_report(err, ERR_NOT_FOUND, "",
			"Units are shown \"metric\" or \"both\".");
	reply->cookie = text_format(request->arena,
		"units=%s; Path=/; Max-Age=31536000; SameSite=Strict; "
		"HttpOnly",
		both ? "both" : "metric");
	reply->see_other = came_from(request);
	return reply->cookie != NULL ? ERR_NONE : err_memory(err);
}

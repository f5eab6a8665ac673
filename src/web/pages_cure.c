/* pages_cure.c - how batches cured, by what was said or logged, and how old that
 * makes them. */
#include "web/page.h"

#include "core/date.h"
#include "web/mixer.h"
#include "work/cure.h"
#include "work/fields.h"
#include "work/trace.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static const char *
keeping_word(const struct web_request *request, const char *keeping)
{
	static const char *const known[] = {
		N_("wrapped"), N_("moist"), N_("in water"), N_("in the air")};
	static const char *const value[] = {"wrapped", "moist", "water", "air"};

	for (size_t i = 0; i < COUNT(value); i++)
		if (is(value[i], keeping))
			return words(request->language, known[i]);
	return NULL;
}

/* --- All batches. --- */

static void
add_batches(struct page *page, const struct work_site *site,
	const struct work_cures *cures)
{
	static const struct grid_column column[] = {
		{"batch", N_("batch"), "", false},
		{"mix", N_("mix"), "", false},
		{"until", N_("known until"), "", false},
		{"days", N_("after casting"), "d", true},
		{"temperature", N_("temperature, on average"), "degC", true},
		{"equivalent", N_("as if at 20 degC"), "d", true},
		{"known", N_("of that time known"), "%", true},
		{"keeping", N_("kept"), "", false}};
	const struct web_request *request = page->request;
	const char *trace = web_query(request, "trace");
	struct grid grid;

	page_table(page, &grid, "cures", _("How the batches cured"), column,
		COUNT(column));
	for (size_t i = 0; i < site->n_batch; i++) {
		const char *code = site->batch[i].code;
		struct work_cure_reach r = {.until = NULL};
		bool has = work_cure_reach(request->arena, site, cures, i, &r);

		if (site->batch[i].made_on[0] == '\0')
			continue;
		grid_link(&grid, code,
			trace != NULL
				? page_format(page, "%s%s",
					  web_at(request, "/cure/", code),
					  web_at(request, "?trace=", trace))
				: web_at(request, "/cure/", code));
		grid_text(&grid, site->mix[site->batch_mix[i]].code);
		grid_text(&grid, has ? r.until : NULL);
		grid_number(&grid, has ? r.days : (double)NAN,
			page_format(page, "%.1f", r.days));
		grid_number(&grid, has ? r.cured.mean_degC : (double)NAN,
			page_format(page, "%.1f", r.cured.mean_degC));
		grid_number(&grid,
			has && r.cured.is_usable ? r.equivalent_days
						 : (double)NAN,
			page_format(page, "%.1f", r.equivalent_days));
		grid_number(&grid,
			has ? r.cured.known_ratio * 100 : (double)NAN,
			page_format(page, "%.0f", r.cured.known_ratio * 100));
		grid_text(&grid,
			has ? keeping_word(request, r.cured.keeping) : NULL);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page, _("No batch was made yet."));
}

enum err_code
web_cures(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_mixer m;
	struct work_cures cures;
	struct page page;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	TRY(work_cures(&request->desk, request->arena, &cures, err));
	page_start(&page, request, _("How the batches cured"), PAGE_BENCH);
	page_say(&page,
		_("28 days in the cold are not 28 days. What is known of the "
		  "store turns ages into days as if at 20 degC. Open a batch "
		  "to say how it lay."));
	add_batches(&page, &m.site, &cures);
	page_link(&page, _("Loggers' files"), "/traces");
	page_link(&page, _("To the bench"), "/bench");
	return page_answer(&page, reply, err);
}

/* --- One batch. --- */

struct cure_forms {
	struct form said, log;
};

static void
add_span(struct form *form, const struct web_request *request,
	const char *empty_from, const char *empty_to)
{
	form_date(form, "from", _("From"), empty_from);
	form_date(form, "to", _("Until"), empty_to);
}

static void
add_keeping(
	struct form *form, const struct web_request *request, const char *trial)
{
	static const char *const value[] = {"wrapped", "moist", "water", "air"};

	form_choice(form, "keeping", _("How it was kept"), NULL);
	for (size_t i = 0; i < COUNT(value); i++)
		form_choose(form, value[i], keeping_word(request, value[i]));
	form_text(form, "remark", _("Remark"), NULL);
	form_text(form, "code", _("Number of an entry, to put it right"),
		_("Empty: a new entry."));
	if (trial != NULL)
		form_yes(form, "all",
			text_format(request->arena, "%s %s",
				_("So lay every made batch of trial"), trial),
			NULL);
}

static void
fill_said(struct form *form, const struct web_request *request,
	const char *action, const char *trial)
{
	form_start(form, request, "said", action, _("Record how warm it lay"));
	form->heading = _("How warm it lay");
	form_number(form, "temperature", _("Temperature"), "degC degF",
		_("On average over that while."));
	form_needed(form);
	add_span(form, request, _("Empty: from casting on."),
		_("A day, or a day and an hour."));
	form_needed(form);
	add_keeping(form, request, trial);
}

static void
fill_log(struct form *form, const struct web_request *request,
	const char *action, const char *trial, const struct work_traces *traces)
{
	form_start(form, request, "log", action, _("Record that it lay there"));
	form->heading = _("Or by a thermometer's log");
	form_choice(form, "trace", _("Which log"), NULL);
	form_needed(form);
	for (size_t i = traces->n_trace, n = 0;
		i-- > 0 && n < FORM_CHOICES_MOST;)
		if (is(traces->trace[i].kind, "temperature")) {
			form_choose(form, traces->trace[i].code,
				traces->trace[i].code);
			n++;
		}
	form_date(form, "start", _("When a log without dates began"),
		_("Empty: at casting."));
	add_span(form, request, _("Empty: from casting or from its first row."),
		_("Empty: to its last row."));
	add_keeping(form, request, trial);
}

static bool
has_log(const struct work_traces *traces)
{
	for (size_t i = 0; i < traces->n_trace; i++)
		if (is(traces->trace[i].kind, "temperature"))
			return true;
	return false;
}

static const char *
moment_text(struct page *page, int64_t at_s)
{
	char moment[DATE_TEXT_MAX];

	date_write(at_s, moment);
	return page_moment(page, page_format(page, "%s", moment));
}

static const struct book_trace *
trace_of(const struct work_traces *traces, int64_t id)
{
	for (size_t i = 0; i < traces->n_trace; i++)
		if (traces->trace[i].row.id == id)
			return &traces->trace[i];
	return NULL;
}

static void
add_whiles(struct page *page, const struct work_cures *cures,
	const struct work_traces *traces, int64_t batch_id)
{
	static const struct grid_column column[] = {
		{"number", N_("number"), "", false},
		{"from", N_("from"), "", false}, {"to", N_("until"), "", false},
		{"temperature", N_("temperature"), "degC", true},
		{"log", N_("by the log"), "", false},
		{"keeping", N_("kept"), "", false},
		{"remark", N_("remark"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "whiles", _("What was entered"), column,
		COUNT(column));
	for (size_t i = 0; i < cures->n_cure; i++) {
		const struct book_cure *c = &cures->cure[i];
		const struct book_trace *log = trace_of(traces, c->trace_id);

		if (c->batch_id != batch_id)
			continue;
		grid_text(&grid, c->code);
		grid_text(&grid, moment_text(page, c->from_s));
		grid_text(&grid, moment_text(page, c->to_s));
		grid_number(&grid, c->degc.has ? c->degc.value : (double)NAN,
			page_format(page, "%.3g", c->degc.value));
		if (log != NULL)
			grid_link(&grid, log->code,
				web_at(request, "/trace/", log->code));
		else
			grid_text(&grid, NULL);
		grid_text(&grid, keeping_word(request, c->keeping));
		grid_text(&grid, c->remark[0] != '\0' ? c->remark : NULL);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

/* What the page stands on. */
struct curing {
	struct work_mixer m;
	struct work_cures cures;
	struct work_traces traces;
	size_t batch;
	const char *code, *trial; /* trial NULL: of none */
};

static enum err_code
read_curing(
	const struct web_request *request, struct curing *c, struct err *err)
{
	const struct work_site *s = &c->m.site;

	TRY(work_mixer_read(&request->desk, request->arena, &c->m, err));
	TRY(work_cures(&request->desk, request->arena, &c->cures, err));
	TRY(work_traces(&request->desk, request->arena, &c->traces, err));
	TRY(work_find_batch(&c->m, request->tail, &c->batch, err));
	c->code = s->batch[c->batch].code;
	for (size_t i = 0; i < s->n_trial; i++)
		if (s->trial[i].row.id == s->batch[c->batch].trial_id)
			c->trial = s->trial[i].code;
	return ERR_NONE;
}

static void
fill_forms(struct cure_forms *forms, const struct web_request *request,
	const struct curing *c)
{
	const char *action = web_at(request, "/cure/", c->code);

	fill_said(&forms->said, request, action, c->trial);
	fill_log(&forms->log, request, action, c->trial, &c->traces);
}

static void
add_forms(struct page *page, const struct curing *c,
	const struct cure_forms *forms)
{
	const struct web_request *request = page->request;

	if (c->m.site.batch[c->batch].made_on[0] == '\0') {
		page_say(page,
			_("This batch has no date yet: what it was made on is "
			  "recorded at the mixer, and curing counts from "
			  "there."));
		page_link(page, _("To the batch"),
			web_at(request, "/batch/", c->code));
		return;
	}
	page_form(page, &forms->said);
	if (has_log(&c->traces))
		page_form(page, &forms->log);
	page_link(page, _("Bring in a thermometer's file"),
		web_at(request, "/traces?kind=temperature&cure=", c->code));
}

static enum err_code
show_cure(const struct web_request *request, struct web_reply *reply,
	const struct curing *c, const struct cure_forms *forms, struct err *err)
{
	const char *const *sentence;
	struct page page;
	size_t n;

	TRY(work_cure_say(request->arena, &c->m.site, &c->cures, c->batch,
		&sentence, &n, err));
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("How it cured: batch"),
			c->code),
		PAGE_BENCH);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	for (size_t i = 0; i < n; i++)
		page_say(&page, sentence[i]);
	if (n == 0)
		page_say(&page,
			_("Nothing is known of how it cured: its ages are "
			  "taken as if it lay at 20 degC."));
	add_whiles(
		&page, &c->cures, &c->traces, c->m.site.batch[c->batch].row.id);
	add_forms(&page, c, forms);
	page_link(&page, _("To the other batches"), "/cure");
	return page_answer(&page, reply, err);
}

enum err_code
web_cure(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct curing c = {.trial = NULL};
	struct cure_forms forms;

	TRY(read_curing(request, &c, err));
	fill_forms(&forms, request, &c);
	return show_cure(request, reply, &c, &forms, err);
}

#define AT(member) offsetof(struct work_cure_ask, member)
static const struct field cure_fields[] = {
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"from", FIELD_DATE, UNIT_NUMBER, AT(from)},
	{"to", FIELD_DATE, UNIT_NUMBER, AT(to)},
	{"temperature", FIELD_MAYBE, UNIT_TEMPERATURE, AT(degc)},
	{"trace", FIELD_TEXT, UNIT_NUMBER, AT(trace)},
	{"start", FIELD_DATE, UNIT_NUMBER, AT(start)},
	{"keeping", FIELD_TEXT, UNIT_NUMBER, AT(keeping)},
	{"remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
};
#undef AT

/* What must be said, beside its field. */
static bool
has_all(const struct work_cure_ask *ask, struct form *form, bool by_log)
{
	const struct web_request *request = form->request;
	bool said = by_log ? ask->trace != NULL : ask->degc.has;

	if (!said)
		form_fault_at(form, by_log ? "trace" : "temperature",
			_("This is needed."));
	if (!by_log && ask->to == NULL)
		form_fault_at(form, "to", _("This is needed."));
	return said && (by_log || ask->to != NULL);
}

enum err_code
web_cure_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form");
	bool by_log = id != NULL && is(id, "log");
	struct work_cure_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	struct curing c = {.trial = NULL};
	struct cure_forms forms;
	struct work_cure_told told;
	struct form *form;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(read_curing(request, &c, err));
	fill_forms(&forms, request, &c);
	form = by_log ? &forms.log : &forms.said;
	if (c.trial != NULL && web_given(request, "all") != NULL)
		ask.trial = c.trial;
	else
		ask.batch = c.code;
	if (form_read(request, cure_fields, COUNT(cure_fields), &ask, form) &&
		has_all(&ask, form, by_log)) {
		if (work_cure_put(&request->desk, request->arena, &ask, &told,
			    &inner) == ERR_NONE) {
			reply->see_other = text_format(request->arena,
				"%s?saved=1",
				web_at(request, "/cure/", c.code));
			return reply->see_other != NULL ? ERR_NONE
							: err_memory(err);
		}
		form_fault(form, &inner);
	}
	return show_cure(request, reply, &c, &forms, err);
}

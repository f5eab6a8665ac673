/* pages_trace.c - a logger's file brought in: looked at, told, asked about, and
 * only then kept. */
#include "web/pages_trace.h"

#include "web/trace_form.h"
#include "web/trace_shown.h"
#include "work/bytes.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { SUM_SHOWN = 12 };

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

/* --- Those there are. --- */

static const struct book_specimen *
piece_of(const struct work_site *site, const struct book_trace *x,
	const char **batch)
{
	for (size_t i = 0; i < site->n_specimen; i++)
		if (site->specimen[i].row.id == x->specimen_id) {
			*batch = site->batch[site->specimen_batch[i]].code;
			return &site->specimen[i];
		}
	*batch = NULL;
	return NULL;
}

static const char *
kind_word(const struct web_request *request, const char *kind)
{
	return is(kind, "load")    ? _("load")
		: is(kind, "blow") ? _("blow")
				   : _("temperature");
}

void
trace_blocks(struct page *page, const struct work_traces *traces,
	const struct trace_choice *choice)
{
	static const struct grid_column column[] = {
		{"trace", N_("trace"), "", false},
		{"kind", N_("of what"), "", false},
		{"piece", N_("test piece"), "", false},
		{"rows", N_("rows"), "", true}, {"file", N_("file"), "", false},
		{"size", N_("size"), "kB", true},
		{"checksum", N_("checksum"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "traces", _("Loggers' files"), column,
		COUNT(column));
	for (size_t i = traces->n_trace; i-- > 0;) {
		const struct book_trace *x = &traces->trace[i];
		const struct book_file *file = work_trace_file(traces, x);
		const char *batch;
		const struct book_specimen *piece = piece_of(
			&traces->site, x, &batch);
		double kilobytes = file != NULL ? (double)file->bytes / 1e3
						: (double)NAN;

		if ((choice->piece != NULL &&
			    (piece == NULL ||
				    !is(piece->code, choice->piece))) ||
			(choice->batch != NULL &&
				(batch == NULL || !is(batch, choice->batch))))
			continue;
		grid_link(&grid, x->code, web_at(request, "/trace/", x->code));
		grid_text(&grid, kind_word(request, x->kind));
		if (piece != NULL)
			grid_link(&grid, piece->code,
				web_at(request, "/piece/", piece->code));
		else
			grid_text(&grid, NULL);
		grid_number(&grid, (double)x->rows,
			page_format(page, "%lld", (long long)x->rows));
		grid_text(&grid, file != NULL ? file->name : NULL);
		grid_number(
			&grid, kilobytes, page_format(page, "%.1f", kilobytes));
		grid_text(&grid,
			file != NULL ? page_format(page, "%.*s", SUM_SHOWN,
					       file->code)
				     : NULL);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

/* --- Asked. --- */

/* What was understood, in a line: what is kept must be what was shown. */
static const char *
seen_text(const struct web_request *request, const struct work_trace_look *look)
{
	const struct book_trace *x = &look->row;

	return text_format(request->arena,
		"%s; %s; %.17g; %.17g; %.17g; %.17g; %lld; %lld", x->kind,
		x->how, x->first_s, x->last_s, x->lowest, x->highest,
		(long long)x->rows, (long long)x->skipped);
}

/* A page as it is put together. */
struct looking {
	const struct web_request *request;
	struct carried carried;
	enum lab_trace_kind kind;
	struct work_trace_ask ask;
	struct work_trace_look look;
	struct work_traces traces;
	bool has_look, is_accepted; /* that can be kept */
	bool asks;                  /* how to read it, too */
};

static enum err_code
show_look(struct looking *l, struct form *form, struct web_reply *reply,
	struct err *err)
{
	const struct web_request *request = l->request;
	struct page page;

	page_start(&page, request, _("From a logger"), PAGE_BENCH);
	page_say(&page,
		l->is_accepted
			? _("Nothing is kept yet. Look whether the file was "
			    "read as you meant it, then keep it.")
			: l->has_look && l->look.found.n_column == 0
			? _("Nothing is kept. This file cannot be read.")
			: _("Nothing is kept yet. The file stays here while "
			    "you say what it does not."));
	if (l->has_look)
		trace_understood(&page, &l->look);
	if (l->has_look && l->look.is_read) {
		trace_rows(&page, l->kind, &l->look);
		page_heading(&page, _("What it would say"));
		for (size_t i = 0; i < l->look.n_sentence; i++)
			page_say(&page, l->look.sentence[i]);
		if (l->is_accepted && l->ask.test != NULL)
			page_say(&page,
				_("Kept so, its highest load becomes the "
				  "reading of the test that you chose; one "
				  "that the piece has already stays in the "
				  "history."));
	}
	trace_lines(&page, &l->carried);
	page_form(&page, form);
	page_link(&page, _("To the loggers' files"), "/traces");
	return page_answer(&page, reply, err);
}

static enum err_code
show_traces(const struct web_request *request, struct web_reply *reply,
	const struct form *form, struct err *err)
{
	const struct trace_choice choice = {
		.piece = web_query(request, "piece")};
	struct work_traces traces;
	struct page page;

	TRY(work_traces(&request->desk, request->arena, &traces, err));
	page_start(&page, request, _("From a logger"), PAGE_BENCH);
	page_say(&page,
		_("A load cell, an accelerometer on the bar, a thermometer in "
		  "the store: the file is kept byte for byte. Before that you "
		  "see how it was read."));
	page_caution(&page,
		_("Keep clear of a beam that is about to fall while you watch "
		  "a screen."));
	trace_blocks(&page, &traces, &choice);
	page_form(&page, form);
	page_link(&page, _("How the batches cured"), "/cure");
	page_link(&page, _("To the bench"), "/bench");
	return page_answer(&page, reply, err);
}

enum err_code
web_traces(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;

	trace_form(&form, request, NULL);
	return show_traces(request, reply, &form, err);
}

/* Where it goes once it is kept: to the curing that it was brought in for. */
static const char *
led_to(const struct web_request *request, const char *code)
{
	const char *cure = web_given(request, "cure");

	return cure != NULL ? text_format(request->arena, "%s%s",
				      web_at(request, "/cure/", cure),
				      web_at(request, "?trace=", code))
			    : text_format(request->arena, "%s?saved=1",
				      web_at(request, "/trace/", code));
}

/* Kept if that was asked for, and what was shown is what would be. */
static enum err_code
keep(struct looking *l, const struct book_source *source, struct form *form,
	struct web_reply *reply, struct err *err)
{
	const struct web_request *request = l->request;
	const char *seen = web_given(request, "seen");
	const char *now = seen_text(request, &l->look);
	struct err inner = err_in(request->arena);
	struct work_trace_told told;

	if (now == NULL)
		return err_memory(err);
	form_press(form, "do", "look", _("Look again"));
	if (!l->asks)
		form_press(form, "do", "other", _("It was read wrongly"));
	form->button = _("Keep it");
	form_hidden(form, "seen", now);
	if (seen == NULL || web_given(request, "do") != NULL)
		return ERR_NONE;
	if (!is(seen, now)) {
		form->error = _("With what you changed the file reads "
				"otherwise than was shown. Look at it again, "
				"then keep it.");
		return ERR_NONE;
	}
	if (work_trace_put(&request->desk, request->arena, source, &l->ask,
		    &told, &inner) != ERR_NONE) {
		form_fault(form, &inner);
		return ERR_NONE;
	}
	reply->see_other = led_to(request, told.row.code);
	return reply->see_other != NULL ? ERR_NONE : err_memory(err);
}

static enum err_code
look_at(struct looking *l, struct form *form, struct web_reply *reply,
	struct err *err)
{
	const struct web_request *request = l->request;
	struct work_bytes bytes = {l->carried.bytes, l->carried.n, 0};
	const struct book_source source = work_bytes_source(&bytes);
	struct err inner = err_in(request->arena);
	struct form unasked; /* faults go to the form that is shown */
	const char *pressed = web_given(request, "do");
	enum err_code code;

	l->ask = (struct work_trace_ask){
		.name = l->carried.name, .typed = form_as_typed(request)};
	if (l->ask.typed == NULL)
		return err_memory(err);
	trace_form(&unasked, request, NULL);
	l->has_look = trace_read(request, &l->ask, &unasked);
	l->ask.how.kind = l->kind;
	/* What cannot be read as typed is left out of the look. */
	code = work_trace_look(&request->desk, request->arena, &source, &l->ask,
		&l->look, &inner);
	if (code == ERR_MEMORY)
		return err_memory(err);
	l->is_accepted = code == ERR_NONE && l->has_look;
	l->asks = !l->look.is_read || (pressed != NULL && is(pressed, "other"));
	if (l->look.found.n_column > 0)
		trace_whole_form(form, request,
			&(struct trace_asked){l->kind, &l->look.found,
				&l->traces.site, &l->carried, l->asks});
	else /* nothing to ask about: another file is needed */
		trace_form(form, request, NULL);
	if (!l->has_look)
		(void)trace_read(request, &l->ask, form);
	else if (code != ERR_NONE)
		form_fault(form, &inner);
	l->has_look = true;
	return l->is_accepted ? keep(l, &source, form, reply, err) : ERR_NONE;
}

enum err_code
web_traces_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct looking *l = arena_take(request->arena, 1, sizeof *l);
	struct err inner = err_in(request->arena);
	struct form form;

	if (l == NULL)
		return err_memory(err);
	l->request = request;
	TRY(work_traces(&request->desk, request->arena, &l->traces, err));
	if (carry_read(request, &l->carried, &inner) != ERR_NONE) {
		trace_form(&form, request, NULL);
		form_fault(&form, &inner);
		return show_traces(request, reply, &form, err);
	}
	if (l->carried.bytes == NULL) {
		trace_form(&form, request, NULL);
		form_fault_at(&form, "file", _("Choose the file."));
		return show_traces(request, reply, &form, err);
	}
	if (trace_kind(request, &l->kind)) {
		TRY(look_at(l, &form, reply, err));
		if (reply->see_other != NULL)
			return ERR_NONE;
	} else {
		trace_form(&form, request, &l->carried);
		form_fault_at(&form, "kind", _("This is needed."));
	}
	return show_look(l, &form, reply, err);
}

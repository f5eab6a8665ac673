/* pages_trace.c - a logger's file brought in: looked at, told, asked about, and
 * only then kept. */
#include "web/pages_trace.h"

#include "core/date.h"
#include "web/carry.h"
#include "work/bench.h"
#include "work/bytes.h"
#include "work/trace_how.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { LINES_SHOWN = 8, LINE_SHOWN = 100, SUM_SHOWN = 12, DIGITS = 6 };

static const char *const kinds[] = {[LAB_TRACE_LOAD] = "load",
	[LAB_TRACE_BLOW] = "blow",
	[LAB_TRACE_TEMPERATURE] = "temperature"};

static const struct {
	const char *label, *units; /* of the figures */
} kind_shown[] = {[LAB_TRACE_LOAD] = {N_("a load cell"), "N kN kg lb lbf kgf"},
	[LAB_TRACE_BLOW] = {N_("an accelerometer on the bar"), "m/s2 g"},
	[LAB_TRACE_TEMPERATURE] = {N_("a thermometer"), "degC degF"}};

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static bool
read_kind(const struct web_request *request, enum lab_trace_kind *kind)
{
	const char *typed = web_given(request, "kind");

	for (size_t i = 0; typed != NULL && i < COUNT(kinds); i++)
		if (is(kinds[i], typed)) {
			*kind = (enum lab_trace_kind)i;
			return true;
		}
	return false;
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

/* --- The form, first short, then with all that a file may not say. --- */

static void
add_kinds(struct form *form, const struct web_request *request)
{
	form_choice(form, "kind", _("What it felt"), NULL);
	form_needed(form);
	for (size_t i = 0; i < COUNT(kinds); i++)
		form_choose(form, kinds[i],
			words(request->language, kind_shown[i].label));
}

static void
start(struct form *form, const struct web_request *request, const char *button)
{
	const char *cure = request->method == WEB_POST
		? web_given(request, "cure")
		: web_query(request, "cure");

	form_start(form, request, "trace", "/traces", button);
	form->carries = true;
	if (cure != NULL)
		form_hidden(form, "cure", cure);
	add_kinds(form, request);
	form_text(form, "piece", _("Marking of the test piece"),
		_("Empty for a thermometer in the store."));
}

static void
add_file(struct form *form, const struct web_request *request,
	const struct carried *carried)
{
	form_file(form, "file",
		carried != NULL ? _("Another file") : _("The logger's file"),
		carried != NULL
			? text_format(request->arena, "%s %s, %.1f kB.",
				  _("Empty: the one that you chose,"),
				  carried->name, (double)carried->n / 1e3)
			: _("CSV as the logger wrote it, at most 16 MB."),
		false);
	if (carried != NULL)
		carry_on(form, carried);
}

void
trace_form(struct form *form, const struct web_request *request)
{
	start(form, request, _("Look what it says"));
	form->heading = _("Bring in a logger's file");
	add_file(form, request, NULL);
}

/* Choices of a field with "as found" as the first, or, of many, "choose one". */
static void
choose_of(struct form *form, const struct web_request *request,
	const struct form_choice *choice, size_t n)
{
	enum { BUTTONS_MOST = 5 };
	struct form_field *field = form->failed
		? NULL
		: form->field[form->n_field - 1];

	if (field != NULL && n <= BUTTONS_MOST) {
		form_choose(form, "", _("as found"));
		if (field->value == NULL)
			field->value = "";
	}
	for (size_t i = 0; i < n; i++)
		form_choose(form, choice[i].value, choice[i].label);
}

static void
choose_unit(
	struct form *form, const struct web_request *request, const char *units)
{
	struct form_choice choice[FORM_CHOICES_MOST];
	char *copy = arena_text(request->arena, units);
	size_t n = 0;

	for (char *unit = copy, *next; unit != NULL; unit = next) {
		next = strchr(unit, ' ');
		if (next != NULL)
			*next++ = '\0';
		choice[n++] = (struct form_choice){unit, unit};
	}
	choose_of(form, request, choice, n);
}

/* A column goes by its name, or by its number where that is not its alone. */
static void
choose_column(struct form *form, const struct web_request *request,
	const struct lab_trace_found *found)
{
	struct form_choice choice[FORM_CHOICES_MOST];
	size_t n = 0;

	for (size_t i = 0; i < found->n_column && n < FORM_CHOICES_MOST - 1;
		i++) {
		const char *name = found->column_name[i];
		size_t n_same = 0;

		for (size_t k = 0; k < found->n_column; k++)
			n_same += is(found->column_name[k], name);
		choice[n] = (struct form_choice){name, name};
		if (name[0] == '\0' || n_same > 1) {
			choice[n].value = text_format(
				request->arena, "%zu", i + 1);
			choice[n].label = text_format(request->arena,
				"%s %zu %s", _("column"), i + 1, name);
		}
		form->failed |= choice[n].value == NULL ||
			choice[n].label == NULL;
		n++;
	}
	choose_of(form, request, choice, n);
}

static void
add_reading_fields(struct form *form, const struct web_request *request,
	enum lab_trace_kind kind, const struct lab_trace_found *found)
{
	static const struct form_choice orders[] = {
		{"day", N_("the day")}, {"month", N_("the month")}};
	struct form_choice order[COUNT(orders)];

	form_choice(form, "column", _("Column of the figures"), NULL);
	choose_column(form, request, found);
	form_choice(form, "unit", _("Their unit"),
		_("Where the heading does not say it."));
	choose_unit(form, request, kind_shown[kind].units);
	if (kind == LAB_TRACE_LOAD) {
		form_choice(form, "sag-column", _("Column of the sag"),
			_("Only where it was read beside the load."));
		choose_column(form, request, found);
		form_choice(form, "sag-unit", _("Its unit"), NULL);
		choose_unit(form, request, "mm cm m in");
	}
	form_choice(form, "time-column", _("Column of the time"), NULL);
	choose_column(form, request, found);
	form_choice(form, "time-unit", _("Unit of the time"), NULL);
	choose_unit(form, request, "s ms min h");
	form_number(form, "every", _("Or the time between two lines"),
		"s ms min h", _("Where no column is a time."));
	form_choice(form, "date-order", _("Its dates begin with"), NULL);
	for (size_t i = 0; i < COUNT(orders); i++)
		order[i] = (struct form_choice){orders[i].value,
			words(request->language, orders[i].label)};
	choose_of(form, request, order, COUNT(order));
}

static void
add_load_fields(struct form *form, const struct web_request *request,
	const struct work_site *site)
{
	form_number(form, "zero", _("So long nothing pressed at the start"),
		"s ms min",
		_("The mean of that while is taken off as the zero."));
	form_choice(
		form, "test", _("Its highest load is the reading of"), NULL);
	form_choose(form, "", _("no test"));
	form_choose(form, "bending", _("a bending test"));
	form_choose(form, "crushing", _("a crushing test"));
	if (!form->failed && form->field[form->n_field - 1]->value == NULL)
		form->field[form->n_field - 1]->value = "";
	if (site->n_rig > 0) {
		form_choice(form, "rig", _("On which rig"), NULL);
		form_choose(form, "", _("none of these"));
		for (size_t i = 0; i < site->n_rig && i < FORM_CHOICES_MOST - 1;
			i++)
			form_choose(form, site->rig[i].code, site->rig[i].code);
	}
	form_number(form, "span", _("Between the middles of the supports"),
		"mm in", NULL);
	form_number(form, "strap", _("Width of the strap"), "mm in", NULL);
	form_number(form, "hanger", _("What hung on beside what the cell felt"),
		"kg lb", NULL);
}

static void
add_blow_fields(struct form *form, const struct web_request *request)
{
	form_number(form, "mass", _("What fell weighs"), "kg lb", NULL);
	form_number(form, "speed", _("Speed of the bar as it hits"), "m/s ft/s",
		_("With both the energy is told."));
}

static void
whole_form(struct form *form, const struct web_request *request,
	enum lab_trace_kind kind, const struct work_trace_look *look,
	const struct work_site *site, const struct carried *carried)
{
	start(form, request, _("Read it again so"));
	form->heading = _("How to read it");
	add_reading_fields(form, request, kind, &look->found);
	if (kind == LAB_TRACE_LOAD)
		add_load_fields(form, request, site);
	else if (kind == LAB_TRACE_BLOW)
		add_blow_fields(form, request);
	if (kind != LAB_TRACE_TEMPERATURE)
		form_date(form, "on", _("Tested on"), _("Empty: now."));
	form_text(form, "code", _("What to call it"),
		_("Empty: the piece, what it felt and a number."));
	add_file(form, request, carried);
}

/* --- What was understood. --- */

/* One line of the file as it stands, with arrows for tabs. */
static const char *
line_text(struct arena *arena, const char *at, size_t n)
{
	struct text text;

	text_init(&text, arena);
	for (size_t i = 0; i < n && i < LINE_SHOWN; i++)
		if (at[i] == '\t')
			text_add(&text, " \xE2\x86\x92 ");
		else if (at[i] != '\r')
			text_add_char(&text, at[i] == '\0' ? '\x1A' : at[i]);
	if (n > LINE_SHOWN)
		text_add(&text, " ...");
	return text_failed(&text) || text.bytes == NULL ? "" : text.bytes;
}

static void
add_lines(struct page *page, const struct carried *carried)
{
	static const struct grid_column column[] = {
		{"line", N_("line"), "", true},
		{"text", N_("as it stands"), "", false}};
	const struct web_request *request = page->request;
	const char *at = carried->bytes, *end = at + carried->n;
	struct grid grid;

	page_table(page, &grid, "lines", _("The file begins"), column,
		COUNT(column));
	for (size_t i = 1; i <= LINES_SHOWN && at < end; i++) {
		const char *stop = memchr(at, '\n', (size_t)(end - at));
		size_t n = (size_t)((stop != NULL ? stop : end) - at);

		grid_number(&grid, (double)i, page_format(page, "%zu", i));
		grid_text(&grid, line_text(request->arena, at, n));
		at += n + 1;
	}
	page_grid(page, &grid);
}

static const char *
moment_text(struct page *page, const struct lab_trace_found *found, double at_s)
{
	char moment[DATE_TEXT_MAX];

	if (!found->is_dated)
		return page_format(page, "%s s",
			unit_digits(page->request->arena, at_s, DIGITS));
	date_write((int64_t)floor(at_s), moment);
	return page_format(page, "%s", moment);
}

static const char *
column_text(struct page *page, const struct lab_trace_found *found,
	const struct lab_trace_column *column)
{
	const struct web_request *request = page->request;

	return page_format(page, "%s %zu%s%s%s%s%s%s", _("column"),
		column->at + 1, column->name[0] != '\0' ? ", \"" : "",
		column->name, column->name[0] != '\0' ? "\"" : "",
		column->unit[0] != '\0' ? " " : "",
		column->unit[0] != '\0' ? _("in") : "",
		column->unit[0] != '\0' ? page_format(page, " %s", column->unit)
			: column == &found->time && found->is_dated
			? page_format(page, ", %s", _("dates"))
			: column == &found->time && found->is_clock
			? page_format(page, ", %s", _("a clock without dates"))
			: "");
}

static void
add_fact(struct grid *grid, const char *what, const char *how)
{
	grid_text(grid, what);
	grid_text(grid, how);
}

static void
add_understood(struct page *page, const struct work_trace_look *look)
{
	static const struct grid_column column[] = {
		{"what", N_("what"), "", false},
		{"how", N_("was understood as"), "", false}};
	const struct web_request *request = page->request;
	const struct lab_trace_found *f = &look->found;
	struct grid grid;

	page_table(page, &grid, "understood", _("How the file was read"),
		column, COUNT(column));
	if (f->n_column == 0)
		return;
	add_fact(&grid, _("between columns"),
		words(request->language, work_trace_separator(f->separator)));
	add_fact(&grid, _("decimal sign"),
		f->decimal_comma ? _("comma") : _("point"));
	add_fact(&grid, _("heading"),
		f->heading_line > 0 ? page_format(page, "%s %zu", _("line"),
					      f->heading_line)
				    : _("none"));
	add_fact(&grid, _("first line of figures"),
		page_format(page, "%zu", f->first_line));
	if (f->time.has)
		add_fact(&grid, _("time"), column_text(page, f, &f->time));
	if (f->date.has)
		add_fact(&grid, _("date"), column_text(page, f, &f->date));
	if (f->value.has)
		add_fact(&grid, _("figures"), column_text(page, f, &f->value));
	if (f->has_sag)
		add_fact(&grid, _("sag"), column_text(page, f, &f->sag));
	if (look->is_read) {
		add_fact(&grid, _("first row"),
			moment_text(page, f, f->first_s));
		add_fact(&grid, _("last row"), moment_text(page, f, f->last_s));
		add_fact(&grid, _("rows"),
			page_format(
				page, "%llu", (unsigned long long)f->n_row));
	}
	page_grid(page, &grid);
}

static void
add_row(struct page *page, struct grid *grid,
	const struct work_trace_look *look, const struct lab_trace_row *row)
{
	struct arena *arena = page->request->arena;
	double sag_mm = unit_value(row->sag_m, UNIT_LENGTH, "mm");

	grid_text(grid, moment_text(page, &look->found, row->at_s));
	grid_number(grid, row->value, unit_digits(arena, row->value, DIGITS));
	if (look->found.has_sag)
		grid_number(grid, sag_mm, unit_digits(arena, sag_mm, DIGITS));
}

static void
add_rows(struct page *page, enum lab_trace_kind kind,
	const struct work_trace_look *look)
{
	static const char *const unit[] = {[LAB_TRACE_LOAD] = "N",
		[LAB_TRACE_BLOW] = "m/s2",
		[LAB_TRACE_TEMPERATURE] = "degC"};
	const struct web_request *request = page->request;
	struct grid_column column[] = {{"time", N_("time"), "", false},
		{"value",
			kind == LAB_TRACE_LOAD           ? N_("load")
				: kind == LAB_TRACE_BLOW ? N_("acceleration")
							 : N_("temperature"),
			unit[kind], true},
		{"sag", N_("sag"), "mm", true}};
	struct grid grid;

	page_table(page, &grid, "rows",
		_("The first rows and the last, as they were read"), column,
		look->found.has_sag ? 3 : 2);
	for (size_t i = 0; i < look->n_first; i++)
		add_row(page, &grid, look, &look->first[i]);
	add_row(page, &grid, look, &look->last);
	page_grid(page, &grid);
}

/* --- Asked. --- */

#define AT(member) offsetof(struct work_trace_ask, member)
static const struct field trace_fields[] = {
	{"piece", FIELD_TEXT, UNIT_NUMBER, AT(piece)},
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"column", FIELD_TEXT, UNIT_NUMBER, AT(how.value_column)},
	{"unit", FIELD_TEXT, UNIT_NUMBER, AT(how.value_unit)},
	{"time-column", FIELD_TEXT, UNIT_NUMBER, AT(how.time_column)},
	{"time-unit", FIELD_TEXT, UNIT_NUMBER, AT(how.time_unit)},
	{"sag-column", FIELD_TEXT, UNIT_NUMBER, AT(how.sag_column)},
	{"sag-unit", FIELD_TEXT, UNIT_NUMBER, AT(how.sag_unit)},
	{"zero", FIELD_MAYBE, UNIT_TIME, AT(zero_s)},
	{"mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
	{"speed", FIELD_MAYBE, UNIT_SPEED, AT(speed_m_s)},
	{"test", FIELD_TEXT, UNIT_NUMBER, AT(test)},
	{"rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
	{"strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
};
#undef AT

/* Before the form is made, for the look; faults are said once it is. */
static bool
read_ask(const struct web_request *request, struct work_trace_ask *ask,
	struct form *form)
{
	const char *every = form_typed_number(request, "every");
	const char *order = web_given(request, "date-order");
	struct err err = err_in(request->arena);
	bool good = form_read(
		request, trace_fields, COUNT(trace_fields), ask, form);

	ask->how.order = order == NULL ? LAB_DATE_UNKNOWN
		: is(order, "day")     ? LAB_DATE_DAY_FIRST
		: is(order, "month")   ? LAB_DATE_MONTH_FIRST
				       : LAB_DATE_UNKNOWN;
	if (every == NULL ||
		unit_read(every, UNIT_TIME, NULL, &ask->how.step_s, &err) ==
			ERR_NONE)
		return good;
	form_fault_at(form, "every", err.text);
	return false;
}

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
			: _("Nothing is kept yet. The file stays here while "
			    "you say what it does not."));
	if (l->has_look)
		add_understood(&page, &l->look);
	if (l->has_look && l->look.is_read) {
		add_rows(&page, l->kind, &l->look);
		page_heading(&page, _("What it would say"));
		for (size_t i = 0; i < l->look.n_sentence; i++)
			page_say(&page, l->look.sentence[i]);
	}
	add_lines(&page, &l->carried);
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

	trace_form(&form, request);
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
	form_press(form, "do", "look", _("Read it again so"));
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
	enum err_code code;

	l->ask = (struct work_trace_ask){
		.name = l->carried.name, .typed = form_as_typed(request)};
	if (l->ask.typed == NULL)
		return err_memory(err);
	start(&unasked, request, NULL);
	l->has_look = read_ask(request, &l->ask, &unasked);
	l->ask.how.kind = l->kind;
	/* What cannot be read as typed is left out of the look. */
	code = work_trace_look(&request->desk, request->arena, &source, &l->ask,
		&l->look, &inner);
	if (code == ERR_MEMORY)
		return err_memory(err);
	whole_form(
		form, request, l->kind, &l->look, &l->traces.site, &l->carried);
	l->is_accepted = code == ERR_NONE && l->has_look;
	if (!l->has_look)
		(void)read_ask(request, &l->ask, form);
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
		trace_form(&form, request);
		form_fault(&form, &inner);
		return show_traces(request, reply, &form, err);
	}
	if (l->carried.bytes == NULL) {
		trace_form(&form, request);
		form_fault_at(&form, "file", _("Choose the file."));
		return show_traces(request, reply, &form, err);
	}
	if (read_kind(request, &l->kind)) {
		TRY(look_at(l, &form, reply, err));
		if (reply->see_other != NULL)
			return ERR_NONE;
	} else {
		start(&form, request, _("Look what it says"));
		form.heading = _("Bring in a logger's file");
		add_file(&form, request, &l->carried);
		form_fault_at(&form, "kind", _("This is needed."));
	}
	return show_look(l, &form, reply, err);
}

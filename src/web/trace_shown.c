/* trace_shown.c - how a logger's file was understood, for a page. */
#include "web/trace_shown.h"

#include "core/date.h"
#include "work/trace_how.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { LINES_SHOWN = 8, LINE_SHOWN = 100, DIGITS = 6 };

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

void
trace_lines(struct page *page, const struct carried *carried)
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
		return page_format(page, "%.*g s", DIGITS, at_s);
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

void
trace_understood(struct page *page, const struct work_trace_look *look)
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
	double sag_mm = unit_value(row->sag_m, UNIT_LENGTH, "mm");

	grid_text(grid, moment_text(page, &look->found, row->at_s));
	grid_number(grid, row->value,
		page_format(page, "%.*g", DIGITS, row->value));
	if (look->found.has_sag)
		grid_number(grid, sag_mm,
			page_format(page, "%.*g", DIGITS, sag_mm));
}

void
trace_rows(struct page *page, enum lab_trace_kind kind,
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
	if (look->found.n_row > look->n_first)
		add_row(page, &grid, look, &look->last);
	page_grid(page, &grid);
}

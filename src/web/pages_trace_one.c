/* pages_trace_one.c - one trace: what it tells, drawn, as figures, and its file
 * as it came. */
#include "web/page.h"

#include "draw/trace.h"
#include "web/attachment.h"
#include "web/chart.h"
#include "work/bytes.h"
#include "work/trace_curve.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { DIGITS = 5, ROWS_SHOWN = 64 };

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static enum err_code
find_trace(const struct web_request *request, struct work_traces *traces,
	const struct book_trace **trace, struct err *err)
{
	size_t at;

	TRY(work_traces(&request->desk, request->arena, traces, err));
	TRY(work_find_trace(traces, request->tail, &at, err));
	*trace = &traces->trace[at];
	return ERR_NONE;
}

/* --- Its figures. --- */

/* All that are drawn as data; on the page few enough to be read. */
static enum err_code
add_points(struct page *page, bool over_sag, struct work_curve *curve,
	struct err *err)
{
	const struct web_request *request = page->request;
	const struct grid_column column[] = {
		{"x", curve->x_word, curve->x_unit, true},
		{"mean", curve->y_word, curve->y_unit, true},
		{"low", N_("lowest"), curve->y_unit, true},
		{"high", N_("highest"), curve->y_unit, true}};
	const char *caption;
	size_t together = 1;
	struct grid grid;

	if (request->twin == WEB_PAGE)
		TRY(work_curve_fewer(
			request->arena, curve, ROWS_SHOWN, &together, err));
	caption = over_sag ? _("Point by point over the sag")
			   : _("Point by point");
	page_table(page, &grid, over_sag ? "over-sag" : "points",
		together == 1
			? caption
			: page_format(page, "%s; %s %zu", caption,
				  _("drawn points put together in each row:"),
				  together),
		column, COUNT(column));
	for (size_t i = 0; i < curve->n_point; i++) {
		const struct work_curve_point *p = &curve->point[i];
		const double value[] = {p->x, p->mean, p->low, p->high};

		for (size_t k = 0; k < COUNT(value); k++)
			grid_number(&grid, value[k],
				page_format(page, "%.*g", DIGITS, value[k]));
	}
	page_grid_folded(page, &grid);
	return ERR_NONE;
}

static enum err_code
add_curve(struct page *page, const struct book_trace *x, bool over_sag,
	struct err *err)
{
	const struct web_request *request = page->request;
	struct work_curve curve;

	TRY(work_trace_curve(
		&request->desk, request->arena, x, over_sag, &curve, err));
	page_chart(page,
		page_format(page, "%s.svg%s",
			web_at(request, "/chart/trace/", x->code),
			over_sag ? "?over=sag" : ""),
		over_sag ? _("The load over the sag, with the highest load and "
			     "the first crack; the figures stand in the table "
			     "below")
			 : _("What the logger wrote over time; the figures "
			     "stand in the table below"));
	return add_points(page, over_sag, &curve, err);
}

/* --- The page. --- */

static void
add_file(struct page *page, const struct book_trace *x,
	const struct book_file *file)
{
	const struct web_request *request = page->request;

	page_heading(page, _("The file itself"));
	if (file == NULL) {
		page_alarm(page, _("Its file is not in the book."));
		return;
	}
	page_say(page,
		page_format(page, "%s: %lld %s. %s %s.", file->name,
			(long long)file->bytes, _("bytes, as they came"),
			_("Checksum (BLAKE2b):"), file->code));
	page_link(page, _("The file, byte for byte"),
		page_format(page, "%s.csv",
			web_at(request, "/trace-file/", x->code)));
}

static void
add_piece(struct page *page, const struct work_site *site,
	const struct book_trace *x)
{
	const struct web_request *request = page->request;

	for (size_t i = 0; i < site->n_specimen; i++) {
		const char *code = site->specimen[i].code;

		if (site->specimen[i].row.id == x->specimen_id)
			page_link(page,
				page_format(page, "%s %s",
					_("To the test piece"), code),
				web_at(request, "/piece/", code));
	}
	if (is(x->kind, "temperature"))
		page_link(page, _("How the batches cured, by this log"),
			web_at(request, "/cure?trace=", x->code));
}

enum err_code
web_trace(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *const *sentence;
	const struct book_trace *x;
	struct work_traces traces;
	struct page page;
	size_t n;

	TRY(find_trace(request, &traces, &x, err));
	TRY(work_trace_say(request->arena, x, &sentence, &n, err));
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Trace"), x->code),
		PAGE_BENCH);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Kept."), "/undo/last");
	for (size_t i = 0; i < n; i++)
		page_say(&page, sentence[i]);
	TRY(add_curve(&page, x, false, err));
	if (x->energy_j.has && is(x->kind, "load"))
		TRY(add_curve(&page, x, true, err));
	add_file(&page, x, work_trace_file(&traces, x));
	add_piece(&page, &traces.site, x);
	page_link(&page, _("To the loggers' files"), "/traces");
	return page_answer(&page, reply, err);
}

/* Never shown as anything, only taken away: bytes of no kind, under the CSV name
 * of its address. */
enum err_code
web_trace_file(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const struct book_file *file;
	const struct book_trace *x;
	struct work_traces traces;
	const char *bytes;

	TRY(find_trace(request, &traces, &x, err));
	file = work_trace_file(&traces, x);
	if (file == NULL)
		return err_report(err, ERR_NOT_FOUND, "trace",
			"The file of trace \"%.60s\" is not in the book.",
			x->code);
	TRY(work_file_bytes(&request->desk, request->arena, file, &bytes, err));
	reply->attachment = web_attachment(request->arena, file->name);
	if (reply->attachment == NULL)
		return err_memory(err);
	reply->type = "application/octet-stream";
	reply->no_store = true;
	text_add_n(&reply->body, bytes, (size_t)file->bytes);
	return ERR_NONE;
}

/* --- Drawn. --- */

static const char *
level_label(
	struct arena *arena, const char *words, double value, const char *unit)
{
	return text_format(
		arena, "%s %s %s", words, unit_digits(arena, value, 3), unit);
}

static size_t
add_levels(const struct web_request *request, const struct book_trace *x,
	const struct work_curve *curve, struct draw_trace_level *level)
{
	size_t n = 0;

	if (curve->peak.has)
		level[n++] = (struct draw_trace_level){.y = curve->peak.value,
			.label = level_label(request->arena,
				is(x->kind, "load") ? _("highest load")
						    : _("highest acceleration"),
				curve->peak.value, curve->y_unit)};
	if (curve->crack.has)
		level[n++] = (struct draw_trace_level){.y = curve->crack.value,
			.label = level_label(request->arena, _("first crack"),
				curve->crack.value, curve->y_unit),
			.is_warning = true};
	return n;
}

static enum err_code
add_chart_points(struct arena *arena, const struct work_curve *curve,
	struct draw_trace *chart, struct err *err)
{
	struct draw_trace_point *point = arena_take(
		arena, curve->n_point, sizeof *point);

	if (point == NULL)
		return err_memory(err);
	for (size_t i = 0; i < curve->n_point; i++) {
		const struct work_curve_point *p = &curve->point[i];

		point[i] = (struct draw_trace_point){
			p->x, p->mean, p->low, p->high, p->begins};
	}
	chart->point = point;
	chart->n_point = curve->n_point;
	chart->has_band = curve->is_thinned;
	return ERR_NONE;
}

enum err_code
web_chart_trace(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *over = web_query(request, "over");
	struct draw_trace_level level[DRAW_TRACE_LEVELS];
	struct draw_trace chart = {.level = level,
		.curve_word = _("as logged"),
		.band_word = _("lowest to highest reading"),
		.empty_word = _("No point is there.")};
	const struct book_trace *x;
	struct work_traces traces;
	struct work_curve curve;

	TRY(find_trace(request, &traces, &x, err));
	TRY(work_trace_curve(&request->desk, request->arena, x,
		over != NULL && is(over, "sag"), &curve, err));
	chart.about = (struct draw_about){.id = "trace",
		.title = text_format(
			request->arena, "%s %s", _("Trace"), x->code),
		.description = _("What a logger wrote, as a curve; the "
				 "highest and the first crack as levels.")};
	chart.x = (struct draw_axis){.name = curve.since[0] != '\0'
			? text_format(request->arena, "%s %s", _("time since"),
				  curve.since)
			: words(request->language, curve.x_word),
		.unit = curve.x_unit};
	chart.y = (struct draw_axis){
		.name = words(request->language, curve.y_word),
		.unit = curve.y_unit};
	chart.n_level = add_levels(request, x, &curve, level);
	TRY(add_chart_points(request->arena, &curve, &chart, err));
	return chart_answer(request, reply,
		draw_trace(&chart, chart_size(request), &reply->body, err));
}

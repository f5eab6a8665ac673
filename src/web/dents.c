/* dents.c - the picture of where a bar hit, and its table. */
#include "web/dents.h"

#include "draw/dents.h"
#include "web/chart.h"
#include "work/dents.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { DIGITS = 3 };

static const char *
place_words(const struct web_request *request, const char *place)
{
	if (strcmp(place, "edge") == 0)
		return _("near an edge");
	if (strcmp(place, "corner") == 0)
		return _("near a corner");
	return _("centre");
}

/* "near an edge: 14 mm deep, 30 mm from the edge" */
static const char *
dent_words(const struct web_request *request, const struct book_drop *d)
{
	struct text text;

	text_init(&text, request->arena);
	text_add(&text, place_words(request, d->place));
	if (d->dent_m.has)
		text_addf(&text, ": %s %s",
			unit_write(request->arena, d->dent_m.value, UNIT_LENGTH,
				"mm", DIGITS),
			_("deep"));
	if (d->from_edge_m.has)
		text_addf(&text, ", %s %s",
			unit_write(request->arena, d->from_edge_m.value,
				UNIT_LENGTH, "mm", DIGITS),
			_("from the edge"));
	return text_failed(&text) ? NULL : text.bytes;
}

/* Where the bar hit, and the figures beside the picture. */
enum err_code
dents_add(struct page *page, const struct work_bench *bench, size_t piece,
	struct err *err)
{
	static const struct grid_column column[] = {
		{"place", N_("Where it hit"), "", false},
		{"dent", N_("depth of the dent"), "mm", true},
		{"from_edge", N_("from the nearest edge"), "mm", true},
		{"across", N_("across"), "mm", true},
		{"through", N_("went through"), "", false}};
	const struct web_request *request = page->request;
	struct work_dents dents;
	struct grid grid;

	TRY(work_dents(bench, piece, request->arena, &dents, err));
	if (dents.n_dent == 0)
		return ERR_NONE;
	page_chart(page,
		page_format(page, "%s.svg",
			web_at(request, "/chart/dents/",
				bench->site.specimen[piece].code)),
		_("The face of the piece from above and where the bar hit it; "
		  "the figures stand in the table below"));
	page_table(page, &grid, "dents", _("Where the bar hit"), column,
		COUNT(column));
	for (size_t i = 0; i < dents.n_dent; i++) {
		const struct book_drop *d =
			&bench->site.reading[dents.dent[i].reading].drop;
		const struct maybe of[] = {
			d->dent_m, d->from_edge_m, dents.dent[i].wide_m};

		grid_text(&grid, place_words(request, d->place));
		for (size_t k = 0; k < COUNT(of); k++)
			grid_number(&grid,
				of[k].has ? unit_value(of[k].value, UNIT_LENGTH,
						    "mm")
					  : (double)NAN,
				unit_digits(request->arena,
					unit_value(
						of[k].value, UNIT_LENGTH, "mm"),
					DIGITS));
		grid_text(&grid, d->went_through ? _("yes") : _("no"));
	}
	page_grid_folded(page, &grid);
	return ERR_NONE;
}

enum err_code
web_chart_dents(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_bench bench;
	struct work_dents dents;
	struct draw_dent *dent;
	struct draw_dents chart = {.unit = "mm",
		.through_word = _("went through"),
		.about = {.id = "dents", .title = _("Where the bar hit")}};
	size_t piece;

	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	TRY(work_find_piece(&bench, request->tail, &piece, err));
	TRY(work_dents(&bench, piece, request->arena, &dents, err));
	dent = arena_take(request->arena, dents.n_dent, sizeof *dent);
	if (dent == NULL)
		return err_memory(err);
	if (!dents.has_face)
		return err_report(err, ERR_NOT_FOUND, "",
			"The length and the width of this piece are not known, "
			"so its face cannot be drawn.");
	for (size_t i = 0; i < dents.n_dent; i++) {
		const struct work_dent *at = &dents.dent[i];
		const struct book_drop *d =
			&bench.site.reading[at->reading].drop;

		dent[i] = (struct draw_dent){
			.x = unit_value(at->x_m, UNIT_LENGTH, "mm"),
			.y = unit_value(at->y_m, UNIT_LENGTH, "mm"),
			.diameter = unit_value(
				at->wide_m.value, UNIT_LENGTH, "mm"),
			.went_through = d->went_through,
			.label = dent_words(request, d)};
	}
	chart.dent = dent;
	chart.n_dent = dents.n_dent;
	chart.width = unit_value(dents.length_m, UNIT_LENGTH, "mm");
	chart.height = unit_value(dents.width_m, UNIT_LENGTH, "mm");
	chart.about.description = _(
		"The face from above. Where along an edge it hit is not "
		"written down: it stands at the middle of the longer one, "
		"and an eighth of the width in where that was not measured.");
	return chart_answer(request, reply,
		draw_dents(&chart, chart_size(request), &reply->body, err));
}

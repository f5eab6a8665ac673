/* pages_label.c - labels to print and stick on: of one test piece, and of all of
 * a batch on a sheet. */
#include "web/chart.h"
#include "web/page.h"
#include "web/qr.h"
#include "work/bench.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static enum err_code
find_piece(const struct web_request *request, struct work_bench *bench,
	const struct book_specimen **piece, struct err *err)
{
	size_t at;

	TRY(work_bench_read(&request->desk, request->arena, bench, err));
	TRY(work_find_piece(bench, request->tail, &at, err));
	*piece = &bench->site.specimen[at];
	return ERR_NONE;
}

enum err_code
web_label(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const struct book_specimen *piece = NULL;
	struct work_bench bench;
	struct page page;

	TRY(find_piece(request, &bench, &piece, err));
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Label of piece"),
			piece->code),
		PAGE_BENCH);
	page_big(&page, _("Test piece"), piece->code);
	page_say(&page, work_piece_sized(request->arena, piece));
	page_chart(&page,
		text_format(request->arena, "%s.svg",
			web_at(request, "/chart/label/", piece->code)),
		request->home != NULL
			? _("QR picture that opens this piece on a phone")
			: _("QR picture of the piece's name"));
	if (request->home == NULL)
		page_say(&page,
			_("Phones can open a piece by its picture when the "
			  "program was started with --lan. This one holds the "
			  "name alone."));
	page_link(&page, _("Back to the piece"),
		web_at(request, "/piece/", piece->code));
	return page_answer(&page, reply, err);
}

static void
add_labels(struct page *page, const struct work_bench *bench, size_t batch)
{
	static const struct grid_column column[] = {
		{"piece", N_("test piece"), "", false},
		{"size", N_("what it is"), "", false},
		{"batch", N_("batch"), "", false}};
	const struct web_request *request = page->request;
	const struct work_site *s = &bench->site;
	struct grid grid;

	page_table(page, &grid, "labels", _("Labels"), column, COUNT(column));
	for (size_t i = 0; i < s->n_specimen; i++) {
		const struct book_specimen *piece = &s->specimen[i];

		if (s->specimen_batch[i] != batch)
			continue;
		grid_pictured(&grid, piece->code,
			page_format(page, "%s.svg",
				web_at(request, "/chart/label/", piece->code)));
		grid_text(&grid, work_piece_sized(request->arena, piece));
		grid_text(&grid,
			page_format(page, "%s %s", _("batch"),
				s->batch[batch].code));
	}
	if (grid_rows(&grid) > 0)
		page_labels(page, &grid);
	else
		page_say(page, _("This batch has no test piece yet."));
}

/* Every piece of a batch; which mix it is stays off the labels, so that whoever
 * tests does not know. */
enum err_code
web_labels(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_bench bench;
	struct page page;
	size_t batch = 0;

	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	while (batch < bench.site.n_batch &&
		strcmp(bench.site.batch[batch].code, request->tail) != 0)
		batch++;
	if (batch == bench.site.n_batch)
		return err_report(err, ERR_NOT_FOUND, "batch",
			"There is no batch %.40s in the book.", request->tail);
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Labels of batch"),
			request->tail),
		PAGE_BENCH);
	page.field = false; /* printed at the table */
	add_labels(&page, &bench, batch);
	page_say(&page,
		_("21 labels of 60 by 35 mm stand on one sheet of A4; print "
		  "without scaling. Each opens its piece on a phone where the "
		  "program runs with --lan, else it holds the name."));
	page_link(&page, _("To the test pieces of this batch"),
		web_at(request, "/bench?batch=", request->tail));
	return page_answer(&page, reply, err);
}

enum err_code
web_chart_label(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const struct book_specimen *piece = NULL;
	const char *words;
	struct work_bench bench;

	TRY(find_piece(request, &bench, &piece, err));
	words = piece->code;
	if (request->home != NULL)
		words = text_format(request->arena, "%s%s", request->home,
			web_at(request, "/piece/", piece->code));
	if (words == NULL)
		return err_memory(err);
	return chart_answer(
		request, reply, qr_svg(words, QR_ON_PAPER, &reply->body, err));
}

/* pages_label.c - the label of a test piece, to print and stick on. */
#include "web/chart.h"
#include "web/page.h"
#include "web/qr.h"
#include "work/bench.h"

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
	return chart_answer(request, reply, qr_svg(words, &reply->body, err));
}

/* pages_budget.c - the error budget: what rule, weights, steps, pieces and
 * batches each leave open in a result, and whether finer reading helps. */
#include "web/page.h"

#include "choose/types.h"
#include "work/bench.h"
#include "work/budget.h"

#include <string.h>

enum { HUNDRED = 100 };

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* What was asked for: all, one measure, or one piece. */
struct asked {
	const char *piece; /* NULL: all pieces */
	bool has_measure;
	enum choose_measure measure;
};

static const char *
verdict(const struct web_request *request, enum work_budget_pays pays)
{
	switch (pays) {
	case WORK_PAYS_UNKNOWN:
		break;
	case WORK_PAYS_BATCH:
		return _("Measuring finer will not help; another batch will.");
	case WORK_PAYS_FINER:
		return _("Measuring finer helps most.");
	case WORK_PAYS_BOTH:
		return _("Measuring finer helps, and another batch more.");
	}
	return _("Whether measuring finer helps cannot be said before two "
		 "mixes were tested.");
}

static void
share(struct page *page, struct grid *grid, double ratio)
{
	grid_number(grid, ratio * HUNDRED,
		unit_digits(page->request->arena, ratio * HUNDRED, 2));
}

static void
add_line(struct page *page, struct grid *grid, const char *what, double ratio,
	const char *mends)
{
	grid_text(grid, what);
	share(page, grid, ratio);
	grid_text(grid, mends);
}

/* Each source of doubt in a test, the largest first, then what tests differ
 * by. */
static void
add_parts(struct page *page, const struct work_budget *b)
{
	static const struct grid_column column[] = {
		{"source", N_("what leaves it open"), "", false},
		{"share", N_("by"), "+/- %", true},
		{"mends", N_("how to narrow it"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, choose_measure_word(b->measure),
		page_format(page, "%s: %s", _(choose_measure_name(b->measure)),
			_("what leaves it open")),
		column, COUNT(column));
	for (size_t i = 0; i < b->n_part; i++)
		add_line(page, &grid, _(b->part[i].name), b->part[i].ratio,
			_(b->part[i].mends));
	add_line(page, &grid, _("all readings together"), b->reading, NULL);
	if (b->n_step > 0)
		add_line(page, &grid, _("step between held and broke"), b->step,
			b->measure == CHOOSE_CRUSHING_STRENGTH
				? _("a finer gauge")
				: _("smaller steps near the expected load"));
	if (b->has_spread) {
		add_line(page, &grid, _("two pieces of one batch"), b->sd_piece,
			_("more pieces of every batch"));
		add_line(page, &grid, _("two batches of one mix"), b->sd_batch,
			_("more batches"));
	}
	page_grid(page, &grid);
}

static void
add_worth(struct page *page, const struct work_budget *b)
{
	static const struct grid_column column[] = {
		{"case", N_("if"), "", false},
		{"share", N_("a mix is known to"), "+/- %", true}};
	const struct web_request *request = page->request;
	const struct {
		const char *words;
		double ratio;
	} line[] = {{_("as it is"), b->worth.now},
		{_("everything were read twice as finely"), b->worth.finer},
		{_("one more piece of every batch were tested"),
			b->worth.more_pieces},
		{_("one more batch of every mix were made"),
			b->worth.more_batches}};
	struct grid grid;

	page_table(page, &grid,
		page_format(page, "%s_worth", choose_measure_word(b->measure)),
		page_format(page, "%s: %s", _(choose_measure_name(b->measure)),
			_("what would narrow the figure of a mix")),
		column, COUNT(column));
	for (size_t i = 0; i < COUNT(line); i++) {
		grid_text(&grid, line[i].words);
		share(page, &grid, line[i].ratio);
	}
	page_grid(page, &grid);
}

static void
add_budget(struct page *page, const struct work_budget *b)
{
	const struct web_request *request = page->request;

	page_heading(page,
		page_format(page, "%s, %zu %s",
			_(choose_measure_name(b->measure)), b->n_test,
			b->n_test == 1 ? _("test") : _("tests")));
	page_say(page, verdict(request, b->pays));
	for (size_t i = 0; i < b->n_sentence; i++)
		page_say(page, b->sentence[i]);
	add_parts(page, b);
	if (b->has_spread)
		add_worth(page, b);
}

/* A measure by its word, else a piece as the book has it. */
static enum err_code
read_asked(
	const struct web_request *request, struct asked *asked, struct err *err)
{
	struct work_bench bench;
	size_t at;

	*asked = (struct asked){.piece = NULL};
	asked->has_measure = choose_measure_find(
		request->tail, &asked->measure);
	if (asked->has_measure || request->tail[0] == '\0')
		return ERR_NONE;
	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	TRY(work_find_piece(&bench, request->tail, &at, err));
	asked->piece = bench.site.specimen[at].code;
	return ERR_NONE;
}

static const char *
title_of(struct page *page, const struct web_request *request,
	const struct asked *asked)
{
	return page_format(page, "%s%s%s", _("What leaves a result open"),
		asked->piece != NULL || asked->has_measure ? ": " : "",
		asked->piece != NULL ? asked->piece
			: asked->has_measure
			? _(choose_measure_name(asked->measure))
			: "");
}

static void
add_links(struct page *page, const struct asked *asked)
{
	const struct web_request *request = page->request;

	if (asked->piece != NULL)
		page_link(page, _("To the piece"),
			web_at(request, "/piece/", asked->piece));
	if (asked->piece != NULL || asked->has_measure)
		page_link(page, _("What leaves every result open"), "/budget");
	page_link(page, _("The rigs of the bench"), "/rigs");
	page_link(page, _("To the results"), "/results");
}

enum err_code
web_budget(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct err inner = err_in(request->arena);
	struct work_budgets all = {.n = 0};
	struct asked asked;
	struct page page;
	enum err_code code;
	size_t n_shown = 0;

	TRY(read_asked(request, &asked, err));
	code = work_budgets(
		&request->desk, request->arena, asked.piece, &all, &inner);
	if (code != ERR_NONE && code != ERR_INPUT)
		return err_report(err, code, inner.field, "%s", inner.text);
	page_start(&page, request, "", PAGE_RESULTS);
	page.title = title_of(&page, request, &asked);
	for (size_t i = 0; i < all.n; i++) {
		if (asked.has_measure && all.budget[i].measure != asked.measure)
			continue;
		add_budget(&page, &all.budget[i]);
		n_shown++;
	}
	if (n_shown == 0)
		page_say(&page,
			code == ERR_INPUT
				? inner.text
				: _("No test of this kind has all that makes a "
				    "figure of it yet."));
	else
		page_say(&page,
			_("Each figure is one standard uncertainty, as a share "
			  "of the result; together the readings leave open the "
			  "root of the sum of their squares (JCGM "
			  "100:2008)."));
	add_links(&page, &asked);
	return page_answer(&page, reply, err);
}

/* pages_firm.c - how firm a comparison is: the same under other assumptions, each
 * batch left out in turn, and the textbook tests for whoever has to report
 * them. */
#include "web/figures.h"

#include "web/plain.h"
#include "work/compare.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { HUNDRED = 100 };

static const char *
code_of(const struct work_compared *all, const struct work_comparison *c,
	size_t group)
{
	return all->site.mix[c->group[group].mix].code;
}

static void
add_ratio(struct page *page, struct grid *grid, const struct work_ratio *r)
{
	grid_text(grid,
		r->has ? page_format(page, "%.2f (%.2f - %.2f)", r->median,
				 r->low, r->high)
		       : NULL);
}

/* --- The same under other assumptions. --- */

static void
add_assumptions(struct page *page, const struct work_compared *all,
	const struct work_comparison *c)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false},
		{"equal", N_("at equal dry weight"), "", true},
		{"put_back", N_("left out put back"), "", true},
		{"adjusted", N_("mixing allowed for"), "", true},
		{"halved", N_("half the usual spread"), "", true},
		{"doubled", N_("double the usual spread"), "", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "assumptions",
		_("The same under other assumptions, as times the baseline"),
		column, COUNT(column));
	for (size_t g = 0; c->has_firmness && g < c->n_group; g++) {
		const struct work_group *group = &c->group[g];
		const struct work_ratio equal = {
			.has = group->has_equal_density,
			.median = group->equal_median,
			.low = group->equal_low,
			.high = group->equal_high};

		if (g == c->baseline)
			continue;
		grid_text(&grid, code_of(all, c, g));
		add_ratio(page, &grid, &equal);
		add_ratio(page, &grid, &group->put_back);
		add_ratio(page, &grid, &group->adjusted);
		add_ratio(page, &grid, &group->halved);
		add_ratio(page, &grid, &group->doubled);
	}
	if (grid_rows(&grid) == 0)
		return;
	page_grid(page, &grid);
	page_say(page,
		_("These rest on shorter runs than the main answer: the last "
		  "digit may be off by one or two."));
}

static void
add_left_out(struct page *page, const struct work_compared *all,
	const struct work_comparison *c)
{
	static const struct grid_column column[] = {
		{"batch", N_("left out: batch"), "", false},
		{"mix", N_("of mix"), "", false},
		{"ratio", N_("without it, times the baseline"), "", true},
		{"changed", N_("verdicts that change"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "left_out", _("Each batch left out in turn"),
		column, COUNT(column));
	for (size_t i = 0; i < c->n_left_out; i++) {
		const struct work_left_out *l = &c->left_out[i];
		const char *batch = all->site.batch[l->batch].code;

		grid_link(&grid, batch, web_at(request, "/batch/", batch));
		grid_text(&grid, code_of(all, c, l->group));
		if (l->ratio.has)
			add_ratio(page, &grid, &l->ratio);
		else
			grid_text(&grid, _("baseline"));
		grid_text(&grid, l->n_changed > 0 ? l->changed : _("none"));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	page_say(page,
		_("A mix's only batch cannot be left out: nothing of it would "
		  "remain."));
}

/* --- The textbook tests. --- */

static void
add_test(struct page *page, struct grid *grid, const char *name,
	const struct work_test *t)
{
	const struct web_request *request = page->request;

	grid_text(grid, _(name));
	grid_number(grid, t->has ? t->p : (double)NAN,
		t->has ? page_format(page, "%.4g", t->p) : NULL);
	grid_number(grid, t->has && t->p_error > 0 ? t->p_error : (double)NAN,
		page_format(page, "%.2g", t->p_error));
	grid_text(grid, t->has ? "" : t->why);
}

static void
add_tests(struct page *page, const struct work_classical *k)
{
	static const struct grid_column column[] = {
		{"test", N_("test"), "", false}, {"p", N_("p"), "", true},
		{"error", N_("give or take, where it is shuffled"), "", true},
		{"why", N_("why not"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "tests",
		_("Textbook tests, for whoever has to report them"), column,
		COUNT(column));
	add_test(page, &grid, N_("One-way analysis of variance, batch means"),
		&k->one_way);
	add_test(page, &grid, N_("Kruskal-Wallis on ranks, batch means"),
		&k->ranks);
	add_test(page, &grid, N_("Permutation of whole batches"),
		&k->permutation_batches);
	add_test(page, &grid, N_("Permutation of single pieces"),
		&k->permutation_pieces);
	page_grid(page, &grid);
	page_say(page,
		_("Pieces of one batch share its luck: they are not "
		  "independent, and shuffling single pieces makes differences "
		  "look surer than they are. Go by the batches."));
}

static void
add_pairs(struct page *page, const struct work_compared *all,
	const struct work_comparison *c, const char *key, const char *caption,
	const struct work_pair_test *pair, size_t n)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false},
		{"against", N_("against"), "", false},
		{"ratio", N_("times"), "", true}, {"low", N_("from"), "", true},
		{"high", N_("to"), "", true}, {"p", N_("p"), "", true}};
	struct grid grid;

	page_table(page, &grid, key, caption, column, COUNT(column));
	for (size_t i = 0; i < n; i++) {
		const double shown[] = {
			pair[i].ratio, pair[i].low, pair[i].high};

		grid_text(&grid, code_of(all, c, pair[i].b));
		grid_text(&grid, code_of(all, c, pair[i].a));
		for (size_t k = 0; k < COUNT(shown); k++)
			grid_number(&grid, shown[k],
				page_format(page, "%.2f", shown[k]));
		grid_number(
			&grid, pair[i].p, page_format(page, "%.4g", pair[i].p));
	}
	if (n > 0)
		page_grid(page, &grid);
}

static void
add_textbook(struct page *page, const struct work_compared *all,
	const struct work_comparison *c)
{
	const struct web_request *request = page->request;
	const struct work_classical *k = &c->classical;

	if (!k->has)
		return;
	add_tests(page, k);
	add_pairs(page, all, c, "against",
		_("Each mix against the baseline, all at once (Dunnett), batch "
		  "means"),
		k->against, k->n_against);
	add_pairs(page, all, c, "pairs",
		_("Every mix against every other (Tukey-Kramer), batch means"),
		k->pair, k->n_pair);
	if (k->why_not[0] != '\0')
		page_say(page, k->why_not);
	page_say(page, _("On logs; a load step counts as its middle."));
	if (k->n_open > 0)
		page_say(page,
			page_format(page, "%s: %zu.",
				_("Readings without an upper or lower end, "
				  "taken as the end they have"),
				k->n_open));
}

/* --- Beside all measures: what broke before its test, what held after. --- */

static void
add_broken(struct page *page, const struct work_compared *all)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false}, {"cast", N_("cast"), "", true},
		{"broken", N_("broken before the test"), "", true},
		{"low", N_("true rate from"), "%", true},
		{"high", N_("to"), "%", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "broken", _("Beams snapped before their test"),
		column, COUNT(column));
	for (size_t m = 0; m < all->site.n_mix; m++) {
		const struct work_breakage *b = &all->breakage[m];

		if (b->n_cast == 0)
			continue;
		grid_text(&grid, all->site.mix[m].code);
		grid_number(&grid, (double)b->n_cast,
			page_format(page, "%zu", b->n_cast));
		grid_number(&grid, (double)b->n_broken,
			page_format(page, "%zu", b->n_broken));
		grid_number(&grid, b->low * HUNDRED,
			page_format(page, "%.0f", b->low * HUNDRED));
		grid_number(&grid, b->high * HUNDRED,
			page_format(page, "%.0f", b->high * HUNDRED));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

static void
add_after(struct page *page, const struct work_compared *all)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false}, {"n", N_("pieces"), "", true},
		{"least", N_("held at least"), "kg", true},
		{"most", N_("and at most"), "kg", true},
		{"least_ratio", N_("times the first crack, from"), "", true},
		{"most_ratio", N_("to"), "", true},
		{"open", N_("some ran out of weights"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "after", _("Held after the first crack"),
		column, COUNT(column));
	for (size_t i = 0; i < all->n_after; i++) {
		const struct work_after_crack *a = &all->after[i];
		const double shown[] = {
			a->least_kg, a->most_kg, a->least_ratio, a->most_ratio};

		grid_text(&grid, all->site.mix[a->mix].code);
		grid_number(
			&grid, (double)a->n, page_format(page, "%zu", a->n));
		for (size_t k = 0; k < COUNT(shown); k++)
			grid_number(&grid, shown[k],
				page_format(page, "%.3g", shown[k]));
		grid_text(&grid, a->most_open ? _("yes") : "");
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

/* --- The page. --- */

static void
fill_firm(struct form *form, const struct web_request *request)
{
	form_start(form, request, "firm", "/firm", _("Show this measure"));
	form->gets = true;
	form_choice(form, "measure", _("Which measure"), NULL);
	for (int k = 0; k < CHOOSE_MEASURE_COUNT; k++)
		form_choose(form, choose_measure_word((enum choose_measure)k),
			_(choose_measure_name((enum choose_measure)k)));
}

static void
add_all(struct page *page, const struct work_compared *all)
{
	for (size_t i = 0; i < all->n_comparison; i++) {
		const struct work_comparison *c = &all->comparison[i];

		add_assumptions(page, all, c);
		add_left_out(page, all, c);
		add_textbook(page, all, c);
	}
	add_broken(page, all);
	add_after(page, all);
}

enum err_code
web_firm(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *word = web_query(request, "measure");
	struct work_compare_ask ask = {.has_measure = true,
		.measure = CHOOSE_BENDING_STRENGTH,
		.firmness = WORK_FIRMNESS_ALL,
		.leave_out = true,
		.classical = true};
	struct err inner = err_in(request->arena);
	struct work_compared all;
	struct page page;
	struct form form;
	bool known = word == NULL || choose_measure_find(word, &ask.measure);

	fill_firm(&form, request);
	page_start(&page, request,
		text_format(request->arena, "%s: %s", _("How firm it is"),
			_(choose_measure_name(ask.measure))),
		PAGE_COMPARE);
	if (!known)
		form_fault_at(&form, "measure", _("Choose one of these."));
	else if (work_compare_asked(&request->desk, request->arena, &ask, &all,
			 &inner) == ERR_NONE)
		add_all(&page, &all);
	else
		form_fault_at(&form, "measure",
			plain_words(request, &form, inner.text));
	page_form(&page, &form);
	page_link(&page, _("Back to the comparison"), "/compare");
	return page_answer(&page, reply, err);
}

/* pages_compare.c - results, every mix against the baseline, and what further
 * testing would gain. */
#include "web/figures.h"

#include "draw/gain.h"
#include "draw/ratio.h"
#include "draw/specimens.h"
#include "web/chart.h"
#include "work/choose.h"
#include "work/compare.h"
#include "work/next.h"
#include "work/show.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { RESULTS_PAGE = 200, HUNDRED = 100 };

/* --- Results. --- */

static void
add_results(struct page *page, const struct work_shown *shown)
{
	static const struct grid_column column[] = {
		{"piece", N_("test piece"), "", false},
		{"mix", N_("mix"), "", false},
		{"batch", N_("batch"), "", false},
		{"what", N_("what was found"), "", false},
		{"low", N_("at least"), "", true},
		{"high", N_("less than"), "", true},
		{"unit", N_("unit"), "", false},
		{"uncertainty", N_("of reading"), "%", true},
		{"left_out", N_("left out, why"), "", false}};
	const struct web_request *request = page->request;
	const struct work_site *s = &shown->site;
	struct grid grid;

	page_table(page, &grid, "results",
		_("Each test piece, with what it came to"), column,
		COUNT(column));
	for (size_t i = 0; i < shown->results.n_result; i++) {
		const struct work_result *r = &shown->results.result[i];
		const char *piece = r->has_specimen
			? s->specimen[r->specimen].code
			: NULL;

		if (piece != NULL)
			grid_link(&grid, piece,
				web_at(request, "/piece/", piece));
		else
			grid_text(&grid, "");
		grid_text(&grid, s->mix[r->mix].code);
		grid_text(&grid, s->batch[r->batch].code);
		grid_text(&grid,
			page_format(page, "%s%s%s",
				_(choose_measure_name(r->measure)),
				r->place[0] != '\0' ? ", " : "", r->place));
		figure_cell(page, &grid, r->measure, r->value.low);
		figure_cell(page, &grid, r->measure, r->value.high);
		grid_text(&grid, choose_measure_unit(r->measure));
		grid_number(&grid,
			r->u_ratio.has ? r->u_ratio.value * HUNDRED
				       : (double)NAN,
			page_format(page, "%.2g", r->u_ratio.value * HUNDRED));
		grid_text(&grid, r->excluded ? r->why : "");
	}
	page_grid(page, &grid);
}

static void
add_fates(struct page *page, const struct work_shown *shown)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false}, {"cast", N_("cast"), "", true},
		{"tested", N_("tested"), "", true},
		{"waiting", N_("waiting"), "", true},
		{"snapped", N_("snapped before the test"), "", true},
		{"accident", N_("accidents"), "", true},
		{"not_filled", N_("not filled"), "", true},
		{"set_aside", N_("set aside"), "", true}};
	const struct web_request *request = page->request;
	const struct work_site *s = &shown->site;
	struct grid grid;

	page_table(page, &grid, "fates", _("What became of every piece cast"),
		column, COUNT(column));
	for (size_t i = 0; shown->results.fates != NULL && i < s->n_mix; i++) {
		const struct work_fates *f = &shown->results.fates[i];
		const size_t count[] = {f->n_cast, f->n_tested, f->n_waiting,
			f->n_snapped, f->n_accident, f->n_not_filled,
			f->n_set_aside};

		grid_text(&grid, s->mix[i].code);
		for (size_t k = 0; k < COUNT(count); k++)
			grid_number(&grid, (double)count[k],
				page_format(page, "%zu", count[k]));
	}
	page_grid(page, &grid);
}

enum err_code
web_results(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const struct work_show ask = {.list = WORK_LIST_RESULTS,
		.n_most = request->twin == WEB_PAGE ? RESULTS_PAGE : 0};
	struct work_shown shown;
	struct page page;

	TRY(work_show(&request->desk, request->arena, &ask, &shown, err));
	page_start(&page, request, _("Results"), PAGE_RESULTS);
	page_say(&page,
		_("Where a weight broke a beam, the strength lies between the "
		  "last load held and that one. Nothing is dropped: what a "
		  "rule leaves out stays here with the reason."));
	for (size_t i = 0; i < shown.results.n_fault; i++)
		page_alarm(&page, shown.results.fault[i]);
	add_fates(&page, &shown);
	add_results(&page, &shown);
	if (shown.more)
		page_say(&page,
			_("These are the first. The CSV and JSON below hold "
			  "all."));
	return page_answer(&page, reply, err);
}

/* --- Compare. --- */

static const char *
label_of(struct page *page, const struct work_compared *all,
	const struct work_group *g)
{
	const struct book_mix *mix = &all->site.mix[g->mix];

	return g->with[0] != '\0'
		? page_format(
			  page, "%s %s (+ %s)", mix->code, mix->name, g->with)
		: page_format(page, "%s %s", mix->code, mix->name);
}

static void
add_groups(struct page *page, const struct work_compared *all,
	const struct work_comparison *c)
{
	const struct web_request *request = page->request;
	struct grid_column column[] = {{"mix", N_("mix"), "", false},
		{"batches", N_("batches"), "", true},
		{"pieces", N_("pieces"), "", true},
		{"excluded", N_("left out"), "", true},
		{"estimate", N_("likely"), "", true},
		{"range", N_("likely between"), "", false},
		{"ratio", N_("times the baseline"), "", true},
		{"ratio_range", N_("likely between"), "", false},
		{"better", N_("chance it is better"), "%", true},
		{"much_better", N_("at least a fifth better"), "%", true},
		{"best", N_("is the best"), "%", true},
		{"verdict", N_("in short"), "", false}};
	struct grid grid;

	column[4].unit = column[5].unit = choose_measure_unit(c->measure);
	page_table(page, &grid, choose_measure_word(c->measure),
		_(choose_measure_name(c->measure)), column, COUNT(column));
	for (size_t i = 0; i < c->n_group; i++) {
		const struct work_group *g = &c->group[i];
		const struct stats_mix_answer *a = &g->answer;
		bool base = i == c->baseline;

		if (g->n_value == 0)
			continue;
		grid_text(&grid, label_of(page, all, g));
		grid_number(&grid, (double)g->n_batch,
			page_format(page, "%zu", g->n_batch));
		grid_number(&grid, (double)g->n_value,
			page_format(page, "%zu", g->n_value));
		grid_number(&grid, (double)g->n_excluded,
			page_format(page, "%zu", g->n_excluded));
		figure_cell(page, &grid, c->measure, a->median);
		grid_text(
			&grid, figure_range(page, c->measure, a->low, a->high));
		grid_number(&grid, base ? (double)NAN : a->ratio_median,
			page_format(page, "%.2f", a->ratio_median));
		grid_text(&grid,
			base ? NULL
			     : page_format(page, "%.2f - %.2f", a->ratio_low,
				       a->ratio_high));
		if (base) {
			grid_text(&grid, NULL);
			grid_text(&grid, NULL);
		} else {
			figure_chance(page, &grid, a->p_better);
			figure_chance(page, &grid, g->p_much);
		}
		figure_chance(page, &grid, a->p_best);
		grid_text(&grid, _(choose_verdict_words(g->verdict)));
	}
	page_grid(page, &grid);
}

static void
add_comparison(struct page *page, const struct work_compared *all,
	const struct work_comparison *c)
{
	const struct web_request *request = page->request;
	const char *word = choose_measure_word(c->measure);

	page_heading(page, _(choose_measure_name(c->measure)));
	for (size_t i = 0; i < c->n_sentence; i++)
		page_say(page, c->sentence[i]);
	page_chart(page, page_format(page, "/chart/pieces/%s.svg", word),
		page_format(page, "%s: %s", _(choose_measure_name(c->measure)),
			_("every test piece as a dot or a line between what it "
			  "held and what broke it, with each mix's likely "
			  "value; the figures stand in the table below")));
	page_chart(page, page_format(page, "/chart/ratio/%s.svg", word),
		page_format(page, "%s: %s", _(choose_measure_name(c->measure)),
			_("each mix against the baseline; the figures stand in "
			  "the table below")));
	add_groups(page, all, c);
	for (size_t i = 0; i < c->n_firm; i++)
		page_say(page, c->firm[i]);
	for (size_t i = 0; i < c->n_surer; i++)
		page_say(page, c->surer[i]);
	if (c->lacks[0] != '\0')
		page_say(page, c->lacks);
	page_say(page, c->prior_words);
}

enum err_code
web_compare(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_compared all;
	struct page page;

	TRY(work_compare(&request->desk, request->arena, &all, err));
	page_start(&page, request, _("Every mix against the baseline"),
		PAGE_COMPARE);
	for (size_t i = 0; i < all.n_caution; i++)
		page_caution(&page, all.caution[i]);
	page_link(&page, _("What further testing would gain"), "/next");
	for (size_t i = 0; i < all.n_comparison; i++)
		add_comparison(&page, &all, &all.comparison[i]);
	return page_answer(&page, reply, err);
}

/* --- Its charts. --- */

static enum err_code
compare_one(const struct web_request *request, struct work_compared *all,
	const struct work_comparison **c, struct err *err)
{
	struct work_compare_ask ask = {.has_measure = true};

	if (!choose_measure_find(request->tail, &ask.measure))
		return err_report(err, ERR_NOT_FOUND, "",
			"There is no measure called \"%.40s\".", request->tail);
	TRY(work_compare_asked(&request->desk, request->arena, &ask, all, err));
	*c = work_comparison_of(all, ask.measure);
	if (*c == NULL)
		return err_report(err, ERR_NOT_FOUND, "",
			"This was not measured of two mixes yet.");
	return ERR_NONE;
}

/* The group that speaks for a mix; n_group: none. */
static size_t
group_of(const struct work_compared *all, const struct work_comparison *c,
	size_t mix)
{
	const struct work_group *g = work_group_of(all, c, mix);

	return g != NULL ? (size_t)(g - c->group) : c->n_group;
}

static enum err_code
draw_pieces_of(const struct web_request *request, struct web_reply *reply,
	const struct work_compared *all, const struct work_comparison *c,
	struct page *page, struct err *err)
{
	struct draw_mix_row *row = arena_take(
		request->arena, c->n_group, sizeof *row);
	struct draw_reading *reading = arena_take(
		request->arena, all->results.n_result, sizeof *reading);
	struct draw_specimens chart = {
		.about = {.id = "pieces",
			.title = _(choose_measure_name(c->measure))},
		.axis = {.name = _(choose_measure_name(c->measure)),
			.unit = choose_measure_unit(c->measure)},
		.row = row,
		.n_row = c->n_group,
		.reading = reading,
		.reading_word = _("a test piece"),
		.open_word = _("at least, or less than"),
		.left_out_word = _("left out by a rule"),
		.estimate_word = _("where the mix likely lies"),
		.baseline_word = _("baseline"),
		.empty_word = _("Nothing was tested yet.")};

	if (row == NULL || reading == NULL)
		return err_memory(err);
	for (size_t i = 0; i < c->n_group; i++) {
		const struct stats_mix_answer *a = &c->group[i].answer;

		row[i] = (struct draw_mix_row){
			.label = label_of(page, all, &c->group[i]),
			.is_baseline = i == c->baseline,
			.has_estimate = c->group[i].n_value > 0,
			.estimate = {figure_in_unit(c->measure, a->median),
				figure_in_unit(c->measure, a->low),
				figure_in_unit(c->measure, a->high)}};
	}
	for (size_t i = 0; i < all->results.n_result; i++) {
		const struct work_result *r = &all->results.result[i];
		size_t group = group_of(all, c, r->mix);

		if (r->measure != c->measure || group == c->n_group)
			continue;
		reading[chart.n_reading++] = (struct draw_reading){.row = group,
			.low = r->value.low > 0
				? figure_in_unit(c->measure, r->value.low)
				: -(double)INFINITY,
			.high = isfinite(r->value.high)
				? figure_in_unit(c->measure, r->value.high)
				: (double)INFINITY,
			.is_left_out = r->excluded,
			.label = r->has_specimen
				? all->site.specimen[r->specimen].code
				: all->site.batch[r->batch].code};
	}
	return chart_answer(request, reply,
		draw_specimens(&chart, chart_size(request), &reply->body, err));
}

enum err_code
web_chart_pieces(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_compared all;
	const struct work_comparison *c;
	struct page page; /* for its texts alone */

	TRY(compare_one(request, &all, &c, err));
	page_start(&page, request, "", PAGE_COMPARE);
	return draw_pieces_of(request, reply, &all, c, &page, err);
}

enum err_code
web_chart_ratio(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_compared all;
	const struct work_comparison *c;
	struct draw_ratio_row *row;
	struct draw_ratio chart = {.n_row = 0};
	struct page page;

	TRY(compare_one(request, &all, &c, err));
	page_start(&page, request, "", PAGE_COMPARE);
	row = arena_take(request->arena, c->n_group, sizeof *row);
	if (row == NULL)
		return err_memory(err);
	for (size_t i = 0; i < c->n_group; i++) {
		const struct work_group *g = &c->group[i];

		if (i == c->baseline || g->n_value == 0)
			continue;
		row[chart.n_row++] = (struct draw_ratio_row){
			.label = label_of(&page, &all, g),
			.ratio = {g->answer.ratio_median, g->answer.ratio_low,
				g->answer.ratio_high},
			.chance = page_format(&page, "%s %s",
				work_chance_words(
					request->arena, g->answer.p_better),
				_("in 100 that it is better")),
			.is_sure = g->verdict == CHOOSE_CLEARLY_BETTER ||
				g->verdict == CHOOSE_WORSE};
	}
	chart.about = (struct draw_about){
		.id = "ratio", .title = _(choose_measure_name(c->measure))};
	chart.axis_name = page_format(&page, "%s, %s",
		_(choose_measure_name(c->measure)), _("times the baseline"));
	chart.baseline = c->baseline < c->n_group
		? all.site.mix[c->group[c->baseline].mix].code
		: "";
	chart.row = row;
	chart.sure_word = _("clear");
	chart.unsure_word = _("not clear yet");
	chart.empty_word = _("Nothing to compare yet.");
	return chart_answer(request, reply,
		draw_ratio(&chart, chart_size(request), &reply->body, err));
}

/* --- What next. --- */

static void
fill_next(struct form *form, const struct web_request *request)
{
	form_start(form, request, "next", "/next", _("Reckon again"));
	form->gets = true;
	form->heading = _("What it costs");
	form_number(form, "batch", _("A batch costs"), "",
		_("In the money of the book; empty: a batch counts 1."));
	form_number(form, "piece", _("A test piece costs"), "", NULL);
	form_number(form, "day", _("A day costs"), "", NULL);
	form_number(form, "budget", _("To be spent at most"), "", NULL);
}

static double
asked_number(
	const struct web_request *request, const char *name, struct form *form)
{
	const char *text = web_query(request, name);
	struct err err = err_in(request->arena);
	double got = 0;

	if (text != NULL &&
		unit_read(text, UNIT_NUMBER, NULL, &got, &err) != ERR_NONE)
		form_fault_at(form, name, err.text);
	return got;
}

static const char *
extra_words(struct page *page, const struct work_next *next,
	const struct work_next_design *design)
{
	struct text text;

	text_init(&text, page->request->arena);
	for (size_t i = 0; i < next->n_candidate; i++)
		if (design->extra[i] > 0)
			text_addf(&text, "%s%zu x %s", text.n > 0 ? ", " : "",
				design->extra[i],
				next->compared.site.mix[next->candidate[i]]
					.code);
	page->failed |= text_failed(&text);
	return text.n > 0 ? text.bytes : "-";
}

static void
add_designs(struct page *page, const struct work_next *next)
{
	static const struct grid_column column[] = {
		{"batches", N_("further batches"), "", false},
		{"cost", N_("cost"), "", true}, {"days", N_("days"), "", true},
		{"gain", N_("gains on average"), "%", true},
		{"error", N_("give or take"), "%", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "designs", _("What further batches would gain"),
		column, COUNT(column));
	for (size_t i = 0; i < next->n_design; i++) {
		const struct work_next_design *d = &next->design[i];

		if (!d->on_curve && request->twin == WEB_PAGE)
			continue;
		grid_text(&grid, extra_words(page, next, d));
		grid_number(&grid, d->cost, page_format(page, "%.4g", d->cost));
		grid_number(&grid, (double)d->n_day,
			page_format(page, "%zu", d->n_day));
		grid_number(&grid, d->gain.gain * HUNDRED,
			page_format(page, "%.2f", d->gain.gain * HUNDRED));
		grid_number(&grid, d->gain.gain_error * HUNDRED,
			page_format(
				page, "%.2f", d->gain.gain_error * HUNDRED));
	}
	page_grid(page, &grid);
}

enum err_code
web_next(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_next_ask ask = {.batches_a_day = 2};
	struct work_next next;
	struct err inner = err_in(request->arena);
	struct page page;
	struct form form;

	page_start(&page, request, _("What further testing would gain"),
		PAGE_COMPARE);
	fill_next(&form, request);
	ask.batch_cost = asked_number(request, "batch", &form);
	ask.specimen_cost = asked_number(request, "piece", &form);
	ask.day_cost = asked_number(request, "day", &form);
	ask.budget = asked_number(request, "budget", &form);
	if (!form_has_fault(&form)) {
		if (work_next(&request->desk, request->arena, &ask, &next,
			    &inner) == ERR_NONE) {
			for (size_t i = 0; i < next.n_sentence; i++)
				page_say(&page, next.sentence[i]);
			add_designs(&page, &next);
		} else {
			form_fault(&form, &inner);
		}
	}
	page_form(&page, &form);
	page_link(&page, _("Back to the comparison"), "/compare");
	return page_answer(&page, reply, err);
}

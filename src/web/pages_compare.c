/* pages_compare.c - results, and every mix against the baseline. */
#include "web/figures.h"

#include "draw/ratio.h"
#include "draw/relation.h"
#include "draw/specimens.h"
#include "web/chart.h"
#include "work/choose.h"
#include "work/compare.h"
#include "work/relation.h"
#include "work/result_words.h"
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
		grid_text(&grid, work_result_what(request->arena, r));
		figure_cell(page, &grid, r->measure, r->value.low);
		figure_cell(page, &grid, r->measure, r->value.high);
		grid_text(&grid, choose_measure_unit(r->measure));
		grid_number(&grid,
			r->u_ratio.has ? r->u_ratio.value * HUNDRED
				       : (double)NAN,
			page_format(page, "%.2g", r->u_ratio.value * HUNDRED));
		grid_text(&grid, r->excluded ? r->why : "");
	}
	if (grid_rows(&grid) > 0 || request->twin != WEB_PAGE)
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
	if (grid_rows(&grid) > 0 || request->twin != WEB_PAGE)
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
	if (shown.results.n_result == 0) {
		page_say(&page, _("Nothing was tested yet."));
		page_link(&page, _("To the test pieces"), "/bench");
	}
	add_fates(&page, &shown);
	add_results(&page, &shown);
	if (shown.results.n_result > 0)
		page_link(
			&page, _("Every mix against the baseline"), "/compare");
	if (shown.more)
		page_say(&page,
			_("These are the first. The CSV and JSON below hold "
			  "all."));
	page_link(&page, _("What leaves every result open"), "/budget");
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

static const char *
piece_of(const struct work_compared *all, const struct work_result *r)
{
	return r->has_specimen ? all->site.specimen[r->specimen].code
			       : all->site.batch[r->batch].code;
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
	page_grid_folded(page, &grid);
}

/* Strength against dry weight: the picture, and its figures. */
static enum err_code
add_relation(struct page *page, const struct work_compared *all,
	const struct work_comparison *c, struct err *err)
{
	struct grid_column column[] = {{"piece", N_("test piece"), "", false},
		{"mix", N_("mix"), "", false},
		{"dry_weight", N_("dry weight"), "kg/m3", true},
		{"of", N_("dry weight of"), "", false},
		{"low", N_("at least"), "", true},
		{"high", N_("less than"), "", true}};
	const struct web_request *request = page->request;
	const char *word = choose_measure_word(c->measure);
	struct work_relation r;
	struct grid grid;

	if (!work_relates(c))
		return ERR_NONE;
	TRY(work_relation(request->arena, all, c, &r, err));
	if (r.n_point == 0)
		return ERR_NONE;
	page_chart(page, page_format(page, "/chart/relation/%s.svg", word),
		page_format(page, "%s: %s", _(choose_measure_name(c->measure)),
			_("every test piece against its dry weight, with the "
			  "fitted relation; the figures stand in the table "
			  "below")));
	page_say(page, r.sentence);
	column[4].unit = column[5].unit = choose_measure_unit(c->measure);
	page_table(page, &grid, page_format(page, "%s_by_weight", word),
		page_format(page, "%s: %s", _(choose_measure_name(c->measure)),
			_("against dry weight")),
		column, COUNT(column));
	for (size_t i = 0; i < r.n_point; i++) {
		const struct work_relation_point *at = &r.point[i];
		const struct work_result *got =
			&all->results.result[at->result];

		grid_text(&grid, piece_of(all, got));
		grid_text(&grid, all->site.mix[got->mix].code);
		figure_cell(page, &grid, CHOOSE_DRY_DENSITY, at->density_kg_m3);
		grid_text(&grid,
			at->of_batch ? _("its batch") : _("the piece itself"));
		figure_cell(page, &grid, c->measure, got->value.low);
		figure_cell(page, &grid, c->measure, got->value.high);
	}
	page_grid_folded(page, &grid);
	return ERR_NONE;
}

/* What it says, in sentences. */
static void
add_answer(struct page *page, const struct work_comparison *c)
{
	const struct web_request *request = page->request;

	page_heading(page, _(choose_measure_name(c->measure)));
	for (size_t i = 0; i < c->n_sentence; i++)
		page_say(page, c->sentence[i]);
	for (size_t i = 0; i < c->n_firm; i++)
		page_say(page, c->firm[i]);
	for (size_t i = 0; i < c->n_surer; i++)
		page_say(page, c->surer[i]);
	if (c->lacks[0] != '\0')
		page_say(page, c->lacks);
	page_link(page,
		page_format(page, "%s: %s", _("How firm it is"),
			_(choose_measure_name(c->measure))),
		web_at(request,
			"/firm?measure=", choose_measure_word(c->measure)));
}

/* What that rests on: pictures, and tables that open when asked. */
static enum err_code
add_grounds(struct page *page, const struct work_compared *all,
	const struct work_comparison *c, struct err *err)
{
	const struct web_request *request = page->request;
	const char *word = choose_measure_word(c->measure);

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
	return add_relation(page, all, c, err);
}

/* A sentence that several measures share is said once. */
static bool
was_said(const struct work_compared *all, size_t at)
{
	for (size_t i = 0; i < at; i++)
		if (strcmp(all->comparison[i].prior_words,
			    all->comparison[at].prior_words) == 0)
			return true;
	return false;
}

/* Every answer comes before the pictures of any: on a phone those are long. */
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
	for (size_t i = 0; i < all.n_comparison; i++)
		add_answer(&page, &all.comparison[i]);
	page_link(&page, _("What further testing would gain"), "/next");
	page_link(&page, _("Which mix for which part"), "/choose");
	if (all.n_comparison > 0)
		page_heading(&page, _("In pictures and figures"));
	for (size_t i = 0; i < all.n_comparison; i++)
		if (!was_said(&all, i))
			page_say(&page, all.comparison[i].prior_words);
	for (size_t i = 0; i < all.n_comparison; i++)
		TRY(add_grounds(&page, &all, &all.comparison[i], err));
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

/* A reading's ends in the unit of the scale, or without end. */
static double
open_below(const struct work_comparison *c, const struct work_result *r)
{
	return r->value.low > 0 ? figure_in_unit(c->measure, r->value.low)
				: -(double)INFINITY;
}

static double
open_above(const struct work_comparison *c, const struct work_result *r)
{
	return isfinite(r->value.high)
		? figure_in_unit(c->measure, r->value.high)
		: (double)INFINITY;
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
			.low = open_below(c, r),
			.high = open_above(c, r),
			.is_left_out = r->excluded,
			.label = piece_of(all, r)};
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

static enum err_code
relation_points(const struct web_request *request,
	const struct work_compared *all, const struct work_comparison *c,
	const struct work_relation *r, struct draw_relation *chart,
	struct err *err)
{
	struct draw_relation_point *point = arena_take(
		request->arena, r->n_point, sizeof *point);
	struct draw_relation_knot *knot = arena_take(
		request->arena, r->n_knot, sizeof *knot);
	const char **group = arena_take(
		request->arena, c->n_group, sizeof *group);

	if (point == NULL || knot == NULL || group == NULL)
		return err_memory(err);
	for (size_t i = 0; i < c->n_group; i++)
		group[i] = all->site.mix[c->group[i].mix].code;
	chart->group = group;
	chart->n_group = c->n_group <= DRAW_GROUPS_MAX ? c->n_group : 0;
	for (size_t i = 0; i < r->n_point; i++) {
		const struct work_result *got =
			&all->results.result[r->point[i].result];

		point[i] = (struct draw_relation_point){
			.x = figure_in_unit(
				CHOOSE_DRY_DENSITY, r->point[i].density_kg_m3),
			.low = open_below(c, got),
			.high = open_above(c, got),
			.group = chart->n_group > 0 ? r->point[i].group : 0,
			.label = piece_of(all, got)};
	}
	for (size_t i = 0; i < r->n_knot; i++)
		knot[i] = (struct draw_relation_knot){
			.x = figure_in_unit(
				CHOOSE_DRY_DENSITY, r->knot[i].density_kg_m3),
			.y = {figure_in_unit(c->measure, r->knot[i].middle_pa),
				figure_in_unit(c->measure, r->knot[i].low_pa),
				figure_in_unit(
					c->measure, r->knot[i].high_pa)}};
	chart->point = point;
	chart->n_point = r->n_point;
	chart->knot = knot;
	chart->n_knot = r->n_knot;
	return ERR_NONE;
}

enum err_code
web_chart_relation(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_compared all;
	const struct work_comparison *c;
	struct work_relation r;
	struct draw_relation chart = {
		.x = {.name = _("dry weight"), .unit = "kg/m3"},
		.curve_word = _("the baseline's slurry, foamed to that weight"),
		.band_word = _("where it likely lies"),
		.empty_word = _("Nothing was tested yet.")};

	TRY(compare_one(request, &all, &c, err));
	if (!work_relates(c))
		return err_report(err, ERR_NOT_FOUND, "",
			"Strengths alone are drawn against dry weight.");
	TRY(work_relation(request->arena, &all, c, &r, err));
	chart.about = (struct draw_about){.id = "relation",
		.title = text_format(request->arena, "%s, %s",
			_(choose_measure_name(c->measure)),
			_("against dry weight")),
		.description = r.sentence};
	chart.y = (struct draw_axis){.name = _(choose_measure_name(c->measure)),
		.unit = choose_measure_unit(c->measure),
		.from_zero = true};
	TRY(relation_points(request, &all, c, &r, &chart, err));
	return chart_answer(request, reply,
		draw_relation(&chart, chart_size(request), &reply->body, err));
}

/* pages_choose.c - which mix for which part of the building, and decisions
 * written down. */
#include "web/figures.h"

#include "draw/chances.h"
#include "draw/front.h"
#include "web/chart.h"
#include "work/choose.h"
#include "work/decide.h"
#include "work/design.h"
#include "work/fields.h"
#include "work/part.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { MINUTE = 60, CENTS = 100 };

/* --- Choose. --- */

static const char *
amount(struct page *page, enum choose_measure measure, double si,
	const char *currency)
{
	if (measure == CHOOSE_COST)
		return page_format(page, "%s %s/m3",
			figure_text(page, measure, si), currency);
	return page_format(page, "%s %s", figure_text(page, measure, si),
		choose_measure_unit(measure));
}

static void
add_needs(struct page *page, const struct work_part_choice *p,
	const char *currency)
{
	const struct web_request *request = page->request;

	for (size_t k = 0; k < p->n_requirement; k++) {
		const struct choose_requirement *r = &p->requirement[k];

		page_say(page,
			page_format(page, "%c. %s %s %s%s%s", (int)('a' + k),
				_(choose_measure_name(r->measure)),
				r->is_least ? _("at least") : _("at most"),
				amount(page, r->measure, r->value, currency),
				r->source[0] != '\0' ? ". " : "", r->source));
	}
}

static const char *
each_need(struct page *page, const struct work_part_choice *p,
	const struct work_candidate *c, const char *currency)
{
	const struct web_request *request = page->request;
	struct text text;

	text_init(&text, request->arena);
	for (size_t k = 0; k < p->n_requirement; k++) {
		const struct work_need *need = &c->need[k];

		text_addf(&text, "%s%c ", k > 0 ? "; " : "", (int)('a' + k));
		if (!need->known)
			text_add(&text, _("not tested"));
		else
			text_addf(&text, "%s %%",
				work_chance_words(request->arena, need->p));
		if (need->known && need->has_lower)
			text_addf(&text, " [%s]",
				amount(page, p->requirement[k].measure,
					need->lower, currency));
	}
	page->failed |= text_failed(&text);
	return text.n > 0 ? text.bytes : "";
}

static void
add_candidates(struct page *page, const struct work_chosen *all,
	const struct work_part_choice *p)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false},
		{"all_met", N_("chance that all is met"), "%", true},
		{"cost", N_("materials"), GRID_MONEY "/m3", true},
		{"batches", N_("batches behind it"), "", true},
		{"each", N_("each, and what 95 of 100 pieces should reach"), "",
			false}};
	const struct web_request *request = page->request;
	const struct book_part *part = &all->compared.site.part[p->part];
	struct grid grid;

	page_table(page, &grid, part->code,
		page_format(page, "%s: %s", _("Mixes for"), part->name), column,
		COUNT(column));
	page_money(page, &grid, all->compared.site.info.currency);
	for (size_t i = 0; i < p->n_candidate; i++) {
		const struct work_candidate *c = &p->candidate[i];

		grid_text(&grid, all->compared.site.mix[c->mix].code);
		figure_chance(page, &grid, c->p_all);
		if (c->has_cost)
			figure_cell(
				page, &grid, CHOOSE_COST, c->cost_cents_per_m3);
		else
			grid_text(&grid, NULL);
		grid_number(&grid, (double)c->n_batch,
			page_format(page, "%zu", c->n_batch));
		grid_text(&grid,
			each_need(
				page, p, c, all->compared.site.info.currency));
	}
	page_grid(page, &grid);
}

static void
fill_decide(struct form *form, const struct web_request *request,
	const struct work_chosen *all, const struct work_part_choice *p)
{
	const struct work_site *s = &all->compared.site;

	form_start(form, request,
		text_format(request->arena, "decide-%s", s->part[p->part].code),
		"/choose", _("Write this decision down"));
	form_hidden(form, "part", s->part[p->part].code);
	form_choice(form, "mix", _("The mix"), NULL);
	for (size_t i = 0; i < p->n_candidate && i < FORM_CHOICES_MOST; i++)
		form_choose(form, s->mix[p->candidate[i].mix].code,
			s->mix[p->candidate[i].mix].code);
	form_text(form, "because", _("Your reason"),
		_("In your own words; the figures are kept with it."));
	form_needed(form);
}

static void
add_decisions(struct page *page)
{
	static const struct grid_column column[] = {
		{"part", N_("part"), "", false}, {"mix", N_("mix"), "", false},
		{"because", N_("because"), "", false},
		{"figures", N_("figures as they stood"), "", false}};
	const struct web_request *request = page->request;
	const struct work_decision *row;
	struct err inner = err_in(request->arena);
	struct grid grid;
	size_t n;

	if (work_decisions(&request->desk, request->arena, &row, &n, &inner) !=
		ERR_NONE)
		return;
	page_table(page, &grid, "decisions", _("Decided so far"), column,
		COUNT(column));
	for (size_t i = 0; i < n; i++) {
		grid_text(&grid, row[i].part);
		grid_text(&grid, row[i].mix);
		grid_text(&grid, row[i].because);
		grid_text(&grid, row[i].figures);
	}
	if (n > 0)
		page_grid(page, &grid);
}

/* "cost 2, heat 1". */
static const char *
weights_words(struct page *page, const double weight[WORK_CRITERIA])
{
	const struct web_request *request = page->request;
	struct text text;

	text_init(&text, request->arena);
	for (size_t k = 0; k < WORK_CRITERIA; k++)
		if (weight[k] > 0)
			text_addf(&text, "%s%s %g", text.n > 0 ? ", " : "",
				_(work_criterion_word((enum work_criterion)k)),
				weight[k]);
	page->failed |= text_failed(&text);
	return text.n > 0 ? text.bytes : "";
}

static void
add_weighed_mix(struct page *page, struct grid *grid,
	const struct work_chosen *all, const struct work_part_choice *p,
	const struct work_weighed *w, size_t i)
{
	const struct work_site *site = &all->compared.site;
	const double *m = w->middle + i * WORK_CRITERIA;

	grid_text(grid, site->mix[p->candidate[w->candidate[i]].mix].code);
	grid_number(
		grid, w->utility[i], page_format(page, "%.2f", w->utility[i]));
	figure_chance(page, grid, w->p_first[i]);
	figure_cell(page, grid, CHOOSE_DRY_DENSITY, m[WORK_CRITERION_DENSITY]);
	figure_cell(page, grid, CHOOSE_BENDING_STRENGTH,
		m[WORK_CRITERION_STRENGTH]);
	figure_cell(page, grid, CHOOSE_CONDUCTIVITY, m[WORK_CRITERION_HEAT]);
	grid_number(grid, m[WORK_CRITERION_LABOUR] / MINUTE,
		page_format(page, "%.0f", m[WORK_CRITERION_LABOUR] / MINUTE));
	figure_cell(page, grid, CHOOSE_COST, m[WORK_CRITERION_COST]);
	figure_cell(page, grid, CHOOSE_COST,
		w->cost_cents_per_m2[i].has ? w->cost_cents_per_m2[i].value
					    : (double)NAN);
	grid_text(grid,
		w->is_beaten[i]
			? site->mix[p->candidate[w->candidate[w->beaten_by[i]]]
					      .mix]
				  .code
			: "");
}

/* What the weights of the book say of the mixes that do the must-haves. */
static void
add_weighed(struct page *page, const struct work_chosen *all, size_t part)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false},
		{"utility", N_("utility"), "", true},
		{"first", N_("chance that it leads"), "%", true},
		{"dry", N_("dry weight"), "kg/m3", true},
		{"strength", N_("strength"), "N/mm2", true},
		{"conductivity", N_("heat let through (lambda)"), "W/(m K)",
			true},
		{"blending", N_("mixing"), "min/m3", true},
		{"cost", N_("materials"), GRID_MONEY "/m3", true},
		{"cost_m2", N_("materials"), GRID_MONEY "/m2", true},
		{"beaten", N_("beaten by"), "", false}};
	const struct web_request *request = page->request;
	const struct work_part_choice *p = &all->part[part];
	const struct work_weighed *w = &all->weighed[part];
	struct grid grid;

	page_table(page, &grid,
		page_format(page, "%s-weighed",
			all->compared.site.part[p->part].code),
		page_format(page, "%s: %s",
			_("Those that do the must-haves as likely as not, by "
			  "the weights of the book"),
			weights_words(page, w->weight)),
		column, COUNT(column));
	page_money(page, &grid, all->compared.site.info.currency);
	for (size_t i = 0; i < w->n; i++)
		add_weighed_mix(page, &grid, all, p, w, i);
	page_grid(page, &grid);
}

/* --- What if: nothing of it is written down. --- */

static void
fill_what_if(struct form *form, const struct web_request *request,
	const struct work_site *s)
{
	form_start(form, request, "what-if", "/choose", _("Show what if"));
	form->gets = true;
	form->heading = _("What if");
	form_number(form, "thickness", _("If the parts were so thick"), "mm in",
		NULL);
	form_choice(form, "material", _("If a package of this material"), NULL);
	for (size_t i = 0; i < s->n_material && i < FORM_CHOICES_MOST; i++)
		form_choose(form, s->material[i].code, s->material[i].name);
	form_number(form, "price", _("cost so much"), "", NULL);
}

struct what_if {
	struct work_choose_ask ask;
	struct maybe price;
	struct work_price one;
};

#define AT(member) offsetof(struct what_if, member)
static const struct field what_if_fields[] = {
	{"thickness", FIELD_MAYBE, UNIT_LENGTH, AT(ask.thickness_m)},
	{"material", FIELD_TEXT, UNIT_NUMBER, AT(one.material)},
	{"price", FIELD_MAYBE, UNIT_NUMBER, AT(price)},
};
#undef AT

static bool
read_what_if(
	const struct web_request *request, struct form *form, struct what_if *w)
{
	struct web_request as_form = *request;

	as_form.field = request->query; /* the same names and units */
	as_form.n_field = request->n_query;
	*w = (struct what_if){.price = {.has = false}};
	if (!form_read(
		    &as_form, what_if_fields, COUNT(what_if_fields), w, form))
		return false;
	if (w->price.has != (w->one.material != NULL)) {
		form_fault_at(form, w->price.has ? "material" : "price",
			_("Say both the material and its price."));
		return false;
	}
	w->one.cents = w->price.value * CENTS;
	w->ask.price = &w->one;
	w->ask.n_price = w->price.has ? 1 : 0;
	return true;
}

/* The choice as the address asks it; as it stands where that cannot be. */
static enum err_code
choose_as_asked(const struct web_request *request, struct form *form,
	struct work_chosen *all, bool *what_if, struct err *err)
{
	const struct work_choose_ask bare = {.part = NULL};
	struct err inner = err_in(request->arena);
	struct work_parts parts;
	struct what_if w;

	*what_if = false;
	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	fill_what_if(form, request, &parts.site);
	if (request->method == WEB_GET && read_what_if(request, form, &w) &&
		(w.ask.n_price > 0 || w.ask.thickness_m.has)) {
		if (work_choose_asked(&request->desk, request->arena, &w.ask,
			    all, &inner) == ERR_NONE) {
			*what_if = true;
			return ERR_NONE;
		}
		form_fault(form, &inner);
	}
	return work_choose_asked(
		&request->desk, request->arena, &bare, all, err);
}

/* One part with its form; a fault that belongs to it is said there, and *fault
 * is NULL then. */
static void
add_part(struct page *page, const struct work_chosen *all, size_t i,
	const struct err **fault)
{
	const struct web_request *request = page->request;
	const struct work_part_choice *p = &all->part[i];
	const struct book_part *part = &all->compared.site.part[p->part];
	const char *sent = web_given(request, "part");
	struct form form;

	page_heading(page, part->name);
	add_needs(page, p, all->compared.site.info.currency);
	add_candidates(page, all, p);
	if (all->weighed != NULL && all->weighed[i].n > 1)
		add_weighed(page, all, i);
	for (size_t k = 0; k < p->n_sentence; k++)
		page_say(page, p->sentence[k]);
	page_link(page, _("Weigh these mixes against each other"),
		web_at(request, "/tradeoff/", part->code));
	fill_decide(&form, request, all, p);
	if (*fault != NULL && sent != NULL && strcmp(sent, part->code) == 0) {
		form_fault(&form, *fault);
		*fault = NULL; /* said */
	}
	page_form(page, &form);
}

static enum err_code
show_choose(const struct web_request *request, struct web_reply *reply,
	const struct err *fault, struct err *err)
{
	struct form what_if;
	bool is_what_if;
	struct work_chosen all;
	struct page page;

	TRY(choose_as_asked(request, &what_if, &all, &is_what_if, err));
	page_start(&page, request, _("Which mix for which part"), PAGE_CHOOSE);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Written down."), "/undo/last");
	page_caution(&page,
		_("These are chances that the next batch reads as asked in "
		  "home tests, and screening only. Whatever spans or stands "
		  "over people is for a licensed engineer and the local "
		  "code."));
	if (is_what_if)
		page_alarm(&page,
			_("What if: the figures of the tables are worked out "
			  "as asked below; nothing of it is in the book."));
	for (size_t i = 0; i < all.n_part; i++)
		if (all.part[i].in_short != NULL)
			page_say(&page, all.part[i].in_short);
	page_chart(&page, "/chart/choice.svg",
		_("For each part of the building the chance that each mix "
		  "meets all that is asked; the figures stand in the tables "
		  "below"));
	for (size_t i = 0; i < all.n_part; i++)
		add_part(&page, &all, i, &fault);
	if (fault != NULL) { /* of a part that is not on the page */
		page_alarm(&page, fault->text);
		page.status = 422;
	}
	add_decisions(&page);
	page_form(&page, &what_if);
	page_link(&page, _("Fresh batches, to confirm the choice"), "/confirm");
	page_link(&page, _("What counts, and how much"), "/weights");
	page_link(&page, _("A mix searched for a part"), "/design");
	return page_answer(&page, reply, err);
}

enum err_code
web_choose(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	return show_choose(request, reply, NULL, err);
}

enum err_code
web_choose_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *part = web_given(request, "part");
	const char *mix = web_given(request, "mix");
	const char *because = web_given(request, "because");
	const struct work_decide ask = {.part = part != NULL ? part : "",
		.mix = mix != NULL ? mix : "",
		.because = because != NULL ? because : ""};
	struct work_decision out;
	struct err inner = err_in(request->arena);

	if (mix == NULL)
		(void)err_report(
			&inner, ERR_INPUT, "mix", "%s", _("Choose the mix."));
	else if (because == NULL)
		(void)err_report(&inner, ERR_INPUT, "because", "%s",
			_("A decision needs its reason."));
	else if (work_decide(&request->desk, request->arena, &ask, &out,
			 &inner) == ERR_NONE) {
		reply->see_other = "/choose?saved=1";
		return ERR_NONE;
	}
	return show_choose(request, reply, &inner, err);
}

enum err_code
web_chart_choice(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_chosen all;
	struct draw_chance_part *part;
	struct draw_chances chart = {
		.about = {.id = "choice", .title = _("Chance that all is met")},
		.axis_name = _("chance, in 100"),
		.chosen_word = _("likeliest"),
		.empty_word = _("No part asks anything yet.")};

	TRY(work_choose(&request->desk, request->arena, &all, err));
	part = arena_take(request->arena, all.n_part, sizeof *part);
	if (part == NULL)
		return err_memory(err);
	for (size_t i = 0; i < all.n_part; i++) {
		const struct work_part_choice *p = &all.part[i];
		struct draw_chance *bar = arena_take(
			request->arena, p->n_candidate, sizeof *bar);

		if (bar == NULL)
			return err_memory(err);
		for (size_t k = 0; k < p->n_candidate; k++)
			bar[k] = (struct draw_chance){
				.label = all.compared.site
						 .mix[p->candidate[k].mix]
						 .code,
				.chance = p->candidate[k].p_all,
				.is_chosen = k == 0};
		part[i] = (struct draw_chance_part){
			.label = all.compared.site.part[p->part].name,
			.bar = bar,
			.n_bar = p->n_candidate};
	}
	chart.part = part;
	chart.n_part = all.n_part;
	return chart_answer(request, reply,
		draw_chances(&chart, chart_size(request), &reply->body, err));
}

/* --- A mix searched for a part. --- */

static void
add_designs(struct page *page, const struct work_designed *d)
{
	static const struct grid_column column[] = {
		{"cost", N_("materials"), GRID_MONEY "/m3", true},
		{"wet", N_("wet weight"), "kg/m3", true},
		{"dry", N_("dry weight"), "kg/m3", true},
		{"cement", N_("cement"), "kg/m3", true},
		{"sand_to_cement", N_("sand to 1 of cement"), "", true},
		{"water_to_cement", N_("water to 1 of cement"), "", true},
		{"strength", N_("crushing strength, foreseen"), "N/mm2", true},
		{"conductivity", N_("heat let through (lambda)"), "W/(m K)",
			true},
		{"chance", N_("chance that all is met"), "%", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	if (d->n_front > 0)
		page_chart(page,
			page_format(page, "%s.svg",
				web_at(request, "/chart/design/",
					d->m.site.part[d->part].code)),
			_("Materials of a cubic metre against the crushing "
			  "strength foreseen, for mixes that nothing beats in "
			  "all respects; the figures stand in the table "
			  "below"));
	page_table(page, &grid, "front",
		_("Mixes that nothing beats in all respects"), column,
		COUNT(column));
	page_money(page, &grid, d->m.site.info.currency);
	for (size_t i = 0; i < d->n_front; i++) {
		const struct choose_design *f = &d->front[i];

		figure_cell(page, &grid, CHOOSE_COST, f->cents_per_m3);
		grid_number(&grid, f->wet_kg_m3,
			page_format(page, "%.0f", f->wet_kg_m3));
		grid_number(&grid, f->oven_dry_kg_m3,
			page_format(page, "%.0f", f->oven_dry_kg_m3));
		grid_number(&grid, f->cement.kg,
			page_format(page, "%.0f", f->cement.kg));
		grid_number(&grid, f->sand_cement_ratio,
			page_format(page, "%.2f", f->sand_cement_ratio));
		grid_number(&grid, f->water_cement_ratio,
			page_format(page, "%.2f", f->water_cement_ratio));
		figure_cell(page, &grid, CHOOSE_CRUSHING_STRENGTH,
			f->crushing.median_pa);
		figure_cell(page, &grid, CHOOSE_CONDUCTIVITY, f->conductivity);
		figure_chance(page, &grid, f->chance);
	}
	page_grid(page, &grid);
}

static bool
read_chance(const struct web_request *request, struct form *form,
	struct work_design_ask *ask)
{
	static const struct field field = {"chance", FIELD_MAYBE, UNIT_RATIO,
		offsetof(struct work_design_ask, chance)};
	struct web_request as_form = *request;

	as_form.field = request->query; /* the same names and units */
	as_form.n_field = request->n_query;
	return form_read(&as_form, &field, 1, ask, form);
}

enum err_code
web_design(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *part = web_query(request, "part");
	struct work_design_ask ask = {.part = part};
	struct work_parts parts;
	struct work_designed out;
	struct err inner = err_in(request->arena);
	struct page page;
	struct form form;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	page_start(&page, request, _("A mix searched for a part"), PAGE_CHOOSE);
	page_say(&page,
		_("The cheapest mix of your own materials that meets what the "
		  "part asks, with strength as your own batches teach it. It "
		  "is foreseen, not tested: cast it before you trust it."));
	if (parts.site.n_part == 0)
		page_link(&page, _("Enter the parts of the building"),
			"/building");
	form_start(&form, request, "design", "/design", _("Search"));
	form.gets = true;
	form_choice(&form, "part", _("For which part"), NULL);
	for (size_t i = 0; i < parts.site.n_part && i < FORM_CHOICES_MOST; i++)
		form_choose(&form, parts.site.part[i].code,
			parts.site.part[i].name);
	form_number(&form, "chance", _("Chance wanted that all is met"), "%",
		/* xgettext:no-c-format */
		_("80 % unless said."));
	if (part != NULL && read_chance(request, &form, &ask)) {
		if (work_design(&request->desk, request->arena, &ask, &out,
			    &inner) == ERR_NONE) {
			for (size_t i = 0; i < out.n_sentence; i++)
				page_say(&page, out.sentence[i]);
			add_designs(&page, &out);
		} else {
			form_fault(&form, &inner);
		}
	}
	page_form(&page, &form);
	return page_answer(&page, reply, err);
}

enum err_code
web_chart_design(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const struct work_design_ask ask = {.part = request->tail};
	struct work_designed d;
	struct draw_front_point *point;
	struct draw_front chart = {
		.about = {.id = "design",
			.title = _("Mixes that nothing beats in all respects"),
			.description = _(
				"Each mix by what its materials cost and the "
				"crushing strength that is foreseen. It is "
				"foreseen, not tested.")},
		.x = {.name = _("materials"), .unit = "/m3"},
		.y = {.name = _("crushing strength, foreseen"),
			.unit = choose_measure_unit(CHOOSE_CRUSHING_STRENGTH)},
		.y_more_is_better = true,
		.front_word = _("no other beats it in both"),
		.beaten_word = _("beaten in both"),
		.better_word = _("better"),
		.empty_word = _("No mix has both figures.")};

	TRY(work_design(&request->desk, request->arena, &ask, &d, err));
	point = arena_take(request->arena, d.n_front, sizeof *point);
	if (point == NULL)
		return err_memory(err);
	for (size_t i = 0; i < d.n_front; i++)
		point[i] = (struct draw_front_point){
			.label = text_format(request->arena, "%.0f kg/m3",
				d.front[i].wet_kg_m3),
			.x = figure_in_unit(
				CHOOSE_COST, d.front[i].cents_per_m3),
			.y = figure_in_unit(CHOOSE_CRUSHING_STRENGTH,
				d.front[i].crushing.median_pa)};
	chart.point = point;
	chart.n_point = d.n_front;
	return chart_answer(request, reply,
		draw_front(&chart, chart_size(request), &reply->body, err));
}

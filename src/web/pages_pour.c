/* pages_pour.c - what the building takes, the plan of pouring, and what was
 * poured where. */
#include "web/figures.h"

#include "core/date.h"
#include "draw/calendar.h"
#include "web/chart.h"
#include "web/plan_form.h"
#include "work/fields.h"
#include "work/pour.h"
#include "work/takeoff.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { DAY_S = 86400, HUNDRED = 100 };

static const char *
day_text(const struct web_request *request, int64_t day)
{
	char text[DATE_TEXT_MAX];

	date_write_day(day * DAY_S, 0, text);
	return arena_text(request->arena, text);
}

/* --- What it takes. --- */

static void
add_taken(struct page *page, const struct work_takeoff *t)
{
	static const struct grid_column column[] = {
		{"part", N_("part"), "", false}, {"mix", N_("mix"), "", false},
		{"net", N_("net of openings"), "m3", true},
		{"mixed", N_("to be mixed"), "m3", true},
		{"batches", N_("batches"), "", true},
		{"wet_mass", N_("carried to the forms"), "kg", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "parts", _("Parts"), column, COUNT(column));
	for (size_t i = 0; i < t->n_part; i++) {
		const struct work_part_taken *p = &t->part[i];

		grid_text(&grid, t->m.site.part[p->part].name);
		grid_text(&grid, t->m.site.mix[p->mix].code);
		grid_number(&grid, p->taken.net_m3,
			page_format(page, "%.2f", p->taken.net_m3));
		grid_number(&grid, p->taken.mixed_m3,
			page_format(page, "%.2f", p->taken.mixed_m3));
		grid_number(&grid, (double)p->taken.n_batch,
			page_format(page, "%.0f", (double)p->taken.n_batch));
		grid_number(&grid, p->lifted_kg,
			page_format(page, "%.0f", p->lifted_kg));
	}
	page_grid(page, &grid);
}

static void
add_bought(struct page *page, const struct work_takeoff *t)
{
	static const struct grid_column column[] = {
		{"material", N_("material"), "", false},
		{"mass", N_("mass"), "kg", true},
		{"packages", N_("whole packages"), "", true},
		{"left_over", N_("left over"), "kg", true},
		{"money", N_("money"), GRID_MONEY, true},
		{"carbon", N_("carbon dioxide"), "kg", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "buy", _("To buy"), column, COUNT(column));
	page_money(page, &grid, t->m.site.info.currency);
	for (size_t i = 0; i < t->n_bought; i++) {
		const struct work_bought *b = &t->bought[i];

		grid_text(&grid, t->m.site.material[b->material].name);
		grid_number(&grid, b->mass_kg,
			page_format(page, "%.0f", b->mass_kg));
		grid_number(&grid, b->has_package ? b->n_package : (double)NAN,
			page_format(page, "%.0f", b->n_package));
		grid_number(&grid,
			b->has_package ? b->left_over_kg : (double)NAN,
			page_format(page, "%.0f", b->left_over_kg));
		grid_number(&grid,
			b->has_money ? b->money_cents / HUNDRED : (double)NAN,
			page_format(page, "%.2f", b->money_cents / HUNDRED));
		grid_number(&grid, b->has_carbon ? b->carbon_kg : (double)NAN,
			page_format(page, "%.0f", b->carbon_kg));
	}
	page_grid(page, &grid);
}

/* Where several parts share the packages: what each takes of them. */
static void
add_shares(struct page *page, const struct work_takeoff *t)
{
	static const struct grid_column column[] = {
		{"part", N_("part"), "", false},
		{"material", N_("material"), "", false},
		{"mass", N_("mass"), "kg", true},
		{"packages_alone", N_("packages for it alone"), "", true},
		{"left_alone", N_("left over then"), "kg", true},
		{"packages_in_turn", N_("packages opened in turn"), "", true},
		{"left_in_turn", N_("left over then"), "kg", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "by-part", _("What each part takes of it"),
		column, COUNT(column));
	for (size_t i = 0; i < t->n_part; i++) {
		const struct work_part_taken *p = &t->part[i];

		for (size_t k = 0; k < p->taken.n_line; k++) {
			const struct book_material *m =
				&t->m.site.material[p->material[k]];
			const struct build_share *s = &p->share[k];
			const double kg = p->taken.line[k].mass_kg;
			const double shown[] = {s->n_alone, s->left_alone_kg,
				s->n_package, s->left_kg};

			grid_text(&grid, t->m.site.part[p->part].name);
			grid_text(&grid, m->name);
			grid_number(&grid, kg, page_format(page, "%.1f", kg));
			for (size_t j = 0; j < COUNT(shown); j++)
				grid_number(&grid,
					m->package_kg.has ? shown[j]
							  : (double)NAN,
					page_format(page,
						j % 2 == 0 ? "%.0f" : "%.1f",
						shown[j]));
		}
	}
	page_grid(page, &grid);
}

static void
add_take_off(struct page *page)
{
	const struct web_request *request = page->request;
	const struct work_takeoff_ask ask = {.n_part = 0};
	struct err inner = err_in(request->arena);
	struct work_takeoff t;

	page_heading(page, _("What it takes"));
	if (work_takeoff(&request->desk, request->arena, &ask, &t, &inner) !=
		ERR_NONE) {
		page_say(page, arena_text(request->arena, inner.text));
		page_link(
			page, _("Decide which mix each part gets"), "/choose");
		return;
	}
	add_taken(page, &t);
	add_bought(page, &t);
	if (t.n_part > 1)
		add_shares(page, &t);
	page_big(page,
		t.all_priced ? _("money") : _("money, of what is priced"),
		page_format(page, "%.2f %s", t.money_cents / HUNDRED,
			t.m.site.info.currency));
	page_big(page, _("foam"), page_format(page, "%.1f m3", t.foam_m3));
}

/* --- What was poured. --- */

/* "dry weight 556 kg/m3 (at most 700: met)"; a hint, no proof. */
static const char *
said_words(struct page *page, const struct work_placed *p)
{
	const struct web_request *request = page->request;
	struct text text;

	text_init(&text, request->arena);
	for (size_t k = 0; k < p->n_said; k++) {
		const struct work_said *s = &p->said[k];

		text_addf(&text, "%s%s %s%s %s", k > 0 ? "; " : "",
			_(choose_measure_name(s->measure)),
			s->more ? page_format(page, "%s ", _("at least")) : "",
			figure_text(page, s->measure, s->mean),
			choose_measure_unit(s->measure));
		if (s->has_asked)
			text_addf(&text, " (%s %s: %s)",
				s->is_least ? _("at least") : _("at most"),
				figure_text(page, s->measure, s->asked),
				s->is_met ? _("met") : _("NOT MET"));
	}
	page->failed |= text_failed(&text);
	return text.n > 0 ? text.bytes : "";
}

/* Of a batch held or rejected: what lies beside, on and under it. */
static const char *
touched_words(struct page *page, const struct work_poured *all,
	const struct work_placed *p)
{
	struct text text;

	text_init(&text, page->request->arena);
	for (size_t k = 0; k < p->n_touches; k++)
		text_addf(&text, "%s%s", k > 0 ? ", " : "",
			all->m.site.batch[all->placed[p->touches[k]].batch]
				.code);
	page->failed |= text_failed(&text);
	return text.n > 0 ? text.bytes : "";
}

static void
add_poured(struct page *page, const struct work_poured *all)
{
	static const struct grid_column column[] = {
		{"part", N_("part"), "", false}, {"lift", N_("lift"), "", true},
		{"batch", N_("batch"), "", false},
		{"from", N_("from"), "m", true}, {"to", N_("to"), "m", true},
		{"verdict", N_("verdict"), "", false},
		{"reason", N_("because"), "", false},
		{"tested", N_("pieces tested"), "", false},
		{"wet_off", N_("wet weight off its target"), "kg/m3", true},
		{"say", N_("what its pieces say"), "", false},
		{"touches", N_("touches"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "poured", _("Which batch lies where"), column,
		COUNT(column));
	for (size_t i = 0; i < all->n_placed; i++) {
		const struct work_placed *p = &all->placed[i];
		const struct book_placing *at = &all->m.placing[p->placing];
		const char *batch = all->m.site.batch[p->batch].code;

		grid_text(&grid, all->m.site.part[p->part].name);
		grid_number(&grid, (double)at->lift,
			page_format(page, "%d", (int)at->lift));
		grid_link(&grid, batch, web_at(request, "/batch/", batch));
		grid_number(&grid,
			at->from_m.has ? at->from_m.value : (double)NAN,
			page_format(page, "%.2f", at->from_m.value));
		grid_number(&grid, at->to_m.has ? at->to_m.value : (double)NAN,
			page_format(page, "%.2f", at->to_m.value));
		grid_text(&grid, _(at->verdict));
		grid_text(&grid, at->reason);
		grid_text(&grid,
			page_format(
				page, "%zu / %zu", p->n_tested, p->n_piece));
		grid_number(&grid,
			p->has_wet_off ? p->wet_off_kg_m3 : (double)NAN,
			page_format(page, "%+.0f", p->wet_off_kg_m3));
		grid_text(&grid, said_words(page, p));
		grid_text(&grid, touched_words(page, all, p));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page, _("Nothing was poured into the building yet."));
	for (size_t i = 0; i < all->n_sentence; i++)
		page_say(page, all->sentence[i]);
}

#define AT(member) offsetof(struct work_pour_ask, member)
static const struct field pour_fields[] = {
	{"batch", FIELD_TEXT, UNIT_NUMBER, AT(batch)},
	{"part", FIELD_TEXT, UNIT_NUMBER, AT(part)},
	{"lift", FIELD_WHOLE, UNIT_NUMBER, AT(lift)},
	{"from", FIELD_MAYBE, UNIT_LENGTH, AT(from_m)},
	{"to", FIELD_MAYBE, UNIT_LENGTH, AT(to_m)},
	{"verdict", FIELD_TEXT, UNIT_NUMBER, AT(verdict)},
	{"reason", FIELD_TEXT, UNIT_NUMBER, AT(reason)},
};
#undef AT

static void
fill_pour(struct form *form, const struct web_request *request,
	const struct work_mixer *m)
{
	form_start(form, request, "pour", "/pour", _("Record where it lies"));
	form->heading = _("A batch poured");
	form_text(form, "batch", _("Which batch"), NULL);
	form_needed(form);
	form_choice(form, "part", _("Into which part"), NULL);
	for (size_t i = 0; i < m->site.n_part && i < FORM_CHOICES_MOST; i++)
		form_choose(form, m->site.part[i].code, m->site.part[i].name);
	form_number(form, "lift", _("Which lift, from 1"), "", NULL);
	form_number(form, "from", _("Along the part, from"), "m ft", NULL);
	form_number(form, "to", _("to"), "m ft", NULL);
	form_choice(form, "verdict", _("What is made of it"), NULL);
	form_choose(form, "accept", _("accepted"));
	form_choose(form, "mark", _("marked, to be watched"));
	form_choose(form, "hold", _("on hold"));
	form_choose(form, "reject", _("rejected"));
	form_text(form, "reason", _("Because"),
		_("Needed where it is marked, held or rejected."));
}

static enum err_code
show_pour(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	struct work_poured all;
	struct page page;

	TRY(work_poured(&request->desk, request->arena, NULL, NULL, &all, err));
	page_start(&page, request, _("Buying and pouring"), PAGE_POUR);
	page_caution(&page,
		_("Fluid mix presses on the forms with its full height; "
		  "nobody stands before them while they fill. Two people lift "
		  "what weighs over 25 kg."));
	page_link(&page, _("The plan of pouring, day by day"), "/plan");
	add_take_off(&page);
	page_heading(&page, _("What was poured"));
	add_poured(&page, &all);
	for (size_t i = 0; i < all.n_drying; i++)
		page_say(&page, all.drying[i]);
	if (form->request == NULL)
		fill_pour(form, request, &all.m);
	page_form(&page, form);
	return page_answer(&page, reply, err);
}

enum err_code
web_pour(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form = {.request = NULL};

	return show_pour(request, reply, &form, err);
}

enum err_code
web_pour_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_pour_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	struct work_mixer m;
	struct form form;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	fill_pour(&form, request, &m);
	if (form_read(request, pour_fields, COUNT(pour_fields), &ask, &form)) {
		if (ask.batch == NULL)
			form_fault_at(&form, "batch", _("This is needed."));
		else if (work_pour(&request->desk, request->arena, &ask,
				 &inner) == ERR_NONE) {
			reply->see_other = "/pour";
			return ERR_NONE;
		} else {
			form_fault(&form, &inner);
		}
	}
	return show_pour(request, reply, &form, err);
}

/* --- The plan. --- */

static const char *
lift_words(struct page *page, const struct work_plan *plan,
	const struct work_plan_lift *l)
{
	const struct web_request *request = page->request;

	(void)plan;
	return page_format(page, "%s: %.2f m3, %d %s", l->name,
		l->cut.volume_m3, (int)l->cut.n_batch, _("batches"));
}

static void
add_lifts(struct page *page, const struct work_plan *plan)
{
	static const struct grid_column column[] = {
		{"day", N_("day"), "", false}, {"part", N_("part"), "", false},
		{"lift", N_("lift"), "", false},
		{"volume", N_("volume"), "m3", true},
		{"batches", N_("batches"), "", true},
		{"first", N_("first batch, counted over all"), "", true},
		{"strip", N_("forms off"), "", false},
		{"witness", N_("a test piece from"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(
		page, &grid, "lifts", _("Day by day"), column, COUNT(column));
	for (size_t i = 0; i < plan->n_lift; i++) {
		const struct work_plan_lift *l = &plan->lift[i];
		const struct work_part_taken *p = &plan->takeoff.part[l->part];

		grid_text(&grid, day_text(request, l->day));
		grid_text(&grid, plan->takeoff.m.site.part[p->part].name);
		grid_text(&grid, l->name);
		grid_number(&grid, l->cut.volume_m3,
			page_format(page, "%.2f", l->cut.volume_m3));
		grid_number(&grid, (double)l->cut.n_batch,
			page_format(page, "%d", (int)l->cut.n_batch));
		grid_number(&grid, (double)l->first_batch,
			page_format(page, "%zu", l->first_batch));
		grid_text(&grid,
			l->strip_day > 0 ? day_text(request, l->strip_day)
					 : NULL);
		grid_text(&grid, l->witness);
	}
	page_grid(page, &grid);
}

static void
add_deliveries(struct page *page, const struct work_plan *plan)
{
	static const struct grid_column column[] = {
		{"day", N_("day"), "", false},
		{"material", N_("material"), "", false},
		{"packages", N_("packages"), "", true},
		{"mass", N_("mass"), "kg", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "deliveries", _("To be delivered by"), column,
		COUNT(column));
	for (size_t i = 0; i < plan->n_delivery; i++) {
		const struct work_delivery *d = &plan->delivery[i];

		grid_text(&grid, day_text(request, d->day));
		grid_text(
			&grid, plan->takeoff.m.site.material[d->material].name);
		grid_number(&grid, d->has_package ? d->n_package : (double)NAN,
			page_format(page, "%.0f", d->n_package));
		grid_number(&grid, d->kg, page_format(page, "%.0f", d->kg));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

enum err_code
web_plan(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_plan_ask ask;
	struct work_plan plan;
	struct err inner = err_in(request->arena);
	struct page page;
	struct form form;

	page_start(&page, request, _("The plan of pouring"), PAGE_POUR);
	page_caution(&page,
		_("A lift stands before the next goes on it; cold slows it. "
		  "Forms hold the full height of fluid mix."));
	plan_fill(&form, request);
	if (plan_read(request, &form, &ask)) {
		if (work_plan(&request->desk, request->arena, &ask, &plan,
			    &inner) == ERR_NONE) {
			page_big(&page, _("poured by"),
				day_text(request, plan.last_day));
			page_say(&page,
				page_format(&page, "%s %s (%s).",
					_("No plan ends before"),
					day_text(request, plan.bound_day),
					plan.plan.bound_from));
			page_chart(&page,
				web_as_asked(request, "/chart/plan.svg"),
				_("Which day what is poured and when forms "
				  "come off; the table below holds the "
				  "same"));
			add_lifts(&page, &plan);
			add_deliveries(&page, &plan);
			page_link(&page, _("As a calendar file"),
				web_as_asked(request, "/plan/calendar.ics"));
		} else if (request->n_query == 0) { /* nothing asked yet */
			page_say(&page, arena_text(request->arena, inner.text));
			page_link(&page, _("Decide which mix each part gets"),
				"/choose");
		} else {
			form_fault(&form, &inner);
		}
	}
	page_form(&page, &form);
	page_link(&page, _("Back to buying and pouring"), "/pour");
	return page_answer(&page, reply, err);
}

static enum err_code
plan_as_asked(const struct web_request *request, struct work_plan *plan,
	struct err *err)
{
	struct work_plan_ask ask;
	struct form form;

	plan_fill(&form, request);
	if (!plan_read(request, &form, &ask))
		return err_report(err, ERR_INPUT, "",
			"A figure of the plan could not be read.");
	return work_plan(&request->desk, request->arena, &ask, plan, err);
}

enum err_code
web_plan_calendar(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_plan plan;
	const char *ics;

	TRY(plan_as_asked(request, &plan, err));
	ics = work_plan_ics(request->arena, &plan, request->desk.now_utc_s);
	if (ics == NULL)
		return err_memory(err);
	reply->type = "text/calendar; charset=utf-8";
	text_add(&reply->body, ics);
	return ERR_NONE;
}

enum { CHART_DAYS = 60 };

enum err_code
web_chart_plan(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct draw_calendar chart = {
		.about = {.id = "plan", .title = _("Day by day")},
		.empty_word = _("Nothing is left to pour.")};
	struct work_plan plan;
	struct page page;
	struct draw_cell *cell;
	const char **day, **column;

	TRY(plan_as_asked(request, &plan, err));
	page_start(&page, request, "", PAGE_POUR);
	cell = arena_take(request->arena, plan.n_lift, sizeof *cell);
	day = arena_take(request->arena, CHART_DAYS, sizeof *day);
	column = arena_take(
		request->arena, plan.takeoff.n_part, sizeof *column);
	if (cell == NULL || day == NULL || column == NULL)
		return err_memory(err);
	for (size_t i = 0; i < plan.takeoff.n_part; i++)
		column[i] = plan.takeoff.m.site.part[plan.takeoff.part[i].part]
				    .name;
	for (size_t i = 0; i < plan.n_lift; i++) {
		const struct work_plan_lift *l = &plan.lift[i];
		const char *text = day_text(request, l->day);

		if (chart.n_day == 0 ||
			strcmp(day[chart.n_day - 1], text) != 0) {
			if (chart.n_day == CHART_DAYS)
				break;
			day[chart.n_day++] = text;
		}
		cell[chart.n_cell++] = (struct draw_cell){
			.day = chart.n_day - 1,
			.column = l->part,
			.deed = DRAW_DEED_POUR,
			.text = lift_words(&page, &plan, l)};
	}
	chart.day = day;
	chart.column = column;
	chart.n_column = plan.takeoff.n_part;
	chart.cell = cell;
	return chart_answer(request, reply,
		draw_calendar(&chart, chart_size(request), &reply->body, err));
}

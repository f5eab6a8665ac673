/* pages_next.c - what further testing would gain against what it costs. */
#include "web/figures.h"

#include "draw/gain.h"
#include "web/chart.h"
#include "work/fields.h"
#include "work/next.h"
#include "work/part.h"

#include <math.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { HUNDRED = 100 };

static void
fill_next(struct form *form, const struct web_request *request,
	const struct work_site *s)
{
	form_start(form, request, "next", "/next", _("Reckon again"));
	form->gets = true;
	form->heading = _("What it costs");
	form_number(form, "batch", _("A batch costs"), "",
		_("In the money of the book; empty: a batch counts 1."));
	form_number(form, "piece", _("A test piece costs"), "", NULL);
	form_number(form, "day", _("A day costs"), "", NULL);
	form_number(form, "budget", _("To be spent at most"), "", NULL);
	form_number(form, "a-day", _("Batches that fit in a day"), "",
		_("2 unless said."));
	form_number(form, "pieces", _("Test pieces of each new batch"), "",
		_("Empty: as many as so far."));
	form_choice(form, "measure", _("What the choice is by"),
		_("Empty: bending strength."));
	for (int k = 0; k < CHOOSE_MEASURE_COUNT; k++)
		form_choose(form, choose_measure_word((enum choose_measure)k),
			_(choose_measure_name((enum choose_measure)k)));
	form_choice(
		form, "part", _("What this part asks of it is enough"), NULL);
	for (size_t i = 0; i < s->n_part && i < FORM_CHOICES_MOST; i++)
		form_choose(form, s->part[i].code, s->part[i].name);
	form_text(form, "among", _("Only among these mixes"),
		_("Their letters, with commas; empty: all."));
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
add_designs(struct page *page, const struct work_next *next, bool has_money)
{
	static const struct grid_column column[] = {
		{"batches", N_("further batches"), "", false},
		{"cost", N_("cost"), GRID_MONEY, true},
		{"days", N_("days"), "", true},
		{"gain", N_("gains on average"), "%", true},
		{"error", N_("give or take"), "%", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "designs", _("What further batches would gain"),
		column, COUNT(column));
	page_money(page, &grid,
		has_money ? next->compared.site.info.currency : "");
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

/* Whole numbers, before they are counts. */
struct typed_next {
	struct work_next_ask ask;
	struct maybe batch, piece, day, budget, a_day, pieces;
	const char *measure;
};

#define AT(member) offsetof(struct typed_next, member)
static const struct field fields[] = {
	{"batch", FIELD_MAYBE, UNIT_NUMBER, AT(batch)},
	{"piece", FIELD_MAYBE, UNIT_NUMBER, AT(piece)},
	{"day", FIELD_MAYBE, UNIT_NUMBER, AT(day)},
	{"budget", FIELD_MAYBE, UNIT_NUMBER, AT(budget)},
	{"a-day", FIELD_WHOLE, UNIT_NUMBER, AT(a_day)},
	{"pieces", FIELD_WHOLE, UNIT_NUMBER, AT(pieces)},
	{"measure", FIELD_TEXT, UNIT_NUMBER, AT(measure)},
	{"part", FIELD_TEXT, UNIT_NUMBER, AT(ask.part)},
	{"among", FIELD_TEXT, UNIT_NUMBER, AT(ask.among)},
};
#undef AT

enum { COUNT_MOST = 1000 };

static size_t
count_of(const struct web_request *request, struct form *form, const char *name,
	struct maybe typed, size_t usual)
{
	if (!typed.has)
		return usual;
	if (typed.value >= 1 && typed.value <= COUNT_MOST)
		return (size_t)typed.value;
	form_fault_at(form, name, _("It is a number from 1 to 1000."));
	return usual;
}

/* What it costs and what is chosen by, as the form of the page and the picture's
 * address say it. */
static enum err_code
read_ask(const struct web_request *request, struct form *form,
	struct work_next_ask *ask, struct err *err)
{
	struct web_request as_form = *request;
	struct typed_next typed = {.measure = NULL};
	struct work_parts parts;

	as_form.field = request->query; /* the same names and units */
	as_form.n_field = request->n_query;
	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	fill_next(form, request, &parts.site);
	(void)form_read(&as_form, fields, COUNT(fields), &typed, form);
	*ask = typed.ask;
	ask->batch_cost = typed.batch.value;
	ask->specimen_cost = typed.piece.value;
	ask->day_cost = typed.day.value;
	ask->budget = typed.budget.value;
	ask->batches_a_day = count_of(request, form, "a-day", typed.a_day, 2);
	ask->specimens = count_of(request, form, "pieces", typed.pieces, 0);
	ask->has_measure = typed.measure != NULL;
	if (ask->has_measure &&
		!choose_measure_find(typed.measure, &ask->measure))
		form_fault_at(form, "measure", _("Choose one of these."));
	return ERR_NONE;
}

static void
add_chart(struct page *page)
{
	const struct web_request *request = page->request;

	page_chart(page, web_as_asked(request, "/chart/gain.svg"),
		_("What each plan of further batches would gain on average "
		  "against what it costs; the figures stand in the table "
		  "below"));
}

enum err_code
web_next(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_next_ask ask;
	struct work_next next;
	struct err inner = err_in(request->arena);
	struct page page;
	struct form form;

	page_start(&page, request, _("What further testing would gain"),
		PAGE_COMPARE);
	TRY(read_ask(request, &form, &ask, err));
	if (!form_has_fault(&form)) {
		if (work_next(&request->desk, request->arena, &ask, &next,
			    &inner) == ERR_NONE) {
			for (size_t i = 0; i < next.n_sentence; i++)
				page_say(&page, next.sentence[i]);
			add_chart(&page);
			add_designs(&page, &next,
				ask.batch_cost + ask.specimen_cost +
						ask.day_cost >
					0);
		} else {
			form_fault(&form, &inner);
		}
	}
	page_form(&page, &form);
	page_link(&page, _("Back to the comparison"), "/compare");
	return page_answer(&page, reply, err);
}

enum err_code
web_chart_gain(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;
	struct work_next_ask ask;
	struct work_next next;
	struct draw_gain_point *point;
	struct page page; /* for its texts alone */
	struct draw_gain chart = {
		.about = {.id = "gain",
			.title = _("What further batches would gain"),
			.description = _(
				"Plans of further batches by their cost and "
				"by what they gain on average, with how "
				"surely that was worked out.")},
		.gain = {.name = _("gains on average"),
			.unit = "%",
			.from_zero = true},
		.chosen_word = _("pays most"),
		.empty_word = _("No further batch is reckoned yet.")};

	TRY(read_ask(request, &form, &ask, err));
	if (form_has_fault(&form))
		return err_report(err, ERR_INPUT, "",
			"What it costs has to be plain numbers.");
	TRY(work_next(&request->desk, request->arena, &ask, &next, err));
	page_start(&page, request, "", PAGE_COMPARE);
	point = arena_take(request->arena, next.n_design, sizeof *point);
	if (point == NULL)
		return err_memory(err);
	for (size_t i = 0; i < next.n_design; i++) {
		const struct work_next_design *d = &next.design[i];

		if (!d->on_curve)
			continue;
		point[chart.n_point++] = (struct draw_gain_point){
			.label = extra_words(&page, &next, d),
			.cost = d->cost,
			.gain = {d->gain.gain * HUNDRED, d->gain_low * HUNDRED,
				d->gain_high * HUNDRED},
			.is_chosen = i == next.advised};
	}
	chart.point = point;
	chart.cost = (struct draw_axis){.name = _("cost"),
		.unit = next.has_money ? next.compared.site.info.currency
				       : _("batches"),
		.from_zero = true};
	return chart_answer(request, reply,
		draw_gain(&chart, chart_size(request), &reply->body, err));
}

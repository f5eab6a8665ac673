/* pages_next.c - what further testing would gain against what it costs. */
#include "web/figures.h"

#include "draw/gain.h"
#include "web/chart.h"
#include "work/next.h"

#include <math.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { HUNDRED = 100 };

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

/* What it costs, as the form of the page and the picture's address say it. */
static struct work_next_ask
read_ask(const struct web_request *request, struct form *form)
{
	fill_next(form, request);
	return (struct work_next_ask){.batches_a_day = 2,
		.batch_cost = asked_number(request, "batch", form),
		.specimen_cost = asked_number(request, "piece", form),
		.day_cost = asked_number(request, "day", form),
		.budget = asked_number(request, "budget", form)};
}

static void
add_chart(struct page *page, const struct work_next_ask *ask)
{
	const struct web_request *request = page->request;

	page_chart(page,
		page_format(page,
			"/chart/gain.svg?batch=%.15g&piece=%.15g&day=%.15g"
			"&budget=%.15g",
			ask->batch_cost, ask->specimen_cost, ask->day_cost,
			ask->budget),
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
	ask = read_ask(request, &form);
	if (!form_has_fault(&form)) {
		if (work_next(&request->desk, request->arena, &ask, &next,
			    &inner) == ERR_NONE) {
			for (size_t i = 0; i < next.n_sentence; i++)
				page_say(&page, next.sentence[i]);
			add_chart(&page, &ask);
			add_designs(&page, &next,
				ask.batch_cost + ask.specimen_cost +
						ask.day_cost >
					0);
		} else if (request->n_query == 0) { /* nothing asked yet */
			return err_report(
				err, inner.code, inner.field, "%s", inner.text);
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
	const struct work_next_ask ask = read_ask(request, &form);
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

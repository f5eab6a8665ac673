/* pages_tradeoff.c - the mixes that do for a part, weighed against each
 * other. */
#include "web/figures.h"

#include "draw/front.h"
#include "web/chart.h"
#include "work/choose.h"
#include "work/weight.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { DIGITS = 3, HUNDRED = 100 };

/* What is weighed: how it is called, and in which unit people read it. */
struct scale {
	const char *word, *name, *unit;
	enum unit_kind kind;
	bool more_is_better;
};

static const struct scale scales[WORK_CRITERIA] = {
	[WORK_CRITERION_DENSITY] = {"density", N_("dry weight"), "kg/m3",
		UNIT_DENSITY, false},
	[WORK_CRITERION_STRENGTH] = {"strength", N_("strength"), "N/mm2",
		UNIT_STRESS, true},
	[WORK_CRITERION_COST] = {"cost", N_("materials"), "/m3", UNIT_NUMBER,
		false},
	[WORK_CRITERION_LABOUR] = {"labour", N_("time to fold the foam in"),
		"min/m3", UNIT_TIME, false},
	[WORK_CRITERION_HEAT] = {"heat", N_("heat let through (lambda)"),
		"W/(m K)", UNIT_CONDUCTIVITY, false},
};

/* A figure of a criterion in its unit; NAN where it is not known. */
static double
in_unit(enum work_criterion criterion, double si)
{
	if (criterion == WORK_CRITERION_COST)
		return si / HUNDRED; /* cents */
	return unit_value(si, scales[criterion].kind,
		criterion == WORK_CRITERION_LABOUR ? "min"
						   : scales[criterion].unit);
}

struct asked {
	struct work_choose_ask ask;
	enum work_criterion across, up;
};

static void
choose_axis(struct form *form, const struct web_request *request,
	const char *name, const char *label, enum work_criterion usual)
{
	form_choice(form, name, label, NULL);
	for (size_t i = 0; i < WORK_CRITERIA; i++)
		form_choose(form, scales[i].word,
			words(request->language, scales[i].name));
	form_value(form, scales[usual].word);
}

/* The weights that the book keeps, else dry weight and strength alike. */
static void
fill_weights(struct form *form, const struct web_request *request)
{
	struct err none = {.code = ERR_NONE};
	double kept[WORK_CRITERIA];
	bool has_kept = false;

	/* A part that is not there is told by whoever reads it next. */
	if (work_weights_kept(&request->desk, request->arena, request->tail,
		    kept, &has_kept, &none) != ERR_NONE)
		has_kept = false;
	form_start(form, request, "weigh-mixes",
		web_at(request, "/tradeoff/", request->tail), _("Weigh again"));
	form->gets = true;
	form->heading = _("What counts, and how much");
	for (size_t i = 0; i < WORK_CRITERIA; i++) {
		form_number(form, scales[i].word,
			words(request->language, scales[i].name), "",
			i == 0 ? _("A number: 2 counts twice as much as 1, and "
				   "0 not at all.")
			       : NULL);
		form_value(form,
			has_kept ? text_format(request->arena, "%g", kept[i])
				: i == WORK_CRITERION_DENSITY ||
					i == WORK_CRITERION_STRENGTH
				? "1"
				: "0");
	}
	choose_axis(form, request, "across", _("Across the picture"),
		WORK_CRITERION_DENSITY);
	choose_axis(form, request, "up", _("Up the picture"),
		WORK_CRITERION_STRENGTH);
}

static void
read_axis(const struct web_request *request, const char *name,
	enum work_criterion *to, struct form *form)
{
	const char *word = web_query(request, name);

	if (word != NULL && !work_criterion_find(word, to))
		form_fault_at(form, name, _("Choose one of these."));
}

/* The weights of the address; those that are not given count as the form shows
 * them. */
static void
read_asked(const struct web_request *request, struct form *form,
	struct asked *asked)
{
	*asked = (struct asked){
		.ask = {.part = request->tail, .has_weight = true},
		.across = WORK_CRITERION_DENSITY,
		.up = WORK_CRITERION_STRENGTH};
	fill_weights(form, request);
	for (size_t i = 0; i < WORK_CRITERIA; i++) {
		struct err err = err_in(request->arena);

		if (form->failed)
			return;
		if (unit_read(form->field[i]->value, UNIT_NUMBER, NULL,
			    &asked->ask.weight[i], &err) != ERR_NONE)
			form_fault_at(form, scales[i].word, err.text);
	}
	read_axis(request, "across", &asked->across, form);
	read_axis(request, "up", &asked->up, form);
}

static const char *
code_of(const struct work_chosen *all, size_t i)
{
	const struct work_part_choice *p = &all->part[0];

	return all->compared.site
		.mix[p->candidate[all->weighed[0].candidate[i]].mix]
		.code;
}

static void
criterion_cell(struct page *page, struct grid *grid,
	enum work_criterion criterion, double si)
{
	double value = in_unit(criterion, si);

	grid_number(grid, value,
		isfinite(value)
			? unit_digits(page->request->arena, value, DIGITS)
			: NULL);
}

static void
add_weighed(struct page *page, const struct work_chosen *all)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false},
		{"utility", N_("how well it suits, 0 to 1"), "", true},
		{"first", N_("is the first"), "%", true},
		{"density", N_("dry weight"), "kg/m3", true},
		{"strength", N_("strength"), "N/mm2", true},
		{"cost", N_("materials"), GRID_MONEY "/m3", true},
		{"labour", N_("time to fold the foam in"), "min/m3", true},
		{"heat", N_("heat let through (lambda)"), "W/(m K)", true},
		{"beaten_by", N_("beaten by"), "", false}};
	const struct web_request *request = page->request;
	const struct work_weighed *w = &all->weighed[0];
	struct grid grid;

	page_table(page, &grid, "weighed",
		_("The mixes that meet what is asked as likely as not"), column,
		COUNT(column));
	page_money(page, &grid, all->compared.site.info.currency);
	for (size_t i = 0; i < w->n; i++) {
		grid_text(&grid, code_of(all, i));
		grid_number(&grid, w->utility[i],
			page_format(page, "%.2f", w->utility[i]));
		if (isnan(w->p_first[i]))
			grid_text(&grid, NULL);
		else
			figure_chance(page, &grid, w->p_first[i]);
		for (size_t k = 0; k < WORK_CRITERIA; k++)
			criterion_cell(page, &grid, (enum work_criterion)k,
				w->middle[i * WORK_CRITERIA + k]);
		grid_text(&grid,
			w->is_beaten[i] ? code_of(all, w->beaten_by[i]) : NULL);
	}
	page_grid(page, &grid);
}

static void
add_front(struct page *page, const struct asked *asked)
{
	const struct web_request *request = page->request;
	struct text address;

	text_init(&address, request->arena);
	text_addf(&address, "%s.svg?across=%s&up=%s",
		web_at(request, "/chart/front/", request->tail),
		scales[asked->across].word, scales[asked->up].word);
	for (size_t i = 0; i < WORK_CRITERIA; i++)
		text_addf(&address, "&%s=%.15g", scales[i].word,
			asked->ask.weight[i]);
	page->failed |= text_failed(&address);
	page_chart(page, address.bytes,
		page_format(page, "%s, %s: %s",
			words(request->language, scales[asked->up].name),
			words(request->language, scales[asked->across].name),
			_("each mix, and those that no other beats in both; "
			  "the figures stand in the table below")));
}

static struct draw_axis
axis_of(const struct web_request *request, const struct work_chosen *all,
	enum work_criterion criterion)
{
	return (struct draw_axis){
		.name = words(request->language, scales[criterion].name),
		.unit = criterion == WORK_CRITERION_COST
			? text_format(request->arena, "%s/m3",
				  all->compared.site.info.currency)
			: scales[criterion].unit};
}

enum err_code
web_tradeoff(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct asked asked;
	struct work_chosen all;
	struct err inner = err_in(request->arena);
	struct page page;
	struct form form;
	enum err_code code;

	read_asked(request, &form, &asked);
	page_start(&page, request,
		text_format(request->arena, "%s: %s",
			_("Mixes weighed against each other"), request->tail),
		PAGE_CHOOSE);
	page_caution(&page,
		_("Weighing says what suits you among mixes that pass in home "
		  "tests. It is screening; what spans or stands over people is "
		  "for a licensed engineer and the local code."));
	if (!form_has_fault(&form)) {
		code = work_choose_asked(&request->desk, request->arena,
			&asked.ask, &all, &inner);
		if (code == ERR_NOT_FOUND ||
			(code != ERR_NONE && request->n_query == 0))
			return err_report(
				err, code, inner.field, "%s", inner.text);
		if (code != ERR_NONE) {
			form_fault(&form, &inner);
		} else if (all.weighed[0].n == 0) {
			page_say(&page,
				_("There is nothing to weigh: no mix meets "
				  "what is asked as likely as not."));
		} else {
			page_say(&page,
				_("How well a mix suits: 1 is the best of "
				  "these in all that is weighed, 0 the "
				  "worst."));
			if (all.weighed[0].n == 1)
				page_say(&page,
					_("One mix alone meets what is asked "
					  "as likely as not; there is nothing "
					  "to weigh it against."));
			add_front(&page, &asked);
			add_weighed(&page, &all);
		}
	}
	page_form(&page, &form);
	page_link(&page, _("Keep weights for this part in the book"),
		web_at(request, "/weights?part=", request->tail));
	page_link(&page, _("Back to the choice"), "/choose");
	return page_answer(&page, reply, err);
}

enum err_code
web_chart_front(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct asked asked;
	struct work_chosen all;
	struct form form;
	struct draw_front_point *point;
	struct draw_front chart = {
		.about = {.id = "front",
			.title = _("Mixes weighed against each other"),
			.description = _(
				"Each mix by two figures; those that no "
				"other beats in both are joined, and the one "
				"that comes first as weighed has a ring.")},
		.front_word = _("no other beats it in both"),
		.beaten_word = _("beaten in both"),
		.chosen_word = _("first as weighed"),
		.better_word = _("better"),
		.empty_word = _("No mix has both figures.")};

	read_asked(request, &form, &asked);
	if (form_has_fault(&form))
		return err_report(err, ERR_INPUT, "",
			"The weights have to be plain numbers.");
	TRY(work_choose_asked(
		&request->desk, request->arena, &asked.ask, &all, err));
	point = arena_take(request->arena, all.weighed[0].n, sizeof *point);
	if (point == NULL)
		return err_memory(err);
	for (size_t i = 0; i < all.weighed[0].n; i++) {
		const double *middle = all.weighed[0].middle +
			i * WORK_CRITERIA;
		double x = in_unit(asked.across, middle[asked.across]);
		double y = in_unit(asked.up, middle[asked.up]);

		if (isfinite(x) && isfinite(y))
			point[chart.n_point++] = (struct draw_front_point){
				.label = code_of(&all, i),
				.x = x,
				.y = y,
				.is_chosen = i == 0};
	}
	chart.point = point;
	chart.x = axis_of(request, &all, asked.across);
	chart.y = axis_of(request, &all, asked.up);
	chart.x_more_is_better = scales[asked.across].more_is_better;
	chart.y_more_is_better = scales[asked.up].more_is_better;
	return chart_answer(request, reply,
		draw_front(&chart, chart_size(request), &reply->body, err));
}

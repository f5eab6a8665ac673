/* pages_trial.c - the plan of a trial, and the rules set before casting. */
#include "web/figures.h"

#include "choose/validity.h"
#include "work/fields.h"
#include "work/trial.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { HUNDRED = 100 };

static const char *
mix_field(const struct web_request *request, const char *code)
{
	return text_format(request->arena, "mix-%s", code);
}

static void
fill_trial(struct form *form, const struct web_request *request,
	const struct work_mixer *m)
{
	form_start(form, request, "trial", "/trial", _("Draw the order"));
	form->heading = _("A trial planned");
	form_text(form, "code", _("Its name"), _("Short, such as T1."));
	form_needed(form);
	form_text(form, "question", _("What it is to answer"),
		_("Such as: which mix for the roof panels?"));
	form_choice(form, "baseline", _("The baseline"),
		_("All others are held against it."));
	for (size_t i = 0; i < m->site.n_mix && i < FORM_CHOICES_MOST; i++)
		form_choose(form, m->site.mix[i].code, m->site.mix[i].code);
	for (size_t i = 0; i < m->site.n_mix && i < FORM_CHOICES_MOST; i++)
		form_yes(form, mix_field(request, m->site.mix[i].code),
			text_format(request->arena, "%s %s, %s", _("with mix"),
				m->site.mix[i].code, m->site.mix[i].name),
			NULL);
	form_number(form, "batches", _("Batches of each mix"), "",
		_("2 unless said. Batches count, pieces of one batch count "
		  "little."));
	form_number(form, "pieces", _("Test pieces of each batch"), "", NULL);
	form_number(form, "per-day", _("Batches in a day"), "", NULL);
}

static void
add_order(struct page *page, const struct work_mixer *m,
	const struct work_trial_told *t)
{
	static const struct grid_column column[] = {
		{"batch", N_("batch"), "", false}, {"day", N_("day"), "", true},
		{"mix", N_("mix"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, m->site.trial[t->trial].code,
		_("The order, drawn by lot within each day"), column,
		COUNT(column));
	for (size_t i = 0; i < t->n_batch; i++) {
		const struct book_trial_slot *slot = &m->slot[t->slot[i]];
		const char *mix = "?";

		for (size_t k = 0; k < m->site.n_mix; k++)
			if (m->site.mix[k].row.id == slot->mix_id)
				mix = m->site.mix[k].code;
		grid_link(&grid, slot->batch_code,
			web_at(request, "/batch/", slot->batch_code));
		grid_number(&grid, (double)slot->day,
			page_format(page, "%d", (int)slot->day));
		grid_text(&grid, mix);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

static void
add_rules(struct page *page, const struct work_mixer *m)
{
	static const struct grid_column column[] = {
		{"rule", N_("rule"), "", false},
		{"above", N_("more than"), "%", true},
		{"action", N_("then"), "", false},
		{"set_on", N_("set on"), "", false},
		{"reason", N_("because"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "rules",
		_("Rules of validity, set before casting"), column,
		COUNT(column));
	for (size_t i = 0; i < m->site.n_rule; i++) {
		const struct book_rule *r = &m->site.rule[i];
		enum choose_rule_measure measure;

		grid_text(&grid,
			choose_rule_find(r->measure, &measure)
				? _(choose_rule_words(measure))
				: r->measure);
		grid_number(&grid, r->above * HUNDRED,
			page_format(page, "%g", r->above * HUNDRED));
		grid_text(&grid,
			strcmp(r->action, "exclude") == 0
				? _("not compared")
				: _("compared and marked"));
		grid_text(&grid, r->set_on);
		grid_text(&grid, _(r->reason));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

static enum err_code
show_trial(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	struct work_mixer m;
	struct work_trial_spread spread;
	struct page page;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	TRY(work_trial_spread(&request->desk, request->arena, &spread, err));
	page_start(&page, request, _("The trial"), PAGE_TRIAL);
	for (size_t i = 0; i < m.site.n_trial; i++) {
		struct work_trial_told told;
		struct err inner = err_in(request->arena);

		page_heading(&page,
			page_format(&page, "%s: %s", m.site.trial[i].code,
				m.site.trial[i].question));
		if (work_trial_show(&m, request->arena, i, &spread, &told,
			    &inner) != ERR_NONE)
			continue;
		for (size_t k = 0; k < told.n_sentence; k++)
			page_say(&page, told.sentence[k]);
		add_order(&page, &m, &told);
	}
	add_rules(&page, &m);
	if (form->request == NULL)
		fill_trial(form, request, &m);
	page_form(&page, form);
	return page_answer(&page, reply, err);
}

enum err_code
web_trial(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form = {.request = NULL};

	return show_trial(request, reply, &form, err);
}

#define AT(member) offsetof(struct work_trial_ask, member)
static const struct field trial_fields[] = {
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"question", FIELD_TEXT, UNIT_NUMBER, AT(question)},
	{"baseline", FIELD_TEXT, UNIT_NUMBER, AT(baseline)},
	{"batches", FIELD_WHOLE, UNIT_NUMBER, AT(batches)},
	{"pieces", FIELD_WHOLE, UNIT_NUMBER, AT(pieces)},
	{"per-day", FIELD_WHOLE, UNIT_NUMBER, AT(per_day)},
};
#undef AT

enum err_code
web_trial_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_trial_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	struct work_mixer m;
	struct form form;
	const char **mix;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	fill_trial(&form, request, &m);
	mix = arena_take(request->arena, m.site.n_mix, sizeof *mix);
	if (mix == NULL || ask.typed == NULL)
		return err_memory(err);
	for (size_t i = 0; i < m.site.n_mix; i++)
		if (web_given(request,
			    mix_field(request, m.site.mix[i].code)) != NULL)
			mix[ask.n_mix++] = m.site.mix[i].code;
	ask.mix = mix;
	if (form_read(
		    request, trial_fields, COUNT(trial_fields), &ask, &form)) {
		if (ask.code == NULL)
			form_fault_at(&form, "code", _("This is needed."));
		else if (work_trial_plan(&request->desk, request->arena, &ask,
				 &inner) == ERR_NONE) {
			reply->see_other = "/trial";
			return ERR_NONE;
		} else {
			form_fault(&form, &inner);
		}
	}
	return show_trial(request, reply, &form, err);
}

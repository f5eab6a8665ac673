/* pages_warnings.c - the rules that warn: what they say now, what they rest on,
 * and their limits, which a book may set. */
#include "web/page.h"

#include "web/plain.h"
#include "work/warn.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* "10 %" */
static const char *
limit_text(struct page *page, const struct control_limit *limit, double si)
{
	double value = limit->unit[0] != '\0'
		? unit_value(si, limit->kind, limit->unit)
		: si;

	return page_format(page, "%.4g%s%s", value,
		limit->unit[0] != '\0' ? " " : "", limit->unit);
}

/* "watch 5 %, stop 10 % (set in this book)" */
static const char *
limits_text(struct page *page, const struct work_warning *w)
{
	const struct web_request *request = page->request;
	struct text text;

	text_init(&text, request->arena);
	for (size_t k = 0; k < control_warning_limits(w->rule); k++)
		text_addf(&text, "%s%s %s%s%s%s", k > 0 ? ", " : "",
			_(w->rule->limit[k].word),
			limit_text(page, &w->rule->limit[k], w->limit[k]),
			w->own[k] ? " (" : "",
			w->own[k] ? _("set in this book") : "",
			w->own[k] ? ")" : "");
	page->failed |= text_failed(&text);
	return text.n > 0 ? text.bytes : "";
}

static const char *
state_text(struct page *page, const struct work_rule_told *t)
{
	const struct web_request *request = page->request;

	if (!t->w.is_on)
		return _("silenced");
	if (t->n_fired > 0)
		return page_format(page, "%s: %zu", _("warns of"), t->n_fired);
	return t->w.rule->later[0] != '\0' ? _("quiet, judged in part")
					   : _("quiet");
}

/* --- All of them. --- */

static void
add_rules(struct page *page, const struct work_warned *all)
{
	static const struct grid_column column[] = {
		{"rule", N_("rule"), "", false}, {"now", N_("now"), "", false},
		{"when", N_("it warns when"), "", false},
		{"limits", N_("limits"), "", false},
		{"basis", N_("it rests on"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "rules", _("The rules that warn"), column,
		COUNT(column));
	for (size_t i = 0; i < CONTROL_WARNING_COUNT; i++) {
		const struct work_rule_told *t = &all->rule[i];

		grid_link(&grid, t->w.rule->code,
			web_at(request, "/warning/", t->w.rule->code));
		grid_text(&grid, state_text(page, t));
		grid_text(&grid, _(t->w.rule->says));
		grid_text(&grid, limits_text(page, &t->w));
		grid_text(&grid, _(t->w.rule->basis));
	}
	page_grid(page, &grid);
}

static void
add_said(struct page *page, const struct work_warned *all)
{
	static const struct grid_column column[] = {
		{"rule", N_("rule"), "", false},
		{"of", N_("of what"), "", false},
		{"says", N_("what it says"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "said", _("What they say now"), column,
		COUNT(column));
	for (size_t i = 0; i < CONTROL_WARNING_COUNT; i++) {
		const struct work_rule_told *t = &all->rule[i];

		for (size_t k = 0; k < t->n_fired; k++) {
			grid_link(&grid, t->w.rule->code,
				web_at(request, "/warning/", t->w.rule->code));
			grid_text(&grid, t->fired[k].subject);
			grid_text(&grid,
				plain_words(
					request, NULL, t->fired[k].sentence));
		}
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page, _("None of them says anything now."));
}

enum err_code
web_warnings(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_warned all;
	struct page page;

	TRY(work_warn(&request->desk, request->arena, &all, err));
	page_start(&page, request, _("The rules that warn"), PAGE_WATCH);
	page_say(&page,
		_("Each stands with what it rests on: a publication, a "
		  "reckoning, common practice or memory. Its page shows it "
		  "whole and sets it. A rule that is quiet proves nothing."));
	add_said(&page, &all);
	add_rules(&page, &all);
	page_link(&page, _("All that is watched"), "/watch");
	return page_answer(&page, reply, err);
}

/* --- One of them. --- */

static const char *
name_of(const struct web_request *request, const struct control_limit *limit)
{
	return text_format(request->arena, "limit-%s", limit->word);
}

static void
fill_rule(struct form *form, struct page *page, const struct work_warning *w)
{
	const struct web_request *request = page->request;

	form_start(form, request, "set-rule",
		web_at(request, "/warning/", w->rule->code),
		_("Set this rule"));
	form->heading = _("Set it for this book");
	for (size_t k = 0; k < control_warning_limits(w->rule); k++) {
		const struct control_limit *limit = &w->rule->limit[k];

		form_number(form, name_of(request, limit),
			page_format(page, "%s: %s", _("Limit"), _(limit->word)),
			limit->unit,
			page_format(page, "%s %s. %s", _("Now"),
				limit_text(page, limit, w->limit[k]),
				_("Empty stays as it is.")));
	}
	form_choice(form, "state", _("Does it warn"), NULL);
	form_choose(form, "on", _("it warns"));
	form_choose(form, "off", _("it is silenced"));
	form_text(form, "why", _("Why"),
		_("For whoever reads it later, such as: our scale reads to 50 "
		  "g."));
}

static void
fill_reset(struct form *form, const struct web_request *request,
	const struct work_warning *w)
{
	form_start(form, request, "as-it-comes",
		web_at(request, "/warning/", w->rule->code),
		_("With the limits it came with"));
}

static void
add_rule(struct page *page, const struct work_rule_told *t)
{
	const struct web_request *request = page->request;
	const struct control_warning *rule = t->w.rule;

	page_say(page,
		page_format(page, "%s %s. %s", _("It warns when"),
			_(rule->says), _(rule->means)));
	page_say(page,
		page_format(page, "%s: %s.", _("It rests on"), _(rule->basis)));
	if (rule->limit[0].word != NULL)
		page_say(page,
			page_format(page, "%s: %s.", _("Limits"),
				limits_text(page, &t->w)));
	if (t->w.reason[0] != '\0')
		page_say(page,
			page_format(page, "%s: %s.", _("Set in this book"),
				t->w.reason));
	if (rule->later[0] != '\0')
		page_say(page,
			page_format(page, "%s: %s.", _("Not whole yet"),
				_(rule->later)));
	page_say(page,
		page_format(page, "%s: %s.", _("Now"), state_text(page, t)));
	for (size_t i = 0; i < t->n_fired; i++)
		page_alarm(page,
			page_format(page, "%s: %s", t->fired[i].subject,
				t->fired[i].sentence));
}

/* The rule that the address names, with the forms of its page. */
struct rule_page {
	struct work_warned all;
	const struct work_rule_told *rule;
	struct page page;
	struct form set, reset;
};

static enum err_code
start(const struct web_request *request, struct rule_page *p, struct err *err)
{
	enum control_warning_code code;

	if (!control_warning_find(request->tail, &code))
		return err_report(err, ERR_NOT_FOUND, "warning",
			"There is no warning \"%.20s\"; they are W1 to W%d.",
			request->tail, CONTROL_WARNING_COUNT);
	TRY(work_warn(&request->desk, request->arena, &p->all, err));
	p->rule = &p->all.rule[code];
	page_start(&p->page, request,
		text_format(request->arena, "%s %s", _("Rule"),
			p->rule->w.rule->code),
		PAGE_WATCH);
	fill_rule(&p->set, &p->page, &p->rule->w);
	fill_reset(&p->reset, request, &p->rule->w);
	return ERR_NONE;
}

static enum err_code
finish(const struct web_request *request, struct web_reply *reply,
	struct rule_page *p, struct err *err)
{
	if (web_query(request, "saved") != NULL)
		page_done(&p->page, _("Recorded."), "/undo/last");
	add_rule(&p->page, p->rule);
	page_form(&p->page, &p->set);
	if (p->rule->w.is_set || form_has_fault(&p->reset))
		page_form(&p->page, &p->reset);
	page_link(&p->page, _("All rules that warn"), "/warnings");
	return page_answer(&p->page, reply, err);
}

enum err_code
web_warning(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct rule_page p;

	TRY(start(request, &p, err));
	return finish(request, reply, &p, err);
}

/* One limit as it was typed; what is wrong stands beside it. */
static bool
read_limit(const struct web_request *request, struct rule_page *p,
	const struct control_limit *limit, struct work_warning_ask *ask,
	struct work_warning_limit *to)
{
	const struct unit_rules rules = {
		.gallon = request->desk.gallon, .may_be_negative = true};
	const char *name = name_of(request, limit);
	const char *text = name != NULL ? form_typed_number(request, name)
					: NULL;
	struct err inner = err_in(request->arena);
	double value;

	if (text == NULL)
		return true;
	if (unit_read(text, limit->kind, &rules, &value, &inner) != ERR_NONE) {
		form_fault_at(&p->set, name, inner.text);
		return false;
	}
	*to = (struct work_warning_limit){limit->word, text};
	ask->n_limit++;
	return true;
}

static bool
read_rule(const struct web_request *request, struct rule_page *p,
	struct work_warning_ask *ask,
	struct work_warning_limit limit[CONTROL_LIMITS_MOST])
{
	const char *state = web_given(request, "state");
	bool good = true;

	for (size_t k = 0; k < control_warning_limits(p->rule->w.rule); k++)
		good = read_limit(request, p, &p->rule->w.rule->limit[k], ask,
			       &limit[ask->n_limit]) &&
			good;
	ask->limit = limit;
	ask->on = state != NULL && strcmp(state, "on") == 0;
	ask->off = state != NULL && strcmp(state, "off") == 0;
	ask->reason = web_given(request, "why");
	if (good && ask->n_limit == 0 && !ask->on && !ask->off) {
		form_fault_at(&p->set, "state",
			_("Say what is to change: a limit, or whether it "
			  "warns."));
		return false;
	}
	return good;
}

enum err_code
web_warning_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form");
	struct work_warning_limit limit[CONTROL_LIMITS_MOST];
	struct err inner = err_in(request->arena);
	struct work_warning_ask ask = {.typed = form_as_typed(request),
		.as_it_comes = id != NULL && strcmp(id, "as-it-comes") == 0};
	struct work_warning told;
	struct rule_page p;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(start(request, &p, err));
	ask.code = p.rule->w.rule->code;
	if (ask.as_it_comes || read_rule(request, &p, &ask, limit)) {
		if (work_warning_put(&request->desk, request->arena, &ask,
			    &told, &inner) == ERR_NONE) {
			reply->see_other = text_format(
				request->arena, "%s?saved=1", p.set.action);
			return reply->see_other != NULL ? ERR_NONE
							: err_memory(err);
		}
		if (ask.n_limit == 1 && strcmp(inner.field, "--limit") == 0)
			form_fault_at(&p.set,
				text_format(request->arena, "limit-%s",
					limit[0].word),
				inner.text);
		else
			form_fault(ask.as_it_comes ? &p.reset : &p.set, &inner);
	}
	return finish(request, reply, &p, err);
}

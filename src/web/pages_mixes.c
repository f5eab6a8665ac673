/* pages_mixes.c - mixes, entered and shown in every form people need. */
#include "web/figures.h"

#include "work/fields.h"
#include "work/recipe.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { HUNDRED = 100, PARTS_MOST = 8, LITRES = 1000 };

static void
add_mixes(struct page *page, const struct work_mixer *m)
{
	static const struct grid_column column[] = {
		{"mix", N_("mix"), "", false}, {"name", N_("name"), "", false},
		{"wet", N_("wet weight"), "kg/m3", true},
		{"foam", N_("foam weight"), "g/L", true},
		{"reinforcement", N_("reinforcement"), "", false},
		{"why", N_("why"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "mixes", _("Mixes"), column, COUNT(column));
	for (size_t i = 0; i < m->site.n_mix; i++) {
		const struct book_mix *mix = &m->site.mix[i];

		grid_link(
			&grid, mix->code, web_at(request, "/mix/", mix->code));
		grid_text(&grid, mix->name);
		figure_maybe(page, &grid, mix->wet_target_kg_m3, 1);
		figure_maybe(page, &grid, mix->foam_target_kg_m3, 1);
		grid_text(&grid, mix->reinforcement);
		grid_text(&grid, mix->why);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

static void
fill_mix(struct form *form, const struct web_request *request,
	const struct work_mixer *m, const char *action)
{
	form_start(form, request, "mix", action, _("Record this mix"));
	form->heading = _("A mix, new or changed");
	form_text(form, "code", _("Its letter"),
		_("One or two letters, such as B."));
	form_needed(form);
	form_text(form, "name", _("What it is called"), NULL);
	form_text(form, "why", _("Why it is tried"), NULL);
	form_choice(form, "like", _("Like which other mix, but for"), NULL);
	for (size_t i = 0; i < m->site.n_mix && i < FORM_CHOICES_MOST; i++)
		form_choose(form, m->site.mix[i].code, m->site.mix[i].code);
	for (int i = 1; i <= PARTS_MOST; i++) {
		form_choice(form, text_format(request->arena, "part-%d", i),
			text_format(request->arena, "%s %d", _("Material"), i),
			NULL);
		for (size_t k = 0;
			k < m->site.n_material && k < FORM_CHOICES_MOST; k++)
			form_choose(form, m->site.material[k].code,
				m->site.material[k].name);
		form_text(form, text_format(request->arena, "amount-%d", i),
			text_format(request->arena, "%s %d", _("How much"), i),
			i == 1 ? _("A mass (380 kg), a bucket (12 L) or a part "
				   "by weight (0.5): only proportions count.")
			       : NULL);
	}
	form_choice(form, "without", _("Take this material out again"), NULL);
	for (size_t k = 0; k < m->site.n_material && k < FORM_CHOICES_MOST; k++)
		form_choose(form, m->site.material[k].code,
			m->site.material[k].name);
	form_choice(form, "agent", _("Foam is made of"), NULL);
	for (size_t k = 0; k < m->site.n_material && k < FORM_CHOICES_MOST; k++)
		if (strcmp(m->site.material[k].role, "agent") == 0)
			form_choose(form, m->site.material[k].code,
				m->site.material[k].name);
	form_number(
		form, "wet", _("Wet weight aimed at"), "kg/m3 lb/ft3", NULL);
	form_number(form, "dry", _("Or the dry weight aimed at"),
		"kg/m3 lb/ft3", NULL);
	form_number(form, "foam", _("The foam weighs"), "g/L", NULL);
	form_number(form, "blending", _("Blending takes"), "s min", NULL);
	form_choice(
		form, "matrix", _("The plain mix that a mesh lies in"), NULL);
	for (size_t i = 0; i < m->site.n_mix && i < FORM_CHOICES_MOST; i++)
		form_choose(form, m->site.mix[i].code, m->site.mix[i].code);
	form_text(form, "reinforcement", _("What lies in it"),
		_("Such as: glass mesh, two layers."));
	form_press(form, "try", "yes", _("Work it out, record nothing"));
	form->live = "/proportions";
}

#define AT(member) offsetof(struct work_recipe_ask, member)
static const struct field mix_fields[] = {
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"name", FIELD_TEXT, UNIT_NUMBER, AT(name)},
	{"why", FIELD_TEXT, UNIT_NUMBER, AT(why)},
	{"like", FIELD_TEXT, UNIT_NUMBER, AT(like)},
	{"agent", FIELD_TEXT, UNIT_NUMBER, AT(agent)},
	{"wet", FIELD_MAYBE, UNIT_DENSITY, AT(wet_kg_m3)},
	{"dry", FIELD_MAYBE, UNIT_DENSITY, AT(oven_dry_kg_m3)},
	{"foam", FIELD_MAYBE, UNIT_DENSITY, AT(foam_kg_m3)},
	{"blending", FIELD_MAYBE, UNIT_TIME, AT(blending_s)},
	{"matrix", FIELD_TEXT, UNIT_NUMBER, AT(matrix)},
	{"reinforcement", FIELD_TEXT, UNIT_NUMBER, AT(reinforcement)},
};
#undef AT

/* A mass, a volume or a bare number. */
static bool
read_amount(const struct web_request *request, const char *text,
	struct work_recipe_part *part)
{
	const struct unit_rules rules = {.gallon = request->desk.gallon};
	struct err err = err_in(request->arena);

	part->form = WORK_RECIPE_MASS;
	if (unit_read(text, UNIT_MASS, NULL, &part->amount, &err) == ERR_NONE)
		return part->amount > 0;
	err_clear(&err);
	part->form = WORK_RECIPE_VOLUME;
	if (unit_read(text, UNIT_VOLUME, &rules, &part->amount, &err) ==
		ERR_NONE)
		return part->amount > 0;
	err_clear(&err);
	part->form = WORK_RECIPE_RATIO;
	return unit_read(text, UNIT_NUMBER, NULL, &part->amount, &err) ==
		ERR_NONE &&
		part->amount > 0;
}

static bool
read_parts(const struct web_request *request, struct work_recipe_ask *ask,
	struct form *form)
{
	struct work_recipe_part *part = arena_take(
		request->arena, PARTS_MOST, sizeof *part);
	bool good = part != NULL;

	for (int i = 1; part != NULL && i <= PARTS_MOST; i++) {
		const char *name = text_format(request->arena, "part-%d", i);
		const char *amount = text_format(
			request->arena, "amount-%d", i);
		const char *code = web_given(request, name);
		const char *text = web_given(request, amount);

		if (code == NULL && text == NULL)
			continue;
		if (code == NULL || text == NULL ||
			!read_amount(request, text, &part[ask->n_part])) {
			form_fault_at(form, amount,
				_("Choose the material and say how much of it, "
				  "more than nothing: 380 kg, 12 L or 0.5."));
			good = false;
			continue;
		}
		part[ask->n_part++].code = code;
	}
	ask->part = part;
	return good;
}

/* One at a time: the form is sent again for a second. */
static bool
read_without(const struct web_request *request, struct work_recipe_ask *ask,
	struct form *form)
{
	const char **without = arena_take(request->arena, 1, sizeof *without);

	if (without == NULL) {
		form->failed = true;
		return false;
	}
	*without = web_given(request, "without");
	ask->without = without;
	ask->n_without = *without != NULL ? 1 : 0;
	return true;
}

static void
add_recipe(struct page *page, const struct work_recipe_shown *r)
{
	static const struct grid_column column[] = {
		{"material", N_("material"), "", false},
		{"mass", N_("in one cubic metre"), "kg", true},
		{"bucket", N_("parts by bucket"), "", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "recipe", _("What goes in, dry"), column,
		COUNT(column));
	for (size_t i = 0; i < r->n_part; i++) {
		grid_text(&grid, r->part[i].name);
		grid_number(&grid, r->part[i].mass.kg,
			page_format(page, "%.1f", r->part[i].mass.kg));
		grid_number(&grid,
			r->bucket != NULL ? r->bucket[i] : (double)NAN,
			r->bucket != NULL
				? page_format(page, "%.2f", r->bucket[i])
				: NULL);
	}
	page_grid(page, &grid);
}

static void
add_proportion(struct page *page, const struct work_recipe_shown *r)
{
	const struct web_request *request = page->request;
	const struct mix_proportioned *p = &r->proportion;

	page_big(page, _("foam in one cubic metre"),
		page_format(page, "%.0f L", p->foam_volume.m3 * LITRES));
	page_say(page,
		page_format(page, "%s %.0f kg/m3", _("Slurry:"),
			p->slurry.density.kg_m3));
	page_say(page,
		page_format(page, "%s %.2f", _("Water to 1 of cement:"),
			p->water_cement_ratio));
	if (r->has_cost)
		page_say(page,
			page_format(page, "%s %.2f %s/m3", _("Materials cost"),
				r->cost.cents_per_m3 / HUNDRED, r->currency));
	if (r->has_bag)
		page_say(page,
			page_format(page, "%s %.0f kg %s %.0f L", _("A bag of"),
				r->bag.kg, _("makes"),
				r->from_bag.m3 * LITRES));
}

static void
add_shown(struct page *page, const struct work_recipe_shown *shown)
{
	add_proportion(page, shown);
	add_recipe(page, shown);
	for (size_t i = 0; i < shown->n_caution; i++)
		page_caution(page, shown->caution[i]);
}

/* What the form says of a mix; false where something is wrong with it. */
static bool
read_mix(const struct web_request *request, struct form *form,
	struct work_recipe_ask *ask)
{
	bool good = form_read(
		request, mix_fields, COUNT(mix_fields), ask, form);

	return read_parts(request, ask, form) &&
		read_without(request, ask, form) && good;
}

static bool
put_mix(const struct web_request *request, struct form *form, const char **code)
{
	struct work_recipe_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	bool made;

	if (!read_mix(request, form, &ask))
		return false;
	if (ask.code == NULL) {
		form_fault_at(form, "code", _("This is needed."));
		return false;
	}
	*code = ask.code;
	if (work_recipe_put(&request->desk, request->arena, &ask, &made,
		    &inner) == ERR_NONE)
		return true;
	form_fault(form, &inner);
	return false;
}

/* What was typed, worked out and not recorded. */
static void
add_tried(
	struct page *page, const struct web_request *request, struct form *form)
{
	struct work_recipe_ask ask = {.typed = ""};
	struct work_recipe_shown shown;
	struct err inner = err_in(request->arena);

	if (!read_mix(request, form, &ask))
		return;
	if (ask.code == NULL)
		ask.code = "?";
	if (work_recipe_try(&request->desk, request->arena, &ask, &shown,
		    &inner) != ERR_NONE) {
		form_fault(form, &inner);
		return;
	}
	page_heading(
		page, _("What this mix comes to; nothing is recorded yet"));
	add_shown(page, &shown);
}

static enum err_code
show_mixes(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	bool tries = request->method == WEB_POST &&
		web_given(request, "try") != NULL;
	struct work_mixer m;
	struct page page;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(&page, request, _("Mixes"), PAGE_MIXES);
	add_mixes(&page, &m);
	page_link(&page, _("A mix searched for a part of the building"),
		"/design");
	if (form->request == NULL)
		fill_mix(form, request, &m, "/mixes");
	if (tries)
		add_tried(&page, request, form);
	page_form(&page, form);
	return page_answer(&page, reply, err);
}

enum err_code
web_mixes(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form = {.request = NULL};

	return show_mixes(request, reply, &form, err);
}

enum err_code
web_mixes_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_mixer m;
	struct form form;
	const char *code = "";

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	fill_mix(&form, request, &m, "/mixes");
	if (web_given(request, "try") != NULL ||
		!put_mix(request, &form, &code))
		return show_mixes(request, reply, &form, err);
	reply->see_other = web_at(request, "/mix/", code);
	return ERR_NONE;
}

enum err_code
web_mix(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_recipe_shown shown;
	struct work_mixer m;
	struct err inner = err_in(request->arena);
	struct page page;
	size_t at;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	TRY(work_find_mix(&m, request->tail, &at, err));
	page_start(&page, request,
		text_format(request->arena, "%s %s, %s", _("Mix"),
			m.site.mix[at].code, m.site.mix[at].name),
		PAGE_MIXES);
	if (m.site.mix[at].why[0] != '\0')
		page_say(&page, m.site.mix[at].why);
	if (work_recipe_show(&m, request->arena, at, &shown, &inner) ==
		ERR_NONE) {
		add_shown(&page, &shown);
	} else {
		page_alarm(&page, arena_text(request->arena, inner.text));
	}
	page_link(&page, _("Its sheet, at the mixer"),
		web_at(request, "/batch/", request->tail));
	page_link(&page, _("All mixes"), "/mixes");
	return page_answer(&page, reply, err);
}

/* The first thing that is still missing or wrong in a form. */
static const char *
first_fault(const struct form *form)
{
	for (size_t i = 0; i < form->n_field; i++)
		if (form->field[i]->error != NULL)
			return text_format(form->request->arena, "%s: %s",
				form->field[i]->label, form->field[i]->error);
	return form->error;
}

/* The fields of the form of mixes, in the address: what they come to. */
enum err_code
web_proportions(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct web_request typed = *request;
	struct work_mixer m;
	struct page page;
	struct form form;

	typed.field = request->query;
	typed.n_field = request->n_query;
	reply->no_store = true; /* each is asked for once */
	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(&page, request, _("What a mix comes to"), PAGE_MIXES);
	fill_mix(&form, &typed, &m, "/mixes");
	add_tried(&page, &typed, &form);
	if (form_has_fault(&form))
		page_say(&page,
			page_format(&page, "%s %s", _("Not yet:"),
				first_fault(&form)));
	page_link(&page, _("All mixes"), "/mixes");
	return page_answer(&page, reply, err);
}

/* pages_mixes.c - materials, mixes in every form people need, and the trial. */
#include "web/figures.h"

#include "choose/validity.h"
#include "work/fields.h"
#include "work/material.h"
#include "work/recipe.h"
#include "work/trial.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { HUNDRED = 100, PARTS_MOST = 8, LITRES = 1000 };

/* --- Materials. --- */

static void
maybe_cell(
	struct page *page, struct grid *grid, struct maybe value, double factor)
{
	struct text text;

	text_init(&text, page->request->arena);
	text_addf(&text, "%.4g", value.value * factor);
	grid_number(grid, value.has ? value.value * factor : (double)NAN,
		text.bytes);
}

static void
add_materials(struct page *page, const struct work_mixer *m)
{
	static const struct grid_column column[] = {
		{"code", N_("material"), "", false},
		{"name", N_("name"), "", false},
		{"role", N_("used as"), "", false},
		{"particle", N_("particle density"), "kg/m3", true},
		{"bulk", N_("bulk density"), "kg/m3", true},
		{"moisture", N_("moisture"), "%", true},
		{"package", N_("package"), "kg", true},
		{"price", N_("price of a package"), "", true},
		{"basis", N_("figures from"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "materials", _("Materials"), column,
		COUNT(column));
	for (size_t i = 0; i < m->site.n_material; i++) {
		const struct book_material *a = &m->site.material[i];
		const struct book_material_basis *basis = work_material_basis(
			m, i, "particle_density");

		grid_link(&grid, a->code,
			web_at(request, "/materials?code=", a->code));
		grid_text(&grid, a->name);
		grid_text(&grid, a->role);
		maybe_cell(page, &grid, a->particle_density_kg_m3, 1);
		maybe_cell(page, &grid, a->bulk_density_kg_m3, 1);
		maybe_cell(page, &grid, a->moisture_ratio, HUNDRED);
		maybe_cell(page, &grid, a->package_kg, 1);
		grid_number(&grid,
			a->has_price ? (double)a->price_cents / HUNDRED
				     : (double)NAN,
			page_format(page, "%.2f",
				(double)a->price_cents / HUNDRED));
		grid_text(&grid, basis != NULL ? basis->basis : NULL);
	}
	page_grid(page, &grid);
}

#define AT(member) offsetof(struct work_material_ask, member)
static const struct field material_fields[] = {
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"from", FIELD_TEXT, UNIT_NUMBER, AT(from)},
	{"name", FIELD_TEXT, UNIT_NUMBER, AT(name)},
	{"role", FIELD_TEXT, UNIT_NUMBER, AT(role)},
	{"particle-density", FIELD_MAYBE, UNIT_DENSITY,
		AT(particle_density_kg_m3)},
	{"bulk-density", FIELD_MAYBE, UNIT_DENSITY, AT(bulk_density_kg_m3)},
	{"moisture", FIELD_MAYBE, UNIT_RATIO, AT(moisture_ratio)},
	{"absorption", FIELD_MAYBE, UNIT_RATIO, AT(absorption_ratio)},
	{"package", FIELD_MAYBE, UNIT_MASS, AT(package_kg)},
	{"price", FIELD_MAYBE, UNIT_NUMBER, AT(price)},
	{"lot", FIELD_TEXT, UNIT_NUMBER, AT(lot)},
	{"bought-on", FIELD_DATE, UNIT_NUMBER, AT(bought_on)},
	{"basis", FIELD_TEXT, UNIT_NUMBER, AT(basis)},
	{"source", FIELD_TEXT, UNIT_NUMBER, AT(source)},
};
#undef AT

static void
fill_material(struct form *form, const struct web_request *request)
{
	static const char *const roles[] = {"cement", "binder", "sand", "water",
		"agent", "fibre", "admixture", "mesh"};
	static const char *const shown[] = {N_("cement"), N_("other binder"),
		N_("sand"), N_("water"), N_("foaming agent"), N_("fibre"),
		N_("admixture"), N_("mesh or wire")};

	form_start(form, request, "material", "/materials",
		_("Record this material"));
	form->heading = _("A material, new or changed");
	form_text(form, "code", _("A short name"), _("Such as cement."));
	form_needed(form);
	form_text(form, "from", _("Start from the shelf of typical values"),
		_("Such as cement, sand, water; each figure stays marked as "
		  "typical until you weigh your own."));
	form_text(form, "name", _("What it is called"), NULL);
	form_choice(form, "role", _("Used as"), NULL);
	for (size_t i = 0; i < COUNT(roles); i++)
		form_choose(form, roles[i], words(request->language, shown[i]));
	form_number(form, "particle-density", _("Particle density"),
		"kg/m3 g/cm3 lb/ft3", NULL);
	form_number(form, "bulk-density", _("Bulk density, loose"),
		"kg/m3 lb/ft3", NULL);
	form_number(
		form, "moisture", _("Moisture, of the dry mass"), "%", NULL);
	form_number(
		form, "absorption", _("Water its grains soak up"), "%", NULL);
	form_number(form, "package", _("One package"), "kg lb", NULL);
	form_number(form, "price", _("Price of a package"), "", NULL);
	form_text(form, "lot", _("Lot or delivery"), NULL);
	form_date(form, "bought-on", _("Bought on"), NULL);
	form_choice(form, "basis", _("The figures given are"), NULL);
	form_choose(form, "stated", _("stated on it"));
	form_choose(form, "weighed", _("weighed by me"));
	form_text(form, "source", _("Where they stand"), NULL);
}

static enum err_code
show_materials(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	struct work_mixer m;
	struct page page;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(&page, request, _("Materials"), PAGE_MATERIALS);
	page_caution(&page,
		_("Cement burns skin and eyes: gloves, goggles. Wear a dust "
		  "mask when emptying bags. Agents burn eyes."));
	if (m.site.n_material > 0)
		add_materials(&page, &m);
	page_form(&page, form);
	return page_answer(&page, reply, err);
}

enum err_code
web_materials(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;

	fill_material(&form, request);
	return show_materials(request, reply, &form, err);
}

enum err_code
web_materials_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_material_ask ask = {.typed = form_as_typed(request)};
	struct book_material material;
	struct err inner = err_in(request->arena);
	struct form form;
	bool made;

	fill_material(&form, request);
	if (form_read(request, material_fields, COUNT(material_fields),
		    UNIT_GALLON_US, &ask, &form)) {
		if (ask.code == NULL)
			form_fault_at(&form, "code", _("This is needed."));
		else if (work_material_put(&request->desk, request->arena, &ask,
				 &material, &made, &inner) == ERR_NONE) {
			reply->see_other = "/materials";
			return ERR_NONE;
		} else {
			form_fault(&form, &inner);
		}
	}
	return show_materials(request, reply, &form, err);
}

/* --- Mixes. --- */

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
		maybe_cell(page, &grid, mix->wet_target_kg_m3, 1);
		maybe_cell(page, &grid, mix->foam_target_kg_m3, 1);
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
};
#undef AT

/* A mass, a volume or a bare number. */
static bool
read_amount(const char *text, struct work_recipe_part *part)
{
	struct err err = {.code = ERR_NONE};

	part->form = WORK_RECIPE_MASS;
	if (unit_read(text, UNIT_MASS, NULL, &part->amount, &err) == ERR_NONE)
		return part->amount > 0;
	err_clear(&err);
	part->form = WORK_RECIPE_VOLUME;
	if (unit_read(text, UNIT_VOLUME, NULL, &part->amount, &err) == ERR_NONE)
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
			!read_amount(text, &part[ask->n_part])) {
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

static bool
put_mix(const struct web_request *request, struct form *form, const char **code)
{
	struct work_recipe_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	bool made;
	bool good = form_read(request, mix_fields, COUNT(mix_fields),
		UNIT_GALLON_US, &ask, form);

	good = read_parts(request, &ask, form) && good;
	if (!good)
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

static enum err_code
show_mixes(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	struct work_mixer m;
	struct page page;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(&page, request, _("Mixes"), PAGE_MIXES);
	add_mixes(&page, &m);
	page_link(&page, _("A mix searched for a part of the building"),
		"/design");
	if (form->request == NULL)
		fill_mix(form, request, &m, "/mixes");
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
	if (!put_mix(request, &form, &code))
		return show_mixes(request, reply, &form, err);
	reply->see_other = web_at(request, "/mix/", code);
	return ERR_NONE;
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
			page_format(page, "%s %.2f /m3", _("Materials cost"),
				r->cost.cents_per_m3 / HUNDRED));
	if (r->has_bag)
		page_say(page,
			page_format(page, "%s %.0f kg %s %.0f L", _("A bag of"),
				r->bag.kg, _("makes"),
				r->from_bag.m3 * LITRES));
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
		add_proportion(&page, &shown);
		add_recipe(&page, &shown);
		for (size_t i = 0; i < shown.n_caution; i++)
			page_caution(&page, shown.caution[i]);
	} else {
		page_alarm(&page, arena_text(request->arena, inner.text));
	}
	page_link(&page, _("Its sheet, at the mixer"),
		web_at(request, "/batch/", request->tail));
	page_link(&page, _("All mixes"), "/mixes");
	return page_answer(&page, reply, err);
}

/* --- The trial. --- */

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
		grid_text(&grid, r->reason);
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
	if (form_read(request, trial_fields, COUNT(trial_fields),
		    UNIT_GALLON_US, &ask, &form)) {
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

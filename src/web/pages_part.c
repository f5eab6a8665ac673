/* pages_part.c - one part of the building: what it must do, its skins, and its
 * layers of heat. */
#include "web/bounds.h"
#include "web/building.h"

#include "draw/wall.h"
#include "web/chart.h"
#include "work/fields.h"
#include "work/heat.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { MILLI = 1000, HUNDRED = 100 };

/* --- What it must do. --- */

static void
add_asked(struct page *page, const struct work_parts *parts, size_t part)
{
	static const struct grid_column column[] = {
		{"must", N_("what it must do"), "", false},
		{"source", N_("source"), "", false}};
	const struct web_request *request = page->request;
	const struct work_site *s = &parts->site;
	struct grid grid;

	page_table(page, &grid, "asked", _("What it must do"), column,
		COUNT(column));
	for (size_t i = 0; i < s->n_requirement; i++) {
		const struct book_requirement *r = &s->requirement[i];
		bool is_least = strcmp(r->bound, "least") == 0;
		enum choose_measure measure;

		if (r->part_id != s->part[part].row.id)
			continue;
		if (choose_measure_find(r->measure, &measure))
			grid_text(&grid,
				page_format(page, "%s %s%s%s",
					_(choose_measure_name(measure)),
					bound_text(page, measure, is_least,
						r->value),
					measure == CHOOSE_COST ? " " : "",
					measure == CHOOSE_COST
						? page_format(page, "%s/m3",
							  s->info.currency)
						: ""));
		else
			grid_text(&grid, r->measure);
		grid_text(&grid,
			r->source[0] != '\0' ? _(r->source) : _("not said"));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page, _("Nothing is asked of it yet."));
}

static void
fill_drop(struct form *form, const struct web_request *request,
	const struct work_parts *parts, size_t part)
{
	const struct work_site *s = &parts->site;

	form_start(form, request, "drop",
		web_at(request, "/part/", s->part[part].code),
		_("Ask this no longer"));
	form->heading = _("Ask something no longer");
	form_choice(form, "what", _("What it must do"), NULL);
	for (size_t i = 0; i < s->n_requirement; i++) {
		const struct book_requirement *r = &s->requirement[i];
		enum choose_measure measure;

		if (r->part_id != s->part[part].row.id ||
			!choose_measure_find(r->measure, &measure))
			continue;
		form_choose(form, r->measure,
			text_format(request->arena, "%s, %s",
				_(choose_measure_name(measure)),
				strcmp(r->bound, "least") == 0 ? _("at least")
							       : _("at most")));
	}
	form_needed(form);
}

/* --- Its skins. --- */

static void
add_skins(struct page *page, const struct work_parts *parts, size_t part)
{
	static const struct grid_column column[] = {
		{"side", N_("side"), "", false},
		{"skin", N_("skin"), "", false},
		{"thickness", N_("thickness"), "mm", true},
		{"density", N_("dry weight"), "kg/m3", true},
		{"conductivity", N_("lets heat through (lambda)"), "W/(m K)",
			true},
		{"resistance", N_("resistance"), "m2 K/W", true},
		{"strength", N_("strength"), "N/mm2", true},
		{"vapour", N_("holds vapour back (mu)"), "", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "skins", _("Its skins"), column, COUNT(column));
	for (size_t i = 0; i < parts->n_layer; i++) {
		const struct book_part_layer *l = &parts->layer[i];

		if (l->part_id != parts->site.part[part].row.id)
			continue;
		grid_text(&grid, _(l->side));
		grid_text(&grid, l->name);
		figure_maybe(page, &grid, l->thickness_m, MILLI);
		figure_maybe(page, &grid, l->density_kg_m3, 1);
		figure_maybe(page, &grid, l->conductivity_w_mk, 1);
		figure_maybe(page, &grid, l->resistance_m2k_w, 1);
		figure_maybe(page, &grid, l->strength_pa, 1e-6);
		figure_maybe(page, &grid, l->vapour_ratio, 1);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

#define AT(member) offsetof(struct book_part_layer, member)
static const struct field skin_fields[] = {
	{"side", FIELD_TEXT, UNIT_NUMBER, AT(side)},
	{"skin", FIELD_TEXT, UNIT_NUMBER, AT(name)},
	{"skin-thickness", FIELD_MAYBE, UNIT_LENGTH, AT(thickness_m)},
	{"density", FIELD_MAYBE, UNIT_DENSITY, AT(density_kg_m3)},
	{"conductivity", FIELD_MAYBE, UNIT_CONDUCTIVITY, AT(conductivity_w_mk)},
	{"resistance", FIELD_MAYBE, UNIT_RESISTANCE, AT(resistance_m2k_w)},
	{"strength", FIELD_MAYBE, UNIT_STRESS, AT(strength_pa)},
	{"vapour", FIELD_MAYBE, UNIT_NUMBER, AT(vapour_ratio)},
};
#undef AT

static void
fill_skin(
	struct form *form, const struct web_request *request, const char *code)
{
	form_start(form, request, "skin", web_at(request, "/part/", code),
		_("Record this skin"));
	form->heading = _("A skin: plaster, boards, insulation");
	form_choice(form, "side", _("On which side"), NULL);
	form_choose(form, "inside", _("inside"));
	form_choose(form, "outside", _("outside"));
	form_needed(form);
	form_text(form, "skin", _("What it is called"),
		_("Such as lime plaster. Said again with the same name and "
		  "side, its figures are replaced."));
	form_needed(form);
	form_number(form, "skin-thickness", _("How thick"), "mm in", NULL);
	form_number(form, "density", _("What it weighs, dry"), "kg/m3 lb/ft3",
		NULL);
	form_number(form, "conductivity", _("Heat it lets through (lambda)"),
		"W/(m.K)", NULL);
	form_number(form, "resistance", _("Or its resistance as a whole"),
		"m2.K/W", NULL);
	form_number(form, "strength", _("Its strength"), "N/mm2 psi", NULL);
	form_number(form, "vapour", _("Vapour it holds back, against air (mu)"),
		"", NULL);
}

static bool
put_skin(const struct web_request *request, struct form *form)
{
	struct work_part_ask ask = {
		.code = request->tail, .typed = form_as_typed(request)};
	struct book_part_layer *skin = &ask.layer[0];
	const struct maybe *const value[] = {&skin->thickness_m,
		&skin->density_kg_m3, &skin->conductivity_w_mk,
		&skin->resistance_m2k_w, &skin->strength_pa,
		&skin->vapour_ratio}; /* of skin_fields from the third on */
	struct err inner = err_in(request->arena);
	bool made;

	if (!form_read(request, skin_fields, COUNT(skin_fields), skin, form))
		return false;
	if (skin->side == NULL ||
		(strcmp(skin->side, "inside") != 0 &&
			strcmp(skin->side, "outside") != 0))
		form_fault_at(form, "side", _("Choose one of these."));
	if (skin->name == NULL)
		form_fault_at(form, "skin", _("This is needed."));
	for (size_t i = 0; i < COUNT(value); i++)
		if (value[i]->has && !(value[i]->value > 0))
			form_fault_at(form, skin_fields[2 + i].option,
				_("It must be more than nothing."));
	if (form_has_fault(form))
		return false;
	ask.n_layer = 1;
	if (work_part_put(&request->desk, request->arena, &ask, &made,
		    &inner) == ERR_NONE)
		return true;
	form_fault(form, &inner);
	return false;
}

static bool
put_drop(const struct web_request *request, struct form *form)
{
	struct work_part_ask ask = {.code = request->tail,
		.drop = {web_given(request, "what")},
		.n_drop = 1,
		.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	bool made;

	if (ask.drop[0] == NULL) {
		form_fault_at(form, "what", _("This is needed."));
		return false;
	}
	if (work_part_put(&request->desk, request->arena, &ask, &made,
		    &inner) == ERR_NONE)
		return true;
	form_fault_at(form, "what", inner.text);
	return false;
}

/* --- Heat. --- */

#define AT(member) offsetof(struct work_heat_ask, member)
static const struct field heat_fields[] = {
	{"heat-mix", FIELD_TEXT, UNIT_NUMBER, AT(mix)},
	{"want-u", FIELD_MAYBE, UNIT_U_VALUE, AT(want_u)},
};
#undef AT

static void
fill_heat(struct form *form, const struct web_request *request,
	const struct work_parts *parts)
{
	form_start(form, request, "heat",
		web_at(request, "/part/", request->tail), _("Reckon again"));
	form->gets = true;
	form->heading = _("How thick for a wanted U-value");
	form_number(form, "want-u", _("The U-value wanted"), "W/(m2.K)",
		_("Such as 0.35."));
	form_choice(form, "heat-mix", _("With which mix"),
		_("Empty: the one decided for the part, else the likeliest."));
	for (size_t i = 0; i < parts->site.n_mix && i < FORM_CHOICES_MOST; i++)
		form_choose(
			form, parts->site.mix[i].code, parts->site.mix[i].code);
}

static void
add_heat_answers(struct page *page, const struct work_heated *h)
{
	const struct web_request *request = page->request;

	if (h->has_wanted) {
		page_big(page, _("thick for the wanted U-value"),
			page_format(page, "%.0f mm, %s %.0f - %.0f",
				h->wanted_m[0] * MILLI, _("likely"),
				h->wanted_m[1] * MILLI,
				h->wanted_m[2] * MILLI));
		page_say(page,
			page_format(page, "%s %s %%.",
				_("Chance that the part meets it as it is:"),
				work_chance_words(
					request->arena, h->p_meets_wanted)));
	}
	if (h->has_mass)
		page_say(page,
			page_format(page, "%s %.0f kg/m2, %s %.0f kJ/(m2 K).",
				_("It weighs"), h->mass_kg_m2,
				_("and keeps the heat of"),
				h->capacity_j_m2k / MILLI));
	else
		page_say(page,
			_("What it weighs and the heat it keeps need the dry "
			  "weight of every skin."));
}

static void
add_heat(struct page *page, const struct work_heated *h)
{
	static const struct grid_column column[] = {
		{"layer", N_("layer, from inside out"), "", false},
		{"thickness", N_("thickness"), "mm", true},
		{"conductivity", N_("lets heat through (lambda)"), "W/(m K)",
			true},
		{"resistance", N_("resistance"), "m2 K/W", true},
		{"range", N_("likely between"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_heading(page, _("Heat"));
	page_say(page,
		page_format(
			page, "%s %s (%s)", _("Mix"), h->mix_code,
			_(h->why_mix)));
	for (size_t i = 0; i < h->n_measured; i++)
		page_say(page, h->measured[i]);
	page_big(page, _("U-value"),
		page_format(page, "%.2f W/(m2 K), %s %.2f - %.2f", h->u[0],
			_("likely"), h->u[1], h->u[2]));
	page_chart(page,
		page_format(page, "/chart/wall/%s.svg",
			h->parts.site.part[h->part].code),
		_("The layers from inside out with the temperature through "
		  "them, at 20 degC inside and 0 degC outside"));
	page_table(page, &grid, "layers", _("Layers"), column, COUNT(column));
	for (size_t i = 0; i < h->n_layer; i++) {
		const struct work_heat_layer *l = &h->layer[i];

		grid_text(&grid, l->name);
		grid_number(&grid,
			l->thickness_m > 0 ? l->thickness_m * MILLI
					   : (double)NAN,
			page_format(page, "%.0f", l->thickness_m * MILLI));
		grid_number(&grid,
			l->conductivity_w_mk > 0 ? l->conductivity_w_mk
						 : (double)NAN,
			page_format(page, "%.3f", l->conductivity_w_mk));
		grid_number(&grid, l->resistance_m2k_w,
			page_format(page, "%.2f", l->resistance_m2k_w));
		grid_text(&grid,
			page_format(page, "%.2f - %.2f", l->low, l->high));
	}
	page_grid(page, &grid);
	add_heat_answers(page, h);
}

/* --- One part. --- */

struct part_forms {
	struct form part, skin, drop, heat;
};

static void
fill_all(struct part_forms *forms, const struct web_request *request,
	const struct work_parts *parts, size_t part)
{
	building_fill_part(&forms->part, request,
		web_at(request, "/part/", request->tail),
		&parts->site.part[part]);
	fill_skin(&forms->skin, request, request->tail);
	fill_drop(&forms->drop, request, parts, part);
	fill_heat(&forms->heat, request, parts);
}

/* Heat as the address asks it. */
static void
add_heat_asked(struct page *page, struct form *form)
{
	const struct web_request *request = page->request;
	struct web_request as_form = *request;
	const struct work_heat_ask bare = {.part = request->tail};
	struct work_heat_ask ask = bare;
	struct err inner = err_in(request->arena);
	struct work_heated heated;

	as_form.field = request->query; /* the same names and units */
	as_form.n_field = request->n_query;
	if (!form_read(&as_form, heat_fields, COUNT(heat_fields), &ask, form))
		ask = bare;
	if ((ask.mix != NULL || ask.want_u.has) &&
		work_heat(&request->desk, request->arena, &ask, &heated,
			&inner) != ERR_NONE) {
		form_fault(form, &inner);
		ask = bare;
		err_clear(&inner);
	}
	if (work_heat(&request->desk, request->arena, &ask, &heated, &inner) ==
		ERR_NONE)
		add_heat(page, &heated);
	else
		page_say(page,
			page_format(page, "%s %s",
				_("Heat cannot be reckoned yet:"), inner.text));
	page_form(page, form);
}

static enum err_code
show_part(const struct web_request *request, struct web_reply *reply,
	const struct work_parts *parts, size_t at, struct part_forms *forms,
	struct err *err)
{
	struct page page;

	page_start(&page, request, parts->site.part[at].name, PAGE_BUILDING);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	page_link(&page, _("Screened by mechanics"),
		web_at(request, "/screen?part=", request->tail));
	page_link(&page, _("What counts for a part"),
		web_at(request, "/weights?part=", request->tail));
	add_asked(&page, parts, at);
	add_skins(&page, parts, at);
	add_heat_asked(&page, &forms->heat);
	page_form(&page, &forms->part);
	page_form(&page, &forms->skin);
	if (forms->drop.n_field > 0 && forms->drop.field[0]->n_choice > 0)
		page_form(&page, &forms->drop);
	page_link(&page, _("Back to the building"), "/building");
	return page_answer(&page, reply, err);
}

enum err_code
web_part(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct part_forms forms;
	struct work_parts parts;
	size_t at;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	TRY(work_find_part(&parts.site, request->tail, &at, err));
	fill_all(&forms, request, &parts, at);
	return show_part(request, reply, &parts, at, &forms, err);
}

enum err_code
web_part_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form"), *code = "";
	struct part_forms forms;
	struct work_parts parts;
	size_t at;
	bool done;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	TRY(work_find_part(&parts.site, request->tail, &at, err));
	fill_all(&forms, request, &parts, at);
	if (id != NULL && strcmp(id, "skin") == 0)
		done = put_skin(request, &forms.skin);
	else if (id != NULL && strcmp(id, "drop") == 0)
		done = put_drop(request, &forms.drop);
	else
		done = building_put_part(request, &forms.part, &code);
	if (!done)
		return show_part(request, reply, &parts, at, &forms, err);
	reply->see_other = text_format(request->arena, "%s?saved=1",
		web_at(request, "/part/", request->tail));
	return reply->see_other != NULL ? ERR_NONE : err_memory(err);
}

enum err_code
web_chart_wall(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const struct work_heat_ask ask = {.part = request->tail};
	struct work_heated h;
	struct draw_layer *layer;
	struct draw_wall chart = {
		.about = {.id = "wall", .title = _("The layers, and how warm")},
		.thickness_unit = "mm",
		.temperature_unit = "\xC2\xB0"
				    "C",
		.has_temperature = true,
		.inside_air = work_heat_inside_degc,
		.outside_air = work_heat_outside_degc,
		.inside_word = _("inside"),
		.outside_word = _("outside"),
		.empty_word = _("No layers yet.")};

	TRY(work_heat(&request->desk, request->arena, &ask, &h, err));
	layer = arena_take(request->arena, h.n_layer, sizeof *layer);
	if (layer == NULL)
		return err_memory(err);
	for (size_t i = 0; i < h.n_layer; i++)
		layer[i] = (struct draw_layer){.label = h.layer[i].name,
			.thickness = h.layer[i].thickness_m > 0
				? h.layer[i].thickness_m * MILLI
				: 1,
			.material = i == h.concrete ? DRAW_FOAMED
						    : DRAW_PLASTER};
	chart.layer = layer;
	chart.n_layer = h.n_layer;
	chart.face = h.face_degc;
	return chart_answer(request, reply,
		draw_wall(&chart, chart_size(request), &reply->body, err));
}

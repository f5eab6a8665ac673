/* pages_building.c - parts of the building: entered, and screened by mechanics. */
#include "web/bounds.h"
#include "web/building.h"

#include "web/plain.h"
#include "work/fields.h"
#include "work/part.h"
#include "work/screen.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { MILLI = 1000, BOUNDS = 4 };

static const struct {
	const char *form, *words;
} kinds[] = {{"floor", N_("floor on the ground")},
	{"floor-panel", N_("suspended floor panel")}, {"wall", N_("wall")},
	{"roof", N_("roof")}, {"roof-panel", N_("roof panel")},
	{"vault", N_("barrel vault")}, {"dome", N_("dome")},
	{"lintel", N_("lintel")}, {"block", N_("block")},
	{"other", N_("something else")}};

/* --- All parts. --- */

static void
metres(struct page *page, struct grid *grid, struct maybe m, double factor)
{
	grid_number(grid, m.has ? m.value * factor : (double)NAN,
		page_format(
			page, factor > 1 ? "%.0f" : "%.2f", m.value * factor));
}

static void
add_parts(struct page *page, const struct work_parts *parts)
{
	static const struct grid_column column[] = {
		{"part", N_("part"), "", false},
		{"name", N_("name"), "", false},
		{"kind", N_("kind"), "", false},
		{"length", N_("length"), "m", true},
		{"height", N_("height or width"), "m", true},
		{"thickness", N_("thickness"), "mm", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "parts", _("Parts of the building"), column,
		COUNT(column));
	for (size_t i = 0; i < parts->site.n_part; i++) {
		const struct book_part *p = &parts->site.part[i];

		grid_link(&grid, p->code, web_at(request, "/part/", p->code));
		grid_text(&grid, p->name);
		grid_text(&grid, _(work_part_use(parts, p).form));
		metres(page, &grid, p->length_m, 1);
		metres(page, &grid, p->height_m, 1);
		metres(page, &grid, p->thickness_m, MILLI);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page, _("No part of the building was entered yet."));
}

#define AT(member) offsetof(struct work_part_ask, member)
static const struct field part_fields[] = {
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"kind", FIELD_TEXT, UNIT_NUMBER, AT(form)},
	{"name", FIELD_TEXT, UNIT_NUMBER, AT(name)},
	{"note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
	{"source", FIELD_TEXT, UNIT_NUMBER, AT(source)},
	{"length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"height", FIELD_MAYBE, UNIT_LENGTH, AT(height_m)},
	{"thickness", FIELD_MAYBE, UNIT_LENGTH, AT(thickness_m)},
	{"openings", FIELD_MAYBE, UNIT_AREA, AT(openings_m2)},
	{"volume", FIELD_MAYBE, UNIT_VOLUME, AT(volume_m3)},
	{"waste", FIELD_MAYBE, UNIT_RATIO, AT(waste_ratio)},
	{"batch", FIELD_MAYBE, UNIT_VOLUME, AT(batch_m3)},
	{"span", FIELD_MAYBE, UNIT_LENGTH, AT(use.span_m)},
	{"load", FIELD_MAYBE, UNIT_FORCE_PER_LENGTH, AT(use.load_n_m)},
	{"area-load", FIELD_MAYBE, UNIT_STRESS, AT(use.area_load_pa)},
	{"wind", FIELD_MAYBE, UNIT_STRESS, AT(use.wind_pa)},
	{"point-load", FIELD_MAYBE, UNIT_FORCE, AT(use.point_load_n)},
	{"point-width", FIELD_MAYBE, UNIT_LENGTH, AT(use.point_width_m)},
	{"ground-pressure", FIELD_MAYBE, UNIT_STRESS, AT(use.subgrade_pa)},
	{"ground-sinks", FIELD_MAYBE, UNIT_LENGTH, AT(use.subgrade_sinks_m)},
	{"modulus", FIELD_MAYBE, UNIT_STRESS, AT(use.modulus_pa)},
	{"lifted", FIELD_TEXT, UNIT_NUMBER, AT(use.grip)},
	{"radius", FIELD_MAYBE, UNIT_LENGTH, AT(use.radius_m)},
	{"steel", FIELD_MAYBE, UNIT_AREA, AT(use.steel_m2)},
	{"steel-depth", FIELD_MAYBE, UNIT_LENGTH, AT(use.effective_m)},
	{"yield", FIELD_MAYBE, UNIT_STRESS, AT(use.yield_pa)},
	{"lift", FIELD_MAYBE, UNIT_LENGTH, AT(use.lift_m)},
	{"moisture", FIELD_MAYBE, UNIT_RATIO, AT(use.moisture_ratio)},
	{"safety", FIELD_MAYBE, UNIT_NUMBER, AT(use.safety)},
	{"pitch", FIELD_MAYBE, UNIT_ANGLE, AT(use.pitch_rad)},
};
#undef AT

/* What only floors, panels and precast pieces have. */
static void
fill_seldom(struct form *form, const struct web_request *request)
{
	form_number(form, "point-load", _("Load of one foot"), "kN lbf", NULL);
	form_number(form, "point-width", _("Side of that foot, a square"),
		"mm in", NULL);
	form_number(form, "ground-pressure",
		_("Pressure on a plate on the ground"), "kPa psf", NULL);
	form_number(form, "ground-sinks", _("How far that plate sinks"),
		"mm in", NULL);
	form_number(form, "modulus", _("Modulus of elasticity, measured"),
		"N/mm2 psi", NULL);
	form_number(form, "steel", _("Steel of the mesh, a metre of it"),
		"mm2 in2", NULL);
	form_number(form, "steel-depth",
		_("Depth of the mesh below the pressed face"), "mm in", NULL);
	form_number(form, "yield", _("Yield strength of the mesh"), "N/mm2 psi",
		NULL);
	form_choice(form, "lifted", _("Where a precast piece is lifted"), NULL);
	form_choose(form, "ends", _("at its ends"));
	form_choose(form, "inner", _("at two points further in"));
	form_choose(form, "middle", _("in the middle"));
}

void
building_fill_part(struct form *form, const struct web_request *request,
	const char *action, const struct book_part *part)
{
	form_start(form, request, "part", action,
		_("Record this part of the building"));
	form->heading = part != NULL ? _("Change it") : _("Another part");
	if (part != NULL) {
		form_hidden(form, "code", part->code);
	} else {
		form_text(
			form, "code", _("A short name"), _("Such as wall-1."));
		form_needed(form);
	}
	form_choice(form, "kind", _("What it is"), NULL);
	for (size_t i = 0; i < COUNT(kinds); i++)
		form_choose(form, kinds[i].form,
			words(request->language, kinds[i].words));
	form_text(form, "name", _("What it is called"), NULL);
	form_number(form, "length", _("Length"), "m mm ft in", NULL);
	form_number(form, "height", _("Height of a wall, width of a floor"),
		"m mm ft in", NULL);
	form_number(form, "thickness", _("Thickness of the foamed concrete"),
		"mm in m", _("Without its skins."));
	form_number(form, "openings", _("Doors and windows together"), "m2 ft2",
		NULL);
	form_number(form, "volume", _("Or its volume, where it is known"),
		"m3 ft3 L", NULL);
	form_number(form, "waste", _("Waste"), "%", NULL);
	form_number(form, "batch", _("One batch"), "L m3 gal", NULL);
	form_number(
		form, "span", _("Span, of a panel or lintel"), "m ft", NULL);
	form_number(form, "pitch", _("Pitch of a roof panel, from level"),
		"deg", NULL);
	form_number(form, "load", _("Load on top, a metre of it"),
		"kN/m lbf/ft", NULL);
	form_number(form, "area-load", _("Load on its face"), "kPa psf", NULL);
	form_number(form, "wind", _("Wind on its face"), "kPa psf", NULL);
	form_number(
		form, "radius", _("Radius of a vault or dome"), "m ft", NULL);
	form_number(form, "lift", _("Height poured at once"), "mm in m", NULL);
	fill_seldom(form, request);
	form_number(form, "safety", _("Safety factor on the strength"), "",
		_("3 unless said; common practice, no source."));
	form_number(form, "moisture", _("Water in it as it stands"), "%",
		/* xgettext:no-c-format */
		_("Of the dry mass; 10 % unless said; common practice, no "
		  "source."));
	form_yes(form, "usual", _("Ask the usual of its kind too"), NULL);
	for (int i = 1; i <= BOUNDS; i++)
		bound_fill(form, i);
	form_text(
		form, "source", _("Where these requirements come from"), NULL);
	form_long(form, "note", _("Remark"), NULL);
}

static enum err_code
show_building(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	struct work_parts parts;
	struct page page;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	page_start(&page, request, _("The building"), PAGE_BUILDING);
	page_caution(&page,
		_("This screens. A licensed engineer and the local code decide "
		  "what may be built."));
	add_parts(&page, &parts);
	page_link(&page, _("The duty sheet, to print and fill in"), "/duty");
	page_link(&page, _("All parts screened by mechanics"), "/screen");
	page_link(
		&page, _("What each kind of part is usually asked"), "/usual");
	page_form(&page, form);
	return page_answer(&page, reply, err);
}

enum err_code
web_building(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;

	building_fill_part(&form, request, "/building", NULL);
	return show_building(request, reply, &form, err);
}

bool
building_put_part(
	const struct web_request *request, struct form *form, const char **code)
{
	struct work_part_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	bool made, good;

	ask.usual = web_given(request, "usual") != NULL;
	good = form_read(request, part_fields, COUNT(part_fields), &ask, form);
	for (int i = 1; i <= BOUNDS; i++) {
		bool given;

		good = bound_read(request, form, i, &ask.bound[ask.n_bound],
			       &given) &&
			good;
		ask.n_bound += given;
	}
	if (!good)
		return false;
	if (request->tail[0] != '\0')
		ask.code = request->tail; /* the page of that part */
	if (ask.code == NULL) {
		form_fault_at(form, "code", _("This is needed."));
		return false;
	}
	*code = ask.code;
	if (work_part_put(&request->desk, request->arena, &ask, &made,
		    &inner) == ERR_NONE)
		return true;
	form_fault(form, &inner);
	return false;
}

enum err_code
web_building_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;
	const char *code = "";

	building_fill_part(&form, request, "/building", NULL);
	if (!building_put_part(request, &form, &code))
		return show_building(request, reply, &form, err);
	reply->see_other = web_at(request, "/part/", code);
	return ERR_NONE;
}

/* --- Screened. --- */

static void
add_screened(struct page *page, const struct work_screened *all,
	const struct work_screened_part *p)
{
	static const struct grid_column column[] = {
		{"check", N_("check"), "", false},
		{"used", N_("used of what it bears"), "%", true},
		{"range", N_("likely between"), "%", false},
		{"holds", N_("chance that it holds"), "%", true},
		{"formula", N_("formula"), "", false},
		{"source", N_("source"), "", false},
		{"note", N_("note"), "", false}};
	const struct web_request *request = page->request;
	const struct work_site *s = &all->chosen.compared.site;
	struct grid grid;

	page_table(page, &grid, s->part[p->part].code,
		page_format(page, "%s, %s %s (%s)", s->part[p->part].name,
			_("mix"), s->mix[p->mix].code, _(p->why_mix)),
		column, COUNT(column));
	for (size_t i = 0; i < p->n_line; i++) {
		const struct work_screened_line *l = &p->line[i];
		bool known = l->asks[0] == '\0';

		grid_text(&grid, _(l->name));
		grid_number(&grid, known ? l->median * 100 : (double)NAN,
			page_format(page, "%.0f", l->median * 100));
		grid_text(&grid,
			!known ? NULL
				: l->is_exact
				? ""
				: page_format(page, "%.0f - %.0f", l->low * 100,
					  l->high * 100));
		if (known)
			figure_chance(page, &grid, l->p_holds);
		else
			grid_text(&grid, NULL);
		grid_text(&grid, _(l->formula));
		grid_text(&grid, _(l->source));
		grid_text(&grid,
			known ? _(l->note)
			      : plain_words(request, NULL, l->asks));
	}
	page_grid(page, &grid);
}

static void
fill_screen(struct form *form, const struct web_request *request,
	const struct work_site *s)
{
	form_start(form, request, "screen", "/screen", _("Screen this"));
	form->gets = true;
	form_choice(form, "part", _("Which part"), _("Empty: every part."));
	for (size_t i = 0; i < s->n_part && i < FORM_CHOICES_MOST; i++)
		form_choose(form, s->part[i].code, s->part[i].name);
	form_choice(form, "mix", _("With which mix"),
		_("Empty: the one decided for the part, else the likeliest."));
	for (size_t i = 0; i < s->n_mix && i < FORM_CHOICES_MOST; i++)
		form_choose(form, s->mix[i].code, s->mix[i].code);
}

enum err_code
web_screen(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const struct work_screen_ask ask = {.part = web_query(request, "part"),
		.mix = web_query(request, "mix")};
	struct err inner = err_in(request->arena);
	struct work_screened all = {.n_part = 0};
	struct work_parts parts;
	struct page page;
	struct form form;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	fill_screen(&form, request, &parts.site);
	if (work_screen(&request->desk, request->arena, &ask, &all, &inner) !=
		ERR_NONE) {
		if (ask.mix == NULL)
			return err_report(
				err, inner.code, inner.field, "%s", inner.text);
		form_fault(&form, &inner);
		all.n_part = 0;
	}
	page_start(&page, request, _("Parts screened by mechanics"),
		PAGE_BUILDING);
	page_caution(&page,
		/* xgettext:no-c-format */
		_("This screens only. Utilisation is safety factor times "
		  "stress over strength; over 100 % does not do. What is "
		  "under it is not thereby fit to build: a licensed engineer "
		  "and the local code decide."));
	for (size_t i = 0; i < all.n_part; i++)
		add_screened(&page, &all, &all.part[i]);
	page_form(&page, &form);
	page_link(&page, _("Back to the building"), "/building");
	return page_answer(&page, reply, err);
}

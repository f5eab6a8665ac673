/* pages_materials.c - materials, from a shelf of typical values or as weighed. */
#include "web/figures.h"

#include "work/fields.h"
#include "work/material.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { HUNDRED = 100 };

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
		{"price", N_("price of a package"), GRID_MONEY, true},
		{"basis", N_("figures from"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "materials", _("Materials"), column,
		COUNT(column));
	page_money(page, &grid, m->site.info.currency);
	for (size_t i = 0; i < m->site.n_material; i++) {
		const struct book_material *a = &m->site.material[i];
		const struct book_material_basis *basis = work_material_basis(
			m, i, "particle_density");

		grid_link(&grid, a->code,
			web_at(request, "/materials?code=", a->code));
		grid_text(&grid, a->name);
		grid_text(&grid, _(a->role));
		figure_maybe(page, &grid, a->particle_density_kg_m3, 1);
		figure_maybe(page, &grid, a->bulk_density_kg_m3, 1);
		figure_maybe(page, &grid, a->moisture_ratio, HUNDRED);
		figure_maybe(page, &grid, a->package_kg, 1);
		grid_number(&grid,
			a->has_price ? (double)a->price_cents / HUNDRED
				     : (double)NAN,
			page_format(page, "%.2f",
				(double)a->price_cents / HUNDRED));
		grid_text(&grid, basis != NULL ? _(basis->basis) : NULL);
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
	{"hardness", FIELD_MAYBE, UNIT_CONCENTRATION, AT(hardness_kg_m3)},
	{"dilution", FIELD_MAYBE, UNIT_NUMBER, AT(dilution_ratio)},
	{"carbon", FIELD_MAYBE, UNIT_NUMBER, AT(carbon_ratio)},
	{"package", FIELD_MAYBE, UNIT_MASS, AT(package_kg)},
	{"price", FIELD_MAYBE, UNIT_NUMBER, AT(price)},
	{"lot", FIELD_TEXT, UNIT_NUMBER, AT(lot)},
	{"bought-on", FIELD_DATE, UNIT_NUMBER, AT(bought_on)},
	{"basis", FIELD_TEXT, UNIT_NUMBER, AT(basis)},
	{"source", FIELD_TEXT, UNIT_NUMBER, AT(source)},
	{"note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
};
#undef AT

static void
fill_role(struct form *form, const struct web_request *request)
{
	static const char *const roles[] = {"cement", "binder", "sand",
		"filler", "water", "agent", "fibre", "admixture",
		"reinforcement", "other"};
	static const char *const shown[] = {N_("cement"), N_("other binder"),
		N_("sand"), N_("filler"), N_("water"), N_("foaming agent"),
		N_("fibre"), N_("admixture"), N_("mesh or wire"),
		N_("something else")};

	form_choice(form, "role", _("Used as"), NULL);
	for (size_t i = 0; i < COUNT(roles); i++)
		form_choose(form, roles[i], words(request->language, shown[i]));
}

static void
fill_shelf(struct form *form, const struct web_request *request)
{
	const struct mix_shelf_item *item;
	size_t n;

	item = mix_shelf(&n);
	form_choice(form, "from", _("Start from the shelf of typical values"),
		_("Each figure stays marked as typical until you weigh your "
		  "own."));
	for (size_t i = 0; i < n && i < FORM_CHOICES_MOST; i++)
		form_choose(form, item[i].name,
			text_format(request->arena, "%s: %s", item[i].name,
				_(item[i].what)));
}

/* What only water, agents and fibres have. */
static void
fill_seldom(struct form *form, const struct web_request *request)
{
	form_number(form, "dilution", _("Parts of water to 1 of agent"), "",
		_("Of a foaming agent, by weight, such as 40."));
	form_number(form, "hardness", _("Hardness, of water"), "mg/L", NULL);
	form_number(form, "carbon", _("Carbon dioxide, kg for each kg"), "",
		_("Such as 0.9; say where it stands."));
}

static void
fill_material(struct form *form, const struct web_request *request)
{
	form_start(form, request, "material", "/materials",
		_("Record this material"));
	form->heading = _("A material, new or changed");
	form_text(form, "code", _("A short name"), _("Such as cement."));
	form_needed(form);
	fill_shelf(form, request);
	form_text(form, "name", _("What it is called"), NULL);
	fill_role(form, request);
	form_number(form, "particle-density", _("Particle density"),
		"kg/m3 g/cm3 lb/ft3", NULL);
	form_number(form, "bulk-density", _("Bulk density, loose"),
		"kg/m3 lb/ft3", NULL);
	form_number(
		form, "moisture", _("Moisture, of the dry mass"), "%", NULL);
	form_number(
		form, "absorption", _("Water its grains soak up"), "%", NULL);
	fill_seldom(form, request);
	form_number(form, "package", _("One package"), "kg lb", NULL);
	form_number(form, "price", _("Price of a package"), "", NULL);
	form_text(form, "lot", _("Lot or delivery"), NULL);
	form_date(form, "bought-on", _("Bought on"), NULL);
	form_choice(form, "basis", _("The figures given are"), NULL);
	form_choose(form, "stated", _("stated on it"));
	form_choose(form, "weighed", _("weighed by me"));
	form_text(form, "source", _("Where they stand"), NULL);
	form_long(form, "note", _("Remark"), NULL);
}

/* Typical values to start from; none is a fact about the bag in the shed. */
static void
add_shelf(struct page *page)
{
	static const struct grid_column column[] = {
		{"item", N_("item"), "", false},
		{"what", N_("what it is"), "", false},
		{"particle", N_("particle density"), "kg/m3", true},
		{"bulk", N_("bulk density"), "kg/m3", true},
		{"dilution", N_("parts of water to 1 of agent"), "", true},
		{"carbon", N_("carbon dioxide"), "kg/kg", true},
		{"source", N_("source"), "", false}};
	const struct web_request *request = page->request;
	const struct mix_shelf_item *item;
	struct grid grid;
	size_t n;

	item = mix_shelf(&n);
	page_table(page, &grid, "shelf",
		_("The shelf: typical values, to be replaced by your own"),
		column, COUNT(column));
	for (size_t i = 0; i < n; i++) {
		grid_text(&grid, item[i].name);
		grid_text(&grid, _(item[i].what));
		figure_maybe(page, &grid, item[i].particle_density_kg_m3, 1);
		figure_maybe(page, &grid, item[i].bulk_density_kg_m3, 1);
		figure_maybe(page, &grid, item[i].dilution_ratio, 1);
		figure_maybe(page, &grid, item[i].carbon_ratio, 1);
		grid_text(&grid, _(item[i].source));
	}
	page_grid_folded(page, &grid);
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
	add_shelf(&page);
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
	if (form_read(request, material_fields, COUNT(material_fields), &ask,
		    &form)) {
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

/* pages_gear.c - the mixer, the scale and the foam generators. */
#include "web/page.h"

#include "work/fields.h"
#include "work/foam.h"

#include <string.h>

enum { LITRES = 1000 };

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

#define AT(member) offsetof(struct work_gear_ask, member)
static const struct field gear_fields[] = {
	{"mixer", FIELD_MAYBE, UNIT_VOLUME, AT(mixer_m3)},
	{"scale-step", FIELD_MAYBE, UNIT_MASS, AT(scale_step_kg)},
	{"spare", FIELD_MAYBE, UNIT_RATIO, AT(spare_ratio)},
};
#undef AT

#define AT(member) offsetof(struct work_generator_ask, member)
static const struct field generator_fields[] = {
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"metering", FIELD_TEXT, UNIT_NUMBER, AT(metering)},
	{"target", FIELD_MAYBE, UNIT_DENSITY, AT(target_kg_m3)},
	{"vessel", FIELD_MAYBE, UNIT_VOLUME, AT(vessel_m3)},
	{"vessel-empty", FIELD_MAYBE, UNIT_MASS, AT(vessel_kg)},
	{"vessel-full", FIELD_MAYBE, UNIT_MASS, AT(vessel_full_kg)},
	{"scale-step", FIELD_MAYBE, UNIT_MASS, AT(scale_step_kg)},
	{"water-temperature", FIELD_MAYBE, UNIT_TEMPERATURE, AT(water_degc)},
	{"dilution", FIELD_MAYBE, UNIT_NUMBER, AT(dilution_ratio)},
	{"rate", FIELD_MAYBE, UNIT_VOLUME_FLOW, AT(rate_m3_s)},
	{"note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
};
#undef AT

static void
fill_gear(struct form *form, const struct web_request *request)
{
	form_start(form, request, "gear", "/gear", _("Record the gear"));
	form->heading = _("Mixer and scale");
	form_number(form, "mixer", _("The most the mixer takes"), "L gal m3",
		_("Without spilling when it turns."));
	form_number(form, "scale-step", _("Smallest step of the scale"),
		"g kg oz", NULL);
	form_number(form, "spare", _("Made on top"), "%",
		_("For the density bucket and what stays in the tub, such as "
		  "10 %."));
}

static void
fill_generator(struct form *form, const struct web_request *request)
{
	form_start(
		form, request, "generator", "/gear", _("Record the generator"));
	form->heading = _("A foam generator");
	form_text(form, "code", _("Its name"), _("Short, such as G1."));
	form_needed(form);
	form_choice(form, "metering", _("How foam is measured out"), NULL);
	form_choose(form, "volume", _("by volume"));
	form_choose(form, "seconds", _("by seconds"));
	form_choose(form, "density", _("until the wet weight is right"));
	form_number(
		form, "target", _("What the foam should weigh"), "g/L", NULL);
	form_number(form, "vessel-empty", _("Weighing vessel, empty"),
		"kg g lb", NULL);
	form_number(form, "vessel-full", _("The same, full of water"),
		"kg g lb", _("A printed volume is not a vessel's volume."));
	form_number(form, "water-temperature", _("How warm that water is"),
		"degC degF", _("20 degC unless said."));
	form_number(form, "vessel", _("Or its true volume, found otherwise"),
		"L gal m3", NULL);
	form_number(form, "scale-step", _("Smallest step of that scale"),
		"g kg oz", NULL);
	form_number(form, "rate", _("Foam it gives"), "L/min gal/min", NULL);
	form_number(form, "dilution", _("Parts of water to 1 of agent"), "",
		_("By weight, such as 40."));
	form_text(form, "note", _("Remark"), NULL);
}

static void
add_generators(struct page *page, const struct work_mixer *m)
{
	static const struct grid_column column[] = {
		{"generator", N_("foam generator"), "", false},
		{"metering", N_("measured out by"), "", false},
		{"target", N_("foam weight"), "g/L", true},
		{"vessel", N_("vessel"), "L", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "generators", _("Foam generators"), column,
		COUNT(column));
	for (size_t i = 0; i < m->n_generator; i++) {
		const struct book_generator *g = &m->generator[i];

		grid_link(&grid, g->code, web_at(request, "/foam/", g->code));
		grid_text(&grid, _(g->metering));
		grid_number(&grid, g->target_kg_m3,
			page_format(page, "%.1f", g->target_kg_m3));
		grid_number(&grid, g->vessel_m3 * LITRES,
			page_format(page, "%.3f", g->vessel_m3 * LITRES));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
}

static enum err_code
show_gear(const struct web_request *request, struct web_reply *reply,
	struct form *gear, struct form *generator, struct err *err)
{
	struct work_mixer m;
	struct page page;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(
		&page, request, _("Mixer, scale and generators"), PAGE_MIXER);
	if (work_gear(&m) != NULL && work_gear(&m)->mixer_m3.has)
		page_big(&page, _("the mixer takes"),
			page_format(&page, "%.0f L",
				work_gear(&m)->mixer_m3.value * LITRES));
	add_generators(&page, &m);
	page_form(&page, gear);
	page_form(&page, generator);
	return page_answer(&page, reply, err);
}

enum err_code
web_gear(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form gear, generator;

	fill_gear(&gear, request);
	fill_generator(&generator, request);
	return show_gear(request, reply, &gear, &generator, err);
}

static enum err_code
put_gear(const struct web_request *request, struct form *form, bool *done,
	struct err *err)
{
	struct work_gear_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);

	if (ask.typed == NULL)
		return err_memory(err);
	if (!form_read(request, gear_fields, COUNT(gear_fields), &ask, form))
		return ERR_NONE;
	*done = work_gear_put(&request->desk, request->arena, &ask, &inner) ==
		ERR_NONE;
	if (!*done)
		form_fault(form, &inner);
	return ERR_NONE;
}

static enum err_code
put_generator(const struct web_request *request, struct form *form, bool *done,
	struct err *err)
{
	struct work_generator_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	bool made;

	if (ask.typed == NULL)
		return err_memory(err);
	if (!form_read(request, generator_fields, COUNT(generator_fields), &ask,
		    form))
		return ERR_NONE;
	if (ask.code == NULL)
		(void)err_report(&inner, ERR_INPUT, "code",
			"Give the generator a name, such as G1.");
	else
		*done = work_generator_put(&request->desk, request->arena, &ask,
				&made, &inner) == ERR_NONE;
	if (!*done)
		form_fault(form, &inner);
	return ERR_NONE;
}

enum err_code
web_gear_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form");
	struct form gear, generator;
	bool done = false;

	fill_gear(&gear, request);
	fill_generator(&generator, request);
	if (id != NULL && strcmp(id, "generator") == 0)
		TRY(put_generator(request, &generator, &done, err));
	else
		TRY(put_gear(request, &gear, &done, err));
	if (done) {
		reply->see_other = "/gear";
		return ERR_NONE;
	}
	return show_gear(request, reply, &gear, &generator, err);
}

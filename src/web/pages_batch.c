/* pages_batch.c - one batch at the mixer: its sheet, and what is recorded as it
 * is made. */
#include "web/asked_sheet.h"
#include "web/mixer.h"
#include "web/pages_photo.h"
#include "web/page.h"

#include "work/batch.h"
#include "work/fields.h"
#include "work/sheet.h"

#include <string.h>

enum { LITRES = 1000, SETTLE_STEPS = 7 };

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* --- The sheet. --- */

static void
add_weights(struct page *page, const struct work_sheet *s)
{
	static const struct grid_column column[] = {
		{"material", N_("weigh"), "", false},
		{"mass", N_("mass"), "kg", true},
		{"note", N_("how"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(
		page, &grid, "weigh", _("What goes in"), column, COUNT(column));
	for (size_t i = 0; i < s->n_part; i++) {
		const struct mix_part *part = &s->part[i];

		grid_text(&grid, part->name);
		grid_number(&grid, s->sheet.weigh[i].kg,
			page_format(page, "%.2f", s->sheet.weigh[i].kg));
		grid_text(&grid,
			s->sheet.bags[i] > 0
				? page_format(page, "%.0f %s", s->sheet.bags[i],
					  _("whole bags"))
				: part->moisture_ratio > 0
				? page_format(page, "%s (%.1f %%)",
					  _("damp, as it lies"),
					  part->moisture_ratio * 100)
				: "");
	}
	page_ticks(page, &grid);
}

static void
add_sheet(struct page *page, const struct work_mixer *m,
	const struct work_sheet *s)
{
	const struct web_request *request = page->request;
	const struct book_mix *mix = &m->site.mix[s->mix];

	page_say(page,
		page_format(page, "%s %s, %s", _("Mix"), mix->code, mix->name));
	page_big(page, _("one batch"),
		page_format(page, "%.0f L", s->sheet.volume.m3 * LITRES));
	add_weights(page, s);
	page_big(page, _("slurry, before the foam"),
		page_format(page, "%.0f kg/m3", s->sheet.slurry.kg_m3));
	page_big(page, _("foam"),
		s->sheet.has_foam_time ? page_format(page, "%.1f L = %.0f s",
						 s->sheet.foam.m3 * LITRES,
						 s->sheet.foam_time.s)
				       : page_format(page, "%.1f L",
						 s->sheet.foam.m3 * LITRES));
	page_say(page,
		page_format(page, "%s %.1f g/L (%s)", _("Foam weight"),
			s->foam.kg_m3,
			s->foam_checked ? _("as last weighed")
					: _("its target: weigh it first")));
	page_big(page, _("wet weight, after blending"),
		page_format(page, "%.0f kg/m3", s->sheet.wet.kg_m3));
	if (s->has_blending)
		page_big(page, _("blend, no longer than"),
			page_format(page, "%.0f s", s->blending_s));
	for (size_t i = 0; i < s->n_caution; i++)
		page_caution(page, s->caution[i]);
}

/* --- What is recorded. --- */

#define AT(member) offsetof(struct work_batch_ask, member)
static const struct field batch_fields[] = {
	{"mix", FIELD_TEXT, UNIT_NUMBER, AT(mix)},
	{"generator", FIELD_TEXT, UNIT_NUMBER, AT(generator)},
	{"on", FIELD_DATE, UNIT_NUMBER, AT(made_on)},
	{"remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
	{"foam", FIELD_MAYBE, UNIT_VOLUME, AT(foam_m3)},
	{"foam-time", FIELD_MAYBE, UNIT_TIME, AT(foam_s)},
	{"foam-start", FIELD_MAYBE, UNIT_DENSITY, AT(foam_start_kg_m3)},
	{"foam-middle", FIELD_MAYBE, UNIT_DENSITY, AT(foam_middle_kg_m3)},
	{"foam-end", FIELD_MAYBE, UNIT_DENSITY, AT(foam_end_kg_m3)},
	{"slurry", FIELD_MAYBE, UNIT_DENSITY, AT(slurry_kg_m3)},
	{"wet", FIELD_MAYBE, UNIT_DENSITY, AT(wet_kg_m3)},
	{"filled", FIELD_MAYBE, UNIT_VOLUME, AT(volume_m3)},
	{"blending", FIELD_MAYBE, UNIT_TIME, AT(blending_s)},
	{"air", FIELD_MAYBE, UNIT_TEMPERATURE, AT(air_degc)},
	{"temperature", FIELD_MAYBE, UNIT_TEMPERATURE, AT(slurry_degc)},
	{"hardness", FIELD_MAYBE, UNIT_CONCENTRATION, AT(hardness_kg_m3)},
	{"spread", FIELD_MAYBE, UNIT_LENGTH, AT(spread_m)},
	{"consistency", FIELD_WHOLE, UNIT_NUMBER, AT(consistency)},
	{"set-time", FIELD_MAYBE, UNIT_TIME, AT(set_s)},
	{"since-foam", FIELD_MAYBE, UNIT_TIME, AT(since_foam_s)},
};
#undef AT

static const char *
code_of_material(const struct work_mixer *m, int64_t id)
{
	for (size_t i = 0; i < m->site.n_material; i++)
		if (m->site.material[i].row.id == id)
			return m->site.material[i].code;
	return "";
}

static const struct {
	const char *name, *label;
	double after_s;
} settle_steps[SETTLE_STEPS] = {
	{"loss-15", N_("Height lost after 15 minutes"), 900},
	{"loss-30", N_("Height lost after 30 minutes"), 1800},
	{"loss-60", N_("Height lost after 1 hour"), 3600},
	{"loss-120", N_("Height lost after 2 hours"), 7200},
	{"loss-180", N_("Height lost after 3 hours"), 10800},
	{"loss-240", N_("Height lost after 4 hours"), 14400},
	{"loss-day", N_("Height lost after a day"), 86400},
};

/* Of which delivery: asked where deliveries of that material are known. */
static void
fill_lot(struct form *form, const struct web_request *request,
	const struct work_mixer *m, const char *material)
{
	size_t n = 0;

	for (size_t i = 0; i < m->n_lot && n < FORM_CHOICES_MOST; i++) {
		const struct book_material_lot *lot = &m->lot[i];

		if (strcmp(code_of_material(m, lot->material_id), material) !=
			0)
			continue;
		if (n++ == 0)
			form_choice(form,
				text_format(request->arena, "lot-%s", material),
				text_format(request->arena, "%s: %s",
					_("Of which delivery"), material),
				NULL);
		form_choose(form, lot->code,
			text_format(request->arena, "%s%s%s", lot->code,
				lot->bought_on[0] != '\0' ? ", " : "",
				lot->bought_on));
	}
}

static void
fill_weighed(struct form *form, const struct web_request *request,
	const struct work_mixer *m, const struct work_sheet *s,
	const char *action)
{
	form_start(form, request, "weighed", action, _("Record what went in"));
	form->heading = _("1. What went in");
	for (size_t i = 0; s != NULL && i < s->n_part; i++) {
		form_number(form,
			text_format(request->arena, "put-%s", s->part[i].name),
			s->part[i].name, "kg lb g", NULL);
		form_value(form,
			text_format(
				request->arena, "%.2f", s->sheet.weigh[i].kg));
		fill_lot(form, request, m, s->part[i].name);
	}
	form_number(form, "slurry", _("Slurry, weighed before the foam"),
		"kg/m3 g/L lb/ft3",
		_("Before foam is spent: a wrong slurry can still be "
		  "mended."));
}

static void
fill_foam(struct form *form, const struct web_request *request,
	const struct work_mixer *m, const char *action)
{
	form_start(form, request, "foam", action, _("Record the foam"));
	form->heading = _("2. Foam");
	if (m->n_generator > 0) {
		form_choice(form, "generator", _("Foam generator"), NULL);
		for (size_t i = 0; i < m->n_generator && i < FORM_CHOICES_MOST;
			i++)
			form_choose(form, m->generator[i].code,
				m->generator[i].code);
		if (m->n_generator == 1)
			form_value(form, m->generator[0].code);
	}
	form_number(form, "foam-time", _("How long the generator ran"), "s min",
		NULL);
	form_number(form, "foam", _("Or the foam by volume"), "L gal", NULL);
	form_number(
		form, "foam-start", _("Foam weight at the start"), "g/L", NULL);
	form_number(form, "foam-middle", _("In the middle"), "g/L", NULL);
	form_number(form, "foam-end", _("At the end"), "g/L", NULL);
	form_number(form, "blending", _("Blending took"), "s min",
		_("From the last foam in to the mixer stopped."));
	form_timed(form);
}

static void
fill_wet(struct form *form, const struct web_request *request,
	const char *action)
{
	static const char *const steps[] = {N_("1 runny like milk"),
		N_("2 like cream"), N_("3 like yoghurt"), N_("4 soft peaks"),
		N_("5 stands and tears")};
	static const char *const value[] = {"1", "2", "3", "4", "5"};

	form_start(
		form, request, "wet", action, _("Record, and say what to do"));
	form->heading = _("3. Wet weight");
	form_number(form, "wet", _("Wet weight after blending"),
		"kg/m3 g/L lb/ft3",
		_("A full bucket of known volume, struck level."));
	form_number(form, "since-foam", _("How long ago the foam went in"),
		"min s", _("It says how many minutes are left to mend it."));
	form_number(form, "spread", _("Spread on glass"), "mm in", NULL);
	form_choice(form, "consistency", _("How runny"), NULL);
	for (size_t i = 0; i < COUNT(steps); i++)
		form_choose(form, value[i], words(request->language, steps[i]));
}

static void
fill_surroundings(struct form *form, const struct web_request *request,
	const char *action)
{
	form_start(form, request, "around", action, _("Record these"));
	form->heading = _("4. Around it");
	form_number(form, "temperature", _("Temperature of the slurry"),
		"degC degF", NULL);
	form_number(
		form, "air", _("Temperature of the air"), "degC degF", NULL);
	form_number(form, "hardness", _("Hardness of the water"), "mg/L", NULL);
	form_number(form, "filled", _("What the moulds or forms took"),
		"L gal m3", NULL);
	form_number(form, "set-time", _("Until a thumb left no dent"), "h min",
		_("From the water in."));
	form_date(form, "on", _("When it was made, if not as it says"), NULL);
	form_long(form, "remark", _("Remark"), NULL);
}

static void
fill_settling(struct form *form, const struct web_request *request,
	const char *action)
{
	form_start(
		form, request, "settling", action, _("Record the height lost"));
	form->heading = _("5. Settling");
	for (size_t i = 0; i < SETTLE_STEPS; i++)
		form_number(form, settle_steps[i].name,
			words(request->language, settle_steps[i].label), "%",
			i == 0 ? _("Of the height as poured, such as 2 %.")
			       : NULL);
}

static bool
read_settled(const struct web_request *request, struct work_batch_ask *ask,
	struct form *form)
{
	const struct unit_rules rules = {.may_be_negative = true};
	struct work_settled *got = arena_take(
		request->arena, SETTLE_STEPS, sizeof *got);
	bool good = true;

	for (size_t i = 0; got != NULL && i < SETTLE_STEPS; i++) {
		const char *text = form_typed_number(
			request, settle_steps[i].name);
		struct err err = err_in(request->arena);
		double loss;

		if (text == NULL)
			continue;
		if (unit_read(text, UNIT_RATIO, &rules, &loss, &err) !=
			ERR_NONE) {
			form_fault_at(form, settle_steps[i].name, err.text);
			good = false;
			continue;
		}
		got[ask->n_settled++] = (struct work_settled){
			settle_steps[i].after_s, loss};
	}
	ask->settled = got;
	return good && got != NULL;
}

static const char *
lot_of(const struct web_request *request, const char *material)
{
	const char *name = text_format(request->arena, "lot-%s", material);
	const char *lot = name != NULL ? web_given(request, name) : NULL;

	return lot != NULL ? lot : "";
}

static bool
read_put_in(const struct web_request *request, struct work_batch_ask *ask,
	struct form *form)
{
	struct work_put_in *put = arena_take(
		request->arena, request->n_field, sizeof *put);
	bool good = true;

	for (size_t i = 0; put != NULL && i < request->n_field; i++) {
		const char *name = request->field[i].name, *text;
		struct err err = err_in(request->arena);
		struct work_put_in one = {.lot = ""};

		if (strncmp(name, "put-", 4) != 0 ||
			strstr(name, "_unit") != NULL ||
			request->field[i].n == 0)
			continue;
		text = form_typed_number(request, name);
		one.code = name + 4;
		one.lot = lot_of(request, one.code);
		if (text == NULL ||
			unit_read(text, UNIT_MASS, NULL, &one.kg, &err) !=
				ERR_NONE ||
			!(one.kg > 0)) {
			form_fault_at(form, name,
				err.code != ERR_NONE ? err.text
						     : _("What went in must be "
							 "more than nothing."));
			good = false;
			continue;
		}
		put[ask->n_put_in++] = one;
	}
	ask->put_in = put;
	return good && put != NULL;
}

/* Everything that can be recorded of one batch. */
struct batch_forms {
	struct form weighed, foam, wet, around, settling;
};

static void
fill_all(struct batch_forms *forms, const struct web_request *request,
	const struct work_mixer *m, const struct asked_sheet *asked)
{
	const char *action = asked->action;

	fill_weighed(&forms->weighed, request, m,
		asked->has_sheet ? &asked->sheet : NULL, action);
	fill_foam(&forms->foam, request, m, action);
	fill_wet(&forms->wet, request, action);
	fill_surroundings(&forms->around, request, action);
	fill_settling(&forms->settling, request, action);
}

static struct form *
form_sent(struct batch_forms *forms, const struct web_request *request)
{
	const char *id = web_given(request, "form");
	struct form *const all[] = {&forms->weighed, &forms->foam, &forms->wet,
		&forms->around, &forms->settling};

	for (size_t i = 0; id != NULL && i < COUNT(all); i++)
		if (strcmp(all[i]->id, id) == 0)
			return all[i];
	return &forms->around;
}

static void
add_told(struct page *page, const struct work_batch_told *told)
{
	const struct web_request *request = page->request;

	for (size_t i = 0; i < told->n_sentence; i++)
		page_say(page, told->sentence[i]);
	if (told->has_survival)
		page_say(page,
			page_format(page, "%.0f %% %s",
				told->survival_ratio * 100,
				_("of the foam's air outlived the mixing.")));
}

static enum err_code
add_photos(struct page *page, const char *code, struct err *err)
{
	struct form form;

	photo_form(&form, page->request, code);
	TRY(photo_blocks(page, code, err));
	page_form(page, &form);
	return ERR_NONE;
}

static enum err_code
show_batch(const struct web_request *request, struct web_reply *reply,
	const struct work_mixer *m, const char *code, struct batch_forms *forms,
	struct err *err)
{
	struct work_batch_told told;
	struct asked_sheet asked;
	struct err inner = err_in(request->arena);
	struct maybe since = {.has = false};
	const char *since_text = web_query(request, "since");
	bool made = mixer_is_made(m, code);
	struct page page;

	if (since_text != NULL &&
		unit_read(since_text, UNIT_TIME, NULL, &since.value, &inner) ==
			ERR_NONE)
		since.has = true;
	TRY(asked_sheet_read(request, m, code, &asked, err));
	if (!made && asked.code == ERR_NOT_FOUND)
		return err_report(err, asked.code, "", "%s", asked.refused);
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Batch"), code),
		PAGE_MIXER);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	if (made) {
		TRY(work_batch_tell(&request->desk, request->arena, code, since,
			&told, err));
		add_told(&page, &told);
	}
	page_caution(&page,
		_("Gloves and goggles: wet concrete burns. Agents burn "
		  "eyes."));
	if (asked.has_sheet) {
		add_sheet(&page, m, &asked.sheet);
	} else {
		page_alarm(&page,
			text_format(request->arena, "%s %s",
				_("There is no sheet to weigh by:"),
				asked.refused));
		page_form(&page, &asked.form);
	}
	if (forms->weighed.request == NULL)
		fill_all(forms, request, m, &asked);
	page_form(&page, &forms->weighed);
	page_form(&page, &forms->foam);
	page_form(&page, &forms->wet);
	page_form(&page, &forms->around);
	page_form(&page, &forms->settling);
	if (asked.has_sheet)
		page_form(&page, &asked.form);
	if (made)
		TRY(add_photos(&page, code, err));
	page_link(&page, _("To the test pieces of this batch"),
		web_at(request, "/bench?batch=", code));
	if (made) {
		page_link(&page, _("How it cured"),
			web_at(request, "/cure/", code));
		page_link(&page, _("Labels of this batch, to print"),
			web_at(request, "/labels/", code));
	}
	page_link(&page, _("To the other batches"), "/mixer");
	return page_answer(&page, reply, err);
}

enum err_code
web_batch(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct batch_forms forms = {.weighed = {.request = NULL}};
	struct work_mixer m;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	return show_batch(request, reply, &m, request->tail, &forms, err);
}

/* The faults of an entry, beside its fields, with the page as it was. */
static enum err_code
show_again(const struct web_request *request, struct web_reply *reply,
	const char *code, struct batch_forms *forms, struct err *err)
{
	struct work_mixer m;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	return show_batch(request, reply, &m, code, forms, err);
}

static enum err_code
record_batch(const struct web_request *request, struct web_reply *reply,
	struct work_batch_ask *ask, const struct asked_sheet *asked,
	struct batch_forms *forms, struct err *err)
{
	struct form *form = form_sent(forms, request);
	struct err inner = err_in(request->arena);
	struct work_batch_told told;
	bool good = form_read(
		request, batch_fields, COUNT(batch_fields), ask, form);
	const char *since = form_typed_number(request, "since-foam");

	good = read_settled(request, ask, form) && good;
	good = read_put_in(request, ask, form) && good;
	if (!good)
		return show_again(request, reply, ask->code, forms, err);
	if (work_batch_record(&request->desk, request->arena, ask, &told,
		    &inner) != ERR_NONE) {
		form_fault(form, &inner);
		return show_again(request, reply, ask->code, forms, err);
	}
	reply->see_other = asked_sheet_with(request, asked, "saved", form->id);
	if (reply->see_other != NULL && since != NULL)
		reply->see_other = text_format(request->arena, "%s%s",
			reply->see_other, web_at(request, "&since=", since));
	return reply->see_other != NULL ? ERR_NONE : err_memory(err);
}

enum err_code
web_batch_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_batch_ask ask = {.code = request->tail,
		.practice = web_given(request, "practice") != NULL,
		.typed = form_as_typed(request)};
	struct batch_forms forms;
	struct asked_sheet asked;
	struct work_mixer m;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	if (!mixer_is_made(&m, ask.code)) /* it is being made now */
		ask.made_on = mixer_moment(request);
	TRY(asked_sheet_read(request, &m, ask.code, &asked, err));
	fill_all(&forms, request, &m, &asked);
	return record_batch(request, reply, &ask, &asked, &forms, err);
}

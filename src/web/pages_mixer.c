/* pages_mixer.c - at the mixer, for the phone: which batch, its sheet, and what
 * is recorded as it is made. */
#include "web/page.h"
#include "web/pages_photo.h"

#include "core/date.h"
#include "work/batch.h"
#include "work/fields.h"
#include "work/foam.h"
#include "work/sheet.h"

#include <string.h>

enum { LITRES = 1000, SETTLE_STEPS = 7 };

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* --- Which batch. --- */

static bool
is_made(const struct work_mixer *m, const char *code)
{
	for (size_t i = 0; i < m->site.n_batch; i++)
		if (strcmp(m->site.batch[i].code, code) == 0)
			return true;
	return false;
}

static const char *
moment_text(const struct web_request *request)
{
	char now[DATE_TEXT_MAX];

	date_write(request->desk.now_utc_s, now);
	return arena_text(request->arena, now);
}

static const char *
mix_of_slot(const struct work_mixer *m, const struct book_trial_slot *slot)
{
	for (size_t i = 0; i < m->site.n_mix; i++)
		if (m->site.mix[i].row.id == slot->mix_id)
			return m->site.mix[i].code;
	return "?";
}

static void
add_planned(struct page *page, const struct work_mixer *m)
{
	static const struct grid_column column[] = {
		{"batch", N_("batch"), "", false},
		{"mix", N_("mix"), "", false},
		{"day", N_("day of the plan"), "", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "planned", _("To be made, in this order"),
		column, COUNT(column));
	for (size_t i = 0; i < m->n_slot; i++) {
		const struct book_trial_slot *slot = &m->slot[i];

		if (is_made(m, slot->batch_code))
			continue;
		grid_link(&grid, slot->batch_code,
			web_at(request, "/batch/", slot->batch_code));
		grid_text(&grid, mix_of_slot(m, slot));
		grid_number(&grid, (double)slot->day,
			page_format(page, "%d", (int)slot->day));
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page,
			_("No batch of a plan waits. A batch of any mix can be "
			  "made: name it below."));
}

static void
add_made(struct page *page, const struct work_mixer *m)
{
	static const struct grid_column column[] = {
		{"batch", N_("batch"), "", false},
		{"mix", N_("mix"), "", false},
		{"made_on", N_("made on"), "", false},
		{"wet_density", N_("wet weight"), "kg/m3", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "made", _("Made, newest first"), column,
		COUNT(column));
	for (size_t i = m->site.n_batch; i > 0; i--) {
		const struct book_batch *b = &m->site.batch[i - 1];

		grid_link(&grid, b->code, web_at(request, "/batch/", b->code));
		grid_text(&grid, m->site.mix[m->site.batch_mix[i - 1]].code);
		grid_text(&grid, b->made_on);
		if (b->wet_kg_m3.has)
			grid_number(&grid, b->wet_kg_m3.value,
				page_format(page, "%.0f", b->wet_kg_m3.value));
		else
			grid_text(&grid, NULL);
	}
	if (grid_rows(&grid) > 0)
		page_grid_folded(page, &grid);
}

static void
add_foam_state(struct page *page, const struct work_mixer *m)
{
	const struct web_request *request = page->request;

	for (size_t i = 0; i < m->n_generator; i++)
		page_link(page,
			page_format(page, "%s %s",
				_("Weigh the foam of generator"),
				m->generator[i].code),
			web_at(request, "/foam/", m->generator[i].code));
	if (m->n_generator == 0)
		page_link(page, _("Enter a foam generator"), "/gear");
}

static void
fill_new_batch(struct form *form, const struct web_request *request,
	const struct work_mixer *m)
{
	form_start(form, request, "new-batch", "/batch", _("Make this batch"));
	form->heading = _("Another batch");
	form_text(form, "code", _("Name of the batch"),
		_("Two digits are enough, such as 07."));
	form_needed(form);
	form_choice(form, "mix", _("Mix"), NULL);
	for (size_t i = 0; i < m->site.n_mix && i < FORM_CHOICES_MOST; i++)
		form_choose(form, m->site.mix[i].code,
			text_format(request->arena, "%s, %s",
				m->site.mix[i].code, m->site.mix[i].name));
	form_yes(form, "practice", _("Practice, never compared"),
		_("Say so before mixing; it cannot be said afterwards."));
}

enum err_code
web_mixer(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_mixer m;
	struct page page;
	struct form form;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(&page, request, _("At the mixer"), PAGE_MIXER);
	page_caution(&page,
		_("Cement burns skin and eyes, also hours later: gloves, "
		  "goggles, water at hand. Dust: wear a mask when emptying "
		  "bags. Hands and cloth away from a turning mixer."));
	add_planned(&page, &m);
	add_foam_state(&page, &m);
	fill_new_batch(&form, request, &m);
	page_form(&page, &form);
	add_made(&page, &m);
	page_link(&page, _("Mixer, scale and generators"), "/gear");
	return page_answer(&page, reply, err);
}

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
	page_grid(page, &grid);
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
	{"since-foam", FIELD_MAYBE, UNIT_TIME, AT(since_foam_s)},
};
#undef AT

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

static void
fill_weighed(struct form *form, const struct web_request *request,
	const struct work_sheet *s, const char *action)
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
		struct err err = {.code = ERR_NONE};
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

static bool
read_put_in(const struct web_request *request, struct work_batch_ask *ask,
	struct form *form)
{
	struct work_put_in *put = arena_take(
		request->arena, request->n_field, sizeof *put);
	bool good = true;

	for (size_t i = 0; put != NULL && i < request->n_field; i++) {
		const char *name = request->field[i].name, *text;
		struct err err = {.code = ERR_NONE};
		struct work_put_in one = {.lot = ""};

		if (strncmp(name, "put-", 4) != 0 ||
			strstr(name, "_unit") != NULL ||
			request->field[i].n == 0)
			continue;
		text = form_typed_number(request, name);
		one.code = name + 4;
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
	const struct work_mixer *m, const struct work_sheet *sheet,
	const char *action)
{
	fill_weighed(&forms->weighed, request, sheet, action);
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
	struct work_sheet_ask ask = {.what = code};
	struct work_batch_told told;
	struct work_sheet sheet;
	struct err inner = {.code = ERR_NONE};
	struct maybe since = {.has = false};
	const char *since_text = web_query(request, "since");
	const char *action = web_at(request, "/batch/", code);
	bool made = is_made(m, code);
	bool has_sheet;
	struct page page;

	if (since_text != NULL &&
		unit_read(since_text, UNIT_TIME, NULL, &since.value, &inner) ==
			ERR_NONE)
		since.has = true;
	err_clear(&inner);
	has_sheet = work_sheet_make(request->arena, m, &ask, &sheet, &inner) ==
		ERR_NONE;
	if (!made && !has_sheet)
		return err_report(
			err, inner.code, inner.field, "%s", inner.text);
	if (action == NULL)
		return err_memory(err);
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
	if (has_sheet)
		add_sheet(&page, m, &sheet);
	if (forms->weighed.request == NULL)
		fill_all(forms, request, m, has_sheet ? &sheet : NULL, action);
	page_form(&page, &forms->weighed);
	page_form(&page, &forms->foam);
	page_form(&page, &forms->wet);
	page_form(&page, &forms->around);
	page_form(&page, &forms->settling);
	if (made)
		TRY(add_photos(&page, code, err));
	page_link(&page, _("To the test pieces of this batch"),
		web_at(request, "/bench?batch=", code));
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
	struct work_batch_ask *ask, struct batch_forms *forms, struct err *err)
{
	struct form *form = form_sent(forms, request);
	struct err inner = {.code = ERR_NONE};
	struct work_batch_told told;
	bool good = form_read(request, batch_fields, COUNT(batch_fields),
		UNIT_GALLON_US, ask, form);
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
	reply->see_other = text_format(request->arena, "%s?saved=%s%s",
		web_at(request, "/batch/", ask->code), form->id,
		since != NULL ? web_at(request, "&since=", since) : "");
	return reply->see_other != NULL ? ERR_NONE : err_memory(err);
}

enum err_code
web_batch_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_batch_ask ask = {.code = request->tail,
		.practice = web_given(request, "practice") != NULL,
		.typed = form_as_typed(request)};
	struct work_sheet_ask sheet_ask = {.what = ask.code};
	struct batch_forms forms;
	struct work_mixer m;
	struct work_sheet sheet;
	struct err inner = {.code = ERR_NONE};
	const char *action = web_at(request, "/batch/", request->tail);
	bool has_sheet;

	if (ask.typed == NULL || action == NULL)
		return err_memory(err);
	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	if (!is_made(&m, ask.code)) /* it is being made now */
		ask.made_on = moment_text(request);
	has_sheet = work_sheet_make(request->arena, &m, &sheet_ask, &sheet,
			    &inner) == ERR_NONE;
	fill_all(&forms, request, &m, has_sheet ? &sheet : NULL, action);
	return record_batch(request, reply, &ask, &forms, err);
}

/* A batch that no plan names: its name is in the form. */
enum err_code
web_batch_new(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *code = web_given(request, "code");
	struct work_batch_ask ask = {.code = code,
		.mix = web_given(request, "mix"),
		.practice = web_given(request, "practice") != NULL,
		.made_on = moment_text(request),
		.typed = form_as_typed(request)};
	struct work_batch_told told;
	struct err inner = {.code = ERR_NONE};
	struct work_mixer m;
	struct page page;
	struct form form;

	if (code == NULL)
		(void)err_report(&inner, ERR_INPUT, "code",
			"Give the batch a name, such as 07.");
	else if (work_batch_record(&request->desk, request->arena, &ask, &told,
			 &inner) == ERR_NONE) {
		reply->see_other = text_format(request->arena, "%s?saved=1",
			web_at(request, "/batch/", code));
		return reply->see_other != NULL ? ERR_NONE : err_memory(err);
	}
	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	page_start(&page, request, _("At the mixer"), PAGE_MIXER);
	fill_new_batch(&form, request, &m);
	form_fault(&form, &inner);
	page_form(&page, &form);
	return page_answer(&page, reply, err);
}

/* --- Foam. --- */

#define AT(member) offsetof(struct work_foam_ask, member)
static const struct field foam_fields[] = {
	{"gross", FIELD_MAYBE, UNIT_MASS, AT(gross_kg)},
	{"fill", FIELD_MAYBE, UNIT_TIME, AT(fill_s)},
	{"moment", FIELD_TEXT, UNIT_NUMBER, AT(moment)},
	{"batch", FIELD_TEXT, UNIT_NUMBER, AT(batch)},
	{"remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
};
#undef AT

static void
fill_foam_check(struct form *form, const struct web_request *request)
{
	form_start(form, request, "foam-check",
		web_at(request, "/foam/", request->tail),
		_("Record, and say if it may be used"));
	form_number(form, "gross", _("Vessel full of foam"), "kg g lb",
		_("Purge, fill from below, do not tap, strike level, weigh."));
	form_needed(form);
	form_choice(form, "moment", _("When in the run"), NULL);
	form_choose(form, "start", _("start"));
	form_choose(form, "middle", _("middle"));
	form_choose(form, "end", _("end"));
	form_value(form, "start");
	form_text(form, "batch", _("Of which batch"),
		_("Leave empty between batches."));
	form_number(form, "fill", _("How long it took to fill"), "s", NULL);
}

static void
add_last_check(struct page *page, const struct work_mixer *m, size_t generator)
{
	const struct web_request *request = page->request;
	struct work_foam_told told;
	struct err inner = {.code = ERR_NONE};
	size_t last = m->n_foam_check;

	for (size_t i = 0; i < m->n_foam_check; i++)
		if (m->foam_check[i].generator_id ==
			m->generator[generator].row.id)
			last = i;
	if (last == m->n_foam_check) {
		page_say(page, _("This foam was not weighed yet."));
		return;
	}
	if (work_foam_tell(request->arena, m, last, &told, &inner) !=
		ERR_NONE) {
		page_alarm(page, arena_text(request->arena, inner.text));
		return;
	}
	page_big(page, _("last weighed"),
		page_format(page, "%s g/L",
			unit_plus_minus(request->arena, told.density_kg_m3,
				told.standard_uncertainty_kg_m3)));
	if (strcmp(told.verdict, "ok") == 0)
		page_say(page, told.sentence);
	else
		page_alarm(page, told.sentence);
}

static void
add_checks(struct page *page, const struct work_mixer *m, size_t generator)
{
	static const struct grid_column column[] = {
		{"read_on", N_("read on"), "", false},
		{"moment", N_("moment"), "", false},
		{"gross", N_("vessel full of foam"), "kg", true},
		{"density", N_("foam weight"), "g/L", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "checks", _("Foam weighed, newest first"),
		column, COUNT(column));
	for (size_t i = m->n_foam_check; i > 0; i--) {
		const struct book_foam_check *check = &m->foam_check[i - 1];
		struct mix_weighed weighed;
		struct err inner = {.code = ERR_NONE};

		if (check->generator_id != m->generator[generator].row.id ||
			work_foam_weigh(&m->generator[generator], check,
				&weighed, &inner) != ERR_NONE)
			continue;
		grid_text(&grid, check->read_on);
		grid_text(&grid, check->moment);
		grid_number(&grid, check->gross_kg,
			page_format(page, "%.3f", check->gross_kg));
		grid_number(&grid, weighed.value,
			page_format(page, "%.1f", weighed.value));
	}
	if (grid_rows(&grid) > 0)
		page_grid_folded(page, &grid);
}

enum err_code
web_foam(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_mixer m;
	struct page page;
	struct form form;
	size_t at;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	TRY(work_find_generator(&m, request->tail, &at, err));
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Foam of generator"),
			request->tail),
		PAGE_MIXER);
	page_caution(&page, _("Agents burn eyes: goggles."));
	add_last_check(&page, &m, at);
	fill_foam_check(&form, request);
	page_form(&page, &form);
	add_checks(&page, &m, at);
	page_link(&page, _("Back to the mixer"), "/mixer");
	return page_answer(&page, reply, err);
}

enum err_code
web_foam_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_foam_ask ask = {
		.generator = request->tail, .typed = form_as_typed(request)};
	struct err inner = {.code = ERR_NONE};
	struct work_foam_told told;
	struct page page;
	struct form form;

	if (ask.typed == NULL)
		return err_memory(err);
	fill_foam_check(&form, request);
	if (form_read(request, foam_fields, COUNT(foam_fields), UNIT_GALLON_US,
		    &ask, &form)) {
		if (work_foam_put(&request->desk, request->arena, &ask, &told,
			    &inner) == ERR_NONE) {
			reply->see_other = form.action;
			return ERR_NONE;
		}
		form_fault(&form, &inner);
	}
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Foam of generator"),
			request->tail),
		PAGE_MIXER);
	page_form(&page, &form);
	return page_answer(&page, reply, err);
}

/* --- Mixer, scale, generators. --- */

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
	form_number(form, "scale-step", _("Smallest step of that scale"),
		"g kg oz", NULL);
	form_number(form, "rate", _("Foam it gives"), "L/min gal/min", NULL);
	form_number(form, "dilution", _("Parts of water to 1 of agent"), "",
		_("By weight, such as 40."));
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
		grid_text(&grid, g->metering);
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
	struct err inner = {.code = ERR_NONE};

	if (ask.typed == NULL)
		return err_memory(err);
	if (!form_read(request, gear_fields, COUNT(gear_fields), UNIT_GALLON_US,
		    &ask, form))
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
	struct err inner = {.code = ERR_NONE};
	bool made;

	if (ask.typed == NULL)
		return err_memory(err);
	if (!form_read(request, generator_fields, COUNT(generator_fields),
		    UNIT_GALLON_US, &ask, form))
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

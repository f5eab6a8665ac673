/* pages_mixer.c - at the mixer, for the phone: which batch comes next, and one
 * that no plan names. */
#include "web/mixer.h"

#include "core/date.h"
#include "web/page.h"
#include "work/batch.h"
#include "work/fields.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

bool
mixer_is_made(const struct work_mixer *m, const char *code)
{
	for (size_t i = 0; i < m->site.n_batch; i++)
		if (strcmp(m->site.batch[i].code, code) == 0)
			return true;
	return false;
}

const char *
mixer_moment(const struct web_request *request)
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

		if (mixer_is_made(m, slot->batch_code))
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
	if (m->site.n_trial > 1) {
		form_choice(form, "trial", _("Of which trial"), NULL);
		for (size_t i = 0; i < m->site.n_trial && i < FORM_CHOICES_MOST;
			i++)
			form_choose(form, m->site.trial[i].code,
				text_format(request->arena, "%s%s%s",
					m->site.trial[i].code,
					m->site.trial[i].question[0] != '\0'
						? ": "
						: "",
					m->site.trial[i].question));
	}
	form_date(form, "on", _("When it was made, if not now"), NULL);
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
	if (m.site.n_mix == 0) {
		page_say(
			&page, _("A batch is made of a mix: enter one first."));
		page_link(&page, _("To the mixes"), "/mixes");
	} else {
		add_planned(&page, &m);
	}
	add_foam_state(&page, &m);
	fill_new_batch(&form, request, &m);
	page_form(&page, &form);
	add_made(&page, &m);
	page_link(&page, _("Mixer, scale and generators"), "/gear");
	return page_answer(&page, reply, err);
}

/* A batch that no plan names: its name is in the form. */
enum err_code
web_batch_new(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *code = web_given(request, "code");
	struct work_batch_ask ask = {.code = code,
		.mix = web_given(request, "mix"),
		.trial = web_given(request, "trial"),
		.practice = web_given(request, "practice") != NULL,
		.made_on = mixer_moment(request),
		.typed = form_as_typed(request)};
	struct work_batch_told told;
	struct err inner = err_in(request->arena);
	static const struct field made_on = {"on", FIELD_DATE, UNIT_NUMBER,
		offsetof(struct work_batch_ask, made_on)};
	struct work_mixer m;
	struct page page;
	struct form form;
	bool good = true;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	fill_new_batch(&form, request, &m);
	if (!form_read(request, &made_on, 1, &ask, &form))
		good = false;
	else if (code == NULL)
		(void)err_report(&inner, ERR_INPUT, "code",
			"Give the batch a name, such as 07.");
	else if (work_batch_record(&request->desk, request->arena, &ask, &told,
			 &inner) == ERR_NONE) {
		reply->see_other = text_format(request->arena, "%s?saved=1",
			web_at(request, "/batch/", code));
		return reply->see_other != NULL ? ERR_NONE : err_memory(err);
	}
	page_start(&page, request, _("At the mixer"), PAGE_MIXER);
	if (good)
		form_fault(&form, &inner);
	page_form(&page, &form);
	return page_answer(&page, reply, err);
}

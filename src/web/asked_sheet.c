/* asked_sheet.c - the size of a batch, from the address. */
#include "web/asked_sheet.h"

#include "web/page.h"

#include <string.h>

enum { LITRES = 1000 };

#define AT(member) offsetof(struct work_sheet_ask, member)
static const struct field fields[] = {
	{"volume", FIELD_MAYBE, UNIT_VOLUME, AT(wanted_m3)},
	{"generator", FIELD_TEXT, UNIT_NUMBER, AT(generator)},
};
#undef AT

static void
fill(struct form *form, const struct web_request *request,
	const struct work_mixer *m, const char *code)
{
	form_start(form, request, "sheet", web_at(request, "/batch/", code),
		_("Work the sheet out"));
	form->gets = true;
	form->heading = _("Another size of batch");
	form_number(form, "volume", _("How much is to be cast"), "L gal m3",
		_("Empty: what one load of the mixer makes."));
	form_yes(form, "whole-bags", _("As many whole bags of cement as fit"),
		NULL);
	if (m->n_generator < 2)
		return;
	form_choice(form, "generator", _("Foam generator"), NULL);
	for (size_t i = 0; i < m->n_generator && i < FORM_CHOICES_MOST; i++)
		form_choose(form, m->generator[i].code, m->generator[i].code);
}

/* "/batch/07" to "/batch/07?volume=40+L"; NULL if memory ran out. */
static const char *
with(const struct web_request *request, const char *address, const char *name,
	const char *value)
{
	return address == NULL || value == NULL
		? NULL
		: text_format(request->arena, "%s%c%s", address,
			  strchr(address, '?') == NULL ? '?' : '&',
			  web_at(request,
				  text_format(request->arena, "%s=", name),
				  value));
}

const char *
asked_sheet_with(const struct web_request *request,
	const struct asked_sheet *asked, const char *name, const char *value)
{
	return with(request, asked->action, name, value);
}

static const char *
address_of(const struct web_request *request, const struct work_sheet_ask *ask)
{
	const char *address = web_at(request, "/batch/", ask->what);

	if (ask->wanted_m3.has)
		address = with(request, address, "volume",
			text_format(request->arena, "%.9g L",
				ask->wanted_m3.value * LITRES));
	if (ask->whole_bags)
		address = with(request, address, "whole-bags", "yes");
	if (ask->generator != NULL)
		address = with(request, address, "generator", ask->generator);
	return address;
}

enum err_code
asked_sheet_read(const struct web_request *request, const struct work_mixer *m,
	const char *code, struct asked_sheet *out, struct err *err)
{
	struct web_request as_form = *request;
	struct err inner = err_in(request->arena);

	as_form.field = request->query; /* the same names and units */
	as_form.n_field = request->n_query;
	*out = (struct asked_sheet){.has_sheet = false};
	out->ask.what = code;
	out->ask.now_utc_s = request->desk.now_utc_s;
	out->ask.whole_bags = web_query(request, "whole-bags") != NULL;
	fill(&out->form, request, m, code);
	if (!form_read(&as_form, fields, sizeof fields / sizeof fields[0],
		    &out->ask, &out->form))
		out->ask.wanted_m3.has = false;
	out->action = address_of(request, &out->ask);
	if (out->action == NULL)
		return err_memory(err);
	out->code = work_sheet_make(
		request->arena, m, &out->ask, &out->sheet, &inner);
	out->has_sheet = out->code == ERR_NONE;
	if (out->has_sheet)
		return ERR_NONE;
	out->refused = arena_text(request->arena, inner.text);
	if (out->ask.wanted_m3.has || out->ask.whole_bags)
		form_fault(&out->form, &inner);
	return out->refused != NULL ? ERR_NONE : err_memory(err);
}

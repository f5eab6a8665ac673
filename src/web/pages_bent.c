/* pages_bent.c - a bending test that was done already, told at once. */
#include "web/page.h"
#include "web/reading_form.h"
#include "web/rigs.h"

#include "work/fields.h"
#include "work/home_test.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* What was hung, before it is a reading: held_kg is no maybe there. */
struct typed_bending {
	struct work_test_ask ask;
	struct maybe held_kg;
};

#define AT(member) offsetof(struct typed_bending, ask.member)
#define BEND(member) AT(reading.bending.member)
static const struct field fields[] = {
	{"held", FIELD_MAYBE, UNIT_MASS,
		offsetof(struct typed_bending, held_kg)},
	{"broke", FIELD_MAYBE, UNIT_MASS, BEND(broke_kg)},
	{"hold", FIELD_MAYBE, UNIT_TIME, BEND(hold_s)},
	{"span", FIELD_MAYBE, UNIT_LENGTH, BEND(span_m)},
	{"hanger", FIELD_MAYBE, UNIT_MASS, BEND(on_rig_kg)},
	{"strap", FIELD_MAYBE, UNIT_LENGTH, BEND(strap_m)},
	{"loading", FIELD_TEXT, UNIT_NUMBER, BEND(loading)},
	{"after-held", FIELD_MAYBE, UNIT_MASS, BEND(after_held_kg)},
	{"after-broke", FIELD_MAYBE, UNIT_MASS, BEND(after_broke_kg)},
	{"sag", FIELD_MAYBE, UNIT_LENGTH, BEND(sag_m)},
};
#undef AT
#undef BEND

static void
fill(struct form *form, const struct web_request *request,
	const struct work_site *site, const char *code)
{
	bool rigged;

	form_start(form, request, "bent", web_at(request, "/bent/", code),
		_("Record the bending"));
	form_number(form, "held", _("The last weight it held"), "kg lb",
		_("Without the hanger."));
	form_needed(form);
	form_number(form, "broke", _("The one that broke it"), "kg lb",
		_("Empty where it never broke."));
	rigged = rigs_choice(form, site, "bending");
	form_number(form, "hold", _("How long into the hold it broke"), "s min",
		NULL);
	form_number(form, "span", _("Between the middles of the supports"),
		"mm in", NULL);
	form_number(form, "hanger", _("Hanger and bucket"), "kg lb",
		_("They are part of every load."));
	form_number(form, "strap", _("Width of the strap"), "mm in", NULL);
	form_choice(form, "loading", _("Where it is loaded"), NULL);
	form_choose(form, "centre", _("in the middle"));
	form_choose(form, "third", _("at the third points"));
	if (rigged)
		form_choose(form, "", _("as the rig is, else in the middle"));
	form_value(form, rigged ? "" : "centre");
	form_number(form, "after-held", _("Held after the first crack"),
		"kg lb", NULL);
	form_number(form, "after-broke", _("And the one that brought it down"),
		"kg lb", NULL);
	form_number(
		form, "sag", _("How far the middle had sagged"), "mm in", NULL);
	form_number(form, "width", _("Width at the break"), "mm in", NULL);
	form_number(form, "depth", _("Height at the break"), "mm in",
		_("It counts twice."));
	form_number(form, "length", _("Length as measured"), "mm in", NULL);
	form_number(form, "mass", _("The piece weighed, on that day"),
		"kg g lb", NULL);
	form_date(form, "on", _("When it was tested, if not now"), NULL);
	form_text(form, "remark", _("Remark"), NULL);
}

static enum err_code
show(const struct web_request *request, struct web_reply *reply,
	const char *code, struct form *form, struct err *err)
{
	struct page page;

	page_start(&page, request,
		text_format(request->arena, "%s %s",
			_("A bending test that was done already:"), code),
		PAGE_BENCH);
	page_say(&page,
		_("For weights that were written down on paper. A beam that "
		  "hangs now is better kept weight by weight, on its own "
		  "page."));
	page_form(&page, form);
	page_link(&page, _("To the piece"), web_at(request, "/piece/", code));
	return page_answer(&page, reply, err);
}

static enum err_code
find(const struct web_request *request, struct work_bench *bench,
	const char **code, struct err *err)
{
	size_t piece;

	TRY(work_bench_read(&request->desk, request->arena, bench, err));
	TRY(work_find_piece(bench, request->tail, &piece, err));
	*code = bench->site.specimen[piece].code;
	return ERR_NONE;
}

enum err_code
web_bent(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *code = "";
	struct work_bench bench;
	struct form form;

	TRY(find(request, &bench, &code, err));
	fill(&form, request, &bench.site, code);
	return show(request, reply, code, &form, err);
}

enum err_code
web_bent_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct typed_bending typed = {
		.ask = {.typed = form_as_typed(request),
			.reading = {.kind = "bending",
				.code = "1",
				.remark = "",
				.bending = {.loading = ""}}}};
	struct err inner = err_in(request->arena);
	struct work_test_told told;
	const char *code = "";
	struct work_bench bench;
	struct form form;

	if (typed.ask.typed == NULL)
		return err_memory(err);
	TRY(find(request, &bench, &code, err));
	fill(&form, request, &bench.site, code);
	if (!reading_form_read(
		    request, fields, COUNT(fields), &typed, &typed.ask, &form))
		return show(request, reply, code, &form, err);
	typed.ask.piece = code;
	typed.ask.reading.bending.held_kg = typed.held_kg.value;
	if (!typed.held_kg.has)
		form_fault_at(&form, "held", _("This is needed."));
	else if (work_test_put(&request->desk, request->arena, &typed.ask,
			 &told, &inner) == ERR_NONE) {
		reply->see_other = text_format(request->arena, "%s?saved=1",
			web_at(request, "/piece/", code));
		return reply->see_other != NULL ? ERR_NONE : err_memory(err);
	} else {
		form_fault(&form, &inner);
	}
	return show(request, reply, code, &form, err);
}

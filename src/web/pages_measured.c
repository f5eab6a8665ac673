/* pages_measured.c - at the bench, for the phone: moisture, soaking, water drawn
 * up, shortening, screws, frost, heat and drying of one piece. */
#include "web/page.h"

#include "work/drying.h"
#include "work/fields.h"
#include "work/measured.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])
#define AT(member) offsetof(struct work_measured_ask, member)

enum { FIELDS_MOST = 10 };

/* A field as it is shown; a day has no unit. */
struct shown_field {
	const char *name, *label, *units, *hint;
};

/* One form of the page. */
struct measured_form {
	const char *id, *kind, *heading, *button;
	struct shown_field field[FIELDS_MOST];
};

#define SCALE                                                          \
	{                                                              \
		"scale-step", N_("The scale is read to"), "g kg", NULL \
	}

static const struct measured_form shown[] = {
	{"drying", "drying", N_("A block that dries by a wall"),
		N_("Record this weighing"),
		{{"mass", N_("It weighs"), "kg g lb", NULL},
			{"wanted", N_("Moisture that the plaster takes"), "",
				N_("As its maker says, such as 8 %; once.")},
			{"dry", N_("The same from the oven, if known"),
				"kg g lb", NULL},
			SCALE}},
	{"moisture", "moisture", N_("How wet it is"), N_("Record the moisture"),
		{{"mass", N_("It or a lump of it weighs"), "kg g lb", NULL},
			{"dry", N_("The same from the oven"), "kg g lb", NULL},
			SCALE}},
	{"soak", "soaking", N_("Held under water"),
		N_("Record the water taken up"),
		{{"time", N_("How long in the water"), "h min", NULL},
			{"mass", N_("It weighs then"), "kg g lb", NULL},
			{"dry", N_("It weighed dry"), "kg g lb",
				N_("Once is enough.")},
			SCALE}},
	{"rise", "rise", N_("Standing in water"),
		N_("Record the water drawn up"),
		{{"time", N_("How long in the water"), "min h",
			 N_("0 is before it stood in it.")},
			{"mass", N_("It weighs then"), "g kg lb", NULL},
			{"height", N_("Or how high the wet edge stands"),
				"mm in", NULL},
			{"height-step", N_("That height is read to"), "mm in",
				NULL},
			{"face", N_("Face in the water"), "cm2 in2",
				N_("Once is enough.")},
			SCALE}},
	{"shrinkage", "shrinkage", N_("How long the bar is"),
		N_("Record the length"),
		{{"length", N_("Between the studs"), "mm in", NULL},
			{"step", N_("The calliper is read to"), "mm in", NULL},
			{"temperature", N_("Temperature of the bar"),
				"degC degF", NULL}}},
	{"screw", "screw", N_("Pull a screw out"), N_("Record this screw"),
		{{"held", N_("The last pull it held"), "N kgf lbf", NULL},
			{"out", N_("The one that pulled it out"), "N kgf lbf",
				N_("Empty where it never came out.")},
			{"diameter", N_("Diameter of the screw"), "mm in",
				NULL},
			{"depth", N_("Depth of its thread"), "mm in", NULL},
			{"pull-step", N_("The pull is read to"), "N kgf lbf",
				NULL}}},
	{"frost", "frost", N_("Freezing and thawing"), N_("Record the loss"),
		{{"cycles", N_("Cycles"), "", NULL},
			{"before", N_("It weighed before"), "g kg lb", NULL},
			{"after", N_("It weighs after them"), "g kg lb",
				N_("As wet or dry as before.")},
			SCALE,
			{"size-before", N_("One size of it before"), "mm in",
				NULL},
			{"size-after", N_("The same size after"), "mm in",
				NULL},
			{"size-step", N_("That size is read to"), "mm in",
				NULL}}},
	{"hotbox", "hot box", N_("In the heated box"), N_("Record the heat"),
		{{"power", N_("Watts of the heater"), "W", NULL},
			{"leak", N_("Of these lost elsewhere"), "W", NULL},
			{"warm", N_("The warm face"), "degC degF", NULL},
			{"cold", N_("The cold face"), "degC degF", NULL},
			{"area", N_("Area of the slab"), "m2 ft2",
				N_("Empty: width times length of the piece.")},
			{"thickness", N_("Thickness of the slab"), "mm in",
				N_("Empty: depth of the piece.")},
			{"power-step", N_("The watts are read to"), "W", NULL},
			{"temperature-step", N_("The thermometers are read to"),
				"K", NULL}}},
};

static const struct field fields[] = {
	{"on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
	{"dry", FIELD_MAYBE, UNIT_MASS, AT(dry_kg)},
	{"scale-step", FIELD_MAYBE, UNIT_MASS, AT(mass_step_kg)},
	{"time", FIELD_MAYBE, UNIT_TIME, AT(after_s)},
	{"height", FIELD_MAYBE, UNIT_LENGTH, AT(height_m)},
	{"face", FIELD_MAYBE, UNIT_AREA, AT(face_m2)},
	{"wanted", FIELD_MAYBE, UNIT_RATIO, AT(wanted_ratio)},
	{"length", FIELD_MAYBE, UNIT_LENGTH, AT(length_m)},
	{"step", FIELD_MAYBE, UNIT_LENGTH, AT(step_m)},
	{"temperature", FIELD_MAYBE, UNIT_TEMPERATURE, AT(degc)},
	{"held", FIELD_MAYBE, UNIT_FORCE, AT(held_n)},
	{"out", FIELD_MAYBE, UNIT_FORCE, AT(broke_n)},
	{"pull-step", FIELD_MAYBE, UNIT_FORCE, AT(force_step_n)},
	{"diameter", FIELD_MAYBE, UNIT_LENGTH, AT(diameter_m)},
	{"depth", FIELD_MAYBE, UNIT_LENGTH, AT(depth_m)},
	{"cycles", FIELD_WHOLE, UNIT_NUMBER, AT(cycles)},
	{"before", FIELD_MAYBE, UNIT_MASS, AT(before_kg)},
	{"after", FIELD_MAYBE, UNIT_MASS, AT(after_kg)},
	{"size-before", FIELD_MAYBE, UNIT_LENGTH, AT(before_m)},
	{"size-after", FIELD_MAYBE, UNIT_LENGTH, AT(after_m)},
	{"power", FIELD_MAYBE, UNIT_POWER, AT(power_w)},
	{"leak", FIELD_MAYBE, UNIT_POWER, AT(leak_w)},
	{"area", FIELD_MAYBE, UNIT_AREA, AT(area_m2)},
	{"thickness", FIELD_MAYBE, UNIT_LENGTH, AT(thickness_m)},
	{"warm", FIELD_MAYBE, UNIT_TEMPERATURE, AT(warm_degc)},
	{"cold", FIELD_MAYBE, UNIT_TEMPERATURE, AT(cold_degc)},
	{"height-step", FIELD_MAYBE, UNIT_LENGTH, AT(height_step_m)},
	{"size-step", FIELD_MAYBE, UNIT_LENGTH, AT(length_step_m)},
	{"power-step", FIELD_MAYBE, UNIT_POWER, AT(power_step_w)},
	{"temperature-step", FIELD_MAYBE, UNIT_TEMPERATURE_DIFFERENCE,
		AT(temperature_step_k)},
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
};

static const char *
word_of(const struct web_request *request, const char *english)
{
	return english == NULL ? NULL : words(request->language, english);
}

/* Soaking, rise and frost are told apart by their time or cycles. */
static bool
is_told_apart(const char *kind)
{
	return strcmp(kind, "soaking") != 0 && strcmp(kind, "rise") != 0 &&
		strcmp(kind, "frost") != 0;
}

static void
fill(struct form form[COUNT(shown)], const struct web_request *request,
	const char *code)
{
	for (size_t i = 0; i < COUNT(shown); i++) {
		const struct measured_form *m = &shown[i];

		form_start(&form[i], request, m->id,
			web_at(request, "/measure/", code),
			word_of(request, m->button));
		form[i].heading = word_of(request, m->heading);
		for (size_t k = 0; k < FIELDS_MOST && m->field[k].name != NULL;
			k++)
			form_number(&form[i], m->field[k].name,
				word_of(request, m->field[k].label),
				m->field[k].units,
				word_of(request, m->field[k].hint));
		form_date(&form[i], "on", _("Day"), _("Empty: today."));
		if (is_told_apart(m->kind))
			form_text(&form[i], "code", _("Which of several"),
				_("Tells readings of one kind apart; empty: "
				  "the next, or by its day."));
		form_text(&form[i], "remark", _("Remark"), NULL);
	}
}

/* A block by a wall: when it is dry enough. */
static enum err_code
add_forecast(struct page *page, const struct web_request *request,
	const struct work_bench *bench, size_t piece, struct err *err)
{
	const struct work_drying *d = NULL;
	size_t n = 0;

	TRY(work_drying_all(request->arena, bench, &d, &n, err));
	for (size_t i = 0; i < n; i++)
		if (d[i].piece == piece)
			page_say(page,
				work_drying_words(
					request->arena, bench, &d[i]));
	return ERR_NONE;
}

static enum err_code
show(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	struct form *forms = form != NULL
		? form
		: arena_take(request->arena, COUNT(shown), sizeof *forms);
	struct work_bench bench;
	struct page page;
	const char *code;
	size_t piece;

	if (forms == NULL)
		return err_memory(err);
	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	TRY(work_find_piece(&bench, request->tail, &piece, err));
	code = bench.site.specimen[piece].code;
	if (form == NULL)
		fill(forms, request, code);
	page_start(&page, request,
		text_format(request->arena, "%s %s",
			_("Water, drying, screws, frost and heat of"), code),
		PAGE_BENCH);
	page_say(&page,
		page_format(&page, "%s.",
			work_piece_sized(
				request->arena, &bench.site.specimen[piece])));
	page_caution(&page,
		_("Goggles when a screw is pulled or a wet piece is handled; "
		  "two people lift what weighs over 25 kg; a heated box is not "
		  "left alone."));
	TRY(add_forecast(&page, request, &bench, piece, err));
	for (size_t i = 0; i < COUNT(shown); i++) {
		forms[i].folded = true;
		page_form(&page, &forms[i]);
	}
	page_link(&page, _("To the piece"), web_at(request, "/piece/", code));
	return page_answer(&page, reply, err);
}

enum err_code
web_measure(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	return show(request, reply, NULL, err);
}

enum err_code
web_measure_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form *form = arena_take(
		request->arena, COUNT(shown), sizeof *form);
	const char *id = web_given(request, "form");
	struct work_measured_ask ask = {
		.piece = request->tail, .typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	struct work_test_told told;
	size_t k = 0;

	if (form == NULL)
		return err_memory(err);
	fill(form, request, request->tail);
	while (k + 1 < COUNT(shown) &&
		(id == NULL || strcmp(shown[k].id, id) != 0))
		k++;
	ask.kind = shown[k].kind;
	if (form_read(request, fields, COUNT(fields), &ask, &form[k])) {
		if (work_measured_put(&request->desk, request->arena, &ask,
			    &told, &inner) == ERR_NONE) {
			reply->see_other = text_format(request->arena,
				"%s?saved=1",
				web_at(request, "/piece/", request->tail));
			return reply->see_other != NULL ? ERR_NONE
							: err_memory(err);
		}
		form_fault(&form[k], &inner);
	}
	return show(request, reply, form, err);
}

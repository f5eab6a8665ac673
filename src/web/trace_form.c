/* trace_form.c - the form that brings a logger's file in. */
#include "web/trace_form.h"

#include "work/fields.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const char *const kinds[] = {[LAB_TRACE_LOAD] = "load",
	[LAB_TRACE_BLOW] = "blow",
	[LAB_TRACE_TEMPERATURE] = "temperature"};

static const struct {
	const char *label, *units; /* of the figures */
} kind_shown[] = {[LAB_TRACE_LOAD] = {N_("a load cell"), "N kN kg lb lbf kgf"},
	[LAB_TRACE_BLOW] = {N_("an accelerometer on the bar"), "m/s2 g"},
	[LAB_TRACE_TEMPERATURE] = {N_("a thermometer"), "degC degF"}};

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

bool
trace_kind(const struct web_request *request, enum lab_trace_kind *kind)
{
	const char *typed = web_given(request, "kind");

	for (size_t i = 0; typed != NULL && i < COUNT(kinds); i++)
		if (is(kinds[i], typed)) {
			*kind = (enum lab_trace_kind)i;
			return true;
		}
	return false;
}

static void
add_kinds(struct form *form, const struct web_request *request)
{
	form_choice(form, "kind", _("What it felt"), NULL);
	form_needed(form);
	for (size_t i = 0; i < COUNT(kinds); i++)
		form_choose(form, kinds[i],
			words(request->language, kind_shown[i].label));
}

static void
start(struct form *form, const struct web_request *request, const char *button)
{
	const char *cure = request->method == WEB_POST
		? web_given(request, "cure")
		: web_query(request, "cure");

	form_start(form, request, "trace", "/traces", button);
	form->carries = true;
	if (cure != NULL)
		form_hidden(form, "cure", cure);
	add_kinds(form, request);
	form_text(form, "piece", _("Marking of the test piece"),
		_("Empty for a thermometer in the store."));
}

static void
add_file(struct form *form, const struct web_request *request,
	const struct carried *carried)
{
	form_file(form, "file",
		carried != NULL ? _("Another file") : _("The logger's file"),
		carried != NULL
			? text_format(request->arena, "%s %s, %.1f kB.",
				  _("Empty: the one that you chose,"),
				  carried->name, (double)carried->n / 1e3)
			: _("CSV as the logger wrote it, at most 16 MB."),
		false);
	if (carried != NULL)
		carry_on(form, carried);
}

void
trace_form(struct form *form, const struct web_request *request,
	const struct carried *carried)
{
	start(form, request, _("Look what it says"));
	form->heading = _("Bring in a logger's file");
	add_file(form, request, carried);
}

/* The choices of a field behind what stands for none of them. */
static void
choose_of(struct form *form, const char *none, const struct form_choice *choice,
	size_t n)
{
	form_listed(form);
	form_choose(form, "", none);
	for (size_t i = 0; i < n; i++)
		form_choose(form, choice[i].value, choice[i].label);
}

static void
choose_unit(
	struct form *form, const struct web_request *request, const char *units)
{
	struct form_choice choice[FORM_CHOICES_MOST];
	char *copy = arena_text(request->arena, units);
	size_t n = 0;

	for (char *unit = copy, *next; unit != NULL; unit = next) {
		next = strchr(unit, ' ');
		if (next != NULL)
			*next++ = '\0';
		choice[n++] = (struct form_choice){unit, unit};
	}
	choose_of(form, _("as found"), choice, n);
}

/* A column goes by its name, or by its number where that is not its alone. */
static void
choose_column(struct form *form, const struct web_request *request,
	const struct lab_trace_found *found)
{
	struct form_choice choice[FORM_CHOICES_MOST];
	size_t n = 0;

	for (size_t i = 0; i < found->n_column && n < FORM_CHOICES_MOST - 1;
		i++) {
		const char *name = found->column_name[i];
		size_t n_same = 0;

		for (size_t k = 0; k < found->n_column; k++)
			n_same += is(found->column_name[k], name);
		choice[n] = (struct form_choice){name, name};
		if (name[0] == '\0' || n_same > 1) {
			choice[n].value = text_format(
				request->arena, "%zu", i + 1);
			choice[n].label = text_format(request->arena,
				"%s %zu %s", _("column"), i + 1, name);
		}
		form->failed |= choice[n].value == NULL ||
			choice[n].label == NULL;
		n++;
	}
	choose_of(form, _("as found"), choice, n);
}

static void
add_reading_fields(struct form *form, const struct web_request *request,
	enum lab_trace_kind kind, const struct lab_trace_found *found)
{
	static const struct form_choice orders[] = {
		{"day", N_("the day")}, {"month", N_("the month")}};
	struct form_choice order[COUNT(orders)];

	form_choice(form, "column", _("Column of the figures"), NULL);
	choose_column(form, request, found);
	form_choice(form, "unit", _("Their unit"),
		_("Where the heading does not say it."));
	choose_unit(form, request, kind_shown[kind].units);
	if (kind == LAB_TRACE_LOAD) {
		form_choice(form, "sag-column", _("Column of the sag"),
			_("Only where it was read beside the load."));
		choose_column(form, request, found);
		form_choice(form, "sag-unit", _("Its unit"), NULL);
		choose_unit(form, request, "mm cm m in");
	}
	form_choice(form, "time-column", _("Column of the time"), NULL);
	choose_column(form, request, found);
	form_choice(form, "time-unit", _("Unit of the time"), NULL);
	choose_unit(form, request, "s ms min h");
	form_number(form, "every", _("Or the time between two lines"),
		"s ms min h", _("Where no column is a time."));
	form_choice(form, "date-order", _("Its dates begin with"), NULL);
	for (size_t i = 0; i < COUNT(orders); i++)
		order[i] = (struct form_choice){orders[i].value,
			words(request->language, orders[i].label)};
	choose_of(form, _("as found"), order, COUNT(order));
}

static void
add_load_fields(struct form *form, const struct web_request *request,
	const struct work_site *site)
{
	const struct form_choice tests[] = {{"bending", _("a bending test")},
		{"crushing", _("a crushing test")}};
	struct form_choice rig[FORM_CHOICES_MOST];
	size_t n_rig = 0;

	for (; n_rig < site->n_rig && n_rig < FORM_CHOICES_MOST - 1; n_rig++)
		rig[n_rig] = (struct form_choice){
			site->rig[n_rig].code, site->rig[n_rig].code};
	form_number(form, "zero", _("So long nothing pressed at the start"),
		"s ms min",
		_("The mean of that while is taken off as the zero."));
	form_choice(
		form, "test", _("Its highest load is the reading of"), NULL);
	choose_of(form, _("no test"), tests, COUNT(tests));
	if (site->n_rig > 0) {
		form_choice(form, "rig", _("On which rig"), NULL);
		choose_of(form, _("none of these"), rig, n_rig);
	}
	form_number(form, "span", _("Between the middles of the supports"),
		"mm in", NULL);
	form_number(form, "strap", _("Width of the strap"), "mm in", NULL);
	form_number(form, "hanger", _("What hung on beside what the cell felt"),
		"kg lb", NULL);
}

static void
add_blow_fields(struct form *form, const struct web_request *request)
{
	form_number(form, "mass", _("What fell weighs"), "kg lb", NULL);
	form_number(form, "speed", _("Speed of the bar as it hits"), "m/s ft/s",
		_("With both the energy is told."));
}

/* What was answered about reading it goes along unseen. */
static void
hide_reading_fields(struct form *form, const struct web_request *request)
{
	static const char *const names[] = {"column", "unit", "sag-column",
		"sag-unit", "time-column", "time-unit", "every", "every_unit",
		"date-order"};

	for (size_t i = 0; i < COUNT(names); i++)
		if (web_given(request, names[i]) != NULL)
			form_hidden(
				form, names[i], web_given(request, names[i]));
}

void
trace_whole_form(struct form *form, const struct web_request *request,
	const struct trace_asked *asked)
{
	start(form, request, _("Look again"));
	form->heading = asked->asks ? _("How to read it") : _("Keep it");
	if (asked->asks)
		add_reading_fields(form, request, asked->kind, asked->found);
	else
		hide_reading_fields(form, request);
	if (asked->kind == LAB_TRACE_LOAD)
		add_load_fields(form, request, asked->site);
	else if (asked->kind == LAB_TRACE_BLOW)
		add_blow_fields(form, request);
	if (asked->kind != LAB_TRACE_TEMPERATURE)
		form_date(form, "on", _("Tested on"), _("Empty: now."));
	form_text(form, "code", _("What to call it"),
		_("Empty: the piece, what it felt and a number."));
	add_file(form, request, asked->carried);
}

#define AT(member) offsetof(struct work_trace_ask, member)
static const struct field trace_fields[] = {
	{"piece", FIELD_TEXT, UNIT_NUMBER, AT(piece)},
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"column", FIELD_TEXT, UNIT_NUMBER, AT(how.value_column)},
	{"unit", FIELD_TEXT, UNIT_NUMBER, AT(how.value_unit)},
	{"time-column", FIELD_TEXT, UNIT_NUMBER, AT(how.time_column)},
	{"time-unit", FIELD_TEXT, UNIT_NUMBER, AT(how.time_unit)},
	{"sag-column", FIELD_TEXT, UNIT_NUMBER, AT(how.sag_column)},
	{"sag-unit", FIELD_TEXT, UNIT_NUMBER, AT(how.sag_unit)},
	{"zero", FIELD_MAYBE, UNIT_TIME, AT(zero_s)},
	{"mass", FIELD_MAYBE, UNIT_MASS, AT(mass_kg)},
	{"speed", FIELD_MAYBE, UNIT_SPEED, AT(speed_m_s)},
	{"test", FIELD_TEXT, UNIT_NUMBER, AT(test)},
	{"rig", FIELD_TEXT, UNIT_NUMBER, AT(rig)},
	{"on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
	{"strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
};
#undef AT

bool
trace_read(const struct web_request *request, struct work_trace_ask *ask,
	struct form *form)
{
	const char *every = form_typed_number(request, "every");
	const char *order = web_given(request, "date-order");
	struct err err = err_in(request->arena);
	bool good = form_read(
		request, trace_fields, COUNT(trace_fields), ask, form);

	ask->how.order = order == NULL ? LAB_DATE_UNKNOWN
		: is(order, "day")     ? LAB_DATE_DAY_FIRST
		: is(order, "month")   ? LAB_DATE_MONTH_FIRST
				       : LAB_DATE_UNKNOWN;
	if (every == NULL ||
		unit_read(every, UNIT_TIME, NULL, &ask->how.step_s, &err) ==
			ERR_NONE)
		return good;
	form_fault_at(form, "every", err.text);
	return false;
}

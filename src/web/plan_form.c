/* plan_form.c - the plan of pouring as an address asks it. */
#include "web/plan_form.h"

#include "core/date.h"
#include "web/page.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { DAY_S = 86400, LIST_MOST = 32, MONTHS = 12 };

#define AT(member) offsetof(struct work_plan_ask, member)
static const struct field fields[] = {
	{"from", FIELD_DATE, UNIT_NUMBER, AT(from)},
	{"until", FIELD_DATE, UNIT_NUMBER, AT(until)},
	{"forms", FIELD_WHOLE, UNIT_NUMBER, AT(forms)},
	{"per-day", FIELD_WHOLE, UNIT_NUMBER, AT(per_day)},
	{"crew", FIELD_WHOLE, UNIT_NUMBER, AT(crew)},
	{"hours", FIELD_MAYBE, UNIT_TIME, AT(hours_s)},
	{"cycle", FIELD_MAYBE, UNIT_TIME, AT(cycle_s)},
	{"setup", FIELD_MAYBE, UNIT_TIME, AT(setup_s)},
	{"gap", FIELD_MAYBE, UNIT_TIME, AT(gap_s)},
	{"strip", FIELD_MAYBE, UNIT_TIME, AT(strip_s)},
	{"rest", FIELD_MAYBE, UNIT_TIME, AT(rest_s)},
	{"lift", FIELD_MAYBE, UNIT_LENGTH, AT(lift_m)},
	{"stretch", FIELD_MAYBE, UNIT_LENGTH, AT(stretch_m)},
	{"cover", FIELD_MAYBE, UNIT_TIME, AT(cover_s)},
	{"witness", FIELD_WHOLE, UNIT_NUMBER, AT(witness)},
	{"waste", FIELD_MAYBE, UNIT_RATIO, AT(takeoff.waste_ratio)},
	{"batch", FIELD_MAYBE, UNIT_VOLUME, AT(takeoff.batch_m3)},
};
#undef AT

static const char *
today(const struct web_request *request)
{
	char text[DATE_TEXT_MAX];

	date_write_day(request->desk.now_utc_s / DAY_S * DAY_S, 0, text);
	return arena_text(request->arena, text);
}

static void
fill_days(struct form *form, const struct web_request *request)
{
	form_yes(form, "sat", _("No work on Saturdays"), NULL);
	form_yes(form, "sun", _("No work on Sundays"), NULL);
	form_text(form, "off", _("Other days without work"),
		_("Dates, with commas: 2027-05-17, 2027-05-18."));
	form_text(form, "cold", _("Days too cold to pour"),
		_("Dates, with commas."));
	form_text(form, "air", _("How warm the air is, mean of the day"),
		_("Such as 12 degC, or month by month: 3=9 degC, 4=12 degC; 15 "
		  "degC unless said. Under 5 degC nothing is poured."));
}

static void
fill_order(struct form *form, const struct web_request *request)
{
	form_text(form, "after", _("Which part waits for which"),
		_("Such as roof=wall-1: the roof waits for the wall."));
	form_number(form, "rest", _("And how long it waits"), "h d",
		_("72 h unless said."));
	form_text(form, "mix", _("Another mix than decided"),
		_("Such as roof=P, only to see the plan; nothing is decided "
		  "by it."));
	form_number(
		form, "waste", _("Waste, where a part has none"), "%", NULL);
	form_number(form, "batch", _("One batch, where a part has none"),
		"L m3 gal", NULL);
	form_number(form, "cover", _("What a delivery lasts for"), "d", NULL);
	form_number(form, "witness", _("A test piece from one batch in"), "",
		_("10 unless said."));
}

void
plan_fill(struct form *form, const struct web_request *request)
{
	form_start(form, request, "plan", "/plan", _("Plan again"));
	form->gets = true;
	form_date(form, "from", _("First day"),
		_("Such as 2027-05-10; what is poured already is left out."));
	form_value(form, today(request));
	form_date(form, "until", _("Last day there may be"), NULL);
	form_number(form, "forms", _("Sets of forms on hand"), "",
		_("One for a lift; 2 unless said."));
	form_number(form, "crew", _("People"), "", NULL);
	form_number(form, "hours", _("Hours of work in a day"), "h", NULL);
	form_number(form, "per-day", _("Batches in a day"), "", NULL);
	form_number(form, "cycle", _("From batch to batch"), "min", NULL);
	form_number(form, "setup", _("Work on the forms of a lift"), "h min",
		_("All hands; 4 h unless said."));
	form_number(form, "gap", _("Until the next lift on top"), "h d", NULL);
	form_number(form, "strip", _("Until the forms come off, at 20 degC"),
		"h d", NULL);
	form_number(form, "lift", _("A lift at most so high"), "mm in m", NULL);
	form_number(form, "stretch", _("A lift at most so long"), "m ft", NULL);
	fill_days(form, request);
	fill_order(form, request);
}

/* --- Read. --- */

static char *
trim(char *text)
{
	size_t n;

	text += strspn(text, " \t");
	n = strlen(text);
	while (n > 0 && (text[n - 1] == ' ' || text[n - 1] == '\t'))
		text[--n] = '\0';
	return text;
}

/* What stands between the commas of a value; false: too many, or no memory. */
static bool
split(const struct web_request *request, struct form *form, const char *name,
	char *part[LIST_MOST], size_t *n)
{
	const char *text = web_query(request, name);
	char *copy = text != NULL ? arena_text(request->arena, text) : NULL;

	*n = 0;
	for (char *next; copy != NULL; copy = next) {
		next = strchr(copy, ',');
		if (next != NULL)
			*next++ = '\0';
		copy = trim(copy);
		if (*copy == '\0')
			continue;
		if (*n == LIST_MOST) {
			form_fault_at(form, name,
				_("That is more than this page takes."));
			return false;
		}
		part[(*n)++] = copy;
	}
	return true;
}

/* "roof=wall-1" */
static bool
read_pairs(const struct web_request *request, struct form *form,
	const char *name, const struct work_pair **to, size_t *n)
{
	struct work_pair *pair = arena_take(
		request->arena, LIST_MOST, sizeof *pair);
	char *part[LIST_MOST];

	if (pair == NULL) {
		form->failed = true;
		return false;
	}
	if (!split(request, form, name, part, n))
		return false;
	for (size_t i = 0; i < *n; i++) {
		char *equals = strchr(part[i], '=');

		if (equals == NULL || equals == part[i]) {
			form_fault_at(form, name,
				_("Two codes with = between them are wanted "
				  "here."));
			return false;
		}
		*equals = '\0';
		pair[i] = (struct work_pair){trim(part[i]), trim(equals + 1)};
	}
	*to = pair;
	return true;
}

static bool
read_days(const struct web_request *request, struct form *form,
	const char *name, const char *const *also, size_t n_also,
	const char *const **to, size_t *n_to)
{
	const char **day = arena_take(
		request->arena, LIST_MOST + n_also, sizeof *day);
	char *part[LIST_MOST];
	size_t n;

	if (day == NULL) {
		form->failed = true;
		return false;
	}
	if (!split(request, form, name, part, &n))
		return false;
	for (size_t i = 0; i < n; i++)
		day[i] = part[i];
	for (size_t i = 0; i < n_also; i++)
		day[n + i] = also[i];
	*to = day;
	*n_to = n + n_also;
	return true;
}

static bool
read_off(const struct web_request *request, struct form *form,
	struct work_plan_ask *ask)
{
	const char *week[2];
	size_t n = 0;

	if (web_query(request, "sat") != NULL)
		week[n++] = "sat";
	if (web_query(request, "sun") != NULL)
		week[n++] = "sun";
	return read_days(request, form, "off", week, n, &ask->off, &ask->n_off);
}

/* "12 degC", or "3=9 degC": a month and its mean. */
static bool
read_air(const struct web_request *request, struct form *form,
	struct work_plan_ask *ask)
{
	const struct unit_rules rules = {.may_be_negative = true};
	const char **air = arena_take(request->arena, LIST_MOST, sizeof *air);
	double *degc = arena_take(request->arena, LIST_MOST, sizeof *degc);
	int *month = arena_take(request->arena, LIST_MOST, sizeof *month);
	char *part[LIST_MOST];
	size_t n;

	if (air == NULL || degc == NULL || month == NULL) {
		form->failed = true;
		return false;
	}
	if (!split(request, form, "air", part, &n))
		return false;
	for (size_t i = 0; i < n; i++) {
		char *equals = strchr(part[i], '=');
		struct err inner = err_in(request->arena);
		double at = 0;

		air[i] = arena_text(request->arena, part[i]);
		if (equals != NULL)
			*equals = '\0';
		if (equals != NULL &&
			(unit_read(part[i], UNIT_NUMBER, NULL, &at, &inner) !=
					ERR_NONE ||
				!(at >= 1 && at <= MONTHS))) {
			form_fault_at(form, "air",
				_("A month is a number from 1 to 12, such as "
				  "3=9 degC."));
			return false;
		}
		if (unit_read(equals != NULL ? equals + 1 : part[i],
			    UNIT_TEMPERATURE, &rules, &degc[i],
			    &inner) != ERR_NONE) {
			form_fault_at(form, "air", inner.text);
			return false;
		}
		month[i] = (int)at;
	}
	ask->air = air;
	ask->air_degc = degc;
	ask->air_month = month;
	ask->n_air = n;
	return true;
}

bool
plan_read(const struct web_request *request, struct form *form,
	struct work_plan_ask *ask)
{
	struct web_request as_form = *request;
	bool good;

	as_form.field = request->query; /* the same names and units */
	as_form.n_field = request->n_query;
	*ask = (struct work_plan_ask){.from = NULL};
	good = form_read(&as_form, fields, COUNT(fields), ask, form);
	good = read_off(request, form, ask) && good;
	good = read_days(request, form, "cold", NULL, 0, &ask->cold,
		       &ask->n_cold) &&
		good;
	good = read_air(request, form, ask) && good;
	good = read_pairs(request, form, "after", &ask->after, &ask->n_after) &&
		good;
	good = read_pairs(request, form, "mix", &ask->takeoff.mix,
		       &ask->takeoff.n_mix) &&
		good;
	if (ask->from == NULL)
		ask->from = today(request);
	return good;
}

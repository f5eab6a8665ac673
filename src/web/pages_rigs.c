/* pages_rigs.c - the rigs of the bench, what each was held against, and which
 * of them a reading was taken on. */
#include "web/page.h"
#include "web/rigs.h"

#include "web/plain.h"
#include "work/fields.h"
#include "work/rig.h"

#include <math.h>
#include <string.h>

enum { MILLI = 1000, CHOICES_SHORT = 5, COLUMNS_MOST = 12 };

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const double bar_pa = 1e5, degree_rad = 3.14159265358979323846 / 180;

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

/* --- Chosen for a reading. --- */

bool
rigs_choice(struct form *form, const struct work_site *site, const char *test)
{
	const struct web_request *request = form->request;
	size_t n = 0;

	for (size_t i = 0; i < site->n_rig; i++)
		n += is(site->rig[i].test, test);
	if (n == 0)
		return false;
	form_choice(form, "rig", _("On which rig"),
		_("It fills in what stays empty here, and what its checks "
		  "found goes with the reading."));
	if (n <= CHOICES_SHORT)
		form_choose(form, "", _("none of these"));
	form_value(form, "");
	n = 0;
	for (size_t i = 0; i < site->n_rig && n + 1 < FORM_CHOICES_MOST; i++) {
		if (!is(site->rig[i].test, test))
			continue;
		form_choose(form, site->rig[i].code, site->rig[i].code);
		n++;
	}
	return true;
}

/* --- All rigs. --- */

static const struct {
	const char *test, *words;
} tests[] = {{"bending", N_("bending")}, {"drop", N_("drop")},
	{"crushing", N_("crushing")}};

static const char *
test_words(const struct web_request *request, const char *test)
{
	for (size_t i = 0; i < COUNT(tests); i++)
		if (is(test, tests[i].test))
			return words(request->language, tests[i].words);
	return test;
}

static void
fill_new(struct form *form, const struct web_request *request)
{
	form_start(form, request, "new", "/rigs", _("Enter this rig"));
	form->heading = _("A rig");
	form_text(form, "code", _("Its name"), _("Short, such as R1."));
	form_needed(form);
	form_choice(form, "test", _("What it is for"),
		_("Its figures come on its own page, which opens next."));
	for (size_t i = 0; i < COUNT(tests); i++)
		form_choose(form, tests[i].test,
			words(request->language, tests[i].words));
	form_needed(form);
	form_text(form, "note", _("A note"), NULL);
}

static void
add_rigs(struct page *page, const struct work_rigs *rigs)
{
	static const struct grid_column column[] = {
		{"rig", N_("rig"), "", false}, {"test", N_("for"), "", false},
		{"check_is_due", N_("weekly check"), "", false},
		{"is_doubted", N_("to be doubted"), "", false},
		{"last_check_piece", N_("last check piece"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "rigs", _("The rigs"), column, COUNT(column));
	for (size_t i = 0; i < rigs->n; i++) {
		const struct work_rig_told *r = &rigs->rig[i];

		if (is(r->code, ""))
			continue;
		grid_link(&grid, r->code, web_at(request, "/rig/", r->code));
		grid_text(&grid, test_words(request, r->test));
		grid_text(&grid, r->is_due ? _("is due") : _("not yet"));
		grid_text(&grid, r->is_doubted ? _("yes") : _("no"));
		grid_text(&grid, is(r->last_on, "") ? NULL : r->last_on);
	}
	if (grid_rows(&grid) > 0)
		page_grid(page, &grid);
	else
		page_say(page, _("No rig is in the book yet."));
}

static enum err_code
show_rigs(const struct web_request *request, struct web_reply *reply,
	struct form *form, struct err *err)
{
	struct work_rigs rigs;
	struct page page;

	TRY(work_rigs(&request->desk, request->arena, &rigs, err));
	page_start(&page, request, _("The rigs of the bench"), PAGE_BENCH);
	page_say(&page,
		_("Most home figures are wrong by the rig, not by the mix. A "
		  "rig that was held against something known says by how "
		  "much, and readings taken on it follow."));
	for (size_t i = 0; i < rigs.n; i++)
		if (rigs.rig[i].is_doubted)
			page_alarm(&page,
				page_format(&page, "%s %s", rigs.rig[i].code,
					_("is to be doubted: something that it "
					  "was held against does not agree.")));
	add_rigs(&page, &rigs);
	if (rigs.n > 0 && is(rigs.rig[rigs.n - 1].code, "")) {
		const struct work_rig_told *rest = &rigs.rig[rigs.n - 1];

		page_heading(&page, _("Beside the rigs"));
		for (size_t i = 0; i < rest->n_sentence; i++)
			page_say(&page, rest->sentence[i]);
	}
	page_form(&page, form);
	page_link(&page, _("To the bench"), "/bench");
	return page_answer(&page, reply, err);
}

enum err_code
web_rigs(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;

	fill_new(&form, request);
	return show_rigs(request, reply, &form, err);
}

#define AT(member) offsetof(struct work_rig_ask, member)
static const struct field rig_fields[] = {
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"test", FIELD_TEXT, UNIT_NUMBER, AT(test)},
	{"loading", FIELD_TEXT, UNIT_NUMBER, AT(loading)},
	{"tip", FIELD_TEXT, UNIT_NUMBER, AT(tip)},
	{"note", FIELD_TEXT, UNIT_NUMBER, AT(note)},
	{"span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
	{"hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
	{"bar", FIELD_MAYBE, UNIT_MASS, AT(bar_kg)},
	{"from", FIELD_MAYBE, UNIT_LENGTH, AT(height_m)},
	{"tip-diameter", FIELD_MAYBE, UNIT_LENGTH, AT(tip_diameter_m)},
	{"tip-angle", FIELD_MAYBE, UNIT_ANGLE, AT(tip_angle_rad)},
	{"ram", FIELD_MAYBE, UNIT_LENGTH, AT(ram_m)},
	{"gauge-step", FIELD_MAYBE, UNIT_STRESS, AT(gauge_step_pa)},
	{"rule", FIELD_MAYBE, UNIT_LENGTH, AT(rule_step_m)},
	{"scale", FIELD_MAYBE, UNIT_MASS, AT(scale_step_kg)},
};
#undef AT

/* The rig as the form has it; code NULL: the form has a field for it. */
static bool
put_rig(const struct web_request *request, const char *code, struct form *form)
{
	struct work_rig_ask ask = {.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	bool made;

	if (!form_read(request, rig_fields, COUNT(rig_fields), &ask, form))
		return false;
	if (code != NULL)
		ask.code = code;
	if (code != NULL)
		ask.test = NULL;
	if (ask.code == NULL)
		form_fault_at(form, "code", _("This is needed."));
	else if (code == NULL && ask.test == NULL)
		form_fault_at(form, "test", _("This is needed."));
	else if (work_rig_put(&request->desk, request->arena, &ask, &made,
			 &inner) == ERR_NONE)
		return true;
	else
		form_fault(form, &inner);
	return false;
}

static enum err_code
go_to_rig(const struct web_request *request, struct web_reply *reply,
	const char *code, struct err *err)
{
	reply->see_other = text_format(
		request->arena, "%s?saved=1", web_at(request, "/rig/", code));
	return reply->see_other != NULL ? ERR_NONE : err_memory(err);
}

enum err_code
web_rigs_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form;

	fill_new(&form, request);
	if (!put_rig(request, NULL, &form))
		return show_rigs(request, reply, &form, err);
	return go_to_rig(request, reply, web_given(request, "code"), err);
}

/* --- One rig: its figures. --- */

/* What stands in the book, as it would be typed in the field's first unit. */
static void
known_number(struct form *form, struct maybe value, double unit)
{
	if (value.has)
		form_value(form,
			text_format(form->request->arena, "%.9g",
				value.value / unit));
}

static void
known_text(struct form *form, const char *text)
{
	if (!is(text, ""))
		form_value(form, text);
}

static void
fill_bending(struct form *form, const struct web_request *request,
	const struct book_rig *rig)
{
	form_number(form, "span", _("Between the middles of the supports"),
		"mm in", NULL);
	known_number(form, rig->span_m, 1.0 / MILLI);
	form_number(form, "strap", _("Width of the strap"), "mm in",
		_("0 mm for a bar."));
	known_number(form, rig->strap_m, 1.0 / MILLI);
	form_number(form, "hanger", _("Hanger and bucket"), "kg lb",
		_("They are part of every load."));
	known_number(form, rig->hanger_kg, 1);
	form_choice(form, "loading", _("Where it is loaded"), NULL);
	form_choose(form, "centre", _("in the middle"));
	form_choose(form, "third", _("at the third points"));
	known_text(form, rig->loading);
}

static void
fill_drop(struct form *form, const struct web_request *request,
	const struct book_rig *rig)
{
	form_number(form, "bar", _("What falls weighs"), "kg lb", NULL);
	known_number(form, rig->bar_kg, 1);
	form_number(form, "from", _("Height, tip to face"), "mm in m", NULL);
	known_number(form, rig->height_m, 1.0 / MILLI);
	form_choice(form, "tip", _("Its tip"), NULL);
	form_choose(form, "flat", _("flat"));
	form_choose(form, "ball", _("ball"));
	form_choose(form, "cone", _("cone"));
	known_text(form, rig->tip);
	form_number(
		form, "tip-diameter", _("Diameter of the tip"), "mm in", NULL);
	known_number(form, rig->tip_diameter_m, 1.0 / MILLI);
	form_number(form, "tip-angle", _("Angle of a cone, side to side"),
		"deg", NULL);
	known_number(form, rig->tip_angle_rad, degree_rad);
}

static void
fill_figures(struct form *form, const struct web_request *request,
	const struct book_rig *rig)
{
	form_start(form, request, "rig", web_at(request, "/rig/", rig->code),
		_("Record its figures"));
	form->heading = _("Its figures");
	if (is(rig->test, "bending"))
		fill_bending(form, request, rig);
	else if (is(rig->test, "drop"))
		fill_drop(form, request, rig);
	if (is(rig->test, "crushing")) {
		form_number(form, "ram", _("Bore of the ram"), "mm in", NULL);
		known_number(form, rig->ram_m, 1.0 / MILLI);
		form_number(form, "gauge-step", _("Gauge is read to"),
			"bar psi MPa", NULL);
		known_number(form, rig->gauge_step_pa, bar_pa);
	}
	form_number(form, "rule", _("Sizes are read to"), "mm in",
		_("Empty: 1 mm."));
	known_number(form, rig->rule_step_m, 1.0 / MILLI);
	form_number(form, "scale", _("Weights are read to"), "g kg oz",
		_("Empty: 10 g."));
	known_number(form, rig->scale_step_kg, 1.0 / MILLI);
	form_text(form, "note", _("A note"), NULL);
	known_text(form, rig->note);
}

/* --- One rig: its checks. --- */

enum { LOAD, SPEED, LATH, WEIGHT, CHECKS };

static const struct {
	const char *id, *what, *words, *heading, *button;
} checks[CHECKS] = {
	[LOAD] = {"load", "dead load", N_("dead load"),
		N_("A known load on the jack"), N_("Record this load")},
	[SPEED] = {"speed", "exit speed", N_("exit speed"),
		N_("The speed at the end of the guide"),
		N_("Record this speed")},
	[LATH] = {"lath", "check piece", N_("check piece"),
		N_("The weekly check piece"), N_("Record this check piece")},
	[WEIGHT] = {"weight", "weight", N_("weight"),
		N_("A weight of the set, weighed"), N_("Record this weight")},
};

static bool
goes_with(const struct book_rig *rig, int check)
{
	if (check == LOAD)
		return is(rig->test, "crushing");
	return check != SPEED || is(rig->test, "drop");
}

struct rig_forms {
	struct form figures, check[CHECKS];
};

/* Of a new check. */
static const struct book_rig_check nothing = {
	.code = "", .what = "", .read_on = "", .piece = "", .remark = ""};

static void
fill_load(struct form *form, const struct book_rig_check *old)
{
	const struct web_request *request = form->request;

	form_number(form, "dead-load", _("The known load"), "kg lb",
		_("People on a plank, weighed one by one, will do."));
	known_number(form, old->known_kg, 1);
	form_needed(form);
	form_number(form, "gauge", _("What the gauge showed under it"),
		"bar psi MPa", NULL);
	known_number(form, old->gauge_pa, bar_pa);
	form_needed(form);
	form_number(form, "gauge-zero", _("Gauge without a load"),
		"bar psi MPa", NULL);
	known_number(form, old->zero_pa, bar_pa);
}

static void
fill_speed(struct form *form, const struct book_rig_check *old)
{
	const struct web_request *request = form->request;

	form_number(form, "exit-speed", _("Speed of the bar there"), "m/s ft/s",
		_("Filmed beside a rule."));
	known_number(form, old->speed_m_s, 1);
	form_needed(form);
	form_number(form, "from", _("How far it fell through the guide"),
		"mm in m", NULL);
	known_number(form, old->height_m, 1.0 / MILLI);
	form_needed(form);
}

static void
fill_lath(struct form *form, const struct book_rig *rig,
	const struct book_rig_check *old)
{
	const struct web_request *request = form->request;

	form_text(form, "check-piece", _("What it is"),
		_("A timber lath, a known brick: the same kind every week."));
	known_text(form, old->piece);
	if (is(rig->test, "bending")) {
		form_number(form, "broke", _("What broke it, hanger and all"),
			"kg lb", NULL);
		known_number(form, old->found_kg, 1);
	} else if (is(rig->test, "drop")) {
		form_number(form, "dent", _("Depth of the dent in it"), "mm in",
			NULL);
		known_number(form, old->dent_m, 1.0 / MILLI);
	} else {
		form_number(form, "gauge", _("Gauge when it gave way"),
			"bar psi MPa", NULL);
		known_number(form, old->gauge_pa, bar_pa);
	}
	form_needed(form);
}

static void
fill_weight(struct form *form, const struct book_rig_check *old)
{
	const struct web_request *request = form->request;

	form_number(form, "weight", _("What is marked on it"), "kg g lb", NULL);
	known_number(form, old->known_kg, 1);
	form_needed(form);
	form_number(form, "weighs", _("What it weighs"), "kg g lb", NULL);
	known_number(form, old->found_kg, 1);
	form_needed(form);
}

static void
fill_check(struct form *form, const struct web_request *request,
	const struct book_rig *rig, int which, const struct book_rig_check *old)
{
	form_start(form, request, checks[which].id,
		web_at(request, "/rig/", rig->code),
		words(request->language, checks[which].button));
	form->heading = words(request->language, checks[which].heading);
	if (which == LOAD)
		fill_load(form, old);
	else if (which == SPEED)
		fill_speed(form, old);
	else if (which == LATH)
		fill_lath(form, rig, old);
	else
		fill_weight(form, old);
	form_date(form, "on", _("Day"), _("Empty: today."));
	known_text(form, old->read_on);
	form_text(form, "remark", _("Remark"), NULL);
	known_text(form, old->remark);
	form_text(form, "code", _("Its name in the book"),
		_("Empty: what it is and the day. The same name again "
		  "corrects that one."));
	known_text(form, old->code);
}

/* The check that ?check= names, to be corrected. */
static const struct book_rig_check *
asked_check(const struct web_request *request, const struct work_site *site,
	const struct book_rig *rig)
{
	const char *code = web_query(request, "check");

	for (size_t i = 0; code != NULL && i < site->n_rig_check; i++)
		if (site->rig_check[i].rig_id == rig->row.id &&
			is(site->rig_check[i].code, code))
			return &site->rig_check[i];
	return &nothing;
}

static void
fill_rig(struct rig_forms *forms, const struct web_request *request,
	const struct work_site *site, const struct book_rig *rig)
{
	const struct book_rig_check *old = asked_check(request, site, rig);

	fill_figures(&forms->figures, request, rig);
	for (int i = 0; i < CHECKS; i++)
		if (goes_with(rig, i))
			fill_check(&forms->check[i], request, rig, i,
				is(old->what, checks[i].what) ? old : &nothing);
}

/* --- One rig: shown. --- */

/* Which figure of a check stands in a column. */
static const struct check_column {
	struct grid_column column;
	size_t offset; /* in struct book_rig_check, of a struct maybe */
	double unit;
	const char *test; /* of one test alone; NULL: of all */
} check_columns[] = {
#define AT(member) offsetof(struct book_rig_check, member)
	{{"known", N_("known, or marked"), "kg", true}, AT(known_kg), 1, NULL},
	{{"found", N_("weighs, or broke it"), "kg", true}, AT(found_kg), 1,
		NULL},
	{{"gauge", N_("gauge"), "bar", true}, AT(gauge_pa), 1e5, "crushing"},
	{{"gauge_zero", N_("gauge without a load"), "bar", true}, AT(zero_pa),
		1e5, "crushing"},
	{{"fell", N_("fell"), "mm", true}, AT(height_m), 1.0 / MILLI, "drop"},
	{{"speed", N_("speed"), "m/s", true}, AT(speed_m_s), 1, "drop"},
	{{"dent", N_("dent"), "mm", true}, AT(dent_m), 1.0 / MILLI, "drop"},
#undef AT
};

static bool
has_column(const struct check_column *c, const struct book_rig *rig)
{
	return c->test == NULL || is(c->test, rig->test);
}

static const char *
check_words(const struct web_request *request, const char *what)
{
	for (int i = 0; i < CHECKS; i++)
		if (is(what, checks[i].what))
			return words(request->language, checks[i].words);
	return what;
}

/* Where the form to correct it is. */
static const char *
correct_address(struct page *page, const struct book_rig *rig,
	const struct book_rig_check *check)
{
	const struct web_request *request = page->request;
	const char *id = "";

	for (int i = 0; i < CHECKS; i++)
		if (is(check->what, checks[i].what))
			id = checks[i].id;
	return page_format(page, "%s%s#%s", web_at(request, "/rig/", rig->code),
		web_at(request, "?check=", check->code), id);
}

static void
add_check(struct page *page, struct grid *grid, const struct work_site *site,
	const struct book_rig *rig, const struct book_rig_check *check)
{
	const struct web_request *request = page->request;

	grid_link(grid, check->code, correct_address(page, rig, check));
	for (size_t i = 0; i < COUNT(check_columns); i++) {
		struct maybe value;

		if (!has_column(&check_columns[i], rig))
			continue;
		memcpy(&value, (const char *)check + check_columns[i].offset,
			sizeof value);
		grid_number(grid,
			value.has ? value.value / check_columns[i].unit
				  : (double)NAN,
			page_format(page, "%.4g",
				value.value / check_columns[i].unit));
	}
	grid_text(grid, check_words(request, check->what));
	grid_text(grid, is(check->piece, "") ? NULL : check->piece);
	grid_text(grid, check->read_on);
	grid_text(grid, check->remark);
	if (request->twin != WEB_PAGE)
		grid_text(grid,
			plain_words(request, NULL,
				work_rig_say_check(
					request->arena, site, check)));
}

/* On the page what a check says stands above; a twin has it in each row. */
static void
add_checks(struct page *page, const struct work_site *site,
	const struct book_rig *rig)
{
	static const struct grid_column name = {"name", N_("check"), "", false};
	static const struct grid_column rest[] = {
		{"check", N_("what was done"), "", false},
		{"piece", N_("what it is"), "", false},
		{"day", N_("day"), "", false},
		{"remark", N_("remark"), "", false},
		{"says", N_("what it says"), "", false}};
	const struct web_request *request = page->request;
	struct grid_column column[COLUMNS_MOST];
	struct grid grid;
	size_t n = 0;

	column[n++] = name;
	for (size_t i = 0; i < COUNT(check_columns); i++)
		if (has_column(&check_columns[i], rig))
			column[n++] = check_columns[i].column;
	for (size_t i = 0; i < COUNT(rest); i++)
		if (i + 1 < COUNT(rest) || request->twin != WEB_PAGE)
			column[n++] = rest[i];
	page_table(page, &grid, "checks", _("What it was held against"), column,
		n);
	for (size_t i = 0; i < site->n_rig_check; i++)
		if (site->rig_check[i].rig_id == rig->row.id)
			add_check(page, &grid, site, rig, &site->rig_check[i]);
	if (grid_rows(&grid) == 0)
		return;
	page_grid(page, &grid);
	page_say(page,
		_("The name of a check opens its form with what it holds, to "
		  "be corrected."));
}

static const char *
caution_of(const struct web_request *request, const struct book_rig *rig)
{
	if (is(rig->test, "bending"))
		return _("Weights fall when a beam breaks: goggles, boots, "
			 "nobody's toes under the load, and a block under the "
			 "beam to catch it.");
	return is(rig->test, "drop")
		? _("Goggles; hands off the guide when it falls.")
		: _("Nobody under a load; stand clear of a jack.");
}

/* What is found is said in the labels of the form of its figures. */
static void
say_told(struct page *page, const struct work_rig_told *told,
	const struct form *form)
{
	if (told->is_doubted)
		page_alarm(page,
			page_format(page, "%s %s", told->code,
				words(page->request->language,
					"is to be doubted: something that it "
					"was held against does not agree.")));
	for (size_t i = 0; i < told->n_sentence; i++)
		page_say(page,
			plain_words(page->request, form, told->sentence[i]));
}

/* Its figures come first until it was held against something. */
static void
add_forms(struct page *page, const struct work_site *site,
	const struct book_rig *rig, const struct rig_forms *forms)
{
	const struct web_request *request = page->request;
	bool is_new = true;

	for (size_t i = 0; i < site->n_rig_check; i++)
		is_new = is_new && site->rig_check[i].rig_id != rig->row.id;
	if (is_new)
		page_form(page, &forms->figures);
	for (int i = 0; i < CHECKS; i++)
		if (goes_with(rig, i))
			page_form(page, &forms->check[i]);
	if (!is_new)
		page_form(page, &forms->figures);
	page_say(page,
		_("A figure left empty stays as it is in the book; the record "
		  "takes an entry back."));
}

static enum err_code
show_rig(const struct web_request *request, struct web_reply *reply,
	struct rig_forms *forms, struct err *err)
{
	const struct book_rig *rig;
	struct work_rigs rigs;
	struct page page;
	size_t at;

	TRY(work_rigs(&request->desk, request->arena, &rigs, err));
	TRY(work_find_rig(&rigs.bench, request->tail, &at, err));
	rig = &rigs.bench.site.rig[at];
	if (forms->figures.request == NULL)
		fill_rig(forms, request, &rigs.bench.site, rig);
	page_start(&page, request,
		text_format(request->arena, "%s %s, %s", _("Rig"), rig->code,
			test_words(request, rig->test)),
		PAGE_BENCH);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	page_caution(&page, caution_of(request, rig));
	say_told(&page, &rigs.rig[at], &forms->figures);
	add_checks(&page, &rigs.bench.site, rig);
	add_forms(&page, &rigs.bench.site, rig, forms);
	page_link(&page, _("The rigs of the bench"), "/rigs");
	page_link(&page, _("To the bench"), "/bench");
	return page_answer(&page, reply, err);
}

enum err_code
web_rig(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct rig_forms *forms = arena_take(request->arena, 1, sizeof *forms);

	return forms != NULL ? show_rig(request, reply, forms, err)
			     : err_memory(err);
}

/* --- One rig: recorded. --- */

#define AT(member) offsetof(struct work_rig_check_ask, member)
static const struct field check_fields[] = {
	{"on", FIELD_DATE, UNIT_NUMBER, AT(on)},
	{"code", FIELD_TEXT, UNIT_NUMBER, AT(code)},
	{"remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
	{"check-piece", FIELD_TEXT, UNIT_NUMBER, AT(piece)},
	{"dead-load", FIELD_MAYBE, UNIT_MASS, AT(known_kg)},
	{"weight", FIELD_MAYBE, UNIT_MASS, AT(known_kg)},
	{"weighs", FIELD_MAYBE, UNIT_MASS, AT(found_kg)},
	{"gauge", FIELD_MAYBE, UNIT_STRESS, AT(gauge_pa)},
	{"gauge-zero", FIELD_MAYBE, UNIT_STRESS, AT(zero_pa)},
	{"exit-speed", FIELD_MAYBE, UNIT_SPEED, AT(speed_m_s)},
	{"from", FIELD_MAYBE, UNIT_LENGTH, AT(height_m)},
	{"broke", FIELD_MAYBE, UNIT_MASS, AT(found_kg)},
	{"dent", FIELD_MAYBE, UNIT_LENGTH, AT(dent_m)},
};
#undef AT

/* Every field that is marked as needed and stayed empty says so. */
static bool
has_needed(const struct web_request *request, struct form *form)
{
	bool has = true;

	for (size_t i = 0; i < form->n_field; i++) {
		if (!form->field[i]->needed ||
			web_given(request, form->field[i]->name) != NULL)
			continue;
		form_fault_at(form, form->field[i]->name, _("This is needed."));
		has = false;
	}
	return has;
}

static bool
put_check(const struct web_request *request, const struct book_rig *rig,
	int which, struct form *form)
{
	struct work_rig_check_ask ask = {.rig = rig->code,
		.what = checks[which].what,
		.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	const char *sentence;
	bool read = form_read(
		request, check_fields, COUNT(check_fields), &ask, form);

	if (!has_needed(request, form) || !read)
		return false;
	if (work_rig_check_put(&request->desk, request->arena, &ask, &sentence,
		    &inner) == ERR_NONE)
		return true;
	form_fault(form, &inner);
	return false;
}

enum err_code
web_rig_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct rig_forms *forms = arena_take(request->arena, 1, sizeof *forms);
	const char *id = web_given(request, "form");
	const struct book_rig *rig;
	struct work_bench bench;
	int which = 0;
	bool done = false;
	size_t at;

	if (forms == NULL)
		return err_memory(err);
	TRY(work_bench_read(&request->desk, request->arena, &bench, err));
	TRY(work_find_rig(&bench, request->tail, &at, err));
	rig = &bench.site.rig[at];
	fill_rig(forms, request, &bench.site, rig);
	while (which < CHECKS &&
		(id == NULL || !is(id, checks[which].id) ||
			!goes_with(rig, which)))
		which++;
	if (which < CHECKS)
		done = put_check(request, rig, which, &forms->check[which]);
	else if (id != NULL && is(id, "rig"))
		done = put_rig(request, rig->code, &forms->figures);
	else
		form_fault_at(&forms->figures, "",
			_("This rig has no such check. Nothing was "
			  "recorded."));
	return done ? go_to_rig(request, reply, rig->code, err)
		    : show_rig(request, reply, forms, err);
}

/* pages_prepare.c - before a test: what to expect and what to lay out, for a
 * piece, a mix or the mixes of a trial. */
#include "web/page.h"

#include "work/fields.h"
#include "work/prepare.h"

#include <math.h>
#include <string.h>

enum { MILLI = 1000, MEGA = 1000000 };

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

/* One page: what is prepared for, and what was said of it. */
struct preparing {
	const struct web_request *request; /* its query as given fields */
	struct work_prepare_about about;
	const struct book_rig *rig; /* NULL: none */
	bool is_drop, is_asked;
	struct form form;
	struct work_prepare_ask ask;
	const struct work_prepared **plan; /* about.n_mix; NULL: it failed */
	size_t n_plan;
};

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

/* --- What was said. --- */

static bool
names(const struct web_request *request, const char *name)
{
	for (size_t i = 0; i < request->n_query; i++)
		if (is(request->query[i].name, name))
			return true;
	return false;
}

static const struct book_rig *
find_rig(const struct work_site *s, const char *code)
{
	for (size_t i = 0; i < s->n_rig; i++)
		if (is(s->rig[i].code, code))
			return &s->rig[i];
	return NULL;
}

static const char *
shape_of(const struct work_prepare_about *about)
{
	const struct work_site *s = &about->bench.site;

	for (size_t i = 0; about->piece != NULL && i < s->n_specimen; i++)
		if (is(s->specimen[i].code, about->piece))
			return s->specimen[i].form;
	return "";
}

/* The rig that was chosen; before anything was, the only one there is. */
static void
take_rig(struct preparing *p)
{
	const char *test = web_given(p->request, "test");
	const char *code = web_given(p->request, "rig");

	if (code == NULL && !names(p->request, "rig"))
		code = p->about.rig;
	p->ask.rig = code;
	p->rig = code != NULL ? find_rig(&p->about.bench.site, code) : NULL;
	p->is_drop = p->rig != NULL ? is(p->rig->test, "drop")
		: test != NULL      ? is(test, "drop")
				    : is(shape_of(&p->about), "panel");
	p->ask.drop = p->is_drop;
}

static void
add_rig_choice(struct preparing *p)
{
	const struct web_request *request = p->request;
	const struct work_site *s = &p->about.bench.site;
	struct form *form = &p->form;
	size_t n = 0;

	form_choice(form, "rig", _("On which rig"), NULL);
	form_choose(form, "", _("none of these"));
	for (size_t i = 0; i < s->n_rig && n + 2 < FORM_CHOICES_MOST; i++) {
		if (is(s->rig[i].test, "crushing"))
			continue;
		form_choose(form, s->rig[i].code,
			text_format(request->arena, "%s, %s", s->rig[i].code,
				is(s->rig[i].test, "drop") ? _("drop")
							   : _("bending")));
		n++;
	}
	form_value(form, p->rig != NULL ? p->rig->code : "");
}

static void
add_form_choice(struct preparing *p)
{
	const struct web_request *request = p->request;
	const struct work_bench *b = &p->about.bench;

	form_choice(&p->form, "form", _("In which form"),
		_("What the pieces are cast in."));
	for (size_t i = 0; i < b->n_form && i < FORM_CHOICES_MOST; i++)
		form_choose(&p->form, b->form[i].code,
			text_format(request->arena, "%s, %s", b->form[i].code,
				b->form[i].shape));
	form_needed(&p->form);
}

static void
add_bending_fields(struct preparing *p)
{
	const struct web_request *request = p->request;
	struct form *form = &p->form;

	form_number(form, "span", _("Between the middles of the supports"),
		"mm in", NULL);
	form_number(form, "hanger", _("Hanger and bucket"), "kg lb", NULL);
	form_number(form, "strap", _("Width of the strap"), "mm in", NULL);
	form_choice(form, "loading", _("Where it is loaded"), NULL);
	form_choose(form, "centre", _("in the middle"));
	form_choose(form, "third", _("at the third points"));
}

static void
add_drop_fields(struct preparing *p)
{
	const struct web_request *request = p->request;
	struct form *form = &p->form;

	form_number(form, "bar", _("What falls weighs"), "kg lb", NULL);
	form_choice(form, "tip", _("Its tip"), NULL);
	form_choose(form, "flat", _("flat"));
	form_choose(form, "ball", _("ball"));
	form_choose(form, "cone", _("cone"));
	form_number(
		form, "tip-diameter", _("Diameter of the tip"), "mm in", NULL);
	form_number(form, "tip-angle", _("Angle of a cone, side to side"),
		"deg", NULL);
}

/* Is there no rig, or one whose record does not hold what a plan takes? */
static bool
lacks(const struct preparing *p)
{
	const struct book_rig *rig = p->rig;

	if (rig == NULL)
		return true;
	return p->is_drop ? !rig->bar_kg.has || !rig->tip_diameter_m.has ||
			is(rig->tip, "")
			  : !rig->span_m.has || !rig->hanger_kg.has;
}

static void
fill_form(struct preparing *p)
{
	const struct web_request *request = p->request;
	const char *units = p->is_drop ? "J/cm3" : "N/mm2 psi MPa";
	struct form *form = &p->form;

	form_start(form, request, "prepare",
		web_at(request, "/prepare/", p->about.code), _("Work it out"));
	form->gets = true;
	form->heading = _("On what, and what is expected");
	add_rig_choice(p);
	if (p->rig == NULL) {
		form_choice(form, "test", _("Which test"), NULL);
		form_choose(form, "bending", _("bending"));
		form_choose(form, "drop", _("drop"));
		form_value(form, p->is_drop ? "drop" : "bending");
	}
	if (p->about.piece == NULL)
		add_form_choice(p);
	form_number(form, "low",
		p->is_drop ? _("Energy to crush foreseen, at least")
			   : _("Strength foreseen, at least"),
		units,
		_("Empty: from results of this book, or from published "
		  "relations."));
	form_number(form, "high", _("At most"), units, NULL);
	if (p->is_drop)
		form_number(form, "readable", _("The least dent you can read"),
			"mm in", _("Empty: 3 mm."));
	else
		form_number(form, "interval",
			_("Between held and broke, of the load"), "%",
			_("Empty: 10 %."));
	if (lacks(p) && p->is_drop)
		add_drop_fields(p);
	else if (lacks(p))
		add_bending_fields(p);
}

#define AT(member) offsetof(struct work_prepare_ask, member)
static const struct field common_fields[] = {
	{"form", FIELD_TEXT, UNIT_NUMBER, AT(form)},
	{"loading", FIELD_TEXT, UNIT_NUMBER, AT(loading)},
	{"tip", FIELD_TEXT, UNIT_NUMBER, AT(tip)},
	{"span", FIELD_MAYBE, UNIT_LENGTH, AT(span_m)},
	{"strap", FIELD_MAYBE, UNIT_LENGTH, AT(strap_m)},
	{"hanger", FIELD_MAYBE, UNIT_MASS, AT(hanger_kg)},
	{"bar", FIELD_MAYBE, UNIT_MASS, AT(bar_kg)},
	{"tip-diameter", FIELD_MAYBE, UNIT_LENGTH, AT(tip_diameter_m)},
	{"tip-angle", FIELD_MAYBE, UNIT_ANGLE, AT(tip_angle_rad)},
	{"readable", FIELD_MAYBE, UNIT_LENGTH, AT(readable_m)},
	{"interval", FIELD_MAYBE, UNIT_RATIO, AT(width_ratio)},
};
static const struct field strength_fields[] = {
	{"low", FIELD_MAYBE, UNIT_STRESS, AT(low_pa)},
	{"high", FIELD_MAYBE, UNIT_STRESS, AT(high_pa)},
};
static const struct field energy_fields[] = {
	{"low", FIELD_MAYBE, UNIT_ENERGY_PER_VOLUME, AT(low_pa)},
	{"high", FIELD_MAYBE, UNIT_ENERGY_PER_VOLUME, AT(high_pa)},
};
#undef AT

/* Has anybody said what a plan starts from? */
static bool
is_asked(const struct preparing *p)
{
	for (size_t i = 0; i < p->form.n_field; i++)
		if (web_given(p->request, p->form.field[i]->name) != NULL)
			return true;
	return p->ask.rig != NULL;
}

static bool
read_ask(struct preparing *p)
{
	const struct web_request *request = p->request;
	bool good = form_read(request, common_fields, COUNT(common_fields),
		&p->ask, &p->form);

	good &= form_read(request, p->is_drop ? energy_fields : strength_fields,
		COUNT(strength_fields), &p->ask, &p->form);
	if (good && p->ask.low_pa.has != p->ask.high_pa.has) {
		form_fault_at(&p->form, p->ask.low_pa.has ? "high" : "low",
			_("What is foreseen needs both ends."));
		return false;
	}
	return good;
}

/* --- Worked out. --- */

/* What a plan calls its figures, as fields of the form. */
static void
refuse(struct form *form, const struct err *err)
{
	static const struct {
		const char *said, *field;
	} same[] = {{"--foreseen", "low"}, {"strength", "low"},
		{"energy", "low"}, {"width_ratio", "interval"}};

	for (size_t i = 0; i < COUNT(same); i++) {
		if (!is(err->field, same[i].said))
			continue;
		form_fault_at(form, same[i].field, err->text);
		return;
	}
	form_fault(form, err);
}

/* Of a trial a mix that cannot be planned is said; alone it is a fault. */
static enum err_code
work_out(struct preparing *p, struct page *page, struct err *err)
{
	const struct work_prepare_about *about = &p->about;
	struct err first = err_in(p->request->arena);

	for (size_t i = 0; i < about->n_mix; i++) {
		struct work_prepared *plan = arena_take(
			p->request->arena, 1, sizeof *plan);
		struct err inner = err_in(p->request->arena);
		enum err_code code;

		if (plan == NULL)
			return err_memory(err);
		p->ask.mix = about->mix[i];
		p->ask.piece = about->piece;
		code = work_prepare(&p->request->desk, p->request->arena,
			&p->ask, plan, &inner);
		if (code == ERR_NONE) {
			p->plan[i] = plan;
			p->n_plan++;
		} else if (code != ERR_INPUT && code != ERR_NOT_FOUND) {
			return err_report(
				err, code, inner.field, "%s", inner.text);
		} else if (first.code == ERR_NONE) {
			first = inner;
		}
	}
	if (p->n_plan == 0 && first.code != ERR_NONE)
		refuse(&p->form, &first);
	else if (first.code != ERR_NONE)
		page_say(page, arena_text(p->request->arena, first.text));
	return ERR_NONE;
}

/* --- What to lay out. --- */

static void
lay(struct grid *grid, const char *what, const char *how_much, const char *note)
{
	grid_text(grid, what);
	grid_text(grid, how_much);
	grid_text(grid, note);
}

static const char *
kilograms(struct page *page, double kg)
{
	return page_format(
		page, "%s kg", unit_digits(page->request->arena, kg, 3));
}

static void
lay_weights(
	struct page *page, struct grid *grid, const struct work_prepared *plan)
{
	const struct web_request *request = page->request;
	const struct lab_planned_weights *w = &plan->weights;

	if (plan->is_wide) {
		lay(grid, _("Weights of many sizes"),
			page_format(
				page, "%g kg %s", w->small.kg, _("and larger")),
			_("each time at most a tenth of what hangs there"));
		return;
	}
	if (w->n_large > 0)
		lay(grid, _("Large weights"),
			page_format(
				page, "%u x %g kg", w->n_large, w->large.kg),
			_("one by one, at first"));
	lay(grid, _("Small weights"),
		page_format(page, "%s %u x %g kg", _("up to"), w->n_small,
			w->small.kg),
		page_format(page, "%s %s", _("from this load on:"),
			kilograms(page, plan->bending.small_from.kg)));
}

static void
lay_bending(
	struct page *page, struct grid *grid, const struct work_prepared *plan)
{
	const struct web_request *request = page->request;

	if (plan->hanger_kg.has)
		lay(grid, _("Hanger and bucket"),
			kilograms(page, plan->hanger_kg.value),
			_("weighed: they are part of every load"));
	lay_weights(page, grid, plan);
	lay(grid, _("Catch block"), "30-50 mm",
		_("that far below the beam, to catch it"));
	lay(grid, _("Rule or calliper"), "", _("width and depth at the break"));
}

static void
lay_drop(struct page *page, struct grid *grid, const struct work_prepared *plan)
{
	const struct web_request *request = page->request;
	const struct interval *h = &plan->drop.height_m;

	if (plan->bar_kg.has)
		lay(grid, _("The bar"), kilograms(page, plan->bar_kg.value),
			_("weighed; its tip measured"));
	lay(grid, _("Height, tip to face"),
		plan->drop.suits
			? page_format(page, "%.0f-%.0f mm", h->low * MILLI,
				  h->high * MILLI)
			: page_format(page, "%.0f mm", h->high * MILLI),
		plan->drop.suits ? _("all mixes from one height")
				 : _("on a spare piece first, then higher"));
	lay(grid, _("Depth gauge"), "",
		_("the dent from the face, not from "
		  "the rim"));
}

static void
add_layout(struct page *page, const struct preparing *p,
	const struct work_prepared *plan)
{
	static const struct grid_column column[] = {
		{"what", N_("what"), "", false},
		{"how_much", N_("how much"), "", false},
		{"note", N_("note"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "layout", _("What to lay out"), column,
		COUNT(column));
	lay(&grid,
		p->about.piece != NULL ? p->about.piece : _("The test pieces"),
		plan->piece_kg.has ? kilograms(page, plan->piece_kg.value) : "",
		plan->piece_kg.has ? _("each, fresh; drier ones weigh less")
				   : "");
	if (plan->is_drop)
		lay_drop(page, &grid, plan);
	else
		lay_bending(page, &grid, plan);
	lay(&grid, _("Goggles and boots"), "", "");
	page_ticks(page, &grid);
}

/* --- The figures. --- */

/* The same said of another mix of the trial. */
static const char *
address_of(const struct preparing *p, const char *mix)
{
	const struct web_request *request = p->request;
	struct text text;
	char join = '?';

	text_init(&text, request->arena);
	text_add(&text, web_at(request, "/prepare/", mix));
	for (size_t i = 0; i < p->form.n_field; i++) {
		const char *name = p->form.field[i]->name;
		const char *unit = text_format(request->arena, "%s_unit", name);
		const char *both[] = {name, unit};

		for (size_t k = 0; k < COUNT(both); k++) {
			const char *value = both[k] != NULL
				? web_given(request, both[k])
				: NULL;

			if (value == NULL)
				continue;
			text_add_char(&text, join);
			text_add(&text, both[k]);
			text_add(&text, web_at(request, "=", value));
			join = '&';
		}
	}
	return text_failed(&text) ? NULL : text.bytes;
}

static void
add_number(struct page *page, struct grid *grid, double value)
{
	const char *text = isfinite(value)
		? unit_digits(page->request->arena, value, 3)
		: NULL;

	grid_number(grid, value, text);
}

static void
add_mix(struct page *page, struct grid *grid, const struct preparing *p,
	size_t i)
{
	const struct work_prepared *plan = p->plan[i];

	if (p->about.n_mix > 1)
		grid_link(
			grid, p->about.mix[i], address_of(p, p->about.mix[i]));
	else
		grid_text(grid, p->about.mix[i]);
	if (plan->is_drop) {
		add_number(page, grid, plan->drop.height_m.low * MILLI);
		add_number(page, grid, plan->drop.height_m.high * MILLI);
	} else {
		add_number(page, grid, plan->bending.least.kg);
		add_number(page, grid, plan->bending.most.kg);
		add_number(page, grid, plan->bending.small_from.kg);
		add_number(page, grid, plan->bending.step.kg);
		add_number(page, grid, plan->bending.falls.kg);
	}
	add_number(page, grid,
		plan->piece_kg.has ? plan->piece_kg.value : (double)NAN);
	add_number(page, grid, plan->foreseen_pa.low / MEGA);
	add_number(page, grid, plan->foreseen_pa.high / MEGA);
}

static void
add_figures(struct page *page, const struct preparing *p)
{
	static const struct grid_column bending[] = {
		{"mix", N_("mix"), "", false},
		{"hang_least", N_("breaks from"), "kg", true},
		{"hang_most", N_("breaks up to"), "kg", true},
		{"small_from", N_("small steps from"), "kg", true},
		{"step", N_("step at most"), "kg", true},
		{"falls", N_("falls at most"), "kg", true},
		{"piece", N_("a piece weighs"), "kg", true},
		{"foreseen_low", N_("foreseen from"), "N/mm2", true},
		{"foreseen_high", N_("foreseen to"), "N/mm2", true}};
	static const struct grid_column drop[] = {{"mix", N_("mix"), "", false},
		{"height_least", N_("from at least"), "mm", true},
		{"height_most", N_("from at most"), "mm", true},
		{"piece", N_("a piece weighs"), "kg", true},
		{"foreseen_low", N_("foreseen from"), "J/cm3", true},
		{"foreseen_high", N_("foreseen to"), "J/cm3", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "plan",
		p->about.n_mix > 1 ? _("By mix: what hangs beside the hanger")
				   : _("The plan in figures"),
		p->is_drop ? drop : bending,
		p->is_drop ? COUNT(drop) : COUNT(bending));
	for (size_t i = 0; i < p->about.n_mix; i++)
		if (p->plan[i] != NULL)
			add_mix(page, &grid, p, i);
	if (p->about.n_mix > 1)
		page_grid(page, &grid);
	else
		page_grid_folded(page, &grid);
}

/* --- The page. --- */

static void
add_plan(struct page *page, const struct preparing *p)
{
	const struct web_request *request = page->request;
	const struct work_prepared *plan = p->plan[0];

	if (p->about.n_mix == 1 && plan != NULL) {
		for (size_t i = 0; i < plan->n_sentence; i++)
			if (plan->is_caution[i])
				page_caution(page, plan->sentence[i]);
			else
				page_say(page, plan->sentence[i]);
		add_layout(page, p, plan);
	} else if (p->n_plan > 0) {
		page_caution(page,
			p->is_drop
				? _("Goggles; hands off the guide when it "
				    "falls.")
				: _("Weights fall when a beam breaks: goggles, "
				    "boots, nobody's toes under the load, and "
				    "a block under the beam to catch it."));
		page_say(page, _("A mix leads to what to lay out for it."));
	}
	if (p->n_plan > 0)
		add_figures(page, p);
	if (p->n_plan > 0)
		page_say(page,
			_("What is foreseen is for a plan, never for "
			  "building."));
}

static void
add_links(struct page *page, const struct preparing *p)
{
	const struct web_request *request = page->request;

	if (p->about.piece != NULL)
		page_link(page, _("To the piece"),
			web_at(request, "/piece/", p->about.piece));
	if (p->rig != NULL)
		page_link(page,
			page_format(page, "%s %s", _("Rig"), p->rig->code),
			web_at(request, "/rig/", p->rig->code));
	page_link(page, _("The rigs of the bench"), "/rigs");
	page_link(page, _("To the bench"), "/bench");
}

enum err_code
web_prepare(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct preparing *p = arena_take(request->arena, 1, sizeof *p);
	struct web_request typed = *request;
	struct page page;

	if (p == NULL)
		return err_memory(err);
	typed.field = request->query;
	typed.n_field = request->n_query;
	*p = (struct preparing){.request = &typed};
	TRY(work_prepare_about(
		&request->desk, request->arena, request->tail, &p->about, err));
	p->plan = arena_take(request->arena, p->about.n_mix + 1,
		sizeof(struct work_prepared *));
	if (p->plan == NULL)
		return err_memory(err);
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Before the test:"),
			p->about.code),
		PAGE_BENCH);
	take_rig(p);
	fill_form(p);
	if (is_asked(p) && read_ask(p))
		TRY(work_out(p, &page, err));
	if (p->n_plan == 0 && !form_has_fault(&p->form))
		page_say(&page,
			_("Say on which rig: then this page works out the load "
			  "to expect, the weights and their steps, and what "
			  "falls."));
	add_plan(&page, p);
	page_form(&page, &p->form);
	add_links(&page, p);
	return page_answer(&page, reply, err);
}

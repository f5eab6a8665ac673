/* pages_foam.c - the foam of one generator weighed, whether it may be used, and
 * how long it stands in a jar. */
#include "web/page.h"

#include "work/fields.h"
#include "work/foam.h"
#include "work/standing.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

enum { MINUTE = 60, GRAMS = 1000 };

#define AT(member) offsetof(struct work_foam_ask, member)
static const struct field foam_fields[] = {
	{"gross", FIELD_MAYBE, UNIT_MASS, AT(gross_kg)},
	{"fill", FIELD_MAYBE, UNIT_TIME, AT(fill_s)},
	{"moment", FIELD_TEXT, UNIT_NUMBER, AT(moment)},
	{"batch", FIELD_TEXT, UNIT_NUMBER, AT(batch)},
	{"on", FIELD_DATE, UNIT_NUMBER, AT(read_on)},
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
	form_date(form, "on", _("When it was read, if not now"), NULL);
	form_text(form, "remark", _("Remark"), NULL);
}

/* --- A jar of foam left standing. --- */

/* One look at it; a second look is a second entry. */
struct typed_look {
	const char *jar, *read_on, *remark;
	struct maybe foam_kg, after_s, drained_kg;
};

#define AT(member) offsetof(struct typed_look, member)
static const struct field look_fields[] = {
	{"jar", FIELD_TEXT, UNIT_NUMBER, AT(jar)},
	{"jar-foam", FIELD_MAYBE, UNIT_MASS, AT(foam_kg)},
	{"after", FIELD_MAYBE, UNIT_TIME, AT(after_s)},
	{"drained", FIELD_MAYBE, UNIT_MASS, AT(drained_kg)},
	{"jar-on", FIELD_DATE, UNIT_NUMBER, AT(read_on)},
	{"jar-remark", FIELD_TEXT, UNIT_NUMBER, AT(remark)},
};
#undef AT

static void
fill_jar(struct form *form, const struct web_request *request)
{
	form_start(form, request, "jar",
		web_at(request, "/foam/", request->tail),
		_("Record this look"));
	form->heading = _("Foam left standing in a jar");
	form_text(form, "jar", _("Which jar"), _("1 unless said."));
	form_number(form, "jar-foam", _("The foam in it weighed"), "g kg oz",
		_("When it was filled; once for each jar."));
	form_number(form, "after", _("How long it has stood"), "min h", NULL);
	form_number(
		form, "drained", _("What has run out of it"), "g kg oz", NULL);
	form_date(form, "jar-on", _("When it was read, if not now"), NULL);
	form_text(form, "jar-remark", _("Remark"), NULL);
}

/* A refusal names the fields of the command; here they stand in other forms of
 * the page too. */
static void
refuse_look(const struct web_request *request, struct form *form,
	const struct err *err)
{
	if (strcmp(err->field, "--foam") == 0)
		form_fault_at(form, "jar-foam",
			_("Say what the foam in it weighed when it was "
			  "filled."));
	else if (strcmp(err->field, "--look") == 0)
		form_fault_at(form, "drained", err->text);
	else
		form_fault(form, err);
}

static bool
put_look(const struct web_request *request, struct form *form)
{
	struct typed_look typed = {.jar = NULL};
	struct work_standing_ask ask = {.generator = request->tail,
		.n_look = 1,
		.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	struct work_standing told;
	struct work_look look;

	if (!form_read(request, look_fields, COUNT(look_fields), &typed, form))
		return false;
	if (!typed.after_s.has)
		form_fault_at(form, "after", _("This is needed."));
	if (!typed.drained_kg.has)
		form_fault_at(form, "drained", _("This is needed."));
	if (form_has_fault(form))
		return false;
	look = (struct work_look){typed.after_s.value, typed.drained_kg.value};
	ask.jar = typed.jar;
	ask.foam_kg = typed.foam_kg;
	ask.read_on = typed.read_on;
	ask.remark = typed.remark;
	ask.look = &look;
	if (work_standing_put(&request->desk, request->arena, &ask, &told,
		    &inner) == ERR_NONE)
		return true;
	refuse_look(request, form, &inner);
	return false;
}

static void
add_standing(struct page *page, const struct work_mixer *m, size_t generator)
{
	static const struct grid_column column[] = {
		{"jar", N_("jar"), "", false},
		{"after", N_("it stood"), "min", true},
		{"drained", N_("ran out of it"), "g", true},
		{"foam", N_("of foam"), "g", true}};
	const struct web_request *request = page->request;
	struct err inner = err_in(request->arena);
	struct work_standing told;
	struct grid grid;

	if (work_standing(m, request->arena, generator, m->site.n_mix, &told,
		    &inner) != ERR_NONE ||
		!told.known)
		return;
	page_say(page, told.sentence);
	page_table(page, &grid, "standing", _("Foam left standing in a jar"),
		column, COUNT(column));
	for (size_t i = 0; i < m->n_standing; i++) {
		const struct book_foam_standing *s = &m->standing[i];
		const double shown[] = {s->after_s / MINUTE,
			s->drained_kg * GRAMS, s->foam_kg * GRAMS};

		if (s->generator_id != m->generator[generator].row.id)
			continue;
		grid_text(&grid, s->code);
		for (size_t k = 0; k < COUNT(shown); k++)
			grid_number(&grid, shown[k],
				page_format(page, "%.4g", shown[k]));
	}
	page_grid_folded(page, &grid);
}

static void
add_last_check(struct page *page, const struct work_mixer *m, size_t generator)
{
	const struct web_request *request = page->request;
	struct work_foam_told told;
	struct err inner = err_in(request->arena);
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
		struct err inner = err_in(request->arena);

		if (check->generator_id != m->generator[generator].row.id ||
			work_foam_weigh(&m->generator[generator], check,
				&weighed, &inner) != ERR_NONE)
			continue;
		grid_text(&grid, check->read_on);
		grid_text(&grid, _(check->moment));
		grid_number(&grid, check->gross_kg,
			page_format(page, "%.3f", check->gross_kg));
		grid_number(&grid, weighed.value,
			page_format(page, "%.1f", weighed.value));
	}
	if (grid_rows(&grid) > 0)
		page_grid_folded(page, &grid);
}

static enum err_code
show(const struct web_request *request, struct web_reply *reply,
	struct form *check, struct form *jar, struct err *err)
{
	struct work_mixer m;
	struct page page;
	size_t at;

	TRY(work_mixer_read(&request->desk, request->arena, &m, err));
	TRY(work_find_generator(&m, request->tail, &at, err));
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Foam of generator"),
			request->tail),
		PAGE_MIXER);
	page_caution(&page, _("Agents burn eyes: goggles."));
	add_last_check(&page, &m, at);
	page_form(&page, check);
	add_checks(&page, &m, at);
	add_standing(&page, &m, at);
	page_form(&page, jar);
	page_link(&page, _("Back to the mixer"), "/mixer");
	return page_answer(&page, reply, err);
}

enum err_code
web_foam(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form check, jar;

	fill_foam_check(&check, request);
	fill_jar(&jar, request);
	return show(request, reply, &check, &jar, err);
}

static bool
put_check(const struct web_request *request, struct form *form)
{
	struct work_foam_ask ask = {
		.generator = request->tail, .typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	struct work_foam_told told;

	if (!form_read(request, foam_fields, COUNT(foam_fields), &ask, form))
		return false;
	if (work_foam_put(&request->desk, request->arena, &ask, &told,
		    &inner) == ERR_NONE)
		return true;
	form_fault(form, &inner);
	return false;
}

enum err_code
web_foam_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form");
	struct form check, jar;
	bool done;

	fill_foam_check(&check, request);
	fill_jar(&jar, request);
	done = id != NULL && strcmp(id, "jar") == 0
		? put_look(request, &jar)
		: put_check(request, &check);
	if (!done)
		return show(request, reply, &check, &jar, err);
	reply->see_other = check.action;
	return ERR_NONE;
}

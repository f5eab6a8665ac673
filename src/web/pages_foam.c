/* pages_foam.c - the foam of one generator weighed, and whether it may be
 * used. */
#include "web/page.h"

#include "work/fields.h"
#include "work/foam.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

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
	page_saved(&page);
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
	struct err inner = err_in(request->arena);
	struct work_foam_told told;
	struct page page;
	struct form form;

	if (ask.typed == NULL)
		return err_memory(err);
	fill_foam_check(&form, request);
	if (form_read(request, foam_fields, COUNT(foam_fields), &ask, &form)) {
		if (work_foam_put(&request->desk, request->arena, &ask, &told,
			    &inner) == ERR_NONE) {
			reply->see_other = text_format(
				request->arena, "%s?saved=1", form.action);
			return reply->see_other != NULL ? ERR_NONE
							: err_memory(err);
		}
		form_fault(&form, &inner);
	}
	page_start(&page, request,
		text_format(request->arena, "%s %s", _("Foam of generator"),
			request->tail),
		PAGE_MIXER);
	page_caution(&page, _("Agents burn eyes: goggles."));
	page_form(&page, &form);
	page_link(&page, _("Back to the mixer"), "/mixer");
	return page_answer(&page, reply, err);
}

/* pages_weights.c - how much each thing counts where mixes are weighed: for the
 * house, and for a part that has its own. */
#include "web/page.h"

#include "work/fields.h"
#include "work/weight.h"

#include <math.h>
#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

struct typed_weights {
	struct maybe weight[WORK_CRITERIA];
};

#define AT(k) offsetof(struct typed_weights, weight[k])
static const struct field weight_fields[] = {
	{"density", FIELD_MAYBE, UNIT_NUMBER, AT(WORK_CRITERION_DENSITY)},
	{"strength", FIELD_MAYBE, UNIT_NUMBER, AT(WORK_CRITERION_STRENGTH)},
	{"cost", FIELD_MAYBE, UNIT_NUMBER, AT(WORK_CRITERION_COST)},
	{"labour", FIELD_MAYBE, UNIT_NUMBER, AT(WORK_CRITERION_LABOUR)},
	{"heat", FIELD_MAYBE, UNIT_NUMBER, AT(WORK_CRITERION_HEAT)},
};
#undef AT

static const char *const shown[WORK_CRITERIA] = {
	[WORK_CRITERION_DENSITY] = N_("dry weight"),
	[WORK_CRITERION_STRENGTH] = N_("strength"),
	[WORK_CRITERION_COST] = N_("materials"),
	[WORK_CRITERION_LABOUR] = N_("time to fold the foam in"),
	[WORK_CRITERION_HEAT] = N_("heat let through (lambda)"),
};

/* The page of the house, or of a part; the address of its forms too. */
static const char *
address_of(const struct web_request *request, const char *part)
{
	return part != NULL ? web_at(request, "/weights?part=", part)
			    : "/weights";
}

static const struct work_own_weights *
own_of(const struct work_weights *w, size_t part)
{
	for (size_t i = 0; i < w->n_own; i++)
		if (w->own[i].part == part)
			return &w->own[i];
	return NULL;
}

static void
fill_weights(struct form *form, const struct web_request *request,
	const char *part, const struct work_own_weights *own)
{
	form_start(form, request, "set-weights", address_of(request, part),
		_("Weigh by these"));
	form->heading = _("What counts, and how much");
	for (size_t k = 0; k < WORK_CRITERIA; k++) {
		form_number(form, weight_fields[k].option,
			words(request->language, shown[k]), "",
			k == 0 ? _("A number: 2 counts twice as much as 1, and "
				   "0 not at all. Empty stays as it is.")
			       : NULL);
		if (own != NULL && own->is_set[k])
			form_value(form,
				text_format(
					request->arena, "%g", own->weight[k]));
	}
}

static void
fill_drop(
	struct form *form, const struct web_request *request, const char *part)
{
	form_start(form, request, "drop-weights", address_of(request, part),
		part != NULL ? _("No weights of its own any more")
			     : _("No weights any more"));
}

/* --- Shown. --- */

static void
add_row(struct page *page, struct grid *grid, const struct work_weights *w,
	size_t part)
{
	const struct web_request *request = page->request;
	const struct work_own_weights *own = own_of(w, part);
	bool is_house = part == w->parts.site.n_part;

	if (is_house)
		grid_link(grid, _("the house"), "/weights");
	else
		grid_link(grid, w->parts.site.part[part].name,
			address_of(request, w->parts.site.part[part].code));
	for (size_t k = 0; k < WORK_CRITERIA; k++)
		grid_number(grid,
			own != NULL && own->is_set[k] ? own->weight[k]
						      : (double)NAN,
			own != NULL ? page_format(page, "%g", own->weight[k])
				    : "");
}

static void
add_weights(struct page *page, const struct work_weights *w)
{
	static const struct grid_column column[] = {
		{"of", N_("weights of"), "", false},
		{"density", N_("dry weight"), "", true},
		{"strength", N_("strength"), "", true},
		{"cost", N_("materials"), "", true},
		{"labour", N_("time to fold the foam in"), "", true},
		{"heat", N_("heat let through (lambda)"), "", true}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "weights", _("What counts, and how much"),
		column, COUNT(column));
	add_row(page, &grid, w, w->parts.site.n_part);
	for (size_t i = 0; i < w->parts.site.n_part; i++)
		add_row(page, &grid, w, i);
	page_grid(page, &grid);
}

static enum err_code
show(const struct web_request *request, struct web_reply *reply,
	const struct work_weights *w, size_t part, struct form *form,
	struct form *drop, struct err *err)
{
	bool is_house = part == w->parts.site.n_part;
	struct page page;

	page_start(&page, request,
		is_house ? _("What counts for the house")
			 : text_format(request->arena, "%s: %s",
				   _("What counts for a part"),
				   w->parts.site.part[part].name),
		PAGE_CHOOSE);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	page_say(&page,
		_("The mixes that do what a part asks as likely as not are "
		  "weighed by these: a part with weights of its own by those "
		  "alone, any other by those of the house. With none, nothing "
		  "is weighed. Lighter, stronger, cheaper, quicker and warmer "
		  "counts as better."));
	add_weights(&page, w);
	page_form(&page, form);
	if (own_of(w, part) != NULL || form_has_fault(drop))
		page_form(&page, drop);
	page_link(&page, _("Back to the choice"), "/choose");
	return page_answer(&page, reply, err);
}

/* Which part the address names; the number of parts: the house. */
static enum err_code
read_book(const struct web_request *request, struct work_weights *w,
	size_t *part, struct err *err)
{
	const char *code = web_query(request, "part");

	TRY(work_weights_read(&request->desk, request->arena, w, err));
	*part = w->parts.site.n_part;
	return code != NULL ? work_find_part(&w->parts.site, code, part, err)
			    : ERR_NONE;
}

enum err_code
web_weights(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *code = web_query(request, "part");
	struct work_weights w;
	struct form form, drop;
	size_t part;

	TRY(read_book(request, &w, &part, err));
	fill_weights(&form, request, code, own_of(&w, part));
	fill_drop(&drop, request, code);
	return show(request, reply, &w, part, &form, &drop, err);
}

/* --- Set. --- */

static bool
read_weights(const struct web_request *request, struct work_weight_ask *ask,
	struct form *form)
{
	struct typed_weights typed = {0};
	bool any = false;

	if (!form_read(
		    request, weight_fields, COUNT(weight_fields), &typed, form))
		return false;
	for (size_t k = 0; k < WORK_CRITERIA; k++) {
		ask->is_set[k] = typed.weight[k].has;
		ask->weight[k] = typed.weight[k].value;
		any = any || ask->is_set[k];
	}
	if (!any)
		form_fault_at(form, weight_fields[0].option,
			_("Say how much one of these counts."));
	return any;
}

enum err_code
web_weights_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	const char *id = web_given(request, "form");
	struct work_weight_ask ask = {.part = web_query(request, "part"),
		.drop = id != NULL && strcmp(id, "drop-weights") == 0,
		.typed = form_as_typed(request)};
	struct err inner = err_in(request->arena);
	struct work_weights w;
	struct form form, drop;
	size_t part;

	if (ask.typed == NULL)
		return err_memory(err);
	TRY(read_book(request, &w, &part, err));
	fill_weights(&form, request, ask.part, own_of(&w, part));
	fill_drop(&drop, request, ask.part);
	if (ask.drop || read_weights(request, &ask, &form)) {
		if (work_weight_put(&request->desk, request->arena, &ask,
			    &inner) == ERR_NONE) {
			reply->see_other = text_format(request->arena,
				"%s%csaved=1", address_of(request, ask.part),
				ask.part != NULL ? '&' : '?');
			return reply->see_other != NULL ? ERR_NONE
							: err_memory(err);
		}
		form_fault(ask.drop ? &drop : &form, &inner);
	}
	return show(request, reply, &w, part, &form, &drop, err);
}

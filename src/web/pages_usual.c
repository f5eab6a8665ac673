/* pages_usual.c - what each kind of part is usually asked, with where it comes
 * from, and how this book asks it. */
#include "web/bounds.h"

#include "work/part.h"

#include <string.h>

enum { FORMS = 3 };

static void
fill_kind(struct form *form, const struct web_request *request)
{
	const struct work_usual_form *kind;
	size_t n;

	kind = work_usual_forms(&n);
	form_choice(form, "kind", _("Kind of part"), NULL);
	for (size_t i = 0; i < n && i < FORM_CHOICES_MOST; i++)
		form_choose(form, kind[i].form, _(kind[i].words));
	form_needed(form);
}

static void
fill_source(struct form *form, const struct web_request *request)
{
	form_text(form, "source", _("Where it comes from"),
		_("Such as: local code, table 3. Where there is no source: "
		  "common practice."));
	form_needed(form);
}

/* Three forms of their own: Enter in a field presses the button of its form. */
static void
fill(struct form form[FORMS], const struct web_request *request)
{
	form_start(&form[0], request, "ask", "/usual", _("Ask this usually"));
	form[0].heading = _("Ask something else, or something more");
	fill_kind(&form[0], request);
	bound_fill(&form[0], 0);
	fill_source(&form[0], request);
	form_start(
		&form[1], request, "drop", "/usual", _("Ask this no longer"));
	form[1].heading = _("Ask something no longer");
	fill_kind(&form[1], request);
	form_choice(&form[1], "what", _("What it must do"), NULL);
	for (int k = 0; k < CHOOSE_MEASURE_COUNT; k++)
		form_choose(&form[1],
			choose_measure_word((enum choose_measure)k),
			_(choose_measure_name((enum choose_measure)k)));
	form_needed(&form[1]);
	fill_source(&form[1], request);
	form_start(&form[2], request, "as-it-comes", "/usual",
		_("Ask it as it came"));
	form[2].heading = _("All of a kind as the program brought it");
	fill_kind(&form[2], request);
}

/* --- Shown. --- */

/* The page again, with the forms filled in for this line. */
static const char *
address_of(struct page *page, const struct work_usual *u,
	enum choose_measure measure)
{
	const struct web_request *request = page->request;
	const char *bound = bound_text(page, measure, u->is_least, u->value);

	return page_format(page, "%s%s%s#ask",
		web_at(request, "/usual?kind=", u->form),
		web_at(request, "&what=", u->measure),
		web_at(request, "&bound=", bound));
}

static void
add_line(struct page *page, struct grid *grid, const struct work_usual *u,
	const char *currency)
{
	const struct web_request *request = page->request;
	enum choose_measure measure;
	bool known = choose_measure_find(u->measure, &measure);

	grid_text(grid, _(work_usual_form_of(u->form)->words));
	if (known)
		grid_link(grid,
			page_format(page, "%s %s%s%s",
				_(choose_measure_name(measure)),
				bound_text(
					page, measure, u->is_least, u->value),
				measure == CHOOSE_COST ? " " : "",
				measure == CHOOSE_COST
					? page_format(page, "%s/m3", currency)
					: ""),
			address_of(page, u, measure));
	else
		grid_text(grid, u->measure);
	grid_text(grid, _(u->source));
	grid_text(grid,
		!u->is_asked        ? _("this book: no longer asked")
			: u->is_own ? _("this book")
				    : _("the program"));
}

static void
add_usual(struct page *page, const struct work_usual *usual, size_t n,
	const char *currency)
{
	static const struct grid_column column[] = {
		{"kind", N_("kind of part"), "", false},
		{"must", N_("what it must do"), "", false},
		{"source", N_("source"), "", false},
		{"set_by", N_("set by"), "", false}};
	const struct web_request *request = page->request;
	struct grid grid;

	page_table(page, &grid, "usual", _("Usually asked"), column,
		sizeof column / sizeof column[0]);
	for (size_t i = 0; i < n; i++)
		add_line(page, &grid, &usual[i], currency);
	page_grid(page, &grid);
}

static enum err_code
show(const struct web_request *request, struct web_reply *reply,
	struct form form[FORMS], struct err *err)
{
	const struct work_usual *usual;
	struct work_parts parts;
	struct page page;
	size_t n;

	TRY(work_parts_read(&request->desk, request->arena, &parts, err));
	TRY(work_usual_read(&request->desk, request->arena, &usual, &n, err));
	page_start(&page, request, _("What each kind of part is usually asked"),
		PAGE_BUILDING);
	if (web_query(request, "saved") != NULL)
		page_done(&page, _("Recorded."), "/undo/last");
	page_caution(&page,
		_("These are starting values and no code of practice: change "
		  "them to what your code and your engineer say."));
	page_say(&page,
		_("They are asked of a part where its form is ticked \"Ask the "
		  "usual of its kind too\", and stand on the duty sheet. Parts "
		  "that are in the book already keep what they ask."));
	add_usual(&page, usual, n, parts.site.info.currency);
	for (size_t i = 0; i < FORMS; i++)
		page_form(&page, &form[i]);
	page_link(&page, _("The duty sheet, to print and fill in"), "/duty");
	page_link(&page, _("Back to the building"), "/building");
	return page_answer(&page, reply, err);
}

enum err_code
web_usual(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct form form[FORMS];

	fill(form, request);
	return show(request, reply, form, err);
}

/* --- Set. --- */

static bool
has(const struct web_request *request, struct form *form, const char *name)
{
	if (web_given(request, name) != NULL)
		return true;
	form_fault_at(form, name, _("This is needed."));
	return false;
}

/* What was sent, in the form of that place; false: something is missing. */
static bool
read(const struct web_request *request, struct form *form, size_t place,
	struct work_usual_ask *ask)
{
	bool good = has(request, form, "kind"), given = false;

	ask->form = web_given(request, "kind");
	ask->source = web_given(request, "source");
	ask->as_it_comes = place == 2;
	if (place == 0) {
		good = bound_read(request, form, 0, &ask->bound[0], &given) &&
			good;
		good = (given || has(request, form, "what")) && good;
		ask->n_bound = 1;
	}
	if (place == 1) {
		good = has(request, form, "what") && good;
		ask->drop[0] = web_given(request, "what");
		ask->n_drop = 1;
	}
	return place == 2 ? good : has(request, form, "source") && good;
}

/* The deed knows measures by its own names. */
static void
refuse(const struct web_request *request, struct form *form,
	const struct err *err)
{
	if (strcmp(err->field, "--drop") == 0)
		form_fault_at(form, "what",
			_("Nothing of that is usually asked of this kind of "
			  "part."));
	else if (strcmp(err->field, "--least") == 0 ||
		strcmp(err->field, "--most") == 0)
		form_fault_at(form, "what", err->text);
	else
		form_fault(form, err);
}

enum err_code
web_usual_post(const struct web_request *request, struct web_reply *reply,
	struct err *err)
{
	struct work_usual_ask ask = {.typed = form_as_typed(request)};
	const char *id = web_given(request, "form");
	struct err inner = err_in(request->arena);
	struct form form[FORMS];
	size_t place = 0;

	if (ask.typed == NULL)
		return err_memory(err);
	fill(form, request);
	for (size_t i = 1; id != NULL && i < FORMS; i++)
		if (strcmp(form[i].id, id) == 0)
			place = i;
	if (read(request, &form[place], place, &ask)) {
		if (work_usual_put(&request->desk, request->arena, &ask,
			    &inner) == ERR_NONE) {
			reply->see_other = "/usual?saved=1";
			return ERR_NONE;
		}
		refuse(request, &form[place], &inner);
	}
	return show(request, reply, form, err);
}

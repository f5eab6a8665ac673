/* bounds.c - what something must do, as two fields. */
#include "web/bounds.h"

#include <string.h>
#include <strings.h>

const char *
bound_name(const struct web_request *request, const char *stem, int i)
{
	return i == 0 ? stem : text_format(request->arena, "%s-%d", stem, i);
}

static const char *
numbered(const struct web_request *request, const char *label, int i)
{
	return i == 0 ? label : text_format(request->arena, "%s %d", label, i);
}

void
bound_fill(struct form *form, int i)
{
	const struct web_request *request = form->request;

	form_choice(form, bound_name(request, "what", i),
		numbered(request, _("What it must do"), i), NULL);
	for (int k = 0; k < CHOOSE_MEASURE_COUNT; k++)
		form_choose(form, choose_measure_word((enum choose_measure)k),
			_(choose_measure_name((enum choose_measure)k)));
	form_text(form, bound_name(request, "bound", i),
		numbered(request, _("At least or at most how much"), i),
		i <= 1 ? _("With its unit: at least 1.5 N/mm2, at most 600 "
			   "kg/m3.")
		       : NULL);
}

/* What follows "at least" in English or in the reader's language; NULL where the
 * text does not begin with it. */
static const char *
after_words(const char *text, const char *english, const char *own)
{
	const char *const way[] = {english, own};

	for (size_t i = 0; i < sizeof way / sizeof way[0]; i++) {
		size_t n = strlen(way[i]);

		if (strncasecmp(text, way[i], n) == 0 && text[n] == ' ')
			return text + n + 1;
	}
	return NULL;
}

/* The figure alone, before the deed reads it with all the rest: so that what is
 * wrong in it stands beside it. */
static bool
can_be_read(const struct web_request *request, struct form *form,
	const char *name, const struct work_bound *bound)
{
	const struct unit_rules rules = {.gallon = request->desk.gallon};
	struct err inner = err_in(request->arena);
	enum choose_measure measure;
	double value;

	if (!choose_measure_find(bound->measure, &measure) ||
		unit_read(bound->value, choose_measure_kind(measure), &rules,
			&value, &inner) == ERR_NONE)
		return true; /* no such measure: the deed says which there are */
	form_fault_at(form, name, inner.text);
	return false;
}

bool
bound_read(const struct web_request *request, struct form *form, int i,
	struct work_bound *to, bool *given)
{
	const char *what = bound_name(request, "what", i);
	const char *name = bound_name(request, "bound", i);
	const char *measure, *text, *least, *most;

	*given = false;
	if (what == NULL || name == NULL) {
		form->failed = true;
		return false;
	}
	measure = web_given(request, what);
	text = web_given(request, name);
	if (measure == NULL && text == NULL)
		return true;
	if (measure == NULL || text == NULL) {
		form_fault_at(form, measure == NULL ? what : name,
			_("Say both what it must do and how much."));
		return false;
	}
	least = after_words(text, "at least", _("at least"));
	most = after_words(text, "at most", _("at most"));
	if (least == NULL && most == NULL) {
		form_fault_at(form, name,
			_("Begin with \"at least\" or \"at most\"."));
		return false;
	}
	*given = true;
	*to = (struct work_bound){.measure = measure,
		.value = least != NULL ? least : most,
		.is_least = least != NULL};
	return can_be_read(request, form, name, to);
}

const char *
bound_text(struct page *page, enum choose_measure measure, bool is_least,
	double value)
{
	const struct web_request *request = page->request;
	const char *unit = choose_measure_unit(measure);

	return page_format(page, "%s %s%s%s",
		is_least ? _("at least") : _("at most"),
		figure_text(page, measure, value), unit[0] != '\0' ? " " : "",
		unit);
}

/* bounds.h - what something must do, in two fields of a form: which measure, and
 * "at least 1.5 N/mm2". */
#ifndef WEB_BOUNDS_H
#define WEB_BOUNDS_H

#include "web/figures.h"
#include "work/usual.h"

/* bound_name(request, stem, i): "what-2", or "what" for i 0; NULL if memory ran
 * out. */
const char *bound_name(
	const struct web_request *request, const char *stem, int i);

/* bound_fill(form, i): the fields what-i and bound-i; 0: what and bound. */
void bound_fill(struct form *form, int i);

/* bound_read(request, form, i, to, given): *given false where both are empty.
 * Returns false where something is wrong, which stands beside its field then. */
bool bound_read(const struct web_request *request, struct form *form, int i,
	struct work_bound *to, bool *given);

/* bound_text(page, measure, is_least, value): "at least 1.5 N/mm2", as
 * bound_read takes it; cost as plain money. */
const char *bound_text(struct page *page, enum choose_measure measure,
	bool is_least, double value);

#endif /* WEB_BOUNDS_H */

/* trace_form.h - the form that brings a logger's file in: short at first, then with
 * all that a file may not say. */
#ifndef WEB_TRACE_FORM_H
#define WEB_TRACE_FORM_H

#include "web/carry.h"
#include "web/page.h"
#include "work/trace.h"

/* trace_kind(request, kind): what was said it felt; false: nothing known. */
bool trace_kind(const struct web_request *request, enum lab_trace_kind *kind);

/* trace_form(form, request, carried): what it felt, the piece, the file; carried:
 * the one that comes along, NULL none. */
void trace_form(struct form *form, const struct web_request *request,
	const struct carried *carried);

/* What the whole form stands on. */
struct trace_asked {
	enum lab_trace_kind kind;
	const struct lab_trace_found *found;
	const struct work_site *site;
	const struct carried *carried;
	bool asks; /* how to read it, too; what was answered goes along unseen
		      otherwise */
};

void trace_whole_form(struct form *form, const struct web_request *request,
	const struct trace_asked *asked);

/* trace_read(request, ask, form): all but the kind and the file; false: a fault
 * stands beside its field of the form. */
bool trace_read(const struct web_request *request, struct work_trace_ask *ask,
	struct form *form);

#endif /* WEB_TRACE_FORM_H */

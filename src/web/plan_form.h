/* plan_form.h - what a plan of pouring is asked by: a form, and its address. */
#ifndef WEB_PLAN_FORM_H
#define WEB_PLAN_FORM_H

#include "web/form.h"
#include "work/plan.h"

/* plan_fill(form, request): first day today, all else empty. */
void plan_fill(struct form *form, const struct web_request *request);

/* plan_read(request, form, ask): what the address asks, with its units; false:
 * what is wrong stands beside its field. */
bool plan_read(const struct web_request *request, struct form *form,
	struct work_plan_ask *ask);

#endif /* WEB_PLAN_FORM_H */

/* reading_form.h - the fields that forms of test readings have in common. */
#ifndef WEB_READING_FORM_H
#define WEB_READING_FORM_H

#include "web/form.h"
#include "work/home_test.h"

#include <stdbool.h>

/* reading_form_read(request, own, n, to, ask, form): the fields of the form's own
 * table into `to`, as form_read does, and those of its fields that any reading
 * may have into `ask`, which may lie in `to`: rig, code, width, depth, length,
 * diameter, mass or piece-mass, on, remark.  Returns false if one was wrong; all
 * that are stand beside theirs in form. */
bool reading_form_read(const struct web_request *request,
	const struct field *own, size_t n, void *to, struct work_test_ask *ask,
	struct form *form);

#endif /* WEB_READING_FORM_H */

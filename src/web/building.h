/* building.h - what the pages of the building share. */
#ifndef WEB_BUILDING_H
#define WEB_BUILDING_H

#include "web/page.h"
#include "work/part.h"

/* building_fill_part(form, request, action, part): the form of a part; NULL: of a
 * new one. */
void building_fill_part(struct form *form, const struct web_request *request,
	const char *action, const struct book_part *part);

/* building_put_part(request, form, code): true: recorded, and *code names the
 * part; else what is wrong stands in the form. */
bool building_put_part(const struct web_request *request, struct form *form,
	const char **code);

#endif /* WEB_BUILDING_H */

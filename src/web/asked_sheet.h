/* asked_sheet.h - the batch sheet that an address asks for: of another size than
 * the mixer takes, of whole bags, of another generator. */
#ifndef WEB_ASKED_SHEET_H
#define WEB_ASKED_SHEET_H

#include "web/form.h"
#include "work/sheet.h"

struct asked_sheet {
	struct work_sheet_ask ask;
	struct form form;   /* asks for another */
	const char *action; /* of the page with what it asks, so that an entry
			     * and a fault lead back to the same sheet */
	bool has_sheet;
	struct work_sheet sheet;
	enum err_code code; /* with !has_sheet, and why in a sentence */
	const char *refused;
};

/* asked_sheet_read(request, m, code, out, err): the sheet of a batch or mix; what
 * is wrong in what was asked stands in out->form.
 * ERR_MEMORY alone: whatever else keeps a sheet from being made is told in
 * out->refused */
enum err_code asked_sheet_read(const struct web_request *request,
	const struct work_mixer *m, const char *code, struct asked_sheet *out,
	struct err *err) MUST_CHECK;

/* asked_sheet_with(request, asked, name, value): its address with one more
 * value; NULL if memory ran out. */
const char *asked_sheet_with(const struct web_request *request,
	const struct asked_sheet *asked, const char *name, const char *value);

#endif /* WEB_ASKED_SHEET_H */

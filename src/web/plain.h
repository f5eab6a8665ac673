/* plain.h - sentences that name options of the command line, in the words of the
 * pages. */
#ifndef WEB_PLAIN_H
#define WEB_PLAIN_H

#include "web/form.h"
#include "web/request.h"

/* plain_words(request, form, text): each option ("--wet") becomes the label of
 * the field of that name, of the form if it has one (form may be NULL), else of
 * the form where it stands; an option that no form has loses its dashes.  A
 * command ("foamwright gear ...") becomes the name of the page that does it.
 * What serve itself takes (--lan, --tls) stays.  The text itself where it names
 * neither, and where memory ran out. */
const char *plain_words(const struct web_request *request,
	const struct form *form, const char *text);

/* plain_signs(arena, text): "degC", "degF" and "+/-" as the signs they stand for;
 * the text itself where it holds none, and where memory ran out.  NULL: NULL. */
const char *plain_signs(struct arena *arena, const char *text);

#endif /* WEB_PLAIN_H */

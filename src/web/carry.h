/* carry.h - an uploaded file that goes from one form to the next, so that it need
 * not be chosen again: packed (RFC 1950) and in base64 within a hidden field.
 * Nothing is stored meanwhile, and the server forgets nothing when it ends. */
#ifndef WEB_CARRY_H
#define WEB_CARRY_H

#include "web/form.h"

enum { CARRY_MOST = 16 << 20 }; /* bytes of the file */

struct carried {
	const char *name, *bytes; /* bytes NULL: there is none */
	size_t n;
	const char *packed; /* as it came in the form; NULL: just uploaded */
};

/* carry_read(request, out, err): the file that was chosen in the field "file",
 * else the one that came along.
 * ERR_INPUT "file"  it is empty, larger than CARRY_MOST, or did not come through
 *                   whole */
enum err_code carry_read(const struct web_request *request, struct carried *out,
	struct err *err) MUST_CHECK;

/* carry_on(form, carried): in hidden fields of the form, which the browser then
 * sends itself, also where scripts run. */
void carry_on(struct form *form, const struct carried *carried);

#endif /* WEB_CARRY_H */

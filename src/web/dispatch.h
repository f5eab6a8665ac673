/* dispatch.h - from an address and its fields to an answer; no sockets. */
#ifndef WEB_DISPATCH_H
#define WEB_DISPATCH_H

#include "web/request.h"

/* web_address(arena, target, request, err): takes apart "/piece/X.csv?a=1" as
 * it stands on the wire: path, tail, twin and query of the request.
 * ERR_INPUT it is not UTF-8, holds a NUL or a bad percent sign, or is too
 * long. */
enum err_code web_address(struct arena *arena, const char *target,
	struct web_request *request, struct err *err) MUST_CHECK;

/* web_fields_decode(arena, text, n, field, n_field, err): fields of
 * application/x-www-form-urlencoded (WHATWG URL Standard, 5.1).
 * ERR_INPUT as web_address, or more than WEB_FIELDS_MOST of them. */
enum { WEB_FIELDS_MOST = 512, WEB_ADDRESS_MOST = 4096 };
enum err_code web_fields_decode(struct arena *arena, const char *text, size_t n,
	const struct web_field **field, size_t *n_field,
	struct err *err) MUST_CHECK;

/* web_dispatch(request, reply): finds the route and runs it; a failure becomes a
 * page (or a document) that says it, with its status.  Never fails itself: where
 * not even that page can be made, a line of plain text. */
void web_dispatch(struct web_request *request, struct web_reply *reply);

/* web_say(request, reply, status, err): that page. */
void web_say(const struct web_request *request, struct web_reply *reply,
	int status, const struct err *err);

#endif /* WEB_DISPATCH_H */

/* request.h - what was asked of the server, and the answer. */
#ifndef WEB_REQUEST_H
#define WEB_REQUEST_H

#include "core/arena.h"
#include "core/err.h"
#include "core/text.h"
#include "work/desk.h"

#include <stdbool.h>
#include <stddef.h>

enum web_method { WEB_GET, WEB_POST }; /* HEAD is answered as GET */

/* The data of a page stand at its address with .json or .csv at the end. */
enum web_twin { WEB_PAGE, WEB_JSON, WEB_CSV };

struct web_field {
	const char *name, *value; /* UTF-8 without NUL; a file's bytes may hold
				   * anything */
	size_t n;                 /* bytes of the value */
	const char *file; /* the name of an uploaded file; NULL: a field */
};

struct web_request {
	enum web_method method;
	enum web_twin twin;
	const char *path; /* "/compare", without .json */
	const char *tail; /* what follows a route that ends in '/'; else "" */
	const struct web_field *query, *field;
	size_t n_query, n_field;
	const char *home; /* "http://192.168.1.20:8080", where phones find the
			   * pages; NULL: this machine alone */
	const char *language; /* one of words_language_at */
	bool both_units;      /* US figures beside the metric ones */
	bool may_record;      /* the role of who asks */
	struct arena *arena;  /* lives as long as the answer */
	struct desk desk;     /* the open book; on GET read only */
};

struct web_reply {
	int status;             /* 0: 200 */
	const char *type;       /* Content-Type; NULL: HTML */
	struct text body;       /* made ready by the server; may hold marks */
	const char *see_other;  /* after a deed: where to go on (303) */
	const char *cookie;     /* Set-Cookie; NULL: none */
	const char *attachment; /* Content-Disposition, web/attachment.h; NULL:
				 * none */
	bool no_store;          /* not to be kept by the server's own store */
};

/* One page or deed.  What it reports is shown as a page that says it. */
typedef enum err_code web_answer(const struct web_request *request,
	struct web_reply *reply, struct err *err);

/* web_query, web_given: a value of the address or of the form; NULL if it was
 * not given, or empty.  web_given_next: of several of one name, from place *at
 * (start with 0) on; NULL after the last. */
const char *web_query(const struct web_request *request, const char *name);
const char *web_given(const struct web_request *request, const char *name);
const char *web_given_next(
	const struct web_request *request, const char *name, size_t *at);

/* web_at(request, route, code): the address of a thing, "/piece/" and its code,
 * percent-encoded; "/" where memory ran out. */
const char *web_at(
	const struct web_request *request, const char *route, const char *code);

/* web_as_asked(request, path): path with all that this address asks, for a
 * picture or a file of the same; path alone where it asks nothing. */
const char *web_as_asked(const struct web_request *request, const char *path);

/* Every answer; route_names.h lists them. */
#define WEB_ROUTE(path, get, post) extern web_answer get, post;
extern web_answer web_none; /* stands where a route takes no such method */
#include "web/route_names.h"
#undef WEB_ROUTE

#endif /* WEB_REQUEST_H */

/* server.h - the pages of one book, served.
 *
 * One thread talks to the browsers; readers, each with the book open of its
 * own, make the pages; one writer does the deeds, one after the other.  A page
 * made once is kept until the book or the day changes. */
#ifndef WEB_SERVER_H
#define WEB_SERVER_H

#include "core/arena.h"
#include "core/err.h"
#include "core/text.h"

#include <stdbool.h>

struct web_server_ask {
	const char *book; /* path of the file */
	const char *who;  /* for the history of entries */
	unsigned port;    /* 0: a free one */
	bool lan;         /* on the local network too, with a sign-in */
	bool tls;
	unsigned idle_s; /* a connection that says nothing is closed after; 0:
			    * 15 */
	unsigned request_s; /* a request has to be there after; 0: 30 */
	/* told one line at a time what the person has to know: the address
	 * first */
	void (*tell)(void *whom, const char *line);
	void *whom;
};

/* web_serve(ask, err): until SIGINT or SIGTERM; an entry that was being written
 * is finished.  Where a page is then long in the making, does not return: the
 * process ends with status 0.  ERR_CONFLICT the port is taken; the errors of book_open. */
enum err_code web_serve(
	const struct web_server_ask *ask, struct err *err) MUST_CHECK;

/* web_get(ask, arena, address, page, status, err): what the page at the address
 * would answer, without a socket; marks are filled with zeros. */
enum err_code web_get(const struct web_server_ask *ask, struct arena *arena,
	const char *address, struct text *page, int *status,
	struct err *err) MUST_CHECK;

#endif /* WEB_SERVER_H */

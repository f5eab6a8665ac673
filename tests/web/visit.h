/* visit.h - a server in a process of its own, and a client that says exactly
 * what a test wants said. */
#ifndef TESTS_VISIT_H
#define TESTS_VISIT_H

#include "support.h"

#include "web/server.h"

#include <stdbool.h>
#include <sys/types.h>

enum { VISIT_ANSWER_MAX = 1 << 20, VISIT_SAID_MAX = 1 << 14 };

struct visit {
	char folder[64], book[96];
	struct web_server_ask ask;
	pid_t server;
	int told; /* what the server says, line by line */
	unsigned port;
	char said[VISIT_SAID_MAX];
	char token[33], key[33]; /* of the page asked for last */
};

/* visit_open(f, visit): a folder with an invented book, of one generator G1 and
 * one batch 01.
 * visit_serve: the server in its process; visit->ask says how.  visit_end:
 * signals it and gives its exit status (256 + n: ended by signal n).
 * visit_close: all gone. */
void visit_open(struct fixture *f, struct visit *visit);
void visit_serve(struct visit *visit);
int visit_end(struct visit *visit, int signal);
void visit_close(struct visit *visit);

/* visit_connect(visit, host): a socket, with a time limit of 20 s.
 * visit_say(socket, bytes, n).  visit_hear(socket, answer): until the other side
 * closes or `most` bytes; returns their number. */
int visit_connect(const struct visit *visit, const char *host);
void visit_say(int socket, const char *bytes, size_t n);
size_t visit_hear(int socket, char *answer, size_t most);

/* visit_raw(visit, text, answer): says that and hears all; returns the status,
 * 0 if the server said nothing. */
int visit_raw(const struct visit *visit, const char *text, char *answer);
int visit_status(const char *answer);

/* visit_get(visit, address, answer): as a browser would; keeps the marks of the
 * page.  cookie: NULL none. */
int visit_get(struct visit *visit, const char *address, const char *cookie,
	char *answer);

/* visit_post(visit, address, fields, cookie, answer): fields without token and
 * key, which are visit's. */
int visit_post(const struct visit *visit, const char *address,
	const char *fields, const char *cookie, char *answer);

/* visit_check_count(visit): foam checks in the book with that gross weight, by
 * another connection; 0: all. */
int visit_check_count(const struct visit *visit, double gross_kg);

#endif /* TESTS_VISIT_H */

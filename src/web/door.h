/* door.h - signing in over the local network: the pages that stand outside. */
#ifndef WEB_DOOR_H
#define WEB_DOOR_H

#include "web/certificate.h"
#include "web/exchange.h"
#include "web/session.h"

struct door {
	struct sessions *sessions; /* NULL: this machine alone, no sign-in */
	const char *home; /* "http://192.168.1.20:8080", for the QR picture */
	bool tls;
	const struct certificate *certificate; /* NULL: none */
};

/* door_enter(door, exchange, cookie, is_near): who asks; fills session, role and
 * is_outside of the exchange.  is_near: from this very machine, which needs no
 * sign-in. */
void door_enter(struct door *door, struct exchange *exchange,
	const char *cookie, bool is_near);

/* door_is_own(exchange): the address is one of the door's own pages. */
bool door_is_own(const struct exchange *exchange);

/* door_looks_at_code(door, exchange): door_answer will take long, for it looks
 * at a code; to be called by the one thread that does such things. */
bool door_looks_at_code(
	const struct door *door, const struct exchange *exchange);

/* door_answer(door, exchange, reply): true: the door answers - its own pages, or
 * the way to the sign-in for whoever is outside. */
bool door_answer(
	struct door *door, struct exchange *exchange, struct web_reply *reply);

#endif /* WEB_DOOR_H */

/* watchdog.h - cuts off who sends a request too slowly.
 *
 * The time limit of libmicrohttpd is one of silence: a byte every few seconds
 * keeps a connection for ever.  This one is absolute: a request has to be there
 * so long after its connection was ready for it. */
#ifndef WEB_WATCHDOG_H
#define WEB_WATCHDOG_H

#include <stdint.h>

struct watchdog;
struct caller; /* one connection */

/* watchdog_start(request_s, form_s): so many seconds for the head of a request,
 * and for its form.  NULL: no memory or no thread. */
struct watchdog *watchdog_start(unsigned request_s, unsigned form_s);
void watchdog_stop(struct watchdog *dog); /* NULL does nothing */

/* caller_new(dog, socket): a connection came; NULL if there is no memory, then it
 * is not watched.  caller_gone: before its socket is closed. */
struct caller *caller_new(struct watchdog *dog, int socket);
void caller_gone(struct watchdog *dog, struct caller *caller);

/* What is waited for now; caller may be NULL. */
enum caller_part {
	CALLER_REQUEST, /* the head of a request */
	CALLER_FORM,    /* its form */
	CALLER_NOTHING  /* it is being answered */
};
void caller_part(
	struct watchdog *dog, struct caller *caller, enum caller_part part);

#endif /* WEB_WATCHDOG_H */

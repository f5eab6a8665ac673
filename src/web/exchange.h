/* exchange.h - one request being read, waited for and answered. */
#ifndef WEB_EXCHANGE_H
#define WEB_EXCHANGE_H

#include "web/request.h"
#include "web/store.h"

#include <microhttpd.h>
#include <stdint.h>

enum {
	EXCHANGE_FORM_MOST = 256 << 10, /* bytes of an ordinary form */
	EXCHANGE_FILES_MOST = 24 << 20  /* bytes of one that carries files */
};

struct exchange {
	struct exchange *next; /* in a queue */
	struct arena *arena;
	struct MHD_Connection *connection;
	const char *target; /* as on the wire */
	struct web_request request;
	char session[2 * 32 + 1]; /* "" on this machine, or not signed in */
	bool is_outside;          /* has to sign in first */

	/* of a form, while it is read */
	struct MHD_PostProcessor *reader;
	struct web_field *field;
	size_t *room; /* bytes there are for each value */
	size_t n_field, room_fields;
	size_t n_read, n_most; /* bytes so far, and at most */
	int refused;           /* a status, 0: nothing wrong so far */
	const char *why;       /* in words */

	/* what the thread of deeds does instead of a deed; NULL: a deed */
	void (*errand)(
		void *whom, struct exchange *exchange, struct web_reply *reply);
	void *errand_whom;

	struct answer *answer; /* once there is one */
	bool begun, waiting;
	int64_t since_ms;
};

/* exchange_new(target): NULL if there is no memory. */
struct exchange *exchange_new(const char *target);
void exchange_free(struct exchange *exchange);

/* exchange_field: MHD's post processor hands over the next piece of a field;
 * cls is the exchange. */
enum MHD_Result exchange_field(void *cls, enum MHD_ValueKind kind,
	const char *name, const char *file, const char *type,
	const char *encoding, const char *bytes, uint64_t at, size_t n);

/* exchange_end(exchange): the form is whole: its fields go to the request, if
 * all are UTF-8 without NUL. */
void exchange_end(struct exchange *exchange);

/* exchange_read(exchange, bytes, n): the next piece of a form; what is too much
 * or malformed is noted in refused and drained. */
void exchange_read(struct exchange *exchange, const char *bytes, size_t n);

/* exchange_refuse(exchange, status, why): the first refusal stays. */
void exchange_refuse(struct exchange *exchange, int status, const char *why);

/* exchange_digest(exchange, hex): of all fields but token and key, 32 digits. */
enum { EXCHANGE_DIGEST_HEX = 32 };
void exchange_digest(const struct exchange *exchange,
	char hex[static EXCHANGE_DIGEST_HEX + 1]);

#endif /* WEB_EXCHANGE_H */

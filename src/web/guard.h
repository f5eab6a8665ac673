/* guard.h - who may ask: the names this server answers to, and the mark that
 * only its own pages carry. */
#ifndef WEB_GUARD_H
#define WEB_GUARD_H

#include <stdbool.h>
#include <stddef.h>

enum { GUARD_TOKEN_HEX = 32, GUARD_NAMES_MOST = 32, GUARD_NAME_MAX = 80 };

struct guard {
	unsigned char secret[32];
	/* "127.0.0.1:8080": what a Host header may say */
	char name[GUARD_NAMES_MOST][GUARD_NAME_MAX];
	size_t n_name;
	bool tls;
};

/* guard_start(guard, tls): a fresh secret, no names.  guard_name: one more. */
void guard_start(struct guard *guard, bool tls);
void guard_name(struct guard *guard, const char *host, unsigned port);

/* guard_host(guard, host): the Host header names this server (against DNS
 * rebinding); NULL does not. */
bool guard_host(const struct guard *guard, const char *host);

/* guard_origin(guard, origin): the Origin header (RFC 6454) is of this server;
 * NULL, not sent, is let through: the token decides. */
bool guard_origin(const struct guard *guard, const char *origin);

/* guard_token(guard, session, token): the anti-forgery mark of a session, 32
 * hexadecimal digits.  guard_token_is: is it that, compared in constant
 * time. */
void guard_token(const struct guard *guard, const char *session,
	char token[static GUARD_TOKEN_HEX + 1]);
bool guard_token_is(
	const struct guard *guard, const char *session, const char *token);

/* guard_key(key): a fresh key of an entry, 32 hexadecimal digits.
 * guard_is_key(key): 16 to 64 letters, digits or hyphens. */
void guard_key(char key[static GUARD_TOKEN_HEX + 1]);
bool guard_is_key(const char *key);

#endif /* WEB_GUARD_H */

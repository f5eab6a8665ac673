/* guard.c - names, origins, tokens. */
#include "web/guard.h"

#include <ctype.h>
#include <sodium.h>
#include <stdio.h>
#include <string.h>

enum { TOKEN_BYTES = GUARD_TOKEN_HEX / 2, KEY_LEAST = 16, KEY_MOST = 64 };

void
guard_start(struct guard *guard, bool tls)
{
	*guard = (struct guard){.tls = tls};
	randombytes_buf(guard->secret, sizeof guard->secret);
}

void
guard_name(struct guard *guard, const char *host, unsigned port)
{
	unsigned usual = guard->tls ? 443 : 80;

	if (guard->n_name + 2 > GUARD_NAMES_MOST)
		return;
	(void)snprintf(guard->name[guard->n_name++], GUARD_NAME_MAX, "%s:%u",
		host, port);
	if (port == usual)
		(void)snprintf(guard->name[guard->n_name++], GUARD_NAME_MAX,
			"%s", host);
}

bool
guard_host(const struct guard *guard, const char *host)
{
	for (size_t i = 0; host != NULL && i < guard->n_name; i++)
		if (strcmp(guard->name[i], host) == 0)
			return true;
	return false;
}

bool
guard_origin(const struct guard *guard, const char *origin)
{
	const char *scheme = guard->tls ? "https://" : "http://";
	size_t n = strlen(scheme);

	if (origin == NULL)
		return true;
	return strncmp(origin, scheme, n) == 0 && guard_host(guard, origin + n);
}

void
guard_token(const struct guard *guard, const char *session,
	char token[static GUARD_TOKEN_HEX + 1])
{
	unsigned char digest[TOKEN_BYTES];

	(void)crypto_generichash(digest, sizeof digest,
		(const unsigned char *)session, strlen(session), guard->secret,
		sizeof guard->secret);
	(void)sodium_bin2hex(token, GUARD_TOKEN_HEX + 1, digest, sizeof digest);
}

bool
guard_token_is(
	const struct guard *guard, const char *session, const char *token)
{
	char own[GUARD_TOKEN_HEX + 1];

	if (token == NULL || strlen(token) != GUARD_TOKEN_HEX)
		return false;
	guard_token(guard, session, own);
	return sodium_memcmp(own, token, GUARD_TOKEN_HEX) == 0;
}

void
guard_key(char key[static GUARD_TOKEN_HEX + 1])
{
	unsigned char bytes[TOKEN_BYTES];

	randombytes_buf(bytes, sizeof bytes);
	(void)sodium_bin2hex(key, GUARD_TOKEN_HEX + 1, bytes, sizeof bytes);
}

bool
guard_is_key(const char *key)
{
	size_t n = key != NULL ? strlen(key) : 0;

	if (n < KEY_LEAST || n > KEY_MOST)
		return false;
	for (; *key != '\0'; key++)
		if (!isalnum((unsigned char)*key) && *key != '-')
			return false;
	return true;
}

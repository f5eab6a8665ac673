/* session.c - codes, cookies and pairing tokens. */
#include "web/session.h"

#include <ctype.h>
#include <pthread.h>
#include <sodium.h>
#include <stdlib.h>
#include <string.h>

enum {
	MINUTE_MS = 60000,
	PAIR_MS = 10 * MINUTE_MS,
	IDLE_MS = 12 * 60 * MINUTE_MS,
	TRIES = 5,
	ID_BYTES = SESSION_HEX / 2
};

struct session {
	char id[SESSION_HEX + 1]; /* "": free */
	enum session_role role;
	int64_t used_ms;
};

struct sessions {
	pthread_mutex_t lock; /* of all but the hashes, which stay */
	char hash[2][crypto_pwhash_STRBYTES]; /* to record, to read */
	struct session session[SESSIONS_MOST];
	char token[SESSION_HEX + 1]; /* "": none */
	int64_t token_until_ms;
	int64_t wrong_ms[TRIES]; /* when the last wrong codes were given */
	size_t n_wrong;
};

/* Letters and digits that are not taken for one another. */
static void
draw_code(char code[static SESSION_CODE + 1])
{
	static const char letters[] = "23456789ABCDEFGHJKMNPQRSTUVWXYZ";

	for (size_t i = 0; i < SESSION_CODE; i++)
		code[i] = letters[randombytes_uniform(sizeof letters - 1)];
	code[SESSION_CODE] = '\0';
}

static void
draw_hex(char hex[static SESSION_HEX + 1])
{
	unsigned char bytes[ID_BYTES];

	randombytes_buf(bytes, sizeof bytes);
	(void)sodium_bin2hex(hex, SESSION_HEX + 1, bytes, sizeof bytes);
}

static bool
hash_code(const char *code, char hash[static crypto_pwhash_STRBYTES])
{
	return crypto_pwhash_str(hash, code, strlen(code),
		       crypto_pwhash_OPSLIMIT_INTERACTIVE,
		       crypto_pwhash_MEMLIMIT_INTERACTIVE) == 0;
}

enum err_code
sessions_new(char record[static SESSION_CODE + 1],
	char read[static SESSION_CODE + 1], struct sessions **sessions,
	struct err *err)
{
	struct sessions *got = calloc(1, sizeof *got);

	if (got == NULL)
		return err_memory(err);
	draw_code(record);
	draw_code(read);
	if (!hash_code(record, got->hash[0]) ||
		!hash_code(read, got->hash[1])) {
		free(got);
		return err_memory(err);
	}
	if (pthread_mutex_init(&got->lock, NULL) != 0) {
		free(got);
		return err_memory(err);
	}
	*sessions = got;
	return ERR_NONE;
}

void
sessions_free(struct sessions *sessions)
{
	if (sessions == NULL)
		return;
	(void)pthread_mutex_destroy(&sessions->lock);
	sodium_memzero(sessions, sizeof *sessions);
	free(sessions);
}

/* A free place, else the one that was not used longest. */
static void
begin(struct sessions *sessions, enum session_role role, int64_t now_ms,
	char id[static SESSION_HEX + 1])
{
	struct session *place = &sessions->session[0];

	for (size_t i = 0; i < SESSIONS_MOST; i++) {
		struct session *s = &sessions->session[i];

		if (s->id[0] == '\0') {
			place = s;
			break;
		}
		if (s->used_ms < place->used_ms)
			place = s;
	}
	draw_hex(place->id);
	place->role = role;
	place->used_ms = now_ms;
	memcpy(id, place->id, SESSION_HEX + 1);
}

static bool
is_closed(const struct sessions *sessions, int64_t now_ms)
{
	return sessions->n_wrong >= TRIES &&
		now_ms - sessions->wrong_ms[sessions->n_wrong % TRIES] <
		MINUTE_MS;
}

/* As it was drawn: capitals, without spaces and hyphens.  One letter more than a
 * code has is kept, so that a code with more behind it is none. */
static void
tidy(const char *typed, char code[static SESSION_CODE + 2])
{
	size_t n = 0;

	for (; *typed != '\0' && n <= SESSION_CODE; typed++)
		if (isalnum((unsigned char)*typed))
			code[n++] = (char)toupper((unsigned char)*typed);
	code[n] = '\0';
}

/* Slow on purpose (Argon2id), and without the lock. */
static enum session_role
role_of_code(const struct sessions *sessions, const char *code)
{
	static const enum session_role role[] = {SESSION_RECORD, SESSION_READ};
	char tidied[SESSION_CODE + 2];

	tidy(code, tidied);
	for (size_t i = 0; i < 2; i++)
		if (crypto_pwhash_str_verify(
			    sessions->hash[i], tidied, strlen(tidied)) == 0)
			return role[i];
	return SESSION_NONE;
}

enum session_role
sessions_sign_in(struct sessions *sessions, const char *code, int64_t now_ms,
	char id[static SESSION_HEX + 1], bool *closed)
{
	enum session_role role;

	(void)pthread_mutex_lock(&sessions->lock);
	*closed = is_closed(sessions, now_ms);
	(void)pthread_mutex_unlock(&sessions->lock);
	if (*closed)
		return SESSION_NONE;
	role = role_of_code(sessions, code);
	(void)pthread_mutex_lock(&sessions->lock);
	if (role != SESSION_NONE)
		begin(sessions, role, now_ms, id);
	else
		sessions->wrong_ms[sessions->n_wrong++ % TRIES] = now_ms;
	(void)pthread_mutex_unlock(&sessions->lock);
	return role;
}

static struct session *
find(struct sessions *sessions, const char *id)
{
	if (id == NULL || strlen(id) != SESSION_HEX)
		return NULL;
	for (size_t i = 0; i < SESSIONS_MOST; i++)
		if (sessions->session[i].id[0] != '\0' &&
			sodium_memcmp(
				sessions->session[i].id, id, SESSION_HEX) == 0)
			return &sessions->session[i];
	return NULL;
}

enum session_role
sessions_role(struct sessions *sessions, const char *id, int64_t now_ms)
{
	enum session_role role = SESSION_NONE;
	struct session *s;

	(void)pthread_mutex_lock(&sessions->lock);
	s = find(sessions, id);
	if (s != NULL && now_ms - s->used_ms > IDLE_MS) {
		s->id[0] = '\0';
	} else if (s != NULL) {
		s->used_ms = now_ms;
		role = s->role;
	}
	(void)pthread_mutex_unlock(&sessions->lock);
	return role;
}

void
sessions_sign_out(struct sessions *sessions, const char *id)
{
	struct session *s;

	(void)pthread_mutex_lock(&sessions->lock);
	s = find(sessions, id);
	if (s != NULL)
		s->id[0] = '\0';
	(void)pthread_mutex_unlock(&sessions->lock);
}

void
sessions_pair_token(struct sessions *sessions, int64_t now_ms,
	char token[static SESSION_HEX + 1])
{
	(void)pthread_mutex_lock(&sessions->lock);
	draw_hex(sessions->token);
	sessions->token_until_ms = now_ms + PAIR_MS;
	memcpy(token, sessions->token, SESSION_HEX + 1);
	(void)pthread_mutex_unlock(&sessions->lock);
}

bool
sessions_pair(struct sessions *sessions, const char *token, int64_t now_ms,
	char id[static SESSION_HEX + 1])
{
	bool is_it;

	(void)pthread_mutex_lock(&sessions->lock);
	is_it = sessions->token[0] != '\0' && strlen(token) == SESSION_HEX &&
		now_ms <= sessions->token_until_ms &&
		sodium_memcmp(sessions->token, token, SESSION_HEX) == 0;
	if (is_it) {
		sessions->token[0] = '\0';
		begin(sessions, SESSION_RECORD, now_ms, id);
	}
	(void)pthread_mutex_unlock(&sessions->lock);
	return is_it;
}

/* session.h - who is signed in over the local network.
 *
 * Two codes are drawn when the program starts, one to read and one to record;
 * only their Argon2id hashes (RFC 9106) are kept.  A session is 32 random
 * bytes in a cookie.  A pairing token, shown as a QR picture, makes one session
 * and is gone.  Safe between threads: a code is looked at in one (Argon2id is
 * slow on purpose) while others ask for roles; codes are to be looked at by one
 * thread at a time, so that no more are tried than are counted. */
#ifndef WEB_SESSION_H
#define WEB_SESSION_H

#include "core/err.h"

#include <stdbool.h>
#include <stdint.h>

enum { SESSION_HEX = 64, SESSION_CODE = 10, SESSIONS_MOST = 64 };

enum session_role { SESSION_NONE, SESSION_READ, SESSION_RECORD };

struct sessions;

/* sessions_new(record, read, sessions, err): draws the codes, which are told
 * once.  ERR_MEMORY. */
enum err_code sessions_new(char record[static SESSION_CODE + 1],
	char read[static SESSION_CODE + 1], struct sessions **sessions,
	struct err *err) MUST_CHECK;
void sessions_free(struct sessions *sessions);

/* sessions_sign_in(sessions, code, now_ms, id): the role of the code, and a new
 * session's id; SESSION_NONE: no such code, or too many tries: five wrong ones
 * in a minute close the door for that minute (*closed). */
enum session_role sessions_sign_in(struct sessions *sessions, const char *code,
	int64_t now_ms, char id[static SESSION_HEX + 1], bool *closed);

/* sessions_role(sessions, id, now_ms): of a cookie; a session ends after twelve
 * hours without a request. */
enum session_role sessions_role(
	struct sessions *sessions, const char *id, int64_t now_ms);

void sessions_sign_out(struct sessions *sessions, const char *id);

/* sessions_pair_token(sessions, now_ms, token): a fresh token to record, good
 * for ten minutes and once; an earlier one is void.
 * sessions_pair(sessions, token, now_ms, id): false: it is not that, or over. */
void sessions_pair_token(struct sessions *sessions, int64_t now_ms,
	char token[static SESSION_HEX + 1]);
bool sessions_pair(struct sessions *sessions, const char *token, int64_t now_ms,
	char id[static SESSION_HEX + 1]);

#endif /* WEB_SESSION_H */

/* test_door.c - web/door, web/session, web/certificate over a socket: who may
 * come in from the network, and to do what. */
#include "visit.h"

#include "web/session.h"

#include <gnutls/gnutls.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char answer[VISIT_ANSWER_MAX];

/* The server seen from another machine. */
struct far {
	struct visit visit;
	char host[64]; /* the machine's address on its network */
	char record[16], read[16], pair[80];
};

static void
take_word(const char *said, const char *before, char *word, size_t room)
{
	const char *at = strstr(said, before);

	word[0] = '\0';
	if (at == NULL)
		return;
	at += strlen(before);
	(void)snprintf(word, room, "%.*s", (int)strcspn(at, " :/\n"), at);
}

static struct far *
open_far(struct fixture *f)
{
	struct far *far = arena_take(f->a, 1, sizeof *far);
	const char *second;

	assert_non_null(far);
	visit_open(f, &far->visit);
	far->visit.ask.lan = true;
	visit_serve(&far->visit);
	if (far->visit.port == 0) {
		assert_has(far->visit.said, "on no network");
		visit_close(&far->visit);
		skip();
	}
	take_word(far->visit.said, "code to record: ", far->record,
		sizeof far->record);
	take_word(far->visit.said, "code to read:   ", far->read,
		sizeof far->read);
	second = strchr(far->visit.said, '\n');
	assert_non_null(second);
	take_word(second, "http://", far->host, sizeof far->host);
	assert_int_equal(SESSION_CODE, strlen(far->record));
	assert_int_equal(SESSION_CODE, strlen(far->read));
	return far;
}

static void
keep_token(struct visit *visit)
{
	static const char name[] = "name=\"token\" value=\"";
	const char *at = strstr(answer, name);

	if (at != NULL)
		(void)snprintf(visit->token, sizeof visit->token, "%.32s",
			at + strlen(name));
}

static int
say_far(struct far *far, const char *method, const char *address,
	const char *cookie, const char *fields)
{
	char text[4096], body[1024] = "";
	int s = visit_connect(&far->visit, far->host), status;

	if (fields != NULL)
		(void)snprintf(body, sizeof body,
			"token=%s&key=0123456789abcdef%.16s&%s",
			far->visit.token, cookie != NULL ? cookie + 8 : "",
			fields);
	(void)snprintf(text, sizeof text,
		"%s %s HTTP/1.1\r\nHost: %s:%u\r\nConnection: close\r\n"
		"Cookie: %s\r\nContent-Length: %zu\r\n"
		"Content-Type: application/x-www-form-urlencoded\r\n\r\n%s",
		method, address, far->host, far->visit.port,
		cookie != NULL ? cookie : "language=en", strlen(body), body);
	visit_say(s, text, strlen(text));
	(void)visit_hear(s, answer, sizeof answer);
	(void)close(s);
	status = visit_status(answer);
	keep_token(&far->visit);
	return status;
}

/* The cookie that the answer sets: "session=...". */
static void
take_cookie(char cookie[128])
{
	take_word(answer, "Set-Cookie: ", cookie, 128);
	cookie[strcspn(cookie, ";")] = '\0';
}

static int
sign_in(struct far *far, const char *code, char cookie[128])
{
	char fields[64];
	int status;

	assert_int_equal(200, say_far(far, "GET", "/sign-in", NULL, NULL));
	(void)snprintf(fields, sizeof fields, "code=%s", code);
	status = say_far(far, "POST", "/sign-in", NULL, fields);
	take_cookie(cookie);
	return status;
}

static const char check_fields[] = "gross=1913&gross_unit=g&moment=middle";

static void
door__nobody_outside_sees_or_writes_anything(void **state)
{
	static const char *const address[] = {
#define WEB_ROUTE(path, get, post) path,
#include "web/route_names.h"
#undef WEB_ROUTE
		"/pair", "/pair/picture.svg", "/today.json", "/foam/G1.csv"};
	struct far *far = open_far(*state);

	assert_int_equal(200, say_far(far, "GET", "/sign-in", NULL, NULL));
	for (size_t i = 0; i < sizeof address / sizeof address[0]; i++) {
		assert_int_equal(
			303, say_far(far, "GET", address[i], NULL, NULL));
		assert_has(answer, "Location: /sign-in\r\n");
		assert_lacks(answer, "Visited");
		assert_int_equal(403,
			say_far(far, "POST", address[i], NULL, check_fields));
	}
	assert_int_equal(303,
		say_far(far, "GET", "/today",
			"session=000000000000000000000000000000000000000000000"
			"0000000000000000000",
			NULL));
	assert_int_equal(0, visit_check_count(&far->visit, 0));
	visit_close(&far->visit);
}

static void
door__the_code_to_record_lets_record(void **state)
{
	struct far *far = open_far(*state);
	char cookie[128];

	assert_int_equal(303, sign_in(far, far->record, cookie));
	assert_has(answer, "; Path=/; HttpOnly; SameSite=Strict\r\n");
	assert_int_equal(8 + SESSION_HEX, strlen(cookie));
	assert_int_equal(200, say_far(far, "GET", "/foam/G1", cookie, NULL));
	assert_int_equal(
		303, say_far(far, "POST", "/foam/G1", cookie, check_fields));
	assert_int_equal(1, visit_check_count(&far->visit, 1.913));
	assert_int_equal(200, say_far(far, "GET", "/today", cookie, NULL));
	assert_has(answer, "<a href=\"/pair\">Let a phone join</a>");
	assert_has(answer, "<a href=\"/sign-out\">Sign out</a>");
	assert_int_equal(200, say_far(far, "GET", "/sign-out", cookie, NULL));
	assert_has(answer, "action=\"/sign-out\"");
	assert_int_equal(200, say_far(far, "GET", "/today", cookie, NULL));
	assert_int_equal(303, say_far(far, "POST", "/sign-out", cookie, "a=b"));
	assert_has(answer, "Max-Age=0");
	assert_int_equal(200, say_far(far, "GET", "/sign-out", cookie, NULL));
	assert_has(answer, "This device is not signed in.");
	assert_int_equal(303, say_far(far, "GET", "/today", cookie, NULL));
	assert_has(answer, "Location: /sign-in\r\n");
	visit_close(&far->visit);
}

static void
door__the_code_to_read_lets_read_alone(void **state)
{
	struct far *far = open_far(*state);
	char cookie[128];

	assert_int_equal(303, sign_in(far, far->read, cookie));
	assert_int_equal(200, say_far(far, "GET", "/foam/G1", cookie, NULL));
	assert_lacks(answer, "method=\"post\"");
	assert_int_equal(200, say_far(far, "GET", "/today", cookie, NULL));
	assert_lacks(answer, "/pair");
	assert_has(answer, "<a href=\"/sign-out\">");
	assert_int_equal(
		403, say_far(far, "POST", "/foam/G1", cookie, check_fields));
	assert_int_equal(
		403, say_far(far, "POST", "/photos/01", cookie, check_fields));
	assert_int_equal(404, say_far(far, "GET", "/pair", cookie, NULL));
	assert_int_equal(0, visit_check_count(&far->visit, 0));
	visit_close(&far->visit);
}

/* A token of one session is none of another. */
static void
door__a_token_is_of_its_session(void **state)
{
	struct far *far = open_far(*state);
	char one[128], other[128];

	assert_int_equal(303, sign_in(far, far->record, one));
	assert_int_equal(303, sign_in(far, far->record, other));
	assert_string_not_equal(one, other);
	assert_int_equal(200, say_far(far, "GET", "/foam/G1", one, NULL));
	assert_int_equal(
		403, say_far(far, "POST", "/foam/G1", other, check_fields));
	assert_int_equal(
		303, say_far(far, "POST", "/foam/G1", one, check_fields));
	visit_close(&far->visit);
}

static void
door__wrong_codes_close_it_for_a_while(void **state)
{
	struct far *far = open_far(*state);
	char cookie[128];

	for (int i = 0; i < 5; i++) {
		assert_int_not_equal(303, sign_in(far, "ABCDEFGHJK", cookie));
		assert_has(answer, "not one of the codes");
		assert_string_equal("", cookie);
	}
	assert_int_not_equal(303, sign_in(far, far->record, cookie));
	assert_has(answer, "Too many wrong codes");
	assert_string_equal("", cookie);
	visit_close(&far->visit);
}

/* The times by which a session and a picture end, without waiting for them. */
static void
session__ends_when_it_should(void **state)
{
	enum { MINUTE_MS = 60000, HOUR_MS = 60 * MINUTE_MS };
	struct fixture *f = *state;
	char record[SESSION_CODE + 1], read[SESSION_CODE + 1];
	char id[SESSION_HEX + 1], token[SESSION_HEX + 1];
	struct sessions *s = NULL;
	bool closed;

	assert_ok(sessions_new(record, read, &s, &f->err), &f->err);
	assert_int_equal(
		SESSION_READ, sessions_sign_in(s, read, 1000, id, &closed));
	assert_int_equal(
		SESSION_READ, sessions_role(s, id, 1000 + 12 * HOUR_MS));
	assert_int_equal(
		SESSION_NONE, sessions_role(s, id, 1001 + 24 * HOUR_MS));
	sessions_pair_token(s, 0, token);
	assert_false(sessions_pair(s, token, 10 * MINUTE_MS + 1, id));
	sessions_pair_token(s, 0, token);
	assert_true(sessions_pair(s, token, 10 * MINUTE_MS, id));
	assert_int_equal(SESSION_RECORD, sessions_role(s, id, 0));
	assert_false(sessions_pair(s, token, 0, id));
	for (int i = 0; i < 5; i++)
		assert_int_equal(SESSION_NONE,
			sessions_sign_in(s, "WRONG", i, id, &closed));
	assert_int_equal(
		SESSION_NONE, sessions_sign_in(s, record, 10, id, &closed));
	assert_true(closed);
	assert_int_equal(SESSION_RECORD,
		sessions_sign_in(s, record, MINUTE_MS + 10, id, &closed));
	sessions_free(s);
}

/* --- Encrypted. --- */

static void
hear_all(gnutls_session_t session)
{
	size_t n = 0;

	for (;;) {
		ssize_t got = gnutls_record_recv(
			session, answer + n, sizeof answer - 1 - n);

		if (got == GNUTLS_E_AGAIN || got == GNUTLS_E_INTERRUPTED)
			continue;
		if (got <= 0)
			break;
		n += (size_t)got;
	}
	answer[n] = '\0';
}

/* Asks for an address as one who trusts the authority in the file; 0: the
 * certificate was not taken for that name. */
static int
ask_encrypted(const struct visit *visit, const char *name, const char *address,
	gnutls_protocol_t *protocol)
{
	char path[160], text[256];
	gnutls_certificate_credentials_t trust;
	gnutls_session_t session;
	int s = visit_connect(visit, "127.0.0.1"), code;

	(void)snprintf(path, sizeof path, "%s.tls", visit->book);
	assert_int_equal(0, gnutls_certificate_allocate_credentials(&trust));
	assert_int_equal(1,
		gnutls_certificate_set_x509_trust_file(
			trust, path, GNUTLS_X509_FMT_PEM));
	assert_int_equal(0, gnutls_init(&session, GNUTLS_CLIENT));
	assert_int_equal(0, gnutls_set_default_priority(session));
	assert_int_equal(0,
		gnutls_credentials_set(session, GNUTLS_CRD_CERTIFICATE, trust));
	gnutls_session_set_verify_cert(session, name, 0);
	gnutls_transport_set_int(session, s);
	do
		code = gnutls_handshake(session);
	while (code < 0 && !gnutls_error_is_fatal(code));
	answer[0] = '\0';
	if (code == 0) {
		*protocol = gnutls_protocol_get_version(session);
		(void)snprintf(text, sizeof text,
			"GET %s HTTP/1.1\r\nHost: %s:%u\r\n"
			"Connection: close\r\n\r\n",
			address, name, visit->port);
		(void)gnutls_record_send(session, text, strlen(text));
		hear_all(session);
	}
	gnutls_deinit(session);
	gnutls_certificate_free_credentials(trust);
	(void)close(s);
	return visit_status(answer);
}

static void
certificate__vouches_for_the_server_and_is_kept(void **state)
{
	struct visit *visit = arena_take(
		((struct fixture *)*state)->a, 1, sizeof *visit);
	gnutls_protocol_t protocol = GNUTLS_VERSION_UNKNOWN;
	char path[160], first[100], again[100];
	struct stat stat_of;

	assert_non_null(visit);
	visit_open(*state, visit);
	visit->ask.tls = true;
	(void)snprintf(path, sizeof path, "%s.tls", visit->book);
	for (int round = 0; round < 2; round++) {
		/* on the network, whose address may be no private one */
		visit->ask.lan = round == 1;
		visit_serve(visit);
		if (visit->port == 0) { /* there is none */
			visit->ask.lan = false;
			(void)visit_end(visit, 0);
			visit_serve(visit);
		}
		assert_has(visit->said, "https://127.0.0.1:");
		assert_int_equal(200,
			ask_encrypted(visit, "127.0.0.1", "/today", &protocol));
		assert_int_equal(GNUTLS_TLS1_3, protocol);
		assert_int_equal(200,
			ask_encrypted(visit, "localhost", "/words", &protocol));
		assert_int_equal(0,
			ask_encrypted(
				visit, "evil.example", "/today", &protocol));
		assert_int_equal(200,
			ask_encrypted(visit, "localhost", "/certificate.crt",
				&protocol));
		assert_has(answer, "application/x-x509-ca-cert");
		assert_has(answer, "\r\n\r\n-----BEGIN CERTIFICATE-----\n");
		assert_lacks(answer, "PRIVATE");
		assert_int_equal(200,
			ask_encrypted(
				visit, "localhost", "/certificate", &protocol));
		assert_int_equal(0, stat(path, &stat_of));
		assert_int_equal(0600, stat_of.st_mode & 0777);
		/* the authority stays; what it signs is new */
		(void)snprintf(round == 0 ? first : again, sizeof first,
			"%.95s", strstr(answer, "Fingerprint"));
		assert_int_equal(0, visit_end(visit, SIGTERM));
	}
	assert_string_equal(first, again);
	assert_int_equal(0, chmod(path, 0644));
	visit_serve(visit);
	assert_int_equal(0, visit->port);
	assert_has(visit->said, "Others than you can read");
	assert_int_equal(3, visit_end(visit, 0));
	visit_close(visit);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(door__nobody_outside_sees_or_writes_anything),
		TEST(door__the_code_to_record_lets_record),
		TEST(door__the_code_to_read_lets_read_alone),
		TEST(door__a_token_is_of_its_session),
		TEST(door__wrong_codes_close_it_for_a_while),
		TEST(session__ends_when_it_should),
		TEST(certificate__vouches_for_the_server_and_is_kept),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}

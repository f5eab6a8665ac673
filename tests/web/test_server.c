/* test_server.c - web/server over a socket: what it refuses, what it keeps, and
 * how it ends.
 *
 * Status codes: RFC 9110, 6585 (431).  The limits are our own. */
#include "visit.h"

#include "web/exchange.h"

#include <pthread.h>
#include <signal.h>
#include <sodium.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#define PORT_MARK "@" /* stands for the port in what is said raw */

static char answer[VISIT_ANSWER_MAX];

static struct visit *
open_visit(struct fixture *f, bool serve)
{
	struct visit *visit = arena_take(f->a, 1, sizeof *visit);

	assert_non_null(visit);
	visit_open(f, visit);
	visit->ask.request_s = 2;
	if (serve) {
		visit_serve(visit);
		assert_true(visit->port > 0);
	}
	return visit;
}

/* What is said, with the port in the places that are marked. */
static int
say(const struct visit *visit, const char *text)
{
	char said[8192];
	size_t n = 0;

	for (; *text != '\0' && n + 8 < sizeof said; text++)
		if (*text == PORT_MARK[0])
			n += (size_t)snprintf(said + n, 8, "%u", visit->port);
		else
			said[n++] = *text;
	said[n] = '\0';
	return visit_raw(visit, said, answer);
}

#define HOST "Host: 127.0.0.1:" PORT_MARK "\r\nConnection: close\r\n"

static void
server__a_page_has_every_guarding_header(void **state)
{
	static const char *const header[] = {
		"Content-Security-Policy: default-src 'none'; script-src "
		"'self'; style-src 'sha256-",
		"'; img-src 'self'; connect-src 'self'; form-action 'self'; "
		"base-uri 'none'; frame-ancestors 'none'\r\n",
		"X-Content-Type-Options: nosniff\r\n",
		"Referrer-Policy: same-origin\r\n", "X-Frame-Options: DENY\r\n",
		"Cache-Control: no-store\r\n",
		"Content-Type: text/html; charset=utf-8\r\n"};
	struct visit *visit = open_visit(*state, true);

	assert_int_equal(200, visit_get(visit, "/mixer", NULL, answer));
	for (size_t i = 0; i < sizeof header / sizeof header[0]; i++)
		assert_has(answer, header[i]);
	assert_lacks(answer, "Set-Cookie");
	assert_int_equal(404, visit_get(visit, "/no-such", NULL, answer));
	assert_has(answer, header[0]);
	visit_close(visit);
}

/* The style of a page is the one that its policy names: its digest by
 * libsodium, the name in the policy by the build's own tools. */
static void
server__the_style_of_a_page_is_the_one_its_policy_names(void **state)
{
	struct visit *visit = open_visit(*state, true);
	unsigned char digest[crypto_hash_sha256_BYTES];
	char base64[64], named[128];
	const char *from, *to;

	assert_int_equal(200, visit_get(visit, "/mixer", NULL, answer));
	from = strstr(answer, "<style>");
	assert_non_null(from);
	from += strlen("<style>");
	to = strstr(from, "</style>");
	assert_non_null(to);
	assert_true(to - from > 1000);
	crypto_hash_sha256(digest, (const unsigned char *)from,
		(unsigned long long)(to - from));
	(void)sodium_bin2base64(base64, sizeof base64, digest, sizeof digest,
		sodium_base64_VARIANT_ORIGINAL);
	(void)snprintf(named, sizeof named, "style-src 'sha256-%s';", base64);
	assert_has(answer, named);
	visit_close(visit);
}

static void
server__files_of_the_pages_go_packed_to_who_takes_that(void **state)
{
	struct visit *visit = open_visit(*state, true);
	char text[512], script[128];
	const char *at;

	assert_int_equal(200, visit_get(visit, "/mixer", NULL, answer));
	at = strstr(answer, "<script src=\"");
	assert_non_null(at);
	at += strlen("<script src=\"");
	(void)snprintf(
		script, sizeof script, "%.*s", (int)strcspn(at, "\""), at);
	(void)snprintf(text, sizeof text,
		"GET %s HTTP/1.1\r\n" HOST "Accept-Encoding: gzip\r\n\r\n",
		script);
	assert_int_equal(200, say(visit, text));
	assert_has(answer, "Content-Encoding: gzip\r\n");
	assert_has(answer, "Vary: Accept-Encoding\r\n");
	assert_has(answer, "Cache-Control: public, max-age=31536000");
	(void)snprintf(
		text, sizeof text, "GET %s HTTP/1.1\r\n" HOST "\r\n", script);
	assert_int_equal(200, say(visit, text));
	assert_lacks(answer, "Content-Encoding");
	assert_has(answer, "localStorage");
	visit_close(visit);
}

/* A browser that kept the worker for ever would keep its faults too. */
static void
server__the_worker_is_asked_for_anew_each_time(void **state)
{
	struct visit *visit = open_visit(*state, true);

	assert_int_equal(200, visit_get(visit, "/worker.js", NULL, answer));
	assert_has(answer, "Cache-Control: no-store\r\n");
	assert_has(answer, "Content-Type: text/javascript");
	assert_has(answer, "\"fetch\"");
	visit_close(visit);
}

static void
server__names_and_methods_that_are_not_its_own_are_refused(void **state)
{
	static const struct {
		int status;
		const char *text;
	} row[] = {
		{200, "GET /today HTTP/1.1\r\n" HOST "\r\n"},
		{200,
			"GET /today HTTP/1.1\r\nHost: localhost:" PORT_MARK
			"\r\nConnection: close\r\n\r\n"},
		{421,
			"GET /today HTTP/1.1\r\nHost: evil.example\r\n"
			"Connection: close\r\n\r\n"},
		{421,
			"GET /today HTTP/1.1\r\nHost: evil.example:" PORT_MARK
			"\r\nConnection: close\r\n\r\n"},
		{421,
			"GET /today HTTP/1.1\r\nHost: 127.0.0.1\r\n"
			"Connection: close\r\n\r\n"},
		{421,
			"GET /today HTTP/1.1\r\nHost: 127.0.0.1:" PORT_MARK
			".evil.example\r\nConnection: close\r\n\r\n"},
		{421,
			"GET /today HTTP/1.1\r\nHost: a@127.0.0.1:" PORT_MARK
			"0\r\nConnection: close\r\n\r\n"},
		{421, "GET /today HTTP/1.0\r\n\r\n"},
		{400,
			"GET /today HTTP/1.1\r\n" HOST
			"Host: evil.example\r\n\r\n"},
		{405, "BREW /today HTTP/1.1\r\n" HOST "\r\n"},
		{405, "DELETE /today HTTP/1.1\r\n" HOST "\r\n"},
		{405, "OPTIONS * HTTP/1.1\r\n" HOST "\r\n"},
		{404, "GET /../../etc/passwd HTTP/1.1\r\n" HOST "\r\n"},
		{404, "GET /%2e%2e/%2e%2e/etc/passwd HTTP/1.1\r\n" HOST "\r\n"},
		{400, "GET /piece/a%00b HTTP/1.1\r\n" HOST "\r\n"},
		{400, "GET /piece/%ff%fe HTTP/1.1\r\n" HOST "\r\n"},
		{400, "GET /search?q=%c3%28 HTTP/1.1\r\n" HOST "\r\n"},
		{400, "GET /search?q=%zz HTTP/1.1\r\n" HOST "\r\n"},
		{400, "GET /search?q=% HTTP/1.1\r\n" HOST "\r\n"},
		{415,
			"POST /foam/G1 HTTP/1.1\r\n" HOST
			"Content-Type: application/json\r\n"
			"Content-Length: 2\r\n\r\n{}"},
		{415,
			"POST /foam/G1 HTTP/1.1\r\n" HOST
			"Content-Length: 3\r\n\r\na=b"},
		{400,
			"POST /foam/G1 HTTP/1.1\r\n" HOST
			"Content-Type: application/x-www-form-urlencoded\r\n"
			"Content-Length: 3\r\nTransfer-Encoding: chunked\r\n"
			"\r\n3\r\na=b\r\n0\r\n\r\n"},
		{400,
			"POST /foam/G1 HTTP/1.1\r\n" HOST
			"Content-Type: application/x-www-form-urlencoded\r\n"
			"Content-Length: -1\r\n\r\n"},
	};
	struct visit *visit = open_visit(*state, true);

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		int status = say(visit, row[i].text);

		if (status != row[i].status)
			print_message("%d instead of %d: %s", status,
				row[i].status, row[i].text);
		assert_int_equal(row[i].status, status);
	}
	visit_close(visit);
}

static void
server__head_is_get_without_the_page(void **state)
{
	struct visit *visit = open_visit(*state, true);
	const char *end;

	assert_int_equal(
		200, say(visit, "HEAD /today HTTP/1.1\r\n" HOST "\r\n"));
	end = strstr(answer, "\r\n\r\n");
	assert_non_null(end);
	assert_int_equal(4, strlen(end));
	visit_close(visit);
}

static void
server__too_much_is_said_to_be_too_much(void **state)
{
	enum { LONG = 40000 };
	struct visit *visit = open_visit(*state, true);
	static char text[LONG + 1024];
	static char fill[LONG + 1];

	memset(fill, 'a', LONG);
	(void)snprintf(text, sizeof text, "GET /%s HTTP/1.1\r\n\r\n", fill);
	assert_int_equal(414, visit_raw(visit, text, answer));
	(void)snprintf(text, sizeof text,
		"GET /today HTTP/1.1\r\nHost: 127.0.0.1:%u\r\nX-Fill: "
		"%s\r\n\r\n",
		visit->port, fill);
	assert_int_equal(431, visit_raw(visit, text, answer));
	(void)snprintf(text, sizeof text,
		"GET /search?q=%.5000s HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n"
		"Connection: close\r\n\r\n",
		fill, visit->port);
	assert_int_equal(400, visit_raw(visit, text, answer));
	visit_close(visit);
}

/* A form of n bytes altogether, in pieces, as a network brings it. */
static int
send_form(const struct visit *visit, size_t n)
{
	static char piece[5000];
	char head[512];
	int s = visit_connect(visit, "127.0.0.1");

	memset(piece, 'a', sizeof piece);
	piece[0] = '&';
	piece[40] = '=';
	(void)snprintf(head, sizeof head,
		"POST /foam/G1 HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n"
		"Connection: close\r\nContent-Length: %zu\r\n"
		"Content-Type: application/x-www-form-urlencoded\r\n\r\n",
		visit->port, n);
	visit_say(s, head, strlen(head));
	while (n > 0) {
		size_t now = n < sizeof piece ? n : sizeof piece;

		visit_say(s, piece, now);
		n -= now;
	}
	(void)visit_hear(s, answer, sizeof answer);
	(void)close(s);
	return visit_status(answer);
}

static void
server__a_form_may_have_so_many_bytes_and_no_more(void **state)
{
	struct visit *visit = open_visit(*state, true);

	/* 403: read wholly, and without a token */
	assert_int_equal(403, send_form(visit, EXCHANGE_FORM_MOST - 1));
	assert_int_equal(403, send_form(visit, EXCHANGE_FORM_MOST));
	assert_int_equal(413, send_form(visit, EXCHANGE_FORM_MOST + 1));
	assert_int_equal(413, send_form(visit, 8 * EXCHANGE_FORM_MOST));
	assert_int_equal(0, visit_check_count(visit, 0));
	visit_close(visit);
}

static const char check_fields[] =
	"gross=1913&gross_unit=g&moment=middle&remark=";

static void
server__a_deed_needs_token_origin_and_key(void **state)
{
	static const struct {
		int status;
		const char *origin, *token, *key;
	} row[] = {{403, NULL, "", "k"}, {403, NULL, "x", "k"},
		{403, "Origin: http://evil.example\r\n", NULL, "k"},
		{403, "Origin: null\r\n", NULL, "k"},
		{403, "Origin: https://127.0.0.1:" PORT_MARK "\r\n", NULL, "k"},
		{400, NULL, NULL, ""}, {400, NULL, NULL, "short"},
		{400, NULL, NULL, "0123456789abcdef;drop"},
		{303, NULL, NULL, "k"}};
	struct visit *visit = open_visit(*state, true);

	assert_int_equal(200, visit_get(visit, "/foam/G1", NULL, answer));
	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		char text[2048], body[1024];

		(void)snprintf(body, sizeof body, "token=%s&key=%s&%s",
			row[i].token != NULL ? row[i].token : visit->token,
			strcmp(row[i].key, "k") == 0 ? visit->key : row[i].key,
			check_fields);
		(void)snprintf(text, sizeof text,
			"POST /foam/G1 HTTP/1.1\r\n" HOST
			"%sContent-Length: %zu\r\nContent-Type: "
			"application/x-www-form-urlencoded\r\n\r\n%s",
			row[i].origin != NULL ? row[i].origin : "",
			strlen(body), body);
		assert_int_equal(row[i].status, say(visit, text));
		assert_int_equal(
			row[i].status == 303, visit_check_count(visit, 1.913));
	}
	visit_close(visit);
}

static void
server__bytes_that_are_no_text_are_refused(void **state)
{
	static const char *const fields[] = {"gross=1%00&gross_unit=g",
		"gross=1913&remark=%ff", "gross=1913&remark=%c0%af",
		"gross=1913&remark=%ed%a0%80", "gross=1913&%fe=1"};
	struct visit *visit = open_visit(*state, true);

	assert_int_equal(200, visit_get(visit, "/foam/G1", NULL, answer));
	for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
		assert_int_equal(400,
			visit_post(visit, "/foam/G1", fields[i], NULL, answer));
	assert_int_equal(0, visit_check_count(visit, 0));
	visit_close(visit);
}

/* --- One key, one entry. --- */

enum { AT_ONCE = 50 };

struct sender {
	const struct visit *visit;
	pthread_t thread;
	int status;
	char *answer;
};

static void *
send_once(void *data)
{
	struct sender *sender = data;

	sender->status = visit_post(
		sender->visit, "/foam/G1", check_fields, NULL, sender->answer);
	return NULL;
}

static void
server__fifty_of_one_key_at_once_are_one_entry(void **state)
{
	struct visit *visit = open_visit(*state, true);
	static struct sender sender[AT_ONCE];

	assert_int_equal(200, visit_get(visit, "/foam/G1", NULL, answer));
	for (size_t i = 0; i < AT_ONCE; i++) {
		sender[i].visit = visit;
		sender[i].answer = malloc(VISIT_ANSWER_MAX);
		assert_non_null(sender[i].answer);
		assert_int_equal(0,
			pthread_create(&sender[i].thread, NULL, send_once,
				&sender[i]));
	}
	for (size_t i = 0; i < AT_ONCE; i++) {
		assert_int_equal(0, pthread_join(sender[i].thread, NULL));
		assert_int_equal(303, sender[i].status);
		assert_has(sender[i].answer, "Location: /foam/G1?saved=1\r\n");
		free(sender[i].answer);
	}
	assert_int_equal(1, visit_check_count(visit, 0));
	assert_int_equal(409,
		visit_post(visit, "/foam/G1",
			"gross=1914&gross_unit=g&moment=middle", NULL, answer));
	assert_int_equal(1, visit_check_count(visit, 0));
	visit_close(visit);
}

static void
server__a_key_is_known_after_a_new_start(void **state)
{
	struct visit *visit = open_visit(*state, true);
	char key[33];

	assert_int_equal(200, visit_get(visit, "/foam/G1", NULL, answer));
	(void)snprintf(key, sizeof key, "%s", visit->key);
	assert_int_equal(
		303, visit_post(visit, "/foam/G1", check_fields, NULL, answer));
	assert_int_equal(0, visit_end(visit, SIGTERM));
	visit_serve(visit);
	assert_int_equal(200, visit_get(visit, "/foam/G1", NULL, answer));
	(void)snprintf(visit->key, sizeof visit->key, "%s", key);
	assert_int_equal(
		303, visit_post(visit, "/foam/G1", check_fields, NULL, answer));
	assert_has(answer, "Location: /recorded\r\n");
	assert_int_equal(1, visit_check_count(visit, 0));
	visit_close(visit);
}

/* --- No page from before an entry. --- */

enum { ENTRIES = 15, ASKERS = 3 };

struct asker {
	const struct visit *visit;
	pthread_t thread;
	volatile sig_atomic_t *over;
	char *answer;
};

static void *
ask_on(void *data)
{
	struct asker *asker = data;
	char text[128];

	(void)snprintf(text, sizeof text,
		"GET /record HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n"
		"Connection: close\r\n\r\n",
		asker->visit->port);
	while (!*asker->over)
		(void)visit_raw(asker->visit, text, asker->answer);
	return NULL;
}

/* How many entries the page of the record tells of. */
static long
entries_told(struct visit *visit)
{
	static const char said[] = "Entries: ";
	const char *at;

	assert_int_equal(200, visit_get(visit, "/record", NULL, answer));
	at = strstr(answer, said);
	assert_non_null(at);
	return strtol(at + sizeof said - 1, NULL, 10);
}

/* A book whose record takes some 20 ms to prove. */
static void
fill_book(struct fixture *f, const struct visit *visit)
{
	const char *command = text_format(f->a,
		"'%s' import '%s' '%s/../../demo' >/dev/null",
		support_program(), visit->book, support_path(""));

	assert_non_null(command);
	assert_int_equal(0, system(command));
}

/* Two entries one after the other, while others ask for the same page all the
 * time: it is mostly being made from before the second when whoever made that
 * asks for it. */
static void
server__who_made_an_entry_sees_it_on_the_next_page(void **state)
{
	struct visit *visit = open_visit(*state, false);
	volatile sig_atomic_t over = 0;
	struct asker asker[ASKERS];
	long told;

	fill_book(*state, visit);
	visit_serve(visit);
	told = entries_told(visit);
	for (size_t i = 0; i < ASKERS; i++) {
		asker[i] = (struct asker){.visit = visit,
			.over = &over,
			.answer = malloc(VISIT_ANSWER_MAX)};
		assert_non_null(asker[i].answer);
		assert_int_equal(0,
			pthread_create(
				&asker[i].thread, NULL, ask_on, &asker[i]));
	}
	for (long i = 1; i <= ENTRIES; i++) {
		assert_int_equal(
			200, visit_get(visit, "/foam/G1", NULL, answer));
		assert_int_equal(303,
			visit_post(
				visit, "/foam/G1", check_fields, NULL, answer));
		visit->key[0] = visit->key[0] == '0' ? '1' : '0';
		assert_int_equal(303,
			visit_post(
				visit, "/foam/G1", check_fields, NULL, answer));
		assert_int_equal(told + 2 * i, entries_told(visit));
	}
	over = 1;
	for (size_t i = 0; i < ASKERS; i++) {
		assert_int_equal(0, pthread_join(asker[i].thread, NULL));
		free(asker[i].answer);
	}
	visit_close(visit);
}

/* The server is killed while entries come in: what it acknowledged stands in the
 * book, once; the last one may stand or not. */
static void
server__killed_in_the_middle_nothing_acknowledged_is_lost(void **state)
{
	enum { ROUNDS = 5, KILL_AFTER = 7 };
	struct visit *visit = open_visit(*state, false);
	int weight_g = 1500;

	for (int round = 0; round < ROUNDS; round++) {
		int first = weight_g, status;
		pid_t killer;

		visit_serve(visit);
		killer = 0;
		for (int n = 0;; n++, weight_g++) {
			char fields[64];
			struct timespec pause = {
				.tv_nsec = (1 + 3 * round) * 1000000L};

			if (visit_get(visit, "/foam/G1", NULL, answer) != 200)
				break;
			if (n == KILL_AFTER) {
				killer = fork();
				if (killer == 0) {
					(void)nanosleep(&pause, NULL);
					(void)kill(visit->server, SIGKILL);
					_exit(0);
				}
			}
			(void)snprintf(fields, sizeof fields,
				"gross=%d&gross_unit=g&moment=middle",
				weight_g);
			status = visit_post(
				visit, "/foam/G1", fields, NULL, answer);
			if (status != 303)
				break;
			if (n == KILL_AFTER) {
				weight_g++;
				break;
			}
		}
		if (killer > 0)
			(void)waitpid(killer, NULL, 0);
		assert_int_equal(256 + SIGKILL, visit_end(visit, SIGKILL));
		for (int g = first; g < weight_g; g++)
			assert_int_equal(1, visit_check_count(visit, g / 1e3));
		assert_in_range(visit_check_count(visit, weight_g / 1e3), 0, 1);
		weight_g++;
	}
	visit_close(visit);
}

/* --- Files sent in. --- */

/* A form with one file, of n bytes that begin with `first`. */
static int
send_file(const struct visit *visit, const char *address, const char *name,
	const char *first, size_t n_first, size_t n)
{
	static char piece[1 << 16];
	char head[512], parts[1024];
	static const char end[] = "\r\n--b0b--\r\n";
	int s = visit_connect(visit, "127.0.0.1");

	(void)snprintf(parts, sizeof parts,
		"--b0b\r\nContent-Disposition: form-data; name=\"token\"\r\n"
		"\r\n%s\r\n--b0b\r\nContent-Disposition: form-data; "
		"name=\"key\"\r\n\r\n%s\r\n--b0b\r\nContent-Disposition: "
		"form-data; name=\"taken\"; filename=\"%s\"\r\n"
		"Content-Type: image/jpeg\r\n\r\n",
		visit->token, visit->key, name);
	(void)snprintf(head, sizeof head,
		"POST %s HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n"
		"Connection: close\r\nContent-Length: %zu\r\n"
		"Content-Type: multipart/form-data; boundary=b0b\r\n\r\n",
		address, visit->port, strlen(parts) + n + strlen(end));
	visit_say(s, head, strlen(head));
	visit_say(s, parts, strlen(parts));
	visit_say(s, first, n_first);
	for (n -= n_first; n > 0;) {
		size_t now = n < sizeof piece ? n : sizeof piece;

		visit_say(s, piece, now);
		n -= now;
	}
	visit_say(s, end, strlen(end));
	(void)visit_hear(s, answer, sizeof answer);
	(void)close(s);
	return visit_status(answer);
}

/* A JPEG of the fewest parts (ITU-T T.81, annex B), of invented content. */
static const char least_jpeg[] =
	"\xff\xd8\xff\xc0\0\x0b\x08\0\x14\0\x28\x01\x01\x11\0"
	"\xff\xda\0\x08\x01\x01\0\0\x3f\0"
	"ab\xff\xd9";

static void
server__a_photo_is_kept_and_shown_as_a_picture_alone(void **state)
{
	struct visit *visit = open_visit(*state, true);
	const char *body;

	assert_int_equal(200, visit_get(visit, "/photos/01", NULL, answer));
	assert_int_equal(303,
		send_file(visit, "/photos/01", "evil.html", least_jpeg,
			sizeof least_jpeg - 1, sizeof least_jpeg - 1));
	assert_has(answer, "Location: /photos/01?saved=1\r\n");
	assert_int_equal(200, visit_get(visit, "/batch/01", NULL, answer));
	assert_has(answer, "src=\"/picture/01-1?sum=");
	assert_has(answer, "alt=\"Photo 01-1\"");
	assert_int_equal(200, visit_get(visit, "/picture/01-1", NULL, answer));
	assert_has(answer, "Content-Type: image/jpeg\r\n");
	assert_has(answer, "X-Content-Type-Options: nosniff\r\n");
	assert_has(answer,
		"Content-Security-Policy: default-src 'none'; sandbox; "
		"frame-ancestors 'none'\r\n");
	assert_has(answer, "Cache-Control: private");
	body = strstr(answer, "\r\n\r\n");
	assert_non_null(body);
	assert_memory_equal(least_jpeg, body + 4, sizeof least_jpeg - 1);
	assert_int_equal(404, visit_get(visit, "/picture/01-2", NULL, answer));
	visit_close(visit);
}

static void
server__what_is_no_photo_is_refused_beside_its_field(void **state)
{
	static const char html[] = "<html><script>alert(1)</script></html>";
	static const char svg[] = "<svg xmlns=\"http://www.w3.org/2000/svg\"/>";
	const struct {
		int status;
		const char *name, *bytes;
		size_t n;
	} row[] = {{422, "a.jpg", html, sizeof html - 1},
		{422, "a.svg", svg, sizeof svg - 1},
		{422, "cut.jpg", least_jpeg, sizeof least_jpeg - 3}};
	struct visit *visit = open_visit(*state, true);

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		assert_int_equal(
			200, visit_get(visit, "/photos/01", NULL, answer));
		assert_int_equal(row[i].status,
			send_file(visit, "/photos/01", row[i].name,
				row[i].bytes, row[i].n, row[i].n));
		assert_has(answer, "id=\"photo-taken-error\"");
	}
	assert_int_equal(404, visit_get(visit, "/picture/01-1", NULL, answer));
	assert_int_equal(404, visit_get(visit, "/photos/77", NULL, answer));
	visit_close(visit);
}

/* 24 MB with all that is around the file: read to the end and judged; more, and
 * what a phone may send in a slip, is too much. */
static void
server__a_form_with_files_may_have_so_many_bytes_and_no_more(void **state)
{
	const size_t around = 1024;
	struct visit *visit = open_visit(*state, true);

	assert_int_equal(200, visit_get(visit, "/photos/01", NULL, answer));
	assert_int_equal(422,
		send_file(visit, "/photos/01", "a.jpg", least_jpeg,
			sizeof least_jpeg - 1, EXCHANGE_FILES_MOST - around));
	assert_has(answer, "at most 12 MB");
	assert_int_equal(413,
		send_file(visit, "/photos/01", "a.jpg", least_jpeg,
			sizeof least_jpeg - 1, EXCHANGE_FILES_MOST + 1));
	assert_int_equal(413,
		send_file(visit, "/photos/01", "a.jpg", least_jpeg,
			sizeof least_jpeg - 1, 30 << 20));
	assert_int_equal(404, visit_get(visit, "/picture/01-1", NULL, answer));
	visit_close(visit);
}

/* --- Connections. --- */

static void
server__requests_in_one_breath_are_answered_in_order(void **state)
{
	struct visit *visit = open_visit(*state, true);
	char text[1024];
	const char *at = answer;
	static const int want[] = {200, 404, 200};

	(void)snprintf(text, sizeof text,
		"GET /words HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n\r\n"
		"GET /no-such HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n\r\n"
		"GET /today.json HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n"
		"Connection: close\r\n\r\n",
		visit->port, visit->port, visit->port);
	(void)visit_raw(visit, text, answer);
	for (size_t i = 0; i < 3; i++) {
		at = strstr(at, "HTTP/1.1 ");
		assert_non_null(at);
		assert_int_equal(want[i], visit_status(at));
		at++;
	}
	visit_close(visit);
}

/* A byte now and then does not keep a connection: it is closed within the time
 * for a request, though it was never silent for long; others are served
 * meanwhile. */
static void
server__a_slow_sender_is_cut_off(void **state)
{
	static const char head[] =
		"GET /today HTTP/1.1\r\nX-Slow: aaaaaaaaaaaa"
		"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa"
		"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa";
	const struct timespec pause = {.tv_nsec = 100000000L};
	struct visit *visit = open_visit(*state, true);
	int s = visit_connect(visit, "127.0.0.1");
	bool cut = false;

	for (size_t i = 0; i + 1 < sizeof head && !cut; i++) {
		char byte;

		if (send(s, head + i, 1, MSG_NOSIGNAL) != 1)
			cut = true;
		if (i % 10 == 0)
			assert_int_equal(
				200, visit_get(visit, "/words", NULL, answer));
		(void)nanosleep(&pause, NULL);
		if (recv(s, &byte, 1, MSG_DONTWAIT) == 0)
			cut = true;
	}
	assert_true(cut);
	(void)close(s);
	visit_close(visit);
}

static void
server__half_a_form_is_no_deed(void **state)
{
	struct visit *visit = open_visit(*state, true);
	char text[1024];
	int s;

	assert_int_equal(200, visit_get(visit, "/foam/G1", NULL, answer));
	(void)snprintf(text, sizeof text,
		"POST /foam/G1 HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n"
		"Content-Type: application/x-www-form-urlencoded\r\n"
		"Content-Length: 4000\r\n\r\ntoken=%s&key=%s&%s",
		visit->port, visit->token, visit->key, check_fields);
	s = visit_connect(visit, "127.0.0.1");
	visit_say(s, text, strlen(text));
	(void)close(s);
	assert_int_equal(200, visit_get(visit, "/foam/G1", NULL, answer));
	assert_int_equal(0, visit_check_count(visit, 0));
	visit_close(visit);
}

/* --- Beginning and ending. --- */

static void
server__a_taken_port_is_said_to_be_taken(void **state)
{
	struct visit *visit = open_visit(*state, true);
	struct visit *second = open_visit(*state, false);

	second->ask.port = visit->port;
	visit_serve(second);
	assert_int_equal(0, second->port);
	assert_has(second->said, "is taken by another program");
	assert_int_equal(3, visit_end(second, 0));
	visit_close(second);
	visit_close(visit);
}

/* Entries on their way when the signal comes: each is answered and stands in the
 * book, or is neither. */
static void
server__a_signal_ends_it_with_nothing_lost(void **state)
{
	struct visit *visit = open_visit(*state, true);
	static struct sender sender[10];
	int n_done = 0;

	assert_int_equal(200, visit_get(visit, "/foam/G1", NULL, answer));
	for (size_t i = 0; i < 10; i++) {
		sender[i].visit = visit;
		sender[i].answer = malloc(VISIT_ANSWER_MAX);
		assert_non_null(sender[i].answer);
	}
	assert_int_equal(
		303, visit_post(visit, "/foam/G1", check_fields, NULL, answer));
	for (size_t i = 0; i < 10; i++)
		assert_int_equal(0,
			pthread_create(&sender[i].thread, NULL, send_once,
				&sender[i]));
	assert_int_equal(0, kill(visit->server, SIGINT));
	for (size_t i = 0; i < 10; i++) {
		assert_int_equal(0, pthread_join(sender[i].thread, NULL));
		n_done += sender[i].status == 303;
		free(sender[i].answer);
	}
	assert_in_range(n_done, 0, 10);
	assert_int_equal(0, visit_end(visit, 0));
	assert_int_equal(1, visit_check_count(visit, 0));
	visit_close(visit);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(server__a_page_has_every_guarding_header),
		TEST(server__the_style_of_a_page_is_the_one_its_policy_names),
		TEST(server__files_of_the_pages_go_packed_to_who_takes_that),
		TEST(server__the_worker_is_asked_for_anew_each_time),
		TEST(server__names_and_methods_that_are_not_its_own_are_refused),
		TEST(server__head_is_get_without_the_page),
		TEST(server__a_photo_is_kept_and_shown_as_a_picture_alone),
		TEST(server__what_is_no_photo_is_refused_beside_its_field),
		TEST(server__a_form_with_files_may_have_so_many_bytes_and_no_more),
		TEST(server__too_much_is_said_to_be_too_much),
		TEST(server__a_form_may_have_so_many_bytes_and_no_more),
		TEST(server__a_deed_needs_token_origin_and_key),
		TEST(server__bytes_that_are_no_text_are_refused),
		TEST(server__fifty_of_one_key_at_once_are_one_entry),
		TEST(server__who_made_an_entry_sees_it_on_the_next_page),
		TEST(server__a_key_is_known_after_a_new_start),
		TEST(server__killed_in_the_middle_nothing_acknowledged_is_lost),
		TEST(server__requests_in_one_breath_are_answered_in_order),
		TEST(server__a_slow_sender_is_cut_off),
		TEST(server__half_a_form_is_no_deed),
		TEST(server__a_taken_port_is_said_to_be_taken),
		TEST(server__a_signal_ends_it_with_nothing_lost),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}

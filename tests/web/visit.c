/* visit.c - the server forked, the client by hand. */
#include "visit.h"

#include "book/book.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <signal.h>
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <unistd.h>

enum { MOMENT_S = 1773651600, LIMIT_S = 20 };

static void
put_generator(struct fixture *f, struct book *book)
{
	struct book_generator generator = {.row = {.typed = ""},
		.code = "G1",
		.metering = "volume",
		.target_kg_m3 = 62.4,
		.vessel_m3 = 0.01893,
		.vessel_kg = 0.731,
		.scale_step_kg = 0.005,
		.note = ""};

	assert_ok(book_begin(book, MOMENT_S, "tester", "a generator", NULL,
			  &f->err),
		&f->err);
	assert_ok(book_put_generator(book, &generator, &f->err), &f->err);
	assert_ok(book_commit(book, "", NULL, &f->err), &f->err);
}

/* A batch 01 of a mix without parts, for what belongs to a batch. */
static void
put_batch(struct fixture *f, struct book *book)
{
	struct book_mix mix = {.row = {.typed = ""},
		.code = "V",
		.name = "visited",
		.why = "",
		.matrix_code = "",
		.reinforcement = ""};
	struct book_trial trial = {
		.row = {.typed = ""}, .code = "T9", .question = ""};
	struct book_batch batch = {.row = {.typed = ""},
		.code = "01",
		.made_on = "2026-03-16",
		.remark = ""};

	assert_ok(
		book_begin(book, MOMENT_S, "tester", "a batch", NULL, &f->err),
		&f->err);
	assert_ok(book_put_mix(book, &mix, &f->err), &f->err);
	trial.baseline_mix_id = mix.row.id;
	assert_ok(book_put_trial(book, &trial, &f->err), &f->err);
	batch.mix_id = mix.row.id;
	batch.trial_id = trial.row.id;
	assert_ok(book_put_batch(book, &batch, &f->err), &f->err);
	assert_ok(book_commit(book, "", NULL, &f->err), &f->err);
}

void
visit_open(struct fixture *f, struct visit *visit)
{
	static const struct book_info info = {.row.typed = "",
		.name = "Visited",
		.note = "",
		.gallon = "us",
		.currency = "units"};
	struct book *book = NULL;

	memset(visit, 0, sizeof *visit);
	(void)snprintf(
		visit->folder, sizeof visit->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(visit->folder));
	(void)snprintf(
		visit->book, sizeof visit->book, "%s/a.book", visit->folder);
	assert_ok(book_create(visit->book, &info, MOMENT_S, "tester", &book,
			  &f->err),
		&f->err);
	put_generator(f, book);
	put_batch(f, book);
	book_close(book);
	visit->ask = (struct web_server_ask){
		.book = visit->book, .who = "tester"};
}

/* --- The server. --- */

static void
tell(void *whom, const char *line)
{
	const int *to = whom;

	(void)!write(*to, line, strlen(line));
	(void)!write(*to, "\n", 1);
}

static void
be_server(const struct visit *visit, int to)
{
	struct web_server_ask ask = visit->ask;
	struct err err = {.code = ERR_NONE};
	enum err_code code;

	ask.tell = tell;
	ask.whom = &to;
	(void)alarm(200);
	code = web_serve(&ask, &err);
	if (code != ERR_NONE)
		tell(&to, err.text);
	_exit(code == ERR_NONE ? 0 : 3);
}

/* Reads until the line that a person waits for is there. */
static void
listen_to(struct visit *visit)
{
	const char *last = visit->ask.lan ? "\xE2\x96\x88\n"
		: visit->ask.tls          ? "SHA-256 "
					  : "/\n";
	size_t n = 0;

	visit->said[0] = '\0';
	while (strstr(visit->said, last) == NULL) {
		ssize_t got = read(visit->told, visit->said + n,
			sizeof visit->said - 1 - n);

		if (got <= 0)
			break;
		n += (size_t)got;
		visit->said[n] = '\0';
	}
}

void
visit_serve(struct visit *visit)
{
	int ends[2];
	const char *port;

	assert_int_equal(0, pipe(ends));
	visit->server = fork();
	assert_true(visit->server >= 0);
	if (visit->server == 0) {
		(void)close(ends[0]);
		be_server(visit, ends[1]);
	}
	(void)close(ends[1]);
	visit->told = ends[0];
	listen_to(visit);
	port = strstr(visit->said, "://127.0.0.1:");
	visit->port = port != NULL
		? (unsigned)strtoul(port + strlen("://127.0.0.1:"), NULL, 10)
		: 0;
}

int
visit_end(struct visit *visit, int signal)
{
	int status = 0;

	assert_int_equal(0, kill(visit->server, signal));
	assert_int_equal(visit->server, waitpid(visit->server, &status, 0));
	visit->server = 0;
	(void)close(visit->told);
	return WIFEXITED(status) ? WEXITSTATUS(status) : 256 + WTERMSIG(status);
}

void
visit_close(struct visit *visit)
{
	char line[160];

	if (visit->server > 0)
		(void)visit_end(visit, SIGTERM);
	(void)unlink(visit->book);
	(void)snprintf(line, sizeof line, "%s.tls", visit->book);
	(void)unlink(line);
	(void)snprintf(line, sizeof line, "%s-journal", visit->book);
	(void)unlink(line);
	(void)rmdir(visit->folder);
}

/* --- The client. --- */

int
visit_connect(const struct visit *visit, const char *host)
{
	const struct timeval limit = {.tv_sec = LIMIT_S};
	struct sockaddr_in to = {.sin_family = AF_INET,
		.sin_port = htons((uint16_t)visit->port)};
	int s = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);

	assert_true(s >= 0);
	assert_int_equal(1, inet_pton(AF_INET, host, &to.sin_addr));
	(void)setsockopt(s, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
	(void)setsockopt(s, SOL_SOCKET, SO_SNDTIMEO, &limit, sizeof limit);
	assert_int_equal(0, connect(s, (struct sockaddr *)&to, sizeof to));
	return s;
}

void
visit_say(int socket, const char *bytes, size_t n)
{
	while (n > 0) {
		ssize_t sent = send(socket, bytes, n, MSG_NOSIGNAL);

		if (sent <= 0)
			return; /* the server has heard enough */
		bytes += sent;
		n -= (size_t)sent;
	}
}

size_t
visit_hear(int socket, char *answer, size_t most)
{
	size_t n = 0;

	while (n + 1 < most) {
		ssize_t got = recv(socket, answer + n, most - 1 - n, 0);

		if (got <= 0)
			break;
		n += (size_t)got;
	}
	answer[n] = '\0';
	return n;
}

int
visit_status(const char *answer)
{
	return strncmp(answer, "HTTP/1.", 7) == 0
		? (int)strtol(answer + 9, NULL, 10)
		: 0;
}

int
visit_raw(const struct visit *visit, const char *text, char *answer)
{
	int s = visit_connect(visit, "127.0.0.1");

	visit_say(s, text, strlen(text));
	(void)visit_hear(s, answer, VISIT_ANSWER_MAX);
	(void)close(s);
	return visit_status(answer);
}

static void
keep_mark(const char *answer, const char *name, char mark[33])
{
	char start[64];
	const char *at;

	(void)snprintf(start, sizeof start, "name=\"%s\" value=\"", name);
	at = strstr(answer, start);
	if (at != NULL)
		(void)snprintf(mark, 33, "%.32s", at + strlen(start));
}

int
visit_get(struct visit *visit, const char *address, const char *cookie,
	char *answer)
{
	char text[2048];
	int status;

	(void)snprintf(text, sizeof text,
		"GET %s HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n"
		"Connection: close\r\n%s%s%s\r\n",
		address, visit->port, cookie != NULL ? "Cookie: " : "",
		cookie != NULL ? cookie : "", cookie != NULL ? "\r\n" : "");
	status = visit_raw(visit, text, answer);
	keep_mark(answer, "token", visit->token);
	keep_mark(answer, "key", visit->key);
	return status;
}

int
visit_post(const struct visit *visit, const char *address, const char *fields,
	const char *cookie, char *answer)
{
	char text[4096], body[2048];

	(void)snprintf(body, sizeof body, "token=%s&key=%s%s%s", visit->token,
		visit->key, fields[0] != '\0' ? "&" : "", fields);
	(void)snprintf(text, sizeof text,
		"POST %s HTTP/1.1\r\nHost: 127.0.0.1:%u\r\n"
		"Origin: http://127.0.0.1:%u\r\nConnection: close\r\n"
		"Content-Type: application/x-www-form-urlencoded\r\n"
		"Content-Length: %zu\r\n%s%s%s\r\n%s",
		address, visit->port, visit->port, strlen(body),
		cookie != NULL ? "Cookie: " : "", cookie != NULL ? cookie : "",
		cookie != NULL ? "\r\n" : "", body);
	return visit_raw(visit, text, answer);
}

int
visit_check_count(const struct visit *visit, double gross_kg)
{
	sqlite3 *eye = NULL;
	sqlite3_stmt *s = NULL;
	int n = -1;

	assert_int_equal(SQLITE_OK,
		sqlite3_open_v2(
			visit->book, &eye, SQLITE_OPEN_READWRITE, NULL));
	assert_int_equal(SQLITE_OK,
		sqlite3_prepare_v2(eye,
			"SELECT count(*) FROM foam_check "
			"WHERE ?1 = 0 OR abs(gross_kg - ?1) < 1e-6",
			-1, &s, NULL));
	(void)sqlite3_bind_double(s, 1, gross_kg);
	if (sqlite3_step(s) == SQLITE_ROW)
		n = sqlite3_column_int(s, 0);
	(void)sqlite3_finalize(s);
	(void)sqlite3_close(eye);
	return n;
}

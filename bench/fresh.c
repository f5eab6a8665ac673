/* fresh.c - how long pages take the first time after a change of the book.
 *
 *   fresh PID HOST PORT BOOK KIND ROUNDS ADDRESS...
 *
 * Each page in turn is asked for right after an entry that another program wrote
 * into the book: a weighing of foam (KIND foam), which no estimate rests on, or
 * the depth of a beam corrected (KIND piece), which bending strength rests on.
 * Says, of each page, the median of the ROUNDS: what the asker waited, and the
 * processor time that the server took, which its neighbours lengthen less.  The
 * generator G1 and the beam 01-B-1 have to be in the book. */
#include "must.h"
#include "timing.h"

#include "work/foam.h"
#include "work/piece.h"
#include "work/shelf.h"

#include <arpa/inet.h>
#include <stdbool.h>
#include <string.h>
#include <sys/socket.h>
#include <unistd.h>

enum { ROUNDS_MOST = 101, PAGES_MOST = 200 };

static const double bar_s = 0.020;

struct asked {
	const char *host, *book, *kind;
	uint16_t port;
	clockid_t clock; /* of the server */
	size_t n_change;
};

struct took {
	double wall, processor;
};

static void
fail(const char *what)
{
	perror(what);
	exit(1);
}

static enum err_code
weigh_foam(const struct asked *asked, const struct desk *desk,
	struct arena *arena, struct err *err)
{
	const struct work_foam_ask ask = {.generator = "G1",
		.gross_kg = {true, 1.3 + 0.001 * (double)(asked->n_change % 7)},
		.typed = "{}"};
	struct work_foam_told told;

	return work_foam_put(desk, arena, &ask, &told, err);
}

static enum err_code
correct_piece(const struct asked *asked, const struct desk *desk,
	struct arena *arena, struct err *err)
{
	const struct work_piece_ask ask = {.code = "01-B-1",
		.depth_m = {true, 0.0735 + 1e-6 * (double)asked->n_change},
		.typed = "{}"};
	struct work_piece_told told;

	return work_piece_put(desk, arena, &ask, &told, err);
}

static void
change(struct asked *asked)
{
	struct desk desk = {.now_utc_s = (int64_t)time(NULL), .who = "bench"};
	struct arena *arena = arena_new((size_t)1 << 28);
	struct err err = {.code = ERR_NONE};

	asked->n_change++;
	must(work_open(asked->book, true, &desk, &err), &err);
	must(strcmp(asked->kind, "foam") == 0
			? weigh_foam(asked, &desk, arena, &err)
			: correct_piece(asked, &desk, arena, &err),
		&err);
	work_close(&desk);
	arena_free(arena);
}

static double
processor_now(const struct asked *asked)
{
	struct timespec t;

	if (clock_gettime(asked->clock, &t) != 0)
		fail("clock_gettime");
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* The whole answer, read to its end; only its status is looked at. */
static struct took
get(const struct asked *asked, const char *address, int *status)
{
	struct sockaddr_in to = {
		.sin_family = AF_INET, .sin_port = htons(asked->port)};
	char text[4096];
	double wall, processor = processor_now(asked);
	ssize_t got;
	int s = socket(AF_INET, SOCK_STREAM, 0);

	*status = 0;
	(void)inet_pton(AF_INET, asked->host, &to.sin_addr);
	if (s < 0 || connect(s, (struct sockaddr *)&to, sizeof to) != 0)
		fail("connect");
	int n = snprintf(text, sizeof text,
		"GET %s HTTP/1.1\r\nHost: %s:%u\r\nAccept-Encoding: gzip\r\n"
		"Connection: close\r\n\r\n",
		address, asked->host, asked->port);
	wall = timing_now();
	if (write(s, text, (size_t)n) != n)
		fail("write");
	while ((got = read(s, text, sizeof text)) > 0)
		if (*status == 0)
			(void)sscanf(text, "HTTP/1.1 %d", status);
	wall = timing_now() - wall;
	(void)close(s);
	if (got < 0 || (*status != 200 && *status != 202)) {
		(void)fprintf(stderr, "%s: status %d\n", address, *status);
		exit(1);
	}
	return (struct took){wall, processor_now(asked) - processor};
}

static double
median(double *seconds, size_t n)
{
	qsort(seconds, n, sizeof *seconds, timing_compare);
	return seconds[n / 2];
}

/* A page that is long in the computing says so, and is asked for again. */
static struct took
wait_for(const struct asked *asked, const char *address)
{
	struct took all = {0, 0};
	int status = 202;

	while (status == 202) {
		struct took one = get(asked, address, &status);

		all.wall += one.wall;
		all.processor += one.processor;
	}
	return all;
}

static struct took
measure(struct asked *asked, const char *address, size_t rounds)
{
	double wall[ROUNDS_MOST], processor[ROUNDS_MOST];

	for (size_t i = 0; i < rounds; i++) {
		struct took one;

		change(asked);
		one = wait_for(asked, address);
		wall[i] = one.wall;
		processor[i] = one.processor;
	}
	return (struct took){median(wall, rounds), median(processor, rounds)};
}

static void
say(char **address, const struct took *page, size_t n)
{
	double wall[PAGES_MOST], processor[PAGES_MOST];
	size_t n_over = 0;

	for (size_t i = 0; i < n; i++) {
		wall[i] = page[i].wall;
		processor[i] = page[i].processor;
		n_over += page[i].wall > bar_s;
		(void)printf("  %8.2f ms waited, %8.2f ms of processor  %s\n",
			1e3 * wall[i], 1e3 * processor[i], address[i]);
	}
	qsort(wall, n, sizeof *wall, timing_compare);
	qsort(processor, n, sizeof *processor, timing_compare);
	(void)printf("  %zu pages, %zu over %.0f ms; waited: median %.2f ms, "
		     "worst %.2f ms; processor: median %.2f ms, worst %.2f "
		     "ms\n",
		n, n_over, 1e3 * bar_s, 1e3 * wall[n / 2], 1e3 * wall[n - 1],
		1e3 * processor[n / 2], 1e3 * processor[n - 1]);
}

int
main(int n, char **word)
{
	static struct took page[PAGES_MOST];
	struct asked asked;
	size_t n_page, rounds;

	if (n < 8 || n - 7 > PAGES_MOST)
		return 2;
	asked = (struct asked){.host = word[2],
		.port = (uint16_t)strtoul(word[3], NULL, 10),
		.book = word[4],
		.kind = word[5]};
	if (clock_getcpuclockid(
		    (pid_t)strtol(word[1], NULL, 10), &asked.clock) != 0)
		return 2;
	rounds = (size_t)strtoul(word[6], NULL, 10);
	if (rounds == 0 || rounds > ROUNDS_MOST)
		return 2;
	n_page = (size_t)n - 7;
	for (size_t i = 0; i < n_page; i++)
		page[i] = measure(&asked, word[i + 7], rounds);
	say(word + 7, page, n_page);
	return 0;
}

/* test_fresh.c - pages made with what was remembered of earlier computings are
 * byte by byte those made without, whatever was changed in between; the demo
 * book, few draws. */
#include "support.h"

#include "core/memo.h"
#include "web/dispatch.h"
#include "work/shelf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* Little room, so that what was kept goes too while it is tested. */
enum { ROOM = 300000, CHAINS = 4, KEEP = 25 };

static const char *const addresses[] = {"/today", "/compare.json",
	"/next?batch=18&budget=50", "/choose", "/screen", "/part/floor",
	"/chart/relation/crushing_strength.svg",
	"/chart/front/wall-w.svg?across=density&up=strength&density=1&"
	"strength=1&cost=1&labour=0&heat=1"};

enum { ADDRESSES = sizeof addresses / sizeof addresses[0] };

struct book_at {
	char folder[32], path[64];
	struct memo *memo;
	uint64_t seed;
	size_t n_keep;
	char *before[ADDRESSES]; /* the pages as they were */
};

/* The program with the book as its first word. */
static void
run(const struct book_at *at, const char *command, const char *words)
{
	char text[1024];

	(void)snprintf(text, sizeof text, "'%s' %s '%s' %s >/dev/null",
		support_program(), command, at->path, words);
	if (system(text) != 0)
		fail_msg("%s", text);
}

static char *
page(const struct book_at *at, const char *address, const char *language,
	struct memo *memo)
{
	struct arena *arena = arena_new((size_t)1 << 30);
	struct web_request request = {.method = WEB_GET,
		.language = language,
		.may_record = true,
		.arena = arena,
		.desk = {.now_utc_s = 1777900000, /* 2026-05-04 */
			.who = "tester",
			.seed = at->seed,
			.n_chain = CHAINS,
			.n_keep = at->n_keep,
			.memo = memo}};
	struct err err = {.code = ERR_NONE};
	struct web_reply reply;
	char *copy;

	assert_ok(web_address(arena, address, &request, &err), &err);
	assert_ok(work_open(at->path, false, &request.desk, &err), &err);
	web_dispatch(&request, &reply);
	work_close(&request.desk);
	copy = malloc(reply.body.n + 1);
	assert_non_null(copy);
	memcpy(copy, reply.body.bytes, reply.body.n);
	copy[reply.body.n] = '\0';
	arena_free(arena);
	return copy;
}

/* The pages share much, so that the memo is both filled and asked. */
static void
assert_same(struct book_at *at, const char *language)
{
	for (size_t i = 0; i < ADDRESSES; i++) {
		char *anew = page(at, addresses[i], language, NULL);

		for (int k = 0; k < 2; k++) {
			char *kept = page(at, addresses[i], language, at->memo);

			if (strcmp(anew, kept) != 0)
				fail_msg("%s differs", addresses[i]);
			free(kept);
		}
		free(at->before[i]);
		at->before[i] = anew;
	}
	assert_true(memo_used(at->memo) <= ROOM);
}

static void
open_book(struct book_at *at)
{
	char demo[1024];

	*at = (struct book_at){.seed = 1, .n_keep = KEEP};
	(void)snprintf(at->folder, sizeof at->folder, "/var/tmp/fwXXXXXX");
	assert_non_null(mkdtemp(at->folder));
	(void)snprintf(at->path, sizeof at->path, "%s/a.book", at->folder);
	(void)snprintf(
		demo, sizeof demo, "'%s/demo'", getenv("FOAMWRIGHT_SOURCE"));
	run(at, "new", "");
	run(at, "import", demo);
	at->memo = memo_new(ROOM);
	assert_non_null(at->memo);
}

static void
close_book(struct book_at *at)
{
	for (size_t i = 0; i < ADDRESSES; i++)
		free(at->before[i]);
	memo_free(at->memo);
	(void)unlink(at->path);
	(void)rmdir(at->folder);
}

/* Where the change has to be seen: the page differs from what it was. */
static void
assert_moved(const struct book_at *at, const char *address, const char *was)
{
	for (size_t i = 0; i < ADDRESSES; i++)
		if (strcmp(addresses[i], address) == 0 &&
			strcmp(at->before[i], was) == 0)
			fail_msg("%s stayed what it was", address);
}

static char *
copy_of(const struct book_at *at, const char *address)
{
	for (size_t i = 0; i < ADDRESSES; i++)
		if (strcmp(addresses[i], address) == 0)
			return strdup(at->before[i]);
	fail();
	return NULL;
}

static void
pages__are_the_same_with_what_is_remembered(void **state)
{
	static const struct {
		const char *command, *words, *seen_on;
	} change[] = {
		{"piece", "01-B-1 --depth '73.9 mm'", "/compare.json"},
		{"piece", "01-B-2 --mass '2.9 kg'",
			"/chart/relation/"
			"crushing_strength.svg"},
		{"material", "cement --price 5.25", "/choose"},
		{"part", "floor --least bending_strength='0.5 N/mm2'",
			"/choose"},
		{"part", "wall-w --load '2 kN/m' --wind '500 Pa'", "/screen"},
		{"part", "wall-w --safety 4", "/screen"},
		{"part", "wall-w --thickness '250 mm'", "/screen"},
		{"weights", "--weigh cost=2 --weigh heat=1", "/choose"},
		{"withdraw", "batch 09 --because 'wrong sheet'",
			"/next?batch=18&budget=50"},
		{"restore", "batch 09 --because 'it was right'",
			"/compare.json"},
		{"piece", "04-F-1 --fate 'set aside' --remark 'a test'",
			"/compare.json"},
		{"withdraw", "reading 02-P-1 bending 1 --because 'misread'",
			"/today"},
		{"undo", "3", "/compare.json"},
	};
	struct book_at at;

	(void)state;
	open_book(&at);
	assert_same(&at, "en");
	for (size_t i = 0; i < sizeof change / sizeof change[0]; i++) {
		char *was = copy_of(&at, change[i].seen_on);

		run(&at, change[i].command, change[i].words);
		assert_same(&at, "en");
		assert_moved(&at, change[i].seen_on, was);
		free(was);
	}
	at.seed = 7;
	assert_same(&at, "es");
	at.n_keep = 2 * KEEP;
	assert_same(&at, "en");
	close_book(&at);
}

static const struct CMUnitTest tests[] = {
	TEST(pages__are_the_same_with_what_is_remembered),
};

TEST_MAIN(tests)

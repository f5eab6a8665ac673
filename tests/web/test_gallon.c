/* test_gallon.c - a gallon is the book's own, on the pages and on the command
 * line alike. */
#include "support.h"

#include "book/book.h"
#include "web/dispatch.h"
#include "work/shelf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* 231 in3 (NIST SP 811, App. B.8) and the UK gallon (Weights and Measures Act
 * 1985, Schedule 1): exact by definition. */
static const double us_m3 = 231 * 0.0254 * 0.0254 * 0.0254;
static const double imperial_m3 = 4.54609e-3;

static const char path[] = "gallon-test.book";

static int
say(const char *words)
{
	char command[400];

	(void)snprintf(command, sizeof command, "'%s' %s >gallon-test.out 2>&1",
		support_program(), words);
	return system(command);
}

static void
begin(const char *which)
{
	char words[100];

	(void)unlink(path);
	(void)snprintf(words, sizeof words, "new %s%s", path, which);
	assert_int_equal(0, say(words));
}

/* The page of the mixer, as a phone would send it. */
static int
send_mixer(struct fixture *f, struct desk *desk, const char *amount,
	const char *unit)
{
	const struct web_field given[] = {{"form", "gear", 4, NULL},
		{"mixer", amount, strlen(amount), NULL},
		{"mixer_unit", unit, strlen(unit), NULL}};
	struct web_request request = {.method = WEB_POST,
		.path = "/gear",
		.tail = "",
		.field = given,
		.n_field = 3,
		.language = "en",
		.may_record = true,
		.arena = f->a,
		.desk = *desk};
	struct web_reply reply;

	web_dispatch(&request, &reply);
	return reply.status;
}

static double
mixer_m3(struct fixture *f, const struct desk *desk)
{
	const struct book_gear *gear;
	size_t n;

	assert_ok(book_all_gear(desk->book, f->a, &gear, &n, &f->err), &f->err);
	assert_int_equal(1, n);
	assert_true(gear[0].mixer_m3.has);
	return gear[0].mixer_m3.value;
}

static void
check_pages(struct fixture *f, double gallon_m3)
{
	static const struct {
		const char *amount, *unit;
	} typed[] = {{"37", "gal"}, {"37 gallons", "L"}, {"148", "qt"}};
	struct desk desk = {.now_utc_s = 1773651600, .who = "tester"};

	assert_ok(work_open(path, true, &desk, &f->err), &f->err);
	for (size_t i = 0; i < sizeof typed / sizeof typed[0]; i++) {
		assert_int_equal(303,
			send_mixer(f, &desk, typed[i].amount, typed[i].unit));
		assert_near(mixer_m3(f, &desk), 37 * gallon_m3, 1e-14, 0);
	}
	assert_int_equal(303, send_mixer(f, &desk, "37 US gal", "L"));
	assert_near(mixer_m3(f, &desk), 37 * us_m3, 1e-14, 0);
	assert_int_equal(303, send_mixer(f, &desk, "37 imp gal", "L"));
	assert_near(mixer_m3(f, &desk), 37 * imperial_m3, 1e-14, 0);
	work_close(&desk);
}

static void
check_commands(struct fixture *f, double gallon_m3)
{
	struct desk desk = {.now_utc_s = 1773651600, .who = "tester"};

	assert_int_equal(0, say("gear gallon-test.book --mixer '29 gal'"));
	assert_ok(work_open(path, false, &desk, &f->err), &f->err);
	assert_near(mixer_m3(f, &desk), 29 * gallon_m3, 1e-14, 0);
	work_close(&desk);
	assert_int_equal(0, say("gear gallon-test.book --mixer '29 imp gal'"));
	assert_ok(work_open(path, false, &desk, &f->err), &f->err);
	assert_near(mixer_m3(f, &desk), 29 * imperial_m3, 1e-14, 0);
	work_close(&desk);
}

static void
gallon__is_the_us_one_where_nothing_was_said(void **state)
{
	begin("");
	check_pages(*state, us_m3);
	check_commands(*state, us_m3);
}

static void
gallon__is_imperial_in_a_book_that_says_so(void **state)
{
	begin(" --gallon imperial");
	check_pages(*state, imperial_m3);
	check_commands(*state, imperial_m3);
}

static void
gallon__of_a_part_of_a_mix_is_the_books_too(void **state)
{
	struct fixture *f = *state;
	struct desk desk = {.now_utc_s = 1773651600, .who = "tester"};
	const struct book_mix_part *part;
	size_t n;

	begin(" --gallon imperial");
	assert_int_equal(
		0, say("material gallon-test.book cement --from cement"));
	assert_int_equal(
		0, say("material gallon-test.book water --from water"));
	assert_int_equal(0,
		say("mix gallon-test.book P --part 'cement=20 kg' --part "
		    "'water=2 gal' --wet '720 kg/m3' --foam '70 g/L'"));
	assert_ok(work_open(path, false, &desk, &f->err), &f->err);
	assert_ok(book_all_mix_part(desk.book, f->a, &part, &n, &f->err),
		&f->err);
	assert_int_equal(2, n);
	/* 2 imperial gallons of water at 998.2 kg/m3 to 20 kg of cement: at 20
	 * degC by the CRC Handbook, from memory; the book's own density of water
	 * may differ by 0.2 %, a US gallon by 20 % */
	assert_near(part[1].mass_kg_per_m3 / part[0].mass_kg_per_m3,
		2 * imperial_m3 * 998.2 / 20, 3e-3, 0);
	work_close(&desk);
}

/* What the last command said. */
static void
assert_said(const char *words, bool said)
{
	char bytes[4096];
	FILE *file = fopen("gallon-test.out", "rb");
	size_t n;

	assert_non_null(file);
	n = fread(bytes, 1, sizeof bytes - 1, file);
	(void)fclose(file);
	bytes[n] = '\0';
	assert_int_equal(said, strstr(bytes, words) != NULL);
}

static void
gallon__is_told_where_it_is_not_the_us_one(void **state)
{
	(void)state;
	begin(" --gallon imperial");
	assert_said("imperial gallons", true);
	assert_int_equal(0, say("status gallon-test.book"));
	assert_said("imperial gallons", true);
	assert_int_equal(0, say("status gallon-test.book --json"));
	assert_said("\"gallon\": \"imperial\"", true);
	begin("");
	assert_int_equal(0, say("status gallon-test.book"));
	assert_said("A gallon", false);
}

static void
gallon__of_another_name_is_refused(void **state)
{
	(void)state;
	(void)unlink(path);
	assert_int_not_equal(0, say("new gallon-test.book --gallon Scottish"));
	assert_int_not_equal(0, access(path, F_OK));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(gallon__is_the_us_one_where_nothing_was_said),
		TEST(gallon__is_imperial_in_a_book_that_says_so),
		TEST(gallon__of_a_part_of_a_mix_is_the_books_too),
		TEST(gallon__is_told_where_it_is_not_the_us_one),
		TEST(gallon__of_another_name_is_refused),
	};

	int failed = cmocka_run_group_tests(tests, NULL, NULL);

	(void)unlink(path);
	(void)unlink("gallon-test.out");
	return failed;
}

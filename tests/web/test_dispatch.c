/* test_dispatch.c - web/dispatch and web/exchange: addresses and forms taken
 * apart. */
#include "support.h"

#include "web/dispatch.h"
#include "web/exchange.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void
dispatch__an_address_is_taken_apart(void **state)
{
	static const struct {
		const char *target, *path, *name, *value;
		enum web_twin twin;
	} row[] = {
		{"/today", "/today", NULL, NULL, WEB_PAGE},
		{"/today.json", "/today", NULL, NULL, WEB_JSON},
		{"/piece/K3%2F7.csv?q=1", "/piece/K3/7", "q", "1", WEB_CSV},
		{"/search?q=a+b%2Bc%26", "/search", "q", "a b+c&", WEB_PAGE},
		{"/search?&&q=%C3%B1&", "/search", "q", "\xC3\xB1", WEB_PAGE},
		{"/search?q", "/search", "q", NULL, WEB_PAGE},
		{"/a+b", "/a+b", NULL, NULL, WEB_PAGE},
	};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		struct web_request request = {.arena = f->a};

		assert_ok(web_address(f->a, row[i].target, &request, &f->err),
			&f->err);
		assert_string_equal(row[i].path, request.path);
		assert_int_equal(row[i].twin, request.twin);
		assert_int_equal(row[i].name != NULL, request.n_query);
		if (row[i].value != NULL)
			assert_string_equal(
				row[i].value, web_query(&request, row[i].name));
		else if (row[i].name != NULL)
			assert_null(web_query(&request, row[i].name));
	}
}

static void
dispatch__what_is_no_text_is_refused(void **state)
{
	static const char *const bad[] = {"/%", "/%a", "/%zz", "/%00",
		"/a?b=%00", "/%ff", "/%c0%af", "/%ed%a0%80", "/%f4%90%80%80",
		"/a?%", "/a?b=%4"};
	struct fixture *f = *state;
	char *long_one = arena_take(f->a, WEB_ADDRESS_MOST + 2, 1);
	struct web_request request = {.arena = f->a};

	for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
		f->err.code = ERR_NONE;
		assert_int_equal(ERR_INPUT,
			web_address(f->a, bad[i], &request, &f->err));
	}
	assert_non_null(long_one);
	memset(long_one, 'a', WEB_ADDRESS_MOST + 1);
	long_one[0] = '/';
	long_one[WEB_ADDRESS_MOST + 1] = '\0';
	f->err.code = ERR_NONE;
	assert_int_equal(
		ERR_INPUT, web_address(f->a, long_one, &request, &f->err));
}

/* "a.csv" is a code, not the table of "a". */
static void
dispatch__a_code_keeps_an_ending_like_a_tables(void **state)
{
	static const char *const code[] = {
		"a.csv", "a b.json", "a.svg", ".csv", "a.csv.csv", "acsv"};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof code / sizeof code[0]; i++) {
		struct web_request request = {.arena = f->a};
		const char *at = web_at(&request, "/trace/", code[i]);

		assert_ok(web_address(f->a, at, &request, &f->err), &f->err);
		assert_int_equal(WEB_PAGE, request.twin);
		assert_string_equal(code[i], request.path + strlen("/trace/"));
		assert_ok(web_address(f->a, text_format(f->a, "%s.csv", at),
				  &request, &f->err),
			&f->err);
		assert_int_equal(WEB_CSV, request.twin);
		assert_string_equal(code[i], request.path + strlen("/trace/"));
	}
}

static void
dispatch__so_many_fields_and_no_more(void **state)
{
	struct fixture *f = *state;
	const struct web_field *field = NULL;
	char text[2 * (WEB_FIELDS_MOST + 1)];
	size_t n = 0;

	for (size_t i = 0; i < WEB_FIELDS_MOST + 1; i++)
		memcpy(text + 2 * i, "a&", 2);
	assert_ok(web_fields_decode(f->a, text, 2 * WEB_FIELDS_MOST - 1, &field,
			  &n, &f->err),
		&f->err);
	assert_int_equal(WEB_FIELDS_MOST, n);
	assert_int_equal(ERR_INPUT,
		web_fields_decode(f->a, text, 2 * WEB_FIELDS_MOST + 1, &field,
			&n, &f->err));
}

/* One piece of a value, as the reader of forms hands it on. */
static void
give(struct exchange *exchange, const char *name, const char *bytes, size_t at)
{
	assert_int_equal(MHD_YES,
		exchange_field(exchange, MHD_POSTDATA_KIND, name, NULL, NULL,
			NULL, bytes, at, strlen(bytes)));
}

static void
exchange__pieces_of_a_value_are_put_together(void **state)
{
	struct exchange *exchange = exchange_new("/x");
	char want[10 * 26 + 1] = "";
	size_t at = 0;

	(void)state;
	assert_non_null(exchange);
	for (int i = 0; i < 26; i++) {
		char piece[11];

		memset(piece, 'a' + i, 10);
		piece[10] = '\0';
		give(exchange, "remark", piece, at);
		strncat(want, piece, sizeof want - strlen(want) - 1);
		at += 10;
	}
	give(exchange, "remark", "second", 0);
	give(exchange, "empty", "", 0);
	exchange_end(exchange);
	assert_int_equal(0, exchange->refused);
	assert_int_equal(3, exchange->request.n_field);
	assert_string_equal(want, web_given(&exchange->request, "remark"));
	assert_null(web_given(&exchange->request, "empty"));
	at = 1;
	assert_string_equal(
		"second", web_given_next(&exchange->request, "remark", &at));
	exchange_free(exchange);
}

/* Of an entry, not of how it is sent: token and key do not count, the address,
 * the fields and where one ends do. */
static void
exchange__the_digest_is_of_the_content(void **state)
{
	static const struct {
		bool same;
		const char *target, *name, *value, *token;
	} row[] = {{true, "/x", "ab", "c", "t1"}, {true, "/x", "ab", "c", "t2"},
		{false, "/y", "ab", "c", "t1"}, {false, "/x", "a", "bc", "t1"},
		{false, "/x", "ab", "d", "t1"}};
	char first[EXCHANGE_DIGEST_HEX + 1], hex[EXCHANGE_DIGEST_HEX + 1];

	(void)state;
	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
		struct exchange *exchange = exchange_new(row[i].target);

		assert_non_null(exchange);
		give(exchange, "token", row[i].token, 0);
		give(exchange, row[i].name, row[i].value, 0);
		exchange_end(exchange);
		exchange_digest(exchange, i == 0 ? first : hex);
		if (i > 0)
			assert_int_equal(row[i].same, strcmp(first, hex) == 0);
		exchange_free(exchange);
	}
}

static void
exchange__too_many_fields_are_refused(void **state)
{
	struct exchange *exchange = exchange_new("/x");

	(void)state;
	assert_non_null(exchange);
	for (int i = 0; i < WEB_FIELDS_MOST; i++)
		give(exchange, "a", "b", 0);
	assert_int_equal(0, exchange->refused);
	give(exchange, "a", "b", 0);
	assert_int_equal(413, exchange->refused);
	exchange_free(exchange);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(dispatch__an_address_is_taken_apart),
		TEST(dispatch__what_is_no_text_is_refused),
		TEST(dispatch__a_code_keeps_an_ending_like_a_tables),
		TEST(dispatch__so_many_fields_and_no_more),
		TEST(exchange__pieces_of_a_value_are_put_together),
		TEST(exchange__the_digest_is_of_the_content),
		TEST(exchange__too_many_fields_are_refused),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_exchange.c - the fields of a form as they come in piece by piece, their
 * limits, and the checksum by which a doubled entry is known. */
#include "support.h"

#include "web/dispatch.h"
#include "web/exchange.h"

#include <stdio.h>
#include <string.h>

static void
give(struct exchange *x, const char *name, const char *file, const char *bytes,
	uint64_t at)
{
	assert_int_equal(MHD_YES,
		exchange_field(x, MHD_POSTDATA_KIND, name, file, NULL, NULL,
			bytes, at, strlen(bytes)));
}

static void
exchange__pieces_become_one_value(void **state)
{
	struct exchange *x = exchange_new("/foam/G1");
	char long_value[3001];

	(void)state;
	assert_non_null(x);
	memset(long_value, 'z', sizeof long_value - 1);
	long_value[sizeof long_value - 1] = '\0';
	give(x, "gross", NULL, "19", 0);
	give(x, "gross", NULL, "13", 2);
	give(x, "empty", NULL, "", 0);
	give(x, "long", NULL, "a", 0);
	give(x, "long", NULL, long_value, 1);
	give(x, "gross", NULL, "again", 0); /* a second of that name */
	exchange_end(x);
	assert_int_equal(0, x->refused);
	assert_int_equal(4, x->request.n_field);
	assert_string_equal("1913", x->request.field[0].value);
	assert_int_equal(4, x->request.field[0].n);
	assert_int_equal(0, x->request.field[1].n);
	assert_int_equal(3001, x->request.field[2].n);
	assert_int_equal('\0', x->request.field[2].value[3001]);
	assert_string_equal("again", x->request.field[3].value);
	exchange_free(x);
}

static void
exchange__too_many_fields_or_too_long_a_name_is_refused(void **state)
{
	struct exchange *x = exchange_new("/gear");
	char name[200];

	(void)state;
	for (int i = 0; i < WEB_FIELDS_MOST; i++) {
		(void)snprintf(name, sizeof name, "f%d", i);
		give(x, name, NULL, "1", 0);
	}
	assert_int_equal(0, x->refused);
	give(x, "one-more", NULL, "1", 0);
	assert_int_equal(413, x->refused);
	exchange_free(x);
	x = exchange_new("/gear");
	memset(name, 'n', 128);
	name[128] = '\0';
	give(x, name, NULL, "1", 0);
	assert_int_equal(0, x->refused);
	name[128] = 'n';
	name[129] = '\0';
	give(x, name, NULL, "1", 0);
	assert_int_equal(413, x->refused);
	exchange_free(x);
}

static void
exchange__bytes_are_counted_to_the_limit_and_the_first_refusal_stays(
	void **state)
{
	struct exchange *x = exchange_new("/gear");

	(void)state;
	x->n_most = 10;
	exchange_read(x, "0123456789", 10);
	assert_int_equal(0, x->refused);
	exchange_read(x, "x", 1);
	assert_int_equal(413, x->refused);
	exchange_refuse(x, 403, "later");
	assert_int_equal(413, x->refused);
	exchange_free(x);
}

/* Fields are text; a file's bytes may be anything. */
static void
exchange__a_field_is_utf8_and_a_file_need_not_be(void **state)
{
	struct exchange *x = exchange_new("/import");

	(void)state;
	give(x, "files", "a.csv", "\xff\xfe", 0);
	exchange_end(x);
	assert_int_equal(0, x->refused);
	assert_string_equal("a.csv", x->request.field[0].file);
	exchange_free(x);
	x = exchange_new("/import");
	give(x, "remark", NULL, "\xff\xfe", 0);
	exchange_end(x);
	assert_int_equal(400, x->refused);
	exchange_free(x);
	x = exchange_new("/import");
	give(x, "files", "\xff.csv", "a", 0);
	exchange_end(x);
	assert_int_equal(400, x->refused);
	exchange_free(x);
}

static void
digest_of(const char *target, const char *const (*field)[2], size_t n,
	char hex[EXCHANGE_DIGEST_HEX + 1])
{
	struct exchange *x = exchange_new(target);

	for (size_t i = 0; i < n; i++)
		give(x, field[i][0], NULL, field[i][1], 0);
	exchange_digest(x, hex);
	exchange_free(x);
}

static void
exchange__the_checksum_tells_entries_apart_and_not_their_marks(void **state)
{
	static const char *const sent[][2] = {
		{"token", "aa"}, {"key", "k1"}, {"a", "12"}, {"b", "3"}};
	static const char *const again[][2] = {
		{"token", "bb"}, {"key", "k2"}, {"a", "12"}, {"b", "3"}};
	static const char *const shifted[][2] = {{"a", "1"}, {"b", "23"}};
	char first[EXCHANGE_DIGEST_HEX + 1], other[EXCHANGE_DIGEST_HEX + 1];

	(void)state;
	digest_of("/gear", sent, 4, first);
	assert_int_equal(EXCHANGE_DIGEST_HEX, strlen(first));
	digest_of("/gear", again, 4, other);
	assert_string_equal(first, other);
	digest_of("/foam/G1", sent, 4, other);
	assert_string_not_equal(first, other);
	digest_of("/gear", shifted, 2, other);
	assert_string_not_equal(first, other);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(exchange__pieces_become_one_value),
		TEST(exchange__too_many_fields_or_too_long_a_name_is_refused),
		TEST(exchange__bytes_are_counted_to_the_limit_and_the_first_refusal_stays),
		TEST(exchange__a_field_is_utf8_and_a_file_need_not_be),
		TEST(exchange__the_checksum_tells_entries_apart_and_not_their_marks),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}

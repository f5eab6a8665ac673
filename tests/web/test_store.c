/* test_store.c - web/store: answers counted, kept, filled in and packed.
 *
 * What is packed is unpacked again by zlib's own reader of gzip, which checks
 * length and CRC (RFC 1952). */
#include "support.h"

#include "web/store.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <zlib.h>

static const char token[] = "0123456789abcdef0123456789abcdef";
static const char key[] = "fedcba9876543210fedcba9876543210";

static struct answer *
make(struct fixture *f, const char *type, const char *body, size_t n)
{
	struct web_reply reply = {.status = 200, .type = type};
	struct answer *answer;

	text_init(&reply.body, f->a);
	text_add_n(&reply.body, body, n);
	answer = answer_make(&reply);
	assert_non_null(answer);
	return answer;
}

static size_t
unpack(const unsigned char *packed, size_t n, unsigned char *plain, size_t room)
{
	z_stream z = {.next_in = NULL};
	unsigned char *from = NULL;

	memcpy(&from, &packed, sizeof from);
	z.next_in = from;
	z.avail_in = (uInt)n;
	z.next_out = plain;
	z.avail_out = (uInt)room;
	assert_int_equal(Z_OK, inflateInit2(&z, 15 + 16));
	assert_int_equal(Z_STREAM_END, inflate(&z, Z_FINISH));
	assert_int_equal(0, z.avail_in);
	(void)inflateEnd(&z);
	return (size_t)z.total_out;
}

static void
check_packed(struct fixture *f, struct store *store, const char *body, size_t n)
{
	struct answer *answer = make(f, "text/html; charset=utf-8", body, n);
	size_t n_filled, n_packed = 0;
	unsigned char *filled, *packed, *plain;

	store_put(store, "a", "1", answer);
	filled = answer_fill(answer, token, key, &n_filled);
	packed = answer_fill_packed(answer, token, key, &n_packed);
	assert_non_null(filled);
	assert_non_null(packed);
	plain = malloc(n_filled + 64);
	assert_non_null(plain);
	assert_int_equal(
		n_filled, unpack(packed, n_packed, plain, n_filled + 64));
	assert_memory_equal(filled, plain, n_filled);
	free(plain);
	free(packed);
	free(filled);
	answer_give_back(answer);
}

static void
store__packed_around_its_marks_it_is_the_same_page(void **state)
{
	static const char *const small[] = {"\x02T", "\x02K\x02T", "a\x02T",
		"\x02Kz", "<form>\x02T</form>\x02K\x02K<b>\x02T", "a\x02K\x02"};
	enum { LONG = 300000 };
	struct fixture *f = *state;
	struct store *store = store_new(8 << 20);
	char *body = malloc(LONG);
	uint64_t x = 20261127;

	assert_non_null(store);
	assert_non_null(body);
	for (size_t i = 0; i < sizeof small / sizeof small[0]; i++)
		check_packed(f, store, small[i], strlen(small[i]));
	/* bytes that do not pack, and marks at no regular place */
	for (size_t i = 0; i < LONG; i++) {
		x = x * 48271 % 2147483647;
		body[i] = (char)(3 + x % 250);
		if (x % 997 == 0 && i > 0)
			body[i - 1] = 2, body[i] = x % 2 == 0 ? 'T' : 'K';
	}
	check_packed(f, store, body, LONG);
	for (size_t i = 0; i < LONG; i++)
		body[i] = "<td>12.5</td>\n"[i % 14];
	memcpy(body + 150000, "\x02T", 2);
	check_packed(f, store, body, LONG);
	free(body);
	store_free(store);
}

static void
store__data_and_pictures_have_no_marks(void **state)
{
	struct answer *answer = make(
		*state, "text/csv; charset=utf-8", "a,\x02T\n", 5);

	assert_false(answer->has_marks);
	answer_give_back(answer);
}

static void
store__keeps_by_name_and_state(void **state)
{
	struct fixture *f = *state;
	struct store *store = store_new(1 << 20);
	struct answer *one = make(f, "text/plain", "one", 3), *got;

	assert_non_null(store);
	assert_null(store_find(store, "a", "1"));
	store_put(store, "a", "1", one);
	got = store_find(store, "a", "1");
	assert_ptr_equal(one, got);
	answer_give_back(got);
	assert_null(store_find(store, "a", "2"));
	assert_null(store_find(store, "b", "1"));
	answer_give_back(one);
	store_free(store);
}

/* The bytes asked for are never more than the room: those that nobody asked for
 * longest go. */
static void
store__old_answers_go_when_the_room_is_used_up(void **state)
{
	enum { PAGES = 200, SIZE = 4096 };
	struct fixture *f = *state;
	struct store *store = store_new(20 * SIZE);
	static char body[SIZE];
	size_t kept = 0;

	assert_non_null(store);
	memset(body, 'x', SIZE);
	for (int i = 0; i < PAGES; i++) {
		struct answer *answer = make(f, "text/plain", body, SIZE);
		struct answer *first;
		char name[16];

		(void)snprintf(name, sizeof name, "%d", i);
		store_put(store, name, "1", answer);
		answer_give_back(answer);
		first = store_find(store, "0", "1"); /* keeps it young */
		assert_non_null(first);
		answer_give_back(first);
	}
	for (int i = 0; i < PAGES; i++) {
		struct answer *got;
		char name[16];

		(void)snprintf(name, sizeof name, "%d", i);
		got = store_find(store, name, "1");
		kept += got != NULL;
		answer_give_back(got);
	}
	assert_in_range(kept, 2, 20);
	store_free(store);
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(store__packed_around_its_marks_it_is_the_same_page),
		TEST(store__data_and_pictures_have_no_marks),
		TEST(store__keeps_by_name_and_state),
		TEST(store__old_answers_go_when_the_room_is_used_up),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}

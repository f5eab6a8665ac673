/* test_guard.c - web/guard: names, origins, tokens, keys. */
#include "support.h"

#include "web/guard.h"

#include <string.h>

/* Spellings of a host by which rebinding is tried (our own list): only the
 * literal names with their port pass. */
static void
guard__only_its_own_names_pass(void **state)
{
	static const char *const foreign[] = {"", "127.0.0.1", "localhost",
		"127.0.0.1:8081", "127.0.0.1:80800", "127.0.0.1:8080 ",
		" 127.0.0.1:8080", "127.1:8080", "2130706433:8080",
		"0x7f000001:8080", "0177.0.0.1:8080", "127.0.0.1.:8080",
		"localhost.:8080", "[::1]:8080", "[::ffff:127.0.0.1]:8080",
		"a@127.0.0.1:8080", "127.0.0.1:8080@evil.example",
		"127.0.0.1:8080,evil.example", "evil.example:8080",
		"127.0.0.1.evil.example:8080", "0.0.0.0:8080",
		"192.168.1.21:8080", "127.0.0.1:8080/", "127.0.0.1:08080"};
	struct guard guard;

	(void)state;
	guard_start(&guard, false);
	guard_name(&guard, "127.0.0.1", 8080);
	guard_name(&guard, "localhost", 8080);
	guard_name(&guard, "192.168.1.20", 8080);
	assert_true(guard_host(&guard, "127.0.0.1:8080"));
	assert_true(guard_host(&guard, "localhost:8080"));
	assert_true(guard_host(&guard, "192.168.1.20:8080"));
	assert_false(guard_host(&guard, NULL));
	for (size_t i = 0; i < sizeof foreign / sizeof foreign[0]; i++)
		assert_false(guard_host(&guard, foreign[i]));
}

static void
guard__the_usual_port_may_be_left_out(void **state)
{
	struct guard plain, tls;

	(void)state;
	guard_start(&plain, false);
	guard_name(&plain, "localhost", 80);
	guard_start(&tls, true);
	guard_name(&tls, "localhost", 443);
	assert_true(guard_host(&plain, "localhost"));
	assert_true(guard_host(&tls, "localhost"));
	assert_true(guard_origin(&tls, "https://localhost"));
	assert_false(guard_origin(&tls, "http://localhost"));
	assert_true(guard_origin(&plain, "http://localhost:80"));
	assert_false(guard_origin(&plain, "null"));
	assert_false(guard_origin(&plain, ""));
	assert_true(guard_origin(&plain, NULL));
}

static void
guard__a_token_is_of_one_session_and_one_start(void **state)
{
	char a[GUARD_TOKEN_HEX + 1], b[GUARD_TOKEN_HEX + 1];
	struct guard guard, other;

	(void)state;
	guard_start(&guard, false);
	guard_start(&other, false);
	guard_token(&guard, "s", a);
	guard_token(&other, "s", b);
	assert_string_not_equal(a, b);
	assert_true(guard_token_is(&guard, "s", a));
	assert_false(guard_token_is(&guard, "t", a));
	assert_false(guard_token_is(&guard, "s", b));
	assert_false(guard_token_is(&guard, "s", NULL));
	assert_false(guard_token_is(&guard, "s", ""));
	a[GUARD_TOKEN_HEX - 1] ^= 1;
	assert_false(guard_token_is(&guard, "s", a));
}

static void
guard__keys_are_letters_digits_and_hyphens(void **state)
{
	char key[GUARD_TOKEN_HEX + 1], long_one[66];

	(void)state;
	guard_key(key);
	assert_true(guard_is_key(key));
	assert_true(guard_is_key("0123456789-abcDE"));
	assert_false(guard_is_key("0123456789abcde"));
	assert_false(guard_is_key("0123456789abcde "));
	assert_false(guard_is_key("0123456789abcde'"));
	assert_false(guard_is_key(NULL));
	memset(long_one, 'a', 65);
	long_one[65] = '\0';
	assert_false(guard_is_key(long_one));
	assert_true(guard_is_key(long_one + 1));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(guard__only_its_own_names_pass),
		TEST(guard__the_usual_port_may_be_left_out),
		TEST(guard__a_token_is_of_one_session_and_one_start),
		TEST(guard__keys_are_letters_digits_and_hyphens),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}

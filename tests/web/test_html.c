/* test_html.c - web/html: what each escape lets through. */
#include "support.h"

#include "web/html.h"

#include <string.h>

typedef void writer(struct html *html, const char *value);

static const char *
written(struct fixture *f, writer *write, const char *value)
{
	static struct text text;
	struct html html = {.text = &text, .language = "en"};

	text_init(&text, f->a);
	text_add(&text, "");
	write(&html, value);
	assert_false(text_failed(&text));
	return text.bytes != NULL ? text.bytes : "";
}

static void
html_text__escapes_what_html_gives_a_meaning(void **state)
{
	/* HTML Living Standard 13.3, and the two quotes */
	assert_string_equal(
		"&lt;b class=&quot;a&quot; id=&#39;b&#39;&gt;&amp;amp;",
		written(*state, html_text, "<b class=\"a\" id='b'>&amp;"));
	assert_string_equal("na\xC3\xAFve \xE2\x82\xAC \xF0\x9F\x8F\xA0\t\n",
		written(*state, html_text,
			"na\xC3\xAFve \xE2\x82\xAC \xF0\x9F\x8F\xA0\t\n"));
	assert_string_equal("", written(*state, html_text, NULL));
}

static void
html_text__replaces_controls_and_broken_utf8(void **state)
{
	/* no mark of the server comes out of a value */
	assert_string_equal(
		"a\xEF\xBF\xBDT", written(*state, html_text, "a\x02T"));
	assert_string_equal("\xEF\xBF\xBD\xEF\xBF\xBDz",
		written(*state, html_text, "\x7F\x1Bz"));
	assert_string_equal(
		"\xEF\xBF\xBD&lt;", written(*state, html_text, "\xC3<"));
	assert_string_equal("\xEF\xBF\xBD", written(*state, html_text, "\xE2"));
}

static void
html_text__no_byte_opens_a_tag_or_ends_a_quote(void **state)
{
	/* each byte, and each pair of one and a dangerous one */
	static const char dangerous[] = "<>\"'&\x02";

	for (int c = 1; c < 256; c++)
		for (size_t i = 0; i < sizeof dangerous; i++) {
			char value[3] = {(char)c, dangerous[i], '\0'};
			const char *got = written(
				*state, html_attribute, value);

			assert_null(strpbrk(got, "<>\"'\x02\x7F"));
			assert_true(text_is_utf8(got, strlen(got)));
		}
}

static void
html_address__leads_nowhere_else(void **state)
{
	static const char *const bad[] = {"javascript:alert(1)",
		"JaVaScRiPt:alert(1)", " javascript:alert(1)",
		"data:text/html,x", "//elsewhere.example/", "/\\elsewhere",
		"http://elsewhere.example/", "", "mixes", "\x01/x"};

	for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
		assert_string_equal("#", written(*state, html_address, bad[i]));
	assert_string_equal("/mixes?a=1&amp;b=2#x",
		written(*state, html_address, "/mixes?a=1&b=2#x"));
	assert_string_equal(
		"?a=%22%3E%3Cb%27", written(*state, html_address, "?a=\"><b'"));
	assert_string_equal(
		"#bend-weight", written(*state, html_address, "#bend-weight"));
}

static void
html_address_part__keeps_only_unreserved_characters(void **state)
{
	/* RFC 3986, 2.3 */
	assert_string_equal("a-Z_0.~%2F%3F%26%3D%20%C3%B1%25",
		written(*state, html_address_part, "a-Z_0.~/?&= \xC3\xB1%"));
	assert_string_equal("", written(*state, html_address_part, NULL));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(html_text__escapes_what_html_gives_a_meaning),
		TEST(html_text__replaces_controls_and_broken_utf8),
		TEST(html_text__no_byte_opens_a_tag_or_ends_a_quote),
		TEST(html_address__leads_nowhere_else),
		TEST(html_address_part__keeps_only_unreserved_characters),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}

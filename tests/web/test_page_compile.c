/* test_page_compile.c - tools/page_compile: what stops the build. */
#include "support.h"

#include "core/text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

/* What the compiler writes of a page, and how it ended; with what it says
 * behind where it stopped. */
struct compiled {
	int status;
	const char *text;
};

static struct compiled
compile_named(struct fixture *f, const char *name, const char *page)
{
	char folder[] = "/tmp/test_page_XXXXXX", command[600], path[200];
	struct compiled got = {.status = -1};
	char piece[1000];
	struct text text;
	FILE *file;
	size_t n;
	int ended;

	assert_non_null(getenv("PAGE_COMPILE"));
	assert_non_null(mkdtemp(folder));
	(void)snprintf(path, sizeof path, "%s/%s", folder, name);
	file = fopen(path, "w");
	assert_non_null(file);
	assert_true(fputs(page, file) >= 0);
	assert_int_equal(0, fclose(file));
	(void)snprintf(command, sizeof command, "'%s' '%s' 2>&1",
		getenv("PAGE_COMPILE"), path);
	text_init(&text, f->a);
	text_add(&text, "");
	file = popen(command, "r");
	assert_non_null(file);
	while ((n = fread(piece, 1, sizeof piece, file)) > 0)
		text_add_n(&text, piece, n);
	ended = pclose(file);
	got.status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
	got.text = text.bytes;
	(void)unlink(path);
	(void)rmdir(folder);
	return got;
}

static const char *
compiles(struct fixture *f, const char *page)
{
	struct compiled got = compile_named(f, "some.html", page);

	if (got.status != 0)
		fail_msg("%s: %s", page, got.text);
	return got.text;
}

static void
stops(struct fixture *f, const char *page, const char *saying)
{
	struct compiled got = compile_named(f, "some.html", page);

	if (got.status != 1)
		fail_msg("%s was let through: %s", page, got.text);
	assert_has(got.text, saying);
}

static void
page_compile__escapes_each_value_for_its_place(void **state)
{
	const char *c = compiles(*state,
		"<p title=\"{{why}}\">{{what}}</p><a href=\"{{where}}\">x</a>"
		"<a href='/piece/{{code}}'>y</a><img src=\"{{picture}}\">");

	assert_has(c, "html_attribute(html, (*view).why);");
	assert_has(c, "html_text(html, (*view).what);");
	assert_has(c, "html_address(html, (*view).where);");
	assert_has(c, "html_address_part(html, (*view).code);");
	assert_has(c, "html_address(html, (*view).picture);");
	assert_has(c, "write_some(struct html *html, const struct view_some");
}

static void
page_compile__a_value_elsewhere_stops_the_build(void **state)
{
	static const char *const page[] = {"<p {{x}}></p>", "<{{x}}>",
		"<p {{x}}=\"1\"></p>", "<!-- {{x}} -->"};

	for (size_t i = 0; i < sizeof page / sizeof *page; i++)
		stops(*state, page[i], "");
	stops(*state, "<p title={{x}}></p>", "a value may stand in text or");
	stops(*state, "<script>{{x}}</script>", "a value may stand in text or");
	stops(*state, "<style>{{x}}</style>", "a value may stand in text or");
	stops(*state, "<!-- {{x}} -->", "a value may stand in text or");
	stops(*state, "<script>alert(1)</script>", "may not hold anything");
	stops(*state, "<style>p {}</style>", "may not hold anything");
	stops(*state, "<p>{{!style}}</p>", "in a style element only");
	stops(*state, "<script>{{!style}}</script>", "style element only");
	stops(*state, "<p style=\"color: red\"></p>", "style is forbidden");
	stops(*state, "<p onclick=\"x()\"></p>", "onclick is forbidden");
	stops(*state, "<p ONCLICK=\"{{x}}\"></p>", "onclick is forbidden");
	stops(*state, "<p class=red></p>", "has no quotes");
	stops(*state, "<a href=\"{{\"Words\"}}\"></a>", "words in an address");
}

static void
page_compile__what_is_left_open_stops_the_build(void **state)
{
	stops(*state, "<p>", "<p> is not closed");
	stops(*state, "<p></b>", "</b> closes <p>");
	stops(*state, "</p>", "</p> closes <nothing>");
	stops(*state, "<p title=\"a", "inside a tag or a comment");
	stops(*state, "<!-- a", "inside a tag or a comment");
	stops(*state, "a < b", "write &lt;");
	stops(*state, "{{x", "{{ is not closed");
	stops(*state, "{{}}", "names nothing");
	stops(*state, "{{#rows}}<p>{{/rows}}</p>", "another place");
	stops(*state, "{{?yes}}<p title=\"{{/yes}}\"></p>", "another place");
	stops(*state, "{{#rows}}", "{{rows}} is not closed");
	stops(*state, "{{/rows}}", "closes nothing");
	stops(*state, "{{#a}}{{?b}}{{/a}}{{/b}}", "{{/a}} closes {{b}}");
	stops(*state, "{{../x}}", "no view around");
	stops(*state, "{{x;y}}", "is no name");
	stops(*state, "\n\n<p>{{x y}}</p>", "some.html:3:");
}

static void
page_compile__rows_conditions_and_pages_within(void **state)
{
	const char *c = compiles(*state,
		"<ul>{{#rows}}<li {{?here}}class=\"on\"{{/here}}>{{name}}"
		"{{^here}}{{../title}}{{/here}}</li>{{/rows}}</ul>"
		"{{>other part}}{{>self .}}");

	assert_has(c, "i0 < (*view).n_rows; i0++)");
	assert_has(c, "if (((*view).rows[i0].here)) {");
	assert_has(c, "if (!((*view).rows[i0].here)) {");
	assert_has(c, "html_text(html, (*view).rows[i0].name);");
	assert_has(c, "html_text(html, (*view).title);");
	assert_has(c, "write_other(html, &(*view).part);");
	assert_has(c, "write_self(html, &(*view));");
}

static void
page_compile__words_marks_and_trigraphs(void **state)
{
	const char *c = compiles(*state,
		"<p>{{\"Plain words\"}} what?\?/ \\ \"q\"</p>"
		"<input value=\"{{!token}}\"><input value=\"{{!key}}\">");

	assert_has(
		c, "html_text(html, words(html->language, \"Plain words\"));");
	assert_has(c, "what\\?\\?/ \\\\ \\\"q\\\"");
	assert_has(c, "HTML_MARK_TOKEN");
	assert_has(c, "HTML_MARK_KEY");
	stops(*state, "<p>{{!token}}</p>", "quoted attribute only");
	stops(*state, "<p title=\"{{!cookie}}\"></p>", "token or key");
	stops(*state, "<p>{{\"a\" \"b\"}}</p>", "one pair of quotes");
}

static void
page_compile__a_page_needs_its_name(void **state)
{
	assert_int_equal(1, compile_named(*state, "9.html", "<p></p>").status);
	assert_int_equal(1, compile_named(*state, "some.txt", "").status);
	assert_has(compile_named(*state, "own.html", "{{:other}}<p></p>").text,
		"write_own(struct html *html, const struct view_other");
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(page_compile__escapes_each_value_for_its_place),
		TEST(page_compile__a_value_elsewhere_stops_the_build),
		TEST(page_compile__what_is_left_open_stops_the_build),
		TEST(page_compile__rows_conditions_and_pages_within),
		TEST(page_compile__words_marks_and_trigraphs),
		TEST(page_compile__a_page_needs_its_name),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}

/* test_attachment.c - the name of a file taken away is safe in its header. */
#include "support.h"

#include "core/text.h"
#include "web/attachment.h"

#include <string.h>

/* filename= as in RFC 6266, filename*= as in RFC 8187. */
static void
attachment__holds_what_is_safe_in_a_header(void **state)
{
	static const struct {
		const char *name, *want;
	} row[] = {
		{"load 1.csv", "filename=\"load_1.csv\""},
		{"C:\\logs\\cell.csv", "filename=\"cell.csv\""},
		{"../../etc/passwd", "filename=\"passwd\""},
		{"..", "filename=\"__\""},
		{"", "filename=\"file\""},
		{"a/", "filename=\"file\""},
		{"a\"; x=\"b.csv", "filename=\"a___x__b.csv\""},
		{"a\r\nSet-Cookie: b", "filename=\"a__Set-Cookie__b\""},
		{"100%41.csv", "filename=\"100_41.csv\""},
		{"\xff\xfe.csv", "filename=\"__.csv\""},
		{"viga \u00f1.csv",
			"filename=\"viga__.csv\"; "
			"filename*=UTF-8''viga_%C3%B1.csv"},
		{"\u00f1\u202evsc.exe",
			"filename=\"__vsc.exe\"; "
			"filename*=UTF-8''%C3%B1_vsc.exe"},
		{"\u00f1\xc2\x85'*%.csv",
			"filename=\"_____.csv\"; "
			"filename*=UTF-8''%C3%B1____.csv"},
	};
	struct fixture *f = *state;

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
		assert_string_equal(
			text_format(f->a, "attachment; %s", row[i].want),
			web_attachment(f->a, row[i].name));
}

static void
attachment__a_long_name_is_cut_between_letters(void **state)
{
	struct fixture *f = *state;
	char name[400];
	const char *told;

	memset(name, 'a', 99);
	for (size_t i = 99; i + 2 < sizeof name; i += 2)
		memcpy(name + i, "\xc3\xb1", 3);
	told = web_attachment(f->a, name);
	assert_int_equal(
		strlen("attachment; filename=\"\"") + 99, strlen(told));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(attachment__holds_what_is_safe_in_a_header),
		TEST(attachment__a_long_name_is_cut_between_letters),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}

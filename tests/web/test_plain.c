/* test_plain.c - web/plain: options and commands in the words of the pages. */
#include "support.h"

#include "web/plain.h"

#include <string.h>

static struct web_request
reader(struct fixture *f, const char *language)
{
	return (struct web_request){
		.path = "/", .tail = "", .language = language, .arena = f->a};
}

static void
plain__says_fields_and_pages(void **state)
{
	static const struct {
		const char *text, *want;
	} row[] = {
		{"its span (--span)",
			"its span (\"Span, of a panel or "
			"lintel\")"},
		{"one foot (--point-load, --point-width)",
			"one foot (\"Load of one foot\", \"Side of that foot, "
			"a square\")"},
		{"--wet \"720 kg/m3\"",
			"\"Wet weight aimed at\" \"720 kg/m3\""},
		{"what the mixer takes (\"foamwright gear\").",
			"what the mixer takes (the page \"Mixer, scale and "
			"generators\")."},
		{"the wet weight of the mix (foamwright mix --wet), too",
			"the wet weight of the mix (the page \"Mixes\"), too"},
		{"\"foamwright mix BOOK CODE --part ...\" enters one.",
			"The page \"Mixes\" enters one."},
		{"There is none. \"foamwright mix\" enters one.",
			"There is none. The page \"Mixes\" enters one."},
		{"at 20 degC or 68 degF, +/- 2",
			"at 20 \u00B0C or 68 \u00B0F, \u00B1 2"},
		{"Narrow it with --no-such-thing.",
			"Narrow it with no such thing."},
		{"started with --lan, or --tls",
			"started with --lan, or --tls"},
		{"\"foamwright calc NAME\"", "\"foamwright calc NAME\""},
		{"\"foamwright mix BOOK", "\"the page \"Mixes\""},
		{"a dash -- or--two, x--wet, --",
			"a dash -- or--two, x--wet, "
			"--"},
		{"", ""},
	};
	struct fixture *f = *state;
	const struct web_request request = reader(f, "en");

	for (size_t i = 0; i < sizeof row / sizeof row[0]; i++)
		assert_string_equal(
			row[i].want, plain_words(&request, NULL, row[i].text));
}

static void
plain__a_forms_own_label_comes_first(void **state)
{
	struct fixture *f = *state;
	const struct web_request request = reader(f, "en");
	struct form form;

	form_start(&form, &request, "bend", "/bend/X", "Go on");
	form_number(&form, "span", "Between the middles of the supports",
		"mm in", NULL);
	assert_string_equal("\"Between the middles of the supports\" lacks.",
		plain_words(&request, &form, "--span lacks."));
}

static void
plain__speaks_the_readers_language(void **state)
{
	struct fixture *f = *state;
	const struct web_request request = reader(f, "es");

	assert_string_equal("its wind (\"Viento sobre su cara\")",
		plain_words(&request, NULL, "its wind (--wind)"));
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(plain__says_fields_and_pages),
		TEST(plain__a_forms_own_label_comes_first),
		TEST(plain__speaks_the_readers_language),
	};

	return cmocka_run_group_tests(tests, NULL, NULL);
}

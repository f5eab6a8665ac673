/* test_words.c - web/words: the language that is answered in. */
#include "support.h"

#include "choose/types.h"
#include "choose/validity.h"
#include "web/words.h"
#include "work/watch.h"

#include <string.h>

static void
words__looks_up_or_leaves_it(void **state)
{
	(void)state;
	assert_string_equal("Hoy", words("es", "Today"));
	assert_string_equal("Today", words("en", "Today"));
	assert_string_equal("Today", words("tlh", "Today"));
	assert_string_equal("no such text", words("es", "no such text"));
	/* the heading of the catalogue stands under "" and is no text */
	assert_string_equal("", words("es", ""));
}

static void
words_language__follows_the_reader_s_weights(void **state)
{
	(void)state;
	/* RFC 9110, 12.5.4 */
	assert_string_equal("en", words_language(NULL));
	assert_string_equal("en", words_language(""));
	assert_string_equal("es", words_language("es"));
	assert_string_equal("es", words_language("es-MX,es;q=0.9,en;q=0.8"));
	assert_string_equal("en", words_language("en-GB,es;q=0.9"));
	assert_string_equal("es", words_language("de, es;q=0.5, en;q=0.3"));
	assert_string_equal("en", words_language("de, fr;q=0.5"));
	assert_string_equal("en", words_language("est"));
	assert_string_equal("en", words_language("es;q=0, en;q=0.1"));
	assert_string_equal("en", words_language(",,;;q=,es;q=x"));
}

static void
words_language_at__begins_with_english(void **state)
{
	size_t n = 0;

	(void)state;
	assert_string_equal("en", words_language_at(0));
	while (words_language_at(n) != NULL) {
		assert_true(words_language_name(words_language_at(n))[0] != 0);
		n++;
	}
	assert_int_equal(2, n);
}

/* What lower layers call things is listed in po/layers.txt. */
static void
words__knows_the_names_of_other_layers(void **state)
{
	(void)state;
	for (int i = 0; i < CHOOSE_MEASURE_COUNT; i++) {
		const char *name = choose_measure_name((enum choose_measure)i);

		assert_string_not_equal(name, words("es", name));
	}
	for (int i = 0; i <= CHOOSE_COULD_NOT_BE_MADE; i++) {
		const char *name = choose_verdict_words((enum choose_verdict)i);

		assert_string_not_equal(name, words("es", name));
	}
	for (int i = 0; i <= CHOOSE_RULE_AGE; i++) {
		const char *name = choose_rule_words(
			(enum choose_rule_measure)i);

		assert_string_not_equal(name, words("es", name));
	}
	for (int i = 0; i < WORK_WATCH_COUNT; i++) {
		const char *name = work_watch_name((enum work_watch_quantity)i);

		assert_string_not_equal(name, words("es", name));
	}
}

int
main(void)
{
	const struct CMUnitTest tests[] = {
		TEST(words__looks_up_or_leaves_it),
		TEST(words_language__follows_the_reader_s_weights),
		TEST(words_language_at__begins_with_english),
		TEST(words__knows_the_names_of_other_layers),
	};

	support_start();
	return cmocka_run_group_tests(tests, NULL, NULL);
}

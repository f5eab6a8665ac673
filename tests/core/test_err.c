/* test_err.c - core/err: the first report wins, long texts are cut whole. */
#include "support.h"

#include "core/arena.h"
#include "core/text.h"

#include <string.h>

/* A tongue of this test's own: two texts, the second with its arguments in the
 * other order. */
static const char *
turn(const void *with, const char *english)
{
	if (strcmp(english, "Part %s weighs %d kg.") == 0)
		return "%2$d kg pesa %1$s.";
	return strcmp(english, "sand") == 0 ? (const char *)with : english;
}

static void
err_in__speaks_as_its_arena(void **state)
{
	struct fixture *f = *state;
	struct err err = {.code = ERR_NONE};

	arena_speak(f->a, (struct tongue){.find = turn, .with = "arena"});
	err = err_in(f->a);
	(void)err_report(&err, ERR_INPUT, "part", "Part %s weighs %d kg.",
		err_say(&err, "sand"), 3);
	assert_string_equal("3 kg pesa arena.", err.text);
	err_clear(&err);
	(void)err_report(&err, ERR_INPUT, "", "Part %s weighs %d kg.", "x", 4);
	assert_string_equal("4 kg pesa x.", err.text);
	assert_string_equal("3 kg pesa arena.",
		text_format(f->a, "Part %s weighs %d kg.",
			arena_say(f->a, "sand"), 3));
	/* what the tongue does not know, and who has none, stay English */
	assert_string_equal("cement 1", text_format(f->a, "cement %d", 1));
	arena_speak(f->a, (struct tongue){.find = NULL});
	assert_string_equal("sand", arena_say(f->a, "sand"));
	assert_string_equal("sand", err_say(NULL, "sand"));
}

static void
err_report__keeps_the_first(void **state)
{
	struct fixture *f = *state;

	assert_int_equal(ERR_INPUT,
		err_report(&f->err, ERR_INPUT, "span", "first %d", 1));
	assert_int_equal(
		ERR_INPUT, err_report(&f->err, ERR_DISK, "other", "second"));
	assert_string_equal("first 1", f->err.text);
	assert_string_equal("span", f->err.field);
	assert_int_equal(ERR_DISK, err_report(NULL, ERR_DISK, "", "none"));
}

static void
err_report__cuts_at_whole_characters(void **state)
{
	struct fixture *f = *state;
	char deg[2 * ERR_TEXT_MAX + 2] = "x";
	size_t n;

	for (size_t i = 0; i < ERR_TEXT_MAX; i++)
		memcpy(deg + 1 + 2 * i, "\u00B0", 3);
	(void)err_report(&f->err, ERR_INPUT, deg, "%s", deg);
	n = strlen(f->err.text);
	assert_true(n < ERR_TEXT_MAX);
	assert_string_equal("...", f->err.text + n - 3);
	/* after the x come whole pairs of bytes */
	assert_int_equal(0, (n - 3 - 1) % 2);
	assert_true(strlen(f->err.field) < ERR_FIELD_MAX);
}

static void
err_codes__have_words_and_statuses(void **state)
{
	(void)state;
	assert_string_equal("input", err_word(ERR_INPUT));
	assert_int_equal(0, err_exit_status(ERR_NONE));
	assert_int_equal(1, err_exit_status(ERR_ANSWER_NO));
	assert_int_equal(2, err_exit_status(ERR_INPUT));
	assert_int_equal(3, err_exit_status(ERR_SYSTEM));
	for (int code = ERR_NONE; code <= ERR_SYSTEM; code++)
		assert_non_null(err_word((enum err_code)code));
}

static const struct CMUnitTest tests[] = {
	TEST(err_report__keeps_the_first),
	TEST(err_in__speaks_as_its_arena),
	TEST(err_report__cuts_at_whole_characters),
	TEST(err_codes__have_words_and_statuses),
};

TEST_MAIN(tests)

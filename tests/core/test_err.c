/* test_err.c - core/err: the first report wins, long texts are cut whole. */
#include "support.h"

#include <string.h>

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
	TEST(err_report__cuts_at_whole_characters),
	TEST(err_codes__have_words_and_statuses),
};

TEST_MAIN(tests)

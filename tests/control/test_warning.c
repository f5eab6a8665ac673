/* test_warning.c - the table of the rules that warn. */
#include "support.h"

#include "control/warning.h"

#include <stdio.h>
#include <string.h>

static void
warning__every_rule_says_what_it_rests_on(void **state)
{
	(void)state;
	for (int i = 0; i < CONTROL_WARNING_COUNT; i++) {
		const struct control_warning *w = control_warning(
			(enum control_warning_code)i);
		char code[8];

		(void)snprintf(code, sizeof code, "W%d", i + 1);
		assert_string_equal(w->code, code);
		assert_in_range(w->stage, 1, 20);
		assert_true(strlen(w->says) > 0 && strlen(w->means) > 0);
		assert_true(strlen(w->basis) > 0 && strlen(w->read_at) > 0);
		assert_non_null(w->later);
	}
}

static void
warning__the_usual_limit_is_one_that_may_be_set(void **state)
{
	(void)state;
	for (int i = 0; i < CONTROL_WARNING_COUNT; i++) {
		const struct control_warning *w = control_warning(
			(enum control_warning_code)i);

		for (size_t k = 0; k < control_warning_limits(w); k++) {
			const struct control_limit *l = &w->limit[k];

			assert_true(
				l->usual >= l->least && l->usual <= l->most);
			assert_true(l->unit[0] == '\0' ||
				unit_known(l->unit, l->kind));
		}
	}
}

static void
warning__is_found_by_its_code(void **state)
{
	enum control_warning_code code;

	(void)state;
	assert_true(control_warning_find("W30", &code));
	assert_int_equal(code, CONTROL_W30);
	assert_true(control_warning_find("w4", &code));
	assert_int_equal(code, CONTROL_W4);
	assert_false(control_warning_find("W31", &code));
	assert_false(control_warning_find("W0", &code));
	assert_false(control_warning_find("W", &code));
	assert_false(control_warning_find("", &code));
	assert_false(control_warning_find("4", &code));
}

static const struct CMUnitTest tests[] = {
	TEST(warning__every_rule_says_what_it_rests_on),
	TEST(warning__the_usual_limit_is_one_that_may_be_set),
	TEST(warning__is_found_by_its_code),
};

TEST_MAIN(tests)

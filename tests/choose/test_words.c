/* test_words.c - the words of measures, verdicts and rules, and the unit that
 * each measure is shown in. */
#include "support.h"

#include "choose/types.h"
#include "choose/validity.h"

#include <string.h>

static void
measures__are_found_by_their_word_and_no_other(void **state)
{
	(void)state;
	enum choose_measure met;

	for (int i = 0; i < CHOOSE_MEASURE_COUNT; i++) {
		enum choose_measure measure = (enum choose_measure)i;
		const char *word = choose_measure_word(measure);

		assert_true(choose_measure_find(word, &met));
		assert_int_equal(measure, met); /* no two share a word */
		assert_true(strlen(choose_measure_name(measure)) > 2);
		assert_null(strchr(word, ' '));
	}
	met = CHOOSE_DENT;
	assert_false(choose_measure_find("bending strength", &met));
	assert_false(choose_measure_find("Dent", &met));
	assert_false(choose_measure_find("", &met));
	assert_int_equal(CHOOSE_DENT, met);
}

/* What is shown can be typed in again: the unit is one that is read. */
static void
measures__are_shown_in_a_unit_that_is_read(void **state)
{
	struct fixture *f = *state;

	for (int i = 0; i < CHOOSE_MEASURE_COUNT; i++) {
		enum choose_measure measure = (enum choose_measure)i;
		enum unit_kind kind = choose_measure_kind(measure);
		const char *unit = choose_measure_unit(measure);
		const char *text = unit_write(f->a, 0.2385, kind, unit, 17);
		double si = 0;

		assert_true(unit_known(unit, kind));
		assert_non_null(text);
		assert_ok(unit_read(text, kind, NULL, &si, &f->err), &f->err);
		assert_near(si, 0.2385, 1e-15, 0);
	}
}

/* Of these two less is better; a slip would turn a verdict round. */
static void
measures__know_which_way_is_better(void **state)
{
	(void)state;

	assert_true(choose_measure_larger_is_better(CHOOSE_BENDING_STRENGTH));
	assert_true(choose_measure_larger_is_better(CHOOSE_CRUSHING_ENERGY));
	assert_true(choose_measure_larger_is_better(CHOOSE_SCREW_PULL));
	assert_false(choose_measure_larger_is_better(CHOOSE_DENT));
	assert_false(choose_measure_larger_is_better(CHOOSE_DRY_DENSITY));
	assert_false(choose_measure_larger_is_better(CHOOSE_WATER_TAKEN_UP));
	assert_false(choose_measure_larger_is_better(CHOOSE_SETTLING_LOSS));
	assert_false(choose_measure_larger_is_better(CHOOSE_CONDUCTIVITY));
	assert_false(choose_measure_larger_is_better(CHOOSE_COST));
	assert_false(choose_measure_larger_is_better(CHOOSE_BREAKAGE));
}

static void
verdicts__have_words_of_their_own(void **state)
{
	(void)state;

	for (int i = 0; i <= CHOOSE_COULD_NOT_BE_MADE; i++) {
		for (int k = 0; k < i; k++) {
			assert_string_not_equal(
				choose_verdict_word((enum choose_verdict)i),
				choose_verdict_word((enum choose_verdict)k));
			assert_string_not_equal(
				choose_verdict_words((enum choose_verdict)i),
				choose_verdict_words((enum choose_verdict)k));
		}
	}
	assert_string_equal("could_not_be_made",
		choose_verdict_word(CHOOSE_COULD_NOT_BE_MADE));
}

static void
rules__are_found_by_their_word(void **state)
{
	(void)state;
	enum choose_rule_measure met = CHOOSE_RULE_AGE;

	assert_true(choose_rule_find("settling_loss_24h", &met));
	assert_int_equal(CHOOSE_RULE_SETTLING, met);
	assert_true(choose_rule_find("age_off", &met));
	assert_int_equal(CHOOSE_RULE_AGE, met);
	assert_false(choose_rule_find("settled", &met));
	assert_int_equal(CHOOSE_RULE_AGE, met);
}

static const struct CMUnitTest tests[] = {
	TEST(measures__are_found_by_their_word_and_no_other),
	TEST(measures__are_shown_in_a_unit_that_is_read),
	TEST(measures__know_which_way_is_better),
	TEST(verdicts__have_words_of_their_own),
	TEST(rules__are_found_by_their_word),
};

TEST_MAIN(tests)

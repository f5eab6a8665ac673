/* test_label.c - the check character, proved by trying everything. */
#include "support.h"

#include "lab/label.h"

#include <string.h>

static const char alphabet[] = "3467ACDEFHJKMNPRTXY";

/* Every label but itself that one wrong character or one swap gives. */
static size_t
break_it(const char *good)
{
	size_t n = strlen(good), n_tried = 0;
	char bad[LAB_LABEL_MAX];

	(void)strcpy(bad, good);
	for (size_t i = 0; i < n; i++) {
		for (size_t c = 0; c < LAB_LABEL_BASE; c++) {
			bad[i] = alphabet[c];
			if (bad[i] == good[i])
				continue;
			assert_int_equal(
				lab_label_check(bad), LAB_LABEL_MISTYPED);
			n_tried++;
		}
		bad[i] = good[i];
	}
	for (size_t i = 0; i < n; i++)
		for (size_t k = i + 1; k < n; k++) {
			if (good[i] == good[k])
				continue;
			bad[i] = good[k];
			bad[k] = good[i];
			assert_int_equal(
				lab_label_check(bad), LAB_LABEL_MISTYPED);
			bad[i] = good[i];
			bad[k] = good[k];
			n_tried++;
		}
	return n_tried;
}

static void
label__every_short_one_catches_every_single_error_and_swap(void **state)
{
	char label[LAB_LABEL_MAX];
	size_t n_tried = 0;

	(void)state;
	for (size_t i = 0; i < LAB_LABELS_SHORT; i++) {
		lab_label_write(i, label);
		assert_int_equal(strlen(label), 4);
		assert_int_equal(lab_label_check(label), LAB_LABEL_GOOD);
		n_tried += break_it(label);
	}
	/* 19^3 labels, 4 places with 18 wrong characters: at least so many. */
	assert_true(n_tried > 6859 * 4 * 18);
}

static void
label__long_ones_too(void **state)
{
	char label[LAB_LABEL_MAX];

	(void)state;
	for (size_t i = LAB_LABELS_SHORT; i < LAB_LABELS; i += 37) {
		lab_label_write(i, label);
		assert_int_equal(strlen(label), 5);
		assert_int_equal(lab_label_check(label), LAB_LABEL_GOOD);
		(void)break_it(label);
	}
}

static void
label__no_two_numbers_share_one(void **state)
{
	static bool met[LAB_LABELS_SHORT];
	char label[LAB_LABEL_MAX];

	(void)state;
	for (size_t i = 0; i < LAB_LABELS_SHORT; i++) {
		size_t number = 0;

		lab_label_write(i, label);
		for (int k = 0; k < 3; k++)
			number = number * LAB_LABEL_BASE +
				(size_t)(strchr(alphabet, label[k]) - alphabet);
		assert_false(met[number]);
		met[number] = true;
	}
}

static void
label__reads_small_letters_and_knows_strangers(void **state)
{
	char label[LAB_LABEL_MAX];

	(void)state;
	lab_label_write(17, label);
	for (char *c = label; *c != '\0'; c++)
		if (*c >= 'A')
			*c = (char)(*c - 'A' + 'a');
	assert_int_equal(lab_label_check(label), LAB_LABEL_GOOD);
	assert_int_equal(lab_label_check("01-B-1"), LAB_LABEL_FOREIGN);
	assert_int_equal(lab_label_check("O1IL"), LAB_LABEL_FOREIGN);
	assert_int_equal(lab_label_check(""), LAB_LABEL_FOREIGN);
	assert_int_equal(lab_label_check("346"), LAB_LABEL_FOREIGN);
}

static const struct CMUnitTest tests[] = {
	TEST(label__every_short_one_catches_every_single_error_and_swap),
	TEST(label__long_ones_too),
	TEST(label__no_two_numbers_share_one),
	TEST(label__reads_small_letters_and_knows_strangers),
};

TEST_MAIN(tests)

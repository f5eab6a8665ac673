/* test_calc_permute.c - the calculation "permute". */
#include "support.h"

static void
calc_permute__answers_and_refuses(void **state)
{
	struct fixture *f = *state;
	const char *got = support_calc(f->a, "permute",
		"{\"groups\": {\"A\": [1.7, 1.9, 2.1], \"B\": [3.3, 3.1, 4]}}");

	/* by counting: of C(6,3) = 20 splits only the one seen and its mirror
	 * are as far apart */
	assert_near(support_get(got, "p"), 0.1, 1e-15, 0);
	assert_near(support_get(got, "arrangements"), 20, 0, 0);
	assert_near(support_get(got, "p_error"), 0, 0, 0);
	got = support_calc(f->a, "permute",
		"{\"groups\": {\"A\": [1.7, 1.9, 2.1], \"B\": [3.3, 3.1, 4]},"
		" \"exact\": false, \"draws\": 40000, \"seed\": 9}");
	/* 4 standard errors of a share of 0.1 in 40,000 draws */
	assert_near(support_get(got, "p"), 0.1, 0, 0.006);
	assert_string_equal("groups",
		support_calc_refused("permute", "{\"groups\": {\"A\": [1]}}")
			.field);
	assert_string_equal("draws",
		support_calc_refused("permute",
			"{\"groups\": {\"A\": [1], \"B\": [2]},"
			" \"exact\": false, \"draws\": 0}")
			.field);
}

static const struct CMUnitTest tests[] = {
	TEST(calc_permute__answers_and_refuses),
};

TEST_MAIN(tests)

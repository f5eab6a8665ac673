/* test_check.c - the ranges of readings, at their edges. */
#include "support.h"

#include "core/check.h"

#include <math.h>

static struct check
reading(double value)
{
	return (struct check){"span", "span", value, "m"};
}

static void
check__takes_what_lies_in_the_range(void **state)
{
	struct fixture *fx = *state;
	const struct check all[] = {
		{"a", "first", 2.385, "m"}, {"b", "second", 1e-300, "m"}};

	assert_ok(check_positive(reading(1e-300), &fx->err), &fx->err);
	assert_ok(check_not_negative(reading(0), &fx->err), &fx->err);
	assert_ok(check_between(reading(-2), -2, 7.3, &fx->err), &fx->err);
	assert_ok(check_between(reading(7.3), -2, 7.3, &fx->err), &fx->err);
	assert_ok(check_temperature(reading(-90), &fx->err), &fx->err);
	assert_ok(CHECK_ALL_POSITIVE(all, &fx->err), &fx->err);
}

static void
check__refuses_what_does_not(void **state)
{
	struct fixture *fx = *state;
	const double never[] = {NAN, INFINITY, -INFINITY, -1e-300};
	const struct check all[] = {{"a", "first", 2.385, "m"},
		{"b", "second", 0, "m"}, {"c", "third", -1, "m"}};

	for (size_t i = 0; i < sizeof never / sizeof never[0]; i++) {
		err_clear(&fx->err);
		assert_int_equal(
			ERR_INPUT, check_positive(reading(never[i]), &fx->err));
		assert_int_equal(ERR_INPUT,
			check_not_negative(reading(never[i]), &fx->err));
		assert_int_equal(ERR_INPUT,
			check_between(reading(never[i]), 0, 7.3, &fx->err));
	}
	assert_int_equal(ERR_INPUT, check_positive(reading(0), &fx->err));
	assert_int_equal(
		ERR_INPUT, check_between(reading(7.31), -2, 7.3, &fx->err));
	assert_int_equal(ERR_INPUT, check_temperature(reading(-273), &fx->err));
	/* the first that fails is named, with its value */
	err_clear(&fx->err);
	assert_int_equal(ERR_INPUT, CHECK_ALL_POSITIVE(all, &fx->err));
	assert_string_equal("b", fx->err.field);
	assert_has(fx->err.text, "The second is 0 m");
}

static const struct CMUnitTest tests[] = {
	TEST(check__takes_what_lies_in_the_range),
	TEST(check__refuses_what_does_not),
};

TEST_MAIN(tests)

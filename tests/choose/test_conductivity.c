/* test_conductivity.c - heat let through, from the dry weight. */
#include "support.h"

#include "choose/conductivity.h"

#include <math.h>

/* The header's own short form; 0.0721 and 0.0012486 are cut to that. */
static void
conductivity__is_the_short_form_to_its_digits(void **state)
{
	(void)state;

	for (double density = 300; density <= 1600; density += 37.3)
		assert_near(choose_conductivity(density),
			0.0721 * exp(0.0012486 * density), 5e-4, 0);
}

/* As an exponential must: equal steps of weight, equal ratios. */
static void
conductivity__grows_by_equal_ratios(void **state)
{
	(void)state;
	const double ratio = choose_conductivity(413.7 + 50) /
		choose_conductivity(413.7);

	for (double density = 200; density < 1900; density += 113.1) {
		assert_true(choose_conductivity(density) > 0);
		assert_near(choose_conductivity(density + 50) /
				choose_conductivity(density),
			ratio, 1e-14, 0);
	}
}

static const struct CMUnitTest tests[] = {
	TEST(conductivity__is_the_short_form_to_its_digits),
	TEST(conductivity__grows_by_equal_ratios),
};

TEST_MAIN(tests)

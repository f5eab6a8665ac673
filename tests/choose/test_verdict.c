/* test_verdict.c - from chances and counts to one plain word. */
#include "support.h"

#include "choose/verdict.h"

#include <math.h>

static struct choose_standing
standing(double p_better, size_t n_batch, size_t n_batch_baseline)
{
	return (struct choose_standing){.p_better = p_better,
		.n_batch = n_batch,
		.n_batch_baseline = n_batch_baseline,
		.n_cast = 9,
		.p_breaks_by_chance = 1};
}

/* The limits as the header states them, on both sides of each. */
static void
verdict__follows_the_chance(void **state)
{
	(void)state;
	const struct {
		double p;
		enum choose_verdict repeated, single;
	} rows[] = {
		{1, CHOOSE_CLEARLY_BETTER, CHOOSE_LOOKS_BETTER},
		{0.95, CHOOSE_CLEARLY_BETTER, CHOOSE_LOOKS_BETTER},
		{0.9499, CHOOSE_LOOKS_BETTER, CHOOSE_LOOKS_BETTER},
		{0.80, CHOOSE_LOOKS_BETTER, CHOOSE_LOOKS_BETTER},
		{0.7999, CHOOSE_CANNOT_TELL, CHOOSE_CANNOT_TELL},
		{0.5, CHOOSE_CANNOT_TELL, CHOOSE_CANNOT_TELL},
		{0.0501, CHOOSE_CANNOT_TELL, CHOOSE_CANNOT_TELL},
		{0.0499, CHOOSE_WORSE, CHOOSE_CANNOT_TELL},
		{0, CHOOSE_WORSE, CHOOSE_CANNOT_TELL},
	};

	for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
		struct choose_standing s = standing(rows[i].p, 2, 2);

		assert_int_equal(rows[i].repeated, choose_verdict(&s));
		s = standing(rows[i].p, 1, 9);
		assert_int_equal(rows[i].single, choose_verdict(&s));
		s = standing(rows[i].p, 9, 1);
		assert_int_equal(rows[i].single, choose_verdict(&s));
		s = standing(rows[i].p, 0, 0);
		assert_int_equal(rows[i].single, choose_verdict(&s));
	}
}

static void
verdict__the_baseline_is_the_baseline(void **state)
{
	(void)state;
	struct choose_standing s = standing(0.5, 3, 3);

	s.is_baseline = true;
	assert_int_equal(CHOOSE_IS_BASELINE, choose_verdict(&s));
	s.p_better = 1;
	assert_int_equal(CHOOSE_IS_BASELINE, choose_verdict(&s));
}

/* A third or more broke, and more than by chance: strength of the survivors
 * does not matter any more. */
static void
verdict__breakage_goes_before_strength(void **state)
{
	(void)state;
	struct choose_standing s = standing(0.99, 3, 3);

	s.n_broken = 3;
	s.p_breaks_by_chance = 0.0499;
	assert_int_equal(CHOOSE_COULD_NOT_BE_MADE, choose_verdict(&s));
	s.is_baseline = true;
	assert_int_equal(CHOOSE_COULD_NOT_BE_MADE, choose_verdict(&s));
	s.is_baseline = false;
	s.n_broken = 2; /* less than a third of nine */
	assert_int_equal(CHOOSE_CLEARLY_BETTER, choose_verdict(&s));
	s.n_broken = 3;
	s.p_breaks_by_chance = 0.05; /* chance enough */
	assert_int_equal(CHOOSE_CLEARLY_BETTER, choose_verdict(&s));
	s.n_cast = 0; /* nothing cast, nothing broken */
	s.n_broken = 0;
	s.p_breaks_by_chance = 0;
	assert_int_equal(CHOOSE_CLEARLY_BETTER, choose_verdict(&s));
}

/* A larger chance never gives a less favourable word. */
static void
verdict__never_falls_as_the_chance_rises(void **state)
{
	(void)state;
	static const int rank[] = {[CHOOSE_WORSE] = 0,
		[CHOOSE_CANNOT_TELL] = 1,
		[CHOOSE_LOOKS_BETTER] = 2,
		[CHOOSE_CLEARLY_BETTER] = 3};

	for (size_t n = 0; n < 4; n++) {
		int before = 0;

		for (int i = 0; i <= 1000; i++) {
			struct choose_standing s = standing(i / 1000., n, 2);
			int now = rank[choose_verdict(&s)];

			assert_true(now >= before);
			before = now;
		}
	}
}

/* A chance that could not be had is no verdict. */
static void
verdict__without_a_chance_cannot_tell(void **state)
{
	(void)state;
	struct choose_standing s = standing(NAN, 5, 5);

	assert_int_equal(CHOOSE_CANNOT_TELL, choose_verdict(&s));
}

static const struct CMUnitTest tests[] = {
	TEST(verdict__follows_the_chance),
	TEST(verdict__the_baseline_is_the_baseline),
	TEST(verdict__breakage_goes_before_strength),
	TEST(verdict__never_falls_as_the_chance_rises),
	TEST(verdict__without_a_chance_cannot_tell),
};

TEST_MAIN(tests)

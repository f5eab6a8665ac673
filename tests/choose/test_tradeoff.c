/* test_tradeoff.c - the front and the utility of small cases worked by hand. */
#include "support.h"

#include "choose/tradeoff.h"

#include <math.h>

enum { N_MIX = 4, N_CRITERION = 2 };

/* Strength (more) and cost (less): A strong and dear, B weak and cheap, C as
 * weak and dearer than B, D not priced. */
static const double strong[2] = {2, 2}, weak[2] = {1, 1},
		    middling[2] = {1.4, 1.6};
static const double dear[2] = {100, 100}, cheap[2] = {50, 50},
		    fair[2] = {60, 60};
static const double *const draw[N_MIX * N_CRITERION] = {
	strong, dear, weak, cheap, weak, fair, middling, NULL};
static const bool larger[N_CRITERION] = {true, false};

static void
tradeoff__finds_front_and_utility(void **state)
{
	struct fixture *f = *state;
	const double weight[N_CRITERION] = {1, 3};
	const struct choose_tradeoff_ask ask = {
		N_MIX, N_CRITERION, 2, draw, larger, weight};
	struct choose_tradeoff t;

	assert_ok(choose_tradeoff(f->a, &ask, &t, &f->err), &f->err);
	assert_false(t.is_beaten[0]);
	assert_false(t.is_beaten[1]);
	assert_true(t.is_beaten[2]);
	assert_int_equal(1, t.beaten_by[2]);
	assert_true(t.is_complete[0] && !t.is_complete[3]);
	assert_true(isnan(t.middle[7]));
	assert_near(t.middle[6], 1.5, 1e-15, 0);
	assert_near(t.utility[0], 0.25, 1e-12, 0); /* (1 x 1 + 3 x 0)/4 */
	assert_near(t.utility[1], 0.75, 1e-12, 0); /* (0 + 3 x 1)/4 */
	assert_near(t.utility[2], 0.60, 1e-12, 0); /* 3 x 40/50 /4 */
	assert_near(t.p_first[1], 1, 1e-12, 0);
}

/* A weight of 0 asks for nothing: D is complete without its price. */
static void
tradeoff__weight_of_zero_asks_nothing(void **state)
{
	struct fixture *f = *state;
	const double weight[N_CRITERION] = {2, 0};
	const struct choose_tradeoff_ask ask = {
		N_MIX, N_CRITERION, 2, draw, larger, weight};
	struct choose_tradeoff t;

	assert_ok(choose_tradeoff(f->a, &ask, &t, &f->err), &f->err);
	assert_true(t.is_complete[3]);
	assert_near(t.utility[3], 0.5, 1e-12, 0);
	assert_near(t.utility[0], 1, 1e-12, 0);
}

static void
tradeoff__refuses_weights_that_cannot_be(void **state)
{
	struct fixture *f = *state;
	static const double bad[][N_CRITERION] = {
		{-1, 2}, {0, 0}, {INFINITY, 1}};
	struct choose_tradeoff t;

	for (size_t i = 0; i < 3; i++) {
		const struct choose_tradeoff_ask ask = {
			N_MIX, N_CRITERION, 2, draw, larger, bad[i]};

		assert_int_equal(
			ERR_INPUT, choose_tradeoff(f->a, &ask, &t, &f->err));
		err_clear(&f->err);
	}
}

static const struct CMUnitTest tests[] = {
	TEST(tradeoff__finds_front_and_utility),
	TEST(tradeoff__weight_of_zero_asks_nothing),
	TEST(tradeoff__refuses_weights_that_cannot_be),
};

TEST_MAIN(tests)

/* test_confirm.c - the range of fresh batches against its closed form. */
#include "support.h"

#include "choose/confirm.h"
#include "core/rng.h"

#include <math.h>

enum { N_DRAW = 40000 };

/* Where every world says the same, the mean of n fresh batches of k pieces is
 * lognormal with variance (batch^2 + piece^2/k)/n; 1.6449 is the normal's 95 %
 * point. */
static void
foretell__is_lognormal_where_worlds_agree(void **state)
{
	struct fixture *f = *state;
	const double batch = 0.12, piece = 0.20, n_batch = 3, n_piece = 4;
	const double sd = sqrt(
		(batch * batch + piece * piece / n_piece) / n_batch);
	double mean[N_DRAW], sd_batch[N_DRAW], sd_specimen[N_DRAW];
	const struct choose_draws draws = {
		N_DRAW, mean, 1, sd_batch, sd_specimen};
	gsl_rng *rng = rng_new(91, 0);
	struct choose_foretold got;

	for (size_t i = 0; i < N_DRAW; i++) {
		mean[i] = log(0.37);
		sd_batch[i] = batch;
		sd_specimen[i] = piece;
	}
	assert_ok(choose_confirm_foretell(f->a, &draws, (size_t)n_batch,
			  n_piece, rng, &got, &f->err),
		&f->err);
	assert_near(got.median, 0.37, 0.005, 0);
	assert_near(log(got.high / got.low), 2 * 1.6449 * sd, 0.03, 0);
	gsl_rng_free(rng);
}

static void
judge__says_which_side(void **state)
{
	const struct choose_foretold range = {2, 3, 4};
	static const struct {
		struct interval mean;
		enum choose_confirmed verdict;
	} want[] = {{{3, 3}, CHOOSE_CONFIRMED_HIT},
		{{1, 1.9}, CHOOSE_CONFIRMED_LOW},
		{{4.1, 4.1}, CHOOSE_CONFIRMED_HIGH},
		{{3.9, 4.05}, CHOOSE_CONFIRMED_HIT}, /* its middle, 3.97 */
		{{4.5, INFINITY}, CHOOSE_CONFIRMED_HIGH},
		{{2.5, INFINITY}, CHOOSE_CONFIRMED_OPEN},
		{{0, 1.5}, CHOOSE_CONFIRMED_LOW},
		{{0, 3}, CHOOSE_CONFIRMED_OPEN}};

	(void)state;
	for (size_t i = 0; i < sizeof want / sizeof want[0]; i++)
		assert_int_equal(want[i].verdict,
			choose_confirm_judge(&range, want[i].mean));
}

static const struct CMUnitTest tests[] = {
	TEST(foretell__is_lognormal_where_worlds_agree),
	TEST(judge__says_which_side),
};

TEST_MAIN(tests)

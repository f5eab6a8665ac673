/* test_plan_noise.c - trials played with given spreads. */
#include "support.h"

#include "core/rng.h"
#include "stats/plan_noise.h"

#include <math.h>
#include <string.h>

enum { MIXES = 8, WORLDS = 200000 };

static struct stats_plan_noise
play(struct fixture *f, size_t n_batch, double gain, uint64_t seed)
{
	/* The scatter of the simulation that is quoted below: 8 % between
	 * batches, 10 % between the three beams of one. */
	static const double sd_batch = 0.08, sd_specimen = 0.10;
	size_t batches[MIXES], specimens[MIXES];
	struct stats_plan plan = {.n_mix = MIXES,
		.n_batch = batches,
		.n_specimen = specimens,
		.sd_batch = &sd_batch,
		.sd_specimen = &sd_specimen,
		.n_spread = 1,
		.gain = gain,
		.bar = log(1.15),
		.n_world = WORLDS};
	struct stats_plan_noise got;
	gsl_rng *rng = rng_new(seed, 0);

	for (size_t m = 0; m < MIXES; m++) {
		batches[m] = n_batch;
		specimens[m] = 3;
	}
	assert_non_null(rng);
	assert_ok(stats_plan_noise(&plan, rng, &got, &f->err), &f->err);
	gsl_rng_free(rng);
	return got;
}

static double
normal_below(double z)
{
	return 0.5 * erfc(-z / sqrt(2));
}

/* P(the largest of seven less the baseline > bar), all normal with this sd: the
 * baseline's own deviation is integrated over (trapezes of 0.001, 9 wide). */
static double
chance_over(double bar, double sd)
{
	const double step = 0.001;
	double sum = 0;

	for (double z = -9; z <= 9; z += step)
		sum += step * exp(-z * z / 2) / sqrt(2 * acos(-1)) *
			(1 - pow(normal_below(bar / sd + z), MIXES - 1));
	return sum;
}

static void
plan_noise__equal_mixes_make_winners(void **state)
{
	/* Of eight equal mixes with 8 % / 10 % scatter and three beams a batch
	 * the winner looks 14-15, 10 and 8 % better than the baseline with one,
	 * two and three batches: a simulation from the description of the job,
	 * no publication; whole percents, so 1 point. */
	static const double gain[] = {14.5, 10, 8};
	struct fixture *f = *state;

	for (size_t b = 0; b < 3; b++) {
		struct stats_plan_noise got = play(f, b + 1, 0, 7);
		const double sd = sqrt((0.0064 + 0.01 / 3) / (double)(b + 1));

		assert_near(100 * expm1(got.winner), gain[b], 0, 1);
		/* four standard errors */
		assert_near(got.p_over, chance_over(log(1.15), sd), 0,
			4 * got.p_over_error);
	}
}

static void
plan_noise__two_mixes_agree_with_the_closed_form(void **state)
{
	/* The better of two is missed where N(gain, 2 v) < 0, v the variance of
	 * a mean: (0.073^2 + 0.121^2 / 4) / 2.  By hand:
	 * v = (0.005329 + 0.00366025) / 2 = 0.004494625,
	 * P = Phi(-0.0953 / sqrt(0.00898925)) = Phi(-1.00515...). */
	static const double sd_batch = 0.073, sd_specimen = 0.121;
	static const size_t batches[] = {2, 2}, specimens[] = {4, 4};
	const double gain = 0.0953;
	const double want = 0.5 * erfc(gain / sqrt(0.00898925) / sqrt(2));
	const struct stats_plan plan = {.n_mix = 2,
		.n_batch = batches,
		.n_specimen = specimens,
		.sd_batch = &sd_batch,
		.sd_specimen = &sd_specimen,
		.n_spread = 1,
		.gain = gain,
		.bar = gain,
		.n_world = WORLDS};
	struct fixture *f = *state;
	struct stats_plan_noise got;
	gsl_rng *rng = rng_new(11, 0);

	assert_non_null(rng);
	assert_ok(stats_plan_noise(&plan, rng, &got, &f->err), &f->err);
	gsl_rng_free(rng);
	/* four standard errors */
	assert_near(got.p_wrong, want, 0, 4 * got.p_wrong_error);
	assert_near(got.p_over, 0.5, 0, 4 * got.p_over_error);
	assert_near(got.winner, gain, 0, 4 * got.winner_error);
	assert_near(got.winner_error, sqrt(0.00898925 / WORLDS), 0.02, 0);
}

static void
plan_noise__the_seed_decides_every_bit(void **state)
{
	struct fixture *f = *state;
	struct stats_plan_noise a = play(f, 2, 0.1, 3), b = play(f, 2, 0.1, 3);
	struct stats_plan_noise c = play(f, 2, 0.1, 4);

	assert_memory_equal(&a, &b, sizeof a);
	assert_true(memcmp(&a, &c, sizeof a) != 0);
}

static void
plan_noise__refuses_what_is_no_plan(void **state)
{
	static const double bad = NAN, good = 0.1;
	static const size_t one[] = {1, 1}, none[] = {1, 0};
	struct stats_plan plan = {.n_mix = 2,
		.n_batch = one,
		.n_specimen = one,
		.sd_batch = &good,
		.sd_specimen = &good,
		.n_spread = 1,
		.n_world = 10};
	struct fixture *f = *state;
	struct stats_plan_noise got;
	struct stats_plan wrong[5];
	gsl_rng *rng = rng_new(1, 0);

	assert_non_null(rng);
	for (size_t i = 0; i < 5; i++)
		wrong[i] = plan;
	wrong[0].n_mix = 1;
	wrong[1].n_batch = none;
	wrong[2].sd_specimen = &bad;
	wrong[3].gain = -0.1;
	wrong[4].n_world = 0;
	for (size_t i = 0; i < 5; i++) {
		struct err err = {.code = ERR_NONE};

		assert_int_equal(ERR_INPUT,
			stats_plan_noise(&wrong[i], rng, &got, &err));
		assert_true(err.field[0] != '\0');
	}
	assert_ok(stats_plan_noise(&plan, rng, &got, &f->err), &f->err);
	gsl_rng_free(rng);
}

static const struct CMUnitTest tests[] = {
	TEST(plan_noise__equal_mixes_make_winners),
	TEST(plan_noise__two_mixes_agree_with_the_closed_form),
	TEST(plan_noise__the_seed_decides_every_bit),
	TEST(plan_noise__refuses_what_is_no_plan),
};

TEST_MAIN(tests)

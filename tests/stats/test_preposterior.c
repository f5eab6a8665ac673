/* test_preposterior.c - the worth of further batches against closed forms. */
#include "support.h"

#include "core/rng.h"
#include "stats/preposterior.h"
#include "stats/step_reading.h"

#include <gsl/gsl_randist.h>
#include <math.h>

enum { DRAWS = 40000 };

/* Independent normal means and known spreads. */
struct world {
	size_t n_mix;
	double centre[3], sd[3];
	double sd_batch, sd_specimen;
	size_t specimens;
	bool larger;
	bool has_enough;
	double enough;
};

static void
start(struct fixture *f, const struct world *w, uint64_t seed,
	struct stats_preposterior *p)
{
	gsl_rng *rng = rng_new(seed, 0);
	double *mean = arena_take(f->a, DRAWS * w->n_mix, sizeof *mean);
	double *sd_batch = arena_take(f->a, DRAWS, sizeof *sd_batch);
	double *sd_specimen = arena_take(f->a, DRAWS, sizeof *sd_specimen);
	struct stats_preposterior_ask ask = {.n_draw = DRAWS,
		.n_mix = w->n_mix,
		.mean = mean,
		.sd_batch = sd_batch,
		.sd_specimen = sd_specimen,
		.larger_is_better = w->larger,
		.has_enough = w->has_enough,
		.enough = w->enough,
		.specimens = w->specimens};

	for (size_t i = 0; i < DRAWS; i++) {
		for (size_t m = 0; m < w->n_mix; m++)
			mean[i * w->n_mix + m] = w->centre[m] +
				gsl_ran_gaussian_ziggurat(rng, w->sd[m]);
		sd_batch[i] = w->sd_batch;
		sd_specimen[i] = w->sd_specimen;
	}
	assert_ok(
		stats_preposterior_start(f->a, &ask, rng, p, &f->err), &f->err);
	gsl_rng_free(rng);
}

static const struct world two = {.n_mix = 2,
	.centre = {5.137, 5.069},
	.sd = {0.091, 0.123},
	.sd_batch = 0.078,
	.sd_specimen = 0.141,
	.specimens = 3,
	.larger = true};

/* The part of a mix's variance that b batches resolve. */
static double
resolved(const struct world *w, size_t mix, double b)
{
	double v = w->sd[mix] * w->sd[mix];
	double noise = (w->sd_batch * w->sd_batch +
			       w->sd_specimen * w->sd_specimen /
				       (double)w->specimens) /
		b;

	return b > 0 ? v * v / (v + noise) : 0;
}

/* Two normal means: the difference of their preposterior means is normal, and
 * the gain is its unit normal loss (Raiffa and Schlaifer 1961, section 5.9).
 * Four standard errors, which are under a twentieth of the gain. */
static void
preposterior__two_mixes_in_closed_form(void **state)
{
	static const size_t designs[][2] = {
		{1, 0}, {0, 1}, {2, 1}, {1, 3}, {5, 5}, {40, 40}};
	struct fixture *f = *state;
	struct stats_preposterior p;

	start(f, &two, 4711, &p);
	assert_int_equal(0, p.chosen);
	for (size_t i = 0; i < sizeof designs / sizeof designs[0]; i++) {
		struct stats_preposterior_gain got;
		double sd = sqrt(resolved(&two, 0, (double)designs[i][0]) +
			resolved(&two, 1, (double)designs[i][1]));
		double want = sd *
			stats_unit_loss((two.centre[0] - two.centre[1]) / sd);

		assert_ok(
			stats_preposterior_gain(&p, designs[i], &got, &f->err),
			&f->err);
		assert_near(got.gain, want, 0, 4 * got.gain_error);
		assert_true(got.gain_error < want / 20);
		assert_near(got.realised, want, 0, 4 * got.realised_error);
	}
}

/* All there is to know takes the whole regret and every wrong choice away. */
static void
preposterior__endless_batches_end_regret(void **state)
{
	static const size_t endless[] = {1000000000, 1000000000};
	struct fixture *f = *state;
	struct stats_preposterior_gain got;
	struct stats_preposterior p;
	double sd = hypot(two.sd[0], two.sd[1]);
	double gap = two.centre[0] - two.centre[1];

	start(f, &two, 99, &p);
	assert_near(p.regret, sd * stats_unit_loss(gap / sd), 0,
		4 * p.regret_error);
	assert_near(p.p_wrong, 0.5 * erfc(gap / sd / sqrt(2)), 0,
		4 * sqrt(0.25 / DRAWS));
	assert_ok(stats_preposterior_gain(&p, endless, &got, &f->err), &f->err);
	/* what is left is a ten-thousandth of a batch's spread */
	assert_near(got.gain, p.regret, 1e-3, 0);
	assert_near(got.p_wrong, 0, 0, 1e-3);
}

/* No batch, no gain; a batch more never costs; the mirror of a quantity of
 * which less is better gives the same. */
static void
preposterior__order_of_designs(void **state)
{
	const struct world three = {.n_mix = 3,
		.centre = {1.07, 1.01, 0.58},
		.sd = {0.11, 0.17, 0.09},
		.sd_batch = 0.11,
		.sd_specimen = 0.08,
		.specimens = 2,
		.larger = true};
	struct fixture *f = *state;
	struct stats_preposterior_gain none, near, far;
	struct stats_preposterior p, mirror;
	struct world less = three;
	double before = 0;

	start(f, &three, 5, &p);
	assert_ok(stats_preposterior_gain(
			  &p, (const size_t[]){0, 0, 0}, &none, &f->err),
		&f->err);
	assert_near(none.gain, 0, 0, 1e-15);
	assert_near(none.p_wrong, p.p_wrong, 0, 1e-12);
	for (size_t b = 1; b < 30; b = 2 * b + 1) {
		struct stats_preposterior_gain got;

		assert_ok(stats_preposterior_gain(
				  &p, (const size_t[]){b, b, 0}, &got, &f->err),
			&f->err);
		assert_true(got.gain > before);
		before = got.gain;
	}
	/* a batch of a mix that is clearly worst tells little */
	assert_ok(stats_preposterior_gain(
			  &p, (const size_t[]){0, 1, 0}, &near, &f->err),
		&f->err);
	assert_ok(stats_preposterior_gain(
			  &p, (const size_t[]){0, 0, 1}, &far, &f->err),
		&f->err);
	assert_true(near.gain > 100 * far.gain);
	for (size_t m = 0; m < 3; m++)
		less.centre[m] = -three.centre[m];
	less.larger = false;
	start(f, &less, 6, &mirror);
	assert_int_equal(p.chosen, mirror.chosen);
	/* two independent errors of about 1 % */
	assert_near(mirror.regret, p.regret, 0,
		6 * hypot(p.regret_error, mirror.regret_error));
}

/* With a strength that is enough: two mixes, of which one is known for certain
 * and is just enough short; the gain is the loss integral of the other's mean
 * between there and enough.  One mix's worth given results is E min(mu, c); the
 * reference is a sum over the normal results themselves, 20,001 points. */
static void
preposterior__enough(void **state)
{
	static const size_t three[] = {0, 3};
	struct fixture *f = *state;
	struct stats_preposterior_gain got;
	struct stats_preposterior p;
	struct world w = two;
	double moved, left, want = 0, weight = 0, mean = 0;
	double known = 5.15;

	w.centre[0] = known;
	w.sd[0] = 1e-9;
	w.has_enough = true;
	w.enough = 5.2;
	start(f, &w, 17, &p);
	moved = sqrt(resolved(&w, 1, 3));
	left = sqrt(w.sd[1] * w.sd[1] - moved * moved);
	for (int i = -10000; i <= 10000; i++) {
		double z = i / 1250., d = exp(-z * z / 2);
		double fit = w.centre[1] + moved * z;
		double worth = fit -
			left * stats_unit_loss((w.enough - fit) / left);

		want += d * fmax(0, worth - known);
		mean += d * worth;
		weight += d;
	}
	assert_true(mean / weight < known); /* now the known one is chosen */
	assert_int_equal(0, p.chosen);
	assert_ok(stats_preposterior_gain(&p, three, &got, &f->err), &f->err);
	assert_near(got.gain, want / weight, 0, 4 * got.gain_error);
	assert_true(got.gain_error < want / weight / 20);
	assert_near(got.realised, want / weight, 0, 4 * got.realised_error);
	/* far above what is enough nothing is to be won, and nothing is wrong */
	w.enough = 3;
	start(f, &w, 17, &p);
	assert_near(p.p_wrong, 0, 0, 0);
	assert_near(p.regret, 0, 0, 0);
	/* far below it the bound does not bite */
	w = two;
	start(f, &w, 23, &p);
	assert_ok(stats_preposterior_gain(&p, three, &got, &f->err), &f->err);
	want = got.gain;
	w.has_enough = true;
	w.enough = 9;
	start(f, &w, 23, &p);
	assert_ok(stats_preposterior_gain(&p, three, &got, &f->err), &f->err);
	assert_near(got.gain, want, 1e-9, 0);
}

/* A posterior as few batches leave it: the spread of batches uncertain, the
 * means the wider the larger it is. */
static void
few_batches(gsl_rng *rng, double *mean, double *sd_batch, double *sd_specimen)
{
	static const double centre[] = {0.06, 0, 0.02}, n_batch[] = {2, 2, 1};

	for (size_t i = 0; i < DRAWS; i++) {
		sd_batch[i] = fabs(gsl_ran_gaussian_ziggurat(rng, 0.12));
		sd_specimen[i] = 0.1 + 0.04 * gsl_rng_uniform(rng);
		for (size_t m = 0; m < 3; m++) {
			double v = (sd_batch[i] * sd_batch[i] +
					   sd_specimen[i] * sd_specimen[i] /
						   3) /
				n_batch[m];

			mean[3 * i + m] = centre[m] +
				gsl_ran_gaussian_ziggurat(rng, sqrt(v));
		}
	}
}

/* max over m of E(mu_m | results y) less that of the mix chosen now, by weighing
 * every draw with the likelihood of those results. */
static double
gain_by_weights(const struct stats_preposterior_ask *ask, const size_t *extra,
	const double *y, size_t chosen)
{
	double total = 0, sum[3] = {0}, best = -HUGE_VAL;

	for (size_t i = 0; i < ask->n_draw; i++) {
		double v = ask->sd_batch[i] * ask->sd_batch[i] +
			ask->sd_specimen[i] * ask->sd_specimen[i] /
				(double)ask->specimens;
		double log_weight = 0, weight;

		for (size_t m = 0; m < 3; m++) {
			double b = (double)extra[m];
			double off = y[m] - ask->mean[3 * i + m];

			if (extra[m] > 0)
				log_weight -= off * off * b / v / 2 +
					log(v / b) / 2;
		}
		weight = exp(log_weight);
		total += weight;
		for (size_t m = 0; m < 3; m++)
			sum[m] += weight * ask->mean[3 * i + m];
	}
	for (size_t m = 0; m < 3; m++)
		best = fmax(best, sum[m] / total);
	return best - sum[chosen] / total;
}

/* The linear rule against the posterior by importance weights, which takes
 * neither normality nor known spreads (its own limit is the number of draws).
 * Both agreed within their errors of 2 % when this was written (0.0292 and
 * 0.0286); a twentieth, or four Monte Carlo errors of the 8,000 sets of
 * results. */
static void
preposterior__against_reweighted_draws(void **state)
{
	enum { SETS = 8000 };
	static const size_t extra[] = {1, 0, 2};
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(616, 0);
	double *mean = arena_take(f->a, (size_t)DRAWS * 3, sizeof *mean);
	double *sd_batch = arena_take(f->a, DRAWS, sizeof *sd_batch);
	double *sd_specimen = arena_take(f->a, DRAWS, sizeof *sd_specimen);
	struct stats_preposterior_ask ask = {.n_draw = DRAWS,
		.n_mix = 3,
		.mean = mean,
		.sd_batch = sd_batch,
		.sd_specimen = sd_specimen,
		.larger_is_better = true,
		.specimens = 3};
	struct stats_preposterior_gain got;
	struct stats_preposterior p;
	double sum = 0, squares = 0;

	few_batches(rng, mean, sd_batch, sd_specimen);
	assert_ok(stats_preposterior_start(f->a, &ask, rng, &p, &f->err),
		&f->err);
	assert_ok(stats_preposterior_gain(&p, extra, &got, &f->err), &f->err);
	ask.n_draw = DRAWS / 8; /* for the weights */
	for (size_t k = 0; k < SETS; k++) {
		/* results of draws that the weights do not use */
		size_t i = DRAWS / 2 + k;
		double y[3], gain;

		for (size_t m = 0; m < 3; m++)
			y[m] = mean[3 * i + m] +
				gsl_ran_gaussian_ziggurat(rng,
					p.batch_sd[i] /
						sqrt(fmax(
							1, (double)extra[m])));
		gain = gain_by_weights(&ask, extra, y, p.chosen);
		sum += gain;
		squares += gain * gain;
	}
	gsl_rng_free(rng);
	sum /= SETS;
	assert_near(got.gain, sum, 0.05,
		4 * sqrt((squares / SETS - sum * sum) / SETS));
}

static void
preposterior__refusals(void **state)
{
	struct fixture *f = *state;
	gsl_rng *rng = rng_new(1, 1);
	double mean[200] = {0}, sd[100] = {0};
	struct stats_preposterior_ask ask = {.n_draw = 100,
		.n_mix = 1,
		.mean = mean,
		.sd_batch = sd,
		.sd_specimen = sd,
		.specimens = 1};
	struct stats_preposterior p = {.p_wrong = 77};
	struct stats_preposterior_gain got = {.gain = 77};

	assert_int_equal(ERR_INPUT,
		stats_preposterior_start(f->a, &ask, rng, &p, &f->err));
	assert_string_equal("mixes", f->err.field);
	assert_near(p.p_wrong, 77, 0, 0);
	err_clear(&f->err);
	ask.n_mix = 2;
	ask.n_draw = 99;
	assert_int_equal(ERR_INPUT,
		stats_preposterior_start(f->a, &ask, rng, &p, &f->err));
	assert_string_equal("draws", f->err.field);
	err_clear(&f->err);
	ask.n_draw = 100;
	assert_ok(stats_preposterior_start(f->a, &ask, rng, &p, &f->err),
		&f->err);
	assert_int_equal(ERR_NUMERIC,
		stats_preposterior_gain(
			&p, (const size_t[]){1, 1}, &got, &f->err));
	assert_near(got.gain, 77, 0, 0);
	gsl_rng_free(rng);
}

/* The worth of a stepped reading: Sheppard's series where steps are fine (its
 * next term is of the order of w^4 / 400), a coin where there are two cells
 * (2 / pi, the worth of a sign), nothing where they are huge. */
static void
step_reading__worth(void **state)
{
	(void)state;
	assert_near(stats_step_worth(0), 1, 0, 0);
	for (double w = 0.003; w < 0.3; w *= 1.93)
		assert_near(stats_step_worth(w), 1 / (1 + w * w / 12), 0,
			w * w * w * w / 100);
	assert_true(stats_step_worth(2) < stats_step_worth(1));
	assert_true(stats_step_worth(50) < 0.1);
	for (double worth = 0.31; worth < 1; worth += 0.173)
		assert_near(stats_step_worth(stats_step_for(worth)), worth,
			1e-8, 0);
}

/* Drawn: the spread of the best estimate from many stepped readings.  Kulldorff
 * says the estimate's variance is 1 / (n worth); here the score at the truth,
 * whose variance is the information itself. */
static void
step_reading__drawing_agrees(void **state)
{
	enum { N = 200000 };
	const double w = 1.317;
	gsl_rng *rng = rng_new(31, 7);
	double sum = 0, squares = 0;

	(void)state;
	for (size_t i = 0; i < N; i++) {
		double phase = gsl_rng_uniform(rng);
		double x = gsl_ran_gaussian_ziggurat(rng, 1);
		double low = (floor(x / w - phase) + phase) * w;
		double density = exp(-low * low / 2) -
			exp(-(low + w) * (low + w) / 2);
		double share = 0.5 *
			(erfc(low / sqrt(2)) - erfc((low + w) / sqrt(2)));
		double score = density / sqrt(2 * M_PI) / share;

		sum += score * score;
		squares += pow(score, 4);
	}
	gsl_rng_free(rng);
	sum /= N;
	assert_near(stats_step_worth(w), sum, 0,
		4 * sqrt((squares / N - sum * sum) / N));
}

static const struct CMUnitTest tests[] = {
	TEST(preposterior__two_mixes_in_closed_form),
	TEST(preposterior__endless_batches_end_regret),
	TEST(preposterior__order_of_designs),
	TEST(preposterior__enough),
	TEST(preposterior__against_reweighted_draws),
	TEST(preposterior__refusals),
	TEST(step_reading__worth),
	TEST(step_reading__drawing_agrees),
};

TEST_MAIN(tests)

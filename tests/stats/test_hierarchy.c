/* test_hierarchy.c - the hierarchical model against closed forms, quadrature
 * and two independent samplers. */
#include "support.h"

#include "stats/hierarchy.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Four Monte Carlo errors: a right answer misses by more once in 16,000. */
static const double errors_allowed = 4;

struct moments {
	double mean, sd;
};

static struct moments
moments_of(const double *draw, size_t n, size_t step)
{
	double sum = 0, square = 0;

	for (size_t i = 0; i < n; i++)
		sum += draw[i * step];
	sum /= (double)n;
	for (size_t i = 0; i < n; i++)
		square += (draw[i * step] - sum) * (draw[i * step] - sum);
	return (struct moments){sum, sqrt(square / (double)(n - 1))};
}

/* The error of a mean is sd / sqrt(ess); that of an sd about 1 / sqrt(2 ess) of
 * it for a normal posterior.  The tails of sd_specimen's are heavier, so it is
 * given twice that. */
static void
assert_posterior(struct moments got, double mean, double sd, double ess)
{
	assert_near(got.mean, mean, 0, errors_allowed * sd / sqrt(ess));
	assert_near(got.sd, sd, 2 * errors_allowed / sqrt(2 * ess), 0);
}

static struct stats_hierarchy_ask
small_ask(size_t n_row, const double *low, const double *high)
{
	static const size_t zero[16];

	return (struct stats_hierarchy_ask){.n_row = n_row,
		.n_mix = 1,
		.n_batch = 1,
		.low = low,
		.high = high,
		.row_batch = zero,
		.batch_mix = zero,
		.prior = {.mean_centre = 5.7,
			.mean_sd = 1,
			.sd_batch_scale = 0.3,
			.sd_specimen_scale = 0.5},
		.n_chain = 4,
		.n_warm = 500,
		.n_keep = 20000,
		.n_thread = 2,
		.seed = 7301};
}

/* fixtures_bayes.csv, ids bayes.quad and bayes.quad2 (Gauss-Legendre). */
static void
hierarchy__agrees_with_quadrature(void **state)
{
	struct fixture *f = *state;
	const double low_1[] = {300, 250, 400, 310};
	const double high_1[] = {350, 300, INFINITY, 310};
	const double low_2[] = {350, 0, 360, 500};
	const double high_2[] = {400, 200, 360, INFINITY};
	struct stats_hierarchy_ask ask = small_ask(4, low_1, high_1);
	struct stats_hierarchy got;

	ask.prior.has_sd_batch = true;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	assert_posterior(moments_of(got.mean, got.n_draw, 1), 5.83672902699316,
		0.202769946091851, got.ess_mean[0]);
	assert_posterior(moments_of(got.sd_specimen, got.n_draw, 1),
		0.353195506913447, 0.194057379132545, got.ess_min);
	ask.prior.has_sd_specimen = true;
	ask.prior.sd_specimen = 0.2;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	assert_posterior(moments_of(got.mean, got.n_draw, 1), 5.81102172047565,
		0.103907559614862, got.ess_min);
	ask.low = low_2;
	ask.high = high_2;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	assert_posterior(moments_of(got.mean, got.n_draw, 1), 5.83272566052098,
		0.102693732622253, got.ess_min);
}

/* Known spreads, exact readings: normal prior, normal posterior.  Two batches
 * of three and one specimen: precisions 1 / (sb^2 + se^2 / n). */
static void
hierarchy__agrees_with_the_conjugate_case(void **state)
{
	struct fixture *f = *state;
	const double y[] = {217.3, 241.9, 260.2, 331.7};
	const size_t row_batch[] = {0, 0, 0, 1}, batch_mix[] = {0, 0};
	struct stats_hierarchy_ask ask = small_ask(4, y, y);
	struct stats_hierarchy got;
	const double sb = 0.13, se = 0.17;
	const double w_1 = 1 / (sb * sb + se * se / 3);
	const double w_2 = 1 / (sb * sb + se * se);
	const double m_1 = (log(y[0]) + log(y[1]) + log(y[2])) / 3;
	const double precision = w_1 + w_2 + 1;

	ask.n_batch = 2;
	ask.row_batch = row_batch;
	ask.batch_mix = batch_mix;
	ask.prior.has_sd_batch = ask.prior.has_sd_specimen = true;
	ask.prior.sd_batch = sb;
	ask.prior.sd_specimen = se;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	assert_posterior(moments_of(got.mean, got.n_draw, 1),
		(w_1 * m_1 + w_2 * log(y[3]) + 5.7) / precision,
		1 / sqrt(precision), (double)got.n_draw);
}

enum { N_BEAM_MAX = 64, N_BEAM_MIX = 7 };

struct beams {
	double low[N_BEAM_MAX], high[N_BEAM_MAX], x[N_BEAM_MAX];
	size_t row_batch[N_BEAM_MAX], batch_mix[N_BEAM_MAX];
	struct stats_hierarchy_ask ask;
};

/* Prior and covariate as in lib_bayes.R: log(density / 780), N(2, 1.5^2). */
static void
read_beams(struct arena *a, struct beams *b)
{
	static const double slope_mean = 2, slope_sd = 1.5;
	const struct support_csv csv = support_csv_read(
		a, support_path("r/inv_beams_censored.csv"));
	const char *last = "";
	size_t n_batch = 0;

	for (size_t i = 0; i + 1 < csv.n_row; i++) {
		char **cell = csv.cell[i + 1];

		if (strcmp(cell[1], last) != 0)
			b->batch_mix[n_batch++] = (size_t)(cell[0][0] - 'A');
		last = cell[1];
		b->row_batch[i] = n_batch - 1;
		b->x[i] = log(strtod(cell[3], NULL) / 780);
		b->low[i] = strcmp(cell[5], "NA") == 0 ? 0
						       : strtod(cell[5], NULL);
		b->high[i] = strcmp(cell[6], "NA") == 0 ? (double)INFINITY
							: strtod(cell[6], NULL);
	}
	b->ask = small_ask(csv.n_row - 1, b->low, b->high);
	b->ask.n_mix = N_BEAM_MIX;
	b->ask.n_batch = n_batch;
	b->ask.n_x = 1;
	b->ask.x = b->x;
	b->ask.row_batch = b->row_batch;
	b->ask.batch_mix = b->batch_mix;
	b->ask.prior.slope_mean = &slope_mean;
	b->ask.prior.slope_sd = &slope_sd;
}

static void
assert_reference(const struct support_csv *csv, size_t row, struct moments got,
	double ess)
{
	char **cell = csv->cell[row];
	const double mean = strtod(cell[1], NULL), sd = strtod(cell[2], NULL);
	const double mcse = strtod(cell[3], NULL);

	assert_near(got.mean, mean, 0,
		errors_allowed * hypot(mcse, sd / sqrt(ess)));
}

/* bayes_posterior.csv and bayes_pbest.csv: 4 x 250,000 draws of one sampler
 * (rows beta, mu[1..7], sigma, sigmab). */
static void
hierarchy__agrees_with_independent_samplers(void **state)
{
	struct fixture *f = *state;
	const struct support_csv csv = support_csv_read(
		f->a, support_path("r/bayes_posterior.csv"));
	const struct support_csv best = support_csv_read(
		f->a, support_path("r/bayes_pbest.csv"));
	struct stats_mix_answer answer[N_BEAM_MIX];
	struct stats_hierarchy got;
	struct beams b;
	double n;

	read_beams(f->a, &b);
	assert_ok(stats_hierarchy_sample(f->a, &b.ask, &got, &f->err), &f->err);
	assert_true(got.rhat_max < 1.01);
	/* 2,000 of 20,000 was asked for; here 80,000 are drawn */
	assert_true(got.ess_min > 8000);
	assert_reference(
		&csv, 1, moments_of(got.slope, got.n_draw, 1), got.ess_min);
	for (size_t m = 0; m < N_BEAM_MIX; m++)
		assert_reference(&csv, 2 + m,
			moments_of(got.mean + m, got.n_draw, N_BEAM_MIX),
			got.ess_mean[m]);
	assert_reference(&csv, 9, moments_of(got.sd_specimen, got.n_draw, 1),
		got.ess_min);
	assert_reference(
		&csv, 10, moments_of(got.sd_batch, got.n_draw, 1), got.ess_min);
	assert_ok(stats_hierarchy_answer(
			  f->a, &got, 0, 0.9, true, answer, &f->err),
		&f->err);
	/* the reference's mu have an effective size of 45,000 or more */
	n = 1 / (1 / got.ess_min + 1 / 45000.);
	for (size_t m = 0; m < N_BEAM_MIX; m++) {
		const double p = strtod(best.cell[m + 1][1], NULL);

		assert_near(answer[m].p_best, p, 0,
			errors_allowed * sqrt(p * (1 - p) / n));
	}
}

/* Each chain has a stream of its own, so threads cannot matter. */
static void
hierarchy__has_the_same_bits_on_any_threads(void **state)
{
	struct fixture *f = *state;
	struct stats_hierarchy one, more;
	struct beams b;

	read_beams(f->a, &b);
	b.ask.n_keep = 211;
	b.ask.n_thread = 1;
	assert_ok(stats_hierarchy_sample(f->a, &b.ask, &one, &f->err), &f->err);
	for (size_t n = 2; n <= 8; n *= 4) {
		b.ask.n_thread = n;
		assert_ok(stats_hierarchy_sample(f->a, &b.ask, &more, &f->err),
			&f->err);
		assert_memory_equal(one.mean, more.mean,
			one.n_draw * one.n_mix * sizeof *one.mean);
		assert_memory_equal(one.sd_batch, more.sd_batch,
			one.n_draw * sizeof *one.sd_batch);
		assert_true(one.ess_min == more.ess_min);
	}
}

/* Readings times c: the centre moves by log c, every draw with it, but for the
 * rounding of logs near 10, which 200 sweeps may multiply. */
static void
hierarchy__follows_the_unit(void **state)
{
	struct fixture *f = *state;
	const double c = 6.894757;
	struct stats_hierarchy one, scaled;
	struct beams b;

	read_beams(f->a, &b);
	b.ask.n_keep = 101;
	b.ask.n_warm = 20;
	assert_ok(stats_hierarchy_sample(f->a, &b.ask, &one, &f->err), &f->err);
	for (size_t i = 0; i < b.ask.n_row; i++) {
		b.low[i] *= c;
		b.high[i] *= c;
	}
	b.ask.prior.mean_centre += log(c);
	assert_ok(stats_hierarchy_sample(f->a, &b.ask, &scaled, &f->err),
		&f->err);
	for (size_t i = 0; i < one.n_draw * one.n_mix; i++)
		assert_near(scaled.mean[i], one.mean[i] + log(c), 0, 1e-8);
}

/* A mix without rows keeps its prior; one whose readings are all "more than"
 * stays above them for the most part, and says how well it was sampled. */
static void
hierarchy__lets_the_prior_carry_what_is_not_known(void **state)
{
	struct fixture *f = *state;
	const double low[] = {412, 433, 437},
		     high[] = {INFINITY, INFINITY, INFINITY};
	const size_t batch_mix[] = {1};
	struct stats_hierarchy_ask ask = small_ask(3, low, high);
	struct moments empty, open;
	struct stats_hierarchy got;

	ask.n_mix = 2;
	ask.batch_mix = batch_mix;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	empty = moments_of(got.mean, got.n_draw, 2);
	assert_posterior(empty, 5.7, 1, (double)got.n_draw);
	open = moments_of(got.mean + 1, got.n_draw, 2);
	assert_true(open.mean > log(437));
	/* a tenth of the 80,000 draws, though every reading is open */
	assert_true(got.ess_mean[1] > 8000);
	ask.n_row = 0;
	ask.n_batch = 0;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	assert_posterior(moments_of(got.mean, got.n_draw, 2), 5.7, 1,
		(double)got.n_draw);
}

static void
refuse(struct fixture *f, double low, double high, const char *field)
{
	const double lows[] = {217, low}, highs[] = {233, high};
	const struct stats_hierarchy_ask ask = small_ask(2, lows, highs);
	struct stats_hierarchy got;

	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_hierarchy_sample(f->a, &ask, &got, &f->err));
	assert_string_equal(field, f->err.field);
}

static void
hierarchy__refuses_what_cannot_be(void **state)
{
	struct fixture *f = *state;
	const double same[] = {217.3, 217.3, 217.3};
	struct stats_hierarchy_ask ask = small_ask(3, same, same);
	struct stats_hierarchy got;

	refuse(f, NAN, 1, "rows[1]");
	refuse(f, 3.1, 2.9, "rows[1]");
	refuse(f, 0, 0, "rows[1]");
	refuse(f, -2, -2, "rows[1]");
	refuse(f, INFINITY, INFINITY, "rows[1]");
	err_clear(&f->err);
	assert_int_equal(
		ERR_INPUT, stats_hierarchy_sample(f->a, &ask, &got, &f->err));
	assert_has(f->err.text, "interval");
	err_clear(&f->err);
	ask.n_row = 1;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	ask.prior.mean_sd = 0;
	assert_int_equal(
		ERR_INPUT, stats_hierarchy_sample(f->a, &ask, &got, &f->err));
	assert_string_equal("prior.mean_sd", f->err.field);
}

/* Hand-worked: stand-ins 3, 5, sqrt(4 * 9) = 6 and 11; the median is the mean
 * of the logs of 5 and 6. */
static void
hierarchy__centres_the_default_prior(void **state)
{
	const double low[] = {0, 5, 4, 11}, high[] = {3, 5, 9, INFINITY};
	struct stats_hierarchy_prior prior;

	(void)state;
	stats_hierarchy_default_prior(low, high, 4, &prior);
	assert_near(prior.mean_centre, log(30) / 2, 1e-15, 0);
	stats_hierarchy_default_prior(low, high, 0, &prior);
	assert_near(prior.mean_centre, 0, 0, 0);
}

static const struct CMUnitTest tests[] = {
	TEST(hierarchy__agrees_with_quadrature),
	TEST(hierarchy__agrees_with_the_conjugate_case),
	TEST(hierarchy__agrees_with_independent_samplers),
	TEST(hierarchy__has_the_same_bits_on_any_threads),
	TEST(hierarchy__follows_the_unit),
	TEST(hierarchy__lets_the_prior_carry_what_is_not_known),
	TEST(hierarchy__refuses_what_cannot_be),
	TEST(hierarchy__centres_the_default_prior),
};

TEST_MAIN(tests)

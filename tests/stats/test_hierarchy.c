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

enum { N_SURVREG = 600, N_SURVREG_MIX = 3 };

struct censored_rows {
	double low[N_SURVREG], high[N_SURVREG], x[N_SURVREG];
	size_t row_batch[N_SURVREG];
};

static void
read_censored(struct arena *a, struct censored_rows *r)
{
	const struct support_csv csv = support_csv_read(
		a, support_path("r/survreg_rows.csv"));

	assert_int_equal(csv.n_row, N_SURVREG + 1);
	for (size_t i = 0; i < N_SURVREG; i++) {
		char **cell = csv.cell[i + 1];

		r->row_batch[i] = (size_t)(cell[0][0] - 'A');
		r->x[i] = strtod(cell[1], NULL);
		r->low[i] = strcmp(cell[2], "NA") == 0 ? 0
						       : strtod(cell[2], NULL);
		r->high[i] = strcmp(cell[3], "NA") == 0 ? (double)INFINITY
							: strtod(cell[3], NULL);
	}
}

/* The largest-likelihood fit and a posterior under all but flat priors differ by
 * a part of the standard error that goes with 1 / sqrt(n): with 200 rows a mix
 * a tenth is generous, and the sds agree to a twentieth of themselves.  The
 * spread's posterior lies a little above the fit, by (columns / 2 n) of itself
 * and by its skewness: 0.25 of the standard error is allowed. */
static void
assert_fit(const struct support_csv *csv, size_t row, struct moments got,
	double allowed)
{
	const double value = strtod(csv->cell[row][2], NULL);
	const double se = strtod(csv->cell[row][3], NULL);

	assert_near(got.mean, value, 0, allowed * se);
	assert_near(got.sd, se, 0.05, 0);
}

/* survreg_fit.csv, by R's survreg: without batches (their spread known to be 0)
 * and with flat priors both do the same. */
static void
hierarchy__agrees_with_survreg(void **state)
{
	static const double slope_sd = 50;
	static const size_t batch_mix[] = {0, 1, 2};
	struct fixture *f = *state;
	const struct support_csv csv = support_csv_read(
		f->a, support_path("r/survreg_fit.csv"));
	static struct censored_rows r;
	struct stats_hierarchy_ask ask = small_ask(N_SURVREG, r.low, r.high);

	read_censored(f->a, &r);
	ask.n_mix = ask.n_batch = N_SURVREG_MIX;
	ask.row_batch = r.row_batch;
	ask.batch_mix = batch_mix;
	ask.prior.mean_sd = 50;
	ask.prior.sd_specimen_scale = 50;
	ask.prior.slope_sd = &slope_sd;
	ask.prior.has_sd_batch = true;
	ask.n_keep = 2500;
	for (size_t n_x = 0; n_x <= 1; n_x++) {
		struct stats_hierarchy got;
		size_t row = n_x == 0 ? 1 : 5;
		double *log_sd;

		ask.n_x = n_x;
		ask.x = n_x > 0 ? r.x : NULL;
		assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err),
			&f->err);
		for (size_t m = 0; m < N_SURVREG_MIX; m++)
			assert_fit(&csv, row++,
				moments_of(got.mean + m, got.n_draw,
					N_SURVREG_MIX),
				0.1);
		if (n_x > 0)
			assert_fit(&csv, row++,
				moments_of(got.slope, got.n_draw, 1), 0.1);
		log_sd = arena_copy(
			f->a, got.sd_specimen, got.n_draw, sizeof *log_sd);
		for (size_t i = 0; i < got.n_draw; i++)
			log_sd[i] = log(log_sd[i]);
		assert_fit(&csv, row, moments_of(log_sd, got.n_draw, 1), 0.25);
	}
}

/* Mean of the draws under weights w(sd_batch), and their effective number. */
static struct moments
reweigh(const struct stats_hierarchy *h, const double *draw, double scale,
	double median, double log_sd, double *n)
{
	double sum = 0, square = 0, total = 0, squares = 0;

	for (size_t i = 0; i < h->n_draw; i++) {
		const double s = h->sd_batch[i], t = log(s / median) / log_sd;
		const double w =
			exp(0.5 * s * s / (scale * scale) - 0.5 * t * t) / s;

		sum += w;
		squares += w * w;
		total += w * draw[i];
		square += w * draw[i] * draw[i];
	}
	*n = sum * sum / squares;
	total /= sum;
	return (struct moments){total, sqrt(square / sum - total * total)};
}

/* A lognormal prior gives what weights on the draws of the half-normal one give,
 * where readings are closed and where they are open. */
static void
hierarchy__takes_a_lognormal_spread(void **state)
{
	struct fixture *f = *state;
	const double median = 0.17, log_sd = 0.41;
	struct stats_hierarchy half, logs;
	struct beams b;

	for (size_t open = 0; open < 2; open++) {
		struct moments want, got;
		double n;

		read_beams(f->a, &b);
		for (size_t i = 0; open > 0 && i < b.ask.n_row; i++)
			if (b.low[i] < b.high[i] && b.low[i] > 0)
				b.high[i] = (double)INFINITY;
		assert_ok(stats_hierarchy_sample(f->a, &b.ask, &half, &f->err),
			&f->err);
		b.ask.prior.sd_batch_scale = median;
		b.ask.prior.sd_batch_log_sd = log_sd;
		assert_ok(stats_hierarchy_sample(f->a, &b.ask, &logs, &f->err),
			&f->err);
		want = reweigh(&half, half.sd_batch, 0.3, median, log_sd, &n);
		got = moments_of(logs.sd_batch, logs.n_draw, 1);
		n *= half.ess_min / (double)half.n_draw;
		n = 1 / (1 / n + 1 / logs.ess_min);
		assert_posterior(got, want.mean, want.sd, n);
	}
}

/* Without rows the draws of a spread are its prior's: medians by the closed
 * form, 0.6745 of the scale for the half-normal. */
static void
hierarchy__without_rows_draws_the_priors(void **state)
{
	struct fixture *f = *state;
	struct stats_hierarchy_ask ask = small_ask(0, NULL, NULL);
	struct stats_hierarchy got;
	double interval[3];

	ask.n_batch = 0;
	ask.prior.sd_specimen_scale = 0.13;
	ask.prior.sd_specimen_log_sd = 0.37;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	assert_ok(stats_hierarchy_interval(f->a, got.sd_batch, got.n_draw, 0.9,
			  interval, &f->err),
		&f->err);
	/* four errors of a median from 20,000 or more effective draws: 4 *
	 * 1.25 * sd / 141, with sd 0.6 of the scale and 0.37 of a log */
	assert_true(got.ess_min > 20000);
	assert_near(interval[0], 0.674489750196082 * 0.3, 0, 0.0066);
	assert_ok(stats_hierarchy_interval(f->a, got.sd_specimen, got.n_draw,
			  0.9, interval, &f->err),
		&f->err);
	assert_near(log(interval[0]), log(0.13), 0, 0.0135);
	/* the ends of a normal's central 90 %: 1.6449 sds; their errors are
	 * about twice that of the median */
	assert_near(log(interval[2]), log(0.13) + 1.6449 * 0.37, 0, 0.027);
}

/* Draws made up: a spread that keeps off zero is learnt as a lognormal, one
 * that reaches it as a half-normal, both exactly by their moments. */
static void
hierarchy__learns_priors(void **state)
{
	enum { N = 400 };
	struct fixture *f = *state;
	double batch[N], specimen[N], slope[N], mean, sd;
	struct stats_hierarchy other = {.n_draw = N,
		.n_x = 1,
		.sd_batch = batch,
		.sd_specimen = specimen,
		.slope = slope};
	struct stats_hierarchy_prior prior;
	double square = 0;

	stats_hierarchy_default_prior(NULL, NULL, 0, &prior);
	for (size_t i = 0; i < N; i++) {
		const double at = ((double)i + 0.5) / N;

		batch[i] = 0.3 * at;
		specimen[i] = 0.11 * (i % 2 == 0 ? exp(0.2) : exp(-0.2));
		slope[i] = 1.7 + (i % 2 == 0 ? 0.3 : -0.3);
		square += batch[i] * batch[i] / N;
	}
	assert_ok(stats_hierarchy_learn(
			  &other, 0.25, &prior, &mean, &sd, &f->err),
		&f->err);
	assert_near(prior.sd_batch_scale, 2 * sqrt(square), 1e-12, 0);
	assert_near(prior.sd_batch_log_sd, 0, 0, 0);
	assert_near(prior.sd_specimen_scale, 0.11, 1e-12, 0);
	/* sample sds have n - 1 below the line: 1 + 1 / 800 */
	assert_near(prior.sd_specimen_log_sd, 2 * 0.2, 1.3e-3, 0);
	assert_near(mean, 1.7, 1e-12, 0);
	assert_near(sd, 2 * 0.3, 1.3e-3, 0);
	assert_ptr_equal(prior.slope_sd, &sd);
	assert_int_equal(ERR_INPUT,
		stats_hierarchy_learn(
			&other, 1.5, &prior, NULL, NULL, &f->err));
	assert_string_equal("weight", f->err.field);
	err_clear(&f->err);
	for (size_t i = 0; i < N; i++)
		specimen[i] = 0.2;
	assert_int_equal(ERR_INPUT,
		stats_hierarchy_learn(&other, 1, &prior, NULL, NULL, &f->err));
	assert_string_equal("sd_specimen", f->err.field);
}

/* Wider priors, wider spreads; where the batches' spread is its prior alone,
 * its median goes with the factor. */
static void
hierarchy__says_how_priors_move_it(void **state)
{
	struct fixture *f = *state;
	const double y[] = {217.3, 241.9};
	const size_t row_batch[] = {0, 1}, batch_mix[] = {0, 1};
	struct stats_hierarchy_ask ask = small_ask(2, y, y);
	struct stats_hierarchy_moved half, twice;

	ask.n_mix = ask.n_batch = 2;
	ask.row_batch = row_batch;
	ask.batch_mix = batch_mix;
	assert_ok(stats_hierarchy_sensitivity(
			  f->a, &ask, 0.5, 0, 0.9, true, &half, &f->err),
		&f->err);
	assert_ok(stats_hierarchy_sensitivity(
			  f->a, &ask, 2, 0, 0.9, true, &twice, &f->err),
		&f->err);
	/* the means' prior is not flat, so the spreads are not quite their
	 * prior's: within a tenth */
	assert_near(half.sd_batch[0], 0.6745 * 0.15, 0.1, 0);
	assert_near(twice.sd_batch[0], 0.6745 * 0.6, 0.1, 0);
	assert_true(half.mix[1].ratio_high < twice.mix[1].ratio_high);
	assert_near(half.mix[0].ratio_median, 1, 0, 0);
	assert_int_equal(ERR_INPUT,
		stats_hierarchy_sensitivity(
			f->a, &ask, 0, 0, 0.9, true, &half, &f->err));
	assert_string_equal("factor", f->err.field);
}

/* Data that are the model's own give a p in the middle; one specimen far out
 * gives a small p within, one batch far out a small p between. */
static void
hierarchy__checks_what_it_would_make(void **state)
{
	enum { N = 40 };
	struct fixture *f = *state;
	double y[N];
	size_t row_batch[N];
	static const size_t batch_mix[N / 4];
	struct stats_hierarchy_ask ask = small_ask(N, y, y);
	struct stats_predictive plain, specimen, batch;
	struct stats_hierarchy h;

	/* normal scores of 1 .. 40 dealt out, sd 0.1 */
	for (size_t i = 0; i < N; i++) {
		const double at = ((double)((i * 17) % N) + 0.5) / N;

		y[i] = exp(5.7 + 0.1 * log(at / (1 - at)) / 1.702);
		row_batch[i] = i / 4;
	}
	ask.n_batch = N / 4;
	ask.row_batch = row_batch;
	ask.batch_mix = batch_mix;
	ask.keep_batch = true;
	ask.n_keep = 1000;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &h, &f->err), &f->err);
	assert_ok(stats_hierarchy_predict_check(
			  f->a, &ask, &h, 2000, 5, &plain, &f->err),
		&f->err);
	assert_true(plain.within.p > 0.05 && plain.within.p < 0.95);
	assert_true(plain.between.p > 0.05);
	y[7] *= 2.7;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &h, &f->err), &f->err);
	assert_ok(stats_hierarchy_predict_check(
			  f->a, &ask, &h, 2000, 5, &specimen, &f->err),
		&f->err);
	assert_true(specimen.within.p < 0.02);
	y[7] /= 2.7;
	for (size_t i = 0; i < 4; i++)
		y[i] *= 1.9;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &h, &f->err), &f->err);
	assert_ok(stats_hierarchy_predict_check(
			  f->a, &ask, &h, 2000, 5, &batch, &f->err),
		&f->err);
	assert_near(batch.between.p, 0, 0, 0.1);
	h.batch = NULL;
	assert_int_equal(ERR_INPUT,
		stats_hierarchy_predict_check(
			f->a, &ask, &h, 2000, 5, &batch, &f->err));
	assert_string_equal("keep_batch", f->err.field);
}

/* Two values only, so tails as light as can be: nothing is far out, and the
 * share near 1 comes of the shape alone, not of how wide the readings are. */
static void
hierarchy__takes_light_tails_for_nothing_far_out(void **state)
{
	enum { N = 40 };
	static const double half_width[] = {0.02, 0.3};
	static const size_t batch_mix[N / 4];
	struct fixture *f = *state;

	for (size_t w = 0; w < 2; w++) {
		double y[N];
		size_t row_batch[N];
		struct stats_hierarchy_ask ask = small_ask(N, y, y);
		struct stats_predictive check;
		struct stats_hierarchy h;

		for (size_t i = 0; i < N; i++) {
			y[i] = exp(5.7 + (i % 2 ? 1 : -1) * half_width[w]);
			row_batch[i] = i / 4;
		}
		ask.n_batch = N / 4;
		ask.row_batch = row_batch;
		ask.batch_mix = batch_mix;
		ask.keep_batch = true;
		ask.n_keep = 1000;
		assert_ok(stats_hierarchy_sample(f->a, &ask, &h, &f->err),
			&f->err);
		assert_ok(stats_hierarchy_predict_check(
				  f->a, &ask, &h, 2000, 5, &check, &f->err),
			&f->err);
		assert_true(check.within.p > 0.99);
	}
}

/* Known spreads: the next batch is normal about the posterior mean with sd
 * sqrt(sd_mean^2 + sb^2), a specimen with se^2 more. */
static void
hierarchy__foresees_the_next_batch(void **state)
{
	struct fixture *f = *state;
	const double y[] = {217.3};
	struct stats_hierarchy_ask ask = small_ask(1, y, y);
	const double sb = 0.13, se = 0.17;
	const double precision = 1 / (sb * sb + se * se) + 1;
	const double mean = (log(y[0]) * (precision - 1) + 5.7) / precision;
	const double sd = sqrt(1 / precision + sb * sb);
	const double sd_one = sqrt(sd * sd + se * se);
	struct stats_next_batch next;
	struct stats_hierarchy h;

	ask.prior.has_sd_batch = ask.prior.has_sd_specimen = true;
	ask.prior.sd_batch = sb;
	ask.prior.sd_specimen = se;
	assert_ok(stats_hierarchy_sample(f->a, &ask, &h, &f->err), &f->err);
	assert_ok(
		stats_hierarchy_next_batch(f->a, &h, 0, 0.9, 3, &next, &f->err),
		&f->err);
	/* 80,000 draws: errors of a quantile at 5 % about 2.1 sd / 283 */
	assert_near(log(next.mean[0]), mean, 0, 0.02 * sd);
	assert_near(log(next.mean[1]), mean - 1.6449 * sd, 0, 0.03 * sd);
	assert_near(log(next.specimen[2]), mean + 1.6449 * sd_one, 0,
		0.03 * sd_one);
	assert_near(
		log(next.specimen_5), mean - 1.6449 * sd_one, 0, 0.03 * sd_one);
	assert_int_equal(ERR_INPUT,
		stats_hierarchy_next_batch(
			f->a, &h, 1, 0.9, 3, &next, &f->err));
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
	TEST(hierarchy__agrees_with_survreg),
	TEST(hierarchy__takes_a_lognormal_spread),
	TEST(hierarchy__without_rows_draws_the_priors),
	TEST(hierarchy__learns_priors),
	TEST(hierarchy__says_how_priors_move_it),
	TEST(hierarchy__checks_what_it_would_make),
	TEST(hierarchy__takes_light_tails_for_nothing_far_out),
	TEST(hierarchy__foresees_the_next_batch),
};

TEST_MAIN(tests)

/* slow_hierarchy_sbc.c - the sampler against its own model: truths drawn from
 * the prior must rank evenly among the posterior's draws (Talts and others
 * 2018, arXiv 1804.06788), and intervals must hold the share they say. */
#include "support.h"

#include "core/pool.h"
#include "core/rng.h"
#include "stats/hierarchy.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>

#include <math.h>

/* 99 draws give ranks 0 .. 99, which 20 bins divide evenly. */
enum {
	N_MIX = 3,
	N_BATCH = 6,
	N_ROW = 18,
	N_TRIAL = 2000,
	N_DRAW = 99,
	N_BIN = 20,
	N_PARAMETER = 4,
	THIN = 60,
	WARM = 300
};

static const double sd_mean = 0.5, sd_slope = 0.5, scale_b = 0.3, scale_e = 0.5;
/* ln 300: where the readings of the scheme lie */
static const double centre = 5.7;

struct trial {
	size_t rank[N_PARAMETER];
	bool covers;
};

struct study {
	bool is_censored;
	struct trial trial[N_TRIAL];
	enum err_code failed;
};

struct truth {
	double mu[N_MIX], slope, sd_b, sd_e;
	double low[N_ROW], high[N_ROW], x[N_ROW];
	size_t row_batch[N_ROW], batch_mix[N_BATCH];
};

/* The scheme does not look at the truth: weights step by a quarter, from 180
 * to 420.  Mostly exact: only every sixth beam is loaded in steps. */
static void
read_off(struct truth *t, size_t i, double y, bool is_censored)
{
	const double step = 1.25, least = 180, most = 420;

	t->low[i] = t->high[i] = y;
	if (!is_censored && i % 6 != 0)
		return;
	t->low[i] = least * pow(step, floor(log(y / least) / log(step)));
	t->high[i] = t->low[i] * step;
	if (y < least) {
		t->low[i] = 0;
		t->high[i] = least;
	} else if (y > most) {
		t->low[i] = most;
		t->high[i] = (double)INFINITY;
	}
}

static void
draw_truth(struct truth *t, bool is_censored, gsl_rng *rng)
{
	double u[N_BATCH];

	t->slope = gsl_ran_gaussian(rng, sd_slope);
	t->sd_b = fabs(gsl_ran_gaussian(rng, scale_b));
	t->sd_e = fabs(gsl_ran_gaussian(rng, scale_e));
	for (size_t m = 0; m < N_MIX; m++)
		t->mu[m] = centre + gsl_ran_gaussian(rng, sd_mean);
	for (size_t b = 0; b < N_BATCH; b++) {
		t->batch_mix[b] = b % N_MIX;
		u[b] = gsl_ran_gaussian(rng, t->sd_b);
	}
	for (size_t i = 0; i < N_ROW; i++) {
		const size_t b = i % N_BATCH;

		t->row_batch[i] = b;
		t->x[i] = gsl_ran_flat(rng, -1, 1);
		read_off(t, i,
			exp(t->mu[b % N_MIX] + u[b] + t->slope * t->x[i] +
				gsl_ran_gaussian(rng, t->sd_e)),
			is_censored);
	}
}

static enum err_code
ask_model(struct arena *a, const struct truth *t, uint64_t seed,
	struct stats_hierarchy *got, struct err *err)
{
	const double slope_mean = 0;
	const struct stats_hierarchy_ask ask = {.n_row = N_ROW,
		.n_mix = N_MIX,
		.n_batch = N_BATCH,
		.n_x = 1,
		.low = t->low,
		.high = t->high,
		.x = t->x,
		.row_batch = t->row_batch,
		.batch_mix = t->batch_mix,
		.prior = {.mean_centre = centre,
			.mean_sd = sd_mean,
			.sd_batch_scale = scale_b,
			.sd_specimen_scale = scale_e,
			.slope_mean = &slope_mean,
			.slope_sd = &sd_slope},
		.n_chain = 1,
		.n_warm = WARM,
		.n_keep = (size_t)N_DRAW * THIN,
		.n_thread = 1,
		.seed = seed};

	return stats_hierarchy_sample(a, &ask, got, err);
}

static void
rank_truth(const struct truth *t, const struct stats_hierarchy *got,
	struct trial *trial)
{
	for (size_t i = THIN - 1; i < got->n_draw; i += THIN) {
		trial->rank[0] += got->mean[i * N_MIX] < t->mu[0];
		trial->rank[1] += got->slope[i] < t->slope;
		trial->rank[2] += got->sd_batch[i] < t->sd_b;
		trial->rank[3] += got->sd_specimen[i] < t->sd_e;
	}
}

static enum err_code
run_trial(void *data, size_t index, struct err *err)
{
	struct study *study = data;
	const uint64_t seed = study->is_censored ? 41077 : 9203;
	struct arena *a = arena_new((size_t)1 << 26);
	gsl_rng *rng = rng_new(seed, index);
	struct stats_mix_answer answer[N_MIX];
	struct stats_hierarchy got;
	struct truth t;
	double ratio;
	enum err_code code;

	draw_truth(&t, study->is_censored, rng);
	code = ask_model(a, &t, rng_mix(seed, index), &got, err);
	if (code == ERR_NONE) {
		rank_truth(&t, &got, &study->trial[index]);
		code = stats_hierarchy_answer(
			a, &got, 0, 0.9, true, answer, err);
	}
	if (code == ERR_NONE) {
		ratio = exp(t.mu[1] - t.mu[0]);
		study->trial[index].covers = answer[1].ratio_low <= ratio &&
			ratio <= answer[1].ratio_high;
	}
	gsl_rng_free(rng);
	arena_free(a);
	return code;
}

static double
evenness(const struct study *study, size_t parameter)
{
	const double wanted = (double)N_TRIAL / N_BIN;
	size_t count[N_BIN] = {0};
	double chi = 0;

	for (size_t i = 0; i < N_TRIAL; i++)
		count[study->trial[i].rank[parameter] * N_BIN / (N_DRAW + 1)]++;
	for (size_t b = 0; b < N_BIN; b++)
		chi += ((double)count[b] - wanted) *
			((double)count[b] - wanted) / wanted;
	return gsl_cdf_chisq_Q(chi, N_BIN - 1);
}

static void
check_study(bool is_censored, struct err *err)
{
	static struct study study;
	double share = 0;

	study = (struct study){.is_censored = is_censored};
	assert_ok(pool_run(0, N_TRIAL, run_trial, &study, err), err);
	for (size_t k = 0; k < N_PARAMETER; k++) {
		const double p = evenness(&study, k);

		print_message("parameter %zu: p = %.4f\n", k, p);
		/* a right sampler fails one of the eight once in 125 seeds;
		 * the seeds are fixed */
		assert_true(p > 0.001);
	}
	for (size_t i = 0; i < N_TRIAL; i++)
		share += study.trial[i].covers ? 1. / N_TRIAL : 0;
	print_message("90 %% intervals of the ratio hold %.4f\n", share);
	/* three standard errors: 3 sqrt(0.9 * 0.1 / 2000) = 0.020 */
	assert_near(share, 0.9, 0, 0.02);
}

static void
hierarchy__ranks_truths_evenly_mostly_exact(void **state)
{
	struct fixture *f = *state;

	check_study(false, &f->err);
}

static void
hierarchy__ranks_truths_evenly_mostly_censored(void **state)
{
	struct fixture *f = *state;

	check_study(true, &f->err);
}

static const struct CMUnitTest tests[] = {
	TEST(hierarchy__ranks_truths_evenly_mostly_exact),
	TEST(hierarchy__ranks_truths_evenly_mostly_censored),
};

TEST_MAIN(tests)

/* slow_hierarchy_sbc.c - the sampler against its own model: truths drawn from
 * the prior must rank evenly among the posterior's draws (Talts and others
 * 2018, arXiv 1804.06788), and intervals must hold the share they say.
 *
 * With FOAMWRIGHT_SBC_CSV=FILE the rank histograms are written there too, as
 * scheme,parameter,rank,count over both seeds (tools/calibration_plots.sh). */
#include "support.h"

#include "core/pool.h"
#include "core/rng.h"
#include "stats/hierarchy.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_randist.h>

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

/* 99 draws give ranks 0 .. 99, which 20 bins divide evenly. */
enum {
	N_MIX = 3,
	N_BATCH = 6,
	N_ROW = 18,
	N_TRIAL = 1000, /* a seed */
	N_SEED = 2,
	N_DRAW = 99,
	N_BIN = 20,
	N_PARAMETER = 14,
	THIN = 60,
	WARM = 300
};

static const char *const parameter_name[N_PARAMETER] = {"mean 1", "mean 2",
	"mean 3", "ratio 2 to 1", "ratio 3 to 1", "slope", "batch spread",
	"specimen spread", "batch 1", "batch 2", "batch 3", "batch 4",
	"batch 5", "batch 6"};

static const double sd_mean = 0.5, sd_slope = 0.5, scale_b = 0.3, scale_e = 0.5;
/* ln 300: where the readings of the scheme lie */
static const double centre = 5.7;

struct trial {
	size_t rank[N_PARAMETER];
	bool covers[N_MIX - 1];
};

struct study {
	bool is_censored;
	uint64_t seed;
	struct trial trial[N_TRIAL];
};

struct truth {
	double mu[N_MIX], slope, sd_b, sd_e, u[N_BATCH];
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
	t->slope = gsl_ran_gaussian(rng, sd_slope);
	t->sd_b = fabs(gsl_ran_gaussian(rng, scale_b));
	t->sd_e = fabs(gsl_ran_gaussian(rng, scale_e));
	for (size_t m = 0; m < N_MIX; m++)
		t->mu[m] = centre + gsl_ran_gaussian(rng, sd_mean);
	for (size_t b = 0; b < N_BATCH; b++) {
		t->batch_mix[b] = b % N_MIX;
		t->u[b] = gsl_ran_gaussian(rng, t->sd_b);
	}
	for (size_t i = 0; i < N_ROW; i++) {
		const size_t b = i % N_BATCH;

		t->row_batch[i] = b;
		t->x[i] = gsl_ran_flat(rng, -1, 1);
		read_off(t, i,
			exp(t->mu[b % N_MIX] + t->u[b] + t->slope * t->x[i] +
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
		.seed = seed,
		.keep_batch = true};

	return stats_hierarchy_sample(a, &ask, got, err);
}

static void
rank_truth(const struct truth *t, const struct stats_hierarchy *got,
	struct trial *trial)
{
	for (size_t i = THIN - 1; i < got->n_draw; i += THIN) {
		const double *mu = got->mean + i * N_MIX;
		size_t *rank = trial->rank;

		for (size_t m = 0; m < N_MIX; m++)
			*rank++ += mu[m] < t->mu[m];
		for (size_t m = 1; m < N_MIX; m++)
			*rank++ += mu[m] - mu[0] < t->mu[m] - t->mu[0];
		*rank++ += got->slope[i] < t->slope;
		*rank++ += got->sd_batch[i] < t->sd_b;
		*rank++ += got->sd_specimen[i] < t->sd_e;
		for (size_t b = 0; b < N_BATCH; b++)
			*rank++ += got->batch[i * N_BATCH + b] < t->u[b];
	}
}

static enum err_code
run_trial(void *data, size_t index, struct err *err)
{
	struct study *study = data;
	struct trial *trial = &study->trial[index];
	struct arena *a = arena_new((size_t)1 << 26);
	gsl_rng *rng = rng_new(study->seed, index);
	struct stats_mix_answer answer[N_MIX];
	struct stats_hierarchy got;
	struct truth t;
	enum err_code code;

	draw_truth(&t, study->is_censored, rng);
	code = ask_model(a, &t, rng_mix(study->seed, index), &got, err);
	if (code == ERR_NONE) {
		rank_truth(&t, &got, trial);
		code = stats_hierarchy_answer(
			a, &got, 0, 0.9, true, answer, err);
	}
	for (size_t m = 1; m < N_MIX && code == ERR_NONE; m++) {
		const double ratio = exp(t.mu[m] - t.mu[0]);

		trial->covers[m - 1] = answer[m].ratio_low <= ratio &&
			ratio <= answer[m].ratio_high;
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
write_ranks(const char *scheme, const struct study *study)
{
	const char *path = getenv("FOAMWRIGHT_SBC_CSV");
	FILE *file = path != NULL ? fopen(path, "a") : NULL;

	if (file == NULL)
		return;
	for (size_t k = 0; k < N_PARAMETER; k++) {
		size_t count[N_DRAW + 1] = {0};

		for (size_t s = 0; s < N_SEED; s++)
			for (size_t i = 0; i < N_TRIAL; i++)
				count[study[s].trial[i].rank[k]]++;
		for (size_t r = 0; r <= N_DRAW; r++)
			fprintf(file, "%s,%s,%zu,%zu\n", scheme,
				parameter_name[k], r, count[r]);
	}
	fclose(file);
}

static void
check_evenness(const struct study *study)
{
	for (size_t k = 0; k < N_PARAMETER; k++) {
		const double p = evenness(study, k);

		print_message("%s: p = %.4f\n", parameter_name[k], p);
		/* a right sampler fails one of the 56 once in 18 pairs of
		 * seeds; the seeds are fixed */
		assert_true(p > 0.001);
	}
}

/* Over 2,000 trials the share has a standard error of 0.007; the band
 * of 0.88 to 0.92 is three of them. */
static void
check_coverage(const struct study *study)
{
	for (size_t m = 1; m < N_MIX; m++) {
		double share = 0;

		for (size_t s = 0; s < N_SEED; s++)
			for (size_t i = 0; i < N_TRIAL; i++)
				share += study[s].trial[i].covers[m - 1];
		share /= (double)N_SEED * N_TRIAL;
		print_message("90 %% intervals of ratio %zu to 1 hold %.4f\n",
			m + 1, share);
		assert_near(share, 0.9, 0, 0.02);
	}
}

static void
check_studies(bool is_censored, const uint64_t seed[N_SEED], struct err *err)
{
	static struct study study[N_SEED];

	for (size_t s = 0; s < N_SEED; s++) {
		study[s] = (struct study){
			.is_censored = is_censored, .seed = seed[s]};
		assert_ok(pool_run(0, N_TRIAL, run_trial, &study[s], err), err);
		check_evenness(&study[s]);
	}
	check_coverage(study);
	write_ranks(is_censored ? "mostly censored" : "mostly exact", study);
}

static void
hierarchy__ranks_truths_evenly_mostly_exact(void **state)
{
	static const uint64_t seed[N_SEED] = {9203, 51407};
	struct fixture *f = *state;

	check_studies(false, seed, &f->err);
}

static void
hierarchy__ranks_truths_evenly_mostly_censored(void **state)
{
	static const uint64_t seed[N_SEED] = {41077, 60811};
	struct fixture *f = *state;

	check_studies(true, seed, &f->err);
}

static const struct CMUnitTest tests[] = {
	TEST(hierarchy__ranks_truths_evenly_mostly_exact),
	TEST(hierarchy__ranks_truths_evenly_mostly_censored),
};

TEST_MAIN(tests)

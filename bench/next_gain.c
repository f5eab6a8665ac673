/* next_gain.c - fifty plans of seven mixes weighed over 20,000 drawn posterior
 * draws, without the book: wall and processor time, largest Monte Carlo error.
 */
#include "must.h"

#include "core/arena.h"
#include "core/rng.h"
#include "stats/preposterior.h"

#include <gsl/gsl_randist.h>
#include <stdio.h>
#include <time.h>

enum { DRAWS = 20000, MIXES = 7, PLANS = 50 };

static double
seconds(clockid_t clock)
{
	struct timespec t;

	(void)clock_gettime(clock, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Seven mixes a few per cent apart, spreads as on the demo. */
static void
draw(gsl_rng *rng, double *mean, double *sd_batch, double *sd_specimen)
{
	for (size_t i = 0; i < DRAWS; i++) {
		for (size_t m = 0; m < MIXES; m++)
			mean[i * MIXES + m] = 0.02 * (double)m +
				gsl_ran_gaussian_ziggurat(rng, 0.08);
		sd_batch[i] = 0.04 + 0.04 * gsl_rng_uniform(rng);
		sd_specimen[i] = 0.10 + 0.04 * gsl_rng_uniform(rng);
	}
}

static enum err_code
weigh(struct arena *a, gsl_rng *rng, struct stats_preposterior_ask *ask,
	double *most_error, struct err *err)
{
	struct stats_preposterior p;

	TRY(stats_preposterior_start(a, ask, rng, &p, err));
	for (size_t k = 0; k < PLANS; k++) {
		struct stats_preposterior_gain got;
		size_t extra[MIXES] = {0};

		for (size_t m = 0; m < MIXES; m++)
			extra[m] = (k + m) % 3;
		TRY(stats_preposterior_gain(&p, extra, &got, err));
		if (got.gain_error > *most_error)
			*most_error = got.gain_error;
	}
	return ERR_NONE;
}

int
main(void)
{
	struct arena *a = arena_new((size_t)1 << 28);
	gsl_rng *rng = rng_new(1, 0);
	struct err err = {0};
	double *mean = arena_take(a, (size_t)DRAWS * MIXES, sizeof *mean);
	double *sd_batch = arena_take(a, DRAWS, sizeof *sd_batch);
	double *sd_specimen = arena_take(a, DRAWS, sizeof *sd_specimen);
	struct stats_preposterior_ask ask = {.n_draw = DRAWS,
		.n_mix = MIXES,
		.mean = mean,
		.sd_batch = sd_batch,
		.sd_specimen = sd_specimen,
		.larger_is_better = true,
		.specimens = 3};
	double wall, busy, most_error = 0;

	draw(rng, mean, sd_batch, sd_specimen);
	wall = seconds(CLOCK_MONOTONIC);
	busy = seconds(CLOCK_PROCESS_CPUTIME_ID);
	must(weigh(a, rng, &ask, &most_error, &err), &err);
	(void)printf("%d plans of %d mixes over %d draws: %.3f s wall, %.3f s "
		     "of processor; Monte Carlo error of a gain at most %.2g "
		     "(log scale)\n",
		PLANS, MIXES, DRAWS, seconds(CLOCK_MONOTONIC) - wall,
		seconds(CLOCK_PROCESS_CPUTIME_ID) - busy, most_error);
	gsl_rng_free(rng);
	arena_free(a);
	return 0;
}

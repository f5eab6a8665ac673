/* resample.c - 10,000 resamples of 24 beams, timed on one thread: writes the
 * values to the file named, for the peer. */
#include "must.h"
#include "timing.h"

#include "stats/bootstrap.h"

#include <assert.h>

/* invented breaking stresses, kPa: tests/data/r/inv_weibull.csv */
static const double kpa[] = {317, 384, 317, 376, 351, 315, 335, 305, 341, 368,
	347, 362, 355, 315, 329, 285, 296, 291, 224, 333, 338, 323, 321, 344};
enum { N = sizeof kpa / sizeof kpa[0], DRAWS = 10000 };

struct job {
	enum stats_statistic which;
	struct stats_bootstrap got;
};

static void
solve(void *data)
{
	const size_t limit = (size_t)1 << 30;
	struct job *job = data;
	struct stats_bootstrap_ask ask = {.value = kpa,
		.n = N,
		.which = job->which,
		.draws = DRAWS,
		.confidence = 0.95,
		.seed = 1,
		.n_thread = 1};
	struct arena *arena = arena_new(limit);
	struct err err = {.code = ERR_NONE};

	assert(arena != NULL);
	must(stats_bootstrap(arena, &ask, &job->got, &err), &err);
	arena_free(arena);
}

int
main(int argc, char **argv)
{
	static const char *const word[] = {"mean", "median", "sd", "cv"};
	FILE *file;

	if (argc != 2)
		return 2;
	file = fopen(argv[1], "w");
	assert(file != NULL);
	for (size_t i = 0; i < N; i++)
		(void)fprintf(file, "%.17g\n", kpa[i]);
	(void)fclose(file);
	for (size_t w = STATS_MEAN; w <= STATS_CV; w++) {
		struct job job = {.which = (enum stats_statistic)w};

		timing_say(word[w], timing_median(solve, &job));
		(void)printf("ours, %s: BCa %.6g to %.6g\n", word[w],
			job.got.bca.low, job.got.bca.high);
	}
	return 0;
}

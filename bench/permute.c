/* permute.c - a million shuffles of 40 rows in eight groups, timed. */
#include "cubes.h"
#include "must.h"
#include "timing.h"

#include "core/rng.h"
#include "stats/permute.h"

#include <assert.h>

enum { DRAWS = 1000000 };

struct job {
	struct cubes cubes;
	struct stats_permute got;
};

static void
solve(void *data)
{
	const size_t limit = (size_t)1 << 30;
	struct job *job = data;
	struct arena *arena = arena_new(limit);
	gsl_rng *rng = rng_new(1, 0);
	struct err err = {.code = ERR_NONE};
	struct stats_permute_sample sample = {.value = job->cubes.value,
		.group = job->cubes.group,
		.n = CUBES_N,
		.n_group = CUBES_GROUPS};

	assert(arena != NULL && rng != NULL);
	must(stats_permute_draws(arena, &sample, DRAWS, rng, &job->got, &err),
		&err);
	gsl_rng_free(rng);
	arena_free(arena);
}

int
main(void)
{
	static struct job job;

	if (cubes_read("tests/data/r/inv_cubes_unbalanced.csv", &job.cubes) !=
		0)
		return 2;
	timing_say("1,000,000 shuffles", timing_median(solve, &job));
	(void)printf("ours: p = %.6f, standard error %.6f\n", job.got.p,
		job.got.p_error);
	return 0;
}

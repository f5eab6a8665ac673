/* many_to_one.c - seven groups against a baseline, adjusted p and simultaneous
 * intervals by exact integration, timed. */
#include "cubes.h"
#include "must.h"
#include "timing.h"

#include "stats/many_to_one.h"

#include <assert.h>

struct job {
	struct cubes cubes;
	double p[CUBES_GROUPS];
};

static void
solve(void *data)
{
	const double confidence = 0.95;
	const size_t limit = (size_t)1 << 30;
	struct job *job = data;
	struct arena *arena = arena_new(limit);
	struct err err = {.code = ERR_NONE};
	struct stats_grouped grouped = {.value = job->cubes.value,
		.size = job->cubes.size,
		.n_group = CUBES_GROUPS};
	struct stats_against_baseline got;

	assert(arena != NULL);
	must(stats_against_baseline(
		     arena, &grouped, 0, STATS_BOTH, confidence, &got, &err),
		&err);
	for (size_t g = 0; g < CUBES_GROUPS; g++)
		job->p[g] = got.group[g].p;
	arena_free(arena);
}

int
main(void)
{
	static struct job job;
	double seconds;

	if (cubes_read("tests/data/r/inv_cubes_unbalanced.csv", &job.cubes) !=
		0)
		return 2;
	seconds = timing_median(solve, &job);
	timing_say("p-values (ours with intervals, exact)", seconds);
	timing_say("p-values and intervals", seconds);
	(void)printf("ours:    ");
	for (size_t g = 1; g < CUBES_GROUPS; g++)
		(void)printf(" %.10f", job.p[g]);
	(void)puts("");
	return 0;
}

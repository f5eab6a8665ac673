/* variance.c - variance components of 100,000 rows, timed: writes the rows to
 * the file named, for the peer. */
#include "must.h"
#include "timing.h"

#include "core/rng.h"
#include "stats/variance.h"

#include <assert.h>
#include <gsl/gsl_randist.h>

enum { N_BATCH = 25000, PER_BATCH = 4, N_ROW = N_BATCH * PER_BATCH };
enum { N_GROUP = 7 };

struct job {
	struct stats_variance_data data;
	struct stats_variance got;
	double value[N_ROW];
	size_t batch[N_ROW], batch_group[N_BATCH];
};

static void
fill(struct job *job)
{
	const double sd = 0.1, step = 0.1;
	gsl_rng *rng = rng_new(1, 0);

	assert(rng != NULL);
	job->data = (struct stats_variance_data){.value = job->value,
		.batch = job->batch,
		.batch_group = job->batch_group,
		.n = N_ROW,
		.n_batch = N_BATCH,
		.n_group = N_GROUP};
	for (size_t b = 0; b < N_BATCH; b++) {
		double off = gsl_ran_gaussian(rng, sd);

		job->batch_group[b] = gsl_rng_uniform_int(rng, N_GROUP);
		for (size_t i = b * PER_BATCH; i < (b + 1) * PER_BATCH; i++) {
			job->batch[i] = b;
			job->value[i] = step * (double)job->batch_group[b] +
				off + gsl_ran_gaussian(rng, sd);
		}
	}
	gsl_rng_free(rng);
}

static void
write_rows(const struct job *job, const char *path)
{
	FILE *file = fopen(path, "w");

	assert(file != NULL);
	(void)fputs("mix,batch,y\n", file);
	for (size_t i = 0; i < N_ROW; i++)
		(void)fprintf(file, "m%zu,b%zu,%.17g\n",
			job->batch_group[job->batch[i]], job->batch[i],
			job->value[i]);
	(void)fclose(file);
}

static void
solve(void *data)
{
	const double confidence = 0.95;
	const size_t limit = (size_t)1 << 30;
	struct job *job = data;
	struct arena *arena = arena_new(limit);
	struct err err = {.code = ERR_NONE};

	assert(arena != NULL);
	must(stats_variance(arena, &job->data, confidence, &job->got, &err),
		&err);
	arena_free(arena);
}

int
main(int argc, char **argv)
{
	static struct job job;

	if (argc != 2)
		return 2;
	fill(&job);
	write_rows(&job, argv[1]);
	timing_say("REML, 100,000 rows in 25,000 batches of 7 groups",
		timing_median(solve, &job));
	(void)printf("ours, with both intervals: between %.10g, within %.10g\n",
		job.got.between.variance, job.got.within.variance);
	return 0;
}

/* hierarchy.c - the hierarchical model's sampler, timed.
 *
 *     hierarchy DATA SLOPE THREADS WARM KEEP DRAWS
 *
 * DATA has the columns mix, batch, specimen, density, kind, lower, upper (as
 * tests/data/r/inv_beams_censored.csv); SLOPE is 1 for a slope on log(density /
 * 780), 0 for none.  Four chains, five runs; prints the median of the seconds
 * taken and of the processor's seconds used, and the least effective size by our
 * own estimate; and writes the draws of the first
 * run to DRAWS as doubles, a draw after a draw: means, slopes, the spread of
 * specimens, that of batches. */
#include "must.h"

#include "core/arena.h"
#include "core/err.h"
#include "stats/hierarchy.h"

#include <gsl/gsl_sort.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { ROW_MAX = 256, CELL_MAX = 16, N_MIX = 7, N_RUN = 5, N_CHAIN = 4 };

static const double density_reference = 780;
static const size_t arena_limit = (size_t)1 << 30;

struct data {
	size_t n_row, n_batch;
	double low[ROW_MAX], high[ROW_MAX], x[ROW_MAX];
	size_t row_batch[ROW_MAX], batch_mix[ROW_MAX];
};

static bool
read_row(FILE *file, struct data *d, char last[CELL_MAX])
{
	char mix[CELL_MAX], batch[CELL_MAX], kind[CELL_MAX], low[CELL_MAX],
		high[CELL_MAX];
	double density;
	const size_t i = d->n_row;

	if (fscanf(file, " %15[^,],%15[^,],%*[^,],%lf,%15[^,],%15[^,],%15[^\n]",
		    mix, batch, &density, kind, low, high) != 6 ||
		i == ROW_MAX)
		return false;
	if (strcmp(batch, last) != 0)
		d->batch_mix[d->n_batch++] = (size_t)(mix[0] - 'A');
	strcpy(last, batch);
	d->row_batch[i] = d->n_batch - 1;
	d->x[i] = log(density / density_reference);
	d->low[i] = strcmp(low, "NA") == 0 ? 0 : strtod(low, NULL);
	d->high[i] = strcmp(high, "NA") == 0 ? (double)INFINITY
					     : strtod(high, NULL);
	d->n_row++;
	return true;
}

static double
seconds_now(clockid_t clock)
{
	struct timespec t;

	clock_gettime(clock, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int
write_draws(const char *path, const struct stats_hierarchy *h)
{
	FILE *file = fopen(path, "wb");

	if (file == NULL)
		return 1;
	for (size_t i = 0; i < h->n_draw; i++) {
		fwrite(h->mean + i * h->n_mix, sizeof(double), h->n_mix, file);
		if (h->n_x > 0)
			fwrite(h->slope + i * h->n_x, sizeof(double), h->n_x,
				file);
		fwrite(h->sd_specimen + i, sizeof(double), 1, file);
		fwrite(h->sd_batch + i, sizeof(double), 1, file);
	}
	return fclose(file) != 0;
}

static int
run(const struct stats_hierarchy_ask *ask, const char *path)
{
	double took[N_RUN], used[N_RUN], ess = 0;
	struct err err = {.code = ERR_NONE};

	for (size_t i = 0; i < N_RUN; i++) {
		struct arena *a = arena_new(arena_limit);
		struct stats_hierarchy got;
		const double from = seconds_now(CLOCK_MONOTONIC);
		const double used_from = seconds_now(CLOCK_PROCESS_CPUTIME_ID);

		err_clear(&err);
		must(stats_hierarchy_sample(a, ask, &got, &err), &err);
		took[i] = seconds_now(CLOCK_MONOTONIC) - from;
		used[i] = seconds_now(CLOCK_PROCESS_CPUTIME_ID) - used_from;
		ess = got.ess_min;
		if (i == 0 && write_draws(path, &got) != 0)
			return 1;
		arena_free(a);
	}
	gsl_sort(took, 1, N_RUN);
	gsl_sort(used, 1, N_RUN);
	printf("%.6f %.6f %.1f\n", took[N_RUN / 2], used[N_RUN / 2], ess);
	return 0;
}

int
main(int n_arg, char **arg)
{
	static struct data d;
	static const double slope_mean = 2, slope_sd = 1.5;
	char last[CELL_MAX] = "";
	FILE *file = n_arg == 7 ? fopen(arg[1], "r") : NULL;

	if (file == NULL || fscanf(file, "%*[^\n]") == EOF) {
		fprintf(stderr,
			"hierarchy DATA SLOPE THREADS WARM KEEP "
			"DRAWS\n");
		return 2;
	}
	while (read_row(file, &d, last))
		;
	fclose(file);
	const struct stats_hierarchy_ask ask = {.n_row = d.n_row,
		.n_mix = N_MIX,
		.n_batch = d.n_batch,
		.n_x = strtoul(arg[2], NULL, 10),
		.low = d.low,
		.high = d.high,
		.x = d.x,
		.row_batch = d.row_batch,
		.batch_mix = d.batch_mix,
		.prior = {.mean_centre = 5.7,
			.mean_sd = 1,
			.sd_batch_scale = 0.3,
			.sd_specimen_scale = 0.5,
			.slope_mean = &slope_mean,
			.slope_sd = &slope_sd},
		.n_chain = N_CHAIN,
		.n_thread = strtoul(arg[3], NULL, 10),
		.n_warm = strtoul(arg[4], NULL, 10),
		.n_keep = strtoul(arg[5], NULL, 10),
		.seed = 1};

	return run(&ask, arg[6]);
}

/* censored.c - the part of bench/censored.sh that is ours: fits the rows of a
 * CSV file g,lo,hi and prints the median time of five fits and what they gave.
 * Usage: censored FILE */
#include "must.h"

#include "core/start.h"
#include "stats/censored.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { ROWS_MAX = 1000000, REPEATS = 5, GROUPS = 7 };

static double
now(void)
{
	struct timespec t;

	(void)clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int
by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

static size_t
read_rows(const char *path, struct stats_censored_row *row)
{
	FILE *file = fopen(path, "r");
	char line[128];
	size_t n = 0;

	if (file == NULL || fgets(line, sizeof line, file) == NULL)
		return 0;
	while (n < ROWS_MAX && fgets(line, sizeof line, file) != NULL) {
		char *end;

		row[n].group = (size_t)strtoul(line, &end, 10) % GROUPS;
		row[n].low = strtod(end + 1, &end);
		row[n].high = strtod(end + 1, &end);
		n++;
	}
	(void)fclose(file);
	return n;
}

/* The median seconds of a fit; exits where it fails. */
static double
time_fit(const struct stats_censored_ask *ask, struct stats_censored *got)
{
	double seconds[REPEATS], estimate = 0;

	for (int i = 0; i < REPEATS; i++) {
		struct arena *arena = arena_new((size_t)1 << 30);
		struct err err = {.code = ERR_NONE};
		double start = now();

		must(stats_censored_fit(arena, ask, got, &err), &err);
		seconds[i] = now() - start;
		estimate = got->group[0].estimate;
		arena_free(arena);
	}
	got->x.estimate = estimate; /* the group's is gone with the arena */
	qsort(seconds, REPEATS, sizeof *seconds, by_size);
	return seconds[REPEATS / 2];
}

int
main(int argc, char **argv)
{
	static struct stats_censored_row row[ROWS_MAX];
	struct stats_censored_ask ask = {.family = STATS_CENSORED_LOGNORMAL,
		.n_group = GROUPS,
		.row = row};
	struct stats_censored got = {.n_distinct = 0};
	double plain, whole;

	if (argc != 2)
		return 2;
	core_start();
	ask.n_row = read_rows(argv[1], row);
	plain = time_fit(&ask, &got);
	ask.confidence = 0.95;
	whole = time_fit(&ask, &got);
	printf("%zu %.6f %.6f %.12g %.12g %.12g\n", got.n_distinct, plain,
		whole, got.x.estimate, got.scale.estimate, got.log_likelihood);
	return 0;
}

/* timing.h - the median time of a few runs. */
#ifndef BENCH_TIMING_H
#define BENCH_TIMING_H

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

typedef void timed(void *data);

static inline double
timing_now(void)
{
	struct timespec t;

	(void)clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static inline int
timing_compare(const void *a, const void *b)
{
	const double *left = a, *right = b;

	return (*left > *right) - (*left < *right);
}

/* timing_median(run, data): of eleven runs, in seconds. */
static inline double
timing_median(timed *run, void *data)
{
	enum { RUNS = 11 };
	double seconds[RUNS];

	for (int i = 0; i < RUNS; i++) {
		double start = timing_now();

		run(data);
		seconds[i] = timing_now() - start;
	}
	qsort(seconds, RUNS, sizeof seconds[0], timing_compare);
	return seconds[RUNS / 2];
}

/* timing_say(what, seconds): a line that bench/pair.sh pairs with the peer's. */
static inline void
timing_say(const char *what, double seconds)
{
	(void)printf("time\t%s\t%.9f\n", what, seconds);
}

#endif /* BENCH_TIMING_H */

/* launch.c - how long a command takes from fork to exit: the median.
 *
 *   launch RUNS COMMAND [ARGUMENT...]
 *
 * Prints "MEDIAN LEAST MOST CPU" in milliseconds, the last the median of what
 * the processor worked on it, which busy neighbours lengthen less; the command's
 * output goes to /dev/null.  No shell in between, which would be measured too. */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { RUNS_MOST = 1000 };

static double
milliseconds(void)
{
	struct timespec t;

	(void)clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

static int
rising(const void *a, const void *b)
{
	const double *x = a, *y = b;

	return (*x > *y) - (*x < *y);
}

static double
worked(const struct rusage *used)
{
	return (double)(used->ru_utime.tv_sec + used->ru_stime.tv_sec) * 1e3 +
		(double)(used->ru_utime.tv_usec + used->ru_stime.tv_usec) *
		1e-3;
}

/* The time of one run, and its processor's; below 0: it failed. */
static double
run(char **command, double *cpu)
{
	struct rusage used;
	double start = milliseconds();
	int status = 0;
	pid_t child = fork();

	if (child == 0) {
		int nowhere = open("/dev/null", O_WRONLY);

		if (nowhere < 0 || dup2(nowhere, STDOUT_FILENO) < 0)
			_exit(126);
		(void)execv(command[0], command);
		_exit(127);
	}
	if (child < 0 || wait4(child, &status, 0, &used) != child ||
		status != 0)
		return -1;
	*cpu = worked(&used);
	return milliseconds() - start;
}

int
main(int argc, char **argv)
{
	double took[RUNS_MOST], cpu[RUNS_MOST];
	long n = argc > 2 ? strtol(argv[1], NULL, 10) : 0;

	if (n < 1 || n > RUNS_MOST) {
		(void)fputs("launch RUNS COMMAND [ARGUMENT...]\n", stderr);
		return 2;
	}
	for (long i = 0; i < n; i++) {
		took[i] = run(argv + 2, &cpu[i]);
		if (took[i] < 0) {
			(void)fprintf(stderr, "launch: %s failed\n", argv[2]);
			return 1;
		}
	}
	qsort(took, (size_t)n, sizeof took[0], rising);
	qsort(cpu, (size_t)n, sizeof cpu[0], rising);
	(void)printf("%.2f %.2f %.2f %.2f\n", took[n / 2], took[0], took[n - 1],
		cpu[n / 2]);
	return 0;
}

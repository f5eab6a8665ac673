/* cubes.h - invented strengths (MPa) of 40 cubes in eight groups, the first
 * the baseline: tests/data/r/inv_cubes_unbalanced.csv. */
#ifndef BENCH_CUBES_H
#define BENCH_CUBES_H

#include <stddef.h>
#include <stdio.h>

enum { CUBES_N = 40, CUBES_GROUPS = 8 };

struct cubes {
	double value[CUBES_N];
	size_t group[CUBES_N], size[CUBES_GROUPS];
};

/* cubes_read(path, cubes): 0, or -1 if the file is another. */
static inline int
cubes_read(const char *path, struct cubes *cubes)
{
	FILE *file = fopen(path, "r");
	char mix, heading[CUBES_N];
	size_t n = 0;
	double mpa;

	if (file == NULL)
		return -1;
	if (fgets(heading, sizeof heading, file) == NULL)
		n = CUBES_N + 1; /* no rows follow */
	while (n < CUBES_N &&
		fscanf(file, " %c,%*[^,],%*[^,],%lf", &mix, &mpa) == 2) {
		size_t group = (size_t)(mix - 'A');

		if (group >= CUBES_GROUPS)
			break;
		cubes->group[n] = group;
		cubes->size[group]++;
		cubes->value[n++] = mpa;
	}
	(void)fclose(file);
	return n == CUBES_N ? 0 : -1;
}

#endif /* BENCH_CUBES_H */

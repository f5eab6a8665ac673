/* strtod_loop.c - bench: the peer of trace.c, every number of FILE by strtod. */
#include <stdio.h>
#include <stdlib.h>

enum { LINE = 4096 };

int
main(int n, char **word)
{
	FILE *file = n == 2 ? fopen(word[1], "rb") : NULL;
	char line[LINE];
	double peak = 0;
	long rows = 0;

	if (file == NULL)
		return 2;
	while (fgets(line, sizeof line, file) != NULL) {
		char *at = line, *end;

		for (;;) {
			double x = strtod(at, &end);

			if (end == at)
				break;
			if (x > peak)
				peak = x;
			at = *end == ',' ? end + 1 : end;
		}
		rows++;
	}
	(void)fclose(file);
	(void)printf("%ld lines, largest number %.17g\n", rows, peak);
	return 0;
}

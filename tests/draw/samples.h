/* samples.h - one or more samples of every chart, all numbers invented. */
#ifndef TESTS_DRAW_SAMPLES_H
#define TESTS_DRAW_SAMPLES_H

#include "draw/types.h"

struct sample {
	const char *name;
	enum err_code (*draw)(const struct draw_size *size, struct text *svg,
		struct err *err);
};

/* samples(n): all of them, *n how many. */
const struct sample *samples(size_t *n);

#endif /* TESTS_DRAW_SAMPLES_H */

/* must.h - what a benchmark cannot go on without. */
#ifndef BENCH_MUST_H
#define BENCH_MUST_H

#include "core/err.h"

#include <stdio.h>
#include <stdlib.h>

/* must(code, err): ends the program, saying why, where a call failed: `code` is
 * what the call returned and `err` what it filled. */
static inline void
must(enum err_code code, const struct err *err)
{
	if (code == ERR_NONE)
		return;
	(void)fprintf(stderr, "%s\n", err->text);
	exit(1);
}

#endif /* BENCH_MUST_H */

/* search.h - finds things of the book by code or text. */
#ifndef WORK_SEARCH_H
#define WORK_SEARCH_H

#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { WORK_SEARCH_WORDS = 4, WORK_SEARCH_PAGE = 50, WORK_SEARCH_MOST = 10000 };

struct work_hit {
	const char *kind; /* "mix", "batch", "specimen", "reading", ... */
	const char *what; /* as a person says it: "test piece" */
	const char *name; /* its code; of a reading: piece, test, code */
	const char *text; /* the texts that were searched beside the code */
	int64_t id;
};

struct work_search {
	const char *words; /* blanks between; all must be met */
	size_t n_most;     /* hits, up to WORK_SEARCH_MOST */
};

struct work_found {
	const struct work_hit *hit; /* a code given whole first */
	size_t n;
	bool more; /* there are more than n_most */
};

/* work_search(desk, arena, ask, out, err):
 * Materials, mixes, trials, rules, batches, test pieces, parts of the building,
 * foam generators, forms, foam checks, and what was remarked of readings,
 * decisions and pours: those that hold now and whose code and texts together
 * have every word, capitals (of a to z) or not.
 * ERR_INPUT no word, or more than WORK_SEARCH_WORDS */
enum err_code work_search(const struct desk *desk, struct arena *arena,
	const struct work_search *ask, struct work_found *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_SEARCH_H */

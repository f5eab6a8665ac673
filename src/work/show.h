/* show.h - what the book holds, a page at a time, and the results computed from
 * it. */
#ifndef WORK_SHOW_H
#define WORK_SHOW_H

#include "work/bench_notes.h"
#include "work/cure.h"
#include "work/desk.h"
#include "work/results.h"
#include "work/site.h"

enum work_list {
	WORK_LIST_MIXES,
	WORK_LIST_BATCHES,
	WORK_LIST_SPECIMENS,
	WORK_LIST_RESULTS
};

enum { WORK_PAGE = 200 };

/* Which part of a list: after or before the thing of that code, or the last of
 * it; else from the start. */
struct work_show {
	enum work_list list;
	const char *after, *before; /* NULL: not given */
	bool last;
	size_t n_most; /* rows; 0: all */
};

struct work_shown {
	struct work_site site; /* what the page needs of it */
	struct work_results results;
	const struct work_bench_note *note; /* of results: sayings beside */
	size_t n_note;
	struct work_cures cures; /* of results */
	size_t n;                /* rows of the list */
	bool more; /* there are rows beyond the page, the way it goes */
};

/* work_show(desk, arena, ask, out, err):
 * Batches and test pieces are read by index, a page in the time of a page
 * however long the book is.  Results are computed from the whole book, since
 * the age of most of them decides which are left out; paged, they are shown
 * from the n-th on, and after and before are refused.
 * ERR_NOT_FOUND no batch or piece of that code; ERR_INPUT after, before or last
 * of a list that does not take them */
enum err_code work_show(const struct desk *desk, struct arena *arena,
	const struct work_show *ask, struct work_shown *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_SHOW_H */

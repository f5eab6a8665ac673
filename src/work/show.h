/* show.h - what the book holds, and the results computed from it. */
#ifndef WORK_SHOW_H
#define WORK_SHOW_H

#include "work/desk.h"
#include "work/results.h"
#include "work/site.h"

struct work_shown {
	struct work_site site;
	struct work_results results;
};

/* work_show(desk, arena, out, err): the site and its results. */
enum err_code work_show(const struct desk *desk, struct arena *arena,
	struct work_shown *out, struct err *err) MUST_CHECK;

#endif /* WORK_SHOW_H */

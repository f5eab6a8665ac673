/* due.h - which test pieces are to be tested, and when. */
#ifndef WORK_DUE_H
#define WORK_DUE_H

#include "work/drying.h"

struct work_due_piece {
	size_t piece; /* index into bench.site.specimen */
	int64_t due_s;
	int days;       /* from the day asked about: 0 today, below 0 overdue */
	bool age_taken; /* no age was planned: 28 days */
	struct maybe mass_kg; /* weighed, else by size and wet density */
};

struct work_due {
	struct work_bench bench;
	const struct work_due_piece *row;
	size_t n;
	size_t n_undated; /* waiting, and their batch has no date */
	bool heavy;       /* one of those of today takes two to lift */
	const struct work_drying *drying; /* blocks that stand by a wall */
	size_t n_drying, n_to_weigh;      /* to_weigh: a week since the last */
	int64_t on_s;                     /* the day asked about */
};

/* work_due(desk, arena, on, out, err):
 * Every waiting piece, by the day it is due (the day of casting and the age
 * planned for it); of one day in an order drawn anew each day from the seed,
 * going through the mixes in turn, so that no mix is tested first throughout.
 * on NULL: today.  ERR_INPUT a day that is none. */
enum err_code work_due(const struct desk *desk, struct arena *arena,
	const char *on, struct work_due *out, struct err *err) MUST_CHECK;

/* Lifted by one person up to this; common practice, no source. */
static const double work_lift_most_kg = 25;

#endif /* WORK_DUE_H */

/* bench_notes_priv.h - what the files that note share. */
#ifndef WORK_BENCH_NOTES_PRIV_H
#define WORK_BENCH_NOTES_PRIV_H

#include "work/bench_notes.h"
#include "work/results_priv.h"

struct noting {
	struct arena *arena;
	const struct work_bench *bench;
	struct work_bench_note *note;
	size_t n;
};

/* The unit in which a note is read: SI = scale * figure. */
struct notes_unit {
	double scale;
	const char *unit;
};

/* notes_add(t, specimen, what, value_si, unit, u_ratio): a note with its value in
 * words; kind, age and from are left to the caller.  notes_of(note, r): of that
 * reading.  notes_digits(t, value): three of them. */
struct work_bench_note *notes_add(struct noting *t, size_t specimen,
	const char *what, struct interval value_si, struct notes_unit unit,
	struct maybe u_ratio);
void notes_of(struct work_bench_note *note, const struct book_reading *r);
const char *notes_digits(struct noting *t, double value);

/* notes_tests(t, err): water, screws, frost, heat.  ERR_MEMORY */
enum err_code notes_tests(struct noting *t, struct err *err) MUST_CHECK;

#endif /* WORK_BENCH_NOTES_PRIV_H */

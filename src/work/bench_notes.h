/* bench_notes.h - what readings say beside the results that are compared: the
 * bound of a snapped piece, what was held after the crack, blows until it
 * failed, moisture, water at other times, the weakest screw.  Shown, never averaged with the results. */
#ifndef WORK_BENCH_NOTES_H
#define WORK_BENCH_NOTES_H

#include "work/bench.h"

struct work_bench_note {
	size_t specimen;
	const char *kind, *code;         /* of the reading; "" of a fate */
	const char *what, *value, *from; /* whole words */
	bool has_age;
	double age_s;             /* of what is said */
	struct interval value_si; /* SI, by what */
	double scale;             /* of the unit in which value is written */
	const char *unit;
	struct maybe u_ratio; /* relative standard uncertainty of reading the
	                         instruments; the step is the interval */
};

/* work_bench_notes(arena, bench, note, n, err):
 * Snapped at stripping or in handling: at most the stress of being lifted by
 * both ends with twice its weight (lab_handling; the jerk is common practice,
 * no source), at that age alone. */
enum err_code work_bench_notes(struct arena *arena,
	const struct work_bench *bench, const struct work_bench_note **note,
	size_t *n, struct err *err) MUST_CHECK;

#endif /* WORK_BENCH_NOTES_H */

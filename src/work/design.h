/* design.h - the cheapest mix for a part of the building, searched among the
 * book's own materials, with strength as its own batches teach it. */
#ifndef WORK_DESIGN_H
#define WORK_DESIGN_H

#include "choose/search.h"
#include "work/mixer.h"

enum { WORK_DESIGN_FRONT = 9 };

struct work_design_ask {
	const char *part;    /* of the building */
	struct maybe chance; /* wanted; 0.8 if missing */
};

struct work_designed {
	struct work_mixer m;
	size_t part; /* index into site.part */
	const struct choose_requirement *requirement;
	size_t n_requirement;
	double chance;
	size_t n_crushing, n_bending;      /* batches that taught */
	const char *cement, *water, *sand; /* codes; sand NULL */
	struct density foam;
	struct choose_design best;
	bool found;
	const struct choose_design *front;
	size_t n_front;
	const char *const *sentence;
	size_t n_sentence;
};

/* work_design(desk, arena, ask, out, err): nothing is written.
 * ERR_NOT_FOUND no such part; ERR_INPUT the book lacks a cement, a water, a
 * foam, or requirements that can be foreseen */
enum err_code work_design(const struct desk *desk, struct arena *arena,
	const struct work_design_ask *ask, struct work_designed *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_DESIGN_H */

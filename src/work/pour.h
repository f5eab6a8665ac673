/* pour.h - which batch went where in the building, and what was made of it. */
#ifndef WORK_POUR_H
#define WORK_POUR_H

#include "choose/types.h"
#include "work/mixer.h"

struct work_pour_ask {
	const char *batch;
	const char *part;  /* NULL: where it is already */
	struct maybe lift; /* whole */
	struct maybe from_m, to_m;
	const char *verdict; /* NULL: as it is */
	const char *reason;
	struct maybe seed, every; /* of the witness list: 1 in 10 */
	const char *typed;
};

/* What the test pieces of a batch say in one measure: the mean of those that no
 * rule excludes, SI; more: some did not break, so it is at least that. */
struct work_said {
	enum choose_measure measure;
	size_t n;
	double mean;
	bool more;
	bool has_asked; /* the part asks something of it */
	bool is_least;
	double asked;
	bool is_met; /* by that mean, not more than that */
};

/* One batch in its place. */
struct work_placed {
	size_t placing, batch, part; /* indices into m */
	size_t n_piece, n_tested;    /* of its test pieces */
	bool has_wet_off;
	double wet_off_kg_m3; /* from the target of its mix */
	const struct work_said *said;
	size_t n_said;
	bool is_bad; /* held or rejected; then: */
	const size_t
		*touches; /* indices into placed: beside, on and under it */
	size_t n_touches;
};

struct work_poured {
	struct work_mixer m;
	const struct work_placed *placed; /* by part, lift, place */
	size_t n_placed;
	const char *const *sentence;
	size_t n_sentence;
	const char *const *drying; /* of the blocks that dry beside it: when to
	                              plaster; a sentence each */
	size_t n_drying;
};

/* work_pour(desk, arena, ask, err): one write.
 * ERR_NOT_FOUND batch or part; ERR_INPUT no part or lift, a practice batch, a
 * stretch beyond the part or with no length, a verdict without its reason */
enum err_code work_pour(const struct desk *desk, struct arena *arena,
	const struct work_pour_ask *ask, struct err *err) MUST_CHECK;

/* work_poured(desk, arena, part, of, out, err): everything poured, of one part
 * (NULL: all); `of` (NULL: none) is a batch of which is told what it touches.
 * ERR_NOT_FOUND no such part or batch */
enum err_code work_poured(const struct desk *desk, struct arena *arena,
	const char *part, const struct work_pour_ask *of,
	struct work_poured *out, struct err *err) MUST_CHECK;

#endif /* WORK_POUR_H */

/* prepare.h - a test before it is made: the load to expect, the weights and
 * their steps, the height to drop from, and what is to be lifted. */
#ifndef WORK_PREPARE_H
#define WORK_PREPARE_H

#include "choose/foresee.h"
#include "lab/plan.h"
#include "work/bench.h"
#include "work/mixer.h"

struct work_prepare_ask {
	const char *mix, *form;
	const char
		*piece;  /* instead of both: its mix, its own sizes; or NULL */
	const char *rig; /* for bending or for drop; NULL: said below */
	bool drop;       /* without a rig: drop, not bending */
	const char *loading, *tip;
	struct maybe span_m, strap_m, hanger_kg; /* before the rig's own */
	struct maybe bar_kg, tip_diameter_m, tip_angle_rad, readable_m;
	struct maybe low_pa, high_pa; /* foreseen; both or none */
	struct maybe width_ratio;     /* of the interval; 0.1 */
};

enum work_foreseen_by {
	WORK_FORESEEN_SAID,    /* in the request */
	WORK_FORESEEN_OWN,     /* results of this mix */
	WORK_FORESEEN_OTHERS,  /* results of the book's other mixes */
	WORK_FORESEEN_RELATION /* published relations, and own batches if any */
};

struct work_prepared {
	bool is_drop;
	struct interval foreseen_pa; /* strength, or energy per volume */
	enum work_foreseen_by by;
	size_t n_taught; /* batches or results that it rests on */
	struct lab_planned_bending bending;
	struct lab_planned_weights weights;
	struct lab_planned_drop drop;
	bool is_wide; /* so wide a range that two sizes of weight do not do */
	struct maybe piece_kg; /* to lift */
	const char *const *sentence;
	const bool *is_caution; /* n_sentence: what falls, what is lifted */
	size_t n_sentence;
	struct maybe hanger_kg, bar_kg; /* as the plan took them */
};

/* work_prepare(desk, arena, ask, out, err): nothing is written.
 * ERR_NOT_FOUND  no such mix, form, piece or rig
 * ERR_INPUT      what the plan needs is neither in the rig nor in the request,
 *                the piece has no size across the load, or lab_plan_bending and
 *                lab_plan_drop refuse it */
enum err_code work_prepare(const struct desk *desk, struct arena *arena,
	const struct work_prepare_ask *ask, struct work_prepared *out,
	struct err *err) MUST_CHECK;

/* What a test is prepared for, by one code. */
struct work_prepare_about {
	struct work_bench bench; /* the forms and rigs there are */
	const char *code;        /* as the book has it */
	const char *piece;       /* NULL: a mix, or a trial */
	const char *rig; /* of a piece: the only one for the test that its
				  * shape is for; NULL: none, or several */
	const char *const *mix; /* one, or those of the trial in turn */
	size_t n_mix;
};

/* work_prepare_about(desk, arena, code, out, err): a test piece, a mix or a
 * trial.  ERR_NOT_FOUND, ERR_INPUT as work_find_piece */
enum err_code work_prepare_about(const struct desk *desk, struct arena *arena,
	const char *code, struct work_prepare_about *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_PREPARE_H */

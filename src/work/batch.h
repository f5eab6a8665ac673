/* batch.h - a batch recorded as it is made, and what to do with it now. */
#ifndef WORK_BATCH_H
#define WORK_BATCH_H

#include "mix/rescue.h"
#include "work/mixer.h"

struct work_put_in {
	const char *code; /* of a material */
	double kg;        /* as weighed */
	const char *lot;  /* "" if not said */
};

struct work_settled {
	double after_s, loss_ratio;
};

/* What is newly known; NULL and missing stay as they are in the book. */
struct work_batch_ask {
	const char *code, *mix, *trial, *generator, *made_on, *remark;
	bool practice;
	bool as_sheet;          /* what the sheet says went in */
	struct maybe wanted_m3; /* of that sheet */
	struct maybe foam_m3, foam_s, foam_start_kg_m3, foam_middle_kg_m3,
		foam_end_kg_m3, slurry_kg_m3, wet_kg_m3, volume_m3;
	struct maybe set_s; /* until a thumb leaves no dent */
	struct maybe blending_s, air_degc, slurry_degc, hardness_kg_m3;
	struct maybe spread_m, consistency;
	struct maybe since_foam_s; /* not kept: for the advice */
	const struct work_put_in *put_in;
	size_t n_put_in;
	const struct work_settled *settled;
	size_t n_settled;
	const char *typed;
};

struct work_batch_told {
	size_t batch; /* index into m->site.batch */
	bool made;    /* new in the book */
	bool has_rescue;
	struct mix_rescued rescue;
	bool has_survival;
	double survival_ratio;
	const char *const *sentence; /* what to do, what to look out for */
	size_t n_sentence;
	struct work_mixer m; /* the book as it is now */
};

/* work_batch_record(desk, arena, ask, out, err):
 * Enters the batch or its next revision in one write, then tells.  A planned
 * batch takes its mix and trial from the plan.
 * ERR_INPUT practice set after a wet density was read is kept and shown for
 * ever, not refused; a mix or trial that contradicts the plan is refused */
enum err_code work_batch_record(const struct desk *desk, struct arena *arena,
	const struct work_batch_ask *ask, struct work_batch_told *out,
	struct err *err) MUST_CHECK;

/* work_batch_tell(desk, arena, code, since_foam_s, out, err): what the book says
 * of a batch now, as work_batch_record would tell it; nothing is written. */
enum err_code work_batch_tell(const struct desk *desk, struct arena *arena,
	const char *code, struct maybe since_foam_s,
	struct work_batch_told *out, struct err *err) MUST_CHECK;

/* work_practice_passed(m): the last two practice batches were both within 5 %
 * of their target, with the foam steady and, where it was read, under 3 % sunk
 * at a day; common practice, no source. */
bool work_practice_passed(const struct work_mixer *m);

#endif /* WORK_BATCH_H */

/* sheet.h - the batch sheet: what to weigh, what foam to make, what to look out
 * for, with what the batches so far have taught. */
#ifndef WORK_SHEET_H
#define WORK_SHEET_H

#include "control/survival.h"
#include "mix/sheet.h"
#include "work/mixer.h"

struct work_sheet_ask {
	const char *what;       /* a planned batch, or a mix */
	const char *generator;  /* NULL: the first of the book */
	struct maybe wanted_m3; /* missing: what one mixer load makes */
	bool whole_bags;
	int64_t now_utc_s; /* for how old foam check and cement are */
};

struct work_sheet {
	size_t mix;
	bool planned;
	size_t slot; /* with planned */
	bool has_generator;
	size_t generator; /* with has_generator */
	struct density foam;
	bool foam_checked; /* weighed, or only its target */
	struct control_survival survival;
	const struct mix_part *part; /* dry masses of one cubic metre */
	size_t n_part;
	struct mix_sheet sheet;
	bool has_blending;
	double blending_s;
	const char *const *caution;
	size_t n_caution;
};

/* work_survival(m, arena, generator, out, err): what the batches made with the
 * generator (all of them if it is n_generator) say of the foam. */
enum err_code work_survival(const struct work_mixer *m, struct arena *arena,
	size_t generator, struct control_survival *out,
	struct err *err) MUST_CHECK;

/* work_batch_foam(batch, mix, foam): the foam that went into a batch, as weighed
 * in it (mean of start, middle, end), else as the mix plans it; false if neither
 * is known.
 * work_batch_parts(m, arena, batch, part, n, err): what went in, as weighed; n 0
 * if it was not recorded. */
bool work_batch_foam(const struct book_batch *batch, const struct book_mix *mix,
	struct density *foam);
enum err_code work_batch_parts(const struct work_mixer *m, struct arena *arena,
	size_t batch, struct mix_part **part, size_t *n,
	struct err *err) MUST_CHECK;

/* work_batch_survival(m, arena, batch, ratio, known, err): the share of its
 * foam's air that was left in one batch; *known false if what went in, its foam
 * or its wet density was not recorded. */
enum err_code work_batch_survival(const struct work_mixer *m,
	struct arena *arena, size_t batch, double *ratio, bool *known,
	struct err *err) MUST_CHECK;

/* The sheet of a batch that is made: what went in. */
struct work_sheet_made {
	size_t batch, mix;
	const struct mix_part *part; /* as weighed */
	size_t n_part;               /* 0: not recorded */
	bool has_foam;               /* its weight, of the batch or the mix */
	struct density foam;
	bool has_survival;
	double survival_ratio;
};

/* work_sheet_made(arena, m, code, found, out, err): *found false if no batch of
 * that code is made yet.  ERR_MEMORY */
enum err_code work_sheet_made(struct arena *arena, const struct work_mixer *m,
	const char *code, bool *found, struct work_sheet_made *out,
	struct err *err) MUST_CHECK;

/* work_sheet_make(desk, arena, m, ask, out, err): nothing is written.
 * ERR_NOT_FOUND, ERR_INPUT as mix_sheet_make, or no size of batch is known */
enum err_code work_sheet_make(struct arena *arena, const struct work_mixer *m,
	const struct work_sheet_ask *ask, struct work_sheet *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_SHEET_H */

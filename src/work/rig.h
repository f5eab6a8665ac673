/* rig.h - the rigs of the bench: what of a rig every test shares, what it was
 * held against, and what both mean for the readings taken on it. */
#ifndef WORK_RIG_H
#define WORK_RIG_H

#include "work/bench.h"

/* Missing and NULL stay as they are in the book. */
struct work_rig_ask {
	const char *code, *test, *loading, *tip, *note;
	struct maybe span_m, strap_m, hanger_kg;
	struct maybe bar_kg, height_m, tip_diameter_m, tip_angle_rad;
	struct maybe ram_m, gauge_step_pa, rule_step_m, scale_step_kg;
	const char *typed;
};

/* work_rig_put(desk, arena, ask, made, err):
 * ERR_INPUT  a name that cannot be read, a new rig without its test, a test that
 *            is none, a test changed, a size out of range */
enum err_code work_rig_put(const struct desk *desk, struct arena *arena,
	const struct work_rig_ask *ask, bool *made, struct err *err) MUST_CHECK;

/* A check: which figures it needs is said by `what`. */
struct work_rig_check_ask {
	const char *rig;
	const char
		*what; /* "dead load", "exit speed", "check piece", "weight" */
	const char *code; /* NULL: "what" and the day */
	const char *on;   /* NULL: today */
	const char *piece, *remark;
	struct maybe known_kg, found_kg, gauge_pa, zero_pa, height_m, speed_m_s,
		dent_m;
	const char *typed;
};

/* work_rig_check_put(desk, arena, ask, sentence, err): records it and says what
 * it means.
 * ERR_INPUT  a figure that this check needs is missing or out of range, or the
 *            rig is not for it (a dead load on a drop) */
enum err_code work_rig_check_put(const struct desk *desk, struct arena *arena,
	const struct work_rig_check_ask *ask, const char **sentence,
	struct err *err) MUST_CHECK;

/* What a rig's record means for a reading taken on it. */
struct work_rig_known {
	const struct book_rig *rig; /* NULL: the reading names none */
	/* The last dead load: */
	const struct book_rig_check *load;
	double force_ratio, force_u; /* true force over the gauge's; relative */
	bool corrects; /* the gauge is off by more than the check's own doubt */
	/* The last exit speed: */
	const struct book_rig_check *speed;
	double tube_loss_ratio;
};

/* work_rig_known(site, rig_id): rig_id 0 gives nothing.  A check that cannot be
 * reduced counts as none. */
struct work_rig_known work_rig_known(
	const struct work_site *site, int64_t rig_id);

/* ---- is the rig lying? ---- */

struct work_rig_told {
	const char *code, *test; /* code "": about no rig alone */
	const char *last_on;     /* of the last check piece; "" */
	bool is_due;             /* a check piece is due */
	bool is_doubted;         /* something found is wrong */
	const char *const *sentence;
	size_t n_sentence;
};

struct work_rigs {
	struct work_bench bench;
	const struct work_rig_told *rig; /* one a rig; then what no rig holds */
	size_t n;
};

/* A check piece is broken so often; common practice, no source. */
static const double work_check_every_s = 7 * 86400.0;

/* work_rigs(desk, arena, out, err): every rig as its record stands. */
enum err_code work_rigs(const struct desk *desk, struct arena *arena,
	struct work_rigs *out, struct err *err) MUST_CHECK;

/* work_rig_say_check(arena, site, check): one sentence on what it found; never
 * NULL. */
const char *work_rig_say_check(struct arena *arena,
	const struct work_site *site, const struct book_rig_check *check);

#endif /* WORK_RIG_H */

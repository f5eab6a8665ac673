/* trial.h - a fair trial planned: its order drawn, what it can show, the rules
 * of validity fixed before anything is cast. */
#ifndef WORK_TRIAL_H
#define WORK_TRIAL_H

#include "stats/trial_order.h"
#include "work/mixer.h"

struct work_trial_ask {
	const char *code, *question, *baseline;
	const char *const *mix; /* codes; the baseline may be among them */
	size_t n_mix;
	struct maybe batches, pieces, per_day; /* of each mix; of a batch */
	struct maybe seed;                     /* missing: the desk's */
	const char *typed;
};

/* How far batches of one mix, and pieces of one batch, lie apart: log scale. */
struct work_trial_spread {
	bool is_own; /* as compare estimates it from this book, or typical */
	const char *measure; /* of what, with is_own */
	double sd_batch, sd_specimen;
};

/* What a plan is told with. */
struct work_trial_told {
	size_t trial; /* index into the site */
	size_t n_batch, n_day;
	const size_t *slot; /* n_batch: indices into m->slot, in order */
	double shows_ratio; /* stats_trial_shows */
	struct work_trial_spread spread;
	size_t n_mix, n_each, pieces;
	const char *const *sentence;
	size_t n_sentence;
};

/* work_trial_plan(desk, arena, ask, err): enters the trial, its order and, if it
 * has none, the usual rules of validity with today's date, in one write.
 * ERR_INPUT a trial that has batches already, fewer than two mixes, ... */
enum err_code work_trial_plan(const struct desk *desk, struct arena *arena,
	const struct work_trial_ask *ask, struct err *err) MUST_CHECK;

/* work_trial_spread(desk, arena, out, err): the spreads that compare finds in the
 * book, of bending strength or else of crushing strength, where some mix was
 * made twice; else the typical 8 % and 10 %: common practice, no source. */
enum err_code work_trial_spread(const struct desk *desk, struct arena *arena,
	struct work_trial_spread *out, struct err *err) MUST_CHECK;

/* work_trial_show(m, arena, trial, spread, out, err): the plan as it stands. */
enum err_code work_trial_show(const struct work_mixer *m, struct arena *arena,
	size_t trial, const struct work_trial_spread *spread,
	struct work_trial_told *out, struct err *err) MUST_CHECK;

#endif /* WORK_TRIAL_H */

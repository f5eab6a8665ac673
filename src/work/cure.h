/* cure.h - how batches cured: at temperatures that were said or logged, and what
 * that makes of the age of their pieces. */
#ifndef WORK_CURE_H
#define WORK_CURE_H

#include "lab/maturity.h"
#include "work/desk.h"
#include "work/results.h"

struct work_cure_ask {
	const char *batch, *trial; /* one of them: a batch, all of a trial */
	const char *code;          /* NULL: numbered */
	const char *from, *to;     /* NULL: from casting; the trace's ends */
	struct maybe degc;         /* or: */
	const char *trace;         /* code of a temperature's trace */
	const char *start; /* when an undated trace began; NULL: at casting */
	const char *keeping, *remark;
	const char *typed;
};

struct work_cure_told {
	size_t n_batch;
	const char *const *sentence; /* one a batch */
	size_t n_sentence;
};

/* work_cure_put(desk, arena, ask, out, err): enters how one batch, or every made
 * batch of a trial, was kept for a while.
 * ERR_INPUT  neither or both of a temperature and a trace, a trace that is no
 *            temperature's, an end before the beginning, a batch without a
 *            date, a keeping that is none, a temperature outside -90 to 200
 * ERR_NOT_FOUND  no such batch, trial or trace */
enum err_code work_cure_put(const struct desk *desk, struct arena *arena,
	const struct work_cure_ask *ask, struct work_cure_told *out,
	struct err *err) MUST_CHECK;

/* Everything that was entered about curing. */
struct work_cures {
	const struct book_cure *cure;
	const struct book_trace *trace;
	const struct book_trace_point *point;
	size_t n_cure, n_trace, n_point;
};

/* work_cures(desk, arena, out, err): the points only where there is a cure. */
enum err_code work_cures(const struct desk *desk, struct arena *arena,
	struct work_cures *out, struct err *err) MUST_CHECK;

/* Less known than this share of the time to an age is not used. */
static const double work_cure_least_known = 0.9;

/* A log silent for longer says nothing of that while. */
static const double work_cure_gap_s = 86400;

struct work_cured {
	bool has;           /* something is known of that time */
	double known_ratio; /* share of the time to the age */
	/* With known_ratio from work_cure_least_known on; the rest is taken as the
	 * known is on average. */
	bool is_usable;
	double equivalent_s;      /* at 20 degC, ASTM C1074 */
	double nurse_saul_degC_h; /* above 0 degC */
	double mean_degC, lowest_degC, highest_degC;
	const char *keeping; /* of most of the time; "" */
};

/* work_cured(site, cures, batch, age_s): of a batch up to an age. */
struct work_cured work_cured(const struct work_site *site,
	const struct work_cures *cures, size_t batch, double age_s);

/* As far as it is known. */
struct work_cure_reach {
	const char *until; /* a day */
	double days, equivalent_days;
	struct work_cured cured;
};

/* work_cure_reach(arena, site, cures, batch, out): false: nothing is known. */
bool work_cure_reach(struct arena *arena, const struct work_site *site,
	const struct work_cures *cures, size_t batch,
	struct work_cure_reach *out);

/* work_cure_say(arena, site, cures, batch, sentence, n, err): what is known of
 * how a batch cured, how old that makes it, and what that rests on; none where
 * nothing is known. */
enum err_code work_cure_say(struct arena *arena, const struct work_site *site,
	const struct work_cures *cures, size_t batch,
	const char *const **sentence, size_t *n, struct err *err) MUST_CHECK;

/* A strength brought to 28 days at 20 degC. */
struct work_at_28 {
	bool has;
	struct interval value;  /* by EN 1992-1-1's class N */
	struct interval widest; /* over all published classes */
	double from_age_s;      /* the equivalent age, or the plain one */
	struct work_cured cured;
};

/* work_at_28(site, cures, result): of strengths that are not of 28 days within 3
 * or whose cure is known; else not had.  The relations are of ordinary
 * concrete. */
struct work_at_28 work_at_28(const struct work_site *site,
	const struct work_cures *cures, const struct work_result *result);

/* work_at_28_text(arena, result, at): "at 28 days and 20 degC: ..."; NULL if
 * memory ran out, "" where it is not had. */
const char *work_at_28_text(struct arena *arena,
	const struct work_result *result, const struct work_at_28 *at);

#endif /* WORK_CURE_H */

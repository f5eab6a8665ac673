/* drying.h - blocks that stand by a wall and dry: when the wall can be plastered.
 */
#ifndef WORK_DRYING_H
#define WORK_DRYING_H

#include "work/bench.h"

enum work_drying_state {
	WORK_DRYING_UNASKED, /* no moisture was wanted yet */
	WORK_DRYING_FEW,     /* too few weighings */
	WORK_DRYING_NEVER,   /* in that air it never gets so dry */
	WORK_DRYING_UNSURE,  /* the weighings fix no curve; why says so */
	WORK_DRYING_COMING,  /* at when_s */
	WORK_DRYING_DRY      /* it was so dry at the last weighing */
};

struct work_drying {
	size_t piece; /* index into bench->site.specimen */
	enum work_drying_state state;
	size_t n_weighing;
	int64_t first_s, last_s; /* days of the weighings */
	double first_kg, last_kg;
	double wanted_ratio;
	bool has_dry; /* from the oven; else counted from where drying ends */
	double moisture_now_ratio, end_kg; /* once there is a curve */
	int64_t when_s, early_s, late_s;   /* COMING: with its interval */
	const char *part; /* a code: its batch was poured there; "" nowhere */
	int64_t lift;
	const char *why;
};

/* How often to weigh it again; common practice, no source. */
static const double work_drying_every_s = 7 * 86400.0;

/* work_drying_all(arena, bench, out, n, err): every piece with a weighing of kind
 * drying, as lab_drying has it, the interval of work_level from the error of
 * the logarithm of the time (docs/methods/drying.md).  ERR_MEMORY */
enum err_code work_drying_all(struct arena *arena,
	const struct work_bench *bench, const struct work_drying **out,
	size_t *n, struct err *err) MUST_CHECK;

/* work_drying_words(arena, bench, drying, last): what is known of it, a sentence
 * or two; never NULL.  work_drying_due(drying, now_s): is it to be weighed? */
const char *work_drying_words(struct arena *arena,
	const struct work_bench *bench, const struct work_drying *drying);
bool work_drying_due(const struct work_drying *drying, int64_t now_s);

#endif /* WORK_DRYING_H */

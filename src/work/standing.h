/* standing.h - foam left standing in a jar: how fast its liquid runs out, and
 * whether it lives as long as the mix takes to set.
 *
 * A jar is weighed with its foam once, then what has run out of it is weighed or
 * read at each look.  In the mix foam lives longer than in a jar, so that the
 * comparison is a warning and no forecast: common practice, no source. */
#ifndef WORK_STANDING_H
#define WORK_STANDING_H

#include "work/mixer.h"

struct work_look {
	double after_s, drained_kg; /* > 0; >= 0 */
};

struct work_standing_ask {
	const char *generator, *jar; /* jar NULL: "1" */
	struct maybe foam_kg;        /* in the jar; as before if missing */
	const struct work_look *look;
	size_t n_look;
	const char *read_on, *remark, *typed;
};

/* What the last jar of a generator says. */
struct work_standing {
	bool known; /* it was looked at, and foam weighs something */
	const char *jar;
	size_t n_look;
	double quarter_s, half_s; /* INFINITY: not yet at the last look */
	double last_s;            /* of the last look */
	bool has_set;
	double set_s;         /* the quickest that a batch of the mix set */
	bool outlives;        /* with has_set: half_s is not below set_s */
	const char *sentence; /* "" if not known */
};

/* work_standing(m, arena, generator, mix, out, err): mix may be n_mix: any. */
enum err_code work_standing(const struct work_mixer *m, struct arena *arena,
	size_t generator, size_t mix, struct work_standing *out,
	struct err *err) MUST_CHECK;

/* work_standing_put(desk, arena, ask, out, err): enters looks in one write, then
 * tells.  ERR_INPUT no mass of the foam, a look out of range or order, more
 * drained than the foam weighs */
enum err_code work_standing_put(const struct desk *desk, struct arena *arena,
	const struct work_standing_ask *ask, struct work_standing *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_STANDING_H */

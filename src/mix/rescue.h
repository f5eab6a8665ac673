/* rescue.h - a batch that came out too heavy or too light: cast it, bring it
 * back, or call it something else, and how long there is to do it.
 *
 * Pure.  The limits are starting values that the user may set: all of them
 * common practice, no source, but for the foam share of 65 %, above which
 * mixes were seen to become unstable some time after casting. */
#ifndef MIX_RESCUE_H
#define MIX_RESCUE_H

#include "mix/yield.h"

struct mix_rescue_limits {
	double off_ok_ratio;    /* cast as it is up to this: 0.05 */
	double off_most_ratio;  /* beyond this it is another mix: 0.10 */
	double working_s;       /* from foam to mould: 20 min */
	double adding_s;        /* to make, add and blend the rest: 4 min */
	double foam_most_ratio; /* of the fresh mix, may sink later: 0.65 */
};

/* mix_rescue_usual: the starting values above. */
struct mix_rescue_limits mix_rescue_usual(void);

/* What to do now. */
enum mix_rescue_verdict {
	MIX_RESCUE_CAST,       /* inside the limit */
	MIX_RESCUE_ADD_FOAM,   /* then weigh again */
	MIX_RESCUE_ADD_SLURRY, /* then weigh again */
	MIX_RESCUE_OTHER       /* cannot be saved as this mix */
};

struct mix_rescue_ask {
	struct mix_yield batch; /* with its target */
	double since_foam_s;    /* since the first foam went in, >= 0 */
	bool has_mixer;
	struct volume mixer; /* the most it takes */
	struct mix_rescue_limits limits;
};

struct mix_rescued {
	enum mix_rescue_verdict verdict;
	struct mix_yielded yielded;
	double left_s;        /* of the working time, >= 0 */
	struct volume add;    /* 0 with cast and other */
	struct volume after;  /* the volume there will be then */
	const char *sentence; /* what to do */
	const char *reason;   /* why, in one sentence */
};

/* mix_rescue(arena, ask, out, err):
 * ERR_INPUT, ERR_MEMORY as mix_yield; a limit or a time out of range */
enum err_code mix_rescue(struct arena *arena, const struct mix_rescue_ask *ask,
	struct mix_rescued *out, struct err *err) MUST_CHECK;

#endif /* MIX_RESCUE_H */

/* choose.h - which mix for which part of the building, how sure, and what it
 * takes. */
#ifndef WORK_CHOOSE_H
#define WORK_CHOOSE_H

#include "build/types.h"
#include "work/compare.h"

#include <gsl/gsl_rng.h>

/* One requirement of a part, met by one mix or not. */
struct work_need {
	bool known; /* false: the mix was not tested for it */
	double p;   /* chance that the next batch (or piece) meets it */
	bool has_lower;
	double lower; /* SI: what 95 of 100 single pieces of new batches beat */
};

struct work_candidate {
	size_t mix;
	const struct work_need *need; /* one a requirement of the part */
	double p_all;                 /* of the known ones, together */
	bool all_known;
	bool has_cost;
	double cost_cents_per_m3;
	size_t n_batch; /* behind the weakest-founded requirement */
};

struct work_part_choice {
	size_t part; /* index into site->part */
	const struct choose_requirement *requirement;
	size_t n_requirement;
	const struct work_candidate *candidate; /* best first */
	size_t n_candidate;
	const char *in_short; /* the answer in one line; NULL: asks nothing */
	const char *const *sentence; /* why, and what would make it surer */
	size_t n_sentence;
	bool has_taken;
	struct build_taken taken; /* of the first candidate */
};

struct work_chosen {
	struct work_compared compared;
	const struct work_part_choice *part;
	size_t n_part;
};

/* work_choose(desk, arena, out, err):
 * ERR_INPUT no parts of the building with requirements are in the book */
enum err_code work_choose(const struct desk *desk, struct arena *arena,
	struct work_chosen *out, struct err *err) MUST_CHECK;

/* work_next_draws(all, rng, n_draw, measure, mix, next, n_batch): what the next
 * batch of a mix would give in a measure, n_draw worlds that the readings leave
 * possible, and how many batches stand behind it; n_draw is n_chain * n_keep of
 * the desk that compared.  False: the mix was not tested for it. */
bool work_next_draws(const struct work_compared *all, gsl_rng *rng,
	size_t n_draw, enum choose_measure measure, size_t mix, double *next,
	size_t *n_batch);

/* work_chance_words(arena, p): "96", of 100; "over 99" and "under 1" where a
 * figure would read as a certainty. */
const char *work_chance_words(struct arena *arena, double p);

/* work_requirements(site, arena, part, requirement, n, err): what a part of the
 * building asks.  ERR_MEMORY */
enum err_code work_requirements(const struct work_site *site,
	struct arena *arena, size_t part,
	const struct choose_requirement **requirement, size_t *n_requirement,
	struct err *err) MUST_CHECK;

#endif /* WORK_CHOOSE_H */

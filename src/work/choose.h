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

/* Mesh that is tried in the panels: where the part does not say, it lies this
 * far from the stretched face and yields so; common practice, no source. */
static const double work_usual_cover_m = 0.025;
static const double work_usual_yield_pa = 500e6;

struct work_mesh {
	bool has;
	double area_m2; /* in a metre of width */
	double thickness_m, effective_m, yield_pa;
	bool is_usual_depth, is_usual_yield; /* not said by the part */
};

/* Chances of the next batch with that mesh. */
struct work_meshed {
	bool has;
	double p_whole;   /* the panel does not crack under what is asked */
	double p_bears;   /* the cracked section bears it */
	double p_carries; /* the mesh carries what cracked the panel */
};

struct work_candidate {
	size_t mix;
	const struct work_need *need; /* one a requirement of the part */
	double p_all;                 /* of the known ones, together */
	bool all_known;
	bool has_cost;
	double cost_cents_per_m3;
	size_t n_batch; /* behind the weakest-founded requirement */
	struct work_meshed meshed;
};

struct work_part_choice {
	size_t part; /* index into site->part */
	const struct choose_requirement *requirement;
	size_t n_requirement;
	struct work_mesh mesh;                  /* tried in it */
	const struct work_candidate *candidate; /* best first */
	size_t n_candidate;
	const char *in_short; /* the answer in one line; NULL: asks nothing */
	const char *const *sentence; /* why, and what would make it surer */
	size_t n_sentence;
	bool has_taken;
	struct build_taken taken; /* of the first candidate, where it does */
};

enum work_criterion {
	WORK_CRITERION_DENSITY,
	WORK_CRITERION_STRENGTH, /* bending, else crushing */
	WORK_CRITERION_COST,
	WORK_CRITERION_LABOUR, /* blending, s a m3, of the trial's batches */
	WORK_CRITERION_HEAT,   /* conductivity */
	WORK_CRITERIA
};

/* A package of this material at another price. */
struct work_price {
	const char *material; /* code or name */
	double cents;
};

/* What if: nothing of it is written down. */
struct work_choose_ask {
	const char *part;          /* that one alone; NULL: all */
	struct maybe thickness_m;  /* of the parts, > 0 */
	struct maybe mesh_area_m2; /* steel in a metre of panel, or: */
	struct maybe mesh_wire_m, mesh_spacing_m;
	const struct work_price *price;
	size_t n_price;
	bool has_weight;
	double weight[WORK_CRITERIA]; /* without: those of the book */
	bool unweighed;               /* not by those either */
};

/* The mixes that do the must-haves, weighed by what was asked, or what the book
 * holds for the part or the house. */
struct work_weighed {
	const char *basis; /* "", ", the weights of this part", ... of the
	                      house"; NULL: no weights, not weighed */
	double weight[WORK_CRITERIA];
	const size_t *candidate; /* index into candidate, the best first */
	size_t n;
	const double *middle; /* n times WORK_CRITERIA, SI; NAN: not known */
	const double *utility, *p_first; /* NAN: not known in all */
	const bool *is_beaten;
	const size_t *beaten_by; /* index into this list */
	const struct maybe *cost_cents_per_m2;
};

/* One mix for all parts, or the first of each. */
struct work_one_for_all {
	bool has;
	size_t mix;     /* the best in its least sure part */
	double p_least; /* of the parts, the least sure */
	double p_least_several;
	size_t n_several; /* mixes, where each part gets its first */
	bool has_money;   /* of what is mixed, packages not rounded */
	double money_cents, several_money_cents;
};

struct work_chosen {
	struct work_compared compared;
	const struct work_part_choice *part;
	size_t n_part;
	const struct work_weighed *weighed; /* n_part; NULL without any */
	struct work_one_for_all one;        /* with weights */
};

/* work_choose_asked(desk, arena, ask, out, err): as work_choose, with the
 * what-if and the weights.  With mesh, a panel meets a bending strength where it
 * does not crack, or where its mesh bears the moment that a plain panel of that
 * strength would (choose/section.h); a mix with reinforcement of its own stays
 * as it was tested.
 * ERR_NOT_FOUND no such part or material; ERR_INPUT a thickness, a mesh, a price
 * or a weight that cannot be, mesh where no panel asks a bending strength */
enum err_code work_choose_asked(const struct desk *desk, struct arena *arena,
	const struct work_choose_ask *ask, struct work_chosen *out,
	struct err *err) MUST_CHECK;

/* work_criterion_word: "density", "strength", "cost", "labour", "heat";
 * work_criterion_find: false if the word names none. */
const char *work_criterion_word(enum work_criterion criterion);
bool work_criterion_find(const char *word, enum work_criterion *criterion);

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

/* work_key_next(keying, all): all that work_next_draws rests on but its
 * arguments, of a comparison made with desk->memo. */
void work_key_next(struct memo_keying *keying, const struct work_compared *all);

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

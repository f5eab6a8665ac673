/* recipe.h - mixes entered in the form people have them in, and shown in every
 * form they need. */
#ifndef WORK_RECIPE_H
#define WORK_RECIPE_H

#include "mix/cost.h"
#include "mix/proportion.h"
#include "work/mixer.h"

/* How a part is given; among masses and volumes only proportions count. */
enum work_recipe_form {
	WORK_RECIPE_MASS,   /* kg */
	WORK_RECIPE_VOLUME, /* m3, loose in a bucket */
	WORK_RECIPE_RATIO   /* mass to 1 of the first cement */
};

struct work_recipe_part {
	const char *code; /* of a material of the book */
	enum work_recipe_form form;
	double amount; /* > 0 */
};

/* A mix to be entered.  A NULL text or a missing value stays as it is in the
 * book, or in the mix it is like. */
struct work_recipe_ask {
	const char *code, *name, *why, *matrix, *reinforcement;
	const char *like;                    /* a mix to start from */
	const struct work_recipe_part *part; /* replaces parts of that name */
	size_t n_part;
	const char *const *without; /* materials to take out */
	size_t n_without;
	const char *agent; /* a material that the foam is made of */
	struct maybe wet_kg_m3, oven_dry_kg_m3; /* one of the two */
	struct maybe foam_kg_m3, blending_s;
	const char *typed;
};

struct work_recipe_shown {
	size_t mix;
	const struct mix_part *part; /* oven-dry, one cubic metre */
	size_t n_part;
	struct mix_proportioned proportion;
	const double *bucket; /* n_part by loose volume; NULL: not known */
	bool has_bag;
	struct mass bag;        /* of the first cement */
	struct volume from_bag; /* finished mix that a bag makes */
	bool has_cost;
	const char *currency; /* of the book, with has_cost */
	struct mix_cost cost;
	const char
		*carbon; /* the factor of each material; "" if none has one */
	const char *const *caution;
	size_t n_caution;
};

/* work_recipe_put(desk, arena, ask, made, err):
 * Solves the foam for the target and enters the mix, masses of one cubic metre
 * with damp parts oven-dry and the water as free water, in one write.
 * ERR_INPUT what is asked cannot be made (the sentence says what could be), or
 * something it needs is missing; ERR_NOT_FOUND a material, a mix */
enum err_code work_recipe_put(const struct desk *desk, struct arena *arena,
	const struct work_recipe_ask *ask, bool *made,
	struct err *err) MUST_CHECK;

/* work_recipe_try(desk, arena, ask, out, err): what work_recipe_put would enter,
 * shown as work_recipe_show would show it then; nothing is written, so the desk may
 * be read only.  Errors as both. */
enum err_code work_recipe_try(const struct desk *desk, struct arena *arena,
	const struct work_recipe_ask *ask, struct work_recipe_shown *out,
	struct err *err) MUST_CHECK;

/* work_recipe_show(m, arena, mix, out, err): a mix of the book in all forms. */
enum err_code work_recipe_show(const struct work_mixer *m, struct arena *arena,
	size_t mix, struct work_recipe_shown *out, struct err *err) MUST_CHECK;

#endif /* WORK_RECIPE_H */

/* calc_permute.c - "permute": two groups compared by dealing out anew. */
#include "work/calc_priv.h"

#include "core/rng.h"
#include "stats/permute.h"
#include "stats/summary.h"

#include <math.h>

static const struct calc_key keys[] = {
	{"groups", "object of two arrays", NULL, "the values of each group"},
	{"baseline", "name", "the first group",
		"the difference is measured from this group"},
	{"exact", "true or false", "true up to 5,000,000 arrangements",
		"count every arrangement, or draw some"},
	{"draws", "whole number", "1,000,000, fewer for many values",
		"arrangements drawn where not all are counted"},
	{"seed", "whole number", "1", "seed of the drawn arrangements"},
};

static const uint64_t draws_least = 1000, draws_usual = 1000000;
static const uint64_t draws_most = 100000000;
/* values dealt out in about a second, and the most that may be asked for */
static const uint64_t dealt_usual = 200000000, dealt_most = 20000000000;

static uint64_t
usual_draws(size_t n)
{
	uint64_t draws = dealt_usual / n;

	if (draws < draws_least)
		return draws_least;
	return draws < draws_usual ? draws : draws_usual;
}

static enum err_code
draw(const struct calc_in *in, const struct stats_permute_sample *sample,
	struct stats_permute *got, struct err *err)
{
	uint64_t draws = usual_draws(sample->n), seed = 1;
	enum err_code code;
	gsl_rng *rng;

	TRY(calc_read_count_or(in, "draws", 1, draws_most, &draws, err));
	TRY(calc_read_count_or(in, "seed", 0, UINT64_MAX, &seed, err));
	if (draws > draws_least && draws > dealt_most / sample->n)
		return calc_refuse(in, "draws",
			"fewer draws for so many values: draws times values "
			"at most 20,000,000,000",
			err);
	rng = rng_new(seed, 0);
	if (rng == NULL)
		return err_memory(err);
	code = stats_permute_draws(in->arena, sample, draws, rng, got, err);
	gsl_rng_free(rng);
	return code;
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct calc_groups groups;
	struct stats_permute_sample sample;
	struct stats_permute got = {0};
	size_t base = 0;
	double mean[2];
	bool exact;

	TRY(calc_read_groups(in, "groups", 2, 1, &groups, err));
	if (groups.n_group != 2)
		return calc_refuse(in, "groups", "exactly two groups", err);
	TRY(calc_read_group_name(in, "baseline", &groups, &base, err));
	sample = (struct stats_permute_sample){.value = groups.value,
		.group = groups.group,
		.n = groups.n_value,
		.n_group = 2};
	exact = stats_permute_arrangements(groups.size, 2) != UINT64_MAX;
	TRY(calc_read_bool_or(in, "exact", &exact, err));
	if (exact)
		TRY(stats_permute_exact(in->arena, &sample, &got, err));
	else
		TRY(draw(in, &sample, &got, err));
	mean[0] = stats_mean(groups.value, groups.size[0]);
	mean[1] = stats_mean(groups.value + groups.size[0], groups.size[1]);
	if (!isfinite(mean[1] - mean[0]))
		return calc_refuse(in, "groups",
			"groups whose difference is a number; give the values "
			"in a larger unit",
			err);
	jsonout_key_number(out->json, "p", got.p);
	jsonout_key_count(out->json, "arrangements", got.arrangements);
	jsonout_key_number(out->json, "p_error", got.p_error);
	jsonout_key_number(
		out->json, "difference", mean[1 - base] - mean[base]);
	calc_source(out,
		"Fisher (1935), The Design of Experiments; Pitman "
		"(1937), Supplement to the Journal of the Royal "
		"Statistical Society 4, 119-130; drawn: Davison and "
		"Hinkley (1997), Bootstrap Methods and their "
		"Application, section 4.2");
	calc_note(out,
		"Each value must be a unit made on its own; with "
		"specimens from batches give the batch means.");
	if (!got.is_exact)
		calc_note(out,
			"The arrangements were drawn: p is (as far + 1) "
			"/ (draws + 1), with p_error its standard "
			"error.");
	return ERR_NONE;
}

const struct calc_entry calc_permute = {
	.name = "permute",
	.line = "two groups compared by dealing the values out anew",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"groups\": {\"A\": [1.71, 1.88, 1.9], "
		   "\"B\": [2.05, 2.3, 2.11]}}",
	.run = run,
};

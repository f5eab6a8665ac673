/* calc_all_pairs.c - "all-pairs": every group against every other. */
#include "work/calc_priv.h"

#include "stats/all_pairs.h"

static const struct calc_key keys[] = {
	{"groups", "object of arrays of numbers", NULL,
		"the samples, each under its name"},
	{"baseline", "name of a group", "the first group",
		"has no influence here; the other comparisons use it"},
	{"method", "equal-variance or unequal-variance", "equal-variance",
		"one spread for all groups, or one for each"},
	{"confidence", "share between 0 and 1", "0.95",
		"that all the intervals hold together"},
};

static void
write_pair(struct jsonout *json, const struct calc_groups *groups,
	const struct stats_pair *pair)
{
	jsonout_open_object(json);
	jsonout_key_string(json, "a", groups->name[pair->a]);
	jsonout_key_string(json, "b", groups->name[pair->b]);
	jsonout_key_number(json, "difference", pair->difference);
	jsonout_key_number(json, "p", pair->p);
	jsonout_key_number(json, "low", pair->low);
	jsonout_key_number(json, "high", pair->high);
	jsonout_close_object(json);
}

static void
say_source(struct calc_out *out, enum stats_variance variance)
{
	if (variance == STATS_EQUAL_VARIANCE)
		calc_source(out,
			"Tukey (1953) in the form of Kramer (1956), "
			"Biometrics 12, 307-310; the studentized range by "
			"exact integration");
	else
		calc_source(out,
			"Games and Howell (1976), Journal of Educational "
			"Statistics 1, 113-125; the studentized range by "
			"exact integration");
	calc_note(out,
		"difference is b minus a; p is adjusted for all the pairs and "
		"the intervals hold together.");
	calc_note(out,
		"Each value is taken for an experiment of its own: give the "
		"means of batches, not the specimens of one batch.");
	if (variance == STATS_UNEQUAL_VARIANCE)
		calc_note(out,
			"With fewer than four values in a group the spread of "
			"each group is hardly known; read these with care.");
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const methods[] = {
		"equal-variance", "unequal-variance"};
	const struct stats_pair *pair;
	struct stats_grouped data;
	struct calc_groups groups;
	double confidence = 0.95;
	size_t baseline, n_pair, method = STATS_EQUAL_VARIANCE;

	TRY(calc_read_groups(in, "groups", 2, 1, &groups, err));
	TRY(calc_read_group_name(in, "baseline", &groups, &baseline, err));
	TRY(calc_read_choice_or(in, "method", methods, 2, &method, err));
	TRY(calc_read_share_or(in, "confidence", &confidence, err));
	data = (struct stats_grouped){.n_group = groups.n_group,
		.size = groups.size,
		.value = groups.value};
	TRY(stats_all_pairs(in->arena, &data, (enum stats_variance)method,
		confidence, &pair, &n_pair, err));
	jsonout_key(out->json, "pairs");
	jsonout_open_array(out->json);
	for (size_t i = 0; i < n_pair; i++)
		write_pair(out->json, &groups, &pair[i]);
	jsonout_close_array(out->json);
	say_source(out, (enum stats_variance)method);
	return ERR_NONE;
}

const struct calc_entry calc_all_pairs = {
	.name = "all-pairs",
	.line = "every group against every other (Tukey, Games-Howell)",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"groups\": {\"A\": [2.22, 1.65, 1.97], "
		   "\"B\": [2.41, 2.38, 2.73], \"C\": [1.88, 2.05, 1.91]}}",
	.run = run,
};

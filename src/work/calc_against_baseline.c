/* calc_against_baseline.c - "against-baseline": each group against one. */
#include "work/calc_priv.h"

#include "stats/many_to_one.h"

static const struct calc_key keys[] = {
	{"groups", "object of arrays of numbers", NULL,
		"the samples, each under its name"},
	{"baseline", "name of a group", "the first group",
		"what the others are compared with"},
	{"confidence", "share between 0 and 1", "0.95",
		"that all the intervals hold together"},
	{"side", "both, greater or less", "both",
		"which differences from the baseline count"},
};

static void
write_contrast(struct jsonout *json, const char *name,
	const struct stats_contrast *contrast)
{
	jsonout_key(json, name);
	jsonout_open_object(json);
	jsonout_key_number(json, "difference", contrast->difference);
	jsonout_key_number(json, "t", contrast->t);
	jsonout_key_number(json, "p", contrast->p);
	jsonout_key_number(json, "low", contrast->low);
	jsonout_key_number(json, "high", contrast->high);
	jsonout_close_object(json);
}

static void
write_answer(struct calc_out *out, const struct calc_groups *groups,
	size_t baseline, const struct stats_against_baseline *got)
{
	struct jsonout *json = out->json;

	jsonout_key(json, "groups");
	jsonout_open_object(json);
	for (size_t g = 0; g < groups->n_group; g++)
		if (g != baseline)
			write_contrast(json, groups->name[g], &got->group[g]);
	jsonout_close_object(json);
	jsonout_key_number(json, "df", got->df);
	jsonout_key_number(json, "critical", got->critical);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const sides[] = {"both", "greater", "less"};
	struct stats_against_baseline got;
	struct stats_grouped data;
	struct calc_groups groups;
	double confidence = 0.95;
	size_t baseline, side = STATS_BOTH;

	TRY(calc_read_groups(in, "groups", 2, 1, &groups, err));
	TRY(calc_read_group_name(in, "baseline", &groups, &baseline, err));
	TRY(calc_read_share_or(in, "confidence", &confidence, err));
	TRY(calc_read_choice_or(in, "side", sides, 3, &side, err));
	data = (struct stats_grouped){.n_group = groups.n_group,
		.size = groups.size,
		.value = groups.value};
	TRY(stats_against_baseline(in->arena, &data, baseline,
		(enum stats_side)side, confidence, &got, err));
	write_answer(out, &groups, baseline, &got);
	calc_source(out,
		"Dunnett (1955), Journal of the American Statistical "
		"Association 50, 1096-1121, by exact integration, not from "
		"tables");
	calc_note(out,
		"p is adjusted for all the comparisons and the intervals hold "
		"together; one spread is taken for all groups.");
	calc_note(out,
		"Each value is taken for an experiment of its own: give the "
		"means of batches, not the specimens of one batch.");
	if (side != STATS_BOTH)
		calc_note(out,
			"One side was asked for: each interval is open on the "
			"other, where it shows null.");
	return ERR_NONE;
}

const struct calc_entry calc_against_baseline = {
	.name = "against-baseline",
	.line = "each group against the baseline, exact (Dunnett)",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"groups\": {\"A\": [2.22, 1.65, 1.97], "
		   "\"B\": [2.41, 2.38, 2.73], \"C\": [1.88, 2.05, 1.91]}, "
		   "\"baseline\": \"A\"}",
	.run = run,
};

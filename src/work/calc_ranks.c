/* calc_ranks.c - "ranks": do groups differ, judged by ranks only? */
#include "work/calc_priv.h"

#include "stats/ranks.h"

static const struct calc_key keys[] = {
	{"groups", "object of arrays of numbers", NULL,
		"the samples, each under its name"},
	{"baseline", "name of a group", "the first group",
		"has no influence here; the other comparisons use it"},
};

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct stats_ranks got;
	struct stats_grouped data;
	struct calc_groups groups;
	size_t baseline;

	TRY(calc_read_groups(in, "groups", 2, 1, &groups, err));
	TRY(calc_read_group_name(in, "baseline", &groups, &baseline, err));
	data = (struct stats_grouped){.n_group = groups.n_group,
		.size = groups.size,
		.value = groups.value};
	TRY(stats_ranks(in->arena, &data, &got, err));
	jsonout_key_number(out->json, "h", got.h);
	jsonout_key_number(out->json, "df", got.df);
	jsonout_key_number(out->json, "p", got.p);
	jsonout_key(out->json, "p_exact");
	if (got.has_exact)
		jsonout_number(out->json, got.p_exact);
	else
		jsonout_null(out->json);
	calc_source(out,
		"Kruskal and Wallis (1952), Journal of the American "
		"Statistical Association 47, 583-621; p_exact by counting all "
		"arrangements");
	calc_note(out,
		"p is the chi-square approximation; where p_exact is given, "
		"use that.");
	if (!got.has_exact)
		calc_note(out,
			"p_exact is null: there are too many arrangements of "
			"so many values to count.");
	return ERR_NONE;
}

const struct calc_entry calc_ranks = {
	.name = "ranks",
	.line = "do groups differ, by ranks only (Kruskal-Wallis), exact p",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"groups\": {\"A\": [2.22, 1.65, 1.97], "
		   "\"B\": [2.41, 2.38, 2.73], \"C\": [1.88, 2.05, 1.91]}}",
	.run = run,
};

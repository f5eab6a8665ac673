/* calc_anova.c - "anova": do groups differ at all? */
#include "work/calc_priv.h"

#include "stats/oneway.h"

static const struct calc_key keys[] = {
	{"groups", "object of arrays of numbers", NULL,
		"the samples, each under its name"},
	{"baseline", "name of a group", "the first group",
		"has no influence here; the other comparisons use it"},
};

static void
write_source(
	struct jsonout *json, const char *key, double ss, double df, double ms)
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "ss", ss);
	jsonout_key_number(json, "df", df);
	jsonout_key_number(json, "ms", ms);
	jsonout_close_object(json);
}

static void
write_oneway(struct jsonout *json, const struct stats_oneway *got)
{
	write_source(
		json, "between", got->between_ss, got->f.df1, got->between_ms);
	write_source(
		json, "within", got->within_ss, got->f.df2, got->within_ms);
	jsonout_key_number(json, "f", got->f.f);
	jsonout_key_number(json, "p", got->f.p);
	jsonout_key_number(json, "r_squared", got->r_squared);
	jsonout_key_number(json, "residual_sd", got->residual_sd);
}

static void
write_welch(struct calc_out *out, bool has, const struct stats_f *welch)
{
	jsonout_key(out->json, "welch");
	if (!has) {
		jsonout_null(out->json);
		calc_note(out,
			"welch is null: it needs at least two values that "
			"differ in every group.");
		return;
	}
	jsonout_open_object(out->json);
	jsonout_key_number(out->json, "f", welch->f);
	jsonout_key_number(out->json, "df1", welch->df1);
	jsonout_key_number(out->json, "df2", welch->df2);
	jsonout_key_number(out->json, "p", welch->p);
	jsonout_close_object(out->json);
}

static void
write_levene(struct calc_out *out, bool has, const struct stats_f *levene)
{
	jsonout_key(out->json, "levene");
	if (!has) {
		jsonout_null(out->json);
		calc_note(out,
			"levene is null: with at most two values in every "
			"group their distances from the median do not vary.");
		return;
	}
	jsonout_open_object(out->json);
	jsonout_key_number(out->json, "f", levene->f);
	jsonout_key_number(out->json, "p", levene->p);
	jsonout_close_object(out->json);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct stats_oneway got;
	struct stats_f welch = {0}, levene = {0};
	struct stats_grouped data;
	struct calc_groups groups;
	bool has_welch, has_levene;
	size_t baseline;

	TRY(calc_read_groups(in, "groups", 2, 1, &groups, err));
	TRY(calc_read_group_name(in, "baseline", &groups, &baseline, err));
	data = (struct stats_grouped){.n_group = groups.n_group,
		.size = groups.size,
		.value = groups.value};
	TRY(stats_oneway(in->arena, &data, &got, err));
	TRY(stats_welch(in->arena, &data, &has_welch, &welch, err));
	TRY(stats_levene(in->arena, &data, &has_levene, &levene, err));
	write_oneway(out->json, &got);
	write_welch(out, has_welch, &welch);
	write_levene(out, has_levene, &levene);
	calc_source(out,
		"Fisher (1925), Statistical Methods for Research Workers, "
		"chapter 7; Welch (1951), Biometrika 38, 330-336; levene "
		"after Brown and Forsythe (1974), Journal of the American "
		"Statistical Association 69, 364-367");
	calc_note(out,
		"Each value is taken for an experiment of its own: give the "
		"means of batches, not the specimens of one batch.");
	return ERR_NONE;
}

const struct calc_entry calc_anova = {
	.name = "anova",
	.line = "do groups differ at all: one-way analysis, Welch, Levene",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"groups\": {\"A\": [2.22, 1.65, 1.97], "
		   "\"B\": [2.41, 2.38, 2.73], \"C\": [1.88, 2.05, 1.91]}}",
	.run = run,
};

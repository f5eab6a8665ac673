/* calc_power.c - "power": how many batches show a difference. */
#include "work/calc_priv.h"

#include "stats/power.h"

static const struct calc_key keys[] = {
	{"difference", "number above 0", NULL,
		"between two mixes, on the scale of the spreads"},
	{"sd_batch", "number, at least 0", NULL,
		"spread of batches of one mix"},
	{"sd_specimen", "number, at least 0", NULL,
		"spread of specimens of one batch"},
	{"specimens_per_batch", "whole number, at least 1", NULL,
		"specimens tested of each batch"},
	{"alpha", "share between 0 and 1", "0.05",
		"chance of a false alarm, two-sided"},
	{"groups", "whole number, at least 2", "2",
		"mixes in the trial, all lending their spread"},
	{"power", "share between 0 and 1", "0.8",
		"chance of seeing the difference that is wanted"},
};

static enum err_code
read_plan(const struct calc_in *in, struct stats_power_plan *plan,
	double *wanted, struct err *err)
{
	const uint64_t most_specimens = 1000000;
	uint64_t specimens, groups = 2;

	plan->alpha = 0.05;
	*wanted = 0.8;
	TRY(calc_read_number(
		in, "difference", CALC_POSITIVE, &plan->difference, err));
	TRY(calc_read_number(
		in, "sd_batch", CALC_NOT_NEGATIVE, &plan->sd_batch, err));
	TRY(calc_read_number(
		in, "sd_specimen", CALC_NOT_NEGATIVE, &plan->sd_specimen, err));
	TRY(calc_read_count(
		in, "specimens_per_batch", 1, most_specimens, &specimens, err));
	TRY(calc_read_share_or(in, "alpha", &plan->alpha, err));
	TRY(calc_read_count_or(
		in, "groups", 2, STATS_POWER_GROUPS_MOST, &groups, err));
	TRY(calc_read_share_or(in, "power", wanted, err));
	plan->specimens = (size_t)specimens;
	plan->groups = (size_t)groups;
	return ERR_NONE;
}

static enum err_code
write_point(struct jsonout *json, const struct stats_power_plan *plan,
	size_t batches, struct err *err)
{
	double power;

	TRY(stats_power(plan, batches, &power, err));
	jsonout_open_object(json);
	jsonout_key_count(json, "batches", batches);
	jsonout_key_number(json, "power", power);
	jsonout_close_object(json);
	return ERR_NONE;
}

/* Every number of batches up to 20, then steps of a quarter; to the answer and
 * one step on, and to ten at the least. */
static enum err_code
write_curve(struct jsonout *json, const struct stats_power_plan *plan,
	size_t batches, struct err *err)
{
	const size_t least = 10, every = 20;
	size_t last = 0;

	jsonout_key(json, "curve");
	jsonout_open_array(json);
	for (size_t b = 2; b <= STATS_POWER_BATCHES_MOST;
		b = b < every ? b + 1 : b + b / 4) {
		if (last < batches && b > batches)
			TRY(write_point(json, plan, batches, err));
		TRY(write_point(json, plan, b, err));
		last = b;
		if (b > batches && b >= least && batches > 0)
			break;
	}
	jsonout_close_array(json);
	return ERR_NONE;
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct stats_power_plan plan = {0};
	double wanted;
	size_t batches;

	TRY(read_plan(in, &plan, &wanted, err));
	TRY(stats_power_batches(&plan, wanted, &batches, err));
	jsonout_key(out->json, "batches");
	if (batches > 0)
		jsonout_count(out->json, batches);
	else
		jsonout_null(out->json);
	TRY(write_curve(out->json, &plan, batches, err));
	calc_source(out,
		"Johnson and Welch (1940), Biometrika 31, 362-389: the "
		"noncentral t distribution");
	calc_note(out,
		"Batches of each mix; two given mixes are compared by a "
		"two-sided t test of batch means, with the spread pooled over "
		"all groups: df = groups (batches - 1). No allowance for many "
		"comparisons: divide alpha by their number for that.");
	calc_note(out,
		"More specimens of one batch do not replace batches: a batch "
		"mean never varies less than sd_batch.");
	if (batches == 0)
		calc_note(out,
			"Not even a million batches would do: batches is "
			"null.");
	return ERR_NONE;
}

const struct calc_entry calc_power = {
	.name = "power",
	.line = "how many batches show a difference between two mixes",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"difference\": 0.22, \"sd_batch\": 0.08, "
		   "\"sd_specimen\": 0.12, \"specimens_per_batch\": 3, "
		   "\"alpha\": 0.05, \"groups\": 4}",
	.run = run,
};

/* calc_resample.c - "resample": how far a statistic could be off. */
#include "work/calc_priv.h"

#include "stats/bootstrap.h"

static const struct calc_key keys[] = {
	{"values", "array of numbers", NULL, "the sample"},
	{"statistic", "\"mean\", \"median\", \"sd\" or \"cv\"", NULL,
		"what is estimated; cv is sd / mean"},
	{"draws", "whole number", "10,000", "samples drawn from the sample"},
	{"seed", "whole number", "1", "seed of the draws"},
	{"confidence", "number between 0 and 1", "0.95",
		"level of the intervals"},
};

/* Below this many values drawn in all, threads cost more than they bring. */
static const uint64_t work_for_threads = 2000000;

static void
write_interval(struct jsonout *json, const char *key, bool has,
	struct stats_interval interval)
{
	if (has) {
		jsonout_key_interval(
			json, key, interval.low, interval.high, NULL);
		return;
	}
	jsonout_key(json, key);
	jsonout_null(json);
}

static enum err_code
read_ask(const struct calc_in *in, struct stats_bootstrap_ask *ask,
	struct err *err)
{
	static const char *const words[] = {"mean", "median", "sd", "cv"};
	static const enum stats_statistic which[] = {
		STATS_MEAN, STATS_MEDIAN, STATS_SD, STATS_CV};
	size_t word;

	*ask = (struct stats_bootstrap_ask){
		.draws = 10000, .seed = 1, .confidence = 0.95};
	TRY(calc_read_numbers(in, "values", 2, &ask->value, &ask->n, err));
	TRY(calc_read_choice(in, "statistic", words,
		sizeof words / sizeof words[0], &word, err));
	ask->which = which[word];
	TRY(calc_read_count_or(
		in, "draws", 1, STATS_BOOTSTRAP_DRAWS_MOST, &ask->draws, err));
	TRY(calc_read_count_or(in, "seed", 0, UINT64_MAX, &ask->seed, err));
	TRY(calc_read_share_or(in, "confidence", &ask->confidence, err));
	ask->n_thread = ask->draws > work_for_threads / ask->n ? 0 : 1;
	return ERR_NONE;
}

static void
note(struct calc_out *out, const struct stats_bootstrap_ask *ask,
	const struct stats_bootstrap *got)
{
	enum { FEW = 10 };

	calc_note(out,
		"Each value must be a unit made on its own; with specimens "
		"from batches give the batch means.");
	if (ask->n < FEW)
		calc_note(out,
			"A sample this small has few different resamples: "
			"intervals from it are usually too short.");
	if (!got->has_bca)
		calc_note(out,
			"The BCa interval is null: it takes values that "
			"differ, three or more for sd and cv, and draws on "
			"both sides of the estimate.");
	if (!got->has_ends)
		calc_note(out,
			"An end is the outermost draw; for a fair end at this "
			"confidence ask for more draws.");
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct stats_bootstrap_ask ask;
	struct stats_bootstrap got;

	TRY(read_ask(in, &ask, err));
	TRY(stats_bootstrap(in->arena, &ask, &got, err));
	jsonout_key_number(out->json, "estimate", got.estimate);
	write_interval(out->json, "percentile", true, got.percentile);
	write_interval(out->json, "bca", got.has_bca, got.bca);
	calc_source(out,
		"Efron (1987), Journal of the American Statistical "
		"Association 82, 171-185; ends: Davison and Hinkley (1997), "
		"Bootstrap Methods and their Application, equation 5.8");
	note(out, &ask, &got);
	return ERR_NONE;
}

const struct calc_entry calc_resample = {
	.name = "resample",
	.line = "how far a mean, median or spread could be off, by resampling",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"values\": [317, 384, 351, 376, 298, 342, 330, 361, 355, "
		   "309], \"statistic\": \"cv\", \"draws\": 2000}",
	.run = run,
};

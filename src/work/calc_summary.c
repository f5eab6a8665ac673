/* calc_summary.c - "summary": one sample described. */
#include "work/calc_priv.h"

#include "stats/summary.h"

static const struct calc_key keys[] = {
	{"values", "array of numbers", NULL, "the sample, in the order taken"},
};

static void
write_if(struct jsonout *json, const char *key, bool has, double value)
{
	jsonout_key(json, key);
	if (has)
		jsonout_number(json, value);
	else
		jsonout_null(json);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct jsonout *json = out->json;
	struct stats_summary got;
	const double *value;
	size_t n;

	TRY(calc_read_numbers(in, "values", 1, &value, &n, err));
	TRY(stats_summarise(in->arena, value, n, &got, err));
	jsonout_key_count(json, "n", got.n);
	jsonout_key_number(json, "mean", got.mean);
	write_if(json, "sd", got.has_sd, got.sd);
	write_if(json, "lag1", got.has_spread, got.lag1);
	jsonout_key_number(json, "median", got.median);
	jsonout_key(json, "quartiles");
	jsonout_open_array(json);
	jsonout_number(json, got.quartile_1);
	jsonout_number(json, got.quartile_3);
	jsonout_close_array(json);
	write_if(json, "skewness", got.has_spread, got.skewness);
	write_if(json, "cv", got.has_cv, got.cv);
	calc_source(out,
		"Hyndman and Fan (1996), The American Statistician 50, "
		"361-365, type 7, for the quartiles; Chan, Golub and "
		"LeVeque (1983), The American Statistician 37, "
		"242-247, for the spread");
	if (!got.has_sd)
		calc_note(out,
			"One value says nothing about spread: sd, lag1, "
			"skewness and cv are null.");
	else if (!got.has_spread)
		calc_note(out,
			"All values are equal: lag1 and skewness have no "
			"meaning and are null.");
	return ERR_NONE;
}

const struct calc_entry calc_summary = {
	.name = "summary",
	.line = "one sample described: mean, spread, quartiles",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"values\": [0.357, 0.376, 0.361, 0.349]}",
	.run = run,
};

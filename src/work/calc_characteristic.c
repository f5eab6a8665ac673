/* calc_characteristic.c - "characteristic": what one in twenty falls below. */
#include "work/calc_priv.h"

#include "stats/characteristic.h"

static const struct calc_key keys[] = {
	{"values", "array of numbers", NULL, "the sample"},
	{"prior_sd", "number above 0", "none",
		"spread known beforehand; with log, of the natural logarithm"},
	{"log", "true or false", "false",
		"take the logarithms for normal, not the values"},
};

static void
write_or_null(struct jsonout *json, const char *key, bool has, double value)
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
	struct stats_characteristic got;
	const double *value;
	double prior_sd = 0;
	bool as_log = false;
	size_t n;

	TRY(calc_read_numbers(in, "values", 1, &value, &n, err));
	TRY(calc_read_number_or(in, "prior_sd", CALC_POSITIVE, &prior_sd, err));
	TRY(calc_read_bool_or(in, "log", &as_log, err));
	TRY(stats_characteristic(
		in->arena, value, n, prior_sd, as_log, &got, err));
	write_or_null(out->json, "unknown", got.has_unknown, got.unknown);
	write_or_null(out->json, "known", got.has_known, got.known);
	calc_source(out,
		"EN 1990:2002, Annex D, D.7.2 with the formulas behind table "
		"D.1: t or z at 0.95 times the root of 1 + 1/n");
	if (!got.has_unknown)
		calc_note(out,
			"unknown is null: one value says nothing about "
			"spread.");
	if (as_log)
		calc_note(out,
			"The logarithms were taken for normal; prior_sd is "
			"that of the natural logarithm, which is near the "
			"spread divided by the mean.");
	else if ((got.has_unknown && got.unknown < 0) ||
		(got.has_known && got.known < 0))
		calc_note(out, "An answer is below 0: for strengths take log.");
	return ERR_NONE;
}

const struct calc_entry calc_characteristic = {
	.name = "characteristic",
	.line = "what a new result falls below once in twenty (EN 1990)",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"values\": [2.22, 1.65, 1.97, 2.05], "
		   "\"prior_sd\": 0.21}",
	.run = run,
};

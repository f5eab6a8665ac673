/* calc_tolerance.c - "tolerance": mean and k spreads that cover a share. */
#include "work/calc_priv.h"

#include "stats/tolerance.h"

#include <math.h>

static const struct calc_key keys[] = {
	{"n", "whole number, at least 2", NULL, "values in the sample"},
	{"content", "share between 0 and 1", NULL,
		"of all values that is to be covered"},
	{"confidence", "share between 0 and 1", NULL, "that it is covered"},
	{"sided", "one or two", NULL,
		"above mean - k sd, or between mean - k sd and mean + k sd"},
};

static enum err_code
read_required_share(const struct calc_in *in, const char *key, double *share,
	struct err *err)
{
	TRY(calc_read_number(in, key, CALC_POSITIVE, share, err));
	return calc_read_share_or(in, key, share, err);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const sides[] = {"one", "two"};
	enum { ONE, TWO };
	const uint64_t most = 10000000;
	double content, confidence, k;
	size_t sided = ONE;
	uint64_t n;

	TRY(calc_read_count(in, "n", 2, most, &n, err));
	TRY(read_required_share(in, "content", &content, err));
	TRY(read_required_share(in, "confidence", &confidence, err));
	TRY(calc_read_choice(in, "sided", sides, 2, &sided, err));
	if (sided == TWO)
		TRY(stats_tolerance_two_sided(
			(size_t)n, content, confidence, &k, err));
	else
		TRY(stats_tolerance_one_sided(
			(size_t)n, content, confidence, &k, err));
	if (!isfinite(k))
		return calc_refuse(
			in, "content", "a share that is less extreme", err);
	jsonout_key_number(out->json, "k", k);
	calc_source(out,
		sided == TWO
			? "Eberhardt, Mee and Reeve (1989), Communications in "
			  "Statistics - Simulation and Computation 18, 397-413"
			: "Johnson and Welch (1940), Biometrika 31, 362-389: "
			  "the noncentral t quantile over the root of n");
	calc_note(out,
		"For independent values of one normal kind: batches are what "
		"counts, not specimens of one batch.");
	return ERR_NONE;
}

const struct calc_entry calc_tolerance = {
	.name = "tolerance",
	.line = "factor k so that mean and k spreads cover a share, exact",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"n\": 9, \"content\": 0.95, \"confidence\": 0.9, "
		   "\"sided\": \"one\"}",
	.run = run,
};

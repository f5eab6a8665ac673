/* calc_run_length.c - "run-length": points until a control chart signals. */
#include "work/calc_priv.h"

#include "stats/run_length.h"

static const struct calc_key keys[] = {
	{"chart", "shewhart, ewma or cusum", NULL, "the chart"},
	{"limit", "number above 0", "for shewhart",
		"spreads from the centre to the limit"},
	{"lambda", "number above 0, at most 1", "for ewma",
		"weight of the newest point"},
	{"width", "number above 0", "for ewma",
		"spreads of the moving average from the centre to the limit"},
	{"reference", "number, at least 0", "for cusum",
		"k: what is taken off each point, in spreads"},
	{"decision", "number above 0", "for cusum",
		"h: the sum that signals, in spreads"},
	{"head_start", "number, at least 0", "0, for cusum",
		"where the sum begins, in spreads"},
	{"shift", "number", "0",
		"how far the mean lies above the centre, in spreads"},
	{"sides", "1 or 2", "2", "signals above alone, or above and below"},
};

enum chart { SHEWHART, EWMA, CUSUM };

/* A parameter of another chart is a mistake, not something to pass over. */
static enum err_code
refuse_others(const struct calc_in *in, size_t chart, struct err *err)
{
	static const struct {
		const char *key;
		enum chart of;
	} owned[] = {{"limit", SHEWHART}, {"lambda", EWMA}, {"width", EWMA},
		{"reference", CUSUM}, {"decision", CUSUM},
		{"head_start", CUSUM}};

	for (size_t i = 0; i < sizeof owned / sizeof owned[0]; i++)
		if (owned[i].of != chart && calc_has(in, owned[i].key))
			return calc_refuse(in, owned[i].key,
				"nothing with this chart", err);
	return ERR_NONE;
}

static enum err_code
ewma(const struct calc_in *in, double shift, int sides, double *arl,
	struct err *err)
{
	double lambda, width;

	TRY(calc_read_number(in, "lambda", CALC_POSITIVE, &lambda, err));
	TRY(calc_read_number(in, "width", CALC_POSITIVE, &width, err));
	return stats_run_ewma(in->arena, lambda, width, shift, sides, arl, err);
}

static enum err_code
cusum(const struct calc_in *in, double shift, int sides, double *arl,
	struct err *err)
{
	double reference, decision, head_start = 0;

	TRY(calc_read_number(
		in, "reference", CALC_NOT_NEGATIVE, &reference, err));
	TRY(calc_read_number(in, "decision", CALC_POSITIVE, &decision, err));
	TRY(calc_read_number_or(
		in, "head_start", CALC_NOT_NEGATIVE, &head_start, err));
	return stats_run_cusum(in->arena, reference, decision, head_start,
		shift, sides, arl, err);
}

static enum err_code
compute(const struct calc_in *in, size_t chart, double *arl, struct err *err)
{
	double shift = 0, limit;
	uint64_t sides = 2;

	TRY(calc_read_number_or(in, "shift", CALC_ANY, &shift, err));
	TRY(calc_read_count_or(in, "sides", 1, 2, &sides, err));
	if (chart == EWMA)
		return ewma(in, shift, (int)sides, arl, err);
	if (chart == CUSUM)
		return cusum(in, shift, (int)sides, arl, err);
	TRY(calc_read_number(in, "limit", CALC_POSITIVE, &limit, err));
	return stats_run_shewhart(limit, shift, (int)sides, arl, err);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	static const char *const chart_words[] = {"shewhart", "ewma", "cusum"};
	static const char *const source[] = {
		"closed form: 1 / the chance that a point signals (Shewhart "
		"1931, Economic Control of Quality)",
		"Crowder (1987), Technometrics 29, 401-407: the integral "
		"equation, zero state, limits of the long run",
		"Page (1954), Biometrika 41, 100-115: the integral equation; "
		"two sides: Lucas and Crosier (1982), Technometrics 24, "
		"199-205"};
	size_t chart = SHEWHART;
	double arl;

	TRY(calc_read_choice(in, "chart", chart_words, 3, &chart, err));
	TRY(refuse_others(in, chart, err));
	TRY(compute(in, chart, &arl, err));
	jsonout_key_number(out->json, "arl", arl);
	calc_source(out, source[chart]);
	calc_note(out,
		"The mean number of points up to the one that signals, for "
		"independent normal points whose mean and spread are known; "
		"with limits from a few batches it varies much more.");
	if (chart == EWMA)
		calc_note(out,
			"The limits are those of the long run from the first "
			"point on; the average begins at the centre. With one "
			"side it is put back to the centre when it would fall "
			"below.");
	return ERR_NONE;
}

const struct calc_entry calc_run_length = {
	.name = "run-length",
	.line = "mean number of points until a control chart signals",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"chart\": \"ewma\", \"lambda\": 0.2, \"width\": 2.962, "
		   "\"shift\": 0.75}",
	.run = run,
};

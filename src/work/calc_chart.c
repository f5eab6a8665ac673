/* calc_chart.c - "chart": values in order on control charts. */
#include "work/calc_priv.h"

#include "control/chart.h"

static const struct calc_key keys[] = {
	{"values", "array of numbers", NULL,
		"single values, in the order made"},
	{"base", "whole number, at least 3", "all values",
		"how many of the first set centre and spread"},
	{"centre", "number", "from the base", "known centre; with spread"},
	{"spread", "number above 0", "from the base", "known spread"},
	{"lambda", "number above 0, at most 1", "0.2", "of the EWMA"},
	{"width", "number above 0", "2.962", "of the EWMA, in its spreads"},
	{"reference", "number, at least 0", "0.5", "of the CUSUM, in spreads"},
	{"decision", "number above 0", "5", "of the CUSUM, in spreads"},
	{"all_rules", "true or false", "false",
		"also two of three, four of five and six steady"},
};

static enum err_code
read_settings(const struct calc_in *in, size_t n, struct control_settings *s,
	struct err *err)
{
	uint64_t base = 0;
	bool all = false;

	*s = control_usual();
	if (calc_has(in, "base"))
		TRY(calc_read_count(in, "base", 3, n, &base, err));
	s->n_base = (size_t)base;
	s->is_known = calc_has(in, "centre") || calc_has(in, "spread");
	if (s->is_known && calc_has(in, "base"))
		return calc_refuse(in, "base",
			"nothing where centre and spread are given", err);
	if (s->is_known) {
		TRY(calc_read_number(in, "centre", CALC_ANY, &s->centre, err));
		TRY(calc_read_number(
			in, "spread", CALC_POSITIVE, &s->spread, err));
	}
	TRY(calc_read_number_or(in, "lambda", CALC_POSITIVE, &s->lambda, err));
	TRY(calc_read_number_or(in, "width", CALC_POSITIVE, &s->width, err));
	TRY(calc_read_number_or(
		in, "reference", CALC_NOT_NEGATIVE, &s->reference, err));
	TRY(calc_read_number_or(
		in, "decision", CALC_POSITIVE, &s->decision, err));
	TRY(calc_read_bool_or(in, "all_rules", &all, err));
	for (size_t r = 0; r < CONTROL_RULE_COUNT; r++)
		s->use[r] = s->use[r] || all;
	return ERR_NONE;
}

static void
write_point(struct jsonout *json, const struct control_point *p)
{
	jsonout_open_object(json);
	jsonout_key_number(json, "value", p->value);
	jsonout_key(json, "range");
	if (p->has_range)
		jsonout_number(json, p->range);
	else
		jsonout_null(json);
	jsonout_key_number(json, "ewma", p->ewma);
	jsonout_key_number(json, "up", p->up);
	jsonout_key_number(json, "down", p->down);
	jsonout_key(json, "signals");
	jsonout_open_array(json);
	for (size_t r = 0; r < CONTROL_RULE_COUNT; r++)
		if (p->signals[r])
			jsonout_string(
				json, control_rule_word((enum control_rule)r));
	jsonout_close_array(json);
	jsonout_close_object(json);
}

static void
write_runs(struct jsonout *json, const char *key, const struct control_runs *r)
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "calm", r->calm);
	jsonout_key_number(json, "one_spread", r->one_spread);
	jsonout_close_object(json);
}

/* Points are counted from 1, as people do. */
static void
write_signal(struct jsonout *json, const struct control_chart *c)
{
	jsonout_key(json, "signal");
	if (!c->has_signal) {
		jsonout_null(json);
		return;
	}
	jsonout_open_object(json);
	jsonout_key_count(json, "point", c->signal + 1);
	jsonout_key_string(json, "rule", control_rule_word(c->rule));
	jsonout_key_string(json, "says", control_rule_says(c->rule));
	jsonout_key(json, "began");
	jsonout_open_object(json);
	jsonout_key_count(json, "point", c->onset.first + 1);
	jsonout_key_count(json, "low", c->onset.low + 1);
	jsonout_key_count(json, "high", c->onset.high + 1);
	jsonout_key_count(json, "by_cusum", c->onset.cusum + 1);
	jsonout_key_number(json, "step", c->onset.step);
	jsonout_close_object(json);
	jsonout_close_object(json);
}

static void
write_limits(struct jsonout *json, const char *key, double low, double high)
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "low", low);
	jsonout_key_number(json, "high", high);
	jsonout_close_object(json);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct jsonout *json = out->json;
	struct control_settings settings;
	struct control_chart c;
	const double *value;
	size_t n;

	TRY(calc_read_numbers(in, "values", 1, &value, &n, err));
	TRY(read_settings(in, n, &settings, err));
	TRY(control_chart(in->arena, value, n, &settings, &c, err));
	jsonout_key_number(json, "centre", c.centre);
	jsonout_key_number(json, "spread", c.spread);
	write_limits(json, "limits", c.low, c.high);
	write_limits(json, "range_limits", 0, c.range_high);
	write_limits(json, "ewma_limits", c.centre - c.ewma_half,
		c.centre + c.ewma_half);
	jsonout_key_number(json, "decision", settings.decision);
	write_signal(json, &c);
	jsonout_key(json, "points");
	jsonout_open_array(json);
	for (size_t i = 0; i < c.n_point; i++)
		write_point(json, &c.point[i]);
	jsonout_close_array(json);
	jsonout_key(json, "run_lengths");
	jsonout_open_object(json);
	write_runs(json, "rules", &c.rules_run);
	write_runs(json, "ewma", &c.ewma_run);
	write_runs(json, "cusum", &c.cusum_run);
	jsonout_close_object(json);
	calc_source(out,
		"ASTM MNL 7 (limits); the 1956 Statistical Quality Control "
		"Handbook and Nelson (1984), Journal of Quality Technology "
		"16, 237-239 (runs); Roberts (1959), Technometrics 1, 239-250 "
		"(EWMA); Page (1954), Biometrika 41, 100-115 (CUSUM); Samuel, "
		"Pignatiello and Calvin (1998), Quality Engineering 10, "
		"521-527 (when it began)");
	calc_note(out,
		"run_lengths: mean points to a signal of each chart alone, "
		"while nothing moves and after the mean moved by one spread, "
		"as if centre and spread were known; together they signal "
		"sooner.");
	if (!settings.is_known)
		calc_note(out,
			"Centre and spread come from the base points: with "
			"fewer than about 20 of them the limits themselves "
			"are uncertain.");
	return ERR_NONE;
}

const struct calc_entry calc_chart = {
	.name = "chart",
	.line = "values in order on control charts, signals and when it began",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example = "{\"values\": [70.2, 69.1, 71.4, 70.8, 69.5, 70.9, 73.8, "
		   "74.1, 75.3, 74.4], \"base\": 6}",
	.run = run,
};

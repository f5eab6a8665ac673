/* calc_hierarchy.c - "hierarchy": mixes compared through batches and specimens,
 * by the posterior of the hierarchical model. */
#include "work/calc_hierarchy_priv.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

static const struct calc_key keys[] = {
	{"rows", "array of objects {mix, batch, value, age?, covariates?}",
		NULL,
		"one specimen each; value is a number or [low, high] with null "
		"for an open end; covariates is an object name: number"},
	{"draws", "whole number", "5000, fewer above 2000 open rows",
		"draws kept of each chain"},
	{"chains", "whole number", "4", "chains, each with its own stream"},
	{"seed", "whole number", "1", "seed of the draws"},
	{"baseline", "name of a mix", "the first mix",
		"the mix the others are compared with"},
	{"to_age", "time", "28 days", "the age that means are brought to"},
	{"prior",
		"object {mean_centre?, mean_sd?, sd_batch_scale?, "
		"sd_batch_log_sd?, sd_specimen_scale?, sd_specimen_log_sd?, "
		"slope_mean?, slope_sd?, age_slope_mean?, age_slope_sd?}",
		"weak, listed in the answer",
		"priors on the log scale; with a log_sd above 0 the spread is "
		"lognormal with the scale as median, else half-normal"},
	{"learn_from", "array of objects {mix, batch, value}", "none",
		"rows of another trial; its spreads become the priors here"},
	{"learn_weight", "number above 0, at most 1", "0.5",
		"what the other trial counts for"},
};
static const char *const prior_keys[] = {"mean_centre", "mean_sd",
	"sd_batch_scale", "sd_batch_log_sd", "sd_specimen_scale",
	"sd_specimen_log_sd", "slope_mean", "slope_sd", "age_slope_mean",
	"age_slope_sd"};

static const uint64_t draws_least = 100, draws_most = 1000000;
static const uint64_t chains_most = 64;
/* An open row is drawn anew with every draw, so with many of them what a draw
 * more tells is little beside what it costs: where draws are not asked for,
 * open rows times draws of a chain stay the same above 2,000 rows, down to
 * draws_fewest, with fewer to begin.  Our choice, as in compare. */
static const uint64_t draws_usual = 5000, draws_fewest = 500;
static const uint64_t most_row_draws = 10000000;
/* Draws of each chain for what is only looked at beside the answer. */
enum {
	WARM = 500,
	WARM_MANY = 150,
	BESIDE = 500,
	N_REPLICATE = 1000,
	LINE_MAX = 400
};
static const double interval_level = 0.9;
/* More batch effects than these are not kept to check by (80 MB). */
static const size_t effects_most = 10000000;
static const double sensitivity_factor[] = {0.5, 2};
enum { N_FACTOR = sizeof sensitivity_factor / sizeof sensitivity_factor[0] };

/* Strength grows as age / (4 + 0.85 age) in days for moist-cured ordinary
 * cement (ACI 209R-92, equation 2-1): seven days give 0.70 of 28, a slope of
 * ln(1 / 0.70) / ln 4 = 0.26 on log age.  The spread is our choice. */
static const double day_s = 86400, age_days = 28;
static const double age_slope_mean = 0.25, age_slope_sd = 0.25;
/* A chance of being best from fewer independent draws is not worth printing:
 * its error could be a fortieth.  Common practice, no source. */
static const double least_effective = 400, most_rhat = 1.01;

/* What was asked for beside the rows. */
struct question {
	struct hierarchy_table t;
	double slope_mean, slope_sd, age_slope_mean, age_slope_sd;
	size_t baseline;
	bool learnt, centre_given;
	double learn_weight;
};

static enum err_code
read_spreads(const struct calc_in *of, struct stats_hierarchy_prior *p,
	struct err *err)
{
	TRY(calc_read_number_or(
		of, "sd_batch_scale", CALC_POSITIVE, &p->sd_batch_scale, err));
	TRY(calc_read_number_or(of, "sd_batch_log_sd", CALC_NOT_NEGATIVE,
		&p->sd_batch_log_sd, err));
	TRY(calc_read_number_or(of, "sd_specimen_scale", CALC_POSITIVE,
		&p->sd_specimen_scale, err));
	return calc_read_number_or(of, "sd_specimen_log_sd", CALC_NOT_NEGATIVE,
		&p->sd_specimen_log_sd, err);
}

static enum err_code
read_prior(const struct calc_in *in, struct question *q, struct err *err)
{
	struct stats_hierarchy_prior *p = &q->t.ask.prior;
	struct calc_in of;

	if (!calc_has(in, "prior"))
		return ERR_NONE;
	TRY(calc_read_object(in, "prior", &of, err));
	TRY(calc_only(&of, prior_keys, sizeof prior_keys / sizeof prior_keys[0],
		err));
	q->centre_given = calc_has(&of, "mean_centre");
	TRY(calc_read_number_or(
		&of, "mean_centre", CALC_ANY, &p->mean_centre, err));
	TRY(calc_read_number_or(
		&of, "mean_sd", CALC_POSITIVE, &p->mean_sd, err));
	TRY(read_spreads(&of, p, err));
	TRY(calc_read_number_or(
		&of, "slope_mean", CALC_ANY, &q->slope_mean, err));
	TRY(calc_read_number_or(
		&of, "slope_sd", CALC_POSITIVE, &q->slope_sd, err));
	TRY(calc_read_number_or(
		&of, "age_slope_mean", CALC_ANY, &q->age_slope_mean, err));
	return calc_read_number_or(
		&of, "age_slope_sd", CALC_POSITIVE, &q->age_slope_sd, err);
}

static enum err_code
set_slopes(struct arena *a, struct question *q, struct err *err)
{
	const size_t n_x = q->t.ask.n_x;
	double *mean = arena_take(a, n_x, sizeof *mean);
	double *sd = arena_take(a, n_x, sizeof *sd);

	if (mean == NULL || sd == NULL)
		return err_memory(err);
	for (size_t k = 0; k < n_x; k++) {
		const bool is_age = k == q->t.n_covariate;

		mean[k] = is_age ? q->age_slope_mean : q->slope_mean;
		sd[k] = is_age ? q->age_slope_sd : q->slope_sd;
	}
	q->t.ask.prior.slope_mean = mean;
	q->t.ask.prior.slope_sd = sd;
	return ERR_NONE;
}

static uint64_t
usual_draws(const struct stats_hierarchy_ask *ask)
{
	uint64_t n_open = 0, draws;

	for (size_t i = 0; i < ask->n_row; i++)
		n_open += ask->low[i] < ask->high[i];
	if (n_open <= most_row_draws / draws_usual)
		return draws_usual;
	draws = most_row_draws / n_open;
	return draws > draws_fewest ? draws : draws_fewest;
}

static enum err_code
read_run(const struct calc_in *in, struct question *q, struct err *err)
{
	struct stats_hierarchy_ask *ask = &q->t.ask;
	uint64_t draws = usual_draws(ask), chains = 4, seed = 1;
	const char *name = q->t.mix[0];

	TRY(calc_read_count_or(
		in, "draws", draws_least, draws_most, &draws, err));
	TRY(calc_read_count_or(in, "chains", 1, chains_most, &chains, err));
	TRY(calc_read_count_or(in, "seed", 0, UINT64_MAX, &seed, err));
	TRY(calc_read_text_or(in, "baseline", &name, err));
	q->baseline = 0;
	while (q->baseline < ask->n_mix &&
		strcmp(q->t.mix[q->baseline], name) != 0)
		q->baseline++;
	if (q->baseline == ask->n_mix)
		return calc_refuse(
			in, "baseline", "the name of a mix in rows", err);
	ask->n_chain = (size_t)chains;
	ask->n_keep = (size_t)draws;
	ask->n_warm = draws < draws_usual && !calc_has(in, "draws") ? WARM_MANY
								    : WARM;
	ask->seed = seed;
	ask->keep_batch = ask->n_keep * ask->n_chain <=
		effects_most / ask->n_batch;
	return ERR_NONE;
}

/* The other trial's spreads, sampled and turned into priors. */
static enum err_code
learn(const struct calc_in *in, struct question *q, struct err *err)
{
	struct hierarchy_table other = {.to_age_s = age_days * day_s};
	struct stats_hierarchy draws;

	q->learn_weight = 0.5;
	TRY(calc_read_number_or(
		in, "learn_weight", CALC_POSITIVE, &q->learn_weight, err));
	if (q->learn_weight > 1)
		return calc_refuse(in, "learn_weight",
			"a number above 0 and at most 1", err);
	if (!calc_has(in, "learn_from"))
		return ERR_NONE;
	TRY(calc_hierarchy_rows(in, "learn_from", false, &other, err));
	stats_hierarchy_default_prior(
		other.low, other.high, other.ask.n_row, &other.ask.prior);
	other.ask.n_chain = q->t.ask.n_chain;
	other.ask.n_keep = q->t.ask.n_keep;
	other.ask.n_warm = WARM;
	other.ask.seed = q->t.ask.seed;
	TRY(stats_hierarchy_sample(in->arena, &other.ask, &draws, err));
	q->learnt = true;
	return stats_hierarchy_learn(
		&draws, q->learn_weight, &q->t.ask.prior, NULL, NULL, err);
}

static enum err_code
read_question(const struct calc_in *in, struct question *q, struct err *err)
{
	struct hierarchy_table *t = &q->t;

	q->slope_sd = 1;
	q->age_slope_mean = age_slope_mean;
	q->age_slope_sd = age_slope_sd;
	t->to_age_s = age_days * day_s;
	TRY(calc_read_quantity_or(
		in, "to_age", UNIT_TIME, CALC_POSITIVE, &t->to_age_s, err));
	TRY(calc_hierarchy_rows(in, "rows", true, t, err));
	TRY(read_run(in, q, err));
	stats_hierarchy_default_prior(
		t->low, t->high, t->ask.n_row, &t->ask.prior);
	TRY(learn(in, q, err));
	TRY(read_prior(in, q, err));
	return set_slopes(in->arena, q, err);
}

static void
write_interval(struct jsonout *json, const char *key, const double interval[3])
{
	jsonout_key(json, key);
	jsonout_open_object(json);
	jsonout_key_number(json, "median", interval[0]);
	jsonout_key_number(json, "low", interval[1]);
	jsonout_key_number(json, "high", interval[2]);
	jsonout_close_object(json);
}

/* One parameter of every draw, the step-th numbers from draw. */
static enum err_code
write_draws(struct calc_out *out, const char *key, const double *draw, size_t n,
	size_t step, struct err *err)
{
	double *one = arena_take(out->arena, n, sizeof *one);
	double interval[3];

	if (one == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		one[i] = draw[i * step];
	TRY(stats_hierarchy_interval(
		out->arena, one, n, interval_level, interval, err));
	write_interval(out->json, key, interval);
	return ERR_NONE;
}

static void
write_mix(struct jsonout *json, double ess, bool is_sure,
	const struct stats_mix_answer *mix, const struct stats_next_batch *next)
{
	const double ratio[3] = {
		mix->ratio_median, mix->ratio_low, mix->ratio_high};

	jsonout_open_object(json);
	jsonout_key_number(json, "median", mix->median);
	jsonout_key_number(json, "low", mix->low);
	jsonout_key_number(json, "high", mix->high);
	write_interval(json, "ratio", ratio);
	jsonout_key_number(json, "p_better", mix->p_better);
	jsonout_key(json, "p_best");
	if (is_sure)
		jsonout_number(json, mix->p_best);
	else
		jsonout_null(json);
	jsonout_key_number(json, "regret", mix->regret);
	jsonout_key_number(json, "ess", ess);
	jsonout_key(json, "next_batch");
	jsonout_open_object(json);
	write_interval(json, "mean", next->mean);
	write_interval(json, "specimen", next->specimen);
	jsonout_key_number(json, "specimen_5", next->specimen_5);
	jsonout_close_object(json);
	jsonout_close_object(json);
}

static enum err_code
write_mixes(struct calc_out *out, const struct question *q,
	const struct stats_hierarchy *got, struct err *err)
{
	struct stats_mix_answer *answer = arena_take(
		out->arena, got->n_mix, sizeof *answer);
	const bool is_sure = got->ess_min >= least_effective;

	if (answer == NULL)
		return err_memory(err);
	TRY(stats_hierarchy_answer(out->arena, got, q->baseline, interval_level,
		true, answer, err));
	jsonout_key(out->json, "mixes");
	jsonout_open_object(out->json);
	for (size_t m = 0; m < got->n_mix; m++) {
		struct stats_next_batch next;

		TRY(stats_hierarchy_next_batch(out->arena, got, m,
			interval_level, q->t.ask.seed, &next, err));
		jsonout_key(out->json, q->t.mix[m]);
		write_mix(out->json, got->ess_mean[m], is_sure, &answer[m],
			&next);
	}
	jsonout_close_object(out->json);
	return ERR_NONE;
}

static enum err_code
write_parameters(struct calc_out *out, const struct question *q,
	const struct stats_hierarchy *got, struct err *err)
{
	const size_t n = got->n_draw, n_x = got->n_x;

	jsonout_key(out->json, "slopes");
	jsonout_open_object(out->json);
	for (size_t k = 0; k < q->t.n_covariate; k++)
		TRY(write_draws(
			out, q->t.covariate[k], got->slope + k, n, n_x, err));
	jsonout_close_object(out->json);
	if (q->t.has_age)
		TRY(write_draws(
			out, "age_slope", got->slope + n_x - 1, n, n_x, err));
	TRY(write_draws(out, "sd_batch", got->sd_batch, n, 1, err));
	TRY(write_draws(out, "sd_specimen", got->sd_specimen, n, 1, err));
	jsonout_key_number(out->json, "rhat_max", got->rhat_max);
	jsonout_key_number(out->json, "ess_min", got->ess_min);
	return ERR_NONE;
}

static enum err_code
write_sensitivity(
	struct calc_out *out, const struct question *q, struct err *err)
{
	struct stats_hierarchy_ask ask = q->t.ask;

	if (ask.n_keep > BESIDE)
		ask.n_keep = BESIDE;
	jsonout_key(out->json, "sensitivity");
	jsonout_open_array(out->json);
	for (size_t i = 0; i < N_FACTOR; i++) {
		struct stats_hierarchy_moved moved;

		TRY(stats_hierarchy_sensitivity(out->arena, &ask,
			sensitivity_factor[i], q->baseline, interval_level,
			true, &moved, err));
		jsonout_open_object(out->json);
		jsonout_key_number(out->json, "factor", moved.factor);
		write_interval(out->json, "sd_batch", moved.sd_batch);
		write_interval(out->json, "sd_specimen", moved.sd_specimen);
		jsonout_key(out->json, "ratios");
		jsonout_open_object(out->json);
		for (size_t m = 0; m < ask.n_mix; m++)
			jsonout_key_number(out->json, q->t.mix[m],
				moved.mix[m].ratio_median);
		jsonout_close_object(out->json);
		jsonout_close_object(out->json);
	}
	jsonout_close_array(out->json);
	return ERR_NONE;
}

static void
write_discrepancy(struct jsonout *json, const char *key,
	const struct stats_discrepancy *d)
{
	jsonout_key(json, key);
	if (!d->has) {
		jsonout_null(json); /* too few to tell, or too many to keep */
		return;
	}
	jsonout_open_object(json);
	jsonout_key_number(json, "p", d->p);
	jsonout_key_number(json, "observed", d->observed);
	jsonout_key_number(json, "replicated", d->replicated);
	jsonout_close_object(json);
}

static enum err_code
write_predictive(struct calc_out *out, const struct question *q,
	const struct stats_hierarchy *got, struct err *err)
{
	struct stats_predictive check = {0};

	if (got->batch != NULL)
		TRY(stats_hierarchy_predict_check(out->arena, &q->t.ask, got,
			N_REPLICATE, q->t.ask.seed, &check, err));
	jsonout_key(out->json, "predictive");
	jsonout_open_object(out->json);
	write_discrepancy(out->json, "within", &check.within);
	write_discrepancy(out->json, "between", &check.between);
	jsonout_close_object(out->json);
	return ERR_NONE;
}

static void
write_spread_prior(struct jsonout *json, const char *what, double scale,
	double log_sd, bool learnt, double weight)
{
	char line[LINE_MAX], from[LINE_MAX / 2];

	snprintf(from, sizeof from,
		learnt ? "learnt from the other trial at a weight of %.3g "
			 "(Ibrahim and Chen 2000, Statistical Science 15, "
			 "46-60)"
		       : "the form after Gelman (2006), Bayesian Analysis 1, "
			 "515-534; the scale is a stated choice",
		weight);
	if (log_sd > 0)
		snprintf(line, sizeof line,
			"%s: lognormal, median %.4g, spread of its log %.4g; "
			"%s.",
			what, scale, log_sd, from);
	else
		snprintf(line, sizeof line, "%s: half-normal, scale %.4g; %s.",
			what, scale, from);
	jsonout_string(json, line);
}

static void
write_slope_priors(struct jsonout *json, const struct question *q)
{
	char line[LINE_MAX];

	for (size_t k = 0; k < q->t.n_covariate; k++) {
		snprintf(line, sizeof line,
			"slope on %.100s, from its mean: normal, mean %.4g, sd "
			"%.4g; a stated choice.",
			q->t.covariate[k], q->slope_mean, q->slope_sd);
		jsonout_string(json, line);
	}
	if (!q->t.has_age)
		return;
	snprintf(line, sizeof line,
		"slope on log(age / %.4g days): normal, mean %.4g, sd %.4g; "
		"ACI 209R-92, age / (4 + 0.85 age), has 0.26 between 7 and 28 "
		"days.",
		q->t.to_age_s / day_s, q->age_slope_mean, q->age_slope_sd);
	jsonout_string(json, line);
}

static void
write_priors(struct calc_out *out, const struct question *q)
{
	const struct stats_hierarchy_prior *p = &q->t.ask.prior;
	char line[LINE_MAX];

	jsonout_key(out->json, "priors");
	jsonout_open_array(out->json);
	snprintf(line, sizeof line,
		"log of each mix: normal, mean %.4g (%s), sd %.4g; a stated "
		"choice, weak.",
		p->mean_centre,
		q->centre_given ? "as given" : "the log of the median reading",
		p->mean_sd);
	jsonout_string(out->json, line);
	write_spread_prior(out->json, "spread between batches, log scale",
		p->sd_batch_scale, p->sd_batch_log_sd, q->learnt,
		q->learn_weight);
	write_spread_prior(out->json, "spread between specimens, log scale",
		p->sd_specimen_scale, p->sd_specimen_log_sd, q->learnt,
		q->learn_weight);
	write_slope_priors(out->json, q);
	jsonout_close_array(out->json);
}

/* Whether some mix is known from above alone, or from below alone. */
static enum err_code
find_open_mix(struct arena *a, const struct hierarchy_table *t, bool *is_open,
	struct err *err)
{
	size_t *n_low = arena_take(a, t->ask.n_mix, sizeof *n_low);
	size_t *n_high = arena_take(a, t->ask.n_mix, sizeof *n_high);

	if (n_low == NULL || n_high == NULL)
		return err_memory(err);
	for (size_t i = 0; i < t->ask.n_row; i++) {
		const size_t m = t->batch_mix[t->row_batch[i]];

		n_low[m] += t->low[i] > 0;
		n_high[m] += isfinite(t->high[i]);
	}
	*is_open = false;
	for (size_t m = 0; m < t->ask.n_mix; m++)
		*is_open = *is_open || n_low[m] == 0 || n_high[m] == 0;
	return ERR_NONE;
}

static enum err_code
note_data(struct calc_out *out, const struct hierarchy_table *t,
	const struct stats_hierarchy *got, struct err *err)
{
	bool is_open;

	TRY(find_open_mix(out->arena, t, &is_open, err));
	if (is_open)
		calc_note(out,
			"A mix has readings open on one side only; how far "
			"its estimate reaches that way is set by the prior.");
	if (t->ask.n_batch == t->ask.n_mix)
		calc_note(out,
			"Each mix has one batch: the spread between batches "
			"rests on its prior, and so do the comparisons.");
	if (got->ess_min < least_effective || got->rhat_max > most_rhat)
		calc_note(out,
			"The chains have not settled (ess_min below 400 or "
			"rhat_max above 1.01): p_best is null where it cannot "
			"be trusted; ask for more draws.");
	return ERR_NONE;
}

static enum err_code
note_columns(
	struct calc_out *out, const struct hierarchy_table *t, struct err *err)
{
	char note[LINE_MAX];
	const char *kept;

	if (t->n_covariate > 0)
		calc_note(out, "Medians are at the mean of each covariate.");
	if (!t->has_age)
		return ERR_NONE;
	snprintf(note, sizeof note,
		"Ages differ: medians are for %.4g days, by age_slope on the "
		"log of age.",
		t->to_age_s / day_s);
	kept = arena_text(out->arena, note);
	if (kept == NULL)
		return err_memory(err);
	calc_note(out, kept);
	return ERR_NONE;
}

static enum err_code
write_notes(struct calc_out *out, const struct question *q,
	const struct stats_hierarchy *got, struct err *err)
{
	TRY(note_columns(out, &q->t, err));
	TRY(note_data(out, &q->t, got, err));
	calc_note(out, "low and high hold the central 90 % of the posterior.");
	calc_note(out,
		"next_batch: mean of a batch not made yet, one specimen of it, "
		"and what one specimen in twenty falls below (specimen_5).");
	calc_note(out,
		"sensitivity: the same with every prior spread times factor, "
		"from 500 draws a chain.");
	calc_note(out,
		"predictive: how far the furthest specimen lies from its "
		"batch, and the furthest batch from its mix, over their pooled "
		"sd, against what the model makes; p near 0 says one of them "
		"is further out than the model has it.");
	return ERR_NONE;
}

static double
seconds_since(const struct timespec *from)
{
	struct timespec now;

	clock_gettime(CLOCK_MONOTONIC, &now);
	return (double)(now.tv_sec - from->tv_sec) +
		1e-9 * (double)(now.tv_nsec - from->tv_nsec);
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct question q = {0};
	struct stats_hierarchy got;
	struct timespec from;

	TRY(read_question(in, &q, err));
	clock_gettime(CLOCK_MONOTONIC, &from);
	TRY(stats_hierarchy_sample(in->arena, &q.t.ask, &got, err));
	TRY(write_mixes(out, &q, &got, err));
	TRY(write_parameters(out, &q, &got, err));
	write_priors(out, &q);
	TRY(write_sensitivity(out, &q, err));
	TRY(write_predictive(out, &q, &got, err));
	jsonout_key_number(out->json, "seconds", seconds_since(&from));
	calc_source(out,
		"Gelman (2006), Bayesian Analysis 1, 515-534, for the "
		"spreads; Tanner and Wong (1987), Journal of the American "
		"Statistical Association 82, 528-540, for censored readings; "
		"Vehtari and others (2021), Bayesian Analysis 16, 667-718, "
		"for rhat and ess");
	return write_notes(out, &q, &got, err);
}

const struct calc_entry calc_hierarchy = {
	.name = "hierarchy",
	.line = "mixes compared through batches and censored readings",
	.key = keys,
	.n_key = sizeof keys / sizeof keys[0],
	.example =
		"{\"rows\": [{\"mix\": \"A\", \"batch\": \"A1\", \"value\": "
		"242}, {\"mix\": \"A\", \"batch\": \"A1\", \"value\": [200, "
		"250]}, {\"mix\": \"A\", \"batch\": \"A2\", \"value\": [300, "
		"350]}, {\"mix\": \"B\", \"batch\": \"B1\", \"value\": [500, "
		"null]}, {\"mix\": \"B\", \"batch\": \"B2\", \"value\": 441}], "
		"\"draws\": 500}",
	.run = run,
};

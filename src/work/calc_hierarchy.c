/* calc_hierarchy.c - "hierarchy": mixes compared through batches and specimens,
 * by the posterior of the hierarchical model. */
#include "work/calc_priv.h"

#include "stats/hierarchy.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

static const struct calc_key keys[] = {
	{"rows", "array of objects {mix, batch, value, age?, covariates?}",
		NULL,
		"one specimen each; value is a number or [low, high] with null "
		"for an open end; covariates is an object name: number"},
	{"draws", "whole number", "5000", "draws kept of each chain"},
	{"chains", "whole number", "4", "chains, each with its own stream"},
	{"seed", "whole number", "1", "seed of the draws"},
	{"baseline", "name of a mix", "the first mix",
		"the mix the others are compared with"},
	{"prior",
		"object {mean_centre?, mean_sd?, sd_batch_scale?, "
		"sd_specimen_scale?, slope_mean?, slope_sd?}",
		"weak, stated in the notes", "priors on the log scale"},
};
static const char *const row_keys[] = {
	"mix", "batch", "value", "age", "covariates"};
static const char *const prior_keys[] = {"mean_centre", "mean_sd",
	"sd_batch_scale", "sd_specimen_scale", "slope_mean", "slope_sd"};

static const uint64_t draws_least = 100, draws_most = 1000000;
static const uint64_t chains_most = 64;
enum { WARM = 1000 };
static const double interval_level = 0.9;

/* Strength grows as age / (4 + 0.85 age) in days for moist-cured ordinary
 * cement (ACI 209R-92, equation 2-1): seven days give 0.70 of 28, a slope of
 * ln(1 / 0.70) / ln 4 = 0.26 on log age.  The spread is our choice. */
static const double age_reference_s = 28 * 86400.;
static const double age_slope_mean = 0.25, age_slope_sd = 0.25;
/* A chance of being best from fewer independent draws is not worth printing:
 * its error could be a fortieth.  Common practice, no source. */
static const double least_effective = 400, most_rhat = 1.01;

struct table {
	const struct calc_in *row;
	const char **mix, **batch;
	struct stats_hierarchy_ask ask;
	double *low, *high, *x;
	size_t *row_batch, *batch_mix;
	const char **covariate; /* of the first row */
	size_t n_covariate;
	bool has_age;
	double slope_mean, slope_sd; /* of the covariates */
};

static size_t
find(const char *const *name, size_t n, const char *wanted)
{
	size_t i = 0;

	while (i < n && strcmp(name[i], wanted) != 0)
		i++;
	return i;
}

static enum err_code
take_table(struct arena *a, size_t n, struct table *t, struct err *err)
{
	t->mix = arena_take(a, n, sizeof *t->mix);
	t->batch = arena_take(a, n, sizeof *t->batch);
	t->low = arena_take(a, n, sizeof *t->low);
	t->high = arena_take(a, n, sizeof *t->high);
	t->row_batch = arena_take(a, n, sizeof *t->row_batch);
	t->batch_mix = arena_take(a, n, sizeof *t->batch_mix);
	if (!t->mix || !t->batch || !t->low || !t->high || !t->row_batch ||
		!t->batch_mix)
		return err_memory(err);
	return ERR_NONE;
}

static enum err_code
read_value(struct table *t, size_t i, struct err *err)
{
	TRY(calc_read_censored(
		&t->row[i], "value", &t->low[i], &t->high[i], err));
	if (isinf(t->low[i]))
		t->low[i] = 0;
	if (t->low[i] < 0 || t->high[i] <= 0)
		return calc_refuse(&t->row[i], "value",
			"a number above 0, or [low, high] of 0 or more", err);
	return ERR_NONE;
}

static enum err_code
read_row(struct table *t, size_t i, struct err *err)
{
	const struct calc_in *row = &t->row[i];
	const char *mix, *batch;
	size_t m, b;

	TRY(calc_only(
		row, row_keys, sizeof row_keys / sizeof row_keys[0], err));
	TRY(calc_read_text(row, "mix", &mix, err));
	TRY(calc_read_text(row, "batch", &batch, err));
	TRY(read_value(t, i, err));
	m = find(t->mix, t->ask.n_mix, mix);
	if (m == t->ask.n_mix)
		t->mix[t->ask.n_mix++] = mix;
	b = find(t->batch, t->ask.n_batch, batch);
	if (b == t->ask.n_batch) {
		t->batch_mix[b] = m;
		t->batch[t->ask.n_batch++] = batch;
	}
	if (t->batch_mix[b] != m)
		return calc_refuse(row, "batch",
			"a batch of one mix only; another mix has this name, "
			"so name one of them anew",
			err);
	t->row_batch[i] = b;
	return ERR_NONE;
}

/* The names of the first row's covariates; every row must have the same. */
static enum err_code
read_names(const struct calc_in *in, struct table *t, struct err *err)
{
	struct calc_in of = {.arena = in->arena};
	const char *name;
	json_t *value;

	t->has_age = calc_has(&t->row[0], "age");
	if (!calc_has(&t->row[0], "covariates"))
		return ERR_NONE;
	TRY(calc_read_object(&t->row[0], "covariates", &of, err));
	t->covariate = arena_take(
		in->arena, json_object_size(of.object), sizeof *t->covariate);
	if (t->covariate == NULL)
		return err_memory(err);
	json_object_foreach((json_t *)(uintptr_t)of.object, name, value)
		t->covariate[t->n_covariate++] = name;
	return ERR_NONE;
}

static enum err_code
read_covariates(struct table *t, size_t i, struct err *err)
{
	const struct calc_in *row = &t->row[i];
	double *x = t->x + i * t->ask.n_x;
	struct calc_in of;
	double age_s;

	if (calc_has(row, "covariates") != (t->n_covariate > 0))
		return calc_refuse(row, "covariates",
			"the same covariates in every row, or none", err);
	if (calc_has(row, "age") != t->has_age)
		return calc_refuse(
			row, "age", "an age in every row, or in none", err);
	if (t->n_covariate > 0) {
		TRY(calc_read_object(row, "covariates", &of, err));
		TRY(calc_only(&of, t->covariate, t->n_covariate, err));
		for (size_t k = 0; k < t->n_covariate; k++)
			TRY(calc_read_number(
				&of, t->covariate[k], CALC_ANY, &x[k], err));
	}
	if (!t->has_age)
		return ERR_NONE;
	TRY(calc_read_quantity(
		row, "age", UNIT_TIME, CALC_POSITIVE, &age_s, err));
	x[t->n_covariate] = log(age_s / age_reference_s);
	return ERR_NONE;
}

/* Covariates are taken from their mean; ages already are from 28 days.  Ages
 * that do not differ have no slope: the column is dropped. */
static void
centre(struct table *t)
{
	const size_t n = t->ask.n_row, n_x = t->ask.n_x;
	bool differs = false;

	for (size_t k = 0; k < t->n_covariate; k++) {
		double sum = 0;

		for (size_t i = 0; i < n; i++)
			sum += t->x[i * n_x + k] / (double)n;
		for (size_t i = 0; i < n; i++)
			t->x[i * n_x + k] -= sum;
	}
	for (size_t i = 0; i < n && t->has_age; i++)
		differs = differs || t->x[i * n_x + n_x - 1] != t->x[n_x - 1];
	if (!t->has_age || differs)
		return;
	t->has_age = false;
	t->ask.n_x = n_x - 1;
	for (size_t i = 0; i < n; i++)
		for (size_t k = 0; k + 1 < n_x; k++)
			t->x[i * (n_x - 1) + k] = t->x[i * n_x + k];
}

static enum err_code
read_table(const struct calc_in *in, struct table *t, struct err *err)
{
	size_t n;

	TRY(calc_read_objects(in, "rows", 1, &t->row, &n, err));
	TRY(take_table(in->arena, n, t, err));
	for (size_t i = 0; i < n; i++)
		TRY(read_row(t, i, err));
	t->ask.n_row = n;
	TRY(read_names(in, t, err));
	t->ask.n_x = t->n_covariate + (t->has_age ? 1 : 0);
	t->x = arena_take(in->arena, n * t->ask.n_x, sizeof *t->x);
	if (t->x == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		TRY(read_covariates(t, i, err));
	centre(t);
	t->ask.low = t->low;
	t->ask.high = t->high;
	t->ask.x = t->ask.n_x > 0 ? t->x : NULL;
	t->ask.row_batch = t->row_batch;
	t->ask.batch_mix = t->batch_mix;
	return ERR_NONE;
}

static enum err_code
read_prior(const struct calc_in *in, struct table *t, struct err *err)
{
	struct stats_hierarchy_prior *p = &t->ask.prior;
	struct calc_in of;

	t->slope_sd = 1;
	stats_hierarchy_default_prior(t->low, t->high, t->ask.n_row, p);
	if (!calc_has(in, "prior"))
		return ERR_NONE;
	TRY(calc_read_object(in, "prior", &of, err));
	TRY(calc_only(&of, prior_keys, sizeof prior_keys / sizeof prior_keys[0],
		err));
	TRY(calc_read_number_or(
		&of, "mean_centre", CALC_ANY, &p->mean_centre, err));
	TRY(calc_read_number_or(
		&of, "mean_sd", CALC_POSITIVE, &p->mean_sd, err));
	TRY(calc_read_number_or(
		&of, "sd_batch_scale", CALC_POSITIVE, &p->sd_batch_scale, err));
	TRY(calc_read_number_or(&of, "sd_specimen_scale", CALC_POSITIVE,
		&p->sd_specimen_scale, err));
	TRY(calc_read_number_or(
		&of, "slope_mean", CALC_ANY, &t->slope_mean, err));
	return calc_read_number_or(
		&of, "slope_sd", CALC_POSITIVE, &t->slope_sd, err);
}

static enum err_code
set_slopes(struct arena *a, struct table *t, struct err *err)
{
	double *mean = arena_take(a, t->ask.n_x, sizeof *mean);
	double *sd = arena_take(a, t->ask.n_x, sizeof *sd);

	if (mean == NULL || sd == NULL)
		return err_memory(err);
	for (size_t k = 0; k < t->ask.n_x; k++) {
		const bool is_age = k == t->n_covariate;

		mean[k] = is_age ? age_slope_mean : t->slope_mean;
		sd[k] = is_age ? age_slope_sd : t->slope_sd;
	}
	t->ask.prior.slope_mean = mean;
	t->ask.prior.slope_sd = sd;
	return ERR_NONE;
}

static enum err_code
read_run(const struct calc_in *in, struct table *t, size_t *baseline,
	struct err *err)
{
	uint64_t draws = 5000, chains = 4, seed = 1;
	const char *name = t->mix[0];

	TRY(calc_read_count_or(
		in, "draws", draws_least, draws_most, &draws, err));
	TRY(calc_read_count_or(in, "chains", 1, chains_most, &chains, err));
	TRY(calc_read_count_or(in, "seed", 0, UINT64_MAX, &seed, err));
	TRY(calc_read_text_or(in, "baseline", &name, err));
	*baseline = find(t->mix, t->ask.n_mix, name);
	if (*baseline == t->ask.n_mix)
		return calc_refuse(
			in, "baseline", "the name of a mix in rows", err);
	t->ask.n_chain = (size_t)chains;
	t->ask.n_keep = (size_t)draws;
	t->ask.n_warm = WARM;
	t->ask.seed = seed;
	return ERR_NONE;
}

static enum err_code
write_spread(struct calc_out *out, const char *key, const double *draw,
	size_t n, struct err *err)
{
	double interval[3];

	TRY(stats_hierarchy_interval(
		out->arena, draw, n, interval_level, interval, err));
	jsonout_key(out->json, key);
	jsonout_open_object(out->json);
	jsonout_key_number(out->json, "median", interval[0]);
	jsonout_key_number(out->json, "low", interval[1]);
	jsonout_key_number(out->json, "high", interval[2]);
	jsonout_close_object(out->json);
	return ERR_NONE;
}

static void
write_mix(struct jsonout *json, const char *name, double ess, bool is_sure,
	const struct stats_mix_answer *mix)
{
	jsonout_key(json, name);
	jsonout_open_object(json);
	jsonout_key_number(json, "median", mix->median);
	jsonout_key_number(json, "low", mix->low);
	jsonout_key_number(json, "high", mix->high);
	jsonout_key(json, "ratio");
	jsonout_open_object(json);
	jsonout_key_number(json, "median", mix->ratio_median);
	jsonout_key_number(json, "low", mix->ratio_low);
	jsonout_key_number(json, "high", mix->ratio_high);
	jsonout_close_object(json);
	jsonout_key_number(json, "p_better", mix->p_better);
	jsonout_key(json, "p_best");
	if (is_sure)
		jsonout_number(json, mix->p_best);
	else
		jsonout_null(json);
	jsonout_key_number(json, "regret", mix->regret);
	jsonout_key_number(json, "ess", ess);
	jsonout_close_object(json);
}

static enum err_code
note_prior(struct calc_out *out, const struct table *t, struct err *err)
{
	enum { NOTE_MAX = 400 };
	const struct stats_hierarchy_prior *p = &t->ask.prior;
	char note[NOTE_MAX];
	const char *kept;

	snprintf(note, sizeof note,
		"Priors on the log scale, a stated choice: each mix N(%.4g, "
		"%.4g squared), where the centre is by default the log of the "
		"median reading; spread between batches half-normal(%.4g), "
		"between specimens half-normal(%.4g).",
		p->mean_centre, p->mean_sd, p->sd_batch_scale,
		p->sd_specimen_scale);
	kept = arena_text(out->arena, note);
	if (kept == NULL)
		return err_memory(err);
	calc_note(out, kept);
	if (t->has_age)
		calc_note(out,
			"Ages differ: medians are for 28 days, by a slope on "
			"log(age / 28 days) with prior N(0.25, 0.25 squared); "
			"ACI 209R-92's curve for moist-cured ordinary cement "
			"has 0.26 between 7 and 28 days.");
	if (t->n_covariate == 0)
		return ERR_NONE;
	snprintf(note, sizeof note,
		"Medians are at the mean of each covariate; slopes have prior "
		"N(%.4g, %.4g squared).",
		t->slope_mean, t->slope_sd);
	kept = arena_text(out->arena, note);
	if (kept == NULL)
		return err_memory(err);
	calc_note(out, kept);
	return ERR_NONE;
}

static void
note_data(struct calc_out *out, const struct table *t,
	const struct stats_hierarchy *got)
{
	bool is_open = false;

	for (size_t m = 0; m < t->ask.n_mix; m++) {
		bool above = true, below = true;

		for (size_t i = 0; i < t->ask.n_row; i++) {
			if (t->batch_mix[t->row_batch[i]] != m)
				continue;
			above = above && isinf(t->high[i]);
			below = below && t->low[i] <= 0;
		}
		is_open = is_open || above || below;
	}
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
	calc_note(out, "low and high hold the central 90 % of the posterior.");
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
write_answer(struct calc_out *out, const struct table *t, size_t baseline,
	const struct stats_hierarchy *got, struct err *err)
{
	struct stats_mix_answer *answer = arena_take(
		out->arena, got->n_mix, sizeof *answer);
	const bool is_sure = got->ess_min >= least_effective;

	if (answer == NULL)
		return err_memory(err);
	TRY(stats_hierarchy_answer(
		out->arena, got, baseline, interval_level, true, answer, err));
	jsonout_key(out->json, "mixes");
	jsonout_open_object(out->json);
	for (size_t m = 0; m < got->n_mix; m++)
		write_mix(out->json, t->mix[m], got->ess_mean[m], is_sure,
			&answer[m]);
	jsonout_close_object(out->json);
	TRY(write_spread(out, "sd_batch", got->sd_batch, got->n_draw, err));
	TRY(write_spread(
		out, "sd_specimen", got->sd_specimen, got->n_draw, err));
	jsonout_key_number(out->json, "rhat_max", got->rhat_max);
	jsonout_key_number(out->json, "ess_min", got->ess_min);
	return ERR_NONE;
}

static enum err_code
run(const struct calc_in *in, struct calc_out *out, struct err *err)
{
	struct table t = {0};
	struct stats_hierarchy got;
	struct timespec from;
	size_t baseline;

	TRY(read_table(in, &t, err));
	TRY(read_prior(in, &t, err));
	TRY(set_slopes(in->arena, &t, err));
	TRY(read_run(in, &t, &baseline, err));
	clock_gettime(CLOCK_MONOTONIC, &from);
	TRY(stats_hierarchy_sample(in->arena, &t.ask, &got, err));
	TRY(write_answer(out, &t, baseline, &got, err));
	jsonout_key_number(out->json, "seconds", seconds_since(&from));
	calc_source(out,
		"Gelman (2006), Bayesian Analysis 1, 515-534, for the "
		"spreads; Tanner and Wong (1987), Journal of the American "
		"Statistical Association 82, 528-540, for censored readings; "
		"Vehtari and others (2021), Bayesian Analysis 16, 667-718, "
		"for rhat and ess");
	TRY(note_prior(out, &t, err));
	note_data(out, &t, &got);
	return ERR_NONE;
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

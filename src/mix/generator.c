/* generator.c - foam weighed at the start, in the middle and at the end. */
#include "mix/generator.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define WORD(moment, word) word,
static const char *const words[] = {MIX_MOMENT_LIST(WORD)};
#undef WORD

const char *
mix_moment_word(enum mix_moment moment)
{
	return words[moment];
}

bool
mix_moment_find(const char *word, enum mix_moment *moment)
{
	for (int i = 0; i < MIX_MOMENT_COUNT; i++) {
		if (strcmp(word, words[i]) == 0) {
			*moment = (enum mix_moment)i;
			return true;
		}
	}
	return false;
}

static enum err_code
check_run(const struct mix_generator_run *run, struct err *err)
{
	if (run->n_weighing == 0)
		return err_report(err, ERR_INPUT, "readings",
			"No weighing was given; fill the vessel with foam and "
			"weigh it, best at start, middle and end of a run.");
	if (!(isfinite(run->solution_kg_m3) && run->solution_kg_m3 > 0))
		return err_report(err, ERR_INPUT, "solution_density",
			"The liquid is given as %g kg/m3; it must be greater "
			"than 0, usually 1000.",
			run->solution_kg_m3);
	if (run->has_dilution &&
		!(isfinite(run->dilution) && run->dilution >= 0))
		return err_report(err, ERR_INPUT, "dilution",
			"The dilution is %g of water to 1 of agent; it must be "
			"0 or more.",
			run->dilution);
	if (!(isfinite(run->target_kg_m3) && run->target_kg_m3 >= 0))
		return err_report(err, ERR_INPUT, "target",
			"The target is %g kg/m3; it must be greater than 0.",
			run->target_kg_m3);
	return ERR_NONE;
}

static enum err_code
weigh_one(const struct mix_generator_run *run, size_t i,
	struct mix_weighed *got, struct err *err)
{
	const struct mix_foam_weighing *w = &run->weighing[i];
	char field[ERR_FIELD_MAX];

	TRY(mix_bulk_density(w->gross_kg, run->tare_kg, run->scale_step_kg,
		run->vessel_m3, run->vessel_u_m3, got, err));
	(void)snprintf(field, sizeof field, "readings[%zu]", i);
	if (got->value >= run->solution_kg_m3)
		return err_report(err, ERR_INPUT, field,
			"A foam of %.4g kg/m3 is not lighter than its own "
			"liquid, %.4g kg/m3; check tare and vessel.",
			got->value, run->solution_kg_m3);
	if (w->has_fill && !(isfinite(w->fill_s) && w->fill_s > 0))
		return err_report(err, ERR_INPUT, field,
			"The vessel was filled in %g s; that must be greater "
			"than 0.",
			w->fill_s);
	return ERR_NONE;
}

/* Sums over the weighings of all and of each moment. */
struct sums {
	double all, fill_s;
	double moment[MIX_MOMENT_COUNT];
	double low[MIX_MOMENT_COUNT], high[MIX_MOMENT_COUNT];
	size_t n_moment[MIX_MOMENT_COUNT], n_fill;
};

static void
add_weighing(struct sums *sums, const struct mix_foam_weighing *w, double kg_m3)
{
	size_t m = w->moment;

	sums->all += kg_m3;
	if (sums->n_moment[m] == 0)
		sums->low[m] = sums->high[m] = kg_m3;
	sums->low[m] = fmin(sums->low[m], kg_m3);
	sums->high[m] = fmax(sums->high[m], kg_m3);
	sums->moment[m] += kg_m3;
	sums->n_moment[m]++;
	if (w->has_fill) {
		sums->fill_s += w->fill_s;
		sums->n_fill++;
	}
}

static void
tell_moments(const struct sums *sums, struct mix_generator_told *told)
{
	for (size_t m = 0; m < MIX_MOMENT_COUNT; m++) {
		if (sums->n_moment[m] == 0)
			continue;
		told->has_moment[m] = true;
		told->moment_kg_m3[m] = sums->moment[m] /
			(double)sums->n_moment[m];
		told->repeat_ratio = fmax(told->repeat_ratio,
			(sums->high[m] - sums->low[m]) / told->density_kg_m3);
	}
	told->has_drift = told->has_moment[MIX_AT_START] &&
		told->has_moment[MIX_AT_END];
	if (told->has_drift)
		told->drift_ratio = told->moment_kg_m3[MIX_AT_END] /
				told->moment_kg_m3[MIX_AT_START] -
			1;
}

static void
judge(const struct mix_generator_run *run, struct mix_generator_told *told)
{
	told->repeats_agree = told->repeat_ratio <= mix_repeat_most_ratio;
	told->stays = fabs(told->drift_ratio) <= mix_drift_most_ratio;
	told->on_target = run->target_kg_m3 <= 0 ||
		fabs(told->density_kg_m3 / run->target_kg_m3 - 1) <=
			mix_foam_off_most_ratio;
}

enum err_code
mix_generator_weigh(const struct mix_generator_run *run,
	struct mix_generator_told *out, struct err *err)
{
	struct mix_generator_told told = {0};
	struct sums sums = {0};
	double n = (double)run->n_weighing, square = 0, vessel_ratio = 0;
	struct mix_weighed one = {0};

	TRY(check_run(run, err));
	for (size_t i = 0; i < run->n_weighing; i++) {
		TRY(weigh_one(run, i, &one, err));
		add_weighing(&sums, &run->weighing[i], one.value);
	}
	told.density_kg_m3 = sums.all / n;
	for (size_t i = 0; i < run->n_weighing; i++) {
		TRY(weigh_one(run, i, &one, err));
		square += pow(one.value - told.density_kg_m3, 2);
		vessel_ratio = one.standard_uncertainty / one.value;
	}
	/* One weighing has no scatter of its own: scale and vessel stand in. */
	told.standard_error_kg_m3 = run->n_weighing > 1
		? hypot(sqrt(square / (n - 1) / n),
			  told.density_kg_m3 * run->vessel_u_m3 /
				  run->vessel_m3)
		: told.density_kg_m3 * vessel_ratio;
	tell_moments(&sums, &told);
	told.expansion = run->solution_kg_m3 / told.density_kg_m3;
	told.has_rate = sums.n_fill > 0;
	if (told.has_rate)
		told.rate_m3_s = (double)sums.n_fill * run->vessel_m3 /
			sums.fill_s;
	told.has_agent = run->has_dilution;
	if (told.has_agent)
		told.agent_kg_per_m3 = told.density_kg_m3 / (1 + run->dilution);
	judge(run, &told);
	*out = told;
	return ERR_NONE;
}

static enum err_code
check_drain(const double *after_s, const double *drained_kg, size_t n,
	double liquid_kg, double share, struct err *err)
{
	if (n == 0)
		return err_report(err, ERR_INPUT, "looks",
			"No look at the jar was given.");
	if (!(isfinite(liquid_kg) && liquid_kg > 0))
		return err_report(err, ERR_INPUT, "liquid",
			"The foam in the jar is given as %g kg; it must be "
			"greater than 0.",
			liquid_kg);
	if (!(share > 0 && share < 1))
		return err_report(err, ERR_INPUT, "share",
			"The share is %g; it must lie between 0 and 1.", share);
	for (size_t i = 0; i < n; i++) {
		double before_s = i > 0 ? after_s[i - 1] : 0;
		double before_kg = i > 0 ? drained_kg[i - 1] : 0;
		char field[ERR_FIELD_MAX];

		(void)snprintf(field, sizeof field, "looks[%zu]", i);
		if (!(isfinite(after_s[i]) && after_s[i] > before_s &&
			    isfinite(drained_kg[i]) &&
			    drained_kg[i] >= before_kg &&
			    drained_kg[i] <= liquid_kg))
			return err_report(err, ERR_INPUT, field,
				"%g kg drained after %g s; looks go forward in "
				"time, and what has drained does not fall and "
				"is not above the foam's %g kg.",
				drained_kg[i], after_s[i], liquid_kg);
	}
	return ERR_NONE;
}

enum err_code
mix_drain_time(const double *after_s, const double *drained_kg, size_t n,
	double liquid_kg, double share, double *out_s, struct err *err)
{
	double want_kg = share * liquid_kg, before_s = 0, before_kg = 0;

	TRY(check_drain(after_s, drained_kg, n, liquid_kg, share, err));
	for (size_t i = 0; i < n; i++) {
		if (drained_kg[i] >= want_kg) {
			*out_s = before_s +
				(after_s[i] - before_s) *
					(want_kg - before_kg) /
					(drained_kg[i] - before_kg);
			return ERR_NONE;
		}
		before_s = after_s[i];
		before_kg = drained_kg[i];
	}
	*out_s = INFINITY;
	return ERR_NONE;
}

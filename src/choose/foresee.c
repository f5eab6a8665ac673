/* foresee.c - the relation, learnt and asked. */
#include "choose/foresee.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>
#include <math.h>
#include <stdio.h>

/* log of 183 N/mm2, the middle of Hoff's 115 to 290 on the log scale; bending a
 * quarter of crushing. */
static const double log_crushing = 19.0250, bending_ratio = 0.25;
static const double prior_spread = 0.25, prior_df = 4;
static const double usual_water_cement = 0.5;

/* What lies a tenth of the tested range outside it counts as beyond. */
static const double beyond_ratio = 0.1;

enum err_code
choose_makeup_of(const struct mix_proportioned *proportioned,
	const struct mix_part *part, size_t n, double bound_water_ratio,
	struct choose_makeup *out, struct err *err)
{
	const struct mix_slurry *s = &proportioned->slurry;
	double water_m3 = s->water.kg / mix_water_kg_m3;
	double solids_m3 = s->volume.m3 - water_m3 +
		s->cement.kg * bound_water_ratio / mix_water_kg_m3;
	double grains_kg = 0;

	for (size_t i = 0; i < n; i++)
		if (part[i].role == MIX_SAND || part[i].role == MIX_FILLER)
			grains_kg += part[i].mass.kg /
				(1 + part[i].moisture_ratio);
	*out = (struct choose_makeup){
		.solids_ratio = solids_m3 / proportioned->volume.m3,
		.water_cement_ratio = proportioned->water_cement_ratio,
		.sand_ratio = grains_kg / (s->cement.kg + s->dry_solids.kg)};
	if (!(out->solids_ratio > 0 && out->solids_ratio <= 1 &&
		    out->water_cement_ratio > 0))
		return err_report(err, ERR_INPUT, "mix",
			"A mix with %g of its volume solid and a water/cement "
			"of %g is not one whose strength can be foreseen.",
			out->solids_ratio, out->water_cement_ratio);
	return ERR_NONE;
}

static void
columns(const struct choose_makeup *m, double x[CHOOSE_FORESEE_COLUMNS])
{
	x[0] = 1;
	x[1] = log(m->solids_ratio);
	x[2] = log(m->water_cement_ratio / usual_water_cement);
	x[3] = m->sand_ratio;
}

static void
widen(struct choose_foresight *f, const struct choose_makeup *m, bool first)
{
	if (first) {
		f->low = f->high = *m;
		return;
	}
	f->low.solids_ratio = fmin(f->low.solids_ratio, m->solids_ratio);
	f->high.solids_ratio = fmax(f->high.solids_ratio, m->solids_ratio);
	f->low.water_cement_ratio = fmin(
		f->low.water_cement_ratio, m->water_cement_ratio);
	f->high.water_cement_ratio = fmax(
		f->high.water_cement_ratio, m->water_cement_ratio);
	f->low.sand_ratio = fmin(f->low.sand_ratio, m->sand_ratio);
	f->high.sand_ratio = fmax(f->high.sand_ratio, m->sand_ratio);
}

enum err_code
choose_foresee_learn(struct arena *arena, enum choose_foreseen kind,
	const struct choose_tested *tested, size_t n,
	struct choose_foresight *out, struct err *err)
{
	double mean[CHOOSE_FORESEE_COLUMNS] = {log_crushing, 3.0, 0, -0.7};
	double sd[CHOOSE_FORESEE_COLUMNS] = {0.4, 0.4, 0.5, 0.7};
	const struct stats_conjugate_prior prior = {
		mean, sd, prior_spread, prior_df};
	double *x = arena_take(arena, n * CHOOSE_FORESEE_COLUMNS, sizeof *x);
	double *y = arena_take(arena, n, sizeof *y);
	struct choose_foresight got = {.n_tested = n};

	if (x == NULL || y == NULL)
		return err_memory(err);
	if (kind == CHOOSE_FORESEEN_BENDING) {
		mean[0] += log(bending_ratio);
		sd[0] = hypot(sd[0], 0.3);
	}
	for (size_t i = 0; i < n; i++) {
		char field[ERR_FIELD_MAX];

		(void)snprintf(field, sizeof field, "tested[%zu]", i);
		if (!(tested[i].strength_pa > 0 &&
			    isfinite(tested[i].strength_pa)))
			return err_report(err, ERR_INPUT, field,
				"A strength of %g Pa cannot be learnt from.",
				tested[i].strength_pa);
		columns(&tested[i].makeup, x + i * CHOOSE_FORESEE_COLUMNS);
		y[i] = log(tested[i].strength_pa);
		widen(&got, &tested[i].makeup, i == 0);
	}
	TRY(stats_conjugate_fit(
		arena, x, y, n, CHOOSE_FORESEE_COLUMNS, &prior, &got.fit, err));
	*out = got;
	return ERR_NONE;
}

static bool
is_outside(double x, double low, double high)
{
	double room = beyond_ratio * (high - low) + 1e-9;

	return x < low - room || x > high + room;
}

struct choose_strength
choose_foresee(const struct choose_foresight *f, const struct choose_makeup *m)
{
	struct choose_strength got = {.df = f->fit.df};
	double x[CHOOSE_FORESEE_COLUMNS], half;

	columns(m, x);
	stats_conjugate_new(&f->fit, x, &got.log_mean, &got.log_scale);
	half = qt(0.95, got.df, 1, 0) * got.log_scale;
	got.median_pa = exp(got.log_mean);
	got.low_pa = exp(got.log_mean - half);
	got.high_pa = exp(got.log_mean + half);
	got.is_beyond = f->n_tested == 0 ||
		is_outside(m->solids_ratio, f->low.solids_ratio,
			f->high.solids_ratio) ||
		is_outside(m->water_cement_ratio, f->low.water_cement_ratio,
			f->high.water_cement_ratio) ||
		is_outside(
			m->sand_ratio, f->low.sand_ratio, f->high.sand_ratio);
	return got;
}

double
choose_foresee_chance(const struct choose_strength *strength, double least_pa)
{
	if (!(least_pa > 0))
		return 1;
	return pt((strength->log_mean - log(least_pa)) / strength->log_scale,
		strength->df, 1, 0);
}

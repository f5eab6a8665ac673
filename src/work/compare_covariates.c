/* compare_covariates.c - the comparison with mixing time, wet weight and slurry
 * temperature allowed for.
 *
 * Each enters as its distance from the mean of the compared batches, in steps
 * that a person can picture; a step may change the value by up to some 20 %
 * before the prior resists (our choice, no source).  Wet weight counts against
 * the mix's own target, for the target itself is part of the recipe. */
#include "work/compare_priv.h"

#include <math.h>

static const double slope_sd[WORK_COVARIATES] = {0.1, 0.1, 0.1};

static const struct {
	const char *name, *step, *unit;
	double scale;       /* SI of one step */
	double shown;       /* SI of one of the unit; 0: a percentage */
	double least_range; /* below this, in steps, there is nothing to learn*/
} kinds[WORK_COVARIATES] = {
	{"mixing time", "a minute longer", "min", 60, 60, 0.25},
	{"wet weight against the target", "5 % heavier than meant", "%", 0.05,
		0.01, 0.1},
	{"slurry temperature", "5 degrees warmer", "C", 5, 1, 0.2},
};

static struct maybe
fact(const struct work_site *site, size_t batch, size_t kind)
{
	const struct book_batch *b = &site->batch[batch];
	const struct maybe target =
		site->mix[site->batch_mix[batch]].wet_target_kg_m3;

	if (kind == 0)
		return b->blending_s;
	if (kind == 2)
		return b->slurry_degc;
	if (!b->wet_kg_m3.has || !target.has || !(target.value > 0) ||
		!(b->wet_kg_m3.value > 0))
		return (struct maybe){.has = false};
	return (struct maybe){
		.has = true, .value = log(b->wet_kg_m3.value / target.value)};
}

/* Fills one column of the batches; false if a batch lacks it or all agree. */
static bool
fill_column(const struct work_site *site, const struct compare_rows *rows,
	size_t kind, double *column, struct work_covariate *out)
{
	double sum = 0, least = INFINITY, most = -INFINITY;

	for (size_t b = 0; b < rows->n_batch; b++) {
		struct maybe value = fact(site, rows->batch_site[b], kind);

		if (!value.has || !isfinite(value.value))
			return false;
		column[b] = value.value / kinds[kind].scale;
		sum += column[b];
		least = fmin(least, column[b]);
		most = fmax(most, column[b]);
	}
	if (!(most - least >= kinds[kind].least_range))
		return false;
	for (size_t b = 0; b < rows->n_batch; b++)
		column[b] -= sum / (double)rows->n_batch;
	*out = (struct work_covariate){.name = kinds[kind].name,
		.step = kinds[kind].step,
		.unit = kinds[kind].unit,
		.least = least * kinds[kind].scale / kinds[kind].shown,
		.most = most * kinds[kind].scale / kinds[kind].shown};
	return true;
}

enum err_code
compare_covariates_plan(
	struct comparing *on, struct compare_measure *m, struct err *err)
{
	const struct compare_rows *rows = &m->rows;
	double *column[WORK_COVARIATES], *x;
	size_t n = 0;

	/* With fewer batches than this there is nothing left to learn from. */
	if (rows->n_batch < rows->n_group + 2)
		return ERR_NONE;
	for (size_t k = 0; k < WORK_COVARIATES; k++) {
		column[n] = arena_take(
			on->arena, rows->n_batch, sizeof *column[n]);
		if (column[n] == NULL)
			return err_memory(err);
		n += fill_column(
			&on->all->site, rows, k, column[n], &m->covariate[n]);
	}
	x = arena_take(on->arena, rows->n * n, sizeof *x);
	if (x == NULL)
		return err_memory(err);
	for (size_t i = 0; i < rows->n; i++)
		for (size_t k = 0; k < n; k++)
			x[i * n + k] = column[k][rows->batch[i]];
	m->n_covariate = n;
	if (n == 0)
		return ERR_NONE;
	TRY(compare_side_job(on, m, rows, m->baseline, COMPARE_SIDE_KEEP,
		&m->adjusted, err));
	m->adjusted->x = x;
	m->adjusted->n_x = n;
	m->adjusted->prior.slope_sd = slope_sd;
	return ERR_NONE;
}

void
compare_covariates_read(struct comparing *on, struct compare_measure *m,
	struct work_comparison *c)
{
	if (m->adjusted == NULL)
		return;
	c->n_covariate = m->n_covariate;
	for (size_t k = 0; k < m->n_covariate; k++) {
		c->covariate[k] = m->covariate[k];
		c->covariate[k].median = exp(m->adjusted->got.slope[k][0]);
		c->covariate[k].low = exp(m->adjusted->got.slope[k][1]);
		c->covariate[k].high = exp(m->adjusted->got.slope[k][2]);
	}
	for (size_t g = 0; g < c->n_group; g++)
		c->group[g].adjusted = compare_ratio(
			on->all, c, m->adjusted, g, g);
}

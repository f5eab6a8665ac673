/* hierarchy_layout.c - the hierarchical model's data, checked and put in the
 * order in which the sampler walks. */
#include "stats/hierarchy_priv.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { FIELD_MAX = 48, LEAST_KEPT = 8 };

/* The largest count that leaves products of counts far from overflow. */
static const size_t most = (size_t)1 << 40;

static enum err_code
check_row(const struct stats_hierarchy_ask *ask, size_t i, struct err *err)
{
	const double low = ask->low[i], high = ask->high[i];
	char field[FIELD_MAX];

	snprintf(field, sizeof field, "rows[%zu]", i);
	if (isnan(low) || isnan(high))
		return err_report(err, ERR_INPUT, field,
			"Row %zu holds a value that is not a number; give the "
			"reading, or leave the row out.",
			i + 1);
	if (low > high)
		return err_report(err, ERR_INPUT, field,
			"Row %zu runs from %g up to %g; the lower bound must "
			"not be above the upper one.",
			i + 1, low, high);
	if (low < 0 || high <= 0 || isinf(low))
		return err_report(err, ERR_INPUT, field,
			"Row %zu is between %g and %g; the quantity must be "
			"more than 0 and finite. For \"less than\" give 0 and "
			"the bound.",
			i + 1, low, high);
	if (ask->row_batch[i] >= ask->n_batch)
		return err_report(err, ERR_INPUT, field,
			"Row %zu belongs to batch %zu, but there are only %zu.",
			i + 1, ask->row_batch[i] + 1, ask->n_batch);
	for (size_t k = 0; k < ask->n_x; k++)
		if (!isfinite(ask->x[i * ask->n_x + k]))
			return err_report(err, ERR_INPUT, field,
				"Row %zu has a covariate that is not a finite "
				"number.",
				i + 1);
	return ERR_NONE;
}

static enum err_code
check_scale(double value, bool may_be_zero, const char *field, struct err *err)
{
	if (isfinite(value) && (value > 0 || (may_be_zero && value == 0)))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, field,
		"%s is %g; it takes a finite number %s.", field, value,
		may_be_zero ? "of 0 or more" : "above 0");
}

static enum err_code
check_prior(const struct stats_hierarchy_ask *ask, struct err *err)
{
	const struct stats_hierarchy_prior *p = &ask->prior;

	if (!isfinite(p->mean_centre))
		return err_report(err, ERR_INPUT, "prior.mean_centre",
			"prior.mean_centre is %g; it takes a finite number.",
			p->mean_centre);
	TRY(check_scale(p->mean_sd, false, "prior.mean_sd", err));
	if (p->has_sd_batch)
		TRY(check_scale(p->sd_batch, true, "prior.sd_batch", err));
	else
		TRY(check_scale(
			p->sd_batch_scale, false, "prior.sd_batch_scale", err));
	if (p->has_sd_specimen)
		TRY(check_scale(
			p->sd_specimen, false, "prior.sd_specimen", err));
	else
		TRY(check_scale(p->sd_specimen_scale, false,
			"prior.sd_specimen_scale", err));
	for (size_t k = 0; k < ask->n_x; k++) {
		if (p->slope_mean != NULL && !isfinite(p->slope_mean[k]))
			return err_report(err, ERR_INPUT, "prior.slope_mean",
				"prior.slope_mean is %g; it takes a finite "
				"number.",
				p->slope_mean[k]);
		if (p->slope_sd != NULL)
			TRY(check_scale(
				p->slope_sd[k], false, "prior.slope_sd", err));
	}
	return ERR_NONE;
}

static enum err_code
check_count(size_t n, size_t least, const char *field, struct err *err)
{
	if (n >= least && n <= most)
		return ERR_NONE;
	return err_report(err, ERR_INPUT, field,
		"%s is %zu; it takes a number from %zu to %zu.", field, n,
		least, most);
}

enum err_code
hierarchy_check(const struct stats_hierarchy_ask *ask, struct err *err)
{
	char field[FIELD_MAX];

	TRY(check_count(ask->n_mix, 1, "n_mix", err));
	TRY(check_count(ask->n_chain, 1, "chains", err));
	TRY(check_count(ask->n_keep, LEAST_KEPT, "draws", err));
	TRY(check_count(ask->n_warm, 0, "warm", err));
	for (size_t b = 0; b < ask->n_batch; b++) {
		snprintf(field, sizeof field, "batches[%zu]", b);
		if (ask->batch_mix[b] >= ask->n_mix)
			return err_report(err, ERR_INPUT, field,
				"Batch %zu belongs to mix %zu, but there are "
				"only %zu.",
				b + 1, ask->batch_mix[b] + 1, ask->n_mix);
	}
	for (size_t i = 0; i < ask->n_row; i++)
		TRY(check_row(ask, i, err));
	return check_prior(ask, err);
}

/* Starting places of n_key groups whose sizes are counted in from[1..]. */
static void
add_up(size_t *from, size_t n_key)
{
	for (size_t k = 0; k < n_key; k++)
		from[k + 1] += from[k];
}

/* What the layout is written through before it is lent as const. */
struct draft {
	size_t *mix_from, *batch_of, *place_of, *open_from, *exact_from, *next;
	double *count, *x_mean, *within;
	double *low, *high, *open_x, *open_dx, *y, *exact_x, *exact_dx;
	double *slope_mean, *slope_tau;
};

static bool
is_exact(const struct stats_hierarchy_ask *ask, size_t i)
{
	return ask->low[i] == ask->high[i];
}

static bool
take_draft(struct arena *a, const struct stats_hierarchy_ask *ask,
	size_t n_open, struct draft *d)
{
	const size_t nb = ask->n_batch, nx = ask->n_x;
	const size_t n_exact = ask->n_row - n_open, size = sizeof(double);

	d->mix_from = arena_take(a, ask->n_mix + 1, sizeof *d->mix_from);
	d->batch_of = arena_take(a, nb, sizeof *d->batch_of);
	d->place_of = arena_take(a, nb, sizeof *d->place_of);
	d->open_from = arena_take(a, nb + 1, sizeof *d->open_from);
	d->exact_from = arena_take(a, nb + 1, sizeof *d->exact_from);
	d->next = arena_take(a, ask->n_mix + nb, sizeof *d->next);
	d->count = arena_take(a, nb, size);
	d->x_mean = arena_take(a, nb * nx, size);
	d->within = arena_take(a, nx * nx, size);
	d->low = arena_take(a, n_open, size);
	d->high = arena_take(a, n_open, size);
	d->open_x = arena_take(a, n_open * nx, size);
	d->open_dx = arena_take(a, n_open * nx, size);
	d->y = arena_take(a, n_exact, size);
	d->exact_x = arena_take(a, n_exact * nx, size);
	d->exact_dx = arena_take(a, n_exact * nx, size);
	d->slope_mean = arena_take(a, nx, size);
	d->slope_tau = arena_take(a, nx, size);
	return d->mix_from && d->batch_of && d->place_of && d->open_from &&
		d->exact_from && d->next && d->count && d->x_mean &&
		d->within && d->low && d->high && d->open_x && d->open_dx &&
		d->y && d->exact_x && d->exact_dx && d->slope_mean &&
		d->slope_tau;
}

static void
order_batches(const struct stats_hierarchy_ask *ask, struct draft *d)
{
	for (size_t b = 0; b < ask->n_batch; b++)
		d->mix_from[ask->batch_mix[b] + 1]++;
	add_up(d->mix_from, ask->n_mix);
	memcpy(d->next, d->mix_from, ask->n_mix * sizeof *d->next);
	for (size_t b = 0; b < ask->n_batch; b++) {
		const size_t place = d->next[ask->batch_mix[b]]++;

		d->batch_of[place] = b;
		d->place_of[b] = place;
	}
}

static void
count_rows(const struct stats_hierarchy_ask *ask, struct draft *d)
{
	for (size_t i = 0; i < ask->n_row; i++) {
		const size_t place = d->place_of[ask->row_batch[i]];

		d->count[place]++;
		for (size_t k = 0; k < ask->n_x; k++)
			d->x_mean[place * ask->n_x + k] +=
				ask->x[i * ask->n_x + k];
		if (is_exact(ask, i))
			d->exact_from[place + 1]++;
		else
			d->open_from[place + 1]++;
	}
	add_up(d->exact_from, ask->n_batch);
	add_up(d->open_from, ask->n_batch);
	for (size_t p = 0; p < ask->n_batch; p++)
		for (size_t k = 0; k < ask->n_x && d->count[p] > 0; k++)
			d->x_mean[p * ask->n_x + k] /= d->count[p];
}

/* Covariates of one row into x and dx; returns what the prior's centre and the
 * slopes' prior means account for. */
static double
place_covariates(const struct stats_hierarchy_ask *ask, struct draft *d,
	size_t i, double *x, double *dx)
{
	const size_t place = d->place_of[ask->row_batch[i]], nx = ask->n_x;
	double offset = ask->prior.mean_centre;

	for (size_t k = 0; k < nx; k++) {
		x[k] = ask->x[i * nx + k];
		dx[k] = x[k] - d->x_mean[place * nx + k];
		offset += x[k] * d->slope_mean[k];
	}
	for (size_t k = 0; k < nx; k++)
		for (size_t l = 0; l < nx; l++)
			d->within[k * nx + l] += dx[k] * dx[l];
	return offset;
}

static void
place_rows(const struct stats_hierarchy_ask *ask, struct draft *d)
{
	size_t *open_next = d->next;
	const size_t nx = ask->n_x;

	memcpy(open_next, d->open_from, ask->n_batch * sizeof *open_next);
	for (size_t i = 0; i < ask->n_row; i++) {
		if (is_exact(ask, i))
			continue;
		const size_t to = open_next[d->place_of[ask->row_batch[i]]]++;
		const double offset = place_covariates(
			ask, d, i, d->open_x + to * nx, d->open_dx + to * nx);

		d->low[to] = log(ask->low[i]) - offset;
		d->high[to] = log(ask->high[i]) - offset;
	}
	memcpy(d->next, d->exact_from, ask->n_batch * sizeof *d->next);
	for (size_t i = 0; i < ask->n_row; i++) {
		if (!is_exact(ask, i))
			continue;
		const size_t to = d->next[d->place_of[ask->row_batch[i]]]++;

		d->y[to] = log(ask->low[i]) -
			place_covariates(ask, d, i, d->exact_x + to * nx,
				d->exact_dx + to * nx);
	}
}

static void
place_slopes(const struct stats_hierarchy_ask *ask, struct draft *d)
{
	const struct stats_hierarchy_prior *prior = &ask->prior;

	for (size_t k = 0; k < ask->n_x; k++) {
		const double sd = prior->slope_sd != NULL ? prior->slope_sd[k]
							  : 1;

		d->slope_mean[k] = prior->slope_mean != NULL
			? prior->slope_mean[k]
			: 0;
		d->slope_tau[k] = 1 / (sd * sd);
	}
}

/* Where exact readings agree so completely that the likelihood of a spread of
 * zero is infinite, the posterior is that spread and nothing else: every batch
 * agrees within itself, or (one specimen a batch) every mix does. */
static enum err_code
refuse_no_spread(const struct hierarchy_model *m, struct err *err)
{
	size_t spare_within = 0, spare_between = 0;
	bool equal_within = true, equal_between = true;

	for (size_t mix = 0; mix < m->n_mix; mix++) {
		const size_t first = m->exact_from[m->mix_from[mix]];
		const size_t last = m->exact_from[m->mix_from[mix + 1]];

		spare_between += last > first ? last - first - 1 : 0;
		for (size_t i = first; i < last; i++)
			equal_between = equal_between && m->y[i] == m->y[first];
	}
	for (size_t p = 0; p < m->n_batch; p++) {
		const size_t first = m->exact_from[p];
		const size_t last = m->exact_from[p + 1];

		spare_within += last > first ? last - first - 1 : 0;
		for (size_t i = first; i < last; i++)
			equal_within = equal_within && m->y[i] == m->y[first];
	}
	if (m->prior.has_sd_specimen ||
		!((equal_within && spare_within > 0) ||
			(equal_between && spare_between > 1)))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "rows",
		"All exact readings of each %s are the same number, so the "
		"spread between specimens cannot be estimated; give each "
		"reading as the interval it was read to, such as [1.95, 2.05] "
		"for 2.0.",
		equal_within && spare_within > 0 ? "batch" : "mix");
}

static void
lend(const struct draft *d, struct hierarchy_model *m)
{
	m->mix_from = d->mix_from;
	m->batch_of = d->batch_of;
	m->count = d->count;
	m->x_mean = d->x_mean;
	m->within = d->within;
	m->open_from = d->open_from;
	m->exact_from = d->exact_from;
	m->low = d->low;
	m->high = d->high;
	m->open_x = d->open_x;
	m->open_dx = d->open_dx;
	m->y = d->y;
	m->exact_x = d->exact_x;
	m->exact_dx = d->exact_dx;
	m->slope_mean = d->slope_mean;
	m->slope_tau = d->slope_tau;
}

enum err_code
hierarchy_layout(struct arena *a, const struct stats_hierarchy_ask *ask,
	struct hierarchy_model *m, struct err *err)
{
	struct draft d;

	*m = (struct hierarchy_model){.n_row = ask->n_row,
		.n_mix = ask->n_mix,
		.n_batch = ask->n_batch,
		.n_x = ask->n_x,
		.prior = ask->prior};
	for (size_t i = 0; i < ask->n_row; i++)
		m->n_open += !is_exact(ask, i);
	m->n_exact = m->n_row - m->n_open;
	if (!take_draft(a, ask, m->n_open, &d))
		return err_memory(err);
	place_slopes(ask, &d);
	order_batches(ask, &d);
	count_rows(ask, &d);
	place_rows(ask, &d);
	for (size_t p = 0; p < ask->n_batch; p++)
		m->n_filled += d.count[p] > 0;
	lend(&d, m);
	return refuse_no_spread(m, err);
}

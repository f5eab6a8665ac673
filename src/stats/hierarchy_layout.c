/* hierarchy_layout.c - the hierarchical model's data, checked and put in the
 * order in which the sampler walks. */
#include "stats/hierarchy_priv.h"

#include "stats/radix.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Sweeps from one second draw to the next where readings are closed. */
enum { FIELD_MAX = 48, LEAST_KEPT = 8, SELDOM = 4 };

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
check_spread(bool is_known, double sd, bool may_be_zero, const char *field,
	struct err *err)
{
	return is_known ? check_scale(sd, may_be_zero, field, err) : ERR_NONE;
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
	TRY(check_spread(
		p->has_sd_batch, p->sd_batch, true, "prior.sd_batch", err));
	TRY(check_spread(p->has_sd_specimen, p->sd_specimen, false,
		"prior.sd_specimen", err));
	if (!p->has_sd_batch) {
		TRY(check_scale(
			p->sd_batch_scale, false, "prior.sd_batch_scale", err));
		TRY(check_scale(p->sd_batch_log_sd, true,
			"prior.sd_batch_log_sd", err));
	}
	if (!p->has_sd_specimen) {
		TRY(check_scale(p->sd_specimen_scale, false,
			"prior.sd_specimen_scale", err));
		TRY(check_scale(p->sd_specimen_log_sd, true,
			"prior.sd_specimen_log_sd", err));
	}
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
	size_t *mix_from, *batch_of, *place_of, *class_of, *mix_cell;
	size_t *open_from, *next;
	struct hierarchy_class *class;
	struct hierarchy_cell *cell;
	size_t n_class, n_cell;
	double *count; /* rows of a batch, by the caller's index */
	double *x_mean, *x_off, *x_centre, *within_x;
	double *low, *high, *open_x, *open_dx;
	struct hierarchy_exact *exact;
	double *exact_x, *exact_within;
	double *y, *dx; /* scratch: a row's log and covariates */
	double *slope_mean, *slope_tau;
	struct fastnormal *normal;
};

static bool
is_exact(const struct stats_hierarchy_ask *ask, size_t i)
{
	return ask->low[i] == ask->high[i];
}

static bool
take_places(
	struct arena *a, const struct stats_hierarchy_ask *ask, struct draft *d)
{
	const size_t nb = ask->n_batch;

	d->mix_from = arena_take(a, ask->n_mix + 1, sizeof *d->mix_from);
	d->mix_cell = arena_take(a, ask->n_mix + 1, sizeof *d->mix_cell);
	d->batch_of = arena_take(a, nb, sizeof *d->batch_of);
	d->place_of = arena_take(a, nb, sizeof *d->place_of);
	d->class_of = arena_take(a, nb, sizeof *d->class_of);
	d->class = arena_take(a, nb, sizeof *d->class);
	d->cell = arena_take(a, nb, sizeof *d->cell);
	d->open_from = arena_take(a, nb + 1, sizeof *d->open_from);
	d->next = arena_take(a, ask->n_mix + nb, sizeof *d->next);
	d->count = arena_take(a, nb, sizeof *d->count);
	d->normal = arena_take(a, 1, sizeof *d->normal);
	return d->mix_from && d->mix_cell && d->batch_of && d->place_of &&
		d->class_of && d->class && d->cell && d->open_from && d->next &&
		d->count && d->normal;
}

static bool
take_numbers(struct arena *a, const struct stats_hierarchy_ask *ask,
	size_t n_open, struct draft *d)
{
	const size_t nb = ask->n_batch, nx = ask->n_x, size = sizeof(double);

	d->x_mean = arena_take(a, nb * nx, size);
	d->x_off = arena_take(a, nb * nx, size);
	d->x_centre = arena_take(a, ask->n_mix * nx, size);
	d->within_x = arena_take(a, hierarchy_triangle(nx), size);
	d->low = arena_take(a, n_open, size);
	d->high = arena_take(a, n_open, size);
	d->open_x = arena_take(a, n_open * nx, size);
	d->open_dx = arena_take(a, n_open * nx, size);
	d->exact = arena_take(a, nb, sizeof *d->exact);
	d->exact_x = arena_take(a, nb * nx, size);
	d->exact_within = arena_take(a, hierarchy_triangle(nx + 1), size);
	d->y = arena_take(a, ask->n_row, size);
	d->dx = arena_take(a, nx + 1, size);
	d->slope_mean = arena_take(a, nx, size);
	d->slope_tau = arena_take(a, nx, size);
	return d->x_mean && d->x_off && d->x_centre && d->within_x && d->low &&
		d->high && d->open_x && d->open_dx && d->exact && d->exact_x &&
		d->exact_within && d->y && d->dx && d->slope_mean &&
		d->slope_tau;
}

/* Batches in the order of their row counts, a class for each count met. */
static enum err_code
order_counts(struct arena *a, const struct stats_hierarchy_ask *ask,
	struct draft *d, struct stats_keyed **sorted, struct err *err)
{
	const size_t n = ask->n_batch;
	struct stats_keyed *item = arena_take(a, n, sizeof *item);
	struct stats_keyed *scratch = arena_take(a, n, sizeof *scratch);

	if (item == NULL || scratch == NULL)
		return err_memory(err);
	for (size_t i = 0; i < ask->n_row; i++)
		d->count[ask->row_batch[i]]++;
	for (size_t b = 0; b < n; b++)
		item[b] = (struct stats_keyed){stats_radix_key(d->count[b]), b};
	stats_radix_sort(item, n, scratch);
	*sorted = item;
	return ERR_NONE;
}

/* Sorted by count already, the batches are dealt out to their mixes. */
static void
place_batches(const struct stats_hierarchy_ask *ask,
	const struct stats_keyed *sorted, struct draft *d)
{
	for (size_t b = 0; b < ask->n_batch; b++)
		d->mix_from[ask->batch_mix[b] + 1]++;
	add_up(d->mix_from, ask->n_mix);
	memcpy(d->next, d->mix_from, ask->n_mix * sizeof *d->next);
	for (size_t i = 0; i < ask->n_batch; i++) {
		const size_t b = sorted[i].from;
		const size_t place = d->next[ask->batch_mix[b]]++;

		if (i == 0 || d->count[b] != d->count[sorted[i - 1].from])
			d->class[d->n_class++].count = d->count[b];
		d->class[d->n_class - 1].n_batch++;
		d->class_of[place] = d->n_class - 1;
		d->batch_of[place] = b;
		d->place_of[b] = place;
	}
}

static void
make_cells(const struct stats_hierarchy_ask *ask, struct draft *d)
{
	for (size_t mix = 0; mix < ask->n_mix; mix++) {
		size_t last = SIZE_MAX; /* no class yet */

		d->mix_cell[mix] = d->n_cell;
		for (size_t p = d->mix_from[mix]; p < d->mix_from[mix + 1];
			p++) {
			const size_t class_at = d->class_of[p];

			if (d->class[class_at].count <= 0)
				continue;
			if (class_at != last)
				d->cell[d->n_cell++] = (struct hierarchy_cell){
					p, p, class_at, 0};
			last = class_at;
			d->cell[d->n_cell - 1].to++;
			d->cell[d->n_cell - 1].n_batch++;
		}
	}
	d->mix_cell[ask->n_mix] = d->n_cell;
}

/* Batch means of the covariates, and how far they lie from the unweighted
 * means of their mixes. */
static void
mean_covariates(const struct stats_hierarchy_ask *ask, struct draft *d)
{
	const size_t nx = ask->n_x;

	for (size_t i = 0; i < ask->n_row; i++)
		for (size_t k = 0; k < nx; k++)
			d->x_mean[d->place_of[ask->row_batch[i]] * nx + k] +=
				ask->x[i * nx + k];
	for (size_t p = 0; p < ask->n_batch; p++)
		for (size_t k = 0; k < nx && d->count[d->batch_of[p]] > 0; k++)
			d->x_mean[p * nx + k] /= d->count[d->batch_of[p]];
	for (size_t mix = 0; mix < ask->n_mix; mix++) {
		double *centre = d->x_centre + mix * nx;
		double n = 0;

		for (size_t i = d->mix_cell[mix]; i < d->mix_cell[mix + 1];
			i++) {
			const struct hierarchy_cell *cell = &d->cell[i];

			n += cell->n_batch;
			for (size_t p = cell->from; p < cell->to; p++)
				for (size_t k = 0; k < nx; k++)
					centre[k] += d->x_mean[p * nx + k];
		}
		for (size_t k = 0; k < nx && n > 0; k++)
			centre[k] /= n;
		for (size_t p = d->mix_from[mix]; p < d->mix_from[mix + 1]; p++)
			for (size_t k = 0;
				k < nx && d->count[d->batch_of[p]] > 0; k++)
				d->x_off[p * nx + k] = d->x_mean[p * nx + k] -
					centre[k];
	}
}

/* What the prior's centre and the slopes' prior means account for. */
static double
offset_of(
	const struct stats_hierarchy_ask *ask, const struct draft *d, size_t i)
{
	double offset = ask->prior.mean_centre;

	for (size_t k = 0; k < ask->n_x; k++)
		offset += ask->x[i * ask->n_x + k] * d->slope_mean[k];
	return offset;
}

static void
add_products(double *triangle, const double *a, size_t k)
{
	for (size_t j = 0; j < k; j++)
		for (size_t l = 0; l <= j; l++)
			*triangle++ += a[j] * a[l];
}

static void
place_open(const struct stats_hierarchy_ask *ask, struct draft *d)
{
	const size_t nx = ask->n_x;

	for (size_t i = 0; i < ask->n_row; i++)
		if (!is_exact(ask, i))
			d->open_from[d->place_of[ask->row_batch[i]] + 1]++;
	add_up(d->open_from, ask->n_batch);
	memcpy(d->next, d->open_from, ask->n_batch * sizeof *d->next);
	for (size_t i = 0; i < ask->n_row; i++) {
		const size_t place = d->place_of[ask->row_batch[i]];
		const double offset = offset_of(ask, d, i);

		for (size_t k = 0; k < nx; k++)
			d->dx[k] = ask->x[i * nx + k] -
				d->x_mean[place * nx + k];
		add_products(d->within_x, d->dx, nx);
		if (is_exact(ask, i))
			continue;
		const size_t to = d->next[place]++;

		d->low[to] = log(ask->low[i]) - offset;
		d->high[to] = log(ask->high[i]) - offset;
		for (size_t k = 0; k < nx; k++) {
			d->open_x[to * nx + k] = ask->x[i * nx + k];
			d->open_dx[to * nx + k] = d->dx[k];
		}
	}
}

/* Means of the exact rows, then the products about them. */
static void
place_exact(const struct stats_hierarchy_ask *ask, struct draft *d)
{
	const size_t nx = ask->n_x;

	for (size_t i = 0; i < ask->n_row; i++) {
		const size_t place = d->place_of[ask->row_batch[i]];

		if (!is_exact(ask, i))
			continue;
		d->y[i] = log(ask->low[i]) - offset_of(ask, d, i);
		d->exact[place].count++;
		d->exact[place].y += d->y[i];
		for (size_t k = 0; k < nx; k++)
			d->exact_x[place * nx + k] += ask->x[i * nx + k];
	}
	for (size_t p = 0; p < ask->n_batch; p++) {
		if (d->exact[p].count <= 0)
			continue;
		d->exact[p].y /= d->exact[p].count;
		for (size_t k = 0; k < nx; k++)
			d->exact_x[p * nx + k] /= d->exact[p].count;
	}
	for (size_t i = 0; i < ask->n_row; i++) {
		const size_t place = d->place_of[ask->row_batch[i]];

		if (!is_exact(ask, i))
			continue;
		for (size_t k = 0; k < nx; k++)
			d->dx[k] = ask->x[i * nx + k] -
				d->exact_x[place * nx + k];
		d->dx[nx] = d->y[i] - d->exact[place].y;
		add_products(d->exact_within, d->dx, nx + 1);
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

/* Exact readings met so far of one batch or mix. */
struct same {
	size_t n;
	double first;
	bool differs;
};

static enum err_code
count_same(struct arena *a, size_t n_key, const struct stats_hierarchy_ask *ask,
	bool of_mix, struct same *total, struct err *err)
{
	const struct arena_mark scratch = arena_mark(a);
	struct same *same = arena_take(a, n_key, sizeof *same);

	if (same == NULL)
		return err_memory(err);
	*total = (struct same){0};
	for (size_t i = 0; i < ask->n_row; i++) {
		const size_t batch = ask->row_batch[i];
		struct same *s = &same[of_mix ? ask->batch_mix[batch] : batch];

		if (!is_exact(ask, i))
			continue;
		if (s->n++ == 0)
			s->first = ask->low[i];
		else
			total->n++; /* readings beyond the first */
		total->differs = total->differs || ask->low[i] != s->first;
	}
	arena_back(a, scratch);
	return ERR_NONE;
}

/* Where exact readings agree so completely that the likelihood of a spread of
 * zero is infinite, the posterior is that spread and nothing else: every batch
 * agrees within itself, or (one specimen a batch) every mix does. */
static enum err_code
refuse_no_spread(
	struct arena *a, const struct stats_hierarchy_ask *ask, struct err *err)
{
	struct same batch, mix;
	bool within;

	if (ask->prior.has_sd_specimen)
		return ERR_NONE;
	TRY(count_same(a, ask->n_batch, ask, false, &batch, err));
	TRY(count_same(a, ask->n_mix, ask, true, &mix, err));
	within = !batch.differs && batch.n > 0;
	if (!within && (mix.differs || mix.n <= 1))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "rows",
		"All exact readings of each %s are the same number, so the "
		"spread between specimens cannot be estimated; give each "
		"reading as the interval it was read to, such as [1.95, 2.05] "
		"for 2.0.",
		within ? "batch" : "mix");
}

/* The second draws help a mix of which half the readings or more are open on
 * one side, and cost a third of a sweep.  They leave the posterior as it is however
 * seldom they are made. */
static enum err_code
choose_redraw(struct arena *a, const struct stats_hierarchy_ask *ask,
	size_t *every, struct err *err)
{
	const struct arena_mark scratch = arena_mark(a);
	double *excess = arena_take(a, ask->n_mix, sizeof *excess);

	if (excess == NULL)
		return err_memory(err);
	for (size_t i = 0; i < ask->n_row; i++)
		excess[ask->batch_mix[ask->row_batch[i]]] +=
			ask->low[i] <= 0 || isinf(ask->high[i]) ? 1 : -1;
	*every = SELDOM;
	for (size_t mix = 0; mix < ask->n_mix; mix++)
		if (excess[mix] >= 0)
			*every = 1;
	arena_back(a, scratch);
	return ERR_NONE;
}

static void
lend_batches(const struct draft *d, struct hierarchy_model *m)
{
	m->mix_from = d->mix_from;
	m->batch_of = d->batch_of;
	m->class = d->class;
	m->class_of = d->class_of;
	m->cell = d->cell;
	m->mix_cell = d->mix_cell;
	m->n_class = d->n_class;
	m->n_cell = d->n_cell;
	m->x_mean = d->x_mean;
	m->x_off = d->x_off;
	m->x_centre = d->x_centre;
	m->within_x = d->within_x;
	for (size_t i = 0; i < d->n_class; i++)
		if (d->class[i].count > 0)
			m->n_filled += (size_t)d->class[i].n_batch;
}

static void
lend_rows(const struct draft *d, struct hierarchy_model *m)
{
	m->open_from = d->open_from;
	m->low = d->low;
	m->high = d->high;
	m->open_x = d->open_x;
	m->open_dx = d->open_dx;
	m->exact = d->exact;
	m->exact_x = d->exact_x;
	m->exact_within = d->exact_within;
	m->slope_mean = d->slope_mean;
	m->slope_tau = d->slope_tau;
	m->normal = d->normal;
}

enum err_code
hierarchy_layout(struct arena *a, const struct stats_hierarchy_ask *ask,
	struct hierarchy_model *m, struct err *err)
{
	const double mean_sd = ask->prior.mean_sd;
	struct stats_keyed *sorted;
	struct draft d = {0};

	*m = (struct hierarchy_model){.n_row = ask->n_row,
		.n_mix = ask->n_mix,
		.n_batch = ask->n_batch,
		.n_x = ask->n_x,
		.prior = ask->prior,
		.tau = 1 / (mean_sd * mean_sd)};
	TRY(refuse_no_spread(a, ask, err));
	TRY(choose_redraw(a, ask, &m->redraw_every, err));
	for (size_t i = 0; i < ask->n_row; i++)
		m->n_open += !is_exact(ask, i);
	m->n_exact = m->n_row - m->n_open;
	if (!take_places(a, ask, &d) || !take_numbers(a, ask, m->n_open, &d))
		return err_memory(err);
	fastnormal_start(d.normal);
	place_slopes(ask, &d);
	TRY(order_counts(a, ask, &d, &sorted, err));
	place_batches(ask, sorted, &d);
	make_cells(ask, &d);
	mean_covariates(ask, &d);
	place_open(ask, &d);
	place_exact(ask, &d);
	lend_batches(&d, m);
	lend_rows(&d, m);
	return ERR_NONE;
}

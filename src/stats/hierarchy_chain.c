/* hierarchy_chain.c - one chain of the hierarchical model's sampler. */
#include "stats/hierarchy_priv.h"

#include "stats/truncated.h"

#include <math.h>
#include <string.h>

/* First width of the specimens' slice: a factor e (it is drawn on the log
 * scale). */
static const double first_log_width = 1;

static bool
take_state(struct arena *a, const struct hierarchy_model *m,
	struct hierarchy_chain *c)
{
	const size_t size = sizeof(double);

	c->mu = arena_take(a, m->n_mix, size);
	c->slope = arena_take(a, m->n_x, size);
	c->theta = arena_take(a, m->n_batch, size);
	c->z = arena_take(a, m->n_open, size);
	c->z_sum = arena_take(a, m->n_batch, size);
	c->range = arena_take(a, m->n_batch, sizeof *c->range);
	c->theta_was = arena_take(a, m->n_batch, size);
	c->exact_sum = arena_take(a, m->n_batch, size);
	return c->mu && c->slope && c->theta && c->z && c->z_sum && c->range &&
		c->theta_was && c->exact_sum;
}

static bool
take_sums(struct arena *a, const struct hierarchy_model *m,
	struct hierarchy_chain *c)
{
	const size_t k = m->n_x + 1, size = sizeof(double);
	const size_t n_product = hierarchy_triangle(k);

	c->within = arena_take(a, n_product, size);
	c->y_off = arena_take(a, m->n_batch, size);
	c->centre = arena_take(a, m->n_mix * k, size);
	c->cell_sum = arena_take(a, m->n_cell * k, size);
	c->class_square = arena_take(a, m->n_class * n_product, size);
	c->class_weight = arena_take(a, m->n_class, size);
	c->class_sd = arena_take(a, m->n_class, size);
	c->weight = arena_take(a, m->n_mix, size);
	c->first = arena_take(a, m->n_mix * k, size);
	c->factor = arena_take(a, n_product, size);
	c->scratch = arena_take(a, k, size);
	return c->within && c->y_off && c->centre && c->cell_sum &&
		c->class_square && c->class_weight && c->class_sd &&
		c->weight && c->first && c->factor && c->scratch;
}

/* The sums of covariates alone, which never change. */
static void
sum_covariates(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x, k = nx + 1;

	memcpy(c->within, m->within_x,
		hierarchy_triangle(nx) * sizeof *c->within);
	for (size_t mix = 0; mix < m->n_mix; mix++)
		memcpy(c->centre + mix * k, m->x_centre + mix * nx,
			nx * sizeof *c->centre);
	for (size_t i = 0; i < m->n_cell; i++)
		for (size_t p = m->cell[i].from; p < m->cell[i].to; p++)
			for (size_t j = 0; j < nx; j++)
				c->cell_sum[i * k + j] += m->x_off[p * nx + j];
	for (size_t p = 0; p < m->n_batch; p++) {
		const double *q = m->x_off + p * nx;
		double *square = c->class_square +
			m->class_of[p] * hierarchy_triangle(k);

		for (size_t j = 0; j < nx; j++)
			for (size_t l = 0; l <= j; l++)
				*square++ += q[j] * q[l];
	}
}

enum err_code
hierarchy_chain_take(struct arena *a, const struct hierarchy_model *m,
	struct hierarchy_chain *c, struct err *err)
{
	*c = (struct hierarchy_chain){.m = m};
	if (!take_state(a, m, c) || !take_sums(a, m, c))
		return err_memory(err);
	sum_covariates(c);
	return ERR_NONE;
}

/* Adds a batch's products with y about its means, and returns its mean y. */
static double
add_batch(struct hierarchy_chain *c, size_t place)
{
	const struct hierarchy_model *m = c->m;
	const struct hierarchy_exact exact = m->exact[place];
	const size_t nx = m->n_x;
	const double count = m->class[m->class_of[place]].count;
	const double mean = (c->z_sum[place] + exact.count * exact.y) / count;
	const double exact_off = exact.count * (exact.y - mean);
	double *within = c->within + hierarchy_triangle(nx);
	double square = exact_off * (exact.y - mean);

	for (size_t i = m->open_from[place]; i < m->open_from[place + 1]; i++) {
		const double d = c->z[i] - mean;

		for (size_t j = 0; j < nx; j++)
			within[j] += d * m->open_dx[i * nx + j];
		square += d * d;
	}
	for (size_t j = 0; j < nx; j++)
		within[j] += exact_off *
			(m->exact_x[place * nx + j] -
				m->x_mean[place * nx + j]);
	within[nx] += square;
	return mean;
}

/* The products of one mix's batches with y, about the unweighted mean of their
 * means, so that the sums of squares do not cancel. */
static void
add_cells(struct hierarchy_chain *c, size_t mix)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x, k = nx + 1;
	const size_t first = m->mix_cell[mix], last = m->mix_cell[mix + 1];
	double sum = 0, n = 0, centre;

	for (size_t i = first; i < last; i++) {
		for (size_t p = m->cell[i].from; p < m->cell[i].to; p++)
			sum += c->y_off[p];
		n += m->cell[i].n_batch;
	}
	centre = n > 0 ? sum / n : 0;
	c->centre[mix * k + nx] = centre;
	for (size_t i = first; i < last; i++) {
		double *square = c->class_square +
			m->cell[i].class_at * hierarchy_triangle(k) +
			hierarchy_triangle(nx);

		sum = 0;
		for (size_t p = m->cell[i].from; p < m->cell[i].to; p++) {
			const double y = c->y_off[p] - centre;

			c->y_off[p] = y;
			sum += y;
			for (size_t j = 0; j < nx; j++)
				square[j] += y * m->x_off[p * nx + j];
			square[nx] += y * y;
		}
		c->cell_sum[i * k + nx] = sum;
	}
}

static void
sum_up(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x, y_from = hierarchy_triangle(nx);

	for (size_t j = 0; j <= nx; j++)
		c->within[y_from + j] = m->exact_within[y_from + j];
	for (size_t i = 0; i < m->n_class; i++)
		for (size_t j = 0; j <= nx; j++)
			c->class_square[i * (y_from + nx + 1) + y_from + j] = 0;
	for (size_t i = 0; i < m->n_cell; i++)
		for (size_t p = m->cell[i].from; p < m->cell[i].to; p++)
			c->y_off[p] = add_batch(c, p);
	for (size_t mix = 0; mix < m->n_mix; mix++)
		add_cells(c, mix);
}

/* Slopes from the factor of their precision: L'(slope) = L^-1 a_xy + noise. */
static void
draw_slopes(struct hierarchy_chain *c)
{
	const size_t nx = c->m->n_x;
	const double *factor = c->factor;

	for (size_t j = nx; j-- > 0;) {
		double sum = factor[hierarchy_triangle(nx) + j] +
			fastnormal_draw(c->m->normal, &c->rand);

		for (size_t i = j + 1; i < nx; i++)
			sum -= factor[hierarchy_triangle(i) + j] * c->slope[i];
		c->slope[j] = sum / factor[hierarchy_triangle(j) + j];
	}
}

/* The mean of a mix given the slopes, then its batches given the mean. */
static void
draw_mix(struct hierarchy_chain *c, size_t mix)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x, k = nx + 1;
	const double *centre = c->centre + mix * k, *first = c->first + mix * k;
	const double var_b = c->sd_batch * c->sd_batch;
	const double base = centre[nx] - hierarchy_dot(centre, c->slope, nx);
	const double sum = first[nx] - hierarchy_dot(first, c->slope, nx) +
		c->weight[mix] * base;
	const double precision = c->weight[mix] + m->tau;
	const double mu = sum / precision +
		fastnormal_draw(m->normal, &c->rand) / sqrt(precision);

	c->mu[mix] = mu;
	for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1]; p++) {
		const size_t class_at = m->class_of[p];
		/* the share of a batch's offset that is its own */
		const double share = c->class_weight[class_at] * var_b;
		const double off = c->y_off[p] -
			hierarchy_dot(m->x_off + p * nx, c->slope, nx) + base -
			mu;

		c->theta[p] = mu + share * off +
			c->class_sd[class_at] *
				fastnormal_draw(m->normal, &c->rand);
	}
}

/* What a batch's offset is uncertain by, given its mix's mean. */
static void
spread_classes(struct hierarchy_chain *c)
{
	const double var_e = c->sd_specimen * c->sd_specimen;
	const double var_b = c->sd_batch * c->sd_batch;

	for (size_t i = 0; i < c->m->n_class; i++)
		c->class_sd[i] = sqrt(
			var_b * var_e / (var_e + c->m->class[i].count * var_b));
}

static void
draw_latent(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const double sd = c->sd_specimen, to_sd = 1 / sd;
	const size_t nx = m->n_x;

	for (size_t p = 0; p < m->n_batch; p++) {
		double sum = 0;

		for (size_t i = m->open_from[p]; i < m->open_from[p + 1]; i++) {
			const double low = m->low[i], high = m->high[i];
			const double at = c->theta[p] +
				hierarchy_dot(m->open_x + i * nx, c->slope, nx);
			double z = at +
				sd *
					stats_truncated_draw(m->normal,
						&c->rand, (low - at) * to_sd,
						(high - at) * to_sd);

			z = hierarchy_min(hierarchy_max(z, low), high);
			c->z[i] = z;
			sum += z;
		}
		c->z_sum[p] = sum;
	}
}

/* A log to start from: the middle of an interval, a bit beyond an open end. */
static double
first_log(double low, double high, double beyond)
{
	if (isinf(low) && isinf(high))
		return 0;
	if (isinf(low))
		return high - beyond;
	if (isinf(high))
		return low + beyond;
	return low + 0.5 * (high - low);
}

void
hierarchy_start(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const struct stats_hierarchy_prior *prior = &m->prior;

	/* Chains start apart: spreads anywhere in their prior's bulk. */
	c->sd_specimen = prior->has_sd_specimen
		? prior->sd_specimen
		: prior->sd_specimen_scale * fastrand_unit_open(&c->rand);
	c->sd_batch = prior->has_sd_batch
		? prior->sd_batch
		: prior->sd_batch_scale * fastrand_unit_open(&c->rand);
	c->width_specimen = first_log_width;
	c->width_batch = prior->sd_batch_scale;
	for (size_t p = 0; p < m->n_batch; p++)
		for (size_t i = m->open_from[p]; i < m->open_from[p + 1]; i++) {
			c->z[i] = first_log(m->low[i], m->high[i],
				c->sd_specimen * fastrand_unit_open(&c->rand));
			c->z_sum[p] += c->z[i];
		}
	sum_up(c);
}

void
hierarchy_sweep(struct hierarchy_chain *c, bool is_warm)
{
	hierarchy_spreads(c, is_warm);
	draw_slopes(c);
	spread_classes(c);
	for (size_t mix = 0; mix < c->m->n_mix; mix++)
		draw_mix(c, mix);
	if (c->m->n_open > 0) {
		if (c->n_sweep++ % c->m->redraw_every == 0)
			hierarchy_redraw(c);
		draw_latent(c);
		sum_up(c);
	}
}

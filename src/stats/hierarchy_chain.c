/* hierarchy_chain.c - one chain of the hierarchical model's sampler. */
#include "stats/hierarchy_priv.h"

#include "stats/truncated.h"

#include <gsl/gsl_randist.h>

#include <math.h>

const double hierarchy_least_log_sd = -20, hierarchy_most_log_sd = 20;
/* First widths of the slices: a factor e for the specimens' spread (drawn on
 * the log scale), the prior's scale for the batches'. */
static const double first_log_width = 1;
/* Slice width as a multiple of the mean absolute move, and how fast it learns.
 * Common practice, no source. */
static const double width_per_move = 3, learn_rate = 0.05;
/* Outside this range a product of weights is turned into a log. */
static const double product_low = 1e-200, product_high = 1e200;

enum { STEP_MAX = 64 };

enum err_code
hierarchy_chain_take(struct arena *a, const struct hierarchy_model *m,
	struct hierarchy_chain *c, struct err *err)
{
	const size_t k = m->n_x + 1, size = sizeof(double);

	*c = (struct hierarchy_chain){.m = m};
	c->mu = arena_take(a, m->n_mix, size);
	c->slope = arena_take(a, m->n_x, size);
	c->theta = arena_take(a, m->n_batch, size);
	c->z = arena_take(a, m->n_open, size);
	c->column = arena_take(a, m->n_batch * k, size);
	c->centre = arena_take(a, m->n_mix * k, size);
	c->within = arena_take(a, k * k, size);
	c->weight = arena_take(a, m->n_mix, size);
	c->first = arena_take(a, m->n_mix * k, size);
	c->factor = arena_take(a, k * k, size);
	c->range = arena_take(a, m->n_batch * 2, size);
	c->theta_was = arena_take(a, m->n_batch, size);
	c->exact_sum = arena_take(a, m->n_batch, size);
	if (!(c->mu && c->slope && c->theta && c->z && c->column && c->centre &&
		    c->within && c->weight && c->first && c->factor &&
		    c->range && c->theta_was && c->exact_sum))
		return err_memory(err);
	return ERR_NONE;
}

/* Neal (2003), figures 3 (stepping out) and 5 (shrinkage). */
double
hierarchy_slice(struct hierarchy_chain *c, hierarchy_density *f, double x,
	double width, double low, double high, double *level)
{
	const double cut = *level + log(gsl_rng_uniform_pos(c->rng));
	double left = x - width * gsl_rng_uniform(c->rng), right = left + width;
	int left_step = (int)(STEP_MAX * gsl_rng_uniform(c->rng));
	int right_step = STEP_MAX - 1 - left_step;
	double at, value;

	while (left_step-- > 0 && left > low && f(c, left) > cut)
		left -= width;
	while (right_step-- > 0 && right < high && f(c, right) > cut)
		right += width;
	left = fmax(left, low);
	right = fmin(right, high);
	for (;;) {
		at = left + (right - left) * gsl_rng_uniform(c->rng);
		value = f(c, at);
		if (value >= cut || !(right > left))
			break;
		if (at < x)
			left = at;
		else
			right = at;
	}
	*level = value;
	return at;
}

/* The batch means and the products about them, from the logs as they stand. */
static void
add_batch(struct hierarchy_chain *c, size_t place)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x, k = nx + 1;
	double *column = c->column + place * k, *within = c->within;
	const double *z = c->z, *y = m->y;
	double sum = 0, mean;

	if (m->count[place] <= 0)
		return;
	for (size_t i = m->open_from[place]; i < m->open_from[place + 1]; i++)
		sum += z[i];
	for (size_t i = m->exact_from[place]; i < m->exact_from[place + 1]; i++)
		sum += y[i];
	mean = sum / m->count[place];
	for (size_t i = m->open_from[place]; i < m->open_from[place + 1]; i++) {
		const double d = z[i] - mean;

		for (size_t j = 0; j < nx; j++)
			within[nx * k + j] += d * m->open_dx[i * nx + j];
		within[nx * k + nx] += d * d;
	}
	for (size_t i = m->exact_from[place]; i < m->exact_from[place + 1];
		i++) {
		const double d = y[i] - mean;

		for (size_t j = 0; j < nx; j++)
			within[nx * k + j] += d * m->exact_dx[i * nx + j];
		within[nx * k + nx] += d * d;
	}
	for (size_t j = 0; j < nx; j++)
		column[j] = m->x_mean[place * nx + j];
	column[nx] = mean;
}

/* Batch means become deviations from the unweighted mean of the mix, so that
 * the sums of squares below do not cancel. */
static void
centre_mix(struct hierarchy_chain *c, size_t mix)
{
	const struct hierarchy_model *m = c->m;
	const size_t k = m->n_x + 1;

	for (size_t j = 0; j < k; j++) {
		double sum = 0, n = 0, centre;

		for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1];
			p++) {
			if (m->count[p] <= 0)
				continue;
			sum += c->column[p * k + j];
			n++;
		}
		centre = n > 0 ? sum / n : 0;
		c->centre[mix * k + j] = centre;
		for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1]; p++)
			c->column[p * k + j] -= centre;
	}
}

static void
sum_up(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x, k = nx + 1;

	for (size_t j = 0; j < nx; j++)
		for (size_t l = 0; l < nx; l++)
			c->within[j * k + l] = m->within[j * nx + l];
	for (size_t j = 0; j < k; j++)
		c->within[nx * k + j] = 0;
	for (size_t p = 0; p < m->n_batch; p++)
		add_batch(c, p);
	for (size_t mix = 0; mix < m->n_mix; mix++)
		centre_mix(c, mix);
}

/* One mix with its mean integrated out: adds to the precision of (slopes, y)
 * and returns the log of what does not depend on them. */
static double
add_mix(struct hierarchy_chain *c, size_t mix, double tau)
{
	const struct hierarchy_model *m = c->m;
	const size_t k = m->n_x + 1;
	const double var_e = c->sd_specimen * c->sd_specimen;
	const double var_b = c->sd_batch * c->sd_batch;
	double *first = c->first + mix * k, *factor = c->factor;
	double weight = 0, product = 1, logs = 0, pull;

	for (size_t j = 0; j < k; j++)
		first[j] = 0;
	for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1]; p++) {
		const double *q = c->column + p * k;
		double w;

		if (m->count[p] <= 0)
			continue;
		w = m->count[p] / (var_e + m->count[p] * var_b);
		weight += w;
		product *= w;
		if (product < product_low || product > product_high) {
			logs += log(product);
			product = 1;
		}
		for (size_t j = 0; j < k; j++) {
			first[j] += w * q[j];
			for (size_t l = 0; l <= j; l++)
				factor[j * k + l] += w * q[j] * q[l];
		}
	}
	c->weight[mix] = weight;
	if (weight <= 0)
		return 0;
	pull = weight * tau / (weight + tau);
	for (size_t j = 0; j < k; j++) {
		const double at_j = first[j] / weight + c->centre[mix * k + j];

		for (size_t l = 0; l <= j; l++)
			factor[j * k + l] -= first[j] * first[l] / weight -
				pull * at_j *
					(first[l] / weight +
						c->centre[mix * k + l]);
	}
	return 0.5 * (logs + log(product / (weight + tau)));
}

/* Cholesky factor in place (lower); the last row is that of y. */
static void
factorise(double *a, size_t k)
{
	for (size_t j = 0; j < k; j++)
		for (size_t l = 0; l <= j; l++) {
			double sum = a[j * k + l];

			for (size_t i = 0; i < l; i++)
				sum -= a[j * k + i] * a[l * k + i];
			if (l < j)
				a[j * k + l] = sum / a[l * k + l];
			else
				a[j * k + j] = sqrt(fmax(sum, 0));
		}
}

/* Log density of the spreads given the logs, means and slopes integrated out,
 * at c->sd_batch and c->sd_specimen; leaves weight, first and factor there. */
static double
spread_density(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const struct stats_hierarchy_prior *prior = &m->prior;
	const size_t nx = m->n_x, k = nx + 1;
	const double tau = 1 / (prior->mean_sd * prior->mean_sd);
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);
	double *factor = c->factor;
	double density = -(double)(m->n_row - m->n_filled) *
		log(c->sd_specimen);

	for (size_t j = 0; j < k; j++)
		for (size_t l = 0; l <= j; l++)
			factor[j * k + l] = c->within[j * k + l] * to_e;
	for (size_t j = 0; j < nx; j++)
		factor[j * k + j] += m->slope_tau[j];
	for (size_t mix = 0; mix < m->n_mix; mix++)
		density += add_mix(c, mix, tau);
	factorise(factor, k);
	for (size_t j = 0; j < nx; j++)
		density -= log(factor[j * k + j]);
	density -= 0.5 * factor[nx * k + nx] * factor[nx * k + nx];
	if (!prior->has_sd_batch) {
		const double t = c->sd_batch / prior->sd_batch_scale;

		density -= 0.5 * t * t;
	}
	if (!prior->has_sd_specimen) {
		const double t = c->sd_specimen / prior->sd_specimen_scale;

		density -= 0.5 * t * t;
	}
	return density;
}

static double
density_of_batch(struct hierarchy_chain *c, double sd)
{
	c->sd_batch = sd;
	return spread_density(c);
}

static double
density_of_log_specimen(struct hierarchy_chain *c, double log_sd)
{
	c->sd_specimen = exp(log_sd);
	return spread_density(c) + log_sd;
}

static void
learn(double *width, double move, bool is_warm)
{
	if (is_warm)
		*width += learn_rate * (width_per_move * fabs(move) - *width);
}

static void
draw_spreads(struct hierarchy_chain *c, bool is_warm)
{
	const struct stats_hierarchy_prior *prior = &c->m->prior;
	double level = spread_density(c);

	if (!prior->has_sd_specimen) {
		const double from = log(c->sd_specimen);

		level += from;
		const double to = hierarchy_slice(c, density_of_log_specimen,
			from, c->width_specimen, hierarchy_least_log_sd,
			hierarchy_most_log_sd, &level);
		c->sd_specimen = exp(to);
		level -= to;
		learn(&c->width_specimen, to - from, is_warm);
	}
	if (!prior->has_sd_batch) {
		const double from = c->sd_batch;

		c->sd_batch = hierarchy_slice(c, density_of_batch, from,
			c->width_batch, 0, exp(hierarchy_most_log_sd), &level);
		learn(&c->width_batch, c->sd_batch - from, is_warm);
	}
}

/* Slopes from the factor of their precision: L'(slope) = L^-1 a_xy + noise. */
static void
draw_slopes(struct hierarchy_chain *c)
{
	const size_t nx = c->m->n_x, k = nx + 1;
	const double *factor = c->factor;

	for (size_t j = nx; j-- > 0;) {
		double sum = factor[nx * k + j] +
			gsl_ran_gaussian_ziggurat(c->rng, 1);

		for (size_t i = j + 1; i < nx; i++)
			sum -= factor[i * k + j] * c->slope[i];
		c->slope[j] = sum / factor[j * k + j];
	}
}

static double
dot(const double *a, const double *b, size_t n)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += a[i] * b[i];
	return sum;
}

/* The mean of a mix given the slopes, then its batches given the mean. */
static void
draw_mix(struct hierarchy_chain *c, size_t mix)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x, k = nx + 1;
	const double *centre = c->centre + mix * k, *first = c->first + mix * k;
	const double tau = 1 / (m->prior.mean_sd * m->prior.mean_sd);
	const double var_e = c->sd_specimen * c->sd_specimen;
	const double var_b = c->sd_batch * c->sd_batch;
	const double base = centre[nx] - dot(centre, c->slope, nx);
	const double sum = first[nx] - dot(first, c->slope, nx) +
		c->weight[mix] * base;
	const double precision = c->weight[mix] + tau;
	const double mu = sum / precision +
		gsl_ran_gaussian_ziggurat(c->rng, 1) / sqrt(precision);

	c->mu[mix] = mu;
	for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1]; p++) {
		const double *q = c->column + p * k;
		const double share = var_b / (var_e + m->count[p] * var_b);
		const double off = q[nx] - dot(q, c->slope, nx) + base - mu;

		c->theta[p] = mu;
		if (var_b <= 0)
			continue;
		if (m->count[p] > 0)
			c->theta[p] += m->count[p] * share * off;
		c->theta[p] += gsl_ran_gaussian_ziggurat(
			c->rng, sqrt(share * var_e));
	}
}

static void
draw_latent(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const double sd = c->sd_specimen, to_sd = 1 / sd;
	const size_t nx = m->n_x;

	for (size_t p = 0; p < m->n_batch; p++)
		for (size_t i = m->open_from[p]; i < m->open_from[p + 1]; i++) {
			const double at = c->theta[p] +
				dot(m->open_x + i * nx, c->slope, nx);
			const double z = at +
				sd *
					stats_truncated_draw(c->rng,
						(m->low[i] - at) * to_sd,
						(m->high[i] - at) * to_sd);

			c->z[i] = fmin(fmax(z, m->low[i]), m->high[i]);
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
		: prior->sd_specimen_scale * gsl_rng_uniform_pos(c->rng);
	c->sd_batch = prior->has_sd_batch
		? prior->sd_batch
		: prior->sd_batch_scale * gsl_rng_uniform_pos(c->rng);
	c->width_specimen = first_log_width;
	c->width_batch = prior->sd_batch_scale;
	for (size_t i = 0; i < m->n_open; i++)
		c->z[i] = first_log(m->low[i], m->high[i],
			c->sd_specimen * gsl_rng_uniform_pos(c->rng));
	sum_up(c);
}

void
hierarchy_sweep(struct hierarchy_chain *c, bool is_warm)
{
	draw_spreads(c, is_warm);
	draw_slopes(c);
	for (size_t mix = 0; mix < c->m->n_mix; mix++)
		draw_mix(c, mix);
	if (c->m->n_open > 0) {
		hierarchy_redraw(c);
		draw_latent(c);
		sum_up(c);
	}
}

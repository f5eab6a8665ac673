/* hierarchy_spread.c - the two spreads of the hierarchical model, drawn from
 * their density given the logs, with batches, means and slopes integrated out. */
#include "stats/hierarchy_priv.h"

#include <math.h>

const double hierarchy_least_log_sd = -20, hierarchy_most_log_sd = 20;
/* Slice width as a multiple of the mean absolute move, and how fast it learns.
 * Common practice, no source. */
static const double width_per_move = 3, learn_rate = 0.05;
/* Outside this range a product of precisions is turned into a log. */
static const double product_low = 1e-200, product_high = 1e200;

enum { STEP_MAX = 64 };

/* Neal (2003), figures 3 (stepping out) and 5 (shrinkage). */
double
hierarchy_slice(struct hierarchy_chain *c, hierarchy_density *f, double x,
	double width, double low, double high, double *level)
{
	const double cut = *level + log(fastrand_unit_open(&c->rand));
	double left = x - width * fastrand_unit(&c->rand), right = left + width;
	int left_step = (int)(STEP_MAX * fastrand_unit(&c->rand));
	int right_step = STEP_MAX - 1 - left_step;
	double at, value;

	while (left_step-- > 0 && left > low && f(c, left) > cut)
		left -= width;
	while (right_step-- > 0 && right < high && f(c, right) > cut)
		right += width;
	left = hierarchy_max(left, low);
	right = hierarchy_min(right, high);
	for (;;) {
		at = left + (right - left) * fastrand_unit(&c->rand);
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

/* The weight of a batch of each class; returns half the sum of the logs of all
 * batches' weights. */
static double
weigh(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const double var_e = c->sd_specimen * c->sd_specimen;
	const double var_b = c->sd_batch * c->sd_batch;
	double logs = 0;

	for (size_t i = 0; i < m->n_class; i++) {
		const double n = m->class[i].count;
		const double w = n / (var_e + n * var_b);

		c->class_weight[i] = w;
		if (w > 0)
			logs += m->class[i].n_batch * log(w);
	}
	return 0.5 * logs;
}

/* One mix with its mean integrated out: takes from the precision of (slopes, y)
 * what its mean accounts for and returns the precision of that mean.  With S the
 * mix's weight and f the weighted sums about its centre q, that is
 *     f f' / S - (S tau / (S + tau)) (f / S + q) (f / S + q)'.
 * first (k) is scratch; inlined so that k is known to the loops. */
static inline __attribute__((always_inline)) double
eliminate_mean(struct hierarchy_chain *c, size_t mix, size_t k, double *first,
	double *precision)
{
	const struct hierarchy_model *m = c->m;
	const struct hierarchy_cell *cell = m->cell + m->mix_cell[mix];
	const struct hierarchy_cell *last = m->cell + m->mix_cell[mix + 1];
	const double *sum = c->cell_sum + m->mix_cell[mix] * k;
	const double *centre = c->centre + mix * k;
	double weight = 0, inverse, pull;

	for (size_t j = 0; j < k; j++)
		first[j] = 0;
	for (; cell < last; cell++, sum += k) {
		const double w = c->class_weight[cell->class_at];

		weight += w * cell->n_batch;
		for (size_t j = 0; j < k; j++)
			first[j] += w * sum[j];
	}
	c->weight[mix] = weight;
	for (size_t j = 0; j < k; j++)
		c->first[mix * k + j] = first[j];
	if (weight <= 0)
		return m->tau;
	inverse = 1 / weight;
	pull = weight * m->tau / (weight + m->tau);
	for (size_t j = 0; j < k; j++) {
		const double at_j = first[j] * inverse;
		const double pull_j = pull * (at_j + centre[j]);

		for (size_t l = 0; l <= j; l++)
			precision[hierarchy_triangle(j) + l] += pull_j *
					(first[l] * inverse + centre[l]) -
				at_j * first[l];
	}
	return weight + m->tau;
}

/* All mixes: returns the log of the product of their means' precisions. */
static inline __attribute__((always_inline)) double
eliminate_means(
	struct hierarchy_chain *c, size_t k, double *first, double *precision)
{
	double product = 1, logs = 0;

	for (size_t mix = 0; mix < c->m->n_mix; mix++) {
		product *= eliminate_mean(c, mix, k, first, precision);
		if (product < product_low || product > product_high) {
			logs += log(product);
			product = 1;
		}
	}
	return logs + log(product);
}

/* The same with the sums in registers, for k of 1 or 2. */
static inline __attribute__((always_inline)) double
eliminate_few(struct hierarchy_chain *c, size_t k)
{
	enum { FEW = 2, FEW_PRODUCTS = 3 };
	double first[FEW], precision[FEW_PRODUCTS], logs;

	for (size_t t = 0; t < hierarchy_triangle(k); t++)
		precision[t] = c->factor[t];
	logs = eliminate_means(c, k, first, precision);
	for (size_t t = 0; t < hierarchy_triangle(k); t++)
		c->factor[t] = precision[t];
	return logs;
}

static double
eliminate(struct hierarchy_chain *c)
{
	const size_t k = c->m->n_x + 1;

	if (k == 1)
		return eliminate_few(c, 1);
	if (k == 2)
		return eliminate_few(c, 2);
	return eliminate_means(c, k, c->scratch, c->factor);
}

/* Cholesky factor in place; the last row is that of y. */
static void
factorise(double *a, size_t k)
{
	for (size_t j = 0; j < k; j++) {
		double *row = a + hierarchy_triangle(j);

		for (size_t l = 0; l <= j; l++) {
			const double *other = a + hierarchy_triangle(l);
			const double sum = row[l] -
				hierarchy_dot(row, other, l);

			row[l] = l < j ? sum / other[l]
				       : sqrt(hierarchy_max(sum, 0));
		}
	}
}

double
hierarchy_spread_prior(double sd, double scale, double log_sd)
{
	double t = sd / scale;

	if (log_sd <= 0)
		return -0.5 * t * t;
	if (sd <= 0)
		return -INFINITY;
	t = log(t) / log_sd;
	return -log(sd) - 0.5 * t * t;
}

static double
prior_density(const struct hierarchy_chain *c)
{
	const struct stats_hierarchy_prior *prior = &c->m->prior;
	double density = 0;

	if (!prior->has_sd_batch)
		density += hierarchy_spread_prior(c->sd_batch,
			prior->sd_batch_scale, prior->sd_batch_log_sd);
	if (!prior->has_sd_specimen)
		density += hierarchy_spread_prior(c->sd_specimen,
			prior->sd_specimen_scale, prior->sd_specimen_log_sd);
	return density;
}

/* The precision of (slopes, y) before the means are integrated out. */
static void
add_precision(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const size_t n_product = hierarchy_triangle(m->n_x + 1);
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);

	for (size_t t = 0; t < n_product; t++) {
		double sum = c->within[t] * to_e;

		for (size_t i = 0; i < m->n_class; i++)
			sum += c->class_weight[i] *
				c->class_square[i * n_product + t];
		c->factor[t] = sum;
	}
	for (size_t j = 0; j < m->n_x; j++)
		c->factor[hierarchy_triangle(j) + j] += m->slope_tau[j];
}

/* Log density of the spreads at c->sd_batch and c->sd_specimen; leaves weight,
 * first and factor there. */
static double
spread_density(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x;
	double density = weigh(c) + prior_density(c) -
		(double)(m->n_row - m->n_filled) * log(c->sd_specimen);
	double last;

	add_precision(c);
	density -= 0.5 * eliminate(c);
	factorise(c->factor, nx + 1);
	for (size_t j = 0; j < nx; j++)
		density -= log(c->factor[hierarchy_triangle(j) + j]);
	last = c->factor[hierarchy_triangle(nx) + nx];
	return density - 0.5 * last * last;
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

void
hierarchy_spreads(struct hierarchy_chain *c, bool is_warm)
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

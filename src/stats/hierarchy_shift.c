/* hierarchy_shift.c - each parameter drawn a second time while the residuals of
 * the open rows are held (Yu and Meng 2011).
 *
 * Given the drawn logs, a parameter can move only as far as the logs leave it,
 * and the logs then only as far as the parameter leaves them: with heavy
 * censoring the chain creeps.  Here a parameter takes the logs of the open rows
 * along, z = theta + x . slope + residual, so they do not hold it back; what
 * does is the prior, the exact rows, and that every log stays in its interval.
 * That leaves a normal density cut off on both sides. */
#include "stats/hierarchy_priv.h"

#include "stats/truncated.h"

#include <math.h>

/* Below this the batches' spread is lost in the rounding of theta - mu. */
static const double least_scaled_sd = 1e-10;

/* A move t: log density -precision t^2 / 2 + pull t, in [low, high], which hold
 * 0 but for rounding. */
static double
draw_move(struct hierarchy_chain *c, double precision, double pull, double low,
	double high)
{
	const double mean = pull / precision, root = sqrt(precision);
	double t;

	low = hierarchy_min(low, 0);
	high = hierarchy_max(high, 0);
	t = mean +
		stats_truncated_draw(c->m->normal, &c->rand,
			(low - mean) * root, (high - mean) * root) /
			root;
	return hierarchy_min(hierarchy_max(t, low), high);
}

static const struct hierarchy_window anywhere = {-INFINITY, INFINITY};

/* What the window shares with the t for which t * rate stays in [gap_low,
 * gap_high]. */
static inline void
narrow(struct hierarchy_window *window, double gap_low, double gap_high,
	double rate)
{
	if (rate == 0)
		return;
	const double one = gap_low / rate, other = gap_high / rate;

	window->low = hierarchy_max(window->low, hierarchy_min(one, other));
	window->high = hierarchy_min(window->high, hierarchy_max(one, other));
}

/* Mean residual of the exact rows of a batch. */
static inline double
exact_residual(const struct hierarchy_chain *c, size_t place)
{
	const size_t nx = c->m->n_x;

	return c->m->exact[place].y - c->theta[place] -
		hierarchy_dot(c->m->exact_x + place * nx, c->slope, nx);
}

static inline double
product_within(const struct hierarchy_model *m, size_t j, size_t l)
{
	return m->exact_within[j > l ? hierarchy_triangle(j) + l
				     : hierarchy_triangle(l) + j];
}

static void
move_slope(struct hierarchy_chain *c, size_t j)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x;
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);
	struct hierarchy_window window = anywhere;
	double square = product_within(m, j, j);
	double product = product_within(m, nx, j), t;

	for (size_t i = 0; i < m->n_open; i++)
		narrow(&window, m->low[i] - c->z[i], m->high[i] - c->z[i],
			m->open_x[i * nx + j]);
	for (size_t l = 0; l < nx; l++)
		product -= product_within(m, j, l) * c->slope[l];
	for (size_t p = 0; p < m->n_batch; p++) {
		const double x = m->exact_x[p * nx + j];

		if (m->exact[p].count <= 0)
			continue;
		square += m->exact[p].count * x * x;
		product += m->exact[p].count * x * exact_residual(c, p);
	}
	t = draw_move(c, square * to_e + m->slope_tau[j],
		product * to_e - c->slope[j] * m->slope_tau[j], window.low,
		window.high);
	c->slope[j] += t;
	for (size_t i = 0; i < m->n_open; i++)
		c->z[i] += t * m->open_x[i * nx + j];
}

/* How far each theta may move, and the sums of the exact rows' residuals. */
static void
measure_batch(struct hierarchy_chain *c, size_t place)
{
	const struct hierarchy_model *m = c->m;
	struct hierarchy_window window = anywhere;

	for (size_t i = m->open_from[place]; i < m->open_from[place + 1]; i++) {
		window.low = hierarchy_max(window.low, m->low[i] - c->z[i]);
		window.high = hierarchy_min(window.high, m->high[i] - c->z[i]);
	}
	c->range[place] = window;
	c->theta_was[place] = c->theta[place];
	c->exact_sum[place] = m->exact[place].count * exact_residual(c, place);
}

static void
move_theta(struct hierarchy_chain *c, size_t place, double t)
{
	c->theta[place] += t;
	c->range[place].low -= t;
	c->range[place].high -= t;
	c->exact_sum[place] -= c->m->exact[place].count * t;
}

/* The mean of a mix with its batches held at their distances. */
static void
move_mix(struct hierarchy_chain *c, size_t mix)
{
	const struct hierarchy_model *m = c->m;
	const size_t first = m->mix_from[mix], last = m->mix_from[mix + 1];
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);
	struct hierarchy_window window = anywhere;
	double count = 0, sum = 0, t;

	for (size_t p = first; p < last; p++) {
		window.low = hierarchy_max(window.low, c->range[p].low);
		window.high = hierarchy_min(window.high, c->range[p].high);
		count += m->exact[p].count;
		sum += c->exact_sum[p];
	}
	t = draw_move(c, count * to_e + m->tau,
		sum * to_e - c->mu[mix] * m->tau, window.low, window.high);
	c->mu[mix] += t;
	for (size_t p = first; p < last; p++)
		move_theta(c, p, t);
}

/* Each batch of a mix that has open rows. */
static void
move_batches(struct hierarchy_chain *c, size_t mix)
{
	const struct hierarchy_model *m = c->m;
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);
	const double to_b = 1 / (c->sd_batch * c->sd_batch);

	for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1]; p++) {
		if (m->open_from[p] == m->open_from[p + 1])
			continue;
		move_theta(c, p,
			draw_move(c, m->exact[p].count * to_e + to_b,
				c->exact_sum[p] * to_e -
					(c->theta[p] - c->mu[mix]) * to_b,
				c->range[p].low, c->range[p].high));
	}
}

static double
density_of_held_batch(struct hierarchy_chain *c, double sd)
{
	const struct stats_hierarchy_prior *prior = &c->m->prior;
	const double t = sd - c->sd_batch;

	return t * (c->move_product - 0.5 * c->move_square * t) +
		hierarchy_spread_prior(
			sd, prior->sd_batch_scale, prior->sd_batch_log_sd);
}

/* A move of the batches' spread in the window: a cut normal where its prior is
 * one, a slice draw where that is lognormal. */
static double
draw_sd_batch_move(struct hierarchy_chain *c, struct hierarchy_window window)
{
	const struct stats_hierarchy_prior *prior = &c->m->prior;
	const double tau = 1 / (prior->sd_batch_scale * prior->sd_batch_scale);
	const double from = c->sd_batch;
	double level;

	if (prior->sd_batch_log_sd <= 0)
		return draw_move(c, c->move_square + tau,
			c->move_product - from * tau, window.low, window.high);
	level = density_of_held_batch(c, from);
	return hierarchy_slice(c, density_of_held_batch, from, c->width_batch,
		       from + hierarchy_min(window.low, 0),
		       hierarchy_min(from + hierarchy_max(window.high, 0),
			       exp(hierarchy_most_log_sd)),
		       &level) -
		from;
}

/* The batches' spread with each batch held at its multiple of it. */
static void
move_sd_batch(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);
	const double to_sd = 1 / c->sd_batch;
	struct hierarchy_window window = {-c->sd_batch, INFINITY};
	double square = 0, product = 0, t;

	for (size_t mix = 0; mix < m->n_mix; mix++)
		for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1];
			p++) {
			const double rate = (c->theta[p] - c->mu[mix]) * to_sd;

			narrow(&window, c->range[p].low, c->range[p].high,
				rate);
			square += m->exact[p].count * rate * rate;
			product += c->exact_sum[p] * rate;
		}
	c->move_square = square * to_e;
	c->move_product = product * to_e;
	t = draw_sd_batch_move(c, window);
	for (size_t mix = 0; mix < m->n_mix; mix++)
		for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1]; p++)
			move_theta(
				c, p, t * (c->theta[p] - c->mu[mix]) * to_sd);
	c->sd_batch += t;
}

static double
density_of_held_specimen(struct hierarchy_chain *c, double log_sd)
{
	const struct stats_hierarchy_prior *prior = &c->m->prior;
	const double sd = exp(log_sd);

	return (1 - (double)c->m->n_exact) * log_sd -
		0.5 * c->exact_square / (sd * sd) +
		hierarchy_spread_prior(sd, prior->sd_specimen_scale,
			prior->sd_specimen_log_sd);
}

/* Sum of squares of the exact rows' residuals: within batches by the products
 * about their means, which do not change, and between. */
static double
square_exact(const struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x;
	double sum = product_within(m, nx, nx);

	for (size_t j = 0; j < nx; j++) {
		sum -= 2 * c->slope[j] * product_within(m, nx, j);
		for (size_t l = 0; l < nx; l++)
			sum += c->slope[j] * c->slope[l] *
				product_within(m, j, l);
	}
	sum = hierarchy_max(sum, 0);
	for (size_t p = 0; p < m->n_batch; p++)
		if (m->exact[p].count > 0)
			sum += c->exact_sum[p] * c->exact_sum[p] /
				m->exact[p].count;
	return sum;
}

/* The specimens' spread with each residual held at its multiple of it. */
static void
move_sd_specimen(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x;
	const double from = log(c->sd_specimen);
	struct hierarchy_window window = {-1, INFINITY};
	double low, high, level;

	for (size_t p = 0; p < m->n_batch; p++)
		for (size_t i = m->open_from[p]; i < m->open_from[p + 1]; i++) {
			/* z is where it was before the moves of theta */
			const double r = c->z[i] - c->theta_was[p] -
				hierarchy_dot(m->open_x + i * nx, c->slope, nx);
			const double z = c->z[i] + c->theta[p] -
				c->theta_was[p];

			narrow(&window, m->low[i] - z, m->high[i] - z, r);
		}
	c->exact_square = square_exact(c);
	low = from + log1p(hierarchy_min(hierarchy_max(window.low, -1), 0));
	high = from + log1p(hierarchy_max(window.high, 0));
	level = density_of_held_specimen(c, from);
	c->sd_specimen = exp(hierarchy_slice(c, density_of_held_specimen, from,
		c->width_specimen, hierarchy_max(low, hierarchy_least_log_sd),
		hierarchy_min(high, hierarchy_most_log_sd), &level));
}

void
hierarchy_redraw(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const bool has_batch = c->sd_batch > least_scaled_sd;

	for (size_t j = 0; j < m->n_x; j++)
		move_slope(c, j);
	for (size_t p = 0; p < m->n_batch; p++)
		measure_batch(c, p);
	for (size_t mix = 0; mix < m->n_mix; mix++) {
		/* where no row is open the first draw has said it all */
		if (m->open_from[m->mix_from[mix]] ==
			m->open_from[m->mix_from[mix + 1]])
			continue;
		move_mix(c, mix);
		if (has_batch)
			move_batches(c, mix);
	}
	if (has_batch && !m->prior.has_sd_batch)
		move_sd_batch(c);
	if (!m->prior.has_sd_specimen)
		move_sd_specimen(c);
}

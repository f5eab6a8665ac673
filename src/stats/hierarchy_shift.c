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

/* Moves t: log density -precision t^2 / 2 + pull t, in [low, high], which hold
 * 0 but for rounding. */
static double
draw_move(struct hierarchy_chain *c, double precision, double pull, double low,
	double high)
{
	const double mean = pull / precision, root = sqrt(precision);
	double t;

	low = fmin(low, 0);
	high = fmax(high, 0);
	t = mean +
		stats_truncated_draw(
			c->rng, (low - mean) * root, (high - mean) * root) /
			root;
	return fmin(fmax(t, low), high);
}

/* [low, high] becomes what it shares with the t for which t * rate stays in
 * [gap_low, gap_high]. */
static void
narrow(double *low, double *high, double gap_low, double gap_high, double rate)
{
	if (rate > 0) {
		*low = fmax(*low, gap_low / rate);
		*high = fmin(*high, gap_high / rate);
	} else if (rate < 0) {
		*low = fmax(*low, gap_high / rate);
		*high = fmin(*high, gap_low / rate);
	}
}

static double
exact_residual(const struct hierarchy_chain *c, size_t place, size_t i)
{
	const size_t nx = c->m->n_x;
	double e = c->m->y[i] - c->theta[place];

	for (size_t j = 0; j < nx; j++)
		e -= c->m->exact_x[i * nx + j] * c->slope[j];
	return e;
}

static void
move_slope(struct hierarchy_chain *c, size_t j)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x;
	double low = -INFINITY, high = INFINITY, square = 0, product = 0, t;

	for (size_t i = 0; i < m->n_open; i++)
		narrow(&low, &high, m->low[i] - c->z[i], m->high[i] - c->z[i],
			m->open_x[i * nx + j]);
	for (size_t p = 0; p < m->n_batch; p++)
		for (size_t i = m->exact_from[p]; i < m->exact_from[p + 1];
			i++) {
			const double x = m->exact_x[i * nx + j];

			square += x * x;
			product += x * exact_residual(c, p, i);
		}
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);

	t = draw_move(c, square * to_e + m->slope_tau[j],
		product * to_e - c->slope[j] * m->slope_tau[j], low, high);
	c->slope[j] += t;
	for (size_t i = 0; i < m->n_open; i++)
		c->z[i] += t * m->open_x[i * nx + j];
}

/* How far each theta may move, and the sums of the exact rows' residuals. */
static void
measure_batch(struct hierarchy_chain *c, size_t place)
{
	const struct hierarchy_model *m = c->m;
	double low = -INFINITY, high = INFINITY, sum = 0;

	for (size_t i = m->open_from[place]; i < m->open_from[place + 1]; i++) {
		const double gap_low = m->low[i] - c->z[i];
		const double gap_high = m->high[i] - c->z[i];

		low = gap_low > low ? gap_low : low;
		high = gap_high < high ? gap_high : high;
	}
	for (size_t i = m->exact_from[place]; i < m->exact_from[place + 1]; i++)
		sum += exact_residual(c, place, i);
	c->range[2 * place] = low;
	c->range[2 * place + 1] = high;
	c->exact_sum[place] = sum;
}

static double
exact_count(const struct hierarchy_model *m, size_t place)
{
	return (double)(m->exact_from[place + 1] - m->exact_from[place]);
}

static void
move_theta(struct hierarchy_chain *c, size_t place, double t)
{
	c->theta[place] += t;
	c->range[2 * place] -= t;
	c->range[2 * place + 1] -= t;
	c->exact_sum[place] -= exact_count(c->m, place) * t;
}

/* The mean of a mix with its batches held at their distances. */
static void
move_mix(struct hierarchy_chain *c, size_t mix)
{
	const struct hierarchy_model *m = c->m;
	const size_t first = m->mix_from[mix], last = m->mix_from[mix + 1];
	const double tau = 1 / (m->prior.mean_sd * m->prior.mean_sd);
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);
	double low = -INFINITY, high = INFINITY, count = 0, sum = 0, t;

	for (size_t p = first; p < last; p++) {
		low = fmax(low, c->range[2 * p]);
		high = fmin(high, c->range[2 * p + 1]);
		count += exact_count(m, p);
		sum += c->exact_sum[p];
	}
	t = draw_move(c, count * to_e + tau, sum * to_e - c->mu[mix] * tau, low,
		high);
	c->mu[mix] += t;
	for (size_t p = first; p < last; p++)
		move_theta(c, p, t);
}

static void
move_batches(struct hierarchy_chain *c, size_t mix)
{
	const struct hierarchy_model *m = c->m;
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);
	const double to_b = 1 / (c->sd_batch * c->sd_batch);

	for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1]; p++)
		move_theta(c, p,
			draw_move(c, exact_count(m, p) * to_e + to_b,
				c->exact_sum[p] * to_e -
					(c->theta[p] - c->mu[mix]) * to_b,
				c->range[2 * p], c->range[2 * p + 1]));
}

/* The batches' spread with each batch held at its multiple of it. */
static void
move_sd_batch(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const double scale = m->prior.sd_batch_scale;
	const double to_e = 1 / (c->sd_specimen * c->sd_specimen);
	double low = -c->sd_batch, high = INFINITY, t;
	double square = 0, product = 0;

	for (size_t mix = 0; mix < m->n_mix; mix++)
		for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1];
			p++) {
			const double rate = (c->theta[p] - c->mu[mix]) /
				c->sd_batch;

			narrow(&low, &high, c->range[2 * p],
				c->range[2 * p + 1], rate);
			square += exact_count(m, p) * rate * rate;
			product += c->exact_sum[p] * rate;
		}
	t = draw_move(c, square * to_e + 1 / (scale * scale),
		product * to_e - c->sd_batch / (scale * scale), low, high);
	for (size_t mix = 0; mix < m->n_mix; mix++)
		for (size_t p = m->mix_from[mix]; p < m->mix_from[mix + 1]; p++)
			move_theta(c, p,
				t * (c->theta[p] - c->mu[mix]) / c->sd_batch);
	c->sd_batch += t;
}

static double
density_of_held_specimen(struct hierarchy_chain *c, double log_sd)
{
	const double sd = exp(log_sd);
	const double t = sd / c->m->prior.sd_specimen_scale;

	return (1 - (double)c->m->n_exact) * log_sd -
		0.5 * c->exact_square / (sd * sd) - 0.5 * t * t;
}

/* The specimens' spread with each residual held at its multiple of it. */
static void
move_sd_specimen(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const size_t nx = m->n_x;
	double low = -1, high = INFINITY, level;

	c->exact_square = 0;
	for (size_t p = 0; p < m->n_batch; p++) {
		/* z is where it was before the moves of theta */
		const double moved = c->theta[p] - c->theta_was[p];

		for (size_t i = m->open_from[p]; i < m->open_from[p + 1]; i++) {
			const double z = c->z[i] + moved;
			double r = z - c->theta[p];

			for (size_t j = 0; j < nx; j++)
				r -= m->open_x[i * nx + j] * c->slope[j];
			narrow(&low, &high, m->low[i] - z, m->high[i] - z, r);
		}
		for (size_t i = m->exact_from[p]; i < m->exact_from[p + 1];
			i++) {
			const double e = exact_residual(c, p, i);

			c->exact_square += e * e;
		}
	}
	low = log(c->sd_specimen) + log1p(fmin(fmax(low, -1), 0));
	high = log(c->sd_specimen) + log1p(fmax(high, 0));
	level = density_of_held_specimen(c, log(c->sd_specimen));
	c->sd_specimen = exp(hierarchy_slice(c, density_of_held_specimen,
		log(c->sd_specimen), c->width_specimen,
		fmax(low, hierarchy_least_log_sd), high, &level));
}

void
hierarchy_redraw(struct hierarchy_chain *c)
{
	const struct hierarchy_model *m = c->m;
	const bool has_batch = c->sd_batch > least_scaled_sd;

	for (size_t j = 0; j < m->n_x; j++)
		move_slope(c, j);
	for (size_t p = 0; p < m->n_batch; p++) {
		c->theta_was[p] = c->theta[p];
		measure_batch(c, p);
	}
	for (size_t mix = 0; mix < m->n_mix; mix++) {
		move_mix(c, mix);
		if (has_batch)
			move_batches(c, mix);
	}
	if (has_batch && !m->prior.has_sd_batch)
		move_sd_batch(c);
	if (!m->prior.has_sd_specimen)
		move_sd_specimen(c);
}

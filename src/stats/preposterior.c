/* preposterior.c - what further batches would be worth to a choice. */
#include "stats/preposterior.h"

#include "stats/normal.h"

#include <gsl/gsl_randist.h>
#include <math.h>
#include <string.h>

enum {
	BLOCKS = STATS_PREPOSTERIOR_BLOCKS,
	MIXES = STATS_PREPOSTERIOR_MIXES_MOST,
	DRAWS_LEAST = 2 * BLOCKS
};

/* Sum over blocks of consecutive draws. */
struct tally {
	double block[BLOCKS];
	size_t count[BLOCKS];
};

static void
tally_mean(const struct tally *t, double *mean, double *error)
{
	double sum = 0, n = 0, squares = 0;

	for (size_t b = 0; b < BLOCKS; b++) {
		sum += t->block[b];
		n += (double)t->count[b];
	}
	*mean = sum / n;
	for (size_t b = 0; b < BLOCKS; b++) {
		double off = t->block[b] / (double)t->count[b] - *mean;

		squares += off * off;
	}
	*error = sqrt(squares / (BLOCKS - 1) / BLOCKS);
}

static size_t
block_of(size_t draw, size_t n_draw)
{
	return draw * BLOCKS / n_draw;
}

static void
tally_add(struct tally *t, size_t draw, size_t n_draw, double value)
{
	size_t b = block_of(draw, n_draw);

	t->block[b] += value;
	t->count[b]++;
}

double
stats_unit_loss(double d)
{
	return stats_normal_density(d) - d * stats_normal_upper(d);
}

static enum err_code
check(const struct stats_preposterior_ask *ask, struct err *err)
{
	if (ask->n_mix < 2 || ask->n_mix > MIXES)
		return err_report(err, ERR_INPUT, "mixes",
			"The number of mixes to choose from is %zu; it takes "
			"from 2 to %d.",
			ask->n_mix, MIXES);
	if (ask->n_draw < DRAWS_LEAST)
		return err_report(err, ERR_INPUT, "draws",
			"There are %zu draws; at least %d are needed.",
			ask->n_draw, DRAWS_LEAST);
	if (ask->specimens < 1)
		return err_report(err, ERR_INPUT, "specimens",
			"A new batch needs at least one test piece.");
	if (ask->has_enough && !isfinite(ask->enough))
		return err_report(err, ERR_INPUT, "enough",
			"What is enough is not a finite number.");
	if (!(ask->reading_variance >= 0 && isfinite(ask->reading_variance)))
		return err_report(err, ERR_INPUT, "reading_variance",
			"got %.6g; it takes a number of at least 0.",
			ask->reading_variance);
	return ERR_NONE;
}

/* The draws turned so that more is better. */
static double
worth(const struct stats_preposterior_ask *ask, size_t draw, size_t mix)
{
	double mu = ask->mean[draw * ask->n_mix + mix];

	return ask->larger_is_better ? mu : -mu;
}

static double
enough(const struct stats_preposterior_ask *ask)
{
	return ask->larger_is_better ? ask->enough : -ask->enough;
}

/* What of a mix's worth counts. */
static double
counts(const struct stats_preposterior_ask *ask, size_t draw, size_t mix)
{
	double all = worth(ask, draw, mix);

	return ask->has_enough ? fmin(all, enough(ask)) : all;
}

static size_t
best_of(const double *value, size_t n)
{
	size_t best = 0;

	for (size_t m = 1; m < n; m++)
		if (value[m] > value[best])
			best = m;
	return best;
}

static void
set_moments(const struct stats_preposterior_ask *ask, double *centre,
	double *block, double *covariance)
{
	const size_t n = ask->n_mix;
	const double draws = (double)ask->n_draw;

	double count[BLOCKS] = {0};

	for (size_t i = 0; i < ask->n_draw; i++) {
		size_t b = block_of(i, ask->n_draw);

		count[b]++;
		for (size_t m = 0; m < n; m++) {
			centre[m] += worth(ask, i, m) / draws;
			block[b * n + m] += worth(ask, i, m);
		}
	}
	for (size_t b = 0; b < BLOCKS; b++)
		for (size_t m = 0; m < n; m++)
			block[b * n + m] /= count[b];
	for (size_t i = 0; i < ask->n_draw; i++) {
		double off[MIXES];

		for (size_t m = 0; m < n; m++)
			off[m] = worth(ask, i, m) - centre[m];
		for (size_t m = 0; m < n; m++)
			for (size_t k = 0; k < n; k++)
				covariance[m * n + k] += off[m] * off[k] /
					(draws - 1);
	}
}

static void
set_batch_sd(const struct stats_preposterior_ask *ask, double *batch_sd,
	double *variance)
{
	double sum = 0;

	for (size_t i = 0; i < ask->n_draw; i++) {
		double within = ask->sd_specimen[i] * ask->sd_specimen[i] +
			ask->reading_variance;
		double v = ask->sd_batch[i] * ask->sd_batch[i] +
			within / (double)ask->specimens;

		batch_sd[i] = sqrt(v);
		sum += v;
	}
	*variance = sum / (double)ask->n_draw;
}

static void
set_now(struct stats_preposterior *p)
{
	const struct stats_preposterior_ask *ask = &p->ask;
	struct tally regret = {0};
	double mean[MIXES] = {0}, value[MIXES] = {0};
	size_t wrong = 0;

	for (size_t i = 0; i < ask->n_draw; i++)
		for (size_t m = 0; m < ask->n_mix; m++)
			mean[m] += counts(ask, i, m);
	p->chosen = best_of(mean, ask->n_mix);
	for (size_t i = 0; i < ask->n_draw; i++) {
		double lost;

		for (size_t m = 0; m < ask->n_mix; m++)
			value[m] = counts(ask, i, m);
		lost = value[best_of(value, ask->n_mix)] - value[p->chosen];
		wrong += lost > 0;
		tally_add(&regret, i, ask->n_draw, lost);
	}
	p->p_wrong = (double)wrong / (double)ask->n_draw;
	tally_mean(&regret, &p->regret, &p->regret_error);
}

enum err_code
stats_preposterior_start(struct arena *a,
	const struct stats_preposterior_ask *ask, gsl_rng *rng,
	struct stats_preposterior *out, struct err *err)
{
	struct stats_preposterior p = {.ask = *ask};
	double *centre, *block, *covariance, *batch_sd, *error;
	const size_t n = ask->n_mix;

	TRY(check(ask, err));
	centre = arena_take(a, n, sizeof *centre);
	block = arena_take(a, BLOCKS * n, sizeof *block);
	covariance = arena_take(a, n * n, sizeof *covariance);
	batch_sd = arena_take(a, ask->n_draw, sizeof *batch_sd);
	error = arena_take(a, ask->n_draw * n, sizeof *error);
	if (centre == NULL || block == NULL || covariance == NULL ||
		batch_sd == NULL || error == NULL)
		return err_memory(err);
	set_moments(ask, centre, block, covariance);
	set_batch_sd(ask, batch_sd, &p.batch_variance);
	for (size_t i = 0; i < ask->n_draw * n; i++)
		error[i] = gsl_ran_gaussian_ziggurat(rng, 1);
	p.centre = centre;
	p.block_centre = block;
	p.covariance = covariance;
	p.batch_sd = batch_sd;
	p.error = error;
	set_now(&p);
	*out = p;
	return ERR_NONE;
}

/* The mixes of a design, and how their results move every mix:
 * E(mu_m | results) - centre_m = sum over k of weight[m][k] y_k. */
struct rule {
	size_t n; /* mixes that get batches */
	size_t mix[MIXES];
	double root[MIXES]; /* square root of the number of batches */
	double weight[MIXES][MIXES];
	double sd_left[MIXES]; /* of each mix's mu once the results are in */
};

/* Cholesky's factor in place of the lower half; false if not positive. */
static bool
factor(double c[MIXES][MIXES], size_t n)
{
	for (size_t i = 0; i < n; i++)
		for (size_t j = 0; j <= i; j++) {
			double sum = c[i][j];

			for (size_t k = 0; k < j; k++)
				sum -= c[i][k] * c[j][k];
			if (i == j && !(sum > 0))
				return false;
			c[i][j] = i == j ? sqrt(sum) : sum / c[j][j];
		}
	return true;
}

static void
solve(double c[MIXES][MIXES], size_t n, double *x)
{
	for (size_t i = 0; i < n; i++) {
		for (size_t k = 0; k < i; k++)
			x[i] -= c[i][k] * x[k];
		x[i] /= c[i][i];
	}
	for (size_t i = n; i-- > 0;) {
		for (size_t k = i + 1; k < n; k++)
			x[i] -= c[k][i] * x[k];
		x[i] /= c[i][i];
	}
}

static double
left_of(const struct stats_preposterior *p, const struct rule *rule, size_t m)
{
	const size_t n = p->ask.n_mix;
	double variance = p->covariance[m * n + m];

	for (size_t k = 0; k < rule->n; k++)
		variance -= rule->weight[m][k] *
			p->covariance[m * n + rule->mix[k]];
	return sqrt(fmax(0, variance));
}

/* The mean of what counts of a normal worth. */
static double
counts_of_normal(
	const struct stats_preposterior_ask *ask, double mean, double sd)
{
	double over = mean - enough(ask);

	if (!ask->has_enough)
		return mean;
	return mean -
		(sd > 0 ? sd * stats_unit_loss(-over / sd) : fmax(0, over));
}

static enum err_code
set_rule(const struct stats_preposterior *p, const size_t *extra,
	struct rule *rule, struct err *err)
{
	const size_t n = p->ask.n_mix;
	double c[MIXES][MIXES];

	rule->n = 0;
	for (size_t m = 0; m < n; m++)
		if (extra[m] > 0) {
			rule->root[rule->n] = sqrt((double)extra[m]);
			rule->mix[rule->n++] = m;
		}
	for (size_t i = 0; i < rule->n; i++) {
		for (size_t k = 0; k < rule->n; k++)
			c[i][k] =
				p->covariance[rule->mix[i] * n + rule->mix[k]];
		c[i][i] += p->batch_variance / (rule->root[i] * rule->root[i]);
	}
	if (!factor(c, rule->n))
		return err_report(err, ERR_NUMERIC, "design",
			"The draws do not tell the mixes apart: their spread "
			"is 0.");
	for (size_t m = 0; m < n; m++) {
		for (size_t k = 0; k < rule->n; k++)
			rule->weight[m][k] =
				p->covariance[m * n + rule->mix[k]];
		solve(c, rule->n, rule->weight[m]);
		rule->sd_left[m] = left_of(p, rule, m);
	}
	return ERR_NONE;
}

/* What counts of each mix in the mean, with the results of draw i, their errors
 * taken with `sign`. */
static void
foresee(const struct stats_preposterior *p, const struct rule *rule, size_t i,
	double sign, double *value)
{
	const size_t n = p->ask.n_mix;
	double y[MIXES];

	for (size_t k = 0; k < rule->n; k++) {
		size_t m = rule->mix[k];

		y[k] = worth(&p->ask, i, m) - p->centre[m] +
			sign * p->batch_sd[i] * p->error[i * n + m] /
				rule->root[k];
	}
	for (size_t m = 0; m < n; m++) {
		double fit = p->centre[m];

		for (size_t k = 0; k < rule->n; k++)
			fit += rule->weight[m][k] * y[k];
		value[m] = counts_of_normal(&p->ask, fit, rule->sd_left[m]);
	}
}

/* Over all draws, by block. */
struct seen {
	struct tally best, realised, wrong;
	struct tally of[MIXES]; /* each mix, were it chosen whatever comes */
	double share_ends[MIXES];
};

static void
see(const struct stats_preposterior *p, size_t i, const double *now,
	const double *then, struct seen *seen)
{
	const size_t n = p->ask.n_mix, n_draw = p->ask.n_draw;
	size_t end = best_of(then, n), best = best_of(now, n);

	seen->share_ends[end] += 0.5 / (double)n_draw;
	tally_add(&seen->best, i, n_draw, then[end]);
	tally_add(&seen->realised, i, n_draw, now[end] - now[p->chosen]);
	tally_add(&seen->wrong, i, n_draw, now[best] > now[end] ? 1 : 0);
	for (size_t m = 0; m < n; m++)
		tally_add(&seen->of[m], i, n_draw, then[m]);
}

/* The gain by block: the best after the results less the one mix that is best
 * whatever comes.  The centres are means of the same draws: where a block's mean
 * of mu lies off by d, its gain would lie off by d times the chance of ending at
 * that mix, less d of that one mix (with `enough`, by no more than that). */
static void
set_gain(const struct stats_preposterior *p, struct seen *seen,
	struct tally *gain)
{
	const size_t n = p->ask.n_mix;
	double mean[MIXES], error;
	size_t one;

	for (size_t m = 0; m < n; m++)
		tally_mean(&seen->of[m], &mean[m], &error);
	one = best_of(mean, n);
	*gain = seen->best;
	for (size_t b = 0; b < BLOCKS; b++) {
		gain->block[b] -= seen->of[one].block[b];
		for (size_t m = 0; m < n; m++) {
			double off = p->block_centre[b * n + m] - p->centre[m];
			double slope = seen->share_ends[m] - (m == one ? 1 : 0);

			gain->block[b] += (double)gain->count[b] * slope * off;
		}
	}
}

enum err_code
stats_preposterior_gain(const struct stats_preposterior *p, const size_t *extra,
	struct stats_preposterior_gain *out, struct err *err)
{
	static const double sign[] = {1, -1};
	struct stats_preposterior_gain got;
	struct seen seen = {0};
	struct tally gain;
	struct rule rule;

	TRY(set_rule(p, extra, &rule, err));
	for (size_t i = 0; i < p->ask.n_draw; i++) {
		double now[MIXES] = {0}, then[MIXES] = {0};

		for (size_t m = 0; m < p->ask.n_mix; m++)
			now[m] = counts(&p->ask, i, m);
		for (size_t s = 0; s < sizeof sign / sizeof sign[0]; s++) {
			foresee(p, &rule, i, sign[s], then);
			see(p, i, now, then, &seen);
		}
	}
	set_gain(p, &seen, &gain);
	tally_mean(&gain, &got.gain, &got.gain_error);
	got.gain = fmax(0, got.gain); /* it is, but for the last bit */
	tally_mean(&seen.realised, &got.realised, &got.realised_error);
	tally_mean(&seen.wrong, &got.p_wrong, &got.p_wrong_error);
	*out = got;
	return ERR_NONE;
}

/* test_hierarchy_quadrature.c - long runs of the hierarchical sampler against
 * the posterior by quadrature, for a trial so small that it can be had.
 *
 * Given the two spreads everything else is normal, so the exact posterior is an
 * integral over the two of them, and over the logs of the rows that are open.
 * It is taken here with the whole covariance matrix of the rows, by Cholesky
 * and Gauss-Legendre, and shares no formula with the sampler, which works with
 * sums over batches.  The data are invented. */
#include "support.h"

#include "stats/hierarchy.h"

#include <gsl/gsl_blas.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_linalg.h>

#include <math.h>
#include <stdlib.h>

enum {
	N_MIX = 2,
	N_BATCH = 4,
	N_ROW = 12,
	N_EFFECT = N_MIX + 1, /* the means and the slope */
	N_OPEN_MOST = 2,
	N_CUT = 5, /* places where a distribution function is compared */
	N_PARAMETER = N_EFFECT + 3,
	N_COMPARED = N_CUT + 2, /* and the mean and the mean square */
	N_CHAIN = 64,
	N_KEEP = 4000
};

enum parameter { SD_BATCH = N_EFFECT, SD_SPECIMEN, DIFFERENCE };

static const char *const parameter_name[N_PARAMETER] = {
	"mean 1", "mean 2", "slope", "sd_batch", "sd_specimen", "difference"};

/* Where each is looked at: about the posterior's 5, 25, 50, 75 and 95 %. */
static const double cut[N_PARAMETER][N_CUT] = {
	{5.35, 5.55, 5.66, 5.78, 5.97},
	{5.55, 5.75, 5.87, 6.00, 6.20},
	{-0.05, 0.12, 0.24, 0.37, 0.55},
	{0.02, 0.08, 0.16, 0.27, 0.50},
	{0.12, 0.15, 0.18, 0.22, 0.29},
	{-0.15, 0.08, 0.20, 0.34, 0.58},
};

static const double centre = 5.7, mean_sd = 0.5, slope_sd = 0.5,
		    scale_batch = 0.3, scale_specimen = 0.5;

struct data {
	double low[N_ROW], high[N_ROW], x[N_ROW];
	size_t row_batch[N_ROW], batch_mix[N_BATCH];
	size_t open[N_OPEN_MOST], n_open;
};

static struct data
invent(size_t n_open)
{
	static const double y[N_ROW] = {
		262, 391, 301, 346, 247, 298, 262, 443, 355, 402, 268, 321};
	static const double x[N_ROW] = {-0.9, 0.3, 0.7, -0.2, -0.5, 0.1, 0.4,
		0.8, -0.7, 0.6, -0.1, -0.4};
	struct data d = {.n_open = n_open, .open = {1, 6}};

	for (size_t i = 0; i < N_ROW; i++) {
		d.low[i] = d.high[i] = y[i];
		d.x[i] = x[i];
		d.row_batch[i] = i % N_BATCH;
	}
	for (size_t b = 0; b < N_BATCH; b++)
		d.batch_mix[b] = b % N_MIX;
	if (n_open > 0) {
		d.low[1] = 350;
		d.high[1] = 437.5;
	}
	if (n_open > 1) {
		d.low[6] = 250;
		d.high[6] = (double)INFINITY;
	}
	return d;
}

/* The exact answer: expectations of the parameters, of their squares, and of
 * their being at most each cut. */
struct exact {
	double total, of[N_PARAMETER][N_COMPARED];
};

/* Nodes of a Gauss-Legendre rule on [low, high]. */
struct rule {
	double at[256], weight[256];
	size_t n;
};

static struct rule
rule_on(double low, double high, size_t n)
{
	gsl_integration_glfixed_table *table =
		gsl_integration_glfixed_table_alloc(n);
	struct rule r = {.n = n};

	for (size_t i = 0; i < n; i++)
		gsl_integration_glfixed_point(
			low, high, i, &r.at[i], &r.weight[i], table);
	gsl_integration_glfixed_table_free(table);
	return r;
}

/* The logs an open row may take.  One without end is taken to the end by
 * z = low + t / (2 (1 - t)). */
static struct rule
rule_of_row(double low, double high, size_t n)
{
	struct rule r = rule_on(0, 1, n);

	for (size_t i = 0; i < n; i++) {
		const double t = r.at[i];

		if (isfinite(high)) {
			r.at[i] = log(low) + t * log(high / low);
			r.weight[i] *= log(high / low);
		} else {
			r.at[i] = log(low) + 0.5 * t / (1 - t);
			r.weight[i] *= 0.5 / ((1 - t) * (1 - t));
		}
	}
	return r;
}

/* At one pair of spreads: the rows' covariance as its Cholesky factor L, and
 * what is needed of it. */
struct at_spreads {
	double sd_batch, sd_specimen, log_weight;
	double factor[N_ROW * N_ROW];
	/* L^-1 times: the logs with 0 for open rows; each open row's unit
	 * vector; the covariance of the rows with each effect */
	double y[N_ROW], unit[N_OPEN_MOST][N_ROW], effect[N_EFFECT][N_ROW];
	double covariance[N_EFFECT][N_EFFECT]; /* posterior */
};

static double
loading(const struct data *d, size_t row, size_t effect)
{
	if (effect == N_MIX)
		return d->x[row];
	return d->batch_mix[d->row_batch[row]] == effect;
}

static double
prior_variance(size_t effect)
{
	return effect == N_MIX ? slope_sd * slope_sd : mean_sd * mean_sd;
}

static void
solve_lower(const double *factor, double *b)
{
	gsl_matrix_const_view l = gsl_matrix_const_view_array(
		factor, N_ROW, N_ROW);
	gsl_vector_view v = gsl_vector_view_array(b, N_ROW);

	(void)gsl_blas_dtrsv(
		CblasLower, CblasNoTrans, CblasNonUnit, &l.matrix, &v.vector);
}

static double
product(const double *a, const double *b)
{
	double sum = 0;

	for (size_t i = 0; i < N_ROW; i++)
		sum += a[i] * b[i];
	return sum;
}

static double
covariance_of_rows(
	const struct data *d, const struct at_spreads *s, size_t i, size_t j)
{
	double sum = i == j ? s->sd_specimen * s->sd_specimen : 0;

	if (d->row_batch[i] == d->row_batch[j])
		sum += s->sd_batch * s->sd_batch;
	for (size_t k = 0; k < N_EFFECT; k++)
		sum += loading(d, i, k) * loading(d, j, k) * prior_variance(k);
	return sum;
}

static void
factorise(const struct data *d, struct at_spreads *s)
{
	gsl_matrix_view v = gsl_matrix_view_array(s->factor, N_ROW, N_ROW);

	for (size_t i = 0; i < N_ROW; i++)
		for (size_t j = 0; j < N_ROW; j++)
			s->factor[i * N_ROW + j] = covariance_of_rows(
				d, s, i, j);
	(void)gsl_linalg_cholesky_decomp1(&v.matrix);
	for (size_t i = 0; i < N_ROW; i++) {
		s->y[i] = d->low[i] < d->high[i] ? 0 : log(d->low[i]);
		s->y[i] -= loading(d, i, 0) * centre +
			loading(d, i, 1) * centre;
		for (size_t o = 0; o < d->n_open; o++)
			s->unit[o][i] = i == d->open[o];
		for (size_t k = 0; k < N_EFFECT; k++)
			s->effect[k][i] = loading(d, i, k) * prior_variance(k);
	}
	solve_lower(s->factor, s->y);
	for (size_t o = 0; o < d->n_open; o++)
		solve_lower(s->factor, s->unit[o]);
	for (size_t k = 0; k < N_EFFECT; k++)
		solve_lower(s->factor, s->effect[k]);
	for (size_t k = 0; k < N_EFFECT; k++)
		for (size_t l = 0; l < N_EFFECT; l++)
			s->covariance[k][l] = (k == l ? prior_variance(k) : 0) -
				product(s->effect[k], s->effect[l]);
	for (size_t i = 0; i < N_ROW; i++)
		s->log_weight -= log(s->factor[i * N_ROW + i]);
}

static void
add_value(struct exact *e, size_t parameter, double weight, double mean,
	double variance)
{
	double *of = e->of[parameter];

	*of++ += weight * mean;
	*of++ += weight * (mean * mean + variance);
	for (size_t c = 0; c < N_CUT; c++) {
		const double off = cut[parameter][c] - mean;

		if (variance > 0)
			*of++ += weight *
				gsl_cdf_ugaussian_P(off / sqrt(variance));
		else
			*of++ += weight * (off >= 0);
	}
}

/* Adds one point: z are the logs of the open rows. */
static void
add_point(const struct data *d, const struct at_spreads *s, const double *z,
	double weight, struct exact *e)
{
	double r[N_ROW], mean[N_EFFECT], density;

	for (size_t i = 0; i < N_ROW; i++) {
		r[i] = s->y[i];
		for (size_t o = 0; o < d->n_open; o++)
			r[i] += z[o] * s->unit[o][i];
	}
	/* the factor e^-10 only keeps the sums of a size */
	density = weight * exp(s->log_weight - 0.5 * product(r, r) - 10);
	if (!(density > 0))
		return;
	for (size_t k = 0; k < N_EFFECT; k++) {
		mean[k] = product(s->effect[k], r) + (k < N_MIX ? centre : 0);
		add_value(e, k, density, mean[k], s->covariance[k][k]);
	}
	add_value(e, DIFFERENCE, density, mean[1] - mean[0],
		s->covariance[0][0] + s->covariance[1][1] -
			2 * s->covariance[0][1]);
	add_value(e, SD_BATCH, density, s->sd_batch, 0);
	add_value(e, SD_SPECIMEN, density, s->sd_specimen, 0);
	e->total += density;
}

static void
add_spreads(const struct data *d, const struct rule row[N_OPEN_MOST],
	struct at_spreads *s, double weight, struct exact *e)
{
	const size_t n_0 = d->n_open > 0 ? row[0].n : 1;
	const size_t n_1 = d->n_open > 1 ? row[1].n : 1;
	const double b = s->sd_batch / scale_batch;
	const double t = s->sd_specimen / scale_specimen;

	s->log_weight = -0.5 * (b * b + t * t);
	factorise(d, s);
	for (size_t i = 0; i < n_0; i++)
		for (size_t j = 0; j < n_1; j++) {
			double z[N_OPEN_MOST] = {0}, w = weight;

			if (d->n_open > 0) {
				z[0] = row[0].at[i];
				w *= row[0].weight[i];
			}
			if (d->n_open > 1) {
				z[1] = row[1].at[j];
				w *= row[1].weight[j];
			}
			add_point(d, s, z, w, e);
		}
}

enum { N_RULE = N_CUT + 2 };

/* One spread over [0, most]: a rule between each two of its cuts, so that the
 * steps at the cuts cost nothing, and two beyond the last. */
static void
spread_nodes(const double *at_cut, double most, size_t n, struct rule *r)
{
	double from = 0;

	for (size_t c = 0; c < N_RULE; c++) {
		const double last = at_cut[N_CUT - 1];
		const double to = c < N_CUT ? at_cut[c]
			: c == N_CUT        ? 2.5 * last
					    : most;

		r[c] = rule_on(from, to, n);
		from = to;
	}
}

/* The specimens' spread is integrated to 3 and the batches' to 1.8, six scales
 * of their half-normal priors: chance beyond 2e-9 before any data. */
static struct exact
integrate(const struct data *d, size_t n_spread, size_t n_open)
{
	const double most_batch = 6 * scale_batch,
		     most_specimen = 6 * scale_specimen;
	struct rule batch[N_RULE], specimen[N_RULE], row[N_OPEN_MOST];
	struct exact e = {0};

	for (size_t o = 0; o < d->n_open; o++)
		row[o] = rule_of_row(
			d->low[d->open[o]], d->high[d->open[o]], n_open);
	spread_nodes(cut[SD_BATCH], most_batch, n_spread, batch);
	spread_nodes(cut[SD_SPECIMEN], most_specimen, n_spread, specimen);
	for (size_t b = 0; b < N_RULE * n_spread; b++)
		for (size_t s = 0; s < N_RULE * n_spread; s++) {
			const struct rule *rb = &batch[b / n_spread];
			const struct rule *rs = &specimen[s / n_spread];
			struct at_spreads at = {
				.sd_batch = rb->at[b % n_spread],
				.sd_specimen = rs->at[s % n_spread]};

			add_spreads(d, row, &at,
				rb->weight[b % n_spread] *
					rs->weight[s % n_spread],
				&e);
		}
	for (size_t k = 0; k < N_PARAMETER; k++)
		for (size_t i = 0; i < N_COMPARED; i++)
			e.of[k][i] /= e.total;
	return e;
}

static double
parameter_of(const struct stats_hierarchy *h, size_t draw, size_t parameter)
{
	const double *mean = h->mean + draw * N_MIX;

	switch ((enum parameter)parameter) {
	case SD_BATCH:
		return h->sd_batch[draw];
	case SD_SPECIMEN:
		return h->sd_specimen[draw];
	case DIFFERENCE:
		return mean[1] - mean[0];
	}
	return parameter < N_MIX ? mean[parameter] : h->slope[draw];
}

static double
compared(double value, size_t parameter, size_t i)
{
	if (i == 0)
		return value;
	if (i == 1)
		return value * value;
	return value <= cut[parameter][i - 2];
}

/* The chains have nothing to do with each other, so the spread of their means
 * is the Monte Carlo error, whatever the draws of a chain have in common. */
static double
errors_off(const struct stats_hierarchy *h, size_t parameter, size_t i,
	double want)
{
	double sum = 0, square = 0, error;

	for (size_t c = 0; c < N_CHAIN; c++) {
		double mean = 0;

		for (size_t k = 0; k < h->n_draw / N_CHAIN; k++)
			mean += compared(
				parameter_of(h, c * (h->n_draw / N_CHAIN) + k,
					parameter),
				parameter, i);
		mean = mean * N_CHAIN / (double)h->n_draw - want;
		sum += mean;
		square += mean * mean;
	}
	sum /= N_CHAIN;
	error = sqrt((square / N_CHAIN - sum * sum) / (N_CHAIN - 1));
	return sum / error;
}

static struct stats_hierarchy
sample(struct fixture *f, const struct data *d, size_t n_keep)
{
	const double slope_mean = 0;
	const struct stats_hierarchy_ask ask = {.n_row = N_ROW,
		.n_mix = N_MIX,
		.n_batch = N_BATCH,
		.n_x = 1,
		.low = d->low,
		.high = d->high,
		.x = d->x,
		.row_batch = d->row_batch,
		.batch_mix = d->batch_mix,
		.prior = {.mean_centre = centre,
			.mean_sd = mean_sd,
			.sd_batch_scale = scale_batch,
			.sd_specimen_scale = scale_specimen,
			.slope_mean = &slope_mean,
			.slope_sd = &slope_sd},
		.n_chain = N_CHAIN,
		.n_warm = 500,
		.n_keep = n_keep,
		.n_thread = 2,
		.seed = 31013};
	struct stats_hierarchy got;

	assert_ok(stats_hierarchy_sample(f->a, &ask, &got, &f->err), &f->err);
	return got;
}

/* FOAMWRIGHT_LONG=TIMES makes the runs that many times longer. */
static size_t
draws_a_chain(void)
{
	const char *times = getenv("FOAMWRIGHT_LONG");

	return N_KEEP * (times != NULL ? (size_t)atoi(times) : 1);
}

/* 42 numbers of each data set.  With 63 degrees of freedom a right one is
 * further off than 4.5 errors once in 33,000. */
static void
check_posterior(struct fixture *f, size_t n_open, size_t n_spread, size_t n_row)
{
	static const double errors_allowed = 4.5;
	const struct data d = invent(n_open);
	const struct exact want = integrate(&d, n_spread, n_row);
	const struct stats_hierarchy got = sample(f, &d, draws_a_chain());
	double farthest = 0;

	for (size_t k = 0; k < N_PARAMETER; k++) {
		print_message("%-12s mean %.8f ms %.8f  off by",
			parameter_name[k], want.of[k][0], want.of[k][1]);
		for (size_t i = 0; i < N_COMPARED; i++) {
			const double off = errors_off(
				&got, k, i, want.of[k][i]);

			print_message(" %.2f", off);
			farthest = fmax(farthest, fabs(off));
		}
		print_message(" errors; F");
		for (size_t i = 2; i < N_COMPARED; i++)
			print_message(" %.6f", want.of[k][i]);
		print_message("\n");
	}
	assert_true(farthest < errors_allowed);
}

static void
hierarchy__draws_the_posterior_of_exact_rows(void **state)
{
	check_posterior(*state, 0, 16, 0);
}

static void
hierarchy__draws_the_posterior_with_an_interval(void **state)
{
	check_posterior(*state, 1, 12, 16);
}

static void
hierarchy__draws_the_posterior_with_an_open_end(void **state)
{
	check_posterior(*state, 2, 10, 20);
}

/* The quadrature itself: with more nodes nothing moves. */
static void
quadrature__has_nodes_enough(void **state)
{
	static const size_t few[] = {16, 12, 10}, many[] = {20, 15, 12};
	static const size_t few_row[] = {0, 16, 20}, many_row[] = {0, 20, 24};

	(void)state;
	for (size_t n_open = 0; n_open <= N_OPEN_MOST; n_open++) {
		const struct data d = invent(n_open);
		const struct exact got = integrate(
			&d, few[n_open], few_row[n_open]);
		const struct exact want = integrate(
			&d, many[n_open], many_row[n_open]);

		for (size_t k = 0; k < N_PARAMETER; k++)
			for (size_t i = 0; i < N_COMPARED; i++)
				assert_near(
					got.of[k][i], want.of[k][i], 0, 5e-6);
	}
}

static const struct CMUnitTest tests[] = {
	TEST(quadrature__has_nodes_enough),
	TEST(hierarchy__draws_the_posterior_of_exact_rows),
	TEST(hierarchy__draws_the_posterior_with_an_interval),
	TEST(hierarchy__draws_the_posterior_with_an_open_end),
};

TEST_MAIN(tests)

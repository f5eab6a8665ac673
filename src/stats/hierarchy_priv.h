/* hierarchy_priv.h - what the parts of the hierarchical model share. */
#ifndef STATS_HIERARCHY_PRIV_H
#define STATS_HIERARCHY_PRIV_H

#include "stats/fastnormal.h"
#include "stats/hierarchy.h"

/* The batches of one mix that have the same number of rows weigh the same, so
 * the density of the spreads needs only sums over each such cell.  A class is
 * all batches of the same number of rows. */
struct hierarchy_class {
	double count;   /* rows of such a batch, 0 or more */
	double n_batch; /* how many there are */
};

struct hierarchy_cell {
	size_t from, to; /* places of its batches */
	size_t class_at;
	double n_batch; /* to - from */
};

/* The exact rows of a batch: how many, and their mean logs and covariates. */
struct hierarchy_exact {
	double count, y;
};

/* The data laid out for the sampler.  Batches stand in the order of their
 * mixes, and within a mix of their row counts ("place" is a batch's place in
 * that order).  Exact rows are kept as sums, open ones (intervals) one by one
 * in the order of their batches.  Logs are less the prior's centre and less
 * x . slope_mean, so every prior mean is 0.
 * k = n_x + 1 columns: the covariates, then y.  A triangle holds the products
 * of k columns row after row, j * (j + 1) / 2 + l for l <= j, so that those of
 * y come last; those of y are 0 here where open rows decide them. */
struct hierarchy_model {
	size_t n_row, n_mix, n_batch, n_x, n_open, n_exact;
	size_t n_filled;        /* batches that have rows */
	size_t redraw_every;    /* sweeps from one second draw to the next */
	const size_t *mix_from; /* n_mix + 1: first place of each mix */
	const size_t *batch_of; /* n_batch: the caller's index of a place */

	const struct hierarchy_class *class; /* n_class */
	const size_t *class_of;              /* n_batch: by place */
	const struct hierarchy_cell *cell;   /* n_cell; none without rows */
	const size_t *mix_cell;              /* n_mix + 1: first cell */
	size_t n_class, n_cell;

	const double *x_mean; /* n_batch * n_x */
	const double *x_off;  /* n_batch * n_x: x_mean less the mix's centre */
	const double *x_centre; /* n_mix * n_x: unweighted mean of x_mean */

	const size_t *open_from;        /* n_batch + 1 */
	const double *low, *high;       /* n_open */
	const double *open_x, *open_dx; /* n_open * n_x; dx: x - x_mean */

	const struct hierarchy_exact *exact; /* n_batch */
	const double *exact_x;      /* n_batch * n_x: means of exact rows */
	const double *exact_within; /* triangle about those means */
	const double *within_x;     /* triangle of n_x columns, all rows, about
				 * x_mean */

	struct stats_hierarchy_prior prior;
	const double *slope_mean, *slope_tau; /* n_x; tau = 1 / sd^2 */
	double tau;                           /* of the means */
	const struct fastnormal *normal;
};

/* Where a parameter may move to. */
struct hierarchy_window {
	double low, high;
};

/* One chain: where it is, and the scratch of its steps. */
struct hierarchy_chain {
	const struct hierarchy_model *m;
	struct fastrand rand;
	double sd_batch, sd_specimen;
	double *mu, *slope; /* n_mix, n_x */
	double *theta;      /* n_batch: mu + u */
	double *z;          /* n_open: the drawn logs */
	double *z_sum;      /* n_batch: their sums */

	double *within;       /* triangle about batch means */
	double *y_off;        /* n_batch: batch means less the mix's centre */
	double *centre;       /* n_mix * k: unweighted means of batch means */
	double *cell_sum;     /* n_cell * k: of (x_off, y_off) */
	double *class_square; /* n_class * triangle: of their products */

	double *class_weight; /* n_class: n / (var_e + n var_b) */
	double *class_sd;     /* n_class: of a batch given its mean */
	double *weight;       /* n_mix: sums of batch weights */
	double *first;        /* n_mix * k: weighted sums of the columns */
	double *scratch;      /* k */
	double *factor;       /* triangle: Cholesky factor of the precision */

	struct hierarchy_window *range; /* n_batch: how far theta may move */
	double *theta_was;              /* n_batch: theta before it was moved */
	double *exact_sum;   /* n_batch: sums of residuals of exact rows */
	double exact_square; /* sum of their squares */
	double move_square, move_product; /* of a move of sd_batch, see there */
	double width_batch, width_specimen; /* of the slices */
	size_t n_sweep;                     /* so far */
};

/* Logs of the least and the largest spread a chain may take, so that no square
 * under- or overflows. */
extern const double hierarchy_least_log_sd, hierarchy_most_log_sd;

/* Products of k columns; the place of column j's first product. */
static inline size_t
hierarchy_triangle(size_t k)
{
	return k * (k + 1) / 2;
}

static inline double
hierarchy_dot(const double *a, const double *b, size_t n)
{
	double sum = 0;

	for (size_t i = 0; i < n; i++)
		sum += a[i] * b[i];
	return sum;
}

/* The larger and the smaller, without the library's care for NaN. */
static inline double
hierarchy_max(double a, double b)
{
	return a > b ? a : b;
}

static inline double
hierarchy_min(double a, double b)
{
	return a < b ? a : b;
}

enum err_code hierarchy_check(
	const struct stats_hierarchy_ask *ask, struct err *err) MUST_CHECK;
enum err_code hierarchy_layout(struct arena *a,
	const struct stats_hierarchy_ask *ask, struct hierarchy_model *m,
	struct err *err) MUST_CHECK;
enum err_code hierarchy_chain_take(struct arena *a,
	const struct hierarchy_model *m, struct hierarchy_chain *c,
	struct err *err) MUST_CHECK;

/* First state; then one sweep: spreads, slopes, means and batches, the second
 * draws with residuals held, latent logs.  is_warm lets the slices learn their
 * widths. */
void hierarchy_start(struct hierarchy_chain *c);
void hierarchy_sweep(struct hierarchy_chain *c, bool is_warm);

/* hierarchy_answer.c: the type 7 quantile of n draws, which are reordered; in
 * linear time. */
double hierarchy_quantile(double *draw, size_t n, double p);

/* hierarchy_spread.c: the spreads given the logs, the rest integrated out, and
 * the factor of the slopes' precision left at them. */
void hierarchy_spreads(struct hierarchy_chain *c, bool is_warm);

/* Log density of a spread's prior, without its constant. */
double hierarchy_spread_prior(double sd, double scale, double log_sd);

/* hierarchy_shift.c: the second draws (of no use where no row is open). */
void hierarchy_redraw(struct hierarchy_chain *c);

/* A slice draw of one variable in [low, high] from x, where the log density is
 * *level; *level becomes that of the draw, and f was called last with it. */
typedef double hierarchy_density(struct hierarchy_chain *c, double x);
double hierarchy_slice(struct hierarchy_chain *c, hierarchy_density *f,
	double x, double width, double low, double high, double *level);

#endif /* STATS_HIERARCHY_PRIV_H */

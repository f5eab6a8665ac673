/* hierarchy_priv.h - what the parts of the hierarchical model share. */
#ifndef STATS_HIERARCHY_PRIV_H
#define STATS_HIERARCHY_PRIV_H

#include "stats/hierarchy.h"

#include <gsl/gsl_rng.h>

/* The data laid out for the sampler.  Batches stand in the order of their
 * mixes ("place" is a batch's place in that order), rows in the order of their
 * batches, exact rows and open ones (intervals) apart.  Bounds are logs less
 * the prior's centre and less x . slope_mean, so every prior mean is 0. */
struct hierarchy_model {
	size_t n_row, n_mix, n_batch, n_x, n_open, n_exact;
	size_t n_filled;        /* batches that have rows */
	const size_t *mix_from; /* n_mix + 1: first place of each mix */
	const size_t *batch_of; /* n_batch: the caller's index of a place */
	const double *count;    /* n_batch: rows of the batch */
	const double *x_mean;   /* n_batch * n_x */
	const double *within;   /* n_x * n_x: products of x about batch means */
	const size_t *open_from, *exact_from; /* n_batch + 1 */
	const double *low, *high;             /* n_open */
	const double *open_x, *open_dx;       /* n_open * n_x; dx: x - x_mean */
	const double *y;                      /* n_exact */
	const double *exact_x, *exact_dx;     /* n_exact * n_x */
	struct stats_hierarchy_prior prior;
	const double *slope_mean, *slope_tau; /* n_x; tau = 1 / sd^2 */
};

/* One chain: where it is, and the scratch of its steps.  k = n_x + 1 columns:
 * the covariates and y. */
struct hierarchy_chain {
	const struct hierarchy_model *m;
	gsl_rng *rng;
	double sd_batch, sd_specimen;
	double *mu, *slope; /* n_mix, n_x */
	double *theta;      /* n_batch: mu + u */
	double *z;          /* n_open: the drawn logs */
	double *column;     /* n_batch * k: batch means less the mix's centre */
	double *centre;     /* n_mix * k: unweighted means of batch means */
	double *within;     /* k * k: products about batch means */
	double *weight;     /* n_mix: sums of batch weights */
	double *first;      /* n_mix * k: weighted sums of column */
	double *factor;     /* k * k: Cholesky factor of the precision */
	double *range;      /* n_batch * 2: how far theta may move */
	double *theta_was;  /* n_batch: theta before it was moved */
	double *exact_sum;  /* n_batch: sums of residuals of exact rows */
	double exact_square;                /* sum of their squares */
	double width_batch, width_specimen; /* of the slices */
};

/* Logs of the least and the largest spread a chain may take, so that no square
 * under- or overflows. */
extern const double hierarchy_least_log_sd, hierarchy_most_log_sd;

enum err_code hierarchy_check(
	const struct stats_hierarchy_ask *ask, struct err *err) MUST_CHECK;
enum err_code hierarchy_layout(struct arena *a,
	const struct stats_hierarchy_ask *ask, struct hierarchy_model *m,
	struct err *err) MUST_CHECK;
enum err_code hierarchy_chain_take(struct arena *a,
	const struct hierarchy_model *m, struct hierarchy_chain *c,
	struct err *err) MUST_CHECK;

/* First state; then one sweep: latent logs, spreads, means, and the second
 * draws with residuals held.  is_warm lets the slices learn their widths. */
void hierarchy_start(struct hierarchy_chain *c);
void hierarchy_sweep(struct hierarchy_chain *c, bool is_warm);

/* hierarchy_shift.c: the second draws (of no use where no row is open). */
void hierarchy_redraw(struct hierarchy_chain *c);

/* A slice draw of one variable in [low, high] from x, where the log density is
 * *level; *level becomes that of the draw, and f was called last with it. */
typedef double hierarchy_density(struct hierarchy_chain *c, double x);
double hierarchy_slice(struct hierarchy_chain *c, hierarchy_density *f,
	double x, double width, double low, double high, double *level);

#endif /* STATS_HIERARCHY_PRIV_H */

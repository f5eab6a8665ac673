/* hierarchy.h - the Bayesian estimate of several mixes at once, from batches
 * and specimens whose readings may be intervals.
 *
 * Pure.  Model, priors, sampler and validation: docs/methods/hierarchy.md.
 *
 * For a positive quantity y of specimen s of batch b of mix m
 *
 *     log y = mu_m + x . beta + u_b + e_s,
 *     u_b ~ N(0, sd_batch^2),  e_s ~ N(0, sd_specimen^2),
 *
 * and of y it is known only that low <= y <= high: low = high is an exact
 * reading, low = 0 "less than", high = INFINITY "more than".  "Mix" is whatever
 * group is to have one mean; it may be a matrix that several mixes share.
 *
 * Sources: Tanner and Wong (1987), Journal of the American Statistical
 * Association 82, 528-540 (the unknown part of a censored reading is drawn);
 * Liu (1994), same journal 89, 958-966 (means and slopes integrated out while
 * the spreads are drawn); Yu and Meng (2011), Journal of Computational and
 * Graphical Statistics 20, 531-570 (each parameter drawn a second time with the
 * residuals held, so that heavy censoring does not make the chain creep);
 * Neal (2003), Annals of Statistics 31, 705-767 (slice draws).  Gelman (2006),
 * Bayesian Analysis 1, 515-534, for half-normal priors of spreads. */
#ifndef STATS_HIERARCHY_H
#define STATS_HIERARCHY_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* All on the log scale.  slope_mean NULL: all 0; slope_sd NULL: all 1.
 * A spread is half-normal(scale), or, where its log_sd is above 0, lognormal
 * with the scale as median: log sd ~ N(log scale, log_sd^2).  Scales are above
 * 0. */
struct stats_hierarchy_prior {
	double mean_centre, mean_sd; /* mu_m ~ N(centre, sd^2), sd > 0 */
	double sd_batch_scale, sd_batch_log_sd;
	double sd_specimen_scale, sd_specimen_log_sd;
	const double *slope_mean; /* n_x */
	const double *slope_sd;   /* n_x, > 0 */
	bool has_sd_batch;        /* sd_batch is known: sd_batch >= 0 */
	bool has_sd_specimen;     /* sd_specimen is known: sd_specimen > 0 */
	double sd_batch, sd_specimen;
};

/* Pointers are borrowed for the call. */
struct stats_hierarchy_ask {
	size_t n_row, n_mix, n_batch, n_x;
	const double *low, *high; /* n_row, on the quantity's own scale */
	const size_t *row_batch;  /* n_row, each below n_batch */
	const size_t *batch_mix;  /* n_batch, each below n_mix */
	const double *x; /* n_row * n_x, row after row, centred by the caller on
			  * where the mixes are to be compared; NULL if n_x = 0 */
	struct stats_hierarchy_prior prior;
	size_t n_chain, n_warm, n_keep; /* a chain: n_warm dropped, n_keep kept
					 * (at least 8) */
	size_t n_thread;                /* 0: one a processor */
	uint64_t seed;
	bool keep_batch; /* keep the batch effects too: n_draw * n_batch */
};

/* The draws, chain after chain; everything in the arena. */
struct stats_hierarchy {
	size_t n_draw; /* n_chain * n_keep */
	size_t n_mix, n_x, n_batch;
	const double *mean;  /* n_draw * n_mix: mu, on the log scale */
	const double *slope; /* n_draw * n_x */
	const double *sd_batch, *sd_specimen; /* n_draw */
	const double *batch;                  /* n_draw * n_batch: u, or NULL */
	/* Over the means, slopes and spreads: the largest split R-hat and the
	 * least bulk effective sample size (diagnose.h).  Values that were
	 * given as known do not count. */
	double rhat_max, ess_min;
	const double *ess_mean; /* n_mix */
};

/* stats_hierarchy_default_prior(low, high, n_row, prior):
 * A weak prior, a stated choice and not a finding.  The centre of the means is
 * the log of the median reading (an interval counts as the geometric mean of
 * its ends, an open one as its finite end); their sd is 1.5, so that a mix may
 * lie twenty times under or over that before the prior resists.  The centre is
 * taken from the data only to be free of units: where the spreads are 0.1 and
 * 0.15, a shift of it moves an estimate that rests on a single specimen by
 * 0.0325 / (0.0325 + 1.5^2), a seventieth of the shift.
 * sd_batch ~ half-normal(0.3), sd_specimen ~ half-normal(0.5): spreads of up
 * to about 60 % between batches and 100 % within are possible.  Slopes N(0, 1).
 * n_row may be 0: the centre is then 0. */
void stats_hierarchy_default_prior(const double *low, const double *high,
	size_t n_row, struct stats_hierarchy_prior *prior);

/* stats_hierarchy_sample(arena, ask, out, err):
 * Draws from the posterior.  The same seed gives the same bits whatever
 * n_thread is.  Time and memory are linear in n_row.  A mix without rows, or a
 * batch without, keeps its prior.  No rows at all: the prior.
 * ERR_INPUT   a row, an index, a prior or a count is out of range (err->field
 *             "rows[3]", "prior.mean_sd", ...); or exact readings agree so
 *             completely that the spread would be put at zero for certain
 * ERR_MEMORY  the arena is full */
enum err_code stats_hierarchy_sample(struct arena *a,
	const struct stats_hierarchy_ask *ask, struct stats_hierarchy *out,
	struct err *err) MUST_CHECK;

/* One mix against the baseline and against all. */
struct stats_mix_answer {
	double median, low, high; /* exp(mu), on the quantity's own scale */
	double ratio_median, ratio_low, ratio_high; /* exp(mu - mu_baseline) */
	double p_better; /* than the baseline; 0 for the baseline itself */
	double p_best;   /* of all mixes */
	/* What choosing this mix gives up: 1 - exp(-E[d]), where d >= 0 is the
	 * distance of its mu from the best mu of the same draw.  0.07 reads:
	 * on average 7 % worse than whichever mix is really the best. */
	double regret;
};

/* stats_hierarchy_answer(arena, h, baseline, level, larger_is_better, answer,
 * err):
 * Summaries of the draws; answer has n_mix places.  low and high hold the
 * central share `level` (0 < level < 1) of the posterior.
 * ERR_INPUT   baseline is not below n_mix, or level is out of range
 * ERR_MEMORY  the arena is full */
enum err_code stats_hierarchy_answer(struct arena *a,
	const struct stats_hierarchy *h, size_t baseline, double level,
	bool larger_is_better, struct stats_mix_answer *answer,
	struct err *err) MUST_CHECK;

/* stats_hierarchy_interval(arena, draw, n, level, interval, err):
 * Median and the bounds of the central share `level` of n draws (type 7
 * quantiles): interval[0] median, [1] low, [2] high.
 * ERR_INPUT, ERR_MEMORY as above; n >= 1 is asserted */
enum err_code stats_hierarchy_interval(struct arena *a, const double *draw,
	size_t n, double level, double interval[3], struct err *err) MUST_CHECK;

/* What becomes of the answer when every prior that is a spread (of the means,
 * of batches, of specimens, of slopes) is made wider or narrower. */
struct stats_hierarchy_moved {
	double factor; /* what the prior spreads were times */
	double sd_batch[3], sd_specimen[3]; /* median, low, high */
	const struct stats_mix_answer *mix; /* n_mix */
	double ess_min;
};

/* stats_hierarchy_sensitivity(arena, ask, factor, baseline, level,
 * larger_is_better, moved, err):
 * Samples again with the prior's spreads times `factor` (0.5 and 2 are usual;
 * mean_sd, slope_sd, the half-normal scales, or the log_sd of a lognormal; a
 * spread given as known stays) and sums up as stats_hierarchy_answer does.
 * ask->n_keep may be much smaller than for the answer itself: 500 draws of
 * each of four chains put a median within a fortieth of the posterior's sd.
 * Weights on the draws of the answer would cost less but have no finite variance
 * where a doubled spread is carried by the prior alone (one batch a mix).
 * ERR_INPUT   factor is not above 0, and as stats_hierarchy_sample
 * ERR_MEMORY  the arena is full */
enum err_code stats_hierarchy_sensitivity(struct arena *a,
	const struct stats_hierarchy_ask *ask, double factor, size_t baseline,
	double level, bool larger_is_better,
	struct stats_hierarchy_moved *moved, struct err *err) MUST_CHECK;

/* One number of the data against the same number of replicated data. */
struct stats_discrepancy {
	bool has;                    /* false: the data have no such number */
	double p;                    /* share of replicates at least as large */
	double observed, replicated; /* medians */
};

struct stats_predictive {
	/* The furthest a specimen lies from its batch's mean, over the pooled
	 * sd within batches (logs, covariates taken off). */
	struct stats_discrepancy within;
	/* The furthest a batch's mean lies from its mix's, over the pooled sd
	 * of batch means. */
	struct stats_discrepancy between;
};

/* stats_hierarchy_predict_check(arena, ask, h, n_replicate, seed, out, err):
 * Posterior predictive check: up to n_replicate draws of h, evenly spaced, each
 * with one replicate of all batches and specimens.  Open readings are completed
 * from the same draw, so both sides are whole (Gelman, Meng and Stern 1996,
 * Statistica Sinica 6, 733-807, for discrepancies that depend on parameters;
 * Gelman and others 2005, Biometrics 61, 74-85, for completed data).  Covariates
 * are taken off first.  A p near 0: the data hold a specimen or a batch further
 * out than the model makes them; near 1: they agree better than it would have
 * them.  Near one half is what a right model gives.
 * h must have been sampled with ask->keep_batch.
 * ERR_INPUT   h has no batch effects; n_replicate is 0
 * ERR_MEMORY  the arena is full */
enum err_code stats_hierarchy_predict_check(struct arena *a,
	const struct stats_hierarchy_ask *ask, const struct stats_hierarchy *h,
	size_t n_replicate, uint64_t seed, struct stats_predictive *out,
	struct err *err) MUST_CHECK;

/* What is to be expected of a batch that has not been made. */
struct stats_next_batch {
	double mean[3]; /* median, low, high of the batch's mean: exp(mu + u) */
	double specimen[3]; /* of one specimen of it: exp(mu + u + e) */
	double specimen_5;  /* that one specimen in twenty falls below */
};

/* stats_hierarchy_next_batch(arena, h, mix, level, seed, out, err):
 * The posterior predictive distribution of the next batch of a mix, at the
 * point where the covariates are 0, on the quantity's own scale: one batch and
 * one specimen a draw.  "Mean" is of the logs (a median of specimens).
 * ERR_INPUT   mix is not below n_mix, or level is out of range
 * ERR_MEMORY  the arena is full */
enum err_code stats_hierarchy_next_batch(struct arena *a,
	const struct stats_hierarchy *h, size_t mix, double level,
	uint64_t seed, struct stats_next_batch *out,
	struct err *err) MUST_CHECK;

/* stats_hierarchy_learn(other, weight, prior, slope_mean, slope_sd, err):
 * Turns the draws of another trial (another book) into a prior for this one:
 * sets the two spreads' priors of *prior, and, for the n_x slopes of `other`,
 * slope_mean and slope_sd (both NULL: slopes are not learnt).  Each spread gets
 * the half-normal or the lognormal, whichever fits its draws better by
 * likelihood (a spread that may be zero gets the half-normal); slopes a normal
 * with their draws' mean and sd.
 * 0 < weight <= 1 is what the other trial counts for: its posterior is raised to
 * that power (power prior: Ibrahim and Chen 2000, Statistical Science 15,
 * 46-60), which divides a normal's or half-normal's variance by it exactly and
 * that of a log spread to first order.  Materials, hands and weather differ, so
 * a half is a sensible choice; common practice, no source.
 * Means are not learnt: they are what the new trial is about.
 * ERR_INPUT  weight is out of range, `other` has fewer than 100 draws, or a
 *            spread or slope of it does not vary (it was given as known) */
enum err_code stats_hierarchy_learn(const struct stats_hierarchy *other,
	double weight, struct stats_hierarchy_prior *prior, double *slope_mean,
	double *slope_sd, struct err *err) MUST_CHECK;

#endif /* STATS_HIERARCHY_H */

/* preposterior.h - what further batches would be worth to a choice.
 *
 * Several mixes have log means mu_m, known by draws from their posterior; one
 * of them is to be chosen, the one with the largest (or least) mean of mu.  Its
 * regret is E[best mu - mu of the chosen].  A design adds extra batches of some
 * mixes, with a number of specimens each.  Its gain is what is expected of the
 * regret to go once its results are in: the expected value of sample
 * information (Raiffa and Schlaifer 1961, Applied Statistical Decision Theory),
 *     E over results [max over m of E(mu_m | results)] - max E(mu_m).
 *
 * Method: for each draw of the posterior the design's batch means are drawn
 * too, with that draw's own spreads; E(mu | results) is taken linear in the
 * batch means (Goldstein and Wooff 2007, Bayes Linear Statistics), exact where
 * means are normal and spreads known, as Jalal and Alarid-Escudero (2018,
 * Medical Decision Making 38, 174-188) approximate it.  Every draw is used with
 * its errors and with their mirror image, the same for all designs, so that
 * designs are compared with common random numbers.
 *
 * Besides it, `realised` is the mean of mu of the mix that this rule ends at
 * less that of the mix chosen now: it takes no approximation but the rule, so
 * that it cannot exceed the true value but for its Monte Carlo error.
 *
 * Where `enough` is set, what a mix has beyond it is worth nothing: the worth is
 * min(mu, enough) (max for a quantity of which less is better).  Its mean given
 * results is then that of a cut normal, fit - s psi((enough - fit) / s), psi
 * the unit normal loss.
 *
 * Pure.  Method: docs/methods/next.md. */
#ifndef STATS_PREPOSTERIOR_H
#define STATS_PREPOSTERIOR_H

#include "core/arena.h"
#include "core/err.h"

#include <gsl/gsl_rng.h>
#include <stdbool.h>
#include <stddef.h>

enum { STATS_PREPOSTERIOR_MIXES_MOST = 64, STATS_PREPOSTERIOR_BLOCKS = 50 };

/* Pointers are borrowed for as long as the answer is used. */
struct stats_preposterior_ask {
	size_t n_draw, n_mix; /* n_draw >= 100; 2 to ..._MIXES_MOST */
	const double *mean;   /* n_draw * n_mix, log scale */
	const double *sd_batch, *sd_specimen; /* n_draw, log scale */
	bool larger_is_better;
	bool has_enough;
	double enough;           /* log scale */
	size_t specimens;        /* of each new batch, >= 1 */
	double reading_variance; /* that coarse reading adds, >= 0, log scale */
};

/* What is known now, and what evaluating designs needs. */
struct stats_preposterior {
	struct stats_preposterior_ask ask;
	size_t chosen;
	double regret, regret_error; /* log scale: 0.04 is about 4 % */
	double p_wrong;              /* the chosen is not the best */
	const double *centre;        /* n_mix: mean of mu, larger better */
	const double *block_centre;  /* ..._BLOCKS * n_mix: the same by block */
	const double *covariance;    /* n_mix * n_mix */
	const double *batch_sd;      /* n_draw: spread of one batch mean */
	double batch_variance;       /* its mean square */
	const double *error;         /* n_draw * n_mix standard normals */
};

struct stats_preposterior_gain {
	double gain, gain_error;         /* log scale; gain >= 0 */
	double realised, realised_error; /* see above */
	double p_wrong, p_wrong_error;   /* after */
};

/* stats_preposterior_start(arena, ask, rng, out, err):
 * ERR_INPUT   a count or number out of range;  ERR_MEMORY */
enum err_code stats_preposterior_start(struct arena *a,
	const struct stats_preposterior_ask *ask, gsl_rng *rng,
	struct stats_preposterior *out, struct err *err) MUST_CHECK;

/* stats_preposterior_gain(p, extra, out, err):
 * extra[m] batches more of each mix.  Errors are Monte Carlo standard errors,
 * from 50 blocks of consecutive draws, so that the chains' memory counts; that
 * of the centres, which all draws share, is added by their influence.
 * ERR_NUMERIC  the draws of a mix are all equal to another's */
enum err_code stats_preposterior_gain(const struct stats_preposterior *p,
	const size_t *extra, struct stats_preposterior_gain *out,
	struct err *err) MUST_CHECK;

/* stats_unit_loss(d): E max(0, Z - d) of a standard normal Z, the unit normal
 * loss integral phi(d) - d (1 - Phi(d)). */
double stats_unit_loss(double d);

#endif /* STATS_PREPOSTERIOR_H */

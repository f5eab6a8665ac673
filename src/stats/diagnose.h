/* diagnose.h - how far the draws of several Markov chains can be trusted.
 *
 * Pure.  Vehtari, Gelman, Simpson, Carpenter and Buerkner (2021), Bayesian
 * Analysis 16, 667-718: every chain is split in half, the draws are replaced by
 * normal scores of their ranks. */
#ifndef STATS_DIAGNOSE_H
#define STATS_DIAGNOSE_H

#include "core/arena.h"
#include "core/err.h"

#include <stddef.h>

/* The draws of one parameter, chain after chain: draw i is at[i * step]. */
struct stats_column {
	const double *at;
	size_t step;
};

struct stats_diagnosis {
	/* The larger of the split R-hat of the draws and of their distances
	 * from the median; 1 when the chains agree. */
	double rhat;
	/* Bulk effective sample size (Geyer's initial monotone sequence),
	 * at most n log10(n) for n draws. */
	double ess;
};

/* stats_diagnose(arena, column, n_column, n_chain, n_keep, n_thread, got, err):
 * One diagnosis a column, of n_chain chains with n_keep draws each (at least 8;
 * the last of an odd number is left out).  A column whose draws are all equal
 * has rhat 1 and ess equal to the number of draws.
 * ERR_INPUT   n_chain is 0 or n_keep below 8
 * ERR_MEMORY  the arena is full */
enum err_code stats_diagnose(struct arena *a, const struct stats_column *column,
	size_t n_column, size_t n_chain, size_t n_keep, size_t n_thread,
	struct stats_diagnosis *got, struct err *err) MUST_CHECK;

#endif /* STATS_DIAGNOSE_H */

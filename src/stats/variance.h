/* variance.h - how much batches differ, and how much specimens of one batch do.
 *
 * value = mean of its group + what its batch is off + what the specimen is off;
 * the last two are normal with the variances between and within.  Estimated by
 * restricted maximum likelihood (Patterson and Thompson 1971, Biometrika 58,
 * 545-554), profiled over the group means and the variance within, so that one
 * unknown is left, the ratio of the two variances.  A batch enters by its size,
 * mean and sum of squares; batches of one size in one group enter together.
 *
 * Pure.  Method: docs/methods/variance.md. */
#ifndef STATS_VARIANCE_H
#define STATS_VARIANCE_H

#include "core/arena.h"
#include "core/err.h"

#include <stddef.h>

/* All borrowed.  A batch lies in one group. */
struct stats_variance_data {
	const double *value;       /* n finite values */
	const size_t *batch;       /* n, in [0, n_batch) */
	const size_t *batch_group; /* n_batch, in [0, n_group) */
	size_t n, n_batch, n_group;
};

/* In the square of the unit of the values. */
struct stats_variance_part {
	double variance;
	double low, high; /* 0 <= low <= variance <= high < INFINITY */
};

struct stats_variance {
	struct stats_variance_part between, within;
	double log_likelihood; /* restricted, with all constants, for group
				  means as coefficients */
};

/* stats_variance(arena, data, confidence, out, err):
 * The estimates (between may be 0) and for each variance the values that the
 * restricted likelihood, maximised over the other variance, puts no further
 * than the chi-square quantile of one degree of freedom at the confidence below
 * its maximum.  Time linear in the values; the arena holds some 100 bytes a
 * batch.
 * ERR_INPUT, field "rows": no value, a value not finite, an index out of range,
 *            a batch without value, one batch a group, one value a batch, equal
 *            values within every batch, or squares beyond a double's range
 * ERR_INPUT, field "confidence": not between 0 and 1
 * ERR_MEMORY, ERR_NUMERIC */
enum err_code stats_variance(struct arena *arena,
	const struct stats_variance_data *data, double confidence,
	struct stats_variance *out, struct err *err) MUST_CHECK;

#endif /* STATS_VARIANCE_H */

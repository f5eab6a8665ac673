/* permute.h - are groups different, judged by dealing the values out anew.
 *
 * Pure.  If the groups do not differ, every way of dealing the values out to
 * groups of the same sizes was equally likely: Fisher (1935), The Design of
 * Experiments; Pitman (1937), Supplement to the Journal of the Royal
 * Statistical Society 4, 119-130.  Method: docs/methods/resample.md.
 *
 * What is dealt out must be what was made independently: with specimens from
 * batches that is the batch (stats_permute_units). */
#ifndef STATS_PERMUTE_H
#define STATS_PERMUTE_H

#include "core/arena.h"
#include "core/err.h"

#include <gsl/gsl_rng.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Up to here all arrangements are counted; beyond, some are drawn. */
enum { STATS_PERMUTE_EXACT_MOST = 5000000 };

/* Values with the group of each, numbered from 0; all borrowed. */
struct stats_permute_sample {
	const double *value; /* n finite values */
	const size_t *group; /* n */
	size_t n, n_group;   /* n_group >= 2, none empty */
};

struct stats_permute {
	double p;              /* in (0, 1] */
	double p_error;        /* Monte Carlo standard error of p; 0: exact */
	uint64_t arrangements; /* counted or drawn */
	uint64_t as_far;       /* of those, as far apart as the one seen */
	double f;              /* the F seen; INFINITY without spread within */
	bool is_exact;
};

/* stats_permute_arrangements(size, n_group): the ways to deal out, which is the
 * multinomial coefficient of the sizes; UINT64_MAX if there are more than
 * STATS_PERMUTE_EXACT_MOST. */
uint64_t stats_permute_arrangements(const size_t *size, size_t n_group);

/* stats_permute_exact(arena, sample, out, err):
 * The share of all arrangements whose one-way F is at least the one seen.  For
 * two groups that is the two-sided test of the difference of the means.  Two
 * arrangements count as equally far apart if the roots of their sums of squares
 * between groups differ by less than 1e-12 of the root of the total, since equal
 * sums taken in different orders differ in their last digits.
 * ERR_INPUT  a value is not finite, a group is empty or not numbered below
 *            n_group, fewer than two groups, or more arrangements than
 *            STATS_PERMUTE_EXACT_MOST; field "groups"
 * ERR_MEMORY */
enum err_code stats_permute_exact(struct arena *arena,
	const struct stats_permute_sample *sample, struct stats_permute *out,
	struct err *err) MUST_CHECK;

/* stats_permute_draws(arena, sample, draws, rng, out, err):
 * The same from `draws` >= 1 random arrangements: p = (as_far + 1) /
 * (draws + 1), never 0 (Davison and Hinkley 1997, Bootstrap Methods and their
 * Application, section 4.2), p_error = sqrt(p (1 - p) / draws).  The seed in rng
 * decides every bit of the answer.  Errors as above but for the number of
 * arrangements; ERR_INPUT, field "draws", for no draw. */
enum err_code stats_permute_draws(struct arena *arena,
	const struct stats_permute_sample *sample, uint64_t draws, gsl_rng *rng,
	struct stats_permute *out, struct err *err) MUST_CHECK;

/* stats_permute_many_to_one(arena, sample, baseline, p, arrangements, err):
 * For every group but the baseline the share of all arrangements in which the
 * largest distance of any group's mean from the baseline's is at least this
 * group's (single-step adjusted p of Westfall and Young 1993, Resampling-Based
 * Multiple Testing).  p has room for n_group; p[baseline] is 1.
 * Errors as stats_permute_exact; ERR_INPUT, field "baseline", for a baseline
 * that is no group. */
enum err_code stats_permute_many_to_one(struct arena *arena,
	const struct stats_permute_sample *sample, size_t baseline, double *p,
	uint64_t *arrangements, struct err *err) MUST_CHECK;

/* stats_permute_units(arena, value, batch, n, batch_group, n_batch, n_group,
 *	units, err):
 * Makes whole batches the units: *units holds the mean of each batch's values
 * with the group of the batch, in the arena.  batch[i] in [0, n_batch) is the
 * batch of value i, batch_group[b] the group of batch b.
 * ERR_INPUT  no value, a batch without one or not below n_batch; field "batch"
 * ERR_MEMORY */
enum err_code stats_permute_units(struct arena *arena, const double *value,
	const size_t *batch, size_t n, const size_t *batch_group,
	size_t n_batch, size_t n_group, struct stats_permute_sample *units,
	struct err *err) MUST_CHECK;

#endif /* STATS_PERMUTE_H */

/* power.h - how many batches show a difference between two mixes.
 *
 * The experiment: `groups` mixes with b batches each and s specimens a batch.
 * A batch mean varies with sd = sqrt(sd_batch^2 + sd_specimen^2 / s); only
 * batches are independent.  The test: two given mixes, two-sided t of their
 * means of batch means, at level alpha, with the spread pooled over all groups,
 * df = groups (b - 1).  Its statistic is noncentral t with
 * difference / (sd sqrt(2 / b)); both tails count.  Difference and spreads are
 * on one scale; on the log scale 0.15 is about 15 %.
 *
 * Source: Johnson and Welch (1940), Biometrika 31, 362-389.
 * Pure.  Method: docs/methods/power.md. */
#ifndef STATS_POWER_H
#define STATS_POWER_H

#include "core/err.h"

#include <stddef.h>

enum { STATS_POWER_GROUPS_MOST = 1000, STATS_POWER_BATCHES_MOST = 1000000 };

struct stats_power_plan {
	double difference;            /* > 0 */
	double sd_batch, sd_specimen; /* >= 0, not both 0 */
	size_t specimens;             /* a batch, >= 1 */
	double alpha;                 /* in (0, 1) */
	size_t groups;                /* 2 to STATS_POWER_GROUPS_MOST */
};

/* stats_power_check(plan, err): ERR_INPUT and which member is out of range. */
enum err_code stats_power_check(
	const struct stats_power_plan *plan, struct err *err) MUST_CHECK;

/* stats_power(plan, batches, power, err): the chance that the test tells the
 * two apart with 2 <= batches <= STATS_POWER_BATCHES_MOST in each group.
 * Absolute error under 1e-11, so that a power smaller than that is noise.
 * ERR_INPUT */
enum err_code stats_power(const struct stats_power_plan *plan, size_t batches,
	double *power, struct err *err) MUST_CHECK;

/* stats_power_batches(plan, wanted, batches, err): the least number of batches
 * in each group with power >= wanted, wanted in (0, 1); *batches 0 if not even
 * STATS_POWER_BATCHES_MOST would do.  ERR_INPUT */
enum err_code stats_power_batches(const struct stats_power_plan *plan,
	double wanted, size_t *batches, struct err *err) MUST_CHECK;

#endif /* STATS_POWER_H */

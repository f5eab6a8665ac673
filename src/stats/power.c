/* power.c - how many batches show a difference between two mixes. */
#include "stats/power.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include <math.h>
#include <stdbool.h>

static enum err_code
refuse(const char *field, double value, const char *takes, struct err *err)
{
	return err_report(
		err, ERR_INPUT, field, "got %.6g; it takes %s.", value, takes);
}

enum err_code
stats_power_check(const struct stats_power_plan *plan, struct err *err)
{
	if (!(plan->difference > 0 && isfinite(plan->difference)))
		return refuse("difference", plan->difference,
			"a number above 0", err);
	if (!(plan->sd_batch >= 0 && isfinite(plan->sd_batch)))
		return refuse("sd_batch", plan->sd_batch,
			"a number of at least 0", err);
	if (!(plan->sd_specimen >= 0 && isfinite(plan->sd_specimen)))
		return refuse("sd_specimen", plan->sd_specimen,
			"a number of at least 0", err);
	if (plan->sd_batch <= 0 && plan->sd_specimen <= 0)
		return refuse("sd_batch", 0,
			"a number above 0 where sd_specimen is 0 too", err);
	if (plan->specimens < 1)
		return refuse("specimens_per_batch", (double)plan->specimens,
			"a whole number of at least 1", err);
	if (!(plan->alpha > 0 && plan->alpha < 1))
		return refuse(
			"alpha", plan->alpha, "a share between 0 and 1", err);
	if (plan->groups < 2 || plan->groups > STATS_POWER_GROUPS_MOST)
		return refuse("groups", (double)plan->groups,
			"a whole number from 2 to 1000", err);
	return ERR_NONE;
}

static double
power_at(const struct stats_power_plan *plan, size_t batches)
{
	/* libRmath's noncentral t gives up beyond this; by then the power is 1
	 * less 1e-200 for any alpha above 1e-150 */
	const double most_noncentral = 37.6;
	double b = (double)batches;
	double df = (double)plan->groups * (b - 1);
	double sd = hypot(plan->sd_batch,
		plan->sd_specimen / sqrt((double)plan->specimens));
	double noncentral = plan->difference / (sd * sqrt(2 / b));
	double critical = qt(plan->alpha / 2, df, false, false);

	if (noncentral > most_noncentral)
		return critical < noncentral
			? 1 -
				pnorm(critical, noncentral,
					hypot(1, critical / sqrt(2 * df)), true,
					false)
			: pnorm(critical, noncentral,
				  hypot(1, critical / sqrt(2 * df)), false,
				  false);
	return pnt(critical, df, noncentral, false, false) +
		pnt(-critical, df, noncentral, true, false);
}

enum err_code
stats_power(const struct stats_power_plan *plan, size_t batches, double *power,
	struct err *err)
{
	TRY(stats_power_check(plan, err));
	if (batches < 2 || batches > STATS_POWER_BATCHES_MOST)
		return refuse("batches", (double)batches,
			"a whole number from 2 to 1000000", err);
	*power = fmin(1, power_at(plan, batches));
	return ERR_NONE;
}

enum err_code
stats_power_batches(const struct stats_power_plan *plan, double wanted,
	size_t *batches, struct err *err)
{
	size_t low = 1, high = 2; /* low is too few */

	TRY(stats_power_check(plan, err));
	if (!(wanted > 0 && wanted < 1))
		return refuse("power", wanted, "a share between 0 and 1", err);
	while (power_at(plan, high) < wanted) {
		low = high;
		if (high == STATS_POWER_BATCHES_MOST) {
			*batches = 0;
			return ERR_NONE;
		}
		high = high < STATS_POWER_BATCHES_MOST / 2
			? 2 * high
			: STATS_POWER_BATCHES_MOST;
	}
	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;

		if (power_at(plan, middle) < wanted)
			low = middle;
		else
			high = middle;
	}
	*batches = high;
	return ERR_NONE;
}

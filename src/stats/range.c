/* range.c - the studentized range by deterministic integration. */
#include "stats/range.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include "stats/normal.h"
#include "stats/studentize.h"

#include <math.h>
#include <stdbool.h>

struct range {
	double k;    /* groups */
	double step; /* of the trapezoidal rule over z, the largest */
};

/* k - 1 factors and the density, each of unit spread: see choose_step in
 * many_to_one.c. */
static struct range
make_range(size_t k)
{
	const double log_error = 37;

	return (struct range){.k = (double)k,
		.step = M_PI * sqrt(2 / (log_error * (double)k))};
}

/* The weight of a wide range lies around z = w / 2. */
static double
upper_at(double w, const void *data)
{
	const struct range *range = data;
	const double reach = 9, others = range->k - 1;
	const double first = fmax(-reach, w / 2 - reach);
	const double last = w / 2 + reach;
	double sum = 0;

	if (w <= 0)
		return 1;
	for (double i = floor(first / range->step); i * range->step <= last;
		i++) {
		double z = i * range->step;
		double below = stats_normal_lower(z);
		double far = stats_normal_lower(z - w) / below;
		double some = -expm1(others * log1p(-fmin(far, 1)));

		sum += stats_normal_density(z) * exp(others * log(below)) *
			some;
	}
	return fmin(1, range->k * range->step * sum);
}

/* The Bonferroni bound over the pairs. */
static double
log_bound_at(double w, const void *data)
{
	const struct range *range = data;

	if (w <= 0)
		return 0;
	return fmin(0,
		log(range->k * (range->k - 1)) +
			stats_normal_log_upper(w * M_SQRT1_2));
}

static struct stats_tail
tail_of(const struct range *range)
{
	return (struct stats_tail){
		.upper = upper_at, .log_bound = log_bound_at, .data = range};
}

enum err_code
stats_range_upper(double q, size_t k, double df, double *p, struct err *err)
{
	const struct range range = make_range(k);
	const struct stats_tail tail = tail_of(&range);

	if (q <= 0) {
		*p = 1;
		return ERR_NONE;
	}
	return stats_studentized_upper(&tail, q, df, p, err);
}

/* One pair's and the Bonferroni critical values enclose the range's. */
enum err_code
stats_range_critical(
	double alpha, size_t k, double df, double *q, struct err *err)
{
	const struct range range = make_range(k);
	const struct stats_tail tail = tail_of(&range);
	const double pairs = range.k * (range.k - 1) / 2;
	const double low = M_SQRT2 * qt(alpha / 2, df, false, false);
	const double high = M_SQRT2 * qt(alpha / 2 / pairs, df, false, false);

	if (k == 2) {
		*q = low;
		return ERR_NONE;
	}
	return stats_studentized_critical(&tail, alpha, df, low, high, q, err);
}

/* outlier.c - Grubbs' and Dixon's tests. */
#include "stats/outlier.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include "stats/normal.h"
#include "stats/quadrature.h"
#include "stats/summary.h"

#include <gsl/gsl_sort.h>
#include <math.h>

static enum err_code
check(const double *x, size_t n, struct err *err)
{
	enum { LEAST = 3 };
	bool differ = false;

	if (n < LEAST)
		return err_report(err, ERR_INPUT, "values",
			"There %s %zu value%s; an outlier can be told from at "
			"least %d.",
			n == 1 ? "is" : "are", n, n == 1 ? "" : "s", LEAST);
	for (size_t i = 0; i < n; i++) {
		if (!isfinite(x[i]))
			return err_report(err, ERR_INPUT, "values",
				"Value %zu is not a finite number.", i + 1);
		differ = differ || x[i] < x[0] || x[i] > x[0];
	}
	if (!differ)
		return err_report(err, ERR_INPUT, "values",
			"All %zu values are equal, so none lies apart.", n);
	return ERR_NONE;
}

/* P(T > t) for Student's t on n - 2 degrees of freedom, where t compares one
 * value with the n - 1 others: t^2 = n (n - 2) d^2 / ((n - 1) squares). */
static double
beyond(long double distance, long double squares_of_others, size_t n)
{
	const double count = (double)n;
	const long double t = sqrtl(count * (count - 2) / (count - 1) /
				      squares_of_others) *
		distance;

	return pt((double)t, count - 2, false, false);
}

double
stats_grubbs_bound(double g, size_t n)
{
	const double count = (double)n;
	/* in units of the sum of squares of all, which is n - 1 sd^2 */
	double squares = count - 1 - g * g * count / (count - 1);

	return count * beyond(g, fmax(0, squares), n);
}

/* The sum of squares of all values but one, about their own mean. */
static long double
squares_without(const double *x, size_t n, size_t left_out)
{
	const double first = x[left_out == 0];
	long double sum = 0, rest = 0, squares = 0, mean;

	for (size_t i = 0; i < n; i++)
		if (i != left_out)
			sum += (long double)x[i] - (long double)first;
	mean = sum / (long double)(n - 1);
	for (size_t i = 0; i < n; i++) {
		long double d = (long double)x[i] - (long double)first - mean;

		if (i == left_out)
			continue;
		rest += d;
		squares += d * d;
	}
	return squares - rest * rest / (long double)(n - 1);
}

static bool
others_are_equal(const double *x, size_t n, size_t left_out)
{
	const double first = x[left_out == 0];

	for (size_t i = 0; i < n; i++)
		if (i != left_out && (x[i] < first || x[i] > first))
			return false;
	return true;
}

enum err_code
stats_grubbs(
	const double *x, size_t n, struct stats_grubbs *out, struct err *err)
{
	struct stats_grubbs got = {0};
	struct stats_moments all;
	long double farthest = -1, squares;
	double bound;

	TRY(check(x, n, err));
	all = stats_moments(x, n);
	for (size_t i = 0; i < n; i++) {
		const long double off = fabsl((long double)x[i] - all.mean);

		if (off > farthest) {
			farthest = off;
			got.index = i;
		}
	}
	got.g = (double)(farthest / sqrtl(all.squares / (long double)(n - 1)));
	squares = others_are_equal(x, n, got.index)
		? 0
		: squares_without(x, n, got.index);
	bound = (double)n * beyond(farthest, squares, n);
	got.p_one_sided = fmin(1, bound);
	got.p_two_sided = fmin(1, 2 * bound);
	*out = got;
	return ERR_NONE;
}

struct stats_dixon_ratio
stats_dixon_choose(size_t n)
{
	enum { LAST_R10 = 7, LAST_R11 = 10, LAST_R21 = 13 };

	if (n <= LAST_R10)
		return (struct stats_dixon_ratio){.top = 1, .bottom = 0};
	if (n <= LAST_R11)
		return (struct stats_dixon_ratio){.top = 1, .bottom = 1};
	if (n <= LAST_R21)
		return (struct stats_dixon_ratio){.top = 2, .bottom = 1};
	return (struct stats_dixon_ratio){.top = 2, .bottom = 2};
}

/* The highest value is x, the low one of the ratio x - v.  The m values between
 * lie below x - r v, all of them (top 1) or all but one (top 2). */
static double
dixon_density(
	struct stats_dixon_ratio ratio, double r, size_t n, double x, double v)
{
	const double m = (double)n - 2 - ratio.bottom;
	double below = stats_normal_between(x - v, x - r * v);
	double weight = stats_normal_density(x) * stats_normal_density(x - v) *
		pow(stats_normal_lower(x - v), ratio.bottom);
	double inner = pow(below, m);

	if (ratio.top > 1)
		inner += m * pow(below, m - 1) *
			stats_normal_between(x - r * v, x);
	return weight * inner;
}

/* Over x by the trapezoidal rule, its step set as in many_to_one.c. */
static double
dixon_slice(struct stats_dixon_ratio ratio, double r, size_t n, double v)
{
	const double log_error = 37, reach = 9;
	const double step = M_PI * sqrt(2 / (log_error * (double)n));
	const double first = fmax(-reach, v / 2 - reach);
	const double last = v / 2 + reach;
	double sum = 0;

	for (double i = floor(first / step); i * step <= last; i++)
		sum += dixon_density(ratio, r, n, i * step, v);
	return sum * step;
}

double
stats_dixon_upper(struct stats_dixon_ratio ratio, double r, size_t n)
{
	enum { PANELS = 18, ORDER = 16 };
	const double farthest = 18; /* a range beyond it: chance below 1e-30 */
	double v[PANELS * ORDER], w[PANELS * ORDER], sum = 0;
	struct quadrature rule;

	stats_legendre(ORDER, &rule);
	stats_panels(&rule, 0, farthest, PANELS, v, w);
	for (size_t i = 0; i < (size_t)PANELS * ORDER; i++)
		sum += w[i] * dixon_slice(ratio, r, n, v[i]);
	return fmin(1,
		(double)n * (double)(n - 1) *
			choose((double)n - 2, ratio.bottom) * sum);
}

/* The ratio of the highest of sorted values, 0 where it has no meaning. */
static double
ratio_of(struct stats_dixon_ratio ratio, const double *sorted, size_t n)
{
	const long double highest = (long double)sorted[n - 1];
	const long double whole = highest - (long double)sorted[ratio.bottom];

	if (!(whole > 0))
		return 0;
	return (double)((highest -
				(long double)
					sorted[n - 1 - (size_t)ratio.top]) /
		whole);
}

enum err_code
stats_dixon(struct arena *arena, const double *x, size_t n, bool *has,
	struct stats_dixon *out, struct err *err)
{
	struct stats_dixon got = {.ratio = stats_dixon_choose(n)};
	double *sorted, *mirrored, high, low;

	TRY(check(x, n, err));
	*has = n <= STATS_DIXON_MAX;
	if (!*has)
		return ERR_NONE;
	sorted = arena_copy(arena, x, n, sizeof *sorted);
	mirrored = arena_take(arena, n, sizeof *mirrored);
	if (sorted == NULL || mirrored == NULL)
		return err_memory(err);
	gsl_sort(sorted, 1, n);
	for (size_t i = 0; i < n; i++)
		mirrored[i] = -sorted[n - 1 - i];
	high = ratio_of(got.ratio, sorted, n);
	low = ratio_of(got.ratio, mirrored, n);
	for (size_t i = 0; i < n; i++)
		if (high >= low ? x[i] > x[got.index] : x[i] < x[got.index])
			got.index = i;
	got.r = fmax(high, low);
	got.p = stats_dixon_upper(got.ratio, got.r, n);
	*out = got;
	return ERR_NONE;
}

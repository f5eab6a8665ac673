/* tolerance.c - exact normal tolerance factors. */
#include "stats/tolerance.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include "stats/normal.h"
#include "stats/root.h"
#include "stats/studentize.h"

#include <math.h>
#include <stdbool.h>

static enum err_code
check(size_t n, double content, double confidence, struct err *err)
{
	if (n < 2)
		return err_report(err, ERR_INPUT, "n",
			"There %s %zu value%s; a spread needs at least two.",
			n == 1 ? "is" : "are", n, n == 1 ? "" : "s");
	if (!(content > 0 && content < 1))
		return err_report(err, ERR_INPUT, "content",
			"The content is %.6g; it takes a share between 0 and "
			"1, such as 0.95.",
			content);
	if (!(confidence > 0 && confidence < 1))
		return err_report(err, ERR_INPUT, "confidence",
			"The confidence is %.6g; it takes a share between 0 "
			"and 1, such as 0.9.",
			confidence);
	return ERR_NONE;
}

/* The sample mean is Z / sqrt(n); mean + x misses the quantile z if
 * Z > sqrt(n) (x - z). */
struct one_sided {
	double root_n, z;
};

static double
miss_at(double x, const void *data)
{
	const struct one_sided *one = data;

	return stats_normal_upper(one->root_n * (x - one->z));
}

static double
log_miss_at(double x, const void *data)
{
	const struct one_sided *one = data;

	return stats_normal_log_upper(one->root_n * (x - one->z));
}

/* The factor for alpha = 1 - confidence <= 1/2. */
static enum err_code
solve_one_sided(size_t n, double z, double alpha, double *k, struct err *err)
{
	const struct one_sided one = {.root_n = sqrt((double)n), .z = z};
	const struct stats_tail tail = {
		.upper = miss_at, .log_bound = log_miss_at, .data = &one};
	const double df = (double)n - 1;
	const double spread = sqrt(df / qchisq(alpha, df, true, false));

	return stats_studentized_critical(
		&tail, alpha, df, z, fmax(z, 0) * spread + spread, k, err);
}

/* To miss a share P with chance alpha is to hold the share 1 - P on the other
 * side with chance 1 - alpha: the mirrored problem keeps the chance small, and
 * with it its digits. */
enum err_code
stats_tolerance_one_sided(
	size_t n, double content, double confidence, double *k, struct err *err)
{
	double z, mirrored;

	TRY(check(n, content, confidence, err));
	z = qnorm(content, 0, 1, true, false);
	if (confidence >= 0.5)
		return solve_one_sided(n, z, 1 - confidence, k, err);
	TRY(solve_one_sided(n, -z, confidence, &mirrored, err));
	*k = -mirrored;
	return ERR_NONE;
}

/* The trapezoidal rule over the sample mean x, scaled by sqrt(n); r is how far
 * mean - r to mean + r must reach to hold the content. */
enum { NODES = 181 };
static const double node_step = 0.05;

struct two_sided {
	double df, alpha;
	double r[NODES], weight[NODES];
};

/* log(P(|Z - x| > r) / (1 - content)) is concave in r, so Newton's steps from
 * the right come down to the root without passing it. */
static double
reach_from(double x, double log_outside, double start)
{
	enum { STEPS_MAX = 60 };
	double r = start;

	for (int i = 0; i < STEPS_MAX; i++) {
		double outside = stats_normal_upper(r - x) +
			stats_normal_upper(r + x);
		double slope = (stats_normal_density(r - x) +
				       stats_normal_density(r + x)) /
			outside;
		double step = (log(outside) - log_outside) / slope;

		r += step;
		if (fabs(step) <= 1e-15 * r)
			break;
	}
	return r;
}

static void
lay_nodes(size_t n, double content, struct two_sided *two)
{
	const double z = qnorm((1 - content) / 2, 0, 1, false, false);

	for (int i = 0; i < NODES; i++) {
		double scaled = node_step * i;
		double x = scaled / sqrt((double)n);

		two->r[i] = reach_from(x, log1p(-content), x + z);
		two->weight[i] = (i == 0 ? 1 : 2) * node_step *
			stats_normal_density(scaled);
	}
}

/* P(k s < r(x)), s the sample's spread. */
static enum err_code
height_at(const void *data, double k, double *height, struct err *err)
{
	const struct two_sided *two = data;
	double miss = 0;

	(void)err; /* cannot fail */
	for (int i = 0; i < NODES; i++) {
		double ratio = two->r[i] / fmax(k, 0);

		miss += two->weight[i] *
			pchisq(two->df * ratio * ratio, two->df, true, false);
	}
	*height = log(miss / two->alpha);
	return ERR_NONE;
}

enum err_code
stats_tolerance_two_sided(
	size_t n, double content, double confidence, double *k, struct err *err)
{
	struct two_sided two = {.df = (double)n - 1, .alpha = 1 - confidence};
	double howe;

	TRY(check(n, content, confidence, err));
	lay_nodes(n, content, &two);
	/* Howe's approximation (1969, JASA 64, 610-620) to begin with */
	howe = two.r[0] *
		sqrt(two.df * (1 + 1 / (double)n) /
			qchisq(two.alpha, two.df, true, false));
	return stats_root(height_at, &two, howe * 0.9, howe * 1.1, k, err);
}

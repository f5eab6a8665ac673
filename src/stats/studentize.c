/* studentize.c - tails of statistics divided by an estimated spread. */
#include "stats/studentize.h"

#include "stats/root.h"

#include <gsl/gsl_sf_gamma.h>
#include <math.h>
#include <stddef.h>

/* The integrand falls by this many powers of e before it is cut: 4e-18. */
static const double drop = 40;

/* Halving stops when the last halving moved the sum by less than this share of
 * it; each halving at least doubles the right digits, so the error left is
 * near the square of it. */
static const double halving_tolerance = 1e-8;

enum { FIRST_INTERVALS = 16, HALVINGS_MAX = 14 };

struct scale {
	const struct stats_tail *tail;
	double t, df;
	double log_constant; /* of the density of u = log s */
};

static struct scale
make_scale(const struct stats_tail *tail, double t, double df)
{
	/* 2 (df/2)^(df/2) exp(-df/2) / Gamma(df/2), written with Temme's
	 * regulated gamma function so that nothing large cancels */
	return (struct scale){.tail = tail,
		.t = t,
		.df = df,
		.log_constant = M_LN2 + log(df / 2) / 2 - log(2 * M_PI) / 2 -
			log(gsl_sf_gammastar(df / 2))};
}

static double
log_density(const struct scale *scale, double u)
{
	return scale->log_constant + scale->df * (u - expm1(2 * u) / 2);
}

static double
log_bound(const struct scale *scale, double u)
{
	const struct stats_tail *tail = scale->tail;

	return log_density(scale, u) +
		tail->log_bound(scale->t * exp(u), tail->data);
}

static double
integrand(const struct scale *scale, double u)
{
	const struct stats_tail *tail = scale->tail;

	return exp(log_density(scale, u)) *
		tail->upper(scale->t * exp(u), tail->data);
}

/* The u at which the bound is largest, by golden section: it has one peak. */
static double
find_peak(const struct scale *scale)
{
	const double golden = 0.61803398874989485; /* (sqrt(5) - 1) / 2 */
	const double fine = 0.05 / sqrt(2 * scale->df + 1);
	double low = -60 - log(fmax(1, fabs(scale->t))), high = 3;
	double a = high - golden * (high - low),
	       b = low + golden * (high - low);
	double at_a = log_bound(scale, a), at_b = log_bound(scale, b);

	while (high - low > fine) {
		if (at_a > at_b) {
			high = b;
			b = a;
			at_b = at_a;
			a = high - golden * (high - low);
			at_a = log_bound(scale, a);
		} else {
			low = a;
			a = b;
			at_a = at_b;
			b = low + golden * (high - low);
			at_b = log_bound(scale, b);
		}
	}
	return (low + high) / 2;
}

/* How far from the peak, on the side of `step`, the bound has dropped. */
static double
find_edge(const struct scale *scale, double peak, double step)
{
	enum { BISECTIONS = 6 };
	const double floor = log_bound(scale, peak) - drop;
	double inside = 0, outside = step;

	while (log_bound(scale, peak + outside) > floor) {
		inside = outside;
		outside *= 2;
	}
	for (int i = 0; i < BISECTIONS; i++) {
		double middle = (inside + outside) / 2;

		if (log_bound(scale, peak + middle) > floor)
			inside = middle;
		else
			outside = middle;
	}
	return peak + outside;
}

static enum err_code
integrate(const struct scale *scale, double low, double high, double *p,
	struct err *err)
{
	size_t n = FIRST_INTERVALS;
	double step = (high - low) / (double)n;
	double sum = 0, last, now;

	for (size_t i = 0; i <= n; i++)
		sum += integrand(scale, low + step * (double)i);
	now = step * sum;
	for (int halving = 0; halving < HALVINGS_MAX; halving++) {
		for (size_t i = 0; i < n; i++)
			sum += integrand(scale, low + step * ((double)i + 0.5));
		n *= 2;
		step /= 2;
		last = now;
		now = step * sum;
		if (fabs(now - last) <= halving_tolerance * now) {
			*p = fmin(now, 1);
			return ERR_NONE;
		}
	}
	return err_report(err, ERR_NUMERIC, "",
		"The tail beyond %.6g on %.6g degrees of freedom could not be "
		"integrated: the last two sums are %.10g and %.10g.",
		scale->t, scale->df, last, now);
}

enum err_code
stats_studentized_upper(const struct stats_tail *tail, double t, double df,
	double *p, struct err *err)
{
	struct scale scale;
	double peak, step;

	if (isinf(df)) {
		*p = fmin(1, tail->upper(t, tail->data));
		return ERR_NONE;
	}
	scale = make_scale(tail, t, df);
	peak = find_peak(&scale);
	step = 1 / sqrt(2 * df);
	return integrate(&scale, find_edge(&scale, peak, -step),
		find_edge(&scale, peak, step), p, err);
}

struct wanted {
	const struct stats_tail *tail;
	double alpha, df;
};

/* Logarithms make tails nearly straight, which the secant likes. */
static enum err_code
height_at(const void *data, double t, double *height, struct err *err)
{
	const struct wanted *wanted = data;
	const double least = 1e-320; /* for a logarithm of what underflows */
	double p;

	TRY(stats_studentized_upper(wanted->tail, t, wanted->df, &p, err));
	*height = log(fmax(p, least) / wanted->alpha);
	return ERR_NONE;
}

enum err_code
stats_studentized_critical(const struct stats_tail *tail, double alpha,
	double df, double low, double high, double *t, struct err *err)
{
	const struct wanted wanted = {.tail = tail, .alpha = alpha, .df = df};

	return stats_root(height_at, &wanted, low, high, t, err);
}

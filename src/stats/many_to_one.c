/* many_to_one.c - Dunnett's comparisons by deterministic integration. */
#include "stats/many_to_one.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include "stats/normal.h"
#include "stats/studentize.h"

#include <gsl/gsl_sort.h>
#include <math.h>

/* Contrasts with the same loading, counted together. */
struct bunch {
	double inner;   /* 1 / sqrt(1 - l^2) */
	double loading; /* l / sqrt(1 - l^2) */
	double count;
};

struct stats_many_to_one {
	bool two_sided;
	size_t k, n_bunch;
	const struct bunch *bunch;
	double steepest; /* largest loading l */
	double step;     /* of the trapezoidal rule over z */
};

/* Beyond this many standard deviations the normal weight is below 1e-18. */
static const double reach = 9;

static double
log_none_beyond(const struct stats_many_to_one *d, double x, double z)
{
	double log_none = 0;

	for (size_t i = 0; i < d->n_bunch; i++) {
		const struct bunch *b = &d->bunch[i];
		double at = x * b->inner, shift = z * b->loading;
		double beyond = stats_normal_upper(at - shift);

		if (d->two_sided)
			beyond += stats_normal_upper(at + shift);
		log_none += b->count * log1p(-fmin(beyond, 1));
	}
	return log_none;
}

/* Two-sided, the integrand is even in z and half the axis does.  The weight is
 * largest near z = l x, which sets how far to go. */
static double
upper_at(double x, const void *data)
{
	const struct stats_many_to_one *d = data;
	const double last = reach + fmax(0, d->steepest * x);
	double sum = 0;

	if (d->two_sided && x <= 0)
		return 1;
	for (double i = d->two_sided ? 0 : -ceil(reach / d->step);
		i * d->step <= last; i++) {
		double z = i * d->step;
		double some = -expm1(log_none_beyond(d, x, z));
		bool halve = d->two_sided && i < 1;

		sum += (halve ? 0.5 : 1) * stats_normal_density(z) * some;
	}
	return fmin(1, sum * d->step * (d->two_sided ? 2 : 1));
}

/* The Bonferroni bound. */
static double
log_bound_at(double x, const void *data)
{
	const struct stats_many_to_one *d = data;
	double sides = d->two_sided ? 2 : 1;

	if (x <= 0)
		return 0;
	return fmin(0, log(sides * (double)d->k) + stats_normal_log_upper(x));
}

/* A factor Phi((x - l z) / r), r^2 = 1 - l^2, is a normal of spread r / l spread
 * over a step, so that the product of all with phi(z) has a Fourier transform
 * falling no slower than exp(-w^2 / (2 (1 + sum l^2 / r^2))).  The trapezoidal
 * rule errs by that transform at 2 pi / step; this step makes it 1e-16. */
static double
choose_step(const struct bunch *bunch, size_t n)
{
	const double log_error = 37;
	double width = 1;

	for (size_t i = 0; i < n; i++)
		width += bunch[i].count * bunch[i].loading * bunch[i].loading;
	return M_PI * sqrt(2 / (log_error * width));
}

static size_t
gather(const double *sorted, size_t k, struct bunch *bunch)
{
	size_t n = 0;

	for (size_t i = 0; i < k; i++) {
		double rest = sqrt((1 - sorted[i]) * (1 + sorted[i]));

		if (i == 0 || sorted[i] > sorted[i - 1])
			bunch[n++] = (struct bunch){
				.inner = 1 / rest, .loading = sorted[i] / rest};
		bunch[n - 1].count++;
	}
	return n;
}

enum err_code
stats_many_to_one_new(struct arena *arena, const double *loading, size_t k,
	bool two_sided, const struct stats_many_to_one **out, struct err *err)
{
	const double least_step = 1e-5;
	struct stats_many_to_one *d = arena_take(arena, 1, sizeof *d);
	struct bunch *bunch = arena_take(arena, k, sizeof *bunch);
	double *sorted = arena_copy(arena, loading, k, sizeof *sorted);

	if (d == NULL || bunch == NULL || sorted == NULL)
		return err_memory(err);
	for (size_t i = 0; i < k; i++)
		if (!(loading[i] > 0 && loading[i] < 1))
			return err_report(err, ERR_INPUT, "groups",
				"Loading %zu is %.6g; it must lie between 0 "
				"and 1.",
				i + 1, loading[i]);
	gsl_sort(sorted, 1, k);
	d->two_sided = two_sided;
	d->k = k;
	d->bunch = bunch;
	d->n_bunch = gather(sorted, k, bunch);
	d->steepest = sorted[k - 1];
	d->step = choose_step(bunch, d->n_bunch);
	if (d->step < least_step)
		return err_report(err, ERR_INPUT, "groups",
			"The baseline is too small beside the other groups for "
			"an exact comparison; give it more values or leave "
			"out groups.");
	*out = d;
	return ERR_NONE;
}

static struct stats_tail
tail_of(const struct stats_many_to_one *d)
{
	return (struct stats_tail){
		.upper = upper_at, .log_bound = log_bound_at, .data = d};
}

enum err_code
stats_many_to_one_upper(const struct stats_many_to_one *d, double t, double df,
	double *p, struct err *err)
{
	const struct stats_tail tail = tail_of(d);

	if (d->two_sided && t <= 0) {
		*p = 1;
		return ERR_NONE;
	}
	return stats_studentized_upper(&tail, t, df, p, err);
}

/* The unadjusted and the Bonferroni critical values enclose Dunnett's. */
enum err_code
stats_many_to_one_critical(const struct stats_many_to_one *d, double alpha,
	double df, double *t, struct err *err)
{
	const struct stats_tail tail = tail_of(d);
	const double each = d->two_sided ? alpha / 2 : alpha;
	const double low = qt(each, df, false, false);
	const double high = qt(each / (double)d->k, df, false, false);

	if (d->k == 1) {
		*t = low;
		return ERR_NONE;
	}
	return stats_studentized_critical(&tail, alpha, df, low, high, t, err);
}

static double
standard_error(const struct stats_group *group, const struct stats_group *base,
	double sd)
{
	return sd * sqrt(1 / (double)group->n + 1 / (double)base->n);
}

static enum err_code
contrast_with(const struct stats_group *group, const struct stats_group *base,
	const struct stats_pooled *pooled, const struct stats_many_to_one *d,
	enum stats_side side, double critical, struct stats_contrast *out,
	struct err *err)
{
	const double se = standard_error(group, base, pooled->sd);
	const double reach_of = critical * se;
	struct stats_contrast got = {
		.difference = (double)(group->offset - base->offset)};
	double towards;

	got.t = got.difference / se;
	towards = side == STATS_BOTH ? fabs(got.t)
		: side == STATS_LESS ? -got.t
				     : got.t;
	TRY(stats_many_to_one_upper(d, towards, pooled->df, &got.p, err));
	got.low = side == STATS_LESS ? -(double)INFINITY
				     : got.difference - reach_of;
	got.high = side == STATS_GREATER ? (double)INFINITY
					 : got.difference + reach_of;
	*out = got;
	return ERR_NONE;
}

static enum err_code
make_distribution(struct arena *arena, const struct stats_grouped *data,
	size_t baseline, bool two_sided, const struct stats_many_to_one **d,
	struct err *err)
{
	double *loading = arena_take(arena, data->n_group, sizeof *loading);
	double n0 = (double)data->size[baseline];
	size_t k = 0;

	if (loading == NULL)
		return err_memory(err);
	for (size_t g = 0; g < data->n_group; g++) {
		double n = (double)data->size[g];

		if (g != baseline)
			loading[k++] = sqrt(n / (n + n0));
	}
	return stats_many_to_one_new(arena, loading, k, two_sided, d, err);
}

enum err_code
stats_against_baseline(struct arena *arena, const struct stats_grouped *data,
	size_t baseline, enum stats_side side, double confidence,
	struct stats_against_baseline *out, struct err *err)
{
	const struct stats_group *group;
	const struct stats_many_to_one *d;
	struct stats_pooled pooled;
	struct stats_contrast *contrast;
	double critical;

	TRY(stats_grouped_check(data, 2, err));
	TRY(stats_grouped_describe(arena, data, &group, err));
	TRY(stats_pool(group, data->n_group, &pooled, err));
	TRY(make_distribution(
		arena, data, baseline, side == STATS_BOTH, &d, err));
	TRY(stats_many_to_one_critical(
		d, 1 - confidence, pooled.df, &critical, err));
	contrast = arena_take(arena, data->n_group, sizeof *contrast);
	if (contrast == NULL)
		return err_memory(err);
	for (size_t g = 0; g < data->n_group; g++)
		if (g != baseline)
			TRY(contrast_with(&group[g], &group[baseline], &pooled,
				d, side, critical, &contrast[g], err));
	*out = (struct stats_against_baseline){
		.df = pooled.df, .critical = critical, .group = contrast};
	return ERR_NONE;
}

/* bootstrap.c - percentile and BCa intervals by resampling one sample. */
#include "stats/bootstrap.h"

#include "core/pool.h"
#include "core/rng.h"
#include "stats/fastrand.h"
#include "stats/radix.h"
#include "stats/summary.h"

#define MATHLIB_STANDALONE 1
#include <assert.h>
#include <Rmath.h>

#include <float.h>
#include <gsl/gsl_sort.h>
#include <math.h>
#include <string.h>

static double
middle(const double *sorted, size_t n)
{
	double upper = sorted[n / 2];

	return n % 2 == 1 ? upper : sorted[n / 2 - 1] / 2 + upper / 2;
}

double
stats_bootstrap_statistic(enum stats_statistic which, double *x, size_t n)
{
	double mean;

	if (which == STATS_MEDIAN) {
		gsl_sort(x, 1, n);
		return middle(x, n);
	}
	mean = stats_mean(x, n);
	if (which == STATS_MEAN)
		return mean;
	mean = which == STATS_CV ? fabs(mean) : 1;
	return sqrt(stats_squares(x, n) / (double)(n - 1)) / mean;
}

/* The statistics of a sample with each value left out. */

static void
leave_out_median(const double *sorted, size_t n, double *left)
{
	for (size_t i = 0; i < n; i++) {
		/* the others in order: sorted[k] below i, sorted[k + 1] above */
		size_t upper = (n - 1) / 2, lower = (n - 2) / 2;
		double a = sorted[lower >= i ? lower + 1 : lower];
		double b = sorted[upper >= i ? upper + 1 : upper];

		left[i] = a / 2 + b / 2;
	}
}

/* What is left of the sum of squares; where it is a small difference of large
 * numbers, which one value far out brings about, it is taken anew. */
static double
squares_without(
	const double *x, size_t n, size_t i, double mean, double squares)
{
	const double small = 1e-6;
	long double sum = 0, rest = 0;
	double d = x[i] - mean;
	double left = squares - d * d * (double)n / (double)(n - 1);

	if (left > small * squares || !(squares > 0))
		return fmax(left, 0);
	for (size_t j = 0; j < n; j++)
		if (j != i)
			sum += (long double)x[j] - (long double)mean;
	sum /= (long double)(n - 1);
	for (size_t j = 0; j < n; j++) {
		long double e = (long double)x[j] - (long double)mean - sum;

		rest += j != i ? e * e : 0;
	}
	return (double)rest;
}

static void
leave_out_moments(
	enum stats_statistic which, const double *x, size_t n, double *left)
{
	const double mean = stats_mean(x, n), squares = stats_squares(x, n);

	for (size_t i = 0; i < n; i++) {
		double shift = (mean - x[i]) / (double)(n - 1);
		double sd;

		/* the mean of the others is mean + shift */
		left[i] = shift;
		if (which == STATS_MEAN)
			continue;
		sd = sqrt(squares_without(x, n, i, mean, squares) /
			(double)(n - 2));
		left[i] = which == STATS_SD ? sd : sd / fabs(mean + shift);
	}
}

enum err_code
stats_bootstrap_acceleration(struct arena *arena, enum stats_statistic which,
	const double *x, size_t n, double *a, bool *has, struct err *err)
{
	const size_t least = which == STATS_SD || which == STATS_CV ? 3 : 2;
	double *sorted = arena_copy(arena, x, n, sizeof *sorted);
	double *left = arena_take(arena, n, sizeof *left);
	double mean, largest = 0;
	long double squares = 0, cubes = 0;

	if (sorted == NULL || left == NULL)
		return err_memory(err);
	*has = false;
	if (n < least)
		return ERR_NONE;
	gsl_sort(sorted, 1, n);
	if (which == STATS_MEDIAN)
		leave_out_median(sorted, n, left);
	else
		leave_out_moments(which, sorted, n, left);
	mean = stats_mean(left, n);
	for (size_t i = 0; i < n; i++)
		largest = fmax(largest, fabs(mean - left[i]));
	*has = largest > 0;
	for (size_t i = 0; *has && i < n; i++) {
		long double u = (mean - left[i]) / largest;

		squares += u * u;
		cubes += u * u * u;
	}
	if (*has)
		*a = (double)(cubes / (6 * squares * sqrtl(squares)));
	return ERR_NONE;
}

/* The draw at a level, see the header; draws in order. */
static double
draw_at(const double *draw, size_t n, double level, bool *has_end)
{
	double rank = (double)(n + 1) * level, whole = floor(rank);
	size_t k = (size_t)whole;
	double z, below, above;

	if (rank < 1 || rank > (double)n)
		*has_end = false;
	if (k < 1)
		return draw[0];
	if (k >= n)
		return draw[n - 1];
	if (!(rank > whole))
		return draw[k - 1];
	z = qnorm(level, 0, 1, 1, 0);
	below = qnorm(whole / (double)(n + 1), 0, 1, 1, 0);
	above = qnorm((whole + 1) / (double)(n + 1), 0, 1, 1, 0);
	return draw[k - 1] +
		(z - below) / (above - below) * (draw[k] - draw[k - 1]);
}

static enum err_code
sort_draws(struct arena *arena, double *draw, size_t n, struct err *err)
{
	struct stats_keyed *item = arena_take(arena, n, sizeof *item);
	struct stats_keyed *scratch = arena_take(arena, n, sizeof *scratch);

	if (item == NULL || scratch == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		item[i].key = stats_radix_key(draw[i]);
	stats_radix_sort(item, n, scratch);
	for (size_t i = 0; i < n; i++)
		draw[i] = stats_radix_value(item[i].key);
	return ERR_NONE;
}

/* The level that BCa takes in place of one, Efron (1987), equation 2.3. */
static double
bca_level(double z0, double a, double z)
{
	double shifted = z0 + z, room = 1 - a * shifted;

	/* beyond the pole of the transformation everything is included */
	if (room <= 0)
		return shifted > 0 ? 1 : 0;
	return pnorm(z0 + shifted / room, 0, 1, 1, 0);
}

enum err_code
stats_bootstrap_intervals(struct arena *arena,
	struct stats_bootstrap_draws *draws, double confidence,
	struct stats_bootstrap *out, struct err *err)
{
	struct stats_bootstrap got = {
		.estimate = draws->estimate, .has_ends = true};
	const double *draw = draws->draw, tail = (1 - confidence) / 2;
	const double z = qnorm(tail, 0, 1, 0, 0);
	const size_t n = draws->n;
	size_t below = 0;

	TRY(sort_draws(arena, draws->draw, n, err));
	got.percentile.low = draw_at(draw, n, tail, &got.has_ends);
	got.percentile.high = draw_at(draw, n, 1 - tail, &got.has_ends);
	while (below < n && draw[below] < draws->estimate - draws->margin)
		below++;
	got.has_bca = draws->has_acceleration && below > 0 && below < n;
	if (got.has_bca) {
		got.bias = qnorm((double)below / (double)n, 0, 1, 1, 0);
		got.acceleration = draws->acceleration;
		got.bca.low = draw_at(draw, n,
			bca_level(got.bias, got.acceleration, -z),
			&got.has_ends);
		got.bca.high = draw_at(draw, n,
			bca_level(got.bias, got.acceleration, z),
			&got.has_ends);
	}
	*out = got;
	return ERR_NONE;
}

/* The draws are made in blocks, each with a stream of its own, so that the
 * number of threads changes nothing. */
enum { BLOCK = 2000 };

/* No more numbers than this come out of one word: every bound is 2 or more and
 * the product of the bounds stays below fastrand_product_most. */
enum { PER_WORD_MOST = 43 };

struct job {
	const double *x;     /* n, in order; less the mean but for a median */
	size_t n, per_word;  /* numbers that one random word gives */
	uint64_t word_floor; /* see fastrand_below */
	enum stats_statistic which;
	double mean;
	uint64_t seed;
	double *draw; /* n_draw */
	size_t n_draw;
	uint32_t *count; /* median: n places a block */
};

/* Calls on the next random places in [0, n). */
static void
pick(struct fastrand *r, const struct job *job, size_t *place)
{
	uint64_t rest;

	do {
		rest = fastrand_word(r);
		for (size_t j = 0; j < job->per_word; j++)
			place[j] = fastrand_below(&rest, job->n);
	} while (rest < job->word_floor);
}

static double
draw_median(const struct job *job, struct fastrand *r, uint32_t *count)
{
	const size_t n = job->n;
	size_t place[PER_WORD_MOST], seen = 0, at = 0;
	double lower;

	memset(count, 0, n * sizeof *count);
	for (size_t i = 0; i < n; i += job->per_word) {
		pick(r, job, place);
		for (size_t j = 0; j < job->per_word && i + j < n; j++)
			count[place[j]]++;
	}
	while (seen + count[at] < (n + 1) / 2)
		seen += count[at++];
	lower = job->x[at];
	while (seen + count[at] < n / 2 + 1)
		seen += count[at++];
	return lower / 2 + job->x[at] / 2;
}

/* Squares left of a sum of squares by this share of it are rounding. */
static const double squares_lost = 1e-13;

static double
draw_moments(const struct job *job, struct fastrand *r)
{
	const size_t n = job->n;
	size_t place[PER_WORD_MOST] = {0};
	double sum = 0, squares = 0, off, left;

	for (size_t i = 0; i < n; i += job->per_word) {
		size_t end = n - i < job->per_word ? n - i : job->per_word;

		pick(r, job, place);
		for (size_t j = 0; j < end; j++) {
			double x = job->x[place[j]];

			sum += x;
			squares += x * x;
		}
	}
	off = sum / (double)n;
	if (job->which == STATS_MEAN)
		return job->mean + off;
	left = squares - off * sum;
	if (left <= squares_lost * squares)
		return 0;
	left = sqrt(left / (double)(n - 1));
	return job->which == STATS_SD ? left : left / fabs(job->mean + off);
}

static enum err_code
draw_block(void *data, size_t block, struct err *err)
{
	struct job *job = data;
	const size_t from = block * BLOCK;
	const size_t end = job->n_draw - from < BLOCK ? job->n_draw
						      : from + BLOCK;
	uint32_t *count = job->count + block * job->n;
	gsl_rng *rng = rng_new(job->seed, block);
	struct fastrand r;

	if (rng == NULL)
		return err_memory(err);
	r = fastrand_start(rng);
	gsl_rng_free(rng);
	for (size_t i = from; i < end; i++)
		job->draw[i] = job->which == STATS_MEDIAN
			? draw_median(job, &r, count)
			: draw_moments(job, &r);
	return ERR_NONE;
}

static enum err_code
check_ask(const struct stats_bootstrap_ask *ask, struct err *err)
{
	size_t above = 0, below = 0;

	if (ask->n < 2 || ask->n > STATS_BOOTSTRAP_VALUES_MOST)
		return err_report(err, ERR_INPUT, "values",
			"Resampling takes 2 to %d values, and here %s %zu.",
			STATS_BOOTSTRAP_VALUES_MOST, ask->n == 1 ? "is" : "are",
			ask->n);
	for (size_t i = 0; i < ask->n; i++) {
		if (!isfinite(ask->value[i]))
			return err_report(err, ERR_INPUT, "values",
				"Value %zu is not a finite number.", i + 1);
		above += ask->value[i] > 0;
		below += ask->value[i] < 0;
	}
	if (ask->which == STATS_CV && above < ask->n && below < ask->n)
		return err_report(err, ERR_INPUT, "values",
			"The cv is the spread as a share of the mean, which "
			"takes values all above 0 or all below; ask for sd "
			"instead.");
	if (ask->draws < 1 || ask->draws > STATS_BOOTSTRAP_DRAWS_MOST)
		return err_report(err, ERR_INPUT, "draws",
			"The draws are %llu; they lie between 1 and %d.",
			(unsigned long long)ask->draws,
			STATS_BOOTSTRAP_DRAWS_MOST);
	if (ask->draws > stats_bootstrap_work_most / ask->n)
		return err_report(err, ERR_INPUT, "draws",
			"%llu draws of %zu values are too many to wait for; "
			"take at most %llu draws.",
			(unsigned long long)ask->draws, ask->n,
			(unsigned long long)(stats_bootstrap_work_most /
				ask->n));
	if (!(ask->confidence > 0 && ask->confidence < 1))
		return err_report(err, ERR_INPUT, "confidence",
			"The confidence is %g; it lies between 0 and 1.",
			ask->confidence);
	return ERR_NONE;
}

/* The squares must fit into a double with room for their sum. */
static enum err_code
check_spread(const struct job *job, struct err *err)
{
	const double most = 1e150, least = 1e-150;
	double largest = fmax(fabs(job->x[0]), fabs(job->x[job->n - 1]));

	if (job->which == STATS_MEDIAN)
		return ERR_NONE;
	if (largest < most && (largest > least || !(largest > 0)))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "values",
		"The largest distance from the mean is %g; it must lie between "
		"%g "
		"and %g, so give the values in another unit.",
		largest, least, most);
}

static enum err_code
take_job(struct arena *arena, const struct stats_bootstrap_ask *ask,
	struct job *job, struct err *err)
{
	const size_t n = ask->n, n_draw = (size_t)ask->draws;
	const size_t n_block = (n_draw + BLOCK - 1) / BLOCK;
	const bool counts = ask->which == STATS_MEDIAN;
	uint64_t product = n;
	double *x = arena_copy(arena, ask->value, n, sizeof *x);

	*job = (struct job){.x = x,
		.n = n,
		.per_word = 1,
		.which = ask->which,
		.mean = stats_mean(ask->value, n),
		.seed = ask->seed,
		.draw = arena_take(arena, n_draw, sizeof *job->draw),
		.n_draw = n_draw,
		.count = arena_take(
			arena, counts ? n_block * n : 0, sizeof *job->count)};
	if (x == NULL || job->draw == NULL || job->count == NULL)
		return err_memory(err);
	assert(n > 0);
	gsl_sort(x, 1, n);
	for (size_t i = 0; i < n && ask->which != STATS_MEDIAN; i++)
		x[i] -= job->mean;
	while (job->per_word < PER_WORD_MOST &&
		product <= fastrand_product_most / n) {
		product *= n;
		job->per_word++;
	}
	job->word_floor = fastrand_floor(product);
	return check_spread(job, err);
}

/* Draws this near to the estimate, in its spread, equal it but for rounding. */
static const double equally_far = 1e-12;

enum err_code
stats_bootstrap(struct arena *arena, const struct stats_bootstrap_ask *ask,
	struct stats_bootstrap *out, struct err *err)
{
	struct stats_bootstrap_draws draws = {0};
	struct stats_bootstrap got;
	struct job job;
	double *copy;

	TRY(check_ask(ask, err));
	TRY(take_job(arena, ask, &job, err));
	copy = arena_copy(arena, ask->value, ask->n, sizeof *copy);
	if (copy == NULL)
		return err_memory(err);
	draws.estimate = stats_bootstrap_statistic(ask->which, copy, ask->n);
	draws.margin = equally_far * job.x[job.n - 1] - equally_far * job.x[0];
	if (ask->which == STATS_CV)
		draws.margin /= fabs(job.mean);
	draws.margin += 4 * DBL_EPSILON * fabs(draws.estimate);
	TRY(stats_bootstrap_acceleration(arena, ask->which, ask->value, ask->n,
		&draws.acceleration, &draws.has_acceleration, err));
	TRY(pool_run(ask->n_thread, (job.n_draw + BLOCK - 1) / BLOCK,
		draw_block, &job, err));
	draws.draw = job.draw;
	draws.n = job.n_draw;
	TRY(stats_bootstrap_intervals(
		arena, &draws, ask->confidence, &got, err));
	*out = got;
	return ERR_NONE;
}

/* variance.c - variance components of batches by restricted likelihood. */
#include "stats/variance.h"

#include "stats/radix.h"
#include "stats/root.h"

#define MATHLIB_STANDALONE 1
#include <Rmath.h>

#include <assert.h>
#include <float.h>
#include <math.h>

/* A batch, measured from the first value of all and in units of the scale. */
struct one_batch {
	size_t n, group;
	double first;        /* its first value */
	long double sum;     /* of distances from first */
	long double squares; /* of distances from first, then from the mean */
	long double mean;
};

/* The batches of one size in one group. */
struct lot {
	size_t group;
	double n;            /* values in a batch */
	double m;            /* batches */
	long double mean;    /* of the batch means */
	long double squares; /* of the batch means' distances from it */
};

struct problem {
	struct lot *lot; /* sorted by group */
	size_t n_lot, n_batch, n_group;
	long double within;  /* sum of squares within batches */
	long double between; /* sum of squares of batch means within groups */
	long double free;    /* values less groups */
	double size;         /* a typical batch size, to measure ratios by */
	double scale;        /* a power of two; values were divided by it */
	double first;        /* the value that distances are taken from */
};

static enum err_code
check_values(const struct stats_variance_data *data, struct err *err)
{
	if (data->n == 0)
		return err_report(err, ERR_INPUT, "rows",
			"There is no value; give two batches or more with two "
			"values or more.");
	for (size_t i = 0; i < data->n; i++) {
		if (!isfinite(data->value[i]))
			return err_report(err, ERR_INPUT, "rows",
				"Value %zu is not a finite number.", i + 1);
		if (data->batch[i] >= data->n_batch)
			return err_report(err, ERR_INPUT, "rows",
				"Value %zu belongs to batch %zu, but there are "
				"only %zu.",
				i + 1, data->batch[i] + 1, data->n_batch);
	}
	for (size_t b = 0; b < data->n_batch; b++)
		if (data->batch_group[b] >= data->n_group)
			return err_report(err, ERR_INPUT, "rows",
				"Batch %zu belongs to group %zu, but there are "
				"only %zu.",
				b + 1, data->batch_group[b] + 1, data->n_group);
	return ERR_NONE;
}

/* Can the two variances be told apart in so many values, batches, groups? */
static enum err_code
check_design(const struct stats_variance_data *data, struct err *err)
{
	if (data->n_batch == data->n_group)
		return err_report(err, ERR_INPUT, "rows",
			"%s only one batch, so nothing shows how much batches "
			"differ; give a second batch of at least one group.",
			data->n_group == 1 ? "There is" : "Every group has");
	if (data->n_batch == data->n)
		return err_report(err, ERR_INPUT, "rows",
			"Every batch has only one value, so the spread between "
			"batches cannot be told from the spread within one; "
			"give two values of at least one batch.");
	return ERR_NONE;
}

/* The least power of two above the largest distance from the first value, so
 * that squares neither overflow nor vanish. */
static double
choose_scale(const double *value, size_t n)
{
	double largest = 0;
	int exponent;

	for (size_t i = 1; i < n; i++)
		largest = fmax(largest, fabs(value[i] / 2 - value[0] / 2));
	(void)frexp(largest, &exponent);
	return ldexp(
		1, exponent + 1 < DBL_MAX_EXP ? exponent + 1 : DBL_MAX_EXP - 1);
}

static void
fill_batches(const struct stats_variance_data *data, const struct problem *p,
	struct one_batch *batch)
{
	const long double scale = (long double)p->scale;

	for (size_t i = 0; i < data->n; i++) {
		struct one_batch *b = &batch[data->batch[i]];
		long double d;

		if (b->n++ == 0)
			b->first = data->value[i];
		d = ((long double)data->value[i] - (long double)b->first) /
			scale;
		b->sum += d;
		b->squares += d * d;
	}
	for (size_t j = 0; j < data->n_batch; j++) {
		struct one_batch *b = &batch[j];
		long double n = (long double)b->n;

		b->group = data->batch_group[j];
		b->squares -= b->sum * b->sum / n;
		b->mean = ((long double)b->first - (long double)p->first) /
				scale +
			b->sum / n;
	}
}

/* Puts the batches in order of group and size. */
static enum err_code
sort_batches(struct arena *arena, const struct one_batch *batch, size_t n,
	struct stats_keyed **order, struct err *err)
{
	struct stats_keyed *item = arena_take(arena, n, sizeof *item);
	struct stats_keyed *scratch = arena_take(arena, n, sizeof *scratch);

	if (item == NULL || scratch == NULL)
		return err_memory(err);
	for (size_t j = 0; j < n; j++)
		item[j] = (struct stats_keyed){
			.key = (uint64_t)batch[j].group << 32 | batch[j].n,
			.from = j};
	stats_radix_sort(item, n, scratch);
	*order = item;
	return ERR_NONE;
}

/* Mean and sum of squares of the batch means of one lot. */
static void
add_lot(struct problem *p, const struct one_batch *batch,
	const struct stats_keyed *item, size_t m)
{
	const struct one_batch *first = &batch[item[0].from];
	struct lot lot = {
		.group = first->group, .n = (double)first->n, .m = (double)m};
	long double sum = 0;

	for (size_t i = 0; i < m; i++)
		sum += batch[item[i].from].mean - first->mean;
	lot.mean = first->mean + sum / (long double)m;
	for (size_t i = 0; i < m; i++) {
		long double d = batch[item[i].from].mean - lot.mean;

		lot.squares += d * d;
		p->within += batch[item[i].from].squares;
	}
	p->size += lot.m * lot.n;
	p->lot[p->n_lot++] = lot;
}

static enum err_code
take_lots(struct arena *arena, const struct one_batch *batch, size_t n_batch,
	struct problem *p, struct err *err)
{
	struct stats_keyed *item;
	size_t end;

	TRY(sort_batches(arena, batch, n_batch, &item, err));
	p->lot = arena_take(arena, n_batch, sizeof *p->lot);
	if (p->lot == NULL)
		return err_memory(err);
	for (size_t at = 0; at < n_batch; at = end) {
		for (end = at + 1;
			end < n_batch && item[end].key == item[at].key;)
			end++;
		add_lot(p, batch, item + at, end - at);
	}
	return ERR_NONE;
}

/* What the likelihood is made of, at one ratio of the variances. */
struct sums {
	long double log_det;       /* of the covariance and of the means */
	long double log_det_slope; /* its slope in the ratio */
	long double squares;       /* weighted sum of squares */
	long double squares_fall;  /* minus its slope in the ratio */
};

/* A batch mean has the variance within * (1 + n ratio) / n; its weight is one
 * over that, without the variance within, and falls by weight squared. */
static double
weight(const struct lot *lot, double ratio)
{
	return lot->n / (1 + lot->n * ratio);
}

/* Adds the lots [at, end) of one group. */
static void
add_group(const struct lot *lot, size_t n, double ratio, struct sums *s)
{
	long double mean = 0;
	double total = 0, squared = 0;

	assert(n > 0);
	for (size_t i = 0; i < n; i++) {
		double w = weight(&lot[i], ratio);

		total += lot[i].m * w;
		squared += lot[i].m * w * w;
		mean += lot[i].m * w * (lot[i].mean - lot[0].mean);
		s->log_det += lot[i].m * log1p(lot[i].n * ratio);
	}
	mean = lot[0].mean + mean / total;
	s->log_det += log(total);
	s->log_det_slope += total - squared / total;
	for (size_t i = 0; i < n; i++) {
		long double w = weight(&lot[i], ratio), d = lot[i].mean - mean;
		long double q = w * (lot[i].squares + lot[i].m * d * d);

		s->squares += q;
		s->squares_fall += w * q;
	}
}

static struct sums
sums_at(const struct problem *p, double ratio)
{
	struct sums s = {.squares = p->within};
	size_t end;

	for (size_t at = 0; at < p->n_lot; at = end) {
		for (end = at + 1; end < p->n_lot &&
			p->lot[end].group == p->lot[at].group;)
			end++;
		add_group(p->lot + at, end - at, ratio, &s);
	}
	return s;
}

/* The ratio is searched on x = log(1 + size * ratio), which is even near 0 and
 * logarithmic far out. */
static double
ratio_at(const struct problem *p, double x)
{
	return expm1(x) / p->size;
}

/* Minus twice the restricted log-likelihood, profiled over the variance
 * within, less its constants. */
static long double
deviance(const struct problem *p, const struct sums *s)
{
	return s->log_det + p->free * logl(s->squares / p->free);
}

static double
deviance_at(const struct problem *p, double x)
{
	struct sums s = sums_at(p, ratio_at(p, x));

	return (double)deviance(p, &s);
}

/* Minus the slope of the deviance in the ratio, scaled to the free values. */
static enum err_code
score_at(const void *data, double x, double *height, struct err *err)
{
	const struct problem *p = data;
	const double ratio = ratio_at(p, fmax(x, 0));
	struct sums s = sums_at(p, ratio);
	long double score = p->free * s.squares_fall / s.squares -
		s.log_det_slope;

	(void)err;
	*height = (double)(score / p->free) * (1 / p->size + ratio);
	return ERR_NONE;
}

/* The best x and how far the scan went. */
struct peak {
	double x, deviance;
	double far; /* beyond it the deviance only rises */
};

static const double scan_step = 0.5;

/* Where the scan may stop: out there the squares are all but those within and
 * the slope of the deviance is (batches - groups) / ratio. */
static double
scan_end(const struct problem *p)
{
	const double margin = 100, spare = (double)(p->n_batch - p->n_group);
	long double ratio = p->free * p->between / (spare * p->within);

	return log1p(p->size * margin * (double)(1 + ratio)) + scan_step;
}

static void
consider(const struct problem *p, double x, struct peak *peak)
{
	double d = deviance_at(p, x);

	if (d < peak->deviance) {
		peak->deviance = d;
		peak->x = x;
	}
}

/* Unequal batches can give more than one peak: each step of a scan in which
 * the score changes its sign is looked into, and so is the boundary. */
static enum err_code
find_peak(const struct problem *p, struct peak *out, struct err *err)
{
	struct peak peak = {.deviance = INFINITY, .far = scan_end(p)};
	double score, before, x;

	if (!isfinite(peak.far))
		return err_report(err, ERR_NUMERIC, "rows",
			"The batches lie so much further apart than the values "
			"within them that the spread within is lost in the "
			"rounding of the values.");

	TRY(score_at(p, 0, &before, err));
	if (before <= 0)
		consider(p, 0, &peak);
	for (size_t i = 0; (double)i * scan_step < peak.far; i++) {
		const double at = (double)i * scan_step;

		TRY(score_at(p, at + scan_step, &score, err));
		if (before > 0 && score <= 0) {
			TRY(stats_root(
				score_at, p, at, at + scan_step, &x, err));
			consider(p, x, &peak);
		}
		before = score;
	}
	if (!isfinite(peak.deviance))
		return err_report(err, ERR_NUMERIC, "rows",
			"The likelihood of these values has no peak that can "
			"be found; the spread within batches may be lost in "
			"the rounding of the values.");
	*out = peak;
	return ERR_NONE;
}

/* The region that the likelihood keeps: deviance <= bar. */
struct region {
	const struct problem *p;
	double bar;
	double x_low, x_high; /* its ends */
};

/* The end of the region between a place inside and one outside, by halving: the
 * secant creeps where the deviance is flat. */
static double
edge(const struct region *r, double inside, double outside)
{
	enum { HALVINGS = 50 };

	for (int i = 0; i < HALVINGS; i++) {
		double middle = (inside + outside) / 2;

		if (deviance_at(r->p, middle) <= r->bar)
			inside = middle;
		else
			outside = middle;
	}
	return inside;
}

static struct region
find_region(const struct problem *p, const struct peak *peak, double drop)
{
	struct region r = {.p = p,
		.bar = peak->deviance + drop,
		.x_low = peak->x,
		.x_high = peak->x};

	for (size_t i = 0; (double)i * scan_step < peak->far; i++) {
		const double at = (double)i * scan_step;

		if (deviance_at(p, at) > r.bar)
			continue;
		r.x_low = fmin(r.x_low, at);
		r.x_high = fmax(r.x_high, at);
	}
	r.x_high = edge(&r, r.x_high, r.x_high + scan_step);
	if (r.x_low > 0)
		r.x_low = edge(&r, r.x_low, fmax(r.x_low - scan_step, 0));
	return r;
}

/* The root of v + exp(-v) - 1 = e on the side of v that the start is on; from
 * outside Newton's steps come in without passing it. */
static double
solve_room(double e, double start)
{
	enum { STEPS_MAX = 100 };
	double v = start;

	for (int i = 0; i < STEPS_MAX; i++) {
		double slope = -expm1(-v), step;

		if (!(fabs(slope) > 0))
			break;
		step = (v - slope - e) / slope;
		v -= step;
		if (fabs(step) <= DBL_EPSILON * fabs(v))
			break;
	}
	return v;
}

/* An end of an interval as a height over x, to be made as large as can be. */
enum end { WITHIN_LOW, WITHIN_HIGH, BETWEEN_LOW, BETWEEN_HIGH };

/* At one ratio the likelihood keeps the variances within from s exp(v) with
 * v < 0 to s exp(v) with v > 0, v + exp(-v) - 1 = room / free. */
static double
log_end(const struct region *r, enum end end, double x)
{
	const struct problem *p = r->p;
	const double ratio = ratio_at(p, x);
	struct sums s = sums_at(p, ratio);
	double e = (r->bar - (double)deviance(p, &s)) / (double)p->free;
	double log_s = (double)logl(s.squares / p->free), v = 0;
	bool is_low = end == WITHIN_LOW || end == BETWEEN_LOW;

	if (e > 0)
		v = solve_room(e, is_low ? -sqrt(2 * e) : e + 1);
	if (end == BETWEEN_LOW || end == BETWEEN_HIGH)
		log_s += log(ratio);
	return log_s + v;
}

static double
height_of(const struct region *r, enum end end, double x)
{
	double got = log_end(r, end, x);

	return end == WITHIN_LOW || end == BETWEEN_LOW ? -got : got;
}

/* The furthest that the end reaches over the region: the best of a scan, then
 * golden section between its neighbours. */
static double
furthest(const struct region *r, enum end end)
{
	enum { SCAN = 24, STEPS = 40 };
	const double golden = 0.618033988749894848,
		     step = (r->x_high - r->x_low) / SCAN;
	double best = -INFINITY, a = r->x_low, b = r->x_high;
	double x[2], height[2];

	for (int i = 0; i <= SCAN; i++) {
		double at = r->x_low + i * step;
		double got = height_of(r, end, at);

		if (got > best) {
			best = got;
			a = fmax(at - step, r->x_low);
			b = fmin(at + step, r->x_high);
		}
	}
	x[0] = b - golden * (b - a);
	x[1] = a + golden * (b - a);
	for (int k = 0; k < 2; k++)
		height[k] = height_of(r, end, x[k]);
	for (int i = 0; i < STEPS; i++) {
		int worse = height[0] < height[1] ? 0 : 1;

		best = fmax(best, height[1 - worse]);
		if (worse == 0)
			a = x[0];
		else
			b = x[1];
		x[worse] = x[1 - worse];
		height[worse] = height[1 - worse];
		x[1 - worse] = worse == 0 ? a + golden * (b - a)
					  : b - golden * (b - a);
		height[1 - worse] = height_of(r, end, x[1 - worse]);
	}
	return end == WITHIN_LOW || end == BETWEEN_LOW ? -best : best;
}

static enum err_code
take_problem(struct arena *arena, const struct stats_variance_data *data,
	struct problem *out, struct err *err)
{
	struct problem p = {.n_batch = data->n_batch,
		.n_group = data->n_group,
		.free = (long double)(data->n - data->n_group)};
	struct one_batch *batch;

	TRY(check_values(data, err));
	TRY(check_design(data, err));
	batch = arena_take(arena, data->n_batch, sizeof *batch);
	if (batch == NULL)
		return err_memory(err);
	p.first = data->value[0];
	p.scale = choose_scale(data->value, data->n);
	fill_batches(data, &p, batch);
	for (size_t j = 0; j < data->n_batch; j++)
		if (batch[j].n == 0)
			return err_report(err, ERR_INPUT, "rows",
				"Batch %zu has no value.", j + 1);
	TRY(take_lots(arena, batch, data->n_batch, &p, err));
	if (!(p.within > 0))
		return err_report(err, ERR_INPUT, "rows",
			"The values within every batch are equal, so their "
			"spread is below what the readings show; give them "
			"with more digits.");
	p.size /= (double)data->n_batch;
	for (size_t i = 0; i < p.n_lot; i++)
		p.between += p.lot[i].squares +
			p.lot[i].m * p.lot[i].mean * p.lot[i].mean;
	*out = p;
	return ERR_NONE;
}

/* A variance with its interval; at a confidence near 0 the region is lost in
 * rounding, and the interval is the estimate. */
static struct stats_variance_part
part_from(const struct region *r, double variance, enum end low, enum end high)
{
	const double log_unit = 2 * log(r->p->scale);

	return (struct stats_variance_part){.variance = variance,
		.low = fmin(exp(log_unit + furthest(r, low)), variance),
		.high = fmax(exp(log_unit + furthest(r, high)), variance)};
}

static enum err_code
check_range(const struct stats_variance *got, struct err *err)
{
	if (got->within.low >= DBL_MIN && isfinite(got->within.high) &&
		isfinite(got->between.high))
		return ERR_NONE;
	return err_report(err, ERR_INPUT, "rows",
		"The squares of these values do not fit between %g and %g; "
		"give them in another unit.",
		DBL_MIN, DBL_MAX);
}

enum err_code
stats_variance(struct arena *arena, const struct stats_variance_data *data,
	double confidence, struct stats_variance *out, struct err *err)
{
	struct stats_variance got = {0};
	struct problem p;
	struct region r;
	struct peak peak = {0};
	struct sums s;
	double within;

	if (!(confidence > 0 && confidence < 1))
		return err_report(err, ERR_INPUT, "confidence",
			"The confidence is %g; it lies between 0 and 1.",
			confidence);
	TRY(take_problem(arena, data, &p, err));
	TRY(find_peak(&p, &peak, err));
	r = find_region(&p, &peak, qchisq(confidence, 1, 1, 0));
	s = sums_at(&p, ratio_at(&p, peak.x));
	within = (double)(s.squares / p.free) * p.scale * p.scale;
	got.within = part_from(&r, within, WITHIN_LOW, WITHIN_HIGH);
	got.between = part_from(
		&r, within * ratio_at(&p, peak.x), BETWEEN_LOW, BETWEEN_HIGH);
	got.log_likelihood = -0.5 *
		(peak.deviance +
			(double)p.free *
				(1 + log(2 * M_PI) + 2 * log(p.scale)));
	TRY(check_range(&got, err));
	*out = got;
	return ERR_NONE;
}

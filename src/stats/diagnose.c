/* diagnose.c - split R-hat and effective sample size of Markov chains. */
#include "stats/diagnose.h"

#include "stats/radix.h"

#include "core/pool.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_fft_halfcomplex.h>
#include <gsl/gsl_fft_real.h>

#include <math.h>
#include <stdbool.h>
#include <stdint.h>

/* Columns are shared out among so many tasks, each with scratch of its own.
 * Up to DIRECT_LAG autocovariances are summed one by one, which is all a good
 * chain needs; beyond that all of them come from one Fourier transform. */
enum { LEAST_KEPT = 8, N_LANE = 4, DIRECT_LAG = 48 };

/* Blom's plotting position, Vehtari et al. (2021), equation 14. */
static const double blom_from = 0.375, blom_to = 0.25;

struct lane {
	double *z; /* n: the column, then its normal scores */
	struct stats_keyed *item, *scratch; /* n */
	double *fourier;                    /* n_fourier */
	double *later; /* half: autocovariances by transform */
};

struct job {
	const struct stats_column *column;
	size_t n_column, n_half, half; /* half chains, draws in each */
	size_t n_chain, n_keep, n_fourier;
	const double *score; /* of ranks 1 .. n */
	struct lane lane[N_LANE];
	struct stats_diagnosis *got;
};

/* Draw i of the split chains in the column. */
static double
draw_at(const struct job *job, const struct stats_column *column, size_t i)
{
	const size_t h = i / job->half, chain = h / 2;
	/* The second half ends with the chain. */
	const size_t from = chain * job->n_keep +
		(h % 2 == 0 ? 0 : job->n_keep - job->half);

	return column->at[(from + i % job->half) * column->step];
}

static void
sort_column(const struct job *job, struct lane *lane)
{
	const size_t n = job->n_half * job->half;

	for (size_t i = 0; i < n; i++)
		lane->item[i] = (struct stats_keyed){
			stats_radix_key(lane->z[i]), i};
	stats_radix_sort(lane->item, n, lane->scratch);
}

/* The sorted items become the distances from the median, sorted: what lies
 * below and what lies above are in order already, so they are merged. */
static void
fold(const struct job *job, struct lane *lane, double median)
{
	const size_t n = job->n_half * job->half;
	const uint64_t middle = stats_radix_key(median);
	size_t above = 0, below, to = 0;
	struct stats_keyed *swap = lane->item;

	while (above < n && lane->item[above].key < middle)
		above++;
	for (below = above; to < n; to++) {
		const double distance_below = below > 0
			? median - stats_radix_value(lane->item[below - 1].key)
			: (double)INFINITY;
		const double distance_above = above < n
			? stats_radix_value(lane->item[above].key) - median
			: (double)INFINITY;
		const bool is_below = below > 0 &&
			(above == n || distance_below <= distance_above);

		lane->scratch[to].key = stats_radix_key(
			is_below ? distance_below : distance_above);
		lane->scratch[to].from = is_below ? lane->item[--below].from
						  : lane->item[above++].from;
	}
	lane->item = lane->scratch;
	lane->scratch = swap;
}

/* The sorted items' normal scores into z; ties share their mean rank. */
static void
score(const struct job *job, struct lane *lane)
{
	const size_t n = job->n_half * job->half;
	size_t next;

	for (size_t i = 0; i < n; i = next) {
		double value = job->score[i];

		next = i + 1;
		while (next < n && lane->item[next].key == lane->item[i].key)
			next++;
		if (next > i + 1) {
			const double rank = 0.5 * (double)(i + 1 + next);

			value = gsl_cdf_ugaussian_Pinv(
				(rank - blom_from) / ((double)n + blom_to));
		}
		for (size_t j = i; j < next; j++)
			lane->z[lane->item[j].from] = value;
	}
}

/* Means taken off each half chain; the variance within and the pooled one. */
struct spread {
	double within, pooled;
};

static struct spread
centre_halves(const struct job *job, double *z)
{
	const double m = (double)job->n_half, n = (double)job->half;
	double within = 0, sum = 0, square = 0, between;

	for (size_t h = 0; h < job->n_half; h++) {
		double *part = z + h * job->half, mean = 0;

		for (size_t i = 0; i < job->half; i++)
			mean += part[i];
		mean /= n;
		for (size_t i = 0; i < job->half; i++) {
			part[i] -= mean;
			within += part[i] * part[i];
		}
		sum += mean;
		square += mean * mean;
	}
	within /= m * (n - 1);
	between = (square - sum * sum / m) / (m - 1);
	return (struct spread){within, within * (n - 1) / n + fmax(between, 0)};
}

static double
rhat(struct spread spread)
{
	return spread.within > 0 ? sqrt(spread.pooled / spread.within) : 1;
}

/* Mean over the half chains of the autocovariance at one lag. */
static double
covariance_at(const struct job *job, const double *z, size_t lag)
{
	double sum = 0;

	for (size_t h = 0; h < job->n_half; h++) {
		const double *part = z + h * job->half;

		for (size_t i = lag; i < job->half; i++)
			sum += part[i] * part[i - lag];
	}
	return sum / (double)(job->n_half * job->half);
}

/* The same at every lag, by the spectrum of the halves padded with zeros. */
static void
transform_covariances(const struct job *job, struct lane *lane)
{
	const size_t n = job->n_fourier;
	double *f = lane->fourier;

	for (size_t t = 0; t < job->half; t++)
		lane->later[t] = 0;
	for (size_t h = 0; h < job->n_half; h++) {
		for (size_t i = 0; i < n; i++)
			f[i] = i < job->half ? lane->z[h * job->half + i] : 0;
		gsl_fft_real_radix2_transform(f, 1, n);
		f[0] *= f[0];
		f[n / 2] *= f[n / 2];
		for (size_t i = 1; i < n / 2; i++) {
			f[i] = f[i] * f[i] + f[n - i] * f[n - i];
			f[n - i] = 0;
		}
		gsl_fft_halfcomplex_radix2_inverse(f, 1, n);
		for (size_t t = 0; t < job->half; t++)
			lane->later[t] += f[t];
	}
	for (size_t t = 0; t < job->half; t++)
		lane->later[t] /= (double)(job->n_half * job->half);
}

static double
correlation(const struct job *job, struct lane *lane, struct spread spread,
	size_t lag)
{
	double covariance;

	if (lag == DIRECT_LAG)
		transform_covariances(job, lane);
	covariance = lag < DIRECT_LAG ? covariance_at(job, lane->z, lag)
				      : lane->later[lag];
	return 1 - (spread.within - covariance) / spread.pooled;
}

/* Geyer's initial monotone sequence, as in Vehtari et al. (2021), section 3.2:
 * sums of neighbouring pairs while they are positive, never growing. */
static double
effective_size(const struct job *job, struct lane *lane, struct spread spread)
{
	const double n = (double)(job->n_half * job->half);
	double last = INFINITY, tau = -1, even = 1, odd = 0;

	if (!(spread.pooled > 0))
		return n;
	for (size_t t = 0; t + 1 < job->half; t += 2) {
		even = t == 0 ? 1 : correlation(job, lane, spread, t);
		odd = correlation(job, lane, spread, t + 1);
		if (even + odd < 0)
			break;
		last = fmin(last, even + odd);
		tau += 2 * last;
	}
	if (even + odd < 0 && even > 0)
		tau += even;
	return n / fmax(tau, 1 / log10(n));
}

static struct stats_diagnosis
diagnose_column(const struct job *job, struct lane *lane, size_t index)
{
	const size_t n = job->n_half * job->half;
	struct stats_diagnosis got;
	struct spread spread;
	double median;

	for (size_t i = 0; i < n; i++)
		lane->z[i] = draw_at(job, &job->column[index], i);
	sort_column(job, lane);
	median = 0.5 *
		(stats_radix_value(lane->item[(n - 1) / 2].key) +
			stats_radix_value(lane->item[n / 2].key));
	score(job, lane);
	spread = centre_halves(job, lane->z);
	got.rhat = rhat(spread);
	got.ess = effective_size(job, lane, spread);
	fold(job, lane, median);
	score(job, lane);
	got.rhat = fmax(got.rhat, rhat(centre_halves(job, lane->z)));
	return got;
}

static enum err_code
run_lane(void *data, size_t index, struct err *err)
{
	struct job *job = data;

	(void)err;
	for (size_t i = index; i < job->n_column; i += N_LANE)
		job->got[i] = diagnose_column(job, &job->lane[index], i);
	return ERR_NONE;
}

static enum err_code
take_lane(struct arena *a, const struct job *job, struct lane *lane,
	struct err *err)
{
	const size_t n = job->n_half * job->half;

	lane->z = arena_take(a, n, sizeof *lane->z);
	lane->item = arena_take(a, n, sizeof *lane->item);
	lane->scratch = arena_take(a, n, sizeof *lane->scratch);
	lane->fourier = arena_take(a, job->n_fourier, sizeof *lane->fourier);
	lane->later = arena_take(a, job->half, sizeof *lane->later);
	if (!lane->z || !lane->item || !lane->scratch || !lane->fourier ||
		!lane->later)
		return err_memory(err);
	return ERR_NONE;
}

static enum err_code
prepare(struct arena *a, struct job *job, struct err *err)
{
	const size_t n = job->n_half * job->half;
	double *scores = arena_take(a, n, sizeof *scores);

	if (scores == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++)
		scores[i] = gsl_cdf_ugaussian_Pinv(
			((double)i + 1 - blom_from) / ((double)n + blom_to));
	job->score = scores;
	job->n_fourier = 1;
	while (job->n_fourier < 2 * job->half)
		job->n_fourier *= 2;
	for (size_t i = 0; i < N_LANE && i < job->n_column; i++)
		TRY(take_lane(a, job, &job->lane[i], err));
	return ERR_NONE;
}

enum err_code
stats_diagnose(struct arena *a, const struct stats_column *column,
	size_t n_column, size_t n_chain, size_t n_keep, size_t n_thread,
	struct stats_diagnosis *got, struct err *err)
{
	const struct arena_mark scratch = arena_mark(a);
	struct job job = {.column = column,
		.n_column = n_column,
		.n_chain = n_chain,
		.n_keep = n_keep,
		.n_half = 2 * n_chain,
		.half = n_keep / 2,
		.got = got};

	if (n_chain == 0 || n_keep < LEAST_KEPT)
		return err_report(err, ERR_INPUT, "draws",
			"There are %zu chains of %zu draws; a diagnosis takes "
			"at least one chain of %d.",
			n_chain, n_keep, LEAST_KEPT);
	TRY(prepare(a, &job, err));
	TRY(pool_run(n_thread, n_column < N_LANE ? n_column : N_LANE, run_lane,
		&job, err));
	arena_back(a, scratch);
	return ERR_NONE;
}

/* diagnose.c - split R-hat and bulk effective sample size of rank-normalised
 * draws. */
#include "stats/diagnose.h"

#include "core/pool.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

enum { KEEP_LEAST = 8 };

/* The draws of one parameter as 2 * n_chain sequences of `half` each. */
struct split {
	size_t n_half, half;
	double *draw;
};

struct scratch {
	double *draw, *score;
	size_t *order;
};

/* Normal scores of average ranks: (r - 3/8) / (n + 1/4), Blom's plotting. */
static void
score_ranks(const double *x, size_t n, size_t *order, double *score)
{
	gsl_sort_index(order, x, 1, n);
	for (size_t from = 0; from < n;) {
		size_t to = from + 1;
		double rank, value;

		while (to < n && x[order[to]] <= x[order[from]])
			to++;
		rank = 0.5 * (double)(from + 1 + to);
		value = gsl_cdf_ugaussian_Pinv(
			(rank - 0.375) / ((double)n + 0.25));
		for (size_t i = from; i < to; i++)
			score[order[i]] = value;
		from = to;
	}
}

/* Within- and between-sequence variances: w, and the pooled estimate. */
static void
variances(const struct split *s, double *within, double *pooled)
{
	double sum_w = 0, grand = 0, between = 0, n = (double)s->half;
	double m = (double)s->n_half;

	for (size_t h = 0; h < s->n_half; h++) {
		const double *x = s->draw + h * s->half;

		grand += gsl_stats_mean(x, 1, s->half) / m;
		sum_w += gsl_stats_variance(x, 1, s->half);
	}
	for (size_t h = 0; h < s->n_half; h++) {
		double d = gsl_stats_mean(s->draw + h * s->half, 1, s->half) -
			grand;

		between += d * d / (m - 1);
	}
	*within = sum_w / m;
	*pooled = (n - 1) / n * *within + between;
}

static double
split_rhat(const struct split *s)
{
	double within, pooled;

	variances(s, &within, &pooled);
	return within > 0 ? sqrt(pooled / within) : 1;
}

/* Mean over the sequences of the autocovariance at a lag, divisor n. */
static double
autocovariance(const struct split *s, const double *mean, size_t lag)
{
	double sum = 0;

	for (size_t h = 0; h < s->n_half; h++) {
		const double *x = s->draw + h * s->half;
		double product = 0;

		for (size_t i = 0; i + lag < s->half; i++)
			product += (x[i] - mean[h]) * (x[i + lag] - mean[h]);
		sum += product / (double)s->half;
	}
	return sum / (double)s->n_half;
}

/* Geyer's initial monotone sequence over the pairs of lags (equations 10 to 13
 * of the paper). */
static double
effective_size(const struct split *s, double *mean)
{
	double within, pooled, n = (double)(s->n_half * s->half);
	double tau = -1, least = INFINITY;

	variances(s, &within, &pooled);
	if (!(pooled > 0))
		return n;
	for (size_t h = 0; h < s->n_half; h++)
		mean[h] = gsl_stats_mean(s->draw + h * s->half, 1, s->half);
	for (size_t lag = 0; lag + 1 < s->half; lag += 2) {
		double even = 1 -
			(within - autocovariance(s, mean, lag)) / pooled;
		double odd = 1 -
			(within - autocovariance(s, mean, lag + 1)) / pooled;
		double pair = lag == 0 ? 1 + odd : even + odd;

		if (!(pair > 0))
			break;
		least = fmin(least, pair);
		tau += 2 * least;
	}
	tau = fmax(tau, 1 / log10(n));
	return n / tau;
}

struct job {
	const struct stats_column *column;
	struct stats_diagnosis *got;
	struct scratch *scratch;
	double *mean; /* n_half a column */
	size_t n_chain, n_keep;
};

static enum err_code
diagnose_one(void *data, size_t index, struct err *err)
{
	struct job *job = data;
	const struct stats_column *column = &job->column[index];
	struct scratch *w = &job->scratch[index];
	struct split s = {.n_half = 2 * job->n_chain, .half = job->n_keep / 2};
	size_t n = s.n_half * s.half;
	double centre;

	(void)err;
	for (size_t h = 0; h < s.n_half; h++)
		for (size_t i = 0; i < s.half; i++)
			w->draw[h * s.half + i] = column->at[
				((h / 2) * job->n_keep + (h % 2) * s.half + i) *
				column->step];
	score_ranks(w->draw, n, w->order, w->score);
	s.draw = w->score;
	job->got[index].rhat = split_rhat(&s);
	job->got[index].ess =
		effective_size(&s, job->mean + index * s.n_half);
	/* The order of the draws gives their median. */
	centre = 0.5 * (w->draw[w->order[(n - 1) / 2]] +
		w->draw[w->order[n / 2]]);
	for (size_t i = 0; i < n; i++)
		w->draw[i] = fabs(w->draw[i] - centre);
	score_ranks(w->draw, n, w->order, w->score);
	job->got[index].rhat = fmax(job->got[index].rhat, split_rhat(&s));
	return ERR_NONE;
}

enum err_code
stats_diagnose(struct arena *a, const struct stats_column *column,
	size_t n_column, size_t n_chain, size_t n_keep, size_t n_thread,
	struct stats_diagnosis *got, struct err *err)
{
	struct job job = {.column = column, .got = got, .n_chain = n_chain,
		.n_keep = n_keep};
	size_t n = 2 * n_chain * (n_keep / 2);

	if (n_chain == 0 || n_keep < KEEP_LEAST)
		return err_report(err, ERR_INPUT, "draws",
			"Draws are judged from at least one chain of %d; there "
			"are %zu of %zu.",
			KEEP_LEAST, n_chain, n_keep);
	job.scratch = arena_take(a, n_column, sizeof *job.scratch);
	job.mean = arena_take(a, n_column * 2 * n_chain, sizeof *job.mean);
	if (job.scratch == NULL || job.mean == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n_column; i++) {
		struct scratch *w = &job.scratch[i];

		w->draw = arena_take(a, n, sizeof *w->draw);
		w->score = arena_take(a, n, sizeof *w->score);
		w->order = arena_take(a, n, sizeof *w->order);
		if (w->draw == NULL || w->score == NULL || w->order == NULL)
			return err_memory(err);
	}
	return pool_run(n_thread, n_column, diagnose_one, &job, err);
}

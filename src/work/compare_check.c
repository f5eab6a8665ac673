/* compare_check.c - what lies furthest out, of the batches of a mix and of the
 * pieces of a batch, by the draws of a job. */
#include "work/compare_priv.h"

#include <math.h>

/* Mean over the draws of a batch's effect, and of its mix's mean with it. */
static double
mean_effect(const struct stats_hierarchy *h, size_t batch)
{
	double sum = 0;

	for (size_t i = 0; i < h->n_draw; i++)
		sum += h->batch[i * h->n_batch + batch];
	return sum / (double)h->n_draw;
}

static double
mean_mix(const struct stats_hierarchy *h, size_t mix)
{
	double sum = 0;

	for (size_t i = 0; i < h->n_draw; i++)
		sum += h->mean[i * h->n_mix + mix];
	return sum / (double)h->n_draw;
}

/* How far the interval of a reading's log keeps away from a point. */
static double
distance(double low, double high, double at)
{
	return fmax(0, fmax(log(low) - at, at - log(high)));
}

void
compare_find_furthest(struct compare_job *job)
{
	const struct compare_rows *rows = &job->rows;
	double most_batch = -1, most_piece = -1;
	double at = 0;
	size_t last = COMPARE_NONE;

	for (size_t b = 0; b < rows->n_batch; b++) {
		const double effect = fabs(mean_effect(&job->got.draws, b));

		if (effect > most_batch) {
			most_batch = effect;
			job->got.furthest_batch = b;
		}
	}
	for (size_t i = 0; i < rows->n; i++) {
		const size_t b = rows->batch[i];
		double off;

		if (b != last)
			at = mean_effect(&job->got.draws, b) +
				mean_mix(&job->got.draws, rows->batch_group[b]);
		last = b;
		off = distance(rows->low[i], rows->high[i], at);
		if (off > most_piece) {
			most_piece = off;
			job->got.furthest_piece = b;
		}
	}
}

/* confirm_fresh.c - which readings are of fresh batches, and what they say. */
#include "work/confirm_priv.h"

#include "book/book.h"

#include <math.h>
#include <string.h>

static const char replaced[] =
	"from before the confirmation round, whose figure replaces it";

static bool
is_of(const struct work_site *site, const struct work_result *r, size_t mix,
	enum choose_measure measure)
{
	return r->measure == measure && r->mix == mix && !r->excluded &&
		!site->batch[r->batch].practice &&
		(r->place[0] == '\0' || strcmp(r->place, "centre") == 0);
}

enum err_code
confirm_fresh(struct arena *arena, const struct work_site *site,
	const struct work_results *results, const struct confirm_round *round,
	struct confirm_read *out, struct err *err)
{
	double *low = arena_take(arena, site->n_batch, sizeof *low);
	double *high = arena_take(arena, site->n_batch, sizeof *high);
	size_t *n = arena_take(arena, site->n_batch, sizeof *n);
	struct confirm_read got = {.n_batch = 0};

	if (low == NULL || high == NULL || n == NULL)
		return err_memory(err);
	for (size_t i = 0; i < results->n_result; i++) {
		const struct work_result *r = &results->result[i];

		if (!is_of(site, r, round->mix, round->measure) ||
			site->batch[r->batch].row.id <= round->after_batch_id)
			continue;
		low[r->batch] += log(r->value.low);
		high[r->batch] += log(r->value.high);
		n[r->batch]++;
	}
	for (size_t b = 0; b < site->n_batch; b++) {
		if (n[b] == 0)
			continue;
		got.mean.low += low[b] / (double)n[b];
		got.mean.high += high[b] / (double)n[b];
		got.n_batch++;
	}
	got.mean.low = exp(got.mean.low / (double)got.n_batch);
	got.mean.high = exp(got.mean.high / (double)got.n_batch);
	*out = got;
	return ERR_NONE;
}

bool
confirm_round_of(const struct work_site *site,
	const struct book_prediction *row, struct confirm_round *out)
{
	struct confirm_round got = {.after_batch_id = row->after_batch_id};

	while (got.mix < site->n_mix &&
		site->mix[got.mix].row.id != row->mix_id)
		got.mix++;
	if (got.mix == site->n_mix ||
		!choose_measure_find(row->measure, &got.measure))
		return false;
	*out = got;
	return true;
}

/* Copies before it marks: the results are the caller's to read. */
static enum err_code
leave_out(struct arena *arena, const struct work_site *site,
	const struct confirm_round *round, struct work_results *results,
	struct err *err)
{
	struct work_result *copy = arena_copy(
		arena, results->result, results->n_result, sizeof *copy);

	if (copy == NULL)
		return err_memory(err);
	for (size_t i = 0; i < results->n_result; i++) {
		struct work_result *r = &copy[i];

		if (!is_of(site, r, round->mix, round->measure) ||
			site->batch[r->batch].row.id > round->after_batch_id)
			continue;
		r->excluded = true;
		r->why = replaced;
	}
	results->result = copy;
	return ERR_NONE;
}

enum err_code
work_confirmed(struct book *book, struct arena *arena,
	const struct work_site *site, struct work_results *results,
	struct err *err)
{
	const struct book_prediction *row = NULL;
	const struct work_results as_read = *results;
	size_t n = 0;

	TRY(book_all_prediction(book, arena, &row, &n, err));
	for (size_t i = 0; i < n; i++) {
		struct confirm_round round;
		struct confirm_read read;

		if (!confirm_round_of(site, &row[i], &round) ||
			(site->has_baseline && round.mix == site->baseline))
			continue;
		TRY(confirm_fresh(arena, site, &as_read, &round, &read, err));
		if (read.n_batch >= (size_t)row[i].batches)
			TRY(leave_out(arena, site, &round, results, err));
	}
	return ERR_NONE;
}

/* compare_memo.c - a posterior that was sampled before from the same readings,
 * with the same settings, is not sampled again.
 *
 * The draws are a function of what is in the key alone, so that what is recalled
 * is bit by bit what would be drawn anew. */
#include "work/compare_priv.h"

static void
add_prior(struct memo_keying *k, const struct stats_hierarchy_prior *p,
	size_t n_x)
{
	memo_key_number(k, p->mean_centre);
	memo_key_number(k, p->mean_sd);
	memo_key_number(k, p->sd_batch_scale);
	memo_key_number(k, p->sd_batch_log_sd);
	memo_key_number(k, p->sd_specimen_scale);
	memo_key_number(k, p->sd_specimen_log_sd);
	memo_key_numbers(k, p->slope_mean, p->slope_mean != NULL ? n_x : 0);
	memo_key_numbers(k, p->slope_sd, p->slope_sd != NULL ? n_x : 0);
	memo_key_count(k, p->has_sd_batch);
	memo_key_number(k, p->sd_batch);
	memo_key_count(k, p->has_sd_specimen);
	memo_key_number(k, p->sd_specimen);
}

static void
add_rows(struct memo_keying *k, const struct compare_rows *rows)
{
	memo_key_count(k, rows->n_group);
	memo_key_numbers(k, rows->low, rows->n);
	memo_key_numbers(k, rows->high, rows->n);
	memo_key_counts(k, rows->batch, rows->n);
	memo_key_counts(k, rows->batch_group, rows->n_batch);
}

static struct memo_key
key_of(const struct desk *desk, const struct compare_job *job)
{
	struct memo_keying k;

	memo_key_start(&k, "posterior");
	add_rows(&k, &job->rows);
	memo_key_count(&k, choose_measure_larger_is_better(job->rows.measure));
	memo_key_count(&k, job->n_x);
	memo_key_numbers(
		&k, job->x, job->x != NULL ? job->rows.n * job->n_x : 0);
	add_prior(&k, &job->prior, job->n_x);
	memo_key_count(&k, desk->n_chain);
	memo_key_count(&k, job->n_warm);
	memo_key_count(&k, job->n_keep);
	memo_key_count(&k, job->seed);
	memo_key_count(&k, job->baseline);
	memo_key_count(&k, job->keep_draws);
	memo_key_count(&k, job->check);
	return memo_key_end(&k);
}

bool
compare_recall(const struct desk *desk, struct arena *arena, unsigned wait_ms,
	struct compare_job *job)
{
	const struct compare_got *got;
	const struct memo_key key = key_of(desk, job);

	got = memo_claim(desk->memo, &key, wait_ms, arena, &job->claim);
	if (got != NULL)
		job->got = *got;
	return got != NULL;
}

enum err_code
compare_remember(const struct desk *desk, struct arena *arena,
	struct compare_job *job, struct err *err)
{
	struct compare_got *whole = arena_copy(
		job->kept, &job->got, 1, sizeof *whole);
	const struct compare_got *got = NULL;

	if (whole == NULL)
		arena_free(job->kept);
	else
		got = memo_keep(
			desk->memo, &job->claim.key, job->kept, whole, arena);
	if (got == NULL)
		return err_memory(err);
	job->got = *got;
	return ERR_NONE;
}

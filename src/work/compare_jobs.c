/* compare_jobs.c - posteriors sampled side by side, each with an arena and a
 * stream of its own, so that the bits do not depend on the threads. */
#include "work/compare_priv.h"

#include "core/pool.h"
#include "work/remember.h"

#include <math.h>
#include <string.h>
#include <unistd.h>

enum { FIRST_ROOM = 32 };
/* What one job may hold at the most. */
static const size_t job_bytes = (size_t)4 << 30;
static const size_t first_bytes = (size_t)1 << 20;

/* With so many pieces what a draw more tells is little beside what it costs:
 * up to 2,000 pieces every draw that is asked for, then so many that pieces
 * times draws stay the same, down to LEAST_KEEP a chain.  Our choices. */
static const size_t most_row_draws = 40000000;
enum { LEAST_KEEP = 250 };

/* Batch effects kept at the most, to check the model by. */
static const size_t most_batch_draws = 12000000;
enum { REPLICATES = 1000 };

static enum err_code
make_room(struct arena *arena, struct compare_jobs *jobs, struct err *err)
{
	size_t room = jobs->room == 0 ? FIRST_ROOM : 2 * jobs->room;
	struct compare_job **job;

	if (jobs->n < jobs->room)
		return ERR_NONE;
	job = arena_take(arena, room, sizeof(struct compare_job *));
	if (job == NULL)
		return err_memory(err);
	for (size_t i = 0; i < jobs->n; i++)
		job[i] = jobs->job[i];
	jobs->job = job;
	jobs->room = room;
	return ERR_NONE;
}

enum err_code
compare_job_add(struct arena *arena, struct compare_jobs *jobs,
	const struct compare_rows *rows, size_t baseline, size_t n_keep,
	uint64_t seed, struct compare_job **out, struct err *err)
{
	struct compare_job *job = arena_take(arena, 1, sizeof *job);

	TRY(make_room(arena, jobs, err));
	if (job == NULL)
		return err_memory(err);
	job->rows = *rows;
	job->baseline = baseline;
	job->n_warm = WORK_WARM;
	job->n_keep = n_keep;
	job->seed = seed;
	stats_hierarchy_default_prior(
		rows->low, rows->high, rows->n, &job->prior);
	jobs->job[jobs->n++] = job;
	*out = job;
	return ERR_NONE;
}

struct running {
	const struct desk *desk;
	struct compare_job **job; /* those that have to run */
	size_t n;
	struct compare_job **elsewhere; /* those that another thread runs */
	size_t n_elsewhere;
	size_t n_thread; /* inside a job */
};

/* The share of the draws in which each group is much better. */
static void
count_much(struct compare_job *job)
{
	const struct stats_hierarchy *h = &job->got.draws;
	const double sign = choose_measure_larger_is_better(job->rows.measure)
		? 1
		: -1;
	const double much = log(work_much);
	const size_t base = job->baseline < h->n_mix ? job->baseline : 0;

	for (size_t i = 0; i < h->n_draw; i++) {
		const double *mu = h->mean + i * h->n_mix;
		const double bar = sign * mu[base] + much;

		for (size_t g = 0; g < h->n_mix; g++)
			job->got.p_much[g] += sign * mu[g] > bar;
	}
	for (size_t g = 0; g < h->n_mix; g++)
		job->got.p_much[g] /= (double)h->n_draw;
}

static enum err_code
read_answers(struct compare_job *job, struct err *err)
{
	const struct stats_hierarchy *h = &job->got.draws;

	TRY(stats_hierarchy_answer(job->own, h,
		job->baseline < h->n_mix ? job->baseline : 0, work_level,
		choose_measure_larger_is_better(job->rows.measure),
		job->got.answer, err));
	TRY(stats_hierarchy_interval(job->own, h->sd_batch, h->n_draw,
		work_level, job->got.sd_batch, err));
	TRY(stats_hierarchy_interval(job->own, h->sd_specimen, h->n_draw,
		work_level, job->got.sd_specimen, err));
	for (size_t k = 0; k < job->n_x; k++) {
		double *column = arena_take(
			job->own, h->n_draw, sizeof *column);

		if (column == NULL)
			return err_memory(err);
		for (size_t i = 0; i < h->n_draw; i++)
			column[i] = h->slope[i * job->n_x + k];
		TRY(stats_hierarchy_interval(job->own, column, h->n_draw,
			work_level, job->got.slope[k], err));
	}
	count_much(job);
	return ERR_NONE;
}

/* Does the model make such readings?  Where the effects of the batches would
 * take too much room it is not asked. */
static enum err_code
check_model(struct compare_job *job, const struct stats_hierarchy_ask *ask,
	struct err *err)
{
	if (!ask->keep_batch)
		return ERR_NONE;
	TRY(stats_hierarchy_predict_check(job->own, ask, &job->got.draws,
		REPLICATES, job->seed, &job->got.predictive, err));
	compare_find_furthest(job);
	return ERR_NONE;
}

static enum err_code
run_job(void *data, size_t index, struct err *err)
{
	const struct running *running = data;
	struct compare_job *job = running->job[index];
	const struct compare_rows *rows = &job->rows;
	struct stats_hierarchy_ask ask = {.n_row = rows->n,
		.n_mix = rows->n_group,
		.n_batch = rows->n_batch,
		.n_x = job->n_x,
		.x = job->x,
		.low = rows->low,
		.high = rows->high,
		.row_batch = rows->batch,
		.batch_mix = rows->batch_group,
		.prior = job->prior,
		.n_chain = running->desk->n_chain,
		.n_warm = job->n_warm,
		.n_keep = job->n_keep,
		.n_thread = running->n_thread,
		.seed = job->seed};

	ask.keep_batch = job->check &&
		rows->n_batch <= most_batch_draws / (ask.n_chain * ask.n_keep);
	job->own = arena_new_mapped(job_bytes, first_bytes);
	if (job->own == NULL)
		return err_memory(err);
	TRY(stats_hierarchy_sample(job->own, &ask, &job->got.draws, err));
	TRY(check_model(job, &ask, err));
	return read_answers(job, err);
}

/* Bytes of all that is kept of a job, and some. */
static size_t
bytes_kept(const struct desk *desk, const struct compare_job *job)
{
	const size_t n_group = job->rows.n_group, some = 4096;
	const size_t n_draw = job->keep_draws ? desk->n_chain * job->n_keep : 0;

	return some + n_draw * (n_group + job->n_x + 2) * sizeof(double) +
		n_group *
		(sizeof(struct stats_mix_answer) + 2 * sizeof(double));
}

/* What is to be remembered lies in an arena of its own, which it fills. */
static enum err_code
take_answers(const struct desk *desk, struct arena *arena,
	struct compare_job *job, struct err *err)
{
	struct compare_got *got = &job->got;

	job->kept = desk->memo != NULL
		? arena_new_mapped(job_bytes, bytes_kept(desk, job))
		: arena;
	if (job->kept == NULL)
		return err_memory(err);
	got->answer = arena_take(
		job->kept, job->rows.n_group, sizeof *got->answer);
	got->p_much = arena_take(
		job->kept, job->rows.n_group, sizeof *got->p_much);
	got->slope = arena_take(job->kept, job->n_x, sizeof *got->slope);
	if (got->answer == NULL || got->p_much == NULL || got->slope == NULL)
		return err_memory(err);
	return ERR_NONE;
}

static const double *
move(struct arena *arena, const double *from, size_t n, bool *failed)
{
	const double *to = from == NULL
		? NULL
		: arena_copy(arena, from, n, sizeof *from);

	*failed = *failed || (from != NULL && to == NULL);
	return to;
}

/* What is kept of the draws goes where the answers are. */
static enum err_code
keep_draws(struct compare_job *job, struct err *err)
{
	struct stats_hierarchy *h = &job->got.draws;
	size_t n = job->keep_draws ? h->n_draw : 0;
	struct arena *to = job->kept;
	bool failed = false;

	h->ess_mean = move(to, h->ess_mean, h->n_mix, &failed);
	h->mean = n > 0 ? move(to, h->mean, n * h->n_mix, &failed) : NULL;
	h->slope = n > 0 ? move(to, h->slope, n * h->n_x, &failed) : NULL;
	h->sd_batch = n > 0 ? move(to, h->sd_batch, n, &failed) : NULL;
	h->sd_specimen = n > 0 ? move(to, h->sd_specimen, n, &failed) : NULL;
	h->batch = NULL;
	return failed ? err_memory(err) : ERR_NONE;
}

/* All jobs alike, since some are read draw by draw beside another. */
static void
limit_draws(const struct desk *desk, const struct compare_jobs *jobs)
{
	size_t rows = 1, limit;

	for (size_t i = 0; i < jobs->n; i++)
		if (jobs->job[i]->rows.n > rows)
			rows = jobs->job[i]->rows.n;
	limit = most_row_draws / rows / desk->n_chain;
	if (limit < LEAST_KEEP)
		limit = LEAST_KEEP;
	for (size_t i = 0; i < jobs->n; i++) {
		struct compare_job *job = jobs->job[i];

		if (job->n_keep <= limit)
			continue;
		job->n_keep = limit;
		job->n_warm = COMPARE_SIDE_WARM;
	}
}

static size_t
count_threads(const struct desk *desk)
{
	long n = sysconf(_SC_NPROCESSORS_ONLN);

	if (desk->n_thread > 0)
		return desk->n_thread;
	return n > 0 ? (size_t)n : 1;
}

/* What was not sampled before from the same readings with the same settings, and
 * is not being sampled now. */
static enum err_code
find_new(const struct desk *desk, struct arena *arena,
	const struct compare_jobs *jobs, struct running *running,
	struct err *err)
{
	running->job = arena_take(arena, jobs->n, sizeof *running->job);
	running->elsewhere = arena_take(
		arena, jobs->n, sizeof *running->elsewhere);
	if (running->job == NULL || running->elsewhere == NULL)
		return err_memory(err);
	for (size_t i = 0; i < jobs->n; i++) {
		struct compare_job *job = jobs->job[i];

		if (desk->memo != NULL && compare_recall(desk, arena, 0, job))
			continue;
		if (desk->memo != NULL && !job->claim.held) {
			running->elsewhere[running->n_elsewhere++] = job;
			continue;
		}
		running->job[running->n++] = job;
		TRY(take_answers(desk, arena, job, err));
	}
	return ERR_NONE;
}

/* What a job that ran came to is kept; of one that failed nothing is. */
static enum err_code
end_job(const struct desk *desk, struct arena *arena, struct compare_job *job,
	enum err_code code, struct err *err)
{
	if (code == ERR_NONE)
		code = keep_draws(job, err);
	arena_free(job->own);
	job->own = NULL;
	if (desk->memo == NULL)
		return code;
	if (code == ERR_NONE)
		code = compare_remember(desk, arena, job, err);
	else
		arena_free(job->kept);
	job->kept = NULL;
	memo_unclaim(desk->memo, &job->claim);
	return code;
}

/* Those running, side by side; with fewer jobs than threads the chains of each
 * run so too. */
static enum err_code
run_and_end(struct running *running, struct arena *arena, enum err_code code,
	struct err *err)
{
	const struct desk *desk = running->desk;

	running->n_thread = running->n < count_threads(desk)
		? count_threads(desk)
		: 1;
	if (code == ERR_NONE)
		code = pool_run(
			desk->n_thread, running->n, run_job, running, err);
	for (size_t i = 0; i < running->n; i++)
		code = end_job(desk, arena, running->job[i], code, err);
	return code;
}

/* Nothing is claimed while it waits, so that no two wait for each other; what
 * does not come, or failed there, is run here. */
static enum err_code
await_elsewhere(
	const struct running *first, struct arena *arena, struct err *err)
{
	const struct desk *desk = first->desk;

	for (size_t i = 0; i < first->n_elsewhere; i++) {
		struct compare_job *job = first->elsewhere[i];
		struct running running = {.desk = desk, .job = &job, .n = 1};

		if (compare_recall(desk, arena, WORK_WAIT_MS, job))
			continue;
		TRY(run_and_end(&running, arena,
			take_answers(desk, arena, job, err), err));
	}
	return ERR_NONE;
}

enum err_code
compare_jobs_run(const struct desk *desk, struct arena *arena,
	struct compare_jobs *jobs, struct err *err)
{
	struct running running = {.desk = desk};

	limit_draws(desk, jobs);
	TRY(run_and_end(&running, arena,
		find_new(desk, arena, jobs, &running, err), err));
	return await_elsewhere(&running, arena, err);
}

/* pool.c - threads that take the next index until none is left. */
#include "core/pool.h"

#include <pthread.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <unistd.h>

enum { THREAD_MAX = 64 };

struct pool {
	size_t n;
	pool_task *task;
	void *data;
	struct tongue tongue; /* of whoever asked */
	atomic_size_t next;
	atomic_bool stopped;  /* a task failed: hand out no further index */
	pthread_mutex_t lock; /* guards the three below */
	size_t failed_index;
	enum err_code failed_code;
	struct err failed;
};

static void
note_failure(struct pool *pool, size_t index, enum err_code code,
	const struct err *report)
{
	(void)pthread_mutex_lock(&pool->lock);
	if (pool->failed_code == ERR_NONE || index < pool->failed_index) {
		pool->failed_index = index;
		pool->failed_code = code;
		pool->failed = *report;
	}
	(void)pthread_mutex_unlock(&pool->lock);
}

/* Indices go out in order, so when one fails all below it are already out and
 * are finished: the lowest failure is the same with any number of threads. */
static void *
work_through(void *argument)
{
	struct pool *pool = argument;

	while (!atomic_load(&pool->stopped)) {
		size_t index = atomic_fetch_add(&pool->next, 1);
		struct err report = {.tongue = pool->tongue};
		enum err_code code;

		if (index >= pool->n)
			break;
		code = pool->task(pool->data, index, &report);
		if (code != ERR_NONE) {
			note_failure(pool, index, code, &report);
			atomic_store(&pool->stopped, true);
		}
	}
	return NULL;
}

static size_t
count_threads(size_t asked, size_t n)
{
	long processors = sysconf(_SC_NPROCESSORS_ONLN);

	if (asked == 0)
		asked = processors > 0 ? (size_t)processors : 1;
	if (asked > n)
		asked = n;
	return asked < THREAD_MAX ? asked : THREAD_MAX;
}

/* The failure as the caller's report, unless it already holds one. */
static enum err_code
pass_on(const struct pool *pool, struct err *err)
{
	if (pool->failed_code == ERR_NONE)
		return ERR_NONE;
	if (err != NULL && err->code == ERR_NONE)
		*err = pool->failed;
	return err_report(err, pool->failed_code, "",
		"Part %zu of the work failed and gave no reason.",
		pool->failed_index + 1);
}

enum err_code
pool_run(
	size_t n_thread, size_t n, pool_task *task, void *data, struct err *err)
{
	struct pool pool = {.n = n, .task = task, .data = data};
	pthread_t thread[THREAD_MAX];
	size_t wanted = count_threads(n_thread, n), n_started = 0;

	if (err != NULL)
		pool.tongue = err->tongue;
	if (pthread_mutex_init(&pool.lock, NULL) != 0)
		return err_memory(err);
	while (n_started + 1 < wanted &&
		pthread_create(&thread[n_started], NULL, work_through, &pool) ==
			0)
		n_started++;
	(void)work_through(&pool);
	for (size_t i = 0; i < n_started; i++)
		(void)pthread_join(thread[i], NULL);
	(void)pthread_mutex_destroy(&pool.lock);
	return pass_on(&pool, err);
}

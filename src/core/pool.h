/* pool.h - worker threads for tasks that do not touch each other.
 *
 * The answer must not depend on how many threads there are: a task writes only
 * to its own place and takes its randomness from its own index. */
#ifndef CORE_POOL_H
#define CORE_POOL_H

#include "core/err.h"

#include <stddef.h>

/* One task: index in [0, n).  Reports into err, which is the task's own. */
typedef enum err_code pool_task(void *data, size_t index, struct err *err);

/* pool_run(n_thread, n, task, data, err):
 * Runs task(data, 0..n-1) on at most n_thread threads (0: one a processor) and
 * waits for all.  The report of the lowest failing index is passed on, the same
 * with any number of threads; indices after it may not have been run.
 * If a thread cannot be started the calling thread does the work. */
enum err_code pool_run(size_t n_thread, size_t n, pool_task *task, void *data,
	struct err *err) MUST_CHECK;

#endif /* CORE_POOL_H */

/* test_pool.c - core/pool: every task once, the lowest failure reported. */
#include "support.h"

#include "core/pool.h"

enum { N = 1237 };

static enum err_code
count_task(void *data, size_t index, struct err *err)
{
	int *seen = data;

	(void)err;
	seen[index]++;
	return ERR_NONE;
}

static enum err_code
fail_task(void *data, size_t index, struct err *err)
{
	int *seen = data;

	seen[index]++;
	if (index % 97 == 61)
		return err_report(err, ERR_NUMERIC, "x", "task %zu", index);
	return ERR_NONE;
}

static enum err_code
mute_task(void *data, size_t index, struct err *err)
{
	(void)data;
	(void)err;
	return index == 5 ? ERR_SYSTEM : ERR_NONE;
}

static const size_t threads[] = {0, 1, 2, 3, 64, 1000};

static void
pool_run__runs_every_task_once(void **state)
{
	struct fixture *f = *state;

	for (size_t t = 0; t < sizeof threads / sizeof threads[0]; t++) {
		int seen[N] = {0};

		assert_ok(pool_run(threads[t], N, count_task, seen, &f->err),
			&f->err);
		for (size_t i = 0; i < N; i++)
			assert_int_equal(1, seen[i]);
	}
	assert_ok(pool_run(3, 0, count_task, NULL, &f->err), &f->err);
}

static void
pool_run__passes_on_the_lowest_failure(void **state)
{
	(void)state;
	for (size_t t = 0; t < sizeof threads / sizeof threads[0]; t++) {
		struct err err = {.code = ERR_NONE};
		int seen[N] = {0};

		assert_int_equal(ERR_NUMERIC,
			pool_run(threads[t], N, fail_task, seen, &err));
		assert_string_equal("task 61", err.text);
		for (size_t i = 0; i <= 61; i++)
			assert_int_equal(1, seen[i]);
	}
}

static void
pool_run__reports_a_failure_without_words(void **state)
{
	struct fixture *f = *state;

	assert_int_equal(ERR_SYSTEM, pool_run(2, 9, mute_task, NULL, &f->err));
	assert_int_equal(ERR_SYSTEM, f->err.code);
	assert_has(f->err.text, "Part 6");
	assert_int_equal(ERR_SYSTEM, pool_run(2, 9, mute_task, NULL, NULL));
}

static const struct CMUnitTest tests[] = {
	TEST(pool_run__runs_every_task_once),
	TEST(pool_run__passes_on_the_lowest_failure),
	TEST(pool_run__reports_a_failure_without_words),
};

TEST_MAIN(tests)

/* glpk_run.c - one thread, one GLPK. */
#include "build/glpk_run.h"

#include <glpk.h>
#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>

struct run {
	void (*work)(void *data);
	void *data;
	bool done;
};

static int
keep_quiet(void *info, const char *text)
{
	(void)info;
	(void)text;
	return 1; /* taken care of: nothing is printed */
}

/* GLPK aborts if this returns. */
static void
end_thread(void *info)
{
	(void)info;
	(void)glp_free_env();
	pthread_exit(NULL);
}

static void *
run_thread(void *data)
{
	struct run *run = data;

	glp_term_hook(keep_quiet, NULL);
	(void)glp_term_out(GLP_OFF);
	glp_error_hook(end_thread, NULL);
	run->work(run->data);
	(void)glp_free_env();
	run->done = true;
	return NULL;
}

enum err_code
build_glpk_run(void (*work)(void *data), void *data, struct err *err)
{
	struct run run = {.work = work, .data = data};
	pthread_t thread;

	if (pthread_create(&thread, NULL, run_thread, &run) != 0 ||
		pthread_join(thread, NULL) != 0)
		return err_report(err, ERR_SYSTEM, "",
			"The search for a plan could not be started: the "
			"machine gave no thread for it.");
	if (!run.done)
		return err_report(err, ERR_NUMERIC, "",
			"The library that searches for plans gave up. Nothing "
			"was changed.");
	return ERR_NONE;
}

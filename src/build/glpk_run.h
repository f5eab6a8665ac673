/* glpk_run.h - GLPK kept on a lead.
 *
 * GLPK prints on its own, and where it is misused or out of memory it calls a
 * hook and then aborts the program.  Here it runs in a thread of its own (its
 * state belongs to the thread): the hook gives back all of GLPK's memory and
 * ends that thread, and the caller gets an error. */
#ifndef BUILD_GLPK_RUN_H
#define BUILD_GLPK_RUN_H

#include "core/err.h"

/* build_glpk_run(work, data, err): runs work(data) and waits.  work holds
 * nothing but GLPK objects and what lies in data.
 * ERR_NUMERIC the library gave up; ERR_SYSTEM no thread could be started */
enum err_code build_glpk_run(
	void (*work)(void *data), void *data, struct err *err) MUST_CHECK;

#endif /* BUILD_GLPK_RUN_H */

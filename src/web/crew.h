/* crew.h - the threads that make answers: readers for pages, one writer for
 * deeds, each with the book open of its own. */
#ifndef WEB_CREW_H
#define WEB_CREW_H

#include "web/exchange.h"

struct crew;

struct crew_ask {
	const char *book, *who;
	const char *home; /* as in web_request; outlives the crew */
	size_t n_reader;
	struct store *store; /* borrowed: where answers are kept */
	/* an answer is there: exchange->answer; called in a thread of the crew */
	void (*ready)(void *whom, struct exchange *exchange);
	void *whom;
};

/* crew_start(ask, crew, err): opens the books, one after the other, then starts
 * the threads.  The errors of book_open; ERR_SYSTEM no thread. */
enum err_code crew_start(const struct crew_ask *ask, struct crew **crew,
	struct err *err) MUST_CHECK;

/* crew_give(crew, exchange): a page or a deed to be made.  Equal pages asked
 * for at once are made once, unless an entry came in between.  A page that takes
 * longer than a few seconds is answered by one that says so and comes back by
 * itself.  After an entry the pages that are long in the computing are made by a
 * reader that has nothing else to do, before anybody asks. */
void crew_give(struct crew *crew, struct exchange *exchange);

/* crew_leave(crew, grace_ms): no page is begun any more; those being made have so
 * long, then whoever waits for one is told that the program was ended.  Deeds
 * are all finished.  false: a page is still being made; it only reads, and its
 * thread cannot be stopped, so the process has to end without crew_stop. */
bool crew_leave(struct crew *crew, int grace_ms);

/* crew_stop(crew): what was given is finished first.  NULL does nothing. */
void crew_stop(struct crew *crew);

/* crew_desk(who, path, write, desk, err): the book opened for web/ as the crew
 * does. */
enum err_code crew_desk(const char *path, const char *who, bool write,
	struct desk *desk, struct err *err) MUST_CHECK;

/* crew_state(desk, state, err): of the book and the day; pages made in another
 * are stale. */
enum { CREW_STATE_MAX = 64 };
enum err_code crew_state(const struct desk *desk,
	char state[static CREW_STATE_MAX], struct err *err) MUST_CHECK;

/* crew_name(exchange): what a kept page is called: language, role, address; in
 * the exchange's arena; NULL if there is no memory. */
const char *crew_name(const struct exchange *exchange);

int64_t crew_now_ms(void); /* of a clock that is never set */

#endif /* WEB_CREW_H */

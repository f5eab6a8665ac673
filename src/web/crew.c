/* crew.c - pages and deeds made by threads, each on its own book. */
#include "web/crew.h"

#include "web/dispatch.h"
#include "web/page.h"
#include "work/shelf.h"
#include "work/submission.h"

#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum {
	DAY_S = 86400,
	PATIENCE_MS = 3000, /* then a page says that it is being computed */
	LOOK_MS = 200,
	LEAVE_LOOK_MS = 20,
	COME_BACK_S = 2,
	AHEAD_MOST_MS =
		2000,  /* longer: no page is made before it is asked for */
	RECALLED = 512 /* where the last deeds led */
};

/* A page being made, and who waits for it. */
struct task {
	struct task *next;
	char *name;
	struct exchange *first; /* made in its arena; answered last or alone */
	struct exchange *waiting;
	struct exchange *late; /* who asked when it was being made already */
	bool taken;
	bool ahead; /* nobody asked yet */
};

/* Where a recorded entry led its browser. */
struct recalled {
	char key[72], see_other[200];
};

struct hand {
	struct crew *crew;
	struct desk desk;
	pthread_t thread;
	bool started;
};

struct crew {
	struct crew_ask ask;
	pthread_mutex_t lock;
	pthread_cond_t more;
	struct task *task; /* all pages being made or to be made */
	struct exchange *deed, **deed_end;
	bool stopping, leaving;
	bool is_ahead;  /* one is being made that nobody asked for */
	bool ahead_off; /* that takes too long in this book */
	struct hand *reader, writer, look;
	struct recalled recalled[RECALLED];
	size_t n_recalled;
};

int64_t
crew_now_ms(void)
{
	struct timespec now;

	(void)clock_gettime(CLOCK_MONOTONIC, &now);
	return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

enum err_code
crew_desk(const char *path, const char *who, bool write, struct desk *desk,
	struct err *err)
{
	*desk = (struct desk){.now_utc_s = (int64_t)time(NULL),
		.who = who,
		.seed = WORK_SEED,
		.n_chain = WORK_CHAINS,
		.n_keep = WORK_KEEP};
	return work_open(path, write, desk, err);
}

enum err_code
crew_state(const struct desk *desk, char state[static CREW_STATE_MAX],
	struct err *err)
{
	int64_t last = 0;

	TRY(work_book_state(desk, &last, err));
	(void)snprintf(state, CREW_STATE_MAX, "%lld %lld", (long long)last,
		(long long)(time(NULL) / DAY_S));
	return ERR_NONE;
}

static const char *
name_of(const struct exchange *exchange, const char *target)
{
	return text_format(exchange->arena, "%s %d %d %s",
		exchange->request.language, exchange->request.both_units,
		exchange->request.may_record, target);
}

const char *
crew_name(const struct exchange *exchange)
{
	return name_of(exchange, exchange->target);
}

/* --- Pages. --- */

static void
deliver(struct crew *crew, struct exchange *exchange, struct answer *answer)
{
	exchange->answer = answer; /* NULL: no memory; the server says so */
	crew->ask.ready(crew->ask.whom, exchange);
}

static struct answer *
make(const struct crew *crew, struct exchange *exchange,
	const struct desk *desk, bool *keep)
{
	struct web_reply reply;

	exchange->request.home = crew->ask.home;
	exchange->request.desk = *desk;
	exchange->request.desk.now_utc_s = (int64_t)time(NULL);
	exchange->request.desk.memo = store_memo(crew->ask.store);
	web_dispatch(&exchange->request, &reply);
	*keep = reply.status == 200 && !reply.no_store && reply.cookie == NULL;
	return answer_make(&reply);
}

static struct task *
find_task(const struct crew *crew, const char *name)
{
	struct task *task = crew->task;

	while (task != NULL && strcmp(task->name, name) != 0)
		task = task->next;
	return task;
}

/* A page that nobody has asked for yet: it is made from a copy of the request,
 * so that whoever waits may go away. */
static struct task *
task_new(const struct exchange *exchange, const char *target, const char *name)
{
	struct task *task = calloc(1, sizeof *task);
	struct err err = err_in(exchange->arena);

	if (task == NULL)
		return NULL;
	task->name = strdup(name);
	task->first = exchange_new(target);
	if (task->name != NULL && task->first != NULL) {
		struct web_request *r = &task->first->request;

		r->language = words_language_at(
			0); /* a static text, as the other */
		for (size_t i = 0; words_language_at(i) != NULL; i++)
			if (strcmp(words_language_at(i),
				    exchange->request.language) == 0)
				r->language = words_language_at(i);
		r->may_record = exchange->request.may_record;
		r->both_units = exchange->request.both_units;
		if (web_address(task->first->arena, task->first->target, r,
			    &err) == ERR_NONE)
			return task;
	}
	free(task->name);
	exchange_free(task->first);
	free(task);
	return NULL;
}

/* Behind those that came before. */
static void
add_task(struct crew *crew, struct task *task)
{
	struct task **at = &crew->task;

	while (*at != NULL)
		at = &(*at)->next;
	*at = task;
}

static void
unlink_task(struct crew *crew, const struct task *task)
{
	struct task **at = &crew->task;

	while (*at != task)
		at = &(*at)->next;
	*at = task->next;
}

static void
hand_out(struct crew *crew, struct exchange *waiting, struct answer *answer)
{
	while (waiting != NULL) {
		struct exchange *next = waiting->next;

		deliver(crew, waiting,
			answer != NULL ? answer_again(answer) : NULL);
		waiting = next;
	}
}

/* Who asked when the page was being made may know of an entry that is not in
 * it: then it is made anew for them. */
static void
serve_late(struct crew *crew, const struct desk *desk, struct exchange *late,
	const char *state, struct answer *answer)
{
	char now[CREW_STATE_MAX];
	struct err err = {.code = ERR_NONE};

	if (late == NULL)
		return;
	if (crew_state(desk, now, &err) == ERR_NONE &&
		strcmp(now, state) == 0) {
		hand_out(crew, late, answer);
		return;
	}
	while (late != NULL) {
		struct exchange *next = late->next;

		crew_give(crew, late);
		late = next;
	}
}

/* The page is there: kept, and handed to all who wait. */
static void
finish(struct crew *crew, const struct desk *desk, struct task *task,
	const char *state, struct answer *answer)
{
	struct exchange *waiting, *late;

	(void)pthread_mutex_lock(&crew->lock);
	unlink_task(crew, task);
	waiting = task->waiting;
	late = task->late;
	if (task->ahead)
		crew->is_ahead = false;
	(void)pthread_mutex_unlock(&crew->lock);
	hand_out(crew, waiting, answer);
	serve_late(crew, desk, late, state, answer);
	answer_give_back(answer);
	exchange_free(task->first);
	free(task->name);
	free(task);
}

/* The pages of this book take long: they are made when somebody asks. */
static void
stop_ahead(struct crew *crew)
{
	(void)pthread_mutex_lock(&crew->lock);
	crew->ahead_off = true;
	(void)pthread_mutex_unlock(&crew->lock);
}

static void
make_page(struct crew *crew, const struct desk *desk, struct task *task)
{
	char state[CREW_STATE_MAX] = "";
	struct err err = err_in(task->first->arena);
	bool known = crew_state(desk, state, &err) == ERR_NONE;
	int64_t since_ms = crew_now_ms();
	struct desk own = *desk;
	struct answer *answer;
	bool keep = false;

	if (task->ahead)
		own.n_thread = 1; /* the other processors stay free */
	answer = make(crew, task->first, &own, &keep);
	if (answer != NULL && keep && known)
		store_put(crew->ask.store, task->name, state, answer);
	if (task->ahead && crew_now_ms() - since_ms > AHEAD_MOST_MS)
		stop_ahead(crew);
	finish(crew, desk, task, state, answer);
}

/* What somebody waits for goes first.  What nobody asked for is made by one
 * reader at a time, so that another is always there for whoever comes. */
static struct task *
find_to_make(const struct crew *crew)
{
	struct task *task = crew->task;

	while (task != NULL &&
		(task->taken || (task->ahead && task->waiting == NULL)))
		task = task->next;
	if (task != NULL || crew->stopping || crew->is_ahead)
		return task;
	task = crew->task;
	while (task != NULL && task->taken)
		task = task->next;
	return task;
}

static struct task *
take_task(struct crew *crew)
{
	struct task *task = crew->leaving ? NULL : find_to_make(crew);

	if (task == NULL)
		return NULL;
	task->taken = true;
	task->ahead = task->ahead && task->waiting == NULL;
	crew->is_ahead = crew->is_ahead || task->ahead;
	return task;
}

static void *
read_on(void *data)
{
	struct hand *hand = data;
	struct crew *crew = hand->crew;

	for (;;) {
		struct task *task;

		(void)pthread_mutex_lock(&crew->lock);
		while ((task = take_task(crew)) == NULL && !crew->stopping)
			(void)pthread_cond_wait(&crew->more, &crew->lock);
		(void)pthread_mutex_unlock(&crew->lock);
		if (task == NULL)
			return NULL;
		make_page(crew, &hand->desk, task);
	}
}

/* --- Pages before they are asked for. --- */

/* Where one goes who has written something down, and what shares its long
 * computing with the rest. */
static const char *const ahead[] = {"/today", "/compare", "/choose", "/next"};

/* After an entry, in the language and role of whoever made it. */
static void
make_ahead(struct crew *crew, const struct exchange *deed)
{
	const size_t n = crew->ask.n_reader > 1 ? sizeof ahead / sizeof ahead[0]
						: 0;

	(void)pthread_mutex_lock(&crew->lock);
	for (size_t i = 0;
		i < n && !crew->ahead_off && !crew->leaving && !crew->stopping;
		i++) {
		const char *name = name_of(deed, ahead[i]);
		struct task *task;

		if (name == NULL || find_task(crew, name) != NULL)
			continue; /* to be made anyway */
		task = task_new(deed, ahead[i], name);
		if (task == NULL)
			break;
		task->ahead = true;
		add_task(crew, task);
	}
	(void)pthread_cond_broadcast(&crew->more);
	(void)pthread_mutex_unlock(&crew->lock);
}

/* --- A page that is long in the making. --- */

static struct answer *
say_coming(const struct exchange *exchange)
{
	const struct web_request *request = &exchange->request;
	struct web_reply reply = {.status = 202, .no_store = true};
	struct page page;
	struct err err = err_in(request->arena);

	text_init(&reply.body, exchange->arena);
	page_start(
		&page, request, _("This page is being computed"), PAGE_NOWHERE);
	page.refresh_s = COME_BACK_S;
	page_say(&page,
		_("It comes back by itself as soon as it is ready; nothing "
		  "has to be done."));
	if (page_answer(&page, &reply, &err) != ERR_NONE)
		return NULL;
	if (reply.type == NULL)
		reply.type = "text/html; charset=utf-8";
	return answer_make(&reply);
}

/* A picture or data cannot come back by itself: whoever asked for it waits. */
static bool
can_come_back(const struct web_request *request)
{
	return request->twin == WEB_PAGE &&
		strncmp(request->path, "/chart/", strlen("/chart/")) != 0;
}

static struct exchange *
take_from(struct exchange **at, int64_t now, struct exchange *out)
{
	while (*at != NULL) {
		struct exchange *one = *at;

		if (now - one->since_ms < PATIENCE_MS ||
			!can_come_back(&one->request)) {
			at = &one->next;
			continue;
		}
		*at = one->next;
		one->next = out;
		out = one;
	}
	return out;
}

/* Takes out of the lists whoever has waited long enough. */
static struct exchange *
take_impatient(struct crew *crew)
{
	int64_t now = crew_now_ms();
	struct exchange *out = NULL;

	for (struct task *task = crew->task; task != NULL; task = task->next) {
		out = take_from(&task->waiting, now, out);
		out = take_from(&task->late, now, out);
	}
	return out;
}

static void *
look_on(void *data)
{
	const struct timespec pause = {.tv_nsec = LOOK_MS * 1000000L};
	struct hand *hand = data;
	struct crew *crew = hand->crew;

	for (;;) {
		struct exchange *out;
		bool over;

		(void)nanosleep(&pause, NULL);
		(void)pthread_mutex_lock(&crew->lock);
		out = take_impatient(crew);
		over = crew->stopping;
		(void)pthread_mutex_unlock(&crew->lock);
		while (out != NULL) {
			struct exchange *next = out->next;

			deliver(crew, out, say_coming(out));
			out = next;
		}
		if (over)
			return NULL;
	}
}

/* --- Deeds. --- */

static void
recall(struct crew *crew, const char *key, const char *see_other)
{
	struct recalled *r = &crew->recalled[crew->n_recalled++ % RECALLED];

	(void)snprintf(r->key, sizeof r->key, "%s", key);
	if (strlen(see_other) < sizeof r->see_other)
		(void)snprintf(
			r->see_other, sizeof r->see_other, "%s", see_other);
	else
		r->see_other[0] = '\0';
}

static const char *
recalled(const struct crew *crew, const char *key)
{
	for (size_t i = 0; i < RECALLED; i++)
		if (strcmp(crew->recalled[i].key, key) == 0 &&
			crew->recalled[i].see_other[0] != '\0')
			return crew->recalled[i].see_other;
	return NULL;
}

/* Recorded before: its browser goes where it was led then. */
static struct answer *
answer_again_to(
	struct crew *crew, const struct exchange *exchange, const char *key)
{
	const char *to = recalled(crew, key);
	struct web_reply reply = {.status = 303,
		.see_other = to != NULL ? to : "/recorded",
		.type = "text/html; charset=utf-8"};

	text_init(&reply.body, exchange->arena);
	return answer_make(&reply);
}

static struct answer *
answer_conflict(struct exchange *exchange)
{
	struct web_reply reply = {.status = 0};
	struct err err = err_in(exchange->arena);

	(void)err_report(&err, ERR_CONFLICT, "key",
		"This form was sent before with other content, and that was "
		"recorded. Open the page anew to enter this too.");
	web_say(&exchange->request, &reply, MHD_HTTP_CONFLICT, &err);
	if (reply.type == NULL)
		reply.type = "text/html; charset=utf-8";
	return answer_make(&reply);
}

static struct answer *
do_errand(struct exchange *exchange)
{
	struct web_reply reply = {.status = 0};

	exchange->errand(exchange->errand_whom, exchange, &reply);
	if (reply.status == 0)
		reply.status = reply.see_other != NULL ? 303 : 200;
	if (reply.type == NULL)
		reply.type = "text/html; charset=utf-8";
	return answer_make(&reply);
}

static struct answer *
do_deed(struct crew *crew, struct exchange *exchange, const struct desk *desk)
{
	struct web_request *request = &exchange->request;
	const char *key = web_given(request, "key");
	char digest[EXCHANGE_DIGEST_HEX + 1];
	enum work_seen seen = WORK_SEEN_NEW;
	struct err err = err_in(request->arena);
	struct desk own = *desk;
	struct answer *answer;
	bool keep;

	exchange_digest(exchange, digest);
	if (work_submission_seen(desk, exchange->arena, key, digest, &seen,
		    &err) != ERR_NONE) {
		struct web_reply reply = {.status = 0};

		web_say(request, &reply, 500, &err);
		return answer_make(&reply);
	}
	if (seen == WORK_SEEN_SAME)
		return answer_again_to(crew, exchange, key);
	if (seen == WORK_SEEN_OTHER)
		return answer_conflict(exchange);
	own.submission = text_format(exchange->arena, "%s %s", key, digest);
	answer = make(crew, exchange, &own, &keep);
	if (answer != NULL && answer->see_other != NULL) {
		recall(crew, key, answer->see_other);
		make_ahead(crew, exchange);
	}
	return answer;
}

static struct exchange *
take_deed(struct crew *crew)
{
	struct exchange *deed = crew->deed;

	if (deed == NULL)
		return NULL;
	crew->deed = deed->next;
	if (crew->deed == NULL)
		crew->deed_end = &crew->deed;
	return deed;
}

static void *
write_on(void *data)
{
	struct hand *hand = data;
	struct crew *crew = hand->crew;

	for (;;) {
		struct exchange *deed;

		(void)pthread_mutex_lock(&crew->lock);
		while ((deed = take_deed(crew)) == NULL && !crew->stopping)
			(void)pthread_cond_wait(&crew->more, &crew->lock);
		(void)pthread_mutex_unlock(&crew->lock);
		if (deed == NULL)
			return NULL;
		deliver(crew, deed,
			deed->errand != NULL
				? do_errand(deed)
				: do_deed(crew, deed, &hand->desk));
	}
}

/* --- What comes in. --- */

static struct answer *
say_ended(struct exchange *exchange)
{
	struct web_reply reply = {.status = 0};
	struct err err = {.code = ERR_NONE};

	(void)err_report(&err, ERR_BUSY, "",
		"The program was ended before this page was ready. Start it "
		"again, then open the page anew.");
	web_say(&exchange->request, &reply, MHD_HTTP_SERVICE_UNAVAILABLE, &err);
	if (reply.type == NULL)
		reply.type = "text/html; charset=utf-8";
	return answer_make(&reply);
}

static bool
give_page(struct crew *crew, struct exchange *exchange)
{
	const char *name = crew_name(exchange);
	struct task *task = name != NULL ? find_task(crew, name) : NULL;
	struct exchange **list;

	if (name == NULL)
		return false;
	if (task == NULL) {
		task = task_new(exchange, exchange->target, name);
		if (task == NULL)
			return false;
		add_task(crew, task);
	}
	list = task->taken ? &task->late : &task->waiting;
	exchange->next = *list;
	*list = exchange;
	return true;
}

void
crew_give(struct crew *crew, struct exchange *exchange)
{
	bool given = true, too_late = false;

	exchange->next = NULL;
	exchange->since_ms = crew_now_ms();
	(void)pthread_mutex_lock(&crew->lock);
	if (exchange->request.method == WEB_POST) {
		*crew->deed_end = exchange;
		crew->deed_end = &exchange->next;
	} else if (crew->leaving) {
		too_late = true;
	} else {
		given = give_page(crew, exchange);
	}
	(void)pthread_cond_broadcast(&crew->more);
	(void)pthread_mutex_unlock(&crew->lock);
	if (too_late)
		deliver(crew, exchange, say_ended(exchange));
	else if (!given)
		deliver(crew, exchange, NULL);
}

static enum err_code
start_hand(struct crew *crew, struct hand *hand, void *(*work)(void *),
	struct err *err)
{
	hand->crew = crew;
	if (pthread_create(&hand->thread, NULL, work, hand) != 0)
		return err_report(err, ERR_SYSTEM, "",
			"No thread could be started for the pages.");
	hand->started = true;
	return ERR_NONE;
}

static void
stop_hand(struct hand *hand)
{
	if (hand->started)
		(void)pthread_join(hand->thread, NULL);
	work_close(&hand->desk);
}

/* Pages that nobody has begun. */
static void
drop_tasks(struct crew *crew)
{
	(void)pthread_mutex_lock(&crew->lock);
	while (crew->task != NULL) {
		struct task *task = crew->task;

		crew->task = task->next;
		exchange_free(task->first);
		free(task->name);
		free(task);
	}
	(void)pthread_mutex_unlock(&crew->lock);
}

void
crew_stop(struct crew *crew)
{
	if (crew == NULL)
		return;
	(void)pthread_mutex_lock(&crew->lock);
	crew->stopping = true;
	(void)pthread_cond_broadcast(&crew->more);
	(void)pthread_mutex_unlock(&crew->lock);
	stop_hand(&crew->writer);
	for (size_t i = 0; i < crew->ask.n_reader; i++)
		stop_hand(&crew->reader[i]);
	stop_hand(&crew->look);
	drop_tasks(crew);
	(void)pthread_cond_destroy(&crew->more);
	(void)pthread_mutex_destroy(&crew->lock);
	free(crew->reader);
	free(crew);
}

/* --- Leaving. --- */

static bool
is_making(struct crew *crew)
{
	bool is = false;

	(void)pthread_mutex_lock(&crew->lock);
	for (const struct task *t = crew->task; t != NULL; t = t->next)
		is = is || t->taken;
	(void)pthread_mutex_unlock(&crew->lock);
	return is;
}

static struct exchange *
take_waiting(struct crew *crew)
{
	struct exchange *one = NULL;

	(void)pthread_mutex_lock(&crew->lock);
	for (struct task *t = crew->task; t != NULL && one == NULL;
		t = t->next) {
		struct exchange **list = t->waiting != NULL ? &t->waiting
							    : &t->late;

		one = *list;
		if (one != NULL)
			*list = one->next;
	}
	(void)pthread_mutex_unlock(&crew->lock);
	return one;
}

bool
crew_leave(struct crew *crew, int grace_ms)
{
	const struct timespec pause = {.tv_nsec = LEAVE_LOOK_MS * 1000000L};
	int64_t until = crew_now_ms() + grace_ms;
	struct exchange *one;

	(void)pthread_mutex_lock(&crew->lock);
	crew->leaving = true;
	(void)pthread_mutex_unlock(&crew->lock);
	while (is_making(crew) && crew_now_ms() < until)
		(void)nanosleep(&pause, NULL);
	while ((one = take_waiting(crew)) != NULL)
		deliver(crew, one, say_ended(one));
	if (is_making(crew))
		return false;
	drop_tasks(crew);
	return true;
}

/* The books first, before any thread: opening one closes a descriptor of the
 * file, which would take away the locks that another thread holds on it. */
static enum err_code
open_books(struct crew *crew, struct err *err)
{
	TRY(crew_desk(
		crew->ask.book, crew->ask.who, true, &crew->writer.desk, err));
	for (size_t i = 0; i < crew->ask.n_reader; i++)
		TRY(crew_desk(crew->ask.book, crew->ask.who, false,
			&crew->reader[i].desk, err));
	return ERR_NONE;
}

static enum err_code
start_all(struct crew *crew, struct err *err)
{
	TRY(open_books(crew, err));
	TRY(start_hand(crew, &crew->writer, write_on, err));
	TRY(start_hand(crew, &crew->look, look_on, err));
	for (size_t i = 0; i < crew->ask.n_reader; i++)
		TRY(start_hand(crew, &crew->reader[i], read_on, err));
	return ERR_NONE;
}

enum err_code
crew_start(const struct crew_ask *ask, struct crew **crew, struct err *err)
{
	struct crew *got = calloc(1, sizeof *got);
	enum err_code code;

	if (got == NULL)
		return err_memory(err);
	got->ask = *ask;
	got->deed_end = &got->deed;
	got->reader = calloc(ask->n_reader, sizeof *got->reader);
	if (got->reader == NULL || pthread_mutex_init(&got->lock, NULL) != 0 ||
		pthread_cond_init(&got->more, NULL) != 0) {
		free(got->reader);
		free(got);
		return err_memory(err);
	}
	code = start_all(got, err);
	if (code != ERR_NONE) {
		crew_stop(got);
		return code;
	}
	*crew = got;
	return ERR_NONE;
}

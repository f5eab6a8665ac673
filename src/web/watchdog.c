/* watchdog.c - a list of connections, looked through now and then. */
#include "web/watchdog.h"

#include "web/crew.h"

#include <pthread.h>
#include <stdbool.h>
#include <stdlib.h>
#include <sys/socket.h>
#include <time.h>

enum { LOOK_MS = 250 };

struct caller {
	struct caller *next, *before;
	int socket;
	int64_t until_ms; /* 0: no limit now */
};

struct watchdog {
	pthread_t thread;
	pthread_mutex_t lock;
	pthread_cond_t end;
	bool ending;
	int64_t limit_ms[2]; /* by enum caller_part */
	struct caller *first;
};

static void
cut_slow(const struct watchdog *dog)
{
	int64_t now = crew_now_ms();

	for (struct caller *c = dog->first; c != NULL; c = c->next)
		if (c->until_ms != 0 && now > c->until_ms) {
			(void)shutdown(c->socket, SHUT_RDWR);
			c->until_ms = 0;
		}
}

static void *
watch(void *data)
{
	struct watchdog *dog = data;

	(void)pthread_mutex_lock(&dog->lock);
	while (!dog->ending) {
		struct timespec until;

		cut_slow(dog);
		(void)clock_gettime(CLOCK_REALTIME, &until);
		until.tv_nsec += LOOK_MS * 1000000L;
		until.tv_sec += until.tv_nsec / 1000000000L;
		until.tv_nsec %= 1000000000L;
		(void)pthread_cond_timedwait(&dog->end, &dog->lock, &until);
	}
	(void)pthread_mutex_unlock(&dog->lock);
	return NULL;
}

struct watchdog *
watchdog_start(unsigned request_s, unsigned form_s)
{
	struct watchdog *dog = calloc(1, sizeof *dog);

	if (dog == NULL)
		return NULL;
	dog->limit_ms[CALLER_REQUEST] = (int64_t)request_s * 1000;
	dog->limit_ms[CALLER_FORM] = (int64_t)form_s * 1000;
	if (pthread_mutex_init(&dog->lock, NULL) != 0 ||
		pthread_cond_init(&dog->end, NULL) != 0 ||
		pthread_create(&dog->thread, NULL, watch, dog) != 0) {
		free(dog);
		return NULL;
	}
	return dog;
}

void
watchdog_stop(struct watchdog *dog)
{
	if (dog == NULL)
		return;
	(void)pthread_mutex_lock(&dog->lock);
	dog->ending = true;
	(void)pthread_cond_broadcast(&dog->end);
	(void)pthread_mutex_unlock(&dog->lock);
	(void)pthread_join(dog->thread, NULL);
	(void)pthread_cond_destroy(&dog->end);
	(void)pthread_mutex_destroy(&dog->lock);
	free(dog);
}

struct caller *
caller_new(struct watchdog *dog, int socket)
{
	struct caller *caller = calloc(1, sizeof *caller);

	if (caller == NULL)
		return NULL;
	caller->socket = socket;
	caller->until_ms = crew_now_ms() + dog->limit_ms[CALLER_REQUEST];
	(void)pthread_mutex_lock(&dog->lock);
	caller->next = dog->first;
	if (dog->first != NULL)
		dog->first->before = caller;
	dog->first = caller;
	(void)pthread_mutex_unlock(&dog->lock);
	return caller;
}

void
caller_gone(struct watchdog *dog, struct caller *caller)
{
	if (caller == NULL)
		return;
	(void)pthread_mutex_lock(&dog->lock);
	if (caller->next != NULL)
		caller->next->before = caller->before;
	if (caller->before != NULL)
		caller->before->next = caller->next;
	else
		dog->first = caller->next;
	(void)pthread_mutex_unlock(&dog->lock);
	free(caller);
}

void
caller_part(struct watchdog *dog, struct caller *caller, enum caller_part part)
{
	int64_t until = part == CALLER_NOTHING
		? 0
		: crew_now_ms() + dog->limit_ms[part];

	if (caller == NULL)
		return;
	(void)pthread_mutex_lock(&dog->lock);
	caller->until_ms = until;
	(void)pthread_mutex_unlock(&dog->lock);
}

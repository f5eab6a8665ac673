/* feed.h - one input of the fuzzer, and of its corpus, fed to a calculation.
 *
 * The first line names the calculation, the rest is its question.  What must
 * hold is checked with assert: an answer is JSON again, a refusal is a sentence
 * that names a field, and nothing else happens. */
#ifndef TESTS_FUZZ_FEED_H
#define TESTS_FUZZ_FEED_H

#include "core/arena.h"
#include "work/calc.h"

#include <assert.h>
#include <jansson.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

enum { FEED_NAME_MAX = 40, FEED_WORK_MAX = 1000 };

/* A question may ask for an hour's work; those are not asked here. */
static inline bool
feed_is_long(const char *name, const char *question, size_t n)
{
	static const char *const counts[] = {"draws", "chains"};
	json_t *object = json_loadb(question, n, 0, NULL);
	bool is_long = object != NULL && strcmp(name, "hierarchy") == 0 &&
		json_object_get(object, "draws") == NULL;

	for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
		double count = json_number_value(
			json_object_get(object, counts[i]));

		is_long = is_long || count > FEED_WORK_MAX;
	}
	json_decref(object);
	return is_long;
}

static inline void
feed_check(enum err_code code, const char *answer, const struct err *err)
{
	json_t *object;

	if (code != ERR_NONE) {
		assert(err->code == code);
		assert(err->text[0] != '\0');
		return;
	}
	object = json_loads(answer, JSON_REJECT_DUPLICATES, NULL);
	assert(json_is_object(object));
	json_decref(object);
}

/* feed(data, n): returns true if the calculation was asked. */
static inline bool
feed(const uint8_t *data, size_t n)
{
	const size_t limit = (size_t)256 << 20;
	const char *text = (const char *)data;
	const char *end = n > 0 ? memchr(text, '\n', n) : NULL;
	size_t length = end != NULL ? (size_t)(end - text) : FEED_NAME_MAX;
	char name[FEED_NAME_MAX] = "";
	const struct calc_entry *entry;
	struct err err = {.code = ERR_NONE};
	const char *answer = NULL;
	struct arena *arena;
	enum err_code code;

	if (length >= FEED_NAME_MAX)
		return false;
	memcpy(name, text, length);
	entry = work_calc_find(name);
	text += length + 1;
	n -= length + 1;
	if (entry == NULL || feed_is_long(name, text, n))
		return false;
	arena = arena_new(limit);
	assert(arena != NULL);
	code = work_calc(entry, arena, text, n, &answer, &err);
	feed_check(code, answer, &err);
	arena_free(arena);
	return true;
}

#endif /* TESTS_FUZZ_FEED_H */

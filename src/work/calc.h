/* calc.h - the open workbench: one JSON object in, one JSON object out.
 *
 * docs/calc.md says what each name takes and gives. */
#ifndef WORK_CALC_H
#define WORK_CALC_H

#include "core/arena.h"
#include "core/err.h"

#include <stddef.h>

/* One key that a calculation takes, for its --help. */
struct calc_key {
	const char *name;
	const char *takes;   /* kind and unit: "length", "array of numbers" */
	const char *dflt;    /* what holds when it is missing; NULL: required */
	const char *meaning; /* one line */
};

struct calc_entry;

/* work_calc_list(n): all calculations, in the order they are listed. */
const struct calc_entry *const *work_calc_list(size_t *n);

/* work_calc_find(name): NULL if there is none; work_calc_nearest(name) is then
 * the name most like it, NULL if none is. */
const struct calc_entry *work_calc_find(const char *name);
const char *work_calc_nearest(const char *name);

const char *work_calc_name(const struct calc_entry *entry);
const char *work_calc_line(const struct calc_entry *entry);
const char *work_calc_example(const struct calc_entry *entry);
const struct calc_key *work_calc_keys(
	const struct calc_entry *entry, size_t *n_key);

/* work_calc(entry, arena, question, n, answer, err):
 * question is n bytes of JSON; *answer a JSON document in the arena.
 * ERR_INPUT  field names the key by its path ("tip.diameter"); text says what
 *            it got and what it would take */
enum err_code work_calc(const struct calc_entry *entry, struct arena *arena,
	const char *question, size_t n, const char **answer,
	struct err *err) MUST_CHECK;

#endif /* WORK_CALC_H */

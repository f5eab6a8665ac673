/* shelf.h - books made, opened, closed and proven, for the faces. */
#ifndef WORK_SHELF_H
#define WORK_SHELF_H

#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

#include <stdbool.h>

/* work_gallon_find(word, gallon): "us" or "imperial"; false: neither.
 * work_gallon_name: as people say it, "US gallons". */
bool work_gallon_find(const char *word, enum unit_gallon *gallon);
const char *work_gallon_name(enum unit_gallon gallon);

/* work_new(path, name, note, desk, err): makes a book, which means the gallons
 * of desk, and closes it. */
enum err_code work_new(const char *path, const char *name, const char *note,
	const struct desk *desk, struct err *err) MUST_CHECK;

/* work_open(path, write, desk, err): fills desk->book and desk->gallon;
 * work_close gives it back (NULL is fine) and fills what
 * state_to points at, 0 where it cannot be read. */
enum err_code work_open(const char *path, bool write, struct desk *desk,
	struct err *err) MUST_CHECK;
void work_close(struct desk *desk);

/* work_try_out(desk, err): of a book just opened to be read: deeds may be done
 * on it from then on, and none is kept. */
enum err_code work_try_out(const struct desk *desk, struct err *err) MUST_CHECK;

/* work_copied_aside(desk): where the older book was copied to, if opening it
 * brought it up to this version; else NULL. */
const char *work_copied_aside(const struct desk *desk);

/* work_verify(desk, arena, n_entry, err): book_verify of the open book. */
enum err_code work_verify(const struct desk *desk, struct arena *arena,
	size_t *n_entry, struct err *err) MUST_CHECK;

#endif /* WORK_SHELF_H */

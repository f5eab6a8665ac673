/* history.h - what was written when and by whom, and an entry undone. */
#ifndef WORK_HISTORY_H
#define WORK_HISTORY_H

#include "book/types.h"
#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { WORK_HISTORY_PAGE = 30 };

/* One entry in words. */
struct work_entry {
	int64_t id;
	const char *at;         /* UTC, 2026-05-02T08:00:00Z */
	const char *who, *what; /* "batch", "import" ... */
	const char *detail;     /* what was said of it, such as the reason */
	const char *touched;    /* "batch 03 (new), 4 readings (new): ..." */
	int64_t undone_by;      /* the undoing that stands; 0: none */
	bool can_undo;          /* it is not the beginning, nor undone; what
	                         * rests on it is seen only when one tries */
};

struct work_history {
	const struct work_entry *entry; /* newest first */
	size_t n;
	bool more; /* there are older ones */
};

/* work_history(desk, arena, before, n_most, out, err):
 * Entries before that one (0: from the newest), at most n_most (0: all). */
enum err_code work_history(const struct desk *desk, struct arena *arena,
	int64_t before, size_t n_most, struct work_history *out,
	struct err *err) MUST_CHECK;

struct work_undo {
	int64_t entry;
	bool dry_run; /* say what it would put back, and write nothing */
};

struct work_undone {
	int64_t entry;       /* the new entry of the history; 0: dry run */
	size_t n_thing;      /* put back */
	const char *touched; /* as of an entry */
	const char *detail;  /* "entry 12, batch 03" */
};

/* work_undo(desk, arena, ask, out, err):
 * Puts back what the entry wrote, by a new entry; undoing that one brings it
 * back.  Nothing is deleted: a reading stays in the record, marked as taken
 * back.
 * ERR_NOT_FOUND no such entry; ERR_CONFLICT something later rests on it (the
 * sentence names it), it was undone already, or it is the beginning */
enum err_code work_undo(const struct desk *desk, struct arena *arena,
	const struct work_undo *ask, struct work_undone *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_HISTORY_H */

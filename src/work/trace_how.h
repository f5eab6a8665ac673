/* trace_how.h - how a logger's file was understood, in words: the book keeps
 * them in English, whoever reads them may speak another tongue. */
#ifndef WORK_TRACE_HOW_H
#define WORK_TRACE_HOW_H

#include "core/arena.h"
#include "lab/trace.h"

/* work_trace_how_kept(arena, found): "semicolons between columns, decimal comma,
 * heading in line 1, time from "Time" in s, figures from "Load" in N"; NULL if
 * memory ran out.
 * work_trace_how(arena, kept): the same in the arena's tongue; as it is where it
 * was written by other hands. */
const char *work_trace_how_kept(
	struct arena *arena, const struct lab_trace_found *found);
const char *work_trace_how(struct arena *arena, const char *kept);

/* work_trace_separator(separator): "tabs", "semicolons", "commas", "nothing", in
 * N_(). */
const char *work_trace_separator(char separator);

#endif /* WORK_TRACE_HOW_H */

/* arena.h - memory that is given back all at once.
 *
 * One arena a command or request, with a limit.  Results live in it; there are
 * no single frees.  A function whose first parameter is an arena returns
 * memory nobody frees.  Not shared between threads. */
#ifndef CORE_ARENA_H
#define CORE_ARENA_H

#include "core/tongue.h"

#include <stdbool.h>
#include <stddef.h>

struct arena;

/* arena_new(limit_bytes): an empty arena that never holds more than the limit;
 * NULL if the machine has no memory.  The caller frees it with arena_free. */
struct arena *arena_new(size_t limit_bytes);

/* arena_new_mapped(limit_bytes, first_bytes): the same, whose first block holds so
 * many bytes, from the system and back to it when the arena is freed: for what
 * is large, or kept long, which would leave holes in the heap. */
struct arena *arena_new_mapped(size_t limit_bytes, size_t first_bytes);

/* arena_free(arena): gives everything back.  NULL does nothing. */
void arena_free(struct arena *arena);

/* arena_take(arena, n, size): n items of size bytes each, zeroed and aligned
 * for any type.  NULL if the limit is reached, n * size overflows, or the
 * machine has no memory (report it with err_memory).  n = 0 gives a pointer
 * that may not be read. */
void *arena_take(struct arena *arena, size_t n, size_t size)
	__attribute__((malloc, alloc_size(2, 3)));

/* arena_copy(arena, from, n, size): a copy of n items; NULL as arena_take. */
void *arena_copy(struct arena *arena, const void *from, size_t n, size_t size);

/* arena_text(arena, text): a copy of a C string; NULL as arena_take. */
char *arena_text(struct arena *arena, const char *text);

/* arena_speak(arena, tongue): texts made in the arena from now on are in that
 * tongue.  arena_tongue(arena): which it is; English at first. */
void arena_speak(struct arena *arena, struct tongue tongue);
struct tongue arena_tongue(const struct arena *arena);

/* arena_english(arena): what is made from now on is English, for the book keeps
 * one language; the tongue that it spoke, to give back to arena_speak. */
struct tongue arena_english(struct arena *arena);

/* arena_say(arena, english): a fixed text in the arena's tongue; a name found
 * in a table of N_(), a whole sentence.  Not for what a person wrote. */
const char *arena_say(const struct arena *arena, const char *english)
	__attribute__((format_arg(2)));

/* arena_at_end(arena, call, data): call(data) once, when the arena is freed or
 * given back past this moment, the last asked for first; for what is borrowed
 * from elsewhere as long as the arena lives.  call may not use the arena.
 * false: no room, and it will not be called. */
bool arena_at_end(struct arena *arena, void (*call)(void *data), void *data);

/* arena_used(arena): bytes handed out so far. */
size_t arena_used(const struct arena *arena);

/* arena_mark / arena_back: arena_back(arena, mark) gives back all that was
 * taken since the mark was made, for loops that need scratch. */
struct arena_mark {
	void *block;
	const void *end;
	size_t at;
	size_t used;
};
struct arena_mark arena_mark(const struct arena *arena);
void arena_back(struct arena *arena, struct arena_mark mark);

#endif /* CORE_ARENA_H */

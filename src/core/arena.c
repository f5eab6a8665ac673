/* arena.c - blocks from the heap, cut from the front, freed together. */
#include "core/arena.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>

enum { FIRST_BLOCK = 64 * 1024 };

struct block {
	struct block *older;
	size_t size, at;
	alignas(max_align_t) unsigned char bytes[];
};

/* What is to be called when the arena ends; itself in the arena. */
struct ending {
	struct ending *before;
	void (*call)(void *data);
	void *data;
};

struct arena {
	struct block *newest;
	struct ending *ending;
	size_t limit, used;
	size_t first; /* size of the first block */
	bool is_mapped;
	struct tongue tongue;
};

struct arena *
arena_new(size_t limit_bytes)
{
	struct arena *arena = calloc(1, sizeof *arena);

	if (arena != NULL) {
		arena->limit = limit_bytes;
		arena->first = FIRST_BLOCK;
	}
	return arena;
}

struct arena *
arena_new_mapped(size_t limit_bytes, size_t first_bytes)
{
	struct arena *arena = arena_new(limit_bytes);

	if (arena != NULL) {
		arena->first = first_bytes;
		arena->is_mapped = true;
	}
	return arena;
}

static struct block *
block_new(const struct arena *arena, size_t size)
{
	struct block *block;

	if (!arena->is_mapped)
		return malloc(sizeof *block + size);
	block = mmap(NULL, sizeof *block + size, PROT_READ | PROT_WRITE,
		MAP_PRIVATE | MAP_ANONYMOUS, -1, 0);
	return block != MAP_FAILED ? block : NULL;
}

static void
block_free(const struct arena *arena, struct block *block)
{
	if (arena->is_mapped)
		(void)munmap(block, sizeof *block + block->size);
	else
		free(block);
}

static void
free_newer_than(struct arena *arena, const struct block *kept)
{
	while (arena->newest != kept) {
		struct block *older = arena->newest->older;

		block_free(arena, arena->newest);
		arena->newest = older;
	}
}

/* The endings asked for after `kept`, before their memory goes. */
static void
end_newer_than(struct arena *arena, const struct ending *kept)
{
	while (arena->ending != kept) {
		struct ending *one = arena->ending;

		arena->ending = one->before;
		one->call(one->data);
	}
}

void
arena_free(struct arena *arena)
{
	if (arena == NULL)
		return;
	end_newer_than(arena, NULL);
	free_newer_than(arena, NULL);
	free(arena);
}

/* Each block doubles the one before, so that a large result takes few. */
static struct block *
add_block(struct arena *arena, size_t need)
{
	size_t size = arena->newest != NULL ? 2 * arena->newest->size
					    : arena->first;
	struct block *block;

	if (size > arena->limit)
		size = arena->limit;
	if (size < need)
		size = need;
	if (size > SIZE_MAX - sizeof *block)
		return NULL;
	block = block_new(arena, size);
	if (block == NULL)
		return NULL;
	*block = (struct block){.older = arena->newest, .size = size};
	arena->newest = block;
	return block;
}

void *
arena_take(struct arena *arena, size_t n, size_t size)
{
	struct block *block = arena->newest;
	size_t need;
	void *taken;

	if (__builtin_mul_overflow(n, size, &need))
		return NULL;
	if (need > SIZE_MAX - alignof(max_align_t))
		return NULL;
	need = (need + alignof(max_align_t) - 1) / alignof(max_align_t) *
		alignof(max_align_t);
	if (need > arena->limit - arena->used)
		return NULL;
	if (block == NULL || block->size - block->at < need)
		block = add_block(arena, need);
	if (block == NULL)
		return NULL;
	taken = block->bytes + block->at;
	block->at += need;
	arena->used += need;
	memset(taken, 0, need);
	return taken;
}

void *
arena_copy(struct arena *arena, const void *from, size_t n, size_t size)
{
	void *copy = arena_take(arena, n, size);

	if (copy != NULL && n > 0 && size > 0)
		memcpy(copy, from, n * size);
	return copy;
}

char *
arena_text(struct arena *arena, const char *text)
{
	return arena_copy(arena, text, strlen(text) + 1, 1);
}

void
arena_speak(struct arena *arena, struct tongue tongue)
{
	arena->tongue = tongue;
}

struct tongue
arena_english(struct arena *arena)
{
	const struct tongue spoken = arena->tongue;

	arena->tongue = (struct tongue){.find = NULL};
	return spoken;
}

struct tongue
arena_tongue(const struct arena *arena)
{
	return arena->tongue;
}

const char *
arena_say(const struct arena *arena, const char *english)
{
	return tongue_say(&arena->tongue, english);
}

bool
arena_at_end(struct arena *arena, void (*call)(void *data), void *data)
{
	struct ending *ending = arena_take(arena, 1, sizeof *ending);

	if (ending == NULL)
		return false;
	*ending = (struct ending){arena->ending, call, data};
	arena->ending = ending;
	return true;
}

size_t
arena_used(const struct arena *arena)
{
	return arena->used;
}

struct arena_mark
arena_mark(const struct arena *arena)
{
	return (struct arena_mark){
		.block = arena->newest,
		.end = arena->ending,
		.at = arena->newest != NULL ? arena->newest->at : 0,
		.used = arena->used,
	};
}

void
arena_back(struct arena *arena, struct arena_mark mark)
{
	end_newer_than(arena, mark.end);
	free_newer_than(arena, mark.block);
	if (arena->newest != NULL)
		arena->newest->at = mark.at;
	arena->used = mark.used;
}

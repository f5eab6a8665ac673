/* bytes.c - files of the book from memory, and into it. */
#include "work/bytes.h"

#include <string.h>

static enum err_code
read_bytes(void *context, char *to, size_t room, size_t *n, struct err *err)
{
	struct work_bytes *from = context;
	size_t left = from->n - from->at;

	(void)err;
	*n = left < room ? left : room;
	if (*n > 0)
		memcpy(to, from->bytes + from->at, *n);
	from->at += *n;
	return ERR_NONE;
}

static enum err_code
rewind_bytes(void *context, struct err *err)
{
	struct work_bytes *from = context;

	(void)err;
	from->at = 0;
	return ERR_NONE;
}

struct book_source
work_bytes_source(struct work_bytes *bytes)
{
	return (struct book_source){read_bytes, rewind_bytes, bytes};
}

struct sink {
	char *to;
	size_t n, room;
};

static enum err_code
take_bytes(void *context, const char *bytes, size_t n, struct err *err)
{
	struct sink *sink = context;

	if (n > sink->room - sink->n)
		return err_report(err, ERR_DAMAGED, "file",
			"The file has more bytes than were kept. Use an "
			"earlier copy of the book.");
	memcpy(sink->to + sink->n, bytes, n);
	sink->n += n;
	return ERR_NONE;
}

enum err_code
work_file_bytes(const struct desk *desk, struct arena *arena,
	const struct book_file *file, const char **bytes, struct err *err)
{
	struct sink sink = {.room = (size_t)file->bytes};

	sink.to = arena_take(arena, sink.room + 1, 1);
	if (sink.to == NULL)
		return err_memory(err);
	TRY(book_read_file(desk->book, file, take_bytes, &sink, err));
	*bytes = sink.to;
	return ERR_NONE;
}

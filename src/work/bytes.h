/* bytes.h - files of the book from memory, and into it. */
#ifndef WORK_BYTES_H
#define WORK_BYTES_H

#include "book/book.h"
#include "work/desk.h"

/* Bytes in memory as a source; both borrowed.  work_bytes_source(bytes). */
struct work_bytes {
	const char *bytes;
	size_t n, at;
};
struct book_source work_bytes_source(struct work_bytes *bytes);

/* work_file_bytes(desk, arena, file, bytes, err): file->bytes of them, as they
 * came, and a NUL behind them.
 * ERR_DAMAGED they are not those of its checksum */
enum err_code work_file_bytes(const struct desk *desk, struct arena *arena,
	const struct book_file *file, const char **bytes,
	struct err *err) MUST_CHECK;

#endif /* WORK_BYTES_H */

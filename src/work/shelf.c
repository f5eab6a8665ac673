/* shelf.c - opens and closes books for the faces. */
#include "work/shelf.h"

#include "book/book.h"

enum err_code
work_new(const char *path, const char *name, const char *note,
	const struct desk *desk, struct err *err)
{
	const struct book_info info = {.row = {.typed = ""},
		.name = name,
		.note = note,
		.gallon = "us",
		.currency = "units"};
	struct book *book = NULL;

	TRY(book_create(path, &info, desk->now_utc_s, desk->who, &book, err));
	book_close(book);
	return ERR_NONE;
}

enum err_code
work_open(const char *path, bool write, struct desk *desk, struct err *err)
{
	return book_open(
		path, write ? BOOK_WRITE : BOOK_READ, &desk->book, err);
}

enum err_code
work_try_out(const struct desk *desk, struct err *err)
{
	return book_detach(desk->book, err);
}

void
work_close(struct desk *desk)
{
	book_close(desk->book);
	desk->book = NULL;
}

const char *
work_copied_aside(const struct desk *desk)
{
	return book_copied_aside(desk->book);
}

enum err_code
work_verify(const struct desk *desk, struct arena *arena, size_t *n_entry,
	struct err *err)
{
	return book_verify(desk->book, arena, n_entry, err);
}

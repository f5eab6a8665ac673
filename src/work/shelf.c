/* shelf.c - opens and closes books for the faces. */
#include "work/shelf.h"

#include "book/book.h"

#include <string.h>

static const struct {
	const char *word, *name;
} gallons[] = {
	[UNIT_GALLON_US] = {"us", "US gallons"},
	[UNIT_GALLON_IMPERIAL] = {"imperial", "imperial gallons"},
};

bool
work_gallon_find(const char *word, enum unit_gallon *gallon)
{
	for (size_t i = 0; i < sizeof gallons / sizeof gallons[0]; i++)
		if (strcmp(gallons[i].word, word) == 0) {
			*gallon = (enum unit_gallon)i;
			return true;
		}
	return false;
}

const char *
work_gallon_name(enum unit_gallon gallon)
{
	return gallons[gallon].name;
}

enum err_code
work_new(const char *path, const char *name, const char *note,
	const struct desk *desk, struct err *err)
{
	const struct book_info info = {.row = {.typed = ""},
		.name = name,
		.note = note,
		.gallon = gallons[desk->gallon].word,
		.currency = "units"};
	struct book *book = NULL;

	TRY(book_create(path, &info, desk->now_utc_s, desk->who, &book, err));
	book_close(book);
	return ERR_NONE;
}

static enum err_code
read_gallon(struct desk *desk, struct err *err)
{
	struct arena *arena = arena_new((size_t)1 << 20);
	struct book_info info = {.gallon = ""};
	enum err_code code;

	if (arena == NULL)
		return err_memory(err);
	code = book_get_info(desk->book, arena, &info, err);
	if (code == ERR_NONE && !work_gallon_find(info.gallon, &desk->gallon))
		code = err_report(err, ERR_DAMAGED, "book",
			"The book is damaged: it does not say which gallon it "
			"means. Use an earlier copy.");
	arena_free(arena);
	return code;
}

enum err_code
work_open(const char *path, bool write, struct desk *desk, struct err *err)
{
	TRY(book_open(path, write ? BOOK_WRITE : BOOK_READ, &desk->book, err));
	if (read_gallon(desk, err) == ERR_NONE)
		return ERR_NONE;
	work_close(desk);
	return err->code;
}

enum err_code
work_try_out(const struct desk *desk, struct err *err)
{
	return book_detach(desk->book, err);
}

void
work_close(struct desk *desk)
{
	struct err odd = {.code = ERR_NONE};

	if (desk->book != NULL && desk->state_to != NULL &&
		book_state(desk->book, desk->state_to, &odd) != ERR_NONE)
		*desk->state_to = 0;
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

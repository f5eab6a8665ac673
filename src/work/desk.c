/* desk.c - how every deed ends. */
#include "work/desk.h"

#include "book/book.h"

enum err_code
work_commit_or_undo(const struct desk *desk, const char *detail,
	enum err_code code, struct err *err)
{
	if (code == ERR_NONE)
		code = book_commit(desk->book, detail, NULL, err);
	if (code != ERR_NONE)
		book_rollback(desk->book);
	return code;
}

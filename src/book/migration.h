/* migration.h - the numbered .sql files, compiled in by tools/embed_sql.sh, and
 * an older book brought to what they make.
 *
 * The list is handed in, so that a test can bring one of its own; book_create
 * and book_open hand in book_migrations. */
#ifndef BOOK_MIGRATION_H
#define BOOK_MIGRATION_H

#include "book/book.h"

struct book_migration {
	const char *name, *sql; /* the file's name, its statements */
};

/* step[k] brings a book of user_version k to k + 1. */
struct book_migrations {
	const struct book_migration *step;
	int n;
};

extern const struct book_migrations book_migrations;

/* What a book of the newest version holds, made at build time from the list by
 * tools/schema_compile.c with this statement: type, name, table, its SQL. */
enum { BOOK_SCHEMA_COLUMNS = 4 };
static const char book_schema_sql[] =
	"SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema "
	"ORDER BY type, name";
struct book_schema_row {
	const char *cell[BOOK_SCHEMA_COLUMNS];
};
extern const struct book_schema_row book_schema_row[];
extern const int book_n_schema_row;

/* book_create_by / book_open_by: book_create and book_open by another list. */
enum err_code book_create_by(const char *path, const struct book_info *info,
	int64_t at_utc_s, const char *who, const struct book_migrations *list,
	struct book **book, struct err *err) MUST_CHECK;
enum err_code book_open_by(const char *path, enum book_access access,
	const struct book_migrations *list, struct book **book,
	struct err *err) MUST_CHECK;

/* book_apply(book, list, from, to, err): runs the steps in the transaction that
 * is open and sets user_version. */
enum err_code book_apply(struct book *book, const struct book_migrations *list,
	int from, int to, struct err *err) MUST_CHECK;

/* book_check_schema(book, list, version, err): the gate: ERR_NOT_A_BOOK if
 * there is a table, index, trigger or view more, less or other than the first
 * `version` steps make. */
enum err_code book_check_schema(struct book *book,
	const struct book_migrations *list, int version,
	struct err *err) MUST_CHECK;

/* book_migrate(book, path, list, err):
 * Brings the open book to version list->n, if it is older: copies it aside to
 * PATH.vN (PATH.vN-2, ... where that is taken), then in one transaction runs
 * the steps, adds an entry to the history and proves every digest again.  On
 * failure the book is as it was and the copy is gone.
 * ERR_DISK no room for the copy, ERR_SYSTEM not writable, ERR_DAMAGED. */
enum err_code book_migrate(struct book *book, const char *path,
	const struct book_migrations *list, struct err *err) MUST_CHECK;

#endif /* BOOK_MIGRATION_H */

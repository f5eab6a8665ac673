/* migrate.c - an older book brought up, whole or not at all. */
#include "book/migration.h"

#include "book/book_priv.h"
#include "book/file.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { COPIES_MOST = 99, PROOF_BYTES_MOST = 1 << 30 };

enum err_code
book_apply(struct book *book, const struct book_migrations *list, int from,
	int to, struct err *err)
{
	char version[48];

	for (int v = from; v < to; v++)
		TRY(book_run(book, list->step[v].sql, "write", err));
	(void)snprintf(version, sizeof version, "PRAGMA user_version = %d", to);
	return book_run(book, version, "write", err);
}

/* ---- the gate ---- */

/* Both NULL or one of them NULL: other. */
static bool
same_text(const char *a, const char *b)
{
	return a != NULL && b != NULL && strcmp(a, b) == 0;
}

static bool
same_row(sqlite3_stmt *a, sqlite3_stmt *b)
{
	for (int i = 0; i < BOOK_SCHEMA_COLUMNS; i++)
		if (!same_text((const char *)sqlite3_column_text(a, i),
			    (const char *)sqlite3_column_text(b, i)))
			return false;
	return true;
}

/* The newest version, as it was compiled in: no model has to be made. */
static enum err_code
compare_newest(struct book *book, bool *same, struct err *err)
{
	sqlite3_stmt *s = NULL;
	int n = 0, rc;

	TRY(book_prepare(book, book_schema_sql, &s, err));
	*same = true;
	while ((rc = sqlite3_step(s)) == SQLITE_ROW && *same) {
		*same = n < book_n_schema_row;
		for (int i = 0; *same && i < BOOK_SCHEMA_COLUMNS; i++)
			*same = same_text(
				(const char *)sqlite3_column_text(s, i),
				book_schema_row[n].cell[i]);
		n++;
	}
	*same = *same && n == book_n_schema_row;
	(void)sqlite3_finalize(s);
	if (rc != SQLITE_DONE && rc != SQLITE_ROW)
		return book_fault(book, "read", err);
	return ERR_NONE;
}

static enum err_code
compare_schemas(
	struct book *model, struct book *book, bool *same, struct err *err)
{
	sqlite3_stmt *ours = NULL, *theirs = NULL;
	enum err_code code = book_prepare(model, book_schema_sql, &ours, err);

	if (code == ERR_NONE)
		code = book_prepare(book, book_schema_sql, &theirs, err);
	*same = true;
	while (code == ERR_NONE && *same) {
		int a = sqlite3_step(ours), b = sqlite3_step(theirs);

		if (b != SQLITE_ROW && b != SQLITE_DONE)
			code = book_fault(book, "read", err);
		else if (a != b)
			*same = false;
		else if (a != SQLITE_ROW)
			break;
		else
			*same = same_row(ours, theirs);
	}
	(void)sqlite3_finalize(ours);
	(void)sqlite3_finalize(theirs);
	return code;
}

/* Any version of any list: made in memory and compared. */
static enum err_code
compare_model(struct book *book, const struct book_migrations *list,
	int version, bool *same, struct err *err)
{
	struct book model = {.access = BOOK_WRITE};
	enum err_code code;

	if (sqlite3_open(":memory:", &model.db) != SQLITE_OK)
		code = book_fault(&model, "read", err);
	else
		code = book_apply(&model, list, 0, version, err);
	if (code == ERR_NONE)
		code = compare_schemas(&model, book, same, err);
	(void)sqlite3_close(model.db);
	return code;
}

enum err_code
book_check_schema(struct book *book, const struct book_migrations *list,
	int version, struct err *err)
{
	bool same = true;

	if (list == &book_migrations && version == list->n)
		TRY(compare_newest(book, &same, err));
	else
		TRY(compare_model(book, list, version, &same, err));
	if (same)
		return ERR_NONE;
	return err_report(err, ERR_NOT_A_BOOK, "book",
		"This file has other tables than a book of this version: it "
		"was made or altered by another program. Use an earlier copy.");
}

/* ---- the older book ---- */

static enum err_code
copy_aside(struct book *book, const char *path, int version, struct err *err)
{
	char to[PATH_MAX];

	for (int k = 1; k <= COPIES_MOST; k++) {
		struct err refused = {.code = ERR_NONE};
		enum err_code code;
		int n = k == 1
			? snprintf(to, sizeof to, "%s.v%d", path, version)
			: snprintf(
				  to, sizeof to, "%s.v%d-%d", path, version, k);

		if (n < 0 || (size_t)n >= sizeof to)
			break;
		code = book_file_copy(book->db, to, &refused);
		if (code == ERR_CONFLICT)
			continue;
		if (code != ERR_NONE)
			return err_report(
				err, code, "book", "%s", refused.text);
		book->copy = strdup(to);
		if (book->copy != NULL)
			return ERR_NONE;
		(void)unlink(to);
		return err_memory(err);
	}
	return err_report(err, ERR_CONFLICT, "book",
		"There are too many copies %s.v%d of the older book. Move them "
		"elsewhere, then try again; nothing was changed.",
		path, version);
}

static enum err_code
check_links(struct book *book, const char *step, struct err *err)
{
	sqlite3_stmt *s = NULL;
	int rc;

	TRY(book_prepare(book, "PRAGMA foreign_key_check", &s, err));
	rc = sqlite3_step(s);
	(void)sqlite3_finalize(s);
	if (rc == SQLITE_DONE)
		return ERR_NONE;
	if (rc != SQLITE_ROW)
		return book_fault(book, "read", err);
	return err_report(err, ERR_DAMAGED, "book",
		"After the change %s rows of the book would point at rows that "
		"are not there. Nothing was changed; use an earlier copy.",
		step);
}

/* The figures of before must still answer to the digests of before. */
static enum err_code
prove(struct book *book, struct err *err)
{
	struct arena *arena = arena_new(PROOF_BYTES_MOST);
	size_t n = 0;
	enum err_code code;

	if (arena == NULL)
		return err_memory(err);
	code = book_verify(book, arena, &n, err);
	arena_free(arena);
	return code;
}

static enum err_code
note_migration(struct book *book, int from, int to, struct err *err)
{
	char detail[64];

	(void)snprintf(
		detail, sizeof detail, "from version %d to %d", from, to);
	book->at_utc_s = (int64_t)time(NULL);
	book->who = "foamwright";
	book->what = "migrate";
	book->submission = NULL;
	TRY(book_note_state(book, err));
	return book_add_entry(book, detail, err);
}

static enum err_code
run_steps(struct book *book, const char *path,
	const struct book_migrations *list, struct err *err)
{
	int64_t version;

	TRY(book_one_number(book, "PRAGMA user_version", &version, err));
	if (version >= list->n) /* someone else was quicker */
		return ERR_NONE;
	TRY(book_check_schema(book, list, (int)version, err));
	TRY(copy_aside(book, path, (int)version, err));
	TRY(book_apply(book, list, (int)version, list->n, err));
	TRY(book_check_schema(book, list, list->n, err));
	TRY(check_links(book, list->step[list->n - 1].name, err));
	TRY(note_migration(book, (int)version, list->n, err));
	return prove(book, err);
}

static enum err_code
migrate_locked(struct book *book, const char *path,
	const struct book_migrations *list, struct err *err)
{
	enum err_code code;

	TRY(book_run(book, "BEGIN IMMEDIATE", "write", err));
	book->in_write = true;
	code = run_steps(book, path, list, err);
	if (code == ERR_NONE)
		code = book_run(book, "COMMIT", "write", err);
	if (code == ERR_NONE) {
		book->in_write = false;
		return ERR_NONE;
	}
	book_rollback(book);
	if (book->copy != NULL)
		(void)unlink(book->copy);
	free(book->copy);
	book->copy = NULL;
	return code;
}

enum err_code
book_migrate(struct book *book, const char *path,
	const struct book_migrations *list, struct err *err)
{
	enum err_code code;

	/* A step may rebuild a table that others point at; this pragma does
	 * nothing inside a transaction (SQLite, "ALTER TABLE", section 7). */
	TRY(book_run(book, "PRAGMA foreign_keys = OFF", "write", err));
	code = migrate_locked(book, path, list, err);
	if (sqlite3_exec(book->db, "PRAGMA foreign_keys = ON", NULL, NULL,
		    NULL) != SQLITE_OK &&
		code == ERR_NONE)
		code = book_fault(book, "write", err);
	return code;
}

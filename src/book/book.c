/* book.c - the record file opened, checked, written whole or not at all. */
#include "book/book_priv.h"

#include "book/file.h"
#include "book/migration.h"
#include "core/date.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { BUSY_MS = 5000 };

/* ---- faults ---- */

enum err_code
book_fault(struct book *book, const char *doing, struct err *err)
{
	int rc = sqlite3_extended_errcode(book->db);

	switch (rc & 0xFF) {
	case SQLITE_BUSY:
	case SQLITE_LOCKED:
		return err_report(err, ERR_BUSY, "book",
			"Another program is using the book. Close it or wait, "
			"then try again; nothing was changed.");
	case SQLITE_FULL:
		return err_report(err, ERR_DISK, "book",
			"The disk is full. Make room, then try again; nothing "
			"was changed.");
	case SQLITE_IOERR:
		return err_report(err, ERR_DISK, "book",
			"The disk did not %s the book. Check the disk and its "
			"free space, then try again.",
			err_say(err, doing));
	case SQLITE_READONLY:
	case SQLITE_PERM:
	case SQLITE_CANTOPEN:
	case SQLITE_AUTH:
		return err_report(err, ERR_SYSTEM, "book",
			"The book or its folder may not be written by you. "
			"Copy the book to a folder of your own, or mend the "
			"permissions; nothing was changed.");
	case SQLITE_NOMEM:
		return err_memory(err);
	case SQLITE_CORRUPT:
	case SQLITE_NOTADB:
		return err_report(err, ERR_DAMAGED, "book",
			"The book is damaged. Use an earlier copy of it.");
	case SQLITE_TOOBIG:
		return err_report(err, ERR_INPUT, "book",
			"A text is too long for the book. Shorten it; nothing "
			"was changed.");
	case SQLITE_CONSTRAINT:
		if (rc == SQLITE_CONSTRAINT_UNIQUE)
			return err_report(err, ERR_INPUT, "book",
				"This code stood in the book before, for "
				"another thing. Give another code; nothing was "
				"changed.");
		return err_report(err, ERR_INPUT, "book",
			"The book refuses a value: %s. Nothing was changed.",
			sqlite3_errmsg(book->db));
	default:
		return err_report(err, ERR_SYSTEM, "book",
			"The book could not be %s: %s. Nothing was changed.",
			strcmp(doing, "write") == 0 ? err_say(err, "written")
						    : err_say(err, "read"),
			sqlite3_errmsg(book->db));
	}
}

enum err_code
book_prepare(struct book *book, const char *sql, sqlite3_stmt **statement,
	struct err *err)
{
	if (sqlite3_prepare_v2(book->db, sql, -1, statement, NULL) != SQLITE_OK)
		return book_fault(book, "read", err);
	return ERR_NONE;
}

enum err_code
book_run(struct book *book, const char *sql, const char *doing, struct err *err)
{
	if (sqlite3_exec(book->db, sql, NULL, NULL, NULL) != SQLITE_OK)
		return book_fault(book, doing, err);
	return ERR_NONE;
}

/* ---- opening ---- */

static enum err_code
settle(struct book *book, struct err *err)
{
	static const char pragmas[] = "PRAGMA trusted_schema = OFF;"
				      "PRAGMA cell_size_check = ON;"
				      "PRAGMA mmap_size = 0;"
				      "PRAGMA temp_store = MEMORY;"
				      "PRAGMA foreign_keys = ON;"
				      "PRAGMA synchronous = EXTRA;";

	(void)sqlite3_extended_result_codes(book->db, 1);
	(void)sqlite3_busy_timeout(book->db, BUSY_MS);
	(void)sqlite3_db_config(book->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
	(void)sqlite3_db_config(
		book->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
	(void)sqlite3_db_config(book->db, SQLITE_DBCONFIG_ENABLE_VIEW, 0, NULL);
	TRY(book_run(book, pragmas, "read", err));
	if (book->access == BOOK_WRITE)
		TRY(book_run(
			book, "PRAGMA journal_mode = DELETE", "write", err));
	return ERR_NONE;
}

static enum err_code
connect_file(const char *path, enum book_access access, struct book **book,
	struct err *err)
{
	struct book *got = calloc(1, sizeof *got);
	int flags = (access == BOOK_WRITE ? SQLITE_OPEN_READWRITE
					  : SQLITE_OPEN_READONLY) |
		SQLITE_OPEN_NOFOLLOW | SQLITE_OPEN_NOMUTEX;
	enum err_code code;

	if (got == NULL)
		return err_memory(err);
	got->access = access;
	if (sqlite3_open_v2(path, &got->db, flags, NULL) == SQLITE_OK) {
		*book = got;
		return ERR_NONE;
	}
	code = book_fault(got, "read", err);
	book_close(got);
	return code;
}

static enum err_code
open_checked(const char *path, enum book_access access,
	const struct book_migrations *list, struct book **book, struct err *err)
{
	struct book *got = NULL;
	enum err_code code;

	TRY(connect_file(path, access, &got, err));
	assert(got != NULL);
	code = book_file_check(got->db, path, list->n, err);
	if (code == ERR_NONE)
		code = settle(got, err);
	if (code != ERR_NONE)
		book_close(got);
	else
		*book = got;
	return code;
}

/* A write was cut off; only a writer may put it right. */
static void
recover(const char *path, const struct book_migrations *list)
{
	struct book *got = NULL;
	struct err ignored = {.code = ERR_NONE};

	if (open_checked(path, BOOK_WRITE, list, &got, &ignored) == ERR_NONE)
		(void)sqlite3_exec(got->db,
			"SELECT count(*) FROM sqlite_schema", NULL, NULL, NULL);
	book_close(got);
}

/* Opens it for writing to bring it up, whatever it is wanted for. */
static enum err_code
open_older(const char *path, enum book_access access,
	const struct book_migrations *list, struct book **book, struct err *err)
{
	struct book *got = NULL;
	enum err_code code;
	char *copy;

	TRY(open_checked(path, BOOK_WRITE, list, &got, err));
	code = book_migrate(got, path, list, err);
	if (code != ERR_NONE || access == BOOK_WRITE) {
		if (code != ERR_NONE)
			book_close(got);
		else
			*book = got;
		return code;
	}
	copy = got->copy;
	got->copy = NULL;
	book_close(got);
	code = open_checked(path, access, list, book, err);
	if (code == ERR_NONE)
		(*book)->copy = copy;
	else
		free(copy);
	return code;
}

enum err_code
book_open_by(const char *path, enum book_access access,
	const struct book_migrations *list, struct book **book, struct err *err)
{
	char whole[PATH_MAX];
	struct book *got = NULL;
	int64_t version = 0;
	enum err_code code;

	TRY(book_file_find(path, whole, sizeof whole, err));
	if (access == BOOK_READ && book_file_has_journal(whole))
		recover(whole, list);
	TRY(open_checked(whole, access, list, &got, err));
	code = book_one_number(got, "PRAGMA user_version", &version, err);
	if (code == ERR_NONE && version < list->n) {
		book_close(got);
		got = NULL;
		code = open_older(whole, access, list, &got, err);
	}
	if (code == ERR_NONE)
		code = book_check_schema(got, list, list->n, err);
	if (code != ERR_NONE)
		book_close(got);
	else
		*book = got;
	return code;
}

enum err_code
book_open(const char *path, enum book_access access, struct book **book,
	struct err *err)
{
	return book_open_by(path, access, &book_migrations, book, err);
}

/* The statements that were prepared; they are prepared anew when they are
 * needed. */
static void
drop_statements(struct book *book)
{
	sqlite3_stmt **const all[] = {book->insert, book->next_id,
		book->next_revision, book->taken, book->select, book->back,
		book->of_batch, book->at_hand, book->count, book->from};

	for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
		for (size_t t = 0; t < BOOK_N_TABLE; t++) {
			(void)sqlite3_finalize(all[i][t]);
			all[i][t] = NULL;
		}
}

enum err_code
book_detach(struct book *book, struct err *err)
{
	sqlite3 *file = book->db, *memory = NULL;
	sqlite3_backup *backup = NULL;
	enum err_code code;
	bool whole = false;

	assert(!book->in_write && book->n_read == 0);
	if (sqlite3_open_v2(":memory:", &memory,
		    SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE |
			    SQLITE_OPEN_NOMUTEX,
		    NULL) == SQLITE_OK)
		backup = sqlite3_backup_init(memory, "main", file, "main");
	if (backup != NULL) {
		(void)sqlite3_backup_step(backup, -1);
		whole = sqlite3_backup_finish(backup) == SQLITE_OK;
	}
	if (!whole) {
		(void)sqlite3_close(memory);
		return err_memory(err);
	}
	drop_statements(book); /* they belong to the file */
	book->db = memory;
	code = settle(book, err);
	book->access = BOOK_WRITE;
	(void)sqlite3_close(file);
	return code;
}

const char *
book_copied_aside(const struct book *book)
{
	return book->copy;
}

void
book_close(struct book *book)
{
	if (book == NULL)
		return;
	book_rollback(book);
	drop_statements(book);
	(void)sqlite3_close(book->db);
	free(book->copy);
	free(book);
}

/* ---- making one ---- */

static enum err_code
begin_write(struct book *book, int64_t at_utc_s, const char *who,
	const char *what, const char *submission, struct err *err)
{
	TRY(book_run(book, "BEGIN IMMEDIATE", "write", err));
	book->in_write = true;
	book->at_utc_s = at_utc_s;
	book->who = who;
	book->what = what;
	book->submission = submission;
	book->n_added = 0;
	return ERR_NONE;
}

static enum err_code
fill_new(struct book *book, const struct book_info *info,
	const struct book_migrations *list, struct err *err)
{
	struct book_info first = *info;

	_Static_assert(BOOK_APPLICATION_ID == 1182233204, "the PRAGMA below");
	TRY(book_run(book, "PRAGMA application_id = 1182233204", "write", err));
	TRY(book_apply(book, list, 0, list->n, err));
	TRY(book_note_state(book, err));
	TRY(book_put_info(book, &first, err));
	return book_commit(book, "", NULL, err);
}

/* Tables, first row and first entry: one transaction. */
static enum err_code
make_new(const char *path, const struct book_info *info, int64_t at_utc_s,
	const char *who, const struct book_migrations *list, struct book **book,
	struct err *err)
{
	struct book *got = NULL;
	enum err_code code;

	TRY(connect_file(path, BOOK_WRITE, &got, err));
	code = settle(got, err);
	if (code == ERR_NONE)
		code = begin_write(got, at_utc_s, who, "new book", NULL, err);
	if (code == ERR_NONE)
		code = fill_new(got, info, list, err);
	if (code != ERR_NONE)
		book_close(got);
	else
		*book = got;
	return code;
}

enum err_code
book_create_by(const char *path, const struct book_info *info, int64_t at_utc_s,
	const char *who, const struct book_migrations *list, struct book **book,
	struct err *err)
{
	char whole[PATH_MAX];
	enum err_code code;
	int fd;

	TRY(book_file_whole(path, whole, sizeof whole, err));
	fd = open(whole, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW,
		0644);
	if (fd < 0 && errno == EEXIST)
		return err_report(err, ERR_CONFLICT, "book",
			"%s is already there and is not written over. Choose "
			"another name.",
			path);
	if (fd < 0)
		return err_report(err,
			errno == ENOENT || errno == ENOTDIR ? ERR_NOT_FOUND
							    : ERR_SYSTEM,
			"book", "%s cannot be made: %s.", path,
			strerror(errno));
	(void)close(fd); /* before SQLite has any lock on it */
	code = make_new(whole, info, at_utc_s, who, list, book, err);
	if (code != ERR_NONE)
		(void)unlink(whole);
	return code;
}

enum err_code
book_create(const char *path, const struct book_info *info, int64_t at_utc_s,
	const char *who, struct book **book, struct err *err)
{
	return book_create_by(
		path, info, at_utc_s, who, &book_migrations, book, err);
}

/* ---- one write ---- */

enum err_code
book_one_number(
	struct book *book, const char *sql, int64_t *number, struct err *err)
{
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;

	TRY(book_prepare(book, sql, &s, err));
	if (sqlite3_step(s) == SQLITE_ROW)
		*number = sqlite3_column_int64(s, 0);
	else
		code = book_fault(book, "read", err);
	(void)sqlite3_finalize(s);
	return code;
}

enum err_code
book_note_state(struct book *book, struct err *err)
{
	int64_t last;

	TRY(book_one_number(
		book, "SELECT coalesce(max(id), 0) FROM history", &last, err));
	book->history_id = last + 1;
	for (size_t t = 0; t < BOOK_N_TABLE; t++)
		book->before[t] = BOOK_UNTOUCHED;
	/* The entry comes last but its rows point at it: checked at COMMIT. */
	return book_run(book, "PRAGMA defer_foreign_keys = ON", "write", err);
}

enum err_code
book_touch(struct book *book, enum book_table table, struct err *err)
{
	if (book->before[table] != BOOK_UNTOUCHED)
		return ERR_NONE;
	return book_one_number(
		book, book_schemas[table].next_id, &book->before[table], err);
}

enum err_code
book_begin(struct book *book, int64_t at_utc_s, const char *who,
	const char *what, const char *submission, struct err *err)
{
	enum err_code code;

	TRY(begin_write(book, at_utc_s, who, what, submission, err));
	code = book_note_state(book, err);
	if (code != ERR_NONE)
		book_rollback(book);
	return code;
}

static enum err_code
last_chain(struct book *book, unsigned char chain[BOOK_DIGEST], struct err *err)
{
	sqlite3_stmt *s = NULL;
	int rc;

	memset(chain, 0, BOOK_DIGEST);
	TRY(book_prepare(book,
		"SELECT chain_digest FROM history ORDER BY id DESC LIMIT 1", &s,
		err));
	rc = sqlite3_step(s);
	if (rc == SQLITE_ROW && sqlite3_column_bytes(s, 0) == BOOK_DIGEST)
		memcpy(chain, sqlite3_column_blob(s, 0), BOOK_DIGEST);
	(void)sqlite3_finalize(s);
	return rc == SQLITE_ROW || rc == SQLITE_DONE
		? ERR_NONE
		: book_fault(book, "read", err);
}

enum err_code
book_add_entry(struct book *book, const char *detail, struct err *err)
{
	static const char sql[] =
		"INSERT INTO history (id, at, who, what, detail, submission, "
		"rows_digest, chain_digest) VALUES (?, ?, ?, ?, ?, ?, ?, ?)";
	unsigned char previous[BOOK_DIGEST], rows[BOOK_DIGEST],
		chain[BOOK_DIGEST];
	char at[DATE_TEXT_MAX];
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;

	TRY(last_chain(book, previous, err));
	TRY(book_digest_rows(book, rows, err));
	date_write(book->at_utc_s, at);
	book_chain(previous, book->history_id, at, book->who, book->what,
		detail, book->submission, rows, chain);
	TRY(book_prepare(book, sql, &s, err));
	(void)sqlite3_bind_int64(s, 1, book->history_id);
	(void)sqlite3_bind_text(s, 2, at, -1, SQLITE_STATIC);
	(void)sqlite3_bind_text(s, 3, book->who, -1, SQLITE_STATIC);
	(void)sqlite3_bind_text(s, 4, book->what, -1, SQLITE_STATIC);
	(void)sqlite3_bind_text(s, 5, detail, -1, SQLITE_STATIC);
	if (book->submission != NULL)
		(void)sqlite3_bind_text(
			s, 6, book->submission, -1, SQLITE_STATIC);
	(void)sqlite3_bind_blob(s, 7, rows, BOOK_DIGEST, SQLITE_STATIC);
	(void)sqlite3_bind_blob(s, 8, chain, BOOK_DIGEST, SQLITE_STATIC);
	if (sqlite3_step(s) != SQLITE_DONE) {
		if (sqlite3_extended_errcode(book->db) ==
			SQLITE_CONSTRAINT_UNIQUE)
			code = err_report(err, ERR_CONFLICT, "submission",
				"This was already recorded; it is not recorded "
				"twice.");
		else
			code = book_fault(book, "write", err);
	}
	(void)sqlite3_finalize(s);
	return code;
}

enum err_code
book_commit(struct book *book, const char *detail, int64_t *history_id,
	struct err *err)
{
	enum err_code code = ERR_NONE;

	if (book->n_added == 0) {
		book_rollback(book);
		if (history_id != NULL)
			*history_id = 0;
		return ERR_NONE;
	}
	code = book_add_entry(book, detail, err);
	if (code == ERR_NONE)
		code = book_run(book, "COMMIT", "write", err);
	if (code != ERR_NONE) {
		book_rollback(book);
		return code;
	}
	book->in_write = false;
	if (history_id != NULL)
		*history_id = book->history_id;
	return ERR_NONE;
}

void
book_rollback(struct book *book)
{
	if (!book->in_write)
		return;
	for (size_t t = 0; t < BOOK_N_TABLE; t++)
		if (book->insert[t] != NULL)
			(void)sqlite3_reset(book->insert[t]);
	(void)sqlite3_exec(book->db, "ROLLBACK", NULL, NULL, NULL);
	book->in_write = false;
}

enum err_code
book_read_begin(struct book *book, struct err *err)
{
	if (book->in_write)
		return ERR_NONE;
	if (book->n_read == 0)
		TRY(book_run(book, "BEGIN", "read", err));
	book->n_read++;
	return ERR_NONE;
}

void
book_read_end(struct book *book)
{
	if (book->n_read == 0 || --book->n_read > 0)
		return;
	(void)sqlite3_exec(book->db, "ROLLBACK", NULL, NULL, NULL);
}

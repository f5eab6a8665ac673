/* book.c - the record file opened, checked, written whole or not at all. */
#include "book/book_priv.h"

#include "book/migration.h"
#include "core/date.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Our own mark in byte 68 of the file: "Fwrt". */
enum { APPLICATION_ID = 0x46777274, BUSY_MS = 5000 };

/* Places in the head of an SQLite file (SQLite, "Database File Format", 1.3).
 */
enum {
	HEAD = 100, AT_PAGE_SIZE = 16, AT_JOURNAL = 18, AT_PAGES = 28, AT_USER_VERSION = 60,
	AT_APPLICATION_ID = 68
};

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
			doing);
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
		return err_report(err, ERR_INPUT, "book",
			"The book refuses a value: %s. Nothing was changed.",
			sqlite3_errmsg(book->db));
	default:
		return err_report(err, ERR_SYSTEM, "book",
			"The book could not be %s: %s. Nothing was changed.",
			strcmp(doing, "write") == 0 ? "written" : "read",
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

static enum err_code
run(struct book *book, const char *sql, const char *doing, struct err *err)
{
	if (sqlite3_exec(book->db, sql, NULL, NULL, NULL) != SQLITE_OK)
		return book_fault(book, doing, err);
	return ERR_NONE;
}

/* ---- before SQLite sees the file ---- */

static uint32_t
big_endian(const unsigned char *at, size_t n)
{
	uint32_t value = 0;

	for (size_t i = 0; i < n; i++)
		value = value << 8 | at[i];
	return value;
}

static enum err_code
not_a_book(const char *path, const char *what, struct err *err)
{
	return err_report(err, ERR_NOT_A_BOOK, "book",
		"%s is %s, not a book of Foamwright. Name a file that "
		"\"foamwright new\" made.",
		path, what);
}

static bool
has_journal(const char *path)
{
	static const char suffix[] = "-journal";
	char name[PATH_MAX];
	size_t n = strlen(path);

	if (n + sizeof suffix > sizeof name)
		return false;
	memcpy(name, path, n);
	memcpy(name + n, suffix, sizeof suffix);
	return access(name, F_OK) == 0;
}

static enum err_code
check_head(const char *path, const unsigned char head[HEAD], off_t size,
	struct err *err)
{
	uint64_t page = big_endian(head + AT_PAGE_SIZE, 2);
	uint64_t pages = big_endian(head + AT_PAGES, 4);
	uint32_t version = big_endian(head + AT_USER_VERSION, 4);

	if (memcmp(head, "SQLite format 3", 16) != 0)
		return not_a_book(path, "some other kind of file", err);
	if (big_endian(head + AT_APPLICATION_ID, 4) != APPLICATION_ID)
		return not_a_book(path, "another program's database", err);
	if (version > (uint32_t)book_n_migration)
		return err_report(err, ERR_NEWER_BOOK, "book",
			"%s was written by a newer Foamwright (book version "
			"%u; this one knows up to %d). Use the newer program; "
			"the book was not touched.",
			path, (unsigned)version, book_n_migration);
	if (page == 1)
		page = 65536;
	if (head[AT_JOURNAL] != 1 || head[AT_JOURNAL + 1] != 1)
		return not_a_book(path, "a database in a mode that loses rows "
			"when it is copied", err);
	/* After a kill in mid-write SQLite puts the file right by its journal;
	 * only without one is a short file a damaged one. */
	if ((uint64_t)size < page * pages && !has_journal(path))
		return err_report(err, ERR_DAMAGED, "book",
			"%s is cut short: it should have %llu bytes and has "
			"%lld. Use an earlier copy.",
			path, (unsigned long long)(page * pages),
			(long long)size);
	return ERR_NONE;
}

static enum err_code
cannot_open(const char *path, struct err *err)
{
	if (errno == ENOENT || errno == ENOTDIR)
		return err_report(err, ERR_NOT_FOUND, "book",
			"There is no file %s. Make a book with \"foamwright "
			"new %s\".",
			path, path);
	if (errno == ELOOP)
		return err_report(err, ERR_NOT_A_BOOK, "book",
			"%s is a link, and books are not opened through links. "
			"Name the file itself.",
			path);
	return err_report(err, ERR_SYSTEM, "book", "%s cannot be opened: %s.",
		path, strerror(errno));
}

static enum err_code
check_file(const char *path, struct err *err)
{
	unsigned char head[HEAD];
	struct stat status;
	enum err_code code = ERR_NONE;
	ssize_t n;
	int fd = open(path, O_RDONLY | O_CLOEXEC | O_NOFOLLOW | O_NONBLOCK);

	if (fd < 0)
		return cannot_open(path, err);
	if (fstat(fd, &status) != 0)
		code = cannot_open(path, err);
	else if (S_ISDIR(status.st_mode))
		code = not_a_book(path, "a folder", err);
	else if (!S_ISREG(status.st_mode))
		code = not_a_book(path, "a device or a pipe", err);
	if (code == ERR_NONE) {
		n = read(fd, head, sizeof head);
		if (n == 0)
			code = not_a_book(path, "an empty file", err);
		else if (n < (ssize_t)sizeof head)
			code = not_a_book(path, "some other kind of file", err);
		else
			code = check_head(path, head, status.st_size, err);
	}
	(void)close(fd);
	return code;
}

/* ---- opening ---- */

static enum err_code
settle(struct book *book, struct err *err)
{
	static const char pragmas[] =
		"PRAGMA trusted_schema = OFF;"
		"PRAGMA cell_size_check = ON;"
		"PRAGMA mmap_size = 0;"
		"PRAGMA temp_store = MEMORY;"
		"PRAGMA foreign_keys = ON;"
		"PRAGMA synchronous = EXTRA;";

	(void)sqlite3_extended_result_codes(book->db, 1);
	(void)sqlite3_busy_timeout(book->db, BUSY_MS);
	(void)sqlite3_db_config(book->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
	(void)sqlite3_db_config(book->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0,
		NULL);
	(void)sqlite3_db_config(book->db, SQLITE_DBCONFIG_ENABLE_VIEW, 0, NULL);
	TRY(run(book, pragmas, "read", err));
	if (book->access == BOOK_WRITE)
		TRY(run(book, "PRAGMA journal_mode = DELETE", "write", err));
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
	if (sqlite3_open_v2(path, &got->db, flags, NULL) != SQLITE_OK)
		code = book_fault(got, "read", err);
	else
		code = settle(got, err);
	if (code != ERR_NONE)
		book_close(got);
	else
		*book = got;
	return code;
}

static enum err_code
apply_migrations(struct book *book, int from, struct err *err)
{
	static const char *const versions[] = {"PRAGMA user_version = 0",
		"PRAGMA user_version = 1"};

	for (int v = from; v < book_n_migration; v++) {
		TRY(run(book, book_migrations[v], "write", err));
		TRY(run(book, versions[v + 1], "write", err));
	}
	return ERR_NONE;
}

static const char schema_sql[] =
	"SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema "
	"ORDER BY type, name";

static bool
same_row(sqlite3_stmt *a, sqlite3_stmt *b)
{
	for (int i = 0; i < 4; i++) {
		const char *x = (const char *)sqlite3_column_text(a, i);
		const char *y = (const char *)sqlite3_column_text(b, i);

		if (x == NULL || y == NULL || strcmp(x, y) != 0)
			return false;
	}
	return true;
}

/* The gate: not a trigger, view or column more or less than ours. */
static enum err_code
check_schema(struct book *book, struct err *err)
{
	struct book model = {.access = BOOK_WRITE};
	sqlite3_stmt *ours = NULL, *theirs = NULL;
	enum err_code code;
	bool same = true;

	if (sqlite3_open(":memory:", &model.db) != SQLITE_OK)
		code = book_fault(&model, "read", err);
	else
		code = apply_migrations(&model, 0, err);
	if (code == ERR_NONE)
		code = book_prepare(&model, schema_sql, &ours, err);
	if (code == ERR_NONE)
		code = book_prepare(book, schema_sql, &theirs, err);
	while (code == ERR_NONE && same) {
		int a = sqlite3_step(ours), b = sqlite3_step(theirs);

		if (b != SQLITE_ROW && b != SQLITE_DONE)
			code = book_fault(book, "read", err);
		else if (a != b)
			same = false;
		else if (a != SQLITE_ROW)
			break;
		else
			same = same_row(ours, theirs);
	}
	(void)sqlite3_finalize(ours);
	(void)sqlite3_finalize(theirs);
	(void)sqlite3_close(model.db);
	if (code == ERR_NONE && !same)
		code = err_report(err, ERR_NOT_A_BOOK, "book",
			"This file has other tables than a book of this "
			"version: it was made or altered by another program. "
			"Use an earlier copy.");
	return code;
}

enum err_code
book_open(const char *path, enum book_access access, struct book **book,
	struct err *err)
{
	struct book *got = NULL;
	enum err_code code;

	TRY(check_file(path, err));
	if (access == BOOK_READ && has_journal(path)) {
		/* A write was cut off; only a writer may put it right. */
		struct err ignored = {.code = ERR_NONE};

		if (connect_file(path, BOOK_WRITE, &got, &ignored) == ERR_NONE)
			(void)sqlite3_exec(got->db,
				"SELECT count(*) FROM sqlite_schema", NULL,
				NULL, NULL);
		book_close(got);
		got = NULL;
	}
	TRY(connect_file(path, access, &got, err));
	code = check_schema(got, err);
	if (code != ERR_NONE)
		book_close(got);
	else
		*book = got;
	return code;
}

void
book_close(struct book *book)
{
	if (book == NULL)
		return;
	book_rollback(book);
	for (size_t t = 0; t < BOOK_N_TABLE; t++) {
		(void)sqlite3_finalize(book->insert[t]);
		(void)sqlite3_finalize(book->next_id[t]);
		(void)sqlite3_finalize(book->next_revision[t]);
	}
	(void)sqlite3_close(book->db);
	free(book);
}

/* ---- making one ---- */

static enum err_code
fill_new(struct book *book, const struct book_info *info, int64_t at_utc_s,
	const char *who, struct err *err)
{
	struct book_info first = *info;

	TRY(run(book, "PRAGMA application_id = 1182233204; BEGIN IMMEDIATE",
		"write", err));
	TRY(apply_migrations(book, 0, err));
	TRY(run(book, "COMMIT", "write", err));
	TRY(book_begin(book, at_utc_s, who, "new book", NULL, err));
	TRY(book_put_info(book, &first, err));
	return book_commit(book, "", NULL, err);
}

enum err_code
book_create(const char *path, const struct book_info *info, int64_t at_utc_s,
	const char *who, struct book **book, struct err *err)
{
	struct book *got = NULL;
	enum err_code code;
	int fd;

	_Static_assert(APPLICATION_ID == 1182233204, "the PRAGMA above");
	fd = open(path, O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW,
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
	(void)close(fd);
	code = connect_file(path, BOOK_WRITE, &got, err);
	if (code == ERR_NONE)
		code = fill_new(got, info, at_utc_s, who, err);
	if (code != ERR_NONE) {
		book_close(got);
		(void)unlink(path);
		return code;
	}
	*book = got;
	return ERR_NONE;
}

/* ---- one write ---- */

static enum err_code
one_number(struct book *book, const char *sql, int64_t *number, struct err *err)
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

static enum err_code
note_state(struct book *book, struct err *err)
{
	int64_t last;

	TRY(one_number(book, "SELECT coalesce(max(id), 0) FROM history", &last,
		err));
	book->history_id = last + 1;
	for (size_t t = 0; t < BOOK_N_TABLE; t++)
		TRY(one_number(book, book_schemas[t].next_id, &book->before[t],
			err));
	/* The entry comes last but its rows point at it: checked at COMMIT. */
	return run(book, "PRAGMA defer_foreign_keys = ON", "write", err);
}

enum err_code
book_begin(struct book *book, int64_t at_utc_s, const char *who,
	const char *what, const char *submission, struct err *err)
{
	enum err_code code;

	TRY(run(book, "BEGIN IMMEDIATE", "write", err));
	book->in_write = true;
	book->at_utc_s = at_utc_s;
	book->who = who;
	book->what = what;
	book->submission = submission;
	book->n_added = 0;
	code = note_state(book, err);
	if (code != ERR_NONE)
		book_rollback(book);
	return code;
}

static enum err_code
last_chain(struct book *book, unsigned char chain[BOOK_DIGEST],
	struct err *err)
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

static enum err_code
add_entry(struct book *book, const char *detail, struct err *err)
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
		(void)sqlite3_bind_text(s, 6, book->submission, -1,
			SQLITE_STATIC);
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
	code = add_entry(book, detail, err);
	if (code == ERR_NONE)
		code = run(book, "COMMIT", "write", err);
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
	if (book->in_write || book->in_read)
		return ERR_NONE;
	TRY(run(book, "BEGIN", "read", err));
	book->in_read = true;
	return ERR_NONE;
}

void
book_read_end(struct book *book)
{
	if (!book->in_read)
		return;
	(void)sqlite3_exec(book->db, "ROLLBACK", NULL, NULL, NULL);
	book->in_read = false;
}

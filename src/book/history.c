/* history.c - digests of what was written, chained entry to entry.
 *
 * BLAKE2b (RFC 7693) with 32 bytes.  A row is digested as SQLite gives it: a
 * letter for the type of each value, then the value; REAL as its eight bytes,
 * so that a flipped bit shows.  NULLs at the end of a row do not count, so that
 * a column that a migration adds leaves the digests of older rows as they were.
 */
#include "book/book_priv.h"

#include <sodium.h>
#include <string.h>

static void
add_bytes(crypto_generichash_state *state, const void *bytes, size_t n)
{
	uint64_t length = n;

	(void)crypto_generichash_update(
		state, (const void *)&length, sizeof length);
	(void)crypto_generichash_update(state, bytes, n);
}

static void
add_value(crypto_generichash_state *state, sqlite3_stmt *s, int at)
{
	int type = sqlite3_column_type(s, at);
	unsigned char letter = (unsigned char)type;

	add_bytes(state, &letter, 1);
	if (type == SQLITE_INTEGER) {
		int64_t value = sqlite3_column_int64(s, at);

		add_bytes(state, &value, sizeof value);
	} else if (type == SQLITE_FLOAT) {
		double value = sqlite3_column_double(s, at);

		add_bytes(state, &value, sizeof value);
	} else if (type != SQLITE_NULL) {
		const void *bytes = sqlite3_column_blob(s, at);

		add_bytes(state, bytes != NULL ? bytes : "",
			(size_t)sqlite3_column_bytes(s, at));
	}
}

static void
add_row(crypto_generichash_state *state, enum book_table table, sqlite3_stmt *s)
{
	unsigned char mark = (unsigned char)table;
	int64_t n = sqlite3_column_count(s);

	while (n > 0 && sqlite3_column_type(s, (int)n - 1) == SQLITE_NULL)
		n--;
	add_bytes(state, &mark, 1);
	add_bytes(state, &n, sizeof n);
	for (int i = 0; i < n; i++)
		add_value(state, s, i);
}

static void
begin_digest(crypto_generichash_state *state)
{
	(void)crypto_generichash_init(state, NULL, 0, BOOK_DIGEST);
}

enum err_code
book_digest_rows(
	struct book *book, unsigned char digest[BOOK_DIGEST], struct err *err)
{
	crypto_generichash_state state;

	begin_digest(&state);
	for (size_t t = 0; t < BOOK_N_TABLE; t++) {
		sqlite3_stmt *s = NULL;
		int rc;

		if (book->before[t] == BOOK_UNTOUCHED)
			continue;
		TRY(book_prepare(book, book_schemas[t].digest, &s, err));
		(void)sqlite3_bind_int64(s, 1, book->before[t]);
		while ((rc = sqlite3_step(s)) == SQLITE_ROW)
			add_row(&state, (enum book_table)t, s);
		(void)sqlite3_finalize(s);
		if (rc != SQLITE_DONE)
			return book_fault(book, "read", err);
	}
	(void)crypto_generichash_final(&state, digest, BOOK_DIGEST);
	return ERR_NONE;
}

void
book_chain(const unsigned char previous[BOOK_DIGEST], int64_t id,
	const char *at, const char *who, const char *what, const char *detail,
	const char *submission, const unsigned char rows[BOOK_DIGEST],
	unsigned char chain[BOOK_DIGEST])
{
	crypto_generichash_state state;

	begin_digest(&state);
	add_bytes(&state, previous, BOOK_DIGEST);
	add_bytes(&state, &id, sizeof id);
	add_bytes(&state, at, strlen(at));
	add_bytes(&state, who, strlen(who));
	add_bytes(&state, what, strlen(what));
	add_bytes(&state, detail, strlen(detail));
	add_bytes(&state, submission != NULL ? "1" : "0", 1);
	if (submission != NULL)
		add_bytes(&state, submission, strlen(submission));
	add_bytes(&state, rows, BOOK_DIGEST);
	(void)crypto_generichash_final(&state, chain, BOOK_DIGEST);
}

static void
copy_digest(sqlite3_stmt *s, int at, unsigned char to[BOOK_DIGEST])
{
	memset(to, 0, BOOK_DIGEST);
	if (sqlite3_column_bytes(s, at) == BOOK_DIGEST)
		memcpy(to, sqlite3_column_blob(s, at), BOOK_DIGEST);
}

enum err_code
book_all_history(struct book *book, struct arena *arena,
	const struct book_history **row, size_t *n, struct err *err)
{
	static const char sql[] =
		"SELECT id, at, who, what, detail, rows_digest, chain_digest, "
		"(SELECT count(*) FROM history), submission FROM history "
		"ORDER BY id";
	struct book_history *got = NULL;
	sqlite3_stmt *s = NULL;
	size_t count = 0;
	enum err_code code = ERR_NONE;
	int rc;

	TRY(book_prepare(book, sql, &s, err));
	while ((rc = sqlite3_step(s)) == SQLITE_ROW && code == ERR_NONE) {
		struct book_history *h;

		if (got == NULL)
			got = arena_take(arena,
				(size_t)sqlite3_column_int64(s, 7),
				sizeof *got);
		if (got == NULL) {
			code = err_memory(err);
			break;
		}
		h = &got[count++];
		h->id = sqlite3_column_int64(s, 0);
		h->at = arena_text(
			arena, (const char *)sqlite3_column_text(s, 1));
		h->who = arena_text(
			arena, (const char *)sqlite3_column_text(s, 2));
		h->what = arena_text(
			arena, (const char *)sqlite3_column_text(s, 3));
		h->detail = arena_text(
			arena, (const char *)sqlite3_column_text(s, 4));
		if (sqlite3_column_type(s, 8) != SQLITE_NULL)
			h->submission = arena_text(
				arena, (const char *)sqlite3_column_text(s, 8));
		copy_digest(s, 5, h->rows_digest);
		copy_digest(s, 6, h->chain_digest);
		if (h->at == NULL || h->who == NULL || h->what == NULL ||
			h->detail == NULL)
			code = err_memory(err);
	}
	if (code == ERR_NONE && rc != SQLITE_DONE && rc != SQLITE_ROW)
		code = book_fault(book, "read", err);
	(void)sqlite3_finalize(s);
	if (code == ERR_NONE) {
		*row = got;
		*n = count;
	}
	return code;
}

/* Cursors over every table at once: rows of one entry stand together in each,
 * so one pass serves all entries. */
struct cursors {
	sqlite3_stmt *s[BOOK_N_TABLE];
	int history_column[BOOK_N_TABLE];
	int rc[BOOK_N_TABLE];
};

static enum err_code
open_cursors(struct book *book, struct cursors *c, struct err *err)
{
	for (size_t t = 0; t < BOOK_N_TABLE; t++) {
		TRY(book_prepare(book, book_schemas[t].digest, &c->s[t], err));
		(void)sqlite3_bind_int64(c->s[t], 1, INT64_MIN);
		for (int i = 0; i < sqlite3_column_count(c->s[t]); i++)
			if (strcmp(sqlite3_column_name(c->s[t], i),
				    "history_id") == 0)
				c->history_column[t] = i;
		c->rc[t] = sqlite3_step(c->s[t]);
	}
	return ERR_NONE;
}

static enum err_code
damaged_entry(const struct book_history *h, struct err *err)
{
	return err_report(err, ERR_DAMAGED, "history",
		"The book was altered or damaged: what entry %lld (%s, %s) "
		"wrote is no longer as it was written. Use an earlier copy of "
		"the book, or show this one to whoever altered it.",
		(long long)h->id, h->at, h->what);
}

static enum err_code
verify_entry(struct book *book, struct cursors *c, const struct book_history *h,
	struct err *err)
{
	crypto_generichash_state state;
	unsigned char digest[BOOK_DIGEST];

	begin_digest(&state);
	for (size_t t = 0; t < BOOK_N_TABLE; t++) {
		while (c->rc[t] == SQLITE_ROW &&
			sqlite3_column_int64(c->s[t], c->history_column[t]) ==
				h->id) {
			add_row(&state, (enum book_table)t, c->s[t]);
			c->rc[t] = sqlite3_step(c->s[t]);
		}
		if (c->rc[t] != SQLITE_ROW && c->rc[t] != SQLITE_DONE)
			return book_fault(book, "read", err);
	}
	(void)crypto_generichash_final(&state, digest, BOOK_DIGEST);
	if (memcmp(digest, h->rows_digest, BOOK_DIGEST) != 0)
		return damaged_entry(h, err);
	return ERR_NONE;
}

static enum err_code
verify_all(struct book *book, struct cursors *c, const struct book_history *h,
	size_t n, struct err *err)
{
	unsigned char previous[BOOK_DIGEST] = {0}, chain[BOOK_DIGEST];

	for (size_t i = 0; i < n; i++) {
		book_chain(previous, h[i].id, h[i].at, h[i].who, h[i].what,
			h[i].detail, h[i].submission, h[i].rows_digest, chain);
		if (memcmp(chain, h[i].chain_digest, BOOK_DIGEST) != 0)
			return damaged_entry(&h[i], err);
		TRY(verify_entry(book, c, &h[i], err));
		memcpy(previous, chain, BOOK_DIGEST);
	}
	for (size_t t = 0; t < BOOK_N_TABLE; t++)
		if (c->rc[t] == SQLITE_ROW)
			return err_report(err, ERR_DAMAGED, "history",
				"The book was altered or damaged: it holds "
				"rows that no entry of its history wrote. Use "
				"an earlier copy.");
	return ERR_NONE;
}

static enum err_code
check_integrity(struct book *book, struct err *err)
{
	sqlite3_stmt *s = NULL;
	bool sound;

	TRY(book_prepare(book, "PRAGMA integrity_check(1)", &s, err));
	sound = sqlite3_step(s) == SQLITE_ROW &&
		strcmp((const char *)sqlite3_column_text(s, 0), "ok") == 0;
	(void)sqlite3_finalize(s);
	if (!sound)
		return err_report(err, ERR_DAMAGED, "book",
			"The book is damaged: its pages do not fit together. "
			"Use an earlier copy of it.");
	return ERR_NONE;
}

enum err_code
book_verify(struct book *book, struct arena *arena, size_t *n_entry,
	struct err *err)
{
	const struct book_history *history = NULL;
	struct cursors c = {0};
	enum err_code code;
	size_t n = 0;

	TRY(book_read_begin(book, err));
	/* What is read goes through indices, which no digest covers. */
	TRY(check_integrity(book, err));
	code = book_all_history(book, arena, &history, &n, err);
	if (code == ERR_NONE)
		code = open_cursors(book, &c, err);
	if (code == ERR_NONE)
		code = verify_all(book, &c, history, n, err);
	for (size_t t = 0; t < BOOK_N_TABLE; t++)
		(void)sqlite3_finalize(c.s[t]);
	book_read_end(book);
	if (code == ERR_NONE)
		*n_entry = n;
	return code;
}

enum err_code
book_state(struct book *book, int64_t *last, struct err *err)
{
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;

	TRY(book_prepare(
		book, "SELECT coalesce(max(id), 0) FROM history", &s, err));
	if (sqlite3_step(s) == SQLITE_ROW)
		*last = sqlite3_column_int64(s, 0);
	else
		code = book_fault(book, "read", err);
	(void)sqlite3_finalize(s);
	return code;
}

enum err_code
book_submitted(struct book *book, struct arena *arena, const char *key,
	const char **submission, struct err *err)
{
	sqlite3_stmt *s = NULL;
	enum err_code code = ERR_NONE;
	int rc;

	TRY(book_prepare(book,
		"SELECT submission FROM history WHERE submission = ?1 OR "
		"(submission > ?1 || ' ' AND submission < ?1 || '!') LIMIT 1",
		&s, err));
	(void)sqlite3_bind_text(s, 1, key, -1, SQLITE_STATIC);
	*submission = NULL;
	rc = sqlite3_step(s);
	if (rc == SQLITE_ROW) {
		*submission = arena_text(
			arena, (const char *)sqlite3_column_text(s, 0));
		if (*submission == NULL)
			code = err_memory(err);
	} else if (rc != SQLITE_DONE) {
		code = book_fault(book, "read", err);
	}
	(void)sqlite3_finalize(s);
	return code;
}

/* file_pieces.c - files kept byte for byte, in pieces, under their checksum. */
#include "book/book_priv.h"

#include <sodium.h>
#include <string.h>

enum { PIECE = 1 << 18 };

static void
write_code(crypto_generichash_state *state, char code[BOOK_FILE_CODE + 1])
{
	unsigned char digest[BOOK_DIGEST];

	(void)crypto_generichash_final(state, digest, sizeof digest);
	(void)sodium_bin2hex(code, BOOK_FILE_CODE + 1, digest, sizeof digest);
}

/* As many bytes as there is room, unless it ends before. */
static enum err_code
fill_piece(const struct book_source *source, char piece[PIECE], size_t *n,
	struct err *err)
{
	size_t got = 1;

	for (*n = 0; *n < PIECE && got > 0; *n += got)
		TRY(source->read(
			source->context, piece + *n, PIECE - *n, &got, err));
	return ERR_NONE;
}

enum err_code
book_checksum(const struct book_source *source, char code[BOOK_FILE_CODE + 1],
	int64_t *bytes, struct err *err)
{
	crypto_generichash_state state;
	static _Thread_local char piece[PIECE];
	size_t n = PIECE;

	TRY(source->rewind(source->context, err));
	(void)crypto_generichash_init(&state, NULL, 0, BOOK_DIGEST);
	for (*bytes = 0; n == PIECE; *bytes += (int64_t)n) {
		TRY(fill_piece(source, piece, &n, err));
		(void)crypto_generichash_update(&state, (const void *)piece, n);
		if (*bytes > BOOK_FILE_MOST)
			return err_report(err, ERR_INPUT, "file",
				"The file is larger than the %d MiB that are "
				"kept; cut it or let the logger write more "
				"rarely.",
				BOOK_FILE_MOST >> 20);
	}
	write_code(&state, code);
	return ERR_NONE;
}

static enum err_code
put_piece(struct book *book, sqlite3_stmt *s, int64_t file_id, int64_t place,
	const char *bytes, size_t n, struct err *err)
{
	int64_t id = 0;

	TRY(book_one_number(
		book, book_schemas[BOOK_FILE_PIECE].next_id, &id, err));
	(void)sqlite3_reset(s);
	(void)sqlite3_bind_int64(s, 1, id + 1);
	(void)sqlite3_bind_int64(s, 2, book->history_id);
	(void)sqlite3_bind_int64(s, 3, file_id);
	(void)sqlite3_bind_int64(s, 4, place);
	(void)sqlite3_bind_blob64(s, 5, bytes, n, SQLITE_STATIC);
	return sqlite3_step(s) == SQLITE_DONE ? ERR_NONE
					      : book_fault(book, "write", err);
}

static enum err_code
put_pieces(struct book *book, int64_t file_id, const struct book_source *source,
	struct err *err)
{
	static _Thread_local char piece[PIECE];
	enum err_code code = ERR_NONE;
	sqlite3_stmt *s = NULL;
	size_t n = PIECE;

	TRY(book_touch(book, BOOK_FILE_PIECE, err));
	TRY(source->rewind(source->context, err));
	TRY(book_prepare(book, book_schemas[BOOK_FILE_PIECE].insert, &s, err));
	for (int64_t place = 1; code == ERR_NONE && n == PIECE; place++) {
		code = fill_piece(source, piece, &n, err);
		if (code == ERR_NONE && n > 0)
			code = put_piece(
				book, s, file_id, place, piece, n, err);
	}
	(void)sqlite3_finalize(s);
	return code;
}

/* The identity of a file that has pieces already, withdrawn or not; 0: none. */
static enum err_code
find_kept(struct book *book, const char *code, int64_t *id, struct err *err)
{
	static const char sql[] =
		"SELECT origin FROM file AS f WHERE code = ? AND (bytes = 0 OR "
		"EXISTS (SELECT 1 FROM file_piece WHERE file_id = f.origin)) "
		"LIMIT 1";
	sqlite3_stmt *s = NULL;
	int rc;

	TRY(book_prepare(book, sql, &s, err));
	(void)sqlite3_bind_text(s, 1, code, -1, SQLITE_STATIC);
	rc = sqlite3_step(s);
	*id = rc == SQLITE_ROW ? sqlite3_column_int64(s, 0) : 0;
	(void)sqlite3_finalize(s);
	return rc == SQLITE_ROW || rc == SQLITE_DONE
		? ERR_NONE
		: book_fault(book, "read", err);
}

enum err_code
book_keep_file(struct book *book, struct book_file *row,
	const struct book_source *source, struct err *err)
{
	static _Thread_local char code[BOOK_FILE_CODE + 1];
	int64_t kept = 0;

	TRY(book_checksum(source, code, &row->bytes, err));
	TRY(find_kept(book, code, &kept, err));
	row->code = code;
	row->row.id = kept;
	TRY(book_put_file(book, row, err));
	return kept != 0 ? ERR_NONE
			 : put_pieces(book, row->row.id, source, err);
}

enum err_code
book_read_file(struct book *book, const struct book_file *file,
	book_take_bytes take, void *context, struct err *err)
{
	static const char sql[] =
		"SELECT bytes FROM file_piece WHERE file_id = ? "
		"ORDER BY place";
	crypto_generichash_state state;
	enum err_code code = ERR_NONE;
	char sum[BOOK_FILE_CODE + 1];
	sqlite3_stmt *s = NULL;
	int rc = SQLITE_DONE;

	(void)crypto_generichash_init(&state, NULL, 0, BOOK_DIGEST);
	TRY(book_prepare(book, sql, &s, err));
	(void)sqlite3_bind_int64(s, 1, file->row.id);
	while (code == ERR_NONE && (rc = sqlite3_step(s)) == SQLITE_ROW) {
		const void *bytes = sqlite3_column_blob(s, 0);
		size_t n = (size_t)sqlite3_column_bytes(s, 0);

		(void)crypto_generichash_update(&state, bytes, n);
		code = take(context, bytes, n, err);
	}
	(void)sqlite3_finalize(s);
	if (code != ERR_NONE)
		return code;
	if (rc != SQLITE_DONE)
		return book_fault(book, "read", err);
	write_code(&state, sum);
	if (strcmp(sum, file->code) != 0)
		return err_report(err, ERR_DAMAGED, "file",
			"The bytes of \"%.60s\" are not those that were kept. "
			"Use an earlier copy of the book.",
			file->name);
	return ERR_NONE;
}

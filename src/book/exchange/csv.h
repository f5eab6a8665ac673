/* csv.h - a CSV file as a table of cells that know their line and column.
 *
 * RFC 4180 by libcsv; the delimiter (comma or semicolon) is found from the
 * heading, a byte order mark is dropped, rows without any text are left out.
 * A heading may carry a unit: "span [mm]". */
#ifndef BOOK_EXCHANGE_CSV_H
#define BOOK_EXCHANGE_CSV_H

#include "core/arena.h"
#include "core/err.h"

#include <stdbool.h>
#include <stddef.h>

enum {
	CSV_BYTES_MOST = 512 * 1024 * 1024,
	CSV_COLUMNS_MOST = 200,
	CSV_CELL_MOST = 64 * 1024
};

struct csv_table {
	const char *file; /* name without the folder */
	size_t n_row, n_column;
	const char **heading; /* name without the unit */
	const char **unit;    /* "" where the heading has none */
	const char **cell;    /* n_row * n_column; trimmed, never NULL */
	size_t *line;         /* of each row, counted from 1 */
	bool decimal_comma;   /* cells are separated by semicolons */
};

/* csv_read(arena, folder, file, table, is_there, err):
 * *is_there is false, with ERR_NONE, where there is no such file.
 * ERR_INPUT  not UTF-8, a zero byte, an open quote, a row with more cells than
 *            the heading, too many columns, too long a cell: field is
 *            "FILE:LINE"
 * ERR_SYSTEM the file cannot be read, or is a folder */
enum err_code csv_read(struct arena *arena, const char *folder,
	const char *file, struct csv_table *table, bool *is_there,
	struct err *err) MUST_CHECK;

/* csv_read_bytes(arena, file, bytes, n, table, err): the same of a file that is
 * in memory, such as one sent to a page. */
enum err_code csv_read_bytes(struct arena *arena, const char *file,
	const char *bytes, size_t n, struct csv_table *table,
	struct err *err) MUST_CHECK;

/* csv_list(arena, folder, file, n, err): the names in the folder that end in
 * .csv, in no order.  ERR_SYSTEM the folder cannot be read. */
enum err_code csv_list(struct arena *arena, const char *folder,
	const char *const **file, size_t *n, struct err *err) MUST_CHECK;

#endif /* BOOK_EXCHANGE_CSV_H */

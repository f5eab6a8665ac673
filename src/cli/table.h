/* table.h - text tables: columns as wide as they need, figures to the right,
 * no line wider than the screen. */
#ifndef CLI_TABLE_H
#define CLI_TABLE_H

#include "core/arena.h"
#include "core/text.h"

#include <stdio.h>

enum { TABLE_COLUMNS_MOST = 12 };

/* How the last cell of a row is coloured, where colour is shown at all. */
enum tint { TINT_NONE, TINT_GOOD, TINT_BAD, TINT_DOUBT };

struct table {
	struct arena *arena;
	const char *const *heading; /* '\n' begins a second line */
	size_t n_column, n_row, room;
	unsigned right; /* bit k: column k is set to the right; the last
			 * column never is, for it is folded */
	const char **cell;
	enum tint *tint; /* one a row */
};

/* table_start(table, arena, heading, n_column, right) */
void table_start(struct table *table, struct arena *arena,
	const char *const *heading, size_t n_column, unsigned right);

/* table_row(table, cells...): n_column texts; NULL shows as "".
 * table_row_tinted: the same with a tint. */
void table_row(struct table *table, const char *const *cell);
void table_row_tinted(
	struct table *table, const char *const *cell, enum tint tint);

/* table_print(table, to): no line passes terminal_width(to): the last column is
 * folded, then whichever is widest; control characters are shown as \xNN. */
void table_print(const struct table *table, FILE *to);

/* table_flat_heading(table, column): a heading on one line. */
const char *table_flat_heading(const struct table *table, size_t column);

/* table_csv(table, csv): the same as CSV, headings on one line, "-" as an empty
 * field.  table_show: as CSV where --csv was given, as a table otherwise. */
void table_csv(const struct table *table, struct text *csv);
struct invocation;
void table_show(
	const struct invocation *in, const struct table *table, FILE *to);

/* print_folded(to, indent, text): a sentence folded at terminal_width(to), the
 * further lines indented as the first; control characters as \xNN. */
void print_folded(FILE *to, int indent, const char *text);

#endif /* CLI_TABLE_H */

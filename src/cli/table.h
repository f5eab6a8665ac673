/* table.h - text tables: columns as wide as they need, figures to the right. */
#ifndef CLI_TABLE_H
#define CLI_TABLE_H

#include "core/arena.h"
#include "core/text.h"

#include <stdio.h>

enum { TABLE_COLUMNS_MOST = 12, TABLE_WIDTH = 80 };

struct table {
	struct arena *arena;
	const char *const *heading;
	size_t n_column, n_row, room;
	unsigned right; /* bit k: column k is set to the right */
	const char **cell;
};

/* table_start(table, arena, heading, n_column, right) */
void table_start(struct table *table, struct arena *arena,
	const char *const *heading, size_t n_column, unsigned right);

/* table_row(table, cells...): n_column texts; NULL shows as "". */
void table_row(struct table *table, const char *const *cell);

/* table_print(table, to): the last column is folded where the line would pass
 * 80 columns; control characters are shown as \xNN. */
void table_print(const struct table *table, FILE *to);

/* print_folded(to, indent, text): a sentence folded at 80 columns. */
void print_folded(FILE *to, int indent, const char *text);

#endif /* CLI_TABLE_H */

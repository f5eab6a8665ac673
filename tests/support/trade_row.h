/* trade_row.h - check values of the trade by the name of their row.
 *
 * tests/data/trade-a.csv and trade-b.csv give for each row the expected value,
 * its unit, how far a right answer may be off (its rounding) and its published
 * source; the test gives the inputs of the row and what was computed, in the
 * row's unit. */
#ifndef TESTS_TRADE_ROW_H
#define TESTS_TRADE_ROW_H

#include "support.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct trade_rows {
	struct support_csv csv;
	size_t id, expected, tolerance;
};

static struct trade_rows
trade_read(struct arena *a, const char *name)
{
	struct trade_rows rows;

	rows.csv = support_csv_read(a, support_path(name));
	rows.id = support_csv_column(&rows.csv, "id");
	rows.expected = support_csv_column(&rows.csv, "expected");
	rows.tolerance = support_csv_column(&rows.csv, "tolerance");
	return rows;
}

/* A tolerance of 0 is a fact of a table: equal but for the last digits of the
 * arithmetic, 1e-12. */
static void
trade_check(const struct trade_rows *rows, const char *id, double got,
	const char *file, int line)
{
	for (size_t i = 1; i < rows->csv.n_row; i++) {
		char **cell = rows->csv.cell[i];

		if (strcmp(cell[rows->id], id) == 0) {
			support_near(got, strtod(cell[rows->expected], NULL),
				1e-12, strtod(cell[rows->tolerance], NULL), id,
				file, line);
			return;
		}
	}
	print_error("no row %s\n", id);
	fail();
}

#define assert_row(rows, id, got) \
	trade_check((rows), (id), (got), __FILE__, __LINE__)

#endif /* TESTS_TRADE_ROW_H */

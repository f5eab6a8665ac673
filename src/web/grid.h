/* grid.h - one table of an answer: shown on a page, and given as CSV and JSON
 * with every digit. */
#ifndef WEB_GRID_H
#define WEB_GRID_H

#include "core/arena.h"
#include "core/err.h"
#include "core/jsonout.h"
#include "core/text.h"

#include <stdbool.h>
#include <stddef.h>

struct grid_column {
	const char *key;     /* of JSON, "ratio" */
	const char *heading; /* in the reader's language */
	const char *unit;    /* of the cells' numbers as shown; "" if none */
	bool is_number;      /* set to the right */
};

struct grid_cell {
	const char *text; /* as shown */
	double number;    /* in the column's unit */
	bool has_number;
	const char *address; /* where it leads; NULL */
	const char *picture; /* a small one above the text; NULL */
};

struct grid {
	struct arena *arena; /* borrowed */
	const char *key;     /* names it in JSON and in ?table= */
	const char *caption;
	const struct grid_column *column; /* borrowed */
	size_t n_column;
	struct grid_cell *cell; /* row after row */
	size_t n_cell, room;
	bool failed; /* memory ran out */
};

/* grid_start(grid, arena, key, caption, column, n): no rows yet. */
void grid_start(struct grid *grid, struct arena *arena, const char *key,
	const char *caption, const struct grid_column *column, size_t n_column);

/* The next cell, left to right, row after row.  grid_text NULL, grid_number of
 * what is not finite: shown as "-", empty in CSV, null in JSON. */
void grid_text(struct grid *grid, const char *text);
void grid_number(struct grid *grid, double number, const char *shown);
void grid_link(struct grid *grid, const char *text, const char *address);
void grid_pictured(struct grid *grid, const char *text, const char *picture);

size_t grid_rows(const struct grid *grid);

/* grid_csv: RFC 4180, CRLF, units in the headings, texts as csvout_text.  grid_json: an array of
 * one object a row. */
void grid_csv(const struct grid *grid, struct text *csv);
void grid_json(const struct grid *grid, struct jsonout *json);

#endif /* WEB_GRID_H */

/* grid.c - tables, and their twins. */
#include "web/grid.h"

#include "core/csvout.h"

#include <math.h>
#include <string.h>

void
grid_start(struct grid *grid, struct arena *arena, const char *key,
	const char *caption, const struct grid_column *column, size_t n_column)
{
	*grid = (struct grid){.arena = arena,
		.key = key,
		.caption = caption,
		.column = column,
		.n_column = n_column};
}

static void
add(struct grid *grid, struct grid_cell cell)
{
	if (grid->n_cell == grid->room) {
		size_t room = grid->room > 0 ? 2 * grid->room
					     : 16 * grid->n_column;
		struct grid_cell *more = arena_take(
			grid->arena, room, sizeof *more);

		if (more == NULL) {
			grid->failed = true;
			return;
		}
		if (grid->n_cell > 0)
			memcpy(more, grid->cell, grid->n_cell * sizeof *more);
		grid->cell = more;
		grid->room = room;
	}
	grid->cell[grid->n_cell++] = cell;
}

void
grid_text(struct grid *grid, const char *text)
{
	add(grid, (struct grid_cell){.text = text});
}

void
grid_number(struct grid *grid, double number, const char *shown)
{
	bool has = isfinite(number);

	add(grid,
		(struct grid_cell){.text = has ? shown : NULL,
			.number = has ? number : 0,
			.has_number = has});
}

void
grid_link(struct grid *grid, const char *text, const char *address)
{
	add(grid, (struct grid_cell){.text = text, .address = address});
}

void
grid_pictured(struct grid *grid, const char *text, const char *picture)
{
	add(grid, (struct grid_cell){.text = text, .picture = picture});
}

size_t
grid_rows(const struct grid *grid)
{
	return grid->n_column > 0 ? grid->n_cell / grid->n_column : 0;
}

static void
add_heading(
	struct text *csv, const struct grid_column *column, struct arena *arena)
{
	const char *whole = column->unit[0] != '\0'
		? text_format(arena, "%s (%s)", column->heading, column->unit)
		: column->heading;

	csvout_text(csv, whole != NULL ? whole : column->heading);
}

void
grid_csv(const struct grid *grid, struct text *csv)
{
	for (size_t i = 0; i < grid->n_column; i++) {
		if (i > 0)
			text_add_char(csv, ',');
		add_heading(csv, &grid->column[i], grid->arena);
	}
	text_add(csv, "\r\n");
	for (size_t i = 0; i < grid->n_cell; i++) {
		const struct grid_cell *cell = &grid->cell[i];

		if (cell->has_number)
			text_addf(csv, "%.17g", cell->number);
		else if (cell->text != NULL)
			csvout_text(csv, cell->text);
		text_add(csv, (i + 1) % grid->n_column == 0 ? "\r\n" : ",");
	}
}

void
grid_json(const struct grid *grid, struct jsonout *json)
{
	jsonout_open_array(json);
	for (size_t i = 0; i < grid->n_cell; i++) {
		const struct grid_cell *cell = &grid->cell[i];
		size_t column = i % grid->n_column;

		if (column == 0)
			jsonout_open_object(json);
		jsonout_key(json, grid->column[column].key);
		if (cell->has_number)
			jsonout_number(json, cell->number);
		else if (cell->text != NULL)
			jsonout_string(json, cell->text);
		else
			jsonout_null(json);
		if (column + 1 == grid->n_column)
			jsonout_close_object(json);
	}
	jsonout_close_array(json);
}

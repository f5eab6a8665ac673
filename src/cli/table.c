/* table.c - text tables within 80 columns. */
#include "cli/table.h"

#include <string.h>

void
table_start(struct table *table, struct arena *arena,
	const char *const *heading, size_t n_column, unsigned right)
{
	*table = (struct table){.arena = arena,
		.heading = heading,
		.n_column = n_column,
		.right = right};
}

void
table_row(struct table *table, const char *const *cell)
{
	if (table->n_row == table->room) {
		size_t room = table->room == 0 ? 32 : 2 * table->room;
		const char **all = arena_take(
			table->arena, room * table->n_column, sizeof *all);

		if (all == NULL)
			return;
		if (table->n_row > 0)
			memcpy(all, table->cell,
				table->n_row * table->n_column * sizeof *all);
		table->cell = all;
		table->room = room;
	}
	for (size_t i = 0; i < table->n_column; i++) {
		struct text shown;

		text_init(&shown, table->arena);
		text_add_shown(&shown, cell[i] != NULL ? cell[i] : "");
		table->cell[table->n_row * table->n_column + i] =
			text_failed(&shown) ? "" : shown.bytes;
	}
	table->n_row++;
}

/* Words of text from *at that fit into `room` columns. */
static size_t
fitting(const char *at, size_t room)
{
	size_t best = 0, n = strlen(at);

	for (size_t i = 1; i <= n; i++) {
		char part[256];

		if (at[i] != ' ' && at[i] != '\0')
			continue;
		if (i >= sizeof part)
			break;
		memcpy(part, at, i);
		part[i] = '\0';
		if (text_columns(part) > room && best > 0)
			break;
		best = i;
		if (text_columns(part) > room)
			break;
	}
	return best > 0 ? best : n;
}

static void
fold_from(FILE *to, size_t column, const char *text)
{
	size_t room = column + 12 < TABLE_WIDTH ? TABLE_WIDTH - column : 12;

	for (bool first = true; *text != '\0' || first; first = false) {
		size_t n = fitting(text, room);

		if (!first)
			(void)fprintf(to, "%*s", (int)column, "");
		(void)fprintf(to, "%.*s\n", (int)n, text);
		text += n;
		while (*text == ' ')
			text++;
	}
}

void
print_folded(FILE *to, int indent, const char *text)
{
	(void)fprintf(to, "%*s", indent, "");
	fold_from(to, (size_t)indent, text);
}

static void
print_row(const struct table *table, const char *const *cell,
	const size_t *width, FILE *to)
{
	size_t at = 0;

	for (size_t i = 0; i + 1 < table->n_column; i++) {
		size_t pad = width[i] - text_columns(cell[i]);
		bool right = (table->right >> i & 1u) != 0;

		(void)fprintf(to, "%*s%s%*s  ", right ? (int)pad : 0, "",
			cell[i], right ? 0 : (int)pad, "");
		at += width[i] + 2;
	}
	fold_from(to, at, cell[table->n_column - 1]);
}

void
table_print(const struct table *table, FILE *to)
{
	size_t width[TABLE_COLUMNS_MOST] = {0};

	for (size_t i = 0; i < table->n_column; i++) {
		width[i] = text_columns(table->heading[i]);
		for (size_t r = 0; r < table->n_row; r++) {
			size_t w = text_columns(
				table->cell[r * table->n_column + i]);

			if (w > width[i])
				width[i] = w;
		}
	}
	print_row(table, table->heading, width, to);
	for (size_t r = 0; r < table->n_row; r++)
		print_row(table, table->cell + r * table->n_column, width, to);
}

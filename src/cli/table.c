/* table.c - text tables and sentences within the width of the screen. */
#include "cli/table.h"

#include "cli/command.h"
#include "cli/terminal.h"
#include "core/csvout.h"

#include <assert.h>
#include <stdint.h>
#include <string.h>

enum { GAP = 2, NARROWEST = 12, SQUEEZED = 6 };

void
table_start(struct table *table, struct arena *arena,
	const char *const *heading, size_t n_column, unsigned right)
{
	*table = (struct table){.arena = arena,
		.heading = heading,
		.n_column = n_column,
		.right = right};
}

static bool
make_room(struct table *table)
{
	size_t room = table->room == 0 ? 32 : 2 * table->room;
	const char **cell;
	enum tint *tint;

	if (table->n_row < table->room)
		return true;
	cell = arena_take(table->arena, room * table->n_column, sizeof *cell);
	tint = arena_take(table->arena, room, sizeof *tint);
	if (cell == NULL || tint == NULL)
		return false;
	if (table->n_row > 0) {
		memcpy(cell, table->cell,
			table->n_row * table->n_column * sizeof *cell);
		memcpy(tint, table->tint, table->n_row * sizeof *tint);
	}
	table->cell = cell;
	table->tint = tint;
	table->room = room;
	return true;
}

void
table_row_tinted(struct table *table, const char *const *cell, enum tint tint)
{
	if (!make_room(table))
		return;
	for (size_t i = 0; i < table->n_column; i++) {
		struct text shown;

		text_init(&shown, table->arena);
		text_add_shown(&shown, cell[i] != NULL ? cell[i] : "");
		table->cell[table->n_row * table->n_column + i] =
			text_failed(&shown) || shown.n == 0 ? "" : shown.bytes;
	}
	table->tint[table->n_row++] = tint;
}

void
table_row(struct table *table, const char *const *cell)
{
	table_row_tinted(table, cell, TINT_NONE);
}

/* Bytes of the UTF-8 character at `at`, which is not the end. */
static size_t
character(const char *at)
{
	size_t n = 1;

	while (((unsigned char)at[n] & 0xC0u) == 0x80u)
		n++;
	return n;
}

static size_t
columns_of(const char *at, size_t n)
{
	char one[16] = "";

	if (n >= sizeof one)
		return n;
	memcpy(one, at, n);
	return text_columns(one);
}

/* How many bytes of text go on one line of `room` columns: up to a line break,
 * as many words as fit, or what fits of a word that alone is too long. */
static size_t
fitting(const char *at, size_t room)
{
	size_t n = 0, column = 0, space = 0;

	while (at[n] != '\0' && at[n] != '\n') {
		size_t step = character(at + n);
		size_t width = columns_of(at + n, step);

		/* "12 %" stays together. */
		if (at[n] == ' ' && at[n + 1] != '%')
			space = n;
		if (column + width > room)
			return space > 0 ? space : (n > 0 ? n : step);
		column += width;
		n += step;
	}
	return n;
}

/* Past the line's text and the blank or break that ended it. */
static const char *
next_line(const char *at, size_t n)
{
	at += n;
	if (*at == '\n')
		return at + 1;
	while (*at == ' ')
		at++;
	return at;
}

void
print_folded(FILE *to, int indent, const char *text)
{
	struct arena *scratch = arena_new((size_t)64 << 20);
	const size_t width = terminal_width(to);
	const size_t room = width > (size_t)indent + NARROWEST
		? width - (size_t)indent
		: NARROWEST;
	struct text shown;

	if (scratch == NULL)
		return;
	text_init(&shown, scratch);
	text_add_shown(&shown, text != NULL ? text : "");
	for (const char *at = text_failed(&shown) || shown.n == 0 ? "\n"
								  : shown.bytes;
		*at != '\0';) {
		size_t n = fitting(at, room);

		(void)fprintf(to, "%*s", n > 0 ? indent : 0, "");
		terminal_put(to, at, n);
		(void)fputc('\n', to);
		at = next_line(at, n);
	}
	arena_free(scratch);
}

static size_t
widest_line(const char *text)
{
	size_t most = 0;

	while (*text != '\0') {
		size_t n = fitting(text, SIZE_MAX), width = 0;

		for (size_t i = 0; i < n; i += character(text + i))
			width += columns_of(text + i, character(text + i));
		most = width > most ? width : most;
		text += n;
		text += *text == '\n';
	}
	return most;
}

/* As wide as they want; then, while the line is too long, the last column
 * gives way down to NARROWEST, and after it the widest of all down to SQUEEZED. */
static void
fit_columns(const struct table *table, size_t screen, size_t *width)
{
	size_t last = table->n_column - 1, all = GAP * last;

	for (size_t i = 0; i < table->n_column; i++) {
		width[i] = widest_line(table->heading[i]);
		for (size_t r = 0; r < table->n_row; r++) {
			size_t w = widest_line(
				table->cell[r * table->n_column + i]);

			width[i] = w > width[i] ? w : width[i];
		}
		all += width[i];
	}
	for (; all > screen; all--) {
		size_t at = last;

		for (size_t i = 0; i < last && width[last] <= NARROWEST; i++)
			at = width[i] > width[at] ? i : at;
		if (width[at] <= SQUEEZED)
			break;
		width[at]--;
	}
}

static const char *
tint_code(enum tint tint)
{
	switch (tint) {
	case TINT_GOOD:
		return "\033[32m";
	case TINT_BAD:
		return "\033[31m";
	case TINT_DOUBT:
		return "\033[33m";
	case TINT_NONE:
		break;
	}
	return "";
}

static void
print_cell(FILE *to, const char *text, size_t n, size_t width, bool right,
	bool is_last)
{
	size_t column = 0, pad;

	for (size_t i = 0; i < n; i += character(text + i))
		column += columns_of(text + i, character(text + i));
	pad = width > column ? width - column : 0;
	while (is_last && n > 0 && text[n - 1] == ' ')
		n--;
	(void)fprintf(to, "%*s", right ? (int)pad : 0, "");
	terminal_put(to, text, n);
	if (!is_last)
		(void)fprintf(to, "%*s", (int)(right ? GAP : pad + GAP), "");
}

static bool
is_done(const char *const *at, size_t n)
{
	for (size_t i = 0; i < n; i++)
		if (*at[i] != '\0')
			return false;
	return true;
}

static void
print_row(const struct table *table, const char *const *cell, enum tint tint,
	const size_t *width, FILE *to)
{
	const char *at[TABLE_COLUMNS_MOST];
	const size_t last = table->n_column - 1;
	const char *colour = terminal_has_colour(to) ? tint_code(tint) : "";

	assert(table->n_column >= 1 && table->n_column <= TABLE_COLUMNS_MOST);
	for (size_t i = 0; i < table->n_column; i++)
		at[i] = cell[i];
	do {
		size_t stop = last;

		/* No blanks after the last cell that has something. */
		while (stop > 0 && fitting(at[stop], width[stop]) == 0)
			stop--;
		for (size_t i = 0; i <= stop; i++) {
			if (i == last)
				(void)fputs(colour, to);
			print_cell(to, at[i], fitting(at[i], width[i]),
				width[i],
				i < last && (table->right >> i & 1u) != 0,
				i == stop);
			if (i == last && colour[0] != '\0')
				(void)fputs("\033[0m", to);
		}
		for (size_t i = 0; i < table->n_column; i++)
			at[i] = next_line(at[i], fitting(at[i], width[i]));
		(void)fputc('\n', to);
	} while (!is_done(at, table->n_column));
}

void
table_print(const struct table *table, FILE *to)
{
	size_t width[TABLE_COLUMNS_MOST] = {0};

	fit_columns(table, terminal_width(to), width);
	print_row(table, table->heading, TINT_NONE, width, to);
	for (size_t r = 0; r < table->n_row; r++)
		print_row(table, table->cell + r * table->n_column,
			table->tint[r], width, to);
}

const char *
table_flat_heading(const struct table *table, size_t column)
{
	char *flat = arena_text(table->arena, table->heading[column]);

	for (char *at = flat; at != NULL && *at != '\0'; at++)
		*at = *at == '\n' ? ' ' : *at;
	return flat != NULL ? flat : "";
}

void
table_csv(const struct table *table, struct text *csv)
{
	const char *field[TABLE_COLUMNS_MOST];

	for (size_t i = 0; i < table->n_column; i++)
		field[i] = table_flat_heading(table, i);
	csvout_row(csv, field, table->n_column);
	for (size_t r = 0; r < table->n_row; r++) {
		for (size_t i = 0; i < table->n_column; i++) {
			const char *cell = table->cell[r * table->n_column + i];

			field[i] = strcmp(cell, "-") == 0 ? "" : cell;
		}
		csvout_row(csv, field, table->n_column);
	}
}

void
table_show(const struct invocation *in, const struct table *table, FILE *to)
{
	struct text csv;

	if (!in->csv) {
		table_print(table, to);
		return;
	}
	text_init(&csv, in->arena);
	table_csv(table, &csv);
	if (!text_failed(&csv))
		(void)fputs(csv.bytes, to);
}

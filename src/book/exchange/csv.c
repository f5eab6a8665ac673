/* csv.c - tokens from libcsv, lines and columns from us. */
#include "book/exchange/csv.h"

#include "core/text.h"

#include <csv.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdint.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

struct parsing {
	struct arena *arena;
	struct csv_table *table;
	const char **row;    /* cells of the row that is open */
	size_t n_cell, room; /* rows that there is room for */
	size_t line, start;  /* now, and where the open row began */
	bool has_heading, has_text;
	struct err *err;
	enum err_code code;
};

static enum err_code
at_line(struct parsing *p, size_t line, const char *what)
{
	const char *place = text_format(
		p->arena, "%s:%zu", p->table->file, line);

	if (p->code == ERR_NONE)
		p->code = err_report(p->err, ERR_INPUT,
			place != NULL ? place : p->table->file, "%s: %s",
			place != NULL ? place : p->table->file, what);
	return p->code;
}

static void
out_of_memory(struct parsing *p)
{
	if (p->code == ERR_NONE)
		p->code = err_memory(p->err);
}

static void
take_cell(void *bytes, size_t n, void *data)
{
	struct parsing *p = data;
	const char *text = bytes;
	char *cell;

	if (p->code != ERR_NONE)
		return;
	if (p->n_cell >= CSV_COLUMNS_MOST) {
		(void)at_line(p, p->start,
			"There are more than 200 cells in "
			"this row; no file here has so many columns.");
		return;
	}
	if (n > CSV_CELL_MOST) {
		(void)at_line(p, p->start,
			"A cell here is longer than 64 kB; "
			"is a quote left open?");
		return;
	}
	while (n > 0 && (text[0] == ' ' || text[0] == '\t'))
		text++, n--;
	while (n > 0 && (text[n - 1] == ' ' || text[n - 1] == '\t'))
		n--;
	if (n == 0) {
		p->row[p->n_cell++] = "";
		return;
	}
	cell = arena_take(p->arena, n + 1, 1);
	if (cell == NULL) {
		out_of_memory(p);
		return;
	}
	memcpy(cell, text, n);
	p->row[p->n_cell++] = cell;
	p->has_text = true;
}

/* "span [mm]" into "span" and "mm". */
static bool
part_heading(struct arena *arena, const char *whole, const char **name,
	const char **unit)
{
	const char *open = strchr(whole, '[');
	size_t n = strlen(whole);
	char *copy = arena_text(arena, whole);

	if (copy == NULL)
		return false;
	*name = copy;
	*unit = "";
	if (open == NULL || whole[n - 1] != ']')
		return true;
	copy[n - 1] = '\0';
	*unit = copy + (open - whole) + 1;
	n = (size_t)(open - whole);
	while (n > 0 && copy[n - 1] == ' ')
		n--;
	copy[n] = '\0';
	return true;
}

static void
take_heading(struct parsing *p)
{
	struct csv_table *t = p->table;

	t->n_column = p->n_cell;
	t->heading = arena_take(p->arena, p->n_cell, sizeof *t->heading);
	t->unit = arena_take(p->arena, p->n_cell, sizeof *t->unit);
	if (t->heading == NULL || t->unit == NULL) {
		out_of_memory(p);
		return;
	}
	for (size_t i = 0; i < p->n_cell; i++)
		if (!part_heading(
			    p->arena, p->row[i], &t->heading[i], &t->unit[i]))
			out_of_memory(p);
	p->has_heading = true;
}

static bool
grow_rows(struct parsing *p)
{
	struct csv_table *t = p->table;
	size_t room = p->room == 0 ? 64 : 2 * p->room;
	const char **cell;
	size_t *line;

	if (t->n_row < p->room)
		return true;
	cell = arena_take(p->arena, room * t->n_column, sizeof *cell);
	line = arena_take(p->arena, room, sizeof *line);
	if (cell == NULL || line == NULL)
		return false;
	if (t->n_row > 0) {
		memcpy(cell, t->cell, t->n_row * t->n_column * sizeof *cell);
		memcpy(line, t->line, t->n_row * sizeof *line);
	}
	t->cell = cell;
	t->line = line;
	p->room = room;
	return true;
}

static void
take_row(int ending, void *data)
{
	struct parsing *p = data;
	struct csv_table *t = p->table;

	(void)ending;
	if (p->code == ERR_NONE && p->has_text) {
		if (!p->has_heading) {
			take_heading(p);
		} else if (p->n_cell > t->n_column) {
			(void)at_line(p, p->start,
				"This row has more cells "
				"than the heading; is a text with a comma "
				"without quotes?");
		} else if (!grow_rows(p)) {
			out_of_memory(p);
		} else {
			for (size_t i = 0; i < t->n_column; i++)
				t->cell[t->n_row * t->n_column + i] =
					i < p->n_cell ? p->row[i] : "";
			t->line[t->n_row++] = p->start;
		}
	}
	p->n_cell = 0;
	p->has_text = false;
	p->start = p->line + 1;
}

static enum err_code
check_bytes(struct parsing *p, const char *bytes, size_t n)
{
	size_t line = 1;

	if (text_is_utf8(bytes, n))
		return ERR_NONE;
	for (size_t i = 0; i < n; i++) {
		size_t length = 0;

		while (i + length < n && bytes[i + length] != '\n')
			length++;
		if (!text_is_utf8(bytes + i, length))
			break;
		i += length;
		line++;
	}
	return at_line(p, line,
		"This line is not UTF-8 text (or has a zero "
		"byte in it); save the file as \"CSV UTF-8\".");
}

/* Line by line, so that a row knows the line on which it began. */
static enum err_code
parse(struct parsing *p, const char *bytes, size_t n)
{
	const char *first_end = memchr(bytes, '\n', n);
	size_t head = first_end != NULL ? (size_t)(first_end - bytes) : n;
	size_t commas = 0, semicolons = 0;
	struct csv_parser parser;

	for (size_t i = 0; i < head; i++) {
		commas += bytes[i] == ',';
		semicolons += bytes[i] == ';';
	}
	p->table->decimal_comma = semicolons > commas;
	if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL) !=
		0)
		return err_memory(p->err);
	/* A long cell grows by this much at a time; by the library's own 128
	 * bytes it takes quadratic time where growing copies. */
	csv_set_blk_size(&parser, CSV_CELL_MOST);
	csv_set_delim(&parser, p->table->decimal_comma ? ';' : ',');
	p->line = p->start = 1;
	for (size_t from = 0; from < n && p->code == ERR_NONE; p->line++) {
		const char *end = memchr(bytes + from, '\n', n - from);
		size_t to = end != NULL ? (size_t)(end - bytes) + 1 : n;

		if (csv_parse(&parser, bytes + from, to - from, take_cell,
			    take_row, p) != to - from)
			(void)at_line(p, p->line,
				"A quote stands in the "
				"middle of a cell; put the whole cell in "
				"quotes and double those inside.");
		from = to;
	}
	if (p->code == ERR_NONE &&
		csv_fini(&parser, take_cell, take_row, p) != 0)
		(void)at_line(p, p->start,
			"A quote is opened here and never "
			"closed.");
	csv_free(&parser);
	return p->code;
}

static enum err_code
cannot_read(const char *path, const char *file, struct err *err)
{
	return err_report(err, errno == ELOOP ? ERR_INPUT : ERR_SYSTEM, file,
		"%s cannot be read: %s.", path, strerror(errno));
}

static enum err_code
read_bytes(struct arena *arena, int fd, const char *path, const char *file,
	char **bytes, size_t *n, struct err *err)
{
	struct stat status;
	size_t at = 0;

	if (fstat(fd, &status) != 0)
		return cannot_read(path, file, err);
	if (!S_ISREG(status.st_mode))
		return err_report(err, ERR_INPUT, file,
			"%s is not a file (a folder or a device of that name)."
			" Put a CSV file there.",
			path);
	if (status.st_size > CSV_BYTES_MOST)
		return err_report(err, ERR_INPUT, file,
			"%s is larger than 512 MB. Split it.", path);
	*n = (size_t)status.st_size;
	*bytes = arena_take(arena, *n + 1, 1);
	if (*bytes == NULL)
		return err_memory(err);
	while (at < *n) {
		ssize_t got = read(fd, *bytes + at, *n - at);

		if (got < 0 && errno == EINTR)
			continue;
		if (got < 0)
			return cannot_read(path, file, err);
		if (got == 0)
			break;
		at += (size_t)got;
	}
	*n = at;
	return ERR_NONE;
}

enum err_code
csv_read_bytes(struct arena *arena, const char *file, const char *bytes,
	size_t n, struct csv_table *table, struct err *err)
{
	const char *row[CSV_COLUMNS_MOST];
	struct csv_table got = {.file = file};
	struct parsing p = {
		.arena = arena, .table = &got, .row = row, .err = err};

	if (n > CSV_BYTES_MOST)
		return err_report(err, ERR_INPUT, file,
			"%s is larger than 512 MB. Split it.", file);
	if (n >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0) {
		bytes += 3;
		n -= 3;
	}
	TRY(check_bytes(&p, bytes, n));
	TRY(parse(&p, bytes, n));
	if (!p.has_heading)
		return at_line(&p, 1,
			"The file is empty; its first row must "
			"name the columns.");
	*table = got;
	return ERR_NONE;
}

enum err_code
csv_read(struct arena *arena, const char *folder, const char *file,
	struct csv_table *table, bool *is_there, struct err *err)
{
	const char *path = text_format(arena, "%s/%s", folder, file);
	char *bytes = NULL;
	size_t n = 0;
	enum err_code code;
	int fd;

	*is_there = false;
	if (path == NULL)
		return err_memory(err);
	fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
	if (fd < 0)
		return errno == ENOENT ? ERR_NONE
				       : cannot_read(path, file, err);
	code = read_bytes(arena, fd, path, file, &bytes, &n, err);
	(void)close(fd);
	if (code != ERR_NONE)
		return code;
	TRY(csv_read_bytes(arena, file, bytes, n, table, err));
	*is_there = true;
	return ERR_NONE;
}

enum err_code
csv_list(struct arena *arena, const char *folder, const char *const **file,
	size_t *n, struct err *err)
{
	enum { LISTED_MOST = 1000 };
	static const char ending[] = ".csv";
	const char **got = arena_take(arena, LISTED_MOST, sizeof *got);
	const struct dirent *entry;
	enum err_code code = ERR_NONE;
	DIR *open_folder;

	if (got == NULL)
		return err_memory(err);
	open_folder = opendir(folder);
	if (open_folder == NULL)
		return cannot_read(folder, "folder", err);
	*n = 0;
	for (entry = readdir(open_folder);
		entry != NULL && *n < LISTED_MOST && code == ERR_NONE;
		entry = readdir(open_folder)) {
		size_t length = strlen(entry->d_name);

		if (length < sizeof ending ||
			strcmp(entry->d_name + length + 1 - sizeof ending,
				ending) != 0)
			continue;
		got[*n] = arena_text(arena, entry->d_name);
		if (got[(*n)++] == NULL)
			code = err_memory(err);
	}
	(void)closedir(open_folder);
	*file = got;
	return code;
}

/* import_cells.c - headings tied to columns, cells read, faults noted. */
#include "work/import_priv.h"

#include "core/jsonout.h"
#include "core/text.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

/* ---- codes ---- */

static size_t
hash(const char *code)
{
	uint64_t h = 14695981039346656037u; /* FNV-1a */

	for (; *code != '\0'; code++)
		h = (h ^ (unsigned char)*code) * 1099511628211u;
	return (size_t)h;
}

static struct code_entry *
slot(const struct code_map *map, const char *code)
{
	size_t at = hash(code) & (map->room - 1);

	while (map->entry[at].code != NULL &&
		strcmp(map->entry[at].code, code) != 0)
		at = (at + 1) & (map->room - 1);
	return &map->entry[at];
}

struct code_entry *
code_find(const struct code_map *map, const char *code)
{
	struct code_entry *entry = map->room > 0 ? slot(map, code) : NULL;

	return entry != NULL && entry->code != NULL ? entry : NULL;
}

bool
code_add(struct importing *in, struct code_map *map, const char *code,
	int64_t id, const char *typed)
{
	struct code_entry *entry;

	if (2 * (map->n + 1) > map->room) {
		struct code_map larger = {.n = map->n,
			.room = map->room == 0 ? 64 : 2 * map->room,
			.incomplete = map->incomplete};

		larger.entry = arena_take(
			in->arena, larger.room, sizeof *larger.entry);
		if (larger.entry == NULL)
			return false;
		for (size_t i = 0; i < map->room; i++)
			if (map->entry[i].code != NULL)
				*slot(&larger,
					map->entry[i].code) = map->entry[i];
		*map = larger;
	}
	entry = slot(map, code);
	map->n += entry->code == NULL ? 1 : 0;
	*entry = (struct code_entry){code, id, typed};
	return true;
}

static const char *
nearest(const struct code_map *map, const char *code)
{
	enum { FAR = 3 };
	size_t least = FAR;
	const char *found = NULL;

	for (size_t i = 0; i < map->room; i++) {
		const char *met = map->entry[i].code;
		size_t d = met != NULL ? text_distance(code, met) : FAR;

		if (d < least ||
			(d == least && found != NULL && met != NULL &&
				d < FAR && strcmp(met, found) < 0)) {
			least = d;
			found = met;
		}
	}
	return found;
}

int64_t
code_need(struct import_file *f, size_t row, const char *name,
	const struct code_map *map, const char *what)
{
	const char *code = import_cell(f, row, name), *near;
	const struct code_entry *entry;

	if (code[0] == '\0')
		return 0; /* a required cell has its fault already */
	entry = code_find(map, code);
	if (entry != NULL && entry->id == IMPORT_GONE)
		f->in->gone_code = code;
	if (entry != NULL)
		return entry->id;
	if (map->incomplete)
		return 0;
	near = nearest(map, code);
	if (near != NULL)
		import_fault(f, row, name,
			"there is no %s \"%s\"; did you mean \"%s\"?", what,
			code, near);
	else
		import_fault(f, row, name,
			"there is no %s \"%s\"; it takes one that is in the "
			"folder or in the book",
			what, code);
	return 0;
}

/* ---- faults ---- */

static void
note_fault(struct import_file *f, size_t line, size_t column, const char *field,
	const char *text)
{
	struct importing *in = f->in;

	in->out->n_fault_all++;
	if (in->out->n_fault >= IMPORT_FAULTS_SHOWN)
		return;
	in->fault[in->out->n_fault++] = (struct work_import_fault){
		.file = f->table.file,
		.line = line,
		.column = column,
		.field = field,
		.text = text != NULL ? text : "bad cell"};
}

static size_t
table_column(const struct import_file *f, const char *name)
{
	for (size_t i = 0; i < f->table.n_column; i++)
		if (strcmp(f->table.heading[i], name) == 0)
			return i;
	return SIZE_MAX;
}

void
import_fault(struct import_file *f, size_t row, const char *name,
	const char *format, ...)
{
	size_t column = table_column(f, name);
	struct text text;
	va_list arguments;

	text_init(&text, f->in->arena);
	va_start(arguments, format);
	text_addv(&text, format, arguments);
	va_end(arguments);
	note_fault(f, f->table.line[row], column == SIZE_MAX ? 0 : column + 1,
		name, text_failed(&text) ? NULL : text.bytes);
}

/* ---- headings ---- */

static const char *
nearest_heading(
	const struct import_column *column, size_t n, const char *heading)
{
	const char *near = column[0].name;

	for (size_t i = 1; i < n; i++)
		if (text_distance(heading, column[i].name) <
			text_distance(heading, near))
			near = column[i].name;
	return near;
}

static bool
has_prefix(const char *heading, const char *const *prefix)
{
	for (; prefix != NULL && *prefix != NULL; prefix++)
		if (strncmp(heading, *prefix, strlen(*prefix)) == 0)
			return true;
	return false;
}

static void
tie_heading(struct import_file *f, size_t at, const char *const *prefix)
{
	const char *heading = f->table.heading[at], *unit = f->table.unit[at];

	for (size_t i = 0; i < f->n_column; i++) {
		const struct import_column *c = &f->column[i];

		if (strcmp(c->name, heading) != 0)
			continue;
		if (f->at[i] != SIZE_MAX)
			note_fault(f, 1, at + 1, heading,
				"stands twice in the heading");
		f->at[i] = at;
		if (unit[0] != '\0' && c->kind != IMPORT_MONEY &&
			((c->kind != IMPORT_QUANTITY &&
				 c->kind != IMPORT_MAYBE) ||
				!unit_known(unit, c->unit)))
			note_fault(f, 1, at + 1, heading,
				text_format(f->in->arena,
					"got the unit [%s]; it takes %s, such "
					"as \"%s\"",
					unit,
					arena_say(f->in->arena,
						unit_kind_name(c->unit)),
					unit_example(c->unit)));
		return;
	}
	if (!has_prefix(heading, prefix))
		note_fault(f, 1, at + 1, heading,
			text_format(f->in->arena,
				"is not a column of this file; the nearest is "
				"\"%s\"",
				nearest_heading(
					f->column, f->n_column, heading)));
}

/* The last name of a path, either way the slash leans. */
static const char *
last_name(const char *path)
{
	const char *at = path;

	for (; *path != '\0'; path++)
		if (*path == '/' || *path == '\\')
			at = path + 1;
	return at;
}

static enum err_code
read_table(struct importing *in, const char *file, struct csv_table *table,
	bool *is_there)
{
	const struct work_import *ask = in->ask;

	if (ask->n_file == 0)
		return csv_read(
			in->arena, ask->folder, file, table, is_there, in->err);
	*is_there = false;
	for (size_t i = 0; i < ask->n_file && !*is_there; i++) {
		if (strcmp(last_name(ask->file[i].name), file) != 0)
			continue;
		TRY(csv_read_bytes(in->arena, file, ask->file[i].bytes,
			ask->file[i].n, table, in->err));
		*is_there = true;
	}
	return ERR_NONE;
}

/* Every file, and which codes it brings. */
static const struct {
	const char *name;
	size_t map; /* SIZE_MAX: none that others need */
} files[] = {{"materials.csv", offsetof(struct importing, material)},
	{"lots.csv", SIZE_MAX}, {"mixes.csv", offsetof(struct importing, mix)},
	{"trial.csv", offsetof(struct importing, trial)},
	{"rules.csv", SIZE_MAX},
	{"batches.csv", offsetof(struct importing, batch)},
	{"specimens.csv", offsetof(struct importing, specimen)},
	{"readings.csv", SIZE_MAX}, {"parts.csv", SIZE_MAX}};

enum { N_FILE = sizeof files / sizeof files[0] };

/* A file that is no CSV is one more fault; the others are read on. */
static enum err_code
read_file(struct importing *in, const char *file, struct csv_table *table,
	bool *is_there)
{
	struct import_file broken = {.in = in, .table.file = file};
	enum err_code code = read_table(in, file, table, is_there);
	const char *colon = strrchr(in->err->field, ':');
	const char *said = strstr(in->err->text, ": ");

	if (code != ERR_INPUT || colon == NULL)
		return code;
	note_fault(&broken, (size_t)strtoul(colon + 1, NULL, 10), 0, "file",
		arena_text(in->arena, said != NULL ? said + 2 : in->err->text));
	err_clear(in->err);
	for (size_t i = 0; i < N_FILE; i++)
		if (strcmp(files[i].name, file) == 0 &&
			files[i].map != SIZE_MAX)
			((struct code_map *)(void *)((char *)in + files[i].map))
				->incomplete = true;
	*is_there = false;
	return ERR_NONE;
}

static bool
warn_of(struct importing *in, const char *file)
{
	const char *near = files[0].name;

	for (size_t i = 0; i < N_FILE; i++) {
		if (strcmp(file, files[i].name) == 0)
			return true;
		if (text_distance(file, files[i].name) <
			text_distance(file, near))
			near = files[i].name;
	}
	if (in->out->n_warning == IMPORT_WARNINGS_SHOWN)
		return true;
	in->warning[in->out->n_warning] = text_format(in->arena,
		"%.80s is not a file that is read, and was left out; the "
		"nearest is %s.",
		file, near);
	return in->warning[in->out->n_warning++] != NULL;
}

enum err_code
import_warn(struct importing *in)
{
	const char *const *file = NULL;
	bool room = true;
	size_t n = 0;

	for (size_t i = 0; i < in->ask->n_file && room; i++)
		room = warn_of(in, last_name(in->ask->file[i].name));
	if (in->ask->n_file == 0)
		TRY(csv_list(in->arena, in->ask->folder, &file, &n, in->err));
	for (size_t i = 0; i < n && room; i++)
		room = warn_of(in, file[i]);
	return room ? ERR_NONE : err_memory(in->err);
}

enum err_code
import_open(struct importing *in, const char *file,
	const struct import_column *column, size_t n, const char *const *prefix,
	struct import_file *f, bool *is_there)
{
	*f = (struct import_file){.in = in, .column = column, .n_column = n};
	TRY(read_file(in, file, &f->table, is_there));
	if (!*is_there)
		return ERR_NONE;
	for (size_t i = 0; i < n; i++)
		f->at[i] = SIZE_MAX;
	for (size_t i = 0; i < f->table.n_column; i++)
		tie_heading(f, i, prefix);
	for (size_t i = 0; i < n; i++)
		if (column[i].required && f->at[i] == SIZE_MAX)
			note_fault(f, 1, 0, column[i].name,
				"this column is missing, and it is needed");
	return ERR_NONE;
}

/* ---- cells ---- */

static const char *
cell_at(const struct import_file *f, size_t row, size_t column)
{
	return f->table.cell[row * f->table.n_column + column];
}

const char *
import_cell(const struct import_file *f, size_t row, const char *name)
{
	size_t column = table_column(f, name);

	return column == SIZE_MAX ? "" : cell_at(f, row, column);
}

/* The first figure of a column, so that a decimal point that went astray is
 * seen before anything is kept. */
static void
note_reading(struct import_file *f, size_t row, size_t column,
	enum unit_kind kind, double si)
{
	const int digits = 10;
	bool bare = kind == UNIT_NUMBER || kind == UNIT_RATIO;
	struct importing *in = f->in;
	const char *unit = f->table.unit[column];

	if (in->figure == NULL || column >= CSV_COLUMNS_MOST ||
		f->noted[column] || in->out->n_reading == IMPORT_READINGS_SHOWN)
		return;
	f->noted[column] = true;
	in->figure[in->out->n_reading++] = (struct work_import_reading){
		.file = f->table.file,
		.heading = f->table.heading[column],
		.typed = text_format(in->arena, "%s%s%s",
			cell_at(f, row, column), unit[0] != '\0' ? " " : "",
			unit),
		.read = text_format(in->arena, "%.*g%s%s", digits, si,
			bare ? "" : " ", bare ? "" : unit_si_word(kind))};
}

bool
import_quantity(struct import_file *f, size_t row, size_t column,
	enum unit_kind kind, double *si)
{
	const struct unit_rules rules = {
		.decimal_comma = f->table.decimal_comma,
		.gallon = f->in->desk->gallon,
		.bare_unit = f->table.unit[column][0] != '\0'
			? f->table.unit[column]
			: NULL};
	struct err err = err_in(f->in->arena);

	if (unit_read(cell_at(f, row, column), kind, &rules, si, &err) ==
		ERR_NONE) {
		note_reading(f, row, column, kind, *si);
		return true;
	}
	note_fault(f, f->table.line[row], column + 1, f->table.heading[column],
		arena_text(f->in->arena, err.text));
	return false;
}

static bool
read_flag(struct import_file *f, size_t row, const char *name, const char *cell,
	bool *flag)
{
	static const char *const yes[] = {"yes", "y", "1", "x", "true"};
	static const char *const no[] = {"no", "n", "0", "false", ""};

	for (size_t i = 0; i < sizeof yes / sizeof yes[0]; i++) {
		if (strcmp(cell, yes[i]) == 0 || strcmp(cell, no[i]) == 0) {
			*flag = strcmp(cell, yes[i]) == 0;
			return true;
		}
	}
	import_fault(f, row, name, "got \"%s\"; it takes yes or no", cell);
	return false;
}

static bool
read_choice(struct import_file *f, size_t row, const struct import_column *c,
	const char *cell, const char **to)
{
	struct text takes;

	for (const char *const *w = c->choice; *w != NULL; w++) {
		if (strcmp(*w, cell) == 0) {
			*to = *w;
			return true;
		}
	}
	text_init(&takes, f->in->arena);
	for (const char *const *w = c->choice; *w != NULL; w++)
		text_addf(&takes, "%s%s", w == c->choice ? "" : ", ", *w);
	import_fault(f, row, c->name, "got \"%s\"; it takes one of: %s", cell,
		text_failed(&takes) ? "its words" : takes.bytes);
	return false;
}

static bool
read_number(struct import_file *f, size_t row, size_t column, double *value)
{
	return import_quantity(f, row, column, UNIT_NUMBER, value);
}

static bool
read_whole(struct import_file *f, size_t row, const struct import_column *c,
	size_t column, struct maybe *to)
{
	double value;

	if (!read_number(f, row, column, &value))
		return false;
	if (floor(value) < value || value > 1e6) {
		import_fault(f, row, c->name,
			"got \"%s\"; it takes a whole number",
			cell_at(f, row, column));
		return false;
	}
	*to = (struct maybe){true, value};
	return true;
}

/* Money as written, in whole cents. */
static bool
read_money(struct import_file *f, size_t row, size_t column, struct maybe *to)
{
	double value;

	if (!read_number(f, row, column, &value))
		return false;
	*to = (struct maybe){true, round(100 * value)};
	return true;
}

static bool
read_cell(struct import_file *f, size_t row, const struct import_column *c,
	size_t column, char *to)
{
	const char *cell = cell_at(f, row, column);
	void *p = to + c->offset;
	double si;

	switch (c->kind) {
	case IMPORT_TEXT:
		*(const char **)p = cell;
		return true;
	case IMPORT_FLAG:
		return read_flag(f, row, c->name, cell, p);
	case IMPORT_CHOICE:
		return read_choice(f, row, c, cell, p);
	case IMPORT_WHOLE:
		return read_whole(f, row, c, column, p);
	case IMPORT_MONEY:
		return read_money(f, row, column, p);
	case IMPORT_QUANTITY:
		return import_quantity(f, row, column, c->unit, p);
	case IMPORT_MAYBE:
		if (!import_quantity(f, row, column, c->unit, &si))
			return false;
		*(struct maybe *)p = (struct maybe){true, si};
		return true;
	}
	return false;
}

bool
import_row(struct import_file *f, size_t row, void *to)
{
	bool good = true;

	f->in->file = f;
	f->in->row = row;
	f->in->gone_code = NULL;
	for (size_t i = 0; i < f->n_column; i++) {
		const struct import_column *c = &f->column[i];
		bool missing = f->at[i] == SIZE_MAX ||
			cell_at(f, row, f->at[i])[0] == '\0';

		if (missing &&
			(c->kind == IMPORT_TEXT || c->kind == IMPORT_CHOICE))
			*(const char **)(void *)((char *)to + c->offset) = "";
		if (missing && c->required && f->at[i] != SIZE_MAX) {
			import_fault(
				f, row, c->name, "is empty, and it is needed");
			good = false;
		}
		good = good && !(missing && c->required);
		if (missing)
			continue;
		good = read_cell(f, row, c, f->at[i], to) && good;
	}
	return good;
}

const char *
import_typed(struct import_file *f, size_t row)
{
	struct text text;
	struct jsonout json;

	text_init(&text, f->in->arena);
	jsonout_init(&json, &text);
	jsonout_open_object(&json);
	for (size_t i = 0; i < f->table.n_column; i++) {
		const char *cell = cell_at(f, row, i);
		const char *heading = f->table.heading[i];

		if (cell[0] == '\0')
			continue;
		if (f->table.unit[i][0] != '\0')
			heading = text_format(f->in->arena, "%s [%s]", heading,
				f->table.unit[i]);
		if (heading != NULL)
			jsonout_key_string(&json, heading, cell);
	}
	jsonout_close_object(&json);
	return jsonout_failed(&json) ? NULL : text.bytes;
}

/* What was withdrawn is neither changed nor added to by an import. */
static bool
stage_gone(struct importing *in, bool same, struct work_import_count *count)
{
	if (same)
		count->n_withdrawn++;
	else
		import_fault(in->file, in->row, in->file->column[0].name,
			"\"%s\" was withdrawn from the book; bring it back "
			"first (\"foamwright restore --help\"), or take this "
			"row out",
			in->gone_code);
	return false;
}

static void
show_row(struct importing *in, const struct work_import_count *count,
	const char *key, const char *before, const char *now)
{
	if (in->shown == NULL)
		return;
	in->out->n_row_all++;
	if (in->out->n_row == IMPORT_ROWS_SHOWN)
		return;
	in->shown[in->out->n_row++] = (struct work_import_row){
		.file = in->file->table.file,
		.line = in->file->table.line[in->row],
		.what = count->what,
		.key = key,
		.is_new = before[0] == '\0',
		.before = before,
		.now = now != NULL ? now : ""};
}

bool
import_stage(struct importing *in, const struct code_map *map, const char *code,
	const char *typed, struct book_row *head,
	struct work_import_count *count)
{
	const struct code_entry *known = code_find(map, code);

	*head = (struct book_row){.typed = typed};
	if (known != NULL && known->id == IMPORT_GONE) {
		head->id = IMPORT_GONE;
		in->gone_code = in->gone_code != NULL ? in->gone_code : code;
		return stage_gone(in, strcmp(known->typed, typed) == 0, count);
	}
	if (in->gone_code != NULL)
		return stage_gone(in, false, count);
	if (known == NULL) {
		count->n_new++;
		show_row(in, count, code, "", typed);
		return true;
	}
	head->id = known->id;
	if (strcmp(known->typed, typed) == 0) {
		count->n_same++;
		return false;
	}
	count->n_changed++;
	show_row(in, count, code, known->typed, typed);
	return true;
}

/* import_priv.h - cells into structs, and faults that know their place. */
#ifndef WORK_IMPORT_PRIV_H
#define WORK_IMPORT_PRIV_H

#include "work/import.h"

#include "book/book.h"
#include "book/exchange/csv.h"
#include "core/unit.h"

/* The id of what was withdrawn. */
enum { IMPORT_GONE = -1 };

/* Things already known by their code; codes of faulty rows have id 0. */
struct code_entry {
	const char *code;
	int64_t id;
	const char *typed;
};
struct code_map {
	struct code_entry *entry; /* open addressing, code NULL: free */
	size_t n, room;
	bool incomplete; /* its file could not be read: any code may be there */
};

struct importing {
	const struct desk *desk;
	struct arena *arena;
	const struct work_import *ask;
	struct work_imported *out;
	struct work_import_fault *fault;
	struct work_import_count *count;
	const char **warning;
	struct work_import_row *shown;
	struct work_import_reading *figure;
	struct code_map material, lot, mix, mix_part, trial, rule, batch,
		settling, specimen, reading, part, requirement, batch_part,
		generator;
	/* The row being read, and the withdrawn thing that it belongs to. */
	struct import_file *file;
	size_t row;
	const char *gone_code; /* NULL: none */
	int64_t trial_id;      /* the one that batches belong to; 0: none */
	struct err *err;
};

enum import_kind {
	IMPORT_TEXT,
	IMPORT_QUANTITY,
	IMPORT_MAYBE,
	IMPORT_FLAG,
	IMPORT_CHOICE,
	IMPORT_WHOLE,
	IMPORT_MONEY
};

/* One column that a file may have and where it goes in the struct. */
struct import_column {
	const char *name;
	enum import_kind kind;
	enum unit_kind unit;
	bool required;
	size_t offset;
	const char *const *choice; /* IMPORT_CHOICE, ends in NULL */
};

/* A file being read: which column is where. */
struct import_file {
	struct importing *in;
	struct csv_table table;
	const struct import_column *column;
	size_t n_column;
	size_t at[96]; /* table column of each, SIZE_MAX: not there */
	bool noted[CSV_COLUMNS_MOST]; /* a figure of it is in the readings */
};

/* import_open(in, file, column, n, prefix, f, is_there): reads the file and
 * ties its headings; headings that begin with one of the prefixes (ends in
 * NULL) are left to the caller. */
enum err_code import_open(struct importing *in, const char *file,
	const struct import_column *column, size_t n, const char *const *prefix,
	struct import_file *f, bool *is_there) MUST_CHECK;

/* import_warn(in): files that are not read, such as batch.csv. */
enum { IMPORT_WARNINGS_SHOWN = 50 };
enum err_code import_warn(struct importing *in) MUST_CHECK;

/* import_row(f, row, to): fills the struct from the row's cells; false if any
 * cell was refused (the faults are noted). */
bool import_row(struct import_file *f, size_t row, void *to);

/* import_cell(f, row, name): the cell under that heading, "" if none. */
const char *import_cell(
	const struct import_file *f, size_t row, const char *name);

/* import_fault(f, row, name, format...): notes a fault at that cell. */
void import_fault(struct import_file *f, size_t row, const char *name,
	const char *format, ...) __attribute__((format(printf, 4, 5)));

/* import_typed(f, row): the row's cells as a JSON object. */
const char *import_typed(struct import_file *f, size_t row);

/* import_quantity(f, row, column, kind, si): a cell of the table as a quantity;
 * false with a fault noted. */
bool import_quantity(struct import_file *f, size_t row, size_t column,
	enum unit_kind kind, double *si);

struct code_entry *code_find(const struct code_map *map, const char *code);
bool code_add(struct importing *in, struct code_map *map, const char *code,
	int64_t id, const char *typed);

/* code_need(f, row, name, map, what): the id of the thing named in the cell;
 * 0 with a fault noted (the nearest code offered), 0 without one where that
 * thing's own row was faulty. */
int64_t code_need(struct import_file *f, size_t row, const char *name,
	const struct code_map *map, const char *what);

/* import_stage(in, map, code, typed, head, count): new, changed or same?  Fills
 * head for book_put; false: nothing is to be written.  A row that was withdrawn
 * stays so; a fault is noted if it, or what belongs to it, differs from what was
 * withdrawn. */
bool import_stage(struct importing *in, const struct code_map *map,
	const char *code, const char *typed, struct book_row *head,
	struct work_import_count *count);

#endif /* WORK_IMPORT_PRIV_H */

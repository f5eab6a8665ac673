/* import.h - a folder of tidy CSV files into the book: all of it or nothing.
 *
 * docs/import.md names every file and column.  A dry run says all that is wrong
 * and all that was understood, and keeps nothing. */
#ifndef WORK_IMPORT_H
#define WORK_IMPORT_H

#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

#include <stdbool.h>
#include <stddef.h>

/* A file that is in memory, such as one sent to a page; borrowed. */
struct work_import_file {
	const char *name; /* "batches.csv"; folders before it do not count */
	const char *bytes;
	size_t n;
};

struct work_import {
	const char *folder; /* NULL: the files; else what the history says */
	const struct work_import_file *file;
	size_t n_file;
	bool dry_run; /* check and count, write nothing */
};

/* One cell that cannot be taken. */
struct work_import_fault {
	const char *file;
	size_t line, column; /* from 1; column 0: the row or the file as such */
	const char *field;
	const char *text; /* what it got, what it would take */
};

enum { IMPORT_FAULTS_SHOWN = 1000 };

struct work_import_count {
	const char *what; /* "materials" ... */
	size_t n_new, n_changed, n_same;
	size_t n_withdrawn; /* stand in the folder, and stay withdrawn */
};

/* A row that would be new or changed. */
struct work_import_row {
	const char *file;
	size_t line;
	const char *what, *key; /* "batches", "03" */
	bool is_new;
	const char *before, *now; /* its cells, a JSON object; before "": new */
};

/* How the figures of a column were read: its first one. */
struct work_import_reading {
	const char *file, *heading;
	const char *typed; /* "9,5" under "span [mm]" as "9,5 mm" */
	const char *read;  /* "0.0095 m" */
};

enum { IMPORT_ROWS_SHOWN = 1000, IMPORT_READINGS_SHOWN = 300 };

struct work_imported {
	const struct work_import_fault *fault;
	size_t n_fault;     /* those listed, at most IMPORT_FAULTS_SHOWN */
	size_t n_fault_all; /* all there were */
	const struct work_import_count *count;
	size_t n_count;
	const char *const *warning; /* files that are not read, sentences */
	size_t n_warning;
	const struct work_import_row *row;         /* of a dry run */
	size_t n_row, n_row_all;                   /* listed; all there were */
	const struct work_import_reading *reading; /* of a dry run */
	size_t n_reading;
};

/* work_import(desk, arena, ask, out, err):
 * ERR_INPUT with out->fault filled (out is written in that one case of
 * failure): the cells that must be mended, of all files at once, also of a file
 * that is no CSV; the book is as it was.  Other failures: the folder is not
 * there, the book cannot be written. */
enum err_code work_import(const struct desk *desk, struct arena *arena,
	const struct work_import *ask, struct work_imported *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_IMPORT_H */

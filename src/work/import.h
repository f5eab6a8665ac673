/* import.h - a folder of tidy CSV files into the book: all of it or nothing.
 *
 * docs/import.md names every file and column. */
#ifndef WORK_IMPORT_H
#define WORK_IMPORT_H

#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

#include <stdbool.h>
#include <stddef.h>

struct work_import {
	const char *folder;
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

struct work_imported {
	const struct work_import_fault *fault;
	size_t n_fault;     /* those listed, at most IMPORT_FAULTS_SHOWN */
	size_t n_fault_all; /* all there were */
	const struct work_import_count *count;
	size_t n_count;
	const char *const *warning;
	size_t n_warning;
};

/* work_import(desk, arena, ask, out, err):
 * ERR_INPUT with out->fault filled (out is written in that one case of
 * failure): the cells that must be mended; the book is as it was.  Other
 * failures: the folder is not there, the book cannot be written. */
enum err_code work_import(const struct desk *desk, struct arena *arena,
	const struct work_import *ask, struct work_imported *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_IMPORT_H */

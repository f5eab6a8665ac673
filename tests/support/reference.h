/* reference.h - rows of the tables of reference values, tests/data/trade-*.csv:
 * each row is a quantity with its inputs, what it should be and how closely. */
#ifndef TESTS_REFERENCE_H
#define TESTS_REFERENCE_H

#include "support.h"

#include "core/arena.h"
#include "core/unit.h"

#include <stdbool.h>
#include <stddef.h>

struct reference {
	const char *id, *topic, *inputs, *expected, *unit, *tolerance;
};

/* reference_read(arena, file, row): all rows of tests/data/FILE. */
size_t reference_read(
	struct arena *a, const char *file, const struct reference **row);

/* reference_has(row, key): true if the inputs name the key. */
bool reference_has(const struct reference *row, const char *key);

/* reference_input(row, key, kind): "cement=300 kg/m3 dry; ..." in SI; words
 * behind the unit ("dry", "of dry mass", "-") are left out.  The key "" takes
 * inputs that are one bare quantity ("1 psi").  Fails the test if there is no
 * such key or its value cannot be read. */
double reference_input(
	const struct reference *row, const char *key, enum unit_kind kind);

/* reference_expected(row, kind): the first value expected, in SI; the unit "-"
 * is a plain number. */
double reference_expected(const struct reference *row, enum unit_kind kind);

/* reference_tolerance(row, kind): absolute, in SI; 0 for tables of exact
 * figures and for "info", which are bands. */
double reference_tolerance(const struct reference *row, enum unit_kind kind);

/* A row asked of one of our functions. */
struct asked {
	const struct reference *row;
	struct fixture *f;
};

/* The rows that one function computes; the first pattern that fits counts. */
struct topic {
	const char *pattern; /* of the id, as a shell matches names */
	enum unit_kind kind; /* of the answer */
	double (*ours)(const struct asked *q); /* SI; NULL: why_not */
	const char *why_not;
};

#define REFERENCE_NO(pattern, why)              \
	{                                       \
		pattern, UNIT_NUMBER, NULL, why \
	}

struct reference_counts {
	size_t used, unused;
};

/* reference_run(f, file, topic, n): every row meets exactly one topic and every
 * topic a row; each row that a function computes is compared within the
 * rounding its table states. */
struct reference_counts reference_run(struct fixture *f, const char *file,
	const struct topic *topic, size_t n);

#endif /* TESTS_REFERENCE_H */

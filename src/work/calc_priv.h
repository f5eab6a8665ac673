/* calc_priv.h - what every calculation is written with.
 *
 * A calculation is one file calc_NAME.c with one const struct calc_entry; it
 * reads its keys with calc_read_*, calls a pure function, writes the answer
 * with jsonout_* and says source and notes.  Unknown keys on the top level are
 * refused by the table of keys; in nested objects by calc_only. */
#ifndef WORK_CALC_PRIV_H
#define WORK_CALC_PRIV_H

#include "work/calc.h"

#include "core/jsonout.h"
#include "core/unit.h"

#include <jansson.h>
#include <stdbool.h>
#include <stdint.h>

/* A JSON object being read and the path that led to it ("" at the top). */
struct calc_in {
	const json_t *object;
	const char *path;
	struct arena *arena;
};

enum { CALC_NOTE_MAX = 24 };

struct calc_out {
	struct jsonout *json;
	struct arena *arena;
	const char *source; /* NULL is a mistake of ours and asserted against */
	const char *note[CALC_NOTE_MAX];
	size_t n_note;
};

struct calc_entry {
	const char *name;
	const char *line;
	const struct calc_key *key;
	size_t n_key;
	const char *example; /* runs, and is run by the tests */
	enum err_code (*run)(const struct calc_in *in, struct calc_out *out,
		struct err *err);
};

/* The range a number must lie in. */
enum calc_range { CALC_ANY, CALC_POSITIVE, CALC_NOT_NEGATIVE };

bool calc_has(const struct calc_in *in, const char *key); /* there, not null */

/* A quantity: a number (SI) or a text with a unit.  Required. */
enum err_code calc_read_quantity(const struct calc_in *in, const char *key,
	enum unit_kind kind, enum calc_range range, double *si,
	struct err *err) MUST_CHECK;
/* The same, but *si keeps what it holds where the key is missing or null. */
enum err_code calc_read_quantity_or(const struct calc_in *in, const char *key,
	enum unit_kind kind, enum calc_range range, double *si,
	struct err *err) MUST_CHECK;
/* Several of them, in order; one that is not required keeps what it holds. */
struct calc_field {
	const char *key;
	enum unit_kind kind;
	enum calc_range range;
	bool required;
	double *si;
};
enum err_code calc_read_fields(const struct calc_in *in,
	const struct calc_field *field, size_t n, struct err *err) MUST_CHECK;
enum err_code calc_read_number(const struct calc_in *in, const char *key,
	enum calc_range range, double *value, struct err *err) MUST_CHECK;
enum err_code calc_read_number_or(const struct calc_in *in, const char *key,
	enum calc_range range, double *value, struct err *err) MUST_CHECK;
/* A number strictly between 0 and 1 (confidence, share); keeps *value if
 * missing. */
enum err_code calc_read_share_or(const struct calc_in *in, const char *key,
	double *value, struct err *err) MUST_CHECK;
/* A whole number in [least, most]; _or keeps *value if missing. */
enum err_code calc_read_count(const struct calc_in *in, const char *key,
	uint64_t least, uint64_t most, uint64_t *value,
	struct err *err) MUST_CHECK;
enum err_code calc_read_count_or(const struct calc_in *in, const char *key,
	uint64_t least, uint64_t most, uint64_t *value,
	struct err *err) MUST_CHECK;
enum err_code calc_read_bool_or(const struct calc_in *in, const char *key,
	bool *value, struct err *err) MUST_CHECK;
enum err_code calc_read_text(const struct calc_in *in, const char *key,
	const char **value, struct err *err) MUST_CHECK;
/* A name, which may have been written as a whole number. */
enum err_code calc_read_name(const struct calc_in *in, const char *key,
	const char **name, struct err *err) MUST_CHECK;
enum err_code calc_read_text_or(const struct calc_in *in, const char *key,
	const char **value, struct err *err) MUST_CHECK;
/* One of n words; *choice is its index.  _or keeps *choice if missing. */
enum err_code calc_read_choice(const struct calc_in *in, const char *key,
	const char *const *word, size_t n, size_t *choice,
	struct err *err) MUST_CHECK;
enum err_code calc_read_choice_or(const struct calc_in *in, const char *key,
	const char *const *word, size_t n, size_t *choice,
	struct err *err) MUST_CHECK;
/* An array of at least `least` finite numbers. */
enum err_code calc_read_numbers(const struct calc_in *in, const char *key,
	size_t least, const double **value, size_t *n,
	struct err *err) MUST_CHECK;
/* An array of at least `least` objects, each with its path ("rows[3]"). */
enum err_code calc_read_objects(const struct calc_in *in, const char *key,
	size_t least, const struct calc_in **object, size_t *n,
	struct err *err) MUST_CHECK;
/* One nested object. */
enum err_code calc_read_object(const struct calc_in *in, const char *key,
	struct calc_in *object, struct err *err) MUST_CHECK;
/* A number, or [low, high] with null for an open end; low <= high.  An open low
 * end gives -INFINITY, an open high end INFINITY; a number gives low == high.*/
enum err_code calc_read_censored(const struct calc_in *in, const char *key,
	double *low, double *high, struct err *err) MUST_CHECK;
/* {"A": [..], "B": [..]}: groups in the order written, values joined. */
struct calc_groups {
	size_t n_group, n_value;
	const char *const *name; /* n_group */
	const size_t *size;      /* n_group */
	const double *value;     /* n_value, group after group */
	const size_t *group;     /* n_value, index of each value's group */
};
/* least_groups groups of least_values values each, at the least. */
enum err_code calc_read_groups(const struct calc_in *in, const char *key,
	size_t least_groups, size_t least_values, struct calc_groups *groups,
	struct err *err) MUST_CHECK;
/* Index of the group named by `key`; the first where it is missing. */
enum err_code calc_read_group_name(const struct calc_in *in, const char *key,
	const struct calc_groups *groups, size_t *index,
	struct err *err) MUST_CHECK;

/* Refuses a key of a nested object that is not in the list. */
enum err_code calc_only(const struct calc_in *in, const char *const *key,
	size_t n_key, struct err *err) MUST_CHECK;

/* "path.key" in the arena, for reports. */
const char *calc_path(const struct calc_in *in, const char *key);

/* calc_refuse(in, key, takes, err): the report "KEY: got VALUE; it takes ..."
 * for a value that was read but cannot stand with the others. */
enum err_code calc_refuse(const struct calc_in *in, const char *key,
	const char *takes, struct err *err);

void calc_source(struct calc_out *out, const char *source);
void calc_note(struct calc_out *out, const char *note);

#endif /* WORK_CALC_PRIV_H */

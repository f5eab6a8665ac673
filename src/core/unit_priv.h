/* unit_priv.h - what the files of core/unit share: the table of words, the
 * folded text, the reader of numbers and the reader of unit expressions. */
#ifndef CORE_UNIT_PRIV_H
#define CORE_UNIT_PRIV_H

#include "core/unit.h"

#include <stdbool.h>
#include <stddef.h>

enum {
	UNIT_TEXT_MAX = 64,   /* bytes of UTF-8 in a typed quantity */
	UNIT_FOLD_ROOM = 320, /* no character of two bytes or more folds to
	                         more than five, so 64 bytes stay below */
	UNIT_WORD_MAX = 32
};

/* Dimensions that no field asks for but that unit words are made of; they
 * continue enum unit_kind. */
enum {
	UNIT_PART_AMOUNT = UNIT_N_KIND, /* mol */
	UNIT_PART_METRE_KELVIN,         /* the "mK" of W/mK */
	UNIT_N_DIMENSION
};

/* Exponents of m, kg, s, K, mol, rad. */
struct unit_dimension {
	signed char of[6];
};

/* One word of the table: 1 word = num / den in coherent SI.  In the order in
 * which its rows are written, not the tightest. */
/* NOLINTNEXTLINE(clang-analyzer-optin.performance.Padding) */
struct unit_word {
	const char *word;
	int dimension; /* enum unit_kind or UNIT_PART_... */
	double num, den;
	double imperial_num, imperial_den; /* 0: the same everywhere */
	double zero;         /* what a thermometer in it shows at 0 degC */
	bool takes_s;        /* "lbs" beside "lb" */
	const char *refusal; /* not NULL: known, and refused with this */
};

extern const struct unit_word unit_words[];
extern const size_t unit_n_word;

/* unit_dimension_of(kind): the dimension of a kind or part. */
struct unit_dimension unit_dimension_of(int kind);
bool unit_same_dimension(struct unit_dimension a, struct unit_dimension b);

/* A unit as it was understood. */
struct unit_found {
	struct unit_dimension dimension;
	double num, den;
	double zero; /* only of a bare temperature word */
};

/* unit_fold(text, folded, err): ASCII for the marks people use (superscripts,
 * vulgar fractions, degree signs, odd spaces and quotes), single spaces, none
 * at the ends.  ERR_INPUT  empty, too long, not UTF-8, control characters, or a
 * character that no quantity has. */
enum err_code unit_fold(const char *text, char folded[UNIT_FOLD_ROOM],
	struct err *err) MUST_CHECK;

/* unit_take_amount(at, rules, value, is_whole, err): reads an amount without
 * sign at *at and moves *at behind it.  is_whole: digits alone. */
enum err_code unit_take_amount(const char **at, const struct unit_rules *rules,
	double *value, bool *is_whole, struct err *err) MUST_CHECK;

/* unit_find(words, n, kind, gallon, found, err): understands a folded unit
 * expression of n bytes for a field of that kind. */
enum err_code unit_find(const char *words, size_t n, enum unit_kind kind,
	enum unit_gallon gallon, struct unit_found *found,
	struct err *err) MUST_CHECK;

/* unit_find_kind(words, n, kind, gallon, shown, found, err): the same, and
 * refuses another kind: "SHOWN is a mass; this field wants a length...". */
enum err_code unit_find_kind(const char *words, size_t n, enum unit_kind kind,
	enum unit_gallon gallon, const char *shown, struct unit_found *found,
	struct err *err) MUST_CHECK;

#endif /* CORE_UNIT_PRIV_H */

/* unit_table.h - our own table of unit words, private to core/unit. */
#ifndef CORE_UNIT_TABLE_H
#define CORE_UNIT_TABLE_H

#include "core/unit.h"

/* A word as it is looked up: letters as written where case tells apart (m, M),
 * else lower case. */
struct unit_word {
	const char *word;
	enum unit_kind kind;
	double scale;  /* SI = value * scale + offset */
	double offset;
	double scale_imperial; /* 0: the same as scale */
};

extern const struct unit_word unit_words[];
extern const size_t unit_n_word;

/* Words that are refused with what they could mean. */
struct unit_ambiguous {
	const char *word;
	const char *meanings; /* "..., or ..." */
};
extern const struct unit_ambiguous unit_ambiguous_words[];
extern const size_t unit_n_ambiguous;

#endif /* CORE_UNIT_TABLE_H */

/* types.c - the words of measures and verdicts. */
#include "choose/types.h"

#include <string.h>

struct measure_words {
	const char *word, *name, *unit;
	enum unit_kind kind;
	bool larger_is_better;
};

static const struct measure_words measures[] = {
#define AS_WORDS(measure, word, name, kind, unit, larger) \
	[measure] = {word, name, unit, kind, larger},
	CHOOSE_MEASURE_LIST(AS_WORDS)
#undef AS_WORDS
};

static const char *const verdicts[][2] = {
#define AS_WORDS(verdict, word, words) [verdict] = {word, words},
	CHOOSE_VERDICT_LIST(AS_WORDS)
#undef AS_WORDS
};

const char *
choose_measure_word(enum choose_measure measure)
{
	return measures[measure].word;
}

const char *
choose_measure_name(enum choose_measure measure)
{
	return measures[measure].name;
}

enum unit_kind
choose_measure_kind(enum choose_measure measure)
{
	return measures[measure].kind;
}

const char *
choose_measure_unit(enum choose_measure measure)
{
	return measures[measure].unit;
}

bool
choose_measure_larger_is_better(enum choose_measure measure)
{
	return measures[measure].larger_is_better;
}

bool
choose_measure_find(const char *word, enum choose_measure *measure)
{
	for (size_t i = 0; i < CHOOSE_MEASURE_COUNT; i++) {
		if (strcmp(measures[i].word, word) == 0) {
			*measure = (enum choose_measure)i;
			return true;
		}
	}
	return false;
}

const char *
choose_verdict_word(enum choose_verdict verdict)
{
	return verdicts[verdict][0];
}

const char *
choose_verdict_words(enum choose_verdict verdict)
{
	return verdicts[verdict][1];
}

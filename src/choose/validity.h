/* validity.h - rules, set before casting, for what makes a batch invalid.
 *
 * Pure.  A batch that a rule excludes is kept, shown with the rule, and the
 * comparison is given with and without it.  The rules are the person's own;
 * those of the demo are common practice, no source. */
#ifndef CHOOSE_VALIDITY_H
#define CHOOSE_VALIDITY_H

#include "core/arena.h"
#include "core/qty.h"

#include <stdbool.h>
#include <stddef.h>

#define CHOOSE_RULE_LIST(X)                                         \
	X(CHOOSE_RULE_SETTLING, "settling_loss_24h", "settled")     \
	X(CHOOSE_RULE_WET_DENSITY, "wet_density_off",               \
		"wet weight off its target by")                     \
	X(CHOOSE_RULE_FOAM_DENSITY, "foam_density_off",             \
		"foam weight off its target by")                    \
	X(CHOOSE_RULE_BLENDING, "blending_time_off",                \
		"blending time off its plan by")                    \
	X(CHOOSE_RULE_MOISTURE, "moisture", "moisture at the test") \
	X(CHOOSE_RULE_AGE, "age_off", "age off the others by")

#define CHOOSE_RULE_AS_ENUM(rule, word, words) rule,
enum choose_rule_measure { CHOOSE_RULE_LIST(CHOOSE_RULE_AS_ENUM) };
#undef CHOOSE_RULE_AS_ENUM

/* choose_rule_find(word, measure): false if no rule has that word. */
bool choose_rule_find(const char *word, enum choose_rule_measure *measure);

/* choose_rule_words(measure): the rule in words, before its figure: "settled". */
const char *choose_rule_words(enum choose_rule_measure measure);

struct choose_rule {
	enum choose_rule_measure measure;
	double above;       /* a ratio: 0.15 is 15 % */
	bool excludes;      /* false: only a flag beside the batch */
	const char *code;   /* borrowed */
	const char *reason; /* borrowed, "" if none */
};

/* What was read of a batch; targets from its mix. */
struct choose_batch_facts {
	bool practice;
	struct maybe loss_24h_ratio;
	struct maybe wet_kg_m3, wet_target_kg_m3;
	struct maybe foam_start_kg_m3, foam_middle_kg_m3, foam_end_kg_m3;
	struct maybe foam_target_kg_m3;
	struct maybe blending_s, blending_target_s;
	struct maybe moisture_ratio; /* the highest of its specimens */
};

enum { CHOOSE_FLAG_MAX = 8 };

struct choose_validity {
	bool excluded;
	const char *by; /* code of the first rule that excludes; "practice" */
	const char *reason; /* a sentence with the figure and the limit */
	const char *flag[CHOOSE_FLAG_MAX]; /* sentences of rules that flag */
	size_t n_flag;
};

/* choose_validity(arena, facts, rule, n_rule):
 * Holds the rules against the batch; a rule whose figure was not read says
 * nothing.  CHOOSE_RULE_AGE is for single readings and skipped here.  Sentences
 * live in the arena; if it is full the reason is the rule's code. */
struct choose_validity choose_validity(struct arena *arena,
	const struct choose_batch_facts *facts, const struct choose_rule *rule,
	size_t n_rule);

#endif /* CHOOSE_VALIDITY_H */

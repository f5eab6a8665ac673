/* validity.c - holds the rules against a batch. */
#include "choose/validity.h"

#include "core/text.h"
#include "core/unit.h"

#include <math.h>
#include <string.h>

enum { DIGITS_MOST = 6 };

static const char *const rule_words[][2] = {
#define AS_WORDS(rule, word, words) [rule] = {word, words},
	CHOOSE_RULE_LIST(AS_WORDS)
#undef AS_WORDS
};

const char *
choose_rule_words(enum choose_rule_measure measure)
{
	return rule_words[measure][1];
}

bool
choose_rule_find(const char *word, enum choose_rule_measure *measure)
{
	for (size_t i = 0; i < sizeof rule_words / sizeof rule_words[0]; i++) {
		if (strcmp(rule_words[i][0], word) == 0) {
			*measure = (enum choose_rule_measure)i;
			return true;
		}
	}
	return false;
}

static struct maybe
off_by(struct maybe value, struct maybe target)
{
	if (!value.has || !target.has)
		return (struct maybe){.has = false};
	return (struct maybe){
		.has = true, .value = fabs(value.value / target.value - 1)};
}

/* The reading farthest from the target of start, middle and end. */
static struct maybe
worst_foam(const struct choose_batch_facts *facts)
{
	const struct maybe reading[] = {facts->foam_start_kg_m3,
		facts->foam_middle_kg_m3, facts->foam_end_kg_m3};
	struct maybe worst = {.has = false};

	for (size_t i = 0; i < sizeof reading / sizeof reading[0]; i++) {
		struct maybe off = off_by(reading[i], facts->foam_target_kg_m3);

		if (off.has && (!worst.has || off.value > worst.value))
			worst = off;
	}
	return worst;
}

static struct maybe
figure(const struct choose_batch_facts *facts, enum choose_rule_measure measure)
{
	switch (measure) {
	case CHOOSE_RULE_SETTLING:
		return facts->loss_24h_ratio;
	case CHOOSE_RULE_WET_DENSITY:
		return off_by(facts->wet_kg_m3, facts->wet_target_kg_m3);
	case CHOOSE_RULE_FOAM_DENSITY:
		return worst_foam(facts);
	case CHOOSE_RULE_BLENDING:
		return off_by(facts->blending_s, facts->blending_target_s);
	case CHOOSE_RULE_MOISTURE:
		return facts->moisture_ratio;
	case CHOOSE_RULE_AGE:
		break;
	}
	return (struct maybe){.has = false};
}

static const char *
sentence(struct arena *arena, const struct choose_rule *rule, double met)
{
	char *shown = unit_digits(arena, 100 * met, 2);
	char *limit = unit_digits(arena, 100 * rule->above, 2);
	char *text = NULL;

	/* A figure just over its limit is written finely enough to show it. */
	for (int digits = 3; digits <= DIGITS_MOST && shown != NULL &&
		limit != NULL && strcmp(shown, limit) == 0;
		digits++) {
		shown = unit_digits(arena, 100 * met, digits);
		limit = unit_digits(arena, 100 * rule->above, digits);
	}

	if (shown != NULL && limit != NULL)
		text = text_format(arena, "%s %s %% (rule %s: more than %s %%)",
			arena_say(arena, rule_words[rule->measure][1]), shown,
			rule->code, limit);
	return text != NULL ? text : rule->code;
}

struct choose_validity
choose_validity(struct arena *arena, const struct choose_batch_facts *facts,
	const struct choose_rule *rule, size_t n_rule)
{
	struct choose_validity got = {.by = "", .reason = ""};

	if (facts->practice) {
		got.excluded = true;
		got.by = "practice";
		got.reason = "practice batch, never used for choosing";
	}
	for (size_t i = 0; i < n_rule; i++) {
		struct maybe met = figure(facts, rule[i].measure);
		const char *why;

		if (!met.has || met.value <= rule[i].above)
			continue;
		why = sentence(arena, &rule[i], met.value);
		if (!rule[i].excludes) {
			if (got.n_flag < CHOOSE_FLAG_MAX)
				got.flag[got.n_flag++] = why;
		} else if (!got.excluded) {
			got.excluded = true;
			got.by = rule[i].code;
			got.reason = why;
		}
	}
	return got;
}

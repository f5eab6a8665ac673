/* warning.h - the rules that warn: what each looks at, its limits, what it rests
 * on.  Starting values; a book may set its own.
 *
 * Pure: a table and no arithmetic.  Each row says whether its limit comes from a
 * publication, from reckoning, from common practice without a source, or from
 * memory.  Method: docs/methods/warnings.md. */
#ifndef CONTROL_WARNING_H
#define CONTROL_WARNING_H

#include "core/unit.h"

#include <stdbool.h>
#include <stddef.h>

enum { CONTROL_WARNING_COUNT = 30, CONTROL_LIMITS_MOST = 3 };

enum control_warning_code {
	CONTROL_W1,
	CONTROL_W2,
	CONTROL_W3,
	CONTROL_W4,
	CONTROL_W5,
	CONTROL_W6,
	CONTROL_W7,
	CONTROL_W8,
	CONTROL_W9,
	CONTROL_W10,
	CONTROL_W11,
	CONTROL_W12,
	CONTROL_W13,
	CONTROL_W14,
	CONTROL_W15,
	CONTROL_W16,
	CONTROL_W17,
	CONTROL_W18,
	CONTROL_W19,
	CONTROL_W20,
	CONTROL_W21,
	CONTROL_W22,
	CONTROL_W23,
	CONTROL_W24,
	CONTROL_W25,
	CONTROL_W26,
	CONTROL_W27,
	CONTROL_W28,
	CONTROL_W29,
	CONTROL_W30
};

/* One limit of a rule, SI; word NULL ends the list. */
struct control_limit {
	const char *word; /* "watch", "stop": told apart by it */
	enum unit_kind kind;
	const char *unit; /* as it is shown */
	double usual;
	double least, most; /* what it may be set to */
};

struct control_warning {
	const char *code;    /* "W4" */
	int stage;           /* of the job, 1 idea to 20 records */
	const char *says;    /* the condition */
	const char *means;   /* what to do, or what it may explain */
	const char *basis;   /* what limit and rule rest on */
	const char *read_at; /* the deeds that say it */
	const char *later;   /* "" or why it cannot be judged yet, and when */
	struct control_limit limit[CONTROL_LIMITS_MOST];
};

/* control_warning(code): the rule; never NULL. */
const struct control_warning *control_warning(enum control_warning_code code);

/* control_warning_find(word, code): "W4" or "w4"; false if there is none. */
bool control_warning_find(const char *word, enum control_warning_code *code);

/* control_warning_limits(rule): how many limits it has, 0 to 3. */
size_t control_warning_limits(const struct control_warning *rule);

#endif /* CONTROL_WARNING_H */

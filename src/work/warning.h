/* warning.h - the rules that warn, as a book has set them. */
#ifndef WORK_WARNING_H
#define WORK_WARNING_H

#include "book/types.h"
#include "control/warning.h"
#include "core/arena.h"
#include "core/err.h"
#include "work/desk.h"

struct work_warning {
	const struct control_warning *rule;
	bool is_on;
	bool is_set;                       /* the book says something of it */
	double limit[CONTROL_LIMITS_MOST]; /* that hold, SI */
	bool own[CONTROL_LIMITS_MOST];     /* set by the book */
	const char *reason;                /* the book's, or "" */
	int64_t id;                        /* of its row; 0: none */
};

struct work_warnings {
	struct work_warning w[CONTROL_WARNING_COUNT];
};

/* A rule that speaks, of something in the book. */
struct work_fired {
	enum control_warning_code code;
	const char *subject;  /* "batch T-03", "mix L", "" the book */
	const char *sentence; /* with what it rests on */
};

/* work_warnings_of(row, n, out): the starting values with the book's over
 * them. */
void work_warnings_of(
	const struct book_warning *row, size_t n, struct work_warnings *out);

/* work_warning_text(arena, w, sentence): the sentence with the rule's code and
 * what it rests on: "... [W3: from memory]"; NULL if memory ran out or sentence
 * is NULL. */
const char *work_warning_text(struct arena *arena, const struct work_warning *w,
	const char *sentence);

struct work_warning_limit {
	const char *word;  /* of the limit; "" where a rule has only one */
	const char *value; /* as typed */
};

struct work_warning_ask {
	const char *code;
	bool on, off, as_it_comes;
	const struct work_warning_limit *limit;
	size_t n_limit;
	const char *reason; /* NULL: as it was */
	const char *typed;
};

/* work_warning_put(desk, arena, ask, out, err): one write; *out is the rule as it
 * holds then.  ERR_NOT_FOUND no such rule; ERR_INPUT a limit it does not have,
 * out of range or out of order, nothing asked, no reason for a change */
enum err_code work_warning_put(const struct desk *desk, struct arena *arena,
	const struct work_warning_ask *ask, struct work_warning *out,
	struct err *err) MUST_CHECK;

#endif /* WORK_WARNING_H */

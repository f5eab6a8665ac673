/* usual.h - what is usually asked of a kind of part: starting values with where
 * they come from, and what the book has set over them. */
#ifndef WORK_USUAL_H
#define WORK_USUAL_H

#include "book/types.h"
#include "choose/types.h"
#include "core/unit.h"
#include "work/desk.h"

enum { WORK_USUAL_BOUNDS = 24 };

/* One bound as it was typed: "bending_strength" and "0.4 N/mm2". */
struct work_bound {
	const char *measure, *value;
	bool is_least;
};

/* A requirement that is usual for a kind of part. */
struct work_usual {
	const char *form; /* of work_usual_form */
	const char *measure;
	bool is_least;
	double value; /* SI; cost in cents a m3 */
	const char *source;
	bool is_asked; /* false: the book took it out */
	bool is_own;   /* the book's, not the program's */
	int64_t id;    /* of its row; 0: none */
};

/* work_usual_forms(n): the kinds in order, with their words ("roof-pitched",
 * "roof panel, pitched") and what mostly decides whether one does; common
 * practice, no source.  work_usual_form_of: the one of that name; the last,
 * "something else", where there is none. */
struct work_usual_form {
	const char *form, *words, *governs;
};
const struct work_usual_form *work_usual_forms(size_t *n);
const struct work_usual_form *work_usual_form_of(const char *form);

/* work_usual_form(use): the kind that a part of this use is; a roof panel that
 * leans is "roof-pitched". */
const char *work_usual_form(const struct book_part_use *use);

/* work_usual_read(desk, arena, out, n, err): the starting values with the book's
 * over them, in the order of the kinds; those taken out are among them. */
enum err_code work_usual_read(const struct desk *desk, struct arena *arena,
	const struct work_usual **out, size_t *n, struct err *err) MUST_CHECK;

struct work_usual_ask {
	const char *form;
	struct work_bound bound[WORK_USUAL_BOUNDS];
	size_t n_bound;
	const char *drop[WORK_USUAL_BOUNDS]; /* measures no longer asked */
	size_t n_drop;
	bool as_it_comes; /* all of the kind, first */
	const char *source;
	const char *typed;
};

/* work_usual_put(desk, arena, ask, err): one write.  Parts that are in the book
 * already keep what they ask.
 * ERR_NOT_FOUND no such kind; ERR_INPUT nothing to change, no such measure, a
 * value that cannot be read, nothing of that measure to take out, no source */
enum err_code work_usual_put(const struct desk *desk, struct arena *arena,
	const struct work_usual_ask *ask, struct err *err) MUST_CHECK;

/* work_bound_read(bound, gallon, value, err): in SI, cost in cents a m3.
 * ERR_INPUT names --least or --most */
enum err_code work_bound_read(const struct work_bound *bound,
	enum unit_gallon gallon, double *value, struct err *err) MUST_CHECK;

#endif /* WORK_USUAL_H */

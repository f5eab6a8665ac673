/* err.h - the one way a function says that it failed.
 *
 * Every function that can fail returns enum err_code (0 is ERR_NONE), is marked
 * MUST_CHECK and takes a struct err last.  On failure its outputs are as they
 * were.  The first report wins: it is nearest to the cause, so a caller passes
 * it up and does not write over it. */
#ifndef CORE_ERR_H
#define CORE_ERR_H

#include "core/tongue.h"

#include <stdbool.h>

#define MUST_CHECK __attribute__((warn_unused_result))

/* code, word for machines, exit status: 0 done, 1 the answer is no,
 * 2 the request was wrong, 3 the machine failed */
#define ERR_LIST(X)                        \
	X(ERR_NONE, "none", 0)             \
	X(ERR_ANSWER_NO, "answer_no", 1)   \
	X(ERR_INPUT, "input", 2)           \
	X(ERR_NOT_FOUND, "not_found", 2)   \
	X(ERR_CONFLICT, "conflict", 2)     \
	X(ERR_NOT_A_BOOK, "not_a_book", 2) \
	X(ERR_NEWER_BOOK, "newer_book", 2) \
	X(ERR_NUMERIC, "numeric", 2)       \
	X(ERR_DAMAGED, "damaged", 3)       \
	X(ERR_MEMORY, "memory", 3)         \
	X(ERR_DISK, "disk", 3)             \
	X(ERR_BUSY, "busy", 3)             \
	X(ERR_SYSTEM, "system", 3)

#define ERR_AS_ENUM(code, word, status) code,
enum err_code { ERR_LIST(ERR_AS_ENUM) };
#undef ERR_AS_ENUM

enum { ERR_FIELD_MAX = 96, ERR_TEXT_MAX = 768 };

struct err {
	enum err_code code;
	char field[ERR_FIELD_MAX]; /* what the person gave that is wrong */
	char text[ERR_TEXT_MAX];   /* a whole sentence for a person */
	const char *file;          /* where in our code, for whoever mends it */
	int line;
	struct tongue tongue; /* what the text is written in */
};

struct arena;

/* err_say(err, english): a word that goes into a report, in its tongue. */
const char *err_say(const struct err *err, const char *english);

/* err_in(arena): an err that speaks as the arena does (core/tongue.h). */
struct err err_in(const struct arena *arena);

/* err_report(err, code, field, format, ...):
 * Writes the report unless err already holds one; returns its code.
 * field may be "" where no single field is at fault.  err may be NULL: then
 * only the code comes back.  A text that does not fit ends in "...".  The
 * format is looked up in the tongue of err: write it whole, no halves. */
#ifdef __clang_analyzer__ /* reads one file: told that code comes back */
#define err_report(err, code, field, ...)                                  \
	((void)err_report_at(                                              \
		 (err), (code), (field), __FILE__, __LINE__, __VA_ARGS__), \
		(code))
#else
#define err_report(err, code, field, ...) \
	err_report_at((err), (code), (field), __FILE__, __LINE__, __VA_ARGS__)
#endif

enum err_code err_report_at(struct err *err, enum err_code code,
	const char *field, const char *file, int line, const char *format, ...)
	__attribute__((format(printf, 6, 7)));

/* err_memory(err): the report for an arena that is full. */
#define err_memory(err)                   \
	err_report((err), ERR_MEMORY, "", \
		"There is not enough memory for this. Nothing was changed.")

/* err_clear(err): makes err ready for another call, in the same tongue. */
void err_clear(struct err *err);

/* err_word(code): the machine word of a code, for JSON; never NULL. */
const char *err_word(enum err_code code);

/* err_exit_status(code): 0 done, 1 the answer is no, 2 request, 3 machine. */
int err_exit_status(enum err_code code);

/* TRY(call): returns from the calling function with call's code if it failed.
 * Only where nothing is held that would have to be given back. */
#define TRY(call)                                 \
	do {                                      \
		enum err_code try_code_ = (call); \
		if (try_code_ != ERR_NONE)        \
			return try_code_;         \
	} while (0)

#endif /* CORE_ERR_H */

/* command.h - what a command is, and the words that were given to it. */
#ifndef CLI_COMMAND_H
#define CLI_COMMAND_H

#include "core/arena.h"
#include "core/err.h"
#include "core/jsonout.h"
#include "core/text.h"
#include "work/desk.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum { WORDS_MOST = 24, GIVEN_MOST = 48 };

/* An option that a command takes beside --help and --json. */
struct command_option {
	const char *name;  /* "--seed" */
	const char *value; /* what stands for its value in the help, such as
			    * "N"; NULL: a switch */
	const char *line;  /* what it does, as the help says it */
	bool many;         /* may be given more than once */
};

struct given_option {
	const char *name, *value; /* value NULL: a switch */
};

/* What a command has told already, so that main does not tell it again, and what
 * it wrote, so that main can offer to take it back. */
struct told {
	bool json;             /* the document of a failure, with more in it */
	const char *written;   /* the book that desk_open opened to write */
	int64_t before, after; /* its last entry at desk_open and desk_close */
};

struct invocation {
	const char *word[WORDS_MOST]; /* what is not an option */
	size_t n_word;
	bool help, json, csv;
	bool dry_run; /* of a command that writes: keep nothing */
	struct given_option given[GIVEN_MOST];
	size_t n_given;
	struct arena *arena;
	struct told *told;
};

struct command {
	const char *name, *line, *help, *example;
	size_t least_words, most_words;
	const struct command_option *options; /* ended by an empty one; NULL */
	enum err_code (*run)(const struct invocation *in, struct err *err);
	bool csv;    /* it lists things, and takes --csv */
	bool writes; /* it takes --dry-run, which desk_open sees to */
};

/* Every command; command_names.h lists them in the order of the help. */
#define COMMAND_NAME(name) extern const struct command name;
#include "cli/command_names.h"
#undef COMMAND_NAME

/* invocation_has: was the option given; invocation_value: the value of an
 * option, NULL if it was not given; invocation_next: the value of the next of
 * several after place *at (start with 0), NULL after the last. */
bool invocation_has(const struct invocation *in, const char *name);
const char *invocation_value(const struct invocation *in, const char *name);
const char *invocation_next(
	const struct invocation *in, const char *name, size_t *at);

enum err_code invocation_read(const struct command *command, int n, char **word,
	struct invocation *in, struct err *err) MUST_CHECK;

/* invocation_report: the one sentence on standard error; with --json the same
 * as a document on standard output. */
void invocation_report(const struct command *command,
	const struct invocation *in, const struct err *err);

/* json_error(json, err): the member "error" that every failure has. */
void json_error(struct jsonout *json, const struct err *err);

/* json_start(in, text, json): an answer as one JSON object, opened; text and
 * json live in the caller.
 * json_finish(json, err): closes the object and prints it.
 * ERR_MEMORY   it did not fit; nothing is printed
 * ERR_NUMERIC  it holds a figure that is not finite; nothing is printed */
void json_start(
	const struct invocation *in, struct text *text, struct jsonout *json);
enum err_code json_finish(struct jsonout *json, struct err *err) MUST_CHECK;

/* desk_open(path, write, in, desk, err): the caller gives desk->book back with
 * desk_close.  With --dry-run of a command that writes, what is done on it is not
 * kept, and standard error says so. */
enum err_code desk_open(const char *path, bool write,
	const struct invocation *in, struct desk *desk,
	struct err *err) MUST_CHECK;
void desk_close(struct desk *desk);

/* offer_undo(in, to): after a command that wrote an entry, one line how to take
 * it back; for people alone, so nothing where `to` is no terminal. */
void offer_undo(const struct invocation *in, FILE *to);

#endif /* CLI_COMMAND_H */

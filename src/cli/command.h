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

enum { WORDS_MOST = 8 };

struct invocation {
	const char *word[WORDS_MOST]; /* what is not an option */
	size_t n_word;
	bool help, json, dry_run;
	const char *name, *note, *in_file, *seed; /* NULL: not given */
	struct arena *arena;
};

struct command {
	const char *name, *line, *help, *example;
	size_t least_words, most_words;
	bool takes_name, takes_in, takes_dry_run, takes_seed;
	enum err_code (*run)(const struct invocation *in, struct err *err);
};

extern const struct command command_new, command_import, command_show,
	command_compare, command_choose, command_calc, command_verify;

enum err_code invocation_read(const struct command *command, int n, char **word,
	struct invocation *in, struct err *err) MUST_CHECK;

/* invocation_report: the one sentence on standard error; with --json the same
 * as a document on standard output. */
void invocation_report(const struct command *command,
	const struct invocation *in, const struct err *err);

/* desk_open(path, write, in, desk, err): the caller gives desk->book back with
 * desk_close. */
enum err_code desk_open(const char *path, bool write,
	const struct invocation *in, struct desk *desk,
	struct err *err) MUST_CHECK;
void desk_close(struct desk *desk);

#endif /* CLI_COMMAND_H */

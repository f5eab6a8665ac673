/* main.c - finds the command, runs it, tells how it ended. */
#include "cli/command.h"

#include "cli/manual.h"
#include "cli/table.h"
#include "cli/terminal.h"
#include "core/start.h"
#include "core/text.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const struct command *const commands[] = {
#define COMMAND_NAME(name) &(name),
#include "cli/command_names.h"
#undef COMMAND_NAME
};

enum { N_COMMAND = sizeof commands / sizeof commands[0] };

static void
print_help(FILE *to)
{
	(void)fputs("foamwright: trials of foamed concrete made on site, from "
		    "readings to results.\n\n"
		    "  foamwright new site.book\n"
		    "  foamwright import site.book FOLDER\n"
		    "  foamwright compare site.book\n"
		    "  foamwright choose site.book\n\nFrom an empty book: "
		    "material, mix, gear, generator, trial, then sheet, foam "
		    "and\nbatch, batch after batch. It screens; a licensed "
		    "engineer and the local code\ndecide what may be "
		    "built.\n\nCommands:\n",
		to);
	for (size_t i = 0; i < N_COMMAND; i++)
		(void)fprintf(to, "  %-9s %s\n", commands[i]->name,
			commands[i]->line);
	(void)fputs("\n\"foamwright COMMAND --help\" shows each with an "
		    "example. Exit status: 0 done,\n1 the answer is no, 2 the "
		    "request was wrong, 3 the machine failed.\n",
		to);
}

static const struct command *
find_command(const char *name)
{
	for (size_t i = 0; i < N_COMMAND; i++)
		if (strcmp(commands[i]->name, name) == 0)
			return commands[i];
	return NULL;
}

/* With --json before the name, the same as a document. */
static int
unknown_command(const char *name, bool json)
{
	const char *nearest = NULL;
	size_t least = 3;

	for (size_t i = 0; i < N_COMMAND; i++) {
		size_t d = text_distance(name, commands[i]->name);

		if (d < least) {
			least = d;
			nearest = commands[i]->name;
		}
	}
	(void)fprintf(stderr,
		"foamwright: there is no such command.%s%s%s "
		"\"foamwright --help\" lists them.\n",
		nearest != NULL ? " Did you mean \"" : "",
		nearest != NULL ? nearest : "", nearest != NULL ? "\"?" : "");
	if (json)
		(void)puts("{\"error\": {\"code\": \"input\", \"field\": "
			   "\"command\", \"text\": \"There is no such "
			   "command.\"}}");
	return 2;
}

/* The example as it can be typed, a long one broken before an option. */
static void
print_example(const char *example)
{
	const size_t most = 68;
	size_t column = 0;

	(void)fputs("  ", stdout);
	while (*example != '\0') {
		const char *next = strstr(example + 1, " --");
		size_t n = next != NULL ? (size_t)(next - example)
					: strlen(example);

		if (column > 0 && column + n > most) {
			(void)fputs(" \\\n   ", stdout);
			column = 0;
		}
		(void)printf("%.*s", (int)n, example);
		column += n;
		example += n;
	}
	(void)putchar('\n');
}

/* What it does beside it, or below it where it is too long for that. */
static void
print_option(const struct command_option *o, int column)
{
	int width = printf(
		"  %s %s", o->name, o->value != NULL ? o->value : "");

	if (width < column &&
		(size_t)column + strlen(o->line) <= TERMINAL_USUAL) {
		(void)printf("%*s%s\n", column - width, "", o->line);
		return;
	}
	(void)putchar('\n');
	print_folded(stdout, column, o->line);
}

static void
print_command_help(const struct command *command, struct arena *arena)
{
	const int option_column = 29;
	const struct command_option *o = command->options;
	const char *title = text_format(
		arena, "foamwright %s: %s.", command->name, command->line);

	print_folded(stdout, 0, title != NULL ? title : command->line);
	(void)printf("\n%s\nOptions:\n", command->help);
	for (; o != NULL && o->name != NULL; o++)
		print_option(o, option_column);
	if (command->writes)
		(void)printf("%-*ssays the same, and keeps nothing\n",
			option_column, "  --dry-run");
	if (command->csv)
		(void)printf("%-*sthe list as CSV, figures with every digit\n",
			option_column, "  --csv");
	(void)printf("%-*sthe answer as one JSON document\n"
		     "%-*sauto, always or never (auto)\n\nExample:\n",
		option_column, "  --json", option_column, "  --color WHEN");
	print_example(command->example);
}

static int
run_command(const struct command *command, int n, char **word)
{
	struct arena *arena = arena_new((size_t)8 << 30);
	struct err err = {.code = ERR_NONE};
	struct told told = {.json = false};
	struct invocation in = {.n_word = 0, .arena = arena, .told = &told};
	enum err_code code;

	if (arena == NULL)
		return err_exit_status(ERR_MEMORY);
	code = invocation_read(command, n, word, &in, &err);
	for (int i = 0; i < n && code != ERR_NONE; i++)
		in.json = in.json || strcmp(word[i], "--json") == 0;
	if (code == ERR_NONE && in.help &&
		!(command == &command_calc && in.n_word > 0))
		print_command_help(command, arena);
	else if (code == ERR_NONE)
		code = command->run(&in, &err);
	if (code != ERR_NONE)
		invocation_report(command, &in, &err);
	if (code == ERR_NONE && (fflush(stdout) != 0 || ferror(stdout))) {
		(void)fputs("foamwright: the answer could not be written; is "
			    "the disk full?\n",
			stderr);
		code = ERR_DISK;
	}
	if (command->writes)
		offer_undo(&in, stderr);
	arena_free(arena);
	return err_exit_status(code);
}

/* The book is as it was, or as the last commit left it: what a write had begun
 * is undone when the book is opened next. */
static void
stop_at_once(int signal_number)
{
	static const char text[] = "\nfoamwright: stopped; what was not "
				   "finished was not written.\n";
	const int status = 128 + signal_number;

	if (write(STDERR_FILENO, text, sizeof text - 1) < 0)
		_exit(status);
	_exit(status);
}

/* Options that stand before the command mean the same after it. */
static int
skip_options(int argc, char **argv)
{
	int at = 1;

	while (at < argc && argv[at][0] == '-' &&
		(strcmp(argv[at], "--json") == 0 ||
			strcmp(argv[at], "--csv") == 0 ||
			strncmp(argv[at], "--color", 7) == 0))
		at += strcmp(argv[at], "--color") == 0 ? 2 : 1;
	return at < argc ? at : argc;
}

static bool
asks_for_help(const char *word)
{
	return strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0 ||
		strcmp(word, "help") == 0;
}

static int
run_named(int argc, char **argv, int at)
{
	static char *word[WORDS_MOST + 2 * GIVEN_MOST];
	const struct command *command = find_command(argv[at]);
	int n = 0;

	if (command == NULL)
		return unknown_command(argv[at], at > 1);
	for (int i = 1; i < argc; i++)
		if (i != at && n < WORDS_MOST + 2 * GIVEN_MOST)
			word[n++] = argv[i];
	return run_command(command, n, word);
}

int
main(int argc, char **argv)
{
	int at;

	core_start();
	(void)signal(SIGINT, stop_at_once);
	at = skip_options(argc, argv);
	if (at == argc) {
		print_help(stdout);
		return 0;
	}
	if (asks_for_help(argv[at]) && at + 1 < argc &&
		find_command(argv[at + 1]) != NULL) {
		static char help[] = "--help";

		argv[at] = help;
		return run_named(argc, argv, at + 1);
	}
	if (asks_for_help(argv[at])) {
		if (at + 1 < argc)
			return unknown_command(argv[at + 1], false);
		print_help(stdout);
		return 0;
	}
	if (strcmp(argv[at], "--version") == 0) {
		(void)puts(
			"foamwright " FOAMWRIGHT_VERSION " (GPL-3.0-or-later)");
		return 0;
	}
	if (strcmp(argv[at], "--man") == 0) {
		manual_print(commands, N_COMMAND, stdout);
		return 0;
	}
	return run_named(argc, argv, at);
}

/* main.c - finds the command, runs it, tells how it ended. */
#include "cli/command.h"

#include "core/start.h"
#include "core/text.h"

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
		    "  foamwright choose site.book\n\nCommands:\n",
		to);
	for (size_t i = 0; i < N_COMMAND; i++)
		(void)fprintf(to, "  %-9s %s\n", commands[i]->name,
			commands[i]->line);
	(void)fputs("\n\"foamwright COMMAND --help\" shows each with an "
		    "example. Exit status: 0 done, 1 the\nanswer is no, 2 the "
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

static int
unknown_command(const char *name)
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
	return 2;
}

static void
print_command_help(const struct command *command)
{
	const struct command_option *o = command->options;

	(void)printf("foamwright %s: %s.\n\n%s\nOptions:\n", command->name,
		command->line, command->help);
	for (; o != NULL && o->name != NULL; o++) {
		int width = printf(
			"  %s %s", o->name, o->value != NULL ? o->value : "");

		(void)printf(
			"%*s%s\n", width < 24 ? 24 - width : 1, "", o->line);
	}
	(void)printf("  --json                the answer as one JSON document\n"
		     "\nExample:\n  %s\n",
		command->example);
}

static int
run_command(const struct command *command, int n, char **word)
{
	struct arena *arena = arena_new((size_t)8 << 30);
	struct err err = {.code = ERR_NONE};
	struct invocation in = {.n_word = 0, .arena = arena};
	enum err_code code;

	if (arena == NULL)
		return err_exit_status(ERR_MEMORY);
	code = invocation_read(command, n, word, &in, &err);
	if (code == ERR_NONE && in.help &&
		!(command == &command_calc && in.n_word > 0))
		print_command_help(command);
	else if (code == ERR_NONE)
		code = command->run(&in, &err);
	if (code != ERR_NONE)
		invocation_report(command, &in, &err);
	arena_free(arena);
	if (code == ERR_NONE && (fflush(stdout) != 0 || ferror(stdout))) {
		(void)fputs("foamwright: the answer could not be written; is "
			    "the disk full?\n",
			stderr);
		return err_exit_status(ERR_DISK);
	}
	return err_exit_status(code);
}

int
main(int argc, char **argv)
{
	const struct command *command;

	core_start();
	if (argc < 2 || strcmp(argv[1], "--help") == 0 ||
		strcmp(argv[1], "-h") == 0 || strcmp(argv[1], "help") == 0) {
		print_help(stdout);
		return 0;
	}
	if (strcmp(argv[1], "--version") == 0) {
		(void)puts(
			"foamwright " FOAMWRIGHT_VERSION " (GPL-3.0-or-later)");
		return 0;
	}
	command = find_command(argv[1]);
	if (command == NULL)
		return unknown_command(argv[1]);
	return run_command(command, argc - 2, argv + 2);
}

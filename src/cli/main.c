/* main.c - finds the command, runs it, tells how it ended. */
#include "cli/command.h"

#include "cli/table.h"
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

static void
print_command_help(const struct command *command, struct arena *arena)
{
	const int option_column = 29;
	const struct command_option *o = command->options;
	const char *title = text_format(
		arena, "foamwright %s: %s.", command->name, command->line);

	print_folded(stdout, 0, title != NULL ? title : command->line);
	(void)printf("\n%s\nOptions:\n", command->help);
	for (; o != NULL && o->name != NULL; o++) {
		int width = printf(
			"  %s %s", o->name, o->value != NULL ? o->value : "");

		(void)printf("%*s%s\n",
			width < option_column ? option_column - width : 1, "",
			o->line);
	}
	if (command->csv)
		(void)printf("%-*sthe list as CSV, figures with every digit\n",
			option_column, "  --csv");
	(void)printf("%-*sthe answer as one JSON document\n\nExample:\n",
		option_column, "  --json");
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
	if (code == ERR_NONE && in.help &&
		!(command == &command_calc && in.n_word > 0))
		print_command_help(command, arena);
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

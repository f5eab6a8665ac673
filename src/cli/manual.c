/* manual.c - every command, its options and example, as mdoc. */
#include "cli/manual.h"

#include "work/calc.h"

#include <stdbool.h>
#include <string.h>

/* A line of text: no macro at its beginning, no escape within; broken at a blank
 * where it is long, which filling mends. */
static void
put_text(const char *text, size_t n, bool literal, FILE *to)
{
	const size_t long_enough = 60;
	size_t column = 0;

	for (size_t i = 0; i < n; i++) {
		if (column == 0 && (text[i] == '.' || text[i] == '\''))
			(void)fputs("\\&", to);
		column++;
		if (text[i] == '\\') {
			(void)fputs("\\e", to);
		} else if (text[i] == ' ' && column > long_enough && !literal) {
			(void)fputc('\n', to);
			column = 0;
		} else if (strncmp(text + i, "--", 2) == 0) {
			(void)fputs("\\-", to);
		} else {
			(void)fputc(text[i], to);
		}
	}
	(void)fputc('\n', to);
}

static void
put_lines(const char *text, FILE *to)
{
	while (*text != '\0') {
		size_t n = strcspn(text, "\n");

		put_text(text, n, true, to);
		text += n + (text[n] == '\n');
	}
}

static void
put_option(const char *name, const char *value, const char *line, FILE *to)
{
	(void)fprintf(to, ".It Fl %s", name + 1);
	if (value != NULL)
		(void)fprintf(to, " Ar \"%s\"", value);
	(void)fputc('\n', to);
	put_text(line, strlen(line), false, to);
}

static void
put_command(const struct command *command, FILE *to)
{
	const struct command_option *o = command->options;

	(void)fprintf(to, ".Ss %s\n", command->name);
	put_text(command->line, strlen(command->line), false, to);
	(void)fputs(".Bd -literal\n", to);
	put_lines(command->help, to);
	(void)fputs(".Ed\n.Bl -tag -width Ds\n", to);
	for (; o != NULL && o->name != NULL; o++)
		put_option(o->name, o->value, o->line, to);
	if (command->writes)
		put_option("--dry-run", NULL,
			"says the same, and keeps nothing", to);
	if (command->csv)
		put_option("--csv", NULL,
			"the list as CSV, figures with every digit", to);
	put_option("--json", NULL, "the answer as one JSON document", to);
	(void)fputs(".El\n.Pp\nFor example:\n.Bd -literal\n", to);
	put_text(command->example, strlen(command->example), true, to);
	(void)fputs(".Ed\n", to);
}

static void
put_calculations(FILE *to)
{
	size_t n;
	const struct calc_entry *const *entry = work_calc_list(&n);

	(void)fputs(".Sh CALCULATIONS\n.Nm\n.Cm calc Ar name\n"
		    "takes one of\n.Bl -tag -width against-baseline\n",
		to);
	for (size_t i = 0; i < n; i++) {
		const char *line = work_calc_line(entry[i]);

		(void)fprintf(to, ".It Cm %s\n", work_calc_name(entry[i]));
		put_text(line, strlen(line), false, to);
	}
	(void)fputs(".El\n", to);
}

void
manual_print(const struct command *const *command, size_t n, FILE *to)
{
	(void)fputs(
		".\\\" Made by \"foamwright --man\" of the table of the help; "
		"do not edit.\n"
		".Dd November 27, 2026\n.Dt FOAMWRIGHT 1\n.Os\n.Sh NAME\n"
		".Nm foamwright\n"
		".Nd trials of foamed concrete made on site, from readings to "
		"a choice\n"
		".Sh SYNOPSIS\n.Nm\n.Ar command\n.Op Ar words\n"
		".Op Ar options\n.Nm\n.Cm help\n.Op Ar command\n.Nm\n"
		".Fl -version\n"
		".Sh DESCRIPTION\n.Nm\n"
		"keeps a trial of foamed concrete in one file, the book, and "
		"says what it\nshows: every mix against the baseline, and "
		"which mix meets what a part of the\nbuilding asks, with how "
		"sure that is.\nIt screens; a licensed engineer and the local "
		"code decide.\n.Pp\n"
		"Options may stand before or after the words; what follows\n"
		".Fl -\nis no option.\nEvery command takes\n.Fl -help ,\n"
		".Fl -json\nand\n.Fl -color Ar when\n"
		"(auto, always or never).\n.Sh COMMANDS\n",
		to);
	for (size_t i = 0; i < n; i++)
		put_command(command[i], to);
	put_calculations(to);
	(void)fputs(".Sh ENVIRONMENT\n.Bl -tag -width NO_COLOR\n"
		    ".It Ev NO_COLOR\nwhere it is set, nothing is coloured "
		    "unless\n.Fl -color Ar always\nsays so\n.It Ev COLUMNS\n"
		    "how wide a line may be\n.It Ev USER\nwho wrote, in the "
		    "history\n.El\n"
		    ".Sh EXIT STATUS\n0 done, 1 the answer is no, 2 the "
		    "request was wrong, 3 the machine failed,\n130 it was "
		    "interrupted.\n.Sh EXAMPLES\n"
		    ".Dl foamwright new site.book\n"
		    ".Dl foamwright import site.book readings\n"
		    ".Dl foamwright compare site.book\n",
		to);
}

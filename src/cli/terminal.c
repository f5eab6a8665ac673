/* terminal.c - asks the environment and the terminal. */
#include "cli/terminal.h"

#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <unistd.h>

static bool
read_columns(const char *text, size_t *columns)
{
	char *end = NULL;
	long value;

	if (text == NULL || text[0] < '0' || text[0] > '9')
		return false;
	value = strtol(text, &end, 10);
	if (*end != '\0' || value <= 0 || value > 1000000)
		return false;
	*columns = (size_t)value;
	return true;
}

size_t
terminal_width(FILE *to)
{
	struct winsize size = {.ws_col = 0};
	size_t columns = TERMINAL_USUAL;

	if (!read_columns(getenv("COLUMNS"), &columns) &&
		isatty(fileno(to)) == 1 &&
		ioctl(fileno(to), TIOCGWINSZ, &size) == 0 && size.ws_col > 0)
		columns = size.ws_col;
	if (columns < TERMINAL_LEAST)
		return TERMINAL_LEAST;
	return columns < TERMINAL_MOST ? columns : TERMINAL_MOST;
}

static enum { COLOUR_AUTO, COLOUR_ALWAYS, COLOUR_NEVER } colour;

bool
terminal_colour_word(const char *word)
{
	if (strcmp(word, "auto") == 0)
		colour = COLOUR_AUTO;
	else if (strcmp(word, "always") == 0)
		colour = COLOUR_ALWAYS;
	else if (strcmp(word, "never") == 0)
		colour = COLOUR_NEVER;
	else
		return false;
	return true;
}

bool
terminal_has_colour(FILE *to)
{
	const char *no = getenv("NO_COLOR"), *term = getenv("TERM");

	if (colour != COLOUR_AUTO)
		return colour == COLOUR_ALWAYS;
	return isatty(fileno(to)) == 1 && (no == NULL || no[0] == '\0') &&
		term != NULL && strcmp(term, "dumb") != 0;
}

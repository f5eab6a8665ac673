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

bool
terminal_has_colour(FILE *to)
{
	const char *no = getenv("NO_COLOR"), *term = getenv("TERM");

	return isatty(fileno(to)) == 1 && (no == NULL || no[0] == '\0') &&
		term != NULL && strcmp(term, "dumb") != 0;
}

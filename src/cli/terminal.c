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

/* The first of the three that is set decides (POSIX.1-2017, 8.2); none set
 * decides nothing. */
static bool
takes_utf8(void)
{
	static const char *const name[] = {"LC_ALL", "LC_CTYPE", "LANG"};

	for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
		const char *value = getenv(name[i]);

		if (value != NULL && value[0] != '\0')
			return strstr(value, "UTF-8") != NULL ||
				strstr(value, "utf8") != NULL ||
				strstr(value, "UTF8") != NULL ||
				strstr(value, "utf-8") != NULL;
	}
	return true;
}

void
terminal_put(FILE *to, const char *text, size_t n)
{
	if (takes_utf8()) {
		(void)fwrite(text, 1, n, to);
		return;
	}
	for (size_t i = 0; i < n; i++) {
		unsigned char byte = (unsigned char)text[i];

		if (byte < 0x80u)
			(void)fputc(byte, to);
		else if ((byte & 0xC0u) != 0x80u)
			(void)fputc('?', to);
	}
}

/* terminal.h - how wide the reader's screen is, and whether it shows colour. */
#ifndef CLI_TERMINAL_H
#define CLI_TERMINAL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum { TERMINAL_USUAL = 80, TERMINAL_LEAST = 40, TERMINAL_MOST = 200 };

/* terminal_width(to): columns that a line may take.  COLUMNS where that is a
 * whole number, else what the terminal says, else 80; never under
 * TERMINAL_LEAST, nor over TERMINAL_MOST, where lines are hard to follow. */
size_t terminal_width(FILE *to);

/* terminal_colour_word(word): takes "auto", "always" or "never" as what --color
 * says from then on; false for any other word. */
bool terminal_colour_word(const char *word);

/* terminal_has_colour(to): as --color says; for auto, a terminal that is not
 * dumb, and NO_COLOR is not set (no-color.org).  Each stream for itself.  Colour
 * is never the only carrier of meaning. */
bool terminal_has_colour(FILE *to);

/* terminal_put(to, text, n): n bytes of UTF-8.  Where LC_ALL, LC_CTYPE or LANG
 * says outright that it is not understood, "?" for each character beyond
 * ASCII. */
void terminal_put(FILE *to, const char *text, size_t n);

#endif /* CLI_TERMINAL_H */

/* number.h - figures and names written into a picture; how wide they will be.
 *
 * Private to draw.  Figures are made from whole numbers, so that no locale can
 * change them. */
#ifndef DRAW_NUMBER_H
#define DRAW_NUMBER_H

#include "core/text.h"

#include <stdbool.h>
#include <stddef.h>

/* Figures beyond this (and, on a logarithmic scale, below its inverse) are
 * refused by the charts. */
static const double draw_most = 1e15;

/* draw_add_px(text, x): a place in the picture, to a tenth of a pixel. */
void draw_add_px(struct text *text, double x);

/* draw_add_fixed(text, x, n_decimal, mark): U+2212 before what is below zero,
 * a thin space between thousands from 10 000 on; |x| <= 1e15, n_decimal 0 to
 * 12. */
void draw_add_fixed(struct text *text, double x, int n_decimal, char mark);

/* draw_decimals(step): how many decimals show a step of this size, 0 to 12;
 * draw_decimals_of(x, n): to show n significant digits of x. */
int draw_decimals(double step);
int draw_decimals_of(double x, int n_digit);

/* draw_next(at): the code point at *at, U+FFFD for a malformed byte, a control
 * or a non-character; moves *at past it.  0 at the end. */
unsigned draw_next(const char **at);

/* draw_add_escaped(text, words, n): n bytes of words as XML text or quoted
 * attribute. */
void draw_add_escaped(struct text *text, const char *words, size_t n);

/* draw_text_width(words, n, size_px): about, in DejaVu Sans. */
double draw_text_width(const char *words, size_t n, double size_px);

/* draw_wrap(words, size_px, width_px, line, most): cuts words into at most
 * `most` lines, at spaces where there are any, within a word where not; the
 * rest of what does not fit is left out (is_cut of the last line).  Returns how
 * many lines; 0 for no words. */
struct draw_line {
	const char *start; /* in words */
	size_t n;
	bool is_cut; /* an ellipsis stands for the rest */
};
size_t draw_wrap(const char *words, double size_px, double width_px,
	struct draw_line *line, size_t most);

#endif /* DRAW_NUMBER_H */

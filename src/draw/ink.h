/* ink.h - the colours of a picture and their names in its style.
 *
 * Private to draw.  Each ink is written as a presentation attribute and, where
 * the theme follows the reader, as a class that a <style> turns dark.  The
 * series inks keep 3:1 against the paper in both themes and stay apart for
 * eyes that do not tell red from green (hues after Okabe and Ito 2008, made
 * darker on white); each has its own mark and dash too. */
#ifndef DRAW_INK_H
#define DRAW_INK_H

#include "draw/types.h"

enum draw_ink {
	DRAW_INK_NONE,
	DRAW_INK_PAPER,
	DRAW_INK_TEXT,
	DRAW_INK_SOFT,  /* smaller words, axes */
	DRAW_INK_GRID,  /* lines behind */
	DRAW_INK_SHADE, /* areas behind: bands, usual range */
	DRAW_INK_WARN,  /* alarms */
	DRAW_INK_WARN_SHADE,
	DRAW_INK_SERIES, /* and the five after it */
	DRAW_INK_COUNT = DRAW_INK_SERIES + 6
};

/* draw_ink_both(text, fill, stroke, theme): writes class, fill and stroke of one
 * element; NONE as none. */
void draw_ink_both(struct text *text, enum draw_ink fill, enum draw_ink stroke,
	enum draw_theme theme);

/* draw_ink_style(text, theme): the <style> element; nothing unless AUTO. */
void draw_ink_style(struct text *text, enum draw_theme theme);

/* draw_ink_series(i): the ink of group i, counted round. */
enum draw_ink draw_ink_series(size_t i);

#endif /* DRAW_INK_H */

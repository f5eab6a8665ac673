/* types.h - what every chart is told: how wide, in which colours, its words.
 *
 * A chart is one function: numbers and texts in, one whole SVG document added
 * to a text.  What they all have in common:
 * - The texts are borrowed for the call, UTF-8; a malformed byte is shown as
 *   U+FFFD and no text can hold a mark.  A label may be NULL: empty.
 * - A number that is NaN, or infinite where the header does not allow it, is
 *   refused: ERR_INPUT, err->field names it ("reading[3].low").  ERR_MEMORY if
 *   the arena of svg is full.  On failure svg holds what it held before.
 * - The same input gives the same bytes, whatever the locale.
 * - <title> and <desc> name the picture for a screen reader; each mark has a
 *   <title> of its own with the numbers in words; colour never says anything
 *   that shape, dash or text does not say too.
 * - Words that a chart needs and is not given are plain English, in the tongue
 *   of the arena of svg (core/tongue.h).
 *
 * Pure.  What each chart shows: docs/methods/charts-drawn.md. */
#ifndef DRAW_TYPES_H
#define DRAW_TYPES_H

#include "core/err.h"
#include "core/text.h"

#include <stdbool.h>
#include <stddef.h>

enum draw_theme {
	DRAW_THEME_AUTO, /* light, dark where the reader's screen is dark, light
	                    again in print: a <style> inside the SVG, over
	                    presentation attributes that hold without it */
	DRAW_THEME_LIGHT, /* presentation attributes alone, as for paper */
	DRAW_THEME_DARK
};

/* How a chart is laid out.  All zero: 720 px wide, height as it needs, auto. */
struct draw_size {
	double width_px; /* 240 to 2000; 0: 720.  Below 520 labels stand above
	                     their rows, so that a phone of 360 px can show it at
	                     full size */
	double height_px; /* 120 to 4000, of charts with two scales; 0: by itself.
	                     Charts of rows are as high as their rows */
	enum draw_theme theme;
	char decimal_mark; /* '.' or ','; 0: '.' */
};

/* What the chart is called.  id: unique on the page, letters, digits, '-' and
 * '_' (others are left out); it begins the ids inside the picture; NULL or
 * empty: "chart".  title: a short heading, drawn and read out.  description:
 * what there is to see, in sentences, read out only; NULL: the chart says what
 * it is made of. */
struct draw_about {
	const char *id, *title, *description;
};

/* A scale: what it measures and in which unit people read it ("" for none).
 * Ends that are not given are found from the data.
 * is_log: every value must be above 0.  from_zero: the scale begins at 0. */
struct draw_axis {
	const char *name, *unit;
	bool is_log, from_zero;
	bool has_range;
	double low, high; /* finite, low < high */
};

/* An estimate and where it likely lies, all finite, low <= middle <= high. */
struct draw_estimate {
	double middle, low, high;
};

#endif /* DRAW_TYPES_H */

/* picture.h - small pictures for a glossary, without words, so that they need
 * no translation; 160 by 96 px.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_PICTURE_H
#define DRAW_PICTURE_H

#include "draw/types.h"

/* picture, its word in an address, what a screen reader hears */
#define DRAW_PICTURE_LIST(X)                                                  \
	X(DRAW_PICTURE_BEAM, "beam",                                          \
		"A bar on two supports, a stack of weights "                  \
		"hanging from its middle")                                    \
	X(DRAW_PICTURE_DENT, "dent",                                          \
		"A dent in the top of a block, a bar above "                  \
		"it")                                                         \
	X(DRAW_PICTURE_CUBE, "cube",                                          \
		"A cube between two plates that press it")                    \
	X(DRAW_PICTURE_SETTLING, "settling",                                  \
		"A mould whose filling has sunk "                             \
		"below the rim")                                              \
	X(DRAW_PICTURE_FOAM_POT, "foam-pot", "A pot of foam on a scale")      \
	X(DRAW_PICTURE_MIXER, "mixer", "A tub with a paddle in it")           \
	X(DRAW_PICTURE_LAP, "lap", "Two sheets of mesh that overlap")         \
	X(DRAW_PICTURE_WALL, "wall", "A wall cut across, in layers")          \
	X(DRAW_PICTURE_INTERVAL, "interval", "A dot on a line with two ends") \
	X(DRAW_PICTURE_RATIO, "ratio",                                        \
		"Two bars, the second one and a half "                        \
		"times the first")                                            \
	X(DRAW_PICTURE_DRIFT, "drift",                                        \
		"Points that first lie about a line, "                        \
		"then wander up and off it")

#define DRAW_PICTURE_AS_ENUM(picture, ...) picture,
enum draw_picture_kind { DRAW_PICTURE_LIST(DRAW_PICTURE_AS_ENUM) };
#undef DRAW_PICTURE_AS_ENUM
enum { DRAW_PICTURE_COUNT = DRAW_PICTURE_DRIFT + 1 };

const char *draw_picture_word(enum draw_picture_kind kind);
/* draw_picture_find(word, kind): false if no picture has that word. */
bool draw_picture_find(const char *word, enum draw_picture_kind *kind);

/* draw_picture(kind, about, theme, svg, err): adds the SVG to svg.  about may
 * be NULL: the word as id and title, the English description. */
enum err_code draw_picture(enum draw_picture_kind kind,
	const struct draw_about *about, enum draw_theme theme, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_PICTURE_H */

/* wall.h - the layers of a wall from inside to outside, as thick as they are to
 * one another, with the temperature through them.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_WALL_H
#define DRAW_WALL_H

#include "draw/types.h"

enum draw_material {  /* the hatch */
	DRAW_FOAMED,  /* bubbles */
	DRAW_PLASTER, /* dots */
	DRAW_MASONRY, /* slanting lines */
	DRAW_WOOD,    /* grain */
	DRAW_AIR,     /* blank */
	DRAW_OTHER    /* crossed lines */
};

struct draw_layer {
	const char *label;
	double thickness;           /* > 0, in thickness_unit */
	const char *thickness_text; /* "150 mm"; NULL: the number and unit */
	enum draw_material material;
};

struct draw_wall {
	struct draw_about about;
	const char *thickness_unit;     /* "mm" */
	const char *temperature_unit;   /* "°C" */
	const struct draw_layer *layer; /* from inside out */
	size_t n_layer;                 /* up to 32 */
	bool has_temperature;
	double inside_air, outside_air;
	const double *face; /* n_layer + 1 temperatures: the inside face, where
	                       layers meet, the outside face */
	bool has_dew_point; /* of the air inside: a dashed line */
	double dew_point;
	const char *inside_word, *outside_word, *dew_word, *empty_word;
};

/* draw_wall(chart, size, svg, err): adds the SVG to svg.  A layer too thin to
 * see is drawn 4 px wide, and the key says its thickness.
 * ERR_INPUT  a thickness not above 0, a temperature that is not a number, more
 *            than 32 layers */
enum err_code draw_wall(const struct draw_wall *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_WALL_H */

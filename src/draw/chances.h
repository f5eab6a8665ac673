/* chances.h - for each part of the building, the chance that each mix meets
 * everything asked of it, as bars from 0 to 100 %.
 *
 * Pure.  docs/methods/charts-drawn.md. */
#ifndef DRAW_CHANCES_H
#define DRAW_CHANCES_H

#include "draw/types.h"

struct draw_chance {
	const char *label; /* the mix */
	double chance;     /* 0 to 1 */
	bool has_range;    /* how well the chance itself is known */
	double low, high;
	const char
		*text;  /* at the bar; NULL: the chance in percent, "under 1 %"
	                     and "over 99 %" at the ends */
	bool is_chosen; /* a solid bar and the word; else hatched */
};

struct draw_chance_part {
	const char *label; /* the part of the building */
	const struct draw_chance *bar;
	size_t n_bar;
};

struct draw_chances {
	struct draw_about about;
	const struct draw_chance_part *part;
	size_t n_part;
	bool has_wanted; /* a line at the chance asked for */
	double wanted;   /* 0 to 1 */
	const char *wanted_label;
	const char *chosen_word, *axis_name, *empty_word; /* NULL: English */
};

/* draw_chances(chart, size, svg, err): adds the SVG to svg.
 * ERR_INPUT  a chance outside 0 to 1, low <= chance <= high does not hold */
enum err_code draw_chances(const struct draw_chances *chart,
	const struct draw_size *size, struct text *svg,
	struct err *err) MUST_CHECK;

#endif /* DRAW_CHANCES_H */

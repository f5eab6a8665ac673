/* figure.h - a value of a measure in the unit in which people read it. */
#ifndef CLI_FIGURE_H
#define CLI_FIGURE_H

#include "choose/types.h"
#include "core/arena.h"

/* figure_bare(arena, measure, si): three digits without the unit; "-" where
 * memory ran out. */
const char *figure_bare(
	struct arena *arena, enum choose_measure measure, double si);

/* exact_figure(arena, value): the shortest decimal that is read back as the same
 * number.  figure_exact: that of a measure in its unit, "" where it is not
 * finite. */
const char *exact_figure(struct arena *arena, double value);
const char *figure_exact(
	struct arena *arena, enum choose_measure measure, double si);

#endif /* CLI_FIGURE_H */

/* figure.h - a value of a measure in the unit in which people read it. */
#ifndef CLI_FIGURE_H
#define CLI_FIGURE_H

#include "choose/types.h"
#include "core/arena.h"

/* figure_bare(arena, measure, si): three digits without the unit; "-" if the
 * measure has no such unit. */
const char *figure_bare(
	struct arena *arena, enum choose_measure measure, double si);

#endif /* CLI_FIGURE_H */

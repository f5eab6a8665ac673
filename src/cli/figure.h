/* figure.h - a value of a measure in the unit in which people read it. */
#ifndef CLI_FIGURE_H
#define CLI_FIGURE_H

#include "choose/types.h"
#include "core/arena.h"

/* figure_bare(arena, measure, si): three digits without the unit; "-" if the
 * measure has no such unit. */
const char *figure_bare(
	struct arena *arena, enum choose_measure measure, double si);

/* figure_hundredths(arena, chance): in whole hundredths, never a certainty. */
const char *figure_hundredths(struct arena *arena, double chance);

#endif /* CLI_FIGURE_H */

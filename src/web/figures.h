/* figures.h - values of measures in the unit in which people read them. */
#ifndef WEB_FIGURES_H
#define WEB_FIGURES_H

#include "choose/types.h"
#include "web/page.h"

/* figure_in_unit(measure, si): the number in choose_measure_unit. */
double figure_in_unit(enum choose_measure measure, double si);

/* figure_text(page, measure, si): three digits, without the unit. */
const char *figure_text(
	struct page *page, enum choose_measure measure, double si);

/* figure_cell(page, grid, measure, si): the next cell of a table: shown with
 * three digits, kept with all. */
void figure_cell(struct page *page, struct grid *grid,
	enum choose_measure measure, double si);

/* figure_range(page, measure, low, high): "0.312 to 0.343", "at least 1.2",
 * "less than 0.05" for open ends. */
const char *figure_range(struct page *page, enum choose_measure measure,
	double low, double high);

/* figure_chance(page, grid, p): in hundredths, never a certainty. */
void figure_chance(struct page *page, struct grid *grid, double p);

/* figure_maybe(page, grid, value, factor): what may be unknown, times factor, with
 * four digits. */
void figure_maybe(struct page *page, struct grid *grid, struct maybe value,
	double factor);

#endif /* WEB_FIGURES_H */

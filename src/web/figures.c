/* figures.c - values for pages. */
#include "web/figures.h"

#include "work/choose.h"

#include <math.h>

enum { DIGITS = 3, HUNDRED = 100 };

double
figure_in_unit(enum choose_measure measure, double si)
{
	if (measure == CHOOSE_COST)
		return si / HUNDRED; /* cents */
	return unit_value(
		si, choose_measure_kind(measure), choose_measure_unit(measure));
}

const char *
figure_text(struct page *page, enum choose_measure measure, double si)
{
	const char *text = unit_digits(
		page->request->arena, figure_in_unit(measure, si), DIGITS);

	page->failed |= text == NULL;
	return text != NULL ? text : "";
}

void
figure_cell(struct page *page, struct grid *grid, enum choose_measure measure,
	double si)
{
	grid_number(grid, figure_in_unit(measure, si),
		isfinite(si) ? figure_text(page, measure, si) : NULL);
}

const char *
figure_range(
	struct page *page, enum choose_measure measure, double low, double high)
{
	const struct web_request *request = page->request;

	if (!isfinite(high))
		return page_format(page, "%s %s", _("at least"),
			figure_text(page, measure, low));
	if (low <= 0)
		return page_format(page, "%s %s", _("less than"),
			figure_text(page, measure, high));
	if (low >= high)
		return figure_text(page, measure, low);
	return page_format(page, "%s %s %s", figure_text(page, measure, low),
		_("to"), figure_text(page, measure, high));
}

void
figure_chance(struct page *page, struct grid *grid, double p)
{
	grid_number(
		grid, p * HUNDRED, work_chance_words(page->request->arena, p));
}

void
figure_maybe(
	struct page *page, struct grid *grid, struct maybe value, double factor)
{
	struct text text;

	text_init(&text, page->request->arena);
	text_addf(&text, "%.4g", value.value * factor);
	grid_number(grid, value.has ? value.value * factor : (double)NAN,
		text.bytes);
}

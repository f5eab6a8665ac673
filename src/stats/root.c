/* root.c - the root of a decreasing function by a guarded secant. */
#include "stats/root.h"

#include <math.h>

/* The last two tries and the interval that holds the root. */
struct search {
	stats_height_at *height_at;
	const void *data;
	double low, high; /* height(low) >= 0 >= height(high) */
	double x[2], height[2];
};

static enum err_code
try_at(struct search *search, double x, struct err *err)
{
	double height;

	TRY(search->height_at(search->data, x, &height, err));
	search->x[0] = search->x[1];
	search->height[0] = search->height[1];
	search->x[1] = x;
	search->height[1] = height;
	if (height >= 0)
		search->low = x;
	else
		search->high = x;
	return ERR_NONE;
}

enum { WIDENINGS_MAX = 64 };

static enum err_code
enclose(struct search *search, double low, double high, struct err *err)
{
	const double width = high - low;

	TRY(try_at(search, low, err));
	for (int i = 0; search->height[1] < 0 && i < WIDENINGS_MAX; i++) {
		low -= ldexp(width, i);
		TRY(try_at(search, low, err));
	}
	TRY(try_at(search, high, err));
	for (int i = 0; search->height[1] >= 0 && i < WIDENINGS_MAX; i++) {
		high += ldexp(width, i);
		TRY(try_at(search, high, err));
	}
	search->high = high;
	return ERR_NONE;
}

static double
secant(const struct search *search)
{
	double slope = (search->height[1] - search->height[0]) /
		(search->x[1] - search->x[0]);

	return search->x[1] - search->height[1] / slope;
}

enum err_code
stats_root(stats_height_at *height, const void *data, double low, double high,
	double *x, struct err *err)
{
	enum { TRIES_MAX = 200 };
	const double step_tolerance = 1e-9, least_x = 1e-6;
	struct search search = {.height_at = height, .data = data};

	TRY(enclose(&search, low, high, err));
	for (int i = 0; i < TRIES_MAX; i++) {
		double next = secant(&search);

		if (fabs(next - search.x[1]) <=
			step_tolerance * fmax(fabs(next), least_x)) {
			*x = next;
			return ERR_NONE;
		}
		if (!(next > search.low && next < search.high))
			next = (search.low + search.high) / 2;
		TRY(try_at(&search, next, err));
	}
	return err_report(err, ERR_NUMERIC, "",
		"No limit was found between %.10g and %.10g; ask for a chance "
		"or a confidence that is less extreme.",
		search.low, search.high);
}

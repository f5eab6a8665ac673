/* trace_thin.c - points merged as they run out of room. */
#include "lab/trace_thin.h"

#include <math.h>

static void
merge(struct lab_thin_point *to, const struct lab_thin_point *from)
{
	double n = (double)to->n, m = (double)from->n;

	to->mean = (n * to->mean + m * from->mean) / (n + m);
	to->sag_m = (n * to->sag_m + m * from->sag_m) / (n + m);
	to->low = fmin(to->low, from->low);
	to->high = fmax(to->high, from->high);
	to->to_s = from->to_s;
	to->n += from->n;
}

static double
place_of(const struct lab_thin *t, double at_s)
{
	return floor((at_s - t->first_s) / t->span_s);
}

/* The span doubles until there is room; at first it is what the points would
 * need, were they even. */
static void
make_room(struct lab_thin *t)
{
	while (t->n == LAB_THIN_MOST) {
		size_t n = 0;

		t->span_s = t->span_s > 0
			? 2 * t->span_s
			: 2 * (t->point[t->n - 1].to_s - t->first_s) /
				LAB_THIN_MOST;
		if (!(t->span_s > 0)) /* all at one moment */
			t->span_s = 1;
		for (size_t i = 0; i < t->n; i++) {
			if (n > 0 &&
				place_of(t, t->point[n - 1].from_s) >=
					place_of(t, t->point[i].from_s))
				merge(&t->point[n - 1], &t->point[i]);
			else
				t->point[n++] = t->point[i];
		}
		t->n = n;
	}
}

enum err_code
lab_thin_row(void *context, const struct lab_trace_row *row, struct err *err)
{
	struct lab_thin *t = context;
	const struct lab_thin_point one = {.from_s = row->at_s,
		.to_s = row->at_s,
		.mean = row->value,
		.sag_m = row->sag_m,
		.low = row->value,
		.high = row->value,
		.n = 1};

	(void)err;
	if (t->n == 0)
		t->first_s = row->at_s;
	if (t->span_s > 0 && t->n > 0 &&
		place_of(t, t->point[t->n - 1].from_s) >=
			place_of(t, row->at_s)) {
		merge(&t->point[t->n - 1], &one);
		return ERR_NONE;
	}
	if (t->n == LAB_THIN_MOST)
		make_room(t);
	if (t->span_s > 0 &&
		place_of(t, t->point[t->n - 1].from_s) >=
			place_of(t, row->at_s))
		merge(&t->point[t->n - 1], &one);
	else
		t->point[t->n++] = one;
	return ERR_NONE;
}

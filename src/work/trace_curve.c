/* trace_curve.c - a trace of the book as a curve. */
#include "work/trace_curve.h"

#include "core/date.h"

#include <math.h>
#include <string.h>

/* A gap of more than so many usual steps, as work_trace_say tells it. */
static const double gap_steps = 10;

static const struct {
	double most_s, scale_s;
	const char *unit;
} times[] = {{1, 1e-3, "ms"}, {600, 1, "s"}, {3 * 3600.0, 60, "min"},
	{2 * 86400.0, 3600, "h"}, {INFINITY, 86400, "d"}};

static const struct {
	const char *kind, *word, *unit;
} values[] = {{"load", N_("load"), "N"}, {"blow", N_("acceleration"), "m/s2"},
	{"temperature", N_("temperature"), "degC"}};

struct scale {
	double x_from, x_scale, y_from, y_scale;
};

static struct scale
choose_units(const struct book_trace *x, bool over_sag, struct work_curve *out)
{
	struct scale s = {.x_scale = 1, .y_scale = 1};
	double length_s = x->last_s - x->first_s;
	size_t i = 0;

	for (size_t k = 0; k < sizeof values / sizeof values[0]; k++)
		if (strcmp(values[k].kind, x->kind) == 0) {
			out->y_word = values[k].word;
			out->y_unit = values[k].unit;
		}
	s.y_from = x->zero.has ? x->zero.value : 0;
	if (strcmp(x->kind, "load") == 0 && x->highest >= 1e4) {
		s.y_scale = 1e3;
		out->y_unit = "kN";
	}
	if (over_sag) {
		s.x_scale = 1e-3;
		out->x_word = N_("sag");
		out->x_unit = "mm";
		return s;
	}
	while (length_s >= times[i].most_s)
		i++;
	s.x_from = x->first_s;
	s.x_scale = times[i].scale_s;
	out->x_word = N_("time");
	out->x_unit = times[i].unit;
	return s;
}

static void
take_points(const struct book_trace *x, const struct book_trace_point *all,
	size_t n, const struct scale *s, bool over_sag,
	struct work_curve_point *to, struct work_curve *out)
{
	double usual_s = (x->last_s - x->first_s) / (double)(x->rows - 1);
	bool has_gap = x->gap_s > gap_steps * usual_s;
	double last_s = 0;

	for (size_t i = 0; i < n; i++) {
		const struct book_trace_point *p = &all[i];
		double at = over_sag ? p->sag_m.value
				     : (p->from_s + p->to_s) / 2;

		if (p->trace_id != x->row.id)
			continue;
		to[out->n_point++] = (struct work_curve_point){
			.x = (at - s->x_from) / s->x_scale,
			.mean = (p->mean - s->y_from) / s->y_scale,
			.low = (p->low - s->y_from) / s->y_scale,
			.high = (p->high - s->y_from) / s->y_scale,
			.begins = has_gap && !over_sag && out->n_point > 0 &&
				p->from_s - last_s > x->gap_s / 2};
		last_s = p->to_s;
		out->is_thinned = out->is_thinned || p->to_s > p->from_s;
	}
}

/* A blow may be negative: the peak is what is furthest from nothing. */
static void
take_marks(const struct book_trace *x, const struct scale *s,
	struct work_curve *out)
{
	bool is_blow = strcmp(x->kind, "blow") == 0;
	double peak = is_blow && fabs(x->lowest) > fabs(x->highest)
		? x->lowest
		: x->highest;

	if (strcmp(x->kind, "temperature") == 0)
		return;
	out->peak = (struct maybe){true, peak / s->y_scale};
	if (x->crack_n.has)
		out->crack = (struct maybe){
			true, x->crack_n.value / s->y_scale};
}

enum err_code
work_trace_curve(const struct desk *desk, struct arena *arena,
	const struct book_trace *x, bool over_sag, struct work_curve *out,
	struct err *err)
{
	struct work_curve got = {.since = ""};
	const struct book_trace_point *all;
	struct work_curve_point *point;
	char moment[DATE_TEXT_MAX];
	struct scale s;
	size_t n;

	if (over_sag && !x->energy_j.has)
		return err_report(err, ERR_INPUT, "over",
			"Trace \"%.60s\" holds no sag.", x->code);
	TRY(book_all_trace_point(desk->book, arena, &all, &n, err));
	point = arena_take(arena, n, sizeof *point);
	if (point == NULL)
		return err_memory(err);
	s = choose_units(x, over_sag, &got);
	take_points(x, all, n, &s, over_sag, point, &got);
	take_marks(x, &s, &got);
	got.point = point;
	if (x->dated && !over_sag) {
		date_write((int64_t)floor(x->first_s), moment);
		got.since = arena_text(arena, moment);
		if (got.since == NULL)
			return err_memory(err);
	}
	*out = got;
	return ERR_NONE;
}

/* The points from `from` up to `to` as one. */
static struct work_curve_point
put_together(const struct work_curve_point *point, size_t from, size_t to)
{
	struct work_curve_point one = {.low = point[from].low,
		.high = point[from].high,
		.begins = point[from].begins};
	double n = (double)(to - from);

	for (size_t i = from; i < to; i++) {
		one.x += point[i].x / n;
		one.mean += point[i].mean / n;
		one.low = fmin(one.low, point[i].low);
		one.high = fmax(one.high, point[i].high);
	}
	return one;
}

enum err_code
work_curve_fewer(struct arena *arena, struct work_curve *curve, size_t most,
	size_t *together, struct err *err)
{
	size_t step = (curve->n_point + most - 1) / most, n = 0;
	struct work_curve_point *point = arena_take(arena, most, sizeof *point);

	if (point == NULL)
		return err_memory(err);
	*together = step > 1 ? step : 1;
	if (step <= 1)
		return ERR_NONE;
	for (size_t from = 0; from < curve->n_point; from += step) {
		size_t to = from + step < curve->n_point ? from + step
							 : curve->n_point;

		point[n++] = put_together(curve->point, from, to);
	}
	curve->point = point;
	curve->n_point = n;
	return ERR_NONE;
}

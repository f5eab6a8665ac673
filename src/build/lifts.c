/* lifts.c - stretches and lifts of a part. */
#include "build/lifts.h"

#include "build/plan.h"

#include <math.h>

double
build_lift_usual_m(double wet_kg_m3)
{
	const double light_kg_m3 = 500, middle_kg_m3 = 1000;
	const double light_m = 0.3, middle_m = 0.6, heavy_m = 1;

	if (wet_kg_m3 < light_kg_m3)
		return light_m;
	return wet_kg_m3 < middle_kg_m3 ? middle_m : heavy_m;
}

/* The least whole number not below x, a hair of rounding left aside. */
static double
pieces(double x)
{
	const double hair = 1e-9;

	return fmax(1, ceil(x * (1 - hair)));
}

static enum err_code
check_cut(const struct build_part *part, const struct build_cut *cut,
	struct err *err)
{
	const struct {
		const char *name, *unit;
		double value;
		bool may_be_zero;
	} size[] = {{N_("height of a lift"), "m", cut->lift_m, false},
		{N_("length of a stretch"), "m", cut->stretch_m, true},
		{N_("volume"), "m3", cut->mixed_m3, false},
		{N_("batch"), "m3", cut->batch_m3, false},
		{N_("day's output"), "batches", (double)cut->day_batch, false},
		{N_("wet density"), "kg/m3", cut->wet_kg_m3, false}};

	for (size_t i = 0; i < sizeof size / sizeof size[0]; i++)
		if (!isfinite(size[i].value) || size[i].value < 0 ||
			(!size[i].may_be_zero && !(size[i].value > 0)))
			return err_report(err, ERR_INPUT, part->code,
				"The %s for part %s is %.4g %s; it must be "
				"more than 0.",
				err_say(err, size[i].name), part->code,
				size[i].value, size[i].unit);
	return ERR_NONE;
}

static void
set_along(const struct build_part *part, double n_stretch,
	struct build_cut_lift *l)
{
	l->has_from = part->length_m.has && !part->volume_m3.has;
	if (!l->has_from)
		return;
	l->from_m = part->length_m.value * (double)l->stretch / n_stretch;
	l->to_m = part->length_m.value * (double)(l->stretch + 1) / n_stretch;
}

enum err_code
build_lifts(struct arena *arena, const struct build_part *part, bool is_wall,
	const struct build_cut *cut, const struct build_cut_lift **lift,
	size_t *n, struct err *err)
{
	bool tall = is_wall && part->height_m.has;
	double n_high, n_along, count;
	struct build_cut_lift *l;

	TRY(check_cut(part, cut, err));
	n_high = tall ? pieces(part->height_m.value / cut->lift_m) : 1;
	n_along = cut->stretch_m > 0 && part->length_m.has
		? pieces(part->length_m.value / cut->stretch_m)
		: 1;
	if (!tall)
		n_along = fmax(n_along,
			pieces(cut->mixed_m3 / cut->batch_m3 /
				(double)cut->day_batch));
	count = n_high * n_along;
	if (!(count <= BUILD_LIFTS_MOST))
		return err_report(err, ERR_INPUT, part->code,
			"Part %s would be poured in %.0f lifts; at most %d are "
			"planned. Pour higher lifts or longer stretches.",
			part->code, count, (int)BUILD_LIFTS_MOST);
	l = arena_take(arena, (size_t)count, sizeof *l);
	if (l == NULL)
		return err_memory(err);
	for (size_t i = 0; i < (size_t)count; i++) {
		l[i].number = i + 1;
		l[i].stretch = i / (size_t)n_high;
		set_along(part, n_along, &l[i]);
		l[i].height_m = tall            ? part->height_m.value / n_high
			: part->thickness_m.has ? part->thickness_m.value
						: 0;
		l[i].volume_m3 = cut->mixed_m3 / count;
		l[i].n_batch = (int64_t)pieces(l[i].volume_m3 / cut->batch_m3);
		l[i].pressure_Pa = cut->wet_kg_m3 * gravity_m_s2 *
			l[i].height_m;
	}
	*lift = l;
	*n = (size_t)count;
	return ERR_NONE;
}

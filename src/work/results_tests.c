/* results_tests.c - water, shortening, screws, frost and heat: readings of one
 * piece taken together where it takes several, and reduced. */
#include "work/results_priv.h"

#include "core/text.h"
#include "core/unit.h"
#include "lab/frost.h"
#include "lab/hot_box.h"
#include "lab/rise.h"
#include "lab/screw.h"
#include "lab/shrinkage.h"
#include "lab/uncertainty.h"
#include "work/series.h"

#include <math.h>
#include <string.h>

/* Water taken up is compared after a day under water, as ASTM C796 has it (from
 * memory). */
static const double soaked_s = 86400;
/* An hour or two more or less is a day too; common practice, no source. */
static const double about_ratio = 0.1;

/* ISO 15148 gives a coefficient for seconds and one for hours; the second is
 * the water of the first hour. */
static const double hour_s = 3600;

enum { WAYS_MOST = 64, DIGITS = 3 };

static double
either(struct maybe first, double otherwise)
{
	return first.has ? first.value : otherwise;
}

/* u by its address, since it is only there once the code is. */
static struct maybe
maybe_ratio(enum err_code code, const double *u, double value)
{
	return (struct maybe){code == ERR_NONE && value > 0, *u / value};
}

/* A loss or a shortening that is none within what was read: below its step. */
static struct interval
not_below(double value, double step)
{
	if (value > 0)
		return (struct interval){value, value};
	return (struct interval){0, step};
}

static const char *
or_none(const char *text)
{
	return text != NULL ? text : "";
}

/* ---- water taken up ---- */

static double
far_from_a_day(const struct work_series_row *row)
{
	return fabs(log(row->at_s / soaked_s));
}

/* The reading that stands nearest to a day in the water. */
static const struct work_series_row *
nearest_soaking(const struct work_series_row *row, size_t n)
{
	const struct work_series_row *best = NULL;

	for (size_t i = 0; i < n; i++)
		if (row[i].at_s > 0 && row[i].reading->water.mass_kg.has &&
			(best == NULL ||
				far_from_a_day(&row[i]) < far_from_a_day(best)))
			best = &row[i];
	return best;
}

static void
reduce_soaking(struct reducer *r, const struct work_series_row *row, size_t n)
{
	const struct book_specimen *p = &r->site->specimen[row->specimen];
	const struct work_series_row *at = nearest_soaking(row, n);
	struct maybe dry = work_series_dry(r->site, row, n);
	struct lab_density ask = {.has_oven_dry = true, .has_saturated = true};
	struct lab_density_division division = {.volume = {0}};
	struct err err = {.code = ERR_NONE};
	struct work_result *result;
	struct lab_densities got;
	double u = 0;

	if (at == NULL)
		return;
	if (!dry.has || !work_has_volume(p)) {
		(void)err_report(&err, ERR_INPUT, "soaking", "%s",
			dry.has ? "its sizes were not written down, so there "
				  "is no share of its volume."
				: "what it weighs dry is not known: "
				  "\"foamwright "
				  "weigh --state 'oven dry'\", or soak with "
				  "--dry.");
		results_fault(r, p, "soaking", &err);
		return;
	}
	ask.oven_dry_mass.kg = dry.value;
	ask.mass.kg = ask.saturated_mass.kg = at->reading->water.mass_kg.value;
	work_set_volume(p, &ask, &division);
	division.mass.kg = either(
		at->reading->water.mass_step_kg, work_scale_kg);
	if (lab_density(&ask, &got, &err) != ERR_NONE) {
		results_fault(r, p, "soaking", &err);
		return;
	}
	result = results_add_piece(r, CHOOSE_WATER_TAKEN_UP, at->reading,
		at->specimen,
		not_below(got.absorption_by_volume_ratio,
			division.mass.kg / (1000 * got.volume.m3)));
	result->dry_kg = dry.value;
	result->like = or_none(text_format(r->arena, "%s in water",
		work_duration(r->arena,
			fabs(at->at_s / soaked_s - 1) <= about_ratio
				? soaked_s
				: at->at_s)));
	result->u_ratio = maybe_ratio(
		lab_absorption_uncertainty(&ask, &division, &u, &err), &u, 1);
}

/* ---- water drawn up ---- */

static struct maybe
face_of(const struct work_series_row *row, size_t n)
{
	struct maybe face = {.has = false};

	for (size_t i = 0; i < n; i++)
		if (row[i].reading->water.face_m2.has)
			face = row[i].reading->water.face_m2;
	return face;
}

static enum err_code
reduce_rise(struct reducer *r, const struct work_series_row *row, size_t n,
	struct err *err)
{
	const struct book_specimen *p = &r->site->specimen[row->specimen];
	struct lab_rise_reading *weighed = arena_take(
		r->arena, n, sizeof *weighed);
	struct maybe face = face_of(row, n);
	struct lab_rise ask = {.reading = weighed, .face.m2 = face.value};
	struct lab_rise_division division = {.side = {work_rule_m}};
	const struct book_reading *last = NULL;
	struct err odd = {.code = ERR_NONE};
	struct work_result *result;
	struct lab_risen got;
	enum err_code code;
	double u = 0;

	if (weighed == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		const struct book_water *w = &row[i].reading->water;

		if (!w->mass_kg.has)
			continue;
		weighed[ask.n_reading++] = (struct lab_rise_reading){
			{row[i].at_s}, {w->mass_kg.value}};
		division.mass.kg = either(w->mass_step_kg, work_scale_kg);
		last = row[i].reading;
	}
	if (ask.n_reading < 3 || !face.has)
		return ERR_NONE; /* told when it is read; nothing to give yet */
	code = lab_rise(r->arena, &ask, &got, &odd);
	if (code == ERR_MEMORY)
		return err_memory(err);
	if (code != ERR_NONE) {
		results_fault(r, p, "rise", &odd);
		return ERR_NONE;
	}
	result = results_add_piece(r, CHOOSE_WATER_DRAWN_UP, last,
		row->specimen,
		not_below(got.water_kg_m2_root_s * sqrt(hour_s),
			division.mass.kg / face.value));
	result->slope = got.water_kg_m2_root_s;
	result->n_series = ask.n_reading;
	result->u_ratio = maybe_ratio(
		lab_rise_uncertainty(r->arena, &ask, &division, &u, &odd), &u,
		1);
	return ERR_NONE;
}

/* ---- shortening ---- */

static void
reduce_shrinkage(struct reducer *r, const struct work_series_row *row, size_t n)
{
	const struct book_specimen *p = &r->site->specimen[row->specimen];
	const struct book_length *first = &row[0].reading->length;
	const struct book_length *now = &row[n - 1].reading->length;
	struct lab_shrinkage ask = {.gauge.m = first->length_m,
		.change.m = now->length_m - first->length_m,
		.has_temperature = first->degc.has && now->degc.has,
		.first.degC = first->degc.value,
		.now.degC = now->degc.value,
		.division.m = either(now->step_m, work_stud_m),
		.temperature_division_K = work_temperature_K};
	struct err err = {.code = ERR_NONE};
	struct work_result *result;
	struct lab_shrunk got;

	if (n < 2)
		return;
	if (lab_shrinkage(&ask, &got, &err) != ERR_NONE) {
		results_fault(r, p, "shrinkage", &err);
		return;
	}
	result = results_add_piece(r, CHOOSE_DRYING_SHRINKAGE,
		row[n - 1].reading, row->specimen,
		not_below(-got.drying_ratio, ask.division.m / ask.gauge.m));
	result->n_series = n;
	result->first_m = (struct maybe){true, first->length_m};
	if (ask.has_temperature)
		result->grew_colder_K = (struct maybe){
			true, first->degc.value - now->degc.value};
	result->u_ratio = maybe_ratio(
		ERR_NONE, &got.uncertainty, -got.drying_ratio);
}

/* ---- screws ---- */

static void
reduce_screw(
	struct reducer *r, const struct book_reading *reading, size_t piece)
{
	const struct book_screw *s = &reading->screw;
	const struct interval pull = {s->held_n,
		s->broke_n.has ? s->broke_n.value : (double)INFINITY};
	const double u_N = lab_of_division(either(s->step_n, work_pull_N));
	struct lab_screw ask = {.pull_N = &pull,
		.n_pull = 1,
		.diameter.m = s->diameter_m.value,
		.depth.m = s->depth_m.value,
		.safety = lab_screw_safety};
	struct err odd = {.code = ERR_NONE};
	struct work_result *result = results_add_piece(
		r, CHOOSE_SCREW_PULL, reading, piece, pull);
	struct lab_screwed got;

	result->u_ratio = maybe_ratio(
		ERR_NONE, &u_N, s->broke_n.has ? s->broke_n.value : s->held_n);
	if (!s->diameter_m.has || !s->depth_m.has ||
		lab_screw(&ask, &got, &odd) != ERR_NONE)
		return;
	result->shear_Pa = (struct maybe){true,
		isfinite(got.shear_Pa.high) ? got.shear_Pa.high
					    : got.shear_Pa.low};
	result->like = or_none(text_format(r->arena, "screw %s x %s mm",
		unit_digits(r->arena, s->diameter_m.value * 1000, DIGITS),
		unit_digits(r->arena, s->depth_m.value * 1000, DIGITS)));
}

/* ---- frost ---- */

static void
reduce_frost(struct reducer *r, const struct work_series_row *row, size_t n)
{
	const struct book_specimen *p = &r->site->specimen[row->specimen];
	const struct book_reading *last = row[n - 1].reading;
	const struct book_frost *f = &last->frost;
	const struct mass before = {f->before_kg}, after = {f->after_kg};
	const struct mass step = {either(f->mass_step_kg, work_scale_kg)};
	struct err err = {.code = ERR_NONE};
	struct work_result *result;
	double loss, u = 0;

	if (lab_frost_loss(before, after, &loss, &err) != ERR_NONE) {
		results_fault(r, p, "frost", &err);
		return;
	}
	result = results_add_piece(r, CHOOSE_FROST_LOSS, last, row->specimen,
		not_below(loss, step.kg / before.kg));
	result->n_series = n;
	result->like = or_none(text_format(r->arena, "%.0f cycle%s",
		f->cycles.value, f->cycles.value > 1 ? "s" : ""));
	result->u_ratio = maybe_ratio(
		lab_frost_uncertainty(before, after, step, &u, &err), &u, loss);
}

/* ---- the hot box ---- */

static void
reduce_hot_box(
	struct reducer *r, const struct book_reading *reading, size_t piece)
{
	const struct book_specimen *p = &r->site->specimen[piece];
	const struct book_hot_box *h = &reading->hot_box;
	const double area_m2 = either(
		h->area_m2, p->width_m.value * p->length_m.value);
	const struct lab_hot_box ask = {.power_W = h->power_w,
		.leak_W = either(h->leak_w, 0),
		.area.m2 = area_m2,
		.thickness.m = either(h->thickness_m, p->depth_m.value),
		.warm.degC = h->warm_degc,
		.cold.degC = h->cold_degc};
	const double power_step_W = either(h->power_step_w, work_power_W);
	const struct lab_hot_box_division division = {.power_W = power_step_W,
		.leak_W = h->leak_w.has ? power_step_W : 0,
		.thickness = {work_rule_m},
		.side = {work_rule_m},
		.temperature_K = either(
			h->temperature_step_k, work_temperature_K)};
	struct err err = {.code = ERR_NONE};
	struct lab_hot_boxed got;
	struct work_result *result;
	double u = 0;

	if (lab_hot_box(&ask, &got, &err) != ERR_NONE) {
		results_fault(r, p, "hot box", &err);
		return;
	}
	result = results_add_piece(r, CHOOSE_CONDUCTIVITY, reading, piece,
		(struct interval){
			got.conductivity.W_mK, got.conductivity.W_mK});
	result->u_ratio = maybe_ratio(
		lab_hot_box_uncertainty(&ask, &division, &u, &err), &u, 1);
}

/* ---- the whole ---- */

enum err_code
results_tests(struct reducer *r, struct err *err)
{
	const struct work_site *site = r->site;
	struct work_series s;

	TRY(work_series(r->arena, site, "soaking", &s, err));
	for (size_t i = 0; i < s.n_piece; i++)
		reduce_soaking(r, s.row + s.first[i], s.n_of[i]);
	TRY(work_series(r->arena, site, "rise", &s, err));
	for (size_t i = 0; i < s.n_piece; i++)
		TRY(reduce_rise(r, s.row + s.first[i], s.n_of[i], err));
	TRY(work_series(r->arena, site, "shrinkage", &s, err));
	for (size_t i = 0; i < s.n_piece; i++)
		reduce_shrinkage(r, s.row + s.first[i], s.n_of[i]);
	TRY(work_series(r->arena, site, "frost", &s, err));
	for (size_t i = 0; i < s.n_piece; i++)
		reduce_frost(r, s.row + s.first[i], s.n_of[i]);
	for (size_t i = 0; i < site->n_reading; i++) {
		const struct book_reading *reading = &site->reading[i];

		if (strcmp(reading->kind, "screw") == 0)
			reduce_screw(r, reading, site->reading_specimen[i]);
		if (strcmp(reading->kind, "hot box") == 0)
			reduce_hot_box(r, reading, site->reading_specimen[i]);
	}
	return ERR_NONE;
}

/* ---- only like with like ---- */

struct ways {
	const char *like[WAYS_MOST];
	size_t count[WAYS_MOST];
	size_t n;
};

static void
count_way(struct ways *w, const char *like)
{
	size_t i = 0;

	while (i < w->n && strcmp(w->like[i], like) != 0)
		i++;
	if (i == WAYS_MOST)
		return; /* one so rare cannot be the commonest */
	if (i == w->n) {
		w->like[w->n] = like;
		w->count[w->n++] = 0;
	}
	w->count[i]++;
}

static const char *
commonest_way(const struct reducer *r, enum choose_measure measure)
{
	struct ways w = {.n = 0};
	size_t best = 0;

	for (size_t i = 0; i < r->n_result; i++)
		if (r->result[i].measure == measure &&
			r->result[i].like[0] != '\0')
			count_way(&w, r->result[i].like);
	for (size_t i = 1; i < w.n; i++)
		if (w.count[i] > w.count[best])
			best = i;
	return w.n > 0 ? w.like[best] : "";
}

enum err_code
results_exclude_unlike(struct reducer *r, struct err *err)
{
	static const enum choose_measure measures[] = {
		CHOOSE_WATER_TAKEN_UP, CHOOSE_SCREW_PULL, CHOOSE_FROST_LOSS};

	for (size_t m = 0; m < sizeof measures / sizeof measures[0]; m++) {
		const char *most = commonest_way(r, measures[m]);

		for (size_t i = 0; i < r->n_result; i++) {
			struct work_result *a = &r->result[i];

			if (a->measure != measures[m] || a->excluded ||
				a->like[0] == '\0' ||
				strcmp(a->like, most) == 0)
				continue;
			a->excluded = true;
			a->why = text_format(
				r->arena, "%s, most others %s", a->like, most);
			if (a->why == NULL)
				return err_memory(err);
		}
	}
	return ERR_NONE;
}

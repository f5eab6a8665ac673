/* bench_notes_tests.c - what water, screws, frost and heat say beside the
 * results that are compared. */
#include "work/bench_notes_priv.h"

#include "core/text.h"
#include "core/unit.h"
#include "lab/frost.h"
#include "lab/hot_box.h"
#include "lab/screw.h"
#include "lab/uncertainty.h"
#include "work/result_words.h"
#include "work/series.h"

#include <math.h>
#include <string.h>

static const struct notes_unit share = {0.01, "%"},
			       by_volume = {0.01, "% by volume"},
			       height = {1e-3, "mm"}, force = {1, "N"},
			       resistance = {1, "m2 K/W"};

static double
either(struct maybe first, double otherwise)
{
	return first.has ? first.value : otherwise;
}

/* u by its address, since it is only there once the code is. */
static struct maybe
share_of(enum err_code code, const double *u, double value)
{
	return (struct maybe){code == ERR_NONE && value > 0, *u / value};
}

/* ---- water ---- */

enum { DRY, SOAKED, STATES };

static void
note_soaked(struct noting *t, size_t piece, const double mass[STATES])
{
	const struct book_specimen *p = &t->bench->site.specimen[piece];
	struct lab_density ask = {.mass.kg = mass[SOAKED],
		.has_oven_dry = true,
		.oven_dry_mass.kg = mass[DRY],
		.has_saturated = true,
		.saturated_mass.kg = mass[SOAKED]};
	struct lab_density_division division = {.mass = {work_scale_kg}};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct lab_densities got;
	double u = 0, value;

	if (!(mass[DRY] > 0) || !(mass[SOAKED] > 0) || !work_has_volume(p))
		return;
	work_set_volume(p, &ask, &division);
	if (lab_density(&ask, &got, &odd) != ERR_NONE)
		return;
	value = got.absorption_by_volume_ratio;
	note = notes_add(t, piece, "water taken up",
		(struct interval){value, value}, by_volume,
		share_of(lab_absorption_uncertainty(&ask, &division, &u, &odd),
			&u, 1));
	note->kind = "weighing";
	note->from = text_format(t->arena,
		"%s kg oven dry, %s kg saturated; %s %% by mass",
		notes_digits(t, mass[DRY]), notes_digits(t, mass[SOAKED]),
		notes_digits(t, got.absorption_by_mass_ratio * 100));
}

static enum err_code
note_water(struct noting *t, struct err *err)
{
	const struct work_site *s = &t->bench->site;
	double(*mass)[STATES] = arena_take(
		t->arena, s->n_specimen + 1, sizeof *mass);

	if (mass == NULL)
		return err_memory(err);
	for (size_t i = 0; i < s->n_reading; i++) {
		const struct book_weighing *w = &s->reading[i].weighing;

		if (strcmp(s->reading[i].kind, "weighing") != 0)
			continue;
		if (strcmp(w->state, "oven dry") == 0)
			mass[s->reading_specimen[i]][DRY] = w->mass_kg;
		if (strcmp(w->state, "saturated") == 0)
			mass[s->reading_specimen[i]][SOAKED] = w->mass_kg;
	}
	for (size_t i = 0; i < s->n_specimen; i++)
		note_soaked(t, i, mass[i]);
	return ERR_NONE;
}

static void
note_moisture(struct noting *t, const struct book_reading *r, size_t piece)
{
	const struct mass wet = {r->water.mass_kg.value},
			  dry = {r->water.dry_kg.value},
			  step = {either(r->water.mass_step_kg, work_scale_kg)};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	double ratio, u = 0;

	if (lab_moisture(wet, dry, &ratio, &odd) != ERR_NONE)
		return;
	note = notes_add(t, piece, "moisture", (struct interval){ratio, ratio},
		share,
		share_of(lab_moisture_uncertainty(wet, dry, step, &u, &odd), &u,
			ratio));
	notes_of(note, r);
	note->from = text_format(t->arena,
		"%s kg, %s kg from the oven; water over the dry mass (as ASTM "
		"C566)",
		notes_digits(t, wet.kg), notes_digits(t, dry.kg));
}

/* Every time in the water but the one that is compared. */
static void
note_soaking(
	struct noting *t, const struct work_series_row *row, struct maybe dry)
{
	const struct book_specimen *p = &t->bench->site.specimen[row->specimen];
	const struct book_water *w = &row->reading->water;
	struct lab_density ask = {.mass.kg = w->mass_kg.value,
		.has_oven_dry = true,
		.oven_dry_mass.kg = dry.value,
		.has_saturated = true,
		.saturated_mass.kg = w->mass_kg.value};
	struct lab_density_division division = {
		.mass = {either(w->mass_step_kg, work_scale_kg)}};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct lab_densities got;
	double value, u = 0;

	if (!(row->at_s > 0) || !w->mass_kg.has || !dry.has ||
		!work_has_volume(p))
		return;
	work_set_volume(p, &ask, &division);
	if (lab_density(&ask, &got, &odd) != ERR_NONE)
		return;
	value = got.absorption_by_volume_ratio;
	note = notes_add(t, row->specimen,
		text_format(t->arena, "water taken up in %s",
			work_duration(t->arena, row->at_s)),
		(struct interval){value, value}, by_volume,
		share_of(lab_absorption_uncertainty(&ask, &division, &u, &odd),
			&u, 1));
	notes_of(note, row->reading);
	note->from = text_format(t->arena,
		"dry %s kg, then %s kg; %s %% by mass",
		notes_digits(t, dry.value), notes_digits(t, w->mass_kg.value),
		notes_digits(t, got.absorption_by_mass_ratio * 100));
}

static void
note_wet_edge(struct noting *t, const struct work_series_row *row)
{
	const struct book_water *w = &row->reading->water;
	const double m = w->height_m.value;
	const double u_m = lab_of_division(
		either(w->height_step_m, work_rule_m));
	struct work_bench_note *note;

	if (!w->height_m.has || !(m > 0) || !(row->at_s > 0))
		return;
	note = notes_add(t, row->specimen,
		text_format(t->arena, "height of the wet edge after %s",
			work_duration(t->arena, row->at_s)),
		(struct interval){m, m}, height, share_of(ERR_NONE, &u_m, m));
	notes_of(note, row->reading);
	note->from = text_format(t->arena,
		"%s mm for each root of an hour (common practice, no source)",
		notes_digits(t, m * 1000 / sqrt(row->at_s / 3600)));
}

/* ---- screws ---- */

/* The weakest of the screws of one size in one piece. */
static enum err_code
note_screws(struct noting *t, const struct work_series_row *row, size_t n,
	struct err *err)
{
	const struct book_screw *first = &row->reading->screw;
	struct interval *pull = arena_take(t->arena, n, sizeof *pull);
	struct lab_screw ask = {.pull_N = pull,
		.diameter.m = first->diameter_m.value,
		.depth.m = first->depth_m.value,
		.safety = lab_screw_safety};
	const struct lab_screw_division division = {
		.force = {either(first->step_n, work_pull_N)}};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct lab_screwed got;
	double u = 0;

	if (pull == NULL)
		return err_memory(err);
	for (size_t i = 0; i < n; i++) {
		const struct book_screw *s = &row[i].reading->screw;

		if (s->diameter_m.value != first->diameter_m.value ||
			s->depth_m.value != first->depth_m.value)
			return ERR_NONE; /* of several sizes: no one weakest */
		pull[ask.n_pull++] = (struct interval){s->held_n,
			s->broke_n.has ? s->broke_n.value : (double)INFINITY};
	}
	if (n < 2 || lab_screw(&ask, &got, &odd) != ERR_NONE)
		return ERR_NONE;
	note = notes_add(t, row->specimen, "weakest screw", got.least_N, force,
		(struct maybe){lab_screw_uncertainty(
				       &ask, &division, &u, &odd) == ERR_NONE,
			u});
	notes_of(note, row[n - 1].reading);
	note->from = text_format(t->arena,
		"of %zu pulled%s; over %g that is %s N for one (a household "
		"rule, no source); nothing heavy and nothing overhead by it",
		n, n < 5 ? ", five are advised" : "", lab_screw_safety,
		notes_digits(t, got.working.N));
	return ERR_NONE;
}

/* ---- frost and heat ---- */

static void
note_frost(struct noting *t, const struct book_reading *r, size_t piece)
{
	const struct book_frost *f = &r->frost;
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	double ratio, u = 0;

	if (!f->before_m.has || !f->after_m.has)
		return;
	/* the same form for a size as for a mass */
	const struct mass before = {f->before_m.value},
			  after = {f->after_m.value},
			  step = {either(f->length_step_m, work_calliper_m)};

	if (lab_frost_loss(before, after, &ratio, &odd) != ERR_NONE)
		return;
	note = notes_add(t, piece, "size lost by freezing",
		ratio > 0 ? (struct interval){ratio, ratio}
			  : (struct interval){0, step.kg / before.kg},
		share,
		share_of(lab_frost_uncertainty(before, after, step, &u, &odd),
			&u, ratio));
	notes_of(note, r);
	note->from = text_format(t->arena,
		"%.0f cycles, %s mm before, %s mm after%s", f->cycles.value,
		notes_digits(t, before.kg * 1000),
		notes_digits(t, after.kg * 1000),
		ratio < 0 ? "; it swelled" : "");
}

static void
note_resistance(struct noting *t, const struct book_reading *r, size_t piece)
{
	const struct book_specimen *p = &t->bench->site.specimen[piece];
	const struct book_hot_box *h = &r->hot_box;
	const struct lab_hot_box ask = {.power_W = h->power_w,
		.leak_W = either(h->leak_w, 0),
		.area.m2 = either(
			h->area_m2, p->width_m.value * p->length_m.value),
		.thickness.m = either(h->thickness_m, p->depth_m.value),
		.warm.degC = h->warm_degc,
		.cold.degC = h->cold_degc};
	/* without the thickness, which the resistance leaves out */
	const double power_step_W = either(h->power_step_w, work_power_W);
	const struct lab_hot_box_division division = {.power_W = power_step_W,
		.leak_W = h->leak_w.has ? power_step_W : 0,
		.side = {work_rule_m},
		.temperature_K = either(
			h->temperature_step_k, work_temperature_K)};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct lab_hot_boxed got;
	double u = 0, value;

	if (lab_hot_box(&ask, &got, &odd) != ERR_NONE)
		return;
	value = got.resistance_m2K_W;
	note = notes_add(t, piece, "resistance of the slab",
		(struct interval){value, value}, resistance,
		share_of(lab_hot_box_uncertainty(&ask, &division, &u, &odd), &u,
			1));
	notes_of(note, r);
	note->from = text_format(t->arena,
		"%s W/m2 through it, face to face; the air on both faces "
		"comes on top",
		notes_digits(t, got.flux_W_m2));
}

/* ---- the whole ---- */

static bool
is_compared(const struct work_series_row *row, size_t n, size_t i)
{
	double own = fabs(log(row[i].at_s / 86400));

	for (size_t k = 0; k < n; k++)
		if (row[k].at_s > 0 && row[k].reading->water.mass_kg.has &&
			(fabs(log(row[k].at_s / 86400)) < own ||
				(k < i &&
					fabs(log(row[k].at_s / 86400)) <= own)))
			return false;
	return true;
}

static enum err_code
note_series(struct noting *t, struct err *err)
{
	const struct work_site *site = &t->bench->site;
	struct work_series s;

	TRY(work_series(t->arena, site, "soaking", &s, err));
	for (size_t p = 0; p < s.n_piece; p++) {
		const struct work_series_row *row = s.row + s.first[p];
		struct maybe dry = work_series_dry(site, row, s.n_of[p]);

		for (size_t i = 0; i < s.n_of[p]; i++)
			if (!is_compared(row, s.n_of[p], i))
				note_soaking(t, &row[i], dry);
	}
	TRY(work_series(t->arena, site, "rise", &s, err));
	for (size_t i = 0; i < s.n_row; i++)
		note_wet_edge(t, &s.row[i]);
	TRY(work_series(t->arena, site, "screw", &s, err));
	for (size_t p = 0; p < s.n_piece; p++)
		TRY(note_screws(t, s.row + s.first[p], s.n_of[p], err));
	return ERR_NONE;
}

enum err_code
notes_tests(struct noting *t, struct err *err)
{
	const struct work_site *site = &t->bench->site;

	TRY(note_water(t, err));
	TRY(note_series(t, err));
	for (size_t i = 0; i < site->n_reading; i++) {
		const struct book_reading *r = &site->reading[i];
		size_t piece = site->reading_specimen[i];

		if (strcmp(r->kind, "moisture") == 0)
			note_moisture(t, r, piece);
		if (strcmp(r->kind, "frost") == 0)
			note_frost(t, r, piece);
		if (strcmp(r->kind, "hot box") == 0)
			note_resistance(t, r, piece);
	}
	return ERR_NONE;
}

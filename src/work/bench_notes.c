/* bench_notes.c - censored and after-crack sayings of single pieces. */
#include "work/bench_notes.h"

#include "core/text.h"
#include "core/unit.h"
#include "lab/density.h"
#include "lab/drop.h"
#include "lab/handling.h"
#include "lab/toughness.h"
#include "work/bend.h"

#include <math.h>
#include <string.h>

/* The larger of the usual factors: the bound is one from above. */
static const double jerk_most = 2;

enum { DIGITS = 3, NOTES_A_READING = 2, NOTES_A_PIECE = 2 };

struct noting {
	struct arena *arena;
	const struct work_bench *bench;
	struct work_bench_note *note;
	size_t n;
};

static struct work_bench_note *
add(struct noting *t, size_t specimen, const char *what, struct maybe age_s)
{
	struct work_bench_note *note = &t->note[t->n++];

	*note = (struct work_bench_note){.specimen = specimen,
		.kind = "",
		.code = "",
		.what = what,
		.value = "",
		.from = "",
		.has_age = age_s.has,
		.age_s = age_s.value};
	return note;
}

static const char *
digits(struct noting *t, double value)
{
	const char *text = unit_digits(t->arena, value, DIGITS);

	return text != NULL ? text : "";
}

static const char *
range(struct noting *t, struct interval v, double scale, const char *unit)
{
	const char *low = digits(t, v.low / scale);
	const char *text;

	if (isinf(v.high))
		text = text_format(t->arena, "more than %s%s", low, unit);
	else if (!(v.low > 0))
		text = text_format(t->arena, "less than %s%s",
			digits(t, v.high / scale), unit);
	else
		text = text_format(t->arena, "%s to %s%s", low,
			digits(t, v.high / scale), unit);
	return text != NULL ? text : "";
}

static void
of_reading(struct work_bench_note *note, const struct book_reading *r)
{
	note->kind = r->kind;
	note->code = r->code;
}

/* "1 day", "2.5 days" */
static const char *
days_text(struct noting *t, double age_s)
{
	double days = round(age_s / work_day_s * 10) / 10;

	return text_format(t->arena, "%g day%s", days, days == 1 ? "" : "s");
}

/* ---- snapped before its test ---- */

/* As it lay in the form: its own mass, else the batch's wet density. */
static bool
density_of(const struct work_bench *bench, size_t piece, double *kg_m3)
{
	const struct book_specimen *p = &bench->site.specimen[piece];
	const struct book_batch *b =
		&bench->site.batch[bench->site.specimen_batch[piece]];

	if (p->mass_kg.has)
		*kg_m3 = p->mass_kg.value /
			(p->width_m.value * p->depth_m.value *
				p->length_m.value);
	else if (b->wet_kg_m3.has)
		*kg_m3 = b->wet_kg_m3.value;
	return p->mass_kg.has || b->wet_kg_m3.has;
}

static void
note_snapped(struct noting *t, size_t piece)
{
	const struct book_specimen *p = &t->bench->site.specimen[piece];
	struct lab_handling ask = {.grip = LAB_GRIP_ENDS,
		.length.m = p->length_m.value,
		.width.m = p->width_m.value,
		.depth.m = p->depth_m.value,
		.jerk = jerk_most};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct lab_handled got;

	if (strncmp(p->fate, "snapped", strlen("snapped")) != 0 ||
		!p->length_m.has || !p->width_m.has || !p->depth_m.has ||
		!density_of(t->bench, piece, &ask.density.kg_m3) ||
		lab_handling(&ask, &got, &odd) != ERR_NONE)
		return;
	note = add(t, piece, "bending strength", p->fate_age_s);
	if (p->fate_age_s.has)
		note->what = text_format(t->arena, "bending strength at %s",
			days_text(t, p->fate_age_s.value));
	note->value_si = (struct interval){0, got.stress.Pa};
	note->value = range(t, note->value_si, 1e6, " N/mm2");
	note->from = text_format(t->arena,
		"%s: lifted by its ends with up to twice its weight; a bound "
		"of that age alone, never carried to the test",
		p->fate);
}

/* ---- after the crack ---- */

static void
note_after(struct noting *t, const struct book_reading *r, size_t piece)
{
	const struct book_bending *b = &r->bending;
	double hanger = b->on_rig_included ? 0
		: b->on_rig_kg.has         ? b->on_rig_kg.value
					   : 0;
	struct interval first = {(b->held_kg + hanger) * gravity_m_s2, 0};
	struct interval after = {0, INFINITY}, ratio;
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;

	if (!b->after_held_kg.has || !b->broke_kg.has)
		return;
	first.high = (b->broke_kg.value + hanger) * gravity_m_s2;
	after.low = (b->after_held_kg.value +
			    (b->after_held_kg.value > 0 ? hanger : 0)) *
		gravity_m_s2;
	if (b->after_broke_kg.has)
		after.high = (b->after_broke_kg.value + hanger) * gravity_m_s2;
	note = add(t, piece, "load held after the crack", r->age_s);
	of_reading(note, r);
	note->value_si = after;
	note->value = range(t, after, gravity_m_s2, " kg");
	if (lab_residual_ratio(first, after, &ratio, &odd) == ERR_NONE)
		note->from = text_format(t->arena,
			"%s times that of the first crack (%s)",
			range(t, ratio, 1, ""),
			range(t, first, gravity_m_s2, " kg"));
}

/* The area under the sags that were read, as far as they go. */
static void
note_sags(struct noting *t, const struct book_reading *r, size_t piece)
{
	struct lab_sag *sag;
	struct err odd = {.code = ERR_NONE};
	struct lab_hung *hung = arena_take(t->arena, 1, sizeof *hung);
	struct work_bench_note *note;
	struct energy got;
	size_t n;

	if (hung == NULL ||
		!work_bend_hung(t->arena, t->bench, piece, r->code, hung) ||
		hung->n_sag < 2)
		return;
	n = hung->n_sag;
	sag = arena_take(t->arena, n, sizeof *sag);
	if (sag == NULL)
		return;
	for (size_t i = 0; i < n; i++)
		sag[i] = (struct lab_sag){{hung->sag[i].sag_m},
			{hung->sag[i].load_kg * gravity_m_s2}};
	if (lab_area_under(sag, n, sag[n - 1].deflection, &got, &odd) !=
		ERR_NONE)
		return;
	note = add(t, piece, "energy taken up in bending", r->age_s);
	of_reading(note, r);
	note->value_si = (struct interval){got.J, got.J};
	note->value = text_format(t->arena, "%s J", digits(t, got.J));
	note->from = text_format(t->arena,
		"the area under load and sag up to %s mm, straight between %zu "
		"readings; millimetres before the crack are mostly the "
		"supports",
		digits(t, sag[n - 1].deflection.m * 1000), n);
}

/* ---- blows ---- */

static void
note_blows(struct noting *t, const struct book_reading *r, size_t piece)
{
	const struct book_drop *d = &r->drop;
	bool failed = d->went_through || d->cracked;
	struct lab_blows ask = {.mass.kg = d->bar_kg.value,
		.height.m = d->height_m.value,
		.tube_loss_ratio = d->tube_loss_ratio.has
			? d->tube_loss_ratio.value
			: 0,
		.did_fail = failed};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct interval got;

	if (!d->blows.has || !d->bar_kg.has || !d->height_m.has)
		return;
	ask.n_held = (unsigned)d->blows.value - (failed ? 1U : 0U);
	if (lab_blows(&ask, &got, &odd) != ERR_NONE)
		return;
	note = add(t, piece,
		d->went_through ? "energy until it went through"
				: "energy until it cracked",
		r->age_s);
	of_reading(note, r);
	note->value_si = got;
	note->value = range(t, got, 1, " J");
	note->from = text_format(t->arena,
		"%.0f blows on one place (%s), the dent's depth left out",
		d->blows.value, d->place);
}

/* ---- water ---- */

enum { DRY, SOAKED, STATES };

static void
note_soaked(struct noting *t, size_t piece, const double mass[STATES])
{
	const struct book_specimen *p = &t->bench->site.specimen[piece];
	const struct lab_density ask = {.mass.kg = mass[SOAKED],
		.by = LAB_VOLUME_SIDES,
		.length.m = p->length_m.value,
		.width.m = p->width_m.value,
		.height.m = p->depth_m.value,
		.has_oven_dry = true,
		.oven_dry_mass.kg = mass[DRY],
		.has_saturated = true,
		.saturated_mass.kg = mass[SOAKED]};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct lab_densities got;

	if (!(mass[DRY] > 0) || !(mass[SOAKED] > 0) || !p->length_m.has ||
		!p->width_m.has || !p->depth_m.has ||
		lab_density(&ask, &got, &odd) != ERR_NONE)
		return;
	note = add(t, piece, "water taken up", (struct maybe){.has = false});
	note->kind = "weighing";
	note->value = text_format(t->arena, "%s %% by volume",
		digits(t, got.absorption_by_volume_ratio * 100));
	note->from = text_format(t->arena,
		"%s kg oven dry, %s kg saturated; %s %% by mass",
		digits(t, mass[DRY]), digits(t, mass[SOAKED]),
		digits(t, got.absorption_by_mass_ratio * 100));
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

enum err_code
work_bench_notes(struct arena *arena, const struct work_bench *bench,
	const struct work_bench_note **note, size_t *n, struct err *err)
{
	struct noting t = {.arena = arena, .bench = bench};
	const struct work_site *site = &bench->site;

	t.note = arena_take(arena,
		NOTES_A_PIECE * site->n_specimen +
			NOTES_A_READING * site->n_reading + 1,
		sizeof *t.note);
	if (t.note == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_specimen; i++)
		note_snapped(&t, i);
	for (size_t i = 0; i < site->n_reading; i++) {
		const struct book_reading *r = &site->reading[i];

		if (strcmp(r->kind, "bending") == 0) {
			note_after(&t, r, site->reading_specimen[i]);
			note_sags(&t, r, site->reading_specimen[i]);
		} else if (strcmp(r->kind, "drop") == 0) {
			note_blows(&t, r, site->reading_specimen[i]);
		}
	}
	TRY(note_water(&t, err));
	for (size_t i = 0; i < t.n; i++)
		if (t.note[i].what == NULL || t.note[i].value == NULL ||
			t.note[i].from == NULL)
			return err_memory(err);
	*note = t.note;
	*n = t.n;
	return ERR_NONE;
}

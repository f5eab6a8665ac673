/* bench_notes.c - censored and after-crack sayings of single pieces. */
#include "work/bench_notes.h"

#include "core/text.h"
#include "core/unit.h"
#include "lab/drop.h"
#include "lab/handling.h"
#include "lab/modulus.h"
#include "lab/toughness.h"
#include "lab/uncertainty.h"
#include "work/as_lab.h"
#include "work/bend.h"
#include "work/bench_notes_priv.h"
#include "work/result_words.h"

#include <math.h>
#include <string.h>

/* The larger of the usual factors: the bound is one from above. */
static const double jerk_most = 2;

/* Wet density is weighed in a bucket; common practice, no source. */
static const double bucket_step_kg_m3 = 5;

enum { NOTES_A_READING = 4, NOTES_A_PIECE = 3, DIGITS = 3 };

struct work_bench_note *
notes_add(struct noting *t, size_t specimen, const char *what,
	struct interval value_si, struct notes_unit unit, struct maybe u_ratio)
{
	struct work_bench_note *note = &t->note[t->n++];

	*note = (struct work_bench_note){.specimen = specimen,
		.kind = "",
		.code = "",
		.what = what,
		.value = "",
		.from = "",
		.value_si = value_si,
		.scale = unit.scale,
		.unit = unit.unit,
		.u_ratio = u_ratio};
	note->value = work_value_text(t->arena,
		(struct interval){
			value_si.low / unit.scale, value_si.high / unit.scale},
		unit.unit, u_ratio);
	return note;
}

void
notes_of(struct work_bench_note *note, const struct book_reading *r)
{
	note->kind = r->kind;
	note->code = r->code;
	note->has_age = r->age_s.has;
	note->age_s = r->age_s.value;
}

const char *
notes_digits(struct noting *t, double value)
{
	const char *text = unit_digits(t->arena, value, DIGITS);

	return text != NULL ? text : "";
}

static const struct notes_unit strength = {1e6, "N/mm2"}, energy = {1, "J"},
			       hung = {9.80665, "kg"},
			       stiffness = {1e9, "kN/mm2"};

/* A first-order uncertainty, where it could be had; by its address, since it is
 * only there once the code is. */
static struct maybe
maybe_u(enum err_code code, const double *u)
{
	return (struct maybe){code == ERR_NONE, *u};
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
	const struct lab_handling_division division = {
		.density = {bucket_step_kg_m3},
		.mass = {work_scale_kg},
		.side = {work_rule_m}};
	struct lab_handling ask = {.grip = LAB_GRIP_ENDS,
		.length.m = p->length_m.value,
		.width.m = p->width_m.value,
		.depth.m = p->depth_m.value,
		.jerk = jerk_most};
	struct err odd = {.code = ERR_NONE};
	const struct mass weighed = {p->mass_kg.has ? p->mass_kg.value : 0};
	const char *what = "bending strength";
	struct work_bench_note *note;
	struct lab_handled got;
	double u = 0;

	if (strncmp(p->fate, "snapped", strlen("snapped")) != 0 ||
		!p->length_m.has || !p->width_m.has || !p->depth_m.has ||
		!density_of(t->bench, piece, &ask.density.kg_m3) ||
		lab_handling(&ask, &got, &odd) != ERR_NONE)
		return;
	if (p->fate_age_s.has)
		what = text_format(t->arena, "bending strength at %s",
			days_text(t, p->fate_age_s.value));
	note = notes_add(t, piece, what, (struct interval){0, got.stress.Pa},
		strength,
		maybe_u(lab_handling_uncertainty(
				&ask, weighed, &division, &u, &odd),
			&u));
	note->has_age = p->fate_age_s.has;
	note->age_s = p->fate_age_s.value;
	note->from = text_format(t->arena,
		"%s: lifted by its ends with up to twice its weight; a bound "
		"of that age alone, never carried to the test",
		p->fate);
}

/* ---- after the crack ---- */

static const char *
range(struct noting *t, struct interval v, double scale, const char *unit)
{
	const char *low = notes_digits(t, v.low / scale);
	const char *text;

	if (isinf(v.high))
		text = text_format(t->arena, "more than %s%s", low, unit);
	else if (!(v.low > 0))
		text = text_format(t->arena, "less than %s%s",
			notes_digits(t, v.high / scale), unit);
	else
		text = text_format(t->arena, "%s to %s%s", low,
			notes_digits(t, v.high / scale), unit);
	return text != NULL ? text : "";
}

/* What the weights of that rig are read to. */
static double
scale_step_kg(const struct noting *t, const struct book_reading *r)
{
	const struct work_rig_known known = work_rig_known(
		&t->bench->site, r->rig_id);

	return work_flexure_division(&known).weight.kg;
}

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
	double after_kg, step_kg = scale_step_kg(t, r);

	if (!b->after_held_kg.has || !b->broke_kg.has)
		return;
	first.high = (b->broke_kg.value + hanger) * gravity_m_s2;
	after.low = (b->after_held_kg.value +
			    (b->after_held_kg.value > 0 ? hanger : 0)) *
		gravity_m_s2;
	if (b->after_broke_kg.has)
		after.high = (b->after_broke_kg.value + hanger) * gravity_m_s2;
	after_kg = (isinf(after.high) ? after.low : after.high) / gravity_m_s2;
	/* the beam's load and the hanger's are weighed apart */
	note = notes_add(t, piece, "load held after the crack", after, hung,
		(struct maybe){after_kg > 0,
			lab_of_division(step_kg) * (hanger > 0 ? sqrt(2) : 1) /
				after_kg});
	notes_of(note, r);
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
	struct lab_hung *load = arena_take(t->arena, 1, sizeof *load);
	const struct lab_sag_division division = {
		.load = {scale_step_kg(t, r) * gravity_m_s2},
		.deflection = {work_rule_m}};
	struct work_bench_note *note;
	struct energy got;
	double u = 0;
	size_t n;

	if (load == NULL ||
		!work_bend_hung(t->arena, t->bench, piece, r->code, load) ||
		load->n_sag < 2)
		return;
	n = load->n_sag;
	sag = arena_take(t->arena, n, sizeof *sag);
	if (sag == NULL)
		return;
	for (size_t i = 0; i < n; i++)
		sag[i] = (struct lab_sag){{load->sag[i].sag_m},
			{load->sag[i].load_kg * gravity_m_s2}};
	if (lab_area_under(sag, n, sag[n - 1].deflection, &got, &odd) !=
		ERR_NONE)
		return;
	note = notes_add(t, piece, "energy taken up in bending",
		(struct interval){got.J, got.J}, energy,
		maybe_u(lab_area_uncertainty(sag, n, &division, &u, &odd), &u));
	notes_of(note, r);
	note->from = text_format(t->arena,
		"the area under load and sag up to %s mm, straight between %zu "
		"readings; millimetres before the crack are mostly the "
		"supports",
		notes_digits(t, sag[n - 1].deflection.m * 1000), n);
}

/* ---- stiffness ---- */

/* The last sag that was read before the crack, or the fall; NULL: none. */
static const struct lab_hung_sag *
sag_before_crack(const struct lab_hung *load)
{
	const struct lab_hung_sag *last = NULL;

	for (size_t i = 0; i < load->n_sag; i++)
		if (load->sag[i].sag_m > 0 && load->sag[i].load_kg > 0 &&
			load->sag[i].load_kg <= load->held_kg)
			last = &load->sag[i];
	return last;
}

static void
note_modulus(struct noting *t, const struct book_reading *r, size_t piece)
{
	const struct book_specimen *p = &t->bench->site.specimen[piece];
	const struct lab_flexure f = work_as_flexure(&r->bending, p);
	const struct work_rig_known known = work_rig_known(
		&t->bench->site, r->rig_id);
	const struct lab_flexure_division read = work_flexure_division(&known);
	const struct lab_modulus_division division = {.span = read.span,
		.width = read.width,
		.depth = read.depth,
		.deflection = {work_rule_m},
		.load = {read.weight.kg * gravity_m_s2}};
	struct lab_hung *load = arena_take(t->arena, 1, sizeof *load);
	const struct lab_hung_sag *sag;
	struct lab_modulus ask = {.loading = f.loading,
		.span = f.span,
		.width = f.width,
		.depth = f.depth};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct stress got;
	double u = 0;

	if (load == NULL ||
		!work_bend_hung(t->arena, t->bench, piece, r->code, load))
		return;
	sag = sag_before_crack(load);
	if (sag == NULL)
		return;
	ask.load.N = sag->load_kg * gravity_m_s2;
	ask.deflection.m = sag->sag_m;
	if (lab_modulus(&ask, &got, &odd) != ERR_NONE)
		return;
	note = notes_add(t, piece, "modulus of elasticity",
		(struct interval){got.Pa, got.Pa}, stiffness,
		maybe_u(lab_modulus_uncertainty(&ask, &division, &u, &odd),
			&u));
	notes_of(note, r);
	note->from = text_format(t->arena,
		"sag of %s mm at %s kg before the crack, beam theory; the "
		"supports' own give is in it, and mostly it is larger than "
		"the beam's",
		notes_digits(t, sag->sag_m * 1000),
		notes_digits(t, sag->load_kg));
}

/* ---- blows ---- */

static void
note_blows(struct noting *t, const struct book_reading *r, size_t piece)
{
	const struct book_drop *d = &r->drop;
	const struct work_rig_known known = work_rig_known(
		&t->bench->site, r->rig_id);
	const struct lab_drop_division division = work_drop_division(d, &known);
	bool failed = d->went_through || d->cracked;
	struct lab_blows ask = {.mass.kg = d->bar_kg.value,
		.height.m = d->height_m.value,
		.did_fail = failed};
	struct err odd = {.code = ERR_NONE};
	struct work_bench_note *note;
	struct interval got;
	double u = 0;

	if (!d->blows.has || !d->bar_kg.has || !d->height_m.has)
		return;
	ask.tube_loss_ratio = work_as_drop(
		d, &t->bench->site.specimen[piece], &known)
				      .tube_loss_ratio;
	ask.n_held = (unsigned)d->blows.value - (failed ? 1U : 0U);
	if (lab_blows(&ask, &got, &odd) != ERR_NONE)
		return;
	note = notes_add(t, piece,
		d->went_through ? "energy until it went through"
				: "energy until it cracked",
		got, energy,
		maybe_u(lab_blows_uncertainty(
				&ask, division.mass, division.height, &u, &odd),
			&u));
	notes_of(note, r);
	note->from = text_format(t->arena,
		"%.0f blows on one place (%s), the dent's depth left out",
		d->blows.value, d->place);
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
			note_modulus(&t, r, site->reading_specimen[i]);
		} else if (strcmp(r->kind, "drop") == 0) {
			note_blows(&t, r, site->reading_specimen[i]);
		}
	}
	TRY(notes_tests(&t, err));
	for (size_t i = 0; i < t.n; i++)
		if (t.note[i].what == NULL || t.note[i].value == NULL ||
			t.note[i].from == NULL)
			return err_memory(err);
	*note = t.note;
	*n = t.n;
	return ERR_NONE;
}

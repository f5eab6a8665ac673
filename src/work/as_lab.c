/* as_lab.c - rows of the book as lab takes them. */
#include "work/as_lab.h"

#include <math.h>
#include <string.h>

static bool
is(const char *a, const char *b)
{
	return strcmp(a, b) == 0;
}

static double
or_zero(struct maybe m)
{
	return m.has ? m.value : 0;
}

static double
rule_of(const struct work_rig_known *known)
{
	return known->rig != NULL && known->rig->rule_step_m.has
		? known->rig->rule_step_m.value
		: work_rule_m;
}

static double
scale_of(const struct work_rig_known *known)
{
	return known->rig != NULL && known->rig->scale_step_kg.has
		? known->rig->scale_step_kg.value
		: work_scale_kg;
}

/* ---- bending ---- */

struct lab_flexure
work_as_flexure(const struct book_bending *b, const struct book_specimen *piece)
{
	double hanger = or_zero(b->on_rig_kg);
	double in_load = b->on_rig_included ? hanger : 0;
	struct lab_flexure f = {
		.loading = is(b->loading, "third") ? LAB_THIRD : LAB_CENTRE,
		.span.m = or_zero(b->span_m),
		.strap.m = or_zero(b->strap_m),
		.width.m = or_zero(piece->width_m),
		.depth.m = or_zero(piece->depth_m),
		.on_rig.kg = hanger,
		.held.kg = fmax(0, b->held_kg - in_load),
		.did_break = b->broke_kg.has,
		.has_beam = piece->mass_kg.has && piece->length_m.has,
		.beam_mass.kg = or_zero(piece->mass_kg),
		.beam_length.m = or_zero(piece->length_m)};

	if (f.did_break)
		f.broke_at.kg = fmax(0, b->broke_kg.value - in_load);
	return f;
}

struct lab_flexure_division
work_flexure_division(const struct work_rig_known *known)
{
	return (struct lab_flexure_division){.span = {rule_of(known)},
		.width = {rule_of(known)},
		.depth = {rule_of(known)},
		.weight = {scale_of(known)}};
}

/* ---- drop ---- */

static enum lab_tip
tip_of(const char *word)
{
	if (is(word, "flat"))
		return LAB_TIP_FLAT;
	return is(word, "cone") ? LAB_TIP_CONE : LAB_TIP_BALL;
}

struct lab_drop
work_as_drop(const struct book_drop *d, const struct book_specimen *piece,
	const struct work_rig_known *known)
{
	double loss = or_zero(d->tube_loss_ratio);

	if (!d->tube_loss_ratio.has && known->speed != NULL)
		loss = known->tube_loss_ratio;
	return (struct lab_drop){.mass.kg = or_zero(d->bar_kg),
		.height.m = or_zero(d->height_m),
		.through = d->went_through,
		.has_depth = d->dent_m.has,
		.depth.m = or_zero(d->dent_m),
		.has_thickness = piece->depth_m.has,
		.thickness.m = or_zero(piece->depth_m),
		.tube_loss_ratio = loss,
		.tip = tip_of(d->tip),
		.tip_diameter.m = or_zero(d->tip_diameter_m),
		.tip_angle_rad = or_zero(d->tip_angle_rad)};
}

struct lab_drop_division
work_drop_division(
	const struct book_drop *d, const struct work_rig_known *known)
{
	return (struct lab_drop_division){.mass = {scale_of(known)},
		.height = {work_drop_height_m},
		.depth = {d->dent_step_m.has ? d->dent_step_m.value
					     : work_calliper_m},
		.tip_diameter = {work_calliper_m}};
}

/* ---- crushing ---- */

static bool
is_by_gauge(const struct book_crushing *c)
{
	return c->gauge_pa.has && !c->load_n.has && !c->held_n.has &&
		!c->broke_n.has;
}

enum err_code
work_crushing_load(const struct book_crushing *c,
	const struct work_rig_known *known, struct interval *load_n,
	struct err *err)
{
	double half = or_zero(c->gauge_step_pa) / 2;
	double ratio = known->corrects ? known->force_ratio : 1;
	struct lab_jack jack = {.zero.Pa = or_zero(c->gauge_zero_pa),
		.bore.m = or_zero(c->ram_diameter_m)};
	struct force low, high;

	if (c->held_n.has || c->broke_n.has) {
		load_n->low = or_zero(c->held_n);
		load_n->high = c->broke_n.has ? c->broke_n.value
					      : (double)INFINITY;
		return ERR_NONE;
	}
	if (c->load_n.has) {
		load_n->low = load_n->high = c->load_n.value;
		return ERR_NONE;
	}
	jack.pressure.Pa = fmax(jack.zero.Pa, c->gauge_pa.value - half);
	TRY(lab_jack_force(&jack, &low, err));
	jack.pressure.Pa = c->gauge_pa.value + half;
	TRY(lab_jack_force(&jack, &high, err));
	*load_n = (struct interval){low.N * ratio, high.N * ratio};
	return ERR_NONE;
}

struct lab_crush
work_as_crush(const struct book_crushing *c, const struct book_specimen *piece)
{
	struct lab_crush ask = {
		.shape = is(piece->form, "cylinder") ? LAB_CYLINDER : LAB_PRISM,
		.width.m = or_zero(piece->width_m),
		.depth.m = piece->length_m.has ? piece->length_m.value
					       : or_zero(piece->width_m),
		.diameter.m = or_zero(piece->diameter_m),
		.height.m = or_zero(piece->depth_m),
		.standard = LAB_SHAPE_NONE};

	if (c->plate_m.has)
		ask.depth.m = c->plate_m.value;
	return ask;
}

struct lab_crush_division
work_crush_division(const struct work_rig_known *known)
{
	return (struct lab_crush_division){.width = {rule_of(known)},
		.depth = {rule_of(known)},
		.diameter = {rule_of(known)}};
}

double
work_gauge_u(const struct book_crushing *c, const struct work_rig_known *known)
{
	return is_by_gauge(c) && known->load != NULL ? known->force_u : 0;
}

/* results.c - reduces every reading by the function of its test. */
#include "work/results_priv.h"

#include "core/text.h"
#include "lab/crush.h"
#include "lab/drop.h"
#include "lab/flexure.h"
#include "lab/rig.h"
#include "lab/uncertainty.h"
#include "work/as_lab.h"
#include "work/series.h"

#include <math.h>
#include <string.h>

static const double day_s = 86400.0;

/* Ages are told apart by whole days up to ten years. */
enum { AGE_DAYS = 3653 };

/* Settling is read with a ruler in a mould and written to the whole percent. */
static const double settling_half_step = 0.005;

/* Where nobody dried a piece, its moisture at the test is taken to lie between
 * nothing and this; common practice, no source. */
static const double moisture_most = 0.10;

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

struct work_result *
results_add(struct reducer *r, enum choose_measure measure, size_t batch,
	struct interval value)
{
	struct work_result *result = &r->result[r->n_result++];

	*result = (struct work_result){.measure = measure,
		.batch = batch,
		.mix = r->site->batch_mix[batch],
		.place = "",
		.value = value,
		.like = "",
		.lacks = "",
		.why = ""};
	if (r->validity[batch].excluded) {
		result->excluded = true;
		result->why = r->validity[batch].reason;
	}
	return result;
}

struct work_result *
results_add_piece(struct reducer *r, enum choose_measure measure,
	const struct book_reading *reading, size_t specimen,
	struct interval value)
{
	struct work_result *result = results_add(
		r, measure, r->site->specimen_batch[specimen], value);

	result->has_specimen = true;
	result->specimen = specimen;
	if (reading != NULL) {
		result->age_s = reading->age_s;
		result->has_reading = true;
		result->reading = (size_t)(reading - r->site->reading);
	}
	return result;
}

void
results_fault(struct reducer *r, const struct book_specimen *specimen,
	const char *kind, const struct err *err)
{
	const char *text = text_format(
		r->arena, "%s, %s: %s", specimen->code, kind, err->text);

	r->fault[r->n_fault++] = text != NULL ? text : specimen->code;
}

static const char *
lacks(struct reducer *r, const struct lab_rig *rig)
{
	struct text text;

	if (!rig->in_itself && rig->has_step)
		return "";
	text_init(&text, r->arena);
	for (size_t i = 0; i < rig->n_missing && i < 2; i++)
		text_addf(
			&text, "%s%s", i > 0 ? " " : "", rig->missing[i].adds);
	return text_failed(&text) ? "" : text.bytes;
}

static struct maybe
open_bending(const struct lab_flexure *f, const struct work_rig_known *known)
{
	const struct lab_flexure_division division = work_flexure_division(
		known);
	struct err odd = {.code = ERR_NONE};
	struct maybe u = {.has = false};

	u.has = lab_flexure_uncertainty(f, &division, &u.value, &odd) ==
		ERR_NONE;
	return u;
}

/* Of a load in itself: weights and hanger weighed apart. */
static struct maybe
open_load(const struct lab_flexure *f, const struct work_rig_known *known)
{
	double step_kg = work_flexure_division(known).weight.kg;
	double kg = (f->did_break ? f->broke_at.kg : f->held.kg) + f->on_rig.kg;
	double times = f->on_rig.kg > 0 ? sqrt(2) : 1;

	return (struct maybe){kg > 0, times * lab_of_division(step_kg) / kg};
}

static void
reduce_bending(struct reducer *r, const struct book_reading *reading,
	size_t index, struct err *err)
{
	const struct book_specimen *s = &r->site->specimen[index];
	const struct book_bending *b = &reading->bending;
	const struct lab_bending_known known = {.span = b->span_m.has,
		.width = s->width_m.has,
		.depth = s->depth_m.has,
		.held = true,
		.broke = b->broke_kg.has,
		.on_rig = b->on_rig_kg.has,
		.strap = b->strap_m.has,
		.beam_mass = s->mass_kg.has,
		.beam_length = s->length_m.has};
	struct lab_rig rig = lab_rig_bending(&known);
	const struct lab_flexure f = work_as_flexure(b, s);
	const struct work_rig_known on = work_rig_known(
		r->site, reading->rig_id);
	struct lab_flexed got;
	struct interval value;
	struct work_result *result;

	if (rig.in_itself) {
		value.low = (f.held.kg + f.on_rig.kg) * gravity_m_s2;
		value.high = f.did_break
			? (f.broke_at.kg + f.on_rig.kg) * gravity_m_s2
			: (double)INFINITY;
		if (f.held.kg <= 0)
			value.low = 0;
	} else {
		if (lab_flexure(&f, &got, err) != ERR_NONE) {
			results_fault(r, s, "bending", err);
			return;
		}
		value = got.has_self_weight ? got.rupture_with_self_weight_Pa
					    : got.rupture_Pa;
	}
	result = results_add_piece(r,
		rig.in_itself ? CHOOSE_BREAKING_LOAD : CHOOSE_BENDING_STRENGTH,
		reading, index, value);
	result->in_itself = rig.in_itself;
	result->lacks = lacks(r, &rig);
	result->u_ratio = rig.in_itself ? open_load(&f, &on)
					: open_bending(&f, &on);
}

static struct maybe
open_drop(const struct lab_drop *ask, const struct book_drop *d,
	const struct work_rig_known *known)
{
	const struct lab_drop_division division = work_drop_division(d, known);
	struct err odd = {.code = ERR_NONE};
	struct maybe u = {.has = false};

	u.has = lab_drop_uncertainty(ask, &division, &u.value, &odd) ==
		ERR_NONE;
	return u;
}

static void
reduce_dent(struct reducer *r, const struct book_reading *reading, size_t index)
{
	const struct book_drop *d = &reading->drop;
	const struct book_specimen *s = &r->site->specimen[index];
	const struct work_rig_known on = work_rig_known(
		r->site, reading->rig_id);
	const struct lab_drop_division division = work_drop_division(d, &on);
	struct interval value = {
		.low = or_zero(d->dent_m), .high = or_zero(d->dent_m)};
	struct work_result *result;

	if (d->went_through) {
		value.low = s->depth_m.has ? s->depth_m.value
					   : or_zero(d->dent_m);
		value.high = INFINITY;
	}
	if (!(value.high > 0))
		return;
	result = results_add_piece(r, CHOOSE_DENT, reading, index, value);
	result->place = d->place;
	if (!d->went_through)
		result->u_ratio = (struct maybe){true,
			lab_of_division(division.depth.m) / d->dent_m.value};
}

static void
reduce_drop(struct reducer *r, const struct book_reading *reading, size_t index,
	struct err *err)
{
	const struct book_specimen *s = &r->site->specimen[index];
	const struct book_drop *d = &reading->drop;
	const struct work_rig_known on = work_rig_known(
		r->site, reading->rig_id);
	bool cone = is(d->tip, "cone");
	const struct lab_drop_known known = {.mass = d->bar_kg.has,
		.height = d->height_m.has,
		.depth = d->dent_m.has,
		.through = d->went_through,
		.thickness = s->depth_m.has,
		.tip_shape = d->tip[0] != '\0',
		.tip_diameter = d->tip_diameter_m.has,
		.tip_angle = d->tip_angle_rad.has,
		.tip_is_cone = cone,
		.tube_loss = d->tube_loss_ratio.has || on.speed != NULL};
	struct lab_rig rig = lab_rig_drop(&known);
	const struct lab_drop ask = work_as_drop(d, s, &on);
	struct lab_dropped got;
	struct work_result *result;

	reduce_dent(r, reading, index);
	if (rig.in_itself || !rig.is_usable) {
		if (r->n_result > 0)
			r->result[r->n_result - 1].lacks = lacks(r, &rig);
		return;
	}
	if (lab_drop(&ask, &got, err) != ERR_NONE) {
		results_fault(r, s, "drop", err);
		return;
	}
	result = results_add_piece(r, CHOOSE_CRUSHING_ENERGY, reading, index,
		got.crushing_energy_Pa);
	result->place = d->place;
	result->u_ratio = open_drop(&ask, d, &on);
}

/* The sizes, and what the dead load left open of the gauge. */
static struct maybe
open_crushing(const struct lab_crush *ask, const struct book_crushing *c,
	const struct work_rig_known *known)
{
	const struct lab_crush_division division = work_crush_division(known);
	struct err odd = {.code = ERR_NONE};
	struct maybe u = {.has = false};

	u.has = lab_crush_uncertainty(ask, &division, &u.value, &odd) ==
		ERR_NONE;
	u.value = hypot(u.value, work_gauge_u(c, known));
	return u;
}

/* Of a load in itself: what the dead load left open of the gauge. */
static struct maybe
open_gauge(const struct book_crushing *c, const struct work_rig_known *known)
{
	double u = work_gauge_u(c, known);

	return (struct maybe){u > 0, u};
}

static void
reduce_crushing(struct reducer *r, const struct book_reading *reading,
	size_t index, struct err *err)
{
	const struct book_specimen *s = &r->site->specimen[index];
	const struct book_crushing *c = &reading->crushing;
	const struct work_rig_known on = work_rig_known(
		r->site, reading->rig_id);
	struct lab_crush ask = work_as_crush(c, s);
	bool has_area = ask.shape == LAB_CYLINDER ? s->diameter_m.has
						  : s->width_m.has;
	struct lab_crushed got;
	struct interval load;
	struct work_result *result;

	if (work_crushing_load(c, &on, &load, err) != ERR_NONE) {
		results_fault(r, s, "crushing", err);
		return;
	}
	if (!has_area || !s->depth_m.has) {
		result = results_add_piece(
			r, CHOOSE_CRUSHING_LOAD, reading, index, load);
		result->in_itself = true;
		result->u_ratio = open_gauge(c, &on);
		result->lacks = "The sizes of the piece were not written down: "
				"measuring them would give its strength.";
		return;
	}
	ask.load_N = load;
	if (lab_crush(&ask, &got, err) != ERR_NONE) {
		results_fault(r, s, "crushing", err);
		return;
	}
	result = results_add_piece(
		r, CHOOSE_CRUSHING_STRENGTH, reading, index, got.stress_Pa);
	result->u_ratio = open_crushing(&ask, c, &on);
}

static void
reduce_other(
	struct reducer *r, const struct book_reading *reading, size_t index)
{
	const struct book_other *o = &reading->other;
	struct interval value = {o->value, o->value};

	if (!(o->value > 0))
		return;
	if (is(o->quantity, "screw_pull"))
		(void)results_add_piece(
			r, CHOOSE_SCREW_PULL, reading, index, value);
	else if (is(o->quantity, "drying_shrinkage"))
		(void)results_add_piece(
			r, CHOOSE_DRYING_SHRINKAGE, reading, index, value);
	else if (is(o->quantity, "water_taken_up_by_volume"))
		(void)results_add_piece(
			r, CHOOSE_WATER_TAKEN_UP, reading, index, value);
}

static void
reduce_reading(
	struct reducer *r, const struct book_reading *reading, size_t index)
{
	struct err err = {.code = ERR_NONE};

	if (is(reading->kind, "bending"))
		reduce_bending(r, reading, index, &err);
	else if (is(reading->kind, "drop"))
		reduce_drop(r, reading, index, &err);
	else if (is(reading->kind, "crushing"))
		reduce_crushing(r, reading, index, &err);
	else if (is(reading->kind, "other"))
		reduce_other(r, reading, index);
}

/* What is known of the water in a piece when it was weighed. */
struct dried {
	double kg; /* oven-dry mass of the whole piece; 0: not dried */
	const struct book_reading *moisture; /* of it or of a lump of it */
};

/* One pass over the readings. */
static enum err_code
find_dried(struct reducer *r, const struct dried **out, struct err *err)
{
	const struct work_site *site = r->site;
	struct dried *dried = arena_take(
		r->arena, site->n_specimen, sizeof *dried);

	if (dried == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_reading; i++) {
		const struct book_reading *of = &site->reading[i];
		struct dried *d = &dried[site->reading_specimen[i]];

		if (is(of->kind, "weighing") &&
			is(of->weighing.state, "oven dry"))
			d->kg = of->weighing.mass_kg;
		if (is(of->kind, "moisture") && of->water.mass_kg.has &&
			of->water.dry_kg.has)
			d->moisture = of;
	}
	*out = dried;
	return ERR_NONE;
}

/* Of the density; where a moisture was read, of that too. */
static struct maybe
open_density(const struct lab_density *ask,
	const struct lab_density_division *division,
	const struct book_reading *moisture)
{
	struct err odd = {.code = ERR_NONE};
	struct maybe u = {.has = false};
	double of_moisture;

	u.has = lab_density_uncertainty(ask, division, &u.value, &odd) ==
		ERR_NONE;
	if (!u.has || moisture == NULL)
		return u;
	const struct book_water *w = &moisture->water;
	const struct mass step = {
		w->mass_step_kg.has ? w->mass_step_kg.value : work_scale_kg};
	const struct mass wet = {w->mass_kg.value}, dry = {w->dry_kg.value};

	if (lab_moisture_uncertainty(wet, dry, step, &of_moisture, &odd) ==
		ERR_NONE)
		u.value = hypot(u.value, of_moisture * dry.kg / wet.kg);
	return u;
}

static void
reduce_density(struct reducer *r, size_t index, const struct dried *dried)
{
	const struct book_specimen *s = &r->site->specimen[index];
	const struct book_reading *moisture = NULL;
	struct lab_density ask = {.mass.kg = or_zero(s->mass_kg)};
	struct lab_density_division division = {.mass = {work_scale_kg}};
	struct err err = {.code = ERR_NONE};
	struct lab_densities got;
	struct interval value;
	struct work_result *result;

	if (!s->mass_kg.has || !work_has_volume(s) || !is(s->fate, "tested"))
		return;
	work_set_volume(s, &ask, &division);
	if (lab_density(&ask, &got, &err) != ERR_NONE) {
		results_fault(r, s, "weighing", &err);
		return;
	}
	value.low = value.high = got.density.kg_m3;
	if (dried->kg > 0) {
		value.low = value.high = dried->kg / got.volume.m3;
	} else if (dried->moisture != NULL) {
		moisture = dried->moisture;
		value.low *= moisture->water.dry_kg.value /
			moisture->water.mass_kg.value;
		value.high = value.low;
	} else if (s->moisture_ratio.has) {
		value.low = value.high = got.density.kg_m3 /
			(1 + s->moisture_ratio.value);
	} else {
		value.low /= 1 + moisture_most;
	}
	result = results_add_piece(r, CHOOSE_DRY_DENSITY, NULL, index, value);
	result->u_ratio = open_density(&ask, &division, moisture);
	result->dry_kg = dried->kg;
	result->moisture = moisture;
	if (value.low < value.high)
		result->lacks = "Weighed as tested: drying one piece a mix in "
				"an oven would give the dry weight.";
}

static void
reduce_settling(struct reducer *r)
{
	const struct work_site *site = r->site;

	for (size_t i = 0; i < site->n_settling; i++) {
		const struct book_settling *s = &site->settling[i];
		struct interval value = {
			fmax(0, s->loss_ratio - settling_half_step),
			s->loss_ratio + settling_half_step};
		struct work_result *result;
		size_t batch = site->settling_batch[i];

		if (fabs(s->after_s - day_s) > 1 || !(value.high > 0))
			continue;
		result = results_add(r, CHOOSE_SETTLING_LOSS, batch, value);
		/* A rule about settling must not hide the settling itself. */
		if (!site->batch[batch].practice) {
			result->excluded = false;
			result->why = "";
		}
	}
}

/* The whole day of an age; pieces older than the last count with it. */
static size_t
age_day(struct maybe age_s)
{
	double day = round(age_s.value / day_s);

	return day < AGE_DAYS ? (size_t)day : AGE_DAYS - 1;
}

static size_t
commonest(const size_t *count, size_t n)
{
	size_t best = 0;

	for (size_t i = 1; i < n; i++)
		if (count[i] > count[best])
			best = i;
	return best;
}

static const char *
other_age(struct reducer *r, size_t day, size_t most_day)
{
	const char *why = text_format(r->arena,
		"tested at %zu days, most others at %zu", day, most_day);

	return why != NULL ? why : "tested at another age";
}

/* A reading more than a tenth away from the age of most readings of its measure
 * is left out of it. */
static enum err_code
exclude_other_ages(
	struct reducer *r, enum choose_measure measure, struct err *err)
{
	struct arena_mark mark = arena_mark(r->arena);
	size_t *count = arena_take(r->arena, AGE_DAYS, sizeof *count);
	size_t most_day;

	if (count == NULL)
		return err_memory(err);
	for (size_t i = 0; i < r->n_result; i++)
		if (r->result[i].measure == measure && r->result[i].age_s.has)
			count[age_day(r->result[i].age_s)]++;
	most_day = commonest(count, AGE_DAYS);
	arena_back(r->arena, mark);
	for (size_t i = 0; i < r->n_result; i++) {
		struct work_result *a = &r->result[i];
		size_t day = age_day(a->age_s);
		size_t off = day > most_day ? day - most_day : most_day - day;

		if (a->measure != measure || !a->age_s.has || a->excluded ||
			10 * off <= most_day)
			continue;
		a->excluded = true;
		a->why = other_age(r, day, most_day);
	}
	return ERR_NONE;
}

static struct choose_batch_facts
batch_facts(const struct book_batch *b, const struct book_mix *m)
{
	return (struct choose_batch_facts){.practice = b->practice,
		.wet_kg_m3 = b->wet_kg_m3,
		.wet_target_kg_m3 = m->wet_target_kg_m3,
		.foam_start_kg_m3 = b->foam_start_kg_m3,
		.foam_middle_kg_m3 = b->foam_middle_kg_m3,
		.foam_end_kg_m3 = b->foam_end_kg_m3,
		.foam_target_kg_m3 = m->foam_target_kg_m3,
		.blending_s = b->blending_s,
		.blending_target_s = m->blending_target_s};
}

static enum err_code
judge_batches(struct reducer *r, struct err *err)
{
	const struct work_site *site = r->site;
	struct choose_batch_facts *facts = arena_take(
		r->arena, site->n_batch, sizeof *facts);
	struct choose_rule *rule = arena_take(
		r->arena, site->n_rule, sizeof *rule);
	struct choose_validity *validity = arena_take(
		r->arena, site->n_batch, sizeof *validity);
	size_t n_rule = 0;

	if (facts == NULL || rule == NULL || validity == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_rule; i++) {
		const struct book_rule *b = &site->rule[i];

		rule[n_rule] = (struct choose_rule){.above = b->above,
			.excludes = is(b->action, "exclude"),
			.code = b->code,
			.reason = b->reason};
		if (choose_rule_find(b->measure, &rule[n_rule].measure))
			n_rule++;
	}
	for (size_t i = 0; i < site->n_batch; i++)
		facts[i] = batch_facts(
			&site->batch[i], &site->mix[site->batch_mix[i]]);
	for (size_t i = 0; i < site->n_settling; i++)
		if (fabs(site->settling[i].after_s - day_s) <= 1)
			facts[site->settling_batch[i]].loss_24h_ratio =
				(struct maybe){
					true, site->settling[i].loss_ratio};
	for (size_t i = 0; i < site->n_specimen; i++) {
		struct maybe met = site->specimen[i].moisture_ratio;
		struct maybe *most =
			&facts[site->specimen_batch[i]].moisture_ratio;

		if (met.has && (!most->has || met.value > most->value))
			*most = met;
	}
	for (size_t i = 0; i < site->n_batch; i++)
		validity[i] = choose_validity(
			r->arena, &facts[i], rule, n_rule);
	r->validity = validity;
	return ERR_NONE;
}

static void
count_fate(struct work_fates *f, const char *fate)
{
	f->n_cast++;
	if (is(fate, "tested"))
		f->n_tested++;
	else if (is(fate, "waiting"))
		f->n_waiting++;
	else if (is(fate, "accident"))
		f->n_accident++;
	else if (is(fate, "not filled"))
		f->n_not_filled++;
	else if (is(fate, "set aside"))
		f->n_set_aside++;
	else
		f->n_snapped++;
	f->n_at_risk = f->n_cast - f->n_accident - f->n_not_filled;
}

static enum err_code
count_fates(struct reducer *r, struct work_results *out, struct err *err)
{
	const struct work_site *site = r->site;
	struct work_fates *all = arena_take(r->arena, site->n_mix, sizeof *all);
	struct work_fates *beams = arena_take(
		r->arena, site->n_mix, sizeof *beams);

	if (all == NULL || beams == NULL)
		return err_memory(err);
	for (size_t i = 0; i < site->n_specimen; i++) {
		const struct book_specimen *s = &site->specimen[i];
		size_t batch = site->specimen_batch[i];

		if (site->batch[batch].practice)
			continue;
		count_fate(&all[site->batch_mix[batch]], s->fate);
		if (is(s->form, "beam"))
			count_fate(&beams[site->batch_mix[batch]], s->fate);
	}
	out->fates = all;
	out->beam_fates = beams;
	return ERR_NONE;
}

static enum err_code
reduce_all(struct reducer *r, struct err *err)
{
	const struct work_site *site = r->site;
	const struct dried *dried = NULL;

	TRY(find_dried(r, &dried, err));
	for (size_t i = 0; i < site->n_reading; i++)
		reduce_reading(r, &site->reading[i], site->reading_specimen[i]);
	for (size_t i = 0; i < site->n_specimen; i++)
		reduce_density(r, i, &dried[i]);
	TRY(results_tests(r, err));
	reduce_settling(r);
	TRY(results_exclude_unlike(r, err));
	for (size_t m = 0; m < CHOOSE_MEASURE_COUNT; m++)
		TRY(exclude_other_ages(r, (enum choose_measure)m, err));
	return ERR_NONE;
}

enum err_code
work_results(struct arena *arena, const struct work_site *site,
	struct work_results *out, struct err *err)
{
	struct reducer r = {.arena = arena, .site = site};
	/* A drop gives two results, everything else at most one. */
	size_t most = 2 * site->n_reading + site->n_specimen + site->n_settling;
	struct work_results got = {0};

	r.result = arena_take(arena, most, sizeof *r.result);
	r.fault = arena_take(arena, most, sizeof *r.fault);
	if (r.result == NULL || r.fault == NULL)
		return err_memory(err);
	TRY(judge_batches(&r, err));
	TRY(reduce_all(&r, err));
	TRY(count_fates(&r, &got, err));
	got.result = r.result;
	got.n_result = r.n_result;
	got.validity = r.validity;
	got.fault = r.fault;
	got.n_fault = r.n_fault;
	*out = got;
	return ERR_NONE;
}

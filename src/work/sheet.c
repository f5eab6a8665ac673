/* sheet.c - a batch sheet from the recipe, the gear, the foam of today and what
 * earlier batches kept of theirs. */
#include "work/sheet.h"

#include "core/text.h"
#include "mix/yield.h"
#include "work/foam.h"
#include "work/standing.h"
#include "work/warn.h"

#include <math.h>
#include <string.h>

static const double usual_spare_ratio = 0.1; /* common practice, no source */
static const double usual_step_kg = 0.02;    /* a platform scale, likewise */
static const double mixer_room_ratio = 0.9;  /* left for putting it right */

/* ---- what a batch kept ---- */

/* The foam that went into a batch, as it was weighed in it or else as planned.
 */
bool
work_batch_foam(const struct book_batch *b, const struct book_mix *mix,
	struct density *foam)
{
	const struct maybe *reading[] = {&b->foam_start_kg_m3,
		&b->foam_middle_kg_m3, &b->foam_end_kg_m3};
	double sum = 0, n = 0;

	for (size_t i = 0; i < 3; i++) {
		if (reading[i]->has) {
			sum += reading[i]->value;
			n++;
		}
	}
	if (n > 0)
		foam->kg_m3 = sum / n;
	else if (mix->foam_target_kg_m3.has)
		foam->kg_m3 = mix->foam_target_kg_m3.value;
	return n > 0 || mix->foam_target_kg_m3.has;
}

enum err_code
work_batch_parts(const struct work_mixer *m, struct arena *arena, size_t batch,
	struct mix_part **part, size_t *n, struct err *err)
{
	struct mix_part *got = arena_take(arena, m->n_batch_part, sizeof *got);

	*n = 0;
	*part = got;
	if (got == NULL)
		return err_memory(err);
	for (size_t i = 0; i < m->n_batch_part; i++) {
		const struct book_batch_part *row = &m->batch_part[i];

		if (row->batch_id != m->site.batch[batch].row.id)
			continue;
		for (size_t k = 0; k < m->site.n_material; k++)
			if (m->site.material[k].row.id == row->material_id &&
				work_material_part(&m->site.material[k],
					row->mass_kg, &got[*n]))
				++*n;
	}
	return ERR_NONE;
}

enum err_code
work_batch_survival(const struct work_mixer *m, struct arena *arena,
	size_t batch, double *ratio, bool *known, struct err *err)
{
	const struct book_batch *b = &m->site.batch[batch];
	struct mix_yield ask = {.foam_volume = {b->foam_m3.value},
		.wet_density_measured = {b->wet_kg_m3.value},
		.added_foam_survival_ratio = 1};
	struct err odd = {.code = ERR_NONE};
	struct mix_yielded got;
	struct mix_part *part;

	*known = false;
	if (!b->foam_m3.has || !(b->foam_m3.value > 0) || !b->wet_kg_m3.has ||
		!work_batch_foam(
			b, &m->site.mix[m->site.batch_mix[batch]], &ask.foam))
		return ERR_NONE;
	TRY(work_batch_parts(m, arena, batch, &part, &ask.n_part, err));
	if (ask.n_part == 0)
		return ERR_NONE;
	ask.part = part;
	/* A batch whose figures do not fit together teaches nothing. */
	if (mix_yield(arena, &ask, &got, &odd) != ERR_NONE)
		return odd.code == ERR_MEMORY ? err_memory(err) : ERR_NONE;
	*known = got.has_foam_survival && got.foam_survival_ratio >= 0 &&
		got.foam_survival_ratio <= 1.5;
	*ratio = got.foam_survival_ratio;
	return ERR_NONE;
}

enum err_code
work_survival(const struct work_mixer *m, struct arena *arena, size_t generator,
	struct control_survival *out, struct err *err)
{
	double *ratio = arena_take(arena, m->site.n_batch, sizeof *ratio);
	size_t n = 0;

	if (ratio == NULL)
		return err_memory(err);
	for (size_t i = 0; i < m->site.n_batch; i++) {
		int64_t id = m->site.batch[i].generator_id;
		bool known;

		if (generator < m->n_generator && id != 0 &&
			id != m->generator[generator].row.id)
			continue;
		TRY(work_batch_survival(m, arena, i, &ratio[n], &known, err));
		n += known;
	}
	return control_survival(ratio, n, out, err);
}

/* ---- the sheet ---- */

static enum err_code
find_what(const struct work_mixer *m, const struct work_sheet_ask *ask,
	struct work_sheet *out, struct err *err)
{
	for (size_t i = 0; i < m->n_slot; i++) {
		if (strcmp(m->slot[i].batch_code, ask->what) != 0)
			continue;
		out->planned = true;
		out->slot = i;
		for (size_t k = 0; k < m->site.n_mix; k++)
			if (m->site.mix[k].row.id == m->slot[i].mix_id)
				out->mix = k;
		return ERR_NONE;
	}
	for (size_t i = 0; i < m->site.n_batch; i++) {
		if (strcmp(m->site.batch[i].code, ask->what) != 0)
			continue;
		out->mix = m->site.batch_mix[i];
		return ERR_NONE;
	}
	return work_find_mix(m, ask->what, &out->mix, err);
}

static enum err_code
find_foam(const struct work_mixer *m, struct arena *arena,
	const struct work_sheet_ask *ask, struct work_sheet *out,
	struct err *err)
{
	const struct book_mix *mix = &m->site.mix[out->mix];

	out->generator = m->n_generator;
	out->has_generator = m->n_generator > 0;
	if (ask->generator != NULL)
		TRY(work_find_generator(
			m, ask->generator, &out->generator, err));
	else if (out->has_generator)
		out->generator = 0;
	if (out->has_generator)
		TRY(work_foam_now(m, out->generator, &out->foam,
			&out->foam_checked, err));
	else if (mix->foam_target_kg_m3.has)
		out->foam.kg_m3 = mix->foam_target_kg_m3.value;
	else
		return err_report(err, ERR_INPUT, "--generator",
			"Neither mix %s nor a generator says what the foam "
			"weighs; \"foamwright generator BOOK CODE ...\" enters "
			"one.",
			mix->code);
	return work_survival(m, arena, out->generator, &out->survival, err);
}

/* The rules that speak before a batch is made. */
static void
gather_warnings(const struct work_mixer *m, struct arena *arena,
	const struct work_sheet *out, int64_t now_utc_s,
	struct work_fired_list *list)
{
	if (out->foam_checked)
		work_warn_foam_due(m, arena,
			m->generator[out->generator].row.id, m->site.n_batch,
			"the next batch", now_utc_s, list);
	work_warn_mix(m, arena, out->mix, out->sheet.foam_fraction,
		out->sheet.wet.kg_m3, out->sheet.oven_dry.kg_m3, list);
	work_warn_cement(m, arena, out->mix, now_utc_s, list);
}

static enum err_code
add_cautions(const struct work_mixer *m, struct arena *arena,
	struct work_sheet *out, int64_t now_utc_s, struct err *err)
{
	const struct work_warning *cold = &m->warning.w[CONTROL_W8];
	struct work_standing standing = {.known = false};
	struct work_fired_list list = {.n = 0};
	const char **c;
	size_t n = 0;

	gather_warnings(m, arena, out, now_utc_s, &list);
	if (out->has_generator)
		TRY(work_standing(
			m, arena, out->generator, out->mix, &standing, err));
	c = arena_take(arena, list.n + 5, sizeof *c);
	if (c == NULL || list.failed)
		return err_memory(err);
	if (!out->foam_checked)
		c[n++] = N_(
			"The foam is reckoned at its target, not as weighed: "
			"weigh it before it goes in (\"foamwright foam\").");
	for (size_t i = 0; i < list.n; i++)
		c[n++] = list.fired[i].sentence;
	if (standing.known)
		c[n++] = standing.sentence;
	if (cold->is_on)
		c[n++] = work_warning_text(arena, cold,
			text_format(arena,
				"Under %.0f degC the cement is slower than the "
				"foam lives: use warm water.",
				cold->limit[0]));
	c[n++] = N_(
		"Cement burns skin and eyes and its dust the lungs: gloves, "
		"goggles, mask. Keep hands out of a running mixer.");
	for (size_t i = 0; i < n; i++)
		if (c[i] == NULL)
			return err_memory(err);
	out->caution = c;
	out->n_caution = n;
	return ERR_NONE;
}

/* What is asked of mix_sheet_make, from recipe, gear and generator. */
static enum err_code
prepare(const struct work_mixer *m, const struct work_sheet_ask *ask,
	const struct work_sheet *out, struct mix_sheet_ask *sheet,
	struct err *err)
{
	const struct book_mix *mix = &m->site.mix[out->mix];
	const struct book_gear *gear = work_gear(m);

	if (!mix->wet_target_kg_m3.has)
		return err_report(err, ERR_INPUT, "mix",
			"Mix %s has no wet density to aim at.", mix->code);
	*sheet = (struct mix_sheet_ask){.part = out->part,
		.n_part = out->n_part,
		.spare_ratio = gear != NULL && gear->spare_ratio.has
			? gear->spare_ratio.value
			: usual_spare_ratio,
		.scale_step = {gear != NULL && gear->scale_step_kg.has
				? gear->scale_step_kg.value
				: usual_step_kg},
		.has_mixer = gear != NULL && gear->mixer_m3.has,
		.mixer = {gear != NULL ? gear->mixer_m3.value : 0},
		.whole_bags = ask->whole_bags,
		.foam = out->foam,
		.foam_survival_ratio = out->survival.mean,
		.bound_water_ratio = mix_bound_water_ratio,
		.wet_target = {mix->wet_target_kg_m3.value}};
	if (out->has_generator && m->generator[out->generator].rate_m3_s.has) {
		sheet->has_foam_rate = true;
		sheet->foam_rate_m3_s =
			m->generator[out->generator].rate_m3_s.value;
	}
	if (!ask->wanted_m3.has && !sheet->has_mixer)
		return err_report(err, ERR_INPUT, "--volume",
			"Say how much is to be cast (--volume \"60 L\"), or "
			"what the mixer takes (\"foamwright gear\").");
	sheet->wanted.m3 = ask->wanted_m3.has
		? ask->wanted_m3.value
		: mixer_room_ratio * sheet->mixer.m3 / (1 + sheet->spare_ratio);
	return ERR_NONE;
}

static void
find_bag(const struct work_mixer *m, struct mix_sheet_ask *sheet)
{
	size_t cement = mix_first_cement(sheet->part, sheet->n_part), at;
	struct err unknown = {.code = ERR_NONE};

	if (cement < sheet->n_part &&
		work_find_material(m, sheet->part[cement].name, &at,
			&unknown) == ERR_NONE &&
		m->site.material[at].package_kg.has)
		sheet->bag.kg = m->site.material[at].package_kg.value;
}

enum err_code
work_sheet_make(struct arena *arena, const struct work_mixer *m,
	const struct work_sheet_ask *ask, struct work_sheet *out,
	struct err *err)
{
	struct work_sheet got = {.planned = false};
	struct mix_sheet_ask sheet;
	struct mix_part *part;

	TRY(find_what(m, ask, &got, err));
	TRY(find_foam(m, arena, ask, &got, err));
	TRY(work_recipe(m, arena, got.mix, &part, &got.n_part, err));
	got.part = part;
	TRY(prepare(m, ask, &got, &sheet, err));
	find_bag(m, &sheet);
	TRY(mix_sheet_make(arena, &sheet, &got.sheet, err));
	got.has_blending = m->site.mix[got.mix].blending_target_s.has;
	got.blending_s = m->site.mix[got.mix].blending_target_s.value;
	TRY(add_cautions(m, arena, &got, ask->now_utc_s, err));
	*out = got;
	return ERR_NONE;
}

enum err_code
work_sheet_made(struct arena *arena, const struct work_mixer *m,
	const char *code, bool *found, struct work_sheet_made *out,
	struct err *err)
{
	struct err unknown = {.code = ERR_NONE};
	struct work_sheet_made got = {.n_part = 0};
	struct mix_part *part;

	*found = work_find_batch(m, code, &got.batch, &unknown) == ERR_NONE;
	if (!*found)
		return ERR_NONE;
	got.mix = m->site.batch_mix[got.batch];
	got.has_foam = work_batch_foam(
		&m->site.batch[got.batch], &m->site.mix[got.mix], &got.foam);
	TRY(work_batch_parts(m, arena, got.batch, &part, &got.n_part, err));
	got.part = part;
	TRY(work_batch_survival(m, arena, got.batch, &got.survival_ratio,
		&got.has_survival, err));
	*out = got;
	return ERR_NONE;
}

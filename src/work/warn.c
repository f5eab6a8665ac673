/* warn.c - the rules that look at a batch, a mix, its foam and its cement. */
#include "work/warn.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"
#include "mix/yield.h"
#include "work/foam.h"
#include "work/sheet.h"

#include <math.h>
#include <string.h>

static const double day_s = 86400, hour_s = 3600, minute_s = 60;
static const double percent = 100;
static const double usual_spare_ratio = 0.1; /* as the sheet has it */

enum { FIRED_MOST = 1024 };

void
work_fire(struct work_fired_list *list, struct arena *arena,
	const struct work_warnings *all, enum control_warning_code code,
	const char *subject, const char *sentence)
{
	const struct work_warning *w = &all->w[code];
	const char *text;

	if (!w->is_on)
		return;
	if (list->fired == NULL) {
		list->room = FIRED_MOST;
		list->fired = arena_take(
			arena, list->room, sizeof *list->fired);
	}
	text = work_warning_text(arena, w, sentence);
	if (list->fired == NULL || text == NULL || subject == NULL) {
		list->failed = true;
		return;
	}
	if (list->n < list->room)
		list->fired[list->n++] = (struct work_fired){
			code, subject, text};
}

/* What one batch is judged with. */
struct judging {
	const struct work_mixer *m;
	struct arena *arena;
	size_t batch;
	const struct book_batch *b;
	const struct book_mix *mix;
	const char *subject;
	struct work_fired_list *list;
	int64_t now_utc_s;
};

static double
limit(const struct work_mixer *m, enum control_warning_code code, size_t at)
{
	return m->warning.w[code].limit[at];
}

static void
fire(const struct judging *j, enum control_warning_code code,
	const char *sentence)
{
	work_fire(
		j->list, j->arena, &j->m->warning, code, j->subject, sentence);
}

static void
judge_foam(const struct judging *j)
{
	struct density foam;
	double target, off, moved = 0;

	if (!j->mix->foam_target_kg_m3.has ||
		!(j->b->foam_start_kg_m3.has || j->b->foam_middle_kg_m3.has ||
			j->b->foam_end_kg_m3.has) ||
		!work_batch_foam(j->b, j->mix, &foam))
		return;
	target = j->mix->foam_target_kg_m3.value;
	off = foam.kg_m3 / target - 1;
	if (fabs(off) > limit(j->m, CONTROL_W1, 0))
		fire(j, CONTROL_W1,
			text_format(j->arena,
				"Its foam weighed %.1f g/L, %+.0f %% off the "
				"target of %.0f.",
				foam.kg_m3, off * percent, target));
	if (j->b->foam_start_kg_m3.has && j->b->foam_end_kg_m3.has)
		moved = j->b->foam_end_kg_m3.value /
				j->b->foam_start_kg_m3.value -
			1;
	if (fabs(moved) > limit(j->m, CONTROL_W1, 1))
		fire(j, CONTROL_W1,
			text_format(j->arena,
				"Its foam moved by %+.0f %% between start and "
				"end.",
				moved * percent));
}

static void
judge_slurry(const struct judging *j)
{
	struct err odd = {.code = ERR_NONE};
	struct mix_slurry slurry;
	struct mix_part *part;
	double off;
	size_t n;

	if (!j->b->slurry_kg_m3.has)
		return;
	if (work_batch_parts(j->m, j->arena, j->batch, &part, &n, &odd) !=
			ERR_NONE ||
		n == 0 || mix_slurry_of(part, n, &slurry, &odd) != ERR_NONE)
		return;
	off = j->b->slurry_kg_m3.value / slurry.density.kg_m3 - 1;
	if (fabs(off) > limit(j->m, CONTROL_W3, 0))
		fire(j, CONTROL_W3,
			text_format(j->arena,
				"The slurry weighs %.0f kg/m3 and should weigh "
				"%.0f: %s. Spend no foam on it before that is "
				"found.",
				j->b->slurry_kg_m3.value, slurry.density.kg_m3,
				off < 0 ? arena_say(j->arena,
						  "too much water, or cement "
						  "miscounted")
					: arena_say(j->arena,
						  "too little water, or "
						  "lumps")));
}

static void
judge_wet(const struct judging *j)
{
	double off;

	if (!j->b->wet_kg_m3.has || !j->mix->wet_target_kg_m3.has)
		return;
	off = j->b->wet_kg_m3.value / j->mix->wet_target_kg_m3.value - 1;
	if (fabs(off) > limit(j->m, CONTROL_W4, 1))
		fire(j, CONTROL_W4,
			text_format(j->arena,
				"Its wet density is %+.0f %% off the target: "
				"it is not mix %s; if it is cast, cast it as "
				"another and label it so.",
				off * percent, j->mix->code));
	else if (fabs(off) > limit(j->m, CONTROL_W4, 0))
		fire(j, CONTROL_W4,
			text_format(j->arena,
				"Its wet density is %+.1f %% off the target.",
				off * percent));
}

/* Forms filled against what the masses put in make at the target. */
static void
judge_short(const struct judging *j)
{
	struct density foam;
	double kg = 0, spare = usual_spare_ratio, expected, off;

	if (!j->b->volume_m3.has || !j->b->foam_m3.has ||
		!j->mix->wet_target_kg_m3.has ||
		!work_batch_foam(j->b, j->mix, &foam))
		return;
	for (size_t i = 0; i < j->m->n_batch_part; i++)
		if (j->m->batch_part[i].batch_id == j->b->row.id)
			kg += j->m->batch_part[i].mass_kg;
	if (!(kg > 0))
		return;
	kg += j->b->foam_m3.value * foam.kg_m3;
	if (j->m->n_gear > 0 && j->m->gear[0].spare_ratio.has)
		spare = j->m->gear[0].spare_ratio.value;
	expected = kg / j->mix->wet_target_kg_m3.value / (1 + spare);
	off = 1 - j->b->volume_m3.value / expected;
	if (off > limit(j->m, CONTROL_W5, 0))
		fire(j, CONTROL_W5,
			text_format(j->arena,
				"The forms took %.1f L where %.1f were to come "
				"out: the foam is heavier than thought, or was "
				"lost.",
				j->b->volume_m3.value * 1000, expected * 1000));
}

static void
judge_cold(const struct judging *j)
{
	if (j->b->slurry_degc.has &&
		j->b->slurry_degc.value < limit(j->m, CONTROL_W8, 0))
		fire(j, CONTROL_W8,
			text_format(j->arena,
				"The mix is at %.0f degC: the cement is slower "
				"than the foam lives. Warm the water.",
				j->b->slurry_degc.value));
	if (j->b->air_degc.has &&
		j->b->air_degc.value < limit(j->m, CONTROL_W8, 1))
		fire(j, CONTROL_W8,
			text_format(j->arena,
				"The air is at %.0f degC: cover what is cast, "
				"or wait.",
				j->b->air_degc.value));
}

static void
judge_loss(const struct judging *j)
{
	const struct work_site *s = &j->m->site;
	double most = 0, last_s = 0;
	bool between = false;

	for (size_t i = 0; i < s->n_settling; i++) {
		double after = s->settling[i].after_s;

		if (s->settling_batch[i] != j->batch)
			continue;
		most = fmax(most, s->settling[i].loss_ratio);
		last_s = fmax(last_s, after);
		between = between ||
			(after >= limit(j->m, CONTROL_W10, 0) &&
				after <= limit(j->m, CONTROL_W10, 1));
	}
	if (most > limit(j->m, CONTROL_W9, 2))
		fire(j, CONTROL_W9,
			text_format(j->arena,
				"It sank %.0f %%: its test pieces are of "
				"another, denser material. Keep and label "
				"them, compare them apart.",
				most * percent));
	else if (most > limit(j->m, CONTROL_W9, 0))
		fire(j, CONTROL_W9,
			text_format(j->arena,
				"It sank %.0f %%%s: warmer water, fresher "
				"agent, less foam or a shallower pour, in that "
				"order.",
				most * percent,
				most > limit(j->m, CONTROL_W9, 1)
					? arena_say(j->arena, ", which is much")
					: ""));
	if (last_s > limit(j->m, CONTROL_W10, 1) && !between)
		fire(j, CONTROL_W10,
			text_format(j->arena,
				"Its height was not read between %.0f and %.0f "
				"hours: when it fell, if it fell, stays "
				"unknown.",
				limit(j->m, CONTROL_W10, 0) / hour_s,
				limit(j->m, CONTROL_W10, 1) / hour_s));
}

static void
judge_blending(const struct judging *j)
{
	double off;

	if (!j->b->blending_s.has || !j->mix->blending_target_s.has)
		return;
	off = j->b->blending_s.value / j->mix->blending_target_s.value - 1;
	if (fabs(off) > limit(j->m, CONTROL_W15, 0))
		fire(j, CONTROL_W15,
			text_format(j->arena,
				"Foam was folded in for %.0f s, %.0f are "
				"planned: that may explain the result.",
				j->b->blending_s.value,
				j->mix->blending_target_s.value));
}

static void
judge_practice(const struct judging *j)
{
	if (j->b->practice && j->b->practice_set_after)
		fire(j, CONTROL_W22,
			N_("It was called practice after its result was known: "
			   "that stays visible."));
}

/* A material whose lot is another than in the batch before. */
static void
judge_lots(const struct judging *j)
{
	const struct work_mixer *m = j->m;

	for (size_t i = 0; i < m->n_batch_part; i++) {
		const struct book_batch_part *p = &m->batch_part[i];
		const char *before = work_lot_before(m, i);

		if (p->batch_id != j->b->row.id || p->lot[0] == '\0' ||
			before == NULL || strcmp(before, p->lot) == 0)
			continue;
		fire(j, CONTROL_W26,
			text_format(j->arena,
				"%s is of lot %s from this batch on (before: "
				"%s): repeat the checks.",
				work_material_code(m, p->material_id), p->lot,
				before));
	}
}

void
work_warn_foam_due(const struct work_mixer *m, struct arena *arena,
	int64_t generator_id, size_t place, const char *subject,
	int64_t now_utc_s, struct work_fired_list *list)
{
	const struct book_foam_check *last = NULL;
	double since;

	for (size_t i = 0; i < m->n_foam_check; i++)
		if (m->foam_check[i].generator_id == generator_id)
			last = &m->foam_check[i];
	if (last == NULL)
		return;
	since = (double)now_utc_s - last->read_at_s.value;
	if (now_utc_s != 0 && last->read_at_s.has &&
		since > limit(m, CONTROL_W2, 0))
		work_fire(list, arena, &m->warning, CONTROL_W2, subject,
			text_format(arena,
				"The foam was weighed %s ago: weigh it now.",
				since < 2 * day_s
					? text_format(arena, "%.0f min",
						  since / minute_s)
					: text_format(arena, "%.0f days",
						  since / day_s)));
	else if (last->batches_before.has &&
		(double)place - last->batches_before.value >=
			limit(m, CONTROL_W2, 1))
		work_fire(list, arena, &m->warning, CONTROL_W2, subject,
			text_format(arena,
				"%.0f batches were made since the foam was "
				"weighed: weigh it now.",
				(double)place - last->batches_before.value));
}

/* Foam weighed in the batch itself is a check. */
static void
judge_due(const struct judging *j)
{
	if (j->b->generator_id == 0 || j->b->foam_start_kg_m3.has ||
		j->b->foam_middle_kg_m3.has || j->b->foam_end_kg_m3.has)
		return;
	work_warn_foam_due(j->m, j->arena, j->b->generator_id,
		work_mixer_place(j->m, j->batch), j->subject, j->now_utc_s,
		j->list);
}

void
work_warn_batch(const struct work_mixer *m, struct arena *arena, size_t batch,
	unsigned rules, int64_t now_utc_s, struct work_fired_list *list)
{
	static const struct {
		unsigned rules;
		void (*judge)(const struct judging *j);
	} judges[] = {{WORK_RULE(CONTROL_W1), judge_foam},
		{WORK_RULE(CONTROL_W2), judge_due},
		{WORK_RULE(CONTROL_W3), judge_slurry},
		{WORK_RULE(CONTROL_W4), judge_wet},
		{WORK_RULE(CONTROL_W5), judge_short},
		{WORK_RULE(CONTROL_W8), judge_cold},
		{WORK_RULE(CONTROL_W9) | WORK_RULE(CONTROL_W10), judge_loss},
		{WORK_RULE(CONTROL_W15), judge_blending},
		{WORK_RULE(CONTROL_W22), judge_practice},
		{WORK_RULE(CONTROL_W26), judge_lots}};
	struct judging j = {.m = m,
		.arena = arena,
		.batch = batch,
		.b = &m->site.batch[batch],
		.mix = &m->site.mix[m->site.batch_mix[batch]],
		.list = list,
		.now_utc_s = now_utc_s};

	j.subject = text_format(arena, "batch %s", j.b->code);
	for (size_t i = 0; i < sizeof judges / sizeof judges[0]; i++)
		if ((judges[i].rules & rules) != 0)
			judges[i].judge(&j);
}

void
work_warn_mix(const struct work_mixer *m, struct arena *arena, size_t mix,
	double foam_share, double wet, double dry, struct work_fired_list *list)
{
	const char *subject = text_format(
		arena, "mix %s", m->site.mix[mix].code);
	const struct work_warnings *all = &m->warning;
	double watch = limit(m, CONTROL_W6, 0), stop = limit(m, CONTROL_W6, 1);

	if (foam_share > stop)
		work_fire(list, arena, all, CONTROL_W6, subject,
			text_format(arena,
				"%.1f %% of the fresh mix is foam, more than "
				"%.0f %%: it is likely to sink hours after "
				"casting.",
				foam_share * percent, stop * percent));
	else if (foam_share > watch)
		work_fire(list, arena, all, CONTROL_W6, subject,
			text_format(arena,
				"%.1f %% of the fresh mix is foam; above %.0f "
				"%% it may sink hours after casting.",
				foam_share * percent, watch * percent));
	if (wet < limit(m, CONTROL_W7, 0))
		work_fire(list, arena, all, CONTROL_W7, subject,
			text_format(arena,
				"Under %.0f kg/m3 fresh mixes are prone to "
				"collapse.",
				limit(m, CONTROL_W7, 0)));
	if (dry < limit(m, CONTROL_W7, 1))
		work_fire(list, arena, all, CONTROL_W7, subject,
			text_format(arena,
				"It dries to %.0f kg/m3, which is fill, not "
				"structure.",
				dry));
}

static void
judge_cement(const struct work_mixer *m, struct arena *arena,
	const struct book_material *cement, int64_t now_utc_s,
	struct work_fired_list *list)
{
	const struct book_material_lot *last = NULL;
	struct err odd = {.code = ERR_NONE};
	int64_t bought;
	double age;

	for (size_t i = 0; i < m->n_lot; i++)
		if (m->lot[i].material_id == cement->row.id &&
			m->lot[i].bought_on[0] != '\0')
			last = &m->lot[i];
	if (last == NULL ||
		date_read(last->bought_on, 0, &bought, &odd) != ERR_NONE)
		return;
	age = (double)(now_utc_s - bought);
	if (age > limit(m, CONTROL_W25, 0))
		work_fire(list, arena, &m->warning, CONTROL_W25,
			text_format(arena, "material %s", cement->code),
			text_format(arena,
				"Lot %s of %s was bought %.0f days ago: make a "
				"pat beside one of a fresh bag, and see that "
				"no lumps stay.",
				last->code, cement->code, age / day_s));
}

void
work_warn_cement(const struct work_mixer *m, struct arena *arena, size_t mix,
	int64_t now_utc_s, struct work_fired_list *list)
{
	const struct work_site *s = &m->site;

	for (size_t i = 0; i < s->n_mix_part; i++) {
		const struct book_material *from =
			&s->material[s->part_material[i]];

		if (s->part_mix[i] == mix && strcmp(from->role, "cement") == 0)
			judge_cement(m, arena, from, now_utc_s, list);
	}
}

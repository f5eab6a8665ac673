/* batch.c - one batch, as it is made. */
#include "work/batch.h"

#include "book/book.h"
#include "core/text.h"
#include "work/sheet.h"
#include "work/slip.h"
#include "work/warn.h"

#include <math.h>
#include <string.h>

static const double day_s = 86400;

struct noting {
	const struct desk *desk;
	struct arena *arena;
	const struct work_batch_ask *ask;
	struct work_mixer m;
	struct book_batch row;
	bool made;
	const struct work_put_in *put_in;
	size_t n_put_in;
};

/* A sheet rests on what every batch kept, a lot on the one before; advice only
 * on what is at hand. */
static enum err_code
read_book(const struct noting *r, struct work_mixer *m, struct err *err)
{
	if (r->ask->as_sheet || r->ask->n_put_in > 0)
		return work_mixer_read(r->desk, r->arena, m, err);
	return work_mixer_read_at_hand(r->desk, r->arena, r->ask->code, m, err);
}

/* The book after the write.  Where only the batch's own row changed it is set in
 * what was read. */
static enum err_code
read_again(const struct noting *r, struct work_mixer *m, size_t *at,
	struct err *err)
{
	struct book_batch *batch;

	if (r->made || !r->m.is_at_hand || r->ask->n_settled > 0) {
		TRY(read_book(r, m, err));
		return work_find_batch(m, r->ask->code, at, err);
	}
	*m = r->m;
	batch = arena_copy(
		r->arena, m->site.batch, m->site.n_batch, sizeof *batch);
	if (batch == NULL)
		return err_memory(err);
	m->site.batch = batch;
	TRY(work_find_batch(m, r->ask->code, at, err));
	batch[*at] = r->row;
	return ERR_NONE;
}

static const struct book_trial_slot *
find_slot(const struct work_mixer *m, const char *code)
{
	for (size_t i = 0; i < m->n_slot; i++)
		if (strcmp(m->slot[i].batch_code, code) == 0)
			return &m->slot[i];
	return NULL;
}

/* ---- which mix, which trial ---- */

static enum err_code
take_mix(struct noting *r, const struct book_trial_slot *slot, struct err *err)
{
	size_t at;

	if (slot != NULL)
		r->row.mix_id = slot->mix_id;
	if (r->ask->mix != NULL) {
		TRY(work_find_mix(&r->m, r->ask->mix, &at, err));
		if (slot != NULL && slot->mix_id != r->m.site.mix[at].row.id)
			return err_report(err, ERR_CONFLICT, "--mix",
				"Batch %s is planned with another mix than %s. "
				"If another mix was made, record it under a "
				"code of its own.",
				r->row.code, r->ask->mix);
		r->row.mix_id = r->m.site.mix[at].row.id;
	}
	if (r->row.mix_id == 0)
		return err_report(err, ERR_INPUT, "--mix",
			"Say which mix batch %s is of: --mix P.", r->row.code);
	return ERR_NONE;
}

static enum err_code
take_trial(
	struct noting *r, const struct book_trial_slot *slot, struct err *err)
{
	size_t at;

	if (slot != NULL) {
		r->row.trial_id = slot->trial_id;
	} else if (r->ask->trial != NULL) {
		TRY(work_find_trial(&r->m, r->ask->trial, &at, err));
		r->row.trial_id = r->m.site.trial[at].row.id;
	} else if (r->row.trial_id == 0 && r->m.site.n_trial == 1) {
		r->row.trial_id = r->m.site.trial[0].row.id;
	}
	if (r->row.trial_id == 0)
		return err_report(err, ERR_INPUT, "--trial",
			"Say which trial batch %s belongs to: --trial T1 "
			"(\"foamwright trial\" plans one).",
			r->row.code);
	return ERR_NONE;
}

static enum err_code
start_row(struct noting *r, struct err *err)
{
	const struct book_trial_slot *slot = find_slot(&r->m, r->ask->code);
	struct err unknown = {.code = ERR_NONE};
	size_t at;

	r->made = work_find_batch(&r->m, r->ask->code, &at, &unknown) !=
		ERR_NONE;
	r->row = (struct book_batch){
		.code = r->ask->code, .made_on = "", .remark = ""};
	if (!r->made)
		r->row = r->m.site.batch[at];
	TRY(take_mix(r, slot, err));
	TRY(take_trial(r, slot, err));
	if (r->made && slot != NULL)
		r->row.day = (struct maybe){true, (double)slot->day};
	if (r->ask->practice && !r->row.practice) {
		r->row.practice = true;
		r->row.practice_set_after = !r->made && r->row.wet_kg_m3.has;
	}
	return ERR_NONE;
}

static void
overlay(struct maybe *to, const struct maybe *with)
{
	if (with->has)
		*to = *with;
}

static enum err_code
take_readings(struct noting *r, struct err *err)
{
	const struct work_batch_ask *ask = r->ask;
	struct book_batch *row = &r->row;
	size_t at;

	row->made_on = ask->made_on != NULL ? ask->made_on : row->made_on;
	row->remark = ask->remark != NULL ? ask->remark : row->remark;
	row->row.typed = ask->typed;
	overlay(&row->foam_start_kg_m3, &ask->foam_start_kg_m3);
	overlay(&row->foam_middle_kg_m3, &ask->foam_middle_kg_m3);
	overlay(&row->foam_end_kg_m3, &ask->foam_end_kg_m3);
	overlay(&row->slurry_kg_m3, &ask->slurry_kg_m3);
	overlay(&row->wet_kg_m3, &ask->wet_kg_m3);
	overlay(&row->volume_m3, &ask->volume_m3);
	overlay(&row->blending_s, &ask->blending_s);
	overlay(&row->air_degc, &ask->air_degc);
	overlay(&row->slurry_degc, &ask->slurry_degc);
	overlay(&row->water_hardness_kg_m3, &ask->hardness_kg_m3);
	overlay(&row->spread_m, &ask->spread_m);
	overlay(&row->consistency, &ask->consistency);
	overlay(&row->foam_m3, &ask->foam_m3);
	overlay(&row->foam_s, &ask->foam_s);
	overlay(&row->set_s, &ask->set_s);
	if (ask->generator == NULL) {
		if (row->generator_id == 0 && r->m.n_generator == 1)
			row->generator_id = r->m.generator[0].row.id;
		return ERR_NONE;
	}
	TRY(work_find_generator(&r->m, ask->generator, &at, err));
	row->generator_id = r->m.generator[at].row.id;
	return ERR_NONE;
}

/* Seconds of the generator as a volume, where no volume was said. */
static void
foam_by_seconds(struct noting *r)
{
	if (r->row.foam_m3.has || !r->row.foam_s.has)
		return;
	for (size_t i = 0; i < r->m.n_generator; i++) {
		const struct book_generator *g = &r->m.generator[i];

		if (g->row.id == r->row.generator_id && g->rate_m3_s.has)
			r->row.foam_m3 = (struct maybe){
				true, r->row.foam_s.value * g->rate_m3_s.value};
	}
}

static enum err_code
take_sheet(struct noting *r, struct err *err)
{
	struct work_sheet_ask ask = {.what = r->ask->code,
		.generator = r->ask->generator,
		.wanted_m3 = r->ask->wanted_m3};
	struct work_put_in *put_in;
	struct work_sheet sheet;

	if (find_slot(&r->m, ask.what) == NULL)
		for (size_t i = 0; i < r->m.site.n_mix; i++)
			if (r->m.site.mix[i].row.id == r->row.mix_id)
				ask.what = r->m.site.mix[i].code;
	TRY(work_sheet_make(r->arena, &r->m, &ask, &sheet, err));
	put_in = arena_take(r->arena, sheet.n_part, sizeof *put_in);
	if (put_in == NULL)
		return err_memory(err);
	for (size_t i = 0; i < sheet.n_part; i++)
		put_in[i] = (struct work_put_in){.code = sheet.part[i].name,
			.kg = sheet.sheet.weigh[i].kg,
			.lot = ""};
	r->put_in = put_in;
	r->n_put_in = sheet.n_part;
	if (!r->row.foam_m3.has)
		r->row.foam_m3 = (struct maybe){true, sheet.sheet.foam.m3};
	return ERR_NONE;
}

/* ---- written ---- */

static enum err_code
put_parts(struct noting *r, struct err *err)
{
	for (size_t i = 0; i < r->n_put_in; i++) {
		const struct work_put_in *in = &r->put_in[i];
		struct book_batch_part row = {.row = {.typed = ""},
			.batch_id = r->row.row.id,
			.mass_kg = in->kg,
			.lot = in->lot};
		size_t material;

		TRY(work_find_material(&r->m, in->code, &material, err));
		row.material_id = r->m.site.material[material].row.id;
		for (size_t k = 0; k < r->m.n_batch_part; k++)
			if (r->m.batch_part[k].batch_id == row.batch_id &&
				r->m.batch_part[k].material_id ==
					row.material_id)
				row.row.id = r->m.batch_part[k].row.id;
		TRY(book_put_batch_part(r->desk->book, &row, err));
	}
	return ERR_NONE;
}

static enum err_code
put_settled(struct noting *r, struct err *err)
{
	for (size_t i = 0; i < r->ask->n_settled; i++) {
		struct book_settling row = {.row = {.typed = ""},
			.batch_id = r->row.row.id,
			.after_s = r->ask->settled[i].after_s,
			.loss_ratio = r->ask->settled[i].loss_ratio};

		for (size_t k = 0; k < r->m.site.n_settling; k++)
			if (r->m.site.settling[k].batch_id == row.batch_id &&
				r->m.site.settling[k].after_s == row.after_s)
				row.row.id = r->m.site.settling[k].row.id;
		TRY(book_put_settling(r->desk->book, &row, err));
	}
	return ERR_NONE;
}

static enum err_code
write_all(struct noting *r, struct err *err)
{
	TRY(book_put_batch(r->desk->book, &r->row, err));
	TRY(put_parts(r, err));
	return put_settled(r, err);
}

/* ---- told ---- */

static struct maybe
loss_at_a_day(const struct work_mixer *m, size_t batch)
{
	for (size_t i = 0; i < m->site.n_settling; i++)
		if (m->site.settling_batch[i] == batch &&
			m->site.settling[i].after_s >= day_s)
			return (struct maybe){
				true, m->site.settling[i].loss_ratio};
	return (struct maybe){.has = false};
}

static bool
was_good_practice(const struct work_mixer *m, size_t batch)
{
	const struct book_batch *b = &m->site.batch[batch];
	const struct book_mix *mix = &m->site.mix[m->site.batch_mix[batch]];
	struct maybe loss = loss_at_a_day(m, batch);
	const struct work_warning *w = m->warning.w;
	bool steady = !b->foam_start_kg_m3.has || !b->foam_end_kg_m3.has ||
		fabs(b->foam_end_kg_m3.value / b->foam_start_kg_m3.value - 1) <=
			w[CONTROL_W1].limit[1];

	return b->wet_kg_m3.has && mix->wet_target_kg_m3.has &&
		fabs(b->wet_kg_m3.value / mix->wet_target_kg_m3.value - 1) <=
		w[CONTROL_W4].limit[0] &&
		(!loss.has || loss.value < w[CONTROL_W9].limit[0]) && steady;
}

bool
work_practice_passed(const struct work_mixer *m)
{
	size_t good = 0;

	for (size_t i = m->site.n_batch; i > 0 && good < 2; i--) {
		if (!m->site.batch[i - 1].practice)
			continue;
		if (!was_good_practice(m, i - 1))
			return false;
		good++;
	}
	return good == 2;
}

struct telling {
	struct arena *arena;
	const struct work_batch_ask *ask;
	struct work_batch_told *told;
	const char **sentence;
	bool failed;
};

enum { SENTENCES_MOST = 24 };

static void
say(struct telling *t, const char *sentence)
{
	if (sentence == NULL)
		t->failed = true;
	else if (t->told->n_sentence < SENTENCES_MOST)
		t->sentence[t->told->n_sentence++] = arena_say(
			t->arena, sentence);
}

/* The batch as what went in, for the decision at the mixer. */
static enum err_code
tell_rescue(struct telling *t, const struct work_mixer *m, struct err *err)
{
	const struct book_batch *b = &m->site.batch[t->told->batch];
	const struct book_mix *mix =
		&m->site.mix[m->site.batch_mix[t->told->batch]];
	struct mix_rescue_ask ask = {.limits = mix_rescue_usual(),
		.since_foam_s = t->ask->since_foam_s.value};
	struct err odd = err_in(t->arena);
	struct mix_part *part;

	if (!t->ask->wet_kg_m3.has || !mix->wet_target_kg_m3.has ||
		!b->foam_m3.has)
		return ERR_NONE;
	TRY(work_batch_parts(
		m, t->arena, t->told->batch, &part, &ask.batch.n_part, err));
	if (ask.batch.n_part == 0 || !work_batch_foam(b, mix, &ask.batch.foam))
		return ERR_NONE;
	ask.batch.part = part;
	ask.batch.foam_volume.m3 = b->foam_m3.value;
	ask.batch.wet_density_measured.kg_m3 = b->wet_kg_m3.value;
	ask.batch.has_target = true;
	ask.batch.wet_density_target.kg_m3 = mix->wet_target_kg_m3.value;
	ask.batch.added_foam_survival_ratio = 1;
	ask.limits.off_ok_ratio = m->warning.w[CONTROL_W4].limit[0];
	ask.limits.off_most_ratio = m->warning.w[CONTROL_W4].limit[1];
	ask.limits.foam_most_ratio = m->warning.w[CONTROL_W6].limit[0];
	if (m->n_gear > 0 && m->gear[0].mixer_m3.has) {
		ask.has_mixer = true;
		ask.mixer.m3 = m->gear[0].mixer_m3.value;
	}
	if (mix_rescue(t->arena, &ask, &t->told->rescue, &odd) != ERR_NONE) {
		say(t, text_format(t->arena, "%s", odd.text));
		return ERR_NONE;
	}
	t->told->has_rescue = true;
	say(t, t->told->rescue.sentence);
	say(t, t->told->rescue.reason);
	return ERR_NONE;
}

/* Without the foam there is no rescue to reckon, but an answer all the same. */
static void
tell_wet(struct telling *t, const struct work_mixer *m,
	const struct book_mix *mix)
{
	const double limit = m->warning.w[CONTROL_W4].limit[0];

	if (!t->ask->wet_kg_m3.has || !mix->wet_target_kg_m3.has ||
		m->site.batch[t->told->batch].foam_m3.has)
		return;
	if (fabs(t->ask->wet_kg_m3.value / mix->wet_target_kg_m3.value - 1) <=
		limit)
		say(t, N_("The wet weight is what it should be."));
	else
		say(t,
			N_("How much foam went in is not recorded: with it "
			   "there "
			   "would be advice what to do now."));
}

/* A figure far off is more often a slip than a batch. */
static void
tell_slip(struct telling *t, struct maybe got, double expected)
{
	const char *question = got.has ? work_slip(got.value, expected) : NULL;

	if (question != NULL)
		say(t,
			text_format(t->arena,
				"%.4g kg/m3 was entered, and %.4g is expected. "
				"%s Undo it and enter it again if it was a "
				"slip.",
				got.value, expected,
				arena_say(t->arena, question)));
}

static enum err_code
tell_slurry(struct telling *t, const struct work_mixer *m, struct err *err)
{
	struct mix_slurry slurry;
	struct mix_part *part;
	size_t n;
	double off;

	if (!t->ask->slurry_kg_m3.has)
		return ERR_NONE;
	TRY(work_batch_parts(m, t->arena, t->told->batch, &part, &n, err));
	if (n == 0)
		return ERR_NONE;
	TRY(mix_slurry_of(part, n, &slurry, err));
	tell_slip(t, t->ask->slurry_kg_m3, slurry.density.kg_m3);
	off = t->ask->slurry_kg_m3.value / slurry.density.kg_m3 - 1;
	if (fabs(off) <= m->warning.w[CONTROL_W3].limit[0] &&
		!m->site.batch[t->told->batch].wet_kg_m3.has)
		say(t, N_("The slurry weighs what it should: foam may go in."));
	return ERR_NONE;
}

static void
tell_practice(struct telling *t, const struct work_mixer *m)
{
	const struct book_batch *b = &m->site.batch[t->told->batch];

	if (b->practice && t->ask->wet_kg_m3.has)
		say(t,
			!was_good_practice(m, t->told->batch)
				? text_format(t->arena,
					  "Not yet: practise until two in a "
					  "row are within %.3g %% of their "
					  "target, with the foam steady.",
					  m->warning.w[CONTROL_W4].limit[0] *
						  100)
				: work_practice_passed(m)
				? N_("Two good practice batches in a row: the "
				     "trial can begin.")
				: N_("A good practice batch; one more like "
				     "it."));
	if (!b->practice && t->told->made && !work_practice_passed(m))
		say(t,
			N_("There are no two good practice batches in a row "
			   "yet; "
			   "what this one shows may be the learning."));
}

static void
tell_settling(struct telling *t)
{
	if (t->ask->n_settled == 0 && t->ask->wet_kg_m3.has)
		say(t,
			N_("Look at its height at 15, 30 and 60 minutes, 2, 3 "
			   "and "
			   "4 hours, and the next day: a mix can stand for "
			   "hours "
			   "and then fall."));
}

/* The rules that what was just said may set off. */
static unsigned
rules_asked(const struct work_batch_ask *ask)
{
	bool mixed = ask->wet_kg_m3.has || ask->as_sheet || ask->n_put_in > 0;
	bool foamed = ask->foam_start_kg_m3.has || ask->foam_middle_kg_m3.has ||
		ask->foam_end_kg_m3.has;
	const struct {
		bool asked;
		unsigned rule;
	} table[] = {{foamed || ask->wet_kg_m3.has, WORK_RULE(CONTROL_W1)},
		{mixed, WORK_RULE(CONTROL_W2) | WORK_RULE(CONTROL_W26)},
		{ask->slurry_kg_m3.has, WORK_RULE(CONTROL_W3)},
		{ask->wet_kg_m3.has, WORK_RULE(CONTROL_W4)},
		{ask->volume_m3.has, WORK_RULE(CONTROL_W5)},
		{ask->air_degc.has || ask->slurry_degc.has,
			WORK_RULE(CONTROL_W8)},
		{ask->n_settled > 0,
			WORK_RULE(CONTROL_W9) | WORK_RULE(CONTROL_W10)},
		{ask->blending_s.has, WORK_RULE(CONTROL_W15)},
		{true, WORK_RULE(CONTROL_W22)}};
	unsigned rules = 0;

	for (size_t i = 0; i < sizeof table / sizeof table[0]; i++)
		if (table[i].asked)
			rules |= table[i].rule;
	return rules;
}

static void
tell_warnings(struct telling *t, const struct work_mixer *m, int64_t now_utc_s)
{
	struct work_fired_list list = {.n = 0};

	work_warn_batch(m, t->arena, t->told->batch, rules_asked(t->ask),
		t->ask->made_on == NULL ? now_utc_s : 0, &list);
	for (size_t i = 0; i < list.n; i++)
		say(t, list.fired[i].sentence);
	t->failed = t->failed || list.failed;
}

static enum err_code
tell(struct noting *r, struct work_batch_told *out, struct err *err)
{
	struct telling t = {.arena = r->arena,
		.ask = r->ask,
		.told = out,
		.sentence = arena_take(
			r->arena, SENTENCES_MOST, sizeof *t.sentence)};
	const struct book_mix *mix;

	if (t.sentence == NULL)
		return err_memory(err);
	TRY(read_again(r, &out->m, &out->batch, err));
	mix = &out->m.site.mix[out->m.site.batch_mix[out->batch]];
	if (mix->wet_target_kg_m3.has)
		tell_slip(&t, r->ask->wet_kg_m3, mix->wet_target_kg_m3.value);
	TRY(tell_slurry(&t, &out->m, err));
	tell_wet(&t, &out->m, mix);
	TRY(tell_rescue(&t, &out->m, err));
	TRY(work_batch_survival(&out->m, r->arena, out->batch,
		&out->survival_ratio, &out->has_survival, err));
	tell_warnings(&t, &out->m, r->desk->now_utc_s);
	tell_practice(&t, &out->m);
	tell_settling(&t);
	out->sentence = t.sentence;
	return t.failed ? err_memory(err) : ERR_NONE;
}

/* Read, written, read again and told within one write: what is told is what
 * will stand, and no other writer comes between. */
static enum err_code
record(struct noting *r, struct work_batch_told *out, struct err *err)
{
	TRY(read_book(r, &r->m, err));
	TRY(start_row(r, err));
	TRY(take_readings(r, err));
	foam_by_seconds(r);
	if (r->ask->as_sheet)
		TRY(take_sheet(r, err));
	TRY(write_all(r, err));
	out->made = r->made;
	return tell(r, out, err);
}

enum err_code
work_batch_record(const struct desk *desk, struct arena *arena,
	const struct work_batch_ask *ask, struct work_batch_told *out,
	struct err *err)
{
	struct noting r = {.desk = desk,
		.arena = arena,
		.ask = ask,
		.put_in = ask->put_in,
		.n_put_in = ask->n_put_in};
	struct work_batch_told got = {.made = false};

	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "batch",
		desk->submission, err));
	TRY(work_commit_or_undo(desk, ask->code, record(&r, &got, err), err));
	*out = got;
	return ERR_NONE;
}

enum err_code
work_batch_tell(const struct desk *desk, struct arena *arena, const char *code,
	struct maybe since_foam_s, struct work_batch_told *out, struct err *err)
{
	struct work_batch_ask ask = {
		.code = code, .since_foam_s = since_foam_s};
	struct noting r = {.desk = desk, .arena = arena, .ask = &ask};
	size_t batch;

	TRY(work_mixer_read(desk, arena, &r.m, err));
	TRY(work_find_batch(&r.m, code, &batch, err));
	ask.slurry_kg_m3 = r.m.site.batch[batch].slurry_kg_m3;
	ask.wet_kg_m3 = r.m.site.batch[batch].wet_kg_m3;
	*out = (struct work_batch_told){.made = false};
	return tell(&r, out, err);
}

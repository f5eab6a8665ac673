/* foam.c - what the generator gives, checked and told. */
#include "work/foam.h"

#include "book/book.h"
#include "core/text.h"

#include <math.h>
#include <string.h>

static const double usual_water_degc = 20;
static const char gear_code[] = "site";

/* ---- mixer and scale ---- */

const struct book_gear *
work_gear(const struct work_mixer *m)
{
	return m->n_gear > 0 ? &m->gear[0] : NULL;
}

enum err_code
work_gear_put(const struct desk *desk, struct arena *arena,
	const struct work_gear_ask *ask, struct err *err)
{
	struct book_gear row = {.row = {.typed = ""}, .code = gear_code};
	struct work_mixer m;

	TRY(work_mixer_read(desk, arena, &m, err));
	if (work_gear(&m) != NULL)
		row = *work_gear(&m);
	if (ask->mixer_m3.has)
		row.mixer_m3 = ask->mixer_m3;
	if (ask->scale_step_kg.has)
		row.scale_step_kg = ask->scale_step_kg;
	if (ask->spare_ratio.has)
		row.spare_ratio = ask->spare_ratio;
	row.row.typed = ask->typed;
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "gear",
		desk->submission, err));
	return work_commit_or_undo(
		desk, gear_code, book_put_gear(desk->book, &row, err), err);
}

/* ---- the generator ---- */

static enum err_code
find_vessel(const struct work_generator_ask *ask, struct book_generator *row,
	struct err *err)
{
	struct mix_weighed volume;

	if (ask->vessel_m3.has) {
		row->vessel_m3 = ask->vessel_m3.value;
		row->vessel_u_m3 = (struct maybe){.has = false};
	}
	if (!ask->vessel_full_kg.has)
		return ERR_NONE;
	TRY(mix_vessel_volume(ask->vessel_full_kg.value, row->vessel_kg,
		row->scale_step_kg,
		ask->water_degc.has ? ask->water_degc.value : usual_water_degc,
		&volume, err));
	row->vessel_m3 = volume.value;
	row->vessel_u_m3 = (struct maybe){true, volume.standard_uncertainty};
	return ERR_NONE;
}

static enum err_code
check_generator(const struct book_generator *row, struct err *err)
{
	enum mix_metering metering;

	if (!mix_metering_find(row->metering, &metering))
		return err_report(err, ERR_INPUT, "--metering",
			"Say how the foam is measured out, since a drift acts "
			"by that: --metering volume (bucket), seconds (of the "
			"generator) or density (until the mix weighs right).");
	if (!(row->target_kg_m3 > 0))
		return err_report(err, ERR_INPUT, "--target",
			"Say what the foam should weigh: --target \"70 g/L\".");
	if (!(row->scale_step_kg > 0))
		return err_report(err, ERR_INPUT, "--scale-step",
			"Say the smallest step of the scale that weighs the "
			"foam: --scale-step \"5 g\".");
	if (!(row->vessel_m3 > 0))
		return err_report(err, ERR_INPUT, "--vessel-full",
			"Say what the vessel really holds: weigh it empty "
			"(--vessel-empty) and full of water (--vessel-full); "
			"what is printed on a bucket is not its volume.");
	return ERR_NONE;
}

static void
overlay(const struct work_generator_ask *ask, struct book_generator *row)
{
	row->metering = ask->metering != NULL ? ask->metering : row->metering;
	row->note = ask->note != NULL ? ask->note : row->note;
	if (ask->target_kg_m3.has)
		row->target_kg_m3 = ask->target_kg_m3.value;
	if (ask->vessel_kg.has)
		row->vessel_kg = ask->vessel_kg.value;
	if (ask->scale_step_kg.has)
		row->scale_step_kg = ask->scale_step_kg.value;
	if (ask->dilution_ratio.has)
		row->dilution_ratio = ask->dilution_ratio;
	if (ask->rate_m3_s.has)
		row->rate_m3_s = ask->rate_m3_s;
	row->row.typed = ask->typed;
}

enum err_code
work_generator_put(const struct desk *desk, struct arena *arena,
	const struct work_generator_ask *ask, bool *made, struct err *err)
{
	struct book_generator row = {
		.code = ask->code, .metering = "", .note = ""};
	struct err unknown = {.code = ERR_NONE};
	struct work_mixer m;
	size_t at;

	TRY(work_mixer_read(desk, arena, &m, err));
	*made = work_find_generator(&m, ask->code, &at, &unknown) != ERR_NONE;
	if (!*made)
		row = m.generator[at];
	overlay(ask, &row);
	TRY(find_vessel(ask, &row, err));
	TRY(check_generator(&row, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "generator",
		desk->submission, err));
	return work_commit_or_undo(
		desk, row.code, book_put_generator(desk->book, &row, err), err);
}

/* ---- a check ---- */

enum err_code
work_foam_weigh(const struct book_generator *generator,
	const struct book_foam_check *check, struct mix_weighed *out,
	struct err *err)
{
	double u_m3 = generator->vessel_u_m3.has ? generator->vessel_u_m3.value
						 : 0;

	return mix_bulk_density(check->gross_kg, generator->vessel_kg,
		generator->scale_step_kg, generator->vessel_m3,
		hypot(u_m3, mix_level_ratio * generator->vessel_m3), out, err);
}

enum err_code
work_foam_now(const struct work_mixer *m, size_t generator,
	struct density *density, bool *checked, struct err *err)
{
	const struct book_generator *g = &m->generator[generator];
	struct mix_weighed weighed;

	density->kg_m3 = g->target_kg_m3;
	*checked = false;
	for (size_t i = m->n_foam_check; i > 0; i--) {
		if (m->foam_check[i - 1].generator_id != g->row.id)
			continue;
		TRY(work_foam_weigh(g, &m->foam_check[i - 1], &weighed, err));
		density->kg_m3 = weighed.value;
		*checked = true;
		break;
	}
	return ERR_NONE;
}

/* The first check of the same batch, against which a drift is told. */
static const struct book_foam_check *
first_of_batch(const struct work_mixer *m, const struct book_foam_check *row)
{
	for (size_t i = 0; row->batch_id != 0 && i < m->n_foam_check; i++)
		if (m->foam_check[i].batch_id == row->batch_id &&
			m->foam_check[i].generator_id == row->generator_id)
			return &m->foam_check[i];
	return NULL;
}

static const char *
consequence(const char *metering, bool heavy)
{
	if (strcmp(metering, "seconds") == 0)
		return heavy
			? N_("Metered by seconds, heavy foam means less of "
			     "it: the batch comes out short, heavy and "
			     "misleadingly strong.")
			: N_("Metered by seconds, light foam means more of "
			     "it: the batch comes out long, light and weak.");
	if (strcmp(metering, "density") == 0)
		return heavy
			? N_("Foamed until the mix weighs right, heavy foam "
			     "brings water in unseen and weakens it.")
			: N_("Foamed until the mix weighs right, light foam "
			     "brings less water: a little stronger.");
	return N_("Metered by the bucket, the wet density moves little; the "
		  "water does.");
}

static enum err_code
judge(struct arena *arena, const struct work_warning *w,
	struct work_foam_told *told, struct err *err)
{
	bool off = fabs(told->off_ratio) > w->limit[0];
	bool moved = told->has_drift && fabs(told->drift_ratio) > w->limit[1];

	told->verdict = off ? "stop" : moved ? "adjust" : "ok";
	if (off)
		told->sentence = text_format(arena,
			"Stop: the foam is %.0f %% %s than its target. Set the "
			"generator again and repeat the check before any goes "
			"into a mix. %s",
			fabs(told->off_ratio) * 100,
			told->off_ratio > 0 ? arena_say(arena, "heavier")
					    : arena_say(arena, "lighter"),
			arena_say(arena,
				consequence(told->generator->metering,
					told->off_ratio > 0)));
	else if (moved)
		told->sentence = text_format(arena,
			"Adjust: within this batch the foam became %.0f %% %s; "
			"up to %.0f %% is steady. Look at tank pressure, "
			"regulator and filter. %s",
			fabs(told->drift_ratio) * 100,
			told->drift_ratio > 0 ? arena_say(arena, "heavier")
					      : arena_say(arena, "lighter"),
			w->limit[1] * 100,
			arena_say(arena,
				consequence(told->generator->metering,
					told->drift_ratio > 0)));
	else
		told->sentence = arena_say(
			arena, "The foam is as it should be.");
	if ((off || moved) && w->is_on)
		told->sentence = work_warning_text(arena, w, told->sentence);
	return told->sentence != NULL ? ERR_NONE : err_memory(err);
}

static enum err_code
tell(struct arena *arena, const struct work_mixer *m,
	const struct book_foam_check *row, struct work_foam_told *told,
	struct err *err)
{
	const struct book_generator *g = told->generator;
	const struct book_foam_check *first = first_of_batch(m, row);
	struct mix_weighed now, before;

	TRY(work_foam_weigh(g, row, &now, err));
	told->density_kg_m3 = now.value;
	told->standard_uncertainty_kg_m3 = now.standard_uncertainty;
	told->off_ratio = now.value / g->target_kg_m3 - 1;
	told->has_rate = row->fill_s.has;
	if (told->has_rate)
		told->rate_m3_s = g->vessel_m3 / row->fill_s.value;
	if (first != NULL && first != row) {
		TRY(work_foam_weigh(g, first, &before, err));
		told->has_drift = true;
		told->drift_ratio = now.value / before.value - 1;
	}
	return judge(arena, &m->warning.w[CONTROL_W1], told, err);
}

static enum err_code
fill_check(const struct work_mixer *m, const struct work_foam_ask *ask,
	struct book_foam_check *row, struct arena *arena, struct err *err)
{
	enum mix_moment moment;
	size_t at;

	row->moment = ask->moment != NULL ? ask->moment : "start";
	if (!mix_moment_find(row->moment, &moment))
		return err_report(err, ERR_INPUT, "--moment",
			"\"%.40s\" is no moment of a run; it is start, middle "
			"or end.",
			row->moment);
	if (!ask->gross_kg.has)
		return err_report(err, ERR_INPUT, "--gross",
			"Say what the vessel full of foam weighs: --gross "
			"\"1.337 kg\".");
	row->gross_kg = ask->gross_kg.value;
	row->fill_s = ask->fill_s;
	row->read_on = ask->read_on != NULL ? ask->read_on : "";
	row->remark = ask->remark != NULL ? ask->remark : "";
	row->row.typed = ask->typed;
	row->code = text_format(arena, "F%zu", m->n_check_in_all + 1);
	if (row->code == NULL)
		return err_memory(err);
	if (ask->batch == NULL)
		return ERR_NONE;
	TRY(work_find_batch(m, ask->batch, &at, err));
	row->batch_id = m->site.batch[at].row.id;
	return ERR_NONE;
}

static enum err_code
enter_check(const struct desk *desk, struct arena *arena,
	const struct work_foam_ask *ask, struct work_foam_told *told,
	const char **entered, struct err *err)
{
	struct book_foam_check row = {.row = {.id = 0}};
	struct work_mixer m;
	size_t at;

	TRY(work_mixer_read_at_hand(
		desk, arena, ask->batch != NULL ? ask->batch : "", &m, err));
	TRY(work_find_generator(&m, ask->generator, &at, err));
	told->generator = &m.generator[at];
	row.generator_id = told->generator->row.id;
	TRY(fill_check(&m, ask, &row, arena, err));
	if (ask->read_on == NULL)
		row.read_at_s = (struct maybe){true, (double)desk->now_utc_s};
	row.batches_before = (struct maybe){
		true, (double)m.n_before + (ask->batch != NULL ? 1 : 0)};
	TRY(tell(arena, &m, &row, told, err));
	*entered = row.code;
	return book_put_foam_check(desk->book, &row, err);
}

enum err_code
work_foam_put(const struct desk *desk, struct arena *arena,
	const struct work_foam_ask *ask, struct work_foam_told *told,
	struct err *err)
{
	struct work_foam_told got = {.generator = NULL};
	const char *entered = "";
	enum err_code code;

	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "foam check",
		desk->submission, err));
	code = enter_check(desk, arena, ask, &got, &entered, err);
	TRY(work_commit_or_undo(desk, entered, code, err));
	*told = got;
	return ERR_NONE;
}

enum err_code
work_foam_tell(struct arena *arena, const struct work_mixer *m, size_t check,
	struct work_foam_told *told, struct err *err)
{
	const struct book_foam_check *row = &m->foam_check[check];
	struct work_foam_told got = {.generator = NULL};

	for (size_t i = 0; i < m->n_generator; i++)
		if (m->generator[i].row.id == row->generator_id)
			got.generator = &m->generator[i];
	if (got.generator == NULL)
		return err_report(err, ERR_NOT_FOUND, "generator",
			"The generator of that check is no longer in the "
			"book.");
	TRY(tell(arena, m, row, &got, err));
	*told = got;
	return ERR_NONE;
}

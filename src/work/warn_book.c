/* warn_book.c - the rules that look at the whole book: trials, pieces, readings,
 * decisions, parts; and the list of all rules with what they say. */
#include "work/warn.h"

#include "book/book.h"
#include "core/date.h"
#include "core/text.h"
#include "work/cure.h"
#include "work/recipe.h"
#include "work/watch.h"

#include <math.h>
#include <string.h>

static const double day_s = 86400, percent = 100;
static const double usual_test_age_s = 28 * 86400.0;
static const double week_to_s = 14 * 86400.0, month_to_s = 42 * 86400.0;

struct looking {
	const struct work_mixer *m;
	const struct work_site *s;
	struct arena *arena;
	const struct book_prediction *prediction;
	size_t n_prediction;
	int64_t now_utc_s;
	struct work_fired_list *list;
};

static double
limit(const struct looking *l, enum control_warning_code code, size_t at)
{
	return l->m->warning.w[code].limit[at];
}

static void
fire(const struct looking *l, enum control_warning_code code,
	const char *subject, const char *sentence)
{
	work_fire(l->list, l->arena, &l->m->warning, code, subject, sentence);
}

static const char *
named(const struct looking *l, const char *what, const char *code)
{
	return text_format(l->arena, "%s %s", arena_say(l->arena, what), code);
}

/* ---- pieces ---- */

static void
look_at_fates(const struct looking *l)
{
	const struct work_site *s = l->s;
	double over_s = limit(l, CONTROL_W11, 0) * day_s;

	for (size_t i = 0; i < s->n_specimen; i++) {
		const struct book_specimen *p = &s->specimen[i];
		const struct book_batch *b = &s->batch[s->specimen_batch[i]];
		struct err odd = {.code = ERR_NONE};
		double due = p->test_age_s.has ? p->test_age_s.value
					       : usual_test_age_s;
		int64_t made;

		if (strcmp(p->fate, "waiting") != 0 || b->made_on[0] == '\0' ||
			date_read(b->made_on, 0, &made, &odd) != ERR_NONE)
			continue;
		if ((double)(l->now_utc_s - made) > due + over_s)
			fire(l, CONTROL_W11, named(l, N_("piece"), p->code),
				text_format(l->arena,
					"Its test was due at %.0f days and it "
					"has no fate: tested, snapped, or set "
					"aside?",
					due / day_s));
	}
}

/* Ages of the pieces that were tested about a week or about a month old. */
static void
look_at_ages(const struct looking *l, size_t which, double from_s, double to_s)
{
	const struct work_site *s = l->s;
	double low = INFINITY, high = 0;
	const char *young = "", *old = "";

	for (size_t i = 0; i < s->n_reading; i++) {
		const struct book_reading *r = &s->reading[i];
		size_t piece = s->reading_specimen[i];

		if (!r->age_s.has || r->age_s.value < from_s ||
			r->age_s.value >= to_s ||
			strcmp(r->kind, "weighing") == 0 ||
			s->batch[s->specimen_batch[piece]].practice)
			continue;
		if (r->age_s.value < low) {
			low = r->age_s.value;
			young = s->specimen[piece].code;
		}
		if (r->age_s.value > high) {
			high = r->age_s.value;
			old = s->specimen[piece].code;
		}
	}
	if (high - low > limit(l, CONTROL_W19, which))
		fire(l, CONTROL_W19, arena_say(l->arena, N_("the pieces")),
			text_format(l->arena,
				"They were tested between %.1f days old (%s) "
				"and %.1f (%s).",
				low / day_s, young, high / day_s, old));
}

static void
look_at_moisture(const struct looking *l)
{
	const struct work_site *s = l->s;
	double low = INFINITY, high = 0;
	const char *dry = "", *wet = "";

	for (size_t i = 0; i < s->n_specimen; i++) {
		const struct book_specimen *p = &s->specimen[i];

		if (!p->moisture_ratio.has || strcmp(p->fate, "tested") != 0)
			continue;
		if (p->moisture_ratio.value < low) {
			low = p->moisture_ratio.value;
			dry = p->code;
		}
		if (p->moisture_ratio.value > high) {
			high = p->moisture_ratio.value;
			wet = p->code;
		}
	}
	if (high - low > limit(l, CONTROL_W19, 2))
		fire(l, CONTROL_W19, arena_say(l->arena, N_("the pieces")),
			text_format(l->arena,
				"They were tested between %.1f %% of moisture "
				"(%s) and %.1f %% (%s).",
				low * percent, dry, high * percent, wet));
}

/* ---- readings ---- */

static void
look_at_bending(const struct looking *l, size_t i)
{
	const struct book_reading *r = &l->s->reading[i];
	const struct book_specimen *p =
		&l->s->specimen[l->s->reading_specimen[i]];
	const struct book_bending *b = &r->bending;
	const char *subject = named(l, N_("piece"), p->code);

	if (b->broke_kg.has &&
		b->broke_kg.value - b->held_kg >
			limit(l, CONTROL_W16, 0) * b->broke_kg.value)
		fire(l, CONTROL_W16, subject,
			text_format(l->arena,
				"It held %.4g kg and not %.4g: a step of %.0f "
				"%% of what broke it.",
				b->held_kg, b->broke_kg.value,
				(1 - b->held_kg / b->broke_kg.value) *
					percent));
	if (!b->span_m.has || !p->width_m.has || !p->depth_m.has ||
		(!b->on_rig_kg.has && !b->on_rig_included))
		fire(l, CONTROL_W17, subject,
			text_format(l->arena, "%s: its load is no strength.",
				!b->span_m.has ? arena_say(l->arena,
							 "The span is missing")
					: !p->width_m.has || !p->depth_m.has
					? arena_say(l->arena,
						  "Width or depth is missing")
					: arena_say(l->arena,
						  "What hung with the weights "
						  "is "
						  "missing")));
}

static void
look_at_drop(const struct looking *l, size_t i)
{
	const struct book_reading *r = &l->s->reading[i];
	const struct book_specimen *p =
		&l->s->specimen[l->s->reading_specimen[i]];
	double share;

	if (!r->drop.dent_m.has || !p->depth_m.has || r->drop.went_through)
		return;
	share = r->drop.dent_m.value / p->depth_m.value;
	if (share > limit(l, CONTROL_W18, 0))
		fire(l, CONTROL_W18, named(l, N_("piece"), p->code),
			text_format(l->arena,
				"The bar went %.0f %% of its thickness deep: "
				"the ground below bore the blow too.",
				share * percent));
}

static void
look_at_readings(const struct looking *l)
{
	for (size_t i = 0; i < l->s->n_reading; i++) {
		if (strcmp(l->s->reading[i].kind, "bending") == 0)
			look_at_bending(l, i);
		else if (strcmp(l->s->reading[i].kind, "drop") == 0)
			look_at_drop(l, i);
	}
}

/* ---- mixes and trials ---- */

static size_t
real_batches(const struct looking *l, size_t mix)
{
	size_t n = 0;

	for (size_t i = 0; i < l->s->n_batch; i++)
		n += l->s->batch_mix[i] == mix && !l->s->batch[i].practice;
	return n;
}

static void
look_at_mix_counts(const struct looking *l)
{
	double least = limit(l, CONTROL_W12, 0);

	for (size_t k = 0; k < l->s->n_mix; k++) {
		size_t n = real_batches(l, k);

		if (n > 0 && (double)n < least)
			fire(l, CONTROL_W12,
				named(l, N_("mix"), l->s->mix[k].code),
				text_format(l->arena,
					"%zu batch%s of it: it cannot be "
					"ranked.",
					n,
					n == 1 ? ""
					       : arena_say(l->arena, "es")));
	}
}

/* Days on which batches of a mix (or, with not, of any other) were made. */
static size_t
count_days(const struct looking *l, size_t mix, bool not, double *only)
{
	size_t n = 0;

	for (size_t i = 0; i < l->s->n_batch; i++) {
		const struct book_batch *b = &l->s->batch[i];
		bool known = false;

		if (b->practice || !b->day.has ||
			(l->s->batch_mix[i] == mix) == not )
			continue;
		for (size_t k = 0; k < i && !known; k++)
			known = !l->s->batch[k].practice &&
				l->s->batch[k].day.has &&
				l->s->batch[k].day.value == b->day.value &&
				(l->s->batch_mix[k] == mix) != not ;
		if (!known) {
			*only = b->day.value;
			n++;
		}
	}
	return n;
}

static void
look_at_baseline(const struct looking *l)
{
	size_t base = l->s->baseline, n, days, others;
	double day = 0;

	if (!l->s->has_baseline || l->s->n_batch == 0)
		return;
	n = real_batches(l, base);
	days = count_days(l, base, false, &day);
	others = count_days(l, base, true, &day);
	if (n > 0 && (double)n < limit(l, CONTROL_W13, 0))
		fire(l, CONTROL_W13, named(l, N_("mix"), l->s->mix[base].code),
			N_("The baseline was not repeated: a drift and a mix "
			   "cannot be told apart."));
	else if (n > 0 && others > 1 && days > 0 &&
		(double)days < limit(l, CONTROL_W13, 1))
		fire(l, CONTROL_W13, named(l, N_("mix"), l->s->mix[base].code),
			text_format(l->arena,
				"The baseline was made on %zu day%s, the "
				"others on %zu.",
				days, days == 1 ? "" : "s", others));
}

/* A mix with all its batches on one day on which no other was made. */
static void
look_at_days(const struct looking *l)
{
	for (size_t k = 0; k < l->s->n_mix; k++) {
		double day = 0, other = 0;
		bool shared = false;

		if (real_batches(l, k) < 2 ||
			count_days(l, k, false, &day) != 1 ||
			count_days(l, k, true, &other) == 0)
			continue;
		for (size_t i = 0; i < l->s->n_batch; i++)
			shared = shared ||
				(l->s->batch_mix[i] != k &&
					!l->s->batch[i].practice &&
					l->s->batch[i].day.has &&
					l->s->batch[i].day.value == day);
		if (!shared)
			fire(l, CONTROL_W14,
				named(l, N_("mix"), l->s->mix[k].code),
				text_format(l->arena,
					"All its batches were made on day "
					"%.0f, and no other mix was: the day "
					"and the mix cannot be told apart.",
					day));
	}
}

/* A mix whose batches all had a water that no other mix had. */
static void
look_at_waters(const struct looking *l)
{
	const struct work_site *s = l->s;

	for (size_t k = 0; k < s->n_mix; k++) {
		double water = (double)NAN;
		bool one = true, shared = false, others = false;

		for (size_t i = 0; i < s->n_batch; i++) {
			const struct maybe *h =
				&s->batch[i].water_hardness_kg_m3;

			if (s->batch_mix[i] != k || s->batch[i].practice ||
				!h->has)
				continue;
			one = one && (isnan(water) || water == h->value);
			water = h->value;
		}
		for (size_t i = 0; i < s->n_batch && !isnan(water); i++) {
			const struct maybe *h =
				&s->batch[i].water_hardness_kg_m3;

			if (s->batch_mix[i] == k || s->batch[i].practice ||
				!h->has)
				continue;
			others = true;
			shared = shared || h->value == water;
		}
		if (!isnan(water) && one && others && !shared)
			fire(l, CONTROL_W14,
				named(l, N_("mix"), s->mix[k].code),
				text_format(l->arena,
					"Its water of %.0f mg/L went into no "
					"other mix: the water and the mix "
					"cannot be told apart.",
					water * 1000));
	}
}

/* ---- the foam, changed after every batch ---- */

/* Foam to a mass of cement and the like, of one batch. */
static bool
foam_per_kg(const struct looking *l, size_t batch, double *ratio)
{
	const struct book_batch *b = &l->s->batch[batch];
	double kg = 0;

	for (size_t i = 0; i < l->m->n_batch_part; i++)
		if (l->m->batch_part[i].batch_id == b->row.id)
			kg += l->m->batch_part[i].mass_kg;
	if (!b->foam_m3.has || !(kg > 0))
		return false;
	*ratio = b->foam_m3.value / kg;
	return true;
}

/* How many batches in a row up to the last had their foam changed against what
 * the batch before had come out as. */
static void
look_at_corrections(const struct looking *l, size_t mix)
{
	double before = 0, off_before = 0, least = limit(l, CONTROL_W30, 1);
	size_t row = 0;
	const char *last = "";

	for (size_t i = 0; i < l->s->n_batch; i++) {
		const struct book_batch *b = &l->s->batch[i];
		double now, target, change;

		if (l->s->batch_mix[i] != mix || b->practice ||
			!foam_per_kg(l, i, &now))
			continue;
		change = before > 0 ? now / before - 1 : 0;
		if (fabs(change) > least && change * off_before > 0)
			row++;
		else
			row = 0;
		last = b->code;
		before = now;
		off_before = 0;
		target = l->s->mix[mix].wet_target_kg_m3.value;
		if (b->wet_kg_m3.has && l->s->mix[mix].wet_target_kg_m3.has)
			off_before = b->wet_kg_m3.value / target - 1;
	}
	if (row > 0 && (double)row >= limit(l, CONTROL_W30, 0))
		fire(l, CONTROL_W30, named(l, N_("batch"), last),
			text_format(l->arena,
				"The foam of mix %s was changed in %zu batches "
				"in a row, each time against the last: leave "
				"it for a while and look at several.",
				l->s->mix[mix].code, row));
}

void
work_warn_corrections(const struct work_mixer *m, struct arena *arena,
	struct work_fired_list *list)
{
	const struct looking l = {
		.m = m, .s = &m->site, .arena = arena, .list = list};

	for (size_t k = 0; k < m->site.n_mix; k++)
		look_at_corrections(&l, k);
}

/* ---- decisions and parts ---- */

static bool
was_confirmed(const struct looking *l, const struct book_decision *d)
{
	for (size_t i = 0; i < l->n_prediction; i++) {
		const struct book_prediction *p = &l->prediction[i];
		int64_t n = 0;

		if (p->part_id != d->part_id || p->mix_id != d->mix_id)
			continue;
		for (size_t k = 0; k < l->s->n_batch; k++)
			n += l->s->batch[k].mix_id == d->mix_id &&
				!l->s->batch[k].practice &&
				l->s->batch[k].row.id > p->after_batch_id;
		if (n >= p->batches)
			return true;
	}
	return false;
}

static void
look_at_decisions(const struct looking *l)
{
	size_t candidates = 0;

	for (size_t k = 0; k < l->s->n_mix; k++)
		candidates += real_batches(l, k) > 0;
	if ((double)candidates <= limit(l, CONTROL_W20, 0))
		return;
	for (size_t i = 0; i < l->m->n_decision; i++) {
		const struct book_decision *d = &l->m->decision[i];
		const char *mix = "", *part = "";

		for (size_t k = 0; k < l->s->n_mix; k++)
			if (l->s->mix[k].row.id == d->mix_id)
				mix = l->s->mix[k].code;
		for (size_t k = 0; k < l->s->n_part; k++)
			if (l->s->part[k].row.id == d->part_id)
				part = l->s->part[k].code;
		if (!was_confirmed(l, d))
			fire(l, CONTROL_W20, named(l, N_("part"), part),
				text_format(l->arena,
					"Mix %s was chosen out of %zu and not "
					"made again since: expect it to "
					"shrink.",
					mix, candidates));
	}
}

static void
look_at_parts(const struct looking *l)
{
	for (size_t i = 0; i < l->s->n_part; i++) {
		const struct book_part *p = &l->s->part[i];
		bool roof = strcmp(p->kind, "roof") == 0;

		if (roof)
			fire(l, CONTROL_W24, named(l, N_("part"), p->code),
				N_("It is overhead: an engineer must look at "
				   "it."));
		else if (strcmp(p->kind, "wall") == 0 && p->height_m.has &&
			p->height_m.value > limit(l, CONTROL_W24, 0))
			fire(l, CONTROL_W24, named(l, N_("part"), p->code),
				text_format(l->arena,
					"It stands %.2f m high: an engineer "
					"must look at it.",
					p->height_m.value));
	}
}

void
work_warn_book(const struct work_mixer *m, struct arena *arena,
	const struct book_prediction *prediction, size_t n_prediction,
	int64_t now_utc_s, struct work_fired_list *list)
{
	const struct looking l = {.m = m,
		.s = &m->site,
		.arena = arena,
		.prediction = prediction,
		.n_prediction = n_prediction,
		.now_utc_s = now_utc_s,
		.list = list};

	look_at_fates(&l);
	look_at_mix_counts(&l);
	look_at_baseline(&l);
	look_at_days(&l);
	look_at_waters(&l);
	look_at_readings(&l);
	look_at_ages(&l, 0, 0, week_to_s);
	look_at_ages(&l, 1, week_to_s, month_to_s);
	look_at_moisture(&l);
	look_at_decisions(&l);
	look_at_parts(&l);
	work_warn_corrections(m, arena, list);
}

/* ---- how batches cured ---- */

static void
look_at_core(const struct looking *l, const struct book_cure *cure,
	const struct book_trace *trace)
{
	for (size_t k = 0; k < l->s->n_batch; k++)
		if (l->s->batch[k].row.id == cure->batch_id &&
			trace->highest > limit(l, CONTROL_W28, 0))
			fire(l, CONTROL_W28,
				named(l, N_("batch"), l->s->batch[k].code),
				text_format(l->arena,
					"It reached %.0f degC by the log "
					"\"%.60s\".",
					trace->highest, trace->code));
}

static void
look_at_cures(const struct looking *l, const struct work_cures *cures)
{
	for (size_t i = 0; i < cures->n_cure; i++)
		for (size_t k = 0; k < cures->n_trace; k++)
			if (cures->trace[k].row.id == cures->cure[i].trace_id)
				look_at_core(
					l, &cures->cure[i], &cures->trace[k]);
}

/* ---- the list ---- */

/* What the sheets and the charts say, once for the whole book. */
static enum err_code
gather(const struct desk *desk, struct arena *arena, struct work_warned *out,
	struct work_fired_list *list, struct err *err)
{
	const struct work_mixer *m = &out->m;
	const struct looking l = {
		.m = m, .s = &m->site, .arena = arena, .list = list};
	const struct book_prediction *prediction;
	struct work_cures cures;
	size_t n;

	TRY(book_all_prediction(desk->book, arena, &prediction, &n, err));
	TRY(work_cures(desk, arena, &cures, err));
	look_at_cures(&l, &cures);
	for (size_t i = 0; i < m->site.n_batch; i++)
		work_warn_batch(m, arena, i, work_every_rule, 0, list);
	for (size_t k = 0; k < m->site.n_mix; k++) {
		struct work_recipe_shown shown;
		struct err odd = {.code = ERR_NONE};

		work_warn_cement(m, arena, k, desk->now_utc_s, list);
		if (work_recipe_show(m, arena, k, &shown, &odd) == ERR_NONE)
			work_warn_mix(m, arena, k,
				shown.proportion.foam_fraction,
				shown.proportion.wet_density.kg_m3,
				shown.proportion.oven_dry_density.kg_m3, list);
	}
	work_warn_book(m, arena, prediction, n, desk->now_utc_s, list);
	return work_watch_warn(m, arena, list, err);
}

enum err_code
work_warn(const struct desk *desk, struct arena *arena, struct work_warned *out,
	struct err *err)
{
	struct work_fired_list list = {.n = 0};
	struct work_warned got = {.n_fired = 0};

	TRY(work_mixer_read(desk, arena, &got.m, err));
	*out = got;
	TRY(gather(desk, arena, out, &list, err));
	if (list.failed)
		return err_memory(err);
	for (int c = 0; c < CONTROL_WARNING_COUNT; c++) {
		struct work_rule_told *t = &out->rule[c];
		struct work_fired *mine = arena_take(
			arena, list.n + 1, sizeof *mine);

		if (mine == NULL)
			return err_memory(err);
		t->w = out->m.warning.w[c];
		t->fired = mine;
		for (size_t i = 0; i < list.n; i++)
			if ((int)list.fired[i].code == c)
				mine[t->n_fired++] = list.fired[i];
		out->n_fired += t->n_fired;
		out->n_on += t->w.is_on;
	}
	return ERR_NONE;
}

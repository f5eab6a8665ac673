/* trial.c - the plan of a trial, drawn once and kept. */
#include "work/trial.h"

#include "book/book.h"
#include "core/date.h"
#include "core/rng.h"
#include "core/text.h"
#include "work/compare.h"

#include <math.h>
#include <string.h>

/* Typical spreads until the book has its own: 8 % between batches, 10 % within;
 * common practice, no source. */
static const double typical_sd_batch = 0.08;
static const double typical_sd_specimen = 0.10;

enum { USUAL_BATCHES = 2, USUAL_PIECES = 3, USUAL_PER_DAY = 4 };

/* The usual rules of validity; common practice, no source. */
static const struct {
	const char *code, *measure, *action, *reason;
	double above;
} usual_rules[] = {
	{"sunk", "settling_loss_24h", "exclude",
		N_("what sank is of another material"), 0.15},
	{"wet", "wet_density_off", "exclude", N_("not this mix"), 0.10},
	{"foam", "foam_density_off", "flag", N_("foam off its target"), 0.10},
	{"blending", "blending_time_off", "flag",
		N_("blended longer or shorter"), 0.25},
};

struct planning {
	const struct desk *desk;
	struct arena *arena;
	const struct work_trial_ask *ask;
	struct work_mixer m;
	struct book_trial row;
	size_t *mix; /* indices, the baseline first */
	size_t n_mix;
	struct stats_trial_order order;
};

static size_t
whole_or(struct maybe value, size_t usual)
{
	return value.has ? (size_t)value.value : usual;
}

static enum err_code
gather_mixes(struct planning *p, struct err *err)
{
	size_t at;

	if (p->ask->baseline == NULL)
		return err_report(err, ERR_INPUT, "--baseline",
			"Say which mix all others are held against: "
			"--baseline P.");
	p->mix = arena_take(p->arena, p->ask->n_mix + 1, sizeof *p->mix);
	if (p->mix == NULL)
		return err_memory(err);
	TRY(work_find_mix(&p->m, p->ask->baseline, &at, err));
	p->mix[p->n_mix++] = at;
	for (size_t i = 0; i < p->ask->n_mix; i++) {
		size_t before = 0;

		TRY(work_find_mix(&p->m, p->ask->mix[i], &at, err));
		while (before < p->n_mix && p->mix[before] != at)
			before++;
		if (before == p->n_mix)
			p->mix[p->n_mix++] = at;
	}
	return ERR_NONE;
}

static enum err_code
start_row(struct planning *p, struct err *err)
{
	struct err unknown = {.code = ERR_NONE};
	size_t at;

	p->row = (struct book_trial){.code = p->ask->code, .question = ""};
	if (work_find_trial(&p->m, p->ask->code, &at, &unknown) == ERR_NONE) {
		for (size_t i = 0; i < p->m.n_slot; i++)
			if (p->m.slot[i].trial_id == p->m.site.trial[at].row.id)
				return err_report(err, ERR_CONFLICT, "trial",
					"Trial %s is planned already; a plan "
					"is drawn once, before casting. Give "
					"another trial another code.",
					p->ask->code);
		p->row = p->m.site.trial[at];
	}
	if (p->ask->question != NULL)
		p->row.question = p->ask->question;
	p->row.baseline_mix_id = p->m.site.mix[p->mix[0]].row.id;
	p->row.plan_seed = (struct maybe){true,
		p->ask->seed.has ? p->ask->seed.value : (double)p->desk->seed};
	p->row.pieces = (struct maybe){
		true, (double)whole_or(p->ask->pieces, USUAL_PIECES)};
	p->row.row.typed = p->ask->typed;
	return ERR_NONE;
}

static enum err_code
draw(struct planning *p, struct err *err)
{
	struct stats_trial_ask ask = {.n_mix = p->n_mix,
		.baseline = 0,
		.n_round = whole_or(p->ask->batches, USUAL_BATCHES),
		.per_day = whole_or(p->ask->per_day, USUAL_PER_DAY)};
	gsl_rng *rng = rng_new((uint64_t)p->row.plan_seed.value, 0);
	enum err_code code;

	if (rng == NULL)
		return err_memory(err);
	code = stats_trial_order(p->arena, &ask, rng, &p->order, err);
	gsl_rng_free(rng);
	return code;
}

static enum err_code
put_slots(struct planning *p, struct err *err)
{
	for (size_t i = 0; i < p->order.n; i++) {
		struct book_trial_slot slot = {.row = {.typed = ""},
			.trial_id = p->row.row.id,
			.batch_code = text_format(
				p->arena, "%s-%02zu", p->row.code, i + 1),
			.place = (int64_t)i + 1,
			.day = (int64_t)p->order.day[i],
			.mix_id =
				p->m.site.mix[p->mix[p->order.mix[i]]].row.id};

		if (slot.batch_code == NULL)
			return err_memory(err);
		TRY(book_put_trial_slot(p->desk->book, &slot, err));
	}
	return ERR_NONE;
}

static enum err_code
put_rules(struct planning *p, struct err *err)
{
	char today[DATE_TEXT_MAX];

	for (size_t i = 0; i < p->m.site.n_rule; i++)
		if (p->m.site.rule[i].trial_id == p->row.row.id)
			return ERR_NONE;
	date_write_day(p->desk->now_utc_s, 0, today);
	for (size_t i = 0; i < sizeof usual_rules / sizeof usual_rules[0];
		i++) {
		struct book_rule rule = {.row = {.typed = ""},
			.trial_id = p->row.row.id,
			.code = usual_rules[i].code,
			.measure = usual_rules[i].measure,
			.action = usual_rules[i].action,
			.set_on = today,
			.reason = usual_rules[i].reason,
			.above = usual_rules[i].above};

		TRY(book_put_rule(p->desk->book, &rule, err));
	}
	return ERR_NONE;
}

static enum err_code
write_all(struct planning *p, struct err *err)
{
	TRY(book_put_trial(p->desk->book, &p->row, err));
	TRY(put_slots(p, err));
	return put_rules(p, err);
}

enum err_code
work_trial_plan(const struct desk *desk, struct arena *arena,
	const struct work_trial_ask *ask, struct err *err)
{
	struct planning p = {.desk = desk, .arena = arena, .ask = ask};

	TRY(work_mixer_read(desk, arena, &p.m, err));
	TRY(gather_mixes(&p, err));
	TRY(start_row(&p, err));
	TRY(draw(&p, err));
	TRY(book_begin(desk->book, desk->now_utc_s, desk->who, "trial plan",
		desk->submission, err));
	return work_commit_or_undo(desk, p.row.code, write_all(&p, err), err);
}

/* ---- told ---- */

/* The slots of a trial in the order of making. */
static enum err_code
order_slots(const struct work_mixer *m, struct arena *arena, size_t trial,
	struct work_trial_told *told, struct err *err)
{
	size_t *slot = arena_take(arena, m->n_slot, sizeof *slot);

	if (slot == NULL)
		return err_memory(err);
	for (size_t i = 0; i < m->n_slot; i++) {
		size_t at = told->n_batch;

		if (m->slot[i].trial_id != m->site.trial[trial].row.id)
			continue;
		for (; at > 0 && m->slot[slot[at - 1]].place > m->slot[i].place;
			at--)
			slot[at] = slot[at - 1];
		slot[at] = i;
		told->n_batch++;
		if ((size_t)m->slot[i].day > told->n_day)
			told->n_day = (size_t)m->slot[i].day;
	}
	told->slot = slot;
	if (told->n_batch == 0)
		return err_report(err, ERR_INPUT, "trial",
			"Trial %s has no plan; \"foamwright trial BOOK %s "
			"--baseline MIX --mix MIX ...\" draws one.",
			m->site.trial[trial].code, m->site.trial[trial].code);
	return ERR_NONE;
}

/* Mixes of the plan, and the fewest batches that one of them has. */
static void
count_mixes(const struct work_mixer *m, struct work_trial_told *told)
{
	told->n_each = told->n_batch;
	for (size_t x = 0; x < m->site.n_mix; x++) {
		size_t n = 0;

		for (size_t i = 0; i < told->n_batch; i++)
			n += m->slot[told->slot[i]].mix_id ==
				m->site.mix[x].row.id;
		told->n_mix += n > 0;
		if (n > 0 && n < told->n_each)
			told->n_each = n;
	}
}

static enum err_code
say_plan(const struct work_mixer *m, struct arena *arena, size_t trial,
	struct work_trial_told *told, struct err *err)
{
	const char **s = arena_take(arena, 4, sizeof *s);
	size_t n = 0;

	if (s == NULL)
		return err_memory(err);
	if (isinf(told->shows_ratio))
		s[n++] = N_(
			"With one batch of each mix no difference can be "
			"told from the luck of a batch: leave mixes out and "
			"make the rest twice.");
	else
		s[n++] = text_format(arena,
			"This plan shows a mix that is %.0f %% stronger than "
			"another with 80 in 100, if batches of one mix differ "
			"by %.0f %% and pieces of one batch by %.0f %% (%s).",
			(told->shows_ratio - 1) * 100,
			told->spread.sd_batch * 100,
			told->spread.sd_specimen * 100,
			told->spread.is_own
				? text_format(arena, "as this book's %s shows",
					  told->spread.measure)
				: arena_say(arena, "typical; yours will show"));
	if (told->n_mix > 3 && told->n_each < 3) {
		double fewer = 0;
		size_t half = told->n_mix / 2 + 1;

		TRY(stats_trial_shows(half, told->n_each * told->n_mix / half,
			told->pieces, told->spread.sd_batch,
			told->spread.sd_specimen, &fewer, err));
		s[n++] = text_format(arena,
			"The same work on %zu mixes, %zu batches each, would "
			"show %.0f %%.",
			half, told->n_each * told->n_mix / half,
			(fewer - 1) * 100);
	}
	s[n++] = text_format(arena,
		"The order was drawn with seed %.0f: the baseline opens, "
		"stands in the middle and comes near the end, so that a drift "
		"shows on it. Keep to it.",
		m->site.trial[trial].plan_seed.value);
	for (size_t i = 0; i < n; i++)
		if (s[i] == NULL)
			return err_memory(err);
	told->sentence = s;
	told->n_sentence = n;
	return ERR_NONE;
}

enum err_code
work_trial_spread(const struct desk *desk, struct arena *arena,
	struct work_trial_spread *out, struct err *err)
{
	static const enum choose_measure measures[] = {
		CHOOSE_BENDING_STRENGTH, CHOOSE_CRUSHING_STRENGTH};
	const struct work_compare_ask ask = {
		.first_of = measures, .n_first_of = 2};
	struct err unknown = {.code = ERR_NONE};
	struct work_compared all;
	enum err_code code = work_compare_asked(
		desk, arena, &ask, &all, &unknown);

	*out = (struct work_trial_spread){.sd_batch = typical_sd_batch,
		.sd_specimen = typical_sd_specimen};
	/* a book without results to compare has no spread of its own */
	if (code != ERR_NONE)
		return code == ERR_MEMORY ? err_memory(err) : ERR_NONE;
	for (size_t i = 0; i < sizeof measures / sizeof measures[0]; i++) {
		const struct work_comparison *c = work_comparison_of(
			&all, measures[i]);

		if (c == NULL || c->one_batch_each)
			continue;
		*out = (struct work_trial_spread){true,
			choose_measure_name(measures[i]), c->sd_batch[0],
			c->sd_specimen[0]};
		break;
	}
	return ERR_NONE;
}

enum err_code
work_trial_show(const struct work_mixer *m, struct arena *arena, size_t trial,
	const struct work_trial_spread *spread, struct work_trial_told *out,
	struct err *err)
{
	const struct book_trial *row = &m->site.trial[trial];
	struct work_trial_told told = {.trial = trial,
		.spread = *spread,
		.pieces = row->pieces.has ? (size_t)row->pieces.value
					  : USUAL_PIECES};

	TRY(order_slots(m, arena, trial, &told, err));
	count_mixes(m, &told);
	TRY(stats_trial_shows(told.n_mix, told.n_each,
		told.pieces > 0 ? told.pieces : 1, told.spread.sd_batch,
		told.spread.sd_specimen, &told.shows_ratio, err));
	TRY(say_plan(m, arena, trial, &told, err));
	*out = told;
	return ERR_NONE;
}

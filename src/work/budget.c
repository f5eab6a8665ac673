/* budget.c - every test's own budget, their mean, and what it is worth. */
#include "work/budget.h"

#include "core/text.h"
#include "core/unit.h"
#include "work/as_lab.h"
#include "work/bench.h"
#include "work/compare.h"
#include "work/result_words.h"

#include <math.h>
#include <string.h>

/* Finer reading helps if it narrows a mix's figure by at least this share. */
static const double worth_least = 0.1;

enum { SENTENCES_MOST = 6 };

struct counting {
	struct arena *arena;
	const struct work_site *site;
	const struct work_results *results;
	size_t piece; /* n_specimen: all */
};

static bool
is_counted(const struct counting *c, const struct work_result *r,
	enum choose_measure measure)
{
	return r->measure == measure && r->has_reading && !r->in_itself &&
		!r->excluded &&
		(c->piece == c->site->n_specimen || r->specimen == c->piece);
}

static enum err_code
budget_of(const struct counting *c, const struct work_result *r,
	struct lab_budget *out, struct err *err)
{
	const struct book_reading *reading = &c->site->reading[r->reading];
	const struct book_specimen *piece = &c->site->specimen[r->specimen];
	const struct work_rig_known known = work_rig_known(
		c->site, reading->rig_id);

	if (strcmp(reading->kind, "bending") == 0) {
		const struct lab_flexure f = work_as_flexure(
			&reading->bending, piece);
		const struct lab_flexure_division division =
			work_flexure_division(&known);

		return lab_budget_flexure(&f, &division, out, err);
	}
	if (strcmp(reading->kind, "drop") == 0) {
		const struct lab_drop d = work_as_drop(
			&reading->drop, piece, &known);
		const struct lab_drop_division division = work_drop_division(
			&reading->drop, &known);

		return lab_budget_drop(&d, &division, out, err);
	}
	struct lab_crush crush = work_as_crush(&reading->crushing, piece);
	const struct lab_crush_division division = work_crush_division(&known);

	TRY(work_crushing_load(&reading->crushing, &known, &crush.load_N, err));
	return lab_budget_crush(&crush, &division, out, err);
}

/* ---- all tests of a measure ---- */

static void
add_square(struct work_budget *b, const struct lab_budget_part *part)
{
	size_t k = 0;

	while (k < b->n_part && strcmp(b->part[k].name, part->name) != 0)
		k++;
	if (k == LAB_BUDGET_PARTS)
		return;
	if (k == b->n_part) {
		b->part[b->n_part++] = *part;
		b->part[k].ratio = 0;
	}
	b->part[k].ratio += part->ratio * part->ratio;
}

static void
take_roots(struct work_budget *b)
{
	double square = 0;

	for (size_t i = 0; i < b->n_part; i++) {
		struct lab_budget_part one = b->part[i];
		size_t at = i;

		one.ratio = sqrt(one.ratio / (double)b->n_test);
		square += one.ratio * one.ratio;
		for (; at > 0 && b->part[at - 1].ratio < one.ratio; at--)
			b->part[at] = b->part[at - 1];
		b->part[at] = one;
	}
	b->reading = sqrt(square);
	if (b->n_step > 0)
		b->step = sqrt(b->step / (double)b->n_step);
}

/* The sums of one measure, and how often mixes were tested for it. */
static enum err_code
count_measure(const struct counting *c, struct work_budget *b, struct err *err)
{
	const struct work_site *s = c->site;
	bool *batch_seen = arena_take(c->arena, s->n_batch + 1, sizeof(bool));
	bool *mix_seen = arena_take(c->arena, s->n_mix + 1, sizeof(bool));
	double n_batch = 0, n_mix = 0, n_all = 0;

	if (batch_seen == NULL || mix_seen == NULL)
		return err_memory(err);
	for (size_t i = 0; i < c->results->n_result; i++) {
		const struct work_result *r = &c->results->result[i];
		struct err odd = {.code = ERR_NONE};
		struct lab_budget one;

		if (r->measure != b->measure || r->excluded)
			continue;
		n_all++;
		n_batch += !batch_seen[r->batch];
		n_mix += !mix_seen[r->mix];
		batch_seen[r->batch] = mix_seen[r->mix] = true;
		if (!is_counted(c, r, b->measure) ||
			budget_of(c, r, &one, &odd) != ERR_NONE)
			continue;
		b->n_test++;
		for (size_t k = 0; k < one.n_part; k++)
			add_square(b, &one.part[k]);
		b->n_step += one.has_step;
		if (one.has_step)
			b->step += one.step * one.step;
	}
	b->n_batch = n_mix > 0 ? n_batch / n_mix : 1;
	b->n_piece = n_batch > 0 ? n_all / n_batch : 1;
	if (b->n_test > 0)
		take_roots(b);
	return ERR_NONE;
}

/* What pieces and batches differ by; none where there are not two mixes. */
static enum err_code
take_spread(const struct desk *desk, struct arena *arena, struct work_budget *b,
	struct err *err)
{
	const struct work_compare_ask ask = {
		.has_measure = true, .measure = b->measure};
	struct err odd = err_in(arena);
	struct work_compared compared;
	enum err_code code;

	code = work_compare_asked(desk, arena, &ask, &compared, &odd);
	if (code == ERR_INPUT)
		return ERR_NONE;
	if (code != ERR_NONE)
		return err_report(err, code, odd.field, "%s", odd.text);
	for (size_t i = 0; i < compared.n_comparison; i++) {
		const struct work_comparison *one = &compared.comparison[i];

		if (one->measure != b->measure)
			continue;
		b->has_spread = true;
		b->sd_piece = one->sd_specimen[0];
		b->sd_batch = one->sd_batch[0];
		b->batch_is_taken = one->one_batch_each;
	}
	if (!b->has_spread)
		return ERR_NONE;
	const struct lab_budget_mix mix = {.reading = b->reading,
		.step = b->step * sqrt((double)b->n_step / (double)b->n_test),
		.piece = b->sd_piece,
		.batch = b->sd_batch,
		.n_piece = b->n_piece,
		.n_batch = b->n_batch};

	TRY(lab_budget_worth(&mix, &b->worth, err));
	b->pays = b->worth.finer >= (1 - worth_least) * b->worth.now
		? WORK_PAYS_BATCH
		: b->worth.finer < b->worth.more_batches ? WORK_PAYS_FINER
							 : WORK_PAYS_BOTH;
	return ERR_NONE;
}

/* ---- said ---- */

static const char *
percent(struct arena *arena, double ratio)
{
	const char *text = unit_digits(arena, ratio * 100, 2);

	return text != NULL ? text : "?";
}

static const char *
say_reading(struct arena *arena, const struct work_budget *b)
{
	struct text text;

	text_init(&text, arena);
	text_addf(&text,
		"Reading the instruments leaves a test open by +/- %s %% (one "
		"standard uncertainty):",
		percent(arena, b->reading));
	for (size_t i = 0; i < b->n_part; i++)
		text_addf(&text, "%s %s %s %%", i > 0 ? "," : "",
			arena_say(arena, b->part[i].name),
			percent(arena, b->part[i].ratio));
	text_addf(&text, ".");
	if (b->n_step > 0)
		text_addf(&text,
			" The step between the load held and the one that "
			"broke it adds +/- %s %%.",
			percent(arena, b->step));
	return text_failed(&text) ? NULL : text.bytes;
}

static const char *
say_spread(struct arena *arena, const struct work_budget *b)
{
	if (!b->has_spread)
		return N_("How much pieces and batches differ cannot be said "
			  "before two mixes were tested.");
	return text_format(arena,
		"Two pieces of one batch differ by +/- %s %%, two batches of "
		"one mix by +/- %s %%%s.",
		percent(arena, b->sd_piece), percent(arena, b->sd_batch),
		b->batch_is_taken
			? arena_say(arena,
				  " (taken for granted so far: no mix has "
				  "two batches)")
			: "");
}

/* The step is the weakest link of reading, or one of the instruments. */
static const char *
say_what_to_mend(struct arena *arena, const struct work_budget *b)
{
	if (b->n_step > 0 && b->step > b->part[0].ratio &&
		b->measure == CHOOSE_CRUSHING_STRENGTH)
		return N_("The step of the gauge leaves most open: read it to "
			  "half a division, or use a finer one.");
	if (b->n_step > 0 && b->step > b->part[0].ratio)
		return N_(
			"The step leaves most open: take smaller weights from "
			"70 % of the expected load on.");
	return text_format(arena,
		"Of the readings the %s leaves most open: %s.",
		arena_say(arena, b->part[0].name),
		arena_say(arena, b->part[0].mends));
}

static const char *
say_worth(struct arena *arena, const struct work_budget *b)
{
	const struct lab_budget_worth *w = &b->worth;

	return text_format(arena,
		"A mix with %.1f batches of %.1f pieces is so known to +/- %s "
		"%%. Reading everything twice as finely would make that %s %%, "
		"one more piece of every batch %s %%, one more batch %s %%. %s",
		b->n_batch, b->n_piece, percent(arena, w->now),
		percent(arena, w->finer), percent(arena, w->more_pieces),
		percent(arena, w->more_batches),
		b->pays == WORK_PAYS_BATCH
			? arena_say(arena,
				  "So measuring finer will not help; another "
				  "batch will.")
			: b->pays == WORK_PAYS_FINER
			? arena_say(arena, "So measuring finer helps most.")
			: arena_say(arena,
				  "So measuring finer helps, and another batch "
				  "more."));
}

static enum err_code
say_budget(struct arena *arena, struct work_budget *b, struct err *err)
{
	const char **s = arena_take(arena, SENTENCES_MOST, sizeof *s);
	size_t n = 0;

	if (s == NULL)
		return err_memory(err);
	s[n++] = say_reading(arena, b);
	s[n++] = say_what_to_mend(arena, b);
	s[n++] = say_spread(arena, b);
	if (b->has_spread)
		s[n++] = say_worth(arena, b);
	for (size_t i = 0; i < n; i++)
		if (s[i] == NULL)
			return err_memory(err);
	b->sentence = s;
	b->n_sentence = n;
	return ERR_NONE;
}

enum err_code
work_budgets(const struct desk *desk, struct arena *arena, const char *piece,
	struct work_budgets *out, struct err *err)
{
	static const enum choose_measure measures[] = {CHOOSE_BENDING_STRENGTH,
		CHOOSE_CRUSHING_STRENGTH, CHOOSE_CRUSHING_ENERGY};
	enum { MEASURES = sizeof measures / sizeof measures[0] };
	struct work_budget *budget = arena_take(
		arena, MEASURES, sizeof *budget);
	struct counting c = {.arena = arena};
	struct work_results results;
	struct work_bench bench;

	if (budget == NULL)
		return err_memory(err);
	TRY(work_bench_read(desk, arena, &bench, err));
	TRY(work_results(arena, &bench.site, &results, err));
	c.site = &bench.site;
	c.results = &results;
	c.piece = bench.site.n_specimen;
	if (piece != NULL)
		TRY(work_find_piece(&bench, piece, &c.piece, err));
	*out = (struct work_budgets){.budget = budget};
	for (size_t i = 0; i < MEASURES; i++) {
		struct work_budget b = {.measure = measures[i]};

		TRY(count_measure(&c, &b, err));
		if (b.n_test == 0)
			continue;
		TRY(take_spread(desk, arena, &b, err));
		TRY(say_budget(arena, &b, err));
		budget[out->n++] = b;
	}
	if (out->n == 0)
		return err_report(err, ERR_INPUT, "piece",
			"Nothing was bent, dropped on or crushed%s%s with all "
			"that makes a figure of it: span, sizes, tip or ram.",
			piece != NULL ? err_say(err, " of ")
				      : err_say(err, " yet"),
			piece != NULL ? piece : "");
	return ERR_NONE;
}

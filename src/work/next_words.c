/* next_words.c - what next says, in sentences for a builder. */
#include "work/next_priv.h"

#include "core/text.h"
#include "core/unit.h"

#include <math.h>

enum { SENTENCES = 8, ENOUGH_DIGITS = 3 };

static enum err_code
say(struct work_next *next, const char *sentence, struct err *err)
{
	if (sentence == NULL)
		return err_memory(err);
	next->sentence[next->n_sentence++] = sentence;
	return ERR_NONE;
}

static double
percent_lost(double log_loss)
{
	return -100 * expm1(-log_loss);
}

static const char *
number_word(struct arena *arena, size_t n)
{
	static const char *const word[] = {"no", "one", "two", "three", "four",
		"five", "six", "seven", "eight", "nine", "ten"};

	return n < sizeof word / sizeof word[0] ? word[n]
						: text_format(arena, "%zu", n);
}

const char *
work_next_in_100(struct arena *arena, double p)
{
	if (p < 0.01)
		return arena_say(arena, "fewer than 1 in 100");
	if (p > 0.99)
		return arena_say(arena, "more than 99 in 100");
	return text_format(arena, "%.0f in 100", 100 * p);
}

/* "1 in 3" where that is within a twentieth of it, else "27 in 100". */
static const char *
chance(struct arena *arena, double p)
{
	const double near = 0.05, least = 1. / 12;
	double n = round(1 / fmax(p, 1e-9));

	if (p >= least && p <= 0.55 && fabs(p * n - 1) <= near)
		return text_format(arena, "1 in %.0f", n);
	return work_next_in_100(arena, p);
}

static const char *
mix_code(const struct work_next *next, size_t candidate)
{
	return next->compared.site.mix[next->candidate[candidate]].code;
}

/* "Two more batches of F and one of B". */
static const char *
batches(struct arena *arena, const struct work_next *next,
	const struct work_next_design *d)
{
	size_t n_left = 0;
	bool first = true;
	struct text t;

	text_init(&t, arena);
	for (size_t m = 0; m < next->n_candidate; m++)
		n_left += d->extra[m] > 0;
	for (size_t m = 0; m < next->n_candidate; m++) {
		if (d->extra[m] == 0)
			continue;
		n_left--;
		if (!first)
			text_add(&t, n_left == 0 ? " and " : ", ");
		text_add(&t, number_word(arena, d->extra[m]));
		if (first)
			text_addf(&t, " more batch%s",
				d->extra[m] > 1 ? arena_say(t.arena, "es")
						: "");
		text_addf(&t, " of %s", mix_code(next, m));
		first = false;
	}
	if (text_failed(&t))
		return NULL;
	t.bytes[0] = (char)(t.bytes[0] >= 'a' && t.bytes[0] <= 'z'
			? t.bytes[0] - 'a' + 'A'
			: t.bytes[0]);
	return t.bytes;
}

static const char *
price(struct arena *arena, const struct work_next *next, double cost)
{
	const char *currency = next->compared.site.info.currency;

	if (!next->has_money)
		return text_format(arena, "%s batch%s of work",
			number_word(arena, (size_t)cost),
			cost > 1 ? arena_say(arena, "es") : "");
	return text_format(arena, "about %.0f %s", cost,
		currency[0] != '\0' ? currency : arena_say(arena, "of money"));
}

static enum err_code
say_enough(struct arena *arena, struct work_next *next, struct err *err)
{
	enum unit_kind kind = choose_measure_kind(next->measure);
	const char *unit = choose_measure_unit(next->measure);
	const char *value = unit_write(
		arena, next->enough, kind, unit, ENOUGH_DIGITS);

	if (!next->has_enough || value == NULL)
		return next->has_enough ? err_memory(err) : ERR_NONE;
	return say(next,
		text_format(arena,
			"A mean %s of %s is taken as enough: what a mix has "
			"beyond it counts for nothing.%s",
			arena_say(arena, choose_measure_name(next->measure)),
			value,
			next->n_not_weighed == 0
				? ""
				: text_format(arena,
					  " The part asks %s more thing%s, not "
					  "weighed here: a mix named below may "
					  "still fail there. See choose.",
					  number_word(
						  arena, next->n_not_weighed),
					  next->n_not_weighed > 1 ? "s" : "")),
		err);
}

static enum err_code
say_now(struct arena *arena, struct work_next *next, struct err *err)
{
	return say(next,
		text_format(arena,
			"By %s you would choose %s now. The chance that "
			"another is really better is %s; on average that "
			"choice gives up %.1f %%.",
			arena_say(arena, choose_measure_name(next->measure)),
			mix_code(next, next->now.chosen),
			chance(arena, next->now.p_wrong),
			percent_lost(next->now.regret)),
		err);
}

static enum err_code
say_advice(struct arena *arena, struct work_next *next, struct err *err)
{
	const struct work_next_design *d = &next->design[next->advised];
	const char *what = batches(arena, next, d);
	const char *before = chance(arena, next->now.p_wrong);
	const char *after = chance(arena, d->gain.p_wrong);
	const char *cost = price(arena, next, d->cost);

	if (what == NULL || before == NULL || after == NULL || cost == NULL)
		return err_memory(err);
	return say(next,
		text_format(arena,
			"%s, %s piece%s each, would cut the chance of a wrong "
			"choice from %s to %s, and what it gives up from "
			"%.1f %% to %.1f %%, for %s.",
			what, number_word(arena, next->specimens),
			next->specimens > 1 ? "s" : "", before, after,
			percent_lost(next->now.regret),
			percent_lost(fmax(0, next->now.regret - d->gain.gain)),
			cost),
		err);
}

static enum err_code
say_none(struct arena *arena, struct work_next *next, struct err *err)
{
	if (next->now.p_wrong < next_sure || next->now.regret < next_small_loss)
		return say(next,
			text_format(arena,
				"That is settled well enough for this choice: "
				"cast no more batches for %s alone. Repeating "
				"%s once, from fresh material, is still wise "
				"before you buy.",
				arena_say(arena,
					choose_measure_name(next->measure)),
				mix_code(next, next->now.chosen)),
			err);
	return say(next, N_("No plan of batches fits into that budget."), err);
}

/* The worst-read beams. */
static enum err_code
say_steps(struct arena *arena, struct work_next *next, struct err *err)
{
	const struct work_next_steps *worst = NULL;

	for (size_t i = 0; i < next->n_steps; i++)
		if (worst == NULL ||
			next->steps[i].worth_now < worst->worth_now)
			worst = &next->steps[i];
	if (worst == NULL)
		return ERR_NONE;
	if (worst->worth_now >= next_worth)
		return say(next,
			N_("The weights used so far read a beam finely enough: "
			   "a "
			   "beam tells at least 95 in 100 of what an exact "
			   "reading would."),
			err);
	return say(next,
		text_format(arena,
			"A beam of %s read in steps of about %.3g kg tells as "
			"much as %.2f of one read exactly. Hang on %.4g kg at "
			"once, then weights of %.3g kg, %zu of them: it then "
			"tells %.2f.",
			next->compared.site.mix[worst->mix].code,
			worst->step_now_kg, worst->worth_now, worst->start_kg,
			worst->step_kg, worst->n_step, worst->worth),
		err);
}

enum err_code
next_words(struct arena *arena, struct work_next *next, struct err *err)
{
	next->sentence = arena_take(arena, SENTENCES, sizeof *next->sentence);
	if (next->sentence == NULL)
		return err_memory(err);
	TRY(say_enough(arena, next, err));
	TRY(say_now(arena, next, err));
	if (next->advised < next->n_design)
		TRY(say_advice(arena, next, err));
	else
		TRY(say_none(arena, next, err));
	return say_steps(arena, next, err);
}

/* compare_words.c - what a comparison says, in sentences for a builder. */
#include "work/compare_priv.h"

#include "core/text.h"
#include "core/unit.h"

#include <math.h>

enum { SENTENCES = 24 };

static void
say(struct work_comparison *c, const char *sentence)
{
	if (sentence != NULL && c->n_sentence < SENTENCES)
		c->sentence[c->n_sentence++] = sentence;
}

static double
percent_spread(double sd)
{
	return 100 * expm1(sd);
}

static void
say_spread(struct arena *arena, struct work_comparison *c)
{
	say(c, text_format(arena,
		"One batch differs from another by about %.0f %%, pieces of one "
		"batch by about %.0f %%.",
		percent_spread(c->sd_batch[0]),
		percent_spread(c->sd_specimen[0])));
	if (c->one_batch_each)
		say(c, "Every mix has one batch only: how much batches differ "
		       "is borrowed from usual practice, not measured here.");
}

/* More than the baseline as measured, but not at equal dry weight. */
static void
say_weight(struct arena *arena, const struct work_compared *all,
	struct work_comparison *c)
{
	for (size_t g = 0; g < c->n_group; g++) {
		const struct work_group *group = &c->group[g];

		if (!group->has_equal_density || g == c->baseline ||
			group->answer.p_better < 0.8 ||
			group->p_better_equal >= 0.8)
			continue;
		say(c, text_format(arena,
			"%s is stronger because it is heavier: at equal dry "
			"weight it is %.2f times the baseline (likely %.2f to "
			"%.2f), which could easily be chance.",
			all->site.mix[group->mix].code, group->equal_median,
			group->equal_low, group->equal_high));
	}
}

static void
say_repeats(struct arena *arena, const struct work_compared *all,
	struct work_comparison *c)
{
	for (size_t g = 0; g < c->n_group; g++)
		if (c->group[g].n_batch == 1 && g != c->baseline)
			say(c, text_format(arena,
				"%s rests on one batch: cast another before "
				"you believe or condemn it.",
				all->site.mix[c->group[g].mix].code));
}

static enum err_code
caution(struct work_compared *all, const char *sentence, struct err *err)
{
	if (sentence == NULL)
		return err_memory(err);
	all->caution[all->n_caution++] = sentence;
	return ERR_NONE;
}

/* Pieces cast whose fate is open, or which were set aside: the comparison is of
 * the others, and says so. */
static enum err_code
caution_of_open_fates(struct arena *arena, struct work_compared *all,
	struct err *err)
{
	for (size_t m = 0; m < all->site.n_mix; m++) {
		const struct work_fates *f = &all->results.fates[m];
		size_t n = f->n_waiting + f->n_set_aside;

		if (n == 0 || n == f->n_cast)
			continue;
		TRY(caution(all,
			text_format(arena,
				"Of mix %s, %zu of the %zu pieces cast are not "
				"in this: %zu wait for their test, %zu set "
				"aside. What became of each belongs to the "
				"comparison.",
				all->site.mix[m].code, n, f->n_cast,
				f->n_waiting, f->n_set_aside),
			err));
	}
	return ERR_NONE;
}

enum err_code
compare_words(struct arena *arena, struct work_compared *all, struct err *err)
{
	all->caution = arena_take(arena, SENTENCES + all->site.n_mix,
		sizeof *all->caution);
	if (all->caution == NULL)
		return err_memory(err);
	for (size_t i = 0; i < all->n_comparison; i++) {
		struct work_comparison *c = &all->comparison[i];

		c->sentence = arena_take(arena, SENTENCES, sizeof *c->sentence);
		if (c->sentence == NULL)
			return err_memory(err);
		say_spread(arena, c);
		say_weight(arena, all, c);
		say_repeats(arena, all, c);
	}
	TRY(caution_of_open_fates(arena, all, err));
	TRY(caution(all,
		"First-round winners usually drop back: repeat the winner and "
		"the baseline in fresh batches before you buy.", err));
	return caution(all,
		"Home tests compare mixes; they do not prove a structure. A "
		"licensed engineer and the local code decide what may be "
		"built.", err);
}

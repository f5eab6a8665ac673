/* compare_words.c - what a comparison says, in sentences for a builder: the
 * answer, how firm it is, and what would make it surer. */
#include "work/compare_priv.h"
#include "work/cure.h"

#include "core/text.h"

#include <math.h>
#include <string.h>

enum { SENTENCES = 64, LISTED = 8 };

/* A batch that narrows a range by less than this is not worth a word. */
static const double least_narrowing = 0.01;

/* Sentences being added to one list. */
struct saying {
	const struct comparing *on;
	const struct compare_measure *m;
	struct work_comparison *c;
	const char **list;
	size_t n;
	bool failed;
};

static struct arena *
arena_of(const struct saying *to)
{
	return to->on->arena;
}

static void
say(struct saying *to, const char *sentence)
{
	to->failed = to->failed || sentence == NULL;
	if (sentence != NULL && to->n < SENTENCES)
		to->list[to->n++] = arena_say(arena_of(to), sentence);
}

static const char *
code_of(const struct saying *to, size_t group)
{
	return to->on->all->site.mix[to->c->group[group].mix].code;
}

/* "stronger", "dents less" and the like, for a measure. */
static const char *
better_word(enum choose_measure measure)
{
	switch (measure) {
	case CHOOSE_BENDING_STRENGTH:
	case CHOOSE_BREAKING_LOAD:
	case CHOOSE_CRUSHING_STRENGTH:
	case CHOOSE_CRUSHING_LOAD:
		return N_("stronger");
	case CHOOSE_CRUSHING_ENERGY:
	case CHOOSE_DENT:
		return N_("harder to dent");
	case CHOOSE_DRY_DENSITY:
		return N_("lighter");
	case CHOOSE_SCREW_PULL:
		return N_("better at holding screws");
	case CHOOSE_WATER_TAKEN_UP:
	case CHOOSE_WATER_DRAWN_UP:
		return N_("drier");
	case CHOOSE_DRYING_SHRINKAGE:
		return N_("less given to shrinking");
	case CHOOSE_FROST_LOSS:
		return N_("better in frost");
	case CHOOSE_SETTLING_LOSS:
		return N_("less given to settling");
	case CHOOSE_CONDUCTIVITY:
		return N_("warmer");
	case CHOOSE_COST:
		return N_("cheaper");
	case CHOOSE_BREAKAGE:
		return N_("less given to breaking");
	}
	return N_("better");
}

/* The other way round. */
static const char *
worse_word(enum choose_measure measure)
{
	switch (measure) {
	case CHOOSE_BENDING_STRENGTH:
	case CHOOSE_BREAKING_LOAD:
	case CHOOSE_CRUSHING_STRENGTH:
	case CHOOSE_CRUSHING_LOAD:
		return N_("weaker");
	case CHOOSE_CRUSHING_ENERGY:
	case CHOOSE_DENT:
		return N_("easier to dent");
	case CHOOSE_DRY_DENSITY:
		return N_("heavier");
	case CHOOSE_SCREW_PULL:
		return N_("worse at holding screws");
	case CHOOSE_WATER_TAKEN_UP:
	case CHOOSE_WATER_DRAWN_UP:
		return N_("thirstier");
	case CHOOSE_DRYING_SHRINKAGE:
		return N_("more given to shrinking");
	case CHOOSE_FROST_LOSS:
		return N_("worse in frost");
	case CHOOSE_SETTLING_LOSS:
		return N_("more given to settling");
	case CHOOSE_CONDUCTIVITY:
		return N_("colder");
	case CHOOSE_COST:
		return N_("dearer");
	case CHOOSE_BREAKAGE:
		return N_("more given to breaking");
	}
	return N_("worse");
}

static double
percent_of(double log_ratio)
{
	return 100 * expm1(log_ratio);
}

/* "P, F and Q" of the groups that are marked; the rest of a long list as a
 * count.  NULL if memory ran out. */
static const char *
join(const struct saying *to, const bool *marked)
{
	const struct work_comparison *c = to->c;
	size_t n = 0, at = 0;
	struct text text;

	for (size_t g = 0; g < c->n_group; g++)
		n += marked[g];
	text_init(&text, arena_of(to));
	for (size_t g = 0; g < c->n_group && at < LISTED; g++) {
		if (!marked[g])
			continue;
		at++;
		text_addf(&text, "%s%s",
			at == 1 ? ""
				: at == n && n <= LISTED
				? arena_say(text.arena, " and ")
				: ", ",
			code_of(to, g));
	}
	if (n > LISTED)
		text_addf(&text, " and %zu more", n - LISTED);
	return text_failed(&text) ? NULL : text.bytes;
}

static bool *
take_marks(struct saying *to)
{
	bool *marked = arena_take(arena_of(to), to->c->n_group, sizeof *marked);

	to->failed = to->failed || marked == NULL;
	return marked;
}

/* Because it is heavier?  "" where that is not known or not so. */
static const char *
weight_words(const struct saying *to, const struct work_group *g)
{
	if (!g->has_equal_density || g->p_better_equal >= 0.8)
		return "";
	return text_format(arena_of(to),
		" It is stronger because it is heavier: at equal dry weight it "
		"is %.2f times %s (likely %.2f to %.2f), which could easily be "
		"chance.",
		g->equal_median, code_of(to, to->c->baseline), g->equal_low,
		g->equal_high);
}

static const char *
times_words(const struct saying *to, const struct work_group *g)
{
	return text_format(arena_of(to), "%.2f times %s, likely %.2f to %.2f",
		g->answer.ratio_median, code_of(to, to->c->baseline),
		g->answer.ratio_low, g->answer.ratio_high);
}

/* The mixes on which a clear word can be said. */
static void
say_decided(struct saying *to, size_t group)
{
	const struct work_group *g = &to->c->group[group];
	const struct work_breakage *b = &to->on->all->breakage[g->mix];
	const char *code = code_of(to, group), *times = times_words(to, g);

	if (times == NULL) {
		to->failed = true;
		return;
	}
	switch (g->verdict) {
	case CHOOSE_CLEARLY_BETTER:
		say(to,
			text_format(arena_of(to), "%s is clearly %s: %s.%s",
				code,
				arena_say(arena_of(to),
					better_word(to->c->measure)),
				times, weight_words(to, g)));
		break;
	case CHOOSE_LOOKS_BETTER:
		say(to,
			text_format(arena_of(to),
				"%s looks %s, but repeat it before you believe "
				"it: "
				"%s.%s",
				code,
				arena_say(arena_of(to),
					better_word(to->c->measure)),
				times, weight_words(to, g)));
		break;
	case CHOOSE_WORSE:
		say(to,
			text_format(arena_of(to), "%s is clearly %s: %s.", code,
				arena_say(arena_of(to),
					worse_word(to->c->measure)),
				times));
		break;
	case CHOOSE_COULD_NOT_BE_MADE:
		say(to,
			text_format(arena_of(to),
				"%s could not be made: %zu of %zu beams "
				"snapped before "
				"their test. The pieces that held: %s.",
				code, b->n_broken, b->n_cast, times));
		break;
	case CHOOSE_IS_BASELINE:
	case CHOOSE_CANNOT_TELL:
		break;
	}
}

/* One batch, and far from the baseline: neither believed nor condemned. */
static bool
is_suspended(const struct work_comparison *c, size_t group)
{
	const struct work_group *g = &c->group[group];

	return c->baseline < c->n_group && group != c->baseline &&
		g->verdict == CHOOSE_CANNOT_TELL && g->n_batch == 1 &&
		(g->answer.p_better < 0.05 || g->answer.p_better > 0.95);
}

static void
say_suspended(struct saying *to, size_t group)
{
	const struct work_group *g = &to->c->group[group];
	const char *times = times_words(to, g);
	const char *own = "";

	if (!is_suspended(to->c, group))
		return;
	if (g->own.has)
		own = text_format(arena_of(to),
			" Plain pieces of the same batch were %s too: beside "
			"them %s is %.2f times %s (likely %.2f to %.2f), %s.",
			g->own.median > g->answer.ratio_median
				? arena_say(arena_of(to), "weak")
				: arena_say(arena_of(to), "strong"),
			code_of(to, group), g->own.median,
			code_of(to, to->c->baseline), g->own.low, g->own.high,
			g->own.p_better < 0.05 || g->own.p_better > 0.95
				? arena_say(arena_of(to),
					  "so the batch does not explain all "
					  "of it")
				: arena_say(arena_of(to),
					  "so it may be the batch and not the "
					  "mix"));
	if (times == NULL || own == NULL) {
		to->failed = true;
		return;
	}
	say(to,
		text_format(arena_of(to),
			"%s looks %s (%s), but one batch is one experiment: "
			"cast another before you %s it.%s",
			code_of(to, group),
			g->answer.p_better > 0.5
				? arena_say(arena_of(to),
					  better_word(to->c->measure))
				: arena_say(arena_of(to),
					  worse_word(to->c->measure)),
			times,
			g->answer.p_better > 0.5
				? arena_say(arena_of(to), "believe")
				: arena_say(arena_of(to), "condemn"),
			own));
}

static void
say_undecided(struct saying *to)
{
	const struct work_comparison *c = to->c;
	bool *marked = take_marks(to);
	const char *list;
	size_t n = 0;

	for (size_t g = 0; g < c->n_group && marked != NULL; g++) {
		marked[g] = c->group[g].verdict == CHOOSE_CANNOT_TELL &&
			g != c->baseline && !is_suspended(c, g);
		n += marked[g];
	}
	if (n == 0)
		return;
	list = join(to, marked);
	if (list == NULL) {
		to->failed = true;
		return;
	}
	if (c->baseline >= c->n_group)
		say(to,
			text_format(arena_of(to),
				"The baseline has no valid reading here, so "
				"nothing can "
				"be held against it: %s stand%s alone.",
				list, n == 1 ? "s" : ""));
	else
		say(to,
			text_format(arena_of(to),
				"This trial cannot tell %s from %s: take the "
				"cheaper, or "
				"the one that is easier to make.",
				list, code_of(to, c->baseline)));
}

/* The gap between the highest and the lowest batch of each mix, on logs. */
static double *
batch_gaps(struct saying *to)
{
	const struct compare_rows *r = &to->m->rows;
	double *sum = arena_take(arena_of(to), r->n_batch, sizeof *sum);
	double *n = arena_take(arena_of(to), r->n_batch, sizeof *n);
	double *low = arena_take(arena_of(to), r->n_group, sizeof *low);
	double *gap = arena_take(arena_of(to), r->n_group, sizeof *gap);

	if (sum == NULL || n == NULL || low == NULL || gap == NULL) {
		to->failed = true;
		return NULL;
	}
	for (size_t i = 0; i < r->n; i++) {
		double a = r->low[i] > 0 ? r->low[i] : r->high[i];
		double b = isinf(r->high[i]) ? r->low[i] : r->high[i];

		sum[r->batch[i]] += (log(a) + log(b)) / 2;
		n[r->batch[i]]++;
	}
	for (size_t g = 0; g < r->n_group; g++) {
		low[g] = INFINITY;
		gap[g] = -INFINITY;
	}
	for (size_t b = 0; b < r->n_batch; b++) {
		size_t g = r->batch_group[b];

		low[g] = fmin(low[g], sum[b] / n[b]);
		gap[g] = fmax(gap[g], sum[b] / n[b]);
	}
	for (size_t g = 0; g < r->n_group; g++)
		gap[g] -= low[g];
	return gap;
}

/* The mix whose own batches differ most beyond what it differs by. */
static void
say_gap(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const double *gap = batch_gaps(to);
	size_t worst = c->n_group;
	double most = 0;

	for (size_t g = 0; g < c->n_group && gap != NULL; g++) {
		double from = fabs(log(c->group[g].answer.ratio_median));

		if (g == c->baseline || c->group[g].n_batch < 2 ||
			c->group[g].verdict != CHOOSE_CANNOT_TELL ||
			gap[g] < from || gap[g] - from <= most)
			continue;
		most = gap[g] - from;
		worst = g;
	}
	if (worst == c->n_group || c->baseline >= c->n_group)
		return;
	say(to,
		text_format(arena_of(to),
			"The %s batches of %s differ from each other by %.0f "
			"%%, more "
			"than %s differs from %s (%.0f %%): the trial cannot "
			"tell them "
			"apart yet.",
			c->group[worst].n_batch == 2
				? arena_say(arena_of(to), "two")
				: arena_say(arena_of(to), "separate"),
			code_of(to, worst), percent_of(gap[worst]),
			code_of(to, worst), code_of(to, c->baseline),
			percent_of(fabs(
				log(c->group[worst].answer.ratio_median)))));
}

static void
say_spread(struct saying *to)
{
	const struct work_comparison *c = to->c;

	say(to,
		text_format(arena_of(to),
			"One batch differs from another by about %.0f %%, "
			"pieces of one "
			"batch by about %.0f %%.%s",
			percent_of(c->sd_batch[0]),
			percent_of(c->sd_specimen[0]),
			c->one_batch_each
				? arena_say(arena_of(to),
					  " Every mix has one batch only: "
					  "how much batches "
					  "differ is taken from what is "
					  "usual, not measured "
					  "here.")
				: ""));
}

static void
say_answer(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const bool has = c->baseline < c->n_group; /* its baseline a value */

	for (int verdict = CHOOSE_CLEARLY_BETTER;
		verdict <= CHOOSE_COULD_NOT_BE_MADE; verdict++) {
		for (size_t g = 0; g < c->n_group && has; g++)
			if ((int)c->group[g].verdict == verdict)
				say_decided(to, g);
		if (verdict != CHOOSE_CANNOT_TELL)
			continue;
		say_undecided(to);
		say_gap(to);
		for (size_t g = 0; g < c->n_group && has; g++)
			say_suspended(to, g);
	}
}

/* The same comparison under another assumption, as a group holds it. */
typedef struct work_ratio other_ratio(const struct work_group *g);

static struct work_ratio
of_put_back(const struct work_group *g)
{
	return g->put_back;
}

static struct work_ratio
of_adjusted(const struct work_group *g)
{
	return g->adjusted;
}

static struct work_ratio
of_halved(const struct work_group *g)
{
	return g->halved;
}

static struct work_ratio
of_doubled(const struct work_group *g)
{
	return g->doubled;
}

/* "no verdict changes", or "then F becomes "worse"". */
static const char *
changes(const struct saying *to, other_ratio *other)
{
	const struct work_comparison *c = to->c;
	struct text text;
	size_t n = 0;

	text_init(&text, arena_of(to));
	for (size_t g = 0; g < c->n_group; g++) {
		const struct work_ratio r = other(&c->group[g]);

		if (!r.has || g == c->baseline ||
			r.verdict == c->group[g].verdict)
			continue;
		text_addf(&text, "%s%s becomes \"%s\"", n++ == 0 ? "" : ", ",
			code_of(to, g),
			arena_say(text.arena, choose_verdict_words(r.verdict)));
	}
	if (n == 0)
		text_addf(&text, "no verdict changes");
	return text_failed(&text) ? NULL : text.bytes;
}

static void
say_put_back(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const char *change;
	struct text text;
	size_t n = 0;

	if (c->n_group == 0 || !c->group[0].put_back.has)
		return;
	change = changes(to, of_put_back);
	text_init(&text, arena_of(to));
	text_addf(&text, "With what was left out put back ");
	for (size_t g = 0; g < c->n_group; g++) {
		const struct work_group *group = &c->group[g];

		if (group->n_excluded == 0 || g == c->baseline)
			continue;
		text_addf(&text, "%s%s is %.2f times in place of %.2f",
			n > 0 ? ", " : "", code_of(to, g),
			group->put_back.median, group->answer.ratio_median);
		n++;
	}
	text_addf(&text, "%s%s.", n > 0 ? "; " : "",
		change != NULL ? change : "");
	say(to, text_failed(&text) || change == NULL ? NULL : text.bytes);
}

static void
say_left_out(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const struct work_left_out *most = NULL;
	const struct work_site *site = &to->on->all->site;
	size_t n_changed = 0;

	for (size_t i = 0; i < c->n_left_out; i++) {
		const struct work_left_out *l = &c->left_out[i];

		if (l->n_changed > 0 && n_changed++ < LISTED)
			say(to,
				text_format(arena_of(to),
					"Leave out batch %s (%s) and %s.",
					site->batch[l->batch].code,
					code_of(to, l->group), l->changed));
		if (most == NULL || l->most_moved > most->most_moved)
			most = l;
	}
	if (c->left_out_of > 0)
		say(to,
			text_format(arena_of(to),
				"Of %zu batches the %zu of the mixes with the "
				"fewest were left out in turn, not all.",
				c->left_out_of, c->n_left_out));
	if (c->left_out_skipped)
		say(to,
			N_("There are too many batches to leave each out in "
			   "turn "
			   "unasked; --leave-out does it for as many as it "
			   "can."));
	if (n_changed == 0 && most != NULL)
		say(to,
			text_format(arena_of(to),
				"No single batch carries a verdict. What moves "
				"most is "
				"%s, by %.0f %%, when batch %s (%s) is left "
				"out.",
				code_of(to, most->most_moved_group),
				percent_of(most->most_moved),
				site->batch[most->batch].code,
				code_of(to, most->group)));
}

static void
say_covariates(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const char *change;
	struct text text;

	if (c->n_covariate == 0)
		return;
	change = changes(to, of_adjusted);
	text_init(&text, arena_of(to));
	for (size_t k = 0; k < c->n_covariate; k++) {
		const struct work_covariate *x = &c->covariate[k];

		text_addf(&text, "%s%s (%.2g to %.2g %s)",
			k == 0 ? arena_say(text.arena, "Allowing for ")
				: k + 1 == c->n_covariate
				? arena_say(text.arena, " and ")
				: ", ",
			x->name, x->least, x->most, x->unit);
	}
	text_addf(&text, ", %s.", change != NULL ? change : "");
	for (size_t k = 0; k < c->n_covariate; k++) {
		const struct work_covariate *x = &c->covariate[k];

		if (x->low <= 1 && x->high >= 1)
			continue;
		text_addf(&text, " %c%s: %.2f times (likely %.2f to %.2f).",
			'A' + (x->step[0] == 'a' ? 0 : x->step[0] - 'A'),
			x->step + 1, x->median, x->low, x->high);
	}
	say(to, text_failed(&text) || change == NULL ? NULL : text.bytes);
}

static void
say_priors(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const char *half, *twice;
	double most = 0;

	if (c->n_group == 0 || !c->group[0].halved.has)
		return;
	half = changes(to, of_halved);
	twice = changes(to, of_doubled);
	if (half == NULL || twice == NULL) {
		to->failed = true;
		return;
	}
	for (size_t g = 0; g < c->n_group; g++) {
		const struct work_group *group = &c->group[g];
		const double middle = log(group->answer.ratio_median);

		most = fmax(most, fabs(log(group->halved.median) - middle));
		most = fmax(most, fabs(log(group->doubled.median) - middle));
	}
	if (strcmp(half, twice) == 0)
		say(to,
			text_format(arena_of(to),
				"With half or double the usual spread taken "
				"for "
				"granted, %s; no ratio moves by more than %.0f "
				"%%.",
				half, ceil(percent_of(most))));
	else
		say(to,
			text_format(arena_of(to),
				"With half of the usual spread taken for "
				"granted, %s; with double, %s.",
				half, twice));
}

/* "about one chance in three" */
static const char *
chance_words(const struct saying *to, double p)
{
	if (p >= 0.55)
		return text_format(
			arena_of(to), "%.0f chances in 100", 100 * p);
	if (p >= 0.4)
		return N_("about an even chance");
	if (p < 0.01)
		return N_("less than one chance in a hundred");
	return text_format(arena_of(to), "about one chance in %.0f", 1 / p);
}

static void
say_plan(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const char *chance, *equals = "";

	if (!c->has_plan)
		return;
	chance = chance_words(to, c->plan.p_wrong);
	if (c->n_group > 2 && c->plan_equal.winner > least_narrowing)
		equals = text_format(arena_of(to),
			"; and were all the same, the winner would still look "
			"%.0f %% better than %s",
			percent_of(c->plan_equal.winner),
			code_of(to, c->baseline));
	if (chance == NULL || equals == NULL) {
		to->failed = true;
		return;
	}
	say(to,
		text_format(arena_of(to),
			"Ranking by averages misleads: with these batches and "
			"spreads there is %s of picking the wrong mix when one "
			"is really %.0f %% better%s.",
			chance, 100 * (work_plan_gain - 1), equals));
}

/* Another batch is worth casting where the question is still open. */
static bool
is_open(const struct work_comparison *c, size_t g)
{
	const struct work_group *group = &c->group[g];

	return group->has_next &&
		(group->verdict == CHOOSE_CANNOT_TELL ||
			group->verdict == CHOOSE_LOOKS_BETTER);
}

static double
narrowing(const struct work_group *g)
{
	return 1 - log(g->reach_next) / log(g->reach_now);
}

/* A mix that one batch condemned or praised goes first, then the one whose
 * range narrows most. */
static bool
goes_first(const struct work_comparison *c, size_t a, size_t b)
{
	if (is_suspended(c, a) != is_suspended(c, b))
		return is_suspended(c, a);
	return narrowing(&c->group[a]) > narrowing(&c->group[b]);
}

static void
say_next(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const struct work_group *first = NULL;
	size_t at = 0, n_open = 0, others = 0;
	struct text text;

	for (size_t g = 0; g < c->n_group; g++) {
		const struct work_group *group = &c->group[g];

		if (!is_open(c, g))
			continue;
		n_open++;
		if (first == NULL || goes_first(c, g, at)) {
			first = group;
			at = g;
		}
	}
	if (first == NULL || narrowing(first) < least_narrowing)
		return;
	text_init(&text, arena_of(to));
	text_addf(&text,
		"Cast another batch of %s: its likely range, now %.2f to %.2f "
		"times %s, would become about as narrow as %.2f to %.2f (%.0f "
		"%% narrower).",
		code_of(to, at), first->answer.ratio_low,
		first->answer.ratio_high, code_of(to, c->baseline),
		first->answer.ratio_median / first->reach_next,
		first->answer.ratio_median * first->reach_next,
		100 * narrowing(first));
	for (size_t g = 0; g < c->n_group && others < LISTED; g++)
		if (is_open(c, g) && g != at)
			text_addf(&text, "%s%s %.0f %%",
				others++ == 0
					? arena_say(text.arena,
						  " The same for the others: ")
					: ", ",
				code_of(to, g), 100 * narrowing(&c->group[g]));
	if (n_open > 1)
		text_add(&text, ".");
	say(to, text_failed(&text) ? NULL : text.bytes);
}

static void
say_baseline_next(struct saying *to)
{
	const struct work_comparison *c = to->c;

	if (c->baseline < c->n_group && c->base_narrowing >= least_narrowing)
		say(to,
			text_format(arena_of(to),
				"Another batch of the baseline %s would narrow "
				"all of "
				"them at once, by about %.0f %%.",
				code_of(to, c->baseline),
				100 * c->base_narrowing));
}

/* What a spread is below with 9 chances in 10, by its prior, in %. */
static double
mostly_below(double scale, double log_sd)
{
	/* the 0.95 and the 0.90 quantile of a normal */
	const double half_normal = 1.645, normal = 1.282;

	return percent_of(
		scale * (log_sd > 0 ? exp(normal * log_sd) : half_normal));
}

static const char *
prior_words(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const char *learnt = c->learnt_from[0] == '\0'
		? ""
		: text_format(
			  arena_of(to), " (learnt from %s)", c->learnt_from);

	if (learnt == NULL)
		return NULL;
	return text_format(arena_of(to),
		"Taken for granted beforehand%s: no mix is favoured; batches "
		"of a mix differ by less than %.0f %% and pieces of a batch by "
		"less than %.0f %%, with 9 chances in 10.",
		learnt,
		mostly_below(c->prior.sd_batch_scale, c->prior.sd_batch_log_sd),
		mostly_below(c->prior.sd_specimen_scale,
			c->prior.sd_specimen_log_sd));
}

/* The check looks at the one that lies furthest out, beside the spread of all.
 * A chance at or below the first that the model makes anything so far out makes
 * the page say so; at or above the second the tails are lighter than the
 * model's, which is what left-out or rounded readings do.  Our choice, no
 * source. */
static const double odd_low = 0.025, odd_high = 0.975;

static bool
is_far(const struct stats_discrepancy *d)
{
	return d->has && d->p <= odd_low;
}

static bool
is_light(const struct stats_discrepancy *d)
{
	return d->has && d->p >= odd_high;
}

static const char *
mix_of(const struct saying *to, size_t batch)
{
	const struct work_site *site = &to->on->all->site;

	return site->mix[site->batch_mix[batch]].code;
}

static void
say_far(struct saying *to)
{
	const struct work_comparison *c = to->c;
	const struct book_batch *batch = to->on->all->site.batch;

	if (is_far(&c->predictive.between))
		say(to,
			text_format(arena_of(to),
				"Batch %s (%s) lies further from the other "
				"batches of its mix than this model expects: "
				"look for what was different that day.",
				batch[c->furthest_batch].code,
				mix_of(to, c->furthest_batch)));
	if (is_far(&c->predictive.within))
		say(to,
			text_format(arena_of(to),
				"A piece of batch %s (%s) lies further from "
				"its neighbours than this model expects: check "
				"that reading.",
				batch[c->furthest_piece].code,
				mix_of(to, c->furthest_piece)));
}

static void
say_expected(struct saying *to)
{
	const struct stats_predictive *p = &to->c->predictive;

	if (!p->within.has && !p->between.has)
		return;
	say_far(to);
	if (is_light(&p->within) || is_light(&p->between))
		say(to,
			text_format(arena_of(to),
				"Beside how much they differ, even the "
				"furthest %s lies nearer to the rest than this "
				"model expects; readings that were left out or "
				"rounded look like that: check that none is "
				"missing.",
				is_light(&p->within)
					? arena_say(arena_of(to),
						  "piece of a batch")
					: arena_say(arena_of(to),
						  "batch of a mix")));
	else if (!is_far(&p->within) && !is_far(&p->between))
		say(to,
			N_("The book's readings look like what this model "
			   "expects."));
}

static enum err_code
begin(struct saying *to, struct err *err)
{
	to->n = 0;
	to->list = arena_take(arena_of(to), SENTENCES, sizeof *to->list);
	return to->list == NULL ? err_memory(err) : ERR_NONE;
}

static enum err_code
say_all(struct saying *to, struct err *err)
{
	struct work_comparison *c = to->c;

	TRY(begin(to, err));
	say_answer(to);
	say_spread(to);
	c->sentence = to->list;
	c->n_sentence = to->n;
	TRY(begin(to, err));
	say_put_back(to);
	if (c->has_firmness) {
		say_left_out(to);
		say_covariates(to);
		say_priors(to);
		say_expected(to);
		say_plan(to);
	}
	c->firm = to->list;
	c->n_firm = to->n;
	TRY(begin(to, err));
	say_next(to);
	say_baseline_next(to);
	c->surer = to->list;
	c->n_surer = to->n;
	c->prior_words = prior_words(to);
	return to->failed || c->prior_words == NULL ? err_memory(err)
						    : ERR_NONE;
}

/* Pieces cast whose fate is open, or which were set aside: the comparison is of
 * the others, and says so. */
static enum err_code
caution_of_open_fates(
	struct arena *arena, struct work_compared *all, struct err *err)
{
	for (size_t m = 0; m < all->site.n_mix; m++) {
		const struct work_fates *f = &all->results.fates[m];
		size_t n = f->n_waiting + f->n_set_aside;
		const char *sentence;

		if (n == 0 || n == f->n_cast)
			continue;
		sentence = text_format(arena,
			"Of mix %s, %zu of the %zu pieces cast are not in "
			"this: %zu wait for their test, %zu set aside. What "
			"became of each belongs to the comparison.",
			all->site.mix[m].code, n, f->n_cast, f->n_waiting,
			f->n_set_aside);
		if (sentence == NULL)
			return err_memory(err);
		all->caution[all->n_caution++] = sentence;
	}
	return ERR_NONE;
}

/* The least and most of something over the pieces that are compared. */
struct spread {
	bool any;
	double least, most;
};

static void
widen(struct spread *spread, struct maybe value)
{
	if (!value.has)
		return;
	if (!spread->any || value.value < spread->least)
		spread->least = value.value;
	if (!spread->any || value.value > spread->most)
		spread->most = value.value;
	spread->any = true;
}

/* What grows with age: strengths and what a blow takes; shortening, water and
 * heat are read at ages of their own. */
static bool
grows_with_age(enum choose_measure measure)
{
	static const enum choose_measure grows[] = {CHOOSE_BENDING_STRENGTH,
		CHOOSE_BREAKING_LOAD, CHOOSE_CRUSHING_STRENGTH,
		CHOOSE_CRUSHING_LOAD, CHOOSE_DENT, CHOOSE_CRUSHING_ENERGY,
		CHOOSE_SCREW_PULL};

	for (size_t i = 0; i < sizeof grows / sizeof grows[0]; i++)
		if (grows[i] == measure)
			return true;
	return false;
}

/* Ages that differ by more than a tenth and two days, moistures by more than
 * five points, are said; common practice, no source. */
static enum err_code
caution_of_mixed_states(
	struct arena *arena, struct work_compared *all, struct err *err)
{
	static const double days = 86400, age_factor = 1.1, age_days = 2,
			    moisture_points = 0.05;
	struct spread age = {.any = false}, moisture = {.any = false};

	for (size_t i = 0; i < all->results.n_result; i++) {
		const struct work_result *r = &all->results.result[i];

		if (r->excluded || !r->has_specimen)
			continue;
		if (grows_with_age(r->measure))
			widen(&age, r->age_s);
		widen(&moisture,
			all->site.specimen[r->specimen].moisture_ratio);
	}
	if (age.any && age.most > age_factor * age.least &&
		age.most - age.least > age_days * days) {
		const char *sentence = text_format(arena,
			"The pieces were tested at %.0f to %.0f days: what is "
			"older is stronger, whatever the mix. Test at one "
			"age, or read the differences with that in mind.",
			age.least / days, age.most / days);

		if (sentence == NULL)
			return err_memory(err);
		all->caution[all->n_caution++] = sentence;
	}
	if (moisture.any && moisture.most - moisture.least > moisture_points) {
		const char *sentence = text_format(arena,
			"The pieces held %.0f to %.0f %% of water when they "
			"were tested: damp ones are weaker and heavier, "
			"whatever the mix.",
			moisture.least * 100, moisture.most * 100);

		if (sentence == NULL)
			return err_memory(err);
		all->caution[all->n_caution++] = sentence;
	}
	return ERR_NONE;
}

/* What is known of the cure turns the ages into days at 20 degC. */
static enum err_code
caution_of_cures(const struct desk *desk, struct arena *arena,
	struct work_compared *all, struct err *err)
{
	static const double day = 86400, factor = 1.1;
	struct spread age = {.any = false};
	struct work_cures cures;
	const char *sentence;
	size_t n_known = 0, n = 0;

	TRY(work_cures(desk, arena, &cures, err));
	if (cures.n_cure == 0)
		return ERR_NONE;
	for (size_t i = 0; i < all->results.n_result; i++) {
		const struct work_result *r = &all->results.result[i];
		struct work_cured cured;

		if (r->excluded || !r->has_specimen || !r->age_s.has ||
			!grows_with_age(r->measure))
			continue;
		n++;
		cured = work_cured(
			&all->site, &cures, r->batch, r->age_s.value);
		if (!cured.is_usable)
			continue;
		n_known++;
		widen(&age, (struct maybe){true, cured.equivalent_s});
	}
	if (n_known == 0)
		return ERR_NONE;
	sentence = text_format(arena,
		"By how they were kept the readings are of %.3g to %.3g days "
		"at 20 degC (ASTM C1074; known for %zu of %zu).%s",
		age.least / day, age.most / day, n_known, n,
		age.most > factor * age.least
			? arena_say(arena,
				  " What had it warmer is older, whatever the "
				  "mix: "
				  "\"foamwright show BOOK results\" brings "
				  "each "
				  "strength to 28 days.")
			: "");
	if (sentence == NULL)
		return err_memory(err);
	all->caution[all->n_caution++] = sentence;
	return ERR_NONE;
}

enum err_code
compare_words(struct comparing *on, struct err *err)
{
	struct work_compared *all = on->all;

	for (size_t i = 0; i < all->n_comparison; i++) {
		struct saying to = {.on = on,
			.m = &on->measure[i],
			.c = &all->comparison[i]};

		TRY(say_all(&to, err));
	}
	all->caution = arena_take(
		on->arena, 5 + all->site.n_mix, sizeof *all->caution);
	if (all->caution == NULL)
		return err_memory(err);
	TRY(caution_of_open_fates(on->arena, all, err));
	TRY(caution_of_mixed_states(on->arena, all, err));
	TRY(caution_of_cures(on->desk, on->arena, all, err));
	all->caution[all->n_caution++] = N_(
		"First-round winners usually drop back: repeat the winner and "
		"the baseline in fresh batches before you buy.");
	all->caution[all->n_caution++] = N_(
		"Home tests compare mixes; they do not prove a structure. A "
		"licensed engineer and the local code decide what may be "
		"built.");
	return ERR_NONE;
}
